//! Sweeps kept, laid again, moved about and set free.

use super::*;
use crate::{
    compare::farthest,
    demo::cubics,
    design::Design,
    edit::{Edit, SweepEdit},
    measure::Measured,
    outline::{Half, Joint, Outline, Piece, Span},
    real,
};
use core::f64::consts::{FRAC_PI_2, PI};
use kurbo::{Affine, Vec2};

#[track_caller]
fn made(deck: &Design, edit: SweepEdit) -> Design {
    let text = format!("{edit:?}");
    deck.apply(&Edit::Sweep(edit)).unwrap_or_else(|refusal| panic!("{text}: {refusal}"))
}

#[track_caller]
fn refused(deck: &Design, edit: SweepEdit) -> String {
    deck.apply(&Edit::Sweep(edit)).unwrap_err().to_string()
}

fn outline(deck: &Design) -> &Outline {
    &deck.shape().outline
}

/// Turnstone with its nose kept as the first sweep.
fn with_nose_kept() -> Design {
    made(&cubics::turnstone(), SweepEdit::Keep { from: 3, to: 4, name: "nose".into() })
}

/// The same with that sweep laid on the tail, by two touches where a finger would put them.
fn with_nose_on_tail() -> Design {
    let at = [Point::new(-248.5, -101.0), Point::new(-398.0, 2.0)];
    made(&with_nose_kept(), SweepEdit::Lay { sweep: 0, at })
}

fn laid_spans(outline: &Outline) -> Vec<usize> {
    (0..outline.spans.len()).filter(|&s| matches!(outline.spans[s], Span::Laid { .. })).collect()
}

/// The span's curve with its noseward or tailward node at the origin and nose and tail exchanged, or not.
fn undone(outline: &Outline, s: usize, mirrored: bool) -> Half {
    let (a, b) = (outline.nodes[s].place, outline.nodes[s + 1].place);
    let at_start = Affine::translate(-a.to_vec2());
    let along = if mirrored {
        Affine::new([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]) * Affine::translate(-b.to_vec2())
    } else {
        at_start
    };
    let pieces = outline.course(s).curves().map(|c| {
        let c = if mirrored { CubicBez::new(c.p3, c.p2, c.p1, c.p0) } else { c };
        Piece { curve: along * c, span: 0, straight: false, far: false, bends: None }
    });
    let mut pieces: Vec<Piece> = pieces.collect();
    // Turned so that the line between the nodes lies along x.
    let (first, last) = (pieces[0].curve.p0, pieces[pieces.len() - 1].curve.p3);
    let turn = Affine::rotate(-real::direction(last - first));
    for piece in &mut pieces {
        piece.curve = turn * piece.curve;
    }
    Half::from_pieces(pieces)
}

#[test]
fn what_was_kept_at_a_tip_lies_at_another_tip_with_the_same_end() {
    for near in [(-398.0, 30.0), (-390.0, 50.0), (-375.0, 70.0), (-340.0, 90.0)] {
        let deck = cubics::turnstone().apply(&Edit::AddNode { span: 0, near: near.into() }).unwrap();
        let deck = made(&deck, SweepEdit::Keep { from: 0, to: 1, name: "end".into() });
        let at = [Point::new(412.75, 0.0), Point::new(254.0, 100.8)];
        let measured = Measured::of(made(&deck, SweepEdit::Lay { sweep: 0, at }).shape());
        let radius = |end: &crate::measure::End| 1.0 / end.tip_curvature.unwrap();
        assert!((radius(&measured.nose) - radius(&measured.tail)).abs() < 1e-3, "{near:?}");
    }
}

#[test]
fn a_sweep_is_laid_over_another_that_lies_there() {
    let deck = with_nose_on_tail();
    let family = Family::Superellipse { along: 150.0, across: 100.0, exponent: 2.4 };
    let deck = made(&deck, SweepEdit::Add { name: "round".into(), family });
    for at in
        [[(-405.0, 2.0), (-250.0, 101.0)], [(-405.0, 2.0), (-330.0, 92.0)], [(-300.0, 97.0), (-402.0, 20.0)]]
    {
        let over = made(&deck, SweepEdit::Lay { sweep: 1, at: at.map(Point::from) });
        let laid: Vec<usize> = outline(&over)
            .spans
            .iter()
            .filter_map(|span| match span {
                Span::Laid { sweep, .. } => Some(*sweep),
                _ => None,
            })
            .collect();
        assert_eq!(laid, [1], "{at:?}");
    }
}

#[test]
fn the_nose_laid_on_the_tail_is_the_same_curve_to_a_micrometre() {
    let deck = with_nose_on_tail();
    let chain = outline(&deck);
    assert_eq!(laid_spans(chain), [0]);
    let last = chain.spans.len() - 1;
    let off = farthest(&undone(chain, 0, true), &undone(chain, last, false));
    assert!(off.distance <= tolerance::RIGID, "{off:?}");
    assert!(matches!(chain.spans[0], Span::Laid { flip: true, reverse: true, .. }), "{:?}", chain.spans[0]);
}

