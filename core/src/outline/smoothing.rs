//! A stretch made fairer: the least movement of its pins that takes unwanted swells out of the edge.

use super::{Fault, Outline, Span};
use crate::{
    compare,
    curve::{batten::End, fair},
    real, tolerance,
};
use kurbo::Point;

/// What fairing a stretch did.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Faired {
    /// The farthest any point of the edge moved, mm.
    pub movement: f64,
    /// Swells of the curve in the battens concerned, before and after.
    pub swells: [usize; 2],
}

/// The farthest that fairing may move an edge, mm: more is drawing anew.
const LARGEST_BOUND: f64 = 2.0;

/// Times the movement is taken back a little where the edge between pins moves farther than they do.
const MOST_TRIES: u32 = 5;

/// Most pins that are faired together: the work grows with the fourth power of their number, and a stretch with more is
/// better drawn anew.
const MOST_PINS: usize = 24;

impl Outline {
    /// The chain with the nodes from `first` to `last` moved, the edge by `bound` mm at most, so that the battens through
    /// them swell as seldom as that allows. Cubic spans among them become battens first. Where that takes no swell away
    /// the chain comes back as it is.
    ///
    /// # Errors
    ///
    /// [`Fault`] where no batten follows the stretch.
    pub fn faired(&self, first: usize, last: usize, bound: f64) -> Result<(Self, Faired), Fault> {
        let mut chain = self.clone();
        let bound = if bound.is_finite() { real::clamp(bound, 0.0, LARGEST_BOUND) } else { 0.0 };
        if bound <= 0.0 {
            return Ok((self.clone(), Faired { movement: 0.0, swells: [0; 2] }));
        }
        // The conversion may take a fifth of the movement: few pins are what makes a curve fair.
        let accuracy = (bound / 5.0).max(tolerance::CONVERSION);
        let mut last = last;
        let mut s = first;
        while s < last {
            if matches!(chain.spans[s], Span::Cubic { .. }) {
                let before = chain.nodes.len();
                let run = (s..last).take_while(|&k| matches!(chain.spans[k], Span::Cubic { .. })).count();
                chain = chain.battened_within(s..s + run, accuracy)?;
                last += chain.nodes.len() - before;
                s += run + chain.nodes.len() - before;
            } else {
                s += 1;
            }
        }
        chain.relax()?;
        let battened = chain.clone();
        let mut swells = [0, 0];
        for spans in battened.battens() {
            let (from, to) = (first.max(spans.start), last.min(spans.end));
            if from >= to {
                continue;
            }
            if to - from > MOST_PINS {
                return Err(Fault::LongStretch { pins: to - from, most: MOST_PINS });
            }
            let pins: Vec<Point> = chain.nodes[spans.start..=spans.end].iter().map(|n| n.place).collect();
            let end = |node: usize| chain.tangent(node).map_or(End::Free, End::Tangent);
            let stretch = from - spans.start..=to - spans.start;
            let found = fair::fair(&pins, [end(spans.start), end(spans.end)], stretch, bound)
                .map_err(|error| Fault::Batten { node: spans.start, error })?;
            for (node, place) in (spans.start..=spans.end).zip(&found.pins) {
                chain.nodes[node].place = *place;
            }
            swells = [swells[0] + found.extrema[0], swells[1] + found.extrema[1]];
        }
        let kept = (self.clone(), Faired { movement: 0.0, swells: [swells[0]; 2] });
        if swells[1] >= swells[0] {
            return Ok(kept); // fair already, as far as the bound goes
        }
        // Between pins the edge may move a little farther than they do: then all of it moves a little less.
        let old = self.resolve();
        let mut share = 1.0;
        for _ in 0..MOST_TRIES {
            let mut tried = battened.clone();
            for (node, to) in tried.nodes.iter_mut().zip(&chain.nodes) {
                node.place = node.place.lerp(to.place, share);
            }
            tried.settle();
            tried.relax()?;
            let movement = compare::farthest(&old, &tried.resolve()).distance;
            if movement <= bound {
                return Ok((tried, Faired { movement, swells }));
            }
            share *= (bound / movement).min(0.95) - tolerance::TOUCH;
        }
        Ok(kept)
    }
}
