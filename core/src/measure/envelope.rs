//! The half-breadth as a function of the station.

use crate::{
    order::sort_by_number,
    outline::{
        Half,
        resolve::{coefficients, monotone_parts},
    },
    real,
    roots::monotone_cubic_root,
    tolerance,
};
use kurbo::{CubicBez, ParamCurve, Point};

/// The largest distance of the half outline from the centreline at every station, as monotone stretches tail to nose.
#[derive(Clone, Debug)]
pub struct Envelope {
    stretches: Vec<Stretch>,
}

/// A part of the half outline that is monotone in x and in y and is the outermost there.
#[derive(Clone, Copy, Debug)]
pub struct Stretch {
    /// Its tailward end.
    pub start: Point,
    /// Its noseward end.
    pub end: Point,
    /// The monotone part of a cubic it lies on; may reach beyond both ends.
    curve: CubicBez,
}

impl Envelope {
    /// The envelope of a half outline.
    #[must_use]
    pub fn of(half: &Half) -> Self {
        let mut parts: Vec<Stretch> = Vec::with_capacity(2 * half.pieces().len());
        for piece in half.pieces() {
            for (_, _, part) in monotone_parts(&piece.curve) {
                if (part.p3.x - part.p0.x).abs() > 0.0 {
                    parts.push(Stretch::whole(part));
                }
            }
        }
        let in_order = parts.windows(2).all(|pair| pair[0].end.x <= pair[1].start.x);
        Self { stretches: if in_order { parts } else { outermost(&parts) } }
    }

    /// The stretches, tail to nose. Where the outline folds back the half-breadth may jump between two.
    #[must_use]
    pub fn stretches(&self) -> &[Stretch] {
        &self.stretches
    }

    /// The half-breadth at station `x`, mm; `None` beyond the ends.
    #[must_use]
    pub fn half_breadth(&self, x: f64) -> Option<f64> {
        let first = self.stretches.partition_point(|s| s.end.x < x);
        let reaching = self.stretches[first..].iter().take_while(|s| s.start.x <= x);
        reaching.map(|s| s.height_at(x)).fold(None, |most, y| Some(most.map_or(y, |m: f64| m.max(y))))
    }

    /// The largest half-breadth, mm.
    #[must_use]
    pub fn largest(&self) -> f64 {
        self.stretches.iter().map(|s| s.start.y.max(s.end.y)).fold(0.0, f64::max)
    }

    /// The noseward end: the farthest point, of several the outermost.
    #[must_use]
    pub(super) fn nose_end(&self) -> Point {
        self.stretches.last().map_or(Point::ORIGIN, |stretch| stretch.end)
    }

    /// The envelope with nose and tail exchanged.
    #[must_use]
    pub fn turned(&self) -> Self {
        Self { stretches: self.stretches.iter().rev().map(Stretch::turned).collect() }
    }
}

impl Stretch {
    fn whole(part: CubicBez) -> Self {
        let (start, end) = if part.p0.x <= part.p3.x { (part.p0, part.p3) } else { (part.p3, part.p0) };
        Self { start, end, curve: part }
    }

    fn turned(&self) -> Self {
        let turn = |p: Point| Point::new(-p.x, p.y);
        let CubicBez { p0, p1, p2, p3 } = self.curve;
        Self {
            start: turn(self.end),
            end: turn(self.start),
            curve: CubicBez::new(turn(p3), turn(p2), turn(p1), turn(p0)),
        }
    }

    /// The height at station `x` within the stretch, mm.
    #[must_use]
    pub fn height_at(&self, x: f64) -> f64 {
        if x <= self.start.x {
            return self.start.y;
        }
        if x >= self.end.x {
            return self.end.y;
        }
        self.curve.eval(self.parameter_at(x)).y
    }

    /// The station within the stretch at which it stands at height `y`, mm; `y` must lie between its ends' heights.
    #[must_use]
    pub fn station_at(&self, y: f64) -> f64 {
        let [c0, c1, c2, c3] = coefficients(&self.curve).map(|c| c.y);
        let t = monotone_cubic_root([c0 - y, c1, c2, c3], 0.0, 1.0);
        real::clamp(self.curve.eval(t).x, self.start.x, self.end.x)
    }

    /// The curve of the stretch between two stations, tailward end first; `None` where it does not reach into them.
    #[must_use]
    pub fn between(&self, from: f64, to: f64) -> Option<CubicBez> {
        let (from, to) = (from.max(self.start.x), to.min(self.end.x));
        (from < to).then(|| self.curve.subsegment(self.parameter_at(from)..self.parameter_at(to)))
    }

    /// The curve's parameter at station `x`, which it reaches once.
    fn parameter_at(&self, x: f64) -> f64 {
        let [c0, c1, c2, c3] = coefficients(&self.curve).map(|c| c.x);
        monotone_cubic_root([c0 - x, c1, c2, c3], 0.0, 1.0)
    }
}

/// The outermost stretches of parts that overlap in x: between two neighbouring part ends the parts do not cross (the
/// outline is simple), so the one that is highest in the middle is highest throughout.
fn outermost(parts: &[Stretch]) -> Vec<Stretch> {
    let mut stations: Vec<f64> = parts.iter().flat_map(|s| [s.start.x, s.end.x]).collect();
    sort_by_number(&mut stations, |x| *x);
    stations.dedup_by(|a, b| (*a - *b).abs() < tolerance::PARAMETER);
    let mut between = Vec::new();
    for pair in stations.windows(2) {
        let (from, to) = (pair[0], pair[1]);
        let middle = from + (to - from) / 2.0;
        let over = parts.iter().filter(|s| s.start.x <= middle && middle <= s.end.x);
        if let Some(top) = over.max_by(|a, b| a.height_at(middle).total_cmp(&b.height_at(middle))) {
            let at = |x: f64| Point::new(x, top.height_at(x));
            between.push(Stretch { start: at(from), end: at(to), curve: top.curve });
        }
    }
    between
}
