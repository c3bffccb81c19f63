//! Typed dimensions on the demo decks and on variants of them: what is met, what stays, what is refused.

use super::*;
use crate::{
    demo::{self, cubics},
    edit::Edit,
    outline::{Half, check},
};

/// Amounts typed for every dimension, up and down: mm, or radians for angles.
fn steps(dimension: &Dimension) -> [f64; 8] {
    let by = [-60.0, -20.0, -5.0, -0.4, 0.4, 5.0, 20.0, 60.0];
    if dimension.quantity().unit == Unit::Angle { by.map(|mm| mm / 500.0) } else { by }
}

fn value(key: &str, design: &Design) -> Option<f64> {
    find(key).unwrap().read(design.shape(), &Measured::of(design.shape())).value
}

/// Checks that each of `keys` reads the same, mm or radians, on both designs.
#[track_caller]
fn check_kept(keys: &[&str], before: &Design, after: &Design) {
    for key in keys {
        let (was, is) = (value(key, before).unwrap(), value(key, after).unwrap());
        assert!((was - is).abs() < 1e-5, "{key}: {was} became {is}");
    }
}

/// The largest difference of the half-breadths from one station to another, mm.
fn apart(before: &Design, after: &Design, from: f64, to: f64) -> f64 {
    let [a, b] = [before, after].map(|design| Measured::of(design.shape()).envelope);
    (0..=200)
        .map(|k| from + (to - from) * f64::from(k) / 200.0)
        .map(|x| (a.half_breadth(x).unwrap() - b.half_breadth(x).unwrap()).abs())
        .fold(0.0, f64::max)
}

#[test]
fn every_dimension_is_met_up_and_down_or_refused_with_a_value_that_can_be_met() {
    for deck in demo::all() {
        for dimension in DIMENSIONS {
            let Some(present) = value(dimension.key, &deck) else { continue };
            let met = dimension.accuracy().met;
            for by in steps(dimension) {
                let case = format!("{}: {} {present} {by:+}", deck.name(), dimension.key);
                match set(&deck, dimension.key, present + by) {
                    Ok(changed) => {
                        let found = value(dimension.key, &changed).unwrap();
                        assert!((found - present - by).abs() <= met, "{case}: {found}");
                    }
                    Err(refused) => {
                        let nearest = refused.nearest().unwrap();
                        let share = (nearest - present) / by;
                        assert!((0.0..1.0).contains(&share), "{case}: {refused}");
                        let changed = set(&deck, dimension.key, nearest).unwrap();
                        assert!((value(dimension.key, &changed).unwrap() - nearest).abs() <= met, "{case}");
                    }
                }
            }
        }
    }
}

#[test]
fn a_change_a_maker_would_type_is_met_and_keeps_the_curve_fair() {
    for deck in demo::all() {
        let before = Measured::of(deck.shape());
        for dimension in DIMENSIONS {
            let Some(present) = value(dimension.key, &deck) else { continue };
            for by in steps(dimension).into_iter().skip(2).take(4) {
                let changed = set(&deck, dimension.key, present + by).unwrap();
                let after = Measured::of(changed.shape());
                let case = format!("{}: {} {by:+}", deck.name(), dimension.key);
                assert_eq!(after.fairness.sign_changes, before.fairness.sign_changes, "{case}");
                assert!(
                    after.fairness.extrema <= before.fairness.extrema + 12,
                    "{case}: {:?}",
                    after.fairness
                );
                assert!(after.fairness.tangent_jump < 1e-7, "{case}: {:?}", after.fairness);
                let jump = after.fairness.curvature_jump - before.fairness.curvature_jump;
                assert!(jump < 0.002, "{case}: {:?}", after.fairness);
                assert_eq!(after.corners.len(), before.corners.len(), "{case}");
            }
        }
    }
}

#[test]
fn length_moves_both_ends_equally_and_leaves_what_lies_between_the_bolt_rows() {
    for deck in cubics::all() {
        let longer = set(&deck, "overall-length", value("overall-length", &deck).unwrap() + 12.0).unwrap();
        for key in ["nose-kick-length", "tail-kick-length"] {
            assert!((value(key, &longer).unwrap() - value(key, &deck).unwrap() - 6.0).abs() < 1e-6);
        }
        let row = deck.shape().datum.outer_row();
        assert!(apart(&deck, &longer, -row, row) < 2e-6, "{}", deck.name());
        check_kept(&["overall-width", "rail-run-fore"], &deck, &longer);
    }
}

