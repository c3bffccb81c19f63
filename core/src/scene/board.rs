//! The board itself: blank, deck, edge, holes, bend lines, and what is in hand.

use super::{
    SceneInput,
    pen::{Pen, Role, circle, cross, polyline},
};
use crate::{
    editor::{Limit, Snapped, Target},
    measure::{End, RailRun, comb},
    outline::resolve::MIRROR,
    profile::Kick,
};
use kurbo::{BezPath, PathEl, Point, Rect, Shape as _, Vec2};

/// Teeth of the comb to each cubic.
const COMB_TEETH: u32 = 24;
/// Length of a comb tooth, px, where the edge has a radius of 1 mm; a tip of 70 mm shows 40 px.
const COMB_LENGTH: f64 = 2800.0;

pub(super) fn draw(pen: &mut Pen, input: &SceneInput<'_>) {
    let measured = input.measured;
    pen.path("blank", Role::Blank, measured.blank.to_path(0.1));
    pen.path("deck", Role::Deck, measured.half.closed());
    centreline(pen, input);
    bend_line(pen, "bend-nose", input, &input.shape.profile.nose, &measured.nose, 1.0);
    bend_line(pen, "bend-tail", input, &input.shape.profile.tail, &measured.tail, -1.0);
    holes(pen, input);
    if input.comb {
        curvature_comb(pen, input);
    }
    if let Some(half) = input.behind {
        pen.path("behind-mirror", Role::Behind, half.mirror_path());
        pen.path("behind", Role::Behind, half.path());
    }
    edges(pen, input);
    rails(pen, input);
    selection(pen, input);
    if let Some((from, to)) = input.stretch {
        let mut path = BezPath::new();
        for s in from..to.min(input.shape.outline.spans.len()) {
            path.extend(input.shape.outline.course(s).path());
        }
        pen.path("stretch", Role::Selected, path);
    }
    if let Some(caught) = input.caught {
        guides(pen, caught);
    }
    if let Some(limit) = input.limit {
        hatch(pen, limit);
    }
    pen.path("ink", Role::Ink, polyline(input.ink));
}

fn centreline(pen: &mut Pen, input: &SceneInput<'_>) {
    let beyond = 14.0 * pen.px;
    let (tail, nose) = (input.measured.tail.end.x + beyond, input.measured.nose.end.x + beyond);
    pen.line("centreline", Role::Centreline, Point::new(-tail, 0.0), Point::new(nose, 0.0));
}

fn bend_line(pen: &mut Pen, id: &str, input: &SceneInput<'_>, kick: &Kick, end: &End, sign: f64) {
    let x = sign * end.reference;
    if let (true, Some(y)) = (kick.kicks(), input.measured.envelope.half_breadth(x)) {
        pen.line(id, Role::BendLine, Point::new(x, -y), Point::new(x, y));
    }
}

fn holes(pen: &mut Pen, input: &SceneInput<'_>) {
    let radius = input.shape.datum.hole_diameter / 2.0;
    let mut path = BezPath::new();
    for hole in input.shape.datum.holes() {
        path.extend(circle(hole, radius));
        path.extend(cross(hole, radius + 3.0 * pen.px));
    }
    pen.path("holes", Role::Hole, path);
}

/// Each half its own path, so that a drag redraws few curves; of a twin the drawn quarter is the heavy one.
fn edges(pen: &mut Pen, input: &SceneInput<'_>) {
    let path_of = |far: bool| {
        let mut path = BezPath::new();
        for piece in input.measured.half.pieces().iter().filter(|piece| piece.far == far) {
            if path.is_empty() {
                path.push(PathEl::MoveTo(piece.curve.p0));
            }
            path.push(piece.element());
        }
        path
    };
    let (near, far) = (path_of(false), path_of(true));
    pen.path("edge-mirror", Role::EdgeMirror, MIRROR * near.clone());
    if !far.is_empty() {
        pen.path("edge-tail-mirror", Role::EdgeMirror, MIRROR * far.clone());
        pen.path("edge-tail", Role::EdgeMirror, far);
    }
    pen.path("edge", Role::Edge, near);
}

