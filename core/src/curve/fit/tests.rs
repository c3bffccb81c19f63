use core::f64::consts::{FRAC_PI_2, TAU};

use kurbo::Vec2;

use super::*;
use crate::curve::batten::{solve, spirals};
use crate::curve::fair::extrema;
use crate::curve::spiral::Spiral;
use crate::real;

const SQUARE: [End; 2] = [End::Tangent(0.0), End::Tangent(-FRAC_PI_2)];

/// Even noise from −amplitude to amplitude in both directions, the same on every machine.
fn jitter(index: u32, amplitude: f64) -> Vec2 {
    let mixed = |n: u32| {
        let n = (n ^ 0x9e37_79b9).wrapping_mul(0x85eb_ca6b);
        let n = (n ^ (n >> 13)).wrapping_mul(0xc2b2_ae35);
        f64::from(n ^ (n >> 16)) / f64::from(u32::MAX) * 2.0 - 1.0
    };
    Vec2::new(mixed(2 * index), mixed(2 * index + 1)) * amplitude
}

/// `count` samples of an ellipse quarter of 160 by 100 mm with jitter, its two ends without.
fn quarter(count: u32, amplitude: f64) -> Vec<Point> {
    let last = count - 1;
    let sample = |i| {
        let (sin, cos) = real::sincos(FRAC_PI_2 * f64::from(i) / f64::from(last));
        let jitter = if i == 0 || i == last { Vec2::ZERO } else { jitter(i, amplitude) };
        Point::new(160.0 * sin, 100.0 * cos) + jitter
    };
    (0..count).map(sample).collect()
}

fn curve(pins: &[Point], ends: [End; 2]) -> Vec<Spiral> {
    spirals(pins, &solve(pins, ends, None).unwrap()).unwrap()
}

/// The largest distance of the curve from the ellipse quarter, to first order.
fn misfit(curve: &[Spiral]) -> f64 {
    let distance = |p: Point| {
        let (u, v) = (p.x / 160.0, p.y / 100.0);
        ((u * u + v * v - 1.0) / (2.0 * Vec2::new(u / 160.0, v / 100.0).hypot())).abs()
    };
    let points = curve.iter().flat_map(|s| (0..=20).map(move |i| s.point(s.length() * f64::from(i) / 20.0)));
    points.map(distance).fold(0.0, f64::max)
}

#[test]
fn a_stroke_along_an_ellipse_comes_back_within_tolerance_by_few_pins() {
    for (tolerance, most_pins) in [(0.5, 4), (0.3, 4), (0.1, 6), (0.05, 6)] {
        for amplitude in [0.0, tolerance / 2.0] {
            let pins = fit_stroke(&quarter(2000, amplitude), tolerance, SQUARE).unwrap();
            assert!(pins.len() <= most_pins, "{tolerance}: {pins:?}");
            let misfit = misfit(&curve(&pins, SQUARE));
            assert!(misfit < tolerance, "{tolerance}: {misfit} mm");
        }
    }
}

#[test]
fn a_stroke_with_free_ends_comes_back_too() {
    for (count, amplitude) in [(2000, 0.0), (2000, 0.3), (300, 0.2), (40, 0.1)] {
        let pins = fit_stroke(&quarter(count, amplitude), 0.3, [End::Free; 2]).unwrap();
        let misfit = misfit(&curve(&pins, [End::Free; 2]));
        assert!(
            pins.len() <= 7 && misfit < 0.3 + amplitude / 4.0,
            "{count} {amplitude}: {} pins, {misfit} mm",
            pins.len()
        );
    }
}

#[test]
fn clamped_ends_are_the_samples_themselves() {
    for count in [2, 3, 5, 60, 77, 500, 2000] {
        let samples = quarter(count, 0.3);
        let pins = fit_stroke(&samples, 0.2, SQUARE).unwrap();
        assert_eq!((pins[0], pins[pins.len() - 1]), (samples[0], samples[samples.len() - 1]), "{count}");
    }
}

#[test]
fn a_wobbly_stroke_gives_a_fair_curve() {
    // A hand's wobble: slower than jitter, so that it is in the stroke and only few pins can leave it out.
    let wobbly: Vec<Point> = quarter(900, 0.1)
        .into_iter()
        .enumerate()
        .map(|(i, p)| p + Vec2::new(0.3, 0.4) * real::sin(i as f64 / 900.0 * 9.5 * TAU))
        .collect();
    let pins = fit_stroke(&wobbly, 0.8, SQUARE).unwrap();
    let curve = curve(&pins, SQUARE);
    assert!(pins.len() <= 4 && extrema(&curve) == 0, "{pins:?}");
    assert!(misfit(&curve) < 0.8);
}

