//! The workshop's numbers: finite for every design and every input within its limits, and the right way round.

use crate::on_designs;
use halfbreadth_core::{
    demo,
    design::Shape,
    layup::{Grain, Layup},
    measure::Measured,
    profile::Profile,
    workshop::{
        FIGURES, INPUTS, Inputs, Workshop,
        flex::Beam,
        laminate::{Laminate, Layer},
        section::Section,
        species::SPECIES,
    },
};
use halfbreadth_tests::random::Random;

fn stack(random: &mut Random) -> Vec<Layer> {
    let layer = |random: &mut Random| {
        let along = random.between(8000.0, 16_000.0);
        Layer {
            thickness: random.between(0.4, 4.0),
            along,
            across: along * random.between(0.0, 0.1),
            rupture: along * random.between(0.006, 0.012),
            grain: random.pick(&[Grain::Along, Grain::Across]),
        }
    };
    let count = 1 + random.below(13);
    (0..count).map(|_| layer(random)).collect()
}

#[test]
fn every_figure_is_a_number_or_says_why_not() {
    on_designs(1500, |seed, design| {
        let mut random = Random::new(seed);
        let mut inputs = Inputs::default();
        let mut shape = design.shape().clone();
        for ply in &mut shape.layup.plies {
            ply.species = random.pick(&[&SPECIES[0], &SPECIES[3], &SPECIES[4]]);
        }
        for input in INPUTS {
            let value =
                (!input.optional || random.chance(0.5)).then(|| random.between(input.least, input.most));
            (input.set)(&mut inputs, value);
        }
        let measured = Measured::of(&shape);
        let workshop = Workshop::of(&shape, &measured, &inputs);
        for figure in FIGURES {
            let reading = (figure.read)(&workshop);
            let key = figure.quantity.key;
            assert!(reading.value.is_none_or(f64::is_finite), "seed {seed}: {key} is {reading:?}");
            assert!(reading.value.is_some() || !reading.remark.is_empty(), "seed {seed}: {key} says not why");
        }
        for fault in workshop.faults() {
            assert!(!fault.field().is_empty() && fault.to_string().ends_with('.'), "seed {seed}: {fault:?}");
        }
    });
}

#[test]
fn a_stack_turned_over_is_as_stiff() {
    let mut random = Random::new(51);
    for _ in 0..2000 {
        let layers = stack(&mut random);
        let turned: Vec<Layer> = layers.iter().rev().copied().collect();
        let (a, b) = (Laminate::of(&layers).unwrap(), Laminate::of(&turned).unwrap());
        for (a, b) in [(a.along, b.along), (a.across, b.across)] {
            assert!((a.bend - b.bend).abs() <= 1e-9 * a.bend, "{layers:?}");
            assert!((a.loose - b.loose).abs() <= 1e-9 * a.loose, "{layers:?}");
        }
        assert!((a.along.axis + b.along.axis - a.thickness).abs() < 1e-9, "{layers:?}");
    }
}

#[test]
fn a_thicker_ply_or_one_more_never_makes_a_stack_softer() {
    let mut random = Random::new(52);
    for _ in 0..2000 {
        let layers = stack(&mut random);
        let before = Laminate::of(&layers).unwrap();
        let mut thicker = layers.clone();
        thicker[random.below(layers.len())].thickness *= random.between(1.0, 1.5);
        let mut more = layers.clone();
        more.insert(random.below(layers.len() + 1), layers[0]);
        for after in [thicker, more] {
            let after = Laminate::of(&after).unwrap();
            assert!(after.along.bend >= before.along.bend * (1.0 - 1e-12), "{layers:?}");
            assert!(after.across.bend >= before.across.bend * (1.0 - 1e-12), "{layers:?}");
            // Glue never softens, and springs back in part only.
            assert!(after.along.bend >= after.along.loose && (0.0..=1.0).contains(&after.along.springback()));
        }
    }
}

#[test]
fn a_wider_section_is_never_softer() {
    let mut random = Random::new(53);
    let plate = Laminate::of(&Layer::of_layup(&Layup::default())).unwrap().along;
    let deck = demo::turnstone();
    for _ in 0..2000 {
        let width = random.between(120.0, 320.0);
        let profile = Profile {
            concave_depth: random.between(0.0, 25.0),
            concave_width: width,
            flat_strip: random.between(0.0, width - 60.0),
            ..deck.shape().profile.clone()
        };
        let (narrow, x) = (random.between(5.0, width / 2.0), random.between(-260.0, 260.0));
        let wide = narrow + random.between(0.0, width / 2.0 - narrow);
        let stiffness =
            |half: f64| Section::of(&profile, &deck.shape().datum, x, half, true).stiffness(&plate);
        assert!(stiffness(wide) >= stiffness(narrow), "{narrow} {wide} {profile:?}");
    }
}

#[test]
fn a_thicker_deck_gives_less_and_deflection_follows_the_load() {
    on_designs(60, |seed, design| {
        let mut last = f64::INFINITY;
        for thickness in [1.2, 1.5, 2.0] {
            let mut shape = design.shape().clone();
            shape.layup.plies.iter_mut().for_each(|ply| ply.thickness = thickness);
            let measured = Measured::of(&shape);
            let layers = Layer::of_layup(&shape.layup);
            let laminate = Laminate::of(&layers).unwrap();
            let beam = Beam::of(&shape, &measured, &laminate, &layers);
            let (one, two) = (beam.under(500.0), beam.under(1000.0));
            assert!(one.deflection < last && one.deflection > 0.0, "seed {seed}");
            assert!(one.deflection <= one.flat_deflection * (1.0 + 1e-12), "seed {seed}");
            assert!((two.deflection / one.deflection - 2.0).abs() < 1e-12, "seed {seed}");
            assert!((two.top / one.top - 2.0).abs() < 1e-12, "seed {seed}");
            assert!((one.stiffness_ratio(&two) - 1.0).abs() < 1e-12, "seed {seed}");
            last = one.deflection;
        }
    });
}

#[test]
fn glue_scales_with_the_area_of_the_blank() {
    let mut random = Random::new(54);
    for _ in 0..500 {
        let mut shape = demo::turnstone().shape().clone();
        let scale = random.between(1.0, 1.5);
        let glue = |shape: &Shape| {
            let (measured, inputs) = (Measured::of(shape), Inputs::default());
            let coverage = Workshop::of(shape, &measured, &inputs).coverage;
            [coverage.mass, coverage.volume, coverage.per_line]
        };
        let before = glue(&shape);
        shape.layup.blank_length *= scale;
        for (after, before) in glue(&shape).into_iter().zip(before) {
            assert!((after / before - scale).abs() < 1e-12);
        }
    }
}
