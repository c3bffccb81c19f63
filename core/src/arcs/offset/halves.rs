//! A closed contour cut at the centreline, of which the left part says all.

use crate::arcs::{Arc, signed_area};
use kurbo::Point;

/// A contour that is symmetric about the centreline, by its left part (y ≥ 0) alone; or one of a pair beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Contour {
    /// The left part: anticlockwise round the deck, so from the nose to the tail, unless the contour bounds a hole.
    pub left: Vec<Arc>,
    /// Whether the left part is closed by itself and has a mirrored twin. If not, it begins and ends on the centreline
    /// (y is 0 to the bit), where its mirror goes on.
    pub closed: bool,
}

impl Contour {
    /// The closed chains it stands for: one across the centreline, or two beside it.
    #[must_use]
    pub fn whole(&self) -> Vec<Vec<Arc>> {
        let right = self.left.iter().rev().map(Arc::mirrored);
        if self.closed {
            return vec![self.left.clone(), right.collect()];
        }
        vec![self.left.iter().copied().chain(right).collect()]
    }

    /// Area of the left part, mm², positive unless the contour bounds a hole.
    #[must_use]
    pub fn area(&self) -> f64 {
        // Both ends of an open part lie on the centreline, which closes it.
        let ends = self.left.last().zip(self.left.first());
        let closing = ends.map(|(last, first)| Arc::line(last.p1, first.p0));
        let chain: Vec<Arc> = self.left.iter().copied().chain(closing).collect();
        signed_area(&chain)
    }
}

/// Places of a parallel nearer to the centreline than this, mm, lie on it: twice as near as two of its points may lie and
/// still count as one.
const ON_CENTRELINE: f64 = 2e-5;

/// Shorter pieces have no direction worth the name, mm.
const SHORTEST: f64 = 1e-9;

/// The piece with what is on the centreline put on it to the bit.
fn snapped(arc: &Arc) -> Arc {
    let place = |p: Point| Point::new(p.x, if p.y.abs() < ON_CENTRELINE { 0.0 } else { p.y });
    Arc { p0: place(arc.p0), p1: place(arc.p1), bulge: arc.bulge }
}

/// The left parts of a closed contour.
pub(super) fn left_of(contour: &[Arc]) -> Vec<Contour> {
    let mut cut: Vec<Arc> = contour
        .iter()
        .map(snapped)
        .filter(|arc| (arc.p1 - arc.p0).hypot2() > SHORTEST * SHORTEST)
        .flat_map(|arc| cut_at_centreline(&arc))
        .collect();
    // Where a piece without length was left out, its neighbours meet in one point again.
    for i in 0..cut.len() {
        cut[i].p0 = cut[(i + cut.len() - 1) % cut.len()].p1;
    }
    let is_left = |arc: &Arc| arc.point(0.5).y > 0.0;
    // Begins where the contour enters the left side, so that no part is split by the list's end.
    let enters =
        (0..cut.len()).find(|&i| is_left(&cut[i]) && !is_left(&cut[(i + cut.len() - 1) % cut.len()]));
    let Some(start) = enters else {
        let all_left = cut.first().is_some_and(is_left);
        return if all_left { vec![Contour { left: cut, closed: true }] } else { Vec::new() };
    };
    let mut parts: Vec<Vec<Arc>> = Vec::new();
    let mut inside = false;
    for arc in cut[start..].iter().chain(&cut[..start]) {
        let left = is_left(arc);
        if left && !inside {
            parts.push(Vec::new());
        }
        if let Some(part) = parts.last_mut().filter(|_| left) {
            part.push(*arc);
        }
        inside = left;
    }
    parts.into_iter().map(|left| Contour { left, closed: false }).collect()
}

/// The piece in two where it crosses the centreline; the point of the cut lies on it to the bit.
fn cut_at_centreline(arc: &Arc) -> impl Iterator<Item = Arc> + use<> {
    let crosses = arc.p0.y * arc.p1.y < 0.0;
    let (mut a, mut b) = (0.0, 1.0);
    // Halving down to neighbouring numbers.
    for _ in 0..if crosses { 53 } else { 0 } {
        let middle = f64::midpoint(a, b);
        if arc.point(middle).y * arc.p0.y > 0.0 { a = middle } else { b = middle }
    }
    let mut parts = [Some(*arc), None];
    if crosses {
        let (mut before, mut after) = (arc.between(0.0, a), arc.between(a, 1.0));
        (before.p1.y, after.p0.y) = (0.0, 0.0);
        parts = [Some(before), Some(after)];
    }
    parts.into_iter().flatten()
}
