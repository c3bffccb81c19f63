//! The point of a cubic that lies nearest to a place.

use crate::{outline::resolve::coefficients, roots::quintic_roots};
use kurbo::{CubicBez, ParamCurve, Point};

/// The parameter of the point of `curve` nearest to `place`, and the square of its distance, mm²; of several the first.
///
/// It is an end of the curve, or the way to it stands square on the curve: B the curve, (B(t) − place)·B′(t) = 0, a quintic
/// whose roots in 0..1 are all looked at.
pub(crate) fn nearest(curve: &CubicBez, place: Point) -> (f64, f64) {
    let [c0, c1, c2, c3] = coefficients(curve);
    let c0 = c0 - place.to_vec2();
    let square_on = [
        c0.dot(c1),
        2.0 * c0.dot(c2) + c1.hypot2(),
        3.0 * (c0.dot(c3) + c1.dot(c2)),
        4.0 * c1.dot(c3) + 2.0 * c2.hypot2(),
        5.0 * c2.dot(c3),
        3.0 * c3.hypot2(),
    ];
    let mut best = (0.0, c0.hypot2());
    let mut look_at = |t: f64| {
        let distance = (curve.eval(t) - place).hypot2();
        if distance < best.1 {
            best = (t, distance);
        }
    };
    quintic_roots(square_on, &mut look_at);
    look_at(1.0);
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::ParamCurveNearest;

    /// A bend, a wave, a loop, a straight line, a curve that turns back on itself, and a point.
    const CURVES: [[f64; 8]; 6] = [
        [0.0, 0.0, 40.0, 60.0, 90.0, 60.0, 120.0, 0.0],
        [0.0, 0.0, 80.0, 90.0, 20.0, -90.0, 100.0, 10.0],
        [0.0, 0.0, 150.0, 80.0, -50.0, 80.0, 100.0, 0.0],
        [-400.0, 100.0, -200.0, 100.0, 200.0, 100.0, 400.0, 100.0],
        [0.0, 0.0, 100.0, 0.0, 100.0, 0.0, 10.0, 0.0],
        [5.0, 5.0, 5.0, 5.0, 5.0, 5.0, 5.0, 5.0],
    ];

    #[test]
    fn no_other_search_comes_nearer() {
        for [ax, ay, bx, by, cx, cy, dx, dy] in CURVES {
            let curve = CubicBez::new((ax, ay), (bx, by), (cx, cy), (dx, dy));
            for k in 0..40 {
                let place = Point::new(-60.0 + 6.0 * f64::from(k), f64::from(k * 37 % 200) - 80.0);
                let (t, square) = nearest(&curve, place);
                let other = curve.nearest(place, 1e-9).distance_sq;
                let sample = (0..=400).map(|i| (curve.eval(f64::from(i) / 400.0) - place).hypot2());
                let least = sample.fold(other, f64::min).sqrt();
                assert!(
                    square.sqrt() <= least + 1e-9,
                    "{curve:?} from {place}: {} of {least}",
                    square.sqrt()
                );
                assert!(((curve.eval(t) - place).hypot2() - square).abs() < 1e-9, "{curve:?} from {place}");
            }
        }
    }
}
