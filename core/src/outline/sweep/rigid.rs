//! Laid spans moved about: rigidly, along the sweep, round a node, or turned over.

use super::{MARK, SHORTEST};
use crate::{
    design::Refusal,
    outline::{Joint, Outline, Span, SpanEnd},
    real, tolerance, units,
};
use core::{f64::consts::FRAC_PI_2, ops::RangeInclusive};
use kurbo::{Point, Vec2};

impl Outline {
    /// The nodes that move with node `i` because laid spans hold them together.
    pub(in crate::outline) fn held_together(&self, i: usize) -> RangeInclusive<usize> {
        let laid = |s: usize| matches!(self.spans.get(s), Some(Span::Laid { .. }));
        let (mut first, mut last) = (i, i);
        while first > 0 && laid(first - 1) {
            first -= 1;
        }
        while laid(last) {
            last += 1;
        }
        first..=last
    }

    /// As much of a way as nodes that are held together can go: tips stay on the centreline, a twin's first node
    /// amidships.
    pub(in crate::outline) fn way_of(&self, nodes: &RangeInclusive<usize>, by: Vec2) -> Vec2 {
        let tip = nodes.clone().any(|i| self.is_tip(i));
        let amidships = nodes.clone().any(|i| self.is_amidships(i));
        Vec2::new(if amidships { 0.0 } else { by.x }, if tip { 0.0 } else { by.y })
    }

    pub(in crate::outline) fn shift(&mut self, nodes: RangeInclusive<usize>, by: Vec2) {
        for node in &mut self.nodes[nodes] {
            node.place += by;
        }
    }

    /// Brings laid spans whose nodes were moved apart back to their size: each goes, as it lay in `before`, as its tip
    /// went or, without a tip, by the mean of what its two ends went. What lies beside them follows.
    pub(crate) fn lay_anew(&mut self, before: &Self) {
        let mut i = 0;
        while i < self.nodes.len() {
            let held = self.held_together(i);
            let (first, last) = (*held.start(), *held.end());
            i = last + 1;
            let went = |i: usize| self.nodes[i].place - before.nodes[i].place;
            if first == last || (first..=last).all(|i| went(i) == went(first)) {
                continue;
            }
            let fixed = |i: &usize| self.is_tip(*i) || self.is_amidships(*i);
            let by = match [last, first].iter().find(|i| fixed(i)) {
                Some(&i) => self.way_of(&held, went(i)),
                None => (went(first) + went(last)) / 2.0,
            };
            for i in held {
                self.nodes[i].place = before.nodes[i].place + by;
            }
        }
    }

    /// The chain with the marks of laid span `s` farther along its sweep by `by` mm, or as far as the sweep goes. Its
    /// first node and the direction between its nodes stay; see [`Outline::turned`] for one with a tip.
    ///
    /// # Errors
    ///
    /// [`Refusal::Impossible`] where it is not laid, or where the sweep has no more to give.
    pub(crate) fn slid(&self, s: usize, by: f64) -> Result<Self, Refusal> {
        let Some(Span::Laid { sweep, from, to, flip, reverse }) = self.spans.get(s).copied() else {
            return Err(NOT_LAID);
        };
        if !by.is_finite() {
            return Err(NO_NUMBER);
        }
        let length = self.sweeps.get(sweep).map_or(0.0, super::Sweep::length);
        // Noseward along the outline is backward along a sweep that is laid reversed.
        let by = if reverse { -by } else { by };
        let by = units::whole_nm(real::clamp(by, -from, length - to));
        if by == 0.0 {
            return Err(Refusal::Impossible(
                "the sweep ends here: slide it the other way, or bring its two marks nearer to one another first",
            ));
        }
        Ok(self.with_laid(s, Span::Laid { sweep, from: from + by, to: to + by, flip, reverse }, 0.0))
    }

    /// The chain with the marks of laid span `s` elsewhere on its sweep. Its first node and the direction between its nodes
    /// stay; see [`Outline::turned`] for one with a tip.
    ///
    /// # Errors
    ///
    /// [`Refusal::Impossible`] where it is not laid, or for marks that are no two places on the sweep in order.
    pub(crate) fn marked(&self, s: usize, marks: [f64; 2]) -> Result<Self, Refusal> {
        let Some(Span::Laid { sweep, flip, reverse, .. }) = self.spans.get(s).copied() else {
            return Err(NOT_LAID);
        };
        let [from, to] = marks.map(units::whole_nm);
        let length = self.sweeps.get(sweep).map_or(0.0, super::Sweep::length);
        let in_order = from >= 0.0 && from + SHORTEST <= to && to <= length; // not so for NaN
        if !in_order {
            return Err(Refusal::Impossible(
                "the marks lie on the sweep, from 0 to its length, the first one at least 2 mm before the second",
            ));
        }
        Ok(self.with_laid(s, Span::Laid { sweep, from, to, flip, reverse }, 0.0))
    }

    /// The chain with laid span `s` turned by `by` radians about its first node; about its second where that lies
    /// nearer to the nose tip on the same sweep, which keeps its place. A tip that no longer stands square is a corner
    /// from then on.
    ///
    /// # Errors
    ///
    /// [`Refusal::Impossible`] where it is not laid.
    pub(crate) fn turned(&self, s: usize, by: f64) -> Result<Self, Refusal> {
        match self.spans.get(s) {
            Some(span @ Span::Laid { .. }) if by.is_finite() => Ok(self.with_laid(s, *span, by)),
            Some(Span::Laid { .. }) => Err(NO_NUMBER),
            _ => Err(NOT_LAID),
        }
    }

