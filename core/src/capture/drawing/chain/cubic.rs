//! As few cubics as follow a smooth run of strokes.
//!
//! Each is the least-squares cubic between two joints with the run's own tangents there (P. J. Schneider, *An Algorithm for
//! Automatically Fitting Digitized Curves*, 1990), as far along the run as it stays near.

use super::{Stroke, leaves};
use crate::real;
use kurbo::{CubicBez, ParamCurve, ParamCurveDeriv, Point, Vec2};

/// Samples over all strokes of a run, about.
const SAMPLES: usize = 1200;
/// Least and most samples on one curve.
const EACH: (usize, usize) = (2, 16);
/// Rounds of moving samples to their nearest place on the cubic.
const ROUNDS: usize = 6;

/// A smooth run of strokes.
pub(super) struct Run<'a> {
    strokes: &'a [Stroke],
    accuracy: f64,
    samples: Vec<Point>,
    /// For each joint, the ends of the run among them, the index of its sample.
    joints: Vec<usize>,
    tangents: Vec<Vec2>,
}

impl<'a> Run<'a> {
    pub(super) fn new(strokes: &'a [Stroke], accuracy: f64) -> Self {
        let each = (SAMPLES / strokes.len()).max(EACH.0).min(EACH.1);
        let mut samples = Vec::new();
        let mut joints = vec![0];
        samples.extend(strokes.first().map(|stroke| stroke.curve.p0));
        for stroke in strokes {
            // A chord's inside does not lie on the curve that it stands for.
            let count = if stroke.straight { 1 } else { each };
            samples.extend((1..=count).map(|k| stroke.curve.eval(k as f64 / count as f64)));
            joints.push(samples.len() - 1);
        }
        let tangents = (0..=strokes.len()).map(|joint| tangent(strokes, joint)).collect();
        Self { strokes, accuracy, samples, joints, tangents }
    }

    /// The cubics from joint to joint; none where even a stretch between neighbours cannot be followed.
    pub(super) fn cubics(&self) -> Option<Vec<CubicBez>> {
        let last = self.strokes.len();
        let mut cubics = Vec::new();
        let mut from = 0;
        while from < last {
            // Doubling the reach, then halving what is between.
            let (mut best, mut reach) = (self.single(from), 1);
            let mut good = from + 1;
            let mut bad = last + 1;
            while from + 2 * reach < bad {
                reach *= 2;
                match self.fit(from, from + reach) {
                    Some(cubic) => (best, good) = (cubic, from + reach),
                    None => bad = from + reach,
                }
            }
            while bad - good > 1 {
                let middle = good.midpoint(bad);
                match self.fit(from, middle) {
                    Some(cubic) => (best, good) = (cubic, middle),
                    None => bad = middle,
                }
            }
            cubics.push(best);
            from = good;
        }
        Some(cubics)
    }

    /// The cubic of one stroke: itself, or of a chord the cubic with the run's tangents.
    fn single(&self, joint: usize) -> CubicBez {
        let stroke = &self.strokes[joint];
        if !stroke.straight {
            return stroke.curve;
        }
        let (a, b) = (stroke.curve.p0, stroke.curve.p3);
        let third = (b - a).hypot2().sqrt() / 3.0;
        CubicBez::new(a, a + third * self.tangents[joint], b - third * self.tangents[joint + 1], b)
    }

