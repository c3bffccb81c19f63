//! Locks: dimensions that stay while the rest of the shape is edited.

use super::{
    Accuracy, Dimension, GONE,
    bench::Bench,
    find,
    unmet::{Obstacle, Unmet},
};
use crate::{
    design::{Design, Refusal},
    measure::Measured,
};

/// A dimension that keeps its value.
#[derive(Clone, Debug, PartialEq)]
pub struct Lock {
    /// The key of the dimension.
    pub key: &'static str,
    /// Its value, in the unit the core uses.
    pub value: f64,
}

/// The design with every lock at its value: all changes at once, by damped Newton over their amounts.
///
/// A lock is held to 0.5 µm, an angle to 1e-7 rad. Where all are held already the design comes back as it is.
///
/// # Errors
///
/// [`Unmet`] for the lock that is left farthest from its value, with the nearest value on the way there at which all can be
/// held, to a thousandth of that way.
pub fn hold(design: &Design, locks: &[Lock]) -> Result<Design, Unmet> {
    solved(design, locks, None, &ASKED)
}

/// The same as [`hold`] in a frame of a drag, where no other values are wanted than the ones held: none is looked for.
/// `slopes` are those of the design as it was at grab.
///
/// # Errors
///
/// [`Unmet`] for the lock that misses its value most.
pub(crate) fn keep(design: &Design, locks: &[Lock], slopes: Option<&Slopes>) -> Result<Design, Unmet> {
    solved(design, locks, slopes, &KEPT)
}

/// How the misses of the locks follow the amounts of the changes that hold them, per mm: `[miss][amount]`, each miss as so
/// many times the accuracy of its dimension.
#[derive(Clone, Debug)]
pub(crate) struct Slopes(Vec<Vec<f64>>);

impl Slopes {
    /// Those of the locks of a design; `None` where nothing is locked, or nothing can be told.
    pub(crate) fn of(design: &Design) -> Option<Self> {
        let locks = design.locks();
        if locks.is_empty() {
            return None;
        }
        let (held, measured) = (held(locks).ok()?, Measured::of(design.shape()));
        let system = System::new(design, &measured, &held, &KEPT).ok()?;
        let here = system.attempt(vec![0.0; locks.len()]).ok()?;
        system.slopes(&here).ok()
    }

    /// Learns from `share` times a step of the amounts what it did to the misses: the smallest change of the slopes that
    /// agrees with it (C. G. Broyden, *A class of methods for solving nonlinear simultaneous equations*, 1965; from memory).
    fn learn(&mut self, step: &[f64], share: f64, changes: &[f64]) {
        let square = dot(step, step);
        for (row, change) in self.0.iter_mut().zip(changes) {
            let unforeseen = change / share - dot(row, step);
            row.iter_mut().zip(step).for_each(|(slope, s)| *slope += unforeseen / square * s);
        }
    }
}

/// A dimension that is held.
struct Held {
    dimension: &'static Dimension,
    accuracy: Accuracy,
}

fn held(locks: &[Lock]) -> Result<Vec<Held>, Unmet> {
    let mut held = Vec::with_capacity(locks.len());
    for Lock { key, .. } in locks {
        let dimension = find(key).ok_or_else(|| Unmet::Unknown((*key).to_owned()))?;
        held.push(Held { dimension, accuracy: dimension.accuracy() });
    }
    Ok(held)
}

