//! The drawing: each item of the scene is an SVG element, found again by its id.

use crate::dom;
use halfbreadth_core::{
    editor::{Editor, Readout},
    language::Own,
    say,
    scene::{Anchor, Item, Mark, Scene},
    units::decimal,
};
use kurbo::{Affine, BezPath, PathEl, Point};
use std::fmt::Write as _;
use web_sys::Element;

/// Path data counts in micrometres: whole numbers are short to write and quick to read.
pub(super) const PER_MM: f64 = 1000.0;

/// How much larger than the page's letters engraved ones are, for each px of their capitals: in the usual faces a font is
/// 1.4 times as large as its capitals are high, and the letters of the drawing are 14 px.
const ENGRAVED: f64 = 1.4 / 14.0;

/// The SVG of the stage.
pub(super) struct Drawing {
    svg: Element,
    board: Element,
    letters: Element,
    items: Vec<Drawn>,
    transform: String,
    label: String,
}

struct Drawn {
    id: String,
    element: Element,
    content: String,
}

impl Drawing {
    pub(super) fn new() -> Self {
        Self {
            svg: dom::by_id("drawing"),
            board: dom::by_id("board"),
            letters: dom::by_id("letters"),
            items: Vec::new(),
            transform: String::new(),
            label: String::new(),
        }
    }

    pub(super) fn draw(&mut self, editor: &Editor, scene: Scene) {
        let view = editor.view();
        let to_px = view.affine();
        let transform = matrix(to_px * Affine::scale(1.0 / PER_MM));
        if transform != self.transform {
            dom::set(&self.board, "transform", &transform);
            self.transform = transform;
        }
        let mut left = core::mem::take(&mut self.items);
        for item in scene.items {
            let content = match &item.mark {
                Mark::Path(path) => path_data(path),
                Mark::Text { at, anchor, turned, text, .. } => {
                    let Point { x, y } = to_px * *at;
                    let look = *anchor as u8 + 4 * u8::from(*turned);
                    format!("{} {} {look} {text}", decimal(x, 1), decimal(y, 1))
                }
                Mark::Engraved { at, height, text } => {
                    let Point { x, y } = to_px * *at;
                    let scale = ENGRAVED * height * view.scale;
                    let turn = if view.upright { " rotate(-90)" } else { "" };
                    let place = [x, y].map(|px| decimal(px, 1)).join(" ");
                    format!("translate({place}) scale({}){turn}\n{text}", decimal(scale, 4))
                }
            };
            // Most frames have the items of the last one in the same order, so that each is found at once.
            let drawn = left.iter().position(|drawn| drawn.id == item.id).map(|i| left.remove(i));
            let mut drawn = drawn.unwrap_or_else(|| self.begin(&item));
            drawn.paint(item.mark, content, to_px);
            self.items.push(drawn);
        }
        for drawn in left {
            drawn.element.remove();
        }
    }

    /// An element for an item that was not there.
    fn begin(&self, item: &Item) -> Drawn {
        let (tag, parent) = match item.mark {
            Mark::Path(_) => ("path", &self.board),
            Mark::Text { .. } | Mark::Engraved { .. } => ("text", &self.letters),
        };
        let element = dom::create_svg(tag);
        dom::set(&element, "class", item.role.name());
        dom::set(&element, "data-item", &item.id);
        parent.append_child(&element).expect("a new element goes in");
        Drawn { id: item.id.clone(), element, content: String::new() }
    }

    /// The picture in words, for whoever does not see it.
    pub(super) fn name_it(&mut self, editor: &Editor, readouts: &[Readout]) {
        let figure = |key: &str| {
            readouts.iter().find(|r| r.key == key).map_or(String::new(), |r| format!("{} {}", r.text, r.unit))
        };
        let label = say!(
            "Outline of {name}, {length} by {width}",
            name = Own(editor.design().name()),
            length = figure("overall-length"),
            width = figure("overall-width")
        );
        if label != self.label {
            dom::set(&self.svg, "aria-label", &label);
            self.label = label;
        }
    }
}

impl Drawn {
    fn paint(&mut self, mark: Mark, content: String, to_px: Affine) {
        if self.content == content {
            return;
        }
        match mark {
            Mark::Path(_) => dom::set(&self.element, "d", &content),
            Mark::Engraved { text, .. } => {
                let transform = content.split('\n').next().unwrap_or_default();
                dom::set(&self.element, "transform", transform);
                self.element.set_text_content(Some(&text));
            }
            Mark::Text { at, anchor, turned, text, .. } => {
                let Point { x, y } = to_px * at;
                let [x, y] = [x, y].map(|px| decimal(px, 1));
                let turn = if turned { " rotate(-90)" } else { "" };
                dom::set(&self.element, "transform", &format!("translate({x} {y}){turn}"));
                let anchor = match anchor {
                    Anchor::Start => "start",
                    Anchor::Middle => "middle",
                    Anchor::End => "end",
                };
                dom::set(&self.element, "text-anchor", anchor);
                self.element.set_text_content(Some(&text));
            }
        }
        self.content = content;
    }
}

/// An SVG transform.
pub(super) fn matrix(affine: Affine) -> String {
    let [a, b, c, d, e, f] = affine.as_coeffs();
    let [a, b, c, d] = [a, b, c, d].map(|turn| decimal(turn, 8));
    let [e, f] = [e, f].map(|shift| decimal(shift, 3));
    format!("matrix({a} {b} {c} {d} {e} {f})")
}

/// SVG path data in whole micrometres.
pub(super) fn path_data(path: &BezPath) -> String {
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
