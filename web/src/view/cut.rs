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
        fill(texts, "cut-warnings", &editor.cut_warnings().collect::<Vec<_>>());
        fill(texts, "cut-list", &editor.cut_list().collect::<Vec<_>>());
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

/// Writes a list anew where its lines have changed.
fn fill(texts: &mut Painted, id: &'static str, lines: &[&str]) {
    if texts.differs(id, &lines.join("\n")) {
        let list = dom::by_id(id);
        list.set_text_content(None);
        for line in lines {
            dom::append(&list, "li", "", line);
        }
    }
}
