//! The fields: every setting, in the places the page declares for them.

use crate::dom;
use halfbreadth_core::{
    editor::{Editor, Field},
    quantities::{Part, SETTINGS},
};
use std::collections::HashMap;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, HtmlInputElement, HtmlTextAreaElement};

/// All fields of the page, by key.
pub(super) struct Fields {
    rows: HashMap<String, Row>,
}

struct Row {
    label: HtmlElement,
    input: HtmlElement,
    unit: HtmlElement,
    message: HtmlElement,
    last: Option<Field>,
}

impl Fields {
    /// Fills `data-row` (one field) and `data-part` (a list of all settings of a part).
    pub(super) fn new() -> Self {
        let mut rows = HashMap::new();
        for place in dom::all("[data-row]") {
            if let Some(key) = place.get_attribute("data-row") {
                let tag = if place.has_attribute("data-long") { "textarea" } else { "input" };
                rows.insert(key.clone(), Row::new(&place, &key, tag));
            }
        }
        for place in dom::all("[data-part]") {
            let name = place.get_attribute("data-part").unwrap_or_default();
            let Some(part) = Part::ALL.into_iter().find(|part| part.key() == name) else { continue };
            dom::append(&place, "h3", "", part.label());
            for setting in SETTINGS.iter().filter(|setting| setting.part == part) {
                let key = setting.quantity.key;
                let row = dom::append(&place, "div", "row", "");
                rows.insert(key.to_owned(), Row::new(&row, key, "input"));
            }
        }
        Self { rows }
    }

    pub(super) fn draw(&mut self, editor: &Editor) {
        for field in editor.fields() {
            if let Some(row) = self.rows.get_mut(field.key)
                && row.last.as_ref() != Some(&field)
            {
                row.write(&field);
                row.last = Some(field);
            }
        }
    }
}

impl Row {
    fn new(place: &Element, key: &str, tag: &str) -> Self {
        let label = dom::append(place, "label", "label", "");
        let input = dom::append(place, tag, "field", "");
        let id = format!("field-{key}");
        dom::set(&label, "for", &id);
        dom::set(&input, "id", &id);
        dom::set(&input, "data-field", key);
        dom::set(&input, "autocomplete", "off");
        dom::set(&input, "spellcheck", "false");
        if tag == "input" {
            dom::set(&input, "type", "text");
        }
        let unit = dom::append(place, "span", "unit", "");
        let message = dom::append(place, "p", "message", "");
        let message_id = format!("message-{key}");
        dom::set(&message, "id", &message_id);
        dom::set(&input, "aria-describedby", &message_id);
        Self { label, input, unit, message, last: None }
    }

    fn write(&self, field: &Field) {
        let last = self.last.as_ref();
        if last.is_none() {
            self.label.set_text_content(Some(field.label));
            dom::set(&self.label, "title", field.help);
        }
        if last.is_none_or(|last| last.unit != field.unit) {
            self.unit.set_text_content(Some(field.unit));
        }
        if last.is_none_or(|last| last.limits != field.limits) {
            dom::set(&self.input, "title", &field.limits);
        }
        if last.is_none_or(|last| last.enabled != field.enabled) {
            dom::set_if(&self.input, "disabled", (!field.enabled).then_some(""));
        }
        self.message.set_text_content(field.message.as_deref());
        dom::set_if(&self.input, "aria-invalid", field.message.is_some().then_some("true"));
        set_value(&self.input, &field.text);
    }
}

/// Puts a text into an input or a text area.
pub(crate) fn set_value(element: &HtmlElement, text: &str) {
    if let Some(input) = element.dyn_ref::<HtmlInputElement>() {
        input.set_value(text);
    } else if let Some(area) = element.dyn_ref::<HtmlTextAreaElement>() {
        area.set_value(text);
    }
}
