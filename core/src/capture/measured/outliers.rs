//! Measurements that lie off a fair edge: found by leaving one out and looking at what the rest makes of it.

use super::{Ends, FEWEST, Mark, lay, off, outline};
use crate::{curve::fit::Fitted, order::sort_by_number, outline::Outline};
use kurbo::Point;

/// A measurement nearer than so many tolerances to the edge that the others make is no outlier.
const TOLERANCES: f64 = 3.0;
/// Without an outlier the edge is at least so many times as fair: seen on ellipses and superellipses with noise, where it is
/// 1.6 times at the least, and without an outlier 1.2 at the most.
const FAIRER: f64 = 1.4;
/// And fairness and the error of the others, as a square, gain so much together; 2.8 at the least there, 1.7 at the most without an outlier.
const BETTER: f64 = 2.0;
/// So much is enough by itself: the tips of few stations are never fair, and hide what an outlier does to the rest.
const MUCH_BETTER: f64 = 3.0;
/// How many measurements are looked at in one round: those farthest from where their neighbours put them.
const CANDIDATES: usize = 3;
/// Nearer than so many tolerances to where its neighbours put it, a measurement needs no look: an outlier lies farther off, and
/// errors within the tolerance are not much larger there.
const NEAR: f64 = 2.0;
/// Of so many measurements one can be an outlier; more are no accident, and the fit says so by its misfit.
const ONE_IN: usize = 4;
/// Most outliers that are sought one after the other.
const MOST: usize = 6;
/// Places between two stations at which an edge is looked at.
const LOOKS: u32 = 8;

/// The lines of the measurements that are left out.
pub(super) fn find(marks: &[Mark], ends: &Ends, tolerance: f64) -> Vec<usize> {
    let mut kept = marks.to_vec();
    let mut suspects = Vec::new();
    while kept.len() > FEWEST && suspects.len() < MOST.min(marks.len() / ONE_IN) {
        let found = outlier(&kept, ends, tolerance);
        let Some(worst) = found.or_else(|| dent(&kept, ends, tolerance)) else { break };
        suspects.push(kept.remove(worst).line);
    }
    suspects
}

/// The edge that the others make without one measurement, where that lies off it.
fn without(marks: &[Mark], i: usize, ends: &Ends, tolerance: f64) -> Option<Fitted> {
    let mut rest = marks.to_vec();
    let left_out = rest.remove(i);
    lay(&rest, ends, tolerance).ok().filter(|without| is_off(without, left_out.at, ends, tolerance))
}

/// The measurement without which the others make so much better an edge that it was no part of it.
fn outlier(marks: &[Mark], ends: &Ends, tolerance: f64) -> Option<usize> {
    let mut best: Option<(Fitted, usize)> = None;
    for i in candidates(marks, ends, NEAR * tolerance) {
        // Of neighbours that all lie off, the one without which the others fit best is the one at fault.
        if let Some(without) = without(marks, i, ends, tolerance)
            && best.as_ref().is_none_or(|best| without.score < best.0.score)
        {
            best = Some((without, i));
        }
    }
    let (without, worst) = best?;
    let all = lay(marks, ends, tolerance);
    all.map_or(true, |all| is_better(&without, &all)).then_some(worst)
}

/// The measurement that alone makes a waist: it lies as far below both its neighbours as an outlier does from an edge, and the
/// edge that the others make does not dip between those two. A waist that was measured at more than one station stays in what
/// the others make. Few stations follow the dent of one as fairly as none, so that nothing else tells.
fn dent(marks: &[Mark], ends: &Ends, tolerance: f64) -> Option<usize> {
    (1..marks.len().saturating_sub(1)).find(|&i| {
        let (before, after) = (marks[i - 1].at, marks[i + 1].at);
        let rim = before.y.min(after.y);
        let dips = |edge: &Outline| {
            (1..LOOKS).any(|k| {
                let x = before.x + (after.x - before.x) * f64::from(k) / f64::from(LOOKS);
                off(edge, Point::new(x, rim)) > tolerance
            })
        };
        rim - marks[i].at.y > TOLERANCES * tolerance
            && without(marks, i, ends, tolerance)
                .and_then(|without| outline(&without, ends))
                .is_some_and(|edge| !dips(&edge))
    })
}

/// Whether a place lies off the edge that the others make.
fn is_off(without: &Fitted, at: Point, ends: &Ends, tolerance: f64) -> bool {
    outline(without, ends).is_some_and(|edge| off(&edge, at).abs() > TOLERANCES * tolerance)
}

/// Whether the others make so much better an edge that the one left out was no part of it.
fn is_better(without: &Fitted, all: &Fitted) -> bool {
    let gain = worth(all) / worth(without);
    // Where there are as many pins as places nobody can tell.
    worth(all).is_finite()
        && without.score < all.score
        && (gain > MUCH_BETTER || gain > BETTER && FAIRER * without.unfairness < all.unfairness)
}

/// What an edge is worth, the smaller the better: its error and its unfairness at once.
fn worth(fitted: &Fitted) -> f64 {
    fitted.score * fitted.unfairness
}

/// The measurements farthest from where their neighbours put them.
fn candidates(marks: &[Mark], ends: &Ends, near: f64) -> Vec<usize> {
    let mut places = vec![ends.first()];
    places.extend(marks.iter().map(|mark| mark.at));
    places.push(ends.last());
    let strays = (0..marks.len()).map(|i| (stray(&places, i + 1), i));
    let mut strays: Vec<(f64, usize)> = strays.filter(|stray| stray.0 > near).collect();
    sort_by_number(&mut strays, |stray| -stray.0);
    strays.into_iter().take(CANDIDATES).map(|stray| stray.1).collect()
}

/// How far a place lies from the cubic through its two neighbours on either side, or as many as there are, mm.
fn stray(places: &[Point], i: usize) -> f64 {
    let mut from = 0.0;
    let mut stations = Vec::with_capacity(5);
    let near = i.saturating_sub(2)..(i + 3).min(places.len());
    for k in near.clone() {
        if k > near.start {
            from += (places[k] - places[k - 1]).hypot2().sqrt();
        }
        stations.push((k, from));
    }
    let here = stations.iter().find(|station| station.0 == i).map_or(0.0, |station| station.1);
    let mut foretold = kurbo::Vec2::ZERO;
    for &(k, at) in stations.iter().filter(|station| station.0 != i) {
        let mut weight = 1.0;
        for &(other, there) in stations.iter().filter(|station| station.0 != i && station.0 != k) {
            debug_assert!(other != k);
            weight *= (here - there) / (at - there);
        }
        foretold += weight * places[k].to_vec2();
    }
    (places[i].to_vec2() - foretold).hypot2().sqrt()
}
