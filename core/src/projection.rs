//! The two outlines of one deck: on the developed sheet, and in plan, seen from straight above.
//!
//! A flexible pattern laid on the top face needs the first; a machine, a photograph or callipers on the pressed blank
//! show the second. Every export is of one of them and says which.

use crate::{
    design::Shape,
    outline::{Half, Piece},
    tolerance,
};
use kurbo::{CubicBez, ParamCurve, Point, Vec2};

/// Which of the two.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Projection {
    /// The flat sheet: as measured along the top face.
    #[default]
    Developed,
    /// Seen from straight above: shorter on the kicks, narrower in the concave.
    Plan,
}

impl Projection {
    /// Its name in files and scripts.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Developed => "developed",
            Self::Plan => "plan",
        }
    }

    /// What is written on everything drawn in it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Developed => "DEVELOPED",
            Self::Plan => "PLAN",
        }
    }

    /// What that means, in a few words.
    #[must_use]
    pub fn meaning(self) -> &'static str {
        match self {
            Self::Developed => "flat pattern along the top face",
            Self::Plan => "seen from straight above, for a pressed blank",
        }
    }

    /// The half outline, mm; in plan as cubics within [`tolerance::PLAN`] of the true one.
    #[must_use]
    pub fn half(self, shape: &Shape) -> Half {
        let developed = shape.outline.resolve();
        match self {
            Self::Developed => developed,
            Self::Plan => plan(&developed, shape),
        }
    }

    /// A point of the sheet, mm.
    #[must_use]
    pub fn point(self, shape: &Shape, p: Point) -> Point {
        match self {
            Self::Developed => p,
            Self::Plan => shape.profile.plan(&shape.datum, p),
        }
    }
}

/// Step of a parameter for its derivative: a micrometre on a span of a hundred millimetres. Errors of the formula, which go
/// with its square, and of rounding, which go with its inverse, both stay below [`tolerance::TANGENT`].
const STEP: f64 = 1e-5;
/// Distance from the end of a stretch at which it is looked at, as a share of it: where a concave ends without a fade, the
/// edge seen from above jumps there.
const INSIDE: f64 = 1e-9;
/// Halvings of a stretch at the most; a stretch of a metre is then a micrometre long, and a line.
const MOST_HALVINGS: u32 = 20;
/// Handles of a tip this near to square, as the tangent of the angle, are square: derivatives are not exact.
const SQUARE: f64 = 1e-6;
/// A straight stretch that stays this near to its chord, mm, is straight from above too.
const STRAIGHT: f64 = 1e-6;
/// Stretches shorter than this in the parameter are none.
const SHORTEST: f64 = 1e-6;
/// Ends of neighbouring stretches this near, mm, are one point.
const SAME: f64 = 1e-5;

fn plan(developed: &Half, shape: &Shape) -> Half {
    let mut pieces: Vec<Piece> = Vec::new();
    let stations = changes(shape);
    for piece in developed.pieces() {
        let mut cuts = Vec::new();
        for x in &stations {
            cuts.extend(piece.at_x(*x));
        }
        crate::order::sort_by_number(&mut cuts, |t| *t);
        cuts.push(1.0);
        let mut from = 0.0;
        for to in cuts {
            if to - from > SHORTEST {
                Above { piece, shape, pieces: &mut pieces }.follow(from, to, MOST_HALVINGS);
                from = to;
            }
        }
    }
    tidy_tips(&mut pieces);
    Half::from_pieces(pieces)
}

/// Stations at which the pressed shape changes its law.
fn changes(shape: &Shape) -> Vec<f64> {
    let mut changes = Vec::new();
    for (kick, sign) in [(&shape.profile.nose, 1.0), (&shape.profile.tail, -1.0)] {
        if kick.kicks() {
            let bend = shape.datum.outer_row() + kick.bend_line;
            let stations = [bend - shape.profile.concave_fade, bend, bend + kick.radius * kick.angle];
            changes.extend_from_slice(&stations.map(|x| sign * x));
        }
    }
    changes
}

