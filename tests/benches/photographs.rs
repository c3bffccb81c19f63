//! What a photograph costs: the sheet laid true to scale, and the edge found, of one and of twelve million pixels, beside the
//! image library's warp of the same size (nearest and bilinear, no lens and no pressed shape).

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use halfbreadth_core::{
    capture::photo::{Given, Sheet, trace},
    demo,
};
use halfbreadth_tests::{photos::Shot, random::Random};
use imageproc::{
    geometric_transformations::{Interpolation, Projection, warp},
    image::{Rgba, RgbaImage},
};
use kurbo::Rect;
use std::hint::black_box;

fn photographs(c: &mut Criterion) {
    let deck = demo::turnstone();
    let mut group = c.benchmark_group("photograph");
    group.sample_size(10);
    for (across, down) in [(1160_u32, 870_u32), (4000, 3000)] {
        let (width, height) = (across as usize, down as usize);
        let shot = Shot { width, height, distance: 1150.0, tilt: 15.0, ..Shot::default() };
        let photo = shot.take(deck.shape(), &mut Random::new(1));
        let given = Given { holes: photo.holes.clone(), height: Some(photo.lens), ..Given::default() };
        let picture = photo.picture();
        let megapixels = width * height;
        group.throughput(Throughput::Elements(megapixels as u64));
        group.bench_function(BenchmarkId::new("edge and outline", megapixels), |b| {
            b.iter(|| trace(black_box(&picture), deck.shape(), &given, &mut |_| {}).expect("it is a deck"));
        });
        let set = given.set(deck.shape(), (width, height)).expect("the holes fit");
        let covers = Rect::new(-480.0, -180.0, 480.0, 180.0);
        group.bench_function(BenchmarkId::new("sheet at 2 px/mm", megapixels), |b| {
            b.iter(|| {
                let mut sheet = Sheet::new(covers, 2.0);
                sheet.fill(0..sheet.height, black_box(&picture), &set.seen);
                sheet
            });
        });
        let image = RgbaImage::from_raw(across, down, photo.pixels.clone());
        let image = image.expect("there are as many pixels");
        let turn = Projection::rotate(0.1);
        group.bench_function(BenchmarkId::new("library's bilinear warp of all pixels", megapixels), |b| {
            b.iter(|| warp(black_box(&image), &turn, Interpolation::Bilinear, Rgba([0; 4])));
        });
    }
}

criterion_group!(benches, photographs);
criterion_main!(benches);
