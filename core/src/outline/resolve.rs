//! The outline resolved once to cubics: the only thing measures, exports and the drawing look at.

use super::{Course, Outline, Span, SpanEnd};
use crate::{
    order::sort_by_number,
    roots::{monotone_cubic_root, quadratic_roots},
};
use kurbo::{Affine, BezPath, CubicBez, ParamCurve, PathEl, Point, Rect};

/// The left half of the outline as an unbroken run of cubics, tail to nose, y ≥ 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Half {
    pieces: Vec<Piece>,
}

/// One cubic of the resolved half.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// The curve, tail to nose. On a straight span its handles stand at the thirds.
    pub curve: CubicBez,
    /// The stored span it comes from.
    pub span: usize,
    /// Whether that span is straight.
    pub straight: bool,
    /// Whether it is the copy on the tail half of a twin.
    pub far: bool,
    /// The curvature at its two ends where it is known better than the cubic tells it, 1/mm, positive where the edge
    /// bulges outward: that of the batten, even along its arc between them.
    pub bends: Option<[f64; 2]>,
}

/// Takes a point to the other rail.
pub(crate) const MIRROR: Affine = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, 0.0]);

impl Outline {
    /// The half outline as cubics.
    #[must_use]
    pub fn resolve(&self) -> Half {
        let mut near: Vec<Piece> = Vec::new();
        for s in 0..self.spans.len() {
            near.extend(self.course(s).pieces(s));
        }
        if !self.twin {
            return Half { pieces: near };
        }
        let mut pieces: Vec<Piece> =
            near.iter().rev().map(|piece| Piece { far: true, ..piece.turned() }).collect();
        pieces.extend_from_slice(&near);
        Half { pieces }
    }

    /// The course of span `s`. A batten that cannot bend as its tangents say, or a sweep that is not there (no design
    /// holds one), runs straight.
    #[must_use]
    pub fn course(&self, s: usize) -> Course {
        let (p0, p3) = (self.nodes[s].place, self.nodes[s + 1].place);
        let handles = self.handle_place(s, SpanEnd::Start).zip(self.handle_place(s, SpanEnd::End));
        match (self.spans[s], handles) {
            (Span::Cubic { .. }, Some((p1, p2))) => Course::Cubic(CubicBez::new(p0, p1, p2, p3)),
            (Span::Laid { .. }, _) => self.laid(s).map_or_else(|| Course::line(p0, p3), Course::Laid),
            (Span::Batten { .. }, _) => self.spiral(s).map_or_else(|| Course::line(p0, p3), Course::Spiral),
            _ => Course::line(p0, p3),
        }
    }
}

impl Piece {
    /// The piece seen with nose and tail exchanged: x negated, direction reversed.
    #[must_use]
    pub fn turned(&self) -> Self {
        let turn = |p: Point| Point::new(-p.x, p.y);
        let CubicBez { p0, p1, p2, p3 } = self.curve;
        let bends = self.bends.map(|[start, end]| [end, start]);
        Self { curve: CubicBez::new(turn(p3), turn(p2), turn(p1), turn(p0)), bends, ..*self }
    }

    /// The first parameter at which the piece stands at station `x`.
    #[must_use]
    pub fn first_at_x(&self, x: f64) -> Option<f64> {
        self.at_x(x).next()
    }

    /// All parameters in 0..=1 at which the piece stands at station `x`, in order; of a stretch that stays there, its
    /// start.
    pub fn at_x(&self, x: f64) -> impl Iterator<Item = f64> + use<> {
        let curve = &self.curve;
        let [c0, c1, c2, c3] = coefficients(curve).map(|c| c.x);
        let (mut found, mut number) = ([0.0; 5], 0);
        let mut last = f64::NEG_INFINITY;
        for (a, b) in monotone_intervals(curve) {
            let (from, to) = (curve.eval(a).x, curve.eval(b).x);
            if from.min(to) > x || from.max(to) < x {
                continue;
            }
            let t = monotone_cubic_root([c0 - x, c1, c2, c3], a, b);
            if t - last > SAME_PLACE {
                found[number] = t;
                number += 1;
            }
            last = t;
        }
        found.into_iter().take(number)
    }

    /// The curve as a path element that continues from its start.
    #[must_use]
    pub fn element(&self) -> PathEl {
        let CubicBez { p1, p2, p3, .. } = self.curve;
        if self.straight { PathEl::LineTo(p3) } else { PathEl::CurveTo(p1, p2, p3) }
    }
}

impl Half {
    /// A half from its pieces. They must follow each other and run tail to nose.
    #[must_use]
    pub fn from_pieces(pieces: Vec<Piece>) -> Self {
        Self { pieces }
    }

