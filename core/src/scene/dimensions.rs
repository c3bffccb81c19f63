//! Dimension lines: the measures, where they are on the board.

use super::{
    SceneInput,
    pen::{Anchor, Pen, Role, circle, cross, polyline},
};
use crate::{
    measure::{Bend, End},
    real, tolerance,
    units::{Unit, show},
};
use kurbo::{Point, Vec2};

/// Half the length of the tick at the end of a dimension line, px.
const TICK: f64 = 5.0;
/// Width of a letter, px: an estimate for the gap a figure stands in.
const LETTER: f64 = 7.6;
/// Below this scale, px/mm, only the dimensions that matter most are drawn.
const SMALL: f64 = 0.62;

pub(super) fn draw(pen: &mut Pen, input: &SceneInput<'_>) {
    let measured = input.measured;
    let small = pen.view.scale < SMALL;
    let rail = measured.blank.y1.max(measured.overall_width / 2.0);
    let (tail, nose) = (-measured.tail.end.x, measured.nose.end.x);

    rails_and_waist(pen, input, rail + 18.0 * pen.px);
    let below = -rail - if small { 18.0 } else { 42.0 } * pen.px;
    along(pen, "overall-length", Role::DimensionStrong, tail, nose, below, measured.overall_length, "");
    if !small {
        kicks(pen, input, -rail - 18.0 * pen.px);
        width(pen, input);
    }
    platform(pen, input);
    taper(pen, "nose-kick-taper", &measured.nose, 1.0);
    taper(pen, "tail-kick-taper", &measured.tail, -1.0);
    compass(pen, "nose-compass-radius", &measured.nose, 1.0);
    compass(pen, "tail-compass-radius", &measured.tail, -1.0);
    tightest(pen, "smallest-convex-radius", measured.smallest_convex);
    tightest(pen, "smallest-concave-radius", measured.smallest_concave);
}

fn rails_and_waist(pen: &mut Pen, input: &SceneInput<'_>, y: f64) {
    let measured = input.measured;
    for (i, run) in measured.rail_runs.iter().enumerate() {
        let id = format!("rail-run-{i}");
        along(pen, &id, Role::DimensionStrong, run.from, run.to, y, run.length(), "straight rail ");
    }
    for (i, waist) in measured.waists.iter().enumerate() {
        along(
            pen,
            &format!("waist-length-{i}"),
            Role::DimensionText,
            waist.from,
            waist.to,
            y,
            waist.length(),
            "waist ",
        );
        let (x, half) = (waist.at.x, waist.at.y);
        across(pen, &format!("waist-width-{i}"), Role::DimensionStrong, x, (-half, half), waist.width());
    }
}

fn platform(pen: &mut Pen, input: &SceneInput<'_>) {
    let measured = input.measured;
    let end = |end: &End, kicks: bool| if kicks { end.reference } else { end.end.x };
    let from = -end(&measured.tail, input.shape.profile.tail.kicks());
    let to = end(&measured.nose, input.shape.profile.nose.kicks());
    let y = -0.55 * measured.overall_width / 2.0;
    along(pen, "platform-length", Role::DimensionStrong, from, to, y, measured.platform_length, "platform ");
}

/// The chain of kick lengths and wheelbase under the board.
fn kicks(pen: &mut Pen, input: &SceneInput<'_>, y: f64) {
    let measured = input.measured;
    let datum = &input.shape.datum;
    let outer = datum.outer_row();
    let role = Role::DimensionText;
    along(pen, "tail-kick-length", role, -measured.tail.end.x, -outer, y, measured.tail.kick_length, "tail ");
    along(pen, "wheelbase", role, -datum.inner_row(), datum.inner_row(), y, datum.wheelbase, "wheelbase ");
    along(pen, "nose-kick-length", role, outer, measured.nose.end.x, y, measured.nose.kick_length, "nose ");
}

fn width(pen: &mut Pen, input: &SceneInput<'_>) {
    let measured = input.measured;
    let half = measured.overall_width / 2.0;
    let x = -measured.tail.end.x.max(-measured.blank.x0) - 22.0 * pen.px;
    across(pen, "overall-width", Role::DimensionStrong, x, (-half, half), measured.overall_width);
}

/// A dimension line along the board at height `y`.
#[expect(clippy::too_many_arguments, reason = "a dimension is named, placed, valued and worded")]
fn along(pen: &mut Pen, id: &str, role: Role, from: f64, to: f64, y: f64, value: f64, word: &str) {
    let text = format!("{word}{}", pen.length(value));
    dimension(pen, id, role, Point::new(from, y), Point::new(to, y), text);
}

/// A dimension line across the board at station `x`.
fn across(pen: &mut Pen, id: &str, role: Role, x: f64, (low, high): (f64, f64), value: f64) {
    let text = pen.length(value);
    dimension(pen, id, role, Point::new(x, low), Point::new(x, high), text);
}

