//! The board in the roles it has while it is laid up and pressed: grain, blank and posts; the mould and its bolts.

use super::{
    SceneInput,
    dimensions::Dimension,
    labels::Place,
    pen::{Anchor, Letters, Pen, Role, circle, polyline},
};
use crate::{editor::Room, layup::Grain, say, units, workshop::press};
use kurbo::{BezPath, Point, Rect, Shape as _, Vec2};

/// Distance between two lines of grain, mm, and how far each of them stays from both edges of the veneer in turn, shares of
/// its run: what is regular reads as a hatch, not as wood.
const GRAIN: f64 = 13.0;
const RUNS: [(f64, f64); 5] = [(0.03, 0.61), (0.12, 0.97), (0.45, 0.94), (0.02, 0.38), (0.2, 0.8)];

/// What lies on the board.
pub(super) fn under(pen: &mut Pen, input: &SceneInput<'_>) {
    match input.room {
        Room::LayUp => grain(pen, input),
        Room::Press => mould(pen, input),
        _ => {}
    }
}

/// What stands on it, with letters.
pub(super) fn over(pen: &mut Pen, input: &SceneInput<'_>) {
    match input.room {
        Room::LayUp => blank(pen, input),
        Room::Press => bolts(pen, input),
        _ => {}
    }
}

/// The grain of the top ply on its whole veneer.
fn grain(pen: &mut Pen, input: &SceneInput<'_>) {
    let Rect { x0, y0, x1, y1 } = input.measured.blank;
    let across = input.shape.layup.plies.first().is_some_and(|ply| ply.grain == Grain::Across);
    let (from, to, low, high) = if across { (y0, y1, x0, x1) } else { (x0, x1, y0, y1) };
    let mut path = BezPath::new();
    let (mut at, mut runs) = (low + GRAIN / 2.0, RUNS.iter().cycle());
    while at < high {
        if let Some(&(begin, end)) = runs.next() {
            let place = |share: f64| {
                let along = from + share * (to - from);
                if across { Point::new(at, along) } else { Point::new(along, at) }
            };
            path.extend(polyline(&[place(begin), place(end)]));
        }
        at += GRAIN;
    }
    pen.path("grain", Role::WoodGrain, path);
}

/// The blank's size and margins, and the posts that it lies between.
fn blank(pen: &mut Pen, input: &SceneInput<'_>) {
    let blank = input.measured.blank;
    let half = input.inputs.mould.clear_length / 2.0;
    let middle = blank.center().x;
    for (id, x) in [("post-tail", middle - half), ("post-nose", middle + half)] {
        pen.line(id, Role::Post, Point::new(x, -blank.y1 / 3.0), Point::new(x, blank.y1 / 3.0));
    }
    let top = blank.y1;
    let [nose, rail] = [input.measured.nose.end.x, input.measured.overall_width / 2.0];
    let sides = [
        ("end-margin", Point::new(nose, 0.6 * rail), Point::new(blank.x1, 0.6 * rail), blank.x1 - nose),
        ("side-margin", Point::new(0.3 * nose, rail), Point::new(0.3 * nose, top), top - rail),
    ];
    for (id, a, b, value) in sides {
        let dimension = Dimension { id, role: Role::Dimension, field: None, word: "", value, along: false };
        dimension.draw(pen, &[(a, b)]);
    }
    let text = say!(
        "blank {length} × {width}",
        length = pen.length(blank.width()),
        width = pen.length(blank.height())
    );
    let letters = Letters { id: "blank-size", role: Role::DimensionStrong, field: None, text: &text };
    let gap = pen.screen(0.0, -12.0).hypot();
    let places = [Point::new(blank.x0, top + gap), Point::new(blank.x0, top - gap)];
    pen.label(&letters, &places.map(|at| Place::level(at, Anchor::Start)));
}

/// The mould as seen from above.
fn mould(pen: &mut Pen, input: &SceneInput<'_>) {
    let mould = &input.inputs.mould;
    let middle = Point::new(input.measured.blank.center().x, 0.0);
    let rect = Rect::from_center_size(middle, (mould.length, mould.width));
    pen.path("mould", Role::Mould, rect.to_path(0.1));
}

/// The bolts in pairs along the mould, each with its turn. A schematic: how far apart they stand is the mould's affair.
fn bolts(pen: &mut Pen, input: &SceneInput<'_>) {
    let (mould, press) = (&input.inputs.mould, &input.inputs.press);
    if press.force.is_some() {
        return;
    }
    let count = usize::try_from(units::stored(press.bolts, units::Unit::Count)).unwrap_or(0);
    let pairs = count.div_ceil(2) as f64;
    let middle = input.measured.blank.center().x;
    let mut path = BezPath::new();
    for (turn, bolt) in press::tightening_order(count).iter().enumerate() {
        let along = (bolt.pair as f64 - 0.5) / pairs - 0.5;
        let side = if bolt.left { 1.0 } else { -1.0 };
        let at = Point::new(middle + along * mould.length, side * (mould.width / 2.0 + press.diameter));
        path.extend(circle(at, press.diameter / 2.0));
        let text = (turn + 1).to_string();
        let letters =
            Letters { id: &format!("bolt-{turn}"), role: Role::DimensionStrong, field: None, text: &text };
        let gap = press.diameter / 2.0 + 10.0 * pen.px;
        pen.label(
            &letters,
            &[1.0, -1.0].map(|way| Place::level(at + Vec2::new(0.0, way * side * gap), Anchor::Middle)),
        );
    }
    pen.path("bolts", Role::Bolt, path);
}
