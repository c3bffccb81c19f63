//! The drawing as data: ids unique, everything finite, the parts a maker looks for present.

use super::*;
use crate::{
    demo,
    editor::{Editor, Intent, Settings},
    history::History,
};
use std::collections::BTreeSet;

fn scenes() -> Vec<Scene> {
    let mut scenes = Vec::new();
    for deck in demo::all() {
        for (size, comb) in [((1000.0, 620.0), false), ((390.0, 480.0), true)] {
            let settings = Settings { comb, ..Settings::default() };
            let editor = Editor::new(History::new("opened", deck.clone()), settings, size.into());
            scenes.push(editor.scene());
        }
    }
    scenes
}

#[test]
fn every_item_has_an_id_of_its_own() {
    for scene in scenes() {
        let ids: BTreeSet<&str> = scene.items.iter().map(|item| item.id.as_str()).collect();
        assert_eq!(ids.len(), scene.items.len());
    }
}

#[test]
fn everything_drawn_is_finite() {
    for item in scenes().into_iter().flat_map(|scene| scene.items) {
        match item.mark {
            Mark::Path(path) => assert!(path.is_finite(), "{}", item.id),
            Mark::Text { at, .. } | Mark::Engraved { at, .. } => assert!(at.is_finite(), "{}", item.id),
        }
    }
}

#[test]
fn the_drawing_shows_board_holes_dimensions_and_side_view() {
    for scene in scenes() {
        for id in
            ["blank", "deck", "edge", "edge-mirror", "holes", "centreline", "side", "figure-overall-length"]
        {
            assert!(scene.items.iter().any(|item| item.id == id), "{id}");
        }
    }
}

/// The stages of a desktop, a tablet and a phone, of a phone on its side, and of a small window.
const STAGES: [(f64, f64); 5] =
    [(1084.0, 640.0), (734.0, 520.0), (390.0, 450.0), (480.0, 190.0), (320.0, 240.0)];

/// The box of every text by an estimate of its own: 0.62 em for each letter, at the sizes of the page's styles.
fn letters(scene: &Scene, view: &View) -> Vec<(String, Rect)> {
    let texts = scene.items.iter().filter_map(|item| {
        let Mark::Text { at, anchor, turned, text, .. } = &item.mark else { return None };
        let em = if item.role.name() == "ruler-text" { 12.0 } else { 14.0 };
        let length = 0.62 * em * text.chars().count() as f64;
        let before = match anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => 0.5 * length,
            Anchor::End => length,
        };
        let at = view.to_px(*at);
        let area = if *turned {
            Rect::new(at.x - 0.5 * em, at.y + before - length, at.x + 0.5 * em, at.y + before)
        } else {
            Rect::new(at.x - before, at.y - 0.5 * em, at.x - before + length, at.y + 0.5 * em)
        };
        Some((format!("{} “{text}”", item.id), area))
    });
    texts.collect()
}

#[track_caller]
fn no_text_lies_on_another(editor: &Editor, what: &str) {
    let texts = letters(&editor.scene(), &editor.view());
    for (i, (name, area)) in texts.iter().enumerate() {
        for (other, taken) in &texts[..i] {
            let meet = area.intersect(*taken);
            assert!(meet.width() <= 0.0 || meet.height() <= 0.0, "{what}: {name} lies on {other}");
        }
    }
}

fn editors() -> impl Iterator<Item = (String, Editor)> {
    let systems = [
        ("mm", System::Millimetres),
        ("inch", System::Inches { denominator: crate::units::Denominator::SixtyFourths }),
    ];
    demo::all().into_iter().flat_map(move |deck| {
        systems.into_iter().flat_map(move |(unit, system)| {
            let deck = deck.clone();
            STAGES.map(move |stage| {
                let settings = Settings { system, ..Settings::default() };
                let history = History::new("opened", deck.clone());
                let name = format!("{} in {unit} on {stage:?}", deck.name());
                (name, Editor::new(history, settings, stage.into()))
            })
        })
    })
}

#[test]
fn no_text_lies_on_another_on_any_stage_lying_or_upright() {
    for (name, mut editor) in editors() {
        no_text_lies_on_another(&editor, &name);
        let Size { width, height } = editor.view().size;
        editor.handle(Intent::Resize(Size::new(height, width)));
        no_text_lies_on_another(&editor, &format!("{name}, turned"));
    }
}

