//! The measures on the drawing, each where it is on the board, in the order of what matters most: where a stage has no
//! room for all, the last ones stay away.
//!
//! Overall length and width, tapers, straight rails, the waist's width and length, platform, wheelbase, kick lengths, kick
//! angles, compass radii, the tightest bends. A word before a figure stays away before the figure does. What is not on
//! the drawing is in the list beside it.

use super::{
    CLEAR, FIRST, Room, SceneInput,
    dimensions::Dimension,
    labels::{self, Place},
    pen::{Anchor, Letters, Pen, Role, circle, cross, polyline},
    side,
};
use crate::{
    editor,
    measure::{Bend, End},
    real, say, tolerance,
    units::{Unit, show},
};
use kurbo::{Point, Vec2};

/// Shares of the half width at which the platform's line may run, the best first: clear of the bolts and the centreline.
const PLATFORM: [f64; 4] = [-0.55, 0.55, -0.3, 0.3];

pub(super) fn draw(pen: &mut Pen, input: &SceneInput<'_>, room: Room) {
    let measured = input.measured;
    let rail = measured.blank.y1.max(measured.overall_width / 2.0);
    let first = rail + FIRST * pen.px;
    let (tail, nose) = (-measured.tail.end.x, measured.nose.end.x);

    let outermost = -rail - room.outermost() * pen.px;
    let length = strong("overall-length", measured.overall_length);
    along(pen, &length, (tail, nose), &[outermost]);
    let half = measured.overall_width / 2.0;
    let x = tail.min(measured.blank.x0) - FIRST * pen.px;
    let width = Dimension { along: true, ..strong("overall-width", measured.overall_width) };
    width.draw(pen, &[(Point::new(x, -half), Point::new(x, half))]);
    // Where the board stands for wood its size is what is looked for.
    if !matches!(input.room, editor::Room::LayUp | editor::Room::Press) {
        of_the_shape(pen, input, room, first);
    }
    if room.side {
        side::draw(pen, input, room.outermost() + CLEAR);
    }
}

/// What the outline is judged by.
fn of_the_shape(pen: &mut Pen, input: &SceneInput<'_>, room: Room, first: f64) {
    let measured = input.measured;
    taper(pen, "nose-kick-taper", &measured.nose, 1.0, room);
    taper(pen, "tail-kick-taper", &measured.tail, -1.0, room);
    rails(pen, input, first);
    waists(pen, input, first);
    platform(pen, input);
    if room.levels > 1 {
        kicks(pen, input, -first);
    }
    compass(pen, "nose-compass-radius", &measured.nose, 1.0);
    compass(pen, "tail-compass-radius", &measured.tail, -1.0);
    tightest(pen, "smallest-convex-radius", measured.smallest_convex);
    tightest(pen, "smallest-concave-radius", measured.smallest_concave);
}

