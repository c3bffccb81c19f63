//! A dimension line: two ticks, a line between them, and its figure in a gap or beside it.

use super::{
    labels::{self, Place},
    pen::{Anchor, Letters, Pen, Role, polyline},
};
use crate::{language::said, real};
use kurbo::{BezPath, Point, Vec2};

/// Half the length of the tick at the end of a dimension line, px.
const TICK: f64 = 5.0;
/// Room for a figure in its line beyond its letters, px, and for one that stands across its line.
const GAP: f64 = 12.0;
const ACROSS: f64 = 22.0;
/// Least length of line either side of a gap, px.
const STUB: f64 = 6.0;
/// From a line to the middle of letters beside it, and from its end to letters beyond it, px.
const BESIDE: f64 = 13.0;
const BEYOND: f64 = 9.0;
/// Where in the line its figure may stand, as shares of what shows of it, the best first.
const SHARES: [f64; 7] = [0.5, 0.36, 0.64, 0.25, 0.75, 0.12, 0.88];

/// A dimension line with its figure.
pub(super) struct Dimension<'a> {
    pub(super) id: &'a str,
    pub(super) role: Role,
    /// The key of the field that its figure is.
    pub(super) field: Option<&'static str>,
    /// What it measures, before the figure where there is room for it.
    pub(super) word: &'static str,
    pub(super) value: f64,
    /// Whether the figure reads along the line even where the line stands upright.
    pub(super) along: bool,
}

impl Dimension<'_> {
    /// Draws it along the first of `lines` on which its figure finds room; with its word, else without. Where there is no
    /// room at all it is not drawn.
    pub(super) fn draw(&self, pen: &mut Pen, lines: &[(Point, Point)]) {
        let figure = pen.length(self.value);
        let worded = [said(self.word), &figure].concat();
        let id = format!("figure-{}", self.id);
        for spare_nodes in [true, false] {
            for text in [&worded, &figure] {
                let letters = Letters { id: &id, role: self.role, field: self.field, text };
                if lines.iter().any(|&(a, b)| self.draw_on(pen, a, b, &letters, spare_nodes)) {
                    return;
                }
            }
        }
    }

    /// Draws it along one line if its figure finds room there.
    fn draw_on(&self, pen: &mut Pen, a: Point, b: Point, letters: &Letters<'_>, spare_nodes: bool) -> bool {
        let length = (b - a).hypot() / pen.px;
        let Some((from, to)) = pen.part_on_stage(a, b).filter(|_| length > 0.0) else { return false };
        let run = (pen.view.to_px(b) - pen.view.to_px(a)) / length;
        let turned = run.y.abs() > 0.5 && self.along;
        let reads_along = turned || run.x.abs() > 0.5;
        // In the line.
        let room = if reads_along { labels::length(self.role, letters.text) + GAP } else { ACROSS };
        let half = (room / 2.0 + STUB) / length;
        if to - from >= 2.0 * half {
            for share in SHARES {
                let middle = real::clamp(from + share * (to - from), from + half, to - half);
                let place = Place { at: a.lerp(b, middle), anchor: Anchor::Middle, turned };
                if pen.label_at(letters, place, spare_nodes) {
                    let gap = room / 2.0 / length;
                    self.line(pen, a, b, (middle - gap, middle + gap));
                    return true;
                }
            }
        }
        // Beside it on either side, first away from the centreline; else beyond its ends.
        let across = across(a, b) * pen.px;
        let across = if a.midpoint(b).to_vec2().dot(across) < 0.0 { -across } else { across };
        let along = (b - a) / length;
        let beside = if reads_along { BESIDE } else { BEYOND };
        let middle = a.lerp(b, (from + to) / 2.0);
        for (at, anchor) in [
            (middle + across * beside, self.anchor(pen, reads_along, across)),
            (middle - across * beside, self.anchor(pen, reads_along, -across)),
            (b + along * BEYOND, onward(run, turned)),
            (a - along * BEYOND, onward(-run, turned)),
        ] {
            if pen.label_at(letters, Place { at, anchor, turned }, spare_nodes) {
                self.line(pen, a, b, (0.5, 0.5));
                return true;
            }
        }
        false
    }

    /// The ticks, and the line but for a gap.
    fn line(&self, pen: &mut Pen, a: Point, b: Point, (from, to): (f64, f64)) {
        let tick = across(a, b) * (TICK * pen.px);
        let mut path = BezPath::new();
        for pair in [[a - tick, a + tick], [b - tick, b + tick], [a, a.lerp(b, from)], [a.lerp(b, to), b]] {
            path.extend(polyline(&pair));
        }
        pen.path(&format!("dim-{}", self.id), Role::Dimension, path);
    }

    /// The part of letters beside a line that stands next to it.
    fn anchor(&self, pen: &Pen, reads_along: bool, toward: Vec2) -> Anchor {
        if reads_along {
            return Anchor::Middle;
        }
        let origin = pen.view.to_px(Point::ORIGIN);
        onward(pen.view.to_px(toward.to_point()) - origin, false)
    }
}

/// The part of letters that stands next to what they lie beyond, in a direction on the screen.
fn onward(toward: Vec2, turned: bool) -> Anchor {
    // Level text reads to the right, turned text upward.
    let reads_away = if turned { toward.y < 0.0 } else { toward.x > 0.0 };
    if reads_away { Anchor::Start } else { Anchor::End }
}

/// The direction across a line, its left side.
fn across(a: Point, b: Point) -> Vec2 {
    let along = (b - a) / (b - a).hypot().max(f64::MIN_POSITIVE);
    Vec2::new(-along.y, along.x)
}
