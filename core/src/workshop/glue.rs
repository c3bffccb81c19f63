//! Glue: what is spread, what stays in the deck, what a closer blank would save.

use super::blank;
use crate::layup::Layup;

/// What a rate of spread is counted for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// For one glue line, however it is put on: never doubled.
    Line,
    /// For a face, and one face of each line is spread.
    OneFace,
    /// For a face, and both faces of each line are spread: counts twice.
    BothFaces,
}

impl Basis {
    /// All of them by their words in files and scripts.
    pub const WORDS: [(&'static str, Self); 3] =
        [("line", Self::Line), ("one-face", Self::OneFace), ("both-faces", Self::BothFaces)];

    /// The spread per glue line of a rate on this basis, in the unit of the rate.
    #[must_use]
    pub fn per_line(self, rate: f64) -> f64 {
        match self {
            Self::Line | Self::OneFace => rate,
            Self::BothFaces => 2.0 * rate,
        }
    }
}

/// The glue of one deck, g and mm³.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coverage {
    /// To weigh out: blank area × lines × spread × (1 + loss).
    pub mass: f64,
    /// The same as a volume.
    pub volume: f64,
    /// To weigh out for one line, loss included; 0 where there is no line.
    pub per_line: f64,
    /// Inside the outline, wet, without the loss.
    pub inside: f64,
    /// What stays in the deck when the water has gone.
    pub dry: f64,
    /// Saved by the smallest blank that keeps the margins; 0 where the blank is no larger than that.
    pub saved: f64,
}

impl Coverage {
    /// The glue of a layup under an outline of `area` mm², with `smallest` the length and width of the smallest blank that
    /// keeps its margins; `density` in g/mm³, `solids` a share.
    #[must_use]
    pub fn of(layup: &Layup, area: f64, smallest: blank::Size, density: f64, solids: f64) -> Self {
        let lines = layup.glue_lines() as f64;
        let mass = layup.glue_mass();
        let inside = area * lines * layup.spread;
        let closest = smallest.length.min(layup.blank_length) * smallest.width.min(layup.blank_width);
        let rate = lines * layup.spread * (1.0 + layup.loss);
        Self {
            mass,
            volume: mass / density,
            per_line: if lines > 0.0 { mass / lines } else { 0.0 },
            inside,
            dry: inside * solids,
            saved: (layup.blank_area() - closest) * rate,
        }
    }
}

/// Mass on a surface, g/mm², of a wet film of a thickness in mm and a density in g/mm³.
#[must_use]
pub fn of_film(thickness: f64, density: f64) -> f64 {
    thickness * density
}