    /// The cubics, tail to nose.
    #[must_use]
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// The half with nose and tail exchanged, so that one routine measures both ends.
    #[must_use]
    pub fn turned(&self) -> Self {
        Self { pieces: self.pieces.iter().rev().map(Piece::turned).collect() }
    }

    /// The half as an open path, tail to nose.
    #[must_use]
    pub fn path(&self) -> BezPath {
        let start = self.pieces.first().map_or(Point::ORIGIN, |piece| piece.curve.p0);
        core::iter::once(PathEl::MoveTo(start)).chain(self.pieces.iter().map(Piece::element)).collect()
    }

    /// The other half as an open path, tail to nose: the exact mirror.
    #[must_use]
    pub fn mirror_path(&self) -> BezPath {
        MIRROR * self.path()
    }

    /// The whole outline as one closed path, anticlockwise from the nose tip.
    #[must_use]
    pub fn closed(&self) -> BezPath {
        let mut path = self.path().reverse_subpaths();
        path.extend(self.mirror_path().iter().skip(1));
        path.push(PathEl::ClosePath);
        path
    }
}

/// The power-basis coefficients of a cubic: the point at `t` is c0 + c1·t + c2·t² + c3·t³.
#[must_use]
pub(crate) fn coefficients(curve: &CubicBez) -> [kurbo::Vec2; 4] {
    let [p0, p1, p2, p3] = [curve.p0, curve.p1, curve.p2, curve.p3].map(Point::to_vec2);
    [p0, 3.0 * (p1 - p0), 3.0 * (p0 - 2.0 * p1 + p2), p3 - p0 + 3.0 * (p1 - p2)]
}

/// Parameters nearer to one another than this are one: the curve between them turns by less than a picometre.
const SAME_PLACE: f64 = 1e-7;

/// Parameters strictly inside 0..1 at which the curve turns back in x or in y, in order.
fn turning_points(curve: &CubicBez) -> impl Iterator<Item = f64> + use<> {
    let (cuts, turns) = cuts(curve);
    cuts.into_iter().take(turns)
}

/// The intervals between the turning points, in order, from 0 to 1.
fn monotone_intervals(curve: &CubicBez) -> impl Iterator<Item = (f64, f64)> + use<> {
    let (cuts, turns) = cuts(curve);
    let mut from = 0.0;
    cuts.into_iter().take(turns + 1).map(move |to| (core::mem::replace(&mut from, to), to))
}

/// The turning points in order, then 1, and how many turning points there are.
fn cuts(curve: &CubicBez) -> ([f64; 5], usize) {
    let CubicBez { p0, p1, p2, p3 } = *curve;
    let mut roots = [f64::INFINITY; 4];
    for (i, [a, b, c]) in [[p1.x - p0.x, p2.x - p1.x, p3.x - p2.x], [p1.y - p0.y, p2.y - p1.y, p3.y - p2.y]]
        .into_iter()
        .enumerate()
    {
        // The derivative lies between its Bernstein coefficients: where they have one sign it has no root.
        if a.min(b).min(c) > 0.0 || a.max(b).max(c) < 0.0 {
            continue;
        }
        let inside = quadratic_roots([a, 2.0 * (b - a), a - 2.0 * b + c], SAME_PLACE, 1.0 - SAME_PLACE);
        for (slot, t) in roots[2 * i..].iter_mut().zip(inside) {
            *slot = t;
        }
    }
    sort_by_number(&mut roots, |t| *t);
    let (mut cuts, mut turns) = ([1.0; 5], 0);
    let mut last = f64::NEG_INFINITY;
    for t in roots {
        if t.is_finite() && t - last > SAME_PLACE {
            cuts[turns] = t;
            turns += 1;
        }
        last = t;
    }
    (cuts, turns)
}

/// The rectangle that a curve just fits into.
pub(crate) fn extent(curve: &CubicBez) -> Rect {
    let turns = turning_points(curve).map(|t| curve.eval(t));
    turns.fold(Rect::from_points(curve.p0, curve.p3), |extent, turn| extent.union_pt(turn))
}

/// The curve cut where it turns back, so that each part is monotone in x and in y; each with its two parameters.
pub(crate) fn monotone_parts(curve: &CubicBez) -> impl Iterator<Item = (f64, f64, CubicBez)> + use<> {
    let curve = *curve;
    monotone_intervals(&curve).map(move |(a, b)| {
        if b - a >= 1.0 {
            return (a, b, curve);
        }
        let mut part = curve.subsegment(a..b);
        // The ends of neighbouring parts must be the same point, to the bit.
        (part.p0, part.p3) = (curve.eval(a), curve.eval(b));
        (a, b, part)
    })
}
