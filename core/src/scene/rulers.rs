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
/// How far from the corner of the stage, where the two rulers meet, the figures begin, px.
const CORNER: f64 = 40.0;
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

/// Writes the figures of both rulers, the first letters of a drawing since they cannot stand elsewhere, and answers with
/// the ticks, which lie over all else: those along the top of the stage and those along its left.
pub(super) fn draw(pen: &mut Pen) -> [BezPath; 2] {
    let (right, down) = (pen.screen(1.0, 0.0), pen.screen(0.0, 1.0));
    [ruler(pen, true, right, down), ruler(pen, false, down, right)]
}

/// One ruler: starts at the corner of the stage, runs along `run`, its ticks point `into` the stage (both mm per px).
fn ruler(pen: &mut Pen, top: bool, run: Vec2, into: Vec2) -> BezPath {
    let visible = pen.view.visible();
    let corner = pen.view.to_mm(Point::ORIGIN);
    let (step, ticks) = division(pen.px, pen.system);
    let along_x = run.x.abs() > run.y.abs();
    let (from, to) = if along_x { (visible.x0, visible.x1) } else { (visible.y0, visible.y1) };
    let at = |v: f64| if along_x { Point::new(v, corner.y) } else { Point::new(corner.x, v) };
    let mut path = BezPath::new();
    for (k, v) in multiples(from, to, step / f64::from(ticks)) {
        let long = k.unsigned_abs() % ticks == 0;
        path.extend(polyline(&[at(v), at(v) + into * if long { LONG } else { SHORT }]));
    }
    for (_, v) in multiples(from, to, step) {
        let foot = at(v);
        let px = pen.view.to_px(foot);
        if px.x.max(px.y) >= CORNER {
            let (name, off, anchor) =
                if top { ("top", 20.0, Anchor::Middle) } else { ("left", 14.0, Anchor::Start) };
            let text = &figure(v, pen.system);
            let id = &["ruler-", name, "-", text].concat();
            let letters = Letters { id, role: Role::RulerText, field: None, text };
            pen.label_at(&letters, Place::level(foot + into * off, anchor), false);
        }
    }
    path
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