#[test]
fn at_a_tip_a_sweep_stands_square_and_its_other_end_is_smooth() {
    let deck = with_nose_on_tail();
    let chain = outline(&deck);
    assert_eq!((chain.nodes[0].joint, chain.nodes[1].joint), (Joint::Led, Joint::Led));
    assert!((chain.tangent(0).unwrap() - FRAC_PI_2).abs() < tolerance::TANGENT);
    assert!(Measured::of(deck.shape()).fairness.tangent_jump <= tolerance::TANGENT);
}

#[test]
fn a_kept_stretch_leaves_the_outline_as_it_was_and_takes_few_numbers() {
    let deck = with_nose_kept();
    assert_eq!(outline(&deck).resolve(), outline(&cubics::turnstone()).resolve());
    assert_eq!(outline(&deck).sweeps[0].legs(), 1);
    let battened = cubics::turnstone().apply(&Edit::SetBatten { span: 3, batten: true }).unwrap();
    let to = outline(&battened).nodes.len() - 1;
    let kept = made(&battened, SweepEdit::Keep { from: to, to: 3, name: String::new() });
    let sweep = &outline(&kept).sweeps[0];
    assert_eq!(sweep.legs(), to - 3, "a leg a span of batten");
    let chord = outline(&battened).nodes[to].place - outline(&battened).nodes[3].place;
    assert!((sweep.chord(0.0, sweep.length()) - chord.hypot()).abs() < 2e-6);
}

#[test]
fn both_ends_of_a_deck_take_one_sweep() {
    let family = Family::Superellipse { along: 120.0, across: 98.0, exponent: 2.2 };
    let deck = made(&cubics::turnstone(), SweepEdit::Add { name: "full".into(), family });
    let nose = [Point::new(290.0, 95.0), Point::new(412.0, 0.0)];
    let tail = [Point::new(-280.0, 95.0), Point::new(-399.0, -1.0)];
    let deck = made(&deck, SweepEdit::Lay { sweep: 0, at: nose });
    let deck = made(&deck, SweepEdit::Lay { sweep: 0, at: tail });
    let chain = outline(&deck);
    let spans = laid_spans(chain);
    assert_eq!((spans.len(), chain.laid_by(0)), (2, 2), "{:?}", chain.spans);
    let marks = spans.iter().map(|&s| match chain.spans[s] {
        Span::Laid { from, to, .. } => to - from,
        _ => 0.0,
    });
    assert!(marks.min_by(f64::total_cmp).unwrap() > 100.0);
    let fairness = Measured::of(deck.shape()).fairness;
    assert!(fairness.tangent_jump <= tolerance::TANGENT, "{fairness:?}");
    for s in spans {
        let [into, out] = chain.laid_tangents(s).unwrap();
        assert!(real::wrapped(out - into) < -1.0, "it bends outward, as the edge did");
    }
}

#[test]
fn a_sweep_on_a_twin_lies_on_both_ends() {
    let deck = made(
        &cubics::dunlin(),
        SweepEdit::Add { name: "compass".into(), family: Family::Arc { radius: 95.0, turn: FRAC_PI_2 } },
    );
    let at = [Point::new(-275.0, -85.0), Point::new(-361.0, 0.0)];
    let deck = made(&deck, SweepEdit::Lay { sweep: 0, at });
    assert_eq!(laid_spans(outline(&deck)).len(), 1);
    let whole = deck.apply(&Edit::SetTwin(false)).unwrap();
    assert_eq!(laid_spans(outline(&whole)).len(), 2);
    let off = farthest(&outline(&deck).resolve(), &outline(&whole).resolve());
    assert!(off.distance < 1e-5, "{off:?}");
    let back = whole.apply(&Edit::SetTwin(true)).unwrap();
    assert_eq!(outline(&back), outline(&deck));
}

#[test]
fn moving_one_node_of_a_laid_sweep_moves_it_all() {
    let deck = with_nose_on_tail();
    let before = outline(&deck).clone();
    let to = before.nodes[1].place + Vec2::new(-3.0, 2.0);
    let moved = deck.apply(&Edit::MoveNode { node: 1, to }).unwrap();
    let went = |i: usize| outline(&moved).nodes[i].place - before.nodes[i].place;
    // The tip keeps to the centreline, so the whole keeps its place across.
    assert_eq!(went(0), Vec2::new(-3.0, 0.0));
    assert!((went(1) - went(0)).hypot() < 2e-6);
    assert_eq!(outline(&moved).spans[0], before.spans[0]);
}

