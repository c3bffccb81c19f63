//! The drawing: each item of the scene is an SVG element, found again by its id.

use crate::dom;
use halfbreadth_core::{
    editor::Editor,
    scene::{Anchor, Item, Mark},
};
use kurbo::{Affine, BezPath, PathEl, Point};
use std::{collections::HashMap, fmt::Write as _};
use web_sys::Element;

/// Path data counts in micrometres: whole numbers are short to write and quick to read.
const PER_MM: f64 = 1000.0;

/// The SVG of the stage.
pub(super) struct Drawing {
    svg: Element,
    board: Element,
    letters: Element,
    items: HashMap<String, Drawn>,
    transform: String,
    label: String,
    frame: u64,
}

struct Drawn {
    element: Element,
    content: String,
    frame: u64,
}

impl Drawing {
    pub(super) fn new() -> Self {
        Self {
            svg: dom::by_id("drawing"),
            board: dom::by_id("board"),
            letters: dom::by_id("letters"),
            items: HashMap::new(),
            transform: String::new(),
            label: String::new(),
            frame: 0,
        }
    }

    pub(super) fn draw(&mut self, editor: &Editor) {
        let view = editor.view();
        let to_px = view.affine();
        let transform = matrix(to_px * Affine::scale(1.0 / PER_MM));
        if transform != self.transform {
            dom::set(&self.board, "transform", &transform);
            self.transform = transform;
        }
        self.frame += 1;
        for item in editor.scene().items {
            let content = match &item.mark {
                Mark::Path(path) => path_data(path),
                Mark::Text { at, text, .. } => {
                    let Point { x, y } = to_px * *at;
                    format!("{x:.1} {y:.1} {text}")
                }
            };
            self.paint(item, content, to_px);
        }
        let (frame, items) = (self.frame, &mut self.items);
        items.retain(|_, drawn| {
            let stays = drawn.frame == frame;
            if !stays {
                drawn.element.remove();
            }
            stays
        });
        self.name_it(editor);
    }

    fn paint(&mut self, item: Item, content: String, to_px: Affine) {
        let frame = self.frame;
        let drawn = match self.items.get_mut(&item.id) {
            Some(drawn) => drawn,
            None => {
                let (tag, parent) = match item.mark {
                    Mark::Path(_) => ("path", &self.board),
                    Mark::Text { .. } => ("text", &self.letters),
                };
                let element = dom::create_svg(tag);
                dom::set(&element, "class", item.role.name());
                dom::set(&element, "data-item", &item.id);
                parent.append_child(&element).expect("a new element goes in");
                let drawn = Drawn { element, content: String::new(), frame };
                self.items.entry(item.id).or_insert(drawn)
            }
        };
        drawn.frame = frame;
        if drawn.content == content {
            return;
        }
        match item.mark {
            Mark::Path(_) => dom::set(&drawn.element, "d", &content),
            Mark::Text { at, anchor, text } => {
                let Point { x, y } = to_px * at;
                dom::set(&drawn.element, "x", &format!("{x:.1}"));
                dom::set(&drawn.element, "y", &format!("{y:.1}"));
                let anchor = match anchor {
                    Anchor::Start => "start",
                    Anchor::Middle => "middle",
                    Anchor::End => "end",
                };
                dom::set(&drawn.element, "text-anchor", anchor);
                drawn.element.set_text_content(Some(&text));
            }
        }
        drawn.content = content;
    }

    /// The picture in words, for whoever does not see it.
    fn name_it(&mut self, editor: &Editor) {
        let readouts = editor.readouts();
        let figure = |key: &str| {
            readouts.iter().find(|r| r.key == key).map_or(String::new(), |r| format!("{} {}", r.text, r.unit))
        };
        let label = format!(
            "Outline of {}, {} by {}",
            editor.design().name(),
            figure("overall-length"),
            figure("overall-width")
        );
        if label != self.label {
            dom::set(&self.svg, "aria-label", &label);
            self.label = label;
        }
    }
}

/// An SVG transform.
fn matrix(affine: Affine) -> String {
    let [a, b, c, d, e, f] = affine.as_coeffs();
    format!("matrix({a:.8} {b:.8} {c:.8} {d:.8} {e:.3} {f:.3})")
}

/// SVG path data in whole micrometres.
fn path_data(path: &BezPath) -> String {
    let mut data = String::with_capacity(path.elements().len() * 40);
    for element in path {
        let (letter, points): (char, &[Point]) = match &element {
            PathEl::MoveTo(p) => ('M', core::slice::from_ref(p)),
            PathEl::LineTo(p) => ('L', core::slice::from_ref(p)),
            PathEl::QuadTo(a, b) => ('Q', &[*a, *b]),
            PathEl::CurveTo(a, b, c) => ('C', &[*a, *b, *c]),
            PathEl::ClosePath => ('Z', &[]),
        };
        data.push(letter);
        for p in points {
            let _ = write!(data, "{} {} ", micrometres(p.x), micrometres(p.y));
        }
    }
    data
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "what lies two kilometres off the stage may sit at its edge"
)]
fn micrometres(mm: f64) -> i32 {
    (mm * PER_MM).round() as i32
}
