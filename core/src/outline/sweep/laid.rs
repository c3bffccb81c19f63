//! The course of a laid span: the sweep between its marks, taken to its nodes.

use crate::{
    curve::spiral::Spiral,
    outline::{Course, Outline, Span},
    real,
};
use core::f64::consts::PI;
use kurbo::{CubicBez, Point, Vec2};

/// A stretch of a sweep where it is laid, tail to nose.
#[derive(Clone, Debug)]
pub struct Laid {
    /// Lines, cubics and spirals, each from where the one before ends.
    pub(in crate::outline) parts: Vec<Course>,
    /// The two nodes.
    pub(in crate::outline) ends: [Point; 2],
}

/// The similarity that takes a sweep's frame to the deck.
#[derive(Clone, Copy, Debug)]
struct Placing {
    /// The point of the frame that goes to `to`.
    from: Point,
    to: Point,
    /// Whether the frame is turned over first, y to −y.
    flip: bool,
    /// The vector that a unit of the frame along x becomes.
    unit: Vec2,
    /// The angle by which the frame is turned then, radians.
    turn: f64,
}

impl Placing {
    fn vector(&self, v: Vec2) -> Vec2 {
        let (x, y) = (v.x, if self.flip { -v.y } else { v.y });
        Vec2::new(self.unit.x * x - self.unit.y * y, self.unit.x * y + self.unit.y * x)
    }

    fn point(&self, p: Point) -> Point {
        self.to + self.vector(p - self.from)
    }

    fn angle(&self, angle: f64) -> f64 {
        self.turn + if self.flip { -angle } else { angle }
    }

    fn course(&self, course: &Course) -> Option<Course> {
        let cubic = |c: &CubicBez| {
            CubicBez::new(self.point(c.p0), self.point(c.p1), self.point(c.p2), self.point(c.p3))
        };
        match course {
            Course::Line(curve) => Some(Course::Line(cubic(curve))),
            Course::Cubic(curve) => Some(Course::Cubic(cubic(curve))),
            Course::Spiral(spiral) => {
                let scale = self.unit.hypot2().sqrt();
                let bend = if self.flip { -1.0 } else { 1.0 } / scale;
                let (start, angle) = (self.point(spiral.start()), self.angle(spiral.angle(0.0)));
                let (curvature, rate) = (bend * spiral.curvature(0.0), bend * spiral.rate() / scale);
                Spiral::from_start(start, angle, curvature, rate, scale * spiral.length()).map(Course::Spiral)
            }
            Course::Laid(_) => None, // a sweep has none
        }
    }
}

impl Outline {
    /// The similarity of laid span `s`, and its two marks in the order in which they are passed.
    fn placing(&self, s: usize) -> Option<(Placing, [f64; 2])> {
        let Span::Laid { sweep, from, to, flip, reverse } = *self.spans.get(s)? else { return None };
        let sweep = self.sweeps.get(sweep)?;
        let marks = if reverse { [to, from] } else { [from, to] };
        let [a, b] = marks.map(|mark| sweep.point(mark));
        let (p, q) = (self.nodes[s].place, self.nodes[s + 1].place);
        let chord = Vec2::new(b.x - a.x, if flip { a.y - b.y } else { b.y - a.y });
        let wanted = q - p;
        let square = chord.hypot2();
        let unit = Vec2::new(wanted.dot(chord), chord.cross(wanted)) / square;
        let turn = real::direction(unit);
        (unit.is_finite() && unit.hypot2() > 0.0)
            .then_some((Placing { from: a, to: p, flip, unit, turn }, marks))
    }

    /// The course of laid span `s`; `None` where it is none, or lies on marks that no design has.
    pub(in crate::outline) fn laid(&self, s: usize) -> Option<Laid> {
        let (placing, _) = self.placing(s)?;
        let Span::Laid { sweep, from, to, reverse, .. } = self.spans[s] else { return None };
        let mut stretch = self.sweeps[sweep].stretch(from, to);
        if reverse {
            stretch.reverse();
        }
        let mut parts = Vec::with_capacity(stretch.len());
        for course in stretch {
            let course = if reverse { course.reversed()? } else { course };
            parts.push(placing.course(&course)?);
        }
        let ends = [self.nodes[s].place, self.nodes[s + 1].place];
        (!parts.is_empty()).then_some(Laid { parts, ends })
    }

    /// The tangent direction at the two ends of laid span `s`, radians.
    pub(in crate::outline) fn laid_tangents(&self, s: usize) -> Option<[f64; 2]> {
        let (placing, marks) = self.placing(s)?;
        let Span::Laid { sweep, reverse, .. } = self.spans[s] else { return None };
        let back = if reverse { PI } else { 0.0 };
        let sweep = &self.sweeps[sweep];
        Some(marks.map(|mark| real::wrapped(placing.angle(sweep.angle(mark) + back))))
    }

    /// The mark at the parameter `t` of laid span `s`.
    pub(in crate::outline) fn mark_at(&self, s: usize, t: f64) -> Option<f64> {
        let Span::Laid { from, to, reverse, .. } = *self.spans.get(s)? else { return None };
        let along = Course::Laid(self.laid(s)?).length_to(t);
        Some(if reverse { to - along } else { from + along })
    }
}

impl Laid {
    /// The part that the parameter `t` falls into, and the parameter there.
    fn at(&self, t: f64) -> (usize, f64) {
        let share = real::clamp(t, 0.0, 1.0) * self.parts.len() as f64;
        let part = (0..self.parts.len() - 1).take_while(|&i| (i + 1) as f64 <= share).count();
        (part, share - part as f64)
    }

    /// The point at `t`.
    pub(in crate::outline) fn point(&self, t: f64) -> Point {
        if t <= 0.0 {
            return self.ends[0];
        } else if t >= 1.0 {
            return self.ends[1];
        }
        let (part, u) = self.at(t);
        self.parts[part].point(u)
    }

    /// The tangent direction at `t`, radians.
    pub(in crate::outline) fn tangent(&self, t: f64) -> f64 {
        let (part, u) = self.at(t);
        real::wrapped(self.parts[part].tangent(u))
    }

    /// The parameter at `u` of a part.
    pub(in crate::outline) fn parameter(&self, part: usize, u: f64) -> f64 {
        (part as f64 + u) / self.parts.len() as f64
    }

    /// Arc length from its start to `t`, mm.
    pub(in crate::outline) fn length_to(&self, t: f64) -> f64 {
        let (part, u) = self.at(t);
        let before: f64 = self.parts[..part].iter().map(|course| course.length_to(1.0)).sum();
        before + self.parts[part].length_to(u)
    }

    /// Makes a run of cubics begin and end at the nodes and go on unbroken, to the bit.
    pub(in crate::outline) fn join<'a>(&self, curves: impl Iterator<Item = &'a mut CubicBez>) {
        let mut from = self.ends[0];
        let mut last = None;
        for curve in curves {
            curve.p0 = from;
            from = curve.p3;
            last = Some(&mut curve.p3);
        }
        if let Some(end) = last {
            *end = self.ends[1];
        }
    }
}
