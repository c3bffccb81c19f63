//! The pressed deck as a line drawing: facets in a few tints, the plies in the edge, holes and bend lines.

use super::{
    Solid, Spot, Stand, plies,
    sheet::{Rim, Slab, is_square},
};
use crate::{
    layup::Grain,
    order::sort_by_number,
    real,
    scene::{Item, Mark, Role, Scene},
    view::{Margins, View},
};
use core::f64::consts::TAU;
use kurbo::{BezPath, Point, Rect, Size};

/// How much is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Detail {
    /// All of it.
    Full,
    /// What is needed while the deck turns under a finger.
    Light,
}

impl Detail {
    /// How far the edge may lie from its chords, mm.
    #[must_use]
    pub fn chord(self) -> f64 {
        if self == Self::Full { 0.25 } else { 1.5 }
    }

    /// Width of a lane, mm.
    fn lane(self) -> f64 {
        if self == Self::Full { 26.0 } else { 55.0 }
    }
}

/// White round the picture, px.
const MARGIN: f64 = 10.0;
/// How much nearer than side-on the deck may come where it stands end-on and there is room.
const NEARER: f64 = 1.6;
/// Corners of a bolt hole.
const CORNERS: u32 = 12;
/// Tints: a facet in full light has the first.
const TINTS: f64 = 5.0;

/// The picture in a frame of that size, and the window onto it.
#[must_use]
pub fn picture(solid: &Solid<'_>, stand: Stand, station: f64, detail: Detail, size: Size) -> (Scene, View) {
    let axes = stand.axes();
    let [right, up, eye] = axes;
    let mut painter = Painter {
        solid,
        stand,
        eye,
        light: (right * -0.35 + up * 0.55 + eye * 0.75).unit(),
        detail,
        items: Vec::new(),
        extent: Rect::new(f64::MAX, f64::MAX, f64::MIN, f64::MIN),
    };
    painter.paint(station);
    let margins = Margins { left: MARGIN, right: MARGIN, top: MARGIN, bottom: MARGIN };
    let mut view = View::fitted(size, false, painter.extent, margins);
    let stations = &solid.sheet.stations;
    let length = stations.last().zip(stations.first()).map_or(1.0, |(nose, tail)| nose - tail);
    view.scale = view.scale.min(NEARER * size.width / length);
    (Scene { items: painter.items }, view)
}

struct Painter<'a> {
    solid: &'a Solid<'a>,
    stand: Stand,
    eye: Spot,
    light: Spot,
    detail: Detail,
    items: Vec<Item>,
    extent: Rect,
}

/// The corners of a slab's strip: at each of the two stations from its right edge to its left one, above and below.
struct Strip {
    above: [Vec<Spot>; 2],
    below: [Vec<Spot>; 2],
}

/// What is drawn next on the way toward the eye.
enum Part<'a> {
    Slab(&'a Slab),
    /// A stretch of the edge that stands square to the centreline.
    Wall([Point; 2]),
}

/// Both ends of an edge of a slab.
fn ends(slab: &Slab, rim: Rim) -> [Point; 2] {
    [0, 1].map(|end| Point::new(slab.x[end], rim.y[end]))
}

