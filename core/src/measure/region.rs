//! Area and length of the half outline.

use crate::{
    curve::length::arc_length,
    outline::{Half, Piece},
};
use kurbo::{CubicBez, ParamCurve, ParamCurveArea};

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

/// Length of the half outline, mm, to [`ARC_LENGTH_RELATIVE`](crate::tolerance::ARC_LENGTH_RELATIVE).
pub(super) fn length(half: &Half) -> f64 {
    let of = |piece: &Piece| {
        if piece.straight {
            (piece.curve.p3 - piece.curve.p0).hypot2().sqrt()
        } else {
            arc_length(&piece.curve, 1.0)
        }
    };
    half.pieces().iter().map(of).sum()
}
