//! An edit gives a valid design or leaves the old one as it was; some edits undo others.

use crate::{curves_apart, on_designs};
use halfbreadth_core::{
    design::Design,
    edit::Edit,
    history::History,
    measure::Measured,
    outline::{Outline, Span},
};
use halfbreadth_tests::random::{self, Random};
use kurbo::Vec2;

/// One edit after another on one design, as an afternoon at the page.
#[test]
fn a_hundred_edits_in_a_row_never_make_an_invalid_design() {
    for seed in 0..60 {
        let random = &mut Random::new(seed);
        let mut design = random::design(random);
        for _ in 0..100 {
            let edit = random::edit(random, &design);
            if let Ok(edited) = design.apply(&edit) {
                let shape = edited.shape().clone();
                let again = Design::new(edited.name(), edited.notes(), shape, Vec::new());
                assert_eq!(
                    again.as_ref(),
                    Ok(&edited),
                    "seed {seed}: what the door let in it lets in unchanged"
                );
                design = edited;
            }
        }
    }
}

#[test]
fn a_violent_edit_is_refused_or_harmless_and_never_panics() {
    let mut refused = 0;
    on_designs(200, |seed, design| {
        let random = &mut Random::new(seed + 1_000_000);
        let before = design.clone();
        for _ in 0..50 {
            let edit = random::violent_edit(random, design);
            match design.apply(&edit) {
                Ok(edited) => _ = Measured::of(edited.shape()),
                Err(refusal) => {
                    refused += 1;
                    assert!(!refusal.to_string().is_empty() && !refusal.field().is_empty());
                }
            }
        }
        assert_eq!(design, &before, "seed {seed}");
    });
    assert!(refused > 1000, "only {refused} were refused");
}

#[test]
fn a_violent_outline_is_refused_and_never_panics() {
    for seed in 0..3000 {
        let random = &mut Random::new(seed);
        let mut shape = random::design(random).shape().clone();
        random::break_outline(random, &mut shape.outline);
        if let Ok(design) = Design::new("Violent", "", shape, Vec::new()) {
            _ = Measured::of(design.shape());
        }
    }
}

#[test]
fn a_node_added_leaves_the_curve_where_it_is_and_deleted_brings_it_back() {
    let mut tried = 0;
    on_designs(300, |seed, design| {
        let random = &mut Random::new(seed + 2_000_000);
        let outline = &design.shape().outline;
        let span = random.below(outline.spans.len());
        let near = outline.course(span).point(random.between(0.06, 0.94));
        let Ok(added) = design.apply(&Edit::AddNode { span, near }) else { return };
        tried += 1;
        let apart = curves_apart(design, &added);
        // A batten with one more pin is laid anew, fair to what a design stores.
        let near_enough = if has_batten(outline) { 1e-3 } else { 1e-5 };
        assert!(apart < near_enough, "seed {seed}: adding moved the curve by {apart}");
        match added.apply(&Edit::DeleteNode { node: span + 1 }) {
            Ok(back) => {
                let apart = curves_apart(design, &back);
                assert!(apart < near_enough, "seed {seed}: {apart} mm off after deleting");
            }
            Err(refusal) => panic!("seed {seed}: {refusal}"),
        }
    });
    assert!(tried > 200, "only {tried} tried");
}

#[test]
fn a_twin_let_go_keeps_its_outline() {
    let mut twins = 0;
    on_designs(400, |seed, design| {
        let Ok(twin) = design.apply(&Edit::SetTwin(true)) else { return };
        let Ok(free) = twin.apply(&Edit::SetTwin(false)) else {
            panic!("seed {seed}: a twin cannot be let go");
        };
        twins += 1;
        assert!(curves_apart(&twin, &free) < 1e-6, "seed {seed}");
        let again = free.apply(&Edit::SetTwin(true));
        let apart = again.map(|again| curves_apart(&twin, &again));
        assert!(apart.as_ref().is_ok_and(|a| *a < 1e-6), "seed {seed}: {apart:?}");
    });
    assert!(twins > 100, "only {twins} tried");
}

