//! The two halves of a drawn outline, laid on one another.

use super::{
    DrawingError,
    centre::Frame,
    chain,
    strokes::{Contour, Stroke},
};
use crate::{
    compare::{Farthest, farthest},
    curve::nearest::nearest,
    outline::{
        Half, Piece,
        resolve::{MIRROR, monotone_parts},
    },
    roots::monotone_cubic_root,
};
use kurbo::{CubicBez, ParamCurve, Point};

/// Ends this near the centreline, mm, are on it.
const ON_LINE: f64 = 1e-6;
/// Places at which two halves are averaged.
const AVERAGED: usize = 240;
/// Fewest places on a stretch between corners.
const FEWEST: usize = 8;
/// Corners farther apart than this, mm, are not one another's mirror: twice what the rails of an uneven deck are off (common
/// practice, no source).
const UNLIKE: f64 = 20.0;

/// The left half of a drawing and the right one turned over onto it, tail to nose.
#[derive(Debug)]
pub(super) struct Halves {
    pub(super) left: Vec<Stroke>,
    right: Vec<Stroke>,
}

/// The mean of two halves.
#[derive(Debug)]
pub(super) struct Mean {
    /// Places along it, from the tail to the nose.
    pub(super) places: Vec<Point>,
    /// Which of them are corners.
    pub(super) corners: Vec<usize>,
    /// Whether it meets the centreline in a point, at the tail and at the nose.
    pub(super) pointed: [bool; 2],
}

impl Halves {
    /// Cuts a contour at its tips.
    pub(super) fn of(contour: &Contour, frame: &Frame) -> Result<Self, DrawingError> {
        let mut contour = contour.clone();
        contour.map(frame.to_deck);
        if contour.area() > 0.0 {
            // Clockwise, so that it runs from the tail over the left rail to the nose.
            contour.reverse();
        }
        let strokes = &contour.strokes;
        let mut crossings: Vec<(usize, f64, f64)> = Vec::new();
        for (i, stroke) in strokes.iter().enumerate() {
            for (from, to, part) in monotone_parts(&stroke.curve) {
                let (a, b) = (part.p0.y, part.p3.y);
                let at = if a.abs() <= ON_LINE {
                    from
                } else if b.abs() <= ON_LINE {
                    to
                } else if (a < 0.0) == (b < 0.0) {
                    continue;
                } else {
                    let [c0, c1, c2, c3] = crate::outline::resolve::coefficients(&stroke.curve).map(|c| c.y);
                    monotone_cubic_root([c0, c1, c2, c3], from, to)
                };
                crossings.push((i, at, stroke.curve.eval(at).x));
            }
        }
        let tail = crossings.iter().copied().reduce(|a, b| if b.2 < a.2 { b } else { a });
        let nose = crossings.iter().copied().reduce(|a, b| if b.2 > a.2 { b } else { a });
        let (Some(tail), Some(nose)) = (tail, nose) else { return Err(DrawingError::NoTips) };
        if nose.2 - tail.2 < 1.0 {
            return Err(DrawingError::NoTips);
        }
        let left = stretch(strokes, (tail.0, tail.1), (nose.0, nose.1));
        let mut over = Contour {
            strokes: stretch(strokes, (nose.0, nose.1), (tail.0, tail.1)),
            closed: false,
            named: false,
        };
        over.reverse();
        over.map(MIRROR);
        let mut halves = Self { left, right: over.strokes };
        halves.settle_tips();
        if halves.left.is_empty() || halves.right.is_empty() {
            return Err(DrawingError::NoTips);
        }
        Ok(halves)
    }

    fn settle_tips(&mut self) {
        for half in [&mut self.left, &mut self.right] {
            if let Some(first) = half.first_mut() {
                first.curve.p0.y = 0.0;
            }
            if let Some(last) = half.last_mut() {
                last.curve.p3.y = 0.0;
            }
        }
    }

