//! The two ends of a deck, so that one routine changes both.

use crate::{
    measure::{End, Measured},
    outline::Half,
};
use kurbo::Point;

/// One end of the deck.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    /// Toward +x.
    Nose,
    /// Toward −x.
    Tail,
}

impl Side {
    /// +1 where outward is toward the nose, −1 where it is toward the tail.
    pub(super) const fn sign(self) -> f64 {
        match self {
            Self::Nose => 1.0,
            Self::Tail => -1.0,
        }
    }

    /// Its measures.
    pub(super) const fn end(self, measured: &Measured) -> &End {
        match self {
            Self::Nose => &measured.nose,
            Self::Tail => &measured.tail,
        }
    }

    /// The half outline seen with this end toward +x.
    pub(super) fn outward(self, half: &Half) -> Half {
        match self {
            Self::Nose => half.clone(),
            Self::Tail => half.turned(),
        }
    }
}

/// The shoulder of an end, or where it has none the place midway from the reference to the end.
pub(super) fn brow(end: &End) -> Point {
    end.shoulder.map_or(end.taper_rule[1], |shoulder| shoulder.at)
}