fn solved(
    design: &Design,
    locks: &[Lock],
    slopes: Option<&Slopes>,
    effort: &Effort,
) -> Result<Design, Unmet> {
    let (held, measured) = (held(locks)?, Measured::of(design.shape()));
    let mut present = Vec::with_capacity(locks.len());
    for (lock, Held { dimension, .. }) in locks.iter().zip(&held) {
        let quantity = dimension.quantity();
        let reading = dimension.read(design.shape(), &measured);
        let value = reading.value.ok_or(Unmet::Absent { quantity, why: reading.remark })?;
        if !lock.value.is_finite() {
            let why = Obstacle::Words("");
            return Err(Unmet::Beyond { quantity, wanted: lock.value, nearest: value, why });
        }
        present.push(value);
    }
    let values: Vec<f64> = locks.iter().map(|lock| lock.value).collect();
    if norm(&apart(&values, &present, &held, |accuracy| accuracy.met)) <= 1.0 {
        return Ok(design.clone());
    }
    let system = System::new(design, &measured, &held, effort)?;
    let solved = match system.solve(&values, slopes) {
        // The slopes of another shape may have led astray.
        Err(Obstacle::Words(_)) if slopes.is_some() => system.solve(&values, None),
        solved => solved,
    };
    let why = match solved {
        Ok(found) => return Ok(found),
        Err(why) => why,
    };
    // All come the same share of their way: the longest way is left farthest from its end.
    let worst = worst_of(&apart(&values, &present, &held, |accuracy| accuracy.offer));
    let (Held { dimension, accuracy }, wanted, from) = (&held[worst], values[worst], present[worst]);
    let quantity = dimension.quantity();
    if effort.nearest_steps == 0 {
        return Err(Unmet::Beyond { quantity, wanted, nearest: wanted, why });
    }
    // The nearest that can be held, on the straight way from the present values to the ones wanted.
    let (mut good, mut bad) = (0.0, 1.0);
    for _ in 0..effort.nearest_steps {
        let share = good + (bad - good) / 2.0;
        let on_the_way: Vec<f64> =
            present.iter().zip(&values).map(|(from, to)| from + share * (to - from)).collect();
        if system.solve(&on_the_way, None).is_ok() { good = share } else { bad = share }
    }
    let way = wanted - from;
    let accuracy = accuracy.of_search(way.abs() * (bad - good));
    let nearest = accuracy.toward(from + good * way, from);
    Err(Unmet::Beyond { quantity, wanted, nearest, why })
}

/// How much is done to hold dimensions.
struct Effort {
    /// The share of their accuracies at which the solve stops.
    enough: f64,
    /// Shapes refused one after another, with no whole step between them, before it gives up.
    refusals: usize,
    /// Halvings of the way to the nearest values that can be held.
    nearest_steps: usize,
}

/// Where values were asked for: as exactly as can be, and the nearest to a thousandth of the way.
const ASKED: Effort = Effort { enough: 2e-3, refusals: usize::MAX, nearest_steps: 10 };
/// Where values are kept in every frame of a drag. Nearer than half of what is promised,
/// the rounding of a design has its say and a solve would go on to its last step; and where whole steps are refused, it
/// would creep up to what refuses them.
const KEPT: Effort = Effort { enough: 0.5, refusals: 3, nearest_steps: 0 };

/// Most steps of Newton's method.
const MOST_STEPS: usize = 8;
/// Halvings of a step that is refused or comes no nearer.
const MOST_HALVINGS: usize = 6;
/// The amount by which slopes are taken, mm: far above what a design rounds, far below what a curve shows.
const PROBE: f64 = 0.01;

/// The dimensions held and the changes that hold them.
struct System<'a> {
    bench: Bench<'a>,
    before: &'a Measured,
    held: &'a [Held],
    effort: &'a Effort,
}

/// Amounts tried, the design they give, and what each dimension measures on it.
struct Trial {
    amounts: Vec<f64>,
    design: Design,
    values: Vec<f64>,
}

impl<'a> System<'a> {
    fn new(
        design: &'a Design,
        before: &'a Measured,
        held: &'a [Held],
        effort: &'a Effort,
    ) -> Result<Self, Unmet> {
        let mut plans = Vec::with_capacity(held.len());
        for Held { dimension, .. } in held {
            plans.push(dimension.plan(design.shape(), before)?);
        }
        Ok(Self { bench: Bench::new(design, plans), before, held, effort })
    }

    fn solve(&self, wanted: &[f64], slopes: Option<&Slopes>) -> Result<Design, Obstacle> {
        let mut here = self.attempt(vec![0.0; wanted.len()]).map_err(Obstacle::Refused)?;
        let mut miss = self.between(&here.values, wanted);
        let mut why = Obstacle::Words("the locks pull against one another");
        let mut known = slopes.cloned();
        let mut refusals = 0;
        for _ in 0..MOST_STEPS {
            if norm(&miss) <= self.effort.enough || refusals >= self.effort.refusals {
                break;
            }
            let (mut slopes, of_before) = match known.take() {
                Some(slopes) => (slopes, true),
                None => (self.slopes(&here).map_err(Obstacle::Refused)?, false),
            };
            let step = least_squares(&slopes.0, &miss);
            let mut share = 1.0;
            let mut next = None;
            let before = refusals;
            for _ in 0..=MOST_HALVINGS {
                let amounts = here.amounts.iter().zip(&step).map(|(a, s)| a - share * s).collect();
                match self.attempt(amounts) {
                    Ok(trial) => {
                        let left = self.between(&trial.values, wanted);
                        if norm(&left) < norm(&miss) {
                            next = Some((trial, left));
                            break;
                        }
                    }
                    Err(refusal) => {
                        why = Obstacle::Refused(refusal);
                        refusals += 1;
                    }
                }
                share /= 2.0;
            }
            let (trial, left) = match next {
                Some(next) => next,
                None if of_before => continue,
                None => break,
            };
            if refusals == before {
                refusals = 0;
            }
            if norm(&left) < GOOD_STEP * norm(&miss) {
                slopes.learn(&step, -share, &self.between(&trial.values, &here.values));
                known = Some(slopes);
            }
            (here, miss) = (trial, left);
        }
        if miss.iter().all(|m| m.abs() <= 1.0) { Ok(here.design) } else { Err(why) }
    }

