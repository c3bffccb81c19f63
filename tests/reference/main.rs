//! Checks against a truth that this project did not compute: published values, elementary geometry worked by hand, and
//! other people's libraries. Each file says where its figures come from.

#![expect(clippy::unwrap_used, reason = "a helper of a test fails it that way")]

mod battens;
mod closed_shapes;
mod clothoid;
mod demo_decks;
mod downloads;
mod ends;
mod homography;
mod offsets;
mod pdf;
mod polygons;
mod pressed;
mod quantities;
mod read_back;
mod strict_readers;
mod templates;
mod workshop_beams;
mod workshop_bends;
mod workshop_decks;
mod workshop_glue;
mod workshop_plates;
mod workshop_press;
mod workshop_wood;

/// Fails unless `found` lies within `tolerance` of `expected`.
#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} is not within {tolerance} of {expected}");
}
