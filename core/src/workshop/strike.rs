//! The deck on its trucks: where its tips touch the ground, and where its wheels touch the deck.
//!
//! Axles lie under the truck centres (or `axle_offset` outboard of them); all elementary geometry on estimated heights.

use super::inputs::Ride;
use crate::{
    design::Shape,
    measure::{End, Measured},
    profile::Kick,
    real,
};

/// One end of the deck above its axle, mm and radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tip {
    /// Rise of the top face at the tip above the flat.
    pub rise: f64,
    /// Height of the tip's lower edge above the ground.
    pub height: f64,
    /// Distance of the tip's lower edge outward from the axle, seen from above.
    pub reach: f64,
    /// How far the deck turns about the axle until that edge strikes the ground.
    pub strike: f64,
}

impl Tip {
    /// The tip of one end of a deck `thickness` mm thick; `None` where that end does not kick.
    ///
    /// φ = atan2(b, a) + asin(r ÷ hypot(a, b)), with a outward from the axle to the lower edge, b its height above the
    /// axle's centre, r the wheel's radius: the root of r + b·cos φ − a·sin φ = 0. The lower edge lies t·sin θ outward
    /// and t·(1 − cos θ) above the upper, less the thickness.
    #[must_use]
    pub fn of(shape: &Shape, end: &End, kick: &Kick, ride: &Ride, thickness: f64) -> Option<Self> {
        if !kick.kicks() {
            return None;
        }
        let bend = shape.datum.outer_row() + kick.bend_line;
        let beyond = end.end.x - bend;
        let (run, rise) = if beyond > 0.0 { kick.run_and_rise(beyond) } else { (beyond, 0.0) };
        let (sin, cos) = real::sincos(kick.angle_at(beyond));
        let axle = shape.datum.truck_centre() + ride.axle_offset;
        let reach = bend + run + thickness * sin - axle;
        let above = ride.axle_height + ride.riser + rise + thickness * (1.0 - cos);
        let wheel = ride.wheel_diameter / 2.0;
        let far = real::hypot(reach, above).max(wheel);
        Some(Self {
            rise,
            height: wheel + above,
            reach,
            strike: real::atan2(above, reach) + real::asin(wheel / far),
        })
    }
}

/// Half the width over the wheels, mm: as typed, or 3 mm inside the widest place of the deck (common practice, no source).
#[must_use]
pub fn half_width_over_wheels(measured: &Measured, ride: &Ride) -> f64 {
    ride.wheel_half_width.unwrap_or(measured.overall_width / 2.0 - 3.0)
}

/// How far the deck leans until it touches a wheel, radians: atan(g/y), y half the width over the wheels, g from the
/// wheel's top to the underside there. An estimate: it takes the lean to turn about the axle.
#[must_use]
pub fn wheel_bite_lean(shape: &Shape, measured: &Measured, ride: &Ride) -> f64 {
    let y = half_width_over_wheels(measured, ride);
    let axle = shape.datum.truck_centre() + ride.axle_offset;
    let raised = |x: f64| shape.profile.across(&shape.datum, x, y).1;
    let rise = raised(axle).min(raised(-axle));
    let gap = ride.axle_height + ride.riser + rise - ride.wheel_diameter / 2.0;
    real::atan2(gap, y)
}
