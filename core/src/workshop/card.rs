//! The mould card: all that belongs to the mould and not to one outline. Many outlines share it.

use super::inputs::{Inputs, Mould};
use crate::{
    datum::Datum,
    design::{Design, Shape},
    profile::Profile,
};

/// What a mould fixes: its size and limits, the holes of its drill guides, its kicks and its concave.
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    mould: Mould,
    profile: Profile,
    /// Wheelbase, and length and width of the bolt pattern, mm.
    guides: [f64; 3],
}

impl Card {
    /// The card of a design's mould.
    #[must_use]
    pub fn of(design: &Design) -> Self {
        Self::new(design.shape(), design.workshop())
    }

    fn new(shape: &Shape, inputs: &Inputs) -> Self {
        let Datum { wheelbase, pattern_length, pattern_width, .. } = shape.datum;
        Self {
            mould: inputs.mould.clone(),
            profile: shape.profile.clone(),
            guides: [wheelbase, pattern_length, pattern_width],
        }
    }

    /// Whether two cards agree but for their locks.
    #[must_use]
    pub fn agrees(&self, other: &Self) -> bool {
        let unlocked = |card: &Self| {
            let mut card = card.clone();
            card.mould.locked = false;
            card
        };
        unlocked(self) == unlocked(other)
    }

    /// Whether it keeps its fields.
    #[must_use]
    pub fn is_locked(&self) -> bool {
        self.mould.locked
    }

    /// Writes the card into a shape and its inputs.
    pub fn put(&self, shape: &mut Shape, inputs: &mut Inputs) {
        inputs.mould.clone_from(&self.mould);
        shape.profile.clone_from(&self.profile);
        let [wheelbase, pattern_length, pattern_width] = self.guides;
        shape.datum = Datum { wheelbase, pattern_length, pattern_width, ..shape.datum };
    }
}
