//! A curve as straight lines and circular arcs within a stated accuracy.
//!
//! Each smooth stretch is cut at its inflections and then halved until one *biarc* follows it: two arcs with a common
//! tangent where they meet, which start and end with the curve's own tangents (K. M. Bolton, "Biarc curves",
//! Computer-Aided Design 7, 1975, from memory). Of the one-parameter family the one with equal tangent lengths is taken;
//! it always exists where the curve turns less than half a circle. The number of arcs grows as accuracy^(-1/3).

use super::{Arc, length, unit};
use crate::order::sort_by_number;
use kurbo::{CubicBez, ParamCurve, PathSeg, Point, Vec2};

/// A chain of lines and arcs that stays within `accuracy` mm of the path, both ways.
///
/// Segments follow each other as they do in the path; a closed path gives a closed chain. Tangents are continuous
/// wherever the path's are, corners stay corners, all joints lie on the path, and a straight stretch is exactly one
/// line, even across several segments. An accuracy below 1e-9 mm counts as 1e-9; segments that are not finite are left out.
///
/// The cost is a microsecond or two an arc.
///
/// ```
/// use kurbo::{Circle, Shape};
/// # use halfbreadth_core::arcs;
/// let circle = Circle::new((0.0, 0.0), 50.0).to_path(1e-6);
/// let chain = arcs::biarc::fit(circle.segments(), 0.002);
/// assert!(chain.iter().all(|arc| (arc.radius().unwrap() - 50.0).abs() < 0.01));
/// ```
#[must_use]
pub fn fit(segments: impl IntoIterator<Item = PathSeg>, accuracy: f64) -> Vec<Arc> {
    let mut chain = Chain { accuracy: accuracy.max(FINEST), arcs: Vec::new() };
    for segment in segments.into_iter().filter(PathSeg::is_finite) {
        match segment {
            PathSeg::Line(line) => chain.push(Arc::line(line.p0, line.p1)),
            PathSeg::Quad(quad) => chain.follow_cubic(quad.raise()),
            PathSeg::Cubic(cubic) => chain.follow_cubic(cubic),
        }
    }
    chain.arcs
}

/// Below this accuracy, in mm, rounding errors of the input decide and halving would not end.
const FINEST: f64 = 1e-9;

/// Control points within this many mm of the chord make a straight line: stored shapes are whole nanometres, so
/// a rail meant as straight is off by up to one and a half of them.
const STRAIGHT: f64 = 2e-6;

/// Distances are sampled at this many points of each piece.
const SAMPLES: u32 = 16;

/// A piece's error has two humps; 8 samples on each miss its peak by at most 1 - cos(π/16) = 2 %. The rest is reserve.
const SAMPLED_SHARE: f64 = 0.95;

/// Cosine of the largest angle between a piece's end tangent and its chord, 60°: within it a biarc exists, turns one
/// way or gently both, and each of its arcs stays below half a turn.
const MOST_TURN_COS: f64 = 0.5;

struct Chain {
    accuracy: f64,
    arcs: Vec<Arc>,
}

impl Chain {
    fn follow_cubic(&mut self, cubic: CubicBez) {
        if is_straight(cubic, STRAIGHT.min(self.accuracy)) {
            self.push(Arc::line(cubic.p0, cubic.p3));
            return;
        }
        let mut cuts = cubic.inflections();
        sort_by_number(&mut cuts, |t| *t);
        let mut from = 0.0;
        for to in cuts.into_iter().filter(|t| (1e-6..=1.0 - 1e-6).contains(t)).chain([1.0]) {
            self.follow_piece(cubic.subsegment(from..to));
            from = to;
        }
    }

    /// Halves the piece until a biarc follows it. Ends because each half is at most ¾ as long and a piece shorter
    /// than the accuracy is a line.
    fn follow_piece(&mut self, piece: CubicBez) {
        let polygon = length(piece.p1 - piece.p0) + length(piece.p2 - piece.p1) + length(piece.p3 - piece.p2);
        if polygon <= self.accuracy {
            self.push(Arc::line(piece.p0, piece.p3));
            return;
        }
        if let Some(pair) = biarc(piece).filter(|pair| self.follows(piece, pair)) {
            pair.into_iter().for_each(|arc| self.push(arc));
            return;
        }
        let (first, second) = piece.subdivide();
        self.follow_piece(first);
        self.follow_piece(second);
    }

