//! A shape that is brought in, over the one in hand: its edge, what was found, and how far each place lies off.

use super::{
    SceneInput,
    labels::Place,
    pen::{Anchor, Letters, Pen, Role, circle, cross},
};
use crate::units::{Unit, show_difference};
use kurbo::{BezPath, Point, Vec2};

/// Half the size of a place that was found, and of the ring round one that lies off, px.
const PLACE: f64 = 3.5;
const RING: f64 = 10.0;
/// How far outside its place a figure stands, px.
const FIGURE: f64 = 16.0;
/// A place of a drawing nearer than this, mm, has no figure.
const NEAR: f64 = 0.05;

pub(super) fn draw(pen: &mut Pen, input: &SceneInput<'_>) {
    let Some(brought) = input.brought else { return };
    pen.path("taken-mirror", Role::Taken, brought.half.mirror_path());
    pen.path("taken", Role::Taken, brought.half.path());
    let (mut places, mut rings) = (BezPath::new(), BezPath::new());
    for (i, found) in brought.taken.points.iter().enumerate() {
        places.extend(cross(found.at, PLACE * pen.px));
        if found.suspect {
            rings.extend(circle(found.at, RING * pen.px));
        }
        if found.line == 0 && found.residual.abs() < NEAR {
            continue;
        }
        let shown = show_difference(found.residual, Unit::Length, pen.system);
        let outward = |px: f64| -> Point { found.at + Vec2::new(0.0, px * pen.px) };
        let beside = [FIGURE, -FIGURE, 2.0 * FIGURE].map(|px| Place::level(outward(px), Anchor::Middle));
        let role = if found.suspect { Role::DimensionStrong } else { Role::DimensionText };
        pen.label(&Letters { id: &format!("found-{i}"), role, field: None, text: &shown.text }, &beside);
    }
    pen.path("found", Role::Found, places);
    pen.path("found-off", Role::Limit, rings);
}
