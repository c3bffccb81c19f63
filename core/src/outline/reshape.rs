//! Changes to a chain. Each gives the changed chain in its settled form and leaves validity to the one door.

use super::{Course, Handle, Joint, Node, Outline, Span, SpanEnd};
use crate::real;
use kurbo::{ParamCurve, Point};

impl Outline {
    /// The chain with node `i` at `to`. A tip stays on the centreline and a twin's first node amidships; handles
    /// travel with their node, and so do, all by one way, the nodes that a laid sweep holds to it.
    #[must_use]
    pub fn with_node_at(&self, i: usize, to: Point) -> Self {
        let mut chain = self.clone();
        let held = self.held_together(i);
        if held.start() < held.end() {
            let by = self.way_of(&held, to - self.nodes[i].place);
            chain.shift(held, by);
        } else {
            chain.nodes[i].place = to;
        }
        chain.settle();
        chain
    }

    /// The chain with the off-curve point at one end of span `s` at `to`.
    ///
    /// At a smooth node the tangent turns with it, and with the tangent the handle on the other side; where something
    /// else gives the tangent only the length follows. Nothing happens on a straight span.
    #[must_use]
    pub fn with_handle_at(&self, s: usize, end: SpanEnd, to: Point) -> Self {
        let mut chain = self.clone();
        let node = Self::node_of(s, end);
        let offset = to - self.nodes[node].place;
        // Direction of travel: away from the node at the start of a span, toward it at the end.
        let travel = if end == SpanEnd::Start { offset } else { -offset };
        let handle = match self.nodes[node].joint {
            Joint::Corner => Handle::Free(offset),
            Joint::Smooth(_) => {
                chain.nodes[node].joint = Joint::Smooth(real::direction(travel));
                Handle::Along(travel.hypot())
            }
            Joint::Led => Handle::Along(travel.dot(real::unit_vector(self.led_tangent(node)))),
        };
        if let Span::Cubic { start, end: last } = &mut chain.spans[s] {
            match end {
                SpanEnd::Start => *start = handle,
                SpanEnd::End => *last = handle,
            }
        }
        chain.settle();
        chain
    }

    /// The chain with one more node on span `s` at parameter `t`; the curve stays (to the nanometre stored).
    #[must_use]
    pub fn split(&self, s: usize, t: f64) -> Self {
        let course = self.course(s);
        let mut chain = self.clone();
        let joint = Joint::Smooth(course.tangent(t));
        let place = course.point(t);
        let [first, second] = match (self.spans[s], course) {
            (Span::Laid { sweep, from, to, flip, reverse }, _) => {
                let mark = self.mark_at(s, t).unwrap_or(to);
                let low = Span::Laid { sweep, from, to: mark, flip, reverse };
                let high = Span::Laid { sweep, from: mark, to, flip, reverse };
                if reverse { [high, low] } else { [low, high] }
            }
            (Span::Batten { start, end }, _) => {
                [Span::Batten { start, end: None }, Span::Batten { start: None, end }]
            }
            (Span::Cubic { start, end }, Course::Cubic(curve)) => {
                let (a, b) = (curve.subsegment(0.0..t), curve.subsegment(t..1.0));
                let scaled = |handle, share| match handle {
                    Handle::Along(length) => Handle::Along(length * share),
                    Handle::Free(offset) => Handle::Free(offset * share),
                };
                let first =
                    Span::Cubic { start: scaled(start, t), end: Handle::Along((a.p3 - a.p2).hypot()) };
                let second =
                    Span::Cubic { start: Handle::Along((b.p1 - b.p0).hypot()), end: scaled(end, 1.0 - t) };
                [first, second]
            }
            _ => [Span::Straight; 2],
        };
        chain.nodes.insert(s + 1, Node { place, joint });
        chain.spans[s] = first;
        chain.spans.insert(s + 1, second);
        chain.settle();
        chain
    }

    /// The chain without node `i`, one span in place of two; undoes [`Outline::split`]. A tip or a twin's first node
    /// cannot go: `None`.
    #[must_use]
    pub fn without_node(&self, i: usize) -> Option<Self> {
        if i == 0 || i + 1 == self.nodes.len() {
            return None;
        }
        let mut chain = self.clone();
        chain.nodes.remove(i);
        let span = self.joined(i - 1).unwrap_or_else(|| match (self.course(i - 1), self.course(i)) {
            (Course::Line(_), Course::Line(_)) => Span::Straight,
            (Course::Cubic(before) | Course::Line(before), Course::Cubic(after) | Course::Line(after)) => {
                // Where one curve was split at t, its two handles at the cut are as t to 1 − t.
                let (into, out) = ((before.p3 - before.p2).hypot(), (after.p1 - after.p0).hypot());
                let t = real::clamp(into / (into + out), 0.05, 0.95);
                let start = (before.p1 - before.p0) / t;
                let end = (after.p2 - after.p3) / (1.0 - t);
                Span::Cubic { start: Handle::Free(start), end: Handle::Free(end) }
            }
            (before, after) => {
                Span::Batten { start: Some(before.tangent(0.0)), end: Some(after.tangent(1.0)) }
            }
        });
        chain.spans[i - 1] = span;
        chain.spans.remove(i);
        // A neighbour that took its tangent from a straight span that is gone keeps that tangent as its own.
        for node in [i - 1, i] {
            let old = if node < i { node } else { node + 1 };
            chain.own_tangent(node, self.tangent(old));
        }
        chain.settle();
        Some(chain)
    }

    /// The chain with node `i` smooth or a corner. Made a corner the curve stays; made smooth its handles turn to the
    /// mean of their two directions.
    #[must_use]
    pub fn with_joint(&self, i: usize, smooth: bool) -> Self {
        let mut chain = self.clone();
        if !smooth {
            chain.free_handles(i);
        } else if self.nodes[i].joint == Joint::Corner {
            let into = i.checked_sub(1).map(|s| self.course(s).tangent(1.0));
            let out = (i < self.spans.len()).then(|| self.course(i).tangent(0.0));
            let mean = match (into, out) {
                (Some(a), Some(b)) => a + real::wrapped(b - a) / 2.0,
                (a, b) => a.or(b).unwrap_or(0.0),
            };
            chain.nodes[i].joint = if self.is_led(i) { Joint::Led } else { Joint::Smooth(mean) };
        }
        chain.settle();
        chain
    }

    /// The chain with span `s` straight. A smooth node beside it takes the line's direction where it can.
    #[must_use]
    pub fn straightened(&self, s: usize) -> Self {
        let mut chain = self.clone();
        chain.spans[s] = Span::Straight;
        chain.settle();
        chain
    }

    /// The chain with straight span `s` as a batten of the same shape, ready to be bent.
    #[must_use]
    pub fn curved(&self, s: usize) -> Self {
        let mut chain = self.clone();
        if self.spans[s] == Span::Straight {
            let along = Some(self.chord(s));
            chain.spans[s] = Span::Batten { start: along, end: along };
            for node in [s, s + 1] {
                chain.own_tangent(node, self.tangent(node));
            }
            chain.settle();
        }
        chain
    }

    /// Gives a led node whose leader has gone the tangent it had.
    pub(super) fn own_tangent(&mut self, i: usize, tangent: Option<f64>) {
        if let (Joint::Led, Some(angle)) = (self.nodes[i].joint, tangent)
            && !self.is_led(i)
        {
            self.nodes[i].joint = Joint::Smooth(angle);
        }
    }
}
