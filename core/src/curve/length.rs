//! Arc length of cubics.

use crate::tolerance::ARC_LENGTH_RELATIVE;
use kurbo::{
    CubicBez, Vec2,
    common::{GAUSS_LEGENDRE_COEFFS_4, GAUSS_LEGENDRE_COEFFS_7, GAUSS_LEGENDRE_COEFFS_16},
};

/// Length of a cubic from its start to the parameter `to`, mm, to [`ARC_LENGTH_RELATIVE`].
///
/// Gauss–Legendre rules of 4, 7 and 16 points: each checks the one before it, and the gentle pieces of a batten need no
/// more than two. Where all differ, as next to a cusp, the curve is halved, down to stretches too short to be seen.
pub(crate) fn arc_length(curve: &CubicBez, to: f64) -> f64 {
    length_between(&velocity(curve), 0.0, to)
}

/// How fast the point moves along the cubic at `t`, mm a unit of the parameter.
pub(crate) fn speed(curve: &CubicBez, t: f64) -> f64 {
    speed_at(&velocity(curve), t)
}

/// The derivative of a cubic as a polynomial, constant term first.
fn velocity(curve: &CubicBez) -> [Vec2; 3] {
    let [p0, p1, p2, p3] = [curve.p0, curve.p1, curve.p2, curve.p3].map(kurbo::Point::to_vec2);
    [3.0 * (p1 - p0), 6.0 * (p0 - 2.0 * p1 + p2), 3.0 * (p3 - p0 + 3.0 * (p1 - p2))]
}

fn speed_at(velocity: &[Vec2; 3], t: f64) -> f64 {
    let [v0, v1, v2] = *velocity;
    (v0 + t * (v1 + t * v2)).hypot2().sqrt()
}

/// The parameter of the place that lies `length` mm along the cubic; an end where it is no longer than that.
pub(crate) fn at_length(curve: &CubicBez, length: f64) -> f64 {
    /// A picometre: what is left over is below what a mark stores.
    const EXACT: f64 = 1e-9;
    let (mut low, mut high) = (0.0, 1.0);
    let whole = arc_length(curve, 1.0);
    if length <= 0.0 || length >= whole {
        return if length <= 0.0 { 0.0 } else { 1.0 };
    }
    let mut t = length / whole;
    // Newton's steps, halved into the bracket where they leave it: half a dozen on any curve that is drawn.
    for _ in 0..60 {
        let miss = arc_length(curve, t) - length;
        if miss.abs() < EXACT {
            break;
        }
        if miss > 0.0 {
            high = t
        } else {
            low = t
        }
        let next = t - miss / speed(curve, t);
        t = if next > low && next < high { next } else { low + (high - low) / 2.0 };
    }
    t
}

fn length_between(velocity: &[Vec2; 3], from: f64, to: f64) -> f64 {
    const SHORTEST: f64 = 1e-6;
    let (middle, half_width) = (from + (to - from) / 2.0, (to - from) / 2.0);
    let rule = |points: &[(f64, f64)]| -> f64 {
        half_width
            * points
                .iter()
                .map(|&(weight, x)| weight * speed_at(velocity, middle + half_width * x))
                .sum::<f64>()
    };
    let mut found = rule(GAUSS_LEGENDRE_COEFFS_4);
    for points in [GAUSS_LEGENDRE_COEFFS_7, GAUSS_LEGENDRE_COEFFS_16] {
        let coarse = core::mem::replace(&mut found, rule(points));
        if (found - coarse).abs() < ARC_LENGTH_RELATIVE * found {
            return found;
        }
    }
    if to - from < SHORTEST {
        found
    } else {
        length_between(velocity, from, middle) + length_between(velocity, middle, to)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{ParamCurve, Point};

    #[test]
    fn a_place_is_found_by_its_length_along_the_curve() {
        let curve = CubicBez::new((0.0, 0.0), (90.0, 4.0), (-30.0, 80.0), (60.0, 60.0));
        let whole = arc_length(&curve, 1.0);
        for k in 0..=20 {
            let length = whole * f64::from(k) / 20.0;
            assert!((arc_length(&curve, at_length(&curve, length)) - length).abs() < 1e-7, "{length}");
        }
        assert_eq!((at_length(&curve, -1.0), at_length(&curve, whole + 1.0)), (0.0, 1.0));
    }

    /// Cubics with control points all over a square of 200 mm, by a generator of remainders.
    fn cubics() -> impl Iterator<Item = CubicBez> {
        let mut state = 1_u32;
        let mut next = move || {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            f64::from(state >> 8) / f64::from(1_u32 << 24) * 200.0
        };
        (0..300).map(move |_| {
            let [p0, p1, p2, p3] = core::array::from_fn(|_| Point::new(next(), next()));
            CubicBez::new(p0, p1, p2, p3)
        })
    }

    #[test]
    fn a_length_is_right_to_the_accuracy_stated() {
        for curve in cubics() {
            let parts = (0..4096).map(|k| f64::from(k) / 4096.0);
            let exact: f64 =
                parts.map(|from| arc_length(&curve.subsegment(from..from + 1.0 / 4096.0), 1.0)).sum();
            let error = (arc_length(&curve, 1.0) / exact - 1.0).abs();
            assert!(error <= ARC_LENGTH_RELATIVE, "{curve:?}: {error} off");
        }
    }

    #[test]
    fn a_curve_with_a_cusp_has_the_length_of_its_closed_form() {
        // (t², t³) has length (13√13 − 8)/27 over 0..1; here it runs over −1..1, scaled by 4, through its cusp.
        let curve = CubicBez::new((4.0, -4.0), (-4.0 / 3.0, 4.0), (-4.0 / 3.0, -4.0), (4.0, 4.0));
        let exact = 2.0 * 4.0 * (13.0 * 13.0_f64.sqrt() - 8.0) / 27.0;
        assert!((arc_length(&curve, 1.0) / exact - 1.0).abs() < 1e-9);
    }
}
