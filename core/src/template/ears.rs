//! The edge of a half template: the left half of the contour, run past the centreline at both tips.

use crate::arcs::{self, Arc};
use kurbo::Point;

/// How far the edge goes on past the centreline, and how wide the ear that carries it is there, mm (common practice, no source).
pub(super) const EAR: f64 = 25.0;

/// The closed edge of a half template, anticlockwise, from its left part, nose to tail; none where the mirrored edge does
/// not come [`EAR`] past the centreline.
///
/// Along the outside it is the whole contour's edge, so that a router runs out in the direction it came; from ear to
/// ear it is the centreline.
pub(super) fn edge(left: &[Arc]) -> Option<Vec<Arc>> {
    let [past_nose, past_tail] = past_tips(left)?;
    let (nose, tail) = (innermost(&past_nose, 1.0) - EAR, innermost(&past_tail, -1.0) + EAR);
    if nose <= tail {
        return None;
    }
    let mut edge = Vec::with_capacity(left.len() + past_nose.len() + past_tail.len() + 5);
    edge.extend(past_nose.iter().rev().map(Arc::reversed));
    edge.extend_from_slice(left);
    edge.extend(past_tail);
    // Back along the ears and the centreline.
    let (end, start) = (edge.last()?.p1, edge.first()?.p0);
    let corners = [(tail, end.y), (tail, 0.0), (nose, 0.0), (nose, start.y)].map(Point::from);
    let mut from = end;
    for corner in corners.into_iter().chain([start]) {
        edge.push(Arc::line(from, corner));
        from = corner;
    }
    Some(edge)
}

/// The mirrored edge from the nose tip and from the tail tip to [`EAR`] past the centreline.
pub(super) fn past_tips(left: &[Arc]) -> Option<[Vec<Arc>; 2]> {
    Some([past_tip(left.iter().copied())?, past_tip(left.iter().rev().map(Arc::reversed))?])
}

/// The mirrored edge from the tip, where `left` begins, to [`EAR`] past the centreline.
fn past_tip(left: impl Iterator<Item = Arc>) -> Option<Vec<Arc>> {
    let mut past = Vec::new();
    for arc in left {
        let mirrored = arc.mirrored().reversed();
        let Some(end) = share_at(&mirrored, -EAR) else {
            past.push(mirrored);
            continue;
        };
        let mut last = mirrored.between(0.0, end);
        last.p1.y = -EAR;
        past.push(last);
        return Some(past);
    }
    None
}

/// The fraction of a piece's length at which it comes down to height `y`, if it does.
fn share_at(arc: &Arc, y: f64) -> Option<f64> {
    let (mut above, mut below) = (0.0, 1.0);
    if arc.p0.y < y || arc.p1.y > y {
        return None;
    }
    for _ in 0..53 {
        let middle = f64::midpoint(above, below);
        if arc.point(middle).y > y { above = middle } else { below = middle }
    }
    Some(below)
}

/// The station of a chain that lies farthest inward.
fn innermost(chain: &[Arc], sign: f64) -> f64 {
    let extent = arcs::extent(chain).unwrap_or_default();
    if sign > 0.0 { extent.x0 } else { extent.x1 }
}
