//! What one frame of a drag costs: every measure of a deck taken anew, beside kurbo's generic routines for the same
//! quantities; and a move of a node while dimensions are locked.
//!
//! The first two work on the same resolved outline of 16 and of 64 cubics and end with 41 half-breadths and the full table of
//! what they found; kurbo's routines leave out what kurbo has no routine for (compass, shoulders, rails, waists, plan).

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use halfbreadth_core::{
    demo,
    design::Design,
    edit::Edit,
    editor::{Editor, Intent, Settings},
    format::link,
    history::History,
    measure::Measured,
    outline::Half,
    tolerance,
    workshop::{FIGURES, Workshop},
};
use kurbo::{
    BezPath, Line, ParamCurve, ParamCurveArclen, ParamCurveCurvature, ParamCurveExtrema, PathSeg, Point,
    Shape as _, Size, Vec2,
};
use std::{
    f64::consts::{FRAC_PI_2, TAU},
    hint::black_box,
};

/// Stations of a table of offsets.
const STATIONS: i32 = 41;
/// Places to each cubic at which a generic search looks for the tightest bend.
const CURVATURES: i32 = 33;

/// Dimensions that are held while a node moves.
const LOCKS: [&str; 3] = ["overall-width", "overall-length", "nose-kick-taper"];
/// Turnstone's pin on the bend line of its nose.
const NOSE_BEND: usize = 11;

/// The street deck drawn in cubics, as the first release drew it.
fn in_cubics() -> Design {
    link::decode(include_str!("../links/v1/turnstone.link")).expect("every release opens it")
}

/// The street deck as a twin whose outline resolves to that many cubics.
fn deck(cubics: usize) -> Design {
    let mut design = in_cubics().apply(&Edit::SetTwin(true)).expect("it has a nose half");
    while design.shape().outline.resolve().pieces().len() < cubics {
        let half = design.shape().outline.resolve();
        let near_half = half.pieces().iter().filter(|piece| !piece.far);
        let longest = near_half.max_by(|a, b| length(a.curve.into()).total_cmp(&length(b.curve.into())));
        let piece = longest.expect("an outline has pieces");
        let edit = Edit::AddNode { span: piece.span, near: piece.curve.eval(0.5) };
        design = design.apply(&edit).expect("a node can be added in the middle of a span");
    }
    design
}

fn length(segment: PathSeg) -> f64 {
    segment.arclen(1.0)
}

fn stations(measured: &Measured) -> f64 {
    let (tail, nose) = (-measured.tail.end.x, measured.nose.end.x);
    let at = |k: i32| tail + (nose - tail) * f64::from(k) / f64::from(STATIONS - 1);
    (0..STATIONS).filter_map(|k| measured.envelope.half_breadth(at(k))).sum()
}

/// The same quantities by kurbo's routines alone.
fn generic(half: &Half) -> [f64; 6] {
    let path: BezPath = half.closed();
    let bounds = path.bounding_box();
    let curves: Vec<PathSeg> = half.path().segments().collect();
    let perimeter: f64 =
        2.0 * curves.iter().map(|c| c.arclen(tolerance::ARC_LENGTH_RELATIVE * bounds.width())).sum::<f64>();
    let breadth = |x: f64| {
        let line = Line::new((x, -1.0), (x, bounds.y1 + 1.0));
        let crossings = curves.iter().flat_map(|c| c.intersect_line(line)).map(|hit| line.eval(hit.line_t).y);
        crossings.fold(0.0, f64::max)
    };
    let at = |k: i32| bounds.x0 + bounds.width() * f64::from(k) / f64::from(STATIONS - 1);
    let breadths: f64 = (0..STATIONS).map(|k| breadth(at(k))).sum();
    let (mut convex, mut concave) = ((0.0_f64, Point::ZERO), (0.0_f64, Point::ZERO));
    for c in &curves {
        for k in 0..CURVATURES {
            let t = f64::from(k) / f64::from(CURVATURES - 1);
            let curvature = match c {
                PathSeg::Cubic(cubic) => cubic.curvature(t),
                PathSeg::Line(_) | PathSeg::Quad(_) => 0.0,
            };
            if curvature > convex.0 {
                convex = (curvature, c.eval(t));
            } else if curvature < concave.0 {
                concave = (curvature, c.eval(t));
            }
        }
    }
    let extrema: f64 = curves.iter().flat_map(|c| c.extrema()).sum();
    [path.area(), perimeter, breadths, convex.0, concave.0, extrema]
}