#[test]
fn width_scales_the_half_breadths_and_leaves_every_length() {
    for deck in demo::all() {
        let width = value("overall-width", &deck).unwrap();
        let wider = set(&deck, "overall-width", width * 1.02).unwrap();
        check_kept(&["overall-length", "nose-kick-length", "tail-kick-length", "wheelbase"], &deck, &wider);
        let [a, b] = [&deck, &wider].map(|design| Measured::of(design.shape()).envelope);
        for x in [-150.0, 0.0, 40.0, 200.0] {
            let share = b.half_breadth(x).unwrap() / a.half_breadth(x).unwrap();
            assert!((share - 1.02).abs() < 2e-4, "{} {x}: {share}", deck.name());
        }
    }
}

#[test]
fn a_kick_moves_alone_beyond_its_bend_line() {
    for deck in [cubics::turnstone(), cubics::whimbrel()] {
        for (key, other, sign) in
            [("nose-kick-length", "tail-kick", 1.0), ("tail-kick-length", "nose-kick", -1.0)]
        {
            let longer = set(&deck, key, value(key, &deck).unwrap() + 9.0).unwrap();
            let other = [format!("{other}-length"), format!("{other}-taper")];
            check_kept(&other.each_ref().map(String::as_str), &deck, &longer);
            let measured = Measured::of(deck.shape());
            let (here, there) =
                if sign > 0.0 { (measured.nose, measured.tail) } else { (measured.tail, measured.nose) };
            let (from, to) = (sign * here.reference, -sign * (there.end.x - 1e-3));
            assert!(apart(&deck, &longer, from, to) < 2e-6, "{} {key}", deck.name());
        }
    }
}

#[test]
fn a_taper_turns_the_side_and_leaves_length_and_the_width_at_the_bend_line() {
    for deck in cubics::all() {
        for (key, sign) in [("nose-kick-taper", 1.0), ("tail-kick-taper", -1.0)] {
            let turned = set(&deck, key, value(key, &deck).unwrap() + 0.01).unwrap();
            check_kept(&["overall-length", "overall-width", "wheelbase"], &deck, &turned);
            let bend = sign * Measured::of(deck.shape()).nose.reference;
            let bend = if sign < 0.0 { -Measured::of(deck.shape()).tail.reference } else { bend };
            assert!(apart(&deck, &turned, bend, 0.0) < 2e-6, "{} {key}", deck.name());
        }
    }
}

#[test]
fn a_tip_is_rounded_without_moving_the_end_or_what_lies_inside_the_bend_line() {
    for deck in cubics::all() {
        let rounder = set(&deck, "nose-tip-radius", value("nose-tip-radius", &deck).unwrap() * 1.1).unwrap();
        check_kept(&["overall-length", "overall-width", "nose-kick-length"], &deck, &rounder);
        let bend = Measured::of(deck.shape()).nose.reference;
        assert!(apart(&deck, &rounder, 0.0, bend) < 2e-6, "{}", deck.name());
    }
}

/// A batten through the pins that move and those that stay gives along its whole length: by far less than a saw does.
#[test]
fn what_a_change_leaves_on_cubics_gives_on_battens_by_less_than_a_tenth_of_a_millimetre() {
    for deck in demo::all() {
        let measured = Measured::of(deck.shape());
        let row = deck.shape().datum.outer_row();
        for (key, by, from, to) in [
            ("overall-length", 12.0, -row, row),
            ("nose-kick-length", 9.0, 0.0, measured.nose.reference),
            ("tail-kick-length", 9.0, -measured.tail.reference, 0.0),
            ("nose-kick-taper", 0.01, 0.0, measured.nose.reference),
            ("tail-kick-taper", 0.01, -measured.tail.reference, 0.0),
            ("nose-tip-radius", 6.0, 0.0, measured.nose.reference),
        ] {
            let changed = set(&deck, key, value(key, &deck).unwrap() + by).unwrap();
            let given = apart(&deck, &changed, from, to);
            assert!(given < 0.1, "{} {key}: {given}", deck.name());
            let width = |design: &Design| value("overall-width", design).unwrap();
            assert!((width(&changed) - width(&deck)).abs() < 1e-3, "{} {key}", deck.name());
        }
    }
}

