//! Curves as a DXF file has them: polylines of lines and arcs, and splines.

use super::{Curves, DxfOptions, Place, Release, tags::Tags};
use crate::{
    arcs::{self, Arc},
    format::drawing::Entity,
    outline::Half,
};
use kurbo::{CubicBez, ParamCurve, PathSeg, Point};

/// A curve in the form that is written, and whether it is closed.
pub(super) enum Course {
    /// Lines and arcs.
    Chain(Vec<Arc>, bool),
    /// The control points of cubics, each ending where the next begins.
    Spline(Vec<Point>, bool),
}

/// A closed curve, in group 70 of a polyline or a spline.
const CLOSED: u8 = 1;

impl Course {
    /// The course of a curve; that of anything else is empty.
    pub(super) fn of(entity: &Entity, options: &DxfOptions) -> Self {
        let DxfOptions { curves, tolerance, .. } = *options;
        match entity {
            Entity::Symmetric(half) => match curves {
                Curves::Splines => Self::Spline(spline(cubics_of(half)), true),
                Curves::Arcs => Self::Chain(arcs::outline(half, tolerance), true),
                // Half for the arcs, and half for the chords of the arcs.
                Curves::Lines => {
                    Self::Chain(lines(&arcs::outline(half, tolerance / 2.0), tolerance / 2.0), true)
                }
            },
            Entity::Chain(chain) => Self::of_chain(chain, true, options),
            Entity::Open(chain) => Self::of_chain(chain, false, options),
            Entity::Polygon(corners) => {
                let next = corners.iter().cycle().skip(1);
                let sides = corners.iter().zip(next).map(|(a, b)| Arc::line(*a, *b));
                Self::Chain(sides.collect(), true)
            }
            Entity::Circle { .. } | Entity::Line(..) | Entity::Text { .. } => Self::Chain(Vec::new(), false),
        }
    }

    fn of_chain(chain: &[Arc], closed: bool, options: &DxfOptions) -> Self {
        match options.curves {
            Curves::Arcs => Self::Chain(chain.to_vec(), closed),
            Curves::Lines => Self::Chain(lines(chain, options.tolerance), closed),
            Curves::Splines => Self::Spline(spline(chain.iter().flat_map(Arc::cubics)), closed),
        }
    }
}

/// A chain with its arcs as chords.
fn lines(chain: &[Arc], accuracy: f64) -> Vec<Arc> {
    let mut lines = Vec::new();
    for arc in chain {
        let mut from = arc.p0;
        for to in arc.flattened(accuracy) {
            lines.push(Arc::line(from, to));
            from = to;
        }
    }
    lines
}

/// The cubics of the whole outline, anticlockwise from the nose tip.
fn cubics_of(half: &Half) -> impl Iterator<Item = CubicBez> {
    let path = half.closed();
    let cubics: Vec<CubicBez> = path.segments().map(|segment| cubic(&segment)).collect();
    cubics.into_iter()
}

fn cubic(segment: &PathSeg) -> CubicBez {
    match segment {
        PathSeg::Cubic(cubic) => *cubic,
        PathSeg::Quad(quad) => quad.raise(),
        PathSeg::Line(line) => CubicBez::new(line.p0, line.eval(1.0 / 3.0), line.eval(2.0 / 3.0), line.p1),
    }
}

fn spline(cubics: impl Iterator<Item = CubicBez>) -> Vec<Point> {
    let mut places = Vec::new();
    for cubic in cubics {
        if places.is_empty() {
            places.push(cubic.p0);
        }
        places.extend([cubic.p1, cubic.p2, cubic.p3]);
    }
    places
}

impl Place<'_> {
    /// A polyline along a chain. The last piece of a closed one ends where the first begins, so no point is said twice.
    pub(super) fn polyline(&self, tags: &mut Tags, chain: &[Arc], closed: bool) {
        let end = chain.last().filter(|_| !closed).map(|arc| Arc::line(arc.p1, arc.p1));
        let vertices = || chain.iter().chain(&end);
        let flags = if closed { CLOSED } else { 0 };
        if self.options.release == Release::R12 {
            self.start(tags, "POLYLINE", "");
            tags.put(66, 1); // vertices follow
            tags.point(10, Point::ZERO);
            tags.put(70, flags);
            for arc in vertices() {
                self.start(tags, "VERTEX", "");
                tags.point(10, arc.p0);
                bulge(tags, arc);
            }
            self.start(tags, "SEQEND", "");
            return;
        }
        self.start(tags, "LWPOLYLINE", "AcDbPolyline");
        tags.put(90, vertices().count());
        tags.put(70, flags);
        tags.number(43, 0.0); // no width
        for arc in vertices() {
            tags.vertex(arc.p0);
            bulge(tags, arc);
        }
    }

    /// A cubic spline through control points of cubics: its knots are threefold where two of them meet.
    pub(super) fn spline(&self, tags: &mut Tags, places: &[Point], closed: bool) {
        const PLANAR: u8 = 8;
        const DEGREE: usize = 3;
        let cubics = places.len() / DEGREE;
        self.start(tags, "SPLINE", "AcDbSpline");
        for (code, part) in [(210, 0.0), (220, 0.0), (230, 1.0)] {
            tags.number(code, part); // the plane it lies in
        }
        tags.put(70, PLANAR + if closed { CLOSED } else { 0 });
        tags.put(71, DEGREE);
        tags.put(72, places.len() + DEGREE + 1);
        tags.put(73, places.len());
        tags.put(74, 0); // no points to fit
        for knot in 0..=cubics {
            let times = if knot == 0 || knot == cubics { DEGREE + 1 } else { DEGREE };
            (0..times).for_each(|_| tags.number(40, knot as f64));
        }
        places.iter().for_each(|p| tags.point(10, *p));
    }
}

fn bulge(tags: &mut Tags, arc: &Arc) {
    if !arc.is_line() {
        tags.bulge(arc.bulge);
    }
}
