//! The batten: the interpolating Euler-spiral spline through pins.
//!
//! Between two pins runs the [`Spiral`] with the tangent angles stored there. Solving finds the angles for which the
//! curvatures of both spirals agree at every inner pin, as in a thin wooden batten pressed against pins (R. Levien,
//! *From Spiral to Spline*, 2009). Only the solve is a search: the curve itself follows from pins and angles.

use core::fmt;

use kurbo::{BezPath, Point};

use super::shape::{Chord, EndCurvature, STEEPEST, Shape};
use super::spiral::Spiral;
use crate::{language::said, real, say};

/// Newton steps before giving up. Deck-like pins take 3 or 4, violently thrown ones seldom more than 7.
const STEPS: usize = 40;

/// Halvings of one step before giving up.
const HALVINGS: usize = 10;

/// Largest change of an angle in one step, in radians. Longer ones leave the range in which the tangents are a guide.
const LONGEST_STEP: f64 = 0.8;

/// Largest jump of curvature that counts as none, times the mean of the chords beside it (a pure number).
///
/// On chords of 100 mm it is 1e-14 1/mm, ten orders below what a comb shows.
const JUMP: f64 = 1e-12;

/// Chords shorter than this share of the longest have no direction worth the name.
const SHORTEST_CHORD: f64 = 1e-9;

/// What holds a batten at its first or last pin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum End {
    /// Nothing: the last span is a circular arc. Two pins with both ends free give a straight line.
    Free,
    /// A clamp at this tangent angle, in radians anticlockwise from +x, in the direction from the first pin to the
    /// last.
    Tangent(f64),
}

/// Why no batten runs through the pins.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum BattenError {
    /// Fewer than two pins.
    TooFewPins,
    /// A pin, or the tangent of an end, is not a finite number.
    NotFinite {
        /// Index of the pin.
        pin: usize,
    },
    /// A pin lies on the one before it.
    PinsCoincide {
        /// Index of the later pin.
        pin: usize,
    },
    /// The batten would have to fold back on itself: a tangent lies more than 150° off a chord, or the solve does not
    /// settle.
    Folds {
        /// Index of the pin where it is worst.
        pin: usize,
    },
}

/// The tangent angle at every pin of the batten through `pins`, in radians.
///
/// At every inner pin tangent and curvature are equal on both sides; the ends are held as `ends` says. `seed` gives
/// angles to start from (the curve before the pins moved), which picks the solution next to it where there are
/// several; one of another length than `pins` is not used. The angles run on from pin to pin, past whole turns where
/// the batten winds.
///
/// # Errors
///
/// [`BattenError`] for fewer than two pins, for coincident or infinite ones, and where the solve does not settle.
pub fn solve(pins: &[Point], ends: [End; 2], seed: Option<&[f64]>) -> Result<Vec<f64>, BattenError> {
    let chords = chords(pins)?;
    let batten = Batten::new(&chords, ends)?;
    let seeded = seed.and_then(|seed| batten.unwound(seed)).and_then(|start| batten.settle(start).ok());
    match seeded {
        Some(angles) => Ok(angles),
        None => batten.settle(batten.guess()),
    }
}

/// The spirals of the batten with these angles at its pins: one fewer than pins.
///
/// None where a span has no spiral, which no solved batten has.
#[must_use]
pub fn spirals(pins: &[Point], angles: &[f64]) -> Option<Vec<Spiral>> {
    let spans = pins.windows(2).zip(angles.windows(2));
    spans.map(|(p, angle)| Spiral::between(p[0], angle[0], p[1], angle[1])).collect()
}

/// The batten through `pins` as one path of cubics, within 1e-4 mm of it.
///
/// # Errors
///
/// Those of [`solve`].
pub fn path(pins: &[Point], ends: [End; 2]) -> Result<BezPath, BattenError> {
    let angles = solve(pins, ends, None)?;
    let spirals = spirals(pins, &angles).ok_or(BattenError::Folds { pin: 0 })?;
    let mut path = BezPath::new();
    path.move_to(pins[0]);
    for cubic in spirals.iter().flat_map(Spiral::cubics) {
        path.curve_to(cubic.p1, cubic.p2, cubic.p3);
    }
    Ok(path)
}

/// The system to solve: the chords, their directions unwound into one continuous sequence, and the ends as angles.
struct Batten<'a> {
    chords: &'a [Chord],
    directions: Vec<f64>,
    /// The tangent angle at each end; none at a free one.
    clamps: [Option<f64>; 2],
}

