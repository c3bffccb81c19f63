//! The exported drawings, read by programs of other people.
//!
//! Source: `usvg` reads the SVG and `dxf` the DXF, independent readers of both; a CSS pixel is 25.4/96 mm (CSS Values and
//! Units, 5.2, from memory); a bulge is the tangent of a quarter of an arc's turn (the DXF reference, from memory).

use crate::near;
use dxf::{
    Drawing,
    entities::{EntityType, LwPolyline},
    enums::Units,
};
use halfbreadth_core::{
    demo,
    design::Design,
    format::{dxf as dxf_format, svg},
    measure::Measured,
    real,
};
use halfbreadth_tests::random::{self, Random};
use kurbo::{Affine, BezPath, Point, Rect, Shape as _};
use usvg::{Node, tiny_skia_path::PathSegment};

/// What a drawing must agree to, mm.
const SAME: f64 = 0.01;

fn decks() -> impl Iterator<Item = Design> {
    demo::all().into_iter().chain((0..20).map(|seed| random::design(&mut Random::new(seed))))
}

/// What a reader found of the deck, in mm, wherever on its sheet.
struct Found {
    area: f64,
    extent: Rect,
    /// Centre and diameter of each hole.
    holes: Vec<(Point, f64)>,
}

impl Found {
    #[track_caller]
    fn is(&self, design: &Design) {
        let measured = Measured::of(design.shape());
        let name = design.name();
        near(self.extent.width(), measured.overall_length, SAME);
        near(self.extent.height(), measured.overall_width, SAME);
        // An edge nowhere off by more than the tolerance encloses an area off by at most that along the perimeter.
        near(self.area, measured.area, SAME * measured.perimeter / 2.0);
        let datum = &design.shape().datum;
        assert_eq!(self.holes.len(), 8, "{name}");
        let origin = Point::new(self.extent.x1 - measured.nose.end.x, self.extent.center().y);
        for hole in datum.holes() {
            let meets = |found: &&(Point, f64)| (found.0 - origin - hole.to_vec2()).hypot() < SAME;
            let found = self.holes.iter().find(meets);
            assert!(found.is_some(), "{name} has no hole at {hole}");
            near(found.map_or(f64::NAN, |hole| hole.1), datum.hole_diameter, SAME);
        }
    }
}

/// Every path of an SVG with the name of its group, in mm with y upward.
pub(super) fn svg_paths(text: &str) -> Vec<(String, BezPath)> {
    let tree = usvg::Tree::from_str(text, &usvg::Options::default()).expect("usvg reads it");
    let mm = Affine::scale_non_uniform(25.4 / 96.0, -25.4 / 96.0);
    let mut paths = Vec::new();
    let mut groups = vec![(String::new(), tree.root())];
    while let Some((name, group)) = groups.pop() {
        for node in group.children() {
            match node {
                Node::Group(inner) => {
                    let own = if inner.id().is_empty() { &name } else { inner.id() };
                    groups.push((own.to_owned(), inner));
                }
                Node::Path(path) => {
                    let t = path.abs_transform();
                    let placed = Affine::new([t.sx, t.ky, t.kx, t.sy, t.tx, t.ty].map(f64::from));
                    paths.push((name.clone(), mm * placed * bez_path(path.data())));
                }
                Node::Image(_) | Node::Text(_) => {}
            }
        }
    }
    paths
}

fn bez_path(data: &usvg::tiny_skia_path::Path) -> BezPath {
    let p = |p: usvg::tiny_skia_path::Point| Point::new(p.x.into(), p.y.into());
    let mut path = BezPath::new();
    for segment in data.segments() {
        match segment {
            PathSegment::MoveTo(a) => path.move_to(p(a)),
            PathSegment::LineTo(a) => path.line_to(p(a)),
            PathSegment::QuadTo(a, b) => path.quad_to(p(a), p(b)),
            PathSegment::CubicTo(a, b, c) => path.curve_to(p(a), p(b), p(c)),
            PathSegment::Close => path.close_path(),
        }
    }
    path
}

