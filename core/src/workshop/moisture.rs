//! Moisture in wood: what air gives it, what glue adds, and what it does to strength and width.
//!
//! Moisture content is a share of the oven-dry mass: 0.07 is 7 %. WH is the Wood Handbook (see [`super::species`]).

use crate::{layup::Layup, real};

/// Moisture at which strength stops rising as wood dries from green (WH Eq 5-3, p. 5-34). White ash 0.24, yellow birch
/// 0.27.
pub const INTERSECTION: f64 = 0.25;

/// Moisture content of wood that has come to rest in air, a share.
///
/// WH Eq 4-5 (p. 4-3, Hailwood and Horrobin) for `temperature` in °C and relative `humidity` as a share. The printed
/// table is this equation rounded.
#[must_use]
pub fn at_rest_in_air(temperature: f64, humidity: f64) -> f64 {
    let t = temperature;
    let polynomial = |a: f64, b: f64, c: f64| a + t * (b + t * c);
    let w = polynomial(349.0, 1.29, 0.0135);
    let kh = polynomial(0.805, 0.000_736, -0.000_002_73) * humidity;
    let k1 = polynomial(6.27, -0.009_38, -0.000_303);
    let k2 = polynomial(1.91, 0.0407, -0.000_293);
    let (first, second) = (k1 * kh, k1 * k2 * kh * kh);
    18.0 / w * (kh / (1.0 - kh) + (first + 2.0 * second) / (1.0 + first + second))
}

/// A strength or stiffness at `moisture` from its values at 12 % and green (WH Eq 5-3), in their unit.
#[must_use]
pub fn property_at(moisture: f64, at_12: f64, green: f64, intersection: f64) -> f64 {
    at_12 * real::pow(at_12 / green, (0.12 - moisture) / (intersection - 0.12))
}

/// Shrinkage from green to `moisture` of a wood that shrinks by `to_dry` to oven-dry (WH Eq 4-9), shares.
#[must_use]
pub fn shrinkage_at(moisture: f64, to_dry: f64) -> f64 {
    to_dry * (1.0 - moisture / 0.30)
}

/// Change of width per width at 10 % moisture and per share of moisture, from the shrinkage to oven-dry.
///
/// The coefficients of WH Table 13-5 follow from Table 4-3 so: the shrinkage of one step over the width that is left
/// at 10 %.
#[must_use]
pub fn movement_of_shrinkage(to_dry: f64) -> f64 {
    (to_dry / 0.30) / (1.0 - to_dry * (20.0 / 30.0))
}

/// Change of a width in mm as its moisture changes by `change`, between 6 and 14 % (WH Table 13-5).
#[must_use]
pub fn change_of_width(width: f64, movement: f64, change: f64) -> f64 {
    width * movement * change
}

/// Moisture that the water of the glue adds to the plies, a share of their oven-dry mass; `solids` of the glue is a share.
#[must_use]
pub fn added_by_glue(layup: &Layup, solids: f64) -> Option<f64> {
    let wood: f64 = layup.plies.iter().map(|ply| ply.thickness * ply.species.dry_density()).sum();
    let water = layup.glue_lines() as f64 * layup.spread * (1.0 - solids);
    (wood > 0.0).then(|| water / wood)
}
