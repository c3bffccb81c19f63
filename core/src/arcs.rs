//! Chains of straight lines and circular arcs, in mm: what a template, a drawing file and a pair of compasses are made of.
//!
//! [`biarc`] turns a curve into such a chain within a stated accuracy, [`offset`] lays a parallel beside one, and [`markout`]
//! finds the shortest chain that is good enough to draw by hand.

pub mod biarc;
pub mod markout;
pub mod offset;

use crate::{outline::Half, real};
use core::f64::consts::FRAC_PI_6;
use kurbo::{BezPath, CubicBez, Point, Rect, Vec2};

/// A straight line or a circular arc of at most half a turn, from `p0` to `p1`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    /// Start.
    pub p0: Point,
    /// End.
    pub p1: Point,
    /// Tangent of a quarter of the included angle: 0 for a line, positive anticlockwise, at most 1 (half a turn) in size.
    pub bulge: f64,
}

impl Arc {
    /// A straight line.
    #[must_use]
    pub const fn line(p0: Point, p1: Point) -> Self {
        Self { p0, p1, bulge: 0.0 }
    }

    /// The arc that leaves `p0` along the unit vector `tangent` and ends in `p1`; more than half a turn if
    /// the tangent points away from `p1`, which callers exclude.
    #[must_use]
    pub fn leaving(p0: Point, tangent: Vec2, p1: Point) -> Self {
        let chord = p1 - p0;
        // Half the included angle lies between tangent and chord, and tan(a/2) = sin a / (1 + cos a).
        let bulge = tangent.cross(chord) / (length(chord) + tangent.dot(chord));
        Self { p0, p1, bulge: if bulge.is_finite() { bulge } else { 0.0 } }
    }

    /// The arc that arrives in `p1` along the unit vector `tangent`.
    #[must_use]
    pub fn arriving(p0: Point, p1: Point, tangent: Vec2) -> Self {
        Self::leaving(p1, -tangent, p0).reversed()
    }

    /// Whether it is a straight line.
    #[must_use]
    pub fn is_line(&self) -> bool {
        self.bulge.abs() <= 0.0
    }

    /// The same piece run the other way.
    #[must_use]
    pub const fn reversed(&self) -> Self {
        Self { p0: self.p1, p1: self.p0, bulge: -self.bulge }
    }

    /// The piece mirrored in the x axis and run the other way, so that a chain and its mirror close anticlockwise.
    #[must_use]
    pub const fn mirrored(&self) -> Self {
        Self {
            p0: Point::new(self.p1.x, -self.p1.y),
            p1: Point::new(self.p0.x, -self.p0.y),
            bulge: self.bulge,
        }
    }

    /// The included angle, in radians: positive anticlockwise, 0 for a line, -π to π.
    #[must_use]
    pub fn sweep(&self) -> f64 {
        4.0 * real::atan(self.bulge)
    }

    /// One over the radius, in 1/mm: positive anticlockwise, 0 for a line or where both ends are one point.
    #[must_use]
    pub fn curvature(&self) -> f64 {
        let chord = length(self.p1 - self.p0);
        if chord > 0.0 { 4.0 * self.bulge / (chord * (1.0 + self.bulge * self.bulge)) } else { 0.0 }
    }

    /// The radius in mm; none for a line.
    #[must_use]
    pub fn radius(&self) -> Option<f64> {
        let curvature = self.curvature().abs();
        (curvature > 0.0).then(|| 1.0 / curvature)
    }

    /// The centre; none for a line.
    #[must_use]
    pub fn centre(&self) -> Option<Point> {
        (self.curvature().abs() > 0.0).then(|| self.p0 + self.to_centre())
    }

