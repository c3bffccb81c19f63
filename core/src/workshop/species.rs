//! The woods a ply can be of, with published strength, stiffness and shrinkage.
//!
//! WH is the *Wood Handbook: Wood as an Engineering Material* of the USDA Forest Products Laboratory: Table 5-3a
//! (strength, at 12 % moisture), 5-1 (elastic ratios), 4-3 (shrinkage) and 13-5 (2010 edition: change of dimension, 6 to 14 %). Its tables were
//! read in transcriptions; what is only remembered is marked so, and is never shown as a citation.

use crate::{
    language::said,
    say,
    units::{System, Unit, show},
};

/// A wood, as small clear specimens of it were tested at 12 % moisture.
#[derive(Debug, PartialEq)]
pub struct Species {
    /// Its name in files and scripts.
    pub key: &'static str,
    /// Its name on screen.
    pub label: &'static str,
    /// Specific gravity: oven-dry mass over the volume at 12 % moisture, relative to water.
    pub gravity: f64,
    /// Modulus of rupture in bending along the grain (MOR), MPa.
    pub rupture: f64,
    /// Modulus of elasticity in bending along the grain (MOE), MPa. It was measured at a span of 14 depths and contains
    /// the shear (the Wood Handbook's note to the table, from memory), so that a beam of it takes no shear term.
    pub elasticity: f64,
    /// E across the grain ÷ E along it for a rotary-cut sheet (ET/EL of WH Table 5-1), where known.
    pub across: Option<f64>,
    /// Shrinkage from green to oven-dry, radial and tangential, shares (WH Table 4-3), where known.
    pub shrinkage: Option<[f64; 2]>,
    /// Change of width per 0.01 of moisture ÷ 0.01, radial and tangential (WH Table 13-5), where known.
    pub movement: Option<[f64; 2]>,
    /// Where strength and stiffness were read.
    pub source: &'static str,
    /// Which of the figures are from memory; may be empty.
    pub from_memory: &'static str,
}

const EDITION_2021: &str =
    "Wood Handbook 2021 (FPL-GTR-282), Table 5-3a; across Table 5-1, density Eq 4-14; read in transcriptions";
const EDITION_2010: &str =
    "Wood Handbook 2010 (FPL-GTR-190), Table 5-3a; across Table 5-1, density Eq 4-14; read in transcriptions";

/// The woods on offer, the usual one first.
pub const SPECIES: [Species; 7] = [
    Species {
        key: "sugar-maple",
        label: "Maple, sugar (hard)",
        gravity: 0.63,
        rupture: 109.0,
        elasticity: 12_600.0,
        across: Some(0.065),
        shrinkage: Some([0.048, 0.099]),
        movement: Some([0.165, 0.353]),
        source: EDITION_2021,
        from_memory: "",
    },
    Species {
        key: "red-maple",
        label: "Maple, red",
        gravity: 0.54,
        rupture: 92.0,
        elasticity: 11_300.0,
        across: Some(0.067),
        shrinkage: None,
        movement: None,
        source: EDITION_2021,
        from_memory: "ratio across the grain",
    },
    Species {
        key: "yellow-birch",
        label: "Birch, yellow",
        gravity: 0.62,
        rupture: 114.0,
        elasticity: 13_900.0,
        across: Some(0.050),
        shrinkage: Some([0.073, 0.095]),
        movement: Some([0.256, 0.338]),
        source: EDITION_2021,
        from_memory: "ratio across the grain, shrinkage",
    },
    // The 2021 edition has 106 MPa; the lower of the two is kept.
    Species {
        key: "white-ash",
        label: "Ash, white",
        gravity: 0.60,
        rupture: 103.0,
        elasticity: 12_000.0,
        across: Some(0.080),
        shrinkage: Some([0.049, 0.078]),
        movement: Some([0.169, 0.274]),
        source: EDITION_2010,
        from_memory: "ratio across the grain",
    },
    Species {
        key: "shagbark-hickory",
        label: "Hickory, shagbark",
        gravity: 0.72,
        rupture: 139.0,
        elasticity: 14_900.0,
        across: None,
        shrinkage: Some([0.070, 0.105]),
        movement: Some([0.259, 0.411]),
        source: EDITION_2021,
        from_memory: "shrinkage",
    },
    Species {
        key: "pecan-hickory",
        label: "Hickory, pecan",
        gravity: 0.66,
        rupture: 94.0,
        elasticity: 11_900.0,
        across: None,
        shrinkage: None,
        movement: Some([0.169, 0.315]),
        source: EDITION_2021,
        from_memory: "",
    },
    Species {
        key: "american-beech",
        label: "Beech, American",
        gravity: 0.64,
        rupture: 103.0,
        elasticity: 11_900.0,
        across: None,
        shrinkage: None,
        movement: None,
        source: EDITION_2021,
        from_memory: "",
    },
];

impl Species {
    /// The species with that key, where there is one.
    #[must_use]
    pub fn find(key: &str) -> Option<&'static Self> {
        SPECIES.iter().find(|species| species.key == key)
    }

    /// Its strength, stiffness and weight in words, and where they were read.
    #[must_use]
    pub fn words(&self, system: System) -> String {
        let pressure = |value| show(value, Unit::Pressure, system);
        let across = match self.across {
            Some(ratio) => say!("{ratio} of that across", ratio = show(ratio, Unit::Share, system)),
            None => said("across not known, taken as none").to_owned(),
        };
        let memory = if self.from_memory.is_empty() { "" } else { "; from memory: " };
        say!(
            "{label}: {density}, breaks at {rupture}, modulus {elasticity}, {across}. {source}{memory}{from_memory}.",
            label = self.label,
            density = show(self.density(), Unit::Density, system),
            rupture = pressure(self.rupture),
            elasticity = pressure(self.elasticity),
            across,
            source = self.source,
            memory,
            from_memory = self.from_memory
        )
    }

    /// Density at 12 % moisture, g/mm³: specific gravity × 1.12 (WH Eq 4-14). Never gravity a page has already
    /// multiplied.
    #[must_use]
    pub fn density(&self) -> f64 {
        self.dry_density() * 1.12
    }

    /// Oven-dry mass in the volume at 12 % moisture, g/mm³.
    #[must_use]
    pub fn dry_density(&self) -> f64 {
        self.gravity * 1e-3
    }

    /// Modulus across the grain of a rotary-cut sheet, MPa; 0 where no ratio is known: a cross ply then counts for
    /// nothing along the board, and the stiffness is the least it can be.
    #[must_use]
    pub fn elasticity_across(&self) -> f64 {
        self.across.map_or(0.0, |ratio| ratio * self.elasticity)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hard_maple_weighs_what_its_gravity_makes_it() {
        assert!((SPECIES[0].density() * 1e6 - 705.6).abs() < 1e-9);
    }

    #[test]
    fn every_species_is_found_by_its_key() {
        for species in &SPECIES {
            assert_eq!(Species::find(species.key), Some(species));
        }
        assert_eq!(Species::find("oak"), None);
    }
}
