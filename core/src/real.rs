//! Transcendental functions that give the same bits natively and in wasm.
//!
//! The standard library's `sin`, `atan2`, `hypot`, … call the platform and differ in the last bits between targets.
//! A stored design must reopen to the same curve everywhere, so `core` calls these instead, and `.clippy.toml`
//! disallows the `f64` methods. `sqrt`, `abs`, `floor` and `powi` are exact by definition or by construction
//! and stay allowed.

pub use libm::{acos, asin, atan, atan2, cbrt, cos, exp, hypot, log as ln, pow, sin, sincos, tan};

/// The tangent direction of `(dx, dy)` in radians, anticlockwise from +x, in (−π, π].
#[must_use]
pub fn direction(v: kurbo::Vec2) -> f64 {
    atan2(v.y, v.x)
}

/// The unit vector at `angle` radians, anticlockwise from +x.
///
/// The four directions of the axes are exact, so that a tip square to the centreline is square to the bit.
#[must_use]
pub fn unit_vector(angle: f64) -> kurbo::Vec2 {
    use core::f64::consts::{FRAC_PI_2, PI};
    for (axis, vector) in [
        (0.0, (1.0, 0.0)),
        (FRAC_PI_2, (0.0, 1.0)),
        (-FRAC_PI_2, (0.0, -1.0)),
        (PI, (-1.0, 0.0)),
        (-PI, (-1.0, 0.0)),
    ] {
        if angle.to_bits() == f64::to_bits(axis) {
            return vector.into();
        }
    }
    let (sin, cos) = sincos(angle);
    (cos, sin).into()
}

/// `value` brought between `least` and `most`.
///
/// `f64::clamp` panics where these two are the wrong way round, and says so in decimals: fifteen kilobytes of the page.
#[must_use]
pub fn clamp(value: f64, least: f64, most: f64) -> f64 {
    value.max(least).min(most)
}

/// `angle` brought into (−π, π] by whole turns.
#[must_use]
pub fn wrapped(angle: f64) -> f64 {
    use core::f64::consts::{PI, TAU};
    let turns = (angle / TAU).round();
    let wrapped = angle - turns * TAU;
    if wrapped <= -PI { wrapped + TAU } else { wrapped }
}
