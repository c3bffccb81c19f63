//! The table of offsets of the demo decks and of shapes that fold back.

use super::*;
use crate::{
    demo,
    design::Design,
    outline::{Joint, Node, Outline, Span},
};

fn row<'a>(table: &'a [Station], name: &str) -> &'a Station {
    table.iter().find(|station| station.name == name).unwrap_or_else(|| panic!("no {name}"))
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "found {found}, expected {expected} within {within}");
}

/// A deck of straight sides, tail to nose.
fn straight_sided(corners: &[(f64, f64)]) -> Design {
    let node = |p: &(f64, f64)| Node { place: Point::from(*p), joint: Joint::Corner };
    let nodes: Vec<Node> = corners.iter().map(node).collect();
    let outline =
        Outline { spans: vec![Span::Straight; nodes.len() - 1], nodes, twin: false, sweeps: Vec::new() };
    let deck = demo::turnstone();
    deck.with_shape(Shape { outline, ..deck.shape().clone() }).unwrap()
}

#[test]
fn the_first_demo_deck_has_its_published_half_widths() {
    let table = table(demo::turnstone().shape(), Projection::Developed, 25.0);
    for (name, x, y) in [
        ("tail end", -400.05, 0.0),
        ("tail bend line", -254.0, 100.2),
        ("tail axle", -207.9625, 205.2 / 2.0),
        ("tail outer bolt row", -234.95, f64::NAN),
        ("nose inner bolt row", 180.975, f64::NAN),
        ("nose axle", 207.9625, 205.5 / 2.0),
        ("nose bend line", 254.0, 100.8),
        ("nose end", 412.75, 0.0),
        ("widest", 0.0, 104.775),
    ] {
        let found = row(&table, name);
        near(found.x, x, 1e-6);
        if y.is_finite() {
            near(found.crossings[0], y, 0.05);
        }
    }
    assert!(table.windows(2).all(|pair| pair[0].x <= pair[1].x));
    // From −400 to 400 every 25 mm, of which 0 has names.
    assert_eq!(table.iter().filter(|station| station.name.is_empty()).count(), 32);
    assert!(table.iter().all(|station| station.name != "waist"));
}

#[test]
fn a_waist_is_a_named_place() {
    let table = table(demo::dunlin().shape(), Projection::Developed, 25.0);
    near(row(&table, "waist").crossings[0], 182.5 / 2.0, 1e-6);
}

#[test]
fn a_flat_end_and_an_overhang_list_every_crossing() {
    let square = straight_sided(&[
        (-400.0, 0.0),
        (-400.0, 60.0),
        (-240.0, 100.0),
        (240.0, 100.0),
        (410.0, 80.0),
        (400.0, 50.0),
        (400.0, 0.0),
    ]);
    let table = table(square.shape(), Projection::Developed, 25.0);
    assert_eq!(row(&table, "tail end").crossings, [60.0, 0.0]);
    // 400 is where the flat begins; the horn at 410 overhangs it.
    let at = |x: f64| &table.iter().find(|station| (station.x - x).abs() < 1e-9).unwrap().crossings;
    let horn = at(400.0);
    assert_eq!(horn.len(), 3);
    near(horn[0], 100.0 - 20.0 * 160.0 / 170.0, 1e-9);
    near(horn[1], 50.0, 1e-9);
    assert_eq!(row(&table, "nose end").crossings, [80.0]);
}

#[test]
fn in_plan_named_places_keep_their_place_on_the_deck() {
    let plan = table(demo::turnstone().shape(), Projection::Plan, 25.0);
    let length = row(&plan, "nose end").x - row(&plan, "tail end").x;
    near(length, 796.3, 0.05);
    near(row(&plan, "nose bend line").x, 254.0, 1e-9);
}

#[test]
fn the_csv_has_one_row_a_station_in_millimetres_and_in_fractions() {
    let stations = table(demo::turnstone().shape(), Projection::Developed, 25.0);
    let text = csv(&stations, Projection::Developed);
    let lines: Vec<&str> = text.split("\r\n").collect();
    assert_eq!(lines.len(), stations.len() + 2);
    assert!(lines[0].starts_with("Station mm (DEVELOPED),Half-breadth mm (DEVELOPED),"));
    assert!(lines.contains(&"-254.00,100.20,,-10,~ 3 15/16,,tail bend line"), "{text}");
    assert!(lines.contains(&"0.00,104.78,,0,4 1/8,,widest"));
    assert!(lines[..lines.len() - 1].iter().all(|line| line.split(',').count() == 7));
}

#[test]
fn a_bare_fraction_is_no_day_of_the_year() {
    for (shown, written) in
        [("1/4", "0 1/4"), ("≈ −1/4", "~ -0 1/4"), ("8 1/4", "8 1/4"), ("−10", "-10"), ("–", "–")]
    {
        assert_eq!(fraction(shown), written);
    }
}