    /// By how many times its accuracy each value lies beyond another.
    fn between(&self, values: &[f64], others: &[f64]) -> Vec<f64> {
        apart(values, others, self.held, |accuracy| accuracy.met)
    }

    fn attempt(&self, amounts: Vec<f64>) -> Result<Trial, Refusal> {
        let (design, measured) = self.bench.changed(&amounts)?;
        let mut values = Vec::with_capacity(self.held.len());
        for Held { dimension, .. } in self.held {
            let value = dimension.follow(self.before, design.shape(), &measured);
            values.push(value.ok_or(Refusal::Impossible(GONE))?);
        }
        Ok(Trial { amounts, design, values })
    }

    /// The slopes at amounts tried, by differences.
    fn slopes(&self, here: &Trial) -> Result<Slopes, Refusal> {
        let n = here.amounts.len();
        let mut slopes = vec![vec![0.0; n]; n];
        for j in 0..n {
            let probe = |by: f64| {
                let mut amounts = here.amounts.clone();
                amounts[j] += by;
                self.attempt(amounts).map(|trial| (by, trial))
            };
            let (by, trial) = probe(PROBE).or_else(|_| probe(-PROBE))?;
            for (row, change) in slopes.iter_mut().zip(self.between(&trial.values, &here.values)) {
                row[j] = change / by;
            }
        }
        Ok(Slopes(slopes))
    }
}

/// A step that leaves less than this share of the miss is one whose slopes, with what it taught, serve for the next one too.
const GOOD_STEP: f64 = 0.6;

/// By how many times what `of` gives each value lies beyond another.
fn apart(values: &[f64], others: &[f64], held: &[Held], of: fn(&Accuracy) -> f64) -> Vec<f64> {
    let apart = |((v, o), held): ((&f64, &f64), &Held)| (v - o) / of(&held.accuracy);
    values.iter().zip(others).zip(held).map(apart).collect()
}

fn norm(misses: &[f64]) -> f64 {
    misses.iter().fold(0.0, |most: f64, miss| most.max(miss.abs()))
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn worst_of(misses: &[f64]) -> usize {
    let worst = misses.iter().enumerate().max_by(|a, b| a.1.abs().total_cmp(&b.1.abs()));
    worst.map_or(0, |(i, _)| i)
}

/// The shortest step that brings `slopes` · step nearest to `misses`: normal equations with a whisper of damping, so
/// that locks that say the same twice are held too.
fn least_squares(slopes: &[Vec<f64>], misses: &[f64]) -> Vec<f64> {
    const DAMPING: f64 = 1e-12;
    let n = misses.len();
    let of_columns = |i: usize, j: usize| slopes.iter().map(|row| row[i] * row[j]).sum::<f64>();
    let mut rows: Vec<Vec<f64>> = (0..n)
        .map(|i| {
            let mut row: Vec<f64> = (0..n).map(|j| of_columns(i, j)).collect();
            row.push(slopes.iter().zip(misses).map(|(slope, miss)| slope[i] * miss).sum());
            row
        })
        .collect();
    let largest = (0..n).map(|i| rows[i][i]).fold(f64::MIN_POSITIVE, f64::max);
    for (i, row) in rows.iter_mut().enumerate() {
        row[i] += DAMPING * largest;
    }
    // Gauss without pivoting: the matrix is symmetric and positive definite.
    for i in 0..n {
        let (above, below) = rows.split_at_mut(i + 1);
        let pivot = &above[i];
        for row in below {
            let factor = row[i] / pivot[i];
            row.iter_mut().zip(pivot).for_each(|(entry, up)| *entry -= factor * up);
        }
    }
    let mut step = vec![0.0; n];
    for i in (0..n).rev() {
        let known: f64 = (i + 1..n).map(|j| rows[i][j] * step[j]).sum();
        step[i] = (rows[i][n] - known) / rows[i][i];
    }
    step
}
