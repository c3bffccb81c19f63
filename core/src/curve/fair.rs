//! Fairing: the least movement of pins that takes unwanted bumps out of a batten.
//!
//! Curvature of a batten is linear between pins, so its extrema lie at pins and are counted exactly. Each stronger pull
//! towards an even change of curvature moves the pins farther; the weakest that leaves the fewest extrema is taken.

use core::ops::RangeInclusive;

use kurbo::{Point, Vec2};

use super::batten::{BattenError, End, solve, spirals};
use super::least_squares::LeastSquares;
use super::spiral::Spiral;
use crate::real;
use crate::tolerance::CURVATURE_NOISE;

/// The weakest and the strongest pull against movement, and the factor between two tries. At the weakest nothing
/// moves that can be seen; past the strongest all that moves is at its bound.
const PULLS: (f64, f64, f64) = (1e-4, 1e8, 2.0);

/// The nudge of a pin that shows how curvature follows it, as a share of the bound: far above rounding, far below
/// where the curve stops following in proportion.
const NUDGE: f64 = 1e-2;

/// Weight that holds a pin at its bound.
const HOLD: f64 = 1e9;

/// A faired batten.
#[derive(Clone, Debug, PartialEq)]
pub struct Faired {
    /// All pins, the moved ones in their new places.
    pub pins: Vec<Point>,
    /// The largest distance a pin moved, in mm; 0 where there was nothing to gain.
    pub movement: f64,
    /// Curvature extrema before and after.
    pub extrema: [usize; 2],
}

/// The batten with the pins of `stretch` moved, each across the curve by `bound` mm at most, to the fewest extrema.
///
/// Among all movements that reach this count about the least is taken. Where none that was tried lowers it, nothing
/// moves; the first and the last pin of the batten never do.
///
/// # Errors
///
/// [`BattenError`] where the pins carry no batten to begin with.
pub fn fair(
    pins: &[Point],
    ends: [End; 2],
    stretch: RangeInclusive<usize>,
    bound: f64,
) -> Result<Faired, BattenError> {
    let angles = solve(pins, ends, None)?;
    let spirals = spirals(pins, &angles).ok_or(BattenError::Folds { pin: 0 })?;
    let before = extrema(&spirals);
    let unmoved = Faired { pins: pins.to_vec(), movement: 0.0, extrema: [before, before] };
    let movable = (*stretch.start()).max(1)..=(*stretch.end()).min(pins.len() - 2);
    if before == 0 || movable.is_empty() || !(bound > 0.0 && bound.is_finite()) {
        return Ok(unmoved);
    }
    let bumps = Bumps::new(pins, ends, &angles, &spirals, movable, bound * NUDGE);
    let mut best = unmoved;
    let mut pull = PULLS.0;
    while pull <= PULLS.1 && best.extrema[1] > 0 {
        if let Some(moves) = bumps.movement(pull, bound)
            && let Some(faired) = bumps.moved(&moves)
            && faired.extrema[1] < best.extrema[1]
        {
            best = faired;
        }
        pull *= PULLS.2;
    }
    Ok(best)
}

/// The count of local extrema of curvature along a batten that stand out by more than [`CURVATURE_NOISE`].
#[must_use]
pub fn extrema(spirals: &[Spiral]) -> usize {
    let mut count = 0;
    let (mut lowest, mut highest) = (f64::INFINITY, f64::NEG_INFINITY);
    let mut rising = None;
    for curvature in curvatures(spirals) {
        (lowest, highest) = (lowest.min(curvature), highest.max(curvature));
        let turns_up = rising != Some(true) && curvature > lowest + CURVATURE_NOISE;
        let turns_down = rising != Some(false) && curvature < highest - CURVATURE_NOISE;
        if turns_up || turns_down {
            count += usize::from(rising.is_some());
            rising = Some(turns_up);
            (lowest, highest) = (curvature, curvature);
        }
    }
    count
}

/// The curvature at every pin.
fn curvatures(spirals: &[Spiral]) -> impl Iterator<Item = f64> {
    let last = spirals.last().map(|spiral| spiral.curvature(spiral.length()));
    spirals.iter().map(|spiral| spiral.curvature(0.0)).chain(last)
}