#[test]
fn a_wheelbase_leaves_the_outline_to_the_bit_and_takes_the_bend_lines_along() {
    for deck in demo::all() {
        let before = value("wheelbase", &deck).unwrap();
        let longer = set(&deck, "wheelbase", before + 6.35).unwrap();
        assert_eq!(longer.shape().outline, deck.shape().outline);
        let [a, b] = [&deck, &longer].map(|design| Measured::of(design.shape()).nose.reference);
        assert!((b - a - 3.175).abs() < 1e-9);
    }
}

#[test]
fn a_waist_changes_without_the_ends_and_the_width() {
    let deck = demo::dunlin();
    for (key, by) in [("waist-width", -3.0), ("waist-length", -40.0), ("waist-length", 25.0)] {
        let changed = set(&deck, key, value(key, &deck).unwrap() + by).unwrap();
        check_kept(&["overall-length", "overall-width", "nose-kick-length", "wheelbase"], &deck, &changed);
        assert_eq!(changed.shape().outline.nodes.len(), deck.shape().outline.nodes.len());
    }
    let shorter = set(&deck, "waist-length", value("waist-length", &deck).unwrap() - 40.0).unwrap();
    check_kept(&["waist-width"], &deck, &shorter);
}

#[test]
fn a_twin_stays_one_and_its_tail_sets_its_nose() {
    let deck = demo::dunlin();
    for key in ["kick-length", "kick-taper", "tip-radius"] {
        let [nose, tail] = ["nose", "tail"].map(|end| {
            let key = format!("{end}-{key}");
            let changed = set(&deck, &key, value(&key, &deck).unwrap() * 1.03).unwrap();
            assert!(changed.shape().outline.twin);
            Measured::of(changed.shape()).area
        });
        assert!((nose - tail).abs() < 1e-2, "{key}: {nose} {tail}");
    }
}

#[test]
fn what_a_shape_does_not_have_is_refused_with_words() {
    let deck = demo::turnstone();
    for key in ["waist-width", "waist-length"] {
        let refused = set(&deck, key, 190.0).unwrap_err();
        assert_eq!(refused.nearest(), None);
        assert!(refused.to_string().contains("no waist"), "{refused}");
    }
    assert!(set(&deck, "rail-run-aft", 90.0).unwrap_err().to_string().contains("a single straight rail"));
    assert_eq!(set(&deck, "rocker", 1.0), Err(Unmet::Unknown("rocker".to_owned())));
}

#[test]
fn a_nearest_value_that_looks_like_the_one_wanted_is_not_offered() {
    let quantity = find("overall-width").unwrap().quantity();
    let unmet =
        |nearest| Unmet::Beyond { quantity, wanted: 170.0, nearest, why: Obstacle::Words("too tight") };
    let text = unmet(169.999_6).to_string();
    assert_eq!(text, "Width 170.0 mm cannot be met: too tight; let go of a lock, or ask for less");
    assert!(unmet(169.0).to_string().ends_with("; the nearest is 169 mm"));
}

#[test]
fn a_limit_that_a_search_came_upon_does_not_contradict_itself() {
    let quantity = find("nose-kick-length").unwrap().quantity();
    let text = |found| Refusal::OutOfRange { quantity, found, least: 30.0, most: 300.0 }.to_string();
    assert_eq!(text(300.000_01), "Nose kick length goes no further: at most 300.0 mm");
    assert_eq!(text(29.999), "Nose kick length goes no further: at least 30.0 mm");
    assert_eq!(text(301.0), "Nose kick length 301.0 mm is too large (at most 300.0 mm)");
}

