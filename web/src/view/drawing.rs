//! The drawing: each item of the scene is an SVG element, found again by its id.

use crate::dom;
use halfbreadth_core::{
    editor::{Editor, Readout},
    language::Own,
    say,
    scene::{Anchor, Item, Mark, Role, Scene},
    units::{decimal, push_whole},
    view::View,
};
use kurbo::{Affine, BezPath, PathEl, Point};
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
    view: Option<View>,
    label: String,
}

struct Drawn {
    id: String,
    element: Element,
    /// What was last painted of it.
    mark: Option<Mark>,
}

impl Drawing {
    pub(super) fn new() -> Self {
        Self {
            svg: dom::by_id("drawing"),
            board: dom::by_id("board"),
            letters: dom::by_id("letters"),
            items: Vec::new(),
            view: None,
            label: String::new(),
        }
    }

    /// Draws what has changed; of letters that are there already nothing where `only_lines` are followed: a text laid out
    /// costs as much as all the lines.
    pub(super) fn draw(&mut self, editor: &Editor, scene: Scene, only_lines: bool) {
        let view = editor.view();
        let has_moved = self.view != Some(view);
        if has_moved {
            dom::set(&self.board, "transform", &matrix(view.affine() * Affine::scale(1.0 / PER_MM)));
            self.view = Some(view);
        }
        let mut left = core::mem::take(&mut self.items);
        for item in joined(scene.items) {
            // Most frames have the items of the last one in the same order, so that each is found at once.
            let drawn = left.iter().position(|drawn| drawn.id == item.id).map(|i| left.remove(i));
            let mut drawn = drawn.unwrap_or_else(|| self.begin(&item));
            let is_line = matches!(item.mark, Mark::Path(_));
            let (is_new, differs) = (drawn.mark.is_none(), drawn.mark.as_ref() != Some(&item.mark));
            if is_new || (differs && (is_line || !only_lines)) || (has_moved && !is_line) {
                drawn.paint(&item.mark, &view);
                drawn.mark = Some(item.mark);
            }
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
        Drawn { id: item.id.clone(), element, mark: None }
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
    fn paint(&self, mark: &Mark, view: &View) {
        match mark {
            Mark::Path(path) => dom::set(&self.element, "d", &path_data(path)),
            Mark::Engraved { at, height, text } => {
                let scale = decimal(ENGRAVED * height * view.scale, 4);
                let turn = if view.upright { " rotate(-90)" } else { "" };
                let place = [&translate(view.to_px(*at)), " scale(", &scale, ")", turn].concat();
                dom::set(&self.element, "transform", &place);
                dom::write(&self.element, text);
            }
            Mark::Text { at, anchor, turned, text, .. } => {
                let turn = if *turned { " rotate(-90)" } else { "" };
                dom::set(&self.element, "transform", &[&translate(view.to_px(*at)), turn].concat());
                let (old_anchor, old_text) = match &self.mark {
                    Some(Mark::Text { anchor, text, .. }) => (Some(anchor), text.as_str()),
                    _ => (None, ""),
                };
                if old_anchor != Some(anchor) {
                    let anchor = match anchor {
                        Anchor::Start => "start",
                        Anchor::Middle => "middle",
                        Anchor::End => "end",
                    };
                    dom::set(&self.element, "text-anchor", anchor);
                }
                if old_text != text {
                    dom::write(&self.element, text);
                }
            }
        }
    }
}

/// The items with every run of lines that a drag changes together as one, under the name of its first: a frame touches
/// fewer elements. Letters lie over all lines, so that they break no run.
fn joined(items: Vec<Item>) -> Vec<Item> {
    let mut joined: Vec<Item> = Vec::with_capacity(items.len());
    let mut last = None;
    for item in items {
        if let Mark::Path(path) = &item.mark {
            if let Some(Item { role, mark: Mark::Path(run), .. }) = last.and_then(|i| joined.get_mut(i))
                && *role == item.role
                && matches!(role, Role::EdgeMirror | Role::Rail | Role::Dimension)
            {
                run.extend(path.iter());
                continue;
            }
            last = Some(joined.len());
        }
        joined.push(item);
    }
    joined
}

fn translate(px: Point) -> String {
    ["translate(", &decimal(px.x, 1), " ", &decimal(px.y, 1), ")"].concat()
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
            for mm in [p.x, p.y] {
                let whole = micrometres(mm);
                push_whole(&mut data, whole.unsigned_abs().into(), whole < 0);
                data.push(' ');
            }
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
