//! Lines and curves of a drawing, all as cubics.

use crate::real;
use core::f64::consts::PI;
use kurbo::{Affine, CubicBez, ParamCurve, Point, Vec2};

/// Widest arc that one cubic stands for: it is then a millionth of a millimetre off on a radius of half a metre.
const WIDEST: f64 = PI / 12.0;

/// One line or curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stroke {
    pub(super) curve: CubicBez,
    pub(super) straight: bool,
}

/// Strokes that follow one another.
#[derive(Clone, Debug)]
pub(super) struct Contour {
    pub(super) strokes: Vec<Stroke>,
    pub(super) closed: bool,
    /// Whether its layer or group is named after the outline.
    pub(super) named: bool,
}

impl Stroke {
    pub(super) fn line(from: Point, to: Point) -> Self {
        let curve = CubicBez::new(from, from.lerp(to, 1.0 / 3.0), from.lerp(to, 2.0 / 3.0), to);
        Self { curve, straight: true }
    }

    pub(super) fn curve(curve: CubicBez) -> Self {
        Self { curve, straight: false }
    }

    /// The cubic through four places at the thirds of its parameter.
    pub(super) fn through([p, q, r, s]: [Point; 4]) -> Self {
        let [a, b, c, d] = [p, q, r, s].map(Point::to_vec2);
        let p1 = (18.0 * b - 5.0 * a - 9.0 * c + 2.0 * d) / 6.0;
        let p2 = (18.0 * c - 5.0 * d - 9.0 * b + 2.0 * a) / 6.0;
        Self::curve(CubicBez::new(p, p1.to_point(), p2.to_point(), s))
    }

    pub(super) fn length(&self) -> f64 {
        // By five chords: good enough to weigh strokes by.
        let points: [Point; 6] = core::array::from_fn(|i| self.curve.eval(i as f64 / 5.0));
        points.windows(2).map(|pair| (pair[1] - pair[0]).hypot2().sqrt()).sum()
    }

    fn reversed(&self) -> Self {
        let CubicBez { p0, p1, p2, p3 } = self.curve;
        Self { curve: CubicBez::new(p3, p2, p1, p0), ..*self }
    }
}

/// An arc of an ellipse as strokes: `centre` + cos·`u` + sin·`v`, turned from one angle to another, radians.
pub(super) fn arc(centre: Point, u: Vec2, v: Vec2, from: f64, to: f64) -> Vec<Stroke> {
    let turn = real::clamp(to - from, -2.0 * PI, 2.0 * PI);
    if turn.abs() <= 0.0 || turn.is_nan() {
        return Vec::new();
    }
    let mut parts = 1_u32;
    while turn.abs() > f64::from(parts) * WIDEST {
        parts += 1;
    }
    let step = turn / f64::from(parts);
    let handle = 4.0 / 3.0 * real::tan(step / 4.0);
    let at = |k: u32| {
        let (sin, cos) = real::sincos(from + step * f64::from(k));
        (centre + cos * u + sin * v, cos * v - sin * u)
    };
    let part = |k: u32| {
        let ((a, leaves), (b, arrives)) = (at(k), at(k + 1));
        Stroke::curve(CubicBez::new(a, a + handle * leaves, b - handle * arrives, b))
    };
    (0..parts).map(part).collect()
}

impl Contour {
    pub(super) fn start(&self) -> Option<Point> {
        self.strokes.first().map(|stroke| stroke.curve.p0)
    }

    pub(super) fn end(&self) -> Option<Point> {
        self.strokes.last().map(|stroke| stroke.curve.p3)
    }

    pub(super) fn reverse(&mut self) {
        self.strokes.reverse();
        for stroke in &mut self.strokes {
            *stroke = stroke.reversed();
        }
    }

    pub(super) fn map(&mut self, by: Affine) {
        for stroke in &mut self.strokes {
            stroke.curve = by * stroke.curve;
        }
    }

    /// Goes straight back to the start, where it does not end there.
    pub(super) fn close(&mut self) {
        if let (Some(start), Some(end)) = (self.start(), self.end())
            && (end - start).hypot2() > 0.0
        {
            self.strokes.push(Stroke::line(end, start));
        }
        self.closed = true;
    }

    /// The signed area, anticlockwise positive, exact for cubics (Green's theorem).
    pub(super) fn area(&self) -> f64 {
        use kurbo::ParamCurveArea;
        self.strokes.iter().map(|stroke| stroke.curve.signed_area()).sum()
    }
}