fn recompute(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("recompute");
    for cubics in [16, 64] {
        let design = deck(cubics);
        assert_eq!(design.shape().outline.resolve().pieces().len(), cubics);
        group.bench_function(BenchmarkId::new("every measure", cubics), |bencher| {
            bencher.iter(|| Measured::of(black_box(design.shape())));
        });
        group.bench_function(BenchmarkId::new("every measure and 41 stations", cubics), |bencher| {
            bencher.iter(|| {
                let measured = Measured::of(black_box(design.shape()));
                (stations(&measured), measured)
            });
        });
        group.bench_function(BenchmarkId::new("kurbo's generic routines", cubics), |bencher| {
            bencher.iter(|| generic(&black_box(design.shape()).outline.resolve()));
        });
    }
    group.finish();
}

/// A node moved a millimetre, as at each frame of a drag, while so many dimensions keep their values.
fn locked(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("move a node");
    let moved = Edit::MoveNode { node: 3, to: Point::new(254.0, 99.8) };
    let mut design = in_cubics();
    for locks in 0..=LOCKS.len() {
        assert!(design.apply(&moved).is_ok());
        group.bench_function(BenchmarkId::new("locks", locks), |bencher| {
            bencher.iter(|| black_box(&design).apply(&moved));
        });
        if let Some(&key) = LOCKS.get(locks) {
            design = design.apply(&Edit::SetLock { key, locked: true }).expect("it can be locked");
        }
    }
    group.finish();
}

/// A pin taken once round a circle of 20 mm in sixty frames, some of them against what the dimensions held allow.
fn dragged(criterion: &mut Criterion) {
    const FRAMES: u32 = 60;
    let mut group = criterion.benchmark_group("drag a pin round, 60 frames");
    group.sample_size(20);
    for locks in [0, LOCKS.len()] {
        let mut editor = Editor::new(
            History::new("a deck", demo::turnstone()),
            Settings::default(),
            Size::new(1000.0, 600.0),
        );
        for key in &LOCKS[..locks] {
            editor.handle(Intent::ToggleLock { key: (*key).to_owned() });
        }
        let at = demo::turnstone().shape().outline.nodes[NOSE_BEND].place;
        group.bench_function(BenchmarkId::new("locks", locks), |bencher| {
            bencher.iter(|| {
                editor.handle(Intent::Grab { at, reach: 1.0 });
                for frame in 0..FRAMES {
                    let turn = f64::from(frame) / f64::from(FRAMES) * TAU;
                    let to = at + 20.0 * (Vec2::from_angle(FRAC_PI_2 - turn) - Vec2::new(0.0, 1.0));
                    editor.handle(Intent::Drag { to });
                }
                editor.handle(Intent::Cancel);
            });
        });
    }
    group.finish();
}

/// Every figure of the workshop beside every measure it starts from.
fn workshop(criterion: &mut Criterion) {
    let deck = demo::turnstone();
    let measured = Measured::of(deck.shape());
    let mut group = criterion.benchmark_group("workshop");
    group.bench_function("measures", |b| b.iter(|| Measured::of(black_box(deck.shape()))));
    group.bench_function("figures", |b| {
        b.iter(|| {
            let workshop = Workshop::of(black_box(deck.shape()), &measured, deck.workshop());
            FIGURES.iter().filter_map(|figure| (figure.read)(&workshop).value).sum::<f64>()
        });
    });
}

criterion_group!(benches, recompute, locked, dragged, workshop);
criterion_main!(benches);