/// A dimension line with ticks at its ends and its figure in a gap; where it is too short, beside it.
fn dimension(pen: &mut Pen, id: &str, role: Role, a: Point, b: Point, text: String) {
    let length = (b - a).hypot();
    if length <= 0.0 {
        return;
    }
    let unit = (b - a) / length;
    let tick = Vec2::new(-unit.y, unit.x) * (TICK * pen.px);
    let lies_level = (unit.x.abs() > 0.5) != pen.view.upright;
    let letters = text.chars().count() as f64 * LETTER + 12.0;
    let gap = if lies_level { letters } else { 20.0 } * pen.px;
    let middle = a.midpoint(b);
    let mut path = polyline(&[a - tick, a + tick]);
    path.extend(polyline(&[b - tick, b + tick]));
    let (at, anchor) = if gap + 16.0 * pen.px <= length {
        path.extend(polyline(&[a, middle - unit * (gap / 2.0)]));
        path.extend(polyline(&[middle + unit * (gap / 2.0), b]));
        (middle, Anchor::Middle)
    } else {
        path.extend(polyline(&[a, b]));
        if lies_level {
            (middle + pen.screen(0.0, -12.0), Anchor::Middle)
        } else {
            (middle + pen.screen(9.0, 0.0), Anchor::Start)
        }
    };
    pen.path(format!("dim-{id}"), Role::Dimension, path);
    pen.text(format!("figure-{id}"), role, at, anchor, text);
}

/// The taper as an angle at the side of a kick: a line along the board, the rule laid along the side, and the arc.
fn taper(pen: &mut Pen, id: &str, end: &End, sign: f64) {
    let Some(angle) = end.taper else { return };
    let clear = 12.0 * pen.px;
    let length = (end.end.x - end.reference).max(60.0 * pen.px);
    let apex = Point::new(sign * end.reference, end.taper_rule[0].y + clear);
    let slope = real::unit_vector(-angle);
    let rule = Vec2::new(sign * slope.x, slope.y);
    let mut path = polyline(&[apex + Vec2::new(sign * length, 0.0), apex, apex + rule * length]);
    let arc: Vec<Point> = (0..=8)
        .map(|k| {
            let v = real::unit_vector(-angle * f64::from(k) / 8.0);
            apex + Vec2::new(sign * v.x, v.y) * (0.86 * length)
        })
        .collect();
    path.extend(polyline(&arc));
    pen.path(format!("dim-{id}"), Role::Dimension, path);
    let at = apex + Vec2::new(sign * length, 0.0) + pen.screen(0.0, 0.0) + Vec2::new(0.0, 11.0 * pen.px);
    let text = show(angle, Unit::Angle, pen.system).to_string();
    pen.text(format!("figure-{id}"), Role::DimensionStrong, at, Anchor::Middle, text);
}

/// The compass point on the centreline with its radius, where a compass draws the kick.
fn compass(pen: &mut Pen, id: &str, end: &End, sign: f64) {
    let Some(compass) = end.compass.filter(|c| c.misfit <= tolerance::ROUND_MISFIT) else { return };
    let centre = Point::new(sign * compass.station, 0.0);
    let mut path = cross(centre, 6.0 * pen.px);
    let v = real::unit_vector(-core::f64::consts::FRAC_PI_6);
    let edge = centre + Vec2::new(sign * v.x, v.y) * compass.radius;
    path.extend(polyline(&[centre, edge]));
    pen.path(format!("spot-{id}"), Role::Dimension, path);
    let text = format!("R {}", pen.length(compass.radius));
    let at = centre.midpoint(edge) + Vec2::new(0.0, -14.0 * pen.px);
    pen.text(format!("figure-{id}"), Role::DimensionText, at, Anchor::Middle, text);
}

/// The place of a tightest bend.
fn tightest(pen: &mut Pen, id: &str, bend: Option<Bend>) {
    let Some(bend) = bend else { return };
    pen.path(format!("spot-{id}"), Role::Spot, circle(bend.at, 4.0 * pen.px));
    // The words stand inside the deck, clear of the handle and of the centreline: toward the middle at an end, toward
    // the centreline elsewhere.
    let at_an_end = bend.at.x.abs() > 2.0 * bend.at.y.abs() + 100.0;
    let inward = match (at_an_end, bend.at.x < 0.0) {
        (true, true) => Vec2::new(24.0, 0.0),
        (true, false) => Vec2::new(-24.0, 0.0),
        _ => Vec2::new(0.0, -24.0),
    };
    let lies_level = at_an_end != pen.view.upright;
    let anchor = match (lies_level, bend.at.x < 0.0) {
        (false, _) => Anchor::Middle,
        (true, tailward) => {
            if tailward {
                Anchor::Start
            } else {
                Anchor::End
            }
        }
    };
    let at = bend.at + inward * pen.px + pen.screen(0.0, if lies_level { -16.0 } else { 0.0 });
    let text = format!("tightest R {}", pen.length(bend.radius));
    pen.text(format!("figure-{id}"), Role::DimensionText, at, anchor, text);
}
