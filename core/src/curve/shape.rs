//! The form of the Euler spiral with given end tangents, apart from its size and place.
//!
//! Two angles between the end tangents and the chord fix it. The batten works on these angles alone.

use core::f64::consts::PI;

use kurbo::{Point, Vec2};

use super::moments::moments;
use crate::real;

/// Largest angle between an end tangent and the chord, in radians: 150°.
///
/// Past it the spiral winds into a loop several times longer than its chord, which no batten does.
pub(super) const STEEPEST: f64 = PI / 6.0 * 5.0;

/// Newton steps for the rate. Three bring every pair of angles up to [`STEEPEST`] to rounding; one is kept in hand.
const STEPS: usize = 4;

/// Largest error of the chord's direction, in radians, that still counts as solved.
const SOLVED: f64 = 1e-12;

/// Length and direction of the straight line between two points.
#[derive(Clone, Copy, Debug)]
pub(super) struct Chord {
    pub(super) length: f64,
    pub(super) direction: f64,
}

/// A spiral of unit length with the wanted angles to its chord.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shape {
    /// The whole turning, in radians.
    pub(super) turn: f64,
    /// The change of curvature from start to end, in radians.
    pub(super) rate: f64,
    moments: [Vec2; 3],
}

/// The curvature at one end of a spiral with a chord of unit length, and how it follows the two angles.
#[derive(Clone, Copy, Debug)]
pub(super) struct EndCurvature {
    pub(super) value: f64,
    pub(super) by_start: f64,
    pub(super) by_end: f64,
}

impl Chord {
    /// None where the points coincide or are not finite.
    pub(super) fn between(p0: Point, p1: Point) -> Option<Self> {
        let chord = p1 - p0;
        let length = real::hypot(chord.x, chord.y);
        (length > 0.0 && length.is_finite()).then(|| Self { length, direction: real::direction(chord) })
    }
}

impl Shape {
    /// The shape whose tangent leaves at `start` and arrives at `end`, in radians anticlockwise from the chord.
    ///
    /// Its turning is `end − start`; its rate is the only root of `rate/8 − arg M₀ = (start + end)/2`, whose slope is
    /// never below 1/12. None where an angle is not finite or beyond [`STEEPEST`].
    pub(super) fn with_ends(start: f64, end: f64) -> Option<Self> {
        if !(start.abs() <= STEEPEST && end.abs() <= STEEPEST) {
            return None;
        }
        let (turn, mean) = (end - start, (start + end) / 2.0);
        let mut rate = guessed_rate(turn, mean);
        let mut moments = moments(turn, rate);
        for _ in 0..STEPS {
            let [chord, _, second] = moments;
            let slope = 0.125 - chord.dot(second) / (2.0 * chord.hypot2());
            let next = rate - (rate / 8.0 - real::direction(chord) - mean) / slope;
            if next.to_bits() == rate.to_bits() {
                break; // as all further steps would
            }
            rate = next;
            moments = self::moments(turn, rate);
        }
        let error = rate / 8.0 - real::direction(moments[0]) - mean;
        (error.abs() <= SOLVED).then_some(Self { turn, rate, moments })
    }

    /// The length of the chord as a share of the arc length.
    pub(super) fn chord(&self) -> f64 {
        self.moments[0].hypot2().sqrt()
    }

    /// The curvatures at start and end for a chord of unit length, with their derivatives by the two angles.
    pub(super) fn end_curvatures(&self) -> [EndCurvature; 2] {
        let [m0, m1, m2] = self.moments;
        let (chord, square) = (self.chord(), m0.hypot2());
        // Direction and logarithm of the length of M₀, by turn and by rate.
        let (direction_by_turn, direction_by_rate) = (m0.dot(m1) / square, m0.dot(m2) / (2.0 * square));
        let (length_by_turn, length_by_rate) = (-m0.cross(m1) / square, -m0.cross(m2) / (2.0 * square));
        [-0.5, 0.5].map(|side| {
            let value = (self.turn + side * self.rate) * chord;
            let by = |turn: f64| {
                let rate = (0.5 + direction_by_turn * turn) / (0.125 - direction_by_rate);
                (turn + side * rate) * chord + value * (length_by_turn * turn + length_by_rate * rate)
            };
            EndCurvature { value, by_start: by(-1.0), by_end: by(1.0) }
        })
    }
}

/// The rate to third order in the angles (own expansion of the equation whose root it starts).
fn guessed_rate(turn: f64, mean: f64) -> f64 {
    mean * (12.0 - turn * turn / 5.0 - mean * mean * (4.0 / 35.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_pair_of_angles_up_to_the_steepest_has_a_shape() {
        for i in -40..=40 {
            for j in -40..=40 {
                let (start, end) = (STEEPEST * f64::from(i) / 40.0, STEEPEST * f64::from(j) / 40.0);
                let shape = Shape::with_ends(start, end).unwrap();
                let chord = real::direction(shape.moments[0]);
                assert!((shape.rate / 8.0 - shape.turn / 2.0 - chord - start).abs() < 3e-15, "{start} {end}");
                assert!((shape.rate / 8.0 + shape.turn / 2.0 - chord - end).abs() < 3e-15, "{start} {end}");
            }
        }
    }

    #[test]
    fn derivatives_of_the_end_curvatures_agree_with_differences() {
        let h = 1e-5;
        let at = |a, b| Shape::with_ends(a, b).unwrap().end_curvatures();
        for (a, b) in [(0.0, 0.0), (0.3, -0.2), (-1.2, 0.9), (1.5, 1.5), (-2.0, 2.3), (2.4, 0.1)] {
            for (side, found) in at(a, b).into_iter().enumerate() {
                let by_start = (at(a + h, b)[side].value - at(a - h, b)[side].value) / (2.0 * h);
                let by_end = (at(a, b + h)[side].value - at(a, b - h)[side].value) / (2.0 * h);
                assert!((found.by_start - by_start).abs() < 1e-7, "{a} {b}: {found:?} for {by_start}");
                assert!((found.by_end - by_end).abs() < 1e-7, "{a} {b}: {found:?} for {by_end}");
            }
        }
    }

    #[test]
    fn angles_beyond_the_steepest_or_not_finite_have_none() {
        for bad in [STEEPEST + 1e-9, -3.0, f64::NAN, f64::INFINITY] {
            assert!(Shape::with_ends(bad, 0.1).is_none());
            assert!(Shape::with_ends(0.1, bad).is_none());
        }
    }
}