#[test]
fn usvg_finds_the_deck_in_the_svg_at_true_scale() {
    for design in decks() {
        let paths = svg_paths(&svg::export(&design));
        let of = |layer: &str| -> Vec<&BezPath> {
            paths.iter().filter(|(name, _)| name == layer).map(|(_, path)| path).collect()
        };
        let outline = of("outline");
        assert_eq!(outline.len(), 1);
        let holes = of("holes");
        let hole = |path: &&BezPath| (path.bounding_box().center(), path.bounding_box().width());
        let found = Found {
            area: outline[0].area().abs(),
            extent: outline[0].bounding_box(),
            holes: holes.iter().map(hole).collect(),
        };
        found.is(&design);
        let kicks = [&design.shape().profile.nose, &design.shape().profile.tail];
        assert!(of("bend-lines").len() <= kicks.iter().filter(|kick| kick.kicks()).count());
        assert_eq!((of("centreline").len(), of("blank").len()), (1, 1));
    }
}

/// A closed polyline with bulges as a path of small chords.
pub(super) fn outline_of(polyline: &LwPolyline) -> BezPath {
    const CHORDS: u32 = 64;
    let vertices = &polyline.vertices;
    let mut path = BezPath::new();
    for (i, v) in vertices.iter().enumerate() {
        let next = &vertices[(i + 1) % vertices.len()];
        let (a, b) = (Point::new(v.x, v.y), Point::new(next.x, next.y));
        if i == 0 {
            path.move_to(a);
        }
        let turn = 4.0 * real::atan(v.bulge);
        for k in 1..=CHORDS {
            path.line_to(on_arc(a, b, turn, f64::from(k) / f64::from(CHORDS)));
        }
    }
    path.close_path();
    path
}

/// The place after a share of the arc from `a` to `b` that turns by `turn` radians anticlockwise.
fn on_arc(a: Point, b: Point, turn: f64, share: f64) -> Point {
    if turn.abs() < 1e-12 {
        return a.lerp(b, share);
    }
    // The chord up to there leaves the whole chord by the angles that arcs of a circle see one another under.
    let part = turn * share;
    let scale = real::sin(part / 2.0) / real::sin(turn / 2.0);
    let (sin, cos) = real::sincos((part - turn) / 2.0);
    let chord = (b - a) * scale;
    a + kurbo::Vec2::new(chord.x * cos - chord.y * sin, chord.x * sin + chord.y * cos)
}

#[test]
fn dxf_finds_the_deck_in_the_dxf_in_millimetres() {
    for design in decks() {
        let text = dxf_format::export(&design);
        let drawing = Drawing::load(&mut text.as_bytes()).expect("dxf reads it");
        assert_eq!(drawing.header.default_drawing_units, Units::Millimeters);
        let (mut outlines, mut holes) = (Vec::new(), Vec::new());
        for entity in drawing.entities() {
            let layer = entity.common.layer.as_str();
            assert!(drawing.layers().any(|l| l.name == layer), "layer {layer} is in no table");
            match &entity.specific {
                EntityType::LwPolyline(polyline) if layer == "OUTLINE" => {
                    assert!(polyline.is_closed());
                    outlines.push(outline_of(polyline));
                }
                EntityType::Circle(circle) if layer == "HOLES" => {
                    holes.push((Point::new(circle.center.x, circle.center.y), 2.0 * circle.radius));
                }
                EntityType::Line(_) => assert!(["CENTRELINE", "BEND_LINES"].contains(&layer), "{layer}"),
                EntityType::LwPolyline(polyline) => assert!(layer == "BLANK" && polyline.is_closed()),
                EntityType::Text(_) => assert_eq!(layer, "TEXT"),
                other => panic!("{other:?} on {layer}"),
            }
        }
        assert_eq!(outlines.len(), 1);
        let (area, extent) = (outlines[0].area().abs(), outlines[0].bounding_box());
        Found { area, extent, holes }.is(&design);
    }
}
