//! A stretch drawn anew by hand: a stroke over the outline becomes a batten of few pins, joined in where it begins and
//! ends.

use super::{Joint, Node, Outline, Span};
use crate::{
    curve::{
        batten::End,
        fit::{FitError, fit_stroke},
    },
    language::said,
    real, say,
    units::{System, Unit, Words, error_with_words, show},
};
use core::{f64::consts::FRAC_PI_2, fmt::Display as _};
use kurbo::{Point, Vec2};

/// Why a stroke cannot take the place of a stretch.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum StrokeError {
    /// It neither begins nor ends on the outline or the centreline: the end that is far off, and how far, mm.
    OffTheEdge {
        /// Where that end is.
        at: Point,
        /// Its distance from the edge.
        distance: f64,
    },
    /// It begins and ends at one place of the outline.
    NoStretch,
    /// No fair curve follows it.
    Fit(FitError),
}

/// A stroke farther out than this, mm, is not one along a deck.
const FARTHEST: f64 = 2000.0;

/// How long a stroke takes to come from the edge to where the hand drew it: so many times what it begins off the edge, but
/// no more than that share of all of it. Shorter, and the edge has a notch there.
const RUN_IN: f64 = 25.0;
const MOST_OF_IT: f64 = 0.4;

/// Brings the beginning of a stroke to a place, and the rest of it less and less.
fn run_in(stroke: &mut [Point], place: Point) {
    let Some(&start) = stroke.first() else { return };
    let off = place - start;
    let step = |a: Point, b: Point| (b - a).hypot2().sqrt();
    let whole: f64 = stroke.windows(2).map(|pair| step(pair[0], pair[1])).sum();
    let length = (RUN_IN * off.hypot2().sqrt()).min(MOST_OF_IT * whole);
    let (mut before, mut gone) = (start, 0.0);
    for sample in stroke.iter_mut() {
        gone += step(before, *sample);
        before = *sample;
        let left = 1.0 - gone / length; // of the run-in; not a number where it has no length
        if left > 0.0 {
            *sample += off * (left * left * (3.0 - 2.0 * left));
        }
    }
    stroke[0] = place;
}

/// Where a stroke joins the chain.
#[derive(Clone, Copy, Debug)]
enum Join {
    /// On a span, at a parameter.
    On(usize, f64),
    /// At the tail tip, moved to that station.
    TailTip(f64),
    /// At the nose tip, moved to that station.
    NoseTip(f64),
    /// Amidships in a twin, at that half-breadth.
    Amidships(f64),
}

impl Outline {
    /// The chain with the stretch under a stroke drawn anew.
    ///
    /// `samples` are the places of the pen, mm, on any half and in either direction; the curve follows them within
    /// `accuracy` mm or their own jitter, whichever is larger. The stroke's ends are laid onto the edge where they come
    /// within `reach` mm of it; an end that crosses the centreline becomes the tip.
    ///
    /// # Errors
    ///
    /// [`StrokeError`].
    pub fn redrawn(&self, samples: &[Point], accuracy: f64, reach: f64) -> Result<Self, StrokeError> {
        let mut stroke = self.on_drawn_half(samples);
        let on_a_bench = |p: &Point| p.x.abs() <= FARTHEST && p.y.abs() <= FARTHEST; // not so for NaN
        if let Some(sample) = stroke.iter().position(|p| !on_a_bench(p)) {
            return Err(StrokeError::Fit(FitError::NotFinite { sample }));
        }
        let accuracy = if accuracy.is_finite() { real::clamp(accuracy, 0.01, 20.0) } else { 1.0 };
        let reach = if reach.is_finite() { real::clamp(reach, 0.0, FARTHEST) } else { 0.0 };
        let (Some(&first), Some(&last)) = (stroke.first(), stroke.last()) else {
            return Err(StrokeError::Fit(FitError::TooShort));
        };
        if self.along(first) > self.along(last) {
            stroke.reverse();
        }
        let from = self.join(&mut stroke, reach, false)?;
        let to = self.join(&mut stroke, reach, true)?;
        self.replaced(from, to, stroke, accuracy)
    }