#[test]
fn a_node_added_on_a_laid_sweep_splits_its_marks_and_goes_again() {
    let deck = with_nose_on_tail();
    let near = outline(&deck).course(0).point(0.37);
    let split = deck.apply(&Edit::AddNode { span: 0, near }).unwrap();
    assert_eq!(laid_spans(outline(&split)), [0, 1]);
    assert_eq!(outline(&split).nodes[1].joint, Joint::Led);
    let off = farthest(&outline(&deck).resolve(), &outline(&split).resolve());
    assert!(off.distance < 2e-5, "{off:?}");
    let again = split.apply(&Edit::DeleteNode { node: 1 }).unwrap();
    assert_eq!(outline(&again), outline(&deck));
    let gone = deck.apply(&Edit::DeleteNode { node: 1 }).unwrap();
    assert!(laid_spans(outline(&gone)).is_empty());
}

#[test]
fn a_sweep_set_free_stays_where_it_was() {
    let decks = [with_nose_on_tail(), {
        let family = Family::Superellipse { along: 130.0, across: 98.0, exponent: 2.5 };
        let deck = made(&cubics::turnstone(), SweepEdit::Add { name: "full".into(), family });
        let at = [Point::new(412.0, 0.0), Point::new(270.0, 98.0)];
        made(&deck, SweepEdit::Lay { sweep: 0, at })
    }];
    for deck in decks {
        let span = laid_spans(outline(&deck))[0];
        let free = made(&deck, SweepEdit::Free { span });
        assert!(laid_spans(outline(&free)).is_empty());
        let off = farthest(&outline(&deck).resolve(), &outline(&free).resolve());
        assert!(off.distance <= tolerance::CONVERSION * 1.2, "{off:?}");
        let without = made(&free, SweepEdit::Remove { sweep: 0 });
        assert!(outline(&without).sweeps.is_empty());
    }
}

#[test]
fn slid_turned_and_flipped_it_is_still_rigid() {
    let family = Family::Clothoid { radius: 120.0, length: 220.0 };
    let deck = made(&cubics::turnstone(), SweepEdit::Add { name: "easing".into(), family });
    let at = [Point::new(180.0, 103.0), Point::new(330.0, 85.0)];
    let deck = made(&deck, SweepEdit::Lay { sweep: 0, at });
    let span = laid_spans(outline(&deck))[0];
    let place = |deck: &Design, i: usize| outline(deck).nodes[span + i].place;
    let edits = [
        SweepEdit::Slide { span, by: 10.0 },
        SweepEdit::Slide { span, by: -1e6 },
        SweepEdit::Turn { span, by: 0.02 },
        SweepEdit::Flip { span, over: false },
    ];
    for edit in edits {
        let Ok(moved) = deck.apply(&Edit::Sweep(edit.clone())) else {
            // A clothoid laid from its start on can only be slid toward its end.
            assert!(matches!(edit, SweepEdit::Slide { .. }), "{edit:?}");
            continue;
        };
        assert_ne!(moved, deck, "{edit:?}");
        assert!((place(&moved, 0) - place(&deck, 0)).hypot() < 2e-6, "{edit:?}: the first node stays");
        assert!(outline(&moved).stretched_by(span) <= 2e-6);
        assert!(Measured::of(moved.shape()).fairness.tangent_jump <= tolerance::TANGENT);
    }
    let Span::Laid { flip, reverse, .. } = outline(&deck).spans[span] else { panic!() };
    let way = if reverse { -10.0 } else { 10.0 };
    let slid = deck.apply(&Edit::Sweep(SweepEdit::Slide { span, by: way })).unwrap();
    let Span::Laid { from, .. } = outline(&slid).spans[span] else { panic!() };
    assert_eq!(from, 10.0, "from its start on, {flip} {reverse}");
}

#[test]
fn a_typed_length_moves_a_laid_tail_as_a_whole() {
    let deck = with_nose_on_tail();
    let longer = deck.apply(&Edit::Dimension { key: "overall-length", value: 820.0 }).unwrap();
    assert!((Measured::of(longer.shape()).overall_length - 820.0).abs() < 1e-3);
    assert_eq!(outline(&longer).spans[0], outline(&deck).spans[0]);
    let wider = deck.apply(&Edit::Dimension { key: "overall-width", value: 212.0 }).unwrap();
    assert!((Measured::of(wider.shape()).overall_width - 212.0).abs() < 1e-3);
    assert_eq!(outline(&wider).nodes[..2], outline(&deck).nodes[..2], "the sweep stays with its tip");
}

