//! The pressed deck: no shape makes it gape, overlap, or show anything but numbers.

use crate::on_designs;
use halfbreadth_core::{
    measure::Measured,
    scene::{Mark, Scene},
    solid::{Detail, Section, Solid, Stand, Turn, picture},
    units::System,
};
use halfbreadth_tests::random::Random;
use kurbo::{Shape as _, Size};

#[track_caller]
fn is_drawn(scene: &Scene, seed: u64) {
    for item in &scene.items {
        if let Mark::Path(path) = &item.mark {
            assert!(path.is_finite() && !path.is_empty(), "seed {seed}: {item:?}");
        }
    }
}

#[test]
fn every_design_is_cut_up_without_gap_and_drawn_from_everywhere() {
    on_designs(400, |seed, design| {
        let mut random = Random::new(seed);
        let shape = design.shape();
        let measured = Measured::of(shape);
        let chord = Detail::Full.chord();
        let solid = Solid::of(shape, &measured.half, random.between(5.0, 20.0), chord);
        // Each chord lies at most `chord` off the edge: so does the area.
        let off = (solid.flat_area() - measured.area).abs();
        assert!(off <= chord * measured.perimeter, "seed {seed}: {off} mm²");
        let stand = Stand::default()
            .with(Turn::Turn, random.between(-7.0, 7.0))
            .with(Turn::Tilt, random.between(-2.0, 2.0));
        let station = random.between(-600.0, 600.0);
        for detail in [Detail::Full, Detail::Light] {
            let size = Size::new(random.between(1.0, 900.0), random.between(1.0, 500.0));
            let (scene, view) = picture(&solid, stand, station, detail, size);
            assert!(!scene.items.is_empty() && view.scale > 0.0, "seed {seed}");
            is_drawn(&scene, seed);
        }
        let section = Section::of(shape, &measured.half, station, 11.0);
        assert!(section.strips.iter().all(|strip| strip[0] <= strip[1]), "seed {seed}: {:?}", section.strips);
        let area = section.band(0.0, 11.0).area().abs();
        let width: f64 = section.strips.iter().map(|strip| strip[1] - strip[0]).sum();
        assert!(area >= 10.9 * width - 1e-6 && area <= 13.5 * width + 1e-6, "seed {seed}: {area} of {width}");
        is_drawn(&section.draw(Size::new(300.0, 150.0), System::Millimetres).0, seed);
    });
}