#[test]
fn no_text_lies_on_another_wherever_the_window_is() {
    // Weyl sequences: places, scales and edits spread evenly, the same on every run.
    let spread = |k: u32, share: f64| (f64::from(k) * share).fract();
    for (name, fresh) in editors() {
        for k in 0..24 {
            let mut editor = fresh.clone();
            let about = Point::new(800.0 * spread(k, 0.618) - 400.0, 200.0 * spread(k, 0.755) - 100.0);
            editor.handle(Intent::Zoom { about, factor: 0.4 + 6.0 * spread(k, 0.57).powi(2) });
            let width = format!("{} mm", 188.0 + 30.0 * spread(k, 0.41));
            editor.handle(Intent::Type { key: "overall-width".into(), text: width });
            no_text_lies_on_another(&editor, &format!("{name}, view {k}"));
        }
    }
}

#[test]
fn the_figures_that_matter_most_are_on_every_stage() {
    for (name, editor) in editors() {
        let scene = editor.scene();
        let has = |id: &str| scene.items.iter().any(|item| item.id == id);
        for id in ["overall-length", "overall-width", "tail-kick-taper", "nose-kick-taper"] {
            assert!(has(&format!("figure-{id}")), "{name}: {id}");
        }
        assert!(has("ruler-top-0") && has("ruler-left-0"), "{name}: the rulers");
        if editor.view().size.width > 700.0 {
            for id in ["platform-length", "rail-run-0", "wheelbase", "nose-kick-length", "tail-kick-angle"] {
                assert!(has(&format!("figure-{id}")), "{name}: {id}");
            }
        }
    }
}

#[test]
fn every_text_lies_on_the_stage() {
    for (name, editor) in editors() {
        for (text, area) in letters(&editor.scene(), &editor.view()) {
            let stage = editor.view().size.to_rect();
            assert_eq!(area.intersect(stage), area, "{name}: {text}");
        }
    }
}

#[test]
fn every_figure_that_can_be_set_names_a_field() {
    for (name, editor) in editors() {
        let fields = editor.fields();
        let fields: BTreeSet<&str> = fields.iter().map(|field| field.key.as_ref()).collect();
        let scene = editor.scene();
        let named: Vec<&str> = scene
            .items
            .iter()
            .filter_map(|item| match item.mark {
                Mark::Text { field, .. } => field,
                Mark::Path(_) | Mark::Engraved { .. } => None,
            })
            .collect();
        assert!(named.len() >= 4, "{name}: {named:?}");
        let each: BTreeSet<&str> = named.iter().copied().collect();
        assert_eq!(each.len(), named.len(), "{name}: {named:?}");
        assert!(each.is_subset(&fields), "{name}: {named:?}");
    }
}

#[test]
fn a_deck_takes_the_stage_but_for_its_figures() {
    for (name, editor) in editors() {
        let Size { width, height } = editor.view().size;
        let stage = if editor.view().upright { Size::new(height, width) } else { Size::new(width, height) };
        let Rect { x0, y0, x1, y1 } = editor.measured().blank;
        let (long, wide) = ((x1 - x0) * editor.view().scale, (y1 - y0) * editor.view().scale);
        let low = stage.height < 260.0;
        assert!(
            long >= stage.width - 102.0 || wide >= stage.height - if low { 63.0 } else { 190.0 },
            "{name}: {long:.0} by {wide:.0} px of {stage}"
        );
    }
}

#[test]
fn a_small_change_of_the_stage_does_not_turn_the_deck() {
    let deck = demo::turnstone();
    let mut editor = Editor::new(History::new("opened", deck), Settings::default(), Size::new(500.0, 490.0));
    let mut turns = 0;
    let mut upright = editor.view().upright;
    for height in (460..=540).chain((440..540).rev()) {
        editor.handle(Intent::Resize(Size::new(500.0, f64::from(height))));
        turns += u32::from(editor.view().upright != upright);
        upright = editor.view().upright;
    }
    assert!(turns <= 1, "{turns} turns");
    editor.handle(Intent::Resize(Size::new(500.0, 900.0)));
    assert!(editor.view().upright);
    editor.handle(Intent::Resize(Size::new(900.0, 500.0)));
    assert!(!editor.view().upright);
}
