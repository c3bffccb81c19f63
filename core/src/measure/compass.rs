//! The compass arc that comes nearest to a kick.

use super::Shoulder;
use crate::outline::Half;
use kurbo::{ParamCurve, ParamCurveDeriv, Point};

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

/// Steps of Gauss–Newton; from the shoulder's station a round kick needs four.
const MOST_STEPS: usize = 40;

/// Fits the circle by least squares of the distance, weighted by arc length.
///
/// By symmetry the half arc from the shoulder to the tip stands for the whole. `None` where that arc has no length or
/// is so flat that the centre runs away.
pub(super) fn fit(half: &Half, shoulder: Shoulder, outer_row: f64) -> Option<Compass> {
    let samples = weighted_samples(half, shoulder);
    let total: f64 = samples.iter().map(|s| s.1).sum();
    if total <= 0.0 {
        return None;
    }
    let mut station = shoulder.at.x;
    let mut radius = 0.0;
    for _ in 0..MOST_STEPS {
        // With the centre fixed the best radius is the mean distance, so only the centre is searched.
        let centre = Point::new(station, 0.0);
        let slope = |p: Point| (station - p.x) / (p - centre).hypot();
        let mean = |f: &dyn Fn(Point) -> f64| samples.iter().map(|&(p, w)| w * f(p)).sum::<f64>() / total;
        radius = mean(&|p| (p - centre).hypot());
        let mean_slope = mean(&slope);
        let gradient = mean(&|p| ((p - centre).hypot() - radius) * (slope(p) - mean_slope));
        let hessian = mean(&|p| (slope(p) - mean_slope).powi(2));
        let step = gradient / hessian;
        if !step.is_finite() {
            return None;
        }
        station -= step;
        if step.abs() < 1e-10 {
            break;
        }
    }
    let centre = Point::new(station, 0.0);
    let misfit = samples.iter().map(|(p, _)| ((*p - centre).hypot() - radius).abs());
    let misfit = misfit.fold(0.0, f64::max);
    let found = Compass { radius, station, point: station - outer_row, misfit };
    (radius.is_finite() && misfit.is_finite()).then_some(found)
}

/// Points along the arc with the arc length each stands for, by Gauss–Legendre on four parts of each piece, and the
/// two ends with no weight.
fn weighted_samples(half: &Half, shoulder: Shoulder) -> Vec<(Point, f64)> {
    const PARTS: u32 = 4;
    let mut samples = vec![(shoulder.at, 0.0)];
    for (i, piece) in half.pieces().iter().enumerate().skip(shoulder.piece) {
        let from = if i == shoulder.piece { shoulder.t } else { 0.0 };
        let part = (1.0 - from) / f64::from(PARTS);
        let speed = piece.curve.deriv();
        for k in 0..PARTS {
            let middle = from + (f64::from(k) + 0.5) * part;
            for (weight, x) in kurbo::common::GAUSS_LEGENDRE_COEFFS_8 {
                let t = middle + x * part / 2.0;
                let length = weight * speed.eval(t).to_vec2().hypot() * part / 2.0;
                samples.push((piece.curve.eval(t), length));
            }
        }
        samples.push((piece.curve.p3, 0.0));
    }
    samples
}
