//! Bringing in the last deck: what is said of the shape that was found.

use super::Painted;
use crate::dom;
use halfbreadth_core::editor::Editor;

pub(super) fn draw(editor: &Editor, texts: &mut Painted) {
    texts.mark("data-brought", editor.brought().is_some().then_some(""));
    let words = editor.brought_words();
    if texts.differs("bring-words", &words.join("\n")) {
        let list = dom::by_id("bring-words");
        list.set_text_content(None);
        for line in words {
            dom::append(&list, "li", "", &line);
        }
    }
}
