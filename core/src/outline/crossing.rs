//! Whether the half outline crosses or touches itself.
//!
//! Every cubic is cut where it turns back in x or y. A part that is monotone in both cannot cross itself, and its
//! bounding box is that of its end points, so pairs of parts are told apart by boxes, halved until they are.

use super::resolve::{Half, monotone_parts};
use crate::tolerance::TOUCH;
use kurbo::{CubicBez, ParamCurve, Point, Rect};

/// Halvings after which a pair of parts counts as touching: two curves that stay together so long are not apart.
/// A plain near miss takes some dozens.
const MOST_PAIRS: usize = 4096;

/// How far round the point where two parts join they are not looked at, mm: sides 3.6° apart have parted by then.
const JOINT: f64 = 16.0 * TOUCH;

/// A place where the half outline crosses or touches itself, if there is one.
#[must_use]
pub(super) fn self_crossing(half: &Half) -> Option<Point> {
    let mut parts: Vec<CubicBez> = Vec::new();
    for piece in half.pieces() {
        parts.extend(monotone_parts(&piece.curve).map(|(_, _, part)| part));
    }
    let boxes: Vec<Rect> = parts.iter().map(extent).collect();
    for i in 0..parts.len() {
        // Parts between which the edge goes no distance are neighbours: where a tangent leans by next to nothing, the
        // curve turns back within a hair of its node.
        let mut joined = true;
        for j in i + 1..parts.len() {
            joined = joined && (j == i + 1 || stays_at(&parts[j - 1], parts[i].p3, JOINT / 2.0));
            if !near(boxes[i], boxes[j]) || (joined && runs_on(&parts[i], &parts[j])) {
                continue;
            }
            if let Some(place) = meeting(parts[i], parts[j], joined.then_some(parts[i].p3)) {
                return Some(place);
            }
        }
    }
    None
}

/// Whether the second part goes on in x or in y the way the first did, and does not leave the joint straight back, so
/// that they come together only where they join.
fn runs_on(a: &CubicBez, b: &CubicBez) -> bool {
    const STRAIGHT_BACK: f64 = -0.998; // cosine of 3.6° off: there the sides of a spike are apart where the joint ends
    let (u, v) = (a.p3 - a.p0, b.p3 - b.p0);
    let (into, out) = (a.p3 - a.p2, b.p1 - b.p0);
    (u.x * v.x > 0.0 || u.y * v.y > 0.0)
        && into.dot(out) > STRAIGHT_BACK * (into.hypot2() * out.hypot2()).sqrt()
}

/// Whether a part lies wholly within `reach` mm of a point.
fn stays_at(part: &CubicBez, at: Point, reach: f64) -> bool {
    // The part is monotone, so its farthest corner is one of its box's.
    let (dx, dy) = ((part.p0.x - at.x).abs().max((part.p3.x - at.x).abs()), (part.p0.y - at.y).abs());
    dx.max(dy.max((part.p3.y - at.y).abs())) < reach
}

/// A point where two monotone parts come together, leaving out the end they share.
fn meeting(a: CubicBez, b: CubicBez, shared: Option<Point>) -> Option<Point> {
    let mut pairs = vec![(a, b)];
    let mut spent = 0;
    while let Some((a, b)) = pairs.pop() {
        spent += 1;
        let (box_a, box_b) = (extent(&a), extent(&b));
        if !near(box_a, box_b) {
            continue;
        }
        let (size_a, size_b) = (size(box_a), size(box_b));
        let largest = size_a.max(size_b);
        if shared.is_some_and(|p| stays_at(&a, p, JOINT) && stays_at(&b, p, JOINT)) {
            continue;
        }
        if largest < TOUCH || spent > MOST_PAIRS {
            return Some(box_a.center());
        }
        if size_a >= size_b {
            let (first, second) = a.subdivide();
            pairs.extend([(first, b), (second, b)]);
        } else {
            let (first, second) = b.subdivide();
            pairs.extend([(a, first), (a, second)]);
        }
    }
    None
}

/// The bounding box of a monotone part.
fn extent(part: &CubicBez) -> Rect {
    Rect::from_points(part.p0, part.p3)
}

fn size(extent: Rect) -> f64 {
    extent.width().max(extent.height())
}

fn near(a: Rect, b: Rect) -> bool {
    a.x0 - TOUCH <= b.x1 && b.x0 - TOUCH <= a.x1 && a.y0 - TOUCH <= b.y1 && b.y0 - TOUCH <= a.y1
}
