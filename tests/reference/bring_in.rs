//! Drawings written by programs of other people, brought in.
//!
//! Source: the `dxf` crate and, where a Python has it, `ezdxf` write DXF and `usvg` SVG, independent writers of both; an ellipse of semi-axes 400 and 100 mm is
//! the truth, in closed form; four arcs approximate none of it here.

use crate::{near, strict_readers::run};
use core::f64::consts::{PI, TAU};
use dxf::{
    Block, Drawing, LwPolylineVertex, Point as P, Vector,
    entities::{
        Arc, Circle, Ellipse, Entity, EntityType, Insert, Line, LwPolyline, Polyline, Spline, Vertex,
    },
    enums::{AcadVersion, Units},
};
use halfbreadth_core::{
    capture::drawing::{self, LengthUnit, Options},
    compare, demo,
    design::Design,
    format::svg,
    measure::Measured,
    real,
};

/// What a drawing must come back within, mm.
const SAME: f64 = 0.01;

fn taken(text: &str, unit: Option<LengthUnit>) -> Design {
    let deck = demo::turnstone();
    let options = Options { unit, ..Options::default() };
    let taken =
        drawing::read(text, &options, deck.shape()).unwrap_or_else(|error| panic!("{error}: {text:.400}"));
    assert!(taken.asymmetry.is_some_and(|found| found.most < SAME));
    deck.apply(&taken.edit()).unwrap_or_else(|error| panic!("{error}"))
}

/// A drawing in that unit and release, with the bolt holes of the demo deck.
fn written(version: AcadVersion, unit: Units, scale: f64, entities: Vec<EntityType>) -> String {
    let mut drawing = Drawing::new();
    drawing.header.version = version;
    drawing.header.default_drawing_units = unit;
    for entity in entities {
        drawing.add_entity(Entity::new(entity));
    }
    for hole in demo::turnstone().shape().datum.holes() {
        let circle = Circle::new(P::new(hole.x / scale, hole.y / scale, 0.0), 2.6 / scale);
        drawing.add_entity(Entity::new(EntityType::Circle(circle)));
    }
    let mut bytes = Vec::new();
    drawing.save(&mut bytes).expect("a drawing can be written into memory");
    String::from_utf8(bytes).expect("DXF is text")
}

/// The ellipse of 800 by 200 mm, by its perimeter to the fifteenth place of an elliptic integral's series (from memory:
/// Gauss–Kummer), area and extents.
fn is_the_ellipse(deck: &Design, within: f64) {
    let measured = Measured::of(deck.shape());
    near(measured.overall_length, 800.0, 2.0 * within);
    near(measured.overall_width, 200.0, 2.0 * within);
    near(measured.area, PI * 400.0 * 100.0, within * 1750.0);
    let half = deck.shape().outline.resolve();
    let (mut worst, samples) = (0.0_f64, 60);
    for piece in half.pieces() {
        for k in 0..=samples {
            let p = kurbo::ParamCurve::eval(&piece.curve, f64::from(k) / f64::from(samples));
            // The distance to first order: the level of the ellipse's equation over the size of its gradient.
            let level = (p.x / 400.0).powi(2) + (p.y / 100.0).powi(2) - 1.0;
            let gradient = 2.0 * kurbo::Vec2::new(p.x / 160_000.0, p.y / 10_000.0).hypot();
            worst = worst.max((level / gradient).abs());
        }
    }
    assert!(worst < within, "{worst}");
}

fn on_ellipse(angle: f64, scale: f64) -> (f64, f64) {
    let (sin, cos) = real::sincos(angle);
    (400.0 * cos / scale, 100.0 * sin / scale)
}

#[test]
fn an_ellipse_entity_is_read_in_every_unit_and_release() {
    for version in [AcadVersion::R2000, AcadVersion::R2013] {
        for (unit, scale) in [(Units::Millimeters, 1.0), (Units::Inches, 25.4), (Units::Centimeters, 10.0)] {
            let major_axis = Vector::new(400.0 / scale, 0.0, 0.0);
            let ellipse = Ellipse { major_axis, minor_axis_ratio: 0.25, ..Ellipse::default() };
            let text = written(version, unit, scale, vec![EntityType::Ellipse(ellipse)]);
            let deck = taken(&text, None);
            is_the_ellipse(&deck, SAME);
            near(deck.shape().datum.wheelbase, 361.95, 1e-6);
        }
    }
}

