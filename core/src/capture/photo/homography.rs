//! The projection of one plane onto another, found from points that correspond.

use crate::{curve::least_squares::LeastSquares, language::said, say};
use core::fmt;
use kurbo::{Point, Vec2};

/// A plane-to-plane projection: `(x, y)` goes to `((ax + by + c) / w, (dx + ey + f) / w)`, `w = gx + hy + i`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Homography([[f64; 3]; 3]);

/// Why there is no projection.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum HomographyError {
    /// Fewer than four pairs of points.
    TooFew(usize),
    /// No four of the points lie so that no three are in a line.
    InLine,
    /// The points do not correspond by any projection that keeps them in front of the camera.
    None,
}

/// Three points lie in a line where the triangle between them has less than this share of the square of the points' extent:
/// four pixels askew on holes a thousand apart; the narrowest bolt pattern at a tilt of 60° has five times as much.
const IN_LINE: f64 = 0.002;
/// Gauss–Newton rounds after the linear solution: each squares the share that is left; three reach the last digits.
const ROUNDS: usize = 6;

impl Homography {
    /// The projection that takes each point of `from` to its fellow of `to`, by least squares of the distances there.
    ///
    /// The direct linear transform on normalised points (R. Hartley, *In defense of the eight-point algorithm*, 1997), then
    /// Gauss–Newton on the distances themselves. Exact for four points.
    ///
    /// # Errors
    ///
    /// [`HomographyError`].
    pub fn fit(from: &[Point], to: &[Point]) -> Result<Self, HomographyError> {
        let count = from.len().min(to.len());
        if count < 4 {
            return Err(HomographyError::TooFew(count));
        }
        let (from, to) = (&from[..count], &to[..count]);
        if [from, to].iter().any(|points| widest(points).is_none()) {
            return Err(HomographyError::InLine);
        }
        let [a, b] = [Normal::of(from), Normal::of(to)];
        let (p, q): (Vec<Point>, Vec<Point>) =
            (from.iter().map(|p| a.apply(*p)).collect(), to.iter().map(|q| b.apply(*q)).collect());
        let mut found = Self::linear(&p, &q)?;
        for _ in 0..ROUNDS {
            match found.refined(&p, &q) {
                Some(better) if better.error(&p, &q) < found.error(&p, &q) => found = better,
                _ => break,
            }
        }
        let in_front = |p: &Point| found.weight(*p) > 0.0;
        if !p.iter().all(in_front) {
            return Err(HomographyError::None);
        }
        let whole = b.inverse().after(&found.after(&a.as_homography()));
        whole.is_finite().then_some(whole.scaled()).ok_or(HomographyError::None)
    }

    /// With the last entry 1 in normalised coordinates: it is not 0, because the middle of the points is seen.
    fn linear(p: &[Point], q: &[Point]) -> Result<Self, HomographyError> {
        let mut squares = LeastSquares::new(8, 0.0);
        for (p, q) in p.iter().zip(q) {
            let (x, y, u, v) = (p.x, p.y, q.x, q.y);
            squares.add(&[x, y, 1.0, 0.0, 0.0, 0.0, -x * u, -y * u], u, 1.0);
            squares.add(&[0.0, 0.0, 0.0, x, y, 1.0, -x * v, -y * v], v, 1.0);
        }
        let h = squares.solve().ok_or(HomographyError::InLine)?;
        Ok(Self([[h[0], h[1], h[2]], [h[3], h[4], h[5]], [h[6], h[7], 1.0]]))
    }

    fn refined(&self, p: &[Point], q: &[Point]) -> Option<Self> {
        let mut squares = LeastSquares::new(8, 0.0);
        for (p, q) in p.iter().zip(q) {
            let (x, y, w) = (p.x, p.y, self.weight(*p));
            let seen = self.apply(*p);
            let (u, v) = (seen.x, seen.y);
            let row = [x / w, y / w, 1.0 / w];
            let [a, b, c] = row;
            squares.add(&[a, b, c, 0.0, 0.0, 0.0, -u * a, -u * b], q.x - u, 1.0);
            squares.add(&[0.0, 0.0, 0.0, a, b, c, -v * a, -v * b], q.y - v, 1.0);
        }
        let step = squares.solve()?;
        let mut h = self.0;
        for (i, step) in step.iter().enumerate() {
            h[i / 3][i % 3] += step;
        }
        Some(Self(h))
    }

    fn error(&self, p: &[Point], q: &[Point]) -> f64 {
        p.iter().zip(q).map(|(p, q)| (self.apply(*p) - *q).hypot2()).sum()
    }

