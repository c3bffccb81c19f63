//! The side view under the board, on the same rule: the pressed deck seen from its rail.

use super::{
    SceneInput,
    labels::Place,
    pen::{Anchor, Letters, Pen, Role},
};
use crate::{
    design::Shape,
    measure::{End, Measured},
    profile::Kick,
    real,
    units::{Unit, show},
};
use core::f64::consts::FRAC_PI_2;
use kurbo::{Arc, BezPath, Point, Vec2};

/// Room kept under the side view, px.
pub(super) const UNDER: f64 = 18.0;

/// Height of the side view, mm.
pub(super) fn height(shape: &Shape, measured: &Measured) -> f64 {
    rise(shape, measured) + shape.layup.wood_thickness()
}

/// Height of the higher tip above the flat, top face, mm.
fn rise(shape: &Shape, measured: &Measured) -> f64 {
    let tip = |x: f64| shape.profile.side(&shape.datum, x).0.y;
    tip(measured.nose.end.x).max(tip(-measured.tail.end.x))
}

/// Draws it `gap` px under the board.
pub(super) fn draw(pen: &mut Pen, input: &SceneInput<'_>, gap: f64) {
    let Shape { datum, profile, layup, .. } = input.shape;
    let measured = input.measured;
    let rail = measured.blank.y1.max(measured.overall_width / 2.0);
    let ground = -rail - gap * pen.px - rise(input.shape, measured);
    let thickness = layup.wood_thickness();
    let outer = datum.outer_row();
    let half = |kick: &Kick, end: &End, sign: f64| {
        let bend = if kick.kicks() { outer + kick.bend_line } else { end.end.x };
        let own = end.end.x - bend;
        (section(bend, kick, own, 0.0, sign), section(bend, kick, own, thickness, sign))
    };
    let (nose_top, nose_bottom) = half(&profile.nose, &measured.nose, 1.0);
    let (tail_top, tail_bottom) = half(&profile.tail, &measured.tail, -1.0);

    // Tail tip along the top to the nose tip, and back along the bottom.
    let mut path = tail_top.reverse_subpaths();
    append(&mut path, &nose_top);
    append(&mut path, &nose_bottom.reverse_subpaths());
    append(&mut path, &tail_bottom);
    path.close_path();
    pen.path("side", Role::Side, kurbo::Affine::translate((0.0, ground)) * path);

    for (field, kick, end, sign) in [
        ("nose-kick-angle", &profile.nose, &measured.nose, 1.0),
        ("tail-kick-angle", &profile.tail, &measured.tail, -1.0),
    ] {
        if kick.kicks() {
            let bend = outer + kick.bend_line;
            let middle = profile.side(datum, sign * (bend + end.end.x) / 2.0).0;
            let text = show(kick.angle, Unit::Angle, pen.system).to_string();
            let letters = Letters {
                id: &format!("figure-{field}"),
                role: Role::DimensionStrong,
                field: Some(field),
                text: &text,
            };
            // Inside the kick, where it rises away from the figure.
            let places = [30.0, 60.0, 90.0].map(|inward| {
                let off = Vec2::new(-sign * inward * pen.px, ground + 16.0 * pen.px);
                Place::level(middle + off, Anchor::Middle)
            });
            pen.label(&letters, &places);
        }
    }
}

/// The surface `depth` mm below the top face from the origin outward: flat to the bend, round it, straight to the end.
fn section(bend: f64, kick: &Kick, own: f64, depth: f64, sign: f64) -> BezPath {
    let mut path = BezPath::new();
    path.move_to((0.0, -depth));
    path.line_to((sign * bend, -depth));
    let turn = kick.angle_at(own);
    if kick.kicks() && turn > 0.0 {
        let centre = Point::new(sign * bend, kick.radius);
        let radius = kick.radius + depth;
        let arc = Arc::new(centre, (radius, radius), -FRAC_PI_2, sign * turn, 0.0);
        path.extend(arc.append_iter(0.01));
        let straight = own - kick.radius * turn;
        if straight > 0.0 {
            let (sin, cos) = real::sincos(turn);
            let bend_end = centre + Vec2::new(sign * sin, -cos) * radius;
            path.line_to(bend_end + Vec2::new(sign * cos, sin) * straight);
        }
    }
    path
}

/// Goes on from the end of `path` along `next`, whose first point it joins by a line.
fn append(path: &mut BezPath, next: &BezPath) {
    for (i, element) in next.iter().enumerate() {
        match element {
            kurbo::PathEl::MoveTo(p) if i == 0 => path.line_to(p),
            other => path.push(other),
        }
    }
}
