//! Moments of the unit Euler spiral: the Fresnel-type integrals all spirals are drawn with.
//!
//! A spiral of unit length, written about its middle, has the tangent angle `φ(s) = turn·s + rate·s²/2` for `s` from
//! −½ to ½. Its moments are the complex numbers `Mₙ = ∫ sⁿ·exp(iφ(s)) ds`. `M₀` is the chord vector; `M₁` and `M₂`
//! give its derivatives, since `∂M₀/∂turn = i·M₁` and `∂M₀/∂rate = i·M₂/2`.

use kurbo::Vec2;

use crate::real;

/// Most terms of the power series: the last is below 1e-19 at the largest swing of one piece.
const TERMS: usize = 32;

/// A term smaller than this, squared, changes no digit of a moment that is more than a rounding error itself, nor do those
/// after it: at small swings, which most spans of a deck have, half of them are left out.
const VANISHING: f64 = 1e-64;

/// Largest swing of the tangent, in radians from the middle, summed as one series.
///
/// The terms alternate and reach `exp(swing)`, so a larger value costs digits and a smaller one costs pieces.
const SWING: f64 = 2.5;

/// Most pieces summed: a spiral that winds further (800 rad at its steepest) loses accuracy rather than time.
const PIECES: f64 = 160.0;

/// The moments `M₀`, `M₁` and `M₂` of a unit spiral, as vectors (real part, imaginary part).
///
/// `turn` is the whole turning and `rate` the change of curvature from start to end, both in radians. Accurate to 1e-14
/// while the tangent swings through less than a whole turn, and to 1e-12 for ten.
#[must_use]
pub(super) fn moments(turn: f64, rate: f64) -> [Vec2; 3] {
    let steepest = turn.abs() + rate.abs() / 2.0;
    let pieces = real::clamp((steepest / (2.0 * SWING)).ceil(), 1.0, PIECES);
    if pieces <= 1.0 {
        return series(turn, rate);
    }
    let width = 1.0 / pieces;
    let mut sums = [Vec2::ZERO; 3];
    let mut index = 0.0;
    while index < pieces {
        let middle = (index + 0.5) * width - 0.5;
        let [m0, m1, m2] = series((turn + rate * middle) * width, rate * width * width);
        let [m1, m2] = [m1 * width, m2 * (width * width)];
        let direction = real::unit_vector((turn + rate * middle / 2.0) * middle);
        let parts = [m0, m0 * middle + m1, (m0 * middle + m1 * 2.0) * middle + m2];
        for (sum, part) in sums.iter_mut().zip(parts) {
            *sum += turned(part, direction) * width;
        }
        index += 1.0;
    }
    sums
}

/// `v` turned by the angle of the unit vector `direction`: their complex product.
#[must_use]
pub(super) fn turned(v: Vec2, direction: Vec2) -> Vec2 {
    Vec2::new(v.x * direction.x - v.y * direction.y, v.x * direction.y + v.y * direction.x)
}

/// The moments by the power series of `exp(iφ)`.
///
/// Its coefficients follow from `y′ = i(turn + rate·s)·y`: `(n+1)·cₙ₊₁ = i(turn·cₙ + rate·cₙ₋₁)`. Here each is held
/// times `2⁻ⁿ`. Odd powers vanish from the even moments over the symmetric interval, and even ones from the odd
/// moment.
fn series(turn: f64, rate: f64) -> [Vec2; 3] {
    let (half, quarter) = (turn / 2.0, rate / 4.0);
    let (mut before, mut term) = (Vec2::ZERO, Vec2::new(1.0, 0.0));
    let [mut m0, mut m1, mut m2] = [Vec2::ZERO; 3];
    for [here, next, after] in RECIPROCALS {
        m0 += term * here;
        m2 += term * (after / 4.0);
        (before, term) = (term, times_i(term * half + before * quarter) * here);
        m1 += term * (after / 2.0);
        (before, term) = (term, times_i(term * half + before * quarter) * next);
        if before.hypot2() + term.hypot2() < VANISHING {
            break;
        }
    }
    [m0, m1, m2]
}

fn times_i(v: Vec2) -> Vec2 {
    Vec2::new(-v.y, v.x)
}

/// 1/(n+1), 1/(n+2) and 1/(n+3) for each even power n.
const RECIPROCALS: [[f64; 3]; TERMS / 2] = {
    let mut table = [[0.0; 3]; TERMS / 2];
    let (mut row, mut n) = (0, 0.0);
    while row < table.len() {
        table[row] = [1.0 / (n + 1.0), 1.0 / (n + 2.0), 1.0 / (n + 3.0)];
        row += 1;
        n += 2.0;
    }
    table
};

#[cfg(test)]
mod tests {
    use super::*;

    /// Composite Simpson sum of the defining integrals, sharing nothing with the series.
    fn by_quadrature(turn: f64, rate: f64) -> [Vec2; 3] {
        let n = 40_000;
        let h = 1.0 / f64::from(n);
        let mut sums = [Vec2::ZERO; 3];
        for i in 0..=n {
            let s = f64::from(i) * h - 0.5;
            let weight = if i == 0 || i == n {
                1.0
            } else if i % 2 == 1 {
                4.0
            } else {
                2.0
            };
            let y = real::unit_vector(turn * s + rate * s * s / 2.0) * (weight * h / 3.0);
            for (sum, power) in sums.iter_mut().zip([1.0, s, s * s]) {
                *sum += y * power;
            }
        }
        sums
    }

    #[test]
    fn moments_agree_with_quadrature_across_one_piece_and_many() {
        for turn in [-9.0, -4.9, -1.0, 0.0, 0.3, 2.0, 6.0] {
            for rate in [-40.0, -6.0, -0.1, 0.0, 1.0, 8.0, 19.0, 60.0] {
                let (found, expected) = (moments(turn, rate), by_quadrature(turn, rate));
                for (a, b) in found.iter().zip(expected) {
                    assert!((*a - b).hypot() < 1e-12, "turn {turn} rate {rate}: {a:?} for {b:?}");
                }
            }
        }
    }

    #[test]
    fn a_straight_line_has_the_moments_of_an_interval() {
        let [m0, m1, m2] = moments(0.0, 0.0);
        assert_eq!(m0, Vec2::new(1.0, 0.0));
        assert_eq!(m1, Vec2::ZERO);
        assert!((m2 - Vec2::new(1.0 / 12.0, 0.0)).hypot() < 1e-17);
    }
}