/// A dimension that carries the shape's character, and can be set.
fn strong(key: &'static str, value: f64) -> Dimension<'static> {
    Dimension { id: key, role: Role::DimensionStrong, field: Some(key), word: "", value, along: false }
}

/// Draws a dimension from station to station at the first of the heights `levels` that has room for it.
fn along(pen: &mut Pen, dimension: &Dimension<'_>, (from, to): (f64, f64), levels: &[f64]) {
    let lines: Vec<_> = levels.iter().map(|&y| (Point::new(from, y), Point::new(to, y))).collect();
    Dimension { along: true, ..*dimension }.draw(pen, &lines);
}

fn rails(pen: &mut Pen, input: &SceneInput<'_>, y: f64) {
    let runs = &input.measured.rail_runs;
    for (i, run) in runs.iter().enumerate() {
        let field = match i {
            0 => Some("rail-run-fore"),
            _ if i + 1 == runs.len() => Some("rail-run-aft"),
            _ => None,
        };
        let id = &format!("rail-run-{i}");
        let rail = Dimension { id, field, word: "straight rail ", ..strong("", run.length()) };
        along(pen, &rail, (run.from, run.to), &[y]);
    }
}

/// The deepest waist is the one that can be set.
fn waists(pen: &mut Pen, input: &SceneInput<'_>, y: f64) {
    for (i, waist) in input.measured.waists.iter().enumerate() {
        let (x, half) = (waist.at.x, waist.at.y);
        let id = &format!("waist-width-{i}");
        let field = (i == 0).then_some("waist-width");
        let width = Dimension { id, field, ..strong("", waist.width()) };
        width.draw(pen, &[(Point::new(x, -half), Point::new(x, half))]);
        let id = &format!("waist-length-{i}");
        let field = (i == 0).then_some("waist-length");
        let role = Role::DimensionText;
        let length = Dimension { id, role, field, word: "waist ", ..strong("", waist.length()) };
        along(pen, &length, (waist.from, waist.to), &[y]);
    }
}

fn platform(pen: &mut Pen, input: &SceneInput<'_>) {
    let measured = input.measured;
    let end = |end: &End, kicks: bool| if kicks { end.reference } else { end.end.x };
    let from = -end(&measured.tail, input.shape.profile.tail.kicks());
    let to = end(&measured.nose, input.shape.profile.nose.kicks());
    let levels = PLATFORM.map(|share| share * measured.overall_width / 2.0);
    let key = "platform-length";
    let platform = Dimension { field: None, word: "platform ", ..strong(key, measured.platform_length) };
    along(pen, &platform, (from, to), &levels);
}

/// The chain of kick lengths and wheelbase under the board.
fn kicks(pen: &mut Pen, input: &SceneInput<'_>, y: f64) {
    let measured = input.measured;
    let datum = &input.shape.datum;
    let (inner, outer) = (datum.inner_row(), datum.outer_row());
    let (tail, nose) = (-measured.tail.end.x, measured.nose.end.x);
    for (key, word, value, span) in [
        ("wheelbase", "wheelbase ", datum.wheelbase, (-inner, inner)),
        ("tail-kick-length", "tail ", measured.tail.kick_length, (tail, -outer)),
        ("nose-kick-length", "nose ", measured.nose.kick_length, (outer, nose)),
    ] {
        along(pen, &Dimension { role: Role::DimensionText, word, ..strong(key, value) }, span, &[y]);
    }
}

/// The taper as an angle at the side of a kick: a line along the board, the rule laid along the side, and the arc.
fn taper(pen: &mut Pen, id: &'static str, end: &End, sign: f64, room: Room) {
    let Some(angle) = end.taper else { return };
    let length = (end.end.x - end.reference).max(60.0 * pen.px);
    let apex = Point::new(sign * end.reference, end.taper_rule[0].y + 12.0 * pen.px);
    let slope = real::unit_vector(-angle);
    let rule = Vec2::new(sign * slope.x, slope.y);
    let outward = Vec2::new(sign * length, 0.0);
    let mut path = polyline(&[apex + outward, apex, apex + rule * length]);
    let arc: Vec<Point> = (0..=8)
        .map(|k| {
            let v = real::unit_vector(-angle * f64::from(k) / 8.0);
            apex + Vec2::new(sign * v.x, v.y) * (0.86 * length)
        })
        .collect();
    path.extend(polyline(&arc));
    let text = show(angle, Unit::Angle, pen.system).to_string();
    // Outside the line along the board, the farther out the better; past its end where that is not free.
    let (above, anchor) = if pen.view.upright { (7.0, Anchor::End) } else { (12.0, Anchor::Middle) };
    let past = Vec2::new(sign * length + sign * 30.0 * pen.px, 0.0);
    let clear = Vec2::new(0.0, above * pen.px);
    let places = [outward * 0.86 + clear, outward * 0.5 + clear, outward * 0.2 + clear, past]
        .map(|off| Place::level(apex + off, anchor));
    let role = Role::DimensionStrong;
    let letters = Letters { id: &["figure-", id].concat(), role, field: Some(id), text: &text };
    // On a low stage the nodes of a kick leave no room: there it lies over one of them.
    let over = if room.side { &places[..1] } else { &places[..] };
    if pen.label(&letters, &places) || over.iter().any(|place| pen.label_at(&letters, *place, false)) {
        pen.path(&["dim-", id].concat(), Role::Dimension, path);
    }
}

/// The compass point on the centreline with its radius, where a compass draws the kick.
fn compass(pen: &mut Pen, id: &str, end: &End, sign: f64) {
    let Some(compass) = end.compass.filter(|c| c.misfit <= tolerance::ROUND_MISFIT) else { return };
    let centre = Point::new(sign * compass.station, 0.0);
    let mut path = cross(centre, 6.0 * pen.px);
    let v = real::unit_vector(-core::f64::consts::FRAC_PI_6);
    let edge = centre + Vec2::new(sign * v.x, v.y) * compass.radius;
    path.extend(polyline(&[centre, edge]));
    let text = format!("R {}", pen.length(compass.radius));
    // At the middle of the radius, else inside the compass point.
    let middle = centre.midpoint(edge);
    let inside =
        centre - Vec2::new(sign * (10.0 + labels::length(Role::DimensionText, &text) / 2.0) * pen.px, 0.0);
    let places = [(middle, 14.0), (middle, -14.0), (inside, -12.0), (inside, 12.0)]
        .map(|(at, down)| Place::level(at + pen.screen(0.0, down), Anchor::Middle));
    let role = Role::DimensionText;
    if pen.label(&Letters { id: &format!("figure-{id}"), role, field: None, text: &text }, &places) {
        pen.path(&format!("spot-{id}"), Role::Dimension, path);
    }
}

/// The place of a tightest bend. Its words stand inside the deck, clear of the node there.
fn tightest(pen: &mut Pen, id: &str, bend: Option<Bend>) {
    let Some(bend) = bend else { return };
    pen.path(&format!("spot-{id}"), Role::Spot, circle(bend.at, 4.0 * pen.px));
    let at = pen.view.to_px(bend.at);
    let middle = pen.view.to_px(Point::ORIGIN);
    // Toward the middle of the deck on the screen.
    let (x, anchor) = if at.x < middle.x { (24.0, Anchor::Start) } else { (-24.0, Anchor::End) };
    let y = if at.y < middle.y { 16.0 } else { -16.0 };
    let places = [(x, y), (x, -y), (x, 0.0), (x, 2.0 * y), (0.0, 2.0 * y)]
        .map(|(x, y)| Place::level(bend.at + pen.screen(x, y), anchor));
    let (id, text) =
        (&format!("figure-{id}"), &say!("tightest R {radius}", radius = pen.length(bend.radius)));
    pen.label(&Letters { id, role: Role::DimensionText, field: None, text }, &places);
}
