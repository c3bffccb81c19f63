//! What a photograph says, in words.

use super::{Set, Traced};
use crate::units::{System, Unit, Words, decimal, show};
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
        write!(f, "{count} holes, the worst {} off.", length(worst))?;
        if count == 4 {
            f.write_str(" Four always fit: click more to see by how much.")?;
        }
        write!(f, " Rails to about ± {}.", length(self.rail_error))?;
        let tilt = decimal(self.sight.tilt.to_degrees(), 0);
        write!(f, " Camera {} above the deck", length(self.sight.height))?;
        if self.sight.height_off > VAGUE * self.sight.height {
            write!(
                f,
                ", give or take {}: measure it, because kicks and rails stand up and show too far out",
                length(self.sight.height_off)
            )?;
        }
        write!(f, "; tilted {tilt}°.")?;
        let body = self.seen.body;
        let [thickness, round] = [body.thickness, body.round_over].map(length);
        write!(f, " The deck is taken to be {thickness} thick, its edges rounded to {round}: as in Lay up.")?;
        if self.sight.bend.abs() > STRAIGHT {
            let share = decimal(100.0 * self.sight.bend.abs(), 1);
            write!(f, " The lens seems to bend straight lines by {share} % at the picture’s ends.")?;
        }
        Ok(())
    }
}

impl Words for Traced {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        let length = |mm: f64| show(mm.abs(), Unit::Length, system);
        let side = if self.asymmetry < 0.0 { "right" } else { "left" };
        let end = if self.asymmetric_at.x < 0.0 { "tail" } else { "nose" };
        write!(
            f,
            "The halves differ by {} at most ({} to the {end}, the {side} one is wider) and by {} over half of the edge; the shape is their mean.",
            length(self.asymmetry),
            length(self.asymmetric_at.x),
            length(self.usual_asymmetry)
        )?;
        let [tail, nose] = self.tip_errors;
        write!(
            f,
            " Rails to about ± {}; for the camera’s height the tail tip to ± {}, the nose tip to ± {}. The fair curve of {} nodes lies within {} of the edge found.",
            length(self.rail_error),
            length(tail),
            length(nose),
            self.outline.nodes.len(),
            length(self.off_curve)
        )
    }
}
