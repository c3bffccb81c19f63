//! Room for the letters of a drawing: where a line of text would lie, and whether that place is free.

use super::pen::{Anchor, Role};
use crate::view::View;
use kurbo::{Point, Rect, Vec2};

/// Width of a letter and height of a line, em: an estimate with some room to spare for the sans faces of the page.
const LETTER: f64 = 0.62;
const LINE: f64 = 1.2;
/// Half the side of the square kept free round a node where there is a choice, px.
const NODE: f64 = 15.0;
/// The strip along the left and the upper edge of the stage that the ticks of the rulers take, px.
const TICKS: f64 = 12.0;

/// Where a line of text may stand.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    /// Where its anchor stands, mm.
    pub(super) at: Point,
    /// Which part of it stands there.
    pub(super) anchor: Anchor,
    /// Whether it reads upward instead of to the right.
    pub(super) turned: bool,
}

impl Place {
    /// A place where the text is level.
    pub(super) fn level(at: Point, anchor: Anchor) -> Self {
        Self { at, anchor, turned: false }
    }
}

/// Length of a text, px.
pub(super) fn length(role: Role, text: &str) -> f64 {
    text.chars().count() as f64 * LETTER * role.letters()
}

/// The box of a text on the stage, CSS pixels.
pub(super) fn area(view: &View, role: Role, text: &str, place: Place) -> Rect {
    let length = length(role, text);
    let before = match place.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => length / 2.0,
        Anchor::End => length,
    };
    let half = LINE * role.letters() / 2.0;
    let at = view.to_px(place.at);
    if place.turned {
        Rect::new(at.x - half, at.y + before - length, at.x + half, at.y + before)
    } else {
        Rect::new(at.x - before, at.y - half, at.x - before + length, at.y + half)
    }
}

/// What the letters already take of the stage.
pub(super) struct Labels {
    stage: Rect,
    taken: Vec<Rect>,
    nodes: Vec<Rect>,
}

impl Labels {
    pub(super) fn new(view: &View) -> Self {
        let stage = Rect::new(TICKS, TICKS, view.size.width, view.size.height);
        Self { stage, taken: Vec::new(), nodes: Vec::new() }
    }

    /// The part of the stage that may hold letters, px.
    pub(super) fn stage(&self) -> Rect {
        self.stage
    }

    /// Letters go elsewhere where they can: a node or a hole is there, px.
    pub(super) fn spare(&mut self, node: Point) {
        let half = Vec2::new(NODE, NODE);
        self.nodes.push(Rect::from_points(node - half, node + half));
    }

    /// Whether a box lies on the stage and touches no letters, nor a node if it must not.
    pub(super) fn is_free(&self, area: Rect, spare_nodes: bool) -> bool {
        let meets = |other: &Rect| {
            area.x0 < other.x1 && other.x0 < area.x1 && area.y0 < other.y1 && other.y0 < area.y1
        };
        area.x0 >= self.stage.x0
            && area.y0 >= self.stage.y0
            && area.x1 <= self.stage.x1
            && area.y1 <= self.stage.y1
            && !self.taken.iter().any(meets)
            && !(spare_nodes && self.nodes.iter().any(meets))
    }

    /// Marks a box as taken.
    pub(super) fn take(&mut self, area: Rect) {
        self.taken.push(area);
    }
}