    /// Length in mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        let chord = length(self.p1 - self.p0);
        let half = 0.5 * self.sweep();
        if half.abs() < 1e-8 { chord } else { chord * half / real::sin(half) }
    }

    /// Points along the piece, its start left out, whose chords stay within `accuracy` mm of it.
    pub fn flattened(&self, accuracy: f64) -> impl Iterator<Item = Point> + use<> {
        // The rise of an arc over a chord that turns by a is R·(1 − cos(a/2)), at most R·a²/8.
        let arc = *self;
        let most = self.radius().map_or(f64::INFINITY, |radius| (8.0 * accuracy / radius).sqrt());
        let steps = (self.sweep().abs() / most).ceil().max(1.0);
        core::iter::successors(Some(1.0), move |k| (*k < steps).then_some(k + 1.0))
            .map(move |k| if k < steps { arc.point(k / steps) } else { arc.p1 })
    }

    /// The same piece as cubic curves of at most 30° each, which lie within 4e-7 of the radius of it (the error of a
    /// quarter turn, 2.7e-4 of the radius, falls with the sixth power of the angle).
    pub fn cubics(&self) -> impl Iterator<Item = CubicBez> + use<> {
        let arc = *self;
        let parts = (self.sweep().abs() / FRAC_PI_6).ceil().max(1.0);
        core::iter::successors(Some(0.0), move |k| (k + 1.0 < parts).then_some(k + 1.0)).map(move |k| {
            let part = arc.between(k / parts, (k + 1.0) / parts);
            // Handles of 4/3·R·tan(a/4), which on a line are its thirds.
            let chord = length(part.p1 - part.p0);
            let third = chord * (1.0 + part.bulge * part.bulge) / 3.0;
            let (start, end) = (part.start_tangent(), part.end_tangent());
            CubicBez::new(part.p0, part.p0 + third * start, part.p1 - third * end, part.p1)
        })
    }

    /// The point at fraction `t` of the length, 0 to 1; beyond that on the same circle or line.
    #[must_use]
    pub fn point(&self, t: f64) -> Point {
        let chord = self.p1 - self.p0;
        let half = 0.5 * self.sweep();
        if half.abs() < 1e-8 {
            return self.p0 + t * chord;
        }
        // The chord from the start to the point, as a share of the whole chord: no centre, so no
        // cancellation on very flat arcs.
        let share = real::sin(t * half) / real::sin(half);
        self.p0 + turned(chord, (t - 1.0) * half) * share
    }

    /// The part between two fractions of the length, the smaller first.
    #[must_use]
    pub fn between(&self, from: f64, to: f64) -> Self {
        // A whole end stays the point it is, to the bit.
        let at = |t: f64| {
            if t <= 0.0 {
                self.p0
            } else if t >= 1.0 {
                self.p1
            } else {
                self.point(t)
            }
        };
        let bulge = real::tan((to - from) * real::atan(self.bulge));
        Self { p0: at(from), p1: at(to), bulge: if self.is_line() { 0.0 } else { bulge } }
    }

    /// Unit tangent at the start; zero where both ends are one point.
    #[must_use]
    pub fn start_tangent(&self) -> Vec2 {
        let (sin, cos) = self.half_angle();
        let chord = unit(self.p1 - self.p0);
        Vec2::new(chord.x * cos + chord.y * sin, chord.y * cos - chord.x * sin)
    }

    /// Unit tangent at the end; zero where both ends are one point.
    #[must_use]
    pub fn end_tangent(&self) -> Vec2 {
        -self.reversed().start_tangent()
    }

    /// Where it turns back along x or along y.
    fn turns(&self) -> impl Iterator<Item = Point> + use<> {
        let (arc, radius) = (*self, self.radius());
        let sides = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)].map(Vec2::from);
        let centre = arc.centre().unwrap_or(arc.p0);
        // A side of the circle lies on the arc if it is on the same side of the chord as the arc.
        let beyond = move |p: &Point| (arc.p1 - arc.p0).cross(*p - arc.p0) * arc.bulge < 0.0;
        let side = move |side: Vec2| centre + radius.unwrap_or(0.0) * side;
        sides.into_iter().filter(move |_| radius.is_some()).map(side).filter(beyond)
    }

    /// Distance from a point to the nearest point of the piece, in mm.
    #[must_use]
    pub fn distance(&self, p: Point) -> f64 {
        let (from0, from1) = (p - self.p0, p - self.p1);
        let beside = from0.dot(self.start_tangent()) > 0.0 && from1.dot(self.end_tangent()) < 0.0;
        if beside { self.signed_distance(p).abs() } else { length(from0).min(length(from1)) }
    }

    /// Distance from a point to the whole circle or line, in mm: positive on the left of a line, inside an
    /// anticlockwise and outside a clockwise circle.
    #[must_use]
    pub fn signed_distance(&self, p: Point) -> f64 {
        let v = p - self.p0;
        let curvature = self.curvature();
        if curvature.abs() <= 0.0 {
            return unit(self.p1 - self.p0).cross(v);
        }
        // (R² − |p − c|²) / (R + |p − c|), scaled by the curvature so that flat arcs keep all their digits.
        let normal = turn_left(self.start_tangent());
        let numerator = 2.0 * v.dot(normal) - curvature * v.hypot2();
        let scaled = normal - curvature * v;
        numerator / (1.0 + length(scaled))
    }

    /// From the start to the centre.
    fn to_centre(self) -> Vec2 {
        turn_left(self.start_tangent()) / self.curvature()
    }

    /// Sine and cosine of half the included angle, the angle between an end tangent and the chord.
    fn half_angle(self) -> (f64, f64) {
        let square = self.bulge * self.bulge;
        (2.0 * self.bulge / (1.0 + square), (1.0 - square) / (1.0 + square))
    }
}

