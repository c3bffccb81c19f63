//! Battens in the chain: which spans belong to one, and the solve that makes it fair after an edit.

use super::{Fault, Joint, Outline, Span};
use crate::{
    curve::{
        batten::{self, End},
        spiral::Spiral,
    },
    outline::chain::stored_angle,
    tolerance,
};
use core::ops::Range;
use kurbo::Point;

impl Outline {
    /// The spiral of batten span `s`; `None` where its tangents lie too far off its chord for one.
    pub(super) fn spiral(&self, s: usize) -> Option<Spiral> {
        let Span::Batten { start, end } = self.spans[s] else { return None };
        let (a, b) = (&self.nodes[s], &self.nodes[s + 1]);
        let from = self.tangent(s).or(start)?;
        let to = self.tangent(s + 1).or(end)?;
        Spiral::between(a.place, from, b.place, to)
    }

    /// The spans of each batten, tail to nose: batten spans joined by pins that are free to turn.
    #[must_use]
    pub fn battens(&self) -> Vec<Range<usize>> {
        let mut battens: Vec<Range<usize>> = Vec::new();
        for (s, span) in self.spans.iter().enumerate() {
            if !matches!(span, Span::Batten { .. }) {
                continue;
            }
            match battens.last_mut() {
                Some(last) if last.end == s && self.is_free_pin(s) => last.end = s + 1,
                _ => battens.push(s..s + 1),
            }
        }
        battens
    }

    /// Whether node `i` is a pin that a batten runs through and may turn at.
    fn is_free_pin(&self, i: usize) -> bool {
        let batten = |s: Option<usize>| {
            s.and_then(|s| self.spans.get(s)).is_some_and(|span| matches!(span, Span::Batten { .. }))
        };
        matches!(self.nodes[i].joint, Joint::Smooth(_)) && batten(i.checked_sub(1)) && batten(Some(i))
    }

    /// The largest jump of curvature at a pin of a batten, 1/mm.
    #[must_use]
    pub fn unfairness(&self) -> f64 {
        self.battens().into_iter().map(|spans| self.jump(&spans)).fold(0.0, f64::max)
    }

    fn jump(&self, spans: &Range<usize>) -> f64 {
        let spirals: Option<Vec<Spiral>> = spans.clone().map(|s| self.spiral(s)).collect();
        let Some(spirals) = spirals else { return f64::INFINITY };
        let inner = spirals
            .windows(2)
            .map(|pair| (pair[1].curvature(0.0) - pair[0].curvature(pair[0].length())).abs());
        let free = |node: usize, spiral: &Spiral| match self.nodes[node].joint {
            // At a free end the batten is a circular arc: its curvature does not change.
            Joint::Corner => spiral.rate().abs() * spiral.length(),
            _ => 0.0,
        };
        let ends = free(spans.start, &spirals[0]).max(free(spans.end, &spirals[spirals.len() - 1]));
        inner.fold(ends, f64::max)
    }

    /// Lays every batten anew that is no longer one: turns its pins so that tangent and curvature are equal on both
    /// sides of each. A batten that is fair already keeps its angles to the bit.
    ///
    /// # Errors
    ///
    /// [`Fault::Batten`] where no batten runs through the pins.
    pub(crate) fn relax(&mut self) -> Result<(), Fault> {
        for spans in self.battens() {
            if self.jump(&spans) > tolerance::BATTEN_JUMP {
                self.lay(&spans)?;
            }
        }
        Ok(())
    }

    fn lay(&mut self, spans: &Range<usize>) -> Result<(), Fault> {
        let (first, last) = (spans.start, spans.end);
        let pins: Vec<Point> = self.nodes[first..=last].iter().map(|node| node.place).collect();
        let end = |node: usize| self.tangent(node).map_or(End::Free, End::Tangent);
        let seed: Option<Vec<f64>> = (first..=last).map(|node| self.seed(node, spans)).collect();
        let angles = batten::solve(&pins, [end(first), end(last)], seed.as_deref())
            .map_err(|error| Fault::Batten { node: first, error })?;
        for (node, angle) in (first..=last).zip(&angles) {
            if self.is_free_pin(node) && node != first && node != last {
                self.nodes[node].joint = Joint::Smooth(stored_angle(*angle));
            }
        }
        if let Span::Batten { start, .. } = &mut self.spans[first] {
            *start = start.is_some().then(|| stored_angle(angles[0]));
        }
        if let Span::Batten { end, .. } = &mut self.spans[last - 1] {
            *end = end.is_some().then(|| stored_angle(angles[last - first]));
        }
        Ok(())
    }

    /// The angle a pin has now, to start the solve from.
    fn seed(&self, node: usize, spans: &Range<usize>) -> Option<f64> {
        let own = |s: usize, at_start: bool| match self.spans[s] {
            Span::Batten { start, end } => {
                if at_start {
                    start
                } else {
                    end
                }
            }
            _ => None,
        };
        self.tangent(node).or_else(
            || {
                if node == spans.start { own(node, true) } else { own(node - 1, false) }
            },
        )
    }
}