#[test]
fn polylines_of_both_kinds_and_loose_lines_are_read() {
    let steps = 720;
    let at = |k: i32| on_ellipse(TAU * f64::from(k) / f64::from(steps), 1.0);
    let mut light = LwPolyline { flags: 1, ..LwPolyline::default() };
    let mut heavy = Polyline { flags: 1, ..Polyline::default() };
    let mut vertices = Vec::new();
    let mut lines = Vec::new();
    for k in 0..steps {
        let ((x, y), (to_x, to_y)) = (at(k), at(k + 1));
        light.vertices.push(LwPolylineVertex { x, y, ..LwPolylineVertex::default() });
        vertices.push(Vertex::new(P::new(x, y, 0.0)));
        let (a, b) = (P::new(x, y, 0.0), P::new(to_x, to_y, 0.0));
        // Every other one is drawn the wrong way round, and they come in no order.
        lines.push(EntityType::Line(if k % 2 == 0 { Line::new(a, b) } else { Line::new(b, a) }));
    }
    for i in 0..lines.len() {
        let other = i * 7919 % lines.len();
        lines.swap(i, other);
    }
    let mut old = Drawing::new();
    old.header.version = AcadVersion::R12;
    for vertex in vertices {
        heavy.add_vertex(&mut old, vertex);
    }
    old.add_entity(Entity::new(EntityType::Polyline(heavy)));
    for hole in demo::turnstone().shape().datum.holes() {
        let circle = Circle::new(P::new(hole.x, hole.y, 0.0), 2.6);
        old.add_entity(Entity::new(EntityType::Circle(circle)));
    }
    let mut bytes = Vec::new();
    old.save(&mut bytes).expect("a drawing can be written into memory");
    let old = String::from_utf8(bytes).expect("DXF is text");
    for (text, unit) in [
        (written(AcadVersion::R2000, Units::Millimeters, 1.0, vec![EntityType::LwPolyline(light)]), None),
        (written(AcadVersion::R2000, Units::Millimeters, 1.0, lines), None),
        (old, Some(LengthUnit::Millimetre)),
    ] {
        is_the_ellipse(&taken(&text, unit), 0.03); // the chords themselves lie off by 0.015 mm at the tips
    }
}

/// A stadium: two straight rails and two half circles, as bulges and as lines and arcs; its area is known.
#[test]
fn bulges_and_arcs_make_a_stadium() {
    let (half, radius) = (300.0, 100.0);
    let mut polyline = LwPolyline { flags: 1, ..LwPolyline::default() };
    for (x, y, bulge) in
        [(-half, -radius, 0.0), (half, -radius, 1.0), (half, radius, 0.0), (-half, radius, 1.0)]
    {
        polyline.vertices.push(LwPolylineVertex { x, y, bulge, ..LwPolylineVertex::default() });
    }
    let line = |y: f64| EntityType::Line(Line::new(P::new(-half, y, 0.0), P::new(half, y, 0.0)));
    let arc = |x: f64, from: f64| EntityType::Arc(Arc::new(P::new(x, 0.0, 0.0), radius, from, from + 180.0));
    for entities in [
        vec![EntityType::LwPolyline(polyline)],
        vec![line(radius), arc(half, 270.0), line(-radius), arc(-half, 90.0)],
    ] {
        let deck = taken(&written(AcadVersion::R2000, Units::Millimeters, 1.0, entities), None);
        let measured = Measured::of(deck.shape());
        near(measured.overall_length, 800.0, SAME);
        near(measured.area, 4.0 * half * radius + PI * radius * radius, SAME * 1828.0);
        let straight = deck.shape().outline.spans.contains(&halfbreadth_core::outline::Span::Straight);
        assert!(straight, "{:?}", deck.shape().outline.spans);
    }
}

/// A quarter at a time as cubic Bézier curves in one spline with knots of three.
#[test]
fn a_spline_is_read_exactly() {
    let k = 4.0 / 3.0 * (2.0_f64.sqrt() - 1.0);
    let round = [
        (1.0, 0.0),
        (1.0, k),
        (k, 1.0),
        (0.0, 1.0),
        (-k, 1.0),
        (-1.0, k),
        (-1.0, 0.0),
        (-1.0, -k),
        (-k, -1.0),
        (0.0, -1.0),
        (k, -1.0),
        (1.0, -k),
        (1.0, 0.0),
    ];
    let spline = Spline {
        degree_of_curve: 3,
        control_points: round.iter().map(|(x, y)| P::new(400.0 * x, 100.0 * y, 0.0)).collect(),
        knot_values: (0..=4).flat_map(|i| vec![f64::from(i); if i == 0 || i == 4 { 4 } else { 3 }]).collect(),
        ..Spline::default()
    };
    let deck =
        taken(&written(AcadVersion::R2000, Units::Millimeters, 1.0, vec![EntityType::Spline(spline)]), None);
    // The usual four cubics lie off an ellipse by 0.027 % of its larger half.
    is_the_ellipse(&deck, 400.0 * 0.000_28);
}

