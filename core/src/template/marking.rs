//! What is written and engraved on a template: its name, which face and which end is which, and bars to check its size.

use super::{Template, TemplateOptions};
use crate::{
    design::Design,
    format::drawing::Entity,
    language::said,
    say,
    units::{self, System, Unit, show},
};
use kurbo::Point;

/// Height of capitals, mm; less where a line is long or the deck narrow.
const HEIGHT: f64 = 7.0;
/// From one line of text to the next, in heights of capitals.
const PITCH: f64 = 1.7;
/// No letter is wider than capitals are high by more than this.
const WIDEST: f64 = 4.0 / 3.0;
/// Clear of the holes and of the edge, mm.
const CLEAR: f64 = 10.0;
/// Height of the check bars, mm.
const BARS: [f64; 2] = [6.0, 15.0];
/// Half the height of a bar's ticks, mm.
const TICK: f64 = 3.0;
/// Height of the last line of text, mm.
const LAST_LINE: f64 = 24.0;
/// Length of the arrow, mm, and half the width of its head.
const ARROW: (f64, f64) = (40.0, 4.0);

/// What a template is for.
pub(super) fn cut(options: &TemplateOptions) -> String {
    let length = |mm: f64| show(mm, Unit::Thickness, System::default());
    let edge = options.edge();
    let side = if edge < 0.0 { "inside" } else { "outside" };
    say!(
        "{cut}, edge {edge} {side}, bit {bit}",
        cut = options.cut.label(),
        edge = length(edge.abs()),
        side,
        bit = length(options.bit)
    )
}

/// What a saw line is.
pub(super) fn sawn(distance: f64) -> String {
    say!(
        "Saw line, {distance} outside of the outline",
        distance = show(distance, Unit::Thickness, System::default())
    )
}

/// The lines of text and the arrow, amidships on the left half, where there are no holes: from `base` over the centreline on,
/// where the wood begins, with so much room.
pub(super) fn texts(
    design: &Design,
    options: &TemplateOptions,
    what: &str,
    (base, room): (f64, f64),
) -> Vec<Entity> {
    let TemplateOptions { projection, version, date, .. } = options;
    let named = [design.name(), version, date].into_iter().filter(|text| !text.is_empty());
    let lines = [
        said("TOP FACE").to_owned(),
        say!("{projection}: {meaning}", projection = projection.word(), meaning = projection.meaning()),
        what.to_owned(),
        named.collect::<Vec<_>>().join(", "),
    ];
    let half_room = design.shape().datum.inner_row() - CLEAR;
    let tallest = (room - LAST_LINE - CLEAR) / (PITCH * lines.len() as f64);
    let height = HEIGHT.min(tallest).max(1.0);
    let mut entities = Vec::new();
    let lines: Vec<String> = lines.into_iter().filter(|text| !text.is_empty()).collect();
    let lowest = lines.len() - 1;
    for (i, text) in lines.into_iter().enumerate() {
        let nose = WIDEST * 4.0 * height + TICK;
        let room = 2.0 * half_room - if i == 0 { ARROW.0 + nose + CLEAR } else { 0.0 };
        let widest = WIDEST * text.chars().count() as f64;
        let at = Point::new(-half_room, base + LAST_LINE + PITCH * height * (lowest - i) as f64);
        if i == 0 {
            entities.extend(arrow(Point::new(half_room, at.y + height / 2.0)));
            let at = Point::new(half_room - ARROW.0 - nose, at.y);
            entities.push(Entity::Text { at, height, text: said("NOSE").to_owned() });
        }
        entities.push(Entity::Text { at, height: height.min(room / widest), text });
    }
    entities
}

/// An arrow along x with its point there.
fn arrow(point: Point) -> [Entity; 3] {
    let (length, head) = ARROW;
    let back = |along: f64, side: f64| Entity::Line(Point::new(point.x - along, point.y + side), point);
    [back(length, 0.0), back(2.0 * head, head), back(2.0 * head, -head)]
}

/// Bars of 100 mm and of 4 in, each with its length beside it, from `base` over the centreline on.
pub(super) fn check_bars(base: f64) -> Vec<Entity> {
    let bars = [(100.0, "100 mm"), (units::inches(4.0), "4 in")];
    let mut entities = Vec::new();
    for ((length, text), y) in bars.into_iter().zip(BARS) {
        let y = base + y;
        let (from, to) = (Point::new(-Template::HALF_BAR, y), Point::new(length - Template::HALF_BAR, y));
        entities.push(Entity::Line(from, to));
        for end in [from, to] {
            entities.push(Entity::Line(Point::new(end.x, y - TICK), Point::new(end.x, y + TICK)));
        }
        let at = Point::new(to.x + TICK, y - TICK / 2.0);
        entities.push(Entity::Text { at, height: TICK, text: text.to_owned() });
    }
    entities
}
