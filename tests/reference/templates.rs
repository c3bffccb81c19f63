//! Router templates against worked examples of the trade.
//!
//! Sources: makers' and joiners' journals on the web (outside diameter of the bushing and of the bit, offset half their
//! difference: 3/4 and 1/2 in give 1/8 in, 15 and 9 mm give 3 mm; an opening of 3.75 in with 3/4 and 1/2 in takes a window
//! of 4.00 in, and not 4 1/4, which a doubled offset gives); 30 and 12 mm give 9 mm by the same rule.

use crate::{near, read_back::svg_paths};
use core::f64::consts::PI;
use halfbreadth_core::{
    arcs::{self, offset::offset},
    demo,
    format::svg,
    outline::{Half, Piece},
    real,
    template::{Cut, Template, TemplateOptions},
    units::System,
};
use kurbo::{CubicBez, Point, Shape as _, Vec2};

fn edge(bushing: f64, bit: f64, cut: Cut) -> f64 {
    TemplateOptions { bushing, bit, cut, half: false, ..TemplateOptions::default() }.checked().unwrap().edge()
}

/// The upper half of a circle, tail to nose, in eighths of a turn.
fn circle(radius: f64) -> Half {
    let at = |k: u8| PI - PI / 8.0 * f64::from(k);
    let handle = 4.0 / 3.0 * real::tan(PI / 32.0) * radius;
    let piece = |k: u8| {
        let place = |a: f64| Point::ORIGIN + radius * Vec2::new(real::cos(a), real::sin(a));
        let heading = |a: f64| Vec2::new(real::sin(a), -real::cos(a));
        let (a, b) = (at(k), at(k + 1));
        let curve =
            CubicBez::new(place(a), place(a) + handle * heading(a), place(b) - handle * heading(b), place(b));
        Piece { curve, span: 0, straight: false, far: false, bends: None }
    };
    Half::from_pieces((0..8).map(piece).collect())
}

#[test]
fn an_outside_template_is_smaller_by_half_the_difference_all_round() {
    for (bushing, bit, expected) in
        [(19.05, 12.7, 3.175), (15.0, 9.0, 3.0), (30.0, 12.0, 9.0), (16.0, 6.35, 4.825)]
    {
        near(edge(bushing, bit, Cut::Outside), -expected, 1e-12);
    }
}

#[test]
fn an_opening_of_three_and_three_quarters_takes_a_window_of_four_inches() {
    let distance = edge(19.05, 12.7, Cut::WindowOpening);
    let window = offset(&circle(3.75 * 25.4 / 2.0), distance).unwrap();
    let extent = arcs::extent(&window.contours[0].whole()[0]).unwrap();
    near(extent.width(), 4.0 * 25.4, 0.005);
}

#[test]
fn a_disc_kept_from_a_window_is_smaller_than_it_by_bushing_and_bit() {
    // The bit's near edge runs round the disc, the bushing's far edge in the window.
    let distance = edge(30.0, 12.0, Cut::WindowDeck);
    let window = offset(&circle(100.0), distance).unwrap();
    near(arcs::extent(&window.contours[0].whole()[0]).unwrap().width(), 200.0 + 30.0 + 12.0, 0.005);
}

#[test]
fn a_router_run_round_the_demo_template_cuts_the_demo_deck() {
    // The bushing's middle keeps half its diameter from the template, and the bit cuts half of its own from there.
    let options = TemplateOptions { half: false, ..TemplateOptions::default() };
    let template = Template::of(&demo::turnstone(), options, System::default()).unwrap();
    for arc in &template.outline {
        let p = arc.point(0.5);
        let outward = Vec2::new(arc.end_tangent().y, -arc.end_tangent().x);
        let middle = arc.p1 + outward * (6.35 / 2.0);
        near(arcs::distance(&template.edges[0], middle), 16.0 / 2.0, 0.01);
        near(arcs::distance(&template.edges[0], p), 4.825, 0.01);
        near(
            template.saw_line.iter().map(|line| arcs::distance(line, p)).fold(f64::INFINITY, f64::min),
            2.0,
            0.01,
        );
    }
}

#[test]
fn usvg_finds_the_edges_of_the_template_at_true_scale() {
    for design in demo::all() {
        for half in [false, true] {
            let options = TemplateOptions { half, ..TemplateOptions::default() };
            let template = Template::of(&design, options, System::default()).unwrap();
            let paths = svg_paths(&svg::print(&template.drawing()));
            for (layer, edge) in [("template", &template.edges[0]), ("saw-line", &template.saw_line[0])] {
                let found: Vec<_> = paths.iter().filter(|(name, _)| name == layer).collect();
                assert_eq!(found.len(), 1);
                let (_, path) = found[0];
                let (extent, expected) = (path.bounding_box(), arcs::extent(edge).unwrap());
                near(extent.width(), expected.width(), 0.01);
                near(extent.height(), expected.height(), 0.01);
                let area = arcs::signed_area(edge);
                // The saw line of a half ends on the centreline and is open there.
                let mut path = path.clone();
                path.close_path();
                near(path.area(), area, 0.005 * path.perimeter(0.1));
            }
        }
    }
}
