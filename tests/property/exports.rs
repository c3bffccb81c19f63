//! Templates, mark-outs and files of random designs: closed, finite, within what they say, or refused in words.

use crate::on_designs;
use halfbreadth_core::{
    arcs::{self, markout, offset::OffsetError},
    format::{
        drawing::{Drawing, Options},
        dxf::{Curves, DxfOptions, Release, print_with},
        svg,
    },
    projection::Projection,
    template::{Cut, Guide, HoleKind, Template, TemplateError, TemplateOptions, stations},
    units::System,
};
use halfbreadth_tests::random::Random;

fn options(random: &mut Random) -> TemplateOptions {
    let bit = random.between(2.0, 30.0);
    TemplateOptions {
        guide: random.pick(&[Guide::Bushing, Guide::Bushing, Guide::Bearing]),
        bushing: random.between(bit.max(5.0), 60.0),
        bearing: random.between(2.0, 60.0),
        bit,
        cut: random.pick(&[Cut::Outside, Cut::Outside, Cut::WindowDeck, Cut::WindowOpening]),
        saw_line: random.between(0.5, 6.0),
        thickness: random.between(1.0, 25.0),
        holes: random.pick(&[HoleKind::Holes, HoleKind::Marks]),
        drill: random.between(1.0, 20.0),
        half: random.chance(0.5),
        projection: random.pick(&[Projection::Developed, Projection::Plan]),
        version: String::new(),
        date: "2026-05-02".to_owned(),
    }
}

fn files(drawing: &Drawing, random: &mut Random) -> [String; 2] {
    let release = random.pick(&[Release::R2000, Release::R12]);
    let curves = random.pick(&[Curves::Arcs, Curves::Splines, Curves::Lines]);
    let curves = if release == Release::R12 && curves == Curves::Splines { Curves::Arcs } else { curves };
    let options = DxfOptions { release, curves, tolerance: random.between(0.001, 0.1) };
    [print_with(drawing, &options).expect("they go together"), svg::print(drawing)]
}

#[test]
fn a_template_is_closed_and_finite_or_refused() {
    let (mut made, mut tangled) = (0, 0);
    on_designs(150, |seed, design| {
        let random = &mut Random::new(seed ^ 0xA5A5);
        let options = options(random);
        let is_half = options.half;
        match Template::of(design, options, System::default()) {
            Ok(template) => {
                made += 1;
                // The saw line of a half template ends at the centreline.
                let saw_line = template.saw_line.iter().filter(|_| !is_half);
                for edge in template.edges.iter().chain(saw_line) {
                    let next = edge.iter().cycle().skip(1);
                    assert!(edge.iter().zip(next).all(|(arc, next)| arc.p1 == next.p0), "{seed} is open");
                    assert!(edge.iter().all(|arc| arc.bulge.abs() <= 1.0 + 1e-9), "{seed} has a long arc");
                }
                let lowest = arcs::extent(&template.edges[0]).expect("it has an edge").y0;
                assert!(!is_half || (lowest + 25.0).abs() < 1e-9, "{seed}: {lowest}");
                for file in files(&template.drawing(), random) {
                    assert!(!file.contains("NaN") && !file.contains("inf\n"), "{seed}");
                }
            }
            Err(TemplateError::Offset { error: OffsetError::Tangled(_), .. }) => tangled += 1,
            Err(TemplateError::NoEars | TemplateError::Offset { .. }) => {}
            Err(other) => panic!("{seed}: {other}"),
        }
    });
    assert!(made > 90 && tangled == 0, "{made} {tangled}");
}

#[test]
fn a_mark_out_is_within_its_tolerance() {
    on_designs(12, |seed, design| {
        let random = &mut Random::new(seed ^ 0x5A5A);
        let projection = random.pick(&[Projection::Developed, Projection::Plan]);
        let tolerance = random.between(markout::LEAST, markout::MOST);
        let half = projection.half(design.shape());
        let made = markout::mark_out(&half, tolerance).expect("a design has an outline");
        assert!(made.deviation <= tolerance, "{seed}: {} above {tolerance}", made.deviation);
        assert!(made.pieces.len() <= 60, "{seed}: {}", made.pieces.len());
        for file in files(&markout::drawing(design, &made, projection, System::default()), random) {
            assert!(!file.contains("NaN"), "{seed}");
        }
    });
}

#[test]
fn a_table_of_offsets_and_a_deck_in_plan_have_no_hole() {
    on_designs(40, |seed, design| {
        for projection in [Projection::Developed, Projection::Plan] {
            let table = stations::table(design.shape(), projection, 25.0);
            assert!(table.iter().all(|row| row.crossings.iter().all(|y| y.is_finite())), "{seed}");
            for end in ["nose end", "tail end"] {
                assert!(
                    table.iter().any(|row| row.name == end),
                    "{seed} has no {end} in {}",
                    projection.key()
                );
            }
            let deck = Drawing::deck(design, &Options { projection, ..Options::default() });
            for file in files(&deck, &mut Random::new(seed)) {
                assert!(!file.contains("NaN"), "{seed}");
            }
        }
    });
}
