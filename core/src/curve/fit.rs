//! A fair curve of few pins fitted to a stroke drawn by hand.
//!
//! The pins of a batten are moved until the curve lies closest to the stroke in the least-squares sense; pins are
//! added where it fits worst until all of the stroke lies within the tolerance, then those it can do without are
//! taken out. Few pins cannot follow a wobble, so it averages out.

mod refine;
mod stroke;

use core::fmt;

use kurbo::Point;

use super::batten::End;
use crate::{language::said, say};
use refine::Fit;

/// Most pins of one fit. A stroke that needs more was not meant as one fair curve.
const MOST_PINS: usize = 16;

/// How many standard deviations of the stroke's own jitter are within tolerance whatever the tolerance is.
const JITTER: f64 = 3.0;

/// How far past the tolerance the fewest pins may stay where more pins do not get within it: a stray place is not
/// followed.
const SLACK: f64 = 2.0;

/// Why no curve was fitted to a stroke.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum FitError {
    /// The stroke does not reach farther than twice the tolerance.
    TooShort,
    /// A sample is not a finite number.
    NotFinite {
        /// Index of the sample.
        sample: usize,
    },
    /// No curve of 16 pins follows the stroke: it doubles back, or leaves against the tangent it was to start with.
    TooWild,
}

/// Pins of a batten with these `ends` that follows the stroke within `tolerance` mm.
///
/// `samples` are the places of the pen in order. At a clamped end the first or last pin is the first or last sample
/// itself, which is where the curve joins another; at a free end it is adjusted like the others. Jitter that is
/// uneven from step to step widens the tolerance to three of its standard deviations. Work is bounded: 1 to 8 ms for
/// 2,000 samples along a deck, some 30 ms for the wildest.
///
/// # Errors
///
/// [`FitError`] for a stroke without length or with infinite samples, and for one that no curve of 16 pins follows.
pub fn fit_stroke(samples: &[Point], tolerance: f64, ends: [End; 2]) -> Result<Vec<Point>, FitError> {
    let places = stroke::places(samples, tolerance, ends)?;
    let mut fit = Fit::new(&places, ends);
    let mut nearly = None;
    loop {
        fit.refine();
        let limit = tolerance.max(JITTER * fit.jitter());
        if fit.worst() <= limit {
            fit.drop_pins(limit);
            return Ok(fit.into_pins());
        }
        if nearly.is_none() && fit.worst() <= SLACK * limit {
            nearly = Some(fit.pins().to_vec());
        }
        if fit.pins().len() == MOST_PINS || !fit.add_pins(MOST_PINS) {
            return nearly.ok_or(FitError::TooWild);
        }
    }
}

/// A fair curve of few pins laid through places that were measured.
#[derive(Clone, Debug)]
pub(crate) struct Fitted {
    /// Its pins, from the first place to the last.
    pub(crate) pins: Vec<Point>,
    /// How far each place lies off it, mm, to its left positive.
    pub(crate) asides: Vec<f64>,
    /// How well it foretells places, mm², of which a measurement's error takes its square.
    pub(crate) score: f64,
    /// How unfair it is, 1/mm³.
    pub(crate) unfairness: f64,
}

/// A pin is idle where without it the curve foretells the places as well but for this share.
const IDLE: f64 = 1.05;

/// A batten of few pins through places that were measured, one by one and not along a stroke.
///
/// Each place counts by its weight; one of a weight below a half is a guess, which may be far off. A clamped end that
/// `slides` moves along the normal there. Pins are added as long as they foretell the places better, or until all lie within
/// `tolerance` mm. Few places with errors give a few pins, and so do many.
///
/// # Errors
///
/// [`FitError::TooShort`] for fewer than three places, [`FitError::TooWild`] where no batten runs near them.
pub(crate) fn fit_places(
    places: &[Point],
    weights: &[f64],
    ends: [End; 2],
    slides: [bool; 2],
    tolerance: f64,
) -> Result<Fitted, FitError> {
    let last = places.len().saturating_sub(1);
    if last < 2 {
        return Err(FitError::TooShort);
    }
    let parts = last.min(4);
    let marks = (0..=parts).map(|k| k * last / parts).collect();
    let mut fit = Fit::with_marks(places, weights, ends, slides, marks);
    let mut best: Option<Fit<'_>> = None;
    loop {
        fit.refine();
        let better = |old: &Fit<'_>| {
            // Within the tolerance what foretells better counts; before that, what comes nearer.
            let (new_in, old_in) = (fit.worst() <= tolerance, old.worst() <= tolerance);
            if new_in == old_in && fit.score().is_finite() {
                fit.score() < old.score()
            } else {
                new_in && !old_in
            }
        };
        if fit.worst() < f64::INFINITY && best.as_ref().is_none_or(better) {
            best = Some(fit.clone());
        }
        if fit.pins().len() == MOST_PINS || !fit.add_pins(MOST_PINS) {
            break;
        }
    }
    let mut best = best.ok_or(FitError::TooWild)?;
    let limit = best.worst().max(tolerance);
    best.drop_idle_pins(IDLE, limit);
    let asides = best.asides().ok_or(FitError::TooWild)?;
    let (score, unfairness) = (best.score(), best.unfairness());
    Ok(Fitted { pins: best.into_pins(), asides, score, unfairness })
}

impl fmt::Display for FitError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooShort => f.write_str(said("the stroke is too short to draw a curve: draw a longer one")),
            Self::NotFinite { sample } => {
                say!(in f, "sample {sample} of the stroke has no place", sample = sample + 1)
            }
            Self::TooWild => {
                f.write_str(said("no fair curve follows the stroke: draw it in one sweep, or in parts"))
            }
        }
    }
}

impl core::error::Error for FitError {}

crate::language::say_displayed!(FitError);

#[cfg(test)]
mod tests;