/// The bumps of a batten to first order in the movement of its pins.
struct Bumps<'a> {
    pins: &'a [Point],
    ends: [End; 2],
    angles: &'a [f64],
    extrema: usize,
    movable: RangeInclusive<usize>,
    normals: Vec<Vec2>,
    /// For each inner pin of the batten its bump, in mm, and how that follows each movable pin.
    rows: Vec<(f64, Vec<f64>)>,
}

impl<'a> Bumps<'a> {
    fn new(
        pins: &'a [Point],
        ends: [End; 2],
        angles: &'a [f64],
        spirals: &[Spiral],
        movable: RangeInclusive<usize>,
        nudge: f64,
    ) -> Self {
        let normals: Vec<Vec2> =
            movable.clone().map(|pin| real::unit_vector(angles[pin]).turn_90()).collect();
        let mut bumps =
            Self { pins, ends, angles, extrema: extrema(spirals), movable, normals, rows: Vec::new() };
        let unmoved = bump_sizes(spirals);
        bumps.rows = unmoved.iter().map(|bump| (*bump, Vec::new())).collect();
        for index in 0..bumps.normals.len() {
            let mut moves = vec![0.0; bumps.normals.len()];
            moves[index] = nudge;
            let nudged = bumps.curve(&moves).map(|(_, spirals)| bump_sizes(&spirals));
            for (pin, (bump, row)) in bumps.rows.iter_mut().enumerate() {
                row.push(nudged.as_ref().map_or(0.0, |nudged| (nudged[pin] - *bump) / nudge));
            }
        }
        bumps
    }

    /// The least movement of each pin along its normal against this `pull` towards no bumps, within `bound`.
    fn movement(&self, pull: f64, bound: f64) -> Option<Vec<f64>> {
        let count = self.normals.len();
        let mut held: Vec<Option<f64>> = vec![None; count];
        loop {
            let mut squares = LeastSquares::new(count, 1.0);
            for (bump, row) in &self.rows {
                squares.add(row, -bump, pull);
            }
            for (index, place) in held.iter().enumerate() {
                if let Some(place) = place {
                    let mut row = vec![0.0; count];
                    row[index] = 1.0;
                    squares.add(&row, *place, HOLD * (1.0 + pull));
                }
            }
            let moves = squares.solve()?;
            let over = |index: &usize| held[*index].is_none() && moves[*index].abs() > bound;
            let farthest = (0..count).filter(over).max_by(|a, b| moves[*a].abs().total_cmp(&moves[*b].abs()));
            match farthest {
                Some(index) => held[index] = Some(bound.copysign(moves[index])),
                None => {
                    return Some(moves.iter().map(|amount| real::clamp(*amount, -bound, bound)).collect());
                }
            }
        }
    }

    /// The batten after `moves`, its extrema counted anew.
    fn moved(&self, moves: &[f64]) -> Option<Faired> {
        let (pins, spirals) = self.curve(moves)?;
        let movement = moves.iter().fold(0.0, |largest: f64, amount| largest.max(amount.abs()));
        Some(Faired { pins, movement, extrema: [self.extrema, extrema(&spirals)] })
    }

    fn curve(&self, moves: &[f64]) -> Option<(Vec<Point>, Vec<Spiral>)> {
        let mut pins = self.pins.to_vec();
        for ((pin, normal), amount) in self.movable.clone().zip(&self.normals).zip(moves) {
            pins[pin] += *normal * *amount;
        }
        let angles = solve(&pins, self.ends, Some(self.angles)).ok()?;
        let spirals = spirals(&pins, &angles)?;
        Some((pins, spirals))
    }
}

/// At each inner pin the jump of the rate of curvature, times the cube of the spans beside it: a size in mm.
fn bump_sizes(spirals: &[Spiral]) -> Vec<f64> {
    let size = |pair: &[Spiral]| {
        let span = pair[0].length().midpoint(pair[1].length());
        (pair[1].rate() - pair[0].rate()) * span * span * span
    };
    spirals.windows(2).map(size).collect()
}

#[cfg(test)]
mod tests;
