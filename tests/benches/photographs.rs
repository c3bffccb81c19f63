//! What a photograph costs: the sheet laid true to scale, and the edge found, of two, six and twelve million pixels.
//!
//! Beside them, in the same run, what a general image library takes: its bilinear warp of the same sheet from the same picture
//! by the plane of the holes alone, without lens and pressed shape; and its edge detector on the whole picture, which gives
//! pixels and no outline.

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use halfbreadth_core::{
    capture::photo::{Given, Set, Sheet, trace},
    demo,
};
use halfbreadth_tests::{
    photos::{Shot, body},
    random::Random,
};
use imageproc::{
    edges::canny,
    geometric_transformations::{Interpolation, Projection, warp_into},
    image::{DynamicImage, Rgba, RgbaImage},
};
use kurbo::{Point, Rect};
use std::hint::black_box;

const COVERS: Rect = Rect::new(-480.0, -180.0, 480.0, 180.0);
/// Pixels of the sheet for each mm, as the page asks for them.
const PER_MM: f64 = 2.0;

/// The library's projection from the picture to the sheet, as the corners of the bolt holes have it.
#[expect(clippy::cast_possible_truncation, reason = "the library counts in less")]
fn flat(set: &Set<'_>) -> Projection {
    let corners = [(-200.0, -50.0), (200.0, -50.0), (200.0, 50.0), (-200.0, 50.0)];
    let pair = |p: Point| (p.x as f32, p.y as f32);
    let seen = corners.map(|corner| pair(set.clicked.projection.apply(corner.into())));
    let laid = corners.map(|(x, y)| pair(Point::new((x - COVERS.x0) * PER_MM, (COVERS.y1 - y) * PER_MM)));
    Projection::from_control_points(seen, laid).expect("four corners are not in a line")
}

fn photographs(c: &mut Criterion) {
    let deck = demo::turnstone();
    let mut group = c.benchmark_group("photograph");
    group.sample_size(10);
    for (across, down) in [(1640_u32, 1230_u32), (2840, 2130), (4000, 3000)] {
        let (width, height) = (across as usize, down as usize);
        let shot = Shot { width, height, distance: 1150.0, tilt: 15.0, ..Shot::default() };
        let photo = shot.take(deck.shape(), &mut Random::new(1));
        let given = Given { holes: photo.holes.clone(), height: Some(photo.lens), ..Given::default() };
        let picture = photo.picture();
        let size = format!("{} Mpx", (width * height + 500_000) / 1_000_000);
        let image =
            RgbaImage::from_raw(across, down, photo.pixels.clone()).expect("there are as many pixels");
        let grey = DynamicImage::ImageRgba8(image.clone()).into_luma8();

        group.throughput(Throughput::Elements((width * height) as u64));
        group.bench_function(BenchmarkId::new("edge and outline", &size), |b| {
            b.iter(|| {
                trace(black_box(&picture), &body(deck.shape()), &given, &mut |_| {}).expect("it is a deck")
            });
        });
        group.bench_function(BenchmarkId::new("library's edges of all pixels", &size), |b| {
            b.iter(|| canny(black_box(&grey), 20.0, 60.0));
        });

        let set = given.set(&body(deck.shape()), (width, height)).expect("the holes fit");
        let sheet = Sheet::new(COVERS, PER_MM);
        group.throughput(Throughput::Elements((sheet.width * sheet.height) as u64));
        group.bench_function(BenchmarkId::new("sheet", &size), |b| {
            b.iter(|| {
                let mut sheet = Sheet::new(COVERS, PER_MM);
                sheet.fill(0..sheet.height, black_box(&picture), &set.seen);
                sheet
            });
        });
        let projection = flat(&set);
        let side = |pixels: usize| u32::try_from(pixels).expect("a few thousand");
        let (wide, high) = (side(sheet.width), side(sheet.height));
        group.bench_function(BenchmarkId::new("library's bilinear warp to the same sheet", &size), |b| {
            b.iter(|| {
                let mut out = RgbaImage::new(wide, high);
                warp_into(black_box(&image), &projection, Interpolation::Bilinear, Rgba([0; 4]), &mut out);
                out
            });
        });
    }
}

criterion_group!(benches, photographs);
criterion_main!(benches);
