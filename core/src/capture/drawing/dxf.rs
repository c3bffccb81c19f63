//! The contours of a DXF file: lines, arcs, circles, ellipses, polylines with bulges and splines, loose or in blocks, of any
//! release.

mod blocks;

use self::blocks::Part;
use super::{
    DrawingError, Sketch,
    number::number,
    strokes::{Contour, Stroke, arc},
};
use crate::{real, units::inches};
use core::f64::consts::TAU;
use kurbo::{Point, Vec2};

/// How many pieces stand for a stretch of a spline between knots that no cubic is exactly.
const PIECES: u32 = 8;
/// Most knots or points of one spline.
const MOST_KNOTS: usize = 20_000;
/// Most blocks of one drawing: programs keep a few for themselves, and one for every dimension and hatch.
const MOST_BLOCKS: usize = 5000;
/// Highest degree of a spline that is read.
const HIGHEST: usize = 7;

/// A pair of lines: what a value means, and the value.
#[derive(Clone, Copy, Debug)]
struct Tag<'a> {
    code: i32,
    text: &'a str,
    line: usize,
}

/// The pairs of lines of a file.
struct Tags<'a> {
    lines: core::str::Split<'a, char>,
    line: usize,
}

impl<'a> Iterator for Tags<'a> {
    type Item = Result<Tag<'a>, DrawingError>;

    fn next(&mut self) -> Option<Self::Item> {
        let code = self.lines.next()?.trim();
        let text = self.lines.next();
        self.line += 2;
        let line = self.line - 1;
        if code.is_empty() && text.is_none_or(|text| text.trim().is_empty()) {
            return None;
        }
        let number = number(code).filter(|code| code.fract() == 0.0 && code.abs() < 1e5);
        let Some((code, text)) = number.zip(text) else {
            return Some(Err(DrawingError::Line { line, what: "is no group code with a value below it" }));
        };
        #[expect(clippy::cast_possible_truncation, reason = "a small whole number")]
        let code = code as i32;
        Some(Ok(Tag { code, text: text.trim(), line }))
    }
}

/// An entity's tags.
struct Entity<'a> {
    kind: &'a str,
    line: usize,
    tags: Vec<Tag<'a>>,
}

impl<'a> Entity<'a> {
    /// The first text under a code; empty where there is none.
    fn text(&self, code: i32) -> &'a str {
        self.tags.iter().find(|tag| tag.code == code).map_or("", |tag| tag.text)
    }

    fn number(&self, code: i32) -> Result<Option<f64>, DrawingError> {
        self.tags.iter().find(|tag| tag.code == code).map(value).transpose()
    }

    fn need(&self, code: i32) -> Result<f64, DrawingError> {
        self.number(code)?
            .ok_or(DrawingError::Line { line: self.line, what: "begins an entity without all its figures" })
    }

    /// The point under a code and the one ten above it.
    fn point(&self, code: i32) -> Result<Point, DrawingError> {
        Ok(Point::new(self.need(code)?, self.need(code + 10)?))
    }

    fn flags(&self) -> Result<i32, DrawingError> {
        #[expect(clippy::cast_possible_truncation, reason = "flags are small; more saturate")]
        Ok(self.number(70)?.unwrap_or(0.0) as i32)
    }

    fn is_outline(&self) -> bool {
        self.tags.iter().any(|tag| tag.code == 8 && tag.text.eq_ignore_ascii_case("outline"))
    }

    /// −1 where the entity lies on the back of the sheet, so that its x runs the other way.
    fn side(&self) -> Result<f64, DrawingError> {
        Ok(if self.number(230)?.unwrap_or(1.0) < 0.0 { -1.0 } else { 1.0 })
    }
}

fn value(tag: &Tag<'_>) -> Result<f64, DrawingError> {
    number(tag.text).ok_or(DrawingError::Line { line: tag.line + 1, what: "is no number" })
}