#[test]
fn a_straight_stroke_gives_two_pins() {
    for amplitude in [0.0, 0.2] {
        let at =
            |i: u32| Point::new(-50.0, 20.0) + Vec2::new(0.3, -0.1) * f64::from(i) + jitter(i, amplitude);
        let samples: Vec<Point> = (0..800).map(at).collect();
        assert_eq!(fit_stroke(&samples, 0.3, [End::Free; 2]).unwrap().len(), 2);
    }
}

#[test]
fn hooks_and_rests_of_the_pen_leave_no_trace() {
    let plain = quarter(1000, 0.05);
    let mut samples = Vec::new();
    samples.extend((0..12).map(|i| plain[0] + Vec2::new(0.35, 0.3) * f64::from(12 - i)));
    for (index, sample) in plain.iter().enumerate() {
        let rest = if index % 250 == 100 { 300 } else { 1 };
        samples.extend(core::iter::repeat_n(*sample, rest));
    }
    samples.extend((0..12).map(|i| plain[999] + Vec2::new(-0.35, -0.05) * f64::from(i)));
    let pins = fit_stroke(&samples, 0.3, [End::Free; 2]).unwrap();
    let misfit = misfit(&curve(&pins, [End::Free; 2]));
    assert!(pins.len() <= 7 && misfit < 0.4, "{} pins, {misfit} mm", pins.len());
}

#[test]
fn strokes_without_length_or_place_are_refused_with_the_reason() {
    let free = [End::Free; 2];
    let p = Point::new(3.0, 4.0);
    assert_eq!(fit_stroke(&[], 0.3, free), Err(FitError::TooShort));
    assert_eq!(fit_stroke(&[p], 0.3, free), Err(FitError::TooShort));
    assert_eq!(fit_stroke(&[p; 50], 0.3, free), Err(FitError::TooShort));
    assert_eq!(fit_stroke(&[p, Point::new(3.1, 4.0)], 0.3, free), Err(FitError::TooShort));
    assert_eq!(
        fit_stroke(&[p, Point::new(f64::NAN, 4.0)], 0.3, free),
        Err(FitError::NotFinite { sample: 1 })
    );
    for tolerance in [f64::NAN, f64::INFINITY] {
        assert_eq!(fit_stroke(&quarter(9, 0.0), tolerance, free), Err(FitError::TooShort));
    }
    assert_eq!(
        fit_stroke(&[Point::new(-1e308, 0.0), Point::new(1e308, 1.0)], 0.3, free),
        Err(FitError::TooShort)
    );
}

#[test]
fn a_stroke_against_the_tangent_it_is_to_start_with_is_refused() {
    let against = [End::Tangent(3.1), End::Tangent(-FRAC_PI_2)];
    assert_eq!(fit_stroke(&quarter(300, 0.0), 0.3, against), Err(FitError::TooWild));
}

#[test]
fn scribbles_give_a_curve_or_an_error() {
    let strokes: [Box<dyn Fn(u32) -> Point>; 6] = [
        Box::new(|i| Point::ZERO + jitter(i, 200.0)),
        Box::new(|i| Point::new(if i % 2 == 0 { 0.0 } else { 100.0 }, f64::from(i) * 0.01)),
        Box::new(|i| Point::ZERO + real::unit_vector(f64::from(i) * 0.1) * (1.0 + f64::from(i) * 0.05)),
        Box::new(|i| Point::new(50.0 * real::sin(f64::from(i) * 0.01), 0.0)),
        Box::new(|i| Point::new(f64::from(i), 30.0 * real::sin(f64::from(i) * 0.3))),
        Box::new(|i| Point::new(1e9 * f64::from(i), if i == 700 { 1e12 } else { 0.0 })),
    ];
    for stroke in &strokes {
        for count in [2, 3, 4, 7, 2000] {
            let samples: Vec<Point> = (0..count).map(stroke).collect();
            for ends in [[End::Free; 2], SQUARE] {
                for tolerance in [-1.0, 0.0, 1e-6, 0.3, 20.0] {
                    if let Ok(pins) = fit_stroke(&samples, tolerance, ends) {
                        assert!(pins.len() <= MOST_PINS && !curve(&pins, ends).is_empty());
                    }
                }
            }
        }
    }
}
