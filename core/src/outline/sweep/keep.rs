//! Sweeps kept, renamed and taken away; laid spans set free.

use super::{CORNERED, Leg, NO_CURVE, Sweep, SweepCurve};
use crate::{
    design::Refusal,
    outline::{Course, Joint, Outline, Span},
};
use kurbo::{Point, Vec2};

impl Outline {
    /// The chain with the stretch between nodes `from` and `to` kept as one more sweep; the outline stays as it is.
    ///
    /// # Errors
    ///
    /// [`Refusal`]: a stretch with a corner inside or none at all, too many sweeps, a name that is too long.
    pub fn with_stretch_kept(&self, from: usize, to: usize, name: &str) -> Result<Self, Refusal> {
        if from >= to {
            return Err(NO_CURVE);
        }
        if (from + 1..to).any(|i| self.nodes[i].joint == Joint::Corner) {
            return Err(CORNERED);
        }
        let origin = self.nodes[from].place.to_vec2();
        let mut legs = Vec::new();
        for s in from..to {
            match self.course(s) {
                Course::Laid(laid) => {
                    let last = laid.parts.len() - 1;
                    for (i, part) in laid.parts.iter().enumerate() {
                        // The last part ends at the node, where the next span begins.
                        legs.push(leg(part, origin, (i == last).then_some(laid.ends[1])));
                    }
                }
                course => legs.push(leg(&course, origin, None)),
            }
        }
        self.with_sweep(Sweep::new(name, SweepCurve::Own(legs))?)
    }

    /// The chain with one more sweep.
    ///
    /// # Errors
    ///
    /// [`Refusal::TooMany`].
    pub fn with_sweep(&self, sweep: Sweep) -> Result<Self, Refusal> {
        let mut chain = self.clone();
        chain.sweeps.push(sweep);
        let (found, legs) = (chain.sweeps.len(), chain.sweeps.iter().map(Sweep::legs).sum());
        if found > Sweep::MOST {
            return Err(Refusal::TooMany { what: "sweeps", found, most: Sweep::MOST });
        }
        if legs > Sweep::MOST_LEGS {
            let what = "pieces of all kept sweeps together";
            return Err(Refusal::TooMany { what, found: legs, most: Sweep::MOST_LEGS });
        }
        Ok(chain)
    }

    /// How many spans are laid by a sweep.
    #[must_use]
    pub fn laid_by(&self, index: usize) -> usize {
        self.spans.iter().filter(|span| matches!(span, Span::Laid { sweep, .. } if *sweep == index)).count()
    }

    /// The chain without a sweep.
    ///
    /// # Errors
    ///
    /// [`Refusal::Impossible`] while it is laid somewhere.
    pub(crate) fn without_sweep(&self, index: usize) -> Result<Self, Refusal> {
        if self.laid_by(index) > 0 {
            return Err(Refusal::Impossible(
                "this sweep is laid on the edge: set that stretch free, or draw it anew, before you take the sweep away",
            ));
        }
        let mut chain = self.clone();
        chain.drop_sweeps(|i| i != index);
        Ok(chain)
    }

    /// The chain with another curve in place of a sweep that is laid nowhere: what is laid stays the very same curve.
    pub(crate) fn with_sweep_reshaped(&self, index: usize, sweep: Sweep) -> Result<Self, Refusal> {
        if self.laid_by(index) > 0 && sweep != self.sweeps[index] {
            return Err(Refusal::Impossible(
                "this sweep is laid on the edge, where it stays as it is: add another one with those dimensions",
            ));
        }
        let mut chain = self.clone();
        chain.sweeps[index] = sweep;
        Ok(chain)
    }

    /// The chain with only the sweeps that are laid on it.
    #[must_use]
    pub(crate) fn with_used_sweeps(&self) -> Self {
        let mut chain = self.clone();
        chain.drop_sweeps(|i| self.laid_by(i) > 0);
        chain
    }

    /// Drops the sweeps that are not to stay, and numbers the rest anew.
    fn drop_sweeps(&mut self, stays: impl Fn(usize) -> bool) {
        for span in &mut self.spans {
            if let Span::Laid { sweep, .. } = span {
                *sweep = (0..*sweep).filter(|&i| stays(i)).count();
            }
        }
        let mut i = 0;
        self.sweeps.retain(|_| {
            i += 1;
            stays(i - 1)
        });
    }

    /// The chain with laid span `s` as cubics, or as a batten where that would take many, within
    /// [`CONVERSION`](crate::tolerance::CONVERSION) of it.
    ///
    /// # Errors
    ///
    /// [`Refusal::Impossible`] where it is not laid, [`Refusal::Outline`] where it would take too many nodes.
    pub(crate) fn freed(&self, s: usize) -> Result<Self, Refusal> {
        /// More nodes than this are no help to a hand.
        const MOST_CUBICS: usize = 8;
        let course = self.course(s);
        let Course::Laid(laid) = &course else {
            return Err(Refusal::Impossible("this stretch is no sweep: select one that is"));
        };
        let mut curves: Vec<_> = laid.parts.iter().flat_map(super::super::convert::cubics_within).collect();
        laid.join(curves.iter_mut());
        if curves.len() > MOST_CUBICS {
            return self.battened(s..s + 1).map_err(Refusal::Outline);
        }
        Ok(self.with_cubics(s, &curves))
    }
}

/// A course as a leg seen from the place where the sweep begins.
fn leg(course: &Course, origin: Vec2, end: Option<Point>) -> Leg {
    let to = end.unwrap_or_else(|| course.point(1.0)) - origin;
    match course {
        Course::Line(curve) | Course::Cubic(curve) => Leg::Cubic(curve.p1 - origin, curve.p2 - origin, to),
        Course::Spiral(_) | Course::Laid(_) => Leg::Spiral(course.tangent(0.0), course.tangent(1.0), to),
    }
}
