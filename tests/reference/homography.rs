//! Plane-to-plane projections against published ones, worked by hand, and another library's.
//!
//! The tile is the worked example of the scikit-image tutorials (`tile_rectify`); the trapezoid is Heckbert's form of the
//! projection of a square (*Fundamentals of Texture Mapping and Image Warping*, 1989), by hand.

#![expect(clippy::cast_possible_truncation, reason = "the other library has single precision")]

use super::near;
use halfbreadth_core::capture::photo::{Homography, HomographyError};
use halfbreadth_tests::random::Random;
use imageproc::geometric_transformations::Projection;
use kurbo::Point;

#[track_caller]
fn check(from: [(f64, f64); 4], to: [(f64, f64); 4], rows: [[f64; 3]; 3]) {
    let found = Homography::fit(&from.map(Point::from), &to.map(Point::from)).unwrap();
    for (found, expected) in found.rows().iter().flatten().zip(rows.iter().flatten()) {
        near(*found, *expected, 1e-6 * expected.abs().max(1e-6));
    }
}

#[test]
fn the_published_tile_is_rectified() {
    let from = [(129.0, 72.0), (302.0, 76.0), (90.0, 185.0), (326.0, 193.0)];
    let to = [(0.0, 0.0), (400.0, 0.0), (0.0, 400.0), (400.0, 400.0)];
    let rows = [
        [3.040_268_72, 1.049_296_28, -467.743_998],
        [-0.144_134_582, 6.233_820_67, -430.241_727],
        [2.636_206_73e-5, 4.176_945_27e-3, 1.0],
    ];
    check(from, to, rows);
    let found = Homography::fit(&from.map(Point::from), &to.map(Point::from)).unwrap();
    let place = found.apply(Point::new(200.0, 120.0));
    near(place.x, 176.717_071, 1e-5);
    near(place.y, 191.827_889, 1e-5);
}

#[test]
fn the_unit_square_becomes_the_trapezoid_by_hand() {
    let from = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
    let to = [(0.0, 0.0), (2.0, 0.0), (1.5, 1.0), (0.5, 1.0)];
    check(from, to, [[2.0, 1.0, 0.0], [0.0, 2.0, 0.0], [0.0, 1.0, 1.0]]);
    let found = Homography::fit(&from.map(Point::from), &to.map(Point::from)).unwrap();
    // Where the diagonals cross.
    let middle = found.apply(Point::new(0.5, 0.5));
    near(middle.x, 1.0, 1e-12);
    near(middle.y, 2.0 / 3.0, 1e-12);
}

#[test]
fn a_parallelogram_needs_no_perspective() {
    let from = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
    check(
        from,
        [(3.0, 1.0), (7.0, 2.0), (9.0, 5.0), (5.0, 4.0)],
        [[4.0, 2.0, 3.0], [1.0, 3.0, 1.0], [0.0, 0.0, 1.0]],
    );
}

#[test]
fn there_and_back_is_where_it_was() {
    let mut random = Random::new(6);
    for _ in 0..50 {
        let (from, to) = quads(&mut random);
        let found = Homography::fit(&from, &to).unwrap();
        let back = found.inverse().unwrap();
        for p in &from {
            let again = back.apply(found.apply(*p));
            near(again.x, p.x, 1e-8);
            near(again.y, p.y, 1e-8);
        }
    }
}

#[test]
fn four_points_agree_with_the_image_library() {
    let mut random = Random::new(8);
    let mut close = 0;
    for _ in 0..50 {
        let (from, to) = quads(&mut random);
        let single = |p: Point| (p.x as f32, p.y as f32);
        let pairs = |points: &[Point]| core::array::from_fn(|i| single(points[i]));
        let theirs = Projection::from_control_points(pairs(&from), pairs(&to)).unwrap();
        let theirs = |p: Point| {
            let (x, y) = theirs * single(p);
            Point::new(f64::from(x), f64::from(y))
        };
        let ours = Homography::fit(&from, &to).unwrap();
        let off = |found: &dyn Fn(Point) -> Point| {
            from.iter().zip(&to).map(|(p, q)| (found(*p) - *q).hypot()).fold(0.0, f64::max)
        };
        near(off(&|p| ours.apply(p)), 0.0, 1e-9);
        // It keeps its matrix in single precision: how far it misses its own four points says what that costs.
        let own = off(&theirs);
        close += usize::from(own < 0.01);
        let p = from[0].midpoint(from[2]);
        near((ours.apply(p) - theirs(p)).hypot(), 0.0, 0.01 + 3.0 * own);
    }
    assert!(close > 40, "only {close} of 50 say anything");
}

#[test]
fn more_points_than_four_share_the_error() {
    let square = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (0.0, 0.0)].map(Point::from);
    let mut seen = square;
    seen[4].x = 0.05;
    let found = Homography::fit(&square, &seen).unwrap();
    let off = |i: usize| (found.apply(square[i]) - seen[i]).hypot();
    assert!(off(4) < 0.05 && off(0) > 0.001, "{} {}", off(4), off(0));
}

#[test]
fn three_of_four_in_a_line_are_refused() {
    let line = [(0.0, 0.0), (1.0, 1.0), (2.0, 2.0), (0.0, 3.0)].map(Point::from);
    let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)].map(Point::from);
    assert_eq!(Homography::fit(&line, &square), Err(HomographyError::InLine));
    assert_eq!(Homography::fit(&square, &line), Err(HomographyError::InLine));
    assert_eq!(Homography::fit(&square[..3], &line), Err(HomographyError::TooFew(3)));
}

/// Two convex quadrilaterals in the same sense.
fn quads(random: &mut Random) -> (Vec<Point>, Vec<Point>) {
    let corners = [(0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (0.0, 200.0)];
    let mut quad = || {
        let corner = |(x, y): &(f64, f64)| {
            Point::new(x + random.between(-40.0, 40.0), y + random.between(-40.0, 40.0))
        };
        corners.iter().map(corner).collect::<Vec<_>>()
    };
    (quad(), quad())
}
