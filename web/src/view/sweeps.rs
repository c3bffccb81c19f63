//! The sweeps: a row each with its name, dimensions and buttons, and what is laid where the hand is.

use super::fields::set_value;
use crate::dom;
use halfbreadth_core::{
    editor::{Editor, SweepView},
    say,
};
use web_sys::Element;

/// The list of sweeps, and the words for a laid one that is selected.
pub(super) struct Sweeps {
    list: Element,
    laid: Element,
    shown: Vec<SweepView>,
    words: String,
}

impl Sweeps {
    pub(super) fn new() -> Self {
        let [list, laid] = ["sweeps", "laid"].map(dom::by_id);
        Self { list, laid, shown: Vec::new(), words: String::new() }
    }

    pub(super) fn draw(&mut self, editor: &Editor) {
        let sweeps = editor.sweeps();
        if sweeps != self.shown {
            self.list.set_text_content(None);
            for sweep in &sweeps {
                self.add(sweep);
            }
            self.shown = sweeps;
        }
        let words = editor.laid_words().unwrap_or_default();
        if words != self.words {
            self.laid.set_text_content(Some(&words));
            self.words = words;
        }
    }

    fn add(&self, sweep: &SweepView) {
        let row = dom::append(&self.list, "li", "sweep", "");
        let number = sweep.index + 1;
        let field = |place: &Element, word: &str, label: &str, text: &str| {
            let field = dom::append(place, "input", "field", "");
            dom::set(&field, "type", "text");
            dom::set(&field, "autocomplete", "off");
            dom::set(&field, "data-field", &format!("sweep-{number}-{word}"));
            dom::set(&field, "aria-label", label);
            set_value(&field, text);
        };
        field(&row, "name", "Name of the sweep", &sweep.name);
        dom::append(&row, "p", "", &sweep.words);
        for size in &sweep.sizes {
            let line = dom::append(&row, "div", "row", "");
            dom::append(&line, "span", "label", size.label);
            field(
                &line,
                size.word,
                &say!("{label} of {name}", label = size.label, name = sweep.name),
                &size.text,
            );
            dom::append(&line, "span", "unit", size.unit);
        }
        let index = sweep.index.to_string();
        let lay = button(&row, "data-lay-sweep", &index, "Lay", &say!("Lay {name}", name = sweep.name));
        dom::set(&lay, "aria-pressed", if sweep.laying { "true" } else { "false" });
        if sweep.used == 0 {
            let label = say!("Take away {name}", name = sweep.name);
            button(&row, "data-remove-sweep", &index, "Take away", &label);
        }
    }
}

fn button(place: &Element, hook: &str, index: &str, words: &str, label: &str) -> Element {
    let button = dom::append(place, "button", "", words);
    dom::set(&button, "type", "button");
    dom::set(&button, hook, index);
    dom::set(&button, "aria-label", label);
    button.into()
}
