//! A hand-drawn stroke made ready for fitting: evenly spaced places instead of raw samples.
//!
//! A pen reports many samples where the hand rests and few where it flies. Averaging them over equal steps along the
//! way weighs the stroke by length, not by time, and takes out most of the jitter.

use kurbo::{Point, Rect};

use super::FitError;
use crate::curve::batten::End;
use crate::real;

/// Steps across the extent of the stroke. More follow tighter bends, fewer average more jitter away.
const STEPS: f64 = 128.0;

/// Most places kept of a stroke that runs to and fro over its extent; one longer is taken in coarser steps.
const MOST_PLACES: usize = 300;

/// Share of the places at either end where a hook of the pen is looked for.
const HOOK_SHARE: usize = 25;

/// Cosine of the bend between hook and stroke: 60°, more than a hand draws within a step on purpose.
const HOOK_BEND: f64 = 0.5;

/// Evenly spaced places along the stroke, from end to end.
///
/// Hooks, the short flicks with which a pen lands and lifts, are cut off. At a clamped end the first or last sample
/// itself stays, since the curve is to join there; at a free one the mean of the samples within half a step stands
/// for it.
pub(super) fn places(samples: &[Point], tolerance: f64, ends: [End; 2]) -> Result<Vec<Point>, FitError> {
    if let Some(sample) = samples.iter().position(|sample| !sample.is_finite()) {
        return Err(FitError::NotFinite { sample });
    }
    let Some(&first) = samples.first() else { return Err(FitError::TooShort) };
    let bounds =
        samples.iter().fold(Rect::from_points(first, first), |bounds, &sample| bounds.union_pt(sample));
    let extent = real::hypot(bounds.width(), bounds.height());
    if !(extent > 2.0 * tolerance && extent.is_finite()) {
        return Err(FitError::TooShort);
    }
    let mut step = (extent / STEPS).max(2.0 * tolerance);
    let mut places = means(samples, step);
    while places.len() > MOST_PLACES {
        step *= 2.0;
        places = means(samples, step);
    }
    let reversed: Vec<Point> = samples.iter().rev().copied().collect();
    for (end, samples) in ends.iter().zip([samples, &reversed]) {
        match end {
            End::Free => cut_hook(&mut places, means(samples, step / 2.0)[0], false),
            End::Tangent(_) => cut_hook(&mut places, samples[0], true),
        }
        places.reverse(); // so that the second round works on the other end
    }
    thin_out(&mut places, step / 4.0);
    if places.len() < 2 { Err(FitError::TooShort) } else { Ok(places) }
}

/// The means of runs of samples that stay within `step` of the run's first one.
fn means(samples: &[Point], step: f64) -> Vec<Point> {
    let near = |run: &[Point], sample: &Point| (*sample - run[0]).hypot2() < step * step;
    let mut means = Vec::new();
    let mut rest = samples;
    while !rest.is_empty() {
        let length = rest.iter().position(|sample| !near(rest, sample)).unwrap_or(rest.len());
        let (run, after) = rest.split_at(length.max(1));
        let sum = run.iter().fold(kurbo::Vec2::ZERO, |sum, sample| sum + sample.to_vec2());
        means.push((sum / run.len() as f64).to_point());
        rest = after;
    }
    means
}

/// Takes out places nearer than `gap` to the one before or to the last, which stays like the first.
fn thin_out(places: &mut Vec<Point>, gap: f64) {
    let near = |a: Point, b: Point| (a - b).hypot2() < gap * gap;
    let Some(last) = places.pop() else { return };
    places.dedup_by(|next, place| near(*next, *place));
    while places.len() > 1 && places.last().is_some_and(|place| near(*place, last)) {
        places.pop();
    }
    places.push(last);
}

/// Puts `sample` at the start of `places` after cutting a hook off there; the hook's own tip goes too unless it is
/// `held`.
fn cut_hook(places: &mut Vec<Point>, sample: Point, held: bool) {
    if places.len() < 4 {
        places[0] = sample;
        return;
    }
    places.insert(0, sample);
    let most = (places.len() / HOOK_SHARE).max(2);
    let bend = |k: usize| {
        let (before, after) = (places[k] - places[k - 1], places[(k + 2).min(places.len() - 1)] - places[k]);
        before.dot(after) < HOOK_BEND * (before.hypot2() * after.hypot2()).sqrt()
    };
    if let Some(corner) = (1..=most).rev().find(|&k| bend(k)) {
        places.drain(usize::from(held)..corner);
    }
}
