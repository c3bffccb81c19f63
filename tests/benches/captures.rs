//! What bringing in a deck costs: a table of 45 stations, with and without a slip of the rule, and a drawing of arcs.

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
use std::hint::black_box;

/// Stations of an ellipse of semi-axes 400 and 100 mm, off by up to a quarter of a millimetre.
fn rows() -> Vec<Row> {
    let stations = (-22..=22).map(|i| f64::from(i) * 400.0 / 22.0);
    let row = |(i, station): (usize, f64)| {
        let off = ((i * 37) % 11) as f64 / 22.0 - 0.25;
        let breadth = 100.0 * (1.0 - (station / 400.0) * (station / 400.0)).max(0.0).sqrt();
        let breadth = if breadth > 0.0 { breadth + off } else { 0.0 };
        Row { line: i + 1, station, breadth, right: None }
    };
    stations.enumerate().map(row).collect()
}

fn captures(c: &mut Criterion) {
    let mut group = c.benchmark_group("bring in");
    group.sample_size(10);
    let deck = demo::turnstone();
    let (clean, mut slip) = (rows(), rows());
    slip[20].breadth += 5.0;
    let fit =
        |rows: &[Row]| measured::fit(black_box(rows), &Options::default(), deck.shape()).expect("a deck");
    assert_eq!(fit(&slip).suspects().count(), 1, "there is something to find");
    group.bench_function("45 stations", |b| b.iter(|| fit(&clean)));
    group.bench_function("45 stations with a slip", |b| b.iter(|| fit(&slip)));
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
