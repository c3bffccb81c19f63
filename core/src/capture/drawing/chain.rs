//! A chain that follows a drawn half: exactly by as few cubics as it takes, or as a fair batten.

mod cubic;

use super::{halves::Mean, strokes::Stroke};
use crate::{
    capture::cornered,
    compare,
    curve::batten::End,
    outline::{Handle, Joint, Node, Outline, Span, twin_of},
    real,
};
use core::f64::consts::FRAC_PI_2;
use cubic::Run;
use kurbo::{CubicBez, Vec2};

/// Curves that meet at more than this, radians, have a corner there: a degree.
const CORNER: f64 = 0.017;
/// Chords of a curve may turn by more, radians: 25°.
const CHORDS: f64 = 0.44;
/// A straight stretch runs on smoothly where it meets a curve at less than this, radians.
const RUNS_ON: f64 = 0.009;
/// Curves and lines of uneven halves that turn by less, radians, are not followed round a corner: ten degrees, more than a hand
/// is off where it means to run on (common practice, no source).
const MEANT: f64 = 0.17;
/// Lines that meet at less than this are one, radians.
const ONE: f64 = 0.0009;
/// A line as long as this, mm, is a straight stretch where it ends at a corner or a curve, and however it ends.
const LINES: (f64, f64) = (10.0, 40.0);
/// A tip whose tangent is this near to square, radians, is square.
const SQUARE: f64 = 0.01;
/// Most nodes that a chain is drawn exactly with: one with more was traced by hand.
const MOST_NODES: usize = 40;
/// A chain this near to its own reverse, mm, is a twin's.
const TWIN: f64 = 0.005;

/// The chain of as few cubics and straight spans as follow the strokes within `accuracy` mm; none where it would take too
/// many.
pub(super) fn exact(strokes: &[Stroke], accuracy: f64) -> Option<Outline> {
    let strokes = merged(strokes);
    let last = strokes.len() - 1;
    // A stroke and the one after it: how much the direction turns.
    let turn = |i: usize| {
        let (a, b) = (leaves(&strokes[i], true), leaves(&strokes[i + 1], false));
        real::wrapped(real::direction(b) - real::direction(a))
    };
    let turns: Vec<f64> = (0..last).map(turn).collect();
    let is_straight = |i: usize| {
        let length = strokes[i].length();
        let ends = |joint: Option<usize>, other: Option<usize>| match joint.zip(other) {
            Some((joint, other)) => !strokes[other].straight || turns[joint].abs() > CHORDS,
            None => true,
        };
        strokes[i].straight
            && (length >= LINES.1
                || length >= LINES.0
                    && ends(i.checked_sub(1), i.checked_sub(1))
                    && ends((i < last).then_some(i), (i < last).then_some(i + 1)))
    };
    let straight: Vec<bool> = (0..=last).map(is_straight).collect();
    let is_break = |joint: usize| {
        let (a, b) = (joint, joint + 1);
        let limit = if strokes[a].straight || strokes[b].straight { CHORDS } else { CORNER };
        straight[a] || straight[b] || turns[joint].abs() > limit
    };
    let mut chain = Outline { nodes: Vec::new(), spans: Vec::new(), twin: false, sweeps: Vec::new() };
    let mut from = 0;
    while from <= last {
        let mut to = from;
        while to < last && !is_break(to) {
            to += 1;
        }
        // How this stretch meets the one before it.
        let joint = match from.checked_sub(1) {
            None => tip(leaves(&strokes[0], false), FRAC_PI_2),
            Some(joint) if turns[joint].abs() > RUNS_ON => Joint::Corner,
            Some(joint) => {
                let rigid = if straight[joint] {
                    leaves(&strokes[joint], true)
                } else {
                    leaves(&strokes[from], false)
                };
                Joint::Smooth(real::direction(rigid))
            }
        };
        chain.nodes.push(Node { place: strokes[from].curve.p0, joint });
        if straight[from] {
            chain.spans.push(Span::Straight);
        } else {
            for (i, curve) in Run::new(&strokes[from..=to], accuracy).cubics()?.into_iter().enumerate() {
                if i > 0 {
                    let along = real::direction(curve.p1 - curve.p0);
                    chain.nodes.push(Node { place: curve.p0, joint: Joint::Smooth(along) });
                }
                chain.spans.push(span(&curve));
            }
        }
        if chain.nodes.len() > MOST_NODES {
            return None;
        }
        from = to + 1;
    }
    let end = tip(leaves(&strokes[last], true), -FRAC_PI_2);
    chain.nodes.push(Node { place: strokes[last].curve.p3, joint: end });
    crate::outline::check_form(&chain).ok()?;
    chain.settle();
    Some(twinned(chain))
}

