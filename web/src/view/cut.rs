//! The Cut room: what a part comes to, what its files hold, what to look at, and the bar for a card.

use super::Painted;
use crate::dom;
use halfbreadth_core::{
    editor::{Editor, FileFacts},
    units::decimal,
};
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// What was last painted of it.
#[derive(Default)]
pub(super) struct Cut {
    facts: Vec<FileFacts>,
}

impl Cut {
    pub(super) fn draw(&mut self, editor: &Editor, texts: &mut Painted) {
        if editor.prepared().is_none() {
            return;
        }
        texts.text("cut-words", &editor.cut_words());
        let warnings: Vec<&str> = editor.cut_warnings().collect();
        if texts.differs("cut-warnings", &warnings.join("\n")) {
            let list = dom::by_id("cut-warnings");
            list.set_text_content(None);
            for warning in warnings {
                dom::append(&list, "li", "", warning);
            }
        }
        let width = decimal(editor.card(), 2);
        if texts.differs("card", &width) {
            let card: HtmlElement = dom::by_id("card").unchecked_into();
            let _ = card.style().set_property("width", &format!("{width}px"));
        }
        let facts = editor.file_facts();
        if facts != self.facts {
            for output in dom::all("[data-made]") {
                let kind = output.get_attribute("data-made").unwrap_or_default();
                let made = facts.iter().find(|facts| facts.kind.key() == kind);
                output.set_text_content(made.map(|made| made.text.as_str()));
                let count = |count: Option<usize>| count.map(|count| count.to_string());
                let [bytes, entities] =
                    [made.and_then(|made| made.bytes), made.and_then(|made| made.entities)].map(count);
                dom::set_if(&output, "data-bytes", bytes.as_deref());
                dom::set_if(&output, "data-entities", entities.as_deref());
            }
            self.facts = facts;
        }
    }
}
