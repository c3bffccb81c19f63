//! Families of sweeps: curves known by name and dimensions.
//!
//! Each starts at the origin along +x and bends to the left; placing, flipping and cutting it to its marks is the
//! caller's.

use core::f64::consts::{FRAC_PI_2, TAU};

use kurbo::{CubicBez, Point, Vec2};

use super::spiral::Spiral;
use crate::real;

/// Largest distance of a cubic from its curve, in mm: a tenth of the repeatability promised of a sweep.
const ACCURACY: f64 = 1e-4;

/// Pieces of an ellipse quarter. A piece of 15° is 1.2e-8 of the larger half axis off.
const ELLIPSE_PIECES: u32 = 6;

/// Halvings of half a superellipse quarter: the sharpest corner admitted takes 9.
const HALVINGS: usize = 14;

/// Exponents of superellipses: below 2 the curvature at the ends is infinite, above 20 nobody sees that it is not a
/// corner.
const EXPONENTS: core::ops::RangeInclusive<f64> = 2.0..=20.0;

/// A named curve with its dimensions in mm and radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Family {
    /// The arc that a compass draws: its radius, and the angle it turns through, at most a whole turn.
    Arc {
        /// Radius in mm.
        radius: f64,
        /// Turning in radians.
        turn: f64,
    },
    /// A quarter of an ellipse from the end of one axis to the end of the other.
    Ellipse {
        /// Half axis along the start, in mm.
        along: f64,
        /// Half axis across the start, in mm.
        across: f64,
    },
    /// A quarter of `|x/along|ⁿ + |y/across|ⁿ = 1`: an ellipse for the exponent 2, fuller above.
    Superellipse {
        /// Half axis along the start, in mm.
        along: f64,
        /// Half axis across the start, in mm.
        across: f64,
        /// The exponent n, 2 to 20.
        exponent: f64,
    },
    /// A curve that starts straight and whose curvature grows evenly along it, to 1/radius at its end.
    Clothoid {
        /// Radius at the end, in mm.
        radius: f64,
        /// Length along the curve, in mm; at most a whole turn's worth.
        length: f64,
    },
}

impl Family {
    /// The curve as cubics with one tangent at each joint, within 1e-4 mm.
    ///
    /// None where a dimension is not positive and finite or is beyond the range said above.
    #[must_use]
    pub fn cubics(&self) -> Option<Vec<CubicBez>> {
        let (_, sizes) = self.numbers();
        if !sizes[..2].iter().all(|size| *size > 0.0 && size.is_finite()) {
            return None;
        }
        match *self {
            Self::Arc { .. } | Self::Clothoid { .. } => self.spiral().map(|spiral| spiral.cubics().collect()),
            Self::Ellipse { along, across } => Some(ellipse(along, across)),
            Self::Superellipse { along, across, exponent } => {
                EXPONENTS.contains(&exponent).then(|| superellipse(along, across, exponent))
            }
        }
    }

    /// Its place among the families, as they stand above, and its dimensions in order; 0 for what it has not.
    pub(crate) fn numbers(&self) -> (usize, [f64; 3]) {
        match *self {
            Self::Arc { radius, turn } => (0, [radius, turn, 0.0]),
            Self::Ellipse { along, across } => (1, [along, across, 0.0]),
            Self::Superellipse { along, across, exponent } => (2, [along, across, exponent]),
            Self::Clothoid { radius, length } => (3, [radius, length, 0.0]),
        }
    }

    /// The family at that place, with those dimensions; the last for any place beyond.
    pub(crate) fn of_numbers(place: usize, [a, b, c]: [f64; 3]) -> Self {
        match place {
            0 => Self::Arc { radius: a, turn: b },
            1 => Self::Ellipse { along: a, across: b },
            2 => Self::Superellipse { along: a, across: b, exponent: c },
            _ => Self::Clothoid { radius: a, length: b },
        }
    }

    /// The curve itself where it is an Euler spiral: an arc or a clothoid within its range.
    #[must_use]
    pub fn spiral(&self) -> Option<Spiral> {
        let (curvature, rate, length, turn, most) = match *self {
            Self::Arc { radius, turn } => (1.0 / radius, 0.0, radius * turn, turn, TAU),
            Self::Clothoid { radius, length } => {
                (0.0, 1.0 / (radius * length), length, length / radius, 2.0 * TAU)
            }
            Self::Ellipse { .. } | Self::Superellipse { .. } => return None,
        };
        let spiral = Spiral::from_start(Point::ZERO, 0.0, curvature, rate, length)?;
        (turn <= most).then_some(spiral)
    }
}