    /// The halves with every place laid elsewhere: strokes become short cubics through their places.
    pub(super) fn developed(&self, laid: &dyn Fn(Point) -> Point) -> Self {
        // A plan bends where its law changes: on pieces this short, mm, a cubic comes within a micrometre.
        const LONGEST: f64 = 12.0;
        let half = |strokes: &[Stroke]| {
            let mut pieces = Vec::new();
            for stroke in strokes {
                let mut parts = 1_u32;
                while stroke.length() > LONGEST * f64::from(parts) && parts < 64 {
                    parts += 1;
                }
                for part in 0..parts {
                    let at = |third: u32| {
                        let share = (f64::from(part) + f64::from(third) / 3.0) / f64::from(parts);
                        laid(stroke.curve.eval(share))
                    };
                    let points = [0, 1, 2, 3].map(at);
                    let piece = Stroke::through(points);
                    pieces.push(Stroke { straight: stroke.straight && is_straight(&piece.curve), ..piece });
                }
            }
            pieces
        };
        Self { left: half(&self.left), right: half(&self.right) }
    }

    /// Where the two halves lie farthest apart.
    pub(super) fn asymmetry(&self) -> Farthest {
        farthest(&half(&self.left), &half(&self.right))
    }

    /// Places along the left half.
    pub(super) fn places(&self, count: usize) -> Vec<Point> {
        spread(&self.left, count)
    }

    /// The line midway between the two halves, with the corners that both have.
    pub(super) fn mean(&self) -> Mean {
        let (left, right) = (chain::merged(&self.left), chain::merged(&self.right));
        let pointed =
            [false, true].map(|nose| chain::is_pointed(&left, nose) && chain::is_pointed(&right, nose));
        let shared = shared(&left, &right);
        if shared.is_empty() {
            return Mean { places: midway(&left, &right), corners: Vec::new(), pointed };
        }
        // Between corners both halves run alike: what lies as far along is averaged.
        let total: f64 = left.iter().map(Stroke::length).sum();
        let mut mean = Mean { places: Vec::new(), corners: Vec::new(), pointed };
        let (mut from, last) = ([0, 0], [left.len(), right.len()]);
        for to in shared.into_iter().chain([last]) {
            let [a, b] = [&left[from[0]..to[0]], &right[from[1]..to[1]]];
            let share = a.iter().map(Stroke::length).sum::<f64>() / total;
            let mut count = FEWEST;
            while (count as f64) < share * AVERAGED as f64 {
                count += 1;
            }
            let pairs = spread(a, count).into_iter().zip(spread(b, count));
            mean.places.pop();
            mean.places.extend(pairs.map(|(a, b)| a.midpoint(b)));
            mean.corners.push(mean.places.len() - 1);
            from = to;
        }
        mean.corners.pop();
        mean
    }
}

/// Where the strokes of both halves meet in a corner that is the other's mirror, in order: how many strokes lie before it.
fn shared(left: &[Stroke], right: &[Stroke]) -> Vec<[usize; 2]> {
    let place = |strokes: &[Stroke], joint: usize| strokes[joint].curve.p3;
    let (ours, theirs) = (chain::corners(left), chain::corners(right));
    let nearest = |at: Point, strokes: &[Stroke], joints: &[usize]| {
        joints.iter().fold((0, UNLIKE), |best, &joint| {
            let apart = (place(strokes, joint) - at).hypot2().sqrt();
            if apart < best.1 { (joint, apart) } else { best }
        })
    };
    let mut shared: Vec<[usize; 2]> = Vec::new();
    for &joint in &ours {
        let (other, apart) = nearest(place(left, joint), right, &theirs);
        let is_mutual = apart < UNLIKE && nearest(place(right, other), left, &ours).0 == joint;
        if is_mutual && shared.last().is_none_or(|last| last[1] <= other) {
            shared.push([joint + 1, other + 1]);
        }
    }
    shared
}

