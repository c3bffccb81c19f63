//! Holes, edges and surfaces of the pressed deck.

use super::fault::Fault;
use crate::{measure::Measured, real};

/// Depth of a countersink, mm, that opens a hole of `hole` mm to `top` mm at an included `angle` in radians.
#[must_use]
pub fn countersink_depth(hole: f64, top: f64, angle: f64) -> f64 {
    (top - hole).max(0.0) / 2.0 / real::tan(angle / 2.0)
}

/// Checks the radius of the edges against the thickness: two of them must leave some edge.
#[must_use]
pub fn check_round_over(radius: f64, thickness: f64) -> Option<Fault> {
    let most = thickness / 2.0;
    (radius >= most).then_some(Fault::RoundOver { found: radius, most })
}

/// Bare wood to seal, mm²: both faces and the edge, on the developed sheet.
///
/// A round-over of radius r takes r of each face and of the edge at each corner and gives π·r/2 of arc: the girth shrinks
/// by (4 − π)·r in all.
#[must_use]
pub fn area_to_seal(measured: &Measured, thickness: f64, round_over: f64) -> f64 {
    let lost = (4.0 - core::f64::consts::PI) * round_over;
    2.0 * measured.area + measured.perimeter * (thickness - lost)
}

/// Length and width of the grip sheet that covers the top with `overlap` mm to cut off all round, mm.
#[must_use]
pub fn grip_sheet(measured: &Measured, overlap: f64) -> [f64; 2] {
    [measured.overall_length + 2.0 * overlap, measured.overall_width + 2.0 * overlap]
}
