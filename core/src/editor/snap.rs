//! Snapping: a drag stops for a moment at a line, it never jumps to one.

use super::Target;
use crate::{design::Shape, outline::Outline};
use kurbo::Point;

/// A line that a dragged node stops at, and why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Line {
    /// Where, mm along or across.
    pub(super) at: f64,
    /// What the line is.
    pub(super) rule: Rule,
}

/// Why a drag stopped at a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// Another node, by its index, stands at that station or half-breadth.
    Node(usize),
    /// The middle between the bolt holes.
    Middle,
    /// A bend line.
    BendLine,
}

/// A place after snapping, with what caught it along and across.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Snapped {
    /// The place.
    pub place: Point,
    /// What caught it along the board.
    pub along: Option<Rule>,
    /// What caught it across the board.
    pub across: Option<Rule>,
}

/// The place a drag from `from` to `wanted` comes to when it stops at lines `radius` mm wide.
pub(super) fn snapped(shape: &Shape, target: Target, from: Point, wanted: Point, radius: f64) -> Snapped {
    let (along, across) = lines(shape, target);
    let (x, x_rule) = stopped(from.x, wanted.x, &along, radius);
    let (y, y_rule) = stopped(from.y, wanted.y, &across, radius);
    Snapped { place: Point::new(x, y), along: x_rule, across: y_rule }
}

fn lines(shape: &Shape, target: Target) -> (Vec<Line>, Vec<Line>) {
    let Target::Node(own) = target else { return (Vec::new(), Vec::new()) };
    let outline: &Outline = &shape.outline;
    let mut across = Vec::new();
    let mut along = Vec::new();
    for (i, node) in outline.nodes.iter().enumerate().filter(|(i, _)| *i != own) {
        let (place, rule) = (node.place, Rule::Node(i));
        // The same distance from the middle as a node of the other half, so that the halves can be made alike.
        along.push(Line { at: -place.x, rule });
        if place.y > 0.0 {
            across.push(Line { at: place.y, rule });
        }
    }
    along.push(Line { at: 0.0, rule: Rule::Middle });
    let outer = shape.datum.outer_row();
    for at in [outer + shape.profile.nose.reference(), -outer - shape.profile.tail.reference()] {
        along.push(Line { at, rule: Rule::BendLine });
    }
    (along, across)
}

/// Where a drag along one axis comes to: past a line it waits for `radius`, then catches up over the next `radius`. The
/// answer depends on start and pointer alone and never jumps.
fn stopped(from: f64, wanted: f64, lines: &[Line], radius: f64) -> (f64, Option<Rule>) {
    let way = if wanted < from { -1.0 } else { 1.0 };
    // A short drag is a deliberate one: lines near its start do not hold it. Nor does a line that lies in the wait of the
    // one before it, or the drag would jump from one to the other.
    let mut clear = 2.0 * radius;
    loop {
        let ahead = |line: &Line| (line.at - from) * way;
        let next =
            lines.iter().filter(|line| ahead(line) > clear).min_by(|a, b| ahead(a).total_cmp(&ahead(b)));
        let Some(line) = next else { return (wanted, None) };
        let beyond = (wanted - line.at) * way;
        if beyond < 0.0 {
            return (wanted, None);
        }
        if beyond <= radius {
            return (line.at, Some(line.rule));
        }
        if beyond < 2.0 * radius {
            return (line.at + way * 2.0 * (beyond - radius), None);
        }
        clear = ahead(line) + 2.0 * radius;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LINES: [Line; 1] = [Line { at: 100.0, rule: Rule::Middle }];

    #[test]
    fn a_drag_waits_at_a_line_and_then_catches_up_without_a_jump() {
        let mut last = 80.0;
        for k in 0..600 {
            let wanted = 80.0 + f64::from(k) / 10.0;
            let (at, rule) = stopped(80.0, wanted, &LINES, 6.0);
            assert!((at - last).abs() <= 0.2 + 1e-9, "{wanted}: {last} to {at}");
            assert_eq!(rule.is_some(), (100.0..=106.0).contains(&wanted), "{wanted}");
            last = at;
        }
        assert_eq!(last, 80.0 + 59.9);
    }

    #[test]
    fn two_lines_close_together_make_no_jump() {
        let pair = [LINES[0], Line { at: 104.0, rule: Rule::BendLine }];
        let places: Vec<f64> =
            (0..600).map(|k| stopped(80.0, 80.0 + f64::from(k) / 10.0, &pair, 6.0).0).collect();
        assert!(places.windows(2).all(|p| (0.0..=0.2 + 1e-9).contains(&(p[1] - p[0]))));
    }

    #[test]
    fn a_drag_that_begins_at_a_line_is_free_of_it() {
        assert_eq!(stopped(100.0, 103.0, &LINES, 6.0), (103.0, None));
        assert_eq!(stopped(90.0, 101.0, &LINES, 6.0), (101.0, None));
    }
}