    /// The rows of its matrix, scaled so that the last entry is 1 wherever that is possible.
    #[must_use]
    pub fn rows(&self) -> [[f64; 3]; 3] {
        self.0
    }

    /// Where a point goes; not finite on the line that goes to infinity.
    #[must_use]
    pub fn apply(&self, p: Point) -> Point {
        let w = self.weight(p);
        let [a, b, _] = &self.0;
        Point::new((a[0] * p.x + a[1] * p.y + a[2]) / w, (b[0] * p.x + b[1] * p.y + b[2]) / w)
    }

    fn weight(&self, p: Point) -> f64 {
        let w = &self.0[2];
        w[0] * p.x + w[1] * p.y + w[2]
    }

    /// The projection back; `None` where all goes to one line.
    #[must_use]
    pub fn inverse(&self) -> Option<Self> {
        let m = &self.0;
        let cofactor = |i: usize, j: usize| {
            let (r, s, c, d) = ((i + 1) % 3, (i + 2) % 3, (j + 1) % 3, (j + 2) % 3);
            m[r][c] * m[s][d] - m[r][d] * m[s][c]
        };
        let determinant: f64 = (0..3).map(|j| m[0][j] * cofactor(0, j)).sum();
        let inverse = Self(core::array::from_fn(|i| core::array::from_fn(|j| cofactor(j, i) / determinant)));
        inverse.is_finite().then(|| inverse.scaled())
    }

    /// This one after another.
    #[must_use]
    pub fn after(&self, first: &Self) -> Self {
        Self(core::array::from_fn(|i| {
            core::array::from_fn(|j| (0..3).map(|k| self.0[i][k] * first.0[k][j]).sum())
        }))
    }

    fn is_finite(&self) -> bool {
        self.0.iter().flatten().all(|entry| entry.is_finite())
    }

    fn scaled(mut self) -> Self {
        let last = self.0[2][2];
        let size = self.0[2].iter().fold(0.0, |most: f64, entry| most.max(entry.abs()));
        if last.abs() > 1e-9 * size {
            self.0.iter_mut().flatten().for_each(|entry| *entry /= last);
        }
        self
    }
}

/// Four of the points, by index, between which the smallest triangle is the largest; `None` where every four have three in
/// a line.
pub(super) fn widest(points: &[Point]) -> Option<[usize; 4]> {
    let middle = Normal::of(points).middle;
    let extent = points.iter().map(|p| (*p - middle).hypot2()).fold(0.0, f64::max);
    let n = points.len();
    let (mut best, mut most) = (None, IN_LINE * 4.0 * extent);
    for a in 0..n {
        for b in a + 1..n {
            for c in b + 1..n {
                for d in c + 1..n {
                    let area = |i: usize, j: usize, k: usize| {
                        (points[j] - points[i]).cross(points[k] - points[i]).abs() / 2.0
                    };
                    let least = area(a, b, c).min(area(a, b, d)).min(area(a, c, d)).min(area(b, c, d));
                    if least > most {
                        (best, most) = (Some([a, b, c, d]), least);
                    }
                }
            }
        }
    }
    best
}

/// The shift and scale that bring points round the origin, at a mean distance of √2.
struct Normal {
    middle: Point,
    scale: f64,
}

impl Normal {
    fn of(points: &[Point]) -> Self {
        let count = points.len() as f64;
        let sum = points.iter().fold(Vec2::ZERO, |sum, p| sum + p.to_vec2());
        let middle = (sum / count).to_point();
        let mean = points.iter().map(|p| (*p - middle).hypot2().sqrt()).sum::<f64>() / count;
        Self { middle, scale: if mean > 0.0 { core::f64::consts::SQRT_2 / mean } else { 1.0 } }
    }

    fn apply(&self, p: Point) -> Point {
        ((p - self.middle) * self.scale).to_point()
    }

    fn as_homography(&self) -> Homography {
        let (s, m) = (self.scale, self.middle);
        Homography([[s, 0.0, -s * m.x], [0.0, s, -s * m.y], [0.0, 0.0, 1.0]])
    }

    fn inverse(&self) -> Homography {
        let (s, m) = (1.0 / self.scale, self.middle);
        Homography([[s, 0.0, m.x], [0.0, s, m.y], [0.0, 0.0, 1.0]])
    }
}

impl fmt::Display for HomographyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFew(found) => {
                say!(in f, "{found} holes are too few: click at least four, two on each side of the centreline", found)
            }
            Self::InLine => f.write_str(said("all holes clicked but one lie in a line: click two on each side of the centreline, in both trucks")),
            Self::None => f.write_str(said("the holes clicked are not those of one deck: take them out and click again")),
        }
    }
}

impl core::error::Error for HomographyError {}

crate::language::say_displayed!(HomographyError);
