//! The stack as a plate: how stiff it is along and across the board.

use super::fault::Fault;
use crate::layup::{Grain, Layup, Ply};

/// One ply as the plate sees it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Thickness, mm.
    pub thickness: f64,
    /// Modulus along its grain, MPa.
    pub along: f64,
    /// Modulus across its grain, MPa.
    pub across: f64,
    /// Strength along its grain (modulus of rupture), MPa.
    pub rupture: f64,
    /// Which way its grain runs: along the board (0°) or across it (90°).
    pub grain: Grain,
}

/// Stiffness in one direction of the board, per mm of width.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Stiffness {
    /// Σ E·t, N/mm: what the concave multiplies.
    pub stretch: f64,
    /// D of the glued stack, N·mm: Σ E·(t³/12 + t·y²) about the modulus-weighted axis.
    pub bend: f64,
    /// D of the same plies lying loose: Σ E·t³/12, N·mm.
    pub loose: f64,
    /// Depth of the modulus-weighted axis below the top face, mm.
    pub axis: f64,
}

/// The glued stack.
#[derive(Clone, Debug, PartialEq)]
pub struct Laminate {
    /// Sum of the plies, mm, without the glue.
    pub thickness: f64,
    /// Stiffness for bending along the board.
    pub along: Stiffness,
    /// Stiffness for bending across the board.
    pub across: Stiffness,
}

impl Layer {
    /// The plies of a layup, top face first.
    #[must_use]
    pub fn of_layup(layup: &Layup) -> Vec<Self> {
        let layer = |ply: &Ply| Self {
            thickness: ply.thickness,
            along: ply.species.elasticity,
            across: ply.species.elasticity_across(),
            rupture: ply.species.rupture,
            grain: ply.grain,
        };
        layup.plies.iter().map(layer).collect()
    }

    fn modulus(&self, direction: Grain) -> f64 {
        if self.grain == direction { self.along } else { self.across }
    }
}

impl Stiffness {
    /// Share of a bend that springs back when the glued stack leaves the mould: Σ E·t³/12 ÷ D, elastic theory. Equal plies
    /// give 1/n². Moisture and creep come on top.
    #[must_use]
    pub fn springback(&self) -> f64 {
        if self.bend > 0.0 { self.loose / self.bend } else { 0.0 }
    }

    /// The modulus of a solid board as thick and as stiff, MPa: 12·D/t³.
    #[must_use]
    pub fn modulus(&self, thickness: f64) -> f64 {
        12.0 * self.bend / (thickness * thickness * thickness)
    }
}

impl Laminate {
    /// The plate of a stack, top face first.
    ///
    /// The layered beam of Owen and Hinton, *Finite Elements in Plasticity*, Eq 5.49; plywood reckoned so agrees with
    /// the mean moduli of the *Handbook of Finnish Plywood*, 2002 (from memory), to the last digit.
    ///
    /// # Errors
    ///
    /// [`Fault::NoPlies`], and [`Fault::Thickness`] where a ply is not thicker than nothing.
    pub fn of(layers: &[Layer]) -> Result<Self, Fault> {
        if layers.is_empty() {
            return Err(Fault::NoPlies);
        }
        let no_ply = |layer: &Layer| !layer.thickness.is_finite() || layer.thickness <= 0.0;
        if let Some(i) = layers.iter().position(no_ply) {
            return Err(Fault::Thickness { ply: i + 1, found: layers[i].thickness });
        }
        Ok(Self {
            thickness: layers.iter().map(|layer| layer.thickness).sum(),
            along: stiffness(layers, Grain::Along),
            across: stiffness(layers, Grain::Across),
        })
    }
}

fn stiffness(layers: &[Layer], direction: Grain) -> Stiffness {
    let (mut stretch, mut moment, mut top) = (0.0, 0.0, 0.0);
    for layer in layers {
        let pull = layer.modulus(direction) * layer.thickness;
        stretch += pull;
        moment += pull * (top + layer.thickness / 2.0);
        top += layer.thickness;
    }
    // A stack without any modulus in this direction bends about its middle, with no stiffness.
    let axis = if stretch > 0.0 { moment / stretch } else { top / 2.0 };
    let (mut bend, mut loose, mut top) = (0.0, 0.0, 0.0);
    for layer in layers {
        let pull = layer.modulus(direction) * layer.thickness;
        let own = pull * layer.thickness * layer.thickness / 12.0;
        let arm = top + layer.thickness / 2.0 - axis;
        loose += own;
        bend += own + pull * arm * arm;
        top += layer.thickness;
    }
    Stiffness { stretch, bend, loose, axis }
}

/// What is doubtful about a stack: grain one way only, or a top half that is not the mirror of the bottom half.
///
/// "Straight grain veneers and symmetry should always be sought" (a review of the shape stability of laminated veneer
/// products, abstract).
#[must_use]
pub fn balance(layers: &[Layer]) -> Vec<Fault> {
    let mut found = Vec::new();
    if let Some(first) = layers.first()
        && layers.iter().all(|layer| layer.grain == first.grain)
    {
        found.push(Fault::OneGrain);
    }
    if layers.iter().zip(layers.iter().rev()).any(|(a, b)| a != b) {
        found.push(Fault::Unbalanced);
    }
    found
}
