//! What a photograph says, in words.

use super::{Set, Traced};
use crate::{
    language::{figure, said},
    say,
    units::{System, Unit, Words, decimal, show},
};
use core::fmt;

/// A height known less well than this, as a share of it, is asked for where something stands up.
const VAGUE: f64 = 0.02;
/// Lens distortion below this share is not worth a word.
const STRAIGHT: f64 = 0.0005;

impl Words for Set<'_> {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        let length = |mm: f64| show(mm, Unit::Length, system);
        let worst = self.clicked.misfits.iter().fold(0.0, |worst: f64, misfit| worst.max(*misfit));
        let count = self.clicked.misfits.len();
        f.write_str(&say!("{count} holes, the worst {worst} off.", count, worst = length(worst)))?;
        if count == 4 {
            f.write_str(said(" Four always fit: click more to see by how much."))?;
        }
        f.write_str(&say!(" Rails to about ± {rails}.", rails = length(self.rail_error)))?;
        let tilt = figure(decimal(self.sight.tilt.to_degrees(), 0));
        f.write_str(&say!(" Camera {height} above the deck", height = length(self.sight.height)))?;
        if self.sight.height_off > VAGUE * self.sight.height {
            f.write_str(&say!(
                ", give or take {off}: measure it, because kicks and rails stand up and show too far out",
                off = length(self.sight.height_off)
            ))?;
        }
        f.write_str(&say!("; tilted {tilt}°.", tilt))?;
        if self.sight.bend.abs() > STRAIGHT {
            let share = figure(decimal(100.0 * self.sight.bend.abs(), 1));
            f.write_str(&say!(
                " The lens seems to bend straight lines by {share} % at the picture’s ends.",
                share
            ))?;
        }
        Ok(())
    }
}

impl Words for Traced {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        let length = |mm: f64| show(mm.abs(), Unit::Length, system);
        let side = if self.asymmetry < 0.0 { "right" } else { "left" };
        let end = if self.asymmetric_at.x < 0.0 { "tail" } else { "nose" };
        f.write_str(&say!("The halves differ by {asymmetry} at most ({asymmetric_at} to the {end}, the {side} one is wider) and by {usual_asymmetry} over half of the edge; the shape is their mean.", asymmetry = length(self.asymmetry), asymmetric_at = length(self.asymmetric_at.x), end, side, usual_asymmetry = length(self.usual_asymmetry)))?;
        let [tail, nose] = self.tip_errors;
        f.write_str(&say!(" Rails to about ± {rail_error}; for the camera’s height the tail tip to ± {tail}, the nose tip to ± {nose}. The fair curve of {nodes} nodes lies within {off_curve} of the edge found.", rail_error = length(self.rail_error), tail = length(tail), nose = length(nose), nodes = self.outline.nodes.len(), off_curve = length(self.off_curve)))
    }
}