impl Painter<'_> {
    /// Draws all, the farthest first.
    fn paint(&mut self, station: f64) {
        let toward = if self.eye.x < 0.0 { -1.0 } else { 1.0 };
        let sheet = &self.solid.sheet;
        let mut parts: Vec<(f64, Part<'_>)> =
            sheet.slabs.iter().map(|slab| (slab.x[0] + slab.x[1], Part::Slab(slab))).collect();
        for pair in sheet.chain.windows(2) {
            let pair = [pair[0], pair[1]];
            if is_square(pair) && pair[0] != pair[1] {
                parts.push((pair[0].x + pair[1].x, Part::Wall(pair)));
            }
        }
        sort_by_number(&mut parts, |part| part.0 * toward);
        let mut last = None;
        for (_, part) in parts {
            match part {
                Part::Slab(slab) => {
                    let shown = self.slab(slab);
                    let behind = usize::from(toward < 0.0);
                    if last.is_some_and(|last| last != shown) {
                        self.horizon(slab, behind, shown);
                    }
                    last = Some(shown);
                    self.bend_line(slab, behind, shown);
                    self.holes(slab, toward, shown);
                    if slab.x[0] <= station && station < slab.x[1] {
                        self.station(slab, station, shown);
                    }
                }
                Part::Wall(pair) => {
                    let mirrored = pair.map(|p| Point::new(p.x, -p.y));
                    let outward = Spot::new(pair[0].y - pair[1].y, 0.0, 0.0);
                    for ends in [pair, mirrored] {
                        if self.wall(ends, outward) {
                            self.rim_lines(ends, true, true);
                        }
                    }
                }
            }
        }
    }

    fn at(&self, x: f64, y: f64, depth: f64) -> Spot {
        self.solid.at(Point::new(x, y), depth)
    }

    fn thickness(&self) -> f64 {
        self.solid.surface.thickness
    }

    /// Draws a slab and answers whether its top face is turned to the eye, and its underside.
    fn slab(&mut self, slab: &Slab) -> [bool; 2] {
        let from_right = self.eye.y > 0.0;
        let mut shown = [false; 2];
        for k in 0..slab.strips.len() {
            let strip = slab.strips[if from_right { k } else { slab.strips.len() - 1 - k }];
            let lanes = self.lanes(slab, strip);
            let corners = self.strip(slab, strip, lanes);
            // The faces turned to the eye, lane by lane: above, below.
            let mut faces: Vec<[Option<Role>; 2]> = Vec::with_capacity(lanes);
            for lane in 0..lanes {
                faces.push([self.face(&corners.above, lane, 1.0), self.face(&corners.below, lane, -1.0)]);
            }
            let [far, near] = if from_right { [0, 1] } else { [1, 0] };
            let far_seen = self.rim(slab, strip, far);
            for (side, corners) in [(1, &corners.below), (0, &corners.above)] {
                self.lay(corners, &faces, side, from_right);
            }
            let near_seen = self.rim(slab, strip, near);
            for (which, seen) in [(far, far_seen), (near, near_seen)] {
                let [above, below] = faces[if which == 0 { 0 } else { lanes - 1 }];
                self.rim_lines(ends(slab, strip[which]), seen || above.is_some(), seen || below.is_some());
            }
            for (side, shown) in shown.iter_mut().enumerate() {
                *shown |= faces[lanes / 2][side].is_some();
            }
        }
        shown
    }

    /// Into how many lanes a strip is cut: a flat one needs one.
    fn lanes(&self, slab: &Slab, [right, left]: [Rim; 2]) -> usize {
        let crate::design::Shape { datum, profile, .. } = self.solid.surface.shape;
        if slab.x.iter().all(|x| profile.concave_at(datum, *x) <= 0.0) {
            return 1;
        }
        let width = (left.y[0] - right.y[0]).max(left.y[1] - right.y[1]);
        let mut lanes = 2;
        while lanes < 12 && f64::from(lanes) * self.detail.lane() < width {
            lanes += 2;
        }
        lanes as usize
    }

    fn strip(&self, slab: &Slab, [right, left]: [Rim; 2], lanes: usize) -> Strip {
        let row = |end: usize, depth: f64| {
            let (from, to) = (right.y[end], left.y[end]);
            let mut row = Vec::with_capacity(lanes + 1);
            for k in 0..=lanes {
                row.push(self.at(slab.x[end], from + (to - from) * k as f64 / lanes as f64, depth));
            }
            row
        };
        let depth = self.thickness();
        Strip { above: [row(0, 0.0), row(1, 0.0)], below: [row(0, depth), row(1, depth)] }
    }

    /// The tint of a lane's face where it is turned to the eye.
    fn face(&self, [tailward, noseward]: &[Vec<Spot>; 2], lane: usize, sign: f64) -> Option<Role> {
        let [a, b, c, d] = [tailward[lane], noseward[lane], noseward[lane + 1], tailward[lane + 1]];
        self.tint((c - a).cross(d - b) * sign)
    }

    /// The tint of a facet with that normal; none where it is turned away.
    fn tint(&self, normal: Spot) -> Option<Role> {
        let normal = normal.unit();
        let lit = normal.dot(self.light).max(0.0);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 4")]
        let tint = real::clamp(((1.0 - lit) * 1.6 * TINTS).floor(), 0.0, TINTS - 1.0) as u8;
        (normal.dot(self.eye) > 1e-9).then_some(Role::Facet(tint))
    }

    /// Lays the lanes of a face, the farthest first; neighbours of one tint as one.
    fn lay(&mut self, rows: &[Vec<Spot>; 2], faces: &[[Option<Role>; 2]], side: usize, from_right: bool) {
        let lanes = faces.len();
        let lane_of = |k: usize| if from_right { k } else { lanes - 1 - k };
        let mut k = 0;
        while k < lanes {
            let role = faces[lane_of(k)][side];
            let first = k;
            while k < lanes && faces[lane_of(k)][side] == role {
                k += 1;
            }
            let Some(role) = role else { continue };
            let (a, b) = (lane_of(first), lane_of(k - 1));
            let (from, to) = (a.min(b), a.max(b) + 1);
            let mut corners: Vec<Spot> = rows[0][from..=to].to_vec();
            corners.extend(rows[1][from..=to].iter().rev());
            self.polygon(role, &corners);
        }
    }

    /// The edge of a strip on its right (0) or left (1); answers whether it is turned to the eye.
    fn rim(&mut self, slab: &Slab, strip: [Rim; 2], which: usize) -> bool {
        let ends = ends(slab, strip[which]);
        let along = ends[1] - ends[0];
        let outward = Spot::new(-along.y, along.x, 0.0) * if which == 0 { -1.0 } else { 1.0 };
        self.wall(ends, outward)
    }

    /// The edge's own face with its plies, where it is turned to the eye; answers whether it is.
    fn wall(&mut self, ends: [Point; 2], outward: Spot) -> bool {
        let band = |from: f64, to: f64| {
            let at = |end: Point, depth: f64| self.solid.at(end, depth);
            [at(ends[0], from), at(ends[1], from), at(ends[1], to), at(ends[0], to)]
        };
        let face = band(0.0, self.thickness());
        let normal = (face[2] - face[0]).cross(face[3] - face[1]);
        let normal = if normal.dot(outward) < 0.0 { normal * -1.0 } else { normal };
        let Some(tint) = self.tint(normal) else { return false };
        self.polygon(tint, &face);
        if self.detail == Detail::Full {
            let layup = &self.solid.surface.shape.layup;
            for (from, to, grain) in plies(&layup.plies, self.thickness()) {
                if grain == Grain::Across {
                    self.polygon(Role::PlyAcross, &band(from, to));
                }
            }
        }
        true
    }

    fn rim_lines(&mut self, ends: [Point; 2], above: bool, below: bool) {
        for (depth, seen) in [(self.thickness(), below), (0.0, above)] {
            if seen {
                self.line(Role::Edge, &ends.map(|end| self.solid.at(end, depth)));
            }
        }
    }

    /// The line behind which a face turns away from the eye.
    fn horizon(&mut self, slab: &Slab, end: usize, shown: [bool; 2]) {
        self.across(Role::Edge, slab, end as f64, shown);
    }

    /// A line across a slab at a share of its length, on the face that is turned to the eye.
    fn across(&mut self, role: Role, slab: &Slab, share: f64, shown: [bool; 2]) {
        let depth = if shown[0] {
            0.0
        } else if shown[1] {
            self.thickness()
        } else {
            return;
        };
        let x = slab.x[0] + (slab.x[1] - slab.x[0]) * share;
        for strip in &slab.strips {
            let [from, to] = strip.map(|rim| rim.at(share));
            let lanes = self.lanes(slab, *strip);
            let mut line = Vec::with_capacity(lanes + 1);
            for k in 0..=lanes {
                line.push(self.at(x, from + (to - from) * k as f64 / lanes as f64, depth));
            }
            self.line(role, &line);
        }
    }

    /// The bend line where this slab begins or ends, on its side away from the eye.
    fn bend_line(&mut self, slab: &Slab, end: usize, shown: [bool; 2]) {
        let shape = self.solid.surface.shape;
        for (kick, sign) in [(&shape.profile.nose, 1.0), (&shape.profile.tail, -1.0)] {
            let bend = sign * (shape.datum.outer_row() + kick.bend_line);
            if kick.kicks() && (slab.x[end] - bend).abs() < 1e-6 {
                self.across(Role::BendLine, slab, end as f64, shown);
            }
        }
    }

    /// The bolt holes that lie behind the far side of this slab and in it, once it is drawn.
    fn holes(&mut self, slab: &Slab, toward: f64, shown: [bool; 2]) {
        let depth = if shown[0] { 0.0 } else { self.thickness() };
        let datum = &self.solid.surface.shape.datum;
        let radius = datum.hole_diameter / 2.0;
        for hole in datum.holes() {
            let nearest = hole.x + radius * toward;
            if slab.x[0] <= nearest && nearest < slab.x[1] && (shown[0] || shown[1]) {
                let mut round = Vec::with_capacity(CORNERS as usize);
                for k in 0..CORNERS {
                    let (sin, cos) = real::sincos(TAU * f64::from(k) / f64::from(CORNERS));
                    round.push(self.at(hole.x + radius * cos, hole.y + radius * sin, depth));
                }
                self.polygon(Role::Hole, &round);
            }
        }
    }

    /// The line of the cross-section.
    fn station(&mut self, slab: &Slab, x: f64, shown: [bool; 2]) {
        self.across(Role::Station, slab, (x - slab.x[0]) / (slab.x[1] - slab.x[0]), shown);
    }

    fn polygon(&mut self, role: Role, corners: &[Spot]) {
        self.trace(role, corners, true);
    }

    fn line(&mut self, role: Role, places: &[Spot]) {
        self.trace(role, places, false);
    }

    /// Adds to the last path where it has the same looks.
    fn trace(&mut self, role: Role, spots: &[Spot], closed: bool) {
        if !self.items.last().is_some_and(|item| item.role == role) {
            let id = format!("solid-{}", self.items.len());
            self.items.push(Item { id, role, mark: Mark::Path(BezPath::new()) });
        }
        let Some(Item { mark: Mark::Path(path), .. }) = self.items.last_mut() else { return };
        for (k, spot) in spots.iter().enumerate() {
            let p = self.stand.shows(*spot);
            self.extent = self.extent.union_pt(p);
            if k == 0 {
                path.move_to(p);
            } else {
                path.line_to(p);
            }
        }
        if closed {
            path.close_path();
        }
    }
}

#[cfg(test)]
mod tests;
