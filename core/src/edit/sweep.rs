//! Changes that have to do with sweeps.

use crate::{
    curve::family::Family,
    design::Refusal,
    outline::{Outline, Sweep, SweepCurve},
};
use kurbo::Point;

/// One change to the sweeps of an outline, or to where they are laid.
#[derive(Clone, Debug, PartialEq)]
pub enum SweepEdit {
    /// Keeps the stretch between two nodes as a sweep.
    Keep {
        /// One end of the stretch.
        from: usize,
        /// The other end.
        to: usize,
        /// What to call it.
        name: String,
    },
    /// Adds a sweep of one of the families.
    Add {
        /// What to call it.
        name: String,
        /// Its curve.
        family: Family,
    },
    /// Gives a sweep another name.
    Rename {
        /// Its index.
        sweep: usize,
        /// The name.
        name: String,
    },
    /// Gives a sweep that is laid nowhere other dimensions.
    Reshape {
        /// Its index.
        sweep: usize,
        /// Its curve.
        family: Family,
    },
    /// Takes away a sweep that is laid nowhere.
    Remove {
        /// Its index.
        sweep: usize,
    },
    /// Lays a sweep on the edge by two touches; see [`Outline::with_sweep_laid`].
    Lay {
        /// Its index.
        sweep: usize,
        /// Where the edge was touched, mm, on any half.
        at: [Point; 2],
    },
    /// Moves the two marks of a laid span along its sweep.
    Slide {
        /// Index of the span.
        span: usize,
        /// By how much noseward, mm; no farther than the sweep goes.
        by: f64,
    },
    /// Puts the two marks of a laid span elsewhere on its sweep.
    Mark {
        /// Index of the span.
        span: usize,
        /// Arc lengths along the sweep, mm, the smaller one first.
        marks: [f64; 2],
    },
    /// Turns a laid span about its first node, or about its second where the nose tip holds that.
    Turn {
        /// Index of the span.
        span: usize,
        /// By how much, radians.
        by: f64,
    },
    /// Turns the sweep of a laid span over.
    Flip {
        /// Index of the span.
        span: usize,
        /// Over the line between its nodes, so that it bends the other way; else end for end.
        over: bool,
    },
    /// Makes a laid span one or more spans of its own, with the curve where it is.
    Free {
        /// Index of the span.
        span: usize,
    },
}

impl SweepEdit {
    /// The outline with the change made.
    pub(super) fn made_on(&self, outline: &Outline) -> Result<Outline, Refusal> {
        let laid = |span: usize| {
            if span < outline.spans.len() { Ok(span) } else { Err(Refusal::NoSuch("span")) }
        };
        let kept = |sweep: usize| outline.sweeps.get(sweep).ok_or(Refusal::NoSuch("sweep"));
        match self {
            Self::Keep { from, to, name } => {
                if *from.max(to) >= outline.nodes.len() {
                    return Err(Refusal::NoSuch("node"));
                }
                outline.with_stretch_kept(*from.min(to), *from.max(to), name)
            }
            Self::Add { name, family } => outline.with_sweep(Sweep::new(name, SweepCurve::Family(*family))?),
            Self::Rename { sweep, name } => {
                let renamed = kept(*sweep)?.renamed(name)?;
                let mut outline = outline.clone();
                outline.sweeps[*sweep] = renamed;
                Ok(outline)
            }
            Self::Reshape { sweep, family } => {
                let reshaped = Sweep::new(kept(*sweep)?.name(), SweepCurve::Family(*family))?;
                outline.with_sweep_reshaped(*sweep, reshaped)
            }
            Self::Remove { sweep } => {
                kept(*sweep)?;
                outline.without_sweep(*sweep)
            }
            Self::Lay { sweep, at } => {
                kept(*sweep)?;
                outline.with_sweep_laid(*sweep, *at)
            }
            Self::Slide { span, by } => outline.slid(laid(*span)?, *by),
            Self::Mark { span, marks } => outline.marked(laid(*span)?, *marks),
            Self::Turn { span, by } => outline.turned(laid(*span)?, *by),
            Self::Flip { span, over } => outline.flipped(laid(*span)?, *over),
            Self::Free { span } => outline.freed(laid(*span)?),
        }
    }
}
