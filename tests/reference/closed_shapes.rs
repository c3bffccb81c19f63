//! Area and perimeter of closed shapes with known figures, drawn as designs.
//!
//! Sources: the stadium and the rounded rectangle are elementary (π·r² and 2·π·r with rectangles). The area of the
//! superellipse |x/a|ⁿ + |y/b|ⁿ = 1 is 4·a·b·Γ(1 + 1/n)² ÷ Γ(1 + 2/n): agentcalc.com; for n = 4 and a = b = 1 it is
//! 3.7081493546 (rechneronline.de/pi/squircle.php). The perimeter of an ellipse with half axes 400 and 100 is
//! 1715.684355 by the complete elliptic integral of the second kind (DLMF 19.9.9, from memory). Steiner's formula for
//! the parallel of a convex curve, A + P·d + π·d², is from memory.

use crate::near;
use core::f64::consts::{FRAC_PI_2, PI};
use halfbreadth_core::{
    measure::{Measured, comb},
    outline::Outline,
    real,
};
use halfbreadth_tests::{
    dense,
    draw::{self, Join, Through, arc_handles},
};
use kurbo::Point;

/// Half the length and half the width of all shapes here, mm.
const HALF: (f64, f64) = (400.0, 100.0);

fn measured(outline: Outline) -> Measured {
    let design = draw::design(outline, draw::datum_for(HALF.0, 165.0));
    Measured::of(design.expect("the shape is a valid deck").shape())
}

/// An arc of a quarter turn of radius `r` in `parts` equal parts, clockwise from direction `angle`; without its start.
fn quarter(centre: Point, r: f64, angle: f64, parts: u32) -> (Vec<Through>, Vec<Join>) {
    let turn = FRAC_PI_2 / f64::from(parts);
    let at = |k: u32| {
        let heading = angle - turn * f64::from(k);
        let outward = real::unit_vector(heading + FRAC_PI_2);
        Through { place: centre + outward * r, angle: heading }
    };
    ((1..=parts).map(at).collect(), (0..parts).map(|_| arc_handles(r, turn)).collect())
}

/// A rectangle with four round corners; a stadium where the radius is half the width.
fn round_cornered(radius: f64) -> Outline {
    const PARTS: u32 = 8;
    let (length, width) = HALF;
    let mut nodes = vec![Through { place: (-length, 0.0).into(), angle: FRAC_PI_2 }];
    let mut joins = Vec::new();
    let line_to = |place: (f64, f64), angle: f64, nodes: &mut Vec<Through>, joins: &mut Vec<Join>| {
        let place = Point::from(place);
        if nodes[nodes.len() - 1].place.distance(place) > 1e-9 {
            nodes.push(Through { place, angle });
            joins.push(Join::Line);
        }
    };
    for (centre_x, angle) in [(radius - length, FRAC_PI_2), (length - radius, 0.0)] {
        let start = if angle > 0.0 { (-length, width - radius) } else { (centre_x, width) };
        line_to(start, angle, &mut nodes, &mut joins);
        let (arc, handles) = quarter(Point::new(centre_x, width - radius), radius, angle, PARTS);
        nodes.extend(arc);
        joins.extend(handles);
    }
    line_to((length, 0.0), -FRAC_PI_2, &mut nodes, &mut joins);
    draw::smooth(&nodes, &joins)
}

/// |x/a|ⁿ + |y/b|ⁿ = 1 through 63 nodes, the handles fitted to the curve.
fn superellipse(n: f64) -> Outline {
    const SPANS: u32 = 62;
    let (a, b) = HALF;
    let power = |v: f64, e: f64| real::pow(v.abs(), e).copysign(v);
    let gradient = |p: Point| (n / a * power(p.x / a, n - 1.0), n / b * power(p.y / b, n - 1.0));
    let distance = |p: Point| {
        let (gx, gy) = gradient(p);
        (real::pow((p.x / a).abs(), n) + real::pow((p.y / b).abs(), n) - 1.0) / real::hypot(gx, gy)
    };
    let node = |k: u32| {
        let turn = PI * f64::from(k) / f64::from(SPANS);
        let (x, y) = match k {
            0 => (-a, 0.0),
            SPANS => (a, 0.0),
            _ => (-a * power(real::cos(turn), 2.0 / n), b * power(real::sin(turn), 2.0 / n)),
        };
        let (gx, gy) = gradient(Point::new(x, y));
        Through { place: Point::new(x, y), angle: real::atan2(-gx, gy) }
    };
    let nodes: Vec<Through> = (0..=SPANS).map(node).collect();
    let joins: Vec<Join> = nodes.windows(2).map(|w| draw::fitted(w[0], w[1], &distance)).collect();
    draw::smooth(&nodes, &joins)
}

#[test]
fn a_stadium_has_the_area_and_perimeter_of_its_circle_and_rectangle() {
    let stadium = measured(round_cornered(100.0));
    near(stadium.area, 151_415.926_54, 1e-3);
    near(stadium.perimeter, 1_828.318_53, 1e-5);
    near(stadium.overall_length, 800.0, 1e-9);
    near(stadium.overall_width, 200.0, 1e-9);
}

#[test]
fn a_rounded_rectangle_has_the_area_and_perimeter_of_its_parts() {
    let rectangle = measured(round_cornered(50.0));
    near(rectangle.area, 157_853.981_63, 1e-3);
    near(rectangle.perimeter, 1_914.159_27, 1e-5);
}

#[test]
fn an_ellipse_has_its_area_and_the_perimeter_of_the_elliptic_integral() {
    let ellipse = measured(superellipse(2.0));
    near(ellipse.area, 125_663.706_1, 1e-3);
    near(ellipse.perimeter, 1_715.684_355, 1e-5);
}

#[test]
fn superellipses_have_the_area_of_the_gamma_function() {
    near(measured(superellipse(2.5)).area, 135_237.414_5, 0.01);
    // Nearly square corners and nearly straight sides are harder to fit: 1e-7 of the area.
    near(measured(superellipse(4.0)).area, 3.708_149_354_6 * 400.0 * 100.0, 0.015);
}

/// The parallel of the outline at a distance `d` outward, from places and directions of the comb.
#[test]
fn the_parallel_of_a_convex_outline_has_steiners_area_and_perimeter() {
    for outline in [round_cornered(100.0), superellipse(2.0), superellipse(2.5)] {
        let measured = measured(outline);
        for d in [0.5, 3.0, 20.0] {
            let parallel: Vec<Point> =
                comb(&measured.half, 400).iter().map(|tooth| tooth.at + tooth.outward * d).collect();
            let (area, perimeter) = (dense::area(&parallel), dense::perimeter(&parallel));
            near(area, measured.area + measured.perimeter * d + PI * d * d, 1e-5 * area);
            near(perimeter, measured.perimeter + 2.0 * PI * d, 1e-5 * perimeter);
        }
    }
}
