//! Lists of things with fields of their own, the plies and the press-day records, and lists of plain words.

use super::fields::Row;
use crate::dom;
use halfbreadth_core::{
    editor::{Editor, Field, Item, Room},
    language::said,
};
use web_sys::Element;

/// All of them.
pub(super) struct Lists {
    plies: List,
    records: List,
    words: [Words; 5],
}

/// One list, or paragraph, of plain words.
struct Words {
    room: Room,
    place: Element,
    words: fn(&Editor) -> Vec<String>,
    shown: Vec<String>,
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
        let words = |room, id, words| Words { room, place: dom::by_id(id), words, shown: Vec::new() };
        Self {
            plies: list("plies", ("data-remove-ply", "Take out")),
            records: list("records", ("data-remove-record", "Take away")),
            words: [
                words(Room::LayUp, "laying", Editor::laying_words),
                words(Room::LayUp, "woods", Editor::wood_words),
                words(Room::Press, "pressures", Editor::pressure_words),
                words(Room::Press, "tightening", Editor::tightening_words),
                words(Room::LayUp, "stack-words", |editor| vec![editor.stack_words()]),
            ],
        }
    }

    /// Brings those of the room that is open up to date.
    pub(super) fn draw(&mut self, editor: &Editor) {
        match editor.room() {
            Room::LayUp => self.plies.draw(editor.plies()),
            Room::Press => self.records.draw(editor.record_items()),
            _ => {}
        }
        for words in self.words.iter_mut().filter(|words| words.room == editor.room()) {
            words.draw(editor);
        }
    }
}

impl Words {
    fn draw(&mut self, editor: &Editor) {
        let words = (self.words)(editor);
        if words == self.shown {
            return;
        }
        let is_list = self.place.tag_name() != "P";
        self.place.set_text_content(words.first().map(String::as_str).filter(|_| !is_list));
        for text in words.iter().filter(|_| is_list) {
            dom::append(&self.place, "li", "", text);
        }
        self.shown = words;
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
        let button = |hook: &str, value: &str, words: &'static str| {
            let button = dom::append(&acts, "button", "", words);
            dom::set(&button, "type", "button");
            dom::set(&button, hook, value);
            dom::set(&button, "data-index", &index);
            dom::set(&button, "aria-label", &[said(words), ": ", &item.title].concat());
        };
        for tick in &item.ticks {
            button("data-tick", tick.key, tick.label);
        }
        let (hook, words) = self.remove;
        button(hook, &index, words);
        (element.into(), rows)
    }
}
