use core::cmp::Ordering;
use core::f64::consts::{FRAC_PI_2, PI, TAU};

use kurbo::Vec2;

use super::*;

/// A linear congruential generator: the same pins on every machine.
struct Lcg(u64);

impl Lcg {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let unit = f64::from(u32::try_from(self.0 >> 32).unwrap()) / 4_294_967_296.0;
        low + (high - low) * unit
    }
}

/// Tips square to the centreline.
const SQUARE: [End; 2] = [End::Tangent(FRAC_PI_2), End::Tangent(-FRAC_PI_2)];

/// Pins on a superelliptic half outline of random size and fullness, tail to nose, unevenly spaced and each thrown up
/// to `throw` mm.
fn deck_like(random: &mut Lcg, throw: f64) -> Vec<Point> {
    let (length, width) = (random.between(600.0, 1100.0), random.between(160.0, 260.0));
    let power = 2.0 / random.between(2.0, 3.2);
    let spans = random.between(3.0, 11.0).round();
    let mut pins = vec![Point::new(-length / 2.0, 0.0)];
    let mut index = 1.0;
    while index < spans {
        let turn = PI * (index + random.between(-0.25, 0.25)) / spans;
        let (sin, cos) = real::sincos(turn);
        let x = -length / 2.0 * cos.signum() * real::pow(cos.abs(), power);
        let thrown = Vec2::new(random.between(-throw, throw), random.between(-throw, throw));
        pins.push(Point::new(x, width / 2.0 * real::pow(sin, power)) + thrown);
        index += 1.0;
    }
    pins.push(Point::new(length / 2.0, 0.0));
    pins
}

/// The largest jump of curvature at an inner pin, relative to the largest curvature at any pin.
fn curvature_jump(spirals: &[Spiral]) -> f64 {
    let ends = |s: &Spiral| s.curvature(0.0).abs().max(s.curvature(s.length()).abs());
    let largest = spirals.iter().map(ends).fold(0.0, f64::max);
    let jumps = spirals.windows(2).map(|s| (s[0].curvature(s[0].length()) - s[1].curvature(0.0)).abs());
    jumps.fold(0.0, f64::max) / largest
}

#[test]
fn ten_thousand_deck_like_battens_settle_with_continuous_curvature() {
    let mut random = Lcg(1);
    for case in 0..10_000 {
        let pins = deck_like(&mut random, 10.0);
        let angles =
            solve(&pins, SQUARE, None).unwrap_or_else(|error| panic!("case {case}: {error} {pins:?}"));
        let spirals = spirals(&pins, &angles).unwrap();
        let jump = curvature_jump(&spirals);
        assert!(jump < 1e-9, "case {case}: {jump} {pins:?}");
        let square = |s: &Spiral, at: f64, angle: f64| real::wrapped(s.angle(at) - angle).abs() < 1e-12;
        let last = spirals[spirals.len() - 1];
        assert!(square(&spirals[0], 0.0, FRAC_PI_2) && square(&last, last.length(), -FRAC_PI_2));
    }
}

/// Every pin thrown by up to 80 mm, past its neighbours: a curve, or an error where the pins fold back on themselves.
#[test]
fn violently_thrown_pins_give_a_batten_or_fold_back_sharply() {
    let mut random = Lcg(7);
    let mut refused = 0;
    for _ in 0..10_000 {
        let pins = deck_like(&mut random, 80.0);
        match solve(&pins, SQUARE, None) {
            Ok(angles) => assert!(curvature_jump(&spirals(&pins, &angles).unwrap()) < 1e-9, "{pins:?}"),
            Err(error) => {
                assert!(matches!(error, BattenError::Folds { .. }), "{error}");
                let mut directions: Vec<f64> = chords(&pins).unwrap().iter().map(|c| c.direction).collect();
                directions.insert(0, FRAC_PI_2);
                directions.push(-FRAC_PI_2);
                let bend =
                    directions.windows(2).map(|d| real::wrapped(d[1] - d[0]).abs()).fold(0.0, f64::max);
                assert!(bend > 1.7, "refused though nothing bends more than {bend}: {pins:?}");
                refused += 1;
            }
        }
    }
    assert!((1..2000).contains(&refused), "{refused}");
}

#[test]
fn pins_on_a_circle_with_free_ends_give_the_circle() {
    for count in 3..=32_u32 {
        let at = |i: u32| 0.4 + (f64::from(i) + 0.3 * real::sin(f64::from(i))) * 5.0 / f64::from(count);
        let pins: Vec<Point> = (0..count).map(|i| Point::ZERO + real::unit_vector(at(i)) * 120.0).collect();
        let angles = solve(&pins, [End::Free; 2], None).unwrap();
        for spiral in spirals(&pins, &angles).unwrap() {
            for i in 0..=8 {
                let s = spiral.length() * f64::from(i) / 8.0;
                assert!((spiral.point(s).to_vec2().hypot() - 120.0).abs() < 1e-9, "{count} pins");
                assert!((spiral.curvature(s) * 120.0 - 1.0).abs() < 1e-9, "{count} pins");
            }
        }
    }
}