#[test]
fn a_corner_made_of_a_smooth_node_and_a_curve_made_of_a_line_move_nothing() {
    on_designs(300, |seed, design| {
        let outline = &design.shape().outline;
        if has_batten(outline) {
            return; // which gives where a pin becomes its end
        }
        for node in 0..outline.nodes.len() {
            if let Ok(cornered) = design.apply(&Edit::SetSmooth { node, smooth: false }) {
                let apart = curves_apart(design, &cornered);
                assert!(apart < 1e-5, "seed {seed} node {node}: {apart}");
            }
        }
        for span in lines(outline) {
            let curved = design.apply(&Edit::SetStraight { span, straight: false });
            let apart = curved.map(|curved| curves_apart(design, &curved));
            assert!(apart.as_ref().is_ok_and(|a| *a < 1e-5), "seed {seed} span {span}: {apart:?}");
        }
    });
}

fn has_batten(outline: &Outline) -> bool {
    outline.spans.iter().any(|span| matches!(span, Span::Batten { .. }))
}

fn lines(outline: &Outline) -> Vec<usize> {
    (0..outline.spans.len()).filter(|&s| outline.spans[s] == Span::Straight).collect()
}

/// Wherever a sweep is laid, and after whatever edits, each of its places lies where the similarity that takes its marks
/// to its nodes, computed here anew, puts it; and that similarity is rigid.
#[test]
fn a_laid_sweep_is_the_very_curve_between_its_marks() {
    let mut tried = 0;
    for seed in 0..400 {
        let random = &mut Random::new(seed + 5_000_000);
        let mut design = random::design(random);
        for _ in 0..5 {
            let edit = random::edit(random, &design);
            design = design.apply(&edit).unwrap_or(design);
        }
        let outline = &design.shape().outline;
        for (s, span) in outline.spans.iter().enumerate() {
            let Span::Laid { sweep, from, to, flip, reverse } = *span else { continue };
            tried += 1;
            let sweep = &outline.sweeps[sweep];
            let place = |mark: f64| {
                let p = sweep.point(mark);
                Vec2::new(p.x, if flip { -p.y } else { p.y })
            };
            let (first, last) = if reverse { (to, from) } else { (from, to) };
            let (a, b) = (place(first), place(last));
            let (p, q) = (outline.nodes[s].place, outline.nodes[s + 1].place);
            assert!(((b - a).hypot() - (q - p).hypot()).abs() <= 1e-3, "seed {seed} span {s}");
            let (chord, wanted) = (b - a, q - p);
            for k in 0..=20 {
                let v = place(from + (to - from) * f64::from(k) / 20.0) - a;
                let (along, across) = (v.dot(chord) / chord.hypot2(), chord.cross(v) / chord.hypot2());
                let there = p + wanted * along + Vec2::new(-wanted.y, wanted.x) * across;
                let off = outline.course(s).nearest(there).1;
                assert!(off <= 1e-3, "seed {seed} span {s}: {off} mm off");
            }
        }
    }
    assert!(tried > 30, "only {tried} tried");
}

#[test]
fn undo_then_redo_is_the_identity_on_any_run_of_edits() {
    for seed in 0..60 {
        let random = &mut Random::new(seed);
        let mut history = History::new("opened", random::design(random));
        for step in 0..30 {
            let edit = random::edit(random, history.design());
            if let Ok(edited) = history.design().apply(&edit) {
                history.commit(&format!("step {step}"), edited);
            }
        }
        let end = history.clone();
        let mut states = vec![history.design().clone()];
        while history.undo() {
            states.push(history.design().clone());
        }
        assert_eq!(history.design(), &end.steps()[0].design, "seed {seed}");
        while let Some(expected) = states.pop() {
            assert_eq!(history.design(), &expected, "seed {seed}");
            assert_eq!(history.redo(), !states.is_empty(), "seed {seed}");
        }
        assert_eq!(history, end, "seed {seed}");
    }
}