/// Reads the entities of a DXF file.
pub(super) fn read(text: &str) -> Result<Sketch, DrawingError> {
    if text.starts_with("AutoCAD Binary") {
        return Err(DrawingError::Binary);
    }
    let (mut drawing, mut blocks) = (Part::default(), Vec::new());
    let (mut section, mut named) = ("", false);
    let mut variable = "";
    let mut entity: Option<Entity<'_>> = None;
    let mut polyline: Option<(Entity<'_>, Vec<Vertex>)> = None;
    for tag in (Tags { lines: text.split('\n'), line: 0 }) {
        let tag = tag?;
        if tag.code != 0 {
            match section {
                "ENTITIES" | "BLOCKS" => entity.iter_mut().for_each(|entity| entity.tags.push(tag)),
                "HEADER" if tag.code == 9 => variable = tag.text,
                "HEADER" if variable == "$INSUNITS" && tag.code == 70 => {
                    drawing.sketch.unit = unit(value(&tag)?);
                }
                "" if named && tag.code == 2 => (section, named) = (tag.text, false),
                _ => {}
            }
            continue;
        }
        if let Some(done) = entity.take() {
            if done.kind == "BLOCK" {
                polyline = None;
                if blocks.len() >= MOST_BLOCKS {
                    return Err(DrawingError::TooMany);
                }
                blocks.push(Part::block(&done)?);
            } else {
                let in_block = if section == "BLOCKS" { blocks.last_mut() } else { None };
                take(done, &mut polyline, in_block.unwrap_or(&mut drawing))?;
            }
        }
        match tag.text {
            "SECTION" => (section, named) = ("", true),
            "ENDSEC" | "EOF" => section = "",
            kind if section == "ENTITIES" || section == "BLOCKS" => {
                entity = Some(Entity { kind, line: tag.line + 1, tags: Vec::new() });
            }
            _ => {}
        }
    }
    let is_cut = section == "ENTITIES" || section == "BLOCKS";
    let sketch = blocks::placed(drawing, &blocks)?;
    if is_cut || sketch.is_empty() && !has_section(text) {
        return Err(if section.is_empty() { DrawingError::Unknown } else { DrawingError::CutOff });
    }
    Ok(sketch)
}

fn has_section(text: &str) -> bool {
    text.split('\n').any(|line| line.trim() == "ENTITIES")
}

/// Millimetres in a drawing's unit by its number in the header; none where it has no unit.
fn unit(number: f64) -> Option<f64> {
    let inch = inches(1.0);
    let units = [
        (1.0, inch),
        (2.0, 12.0 * inch),
        (4.0, 1.0),
        (5.0, 10.0),
        (6.0, 1000.0),
        (8.0, inch / 1e6),
        (9.0, inch / 1e3),
        (10.0, 36.0 * inch),
        (14.0, 100.0),
    ];
    units.iter().find(|unit| (unit.0 - number).abs() < 0.5).map(|unit| unit.1)
}

/// A corner of a polyline and the bulge of what follows it: the tangent of a quarter of the arc's angle.
#[derive(Clone, Copy)]
struct Vertex {
    at: Point,
    bulge: f64,
}

fn take<'a>(
    entity: Entity<'a>,
    polyline: &mut Option<(Entity<'a>, Vec<Vertex>)>,
    part: &mut Part<'a>,
) -> Result<(), DrawingError> {
    if entity.kind == "INSERT" {
        return part.insert(&entity);
    }
    let sketch = &mut part.sketch;
    let named = entity.is_outline();
    let open = |strokes| Contour { strokes, closed: false, named };
    match entity.kind {
        "LINE" => sketch.add(open(vec![Stroke::line(entity.point(10)?, entity.point(11)?)])),
        "CIRCLE" | "ARC" => {
            let (centre, side) = (entity.point(10)?, entity.side()?);
            let (centre, radius) = (Point::new(side * centre.x, centre.y), entity.need(40)?.abs());
            if entity.kind == "CIRCLE" {
                sketch.add_circle(centre, radius, named);
            } else {
                let (from, to) = (entity.need(50)?.to_radians(), entity.need(51)?.to_radians());
                let to = if to > from { to } else { to + TAU };
                let (u, v) = (Vec2::new(side * radius, 0.0), Vec2::new(0.0, radius));
                sketch.add(open(arc(centre, u, v, from, to)));
            }
        }
        "ELLIPSE" => {
            let (centre, u) = (entity.point(10)?, entity.point(11)?.to_vec2());
            let (from, to) = (entity.number(41)?.unwrap_or(0.0), entity.number(42)?.unwrap_or(TAU));
            let to = if to > from { to } else { to + TAU };
            let v = u.turn_90() * (entity.need(40)? * entity.side()?);
            sketch.add(open(arc(centre, u, v, from, to)));
        }
        "LWPOLYLINE" => {
            let mut vertices: Vec<Vertex> = Vec::new();
            for tag in &entity.tags {
                match (tag.code, vertices.last_mut()) {
                    (10, _) => vertices.push(Vertex { at: Point::new(value(tag)?, 0.0), bulge: 0.0 }),
                    (20, Some(last)) => last.at.y = value(tag)?,
                    (42, Some(last)) => last.bulge = value(tag)?,
                    _ => {}
                }
            }
            sketch.add(bulged(&entity, &vertices)?);
        }
        "POLYLINE" => *polyline = Some((entity, Vec::new())),
        "VERTEX" => {
            // Control points of a curve do not lie on it.
            if let Some((_, vertices)) =
                polyline.as_mut().filter(|_| entity.flags().is_ok_and(|flags| flags & 16 == 0))
            {
                vertices.push(Vertex { at: entity.point(10)?, bulge: entity.number(42)?.unwrap_or(0.0) });
            }
        }
        "SEQEND" => {
            if let Some((entity, vertices)) = polyline.take() {
                sketch.add(bulged(&entity, &vertices)?);
            }
        }
        "SPLINE" => sketch.add(open(spline(&entity)?)),
        "TEXT" | "MTEXT" => {
            entity.tags.iter().filter(|tag| tag.code == 1).for_each(|tag| sketch.read_words(tag.text));
        }
        _ => {}
    }
    sketch.check_size()
}

/// A polyline's lines and arcs.
fn bulged(entity: &Entity<'_>, vertices: &[Vertex]) -> Result<Contour, DrawingError> {
    let (closed, side) = (entity.flags()? & 1 != 0, entity.side()?);
    let mut strokes = Vec::new();
    let count = if closed { vertices.len() } else { vertices.len().saturating_sub(1) };
    for i in 0..count {
        let Vertex { at, bulge } = vertices[i];
        let to = vertices[(i + 1) % vertices.len()].at;
        let chord = to - at;
        let length = chord.hypot2().sqrt();
        if length <= 0.0 {
            continue;
        }
        // On a chord of a metre this rises by a nanometre.
        if bulge.abs() < 2e-9 {
            strokes.push(Stroke::line(at, to));
            continue;
        }
        let radius = length * (1.0 + bulge * bulge) / (4.0 * bulge);
        let apothem = length * (1.0 - bulge * bulge) / (4.0 * bulge);
        let centre = at.midpoint(to) + chord.turn_90() * (apothem / length);
        let from = real::direction(at - centre);
        let radius = radius.abs();
        let mut part =
            arc(centre, Vec2::new(radius, 0.0), Vec2::new(0.0, radius), from, from + 4.0 * real::atan(bulge));
        // Rounding may not open the contour.
        if let Some(first) = part.first_mut() {
            first.curve.p0 = at;
        }
        if let Some(last) = part.last_mut() {
            last.curve.p3 = to;
        }
        strokes.extend(part);
    }
    let mut contour = Contour { strokes, closed, named: entity.is_outline() };
    if side < 0.0 {
        contour.map(kurbo::Affine::FLIP_X);
    }
    Ok(contour)
}

/// A spline's stretches between its knots: each is one cubic up to degree three, else several through its places.
fn spline(entity: &Entity<'_>) -> Result<Vec<Stroke>, DrawingError> {
    let fault = || DrawingError::Line { line: entity.line, what: "begins a spline that cannot be read" };
    let all = |code: i32| -> Result<Vec<f64>, DrawingError> {
        entity.tags.iter().filter(|tag| tag.code == code).map(value).collect()
    };
    let (knots, xs, ys, weights) = (all(40)?, all(10)?, all(20)?, all(41)?);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "out of range saturates and is refused"
    )]
    let degree = entity.need(71)? as usize;
    let count = xs.len();
    let fits = (1..=HIGHEST).contains(&degree)
        && count > degree
        && ys.len() == count
        && knots.len() == count + degree + 1
        && knots.len() <= MOST_KNOTS
        && knots.windows(2).all(|pair| pair[0] <= pair[1])
        && (weights.is_empty() || weights.len() == count && weights.iter().all(|weight| *weight > 0.0));
    if !fits {
        return Err(fault());
    }
    let rational = weights.windows(2).any(|pair| (pair[0] - pair[1]).abs() > 1e-12);
    let control: Vec<[f64; 3]> = (0..count)
        .map(|i| {
            let weight = weights.get(i).copied().unwrap_or(1.0);
            [xs[i] * weight, ys[i] * weight, weight]
        })
        .collect();
    let parts = if degree <= 3 && !rational { 1 } else { PIECES };
    let mut strokes = Vec::new();
    for k in degree..count {
        let (from, to) = (knots[k], knots[k + 1]);
        if to <= from {
            continue;
        }
        for part in 0..parts {
            let at = |third: u32| {
                let share = (f64::from(part) + f64::from(third) / 3.0) / f64::from(parts);
                place(&knots, &control, degree, k, from + share * (to - from))
            };
            let points = [0, 1, 2, 3].map(at);
            strokes.push(if degree == 1 {
                Stroke::line(points[0], points[3])
            } else {
                Stroke::through(points)
            });
        }
    }
    if strokes.is_empty() { Err(fault()) } else { Ok(strokes) }
}

/// The place of a spline at a parameter between knots `k` and `k + 1`, by de Boor's recursion.
fn place(knots: &[f64], control: &[[f64; 3]], degree: usize, k: usize, u: f64) -> Point {
    let mut points: Vec<[f64; 3]> = control[k - degree..=k].to_vec();
    for round in 1..=degree {
        for j in (round..=degree).rev() {
            let i = k - degree + j;
            let width = knots[i + degree + 1 - round] - knots[i];
            let share = if width > 0.0 { (u - knots[i]) / width } else { 0.0 };
            let before = points[j - 1];
            for (value, earlier) in points[j].iter_mut().zip(before) {
                *value = (1.0 - share) * earlier + share * *value;
            }
        }
    }
    let [x, y, weight] = points[degree];
    Point::new(x / weight, y / weight)
}
