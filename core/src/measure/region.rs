//! Area and length of the half outline.

use crate::{
    outline::{Half, Piece, resolve::coefficients},
    tolerance,
};
use kurbo::{
    CubicBez, ParamCurve, ParamCurveArea,
    common::{GAUSS_LEGENDRE_COEFFS_11, GAUSS_LEGENDRE_COEFFS_16},
};

/// Area between the half outline and the centreline, mm²: Green's theorem in closed form on each cubic.
pub(super) fn area(half: &Half) -> f64 {
    // The half runs clockwise round its area, and the centreline adds nothing.
    half.pieces().iter().map(|piece| -x_dy(&piece.curve, 0.0)).sum()
}

/// Area between the half outline and the centreline beyond station `x`, mm².
pub(super) fn area_beyond(half: &Half, x: f64) -> f64 {
    let mut area = 0.0;
    for piece in half.pieces() {
        let curve = &piece.curve;
        let controls = [curve.p0.x, curve.p1.x, curve.p2.x, curve.p3.x];
        if controls.iter().all(|&c| c >= x) {
            area -= x_dy(curve, x);
        } else if controls.iter().any(|&c| c > x) {
            let mut from = 0.0;
            for to in piece.at_x(x).chain([1.0]) {
                if to > from && curve.eval((from + to) / 2.0).x > x {
                    area -= x_dy(&curve.subsegment(from..to), x);
                }
                from = to;
            }
        }
    }
    area
}

/// ∫ (x − origin) dy along a cubic, mm², in closed form.
fn x_dy(curve: &CubicBez, origin: f64) -> f64 {
    let (a, b) = (curve.p0, curve.p3);
    curve.signed_area() + (b.x * b.y - a.x * a.y) / 2.0 - origin * (b.y - a.y)
}

/// Length of the half outline, mm, to [`tolerance::ARC_LENGTH_RELATIVE`].
pub(super) fn length(half: &Half) -> f64 {
    let of = |piece: &Piece| {
        if piece.straight {
            (piece.curve.p3 - piece.curve.p0).hypot2().sqrt()
        } else {
            arc_length(&piece.curve)
        }
    };
    half.pieces().iter().map(of).sum()
}

/// Length of a cubic, mm, to [`tolerance::ARC_LENGTH_RELATIVE`].
///
/// Gauss–Legendre rules of 11 and 16 points check one another; where they differ, as next to a cusp, the curve is
/// halved, down to stretches too short to be seen.
fn arc_length(curve: &CubicBez) -> f64 {
    let [_, c1, c2, c3] = coefficients(curve);
    speed_integral(&|t: f64| (c1 + t * (2.0 * c2 + t * (3.0 * c3))).hypot2().sqrt(), 0.0, 1.0)
}

fn speed_integral(speed: &impl Fn(f64) -> f64, from: f64, to: f64) -> f64 {
    const SHORTEST: f64 = 1e-6;
    let (middle, half_width) = (from + (to - from) / 2.0, (to - from) / 2.0);
    let rule = |points: &[(f64, f64)]| -> f64 {
        half_width * points.iter().map(|&(weight, x)| weight * speed(middle + half_width * x)).sum::<f64>()
    };
    let (coarse, fine) = (rule(GAUSS_LEGENDRE_COEFFS_11), rule(GAUSS_LEGENDRE_COEFFS_16));
    if (fine - coarse).abs() < tolerance::ARC_LENGTH_RELATIVE * fine || to - from < SHORTEST {
        fine
    } else {
        speed_integral(speed, from, middle) + speed_integral(speed, middle, to)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Point;

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
            let exact: f64 = parts.map(|from| arc_length(&curve.subsegment(from..from + 1.0 / 4096.0))).sum();
            let error = (arc_length(&curve) / exact - 1.0).abs();
            assert!(error <= tolerance::ARC_LENGTH_RELATIVE, "{curve:?}: {error} off");
        }
    }

    #[test]
    fn a_curve_with_a_cusp_has_the_length_of_its_closed_form() {
        // (t², t³) has length (13√13 − 8)/27 over 0..1; here it runs over −1..1, scaled by 4, through its cusp.
        let curve = CubicBez::new((4.0, -4.0), (-4.0 / 3.0, 4.0), (-4.0 / 3.0, -4.0), (4.0, 4.0));
        let exact = 2.0 * 4.0 * (13.0 * 13.0_f64.sqrt() - 8.0) / 27.0;
        assert!((arc_length(&curve) / exact - 1.0).abs() < 1e-9);
    }
}
