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
    solved(design, locks, &ASKED)
}

/// The same as [`hold`] in a frame of a drag, where no other values are wanted than the ones held: none is looked for.
///
/// # Errors
///
/// [`Unmet`] for the lock that misses its value most.
pub(crate) fn keep(design: &Design, locks: &[Lock]) -> Result<Design, Unmet> {
    solved(design, locks, &KEPT)
}

fn solved(design: &Design, locks: &[Lock], effort: &Effort) -> Result<Design, Unmet> {
    let dimensions: Vec<&'static Dimension> = locks
        .iter()
        .map(|lock| find(lock.key).ok_or_else(|| Unmet::Unknown(lock.key.to_owned())))
        .collect::<Result<_, _>>()?;
    let measured = Measured::of(design.shape());
    let mut present = Vec::with_capacity(locks.len());
    for (lock, dimension) in locks.iter().zip(&dimensions) {
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
    let accuracies: Vec<Accuracy> = dimensions.iter().map(|dimension| dimension.accuracy()).collect();
    if values.iter().zip(&present).zip(&accuracies).all(|((v, p), accuracy)| (v - p).abs() <= accuracy.met) {
        return Ok(design.clone());
    }
    let plans = dimensions
        .iter()
        .map(|dimension| dimension.plan(design.shape(), &measured))
        .collect::<Result<_, _>>()?;
    let bench = Bench::new(design, plans);
    let system =
        System { bench, before: &measured, dimensions: &dimensions, accuracies: &accuracies, effort };
    let why = match system.solve(&values) {
        Ok(found) => return Ok(found),
        Err(why) => why,
    };
    // All come the same share of their way: the longest way is left farthest from its end.
    let ways: Vec<f64> = values
        .iter()
        .zip(&present)
        .zip(&accuracies)
        .map(|((v, p), accuracy)| (v - p) / accuracy.offer)
        .collect();
    let worst = worst_of(&ways);
    let (quantity, wanted, from) = (dimensions[worst].quantity(), values[worst], present[worst]);
    if effort.nearest_steps == 0 {
        return Err(Unmet::Beyond { quantity, wanted, nearest: wanted, why });
    }
    // The nearest that can be held, on the straight way from the present values to the ones wanted.
    let (mut held, mut refused) = (0.0, 1.0);
    for _ in 0..effort.nearest_steps {
        let share = held + (refused - held) / 2.0;
        let on_the_way: Vec<f64> =
            present.iter().zip(&values).map(|(from, to)| from + share * (to - from)).collect();
        if system.solve(&on_the_way).is_ok() { held = share } else { refused = share }
    }
    let way = wanted - from;
    let accuracy = accuracies[worst].of_search(way.abs() * (refused - held));
    let nearest = accuracy.toward(from + held * way, from);
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
    dimensions: &'a [&'static Dimension],
    accuracies: &'a [Accuracy],
    effort: &'a Effort,
}

/// Amounts tried, the design they give, and by how many times its accuracy each dimension misses.
struct Trial {
    amounts: Vec<f64>,
    design: Design,
    values: Vec<f64>,
}

impl System<'_> {
    fn solve(&self, wanted: &[f64]) -> Result<Design, Obstacle> {
        let misses = |values: &[f64]| -> Vec<f64> {
            let of = |((v, w), accuracy): ((&f64, &f64), &Accuracy)| (v - w) / accuracy.met;
            values.iter().zip(wanted).zip(self.accuracies).map(of).collect()
        };
        let mut here = self.attempt(vec![0.0; wanted.len()]).map_err(Obstacle::Refused)?;
        let mut why = Obstacle::Words("the locks pull against one another");
        let mut known: Option<Vec<Vec<f64>>> = None;
        let mut refusals = 0;
        for _ in 0..MOST_STEPS {
            let miss = misses(&here.values);
            if norm(&miss) <= self.effort.enough || refusals >= self.effort.refusals {
                break;
            }
            let (slopes, of_before) = match known.take() {
                Some(slopes) => (slopes, true),
                None => (self.slopes(&here, &misses, &miss).map_err(Obstacle::Refused)?, false),
            };
            let step = least_squares(&slopes, &miss);
            let mut share = 1.0;
            let mut next = None;
            let before = refusals;
            for _ in 0..=MOST_HALVINGS {
                let amounts = here.amounts.iter().zip(&step).map(|(a, s)| a - share * s).collect();
                match self.attempt(amounts) {
                    Ok(trial) if norm(&misses(&trial.values)) < norm(&miss) => {
                        next = Some(trial);
                        break;
                    }
                    Ok(_) => {}
                    Err(refusal) => {
                        why = Obstacle::Refused(refusal);
                        refusals += 1;
                    }
                }
                share /= 2.0;
            }
            let trial = match next {
                Some(trial) => trial,
                None if of_before => continue,
                None => break,
            };
            if refusals == before {
                refusals = 0;
            }
            if norm(&misses(&trial.values)) < GOOD_STEP * norm(&miss) {
                known = Some(slopes);
            }
            here = trial;
        }
        let miss = misses(&here.values);
        if miss.iter().all(|m| m.abs() <= 1.0) { Ok(here.design) } else { Err(why) }
    }

    fn attempt(&self, amounts: Vec<f64>) -> Result<Trial, Refusal> {
        let design = self.bench.changed(&amounts)?;
        let measured = Measured::of(design.shape());
        let value = |dimension: &&Dimension| {
            dimension.follow(self.before, design.shape(), &measured).ok_or(Refusal::Impossible(GONE))
        };
        let values = self.dimensions.iter().map(value).collect::<Result<_, _>>()?;
        Ok(Trial { amounts, design, values })
    }

    /// Change of each miss per mm of each amount, by differences; `[miss][amount]`.
    fn slopes(
        &self,
        here: &Trial,
        misses: &impl Fn(&[f64]) -> Vec<f64>,
        miss: &[f64],
    ) -> Result<Vec<Vec<f64>>, Refusal> {
        let n = miss.len();
        let mut slopes = vec![vec![0.0; n]; n];
        for j in 0..n {
            let probe = |by: f64| {
                let mut amounts = here.amounts.clone();
                amounts[j] += by;
                self.attempt(amounts).map(|trial| (by, trial))
            };
            let (by, trial) = probe(PROBE).or_else(|_| probe(-PROBE))?;
            for (row, (there, here)) in slopes.iter_mut().zip(misses(&trial.values).iter().zip(miss)) {
                row[j] = (there - here) / by;
            }
        }
        Ok(slopes)
    }
}

/// A step that leaves less than this share of the miss is one whose slopes serve for the next one too.
const GOOD_STEP: f64 = 0.1;

fn norm(misses: &[f64]) -> f64 {
    misses.iter().fold(0.0, |most: f64, miss| most.max(miss.abs()))
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
    let dot = |i: usize, j: usize| slopes.iter().map(|row| row[i] * row[j]).sum::<f64>();
    let mut rows: Vec<Vec<f64>> = (0..n)
        .map(|i| {
            let mut row: Vec<f64> = (0..n).map(|j| dot(i, j)).collect();
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
