//! One shape beside another: every measure of both, and how far apart their edges lie.

use crate::{
    curve::nearest::nearest,
    design::Shape,
    measure::Measured,
    outline::{Half, Piece, resolve::extent},
    quantities::{MEASURES, Measure, Reading},
};
use kurbo::{ParamCurve, Point, Rect};

/// Two shapes on the same datum, measured.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// The measures of both, in the order of the table.
    pub rows: Vec<Row>,
    /// Where their edges lie farthest apart.
    pub farthest: Farthest,
}

/// One measure of both shapes.
#[derive(Clone, Copy, Debug)]
pub struct Row {
    /// Which measure.
    pub measure: &'static Measure,
    /// Its value on the first shape.
    pub then: Reading,
    /// Its value on the second shape.
    pub now: Reading,
}

/// The largest distance between two edges and where it is found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Farthest {
    /// The distance, mm: Hausdorff's, the larger of both ways.
    pub distance: f64,
    /// The point of one edge that lies that far from the other, on the left half.
    pub at: Point,
}

/// Compares two shapes.
#[must_use]
pub fn compare(then: &Shape, now: &Shape) -> Comparison {
    let (a, b) = (Measured::of(then), Measured::of(now));
    let rows = MEASURES
        .iter()
        .map(|measure| Row { measure, then: (measure.read)(&a), now: (measure.read)(&b) })
        .collect();
    Comparison { rows, farthest: farthest(&a.half, &b.half) }
}

/// The Hausdorff distance of two half outlines, mm, to [`DISTANCE`].
///
/// A point of the left half is never nearer to the other deck's right half than to its left, so halves stand for wholes.
#[must_use]
pub fn farthest(a: &Half, b: &Half) -> Farthest {
    let (there, back) = (one_way(a, b), one_way(b, a));
    if there.distance >= back.distance { there } else { back }
}

/// Accuracy of a distance between edges, mm: ten times finer than a template is checked to.
pub const DISTANCE: f64 = 1e-3;
/// Samples on each cubic of the edge that is walked along. Between two of them the distance has at most one top on any
/// deck; a sharper search follows round the largest.
const SAMPLES: u32 = 16;

/// The farthest a point of `from` lies from `to`.
fn one_way(from: &Half, to: &Half) -> Farthest {
    let boxes: Vec<Rect> = to.pieces().iter().map(|piece| extent(&piece.curve)).collect();
    // Neighbouring places have the same nearest piece: looked at first, it rules out nearly all others.
    let mut hint = 0;
    let mut distance = |p: Point| distance_to(p, to.pieces(), &boxes, &mut hint);
    let mut best = (Farthest { distance: 0.0, at: Point::ORIGIN }, 0, 0.0);
    for (i, piece) in from.pieces().iter().enumerate() {
        for k in 0..=SAMPLES {
            let t = f64::from(k) / f64::from(SAMPLES);
            let at = piece.curve.eval(t);
            let here = distance(at);
            if here > best.0.distance {
                best = (Farthest { distance: here, at }, i, t);
            }
        }
    }
    let (mut found, i, t) = best;
    let Some(piece) = from.pieces().get(i) else { return found };
    let step = 1.0 / f64::from(SAMPLES);
    let (mut low, mut high) = ((t - step).max(0.0), (t + step).min(1.0));
    // Ternary search: each round leaves two thirds, so forty leave a ten-millionth of a sample's width.
    for _ in 0..40 {
        let third = (high - low) / 3.0;
        let (a, b) = (low + third, high - third);
        if distance(piece.curve.eval(a)) < distance(piece.curve.eval(b)) {
            low = a;
        } else {
            high = b;
        }
    }
    let at = piece.curve.eval((low + high) / 2.0);
    let here = distance(at);
    if here > found.distance {
        found = Farthest { distance: here, at };
    }
    found
}

/// The distance of `p` from the nearest of the pieces, whose index is left in `hint`.
fn distance_to(p: Point, pieces: &[Piece], boxes: &[Rect], hint: &mut usize) -> f64 {
    let square = |piece: &Piece| nearest(&piece.curve, p).1;
    let mut nearest = pieces.get(*hint).map_or(f64::INFINITY, square);
    for (i, (piece, extent)) in pieces.iter().zip(boxes).enumerate() {
        let dx = (extent.x0 - p.x).max(p.x - extent.x1).max(0.0);
        let dy = (extent.y0 - p.y).max(p.y - extent.y1).max(0.0);
        if i != *hint && dx * dx + dy * dy < nearest {
            let found = square(piece);
            if found < nearest {
                nearest = found;
                *hint = i;
            }
        }
    }
    nearest.sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        demo::{self, cubics},
        edit::Edit,
    };

    #[test]
    fn a_shape_lies_nowhere_apart_from_itself() {
        for deck in demo::all() {
            let comparison = compare(deck.shape(), deck.shape());
            assert!(comparison.farthest.distance < DISTANCE, "{:?}", comparison.farthest);
            assert!(comparison.rows.iter().all(|row| row.then == row.now));
        }
    }

    #[test]
    fn a_tip_moved_out_lies_apart_by_as_much_and_there() {
        let deck = cubics::turnstone();
        let longer = deck.apply(&Edit::MoveNode { node: 4, to: (418.75, 0.0).into() }).unwrap();
        let found = compare(deck.shape(), longer.shape()).farthest;
        assert!((found.distance - 6.0).abs() < DISTANCE, "{found:?}");
        assert!(found.at.x > 412.7 && found.at.y < 0.1, "{found:?}");
    }

    #[test]
    fn the_distance_is_the_same_both_ways_round() {
        let (a, b) = (demo::turnstone(), demo::dunlin());
        let there = compare(a.shape(), b.shape()).farthest;
        let back = compare(b.shape(), a.shape()).farthest;
        assert!((there.distance - back.distance).abs() < DISTANCE);
    }
}
