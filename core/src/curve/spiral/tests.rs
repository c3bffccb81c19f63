use core::f64::consts::{FRAC_PI_2, PI};

use kurbo::{ParamCurve, ParamCurveArclen, ParamCurveCurvature};

use super::*;

/// The spiral of the Fresnel integrals: `point(t)` is `(C(t), S(t))` with the phase πt²/2.
fn fresnel() -> Spiral {
    Spiral::from_start(Point::ZERO, 0.0, 0.0, PI, 2.0).unwrap()
}

#[track_caller]
fn close(found: Point, expected: (f64, f64), accuracy: f64) {
    let error = (found - Point::from(expected)).hypot();
    assert!(error <= accuracy, "{found:?} for {expected:?}");
}

/// Spirals with the chords and end angles of deck outlines: tips, kicks, waists, long sides and S-curves.
fn deck_sized() -> Vec<Spiral> {
    let mut spirals = Vec::new();
    for chord in [8.0, 40.0, 90.0, 180.0, 400.0] {
        for start in [-0.9, -0.35, -0.1, 0.0, 0.02, 0.2, 0.5, 0.8] {
            for end in [-0.8, -0.4, -0.15, -0.02, 0.0, 0.1, 0.3, 0.9] {
                spirals.push(
                    Spiral::between(Point::new(3.0, -7.0), start, Point::new(3.0 + chord, -7.0), end)
                        .unwrap(),
                );
            }
        }
    }
    spirals
}

/// The largest distance from the cubics of `spiral` to it, its tangents and its arc length sampled along each piece.
fn largest_distance(spiral: &Spiral) -> f64 {
    let cubics: Vec<CubicBez> = spiral.cubics().collect();
    let step = spiral.length() / cubics.len() as f64;
    let mut largest: f64 = 0.0;
    for (index, cubic) in cubics.iter().enumerate() {
        for i in 0..=40 {
            let t = f64::from(i) / 40.0;
            let (p, mut s) = (cubic.eval(t), (index as f64 + t) * step);
            for _ in 0..4 {
                s += (p - spiral.point(s)).dot(real::unit_vector(spiral.angle(s)));
            }
            largest = largest.max((p - spiral.point(s)).hypot());
        }
    }
    largest
}

#[test]
fn fresnel_integrals_are_the_published_ones() {
    close(fresnel().point(1.0), (0.779_893_400_4, 0.438_259_147_4), 5.1e-11);
    close(fresnel().point(0.5), (0.492_344_225_9, 0.064_732_432_9), 7.1e-11);
    close(fresnel().point(1.5), (0.445_261_176_0, 0.697_504_960_1), 7.1e-11);
    close(fresnel().point(2.0), (0.488_253_406_1, 0.343_415_678_4), 7.1e-11);
}

#[test]
fn a_road_clothoid_of_radius_100_ends_where_tables_say() {
    let clothoid = Spiral::from_start(Point::ZERO, 0.0, 0.0, 1e-4, 100.0).unwrap();
    close(clothoid.end(), (97.528_769, 16.371_405), 7.1e-7);
    assert!((clothoid.angle(100.0) - 0.5).abs() < 1e-15);
    assert!((clothoid.curvature(100.0) - 0.01).abs() < 1e-17);
}

#[test]
fn the_spiral_between_the_ends_of_a_spiral_is_that_spiral() {
    for curvature in [-0.02, -0.003, 0.0, 0.004, 0.011] {
        for rate in [-1e-4, -2e-6, 0.0, 3e-5, 2e-4] {
            let known = Spiral::from_start(Point::new(12.0, 5.0), 0.7, curvature, rate, 120.0).unwrap();
            let Some(found) =
                Spiral::between(known.start(), known.angle(0.0), known.end(), known.angle(120.0))
            else {
                continue;
            };
            if (known.angle(120.0) - known.angle(0.0)).abs() < PI {
                assert!((found.length() - 120.0).abs() < 1e-11, "{known:?} {found:?}");
                close(found.point(50.0), known.point(50.0).into(), 1e-11);
                assert!((found.rate() - rate).abs() < 1e-15, "{known:?} {found:?}");
            }
        }
    }
}

#[test]
fn a_spiral_meets_its_ends_and_tangents() {
    for i in -13..=13 {
        for j in -13..=13 {
            let (start, end) = (f64::from(i) / 5.0, f64::from(j) / 5.0);
            let (p0, p1) = (Point::new(-310.0, 95.0), Point::new(-400.0, 0.5));
            let chord = real::direction(p1 - p0);
            let spiral = Spiral::between(p0, chord + start, p1, chord + end).unwrap();
            close(spiral.point(spiral.length()), p1.into(), 1e-10);
            assert!(real::wrapped(spiral.angle(0.0) - chord - start).abs() < 1e-12);
            assert!(real::wrapped(spiral.angle(spiral.length()) - chord - end).abs() < 1e-12);
        }
    }
}

