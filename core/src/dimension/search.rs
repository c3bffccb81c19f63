//! The search for one amount: a bracket that shrinks round the value wanted, or toward the wall before it.

use super::unmet::Obstacle;
use crate::{design::Design, real};

/// What a search works with.
pub(super) struct Aim {
    /// The value of the quantity at amount 0.
    pub(super) present: f64,
    /// The value wanted.
    pub(super) wanted: f64,
    /// A value as near as this is exact: the search stops.
    pub(super) exact: f64,
    /// A value as near as this is met.
    pub(super) met: f64,
}

/// Where a search ended that did not meet its value.
#[derive(Debug)]
pub(super) struct Stop {
    /// The nearest value it had.
    pub(super) nearest: f64,
    /// What stood in the way beyond.
    pub(super) why: Obstacle,
}

/// First amount tried, mm: far above what a design rounds, far below what a curve shows.
const PROBE: f64 = 0.01;
/// Amounts nearer to one another than this, mm, give the same stored design.
const GRAIN: f64 = 1e-7;
/// The longest way one step may go, mm.
const LONGEST_STEP: f64 = 50.0;
/// Most designs tried; a value that can be met takes ten or so, a wall thirty.
const MOST_TRIES: usize = 120;

/// One amount tried: by how much it misses the value wanted.
#[derive(Clone, Copy)]
struct Try {
    amount: f64,
    miss: f64,
}

const TURNS_BACK: Obstacle = Obstacle::Words("this change goes no further on this shape");
const JUMPS: Obstacle = Obstacle::Words("on this shape the measure jumps over it");
const UNMOVED: Obstacle = Obstacle::Words("this change does not reach it on this shape");

/// Searches the amount at which `change` gives the value wanted. From amount 0 it goes the way that comes nearer, and
/// what is refused or has no value is a wall.
///
/// # Errors
///
/// The [`Stop`] before the wall.
pub(super) fn search(
    aim: &Aim,
    mut change: impl FnMut(f64) -> Result<(Design, f64), Obstacle>,
) -> Result<Design, Stop> {
    let start = Try { amount: 0.0, miss: aim.present - aim.wanted };
    let mut best: Option<(Design, f64)> = None;
    let mut attempt = |amount: f64| -> Result<Try, Obstacle> {
        let (design, value) = change(amount)?;
        let miss = value - aim.wanted;
        if best.as_ref().is_none_or(|(_, least)| miss.abs() < least.abs()) {
            best = Some((design, miss));
        }
        Ok(Try { amount, miss })
    };

    let mut stop = Stop { nearest: aim.present, why: UNMOVED };
    let probe = match attempt(PROBE).or_else(|_| attempt(-PROBE)) {
        Ok(probe) => probe,
        Err(why) => return Err(Stop { why, ..stop }),
    };
    let mut slope = (probe.miss - start.miss) / probe.amount;
    if slope.abs() * LONGEST_STEP < aim.met {
        return Err(stop);
    }
    let mut good = start;
    let mut bound: Bound = Bound::None;
    for round in 0..MOST_TRIES {
        let step = real::clamp(-good.miss / slope, -LONGEST_STEP, LONGEST_STEP);
        let amount = match bound {
            Bound::None => good.amount + step,
            Bound::Wall(wall) => {
                // Straight for the value where it lies before the wall, and every other time halfway at most.
                let middle = good.amount + (wall - good.amount) / 2.0;
                let inside = step.abs() < (wall - good.amount).abs() && step * (wall - good.amount) > 0.0;
                if inside && round % 2 == 0 { good.amount + step } else { middle }
            }
            Bound::Past(past) => between(&good, &past, round),
        };
        let gap = match bound {
            Bound::None => f64::INFINITY,
            Bound::Wall(wall) => (wall - good.amount).abs(),
            Bound::Past(past) => (past.amount - good.amount).abs(),
        };
        if gap < GRAIN {
            break;
        }
        match attempt(amount) {
            Err(why) => {
                bound = Bound::Wall(amount);
                stop.why = why;
            }
            Ok(found) if found.miss.abs() <= aim.exact => break,
            Ok(found) if (found.miss < 0.0) != (start.miss < 0.0) => bound = Bound::Past(found),
            // As far off as before, within what is exact, is rounding and no turn.
            Ok(found) if found.miss.abs() < good.miss.abs() + aim.exact => {
                let secant = (found.miss - good.miss) / (found.amount - good.amount);
                if secant * slope > 0.0 {
                    slope = secant;
                }
                good = found;
            }
            Ok(found) => {
                bound = Bound::Wall(found.amount);
                stop.why = TURNS_BACK;
            }
        }
    }
    stop.nearest = aim.wanted + good.miss;
    if let Bound::Past(_) = bound {
        stop.why = JUMPS;
    }
    match best {
        Some((design, miss)) if miss.abs() <= aim.met => Ok(design),
        _ => Err(stop),
    }
}

/// What lies at the far side of the amounts still open.
#[derive(Clone, Copy)]
enum Bound {
    /// Nothing known yet.
    None,
    /// An amount that is refused, or that comes no nearer.
    Wall(f64),
    /// An amount that goes past the value.
    Past(Try),
}

/// The next amount inside a bracket: by false position, and every third time the middle, so that it halves for sure.
fn between(low: &Try, high: &Try, round: usize) -> f64 {
    let width = high.amount - low.amount;
    if round % 3 == 2 {
        return low.amount + width / 2.0;
    }
    low.amount + width * (low.miss / (low.miss - high.miss))
}
