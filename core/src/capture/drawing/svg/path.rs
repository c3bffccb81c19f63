//! SVG path data (SVG 1.1, chapter 8), arcs among it.

use super::super::{
    DrawingError,
    number::leading,
    strokes::{Stroke, arc},
};
use crate::real;
use core::f64::consts::TAU;
use kurbo::{CubicBez, Point, Vec2};

/// Numbers parted by spaces, commas or nothing.
pub(in super::super) struct Numbers<'a> {
    text: &'a [u8],
}

impl<'a> Numbers<'a> {
    pub(in super::super) fn new(text: &'a str) -> Self {
        Self { text: text.as_bytes() }
    }

    fn skip(&mut self) {
        while let [b' ' | b'\t' | b'\n' | b'\r' | b',', rest @ ..] = self.text {
            self.text = rest;
        }
    }

    /// The next number, finite.
    pub(in super::super) fn next(&mut self) -> Option<f64> {
        self.skip();
        let (value, taken) = leading(self.text)?;
        self.text = &self.text[taken..];
        value.is_finite().then_some(value)
    }

    /// A flag of an arc, which may stand right before the next figure.
    fn flag(&mut self) -> Option<bool> {
        self.skip();
        let (first, rest) = self.text.split_first()?;
        self.text = rest;
        matches!(first, b'0' | b'1').then_some(*first == b'1')
    }

    /// The next letter of a command, if a letter comes next.
    fn letter(&mut self) -> Option<u8> {
        self.skip();
        let (&first, rest) = self.text.split_first().filter(|split| split.0.is_ascii_alphabetic())?;
        self.text = rest;
        Some(first)
    }

    fn is_done(&mut self) -> bool {
        self.skip();
        self.text.is_empty()
    }
}

/// The subpaths of path data, and whether each is closed.
pub(super) fn read(data: &str, line: usize) -> Result<Vec<(Vec<Stroke>, bool)>, DrawingError> {
    let fault = || DrawingError::Line { line, what: "has path data that cannot be read" };
    let mut numbers = Numbers::new(data);
    let mut pen = Pen::default();
    let mut command = None;
    while !numbers.is_done() {
        match (numbers.letter(), command) {
            (Some(letter), _) => command = Some(letter),
            // After a move come lines; nothing follows a close.
            (None, Some(b'M')) => command = Some(b'L'),
            (None, Some(b'm')) => command = Some(b'l'),
            (None, None | Some(b'Z' | b'z')) => return Err(fault()),
            _ => {}
        }
        let Some(letter) = command else { return Err(fault()) };
        pen.draw(letter, &mut numbers).ok_or_else(fault)?;
    }
    pen.lift(false);
    Ok(pen.paths)
}

#[derive(Default)]
struct Pen {
    paths: Vec<(Vec<Stroke>, bool)>,
    strokes: Vec<Stroke>,
    start: Point,
    at: Point,
    /// The last handle of a cubic or of a quadratic, for what continues it smoothly.
    handle: Option<(u8, Point)>,
}

impl Pen {
    fn lift(&mut self, closed: bool) {
        if closed && (self.at - self.start).hypot2() > 0.0 {
            self.strokes.push(Stroke::line(self.at, self.start));
        }
        let strokes = core::mem::take(&mut self.strokes);
        if !strokes.is_empty() {
            self.paths.push((strokes, closed));
        }
    }

    /// One command with its figures; none where they cannot be read.
    fn draw(&mut self, letter: u8, numbers: &mut Numbers<'_>) -> Option<()> {
        let from = if letter.is_ascii_lowercase() { self.at.to_vec2() } else { Vec2::ZERO };
        let point = |numbers: &mut Numbers<'_>| Some(Point::new(numbers.next()?, numbers.next()?) + from);
        let handle = self.handle.take();
        let mirrored = |kind: u8, at: Point| match handle {
            Some((of, place)) if of == kind => at + (at - place),
            _ => at,
        };
        match letter.to_ascii_uppercase() {
            b'M' => {
                self.lift(false);
                self.at = point(numbers)?;
                self.start = self.at;
            }
            b'Z' => {
                self.lift(true);
                self.at = self.start;
            }
            b'L' => self.line(point(numbers)?),
            b'H' => self.line(Point::new(numbers.next()? + from.x, self.at.y)),
            b'V' => self.line(Point::new(self.at.x, numbers.next()? + from.y)),
            b'C' => self.cubic(point(numbers)?, point(numbers)?, point(numbers)?),
            b'S' => self.cubic(mirrored(b'C', self.at), point(numbers)?, point(numbers)?),
            b'Q' => self.quadratic(point(numbers)?, point(numbers)?),
            b'T' => self.quadratic(mirrored(b'Q', self.at), point(numbers)?),
            b'A' => {
                let radii = (numbers.next()?, numbers.next()?);
                let turn = numbers.next()?.to_radians();
                let (large, sweep) = (numbers.flag()?, numbers.flag()?);
                let to = point(numbers)?;
                self.strokes.extend(elliptical(self.at, radii, turn, large, sweep, to));
                self.at = to;
            }
            _ => return None,
        }
        Some(())
    }

    fn line(&mut self, to: Point) {
        self.strokes.push(Stroke::line(self.at, to));
        self.at = to;
    }

    fn cubic(&mut self, p1: Point, p2: Point, to: Point) {
        self.strokes.push(Stroke::curve(CubicBez::new(self.at, p1, p2, to)));
        self.handle = Some((b'C', p2));
        self.at = to;
    }

    fn quadratic(&mut self, q: Point, to: Point) {
        let third = 2.0 / 3.0;
        self.cubic(self.at.lerp(q, third), to.lerp(q, third), to);
        self.handle = Some((b'Q', q));
    }
}

/// An arc of an ellipse between two points (SVG 1.1, F.6.5).
fn elliptical(
    from: Point,
    (rx, ry): (f64, f64),
    turn: f64,
    large: bool,
    sweep: bool,
    to: Point,
) -> Vec<Stroke> {
    let (rx, ry) = (rx.abs(), ry.abs());
    if !(rx > 0.0 && ry > 0.0) || (to - from).hypot2() <= 0.0 {
        return vec![Stroke::line(from, to)];
    }
    let (sin, cos) = real::sincos(turn);
    let half = (from - to) / 2.0;
    // In units of the radii, with the ellipse's axes as axes.
    let (x, y) = ((cos * half.x + sin * half.y) / rx, (cos * half.y - sin * half.x) / ry);
    let square = x * x + y * y;
    // Radii that are too small grow until the arc reaches.
    let grown = square.max(1.0).sqrt();
    let (rx, ry, x, y) = (rx * grown, ry * grown, x / grown, y / grown);
    let square = x * x + y * y;
    let off = ((1.0 - square).max(0.0) / square).sqrt() * if large == sweep { -1.0 } else { 1.0 };
    let (cx, cy) = (off * y, -off * x);
    let (u, v) = (Vec2::new(cos, sin) * rx, Vec2::new(-sin, cos) * ry);
    let centre = from.midpoint(to) + cx * u + cy * v;
    let start = real::atan2(y - cy, x - cx);
    let mut swept = real::atan2(-y - cy, -x - cx) - start;
    if sweep && swept < 0.0 {
        swept += TAU;
    } else if !sweep && swept > 0.0 {
        swept -= TAU;
    }
    let mut strokes = arc(centre, u, v, start, start + swept);
    if let Some(first) = strokes.first_mut() {
        first.curve.p0 = from;
    }
    if let Some(last) = strokes.last_mut() {
        last.curve.p3 = to;
    }
    strokes
}