/// The whole outline as lines and arcs, anticlockwise from the nose tip, within `accuracy` mm of the curve. Only the left half
/// is fitted, so that the right one is its exact mirror.
#[must_use]
pub fn outline(half: &Half, accuracy: f64) -> Vec<Arc> {
    let left = biarc::fit(half.path().segments(), accuracy);
    let to_tail = left.iter().rev().map(Arc::reversed);
    let to_nose = left.iter().map(|arc| arc.reversed().mirrored());
    to_tail.chain(to_nose).collect()
}

/// The area inside a closed chain, in mm²: positive if it runs anticlockwise.
#[must_use]
pub fn signed_area(chain: &[Arc]) -> f64 {
    // Coordinates count from the first point, which keeps digits far from the origin.
    let origin = chain.first().map_or(Point::ZERO, |arc| arc.p0);
    chain.iter().map(|arc| 0.5 * (arc.p0 - origin).cross(arc.p1 - origin) + segment_area(arc)).sum()
}

/// The rectangle that a chain just fits into; none for an empty chain.
#[must_use]
pub fn extent(chain: &[Arc]) -> Option<Rect> {
    let first = chain.first()?.p0;
    let start = Rect::from_points(first, first);
    Some(
        chain.iter().fold(start, |all, arc| arc.turns().fold(all.union_pt(arc.p1), |all, p| all.union_pt(p))),
    )
}

/// Distance from a point to the nearest point of a chain, in mm; infinite for an empty chain.
#[must_use]
pub fn distance(chain: &[Arc], p: Point) -> f64 {
    chain.iter().map(|arc| arc.distance(p)).fold(f64::INFINITY, f64::min)
}

/// Area between an arc and its chord, signed like its bulge.
fn segment_area(arc: &Arc) -> f64 {
    let chord = length(arc.p1 - arc.p0);
    let sweep = arc.sweep();
    if sweep.abs() < 1e-3 {
        return chord * chord * arc.bulge / 3.0; // a parabola: wrong by less than sweep²/20 of itself
    }
    let curvature = arc.curvature();
    if curvature.abs() > 0.0 { (sweep - real::sin(sweep)) / (2.0 * curvature * curvature) } else { 0.0 }
}

fn length(v: Vec2) -> f64 {
    real::hypot(v.x, v.y)
}

/// The direction of a vector; zero for a zero vector.
fn unit(v: Vec2) -> Vec2 {
    let length = length(v);
    if length > 0.0 { v / length } else { Vec2::ZERO }
}

/// A quarter turn anticlockwise.
const fn turn_left(v: Vec2) -> Vec2 {
    Vec2::new(-v.y, v.x)
}

fn turned(v: Vec2, angle: f64) -> Vec2 {
    let (sin, cos) = (real::sin(angle), real::cos(angle));
    Vec2::new(v.x * cos - v.y * sin, v.x * sin + v.y * cos)
}

/// Adds a chain of lines and arcs to a path, its arcs as [cubics](Arc::cubics).
pub(crate) fn trace(path: &mut BezPath, chain: &[Arc]) {
    if let Some(first) = chain.first() {
        path.move_to(first.p0);
    }
    for arc in chain {
        if arc.is_line() {
            path.line_to(arc.p1);
        } else {
            arc.cubics().for_each(|cubic| path.curve_to(cubic.p1, cubic.p2, cubic.p3));
        }
    }
}

#[cfg(test)]
mod tests;