    /// A stroke on the half that is stored: a stroke on another copy is mirrored onto it as a whole.
    pub(super) fn on_drawn_half(&self, samples: &[Point]) -> Vec<Point> {
        let sum = samples.iter().fold(Vec2::ZERO, |sum, p| sum + p.to_vec2());
        let across = if sum.y < 0.0 { -1.0 } else { 1.0 };
        let along = if self.twin && sum.x < 0.0 { -1.0 } else { 1.0 };
        samples.iter().map(|p| Point::new(along * p.x, across * p.y)).collect()
    }

    /// How far along the chain the place nearest to `p` lies, in spans.
    fn along(&self, p: Point) -> f64 {
        let (span, t, _) = self.nearest(p);
        span as f64 + t
    }

    /// The place of the chain nearest to `p`: span, parameter and distance, mm.
    pub(super) fn nearest(&self, p: Point) -> (usize, f64, f64) {
        let places = (0..self.spans.len()).map(|s| {
            let (t, distance) = self.course(s).nearest(p);
            (s, t, distance)
        });
        places.fold((0, 0.0, f64::INFINITY), |best, new| if new.2 < best.2 { new } else { best })
    }

    /// Where the stroke's first or last end joins, with the samples beyond it taken off.
    fn join(&self, stroke: &mut Vec<Point>, reach: f64, at_end: bool) -> Result<Join, StrokeError> {
        if at_end {
            stroke.reverse();
        }
        let join = self.first_join(stroke, reach, at_end);
        if at_end {
            stroke.reverse();
        }
        join
    }

    fn first_join(&self, stroke: &mut Vec<Point>, reach: f64, at_end: bool) -> Result<Join, StrokeError> {
        let crossing = |stroke: &mut Vec<Point>, outside: &dyn Fn(Point) -> f64| {
            // The samples before the last one outside lie on the other half.
            let last = stroke.iter().take(stroke.len() / 2).rposition(|p| outside(*p) <= 0.0)?;
            let (a, b) = (stroke[last], stroke[last + 1]);
            let (u, v) = (outside(a), outside(b));
            stroke.drain(..=last);
            Some(a.lerp(b, if v > u { -u / (v - u) } else { 0.0 }))
        };
        if self.twin
            && !at_end
            && let Some(place) = crossing(stroke, &|p| p.x)
        {
            return Ok(Join::Amidships(place.y));
        }
        if at_end || !self.twin {
            let tip = if at_end { Join::NoseTip } else { Join::TailTip };
            if let Some(place) = crossing(stroke, &|p| p.y) {
                return Ok(tip(place.x));
            }
            // An end near the centreline and beyond the rest of the stroke means the tip as well.
            if stroke[0].y <= reach / 2.0 {
                return Ok(tip(stroke[0].x));
            }
        }
        let (span, t, distance) = self.nearest(stroke[0]);
        if distance > reach {
            return Err(StrokeError::OffTheEdge { at: stroke[0], distance });
        }
        Ok(Join::On(span, t))
    }

