//! The course of one span: where it runs, whatever kind it is.

use super::{Piece, sweep::Laid, tangent_at};
use crate::{
    curve::{
        length::{arc_length, at_length},
        nearest::nearest,
        spiral::Spiral,
    },
    real,
};
use kurbo::{BezPath, CubicBez, ParamCurve, Point};

/// The curve of a span from its tailward node (at 0) to its noseward one (at 1).
#[derive(Clone, Debug)]
pub enum Course {
    /// A straight line, as the cubic with its handles at the thirds.
    Line(CubicBez),
    /// A cubic Bézier curve.
    Cubic(CubicBez),
    /// A length of batten; the parameter is the share of its arc length.
    Spiral(Spiral),
    /// A stretch of a sweep; each of its parts has an equal share of the parameter.
    Laid(Laid),
}

impl Course {
    /// The straight line between two points.
    #[must_use]
    pub fn line(from: Point, to: Point) -> Self {
        Self::Line(CubicBez::new(from, from.lerp(to, 1.0 / 3.0), to.lerp(from, 1.0 / 3.0), to))
    }

    /// The point at `t`.
    #[must_use]
    pub fn point(&self, t: f64) -> Point {
        match self {
            Self::Line(curve) | Self::Cubic(curve) => curve.eval(t),
            Self::Spiral(spiral) => spiral.point(t * spiral.length()),
            Self::Laid(laid) => laid.point(t),
        }
    }

    /// The tangent direction at `t`, radians.
    #[must_use]
    pub fn tangent(&self, t: f64) -> f64 {
        match self {
            Self::Line(curve) | Self::Cubic(curve) => tangent_at(curve, t),
            Self::Spiral(spiral) => spiral.angle(t * spiral.length()),
            Self::Laid(laid) => laid.tangent(t),
        }
    }

    /// The parameter of the point nearest to `p`, and its distance, mm.
    #[must_use]
    pub fn nearest(&self, p: Point) -> (f64, f64) {
        if let Self::Laid(laid) = self {
            let mut best = (0.0, f64::INFINITY);
            for (i, part) in laid.parts.iter().enumerate() {
                let (u, distance) = part.nearest(p);
                if distance < best.1 {
                    best = (laid.parameter(i, u), distance);
                }
            }
            return best;
        }
        let curves: Vec<CubicBez> = self.curves().collect();
        let share = 1.0 / curves.len() as f64;
        let mut best = (0.0, f64::INFINITY);
        for (i, curve) in curves.iter().enumerate() {
            let (t, square) = nearest(curve, p);
            if square < best.1 {
                // The cubics of a spiral are of one length, and each is as good as evenly parametrised.
                best = ((i as f64 + t) * share, square);
            }
        }
        (best.0, best.1.sqrt())
    }

    /// The parameter at which it first stands at station `x`.
    #[must_use]
    pub(super) fn at_station(&self, x: f64) -> Option<f64> {
        if let Self::Laid(laid) = self {
            let mut parts = laid.parts.iter().enumerate();
            return parts.find_map(|(i, part)| Some(laid.parameter(i, part.at_station(x)?)));
        }
        let pieces: Vec<Piece> = self.pieces(0).collect();
        let share = 1.0 / pieces.len() as f64;
        pieces.iter().enumerate().find_map(|(i, piece)| Some((i as f64 + piece.first_at_x(x)?) * share))
    }

    /// Arc length from its start to `t`, mm.
    pub(super) fn length_to(&self, t: f64) -> f64 {
        match self {
            Self::Line(curve) | Self::Cubic(curve) => arc_length(curve, t),
            Self::Spiral(spiral) => t * spiral.length(),
            Self::Laid(laid) => laid.length_to(t),
        }
    }

    /// The parameter at the arc length `s` from its start, mm; an end where it is no longer than that.
    pub(super) fn at_length(&self, s: f64) -> f64 {
        match self {
            Self::Line(curve) | Self::Cubic(curve) => at_length(curve, s),
            Self::Spiral(spiral) => real::clamp(s / spiral.length(), 0.0, 1.0),
            Self::Laid(_) => 0.0, // marks are read off sweeps, which have none
        }
    }

    /// The stretch of it between two parameters; nothing where that has no length.
    pub(super) fn stretch(&self, from: f64, to: f64) -> Option<Self> {
        match self {
            Self::Line(curve) => Some(Self::Line(curve.subsegment(from..to))),
            Self::Cubic(curve) => Some(Self::Cubic(curve.subsegment(from..to))),
            Self::Spiral(spiral) => {
                spiral.stretch(from * spiral.length(), to * spiral.length()).map(Self::Spiral)
            }
            Self::Laid(_) => None,
        }
    }

    /// The same curve from its end to its start.
    pub(super) fn reversed(&self) -> Option<Self> {
        let turned = |c: &CubicBez| CubicBez::new(c.p3, c.p2, c.p1, c.p0);
        match self {
            Self::Line(curve) => Some(Self::Line(turned(curve))),
            Self::Cubic(curve) => Some(Self::Cubic(turned(curve))),
            Self::Spiral(spiral) => Some(Self::Spiral(spiral.reversed())),
            Self::Laid(_) => None,
        }
    }

    /// The course as cubics.
    pub fn curves(&self) -> impl Iterator<Item = CubicBez> + use<> {
        let curves = match self {
            Self::Line(curve) | Self::Cubic(curve) => vec![*curve],
            Self::Spiral(spiral) => spiral.cubics().collect(),
            Self::Laid(_) => self.pieces(0).map(|piece| piece.curve).collect(),
        };
        curves.into_iter()
    }

    /// The course as an open path.
    #[must_use]
    pub fn path(&self) -> BezPath {
        let mut path = BezPath::new();
        path.move_to(self.point(0.0));
        for curve in self.curves() {
            path.curve_to(curve.p1, curve.p2, curve.p3);
        }
        path
    }

    /// The course as pieces of the resolved half.
    pub(super) fn pieces(&self, span: usize) -> impl Iterator<Item = Piece> + use<> {
        let mut pieces = Vec::new();
        if let Self::Laid(laid) = self {
            laid.parts.iter().for_each(|part| part.put_pieces(span, &mut pieces));
            laid.join(pieces.iter_mut().map(|piece| &mut piece.curve));
        } else {
            self.put_pieces(span, &mut pieces);
        }
        pieces.into_iter()
    }

    fn put_pieces(&self, span: usize, pieces: &mut Vec<Piece>) {
        let straight = matches!(self, Self::Line(_));
        let spiral = if let Self::Spiral(spiral) = self { Some(*spiral) } else { None };
        let curves: Vec<CubicBez> = self.curves().collect();
        let step = spiral.map_or(0.0, |spiral| spiral.length() / curves.len() as f64);
        pieces.extend(curves.into_iter().enumerate().map(move |(i, curve)| {
            // The half runs clockwise round the deck: what bulges outward turns right.
            let bend = |s: f64| spiral.map(|spiral| -spiral.curvature(s));
            let from = i as f64 * step;
            let bends = bend(from).zip(bend(from + step)).map(<[f64; 2]>::from);
            Piece { curve, span, straight, far: false, bends }
        }));
    }
}