#[test]
fn a_pin_added_on_the_curve_leaves_the_curve() {
    let mut random = Lcg(3);
    for _ in 0..500 {
        let pins = deck_like(&mut random, 6.0);
        let angles = solve(&pins, SQUARE, None).unwrap();
        let before = spirals(&pins, &angles).unwrap();
        let span = pins.len() / 2 - 1;
        let at = before[span].length() * random.between(0.1, 0.9);
        let mut more = pins.clone();
        more.insert(span + 1, before[span].point(at));
        let after = spirals(&more, &solve(&more, SQUARE, None).unwrap()).unwrap();
        for (index, old) in before.iter().enumerate() {
            for i in 0..=4 {
                let s = old.length() * f64::from(i) / 4.0;
                let new = match index.cmp(&span) {
                    Ordering::Less => after[index].point(s),
                    Ordering::Equal if s <= at => after[index].point(s),
                    Ordering::Equal => after[index + 1].point(s - at),
                    Ordering::Greater => after[index + 1].point(s),
                };
                assert!((new - old.point(s)).hypot() < 1e-6, "{pins:?}");
            }
        }
    }
}

#[test]
fn the_last_span_at_a_free_end_is_an_arc() {
    let pins = [(-200.0, 0.0), (-120.0, 60.0), (10.0, 80.0), (150.0, 20.0)].map(Point::from);
    let angles = solve(&pins, [End::Free; 2], None).unwrap();
    let spirals = spirals(&pins, &angles).unwrap();
    assert!(spirals[0].rate().abs() < 1e-15 && spirals[2].rate().abs() < 1e-15);
    assert!(spirals[1].rate().abs() > 1e-7);
}

#[test]
fn two_pins_give_a_line_an_arc_or_a_spiral_by_their_ends() {
    let pins = [Point::ZERO, Point::new(30.0, 40.0)];
    let chord = real::direction(Vec2::new(3.0, 4.0));
    assert_eq!(solve(&pins, [End::Free; 2], None).unwrap(), [chord, chord]);
    let arc = solve(&pins, [End::Tangent(chord + 0.5), End::Free], None).unwrap();
    assert!((arc[1] - (chord - 0.5)).abs() < 1e-15);
    let spiral = solve(&pins, [End::Tangent(chord + 0.5), End::Tangent(chord + 0.2 + TAU)], None).unwrap();
    assert!((spiral[1] - (chord + 0.2)).abs() < 1e-14);
}

#[test]
fn thirty_two_pins_that_wind_twice_round_a_spiral_settle() {
    let at = |i: u32| Point::ZERO + real::unit_vector(f64::from(i) * 0.4) * (60.0 + 4.0 * f64::from(i));
    let pins: Vec<Point> = (0..32).map(at).collect();
    let angles = solve(&pins, [End::Free; 2], None).unwrap();
    assert!(angles.windows(2).all(|pair| pair[1] > pair[0]), "the angles run on past whole turns");
    assert!(angles[31] - angles[0] > 1.9 * TAU);
}

#[test]
fn a_seed_near_the_solution_gives_it_whatever_its_whole_turns() {
    let pins = deck_like(&mut Lcg(5), 2.0);
    let angles = solve(&pins, SQUARE, None).unwrap();
    let seed: Vec<f64> = angles.iter().map(|angle| angle + 0.05 + TAU).collect();
    let seeded = solve(&pins, SQUARE, Some(&seed)).unwrap();
    assert!(seeded.iter().zip(&angles).all(|(a, b)| (a - b).abs() < 1e-11));
    assert_eq!(
        solve(&pins, SQUARE, Some(&seed[1..])).unwrap(),
        angles,
        "a seed of another length is not used"
    );
    let nonsense: Vec<f64> = angles.iter().map(|_| f64::NAN).collect();
    assert_eq!(solve(&pins, SQUARE, Some(&nonsense)).unwrap(), angles);
}

#[test]
fn pins_that_carry_no_batten_are_refused_with_the_reason() {
    let free = [End::Free; 2];
    let p = |x: f64, y: f64| Point::new(x, y);
    assert_eq!(solve(&[p(0.0, 0.0)], free, None), Err(BattenError::TooFewPins));
    let double = [p(0.0, 0.0), p(5.0, 5.0), p(5.0, 5.0), p(9.0, 0.0)];
    assert_eq!(solve(&double, free, None), Err(BattenError::PinsCoincide { pin: 2 }));
    let lost = [p(0.0, 0.0), p(f64::NAN, 5.0), p(9.0, 0.0)];
    assert_eq!(solve(&lost, free, None), Err(BattenError::NotFinite { pin: 1 }));
    let back = [End::Tangent(PI), End::Free];
    assert_eq!(solve(&[p(0.0, 0.0), p(9.0, 0.0)], back, None), Err(BattenError::Folds { pin: 0 }));
    let blind = [End::Free, End::Tangent(f64::NAN)];
    assert_eq!(solve(&[p(0.0, 0.0), p(9.0, 0.0)], blind, None), Err(BattenError::NotFinite { pin: 1 }));
}