/// A state of the search: angles, the equations' residuals and their tridiagonal Jacobian.
struct State {
    angles: Vec<f64>,
    residuals: Vec<f64>,
    jacobian: Vec<[f64; 3]>,
}

impl<'a> Batten<'a> {
    fn new(chords: &'a [Chord], ends: [End; 2]) -> Result<Self, BattenError> {
        let mut direction = chords[0].direction;
        let directions: Vec<f64> = chords
            .iter()
            .map(|chord| {
                direction += real::wrapped(chord.direction - direction);
                direction
            })
            .collect();
        let last = chords.len();
        let clamp = |end, chord: f64, pin| match end {
            End::Free => Ok(None),
            End::Tangent(angle) if !angle.is_finite() => Err(BattenError::NotFinite { pin }),
            End::Tangent(angle) => match real::wrapped(angle - chord) {
                off if off.abs() > STEEPEST => Err(BattenError::Folds { pin }),
                off => Ok(Some(chord + off)),
            },
        };
        let mut clamps = [clamp(ends[0], directions[0], 0)?, clamp(ends[1], directions[last - 1], last)?];
        if last == 1 && clamps == [None, None] {
            clamps[0] = Some(directions[0]); // both ends ask for the same arc: of all of them the straight line
        }
        Ok(Self { chords, directions, clamps })
    }

    /// The seed brought next to the chords by whole turns, its ends put where they are held.
    fn unwound(&self, seed: &[f64]) -> Option<Vec<f64>> {
        if seed.len() != self.chords.len() + 1 {
            return None;
        }
        let mut angles: Vec<f64> = (0..seed.len())
            .map(|pin| {
                let before = self.directions[pin.saturating_sub(1)];
                let after = self.directions[pin.min(self.chords.len() - 1)];
                let middle = before.midpoint(after);
                middle + real::wrapped(seed[pin] - middle)
            })
            .collect();
        self.hold_ends(&mut angles);
        Some(angles)
    }

    /// At each inner pin the tangent of the circle through it and its neighbours, to first order.
    fn guess(&self) -> Vec<f64> {
        let mut angles = vec![self.directions[0]];
        for (chord, direction) in self.chords.windows(2).zip(self.directions.windows(2)) {
            let share = chord[0].length / (chord[0].length + chord[1].length);
            angles.push(direction[0] + (direction[1] - direction[0]) * share);
        }
        angles.push(self.directions[self.chords.len() - 1]);
        self.hold_ends(&mut angles);
        angles
    }

    /// Sets the end angles from the clamps, or for a free end so that the last span is an arc.
    fn hold_ends(&self, angles: &mut [f64]) {
        let last = self.chords.len();
        angles[0] = self.clamps[0].unwrap_or(2.0 * self.directions[0] - angles[1]);
        angles[last] = self.clamps[1].unwrap_or(2.0 * self.directions[last - 1] - angles[last - 1]);
    }

    /// Damped Newton from `angles` until every jump of curvature is below [`JUMP`].
    fn settle(&self, angles: Vec<f64>) -> Result<Vec<f64>, BattenError> {
        let mut state = self.state(angles)?;
        for _ in 0..STEPS {
            if state.worst() <= JUMP {
                return Ok(state.angles);
            }
            let folds = BattenError::Folds { pin: state.worst_pin() };
            let change = state.newton_step().ok_or(folds)?;
            state = self.stepped(&state, &change).ok_or(folds)?;
        }
        Err(BattenError::Folds { pin: state.worst_pin() })
    }

    /// The state after the longest part of `change` that is within bounds and an improvement.
    fn stepped(&self, state: &State, change: &[f64]) -> Option<State> {
        let longest = change.iter().fold(0.0, |longest: f64, part| longest.max(part.abs()));
        let mut share = (LONGEST_STEP / longest).min(1.0);
        for _ in 0..HALVINGS {
            let angles = state.angles.iter().zip(change).map(|(angle, part)| angle + part * share).collect();
            if let Ok(next) = self.state(angles)
                && (next.sum_of_squares() < state.sum_of_squares() || next.worst() <= JUMP)
            {
                return Some(next);
            }
            share /= 2.0;
        }
        None
    }