    /// The cubic between two joints that stays within the accuracy of the samples between them.
    fn fit(&self, from: usize, to: usize) -> Option<CubicBez> {
        let samples = &self.samples[self.joints[from]..=self.joints[to]];
        let (leaves, arrives) = (self.tangents[from], self.tangents[to]);
        let (&first, &last) = (samples.first()?, samples.last()?);
        let mut at = vec![0.0; samples.len()];
        for i in 1..samples.len() {
            at[i] = at[i - 1] + (samples[i] - samples[i - 1]).hypot2().sqrt();
        }
        let length = *at.last()?;
        at.iter_mut().for_each(|s| *s /= length);
        for _ in 0..ROUNDS {
            let curve = least_squares(samples, &at, first, last, leaves, arrives)?;
            let mut worst = 0.0_f64;
            for (u, p) in at.iter_mut().zip(samples) {
                // One step towards the foot of the perpendicular.
                let (off, along) = (curve.eval(*u) - *p, curve.deriv().eval(*u).to_vec2());
                if along.hypot2() > 0.0 {
                    *u = real::clamp(*u - off.dot(along) / along.hypot2(), 0.0, 1.0);
                }
                worst = worst.max((curve.eval(*u) - *p).hypot2());
            }
            if worst <= self.accuracy * self.accuracy {
                return Some(curve);
            }
        }
        None
    }
}

/// The cubic with given ends and tangents whose places at `at` lie nearest to the samples.
fn least_squares(
    samples: &[Point],
    at: &[f64],
    p0: Point,
    p3: Point,
    leaves: Vec2,
    arrives: Vec2,
) -> Option<CubicBez> {
    let (mut aa, mut ab, mut bb, mut ra, mut rb) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for (p, &u) in samples.iter().zip(at) {
        let v = 1.0 - u;
        let (b1, b2) = (3.0 * u * v * v, 3.0 * u * u * v);
        let (a, b) = (leaves * b1, -arrives * b2);
        let rest = p.to_vec2() - p0.to_vec2() * (v * v * v + b1) - p3.to_vec2() * (u * u * u + b2);
        aa += a.dot(a);
        ab += a.dot(b);
        bb += b.dot(b);
        ra += a.dot(rest);
        rb += b.dot(rest);
    }
    let det = aa * bb - ab * ab;
    let (start, end) = ((ra * bb - rb * ab) / det, (rb * aa - ra * ab) / det);
    // Not so for what is no number either. A handle must keep a direction.
    (start > 0.2 && end > 0.2 && start < 5000.0 && end < 5000.0)
        .then(|| CubicBez::new(p0, p0 + start * leaves, p3 - end * arrives, p3))
}

/// The unit tangent of a run at a joint.
fn tangent(strokes: &[Stroke], joint: usize) -> Vec2 {
    let unit = |v: Vec2| v / v.hypot2().sqrt().max(f64::MIN_POSITIVE);
    let chord = |stroke: &Stroke| stroke.curve.p3 - stroke.curve.p0;
    let curved = |stroke: &&Stroke| !stroke.straight;
    let before = joint.checked_sub(1).map(|i| &strokes[i]);
    let after = strokes.get(joint);
    let (before_curve, after_curve) = (before.filter(curved), after.filter(curved));
    match (before, after) {
        // A curve knows its tangent; two agree but for what a file rounds away.
        _ if before_curve.is_some() || after_curve.is_some() => {
            let sum = before_curve.map_or(Vec2::ZERO, |stroke| unit(leaves(stroke, true)));
            unit(sum + after_curve.map_or(Vec2::ZERO, |stroke| unit(leaves(stroke, false))))
        }
        // Between two chords that of the circle through their three ends.
        (Some(a), Some(b)) => {
            let (u, v) = (chord(a), chord(b));
            unit(u / u.hypot2() + v / v.hypot2())
        }
        (Some(only), None) | (None, Some(only)) => {
            // At an end, that of the circle through the next three ends, turned back from the chord.
            let (i, forward) = if joint == 0 { (1, true) } else { (joint.wrapping_sub(2), false) };
            let u = unit(chord(only));
            let Some(next) = strokes.get(i).filter(|next| next.straight) else { return u };
            let there = unit(chord(only) / chord(only).hypot2() + chord(next) / chord(next).hypot2());
            let _ = forward;
            // The chord halves the angle between the tangents at its two ends.
            unit(2.0 * u.dot(there) * u - there)
        }
        (None, None) => Vec2::new(1.0, 0.0),
    }
}