/// The affine image of the best cubics for a circle.
fn ellipse(along: f64, across: f64) -> Vec<CubicBez> {
    let turn = FRAC_PI_2 / f64::from(ELLIPSE_PIECES);
    let handle = real::tan(turn / 4.0) * 4.0 / 3.0;
    let place = |unit: Vec2| Point::new(along * unit.y, across * (1.0 - unit.x));
    let piece = |index| {
        let [from, to] = [index, index + 1].map(|joint| real::unit_vector(turn * f64::from(joint)));
        let (out, back) = (from + from.turn_90() * handle, to - to.turn_90() * handle);
        CubicBez::new(place(from), place(out), place(back), place(to))
    };
    (0..ELLIPSE_PIECES).map(piece).collect()
}

/// The unit curve `uⁿ + vⁿ = 1` as v over u up to the diagonal, and from there its mirror image.
fn superellipse(along: f64, across: f64, exponent: f64) -> Vec<CubicBez> {
    let curve = UnitSuperellipse { exponent, accuracy: ACCURACY / along.max(across) };
    let (mut half, diagonal) = (Vec::new(), real::pow(0.5, 1.0 / exponent));
    curve.halve(0.0, diagonal, HALVINGS, &mut half);
    if let Some(last) = half.last_mut() {
        last.p3 = Point::new(diagonal, diagonal); // to the bit, so that the halves meet
    }
    let place = |p: Point| Point::new(along * p.x, across * (1.0 - p.y));
    let mirrored = |p: Point| place(Point::new(p.y, p.x));
    let first = half.iter().map(|c| CubicBez::new(place(c.p0), place(c.p1), place(c.p2), place(c.p3)));
    let second = half
        .iter()
        .rev()
        .map(|c| CubicBez::new(mirrored(c.p3), mirrored(c.p2), mirrored(c.p1), mirrored(c.p0)));
    first.chain(second).collect()
}

struct UnitSuperellipse {
    exponent: f64,
    accuracy: f64,
}

impl UnitSuperellipse {
    fn height(&self, u: f64) -> f64 {
        real::pow(1.0 - real::pow(u, self.exponent), 1.0 / self.exponent)
    }

    fn slope(&self, u: f64) -> f64 {
        -real::pow(u / self.height(u), self.exponent - 1.0)
    }

    /// Hermite pieces over `u0..u1`, halved until they are accurate. Each is a graph over u, so its height is its
    /// error.
    fn halve(&self, u0: f64, u1: f64, halvings: usize, pieces: &mut Vec<CubicBez>) {
        let (third, [v0, v1]) = ((u1 - u0) / 3.0, [u0, u1].map(|u| self.height(u)));
        let (out, back) = (v0 + self.slope(u0) * third, v1 - self.slope(u1) * third);
        let error = |step: u32| {
            let t = f64::from(step) / 8.0;
            let s = 1.0 - t;
            let height = s * s * s * v0 + 3.0 * s * t * (s * out + t * back) + t * t * t * v1;
            (height - self.height(u0 + (u1 - u0) * t)).abs()
        };
        if halvings == 0 || (1..8).all(|step| error(step) < self.accuracy * 0.9) {
            let (a, b) = (Point::new(u0 + third, out), Point::new(u1 - third, back));
            pieces.push(CubicBez::new(Point::new(u0, v0), a, b, Point::new(u1, v1)));
        } else {
            let middle = u0.midpoint(u1);
            self.halve(u0, middle, halvings - 1, pieces);
            self.halve(middle, u1, halvings - 1, pieces);
        }
    }
}

#[cfg(test)]
mod tests {
    use kurbo::{ParamCurve, ParamCurveArclen, ParamCurveArea};

    use super::*;