    /// Residuals and Jacobian at `angles`; an error where a span has no spiral there.
    fn state(&self, angles: Vec<f64>) -> Result<State, BattenError> {
        let last = self.chords.len();
        let mut residuals = vec![0.0; last + 1];
        let mut jacobian = vec![[0.0, 1.0, 0.0]; last + 1];
        match self.clamps[0] {
            Some(angle) => residuals[0] = angles[0] - angle,
            None => {
                residuals[0] = angles[0] + angles[1] - 2.0 * self.directions[0];
                jacobian[0] = [0.0, 1.0, 1.0];
            }
        }
        match self.clamps[1] {
            Some(angle) => residuals[last] = angles[last] - angle,
            None => {
                residuals[last] = angles[last - 1] + angles[last] - 2.0 * self.directions[last - 1];
                jacobian[last] = [1.0, 1.0, 0.0];
            }
        }
        let mut before: Option<(EndCurvature, f64)> = None;
        for (span, chord) in self.chords.iter().enumerate() {
            let [start, end] = [span, span + 1].map(|pin| angles[pin] - self.directions[span]);
            let shape = Shape::with_ends(start, end).ok_or(BattenError::Folds { pin: span })?;
            let [start, end] = shape.end_curvatures();
            if let Some((before, length)) = before {
                // Both curvatures times the harmonic mean of the chords.
                let sum = length + chord.length;
                let (ours, theirs) = (2.0 * length / sum, 2.0 * chord.length / sum);
                residuals[span] = before.value * theirs - start.value * ours;
                jacobian[span] = [
                    before.by_start * theirs,
                    before.by_end * theirs - start.by_start * ours,
                    -start.by_end * ours,
                ];
            }
            before = Some((end, chord.length));
        }
        Ok(State { angles, residuals, jacobian })
    }
}

impl State {
    fn worst(&self) -> f64 {
        self.residuals.iter().fold(0.0, |worst: f64, residual| worst.max(residual.abs()))
    }

    fn worst_pin(&self) -> usize {
        let larger = |a: &(usize, &f64), b: &(usize, &f64)| a.1.abs().total_cmp(&b.1.abs());
        self.residuals.iter().enumerate().max_by(larger).map_or(0, |(pin, _)| pin)
    }

    fn sum_of_squares(&self) -> f64 {
        self.residuals.iter().map(|residual| residual * residual).sum()
    }

    /// The change of the angles that would zero the linearised residuals: elimination down the three diagonals.
    fn newton_step(&self) -> Option<Vec<f64>> {
        let mut rows = self.jacobian.clone();
        let mut change: Vec<f64> = self.residuals.iter().map(|residual| -residual).collect();
        for row in 1..rows.len() {
            let factor = rows[row][0] / rows[row - 1][1];
            rows[row][1] -= factor * rows[row - 1][2];
            change[row] -= factor * change[row - 1];
        }
        let mut after = 0.0;
        for (row, value) in rows.iter().zip(&mut change).rev() {
            *value = (*value - row[2] * after) / row[1];
            after = *value;
        }
        change.iter().all(|value| value.is_finite()).then_some(change)
    }
}

/// The chords between neighbouring pins, each long enough to have a direction.
fn chords(pins: &[Point]) -> Result<Vec<Chord>, BattenError> {
    if pins.len() < 2 {
        return Err(BattenError::TooFewPins);
    }
    if let Some(pin) = pins.iter().position(|pin| !pin.is_finite()) {
        return Err(BattenError::NotFinite { pin });
    }
    let chords: Vec<Option<Chord>> = pins.windows(2).map(|pair| Chord::between(pair[0], pair[1])).collect();
    let longest = chords.iter().flatten().fold(0.0, |longest: f64, chord| longest.max(chord.length));
    let good = |chord: &Option<Chord>| chord.is_some_and(|chord| chord.length > longest * SHORTEST_CHORD);
    match chords.iter().position(|chord| !good(chord)) {
        Some(span) => Err(BattenError::PinsCoincide { pin: span + 1 }),
        None => Ok(chords.into_iter().flatten().collect()),
    }
}

impl fmt::Display for BattenError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFewPins => f.write_str(said("a batten needs at least two pins")),
            Self::NotFinite { pin } => {
                say!(in f, "pin {pin} has no place or no direction", pin = pin + 1)
            }
            Self::PinsCoincide { pin } => {
                say!(in f, "pin {pin} lies on the one before it: move it apart", pin = pin + 1)
            }
            Self::Folds { pin } => {
                say!(in f, "the batten would fold back at pin {pin}: move it back or add a pin",
                    pin = pin + 1
                )
            }
        }
    }
}

impl core::error::Error for BattenError {}

crate::language::say_displayed!(BattenError);

#[cfg(test)]
mod tests;
