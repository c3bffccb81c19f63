//! Stacks to start from, with five, seven and nine plies.

use super::species::Species;
use crate::layup::{Grain, Ply};

/// A stack to start from.
#[derive(Debug, PartialEq)]
pub struct Preset {
    /// Its grain, top face first: L along the board, X across it.
    pub grain: &'static str,
    /// Where it comes from.
    pub source: &'static str,
}

/// All presets. Each is the same from both faces.
pub const PRESETS: [Preset; 3] = [
    Preset { grain: "LXLXL", source: "common practice, no source: built as the seven are" },
    Preset { grain: "LLXLXLL", source: "common practice, no source" },
    Preset { grain: "LLXLLLXLL", source: "common practice, no source: built as the seven are" },
];

impl Preset {
    /// Its plies, all of one thickness in mm and of one wood.
    #[must_use]
    pub fn plies(&self, thickness: f64, species: &'static Species) -> Vec<Ply> {
        let grain = |letter| if letter == b'X' { Grain::Across } else { Grain::Along };
        self.grain.bytes().map(|letter| Ply { thickness, grain: grain(letter), species }).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        layup::Layup,
        workshop::{
            laminate::{Layer, balance},
            species::SPECIES,
        },
    };

    #[test]
    fn every_preset_is_balanced_and_of_both_grains() {
        for preset in &PRESETS {
            let layup = Layup { plies: preset.plies(1.5, &SPECIES[0]), ..Layup::default() };
            assert!(Layup::PLY_COUNT.contains(&layup.plies.len()));
            assert_eq!(balance(&Layer::of_layup(&layup)), []);
        }
        assert_eq!(PRESETS[1].plies(1.5, &SPECIES[0]), Layup::default().plies);
    }
}