/// The outline a block of unit size about a base of its own, stretched, turned and placed; the holes one block of a circle in
/// rows and columns, placed twice by a block of blocks.
#[test]
fn blocks_are_read_where_they_are_placed() {
    let mut drawing = Drawing::new();
    drawing.header.version = AcadVersion::R2000;
    drawing.header.default_drawing_units = Units::Millimeters;
    let mut add = |name: &str, base: P, entities: Vec<EntityType>| {
        let mut block = Block { name: name.to_owned(), base_point: base, ..Block::default() };
        block.entities.extend(entities.into_iter().map(Entity::new));
        drawing.add_block(block);
    };
    let insert = |name: &str, x: f64, y: f64| Insert {
        name: name.to_owned(),
        location: P::new(x, y, 0.0),
        ..Insert::default()
    };
    let circle = |x: f64, y: f64, radius: f64| EntityType::Circle(Circle::new(P::new(x, y, 0.0), radius));
    add("round", P::new(7.0, -3.0, 0.0), vec![circle(7.0, -3.0, 1.0)]);
    add("hole", P::new(0.0, 0.0, 0.0), vec![circle(0.0, 0.0, 2.6)]);
    let holes = demo::turnstone().shape().datum.holes();
    let (inner, outer, y) = (holes[2].x.abs(), holes[0].x.abs(), holes[0].y.abs());
    let pattern = Insert {
        column_count: 2,
        row_count: 2,
        column_spacing: outer - inner,
        row_spacing: 2.0 * y,
        ..insert("HOLE", 0.0, 0.0)
    };
    add("pattern", P::new((outer - inner) / 2.0, y, 0.0), vec![EntityType::Insert(pattern)]);
    let middle = f64::midpoint(inner, outer);
    // The deck lies askew, and the tail's pattern is placed turned over and the other way round, which changes nothing.
    let (sin, cos) = real::sincos(30_f64.to_radians());
    let outline = Insert {
        x_scale_factor: 400.0,
        y_scale_factor: 100.0,
        rotation: 30.0,
        ..insert("Round", 50.0, 80.0)
    };
    let nose = Insert { rotation: 30.0, ..insert("pattern", 50.0 + middle * cos, 80.0 + middle * sin) };
    let tail = Insert {
        y_scale_factor: -1.0,
        rotation: 210.0,
        ..insert("pattern", 50.0 - middle * cos, 80.0 - middle * sin)
    };
    for placed in [outline, nose, tail] {
        drawing.add_entity(Entity::new(EntityType::Insert(placed)));
    }
    let mut bytes = Vec::new();
    drawing.save(&mut bytes).expect("a drawing can be written into memory");
    let deck = taken(&String::from_utf8(bytes).expect("DXF is text"), None);
    is_the_ellipse(&deck, SAME);
    near(deck.shape().datum.wheelbase, 361.95, 1e-6);
}

#[test]
fn blocks_that_another_program_wrote_are_read() {
    let holes = demo::turnstone().shape().datum.holes().map(|hole| [hole.x, hole.y]);
    let Some(files) = run("blocks.py", "ezdxf", &[], &serde_json::json!(holes).to_string()) else { return };
    assert_eq!(files.len(), 3);
    for file in files {
        let [name, text] = ["name", "text"].map(|key| file[key].as_str().expect("a text"));
        // The old release has no unit, and its chords lie off by 0.015 mm at the tips.
        let old = name == "an old release";
        let deck = taken(text, old.then_some(LengthUnit::Millimetre));
        is_the_ellipse(&deck, if old { 0.03 } else { SAME });
        assert!((deck.shape().datum.wheelbase - 361.95).abs() < 1e-6, "{name}: {:?}", deck.shape().datum);
    }
}

#[test]
fn what_usvg_writes_of_our_own_drawing_comes_back() {
    for deck in demo::all() {
        let tree = usvg::Tree::from_str(&svg::export(&deck), &usvg::Options::default()).expect("our own SVG");
        // It resolves units to pixels, groups and shapes to absolute paths.
        let text = tree.to_string(&usvg::WriteOptions::default());
        let again = taken(&text, Some(LengthUnit::Pixel));
        let found = compare::farthest(&deck.shape().outline.resolve(), &again.shape().outline.resolve());
        assert!(found.distance < SAME, "{}: {found:?}", deck.name());
        near(again.shape().datum.wheelbase, deck.shape().datum.wheelbase, SAME);
    }
}