    fn follows(&self, piece: CubicBez, pair: &[Arc; 2]) -> bool {
        (1..SAMPLES).all(|i| {
            let p = piece.eval(f64::from(i) / f64::from(SAMPLES));
            pair[0].distance(p).min(pair[1].distance(p)) <= SAMPLED_SHARE * self.accuracy
        })
    }

    /// Appends a piece; one that only continues the last line or circle lengthens that instead.
    fn push(&mut self, arc: Arc) {
        if length(arc.p1 - arc.p0) <= FINEST {
            return;
        }
        let tolerance = STRAIGHT.min(1e-3 * self.accuracy);
        if let Some(last) = self.arcs.last_mut()
            && let Some(joined) = joined(last, &arc, tolerance)
        {
            *last = joined;
            return;
        }
        self.arcs.push(arc);
    }
}

/// The biarc with equal tangent lengths through the piece's ends; none where the piece turns too far for one.
fn biarc(piece: CubicBez) -> Option<[Arc; 2]> {
    let (p0, p1) = (piece.p0, piece.p3);
    let chord = p1 - p0;
    let (t0, t1) =
        (direction(piece.p0, piece.p1, piece.p2, piece.p3), -direction(p1, piece.p2, piece.p1, p0));
    let least = MOST_TURN_COS * length(chord);
    if !(t0.dot(chord) >= least && t1.dot(chord) >= least && least > 0.0) {
        return None;
    }
    // Tangent length d with |chord − d(t0 + t1)| = 2d, in the form of the root that does not cancel.
    let forward = chord.dot(t0 + t1);
    let square = chord.hypot2();
    let d = square / (forward + (forward * forward + (t0 - t1).hypot2() * square).sqrt());
    let joint = p0.midpoint(p1) + 0.5 * d * (t0 - t1);
    Some([Arc::leaving(p0, t0, joint), Arc::arriving(joint, p1, t1)])
}

/// The unit tangent at `p0` of the cubic through these control points, whatever handles have no length.
fn direction(p0: Point, p1: Point, p2: Point, p3: Point) -> Vec2 {
    // A handle shorter than this share of the polygon is rounding noise, not a direction.
    let noise = 1e-9 * (length(p1 - p0) + length(p2 - p1) + length(p3 - p2));
    let handle = [p1, p2, p3].into_iter().map(|p| p - p0).find(|v| length(*v) > noise);
    unit(handle.unwrap_or(Vec2::ZERO))
}

/// Whether the cubic runs along its chord, within `tolerance` mm and without turning back.
fn is_straight(cubic: CubicBez, tolerance: f64) -> bool {
    let chord = cubic.p3 - cubic.p0;
    let along = unit(chord);
    [cubic.p1, cubic.p2].into_iter().all(|p| {
        let v = p - cubic.p0;
        along.cross(v).abs() <= tolerance && (0.0..=length(chord)).contains(&along.dot(v))
    }) && length(chord) > 0.0
}

/// One piece instead of two on the same line or circle within `tolerance` mm, up to half a turn.
fn joined(a: &Arc, b: &Arc, tolerance: f64) -> Option<Arc> {
    let whole = match (a.is_line(), b.is_line()) {
        (true, true) => Arc::line(a.p0, b.p1),
        (false, false) => Arc::leaving(a.p0, a.start_tangent(), b.p1),
        _ => return None,
    };
    let same = whole.bulge.abs() <= 1.0
        && whole.distance(a.p1) <= tolerance
        && whole.distance(a.point(0.5)) <= tolerance
        && whole.distance(b.point(0.5)) <= tolerance
        && whole.start_tangent().dot(a.start_tangent()) > 0.0
        && whole.end_tangent().dot(b.end_tangent()) > 1.0 - 1e-12;
    same.then_some(whole)
}

#[cfg(test)]
mod tests;
