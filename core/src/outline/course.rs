//! The course of one span: where it runs, whatever kind it is.

use super::{Piece, tangent_at};
use crate::{curve::spiral::Spiral, tolerance};
use kurbo::{BezPath, CubicBez, ParamCurve, ParamCurveNearest, Point};

/// The curve of a span from its tailward node (at 0) to its noseward one (at 1).
#[derive(Clone, Copy, Debug)]
pub enum Course {
    /// A straight line, as the cubic with its handles at the thirds.
    Line(CubicBez),
    /// A cubic Bézier curve.
    Cubic(CubicBez),
    /// A length of batten; the parameter is the share of its arc length.
    Spiral(Spiral),
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
        }
    }

    /// The tangent direction at `t`, radians.
    #[must_use]
    pub fn tangent(&self, t: f64) -> f64 {
        match self {
            Self::Line(curve) | Self::Cubic(curve) => tangent_at(curve, t),
            Self::Spiral(spiral) => spiral.angle(t * spiral.length()),
        }
    }

    /// The parameter of the point nearest to `p`, and its distance, mm.
    #[must_use]
    pub fn nearest(&self, p: Point) -> (f64, f64) {
        let curves: Vec<CubicBez> = self.curves().collect();
        let share = 1.0 / curves.len() as f64;
        let mut best = (0.0, f64::INFINITY);
        for (i, curve) in curves.iter().enumerate() {
            let nearest = curve.nearest(p, tolerance::TOUCH);
            if nearest.distance_sq < best.1 {
                // The cubics of a spiral are of one length, and each is as good as evenly parametrised.
                best = ((i as f64 + nearest.t) * share, nearest.distance_sq);
            }
        }
        (best.0, best.1.sqrt())
    }

    /// The parameter at which it first stands at station `x`.
    #[must_use]
    pub(super) fn at_station(&self, x: f64) -> Option<f64> {
        let pieces: Vec<Piece> = self.pieces(0).collect();
        let share = 1.0 / pieces.len() as f64;
        pieces.iter().enumerate().find_map(|(i, piece)| Some((i as f64 + piece.first_at_x(x)?) * share))
    }

    /// The course as cubics.
    pub fn curves(&self) -> impl Iterator<Item = CubicBez> + use<> {
        let (one, many) = match self {
            Self::Line(curve) | Self::Cubic(curve) => (Some(*curve), None),
            Self::Spiral(spiral) => (None, Some(spiral.cubics())),
        };
        one.into_iter().chain(many.into_iter().flatten())
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
        let straight = matches!(self, Self::Line(_));
        let spiral = if let Self::Spiral(spiral) = self { Some(*spiral) } else { None };
        let curves: Vec<CubicBez> = self.curves().collect();
        let step = spiral.map_or(0.0, |spiral| spiral.length() / curves.len() as f64);
        curves.into_iter().enumerate().map(move |(i, curve)| {
            // The half runs clockwise round the deck: what bulges outward turns right.
            let bend = |s: f64| spiral.map(|spiral| -spiral.curvature(s));
            let from = i as f64 * step;
            let bends = bend(from).zip(bend(from + step)).map(<[f64; 2]>::from);
            Piece { curve, span, straight, far: false, bends }
        })
    }
}
