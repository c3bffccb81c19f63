//! The drawing as data: ids unique, everything finite, the parts a maker looks for present.

use super::*;
use crate::{demo, editor::Editor, editor::Settings, history::History};
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
            Mark::Text { at, .. } => assert!(at.is_finite(), "{}", item.id),
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
