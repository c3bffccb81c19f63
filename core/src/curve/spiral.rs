//! The Euler spiral between two points with given end tangents.
//!
//! Curvature is linear in arc length. There is one such curve of least winding through two points with given tangents
//! (G1 Hermite interpolation; R. Levien, *From Spiral to Spline*, 2009; E. Bertolazzi, M. Frego, *G1 fitting with
//! clothoids*, 2015, doi:10.1002/mma.3114). It is found here by a fixed number of Newton steps from a fixed guess, in
//! arithmetic that gives the same bits everywhere, so the four numbers *define* the curve.

use kurbo::{CubicBez, Point, Vec2};

use super::moments::{moments, turned};
use super::shape::{Chord, Shape};
use crate::real;

/// Most turning of one cubic piece, in radians. Its curvature errs by 1 % of its change over a piece, which falls
/// with the square of this.
const PIECE_TURN: f64 = 0.25;

/// Wanted distance between a cubic piece and the spiral, in mm: a tenth of a micrometre, unseen a thousand times over.
const PIECE_DISTANCE: f64 = 1e-4;

/// The largest value of 23/480·t²(1−t)²(2t−1), the factor of the leading error term of a piece (see [`handle_share`]).
const PIECE_ERROR: f64 = 8.6e-4;

/// Most cubics of one spiral: 100 rad of turning, more than any spiral between two points has.
const MOST_PIECES: f64 = 400.0;

/// An Euler spiral: a curve whose curvature changes evenly along its length.
///
/// Lengths in mm, angles in radians, curvature in 1/mm, positive where the curve turns left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spiral {
    start: Point,
    end: Point,
    angle: f64,
    curvature: f64,
    rate: f64,
    length: f64,
}

impl Spiral {
    /// The spiral from `p0` with tangent angle `theta0` to `p1` with tangent angle `theta1`.
    ///
    /// The angles are taken modulo whole turns. None where the points coincide, a value is not finite, or a tangent
    /// lies more than 150° off the chord. The end is met to 1e-12 of the chord.
    #[must_use]
    pub fn between(p0: Point, theta0: f64, p1: Point, theta1: f64) -> Option<Self> {
        let chord = Chord::between(p0, p1)?;
        let start = real::wrapped(theta0 - chord.direction);
        let shape = Shape::with_ends(start, real::wrapped(theta1 - chord.direction))?;
        let length = chord.length / shape.chord();
        Some(Self {
            start: p0,
            end: p1,
            angle: chord.direction + start,
            curvature: (shape.turn - shape.rate / 2.0) / length,
            rate: shape.rate / (length * length),
            length,
        })
    }

    /// The spiral from `start` at tangent angle `angle`, with its `curvature` there, the `rate` at which that grows
    /// along the curve (1/mm²) and its `length`.
    ///
    /// None where a value is not finite or the length is not positive.
    #[must_use]
    pub fn from_start(start: Point, angle: f64, curvature: f64, rate: f64, length: f64) -> Option<Self> {
        let spiral = Self { start, end: start, angle, curvature, rate, length };
        let end = start + spiral.chord_to(length);
        (end.is_finite() && angle.is_finite() && length > 0.0).then_some(Self { end, ..spiral })
    }

    /// The stretch of it between two arc lengths; `None` where that has no length.
    #[must_use]
    pub fn stretch(&self, from: f64, to: f64) -> Option<Self> {
        let stretch =
            Self::from_start(self.point(from), self.angle(from), self.curvature(from), self.rate, to - from)?;
        Some(if to < self.length { stretch } else { Self { end: self.end, ..stretch } })
    }

    /// The same curve from its end to its start.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let (angle, curvature) = (self.angle(self.length), self.curvature(self.length));
        Self {
            start: self.end,
            end: self.start,
            angle: angle + core::f64::consts::PI,
            curvature: -curvature,
            ..*self
        }
    }

    /// Where the spiral begins.
    #[must_use]
    pub fn start(&self) -> Point {
        self.start
    }

    /// Where the spiral ends: the very point it was asked to meet.
    #[must_use]
    pub fn end(&self) -> Point {
        self.end
    }

    /// The arc length, in mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.length
    }

    /// The growth of curvature along the curve, in 1/mm²; 0 for a circular arc or a straight line.
    #[must_use]
    pub fn rate(&self) -> f64 {
        self.rate
    }

    /// The point at arc length `s` from the start, within 1e-12 of the length.
    #[must_use]
    pub fn point(&self, s: f64) -> Point {
        self.start + self.chord_to(s)
    }

    /// The tangent angle at arc length `s`, in radians, anticlockwise from +x; it runs on past whole turns.
    #[must_use]
    pub fn angle(&self, s: f64) -> f64 {
        self.angle + (self.curvature + self.rate * s / 2.0) * s
    }

    /// The curvature at arc length `s`, in 1/mm.
    #[must_use]
    pub fn curvature(&self, s: f64) -> f64 {
        self.curvature + self.rate * s
    }

    /// The spiral as cubics: equal lengths, each turning 0.25 rad or less and within 1e-4 mm of the spiral.
    ///
    /// Joints, tangents there and the two ends are the spiral's own. The curvature of the cubics jumps at a joint by
    /// up to 1 % of its change over a piece, so fairness is read from [`Self::curvature`], not from the cubics.
    pub fn cubics(&self) -> impl Iterator<Item = CubicBez> + use<> {
        let steepest = self.curvature.abs().max(self.curvature(self.length).abs());
        let turn = steepest * self.length;
        let error = PIECE_ERROR * turn * turn * (self.rate * self.length * self.length).abs() * self.length;
        let pieces = (turn / PIECE_TURN).max(real::pow(error / PIECE_DISTANCE, 0.2)).ceil();
        self.pieces(real::clamp(pieces, 1.0, MOST_PIECES)).into_iter()
    }

    /// The spiral as that many cubics of equal length, however far from it.
    #[must_use]
    pub fn cubics_of(&self, pieces: u32) -> Vec<CubicBez> {
        self.pieces(f64::from(pieces.max(1)))
    }

    fn pieces(&self, pieces: f64) -> Vec<CubicBez> {
        let step = self.length / pieces;
        let mut cubics = Vec::new();
        let mut from = (self.start, real::unit_vector(self.angle));
        let mut index = 1.0;
        while index <= pieces {
            let s = step * index;
            let end = if index < pieces { self.point(s) } else { self.end };
            let to = (end, real::unit_vector(self.angle(s)));
            let turn = self.curvature(s - step / 2.0) * step;
            let handle = step * handle_share(turn, self.rate * step * step);
            cubics.push(CubicBez::new(from.0, from.0 + from.1 * handle, to.0 - to.1 * handle, to.0));
            from = to;
            index += 1.0;
        }
        cubics
    }

    /// From the start to the point at arc length `s`.
    fn chord_to(&self, s: f64) -> Vec2 {
        let middle = s / 2.0;
        let [chord, ..] = moments(self.curvature(middle) * s, self.rate * s * s);
        turned(chord, real::unit_vector(self.angle(middle))) * s
    }
}

/// The handle of a piece as a share of its length, from its turning and its change of curvature, in radians.
///
/// The first two terms are those of the best cubic for a circular arc; the last evens out what a change of curvature
/// leaves (own expansion, with both handles of one length). The distance left over is
/// 23/480·turn²·rate·t²(1−t)²(2t−1) of the length, to leading order.
fn handle_share(turn: f64, rate: f64) -> f64 {
    (1.0 + turn * turn / 48.0 + rate * rate / 285.0) / 3.0
}

#[cfg(test)]
mod tests;
