//! Where a drawn deck's centreline and datum lie.

use super::{Centreline, DrawingError, Options, sketch::size, strokes::Contour};
use crate::{datum::Datum, design::Shape, order::sort_by_number, real};
use core::f64::consts::{FRAC_PI_2, PI};
use kurbo::{Affine, ParamCurve, Point, Vec2};

/// Circles lie in rows, pairs and rectangles of bolt holes where nothing is off by more than this, mm.
const OFF: f64 = 1.5;
/// Points along each stroke that the symmetry is found by.
const POINTS: u32 = 8;
/// Rounds of turning the centreline to where the two halves agree.
const ROUNDS: usize = 3;

/// How a drawing lies on the datum.
#[derive(Debug)]
pub(super) struct Frame {
    /// Takes a place of the drawing, mm, to its place on the deck.
    pub(super) to_deck: Affine,
    /// The bolt holes, where they are drawn.
    pub(super) datum: Option<Datum>,
    /// What the centreline was found by, in words.
    pub(super) found_by: &'static str,
}

impl Frame {
    pub(super) fn find(
        contour: &Contour,
        circles: &[(Point, f64)],
        options: &Options,
        shape: &Shape,
    ) -> Result<Self, DrawingError> {
        let inside = size(contour);
        let circles: Vec<(Point, f64)> =
            circles.iter().filter(|circle| inside.contains(circle.0)).copied().collect();
        let holes = pattern(&circles, options.turned);
        let either = options.centreline == Centreline::Either;
        if either || options.centreline == Centreline::Holes {
            if let Some((to_deck, datum)) = holes {
                return Ok(Self { to_deck, datum: Some(datum), found_by: "the bolt holes" });
            }
            if !either {
                return Err(DrawingError::Holes { found: circles.len() });
            }
        }
        let (middle, angle, found_by) = match options.centreline {
            Centreline::Level => (inside.center(), 0.0, "choice, level"),
            Centreline::Upright => (inside.center(), FRAC_PI_2, "choice, upright"),
            _ => {
                let (middle, angle) = symmetry(contour);
                (middle, angle, "the shape’s symmetry")
            }
        };
        let to_line = onto(middle, noseward(angle, options.turned));
        // The middle of its length goes where that of the deck in hand is; holes that are drawn know better.
        if let Some((to_deck, datum)) = holes.filter(|_| options.centreline != Centreline::Symmetry) {
            let along = (to_deck * middle).x;
            let to_deck = Affine::translate((along, 0.0)) * to_line;
            return Ok(Self { to_deck, datum: Some(datum), found_by });
        }
        let nodes = &shape.outline.nodes;
        let nose = nodes.last().map_or(0.0, |node| node.place.x);
        let tail = if shape.outline.twin { -nose } else { nodes.first().map_or(0.0, |node| node.place.x) };
        let mut laid = contour.clone();
        laid.map(to_line);
        let to_deck = Affine::translate((f64::midpoint(tail, nose) - size(&laid).center().x, 0.0)) * to_line;
        Ok(Self { to_deck, datum: None, found_by })
    }
}

/// The direction of the nose along a line: to the right, or up where the line stands; or the other way.
fn noseward(angle: f64, turned: bool) -> f64 {
    let angle = real::wrapped(angle);
    // A line is right or up in the three quarters from −45° to 135°.
    let is_right = angle > -PI / 4.0 && angle <= 3.0 * PI / 4.0;
    if is_right == turned { angle + PI } else { angle }
}

/// Takes `origin` to the datum's place and the direction `angle` to that of the nose.
fn onto(origin: Point, angle: f64) -> Affine {
    let along = real::unit_vector(angle);
    Affine::new([along.x, -along.y, along.y, along.x, 0.0, 0.0]) * Affine::translate(-origin.to_vec2())
}

/// The eight bolt holes among circles, if they are there.
fn pattern(circles: &[(Point, f64)], turned: bool) -> Option<(Affine, Datum)> {
    if circles.len() == 8 {
        return rows(circles, turned);
    }
    // Of more circles the holes are those of one size.
    for (_, radius) in circles {
        let same: Vec<(Point, f64)> =
            circles.iter().filter(|circle| (circle.1 - radius).abs() < 0.05).copied().collect();
        if same.len() == 8
            && let Some(found) = rows(&same, turned)
        {
            return Some(found);
        }
    }
    None
}