/// A twin's chain where the two ends are one another's mirror.
fn twinned(chain: Outline) -> Outline {
    let is_twin = |twin: &Outline| compare::farthest(&chain.resolve(), &twin.resolve()).distance <= TWIN;
    twin_of(&chain).filter(is_twin).unwrap_or(chain)
}

/// The fair chain of few pins along a mean line, with its corners; none where none follows it.
pub(super) fn fair(mean: &Mean, accuracy: f64) -> Option<Outline> {
    let tips = [0, 1].map(|end| if mean.pointed[end] { End::Free } else { cornered::SQUARE[end] });
    cornered::chain(&mean.places, &mean.corners, accuracy, tips)
}

/// The joints of strokes at which both halves may have a corner that was meant: each the index of the stroke before it.
pub(super) fn corners(strokes: &[Stroke]) -> Vec<usize> {
    let is_chord = |stroke: &Stroke| stroke.straight && stroke.length() < LINES.0;
    let turn = |i: usize| angle(leaves(&strokes[i], true), leaves(&strokes[i + 1], false));
    let limit = |i: usize| if is_chord(&strokes[i]) || is_chord(&strokes[i + 1]) { CHORDS } else { MEANT };
    (0..strokes.len().saturating_sub(1)).filter(|&i| turn(i).abs() > limit(i)).collect()
}

/// Whether an end of strokes meets the centreline in a point, not square to it.
pub(super) fn is_pointed(strokes: &[Stroke], at_nose: bool) -> bool {
    let stroke = if at_nose { strokes.last() } else { strokes.first() };
    let square = Vec2::new(0.0, if at_nose { -1.0 } else { 1.0 });
    stroke.is_some_and(|stroke| angle(leaves(stroke, at_nose), square).abs() > MEANT)
}

/// How far one direction is turned from another, radians.
fn angle(a: Vec2, b: Vec2) -> f64 {
    real::wrapped(real::direction(b) - real::direction(a))
}

fn tip(along: Vec2, square: f64) -> Joint {
    if real::wrapped(real::direction(along) - square).abs() <= SQUARE { Joint::Led } else { Joint::Corner }
}

fn span(curve: &CubicBez) -> Span {
    Span::Cubic { start: Handle::Free(curve.p1 - curve.p0), end: Handle::Free(curve.p2 - curve.p3) }
}

/// The direction in which a stroke leaves its start, or arrives at its end.
fn leaves(stroke: &Stroke, at_end: bool) -> Vec2 {
    crate::outline::heading_at(&stroke.curve, if at_end { 1.0 } else { 0.0 })
}

/// Straight strokes that run on in one line made one.
pub(super) fn merged(strokes: &[Stroke]) -> Vec<Stroke> {
    let mut merged: Vec<Stroke> = Vec::with_capacity(strokes.len());
    for stroke in strokes {
        if let Some(last) = merged.last_mut().filter(|last| last.straight && stroke.straight) {
            let (a, b) = (last.curve.p3 - last.curve.p0, stroke.curve.p3 - stroke.curve.p0);
            if real::wrapped(real::direction(b) - real::direction(a)).abs() < ONE
                && last.length().min(stroke.length()) > 2.0 * LINES.0
            {
                *last = Stroke::line(last.curve.p0, stroke.curve.p3);
                continue;
            }
        }
        merged.push(*stroke);
    }
    merged
}
