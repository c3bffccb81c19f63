//! The compass arc that comes nearest to a kick.

use super::Shoulder;
use crate::{
    outline::{Half, Piece, resolve::coefficients},
    real,
};
use kurbo::{ParamCurve, Point, common::GAUSS_LEGENDRE_COEFFS_16};

/// The circle with its centre on the centreline that fits the arc from shoulder to shoulder best.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Compass {
    /// Its radius, mm.
    pub radius: f64,
    /// Its centre's station, outward from the origin, mm.
    pub station: f64,
    /// Its centre's distance beyond the outer bolt row, mm: where the compass is set.
    pub point: f64,
    /// The farthest the edge leaves the circle, mm.
    pub misfit: f64,
}

/// Steps of Gauss–Newton; from the shoulder's station a round kick needs six.
const MOST_STEPS: usize = 40;

/// A place on the arc: a piece of the half, a parameter on it, and the arc length it stands for, mm.
struct Sample {
    at: Point,
    piece: usize,
    t: f64,
    weight: f64,
}

/// Fits the circle by least squares of the distance, weighted by arc length.
///
/// By symmetry the half arc from the shoulder to the tip stands for the whole. `None` where that arc has no length or
/// is so flat that the centre runs away.
pub(super) fn fit(half: &Half, shoulder: Shoulder, outer_row: f64) -> Option<Compass> {
    let samples = samples(half, shoulder);
    let total: f64 = samples.iter().map(|s| s.weight).sum();
    if total <= 0.0 {
        return None;
    }
    let mut station = shoulder.at.x;
    let mut radius = 0.0;
    for _ in 0..MOST_STEPS {
        // With the centre fixed the best radius is the mean distance, so only the centre is searched. Distances are
        // taken from the last radius, so that their products keep their digits.
        let (mut miss, mut slope, mut miss_slope, mut slope_slope) = (0.0, 0.0, 0.0, 0.0);
        for s in &samples {
            let x = s.at.x - station;
            let distance = (x * x + s.at.y * s.at.y).sqrt();
            let (m, g) = (distance - radius, -x / distance);
            miss += s.weight * m;
            slope += s.weight * g;
            miss_slope += s.weight * m * g;
            slope_slope += s.weight * g * g;
        }
        radius += miss / total;
        let step = (miss_slope - miss * slope / total) / (slope_slope - slope * slope / total);
        if !step.is_finite() {
            return None;
        }
        station -= step;
        if step.abs() < 1e-10 {
            break;
        }
    }
    let misfit = misfit(half, shoulder, &samples, Point::new(station, 0.0), radius);
    let found = Compass { radius, station, point: station - outer_row, misfit };
    (radius.is_finite() && misfit.is_finite()).then_some(found)
}

/// Places along the arc by Gauss–Legendre on each piece, and the two ends with no weight.
fn samples(half: &Half, shoulder: Shoulder) -> Vec<Sample> {
    let pieces = half.pieces();
    let mut samples = Vec::with_capacity(18 * (pieces.len() - shoulder.piece));
    samples.push(Sample { at: shoulder.at, piece: shoulder.piece, t: shoulder.t, weight: 0.0 });
    for (piece, Piece { curve, .. }) in pieces.iter().enumerate().skip(shoulder.piece) {
        let from = if piece == shoulder.piece { shoulder.t } else { 0.0 };
        let (middle, half_width) = ((1.0 + from) / 2.0, (1.0 - from) / 2.0);
        let [c0, c1, c2, c3] = coefficients(curve);
        for &(weight, x) in GAUSS_LEGENDRE_COEFFS_16 {
            let t = middle + x * half_width;
            let velocity = c1 + t * (2.0 * c2 + t * (3.0 * c3));
            let at = (c0 + t * (c1 + t * (c2 + t * c3))).to_point();
            samples.push(Sample { at, piece, t, weight: weight * half_width * velocity.hypot2().sqrt() });
        }
        samples.push(Sample { at: curve.p3, piece, t: 1.0, weight: 0.0 });
    }
    samples
}

/// The farthest the arc leaves the circle, mm: from the sample that leaves it most to the extremum beside it.
fn misfit(half: &Half, shoulder: Shoulder, samples: &[Sample], centre: Point, radius: f64) -> f64 {
    const NEWTON_STEPS: usize = 3; // from a sixteenth of the piece away
    let miss = |at: Point| ((at - centre).hypot2().sqrt() - radius).abs();
    let Some(most) = samples.iter().max_by(|a, b| miss(a.at).total_cmp(&miss(b.at))) else { return 0.0 };
    let [c0, c1, c2, c3] = coefficients(&half.pieces()[most.piece].curve);
    let from = if most.piece == shoulder.piece { shoulder.t } else { 0.0 };
    let mut t = most.t;
    for _ in 0..NEWTON_STEPS {
        let arm = c0 + t * (c1 + t * (c2 + t * c3)) - centre.to_vec2();
        let velocity = c1 + t * (2.0 * c2 + t * (3.0 * c3));
        let acceleration = 2.0 * c2 + t * (6.0 * c3);
        let step = arm.dot(velocity) / (velocity.hypot2() + arm.dot(acceleration));
        t = real::clamp(t - step, from, 1.0);
    }
    miss(most.at).max(miss(half.pieces()[most.piece].curve.eval(t)))
}
