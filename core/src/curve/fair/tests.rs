use core::f64::consts::FRAC_PI_2;

use super::*;

const ENDS: [End; 2] = [End::Tangent(0.0), End::Tangent(-FRAC_PI_2)];

/// Pins on an ellipse quarter of 160 by 100 mm, each inner one moved across it by the next of `bumps`.
fn quarter(bumps: &[f64]) -> Vec<Point> {
    let spans = bumps.len() as f64 + 1.0;
    let mut pins = vec![Point::new(0.0, 100.0)];
    for (index, bump) in bumps.iter().enumerate() {
        let (sin, cos) = real::sincos(FRAC_PI_2 * (index as f64 + 1.0) / spans);
        let normal = Vec2::new(sin / 160.0, cos / 100.0);
        pins.push(Point::new(160.0 * sin, 100.0 * cos) + normal * (bump / normal.hypot()));
    }
    pins.push(Point::new(160.0, 0.0));
    pins
}

fn count(pins: &[Point]) -> usize {
    extrema(&spirals(pins, &solve(pins, ENDS, None).unwrap()).unwrap())
}

#[test]
fn bumps_within_the_bound_are_faired_out_and_no_pin_moves_farther() {
    for bumps in [
        &[0.3, -0.2, 0.25, -0.3, 0.1][..],
        &[0.3, -0.2, 0.25, -0.3, 0.1, 0.2, -0.3],
        &[0.0, 0.0, 0.4, 0.0, 0.0],
        &[0.0, -0.1, 0.1, 0.0, 0.0, 0.0, 0.1],
    ] {
        let pins = quarter(bumps);
        let faired = fair(&pins, ENDS, 0..=pins.len(), 0.5).unwrap();
        assert!(count(&pins) > 1 && faired.extrema == [count(&pins), 0], "{faired:?}");
        assert_eq!(count(&faired.pins), 0);
        let moved = pins.iter().zip(&faired.pins).map(|(a, b)| (*a - *b).hypot()).fold(0.0, f64::max);
        assert!((moved - faired.movement).abs() < 1e-12 && moved <= 0.5 && moved > 0.0);
        assert_eq!((faired.pins[0], faired.pins[pins.len() - 1]), (pins[0], pins[pins.len() - 1]));
    }
}

#[test]
fn about_the_least_movement_is_taken() {
    let pins = quarter(&[0.0, 0.0, 0.4, 0.0, 0.0]);
    assert!(
        fair(&pins, ENDS, 0..=6, 0.5).unwrap().movement < 0.1,
        "a bump need only shrink until it is no extremum"
    );
}

#[test]
fn a_fair_curve_is_not_moved() {
    for spans in 1..=9 {
        let pins = quarter(&vec![0.0; spans]);
        assert_eq!(fair(&pins, ENDS, 0..=spans, 0.5), Ok(Faired { pins, movement: 0.0, extrema: [0, 0] }));
    }
    let at = |i: u32| Point::ZERO + real::unit_vector(0.3 * f64::from(i)) * 90.0;
    let circle: Vec<Point> = (0..12).map(at).collect();
    let faired = fair(&circle, [End::Free; 2], 0..=11, 0.5).unwrap();
    assert_eq!((faired.pins, faired.movement), (circle, 0.0));
}

#[test]
fn a_wanted_extremum_stays() {
    // A whole half outline: curvature is largest at its two tips and least between, once.
    let mut pins = quarter(&[0.0; 4]);
    let other = pins.iter().skip(1).map(|p| Point::new(-p.x, p.y)).collect::<Vec<_>>();
    pins.splice(0..0, other.into_iter().rev());
    let ends = [End::Tangent(FRAC_PI_2), End::Tangent(-FRAC_PI_2)];
    let faired = fair(&pins, ends, 0..=pins.len(), 0.5).unwrap();
    assert_eq!((faired.extrema, faired.pins), ([1, 1], pins));
}

#[test]
fn only_pins_of_the_stretch_move() {
    let pins = quarter(&[0.2, -0.2, 0.2, -0.2, 0.2, -0.2]);
    let faired = fair(&pins, ENDS, 1..=3, 0.5).unwrap();
    assert!(faired.extrema[1] < faired.extrema[0], "{faired:?}");
    assert!(pins[1..=3] != faired.pins[1..=3] && pins[4..] == faired.pins[4..]);
    assert_eq!(fair(&pins, ENDS, 9..=12, 0.5).unwrap().pins, pins, "a stretch beyond the pins is empty");
}

#[test]
fn bumps_beyond_the_bound_never_move_a_pin_past_it() {
    for size in [0.6, 1.0, 3.0, 8.0] {
        let pins = quarter(&[size, -size, size / 2.0, -size, size]);
        let faired = fair(&pins, ENDS, 0..=6, 0.5).unwrap();
        let moved = pins.iter().zip(&faired.pins).map(|(a, b)| (*a - *b).hypot()).fold(0.0, f64::max);
        assert!(moved < 0.5 + 1e-12 && faired.extrema[1] <= faired.extrema[0], "{faired:?}");
    }
    let pins = quarter(&[0.3, -0.3, 0.3]);
    for bound in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(fair(&pins, ENDS, 0..=4, bound).unwrap().pins, pins);
    }
}

#[test]
fn pins_without_a_batten_are_refused() {
    assert_eq!(fair(&[Point::ZERO], ENDS, 0..=0, 0.5), Err(BattenError::TooFewPins));
    let two = [Point::ZERO, Point::new(50.0, 5.0)];
    assert_eq!(fair(&two, [End::Free; 2], 0..=1, 0.5).unwrap().pins, two);
}