/// Places midway between one half and what of the other lies nearest.
fn midway(left: &[Stroke], right: &[Stroke]) -> Vec<Point> {
    let mut places: Vec<Point> = spread(left, AVERAGED);
    let last = places.len() - 1;
    for (i, place) in places.iter_mut().enumerate() {
        let mut best = (*place, f64::INFINITY);
        if i == 0 {
            best.0 = right.first().map_or(*place, |stroke| stroke.curve.p0);
        } else if i == last {
            best.0 = right.last().map_or(*place, |stroke| stroke.curve.p3);
        } else {
            for stroke in right {
                let extent = crate::outline::resolve::extent(&stroke.curve);
                let (dx, dy) = (
                    (extent.x0 - place.x).max(place.x - extent.x1).max(0.0),
                    (extent.y0 - place.y).max(place.y - extent.y1).max(0.0),
                );
                if dx * dx + dy * dy < best.1 {
                    let (t, square) = nearest(&stroke.curve, *place);
                    if square < best.1 {
                        best = (stroke.curve.eval(t), square);
                    }
                }
            }
        }
        *place = place.midpoint(best.0);
    }
    places
}

impl Mean {
    pub(super) fn places(&self, count: usize) -> Vec<Point> {
        let last = self.places.len() - 1;
        (0..=count).map(|k| self.places[k * last / count]).collect()
    }
}

fn is_straight(curve: &CubicBez) -> bool {
    let chord = curve.p3 - curve.p0;
    let off = |p: Point| (p - curve.p0).cross(chord).abs();
    off(curve.p1).max(off(curve.p2)) <= 1e-6 * chord.hypot2()
}

/// Places evenly along strokes, from their first to their last.
fn spread(strokes: &[Stroke], count: usize) -> Vec<Point> {
    let lengths: Vec<f64> = strokes.iter().map(Stroke::length).collect();
    let total: f64 = lengths.iter().sum();
    let mut places = Vec::with_capacity(count + 1);
    let (mut i, mut before) = (0, 0.0);
    for k in 0..=count {
        let at = total * k as f64 / count as f64;
        while i + 1 < strokes.len() && before + lengths[i] < at {
            before += lengths[i];
            i += 1;
        }
        let share = if lengths[i] > 0.0 { ((at - before) / lengths[i]).min(1.0) } else { 0.0 };
        places.push(strokes[i].curve.eval(share));
    }
    places
}

/// The strokes of a closed contour from one place to another.
fn stretch(strokes: &[Stroke], from: (usize, f64), to: (usize, f64)) -> Vec<Stroke> {
    // A sliver left by a cut has no direction worth the name.
    const SLIVER: f64 = 1e-4;
    let mut parts = Vec::new();
    let mut push = |stroke: &Stroke, a: f64, b: f64| {
        let curve = if a <= 0.0 && b >= 1.0 { stroke.curve } else { stroke.curve.subsegment(a..b) };
        let part = Stroke { curve, ..*stroke };
        if part.length() > SLIVER {
            parts.push(part);
        }
    };
    if from.0 == to.0 && from.1 < to.1 {
        push(&strokes[from.0], from.1, to.1);
        return parts;
    }
    push(&strokes[from.0], from.1, 1.0);
    let mut i = (from.0 + 1) % strokes.len();
    while i != to.0 {
        push(&strokes[i], 0.0, 1.0);
        i = (i + 1) % strokes.len();
    }
    push(&strokes[i], 0.0, to.1);
    parts
}

/// Strokes as a resolved half, for measuring.
pub(super) fn half(strokes: &[Stroke]) -> Half {
    let piece = |(span, stroke): (usize, &Stroke)| Piece {
        curve: stroke.curve,
        span,
        straight: stroke.straight,
        far: false,
        bends: None,
    };
    Half::from_pieces(strokes.iter().enumerate().map(piece).collect())
}
