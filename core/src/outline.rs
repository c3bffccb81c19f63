//! The outline as a maker draws it: a chain of spans between nodes along one half of the deck.
//!
//! Only the left half is stored (a twin stores only its nose half); the rest is its mirror, so symmetry is exact by
//! construction. The chain runs tail to nose with y ≥ 0. What is stored is canonical: of everything that could be
//! said twice (a tangent that a laid sweep or a straight span already gives, a tip's right angle), nothing is.

mod batten;
mod chain;
mod convert;
mod course;
mod crossing;
mod redraw;
mod reshape;
pub(crate) mod resolve;
mod smoothing;
mod sweep;
mod validity;

pub(crate) use self::{chain::heading_at, validity::check_form};
pub use self::{
    chain::{tangent_at, twin_of},
    course::Course,
    redraw::StrokeError,
    resolve::{Half, Piece},
    smoothing::Faired,
    sweep::{Laid, Leg, Sweep, SweepCurve},
    validity::{Fault, check},
};
use kurbo::{Point, Vec2};

/// The stored chain: `spans[i]` runs from `nodes[i]` to `nodes[i + 1]`.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// Nodes, tail to nose. The last, and unless `twin` the first, lie on the centreline: the tips.
    pub nodes: Vec<Node>,
    /// Spans between them, one fewer than the nodes.
    pub spans: Vec<Span>,
    /// Whether the tail half is the nose half reversed; then the chain starts amidships, at x = 0.
    pub twin: bool,
    /// Curves kept under a name, laid or not.
    pub sweeps: Vec<Sweep>,
}

/// A point the outline passes through.
#[derive(Clone, Debug, PartialEq)]
pub struct Node {
    /// Where, mm.
    pub place: Point,
    /// How the spans meet there.
    pub joint: Joint,
}

/// How two spans meet at a node.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Joint {
    /// With a corner: each span leaves in its own direction.
    Corner,
    /// With one tangent, stored here: its direction tail to nose, radians.
    Smooth(f64),
    /// With one tangent that something else gives: the laid sweep or else the straight span beside it, the right angle
    /// at a tip, or the mirror amidships in a twin.
    Led,
}

/// A stretch of the outline between two neighbouring nodes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Span {
    /// A straight line.
    Straight,
    /// A cubic Bézier curve.
    Cubic {
        /// The handle at its tailward node.
        start: Handle,
        /// The handle at its noseward node.
        end: Handle,
    },
    /// A length of batten: the Euler spiral between the tangents at its two nodes.
    Batten {
        /// Its direction at the tailward node where that is a corner, radians; `None` where the node gives it.
        start: Option<f64>,
        /// Its direction at the noseward node where that is a corner.
        end: Option<f64>,
    },
    /// A stretch of a sweep, as long between its nodes as between its marks to 0.001 mm.
    Laid {
        /// Index of the sweep.
        sweep: usize,
        /// The mark nearer to the start of the sweep, as arc length along it, mm.
        from: f64,
        /// The mark farther along it.
        to: f64,
        /// Whether the sweep is turned over, so that it bends the other way.
        flip: bool,
        /// Whether the outline, tail to nose, runs along it from `to` back to `from`.
        reverse: bool,
    },
}

/// An off-curve point of a cubic span, as seen from its node.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Handle {
    /// On the tangent of a smooth node, at this distance, mm.
    Along(f64),
    /// At this offset from a corner, mm.
    Free(Vec2),
}

/// One of the two ends of a span.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpanEnd {
    /// Its tailward node.
    Start,
    /// Its noseward node.
    End,
}

impl Span {
    /// A length of batten between smooth nodes.
    pub const BATTEN: Self = Self::Batten { start: None, end: None };
}

impl Outline {
    /// Fewest nodes a chain can have.
    pub const FEWEST_NODES: usize = 2;
    /// Most nodes a chain can have; a deck needs eight, and a hostile file must not cost more than that times eight.
    pub const MOST_NODES: usize = 64;
    /// Shortest handle, mm: below it a span has no direction at its end.
    pub const SHORTEST_HANDLE: f64 = 0.1;

    /// Whether node `i` is a tip: on the centreline.
    #[must_use]
    pub fn is_tip(&self, i: usize) -> bool {
        i + 1 == self.nodes.len() || (i == 0 && !self.twin)
    }

    /// Whether node `i` lies amidships in a twin: at x = 0.
    #[must_use]
    pub fn is_amidships(&self, i: usize) -> bool {
        i == 0 && self.twin
    }

    /// The tangent direction at node `i`, tail to nose, radians; `None` at a corner.
    #[must_use]
    pub fn tangent(&self, i: usize) -> Option<f64> {
        match self.nodes[i].joint {
            Joint::Corner => None,
            Joint::Smooth(angle) => Some(angle),
            Joint::Led => Some(self.led_tangent(i)),
        }
    }

    /// Index of the node at one end of span `i`.
    #[must_use]
    pub fn node_of(span: usize, end: SpanEnd) -> usize {
        match end {
            SpanEnd::Start => span,
            SpanEnd::End => span + 1,
        }
    }

    /// The off-curve point at one end of span `i`, mm; `None` where the span is no cubic.
    #[must_use]
    pub fn handle_place(&self, span: usize, end: SpanEnd) -> Option<Point> {
        let Span::Cubic { start, end: last } = self.spans[span] else { return None };
        let node = Self::node_of(span, end);
        let handle = match end {
            SpanEnd::Start => start,
            SpanEnd::End => last,
        };
        Some(self.nodes[node].place + self.handle_offset(node, end, handle))
    }
}

#[cfg(test)]
mod tests;
