//! Small linear least squares by normal equations.
//!
//! For a few dozen unknowns whose damping keeps the matrix well away from singular.

/// A sum of weighted squares `Σ weight·(target − row·x)² + damping·|x|²`, gathered row by row.
#[derive(Clone, Debug)]
pub(crate) struct LeastSquares {
    matrix: Vec<Vec<f64>>,
    right: Vec<f64>,
}

impl LeastSquares {
    /// No rows yet; `damping`, positive, draws every unknown to 0.
    pub(crate) fn new(unknowns: usize, damping: f64) -> Self {
        let mut matrix = vec![vec![0.0; unknowns]; unknowns];
        for (index, row) in matrix.iter_mut().enumerate() {
            row[index] = damping;
        }
        Self { matrix, right: vec![0.0; unknowns] }
    }

    /// Adds the wish that `row·x` be `target`.
    pub(crate) fn add(&mut self, row: &[f64], target: f64, weight: f64) {
        for (i, a) in row.iter().enumerate() {
            self.right[i] += weight * a * target;
            for (sum, b) in self.matrix[i].iter_mut().zip(row) {
                *sum += weight * a * b;
            }
        }
    }

    /// How far `direction·x` may be off, as a standard deviation, where every row has one of 1.
    pub(crate) fn deviation(mut self, direction: &[f64]) -> Option<f64> {
        self.right.copy_from_slice(direction);
        let solved = self.solve()?;
        let variance: f64 = solved.iter().zip(direction).map(|(x, d)| x * d).sum();
        Some(variance.sqrt())
    }

    /// The unknowns that make the sum least; None where the matrix is not positive (values not finite, or no damping).
    pub(crate) fn solve(mut self) -> Option<Vec<f64>> {
        // Cholesky: the lower triangle of `matrix` becomes its factor, `right` the solution.
        let n = self.right.len();
        for i in 0..n {
            for j in 0..=i {
                let product: f64 =
                    self.matrix[i][..j].iter().zip(&self.matrix[j][..j]).map(|(a, b)| a * b).sum();
                let rest = self.matrix[i][j] - product;
                if i > j {
                    self.matrix[i][j] = rest / self.matrix[j][j];
                } else if rest > 0.0 {
                    self.matrix[i][i] = rest.sqrt();
                } else {
                    return None;
                }
            }
            let known: f64 = self.matrix[i][..i].iter().zip(&self.right).map(|(a, x)| a * x).sum();
            self.right[i] = (self.right[i] - known) / self.matrix[i][i];
        }
        for i in (0..n).rev() {
            let known: f64 = (i + 1..n).map(|k| self.matrix[k][i] * self.right[k]).sum();
            self.right[i] = (self.right[i] - known) / self.matrix[i][i];
        }
        self.right.iter().all(|x| x.is_finite()).then_some(self.right)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_parabola_through_five_points_is_found() {
        let mut squares = LeastSquares::new(3, 1e-14);
        for x in [-2.0, -1.0, 0.0, 1.5, 3.0] {
            squares.add(&[1.0, x, x * x], 4.0 - 2.0 * x + 0.5 * x * x, 2.0);
        }
        let found = squares.solve().unwrap();
        for (found, expected) in found.iter().zip([4.0, -2.0, 0.5]) {
            assert!((found - expected).abs() < 1e-12, "{found} for {expected}");
        }
    }

    #[test]
    fn damping_draws_an_unknown_halfway_to_zero() {
        let mut squares = LeastSquares::new(1, 1.0);
        squares.add(&[1.0], 6.0, 1.0);
        assert!((squares.solve().unwrap()[0] - 3.0).abs() < 1e-15);
    }

    #[test]
    fn the_mean_of_four_is_off_by_half_of_one() {
        let mut squares = LeastSquares::new(1, 0.0);
        (0..4).for_each(|_| squares.add(&[1.0], 3.0, 1.0));
        assert_eq!(squares.deviation(&[1.0]), Some(0.5));
    }

    #[test]
    fn an_undetermined_or_infinite_system_has_no_solution() {
        assert_eq!(LeastSquares::new(2, 0.0).solve(), None);
        let mut squares = LeastSquares::new(1, 1.0);
        squares.add(&[f64::NAN], 1.0, 1.0);
        assert_eq!(squares.solve(), None);
    }
}
