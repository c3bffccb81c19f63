//! Lists of things with fields of their own, the plies and the press-day records, and lists of plain words.

use super::fields::Row;
use crate::dom;
use halfbreadth_core::editor::{Editor, Field, Item};
use web_sys::Element;

/// All of them.
pub(super) struct Lists {
    plies: List,
    records: List,
    words: [(Element, fn(&Editor) -> Vec<String>, Vec<String>); 4],
}

/// One list of things.
struct List {
    place: Element,
    /// The hook of the button that takes one away, and its words.
    remove: (&'static str, &'static str),
    shown: Vec<Item>,
    rows: Vec<(Element, Vec<Row>)>,
}

impl Lists {
    pub(super) fn new() -> Self {
        let list = |id, remove| List { place: dom::by_id(id), remove, shown: Vec::new(), rows: Vec::new() };
        Self {
            plies: list("plies", ("data-remove-ply", "Take out")),
            records: list("records", ("data-remove-record", "Take away")),
            words: [
                (dom::by_id("laying"), Editor::laying_words, Vec::new()),
                (dom::by_id("pressures"), Editor::pressure_words, Vec::new()),
                (dom::by_id("tightening"), Editor::tightening_words, Vec::new()),
                (dom::by_id("stack-words"), |editor| vec![editor.stack_words()], Vec::new()),
            ],
        }
    }

    pub(super) fn draw(&mut self, editor: &Editor) {
        self.plies.draw(editor.plies());
        self.records.draw(editor.record_items());
        for (place, words, shown) in &mut self.words {
            let words = words(editor);
            if words == *shown {
                continue;
            }
            let is_list = place.tag_name() != "P";
            place.set_text_content(if is_list { None } else { words.first().map(String::as_str) });
            for text in words.iter().filter(|_| is_list) {
                dom::append(place, "li", "", text);
            }
            *shown = words;
        }
    }
}

impl List {
    fn draw(&mut self, items: Vec<Item>) {
        let is_built = self.shown.len() == items.len()
            && self.shown.iter().zip(&items).all(|(old, new)| old.ticks.len() == new.ticks.len());
        if !is_built {
            self.place.set_text_content(None);
            self.rows = items.iter().map(|item| self.build(item)).collect();
        }
        if items == self.shown {
            return;
        }
        for (item, (element, rows)) in items.iter().zip(&mut self.rows) {
            for (field, row) in item.fields.iter().zip(rows) {
                row.show(field);
            }
            if let Some(title) = element.first_element_child() {
                title.set_text_content(Some(&item.title));
            }
            for tick in &item.ticks {
                if let Ok(Some(button)) = element.query_selector(&format!("[data-tick={}]", tick.key)) {
                    dom::set(&button, "aria-pressed", if tick.on { "true" } else { "false" });
                }
            }
        }
        self.shown = items;
    }

    fn build(&self, item: &Item) -> (Element, Vec<Row>) {
        let element = dom::append(&self.place, "li", "item", "");
        dom::append(&element, "h3", "", &item.title);
        let row = |field: &Field| {
            let tag = match (field.options.is_empty(), field.key.ends_with("-notes")) {
                (false, _) => "select",
                (true, true) => "textarea",
                (true, false) => "input",
            };
            let place = dom::append(&element, "div", "row", "");
            Row::new(&place, field.key.clone().into_owned(), tag)
        };
        let rows = item.fields.iter().map(row).collect();
        let acts = dom::append(&element, "p", "buttons", "");
        let index = item.index.to_string();
        let button = |hook: &str, value: &str, words: &str| {
            let button = dom::append(&acts, "button", "", words);
            dom::set(&button, "type", "button");
            dom::set(&button, hook, value);
            dom::set(&button, "data-index", &index);
            dom::set(&button, "aria-label", &format!("{words}: {}", item.title));
        };
        for tick in &item.ticks {
            button("data-tick", tick.key, tick.label);
        }
        let (hook, words) = self.remove;
        button(hook, &index, words);
        (element.into(), rows)
    }
}