#[test]
fn equal_and_opposite_ends_give_a_circular_arc() {
    let arc = Spiral::between(Point::new(100.0, 0.0), FRAC_PI_2, Point::new(0.0, 100.0), PI).unwrap();
    assert!((arc.length() - 50.0 * PI).abs() < 1e-11);
    for i in 0..=20 {
        assert!((arc.point(arc.length() * f64::from(i) / 20.0).to_vec2().hypot() - 100.0).abs() < 1e-11);
    }
}

#[test]
fn whole_turns_of_a_tangent_change_nothing() {
    let (p0, p1) = (Point::ZERO, Point::new(50.0, 20.0));
    let plain = Spiral::between(p0, 0.1, p1, 0.9).unwrap();
    let wound = Spiral::between(p0, 0.1 + 2.0 * PI, p1, 0.9 - 4.0 * PI).unwrap();
    close(wound.point(30.0), plain.point(30.0).into(), 1e-12);
}

/// The bits of one spiral, so that no later change of arithmetic changes a curve that someone has stored.
#[test]
fn the_same_pins_give_the_same_bits_for_ever() {
    let spiral =
        Spiral::between(Point::new(-400.05, 0.0), FRAC_PI_2, Point::new(-291.34, 97.13), 0.12).unwrap();
    let found =
        [spiral.length(), spiral.rate(), spiral.curvature(0.0), spiral.point(77.0).x].map(f64::to_bits);
    assert_eq!(found, [4639818930209202052, 4542915887520175339, 13802194680441287102, 13868534354621508404]);
}

#[test]
fn coincident_infinite_and_folded_ends_have_no_spiral() {
    let (p, q) = (Point::ZERO, Point::new(10.0, 0.0));
    assert!(Spiral::between(p, 0.0, p, 0.0).is_none());
    assert!(Spiral::between(p, 0.0, Point::new(f64::NAN, 0.0), 0.0).is_none());
    assert!(Spiral::between(p, f64::INFINITY, q, 0.0).is_none());
    assert!(Spiral::between(p, 3.0, q, 0.0).is_none());
    assert!(Spiral::from_start(p, 0.0, 0.0, 0.0, 0.0).is_none());
    assert!(Spiral::from_start(p, 0.0, f64::NAN, 0.0, 1.0).is_none());
}

#[test]
fn cubics_stay_within_a_tenth_of_a_micrometre_of_deck_sized_spirals() {
    for spiral in deck_sized() {
        let distance = largest_distance(&spiral);
        assert!(distance < 1e-4, "{distance} mm off {spiral:?}");
    }
}

#[test]
fn curvature_of_the_cubics_jumps_by_a_hundredth_of_its_change_at_most() {
    for spiral in deck_sized() {
        let cubics: Vec<CubicBez> = spiral.cubics().collect();
        let change = (spiral.rate() * spiral.length() / cubics.len() as f64).abs();
        let rounding = 1e-9 / spiral.length();
        for pair in cubics.windows(2) {
            let jump = (pair[1].curvature(0.0) - pair[0].curvature(1.0)).abs();
            assert!(jump < 0.01 * change + rounding, "{jump} of {change} in {spiral:?}");
        }
    }
}

#[test]
fn cubics_join_with_one_tangent_and_turn_a_quarter_radian_at_most() {
    for spiral in deck_sized() {
        let cubics: Vec<CubicBez> = spiral.cubics().collect();
        assert_eq!((cubics[0].p0, cubics[cubics.len() - 1].p3), (spiral.start(), spiral.end()));
        for pair in cubics.windows(2) {
            assert_eq!(pair[0].p3, pair[1].p0);
            let (before, after) = (pair[0].p3 - pair[0].p2, pair[1].p1 - pair[1].p0);
            assert!(before.cross(after).abs() < 1e-12 * before.hypot() * after.hypot());
        }
        let turned =
            |c: &CubicBez| real::wrapped(real::direction(c.p3 - c.p2) - real::direction(c.p1 - c.p0)).abs();
        assert!(cubics.iter().map(turned).fold(0.0, f64::max) < 0.25 + 1e-12);
        let length: f64 = cubics.iter().map(|c| c.arclen(1e-9)).sum();
        assert!((length - spiral.length()).abs() < 1e-5 * spiral.length());
    }
}
