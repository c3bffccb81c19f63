//! Leaves on the page: the printed sheet as it will be, and the small figures beside numbers.

use super::Painted;
use crate::dom;
use halfbreadth_core::{editor::Editor, leaf::Leaf};
use web_sys::Element;

/// What was last painted of them.
#[derive(Default)]
pub(super) struct Leaves {
    shown: Vec<(&'static str, Leaf)>,
}

impl Leaves {
    pub(super) fn draw(&mut self, editor: &Editor, texts: &mut Painted) {
        texts.text("sheet-words", &editor.sheet_words());
        for (id, leaf) in editor.leaves() {
            match self.shown.iter_mut().find(|shown| shown.0 == id) {
                Some((_, shown)) if *shown == leaf => continue,
                Some((_, shown)) => shown.clone_from(&leaf),
                None => self.shown.push((id, leaf.clone())),
            }
            paint(&dom::by_id(id), &leaf);
        }
    }
}

/// Paints a leaf into an `svg` element that has the place for it.
fn paint(place: &Element, leaf: &Leaf) {
    dom::set(place, "viewBox", &leaf.view_box());
    // The words are read out in the order they are printed in.
    place.set_text_content(None);
    for element in leaf.picture() {
        let child = dom::create_svg(element.tag);
        for (name, value) in &element.attributes {
            dom::set(&child, name, value);
        }
        if !element.text.is_empty() {
            child.set_text_content(Some(&element.text));
        }
        place.append_child(&child).expect("a new element goes in");
    }
}