#[test]
fn what_cannot_be_done_is_refused_with_words() {
    let deck = with_nose_on_tail();
    assert!(refused(&deck, SweepEdit::Remove { sweep: 0 }).contains("set that stretch free"));
    assert!(refused(&deck, SweepEdit::Free { span: 2 }).contains("no sweep"));
    assert!(refused(&deck, SweepEdit::Slide { span: 0, by: 5.0 }).contains("ends here"));
    assert!(refused(&deck, SweepEdit::Keep { from: 2, to: 2, name: String::new() }).contains("two nodes"));
    let far = [Point::new(0.0, 300.0), Point::new(100.0, 100.0)];
    assert!(refused(&deck, SweepEdit::Lay { sweep: 0, at: far }).contains("touch the edge"));
    let one = [Point::new(50.0, 104.0), Point::new(50.5, 104.0)];
    assert!(refused(&deck, SweepEdit::Lay { sweep: 0, at: one }).contains("farther apart"));
    assert_eq!(refused(&deck, SweepEdit::Rename { sweep: 1, name: "x".into() }), "there is no such sweep");
    let long = SweepEdit::Rename { sweep: 0, name: "x".repeat(25) };
    assert!(refused(&deck, long).contains("25 characters"));
    let family = Family::Arc { radius: 10.0, turn: 7.0 };
    assert!(refused(&deck, SweepEdit::Add { name: String::new(), family }).contains("whole turn"));
    let mut full = deck.clone();
    for _ in 1..Sweep::MOST {
        let family = Family::Arc { radius: 10.0, turn: 1.0 };
        full = made(&full, SweepEdit::Add { name: String::new(), family });
    }
    assert!(refused(&full, SweepEdit::Keep { from: 2, to: 3, name: String::new() }).contains("17 sweeps"));
}

#[test]
fn an_outline_with_a_stretched_or_missing_sweep_is_refused() {
    let deck = with_nose_on_tail();
    let with = |change: fn(&mut Outline)| {
        let mut chain = outline(&deck).clone();
        change(&mut chain);
        let shape = crate::design::Shape { outline: chain, ..deck.shape().clone() };
        deck.with_shape(shape).unwrap_err().to_string()
    };
    assert!(with(|chain| chain.sweeps.clear()).contains("not there"));
    assert!(with(|chain| chain.nodes[0].place.x -= 0.002).contains("stretch by 0.00"));
    let marks = |from: f64, to: f64| Span::Laid { sweep: 0, from, to, flip: true, reverse: true };
    for (from, to) in [(-1.0, 100.0), (0.0, 1e4), (50.0, 50.0), (f64::NAN, 50.0)] {
        let mut chain = outline(&deck).clone();
        chain.spans[0] = marks(from, to);
        assert!(
            matches!(crate::outline::check_form(&chain), Err(crate::outline::Fault::Marks { .. })),
            "{from} {to}"
        );
    }
}

#[test]
fn every_family_keeps_within_the_cubics_a_sweep_may_have() {
    let families = [
        Family::Arc { radius: 400.0, turn: 2.0 * PI },
        Family::Ellipse { along: 300.0, across: 20.0 },
        Family::Superellipse { along: 300.0, across: 300.0, exponent: 20.0 },
        Family::Superellipse { along: 0.5, across: 500.0, exponent: 2.0 },
        Family::Clothoid { radius: 100.0, length: 1256.0 },
    ];
    for family in families {
        let sweep =
            Sweep::new("x", SweepCurve::Family(family)).unwrap_or_else(|why| panic!("{family:?}: {why}"));
        assert_eq!(Sweep::new("x", sweep.curve().clone()).as_ref(), Ok(&sweep));
    }
}

#[test]
fn own_legs_that_meet_in_a_corner_or_go_nowhere_are_no_sweep() {
    let leg = |x: f64, y: f64| Leg::Cubic((x, 3.0).into(), (x + 1.0, y).into(), (x + 9.0, y).into());
    let new = |legs: &[Leg]| Sweep::new("x", SweepCurve::Own(legs.to_vec()));
    assert!(new(&[leg(3.0, 0.0)]).is_ok());
    assert!(new(&[]).is_err() && new(&[leg(f64::NAN, 0.0)]).is_err() && new(&[leg(6000.0, 1.0)]).is_err());
    assert!(new(&[leg(3.0, 0.0), leg(15.0, 9.0)]).unwrap_err().to_string().contains("corner"));
    assert!(new(&[Leg::Spiral(0.0, PI, (1.0, 0.0).into())]).is_err());
}

#[test]
fn a_version_gone_back_to_keeps_the_sweeps_kept_since() {
    let deck = cubics::turnstone().with_version("first", "2026-03-07").unwrap();
    let deck = made(&deck, SweepEdit::Keep { from: 3, to: 4, name: "nose".into() });
    let back = deck.apply(&Edit::GoBackTo { version: 0 }).unwrap();
    assert_eq!(outline(&back).sweeps, outline(&deck).sweeps);
}