    #[track_caller]
    fn check(family: Family, end: (f64, f64), on_curve: impl Fn(Point) -> f64) {
        let cubics = family.cubics().unwrap();
        assert_eq!(cubics[0].p0, Point::ZERO);
        assert!((cubics[cubics.len() - 1].p3 - Point::from(end)).hypot() < 1e-6, "{cubics:?}");
        assert!((cubics[0].p1 - cubics[0].p0).y.abs() < 1e-9, "starts along +x");
        for pair in cubics.windows(2) {
            let (before, after) = (pair[0].p3 - pair[0].p2, pair[1].p1 - pair[1].p0);
            assert_eq!(pair[0].p3, pair[1].p0);
            assert!(before.cross(after).abs() < 1e-9 * before.hypot() * after.hypot(), "{family:?}");
        }
        for cubic in &cubics {
            for i in 0..=16 {
                let distance = on_curve(cubic.eval(f64::from(i) / 16.0));
                assert!(distance.abs() < 1e-4, "{family:?}: {distance}");
            }
        }
    }

    /// The first-order distance of a point from a superellipse quarter.
    fn superellipse_distance(p: Point, along: f64, across: f64, n: f64) -> f64 {
        let (u, v) = (p.x / along, 1.0 - p.y / across);
        let value = real::pow(u, n) + real::pow(v, n) - 1.0;
        value / (n * real::hypot(real::pow(u, n - 1.0) / along, real::pow(v, n - 1.0) / across))
    }

    fn length(family: Family) -> f64 {
        family.cubics().unwrap().iter().map(|c| c.arclen(1e-9)).sum()
    }

    #[test]
    fn each_family_runs_along_its_curve_to_its_end() {
        let (radius, turn) = (75.0, 2.4);
        let arc_end = (radius * real::sin(turn), radius * (1.0 - real::cos(turn)));
        check(Family::Arc { radius, turn }, arc_end, |p| (p - Point::new(0.0, radius)).hypot() - radius);
        check(Family::Clothoid { radius: 100.0, length: 100.0 }, (97.528_769, 16.371_405), |_| 0.0);
        for (along, across) in [(160.0, 100.0), (30.0, 400.0), (5.0, 5.0)] {
            let ellipse = |p| superellipse_distance(p, along, across, 2.0);
            check(Family::Ellipse { along, across }, (along, across), ellipse);
            for exponent in [2.0, 2.2, 2.5, 3.0, 4.0, 8.0, 20.0] {
                let on_curve = |p| superellipse_distance(p, along, across, exponent);
                check(Family::Superellipse { along, across, exponent }, (along, across), on_curve);
            }
        }
    }

    #[test]
    fn published_lengths_and_areas_are_met() {
        assert!((length(Family::Arc { radius: 50.0, turn: 2.0 }) - 100.0).abs() < 1e-5);
        let ellipse = Family::Ellipse { along: 400.0, across: 100.0 };
        assert!((length(ellipse) * 4.0 - 1_715.684_355).abs() < 1e-4);
        let squircle = Family::Superellipse { along: 100.0, across: 100.0, exponent: 4.0 };
        assert!((length(squircle) * 4.0 - 701.769_794).abs() < 1e-3);
        let full = Family::Superellipse { along: 400.0, across: 100.0, exponent: 2.5 };
        // The area between the curve and the axes through its centre (0, across), taken round the centre.
        let about_centre = |c: CubicBez| (kurbo::Affine::translate((0.0, -100.0)) * c).signed_area();
        let area: f64 = full.cubics().unwrap().into_iter().map(about_centre).sum();
        assert!((area * 4.0 - 135_237.414_5).abs() < 0.05, "{}", area * 4.0);
    }

    #[test]
    fn dimensions_out_of_range_have_no_curve() {
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert_eq!(Family::Arc { radius: bad, turn: 1.0 }.cubics(), None);
            assert_eq!(Family::Ellipse { along: 10.0, across: bad }.cubics(), None);
            assert_eq!(Family::Clothoid { radius: 10.0, length: bad }.cubics(), None);
            assert_eq!(Family::Superellipse { along: 10.0, across: 10.0, exponent: bad }.cubics(), None);
        }
        assert_eq!(Family::Arc { radius: 10.0, turn: 6.3 }.cubics(), None);
        assert_eq!(Family::Clothoid { radius: 10.0, length: 130.0 }.cubics(), None);
        assert_eq!(Family::Superellipse { along: 9.0, across: 9.0, exponent: 1.9 }.cubics(), None);
    }
}