fn rails(pen: &mut Pen, input: &SceneInput<'_>) {
    for (i, run) in input.measured.rail_runs.iter().enumerate() {
        let path = rail(input, run);
        pen.path(&format!("rail-{i}-mirror"), Role::Rail, MIRROR * path.clone());
        pen.path(&format!("rail-{i}"), Role::Rail, path);
    }
}

fn rail(input: &SceneInput<'_>, run: &RailRun) -> BezPath {
    let mut path = BezPath::new();
    for stretch in input.measured.envelope.stretches() {
        if let Some(curve) = stretch.between(run.from, run.to) {
            if path.is_empty() {
                path.move_to(curve.p0);
            }
            path.curve_to(curve.p1, curve.p2, curve.p3);
        }
    }
    path
}

fn curvature_comb(pen: &mut Pen, input: &SceneInput<'_>) {
    let length = COMB_LENGTH * pen.px;
    let teeth = comb(&input.measured.half, COMB_TEETH);
    let crest: Vec<Point> = teeth.iter().map(|t| t.at + t.outward * (t.curvature * length)).collect();
    let mut path = polyline(&crest);
    for (tooth, end) in teeth.iter().zip(&crest) {
        path.extend(polyline(&[tooth.at, *end]));
    }
    pen.path("comb", Role::Comb, path);
}

fn selection(pen: &mut Pen, input: &SceneInput<'_>) {
    let outline = &input.shape.outline;
    match input.selection {
        Some(Target::Span(s, at)) if s < outline.spans.len() => {
            pen.path("selected", Role::Selected, outline.course(s).path());
            pen.path("selected-at", Role::Selected, circle(at, 5.0 * pen.px));
        }
        Some(Target::Node(i)) if i < outline.nodes.len() => {
            let before = i.checked_sub(1);
            let arms = before.into_iter().chain(Some(i).filter(|&s| s < outline.spans.len()));
            arms_of(pen, input, arms);
        }
        Some(Target::Handle(s, _)) if s < outline.spans.len() => {
            arms_of(pen, input, core::iter::once(s));
        }
        _ => {}
    }
}

/// The lines from nodes to their off-curve points.
fn arms_of(pen: &mut Pen, input: &SceneInput<'_>, spans: impl Iterator<Item = usize>) {
    use crate::outline::{Outline, SpanEnd};
    let outline = &input.shape.outline;
    let mut path = BezPath::new();
    for s in spans {
        for end in [SpanEnd::Start, SpanEnd::End] {
            if let Some(handle) = outline.handle_place(s, end) {
                path.extend(polyline(&[outline.nodes[Outline::node_of(s, end)].place, handle]));
            }
        }
    }
    pen.path("arms", Role::Selected, path);
}

/// The lines that caught a drag, right across the stage.
fn guides(pen: &mut Pen, caught: Snapped) {
    let Rect { x0, y0, x1, y1 } = pen.view.visible();
    let Point { x, y } = caught.place;
    if caught.along.is_some() {
        pen.line("guide-along", Role::Guide, Point::new(x, y0), Point::new(x, y1));
    }
    if caught.across.is_some() {
        pen.line("guide-across", Role::Guide, Point::new(x0, y), Point::new(x1, y));
    }
}

/// A hatch at the place where a gesture was stopped, and where the pointer wants it.
fn hatch(pen: &mut Pen, limit: Limit) {
    let toward = limit.wanted - limit.reached;
    let length = toward.hypot();
    if length <= 0.0 {
        return;
    }
    let along = toward / length;
    let across = Vec2::new(-along.y, along.x);
    let px = pen.px;
    let mut path = polyline(&[limit.reached, limit.wanted]);
    let bar = limit.reached + along * (9.0 * px);
    path.extend(polyline(&[bar - across * (20.0 * px), bar + across * (20.0 * px)]));
    for k in -2..=2 {
        let foot = bar + across * (f64::from(k) * 9.0 * px);
        path.extend(polyline(&[foot, foot + (along + across * 0.7) * (9.0 * px)]));
    }
    path.extend(circle(limit.wanted, 6.0 * px));
    pen.path("limit", Role::Limit, path);
}
