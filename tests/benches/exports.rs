//! What an export costs: arcs fitted to the outline, its parallel, the template, the mark-out, and each file of each part in each
//! kind, SVG, DXF, PDF and CSV, beside the parallel that `geo` finds on a polygon of the same accuracy.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use geo::{
    Buffer, Coord, LineString, Polygon,
    algorithm::buffer::{BufferStyle, LineJoin},
};
use halfbreadth_core::{
    arcs::{self, markout, offset::offset},
    demo,
    export::{Export, Kind, Part},
    format::{
        drawing::{Drawing, Options},
        dxf::{self, Curves, DxfOptions, Release},
        svg,
    },
    projection::Projection,
    template::{Template, TemplateOptions, stations},
    tolerance,
    units::System,
};
use halfbreadth_tests::dense;
use std::hint::black_box;

fn geometry(c: &mut Criterion) {
    let deck = demo::turnstone();
    let half = deck.shape().outline.resolve();
    let mut group = c.benchmark_group("outline");
    group.bench_function("biarc fit", |b| {
        b.iter(|| arcs::outline(black_box(&half), tolerance::EXPORT_ARCS));
    });
    let points = dense::half(&half, 100);
    let left = points.iter().map(|p| Coord { x: p.x, y: p.y });
    let right = points.iter().rev().map(|p| Coord { x: p.x, y: -p.y });
    let polygon = Polygon::new(LineString::new(left.chain(right).collect()), Vec::new());
    for distance in [-4.825, 2.0, 11.175] {
        group.bench_with_input(BenchmarkId::new("offset", distance), &distance, |b, distance| {
            b.iter(|| offset(black_box(&half), *distance));
        });
        group.bench_with_input(BenchmarkId::new("geo buffer", distance), &distance, |b, distance| {
            let style = BufferStyle::new(*distance).line_join(LineJoin::Round(0.02));
            b.iter(|| black_box(&polygon).buffer_with_style(style.clone()));
        });
    }
    group.bench_function("plan", |b| b.iter(|| Projection::Plan.half(black_box(deck.shape()))));
    group.sample_size(20);
    group.bench_function("mark-out", |b| b.iter(|| markout::mark_out(black_box(&half), markout::USUAL)));
    group.finish();
}

fn files(c: &mut Criterion) {
    let deck = demo::turnstone();
    let made = || Template::of(&deck, TemplateOptions::default(), System::default());
    let mut group = c.benchmark_group("export");
    group.bench_function("template", |b| b.iter(made));
    let drawings = [
        ("deck", Drawing::deck(&deck, &Options::default())),
        ("half template", made().expect("the demo deck has one").drawing()),
    ];
    for (name, drawing) in &drawings {
        group.bench_function(BenchmarkId::new("svg", name), |b| b.iter(|| svg::print(black_box(drawing))));
        for curves in [Curves::Arcs, Curves::Splines, Curves::Lines] {
            let options = DxfOptions { curves, ..DxfOptions::default() };
            let id = BenchmarkId::new(format!("dxf {}", curves.key()), name);
            group.bench_function(id, |b| b.iter(|| dxf::print_with(black_box(drawing), &options)));
        }
        let old = DxfOptions { release: Release::R12, ..DxfOptions::default() };
        group.bench_function(BenchmarkId::new("dxf r12", name), |b| {
            b.iter(|| dxf::print_with(black_box(drawing), &old));
        });
    }
    for part in Part::ALL {
        let export = Export { part, ..Export::default() };
        let made = export.make(&deck, System::default()).expect("the demo deck has every part");
        for kind in Kind::ALL.into_iter().filter(|kind| made.file(*kind).is_ok()) {
            let id = BenchmarkId::new(format!("file {}", kind.key()), part.key());
            group.bench_function(id, |b| b.iter(|| black_box(&made).file(kind)));
        }
    }
    group.bench_function("table of offsets", |b| {
        b.iter(|| {
            let table = stations::table(black_box(deck.shape()), Projection::Developed, 25.0);
            stations::csv(&table, Projection::Developed)
        });
    });
    group.finish();
}

criterion_group!(benches, geometry, files);
criterion_main!(benches);
