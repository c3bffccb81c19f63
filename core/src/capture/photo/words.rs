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
        say!(in f, "{count} holes, the worst {worst} off.", count, worst = length(worst))?;
        if count == 4 {
            f.write_str(said(" Four always fit: click more to see by how much."))?;
        }
        say!(in f, " Rails to about ± {rails}.", rails = length(self.rail_error))?;
        let tilt = figure(decimal(self.sight.tilt.to_degrees(), 0));
        say!(in f, " Camera {height} above the deck", height = length(self.sight.height))?;
        if self.sight.height_off > VAGUE * self.sight.height {
            say!(in f, ", give or take {off}: measure it, because kicks and rails stand up and show too far out",
                off = length(self.sight.height_off)
            )?;
        }
        say!(in f, "; tilted {tilt}°.", tilt)?;
        let body = self.seen.body;
        let [thickness, round] = [body.thickness, body.round_over].map(length);
        say!(in f, " The deck is taken to be {thickness} thick, its edges rounded to {round}: as in Lay up.", thickness, round)?;
        if self.sight.bend.abs() > STRAIGHT {
            let share = figure(decimal(100.0 * self.sight.bend.abs(), 1));
            say!(in f, " The lens seems to bend straight lines by {share} % at the picture’s ends.",
                share
            )?;
        }
        Ok(())
    }
}

impl Words for Traced {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        let length = |mm: f64| show(mm.abs(), Unit::Length, system);
        let side = if self.asymmetry < 0.0 { "right" } else { "left" };
        let end = if self.asymmetric_at.x < 0.0 { "tail" } else { "nose" };
        say!(in f, "The halves differ by {asymmetry} at most ({asymmetric_at} to the {end}, the {side} one is wider) and by {usual_asymmetry} over half of the edge; the shape is their mean.", asymmetry = length(self.asymmetry), asymmetric_at = length(self.asymmetric_at.x), end, side, usual_asymmetry = length(self.usual_asymmetry))?;
        let [tail, nose] = self.tip_errors;
        say!(in f, " Rails to about ± {rail_error}; for the camera’s height the tail tip to ± {tail}, the nose tip to ± {nose}. The fair curve of {nodes} nodes lies within {off_curve} of the edge found.", rail_error = length(self.rail_error), tail = length(tail), nose = length(nose), nodes = self.outline.nodes.len(), off_curve = length(self.off_curve))
    }
}
