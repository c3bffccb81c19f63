//! The batten and the curves it is made of.
//!
//! Sources: R. Levien, *From Spiral to Spline: Optimal Techniques in Interactive Curve Design*, 2009 (the properties of
//! an interpolating Euler-spiral spline: pins on a circle give the circle, a pin added on the curve leaves the curve,
//! curvature is continuous). Fresnel integrals with the argument π t²/2: DLMF 7.2(iii) and A&S Table 7.7 (section
//! numbers from memory). The clothoid with R = L = 100 mm ends at (97.528769, 16.371405) and has turned 0.5 rad.

use crate::near;
use core::f64::consts::PI;
use halfbreadth_core::{
    curve::{
        batten::{End, solve, spirals},
        fit::fit_stroke,
        spiral::Spiral,
    },
    real,
};
use halfbreadth_tests::random::Random;
use kurbo::{ParamCurveNearest, Point, Vec2};

#[test]
fn a_spiral_of_unit_rate_gives_the_fresnel_integrals() {
    // Curvature π s: the tangent has turned π s²/2, so that the end point is (C, S).
    let table = [
        (0.5, 0.492_344_225_9, 0.064_732_432_9),
        (1.0, 0.779_893_400_4, 0.438_259_147_4),
        (1.5, 0.445_261_176_0, 0.697_504_960_1),
        (2.0, 0.488_253_406_1, 0.343_415_678_4),
    ];
    for (s, c, sine) in table {
        let spiral = Spiral::from_start(Point::ZERO, 0.0, 0.0, PI, s).unwrap();
        near(spiral.point(s).x, c, 1e-10);
        near(spiral.point(s).y, sine, 1e-10);
    }
}

#[test]
fn the_clothoid_of_radius_and_length_100_ends_where_the_table_says() {
    let clothoid = Spiral::from_start(Point::ZERO, 0.0, 0.0, 1e-4, 100.0).unwrap();
    near(clothoid.point(100.0).x, 97.528_769, 1e-6);
    near(clothoid.point(100.0).y, 16.371_405, 1e-6);
    near(clothoid.angle(100.0), 0.5, 1e-15);
}

#[test]
fn pins_on_a_circle_with_free_ends_give_the_circle() {
    let mut random = Random::new(41);
    for _ in 0..200 {
        let (radius, start) = (random.between(30.0, 400.0), random.between(-3.0, 3.0));
        let centre = Point::new(random.between(-300.0, 300.0), random.between(-100.0, 100.0));
        let mut angle = start;
        let pins: Vec<Point> = (0..6)
            .map(|_| {
                angle -= random.between(0.1, 0.7);
                centre + real::unit_vector(angle) * radius
            })
            .collect();
        let angles = solve(&pins, [End::Free; 2], None).unwrap();
        for spiral in spirals(&pins, &angles).unwrap() {
            for k in 0..=8 {
                let p = spiral.point(spiral.length() * f64::from(k) / 8.0);
                near((p - centre).hypot(), radius, 1e-8 * radius);
            }
        }
    }
}

/// Pins along a kick, thrown about by some millimetres.
fn deck_like_pins(random: &mut Random) -> Vec<Point> {
    let count = random.pick(&[4, 6, 8, 10]);
    (0..=count)
        .map(|k| {
            let turn = PI / 2.0 * f64::from(k) / f64::from(count);
            let throw = Vec2::new(random.between(-4.0, 4.0), random.between(-4.0, 4.0));
            Point::new(250.0 + 160.0 * real::sin(turn), 100.0 * real::cos(turn)) + throw
        })
        .collect()
}

#[test]
fn curvature_is_continuous_at_every_pin() {
    let mut random = Random::new(42);
    for _ in 0..500 {
        let pins = deck_like_pins(&mut random);
        let Ok(angles) = solve(&pins, [End::Tangent(0.0), End::Tangent(-PI / 2.0)], None) else { continue };
        for pair in spirals(&pins, &angles).unwrap().windows(2) {
            near(pair[0].curvature(pair[0].length()), pair[1].curvature(0.0), 1e-10);
            near(real::wrapped(pair[0].angle(pair[0].length()) - pair[1].angle(0.0)), 0.0, 1e-10);
        }
    }
}

#[test]
fn a_pin_added_on_the_curve_leaves_the_curve() {
    let mut random = Random::new(43);
    for _ in 0..200 {
        let mut pins = deck_like_pins(&mut random);
        let ends = [End::Tangent(0.0), End::Free];
        let Ok(angles) = solve(&pins, ends, None) else { continue };
        let old = spirals(&pins, &angles).unwrap();
        let place = random.between(0.2, 0.8) * old[1].length();
        pins.insert(2, old[1].point(place));
        let new = spirals(&pins, &solve(&pins, ends, None).unwrap()).unwrap();
        near(new[1].length() + new[2].length(), old[1].length(), 1e-6);
        for k in 0..=4 {
            let s = new[2].length() * f64::from(k) / 4.0;
            near((new[2].point(s) - old[1].point(place + s)).hypot(), 0.0, 1e-6);
        }
    }
}

#[test]
fn a_stroke_along_an_ellipse_comes_back_within_tolerance() {
    let mut random = Random::new(44);
    for accuracy in [1.0, 0.3, 0.1] {
        let on = |turn: f64| Point::new(250.0 + 150.0 * real::sin(turn), 100.0 * real::cos(turn));
        let samples: Vec<Point> = (0..2000)
            .map(|k| {
                let wobble = Vec2::new(random.between(-0.05, 0.05), random.between(-0.05, 0.05));
                on(PI / 2.0 * f64::from(k) / 1999.0) + wobble
            })
            .collect();
        let pins = fit_stroke(&samples, accuracy, [End::Tangent(0.0), End::Tangent(-PI / 2.0)]).unwrap();
        assert!(pins.len() <= 8, "{} pins for {accuracy} mm", pins.len());
        let angles = solve(&pins, [End::Tangent(0.0), End::Tangent(-PI / 2.0)], None).unwrap();
        let curves: Vec<_> = spirals(&pins, &angles).unwrap().iter().flat_map(Spiral::cubics).collect();
        for k in 0..=100 {
            let p = on(PI / 2.0 * f64::from(k) / 100.0);
            let off = curves.iter().map(|c| c.nearest(p, 1e-4).distance_sq).fold(f64::MAX, f64::min).sqrt();
            assert!(off <= accuracy + 0.1, "{off} mm off at {accuracy} mm");
        }
    }
}
