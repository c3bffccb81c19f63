//! Laid sweeps on the drawing: a tick across the edge at each of their two marks, and their names.

use super::{
    SceneInput,
    pen::{Anchor, Pen, Role, circle, polyline},
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
        let at = course.point(0.5) + inward(0.5) * (NAME * pen.px);
        let name = outline.sweeps.get(sweep).map_or("", |sweep| sweep.name());
        pen.text(format!("sweep-{s}"), Role::DimensionText, at, Anchor::Middle, name);
    }
    if let Some(at) = input.laying {
        ticks.extend(circle(at, 6.0 * pen.px));
    }
    pen.path("sweeps", Role::Sweep, ticks);
}
