//! Plies round a bend: how tight they go, how much springs back, how far they slip.

use super::{fault::Fault, laminate::Layer};
use crate::layup::Grain;

/// Strain of the outer fibre of one ply bent to an inner radius, t/(2R + t), a share.
#[must_use]
pub fn strain(thickness: f64, radius: f64) -> f64 {
    thickness / (2.0 * radius + thickness)
}

/// Smallest inner radius, mm, to which a dry ply bends along its grain before its fibre reaches the strain at rupture:
/// (t/2)·(MOE/MOR − 1), elastic theory. An estimate; it agrees with the thinnest row of the plywood table. Many shops
/// press tighter (common practice, no source).
#[must_use]
pub fn smallest_radius(thickness: f64, elasticity: f64, rupture: f64) -> f64 {
    thickness / 2.0 * (elasticity / rupture - 1.0)
}

/// The smallest radius of a whole stack, mm: that of the ply that likes it least, of those with grain round the bend. A ply whose grain runs across
/// the bend has no published value and is left out; `None` where all are such.
#[must_use]
pub fn smallest_radius_of(layers: &[Layer]) -> Option<f64> {
    let along = layers.iter().filter(|layer| layer.grain == Grain::Along);
    let radii = along.map(|layer| smallest_radius(layer.thickness, layer.along, layer.rupture));
    radii.fold(None, |most, r| Some(most.map_or(r, |m: f64| m.max(r))))
}

/// What the mould must be for a deck to come out as wanted, elastic springback of `share` allowed for. Press one and
/// measure: moisture and creep come on top.
#[must_use]
pub fn mould(deck_angle: f64, deck_radius: f64, share: f64) -> (f64, f64) {
    (deck_angle / (1.0 - share), deck_radius * (1.0 - share))
}

/// What comes out of a mould: angle and radius of the deck.
#[must_use]
pub fn deck(mould_angle: f64, mould_radius: f64, share: f64) -> (f64, f64) {
    (mould_angle * (1.0 - share), mould_radius / (1.0 - share))
}

/// Length along the bend of a layer that lies `depth` mm below the top face, whose bend has `radius` mm and turns by
/// `angle`: θ·(R + depth), elementary geometry.
#[must_use]
pub fn length_at(angle: f64, radius: f64, depth: f64) -> f64 {
    angle * (radius + depth)
}

/// How far the bottom ply's end stays behind the top ply's at a kick: t·θ, mm. The blank must have it to spare.
#[must_use]
pub fn slip(angle: f64, thickness: f64) -> f64 {
    angle * thickness
}

/// Whether a bend is tighter than its plies like; a warning, never a refusal. `key` names the radius's field.
#[must_use]
pub fn check(key: &'static str, radius: f64, layers: &[Layer]) -> Option<Fault> {
    let least = smallest_radius_of(layers)?;
    (radius < least).then_some(Fault::TightBend { field: key, radius, least })
}
