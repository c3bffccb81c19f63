//! What bringing in a deck costs: a table of 9 and of 45 stations, with and without a slip of the rule, and a drawing of arcs.
//!
//! Beside the tables, in the same run, one least-squares solution of a general library for the same stations: a polynomial of
//! as many unknowns as the edge has pins, which is no edge of a deck. The fit solves some hundreds of its own.

use criterion::{Criterion, criterion_group, criterion_main};
use halfbreadth_core::{
    capture::{
        drawing,
        measured::{self, Options},
        table::{self, Row},
    },
    demo,
    format::{dxf, svg},
    units::System,
};
use nalgebra::{DMatrix, DVector};
use std::hint::black_box;

/// So many stations to each side of the middle of an ellipse of semi-axes 400 and 100 mm, off by up to a quarter of a
/// millimetre.
fn rows(each_side: i32) -> Vec<Row> {
    let stations = (-each_side..=each_side).map(|i| f64::from(i) * 400.0 / f64::from(each_side));
    let row = |(i, station): (usize, f64)| {
        let off = ((i * 37) % 11) as f64 / 22.0 - 0.25;
        let breadth = 100.0 * (1.0 - (station / 400.0) * (station / 400.0)).max(0.0).sqrt();
        let breadth = if breadth > 0.0 { breadth + off } else { 0.0 };
        Row { line: i + 1, station, breadth, right: None }
    };
    stations.enumerate().map(row).collect()
}

/// The polynomial of so many terms that lies nearest to the rows.
fn polynomial(rows: &[Row], terms: usize) -> Option<DVector<f64>> {
    let power = |row: usize, term: usize| (rows[row].station / 400.0).powi(i32::try_from(term).unwrap_or(0));
    let matrix = DMatrix::from_fn(rows.len(), terms, power);
    let breadths = DVector::from_iterator(rows.len(), rows.iter().map(|row| row.breadth));
    matrix.svd(true, true).solve(&breadths, 1e-12).ok()
}

fn captures(c: &mut Criterion) {
    let mut group = c.benchmark_group("bring in");
    group.sample_size(10);
    let deck = demo::turnstone();
    let (few, clean, mut slip) = (rows(4), rows(22), rows(22));
    slip[20].breadth += 5.0;
    let fit =
        |rows: &[Row]| measured::fit(black_box(rows), &Options::default(), deck.shape()).expect("a deck");
    assert_eq!(fit(&slip).suspects().count(), 1, "there is something to find");
    group.bench_function("9 stations", |b| b.iter(|| fit(&few)));
    group.bench_function("45 stations", |b| b.iter(|| fit(&clean)));
    group.bench_function("45 stations with a slip", |b| b.iter(|| fit(&slip)));
    let pins = fit(&clean).outline.nodes.len();
    group.bench_function("library's least squares of 45 stations", |b| {
        b.iter(|| polynomial(black_box(&clean), pins).expect("the stations differ"));
    });
    let text: String = clean.iter().map(|row| format!("{}\t{}\n", row.station, row.breadth)).collect();
    group.bench_function("the text of a table", |b| {
        b.iter(|| table::read(black_box(&text), System::Millimetres))
    });
    for (name, text) in [("SVG", svg::export(&deck)), ("DXF", dxf::export(&deck))] {
        let read = || drawing::read(black_box(&text), &drawing::Options::default(), deck.shape());
        group.bench_function(name, |b| b.iter(read));
    }
    group.finish();
}

criterion_group!(benches, captures);
criterion_main!(benches);
