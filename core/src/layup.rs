//! The layup: the plies, the blank they are cut to, and the glue between them.

use crate::workshop::species::{SPECIES, Species};

/// Which way a ply's grain runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// Along the board, L.
    Along,
    /// Across the board, X: a cross ply.
    Across,
}

/// One veneer of the stack.
#[derive(Clone, Debug, PartialEq)]
pub struct Ply {
    /// Thickness, mm.
    pub thickness: f64,
    /// Direction of the grain.
    pub grain: Grain,
    /// The wood; stored by its key.
    pub species: &'static Species,
}

/// The stack from the top face down, its blank and its glue.
#[derive(Clone, Debug, PartialEq)]
pub struct Layup {
    /// Plies, top face first.
    pub plies: Vec<Ply>,
    /// Length of the rectangle each veneer is cut to, mm.
    pub blank_length: f64,
    /// Width of the rectangle each veneer is cut to, mm.
    pub blank_width: f64,
    /// Glue per *glue line* (never per face), g/mm².
    pub spread: f64,
    /// Glue lost on rollers, in pots and as squeeze-out, a share of what the lines take.
    pub loss: f64,
}

impl Default for Layup {
    /// Seven plies L L X L X L L of sugar maple, 1.5 mm each; blank and loss (common practice, no source); the spread as its
    /// row in the settings says.
    fn default() -> Self {
        use Grain::{Across, Along};
        Self {
            plies: [Along, Along, Across, Along, Across, Along, Along]
                .map(|grain| Ply { thickness: 1.5, grain, species: &SPECIES[0] })
                .to_vec(),
            blank_length: 838.2,
            blank_width: 241.3,
            spread: 200e-6,
            loss: 0.1,
        }
    }
}

impl Layup {
    /// Numbers of plies that can be laid up (common practice, no source).
    pub const PLY_COUNT: core::ops::RangeInclusive<usize> = 3..=13;

    /// Number of glue lines: one fewer than the plies.
    #[must_use]
    pub fn glue_lines(&self) -> usize {
        self.plies.len().saturating_sub(1)
    }

    /// Sum of the plies' thicknesses, mm, without the glue.
    #[must_use]
    pub fn wood_thickness(&self) -> f64 {
        self.plies.iter().map(|ply| ply.thickness).sum()
    }

    /// Area of the blank, mm².
    #[must_use]
    pub fn blank_area(&self) -> f64 {
        self.blank_length * self.blank_width
    }

    /// Glue to weigh out for one deck, g: blank area × glue lines × spread × (1 + loss).
    #[must_use]
    pub fn glue_mass(&self) -> f64 {
        self.blank_area() * self.glue_lines() as f64 * self.spread * (1.0 + self.loss)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Seven plies, six lines, 840 × 260 mm at 200 g/m²: 0.2184 m² × 6 × 200 = 262.1 g by hand.
    #[test]
    fn seven_plies_take_six_lines_of_glue() {
        let layup = Layup { blank_length: 840.0, blank_width: 260.0, loss: 0.0, ..Layup::default() };
        assert!((layup.glue_mass() - 262.08).abs() < 1e-9);
    }
}