#[test]
fn what_is_offered_is_as_even_as_it_is_known() {
    for (value, present, apart, offered) in [
        (699.999_999_9, 650.0, 0.0, 700.0),
        (650.0, 699.999_999_9, 0.0, 650.0),
        (699.999_999_9, 699.999_999_9, 0.0, 700.0),
        (221.378_4, 209.55, 0.04, 221.37),
        (221.378_4, 230.0, 0.04, 221.38),
        (221.378_4, 209.55, 0.0, 221.378),
    ] {
        let found = Accuracy::LENGTH.of_search(apart).toward(value, present);
        assert!((found - offered).abs() < 1e-9, "{found} for {value} from {present}");
    }
}

#[test]
fn a_refusal_says_what_was_found_the_limit_and_the_nearest() {
    let refused = set(&demo::turnstone(), "overall-width", 400.0).unwrap_err();
    assert_eq!(refused.nearest(), Some(320.0));
    let text = refused.to_string();
    assert_eq!(text, "Width 400.0 mm cannot be met: it may be 120.0 mm to 320.0 mm; the nearest is 320 mm");
    let nan = set(&demo::turnstone(), "overall-width", f64::NAN).unwrap_err();
    assert_eq!(nan.to_string(), "Width is not a number: it stays 209.55 mm");
}

#[test]
fn a_dimension_set_there_and_back_brings_the_edge_back() {
    for deck in demo::all() {
        for key in ["overall-length", "overall-width", "nose-kick-length"] {
            let present = value(key, &deck).unwrap();
            let back = set(&set(&deck, key, present + 6.0).unwrap(), key, present).unwrap();
            let halves = [&deck, &back].map(|design| design.shape().outline.resolve());
            let farthest = crate::compare::farthest(&halves[0], &halves[1]).distance;
            assert!(farthest < 0.15, "{} {key}: {farthest}", deck.name());
        }
    }
}

/// A random generator of 64 bits (Knuth's constants for a linear congruence, from memory).
struct Random(u64);

impl Random {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn below(&mut self, n: usize) -> usize {
        #[expect(clippy::cast_possible_truncation, reason = "a small index")]
        let index = (self.next() * n as f64) as usize;
        index
    }
}

/// The demo decks, and some with corners, straight edges and few nodes.
fn decks() -> Vec<Design> {
    let edits = [
        (cubics::whimbrel(), Edit::SetStraight { span: 2, straight: true }),
        (cubics::whimbrel(), Edit::SetSmooth { node: 2, smooth: false }),
        (cubics::turnstone(), Edit::DeleteNode { node: 2 }),
        (cubics::turnstone(), Edit::MoveNode { node: 2, to: (0.0, 98.0).into() }),
        (cubics::dunlin(), Edit::SetTwin(false)),
        (cubics::dunlin(), Edit::SetSmooth { node: 4, smooth: false }),
    ];
    let edited = edits.into_iter().map(|(deck, edit)| deck.apply(&edit).unwrap());
    demo::all().into_iter().chain(edited).collect()
}

#[test]
fn random_values_never_panic_and_keep_a_valid_outline() {
    let mut random = Random(1);
    let mut met = 0;
    for _ in 0..500 {
        let decks = decks();
        let mut design = decks[random.below(decks.len())].clone();
        for _ in 0..2 {
            let dimension = &DIMENSIONS[random.below(DIMENSIONS.len())];
            let present = value(dimension.key, &design).unwrap_or(100.0);
            let wanted = match random.below(8) {
                0 => (random.next() - 0.5) * 4000.0,
                1 => [f64::INFINITY, f64::NAN, 0.0, -1.0, 1e300][random.below(5)],
                _ => present * (0.7 + 0.6 * random.next()),
            };
            if let Ok(changed) = set(&design, dimension.key, wanted) {
                let shape = changed.shape();
                let half: Half = check(&shape.outline, &shape.datum).unwrap();
                assert!(half.pieces().len() >= 2);
                let miss = (value(dimension.key, &changed).unwrap() - wanted).abs();
                assert!(miss <= dimension.accuracy().met, "{} {wanted}: {miss}", dimension.key);
                design = changed;
                met += 1;
            }
        }
    }
    assert!(met > 500, "{met} of 1000 met");
}

mod locks;
