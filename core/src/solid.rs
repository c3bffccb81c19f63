//! The pressed deck as a solid: the flat sheet bent through its profile, with its thickness.
//!
//! The top face is the developed outline through [`Profile`](crate::profile::Profile): kicks, concave, fade, flat strip.
//! All else lies square below it. A [`Solid`] is cut into *slabs* between stations and *lanes* between rails, so that a
//! [`picture()`] hides what is hidden exactly: what lies between parallel planes is drawn from the farthest to the nearest, and
//! of each cell only the faces turned to the eye. [`Section`] is the same sheet cut square at one station.

mod picture;
mod section;
mod sheet;
mod space;
mod stand;
#[cfg(test)]
mod tests;

use crate::{
    design::Shape,
    layup::{Grain, Ply},
    outline::Half,
};
use kurbo::Point;

use self::sheet::Sheet;
pub(crate) use self::space::Surface;
pub use self::{
    picture::{Detail, picture},
    section::Section,
    space::Spot,
    stand::{Stand, Turn},
};

/// The pressed deck, cut up for drawing.
#[derive(Clone, Debug)]
pub struct Solid<'a> {
    surface: Surface<'a>,
    sheet: Sheet,
}

/// Depths below the top face, mm, at which each ply begins and ends in a deck of that thickness: the glue between the plies
/// and what pressing took are shared out evenly.
#[must_use]
pub fn plies(plies: &[Ply], thickness: f64) -> Vec<(f64, f64, Grain)> {
    let wood: f64 = plies.iter().map(|ply| ply.thickness).sum();
    let share = if wood > 0.0 { thickness / wood } else { 0.0 };
    let mut depth = 0.0;
    let mut bands = Vec::with_capacity(plies.len());
    for ply in plies {
        let below = depth + ply.thickness * share;
        bands.push((depth, below, ply.grain));
        depth = below;
    }
    bands
}

impl<'a> Solid<'a> {
    /// The deck of a shape whose resolved outline is `half`, `thickness` mm thick, its edge within `chord` mm.
    #[must_use]
    pub fn of(shape: &'a Shape, half: &Half, thickness: f64, chord: f64) -> Self {
        Self { surface: Surface { shape, thickness }, sheet: Sheet::of(shape, half, chord) }
    }

    /// The top face's edge on the drawn half, tail to nose.
    #[must_use]
    pub fn edge(&self) -> Vec<Spot> {
        self.sheet.chain.iter().map(|p| self.surface.at(*p, 0.0)).collect()
    }

    /// The centreline of the top face as it is cut up, tail to nose.
    #[must_use]
    pub fn centreline(&self) -> Vec<Spot> {
        self.sheet.stations.iter().map(|x| self.surface.at(Point::new(*x, 0.0), 0.0)).collect()
    }

    /// Area of the flat sheet as it is cut up, mm².
    #[must_use]
    pub fn flat_area(&self) -> f64 {
        let mut area = 0.0;
        for slab in &self.sheet.slabs {
            for [right, left] in &slab.strips {
                area += (slab.x[1] - slab.x[0]) * (left.at(0.5) - right.at(0.5));
            }
        }
        area
    }

    /// A place of the flat sheet, and so many mm square below it.
    #[must_use]
    pub fn at(&self, place: Point, depth: f64) -> Spot {
        self.surface.at(place, depth)
    }
}