/// A piece of the sheet as seen from above, on its way into cubics.
struct Above<'a> {
    piece: &'a Piece,
    shape: &'a Shape,
    pieces: &'a mut Vec<Piece>,
}

impl Above<'_> {
    fn point(&self, t: f64) -> Point {
        self.shape.profile.plan(&self.shape.datum, self.piece.curve.eval(t))
    }

    /// The derivative at `t` from three places, `step` apart, on one side of it.
    fn velocity(&self, t: f64, step: f64) -> Vec2 {
        let [p, q, r] = [t, t + step, t + 2.0 * step].map(|t| self.point(t).to_vec2());
        (4.0 * q - 3.0 * p - r) / (2.0 * step)
    }

    /// Halves a stretch until the cubic with its ends and derivatives follows it.
    fn follow(&mut self, from: f64, to: f64, halvings: u32) {
        let inside = INSIDE * (to - from);
        let (a, b) = (from + inside, to - inside);
        let (p0, p3) = (self.point(a), self.point(b));
        let third = (to - from) / 3.0;
        let step = STEP.min(third);
        let curve =
            CubicBez::new(p0, p0 + third * self.velocity(a, step), p3 - third * self.velocity(b, -step), p3);
        if self.is_straight(from, to, p0, p3) || halvings == 0 {
            let thirds = CubicBez::new(p0, p0.lerp(p3, 1.0 / 3.0), p0.lerp(p3, 2.0 / 3.0), p3);
            self.push(thirds, true);
        } else if self.follows(&curve, from, to) {
            self.push(curve, false);
        } else {
            let middle = f64::midpoint(from, to);
            self.follow(from, middle, halvings - 1);
            self.follow(middle, to, halvings - 1);
        }
    }

    fn is_straight(&self, from: f64, to: f64, p0: Point, p3: Point) -> bool {
        let along = p3 - p0;
        let flat = |t: f64| (self.point(t) - p0).cross(along).abs() <= STRAIGHT * along.hypot2().sqrt();
        self.piece.straight && samples(from, to).all(|(_, t)| flat(t))
    }

    fn follows(&self, curve: &CubicBez, from: f64, to: f64) -> bool {
        samples(from, to)
            .all(|(u, t)| (curve.eval(u) - self.point(t)).hypot2() <= tolerance::PLAN * tolerance::PLAN)
    }

    fn push(&mut self, mut curve: CubicBez, straight: bool) {
        if let Some(last) = self.pieces.last().map(|last| last.curve.p3) {
            let gap = curve.p0 - last;
            if gap.hypot2() <= SAME * SAME {
                curve.p0 = last;
            } else {
                let jump = CubicBez::new(last, last + gap / 3.0, last + gap * (2.0 / 3.0), curve.p0);
                self.pieces.push(Piece { curve: jump, straight: true, bends: None, ..*self.piece });
            }
        }
        self.pieces.push(Piece { curve, straight, bends: None, ..*self.piece });
    }
}

/// Places between two parameters: as a share of the way, and as a parameter.
fn samples(from: f64, to: f64) -> impl Iterator<Item = (f64, f64)> {
    const SAMPLES: u32 = 8;
    (1..SAMPLES).map(move |k| {
        let u = f64::from(k) / f64::from(SAMPLES);
        (u, from + u * (to - from))
    })
}

/// Puts the tips on the centreline to the bit, and square where they were.
fn tidy_tips(pieces: &mut [Piece]) {
    let square = |tip: Point, handle: Point| {
        let off = handle - tip;
        if off.x.abs() <= SQUARE * off.y.abs() { Point::new(tip.x, handle.y) } else { handle }
    };
    if let Some(Piece { curve, .. }) = pieces.first_mut() {
        curve.p0.y = 0.0;
        curve.p1 = square(curve.p0, curve.p1);
    }
    if let Some(Piece { curve, .. }) = pieces.last_mut() {
        curve.p3.y = 0.0;
        curve.p2 = square(curve.p3, curve.p2);
    }
}

#[cfg(test)]
mod tests;
