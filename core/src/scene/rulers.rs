//! The rulers along the edges of the stage, zero at the datum, and the paper's faint squares.

use super::{
    labels::Place,
    pen::{Anchor, Letters, Pen, Role, polyline},
};
use crate::units::System;
use kurbo::{BezPath, Point, Rect, Vec2};

/// Least distance of two figures on a ruler, px.
const FIGURES: f64 = 64.0;
/// Least distance of two ticks, px.
const TICKS: f64 = 7.0;
/// Length of a long tick and of a short one, px.
const LONG: f64 = 11.0;
const SHORT: f64 = 5.0;
/// How far from the corner of the stage the figures begin, px.
const CORNER: f64 = 34.0;
const INCH: f64 = 25.4;

/// Distance between figures and number of ticks to each, for one scale.
fn division(px: f64, system: System) -> (f64, u32) {
    const MM: [(f64, u32); 9] =
        [(1.0, 5), (2.0, 4), (5.0, 5), (10.0, 10), (20.0, 4), (50.0, 5), (100.0, 10), (200.0, 4), (500.0, 5)];
    const IN: [(f64, u32); 8] =
        [(0.125, 4), (0.25, 4), (0.5, 8), (1.0, 8), (2.0, 8), (4.0, 4), (8.0, 8), (16.0, 4)];
    let (table, unit): (&[(f64, u32)], f64) =
        if system == System::Millimetres { (&MM, 1.0) } else { (&IN, INCH) };
    let fits = |row: &&(f64, u32)| row.0 * unit / px >= FIGURES;
    let (step, ticks) = table.iter().find(fits).or(table.last()).copied().unwrap_or((100.0, 10));
    let step = step * unit;
    let ticks = if step / f64::from(ticks) / px < TICKS { 2 } else { ticks };
    (step, ticks)
}

/// Multiples of `step` between two values, with their count from zero.
fn multiples(from: f64, to: f64, step: f64) -> impl Iterator<Item = (i32, f64)> {
    const MOST: f64 = 2000.0; // a stage of that many ticks would be solid black
    let first = (from / step).ceil();
    let last = (to / step).floor().min(first + MOST);
    #[expect(clippy::cast_possible_truncation, reason = "a view shows metres, not 2³¹ ticks")]
    let (first, last) = (first as i32, last as i32);
    (first..=last).map(move |k| (k, f64::from(k) * step))
}

pub(super) fn grid(pen: &mut Pen) {
    let (step, ticks) = division(pen.px, pen.system);
    let square = step / if ticks % 5 == 0 { 5.0 } else { 4.0 };
    let Rect { x0, y0, x1, y1 } = pen.view.visible();
    let mut path = BezPath::new();
    for (_, x) in multiples(x0, x1, square) {
        path.extend(polyline(&[Point::new(x, y0), Point::new(x, y1)]));
    }
    for (_, y) in multiples(y0, y1, square) {
        path.extend(polyline(&[Point::new(x0, y), Point::new(x1, y)]));
    }
    pen.path("grid", Role::Grid, path);
}

/// The two rulers: one along the top of the stage, one along its left. Each starts at the corner, runs along `run`, and
/// its ticks point `into` the stage (both mm per px).
struct Ruler {
    name: &'static str,
    corner: Point,
    run: Vec2,
    into: Vec2,
}

impl Ruler {
    fn both(pen: &Pen) -> [Self; 2] {
        let (right, down) = (pen.screen(1.0, 0.0), pen.screen(0.0, 1.0));
        let corner = pen.view.to_mm(Point::ORIGIN);
        [
            Self { name: "top", corner, run: right, into: down },
            Self { name: "left", corner, run: down, into: right },
        ]
    }

    fn along_x(&self) -> bool {
        self.run.x.abs() > self.run.y.abs()
    }

    /// The part of the rule that shows, mm.
    fn range(&self, pen: &Pen) -> (f64, f64) {
        let Rect { x0, y0, x1, y1 } = pen.view.visible();
        if self.along_x() { (x0, x1) } else { (y0, y1) }
    }

    fn at(&self, v: f64) -> Point {
        if self.along_x() { Point::new(v, self.corner.y) } else { Point::new(self.corner.x, v) }
    }
}

/// The ticks.
pub(super) fn draw(pen: &mut Pen) {
    let (step, ticks) = division(pen.px, pen.system);
    for ruler in Ruler::both(pen) {
        let (from, to) = ruler.range(pen);
        let mut path = BezPath::new();
        for (k, v) in multiples(from, to, step / f64::from(ticks)) {
            let long = k.unsigned_abs() % ticks == 0;
            let foot = ruler.at(v);
            path.extend(polyline(&[foot, foot + ruler.into * if long { LONG } else { SHORT }]));
        }
        pen.path(&format!("ruler-{}", ruler.name), Role::Ruler, path);
    }
}

/// The figures: they are the first letters of a drawing, since they cannot stand elsewhere.
pub(super) fn figures(pen: &mut Pen) {
    let (step, _) = division(pen.px, pen.system);
    for ruler in Ruler::both(pen) {
        let (from, to) = ruler.range(pen);
        for (_, v) in multiples(from, to, step) {
            let foot = ruler.at(v);
            let place = if ruler.name == "top" {
                Place::level(foot + ruler.into * 20.0, Anchor::Middle)
            } else {
                Place::level(foot + ruler.into * 14.0, Anchor::Start)
            };
            let px = pen.view.to_px(foot);
            // The corner where the two rulers meet stays free.
            if px.x.max(px.y) >= CORNER {
                let text = &figure(v, pen.system);
                let id = &format!("ruler-{}-{text}", ruler.name);
                pen.label_at(&Letters { id, role: Role::RulerText, field: None, text }, place, false);
            }
        }
    }
}

/// A ruler's figure: whole mm, or inches with the fraction the division needs.
fn figure(mm: f64, system: System) -> String {
    let (value, unit) = if system == System::Millimetres {
        (mm, crate::units::Unit::Count)
    } else {
        (mm, crate::units::Unit::Length)
    };
    crate::units::show(value, unit, system).text
}
