//! A half outline along dense places: fair battens and straight stretches from corner to corner.

use crate::{
    curve::{batten::End, fit::fit_stroke},
    outline::{Joint, Node, Outline, Span, check_form},
    real,
};
use core::f64::consts::FRAC_PI_2;
use kurbo::Point;

/// Tips that stand square to the centreline.
pub(super) const SQUARE: [End; 2] = [End::Tangent(FRAC_PI_2), End::Tangent(-FRAC_PI_2)];
/// A stretch of fewer places is not divided any more.
const SHORTEST: usize = 6;
/// A stretch from corner to corner is straight where it is as long as this, mm, and leaves its chord by no more than this
/// share of the accuracy: a curve that flat cannot be told from a line.
const STRAIGHT: (f64, f64) = (10.0, 0.5);
/// A straight end is square to the centreline where it leans by no more than this, as a share of its length: half a degree.
const LEANS: f64 = 0.01;

/// Battens from corner to corner along places, tail to nose, each within `accuracy` mm; `corners` are indices of places in
/// order, and `tips` say how the edge leaves the centreline. A stretch that no fair curve follows is divided in the middle,
/// and one too short for that is straight. `None` where that makes no outline, or there are no corners and no fair curve
/// follows: then it is for the caller to say where they are.
pub(super) fn chain(places: &[Point], corners: &[usize], accuracy: f64, tips: [End; 2]) -> Option<Outline> {
    let last = places.len().checked_sub(1)?;
    let joint_at_tip = |end: End| if end == End::Free { Joint::Corner } else { Joint::Led };
    let mut nodes = vec![Node { place: places[0], joint: joint_at_tip(tips[0]) }];
    let mut spans = Vec::new();
    let mut from = 0;
    let mut ends: Vec<usize> = corners.iter().rev().copied().collect();
    ends.insert(0, last);
    while let Some(to) = ends.pop() {
        let stretch = places.get(from..=to)?;
        let start = if from == 0 { tips[0] } else { End::Free };
        let end = if to == last { tips[1] } else { End::Free };
        let is_straight = !corners.is_empty() && is_straight(stretch, accuracy, [start, end]);
        let pins = if is_straight { None } else { fit_stroke(stretch, accuracy, [start, end]).ok() };
        if let Some(pins) = pins {
            for (i, place) in pins.iter().enumerate().skip(1) {
                let around = pins[(i + 1).min(pins.len() - 1)] - pins[i - 1];
                nodes.push(Node { place: *place, joint: Joint::Smooth(real::direction(around)) });
                spans.push(Span::BATTEN);
            }
        } else if is_straight || !corners.is_empty() && to - from <= SHORTEST {
            nodes.push(Node { place: places[to], joint: Joint::Corner });
            spans.push(Span::Straight);
        } else if corners.is_empty() {
            return None;
        } else {
            ends.push(to);
            ends.push(from.midpoint(to));
            continue;
        }
        if let Some(node) = nodes.last_mut() {
            // A free end of a batten is averaged; the corner itself is known.
            node.place = places[to];
            node.joint = if to == last { joint_at_tip(tips[1]) } else { Joint::Corner };
        }
        from = to;
    }
    let mut outline = Outline { nodes, spans, twin: false, sweeps: Vec::new() };
    check_form(&outline).ok()?;
    outline.settle();
    outline.relax().ok()?;
    Some(outline)
}

/// Whether places lie on a line, and one that leaves a tip as it is to be left.
fn is_straight(places: &[Point], accuracy: f64, ends: [End; 2]) -> bool {
    let [first, .., last] = places else { return false };
    let chord = *last - *first;
    let length = chord.hypot2().sqrt();
    let is_clamped = ends.iter().any(|end| *end != End::Free);
    length >= STRAIGHT.0
        && !(is_clamped && chord.x.abs() > LEANS * length)
        && places.iter().all(|p| (*p - *first).cross(chord).abs() <= STRAIGHT.1 * accuracy * length)
}
