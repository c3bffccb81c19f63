//! A smooth function of the station through given knots: how strongly a change acts where.

/// What the function is at one station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Knot {
    /// The station, mm.
    pub(super) at: f64,
    /// The value there.
    pub(super) value: f64,
    /// The slope there, 1/mm.
    pub(super) slope: f64,
    /// The second derivative there, 1/mm².
    pub(super) bend: f64,
}

/// A piecewise quintic with continuous second derivative; constant before its first knot and after its last.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Blend {
    knots: Vec<Knot>,
}

impl Knot {
    /// A knot where the function is level.
    pub(super) const fn level(at: f64, value: f64) -> Self {
        Self { at, value, slope: 0.0, bend: 0.0 }
    }

    /// A knot the function passes through as a straight line does.
    pub(super) const fn rising(at: f64, value: f64, slope: f64) -> Self {
        Self { at, value, slope, bend: 0.0 }
    }
}

impl Blend {
    /// The function through `knots`, which stand at rising stations; the first and the last are level.
    pub(super) fn through(knots: impl Into<Vec<Knot>>) -> Self {
        Self { knots: knots.into() }
    }

    /// Value and slope at station `x`.
    pub(super) fn at(&self, x: f64) -> (f64, f64) {
        let after = self.knots.partition_point(|knot| knot.at <= x);
        let Some(before) = after.checked_sub(1) else {
            return (self.knots.first().map_or(0.0, |knot| knot.value), 0.0);
        };
        match self.knots.get(after) {
            Some(next) => between(&self.knots[before], next, x),
            None => (self.knots[before].value, 0.0),
        }
    }
}

/// Value and slope at `x` of the quintic that meets both knots in value and in both derivatives (Hermite).
fn between(from: &Knot, to: &Knot, x: f64) -> (f64, f64) {
    let width = to.at - from.at;
    let s = (x - from.at) / width;
    let (c1, c2) = (from.slope * width, from.bend * width * width / 2.0);
    let rise = to.value - from.value - c1 - c2;
    let turn = to.slope * width - c1 - 2.0 * c2;
    let bend = to.bend * width * width / 2.0 - c2;
    let c3 = 10.0 * rise - 4.0 * turn + bend;
    let c4 = -15.0 * rise + 7.0 * turn - 2.0 * bend;
    let c5 = 6.0 * rise - 3.0 * turn + bend;
    let value = from.value + s * (c1 + s * (c2 + s * (c3 + s * (c4 + s * c5))));
    let slope = c1 + s * (2.0 * c2 + s * (3.0 * c3 + s * (4.0 * c4 + s * (5.0 * c5))));
    (value, slope / width)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_blend_meets_its_knots_in_value_and_both_derivatives() {
        let knots = [
            Knot::level(-3.0, 0.5),
            Knot { at: 1.0, value: -2.0, slope: 0.7, bend: -0.3 },
            Knot::level(6.0, 1.0),
        ];
        let blend = Blend::through(knots);
        let step = 1e-4;
        for knot in knots {
            for side in [-step, step] {
                let (value, slope) = blend.at(knot.at + side);
                let bend = (slope - knot.slope) / side;
                assert!((value - knot.value - side * knot.slope).abs() < 1e-7, "{knot:?}");
                assert!((bend - knot.bend).abs() < 1e-2, "{knot:?} {bend}");
            }
        }
        assert_eq!((blend.at(-10.0), blend.at(10.0)), ((0.5, 0.0), (1.0, 0.0)));
    }

    #[test]
    fn knots_on_a_line_give_the_line() {
        let blend = Blend::through([Knot::rising(-2.0, -1.0, 0.5), Knot::rising(4.0, 2.0, 0.5)]);
        for x in [-1.9, 0.0, 1.3, 3.9] {
            let (value, slope) = blend.at(x);
            assert!((value - x / 2.0).abs() < 1e-14 && (slope - 0.5).abs() < 1e-14);
        }
    }
}
