//! Laid sweeps on the drawing: a tick across the edge at each of their two marks, and their names.

use super::{
    SceneInput,
    labels::Place,
    pen::{Anchor, Letters, Pen, Role, circle, polyline},
};
use crate::{outline::Span, real};
use kurbo::{BezPath, Vec2};

/// Half the length of a tick, px.
const TICK: f64 = 9.0;
/// How far inside the edge a name stands, px.
const NAME: f64 = 20.0;

pub(super) fn draw(pen: &mut Pen, input: &SceneInput<'_>) {
    let outline = &input.shape.outline;
    let mut ticks = BezPath::new();
    for (s, span) in outline.spans.iter().enumerate() {
        let Span::Laid { sweep, .. } = *span else { continue };
        let course = outline.course(s);
        // Tail to nose the deck lies to the right.
        let inward = |t: f64| {
            let along = real::unit_vector(course.tangent(t));
            Vec2::new(along.y, -along.x)
        };
        for t in [0.0, 1.0] {
            let (at, across) = (course.point(t), inward(t) * (TICK * pen.px));
            ticks.extend(polyline(&[at - across, at + across]));
        }
        let text = outline.sweeps.get(sweep).map_or("", |sweep| sweep.name());
        let places = [0.5, 0.3, 0.7]
            .map(|t| Place::level(course.point(t) + inward(t) * (NAME * pen.px), Anchor::Middle));
        let id = &format!("sweep-{s}");
        pen.label(&Letters { id, role: Role::DimensionText, field: None, text }, &places);
    }
    if let Some(at) = input.laying {
        ticks.extend(circle(at, 6.0 * pen.px));
    }
    pen.path("sweeps", Role::Sweep, ticks);
}
