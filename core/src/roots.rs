//! Roots of polynomials, found to [`tolerance::PARAMETER`] in their argument.
//!
//! All work on a stretch of the argument, as a curve's parameter is one, and none allocates.

use crate::{order::sort_by_number, tolerance};

/// Steps after which a search stops: a triple root takes some seventy, any other six or so.
const MOST_STEPS: usize = 100;

/// Roots of c0 + c1·t + c2·t² between two arguments, in order.
pub(crate) fn quadratic_roots([c0, c1, c2]: [f64; 3], from: f64, to: f64) -> impl Iterator<Item = f64> {
    let mut roots = kurbo::common::solve_quadratic(c0, c1, c2);
    sort_by_number(&mut roots, |t| *t);
    roots.into_iter().filter(move |t| (from..=to).contains(t))
}

/// Where a cubic c0 + c1·t + c2·t² + c3·t³ that only rises or only falls between two arguments is zero; the nearer end
/// where rounding keeps it from zero there.
pub(crate) fn monotone_cubic_root([c0, c1, c2, c3]: [f64; 4], from: f64, to: f64) -> f64 {
    let value = |t: f64| c0 + t * (c1 + t * (c2 + t * c3));
    let slope = |t: f64| c1 + t * (2.0 * c2 + t * (3.0 * c3));
    root_between(value, slope, from, to)
}

/// The root of a function that changes its sign once between two arguments: Newton's method held inside a shrinking
/// bracket. The end nearer to zero where the sign does not change.
fn root_between(value: impl Fn(f64) -> f64, slope: impl Fn(f64) -> f64, from: f64, to: f64) -> f64 {
    let (at_from, at_to) = (value(from), value(to));
    if (at_from < 0.0) == (at_to < 0.0) {
        return if at_from.abs() <= at_to.abs() { from } else { to };
    }
    let (mut low, mut high) = (from, to);
    let mut t = from + (to - from) * (at_from / (at_from - at_to));
    for _ in 0..MOST_STEPS {
        let found = value(t);
        if (found < 0.0) == (at_from < 0.0) {
            low = t;
        } else {
            high = t;
        }
        let newton = t - found / slope(t);
        let next = if low <= newton && newton <= high { newton } else { low + (high - low) / 2.0 };
        if (next - t).abs() < tolerance::PARAMETER {
            return next;
        }
        t = next;
    }
    t
}

/// Calls `found` with every root of a quintic inside 0..1, in order; of roots nearer to one another than a millionth
/// with at least one.
///
/// The roots are told apart by the signs of the Bernstein coefficients, halving the stretch until they change at most
/// once (the rule of Descartes in Bernstein form; Lane and Riesenfeld, Bounds on a polynomial, BIT 21, 1981, from
/// memory).
pub(crate) fn quintic_roots(power: [f64; 6], mut found: impl FnMut(f64)) {
    // Coefficient i of the Bernstein form is Σ C(i, k) / C(5, k) · c_k.
    const TO_BERNSTEIN: [[f64; 6]; 6] = [
        [1.0, 0.0, 0.0, 0.0, 0.0, 0.0],
        [1.0, 0.2, 0.0, 0.0, 0.0, 0.0],
        [1.0, 0.4, 0.1, 0.0, 0.0, 0.0],
        [1.0, 0.6, 0.3, 0.1, 0.0, 0.0],
        [1.0, 0.8, 0.6, 0.4, 0.2, 0.0],
        [1.0, 1.0, 1.0, 1.0, 1.0, 1.0],
    ];
    let bernstein = TO_BERNSTEIN.map(|row| row.iter().zip(power).map(|(r, c)| r * c).sum());
    isolate(&power, bernstein, 0.0, 1.0, &mut found);
}

fn isolate(power: &[f64; 6], bernstein: [f64; 6], from: f64, to: f64, found: &mut impl FnMut(f64)) {
    const APART: f64 = 1e-6;
    let changes = bernstein.windows(2).filter(|pair| (pair[0] < 0.0) != (pair[1] < 0.0)).count();
    if changes == 0 {
        return;
    }
    let middle = from + (to - from) / 2.0;
    if changes == 1 {
        let [c0, c1, c2, c3, c4, c5] = *power;
        let value = |t: f64| c0 + t * (c1 + t * (c2 + t * (c3 + t * (c4 + t * c5))));
        let slope = |t: f64| c1 + t * (2.0 * c2 + t * (3.0 * c3 + t * (4.0 * c4 + t * (5.0 * c5))));
        found(root_between(value, slope, from, to));
    } else if to - from < APART {
        found(middle);
    } else {
        let (left, right) = halved(bernstein);
        isolate(power, left, from, middle, found);
        isolate(power, right, middle, to, found);
    }
}

/// The Bernstein coefficients on both halves, by de Casteljau's construction.
fn halved(mut coefficients: [f64; 6]) -> ([f64; 6], [f64; 6]) {
    let mut left = [coefficients[0]; 6];
    for (step, slot) in left.iter_mut().enumerate().skip(1) {
        for i in 0..6 - step {
            coefficients[i] = (coefficients[i] + coefficients[i + 1]) / 2.0;
        }
        *slot = coefficients[0];
    }
    (left, coefficients)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cubic_is_solved_also_where_its_root_is_triple_or_at_an_end() {
        // (t − r)³ for roots inside and at both ends.
        for r in [0.0, 1e-15, 0.3, 0.5, 1.0 - 1e-15, 1.0] {
            let cubic = [-r * r * r, 3.0 * r * r, -3.0 * r, 1.0];
            // A triple root is known to the third root of the rounding only.
            assert!((monotone_cubic_root(cubic, 0.0, 1.0) - r).abs() < 2e-5, "{r}");
            assert!((monotone_cubic_root([-r, 1.0, 0.0, 0.0], 0.0, 1.0) - r).abs() < 1e-12, "{r}");
        }
    }

    #[test]
    fn every_root_of_a_quintic_is_found_in_order() {
        let of_roots = |roots: [f64; 5]| {
            let mut power = [1.0, 0.0, 0.0, 0.0, 0.0, 0.0];
            for (degree, root) in roots.into_iter().enumerate() {
                for k in (0..=degree + 1).rev() {
                    power[k] = if k > 0 { power[k - 1] } else { 0.0 } - root * power[k];
                }
            }
            power
        };
        for (roots, inside) in [
            ([0.1, 0.2, 0.35, 0.7, 0.9], vec![0.1, 0.2, 0.35, 0.7, 0.9]),
            ([-1.0, 0.25, 0.5, 2.0, 3.0], vec![0.25, 0.5]),
            ([-1.0, -2.0, 1.5, 2.0, 3.0], vec![]),
            ([0.499, 0.5, 0.501, -4.0, 4.0], vec![0.499, 0.5, 0.501]),
        ] {
            let mut found = Vec::new();
            quintic_roots(of_roots(roots), |t| found.push(t));
            assert_eq!(found.len(), inside.len(), "{found:?}");
            assert!(found.iter().zip(&inside).all(|(a, b)| (a - b).abs() < 1e-9), "{found:?}");
        }
    }

    #[test]
    fn a_double_root_is_found_at_least_once() {
        // (t − 0.3)²·(t + 1)³
        let mut found = Vec::new();
        quintic_roots([0.09, -0.33, -0.53, 1.29, 2.4, 1.0], |t| found.push(t));
        assert!(!found.is_empty() && found.iter().all(|t| (t - 0.3).abs() < 1e-5), "{found:?}");
    }
}
