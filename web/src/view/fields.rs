//! The fields: every setting, in the places the page declares for them.

use crate::dom;
use halfbreadth_core::{
    editor::Field,
    quantities::{Part, SETTINGS},
    workshop::{INPUTS, inputs::Group},
};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement};

/// All fields of the page.
pub(super) struct Fields {
    rows: Vec<Row>,
}

pub(super) struct Row {
    key: String,
    label: Option<HtmlElement>,
    input: HtmlElement,
    unit: Option<HtmlElement>,
    message: Option<HtmlElement>,
    last: Option<Field>,
}

impl Fields {
    /// Fills `data-row` (one field) and `data-part` (a list of all settings of a part).
    pub(super) fn new() -> Self {
        let mut rows = Vec::new();
        for place in dom::all("[data-row]") {
            if let Some(key) = place.get_attribute("data-row") {
                let tag = if place.has_attribute("data-long") {
                    "textarea"
                } else if place.has_attribute("data-choice") {
                    "select"
                } else {
                    "input"
                };
                rows.push(Row::new(&place, key, tag));
            }
        }
        for place in dom::all("[data-part]") {
            let name = place.get_attribute("data-part").unwrap_or_default();
            let Some(part) = Part::ALL.into_iter().find(|part| part.key() == name) else { continue };
            dom::append(&place, "h2", "", part.label());
            for setting in SETTINGS.iter().filter(|setting| setting.part == part) {
                let key = setting.quantity.key;
                let row = dom::append(&place, "div", "row", "");
                rows.push(Row::new(&row, key.to_owned(), "input"));
            }
        }
        for place in dom::all("[data-inputs]") {
            let name = place.get_attribute("data-inputs").unwrap_or_default();
            let group = Group::ALL.into_iter().find(|group| group.2 == name).map(|group| group.0);
            for input in INPUTS.iter().filter(|input| Some(input.group) == group) {
                let row = dom::append(&place, "div", "row", "");
                rows.push(Row::new(&row, input.quantity.key.to_owned(), "input"));
            }
        }
        for input in dom::all("input.over") {
            if let Some(key) = input.get_attribute("data-field") {
                rows.push(Row::over(key, input.unchecked_into()));
            }
        }
        Self { rows }
    }

    /// Writes what has changed of such fields.
    pub(super) fn draw(&mut self, fields: &[Field]) {
        for field in fields {
            for row in self.rows.iter_mut().filter(|row| row.key == field.key) {
                row.show(field);
            }
        }
    }
}

impl Row {
    pub(super) fn new(place: &Element, key: String, tag: &str) -> Self {
        let label = dom::append(place, "label", "label", "");
        let input = dom::append(place, tag, "field", "");
        let id = format!("field-{key}");
        dom::set(&label, "for", &id);
        dom::set(&input, "id", &id);
        dom::set(&input, "data-field", &key);
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
        Self { key, label: Some(label), input, unit: Some(unit), message: Some(message), last: None }
    }

    /// The row of a field that lies over a figure, whose label and unit are the figure's.
    fn over(key: String, input: HtmlElement) -> Self {
        let place = input.closest("[data-figure], .row").ok().flatten();
        let message = place.and_then(|place| place.query_selector(".message").ok().flatten());
        Self { key, label: None, input, unit: None, message: message.map(JsCast::unchecked_into), last: None }
    }

    /// Brings the row up to date.
    pub(super) fn show(&mut self, field: &Field) {
        if self.last.as_ref() != Some(field) {
            self.write(field);
            self.last = Some(field.clone());
        }
    }

    fn write(&self, field: &Field) {
        let last = self.last.as_ref();
        if let (None, Some(label)) = (last, &self.label) {
            label.set_text_content(Some(field.label));
            dom::set(label, "title", field.help);
            for (word, label) in field.options {
                let option = dom::append(&self.input, "option", "", label);
                dom::set(&option, "value", word);
            }
            if self.key == "name" {
                // Its label is not seen: an empty one must leave something to press.
                dom::set(&self.input, "placeholder", field.label);
            } else if self.input.tag_name() == "TEXTAREA" {
                dom::set(&self.input, "placeholder", field.help);
            }
        }
        if let Some(unit) = &self.unit
            && last.is_none_or(|last| last.unit != field.unit)
        {
            unit.set_text_content(Some(field.unit));
        }
        if last.is_none_or(|last| last.limits != field.limits) {
            dom::set(&self.input, "title", &field.limits);
        }
        if last.is_none_or(|last| last.enabled != field.enabled) {
            dom::set_if(&self.input, "disabled", (!field.enabled).then_some(""));
        }
        if last.is_none_or(|last| last.message != field.message || last.remark != field.remark) {
            if let Some(message) = &self.message {
                let words = field.message.as_deref().unwrap_or(&field.remark);
                message.set_text_content(Some(words));
                dom::set_if(message, "data-remark", field.message.is_none().then_some(""));
            }
            dom::set_if(&self.input, "aria-invalid", field.message.is_some().then_some("true"));
        }
        set_value(&self.input, &field.text);
    }
}

/// Puts a text into an input or a text area.
pub(crate) fn set_value(element: &HtmlElement, text: &str) {
    if let Some(input) = element.dyn_ref::<HtmlInputElement>() {
        input.set_value(text);
    } else if let Some(area) = element.dyn_ref::<HtmlTextAreaElement>() {
        area.set_value(text);
    } else if let Some(select) = element.dyn_ref::<HtmlSelectElement>() {
        select.set_value(text);
    }
}