    fn replaced(
        &self,
        from: Join,
        to: Join,
        mut stroke: Vec<Point>,
        accuracy: f64,
    ) -> Result<Self, StrokeError> {
        let mut chain = self.clone();
        let last = chain.nodes.len() - 1;
        let place = |join: Join, tip: (usize, f64)| match join {
            Join::On(span, t) => (span, t),
            _ => tip,
        };
        let (start, end) = chain.cut(place(from, (0, 0.0)), place(to, (last - 1, 1.0)));
        if end <= start {
            return Err(StrokeError::NoStretch);
        }
        match from {
            Join::TailTip(x) => chain.nodes[start].place = Point::new(x, 0.0),
            Join::Amidships(y) => chain.nodes[start].place = Point::new(0.0, y),
            _ => {}
        }
        if let Join::NoseTip(x) = to {
            chain.nodes[end].place = Point::new(x, 0.0);
        }
        let clamp = |node: usize, join: Join| match join {
            Join::TailTip(_) => End::Tangent(FRAC_PI_2),
            Join::NoseTip(_) => End::Tangent(-FRAC_PI_2),
            Join::Amidships(_) => End::Tangent(0.0),
            Join::On(..) => chain.tangent(node).map_or(End::Free, End::Tangent),
        };
        let ends = [clamp(start, from), clamp(end, to)];
        let tangents = [chain.tangent(start), chain.tangent(end)];
        let (first, final_) = (chain.nodes[start].place, chain.nodes[end].place);
        run_in(&mut stroke, first);
        stroke.reverse();
        run_in(&mut stroke, final_);
        stroke.reverse();
        let pins = fit_stroke(&stroke, accuracy, ends).map_err(StrokeError::Fit)?;

        let inner = pins.get(1..pins.len().saturating_sub(1)).unwrap_or_default();
        chain.nodes.drain(start + 1..end);
        chain.spans.drain(start + 1..end);
        chain.spans[start] = Span::BATTEN;
        for (i, &place) in inner.iter().enumerate() {
            chain.nodes.insert(start + 1 + i, Node { place, joint: Joint::Smooth(0.0) });
            chain.spans.insert(start, Span::BATTEN);
        }
        for (node, join) in [(start, from), (start + inner.len() + 1, to)] {
            if !matches!(join, Join::On(..)) {
                chain.nodes[node].joint = Joint::Led;
            }
        }
        chain.own_tangent(start, tangents[0]);
        chain.own_tangent(start + inner.len() + 1, tangents[1]);
        chain.guess_tangents(start + 1..start + 1 + inner.len());
        chain.settle();
        Ok(chain)
    }

    /// The nodes at two places of the chain, the tailward one first: those that are there already, or new ones.
    pub(super) fn cut(&mut self, from: (usize, f64), to: (usize, f64)) -> (usize, usize) {
        let place = self.course(from.0).point(from.1);
        // The later one first, so that the span of the earlier one stays; of one span only its first part is left.
        let end = self.node_at(to.0, to.1);
        let t = if from.0 == to.0 && end > to.0 { self.course(from.0).nearest(place).0 } else { from.1 };
        let before = self.nodes.len();
        let start = self.node_at(from.0, t);
        (start, end + self.nodes.len() - before)
    }

    /// The node at a place of the chain: one that is there already, or a new one.
    pub(super) fn node_at(&mut self, span: usize, t: f64) -> usize {
        /// A node this near to the join, mm, is the one that is meant.
        const SAME: f64 = 3.0;
        let place = self.course(span).point(t);
        let near = |i: usize| (self.nodes[i].place - place).hypot();
        let (a, b) = (near(span), near(span + 1));
        if a.min(b) < SAME {
            return if a <= b { span } else { span + 1 };
        }
        *self = self.split(span, t);
        span + 1
    }

    /// Gives new pins the directions of their neighbours' chords, to start the solve from.
    fn guess_tangents(&mut self, nodes: core::ops::Range<usize>) {
        for i in nodes {
            let chord = self.nodes[i + 1].place - self.nodes[i - 1].place;
            self.nodes[i].joint = Joint::Smooth(real::direction(chord));
        }
    }
}

impl Words for StrokeError {
    fn words(&self, f: &mut core::fmt::Formatter<'_>, system: System) -> core::fmt::Result {
        match self {
            Self::OffTheEdge { distance, .. } => {
                say!(in f, "the stroke begins or ends {distance} off the edge: begin and end it on the edge or past a tip", distance = show(*distance, Unit::Length, system))
            }
            Self::NoStretch => {
                f.write_str(said("the stroke begins and ends at one place: draw it along the edge"))
            }
            Self::Fit(error) => error.fmt(f),
        }
    }
}

error_with_words!(StrokeError);
