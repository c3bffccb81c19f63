//! Decks photographed and traced: rendered through known cameras from known designs, they must come back.
//!
//! The bounds, 0.5 mm at the median and 1 mm at the 95th percentile, are what the tool promises. The lens bends straight lines
//! by half a percent at the ends of the picture in every third photograph, and by nothing that is not stated here.

#![expect(clippy::unwrap_used, reason = "a helper of a test fails it that way")]

mod bad;
mod decks;
mod holes;

use halfbreadth_core::{
    capture::photo::{Given, Traced, hole_centre},
    design::Shape,
};
use halfbreadth_tests::{
    photos::{Photo, edge},
    random::Random,
};
use kurbo::{Point, Vec2};

/// Clicks near the holes, as a hand makes them, each refined.
fn clicks(photo: &Photo, random: &mut Random) -> Vec<Point> {
    let picture = photo.picture();
    let reach = 0.012 * photo.width as f64;
    let click = |hole: &Point| {
        let click = *hole + Vec2::new(random.between(-5.0, 5.0), random.between(-5.0, 5.0));
        hole_centre(&picture, click, reach).unwrap_or(click)
    };
    photo.holes.iter().map(click).collect()
}

/// What a person gives who clicks all holes and measures the height of the lens.
fn given(photo: &Photo, random: &mut Random) -> Given {
    Given { holes: clicks(photo, random), height: Some(photo.lens), ..Given::default() }
}

/// Distances of places from the true edge of a shape, sorted, mm.
fn errors(places: &[Point], shape: &Shape) -> Vec<f64> {
    let truth = edge(shape, 1.0);
    let mut errors: Vec<f64> = places.iter().map(|p| distance(*p, &truth)).collect();
    errors.sort_by(f64::total_cmp);
    errors
}

/// Places along the traced outline, 2 mm apart.
fn traced_edge(traced: &Traced, shape: &Shape) -> Vec<Point> {
    edge(&Shape { outline: traced.outline.clone(), ..shape.clone() }, 2.0)
}

fn distance(p: Point, chain: &[Point]) -> f64 {
    let to_chord = |w: &[Point]| {
        let along = w[1] - w[0];
        let share = ((p - w[0]).dot(along) / along.hypot2().max(1e-30)).clamp(0.0, 1.0);
        (p - w[0].lerp(w[1], share)).hypot()
    };
    chain.windows(2).map(to_chord).fold(f64::INFINITY, f64::min)
}

/// Median and 95th percentile of sorted numbers.
fn percentiles(sorted: &[f64]) -> (f64, f64) {
    (sorted[sorted.len() / 2], sorted[sorted.len() * 95 / 100])
}

#[track_caller]
fn within_bounds(errors: &[f64], what: &str) {
    let (median, high) = percentiles(errors);
    assert!(median < 0.5 && high < 1.0, "{what}: median {median:.3} mm, 95th percentile {high:.3} mm");
}
