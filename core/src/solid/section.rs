//! The pressed deck cut square at a station: concave, thickness and plies.

use super::{plies, sheet::Sheet};
use crate::{
    design::Shape,
    layup::Grain,
    outline::Half,
    real, say,
    scene::{Anchor, Item, Mark, Role, Scene, pen::polyline},
    units::{System, Unit, show},
    view::{Margins, View},
};
use kurbo::{BezPath, Point, Rect, Size};

/// A cross-section, seen from the tail toward the nose; mm.
#[derive(Clone, Debug)]
pub struct Section<'a> {
    shape: &'a Shape,
    /// Where, on the developed sheet.
    pub station: f64,
    /// The strips of wood there, from the right rail to the left, along the top face; none beyond the ends.
    pub strips: Vec<[f64; 2]>,
    /// Width straight across, from rail to rail on the top face.
    pub width: f64,
    /// Height of the rails above the centre, on the top face.
    pub depth: f64,
    /// Of the deck.
    pub thickness: f64,
}

/// Chords of the curve of a face.
const CHORDS: u32 = 48;

impl<'a> Section<'a> {
    /// The section of a deck of that thickness at a station, which is brought to the nearest of the deck.
    #[must_use]
    pub fn of(shape: &'a Shape, half: &Half, station: f64, thickness: f64) -> Self {
        let sheet = Sheet::of(shape, half, super::Detail::Full.chord());
        let ends = sheet.stations.first().copied().zip(sheet.stations.last().copied());
        let station = ends.map_or(0.0, |(tail, nose)| real::clamp(station, tail, nose));
        let mut strips: Vec<[f64; 2]> = Vec::new();
        if let Some(slab) = sheet.slab_at(station) {
            let share = (station - slab.x[0]) / (slab.x[1] - slab.x[0]);
            strips.extend(slab.strips.iter().map(|strip| strip.map(|rim| rim.at(share))));
        }
        let half_breadth = strips.last().map_or(0.0, |strip| strip[1]);
        let (across, depth) = shape.profile.across(&shape.datum, station, half_breadth);
        Self { shape, station, strips, width: 2.0 * across, depth, thickness }
    }

    /// A place of the section: `y` along the top face from the centre, `depth` square below it; right rail to the right.
    #[must_use]
    pub fn at(&self, y: f64, depth: f64) -> Point {
        let Shape { datum, profile, .. } = self.shape;
        let (across, height) = profile.across(datum, self.station, y);
        let (sin, cos) = real::sincos(profile.lean(datum, self.station, y));
        Point::new(-(across + depth * sin), height - depth * cos)
    }

    /// What lies between two depths below the top face, as one path.
    #[must_use]
    pub fn band(&self, from: f64, to: f64) -> BezPath {
        let mut path = BezPath::new();
        for [right, left] in &self.strips {
            let y = |k: u32| right + (left - right) * f64::from(k) / f64::from(CHORDS);
            path.move_to(self.at(y(0), from));
            for k in 1..=CHORDS {
                path.line_to(self.at(y(k), from));
            }
            for k in (0..=CHORDS).rev() {
                path.line_to(self.at(y(k), to));
            }
            path.close_path();
        }
        path
    }

    /// Draws it in a frame of that size: the plies, and its width, depth and thickness with their figures.
    #[must_use]
    pub fn draw(&self, size: Size, system: System) -> (Scene, View) {
        let half = self.width / 2.0;
        let room = Rect::new(-half, -self.thickness, half, self.depth.max(1.0));
        let margins = Margins { left: 36.0, right: 36.0, top: 26.0, bottom: 40.0 };
        let mut view = View::fitted(size, false, room, margins);
        view.scale = view.scale.min(8.0);
        let px = 1.0 / view.scale;
        let mut scene = Scene::default();
        let mut path = |role, path| {
            let id = format!("section-{}", scene.items.len());
            scene.items.push(Item { id, role, mark: Mark::Path(path) });
        };
        for (from, to, grain) in plies(&self.shape.layup.plies, self.thickness) {
            let role = if grain == Grain::Along { Role::PlyAlong } else { Role::PlyAcross };
            path(role, self.band(from, to));
        }
        path(Role::Edge, self.band(0.0, self.thickness));
        // The width under it, the concave on the left, the thickness at the centre's right.
        let under = -self.thickness - 18.0 * px;
        let tick = 5.0 * px;
        let mut line = BezPath::new();
        let mut add = |points: &[(f64, f64)]| {
            let points: Vec<Point> = points.iter().map(|p| Point::new(p.0, p.1)).collect();
            line.extend(polyline(&points));
        };
        for x in [-half, half] {
            add(&[(x, under - tick), (x, under + tick)]);
        }
        add(&[(-half, under), (half, under)]);
        let left = -half - 14.0 * px;
        if self.depth > 0.0 {
            for z in [0.0, self.depth] {
                add(&[(left - tick, z), (left + tick, z)]);
            }
            add(&[(left, 0.0), (left, self.depth)]);
        }
        let right = half + 14.0 * px;
        let rail = self.strips.first().map_or(Point::ORIGIN, |strip| self.at(strip[0], self.thickness));
        for z in [rail.y, self.depth] {
            add(&[(right - tick, z), (right + tick, z)]);
        }
        add(&[(right, rail.y), (right, self.depth)]);
        path(Role::Dimension, line);
        let mut text = |x: f64, z: f64, anchor: Anchor, value: f64, unit: Unit| {
            // The figure alone: a drawing has one unit.
            let text = show(value, unit, system).text;
            let at = Point::new(x, z);
            let id = format!("section-{}", scene.items.len());
            let mark = Mark::Text { at, anchor, turned: false, text, field: None };
            scene.items.push(Item { id, role: Role::DimensionText, mark });
        };
        text(0.0, under - 12.0 * px, Anchor::Middle, self.width, Unit::Length);
        if self.depth > 0.0 {
            text(left, self.depth + 12.0 * px, Anchor::Middle, self.depth, Unit::Length);
        }
        text(right, rail.y - 12.0 * px, Anchor::Middle, self.thickness, Unit::Thickness);
        (scene, view)
    }

    /// The section in words, for whoever does not see it.
    #[must_use]
    pub fn words(&self, system: System) -> String {
        let along = self.shape.layup.plies.iter().filter(|ply| ply.grain == Grain::Along).count();
        let across = self.shape.layup.plies.len() - along;
        let length = |value: f64| show(value, Unit::Length, system);
        let thickness = show(self.thickness, Unit::Thickness, system);
        let kick = self.shape.profile.side(&self.shape.datum, self.station).1.abs();
        let place = if kick > 0.0 {
            say!(", on the kick at {kick}", kick = show(kick, Unit::Angle, system))
        } else {
            String::new()
        };
        say!(
            "{width} wide, concave {depth}, {thickness} thick: {along} plies along, {across} across{place}",
            width = length(self.width),
            depth = length(self.depth),
            thickness,
            along,
            across,
            place
        )
    }
}
