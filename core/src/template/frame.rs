//! The frame of wood round a window: its outer edge, and the edge of half a window with its ears.

use super::ears::{EAR, past_tips};
use crate::arcs::{self, Arc};
use kurbo::{Point, Rect};

/// Wood left round a window, mm: a router with half its base on it does not tip (common practice, no source).
const FRAME: f64 = 60.0;

/// What the frame fits into, from the left part of the window's edge.
pub(super) fn outside(left: &[Arc]) -> Rect {
    let edge = arcs::extent(left).unwrap_or_default();
    let top = edge.y1 + FRAME;
    Rect::new(edge.x0 - FRAME, -top, edge.x1 + FRAME, top)
}

/// Its outer edge, anticlockwise.
pub(super) fn whole(outside: Rect) -> Vec<Arc> {
    let Rect { x0, y0, x1, y1 } = outside;
    let corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)].map(Point::from);
    corners.windows(2).map(|pair| Arc::line(pair[0], pair[1])).collect()
}

/// The closed edge of half a window, anticlockwise, from the left part of its edge, nose to tail; none where the mirrored
/// edge does not come [`EAR`] past the centreline.
///
/// The wood lies round the left half, along the centreline beyond both tips, and past it in an ear at each, so that a
/// router runs in and out along the whole window's edge.
pub(super) fn half(left: &[Arc], outside: Rect) -> Option<Vec<Arc>> {
    let [past_nose, past_tail] = past_tips(left)?;
    let beyond = |chain: &[Arc]| arcs::extent(chain).unwrap_or_default();
    let (nose, tail) = (beyond(&past_nose).x1 + EAR, beyond(&past_tail).x0 - EAR);
    let Rect { x0, x1, y1, .. } = outside;
    let mut edge: Vec<Arc> = past_tail.iter().rev().map(Arc::reversed).collect();
    edge.extend(left.iter().rev().map(Arc::reversed));
    edge.extend_from_slice(&past_nose);
    let (end, start) = (edge.last()?.p1, edge.first()?.p0);
    let corners =
        [(nose, end.y), (nose, 0.0), (x1, 0.0), (x1, y1), (x0, y1), (x0, 0.0), (tail, 0.0), (tail, start.y)];
    let mut from = end;
    for corner in corners.map(Point::from).into_iter().chain([start]) {
        edge.push(Arc::line(from, corner));
        from = corner;
    }
    Some(edge)
}