fn rows(circles: &[(Point, f64)], turned: bool) -> Option<(Affine, Datum)> {
    let middle = (circles.iter().fold(Vec2::ZERO, |sum, circle| sum + circle.0.to_vec2()) / 8.0).to_point();
    let angle = main_axis(circles.iter().map(|circle| (circle.0 - middle, 1.0)));
    let to_deck = onto(middle, noseward(angle, turned));
    let mut places: Vec<Point> = circles.iter().map(|circle| to_deck * circle.0).collect();
    sort_by_number(&mut places, |place| place.x);
    let near = |a: f64, b: f64| (a - b).abs() < OFF;
    let mut stations = [0.0; 4];
    let mut width = 0.0;
    for (station, pair) in stations.iter_mut().zip(places.chunks(2)) {
        let [a, b] = pair else { return None };
        if !near(a.x, b.x) || !near(a.y, -b.y) {
            return None;
        }
        *station = f64::midpoint(a.x, b.x);
        width += (a.y - b.y).abs() / 4.0;
    }
    let [a, b, c, d] = stations;
    let even = places.iter().all(|place| near(place.y.abs(), width / 2.0));
    if !near(b - a, d - c) || !even || width < 2.0 * OFF || b - a < 2.0 * OFF {
        return None;
    }
    let off = f64::midpoint(b, c);
    let datum = Datum {
        wheelbase: c - b,
        pattern_length: f64::midpoint(b - a, d - c),
        pattern_width: width,
        hole_diameter: 2.0 * circles.iter().map(|circle| circle.1).sum::<f64>() / 8.0,
    };
    Some((Affine::translate((-off, 0.0)) * to_deck, datum))
}

/// The direction of the longer principal axis of weighted offsets from their middle.
fn main_axis(offsets: impl Iterator<Item = (Vec2, f64)>) -> f64 {
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for (offset, weight) in offsets {
        xx += weight * offset.x * offset.x;
        xy += weight * offset.x * offset.y;
        yy += weight * offset.y * offset.y;
    }
    real::atan2(2.0 * xy, xx - yy) / 2.0
}

/// A point of the axis of symmetry and its direction: the principal axis of the edge, turned until both halves agree.
fn symmetry(contour: &Contour) -> (Point, f64) {
    let mut points: Vec<(Point, f64)> = Vec::new();
    for stroke in &contour.strokes {
        let weight = stroke.length() / f64::from(POINTS);
        let at = |k: u32| (stroke.curve.eval((f64::from(k) + 0.5) / f64::from(POINTS)), weight);
        points.extend((0..POINTS).map(at));
    }
    let total: f64 = points.iter().map(|point| point.1).sum();
    let sum = points.iter().fold(Vec2::ZERO, |sum, (at, weight)| sum + *weight * at.to_vec2());
    let mut middle = (sum / total.max(f64::MIN_POSITIVE)).to_point();
    let mut angle = main_axis(points.iter().map(|(at, weight)| (*at - middle, *weight)));
    for _ in 0..ROUNDS {
        // Where the two rails lie uneven, in a line along the deck: y = offset + slope·x, of both alike.
        let to_line = onto(middle, angle);
        let places: Vec<(Point, f64)> = points.iter().map(|(at, weight)| (to_line * *at, *weight)).collect();
        let reach = places.iter().fold(0.0_f64, |reach, place| reach.max(place.0.x.abs()));
        let mut sums = [[0.0; 4]; 2];
        for (place, weight) in places.iter().filter(|place| place.0.x.abs() < 0.8 * reach) {
            let side = &mut sums[usize::from(place.y < 0.0)];
            for (sum, value) in side.iter_mut().zip([1.0, place.y, place.x * place.y, place.x * place.x]) {
                *sum += weight * value;
            }
        }
        let [left, right] = sums;
        if !(left[0] > 0.0 && right[0] > 0.0 && left[3] > 0.0 && right[3] > 0.0) {
            break;
        }
        let offset = f64::midpoint(left[1] / left[0], right[1] / right[0]);
        let slope = f64::midpoint(left[2] / left[3], right[2] / right[3]);
        middle += real::unit_vector(angle).turn_90() * offset;
        angle += real::atan(slope);
    }
    (middle, angle)
}