    /// The chain with the sweep of laid span `s` turned end for end, or `over` the line between its nodes so that it
    /// bends the other way.
    ///
    /// # Errors
    ///
    /// [`Refusal::Impossible`] where it is not laid.
    pub(crate) fn flipped(&self, s: usize, over: bool) -> Result<Self, Refusal> {
        let Some(Span::Laid { sweep, from, to, flip, reverse }) = self.spans.get(s).copied() else {
            return Err(NOT_LAID);
        };
        let reverse = if over { reverse } else { !reverse };
        Ok(self.with_laid(s, Span::Laid { sweep, from, to, flip: !flip, reverse }, 0.0))
    }

    /// The chain with `span` laid in place of laid span `s`, in the same direction or turned; at a smooth tip, unless it
    /// is turned on purpose, square to the centreline.
    fn with_laid(&self, s: usize, span: Span, turn: f64) -> Self {
        let mut chain = self.clone();
        let held = self.held_together(s);
        let at_end = *held.end() + 1 == self.nodes.len();
        let anchor = if at_end { SpanEnd::End } else { SpanEnd::Start };
        chain.spans[s] = span;
        let mut direction = self.chord(s) + turn;
        let node = Self::node_of(s, anchor);
        if turn == 0.0 && self.is_tip(node) && self.nodes[node].joint != Joint::Corner {
            direction += chain.off_square(s, anchor).unwrap_or(0.0);
        }
        let chord = chain.chord_of_marks(s).unwrap_or(0.0);
        let [p, q] = chain.ends_of(s, anchor, direction, chord);
        chain.shift(*held.start()..=s, p - self.nodes[s].place);
        chain.shift(s + 1..=*held.end(), q - self.nodes[s + 1].place);
        chain.settle();
        chain
    }

    /// By how much laid span `s` must be turned to stand square at a tip, radians.
    pub(super) fn off_square(&self, s: usize, tip: SpanEnd) -> Option<f64> {
        let tangents = self.laid_tangents(s)?;
        Some(match tip {
            SpanEnd::Start => real::wrapped(FRAC_PI_2 - tangents[0]),
            SpanEnd::End => real::wrapped(-FRAC_PI_2 - tangents[1]),
        })
    }

    /// The distance of the two marks of laid span `s`, mm.
    pub(in crate::outline) fn chord_of_marks(&self, s: usize) -> Option<f64> {
        let Span::Laid { sweep, from, to, .. } = *self.spans.get(s)? else { return None };
        Some(self.sweeps.get(sweep)?.chord(from, to))
    }

    /// The places of the two nodes of span `s` with one of them where it is.
    pub(super) fn ends_of(&self, s: usize, anchor: SpanEnd, direction: f64, chord: f64) -> [Point; 2] {
        let way = real::unit_vector(real::wrapped(direction)) * chord;
        match anchor {
            SpanEnd::Start => [self.nodes[s].place, self.nodes[s].place + way],
            SpanEnd::End => [self.nodes[s + 1].place - way, self.nodes[s + 1].place],
        }
    }

    /// How far the nodes of laid span `s` lie from being as far apart as its marks, mm; 0 for other spans.
    pub(in crate::outline) fn stretched_by(&self, s: usize) -> f64 {
        let apart = (self.nodes[s + 1].place - self.nodes[s].place).hypot2().sqrt();
        self.chord_of_marks(s).map_or(0.0, |chord| (apart - chord).abs())
    }

    /// The laid span that two of them make whose marks join, if they do and lie as one.
    pub(in crate::outline) fn joined(&self, s: usize) -> Option<Span> {
        let (Span::Laid { sweep, from, to, flip, reverse }, Some(Span::Laid { .. })) =
            (*self.spans.get(s)?, self.spans.get(s + 1))
        else {
            return None;
        };
        let Span::Laid { sweep: other, from: a, to: b, flip: over, reverse: back } = self.spans[s + 1] else {
            return None;
        };
        let gap = if reverse { b - from } else { to - a };
        let meets = gap.abs() < MARK;
        if (sweep, flip, reverse) != (other, over, back) || !meets {
            return None;
        }
        let (from, to) = (from.min(a), to.max(b));
        let apart = (self.nodes[s + 2].place - self.nodes[s].place).hypot2().sqrt();
        let chord = self.sweeps.get(sweep)?.chord(from, to);
        let tangents = [self.laid_tangents(s)?[1], self.laid_tangents(s + 1)?[0]];
        let as_one = (apart - chord).abs() <= tolerance::RIGID
            && real::wrapped(tangents[1] - tangents[0]).abs() <= AS_ONE;
        as_one.then_some(Span::Laid { sweep, from, to, flip, reverse })
    }
}

/// Two laid spans closer in direction than this, radians, lie as one: a node between them was rounded.
const AS_ONE: f64 = 1e-4;

const NOT_LAID: Refusal =
    Refusal::Impossible("this stretch is no sweep: select one that is, or lay one there");
const NO_NUMBER: Refusal = Refusal::Impossible("a sweep is moved by a finite amount");
