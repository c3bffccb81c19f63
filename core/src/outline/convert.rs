//! Spans of one kind made spans of another, with the curve where it was.

use super::{Course, Fault, Handle, Joint, Node, Outline, Span};
use crate::tolerance::CONVERSION;
use core::ops::Range;
use kurbo::{CubicBez, ParamCurve, Point};

/// Places on a span at which its distance from the old curve is taken.
const SAMPLES: u32 = 8;

impl Outline {
    /// The chain with some spans as one batten within [`CONVERSION`] of them: their nodes become its pins, and more are
    /// added where it strays. Corners stay corners, and a batten ends there.
    ///
    /// # Errors
    ///
    /// [`Fault::Batten`] where no batten comes so near, [`Fault::NodeCount`] where it would take too many pins.
    pub fn battened(&self, spans: Range<usize>) -> Result<Self, Fault> {
        self.battened_within(spans, CONVERSION)
    }

    /// As [`Outline::battened`], within `accuracy` mm: the looser, the fewer pins.
    pub(super) fn battened_within(&self, spans: Range<usize>, accuracy: f64) -> Result<Self, Fault> {
        let old: Vec<Course> = spans.clone().map(|s| self.course(s)).collect();
        let mut chain = self.clone();
        for s in spans.clone() {
            let course = self.course(s);
            chain.spans[s] =
                Span::Batten { start: Some(course.tangent(0.0)), end: Some(course.tangent(1.0)) };
        }
        for node in spans.start..=spans.end {
            chain.own_tangent(node, self.tangent(node));
        }
        chain.settle();
        // Which of the old spans each new one stands for, and from where to where.
        let mut shares: Vec<(usize, f64, f64)> = (0..old.len()).map(|i| (i, 0.0, 1.0)).collect();
        loop {
            let mut laid = chain.clone();
            laid.relax()?;
            let mut strays = Vec::new();
            for (k, &share) in shares.iter().enumerate() {
                if stray(&laid.course(spans.start + k), &old, share) > accuracy {
                    strays.push(k);
                }
            }
            if strays.is_empty() {
                return Ok(laid);
            }
            let nodes = chain.nodes.len() + strays.len();
            if nodes > Self::MOST_NODES {
                return Err(Fault::NodeCount(nodes));
            }
            // The last first, so that the places of the others stay.
            for k in strays.into_iter().rev() {
                let (i, from, to) = shares[k];
                let middle = f64::midpoint(from, to);
                chain.pin(spans.start + k, &old[i], middle);
                shares[k] = (i, from, middle);
                shares.insert(k + 1, (i, middle, to));
            }
        }
    }

    /// Adds a pin to batten span `s` where a curve stands at `t`.
    fn pin(&mut self, s: usize, curve: &Course, t: f64) {
        let Span::Batten { start, end } = self.spans[s] else { return };
        let joint = Joint::Smooth(curve.tangent(t));
        self.nodes.insert(s + 1, Node { place: curve.point(t), joint });
        self.spans[s] = Span::Batten { start, end: None };
        self.spans.insert(s + 1, Span::Batten { start: None, end });
        self.settle();
    }

    /// The chain with batten span `s` as cubics within [`CONVERSION`] of it: one, or as many as it takes.
    #[must_use]
    pub fn unbattened(&self, s: usize) -> Self {
        let course = self.course(s);
        if matches!(course, Course::Spiral(_)) {
            self.with_cubics(s, &cubics_within(&course))
        } else {
            self.clone()
        }
    }

    /// The chain with span `s` as those cubics, which run smoothly from its one node to its other.
    pub(super) fn with_cubics(&self, s: usize, pieces: &[CubicBez]) -> Self {
        let mut chain = self.clone();
        chain.spans.remove(s);
        for (i, c) in pieces.iter().enumerate() {
            let (start, end) = (Handle::Free(c.p1 - c.p0), Handle::Free(c.p2 - c.p3));
            chain.spans.insert(s + i, Span::Cubic { start, end });
            if i > 0 {
                let joint = Joint::Smooth(super::tangent_at(c, 0.0));
                chain.nodes.insert(s + i, Node { place: c.p0, joint });
            }
        }
        for (node, old) in [(s, s), (s + pieces.len(), s + 1)] {
            chain.own_tangent(node, self.tangent(old));
        }
        chain.settle();
        chain
    }
}

/// How far a new span strays from the share of an old one that it stands for, mm, both ways.
fn stray(new: &Course, old: &[Course], (i, from, to): (usize, f64, f64)) -> f64 {
    let inner = (1..SAMPLES).map(|k| f64::from(k) / f64::from(SAMPLES));
    inner
        .map(|u| {
            let there = new.nearest(old[i].point(from + u * (to - from))).1;
            there.max(old[i].nearest(new.point(u)).1)
        })
        .fold(0.0, f64::max)
}

/// A course as few cubics within [`CONVERSION`] of it.
pub(super) fn cubics_within(course: &Course) -> Vec<CubicBez> {
    let Course::Spiral(spiral) = course else { return course.curves().collect() };
    let few = (1..=8).map(|n| spiral.cubics_of(n)).find(|pieces| off(pieces, course) <= CONVERSION);
    few.unwrap_or_else(|| spiral.cubics().collect())
}

/// How far cubics lie off a course, mm.
fn off(curves: &[CubicBez], course: &Course) -> f64 {
    let samples = curves.iter().flat_map(|c| (1..SAMPLES).map(|k| c.eval(f64::from(k) / f64::from(SAMPLES))));
    samples.map(|p: Point| course.nearest(p).1).fold(0.0, f64::max)
}
