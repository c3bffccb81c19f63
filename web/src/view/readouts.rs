//! The readouts: every measure, in the places the page declares for it.

use crate::dom;
use halfbreadth_core::{
    editor::{Editor, Readout},
    quantities::{Group, MEASURES},
};
use std::collections::HashMap;
use web_sys::{Element, HtmlElement};

/// All readouts of the page, by key.
pub(super) struct Readouts {
    rows: HashMap<String, Row>,
}

struct Row {
    figure: HtmlElement,
    unit: HtmlElement,
    remark: HtmlElement,
    last: Option<Readout>,
}

impl Readouts {
    /// Fills `data-figure` (one large measure) and `data-group` (a list of all others of a group).
    pub(super) fn new() -> Self {
        let mut rows = HashMap::new();
        for place in dom::all("[data-figure]") {
            if let Some(key) = place.get_attribute("data-figure") {
                rows.insert(key.clone(), Row::new(&place, &key));
            }
        }
        for place in dom::all("[data-group]") {
            let name = place.get_attribute("data-group").unwrap_or_default();
            let Some(group) =
                Group::ALL.into_iter().find(|group| format!("{group:?}").to_lowercase() == name)
            else {
                continue;
            };
            dom::append(&place, "h3", "", group.label());
            for measure in MEASURES.iter().filter(|measure| measure.group == group) {
                let key = measure.quantity.key;
                if !rows.contains_key(key) {
                    let row = dom::append(&place, "div", "row", "");
                    rows.insert(key.to_owned(), Row::new(&row, key));
                }
            }
        }
        Self { rows }
    }

    pub(super) fn draw(&mut self, editor: &Editor) {
        for readout in editor.readouts() {
            if let Some(row) = self.rows.get_mut(readout.key)
                && row.last.as_ref() != Some(&readout)
            {
                row.write(&readout);
                row.last = Some(readout);
            }
        }
    }
}

impl Row {
    fn new(place: &Element, key: &str) -> Self {
        let quantity = MEASURES.iter().map(|m| &m.quantity).find(|quantity| quantity.key == key);
        let (label, help) = quantity.map_or(("", ""), |quantity| (quantity.label, quantity.help));
        let name = dom::append(place, "span", "label", label);
        dom::set(&name, "title", help);
        let value = dom::append(place, "span", "value", "");
        let figure = dom::append(&value, "output", "figure", "");
        dom::set(&figure, "data-readout", key);
        dom::set(&figure, "aria-label", label);
        dom::set(&figure, "aria-live", "off");
        let unit = dom::append(&value, "span", "unit", "");
        let remark = dom::append(&value, "span", "remark", "");
        Self { figure, unit, remark, last: None }
    }

    fn write(&self, readout: &Readout) {
        let last = self.last.as_ref();
        let value = readout.value.map_or(String::new(), |value| value.to_string());
        dom::set(&self.figure, "data-value", &value);
        if last.is_none_or(|last| last.text != readout.text) {
            self.figure.set_text_content(Some(&readout.text));
        }
        if last.is_none_or(|last| last.unit != readout.unit) {
            self.unit.set_text_content(Some(readout.unit));
        }
        if last.is_none_or(|last| last.remark != readout.remark) {
            self.remark.set_text_content(Some(readout.remark));
        }
    }
}
