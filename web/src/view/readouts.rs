//! The readouts: every measure, in the places the page declares for it.

use crate::dom;
use halfbreadth_core::{
    dimension,
    editor::Readout,
    language::{said, within},
    quantities::{Group, MEASURES},
    say,
    workshop::{FIGURES, Panel},
};
use web_sys::{Element, HtmlElement};

/// All readouts of the page.
pub(super) struct Readouts {
    rows: Vec<Row>,
}

struct Row {
    key: String,
    value: HtmlElement,
    figure: HtmlElement,
    unit: HtmlElement,
    remark: HtmlElement,
    change: HtmlElement,
    lock: Option<HtmlElement>,
    last: Option<Readout>,
}

impl Readouts {
    /// Fills `data-figure` (one large measure) and `data-group` (a list of all others of a group).
    pub(super) fn new() -> Self {
        let mut rows: Vec<Row> = Vec::new();
        for place in dom::all("[data-figure]") {
            if let Some(key) = place.get_attribute("data-figure") {
                rows.push(Row::new(&place, key));
            }
        }
        for place in dom::all("[data-group]") {
            let name = place.get_attribute("data-group").unwrap_or_default();
            let Some(group) =
                Group::ALL.into_iter().find(|group| format!("{group:?}").to_ascii_lowercase() == name)
            else {
                continue;
            };
            dom::append(&place, "h2", "", group.label());
            for measure in MEASURES.iter().filter(|measure| measure.group == group) {
                let key = measure.quantity.key;
                if rows.iter().all(|row| row.key != key) {
                    let row = dom::append(&place, "div", "row", "");
                    rows.push(Row::new(&row, key.to_owned()));
                }
            }
        }
        for place in dom::all("[data-panel]") {
            let name = place.get_attribute("data-panel").unwrap_or_default();
            let panel = Panel::ALL.into_iter().find(|panel| panel.1 == name).map(|panel| panel.0);
            for figure in FIGURES.iter().filter(|figure| Some(figure.panel) == panel) {
                let row = dom::append(&place, "div", "row", "");
                rows.push(Row::new(&row, figure.quantity.key.to_owned()));
            }
        }
        Self { rows }
    }

    /// Writes what has changed.
    pub(super) fn draw(&mut self, readouts: Vec<Readout>) {
        for readout in readouts {
            if let Some(row) = self.rows.iter_mut().find(|row| row.key == readout.key) {
                row.show(readout);
            }
        }
    }
}

/// Whether a measure can be typed.
fn is_settable(key: &str) -> bool {
    dimension::find(key).is_some()
}

impl Row {
    fn new(place: &Element, key: String) -> Self {
        let figure = FIGURES.iter().find(|figure| figure.quantity.key == key);
        let quantity = MEASURES.iter().map(|m| &m.quantity).find(|quantity| quantity.key == key);
        let quantity = quantity.or(figure.map(|figure| &figure.quantity));
        let (label, help) = quantity.map_or(("", ""), |quantity| (quantity.label, quantity.help));
        let name = dom::append(place, "span", "label", label);
        dom::set(&name, "data-word", &key);
        dom::set(
            &name,
            "title",
            &figure.map_or(said(help).to_owned(), |figure| {
                say!("{help} {source}.", help, source = figure.source)
            }),
        );
        if figure.is_some_and(|figure| figure.estimate) {
            dom::append(&name, "small", "estimate", " estimate");
        }
        let value = dom::append(place, "span", "value", "");
        let figure = dom::append(&value, "output", "figure", "");
        dom::set(&figure, "data-readout", &key);
        dom::set(&figure, "aria-label", label);
        dom::set(&figure, "aria-live", "off");
        let unit = dom::append(&value, "span", "unit", "");
        let remark = dom::append(&value, "span", "remark", "");
        let change = dom::append(place, "span", "change", "");
        let lock = is_settable(&key).then(|| {
            // The field lies over the figure: touch the figure and type.
            let input = dom::append(&value, "input", "over", "");
            dom::set(&input, "type", "text");
            dom::set(&input, "data-field", &key);
            dom::set(&input, "aria-label", &say!("Set {what}", what = within(label)));
            dom::set(&input, "autocomplete", "off");
            let message_id = format!("message-{key}");
            dom::set(&input, "aria-describedby", &message_id);
            let lock = dom::append(place, "button", "lock", "");
            dom::set(&lock, "type", "button");
            dom::set(&lock, "data-lock", &key);
            dom::set(&lock, "data-off", "hold");
            dom::set(&lock, "data-on", "held");
            dom::set(&lock, "aria-label", &say!("Lock {what}", what = within(label)));
            let message = dom::append(place, "p", "message", "");
            dom::set(&message, "id", &message_id);
            lock
        });
        Self { key, value, figure, unit, remark, change, lock, last: None }
    }

    fn show(&mut self, readout: Readout) {
        if self.last.as_ref() != Some(&readout) {
            self.write(&readout);
            self.last = Some(readout);
        }
    }

    fn write(&self, readout: &Readout) {
        let last = self.last.as_ref();
        let differs = |what: fn(&Readout, &Readout) -> bool| last.is_none_or(|last| what(last, readout));
        if differs(|a, b| a.value != b.value) {
            match readout.value {
                Some(value) => dom::set_number(&self.figure, "data-value", value),
                None => dom::set(&self.figure, "data-value", ""),
            }
        }
        if differs(|a, b| a.text != b.text) {
            dom::write(&self.figure, &readout.text);
        }
        if differs(|a, b| a.unit != b.unit) {
            dom::write(&self.unit, readout.unit);
        }
        if differs(|a, b| a.remark != b.remark) {
            dom::write(&self.remark, readout.remark);
            let has_remark = (!readout.remark.is_empty()).then_some("");
            dom::set_if(&self.value, "data-remarked", has_remark);
        }
        if differs(|a, b| a.change != b.change) {
            dom::write(&self.change, &readout.change);
        }
        let lockable = |r: &Readout| (r.locked, r.value.is_none());
        if let (Some(lock), Some(locked)) = (&self.lock, readout.locked)
            && last.is_none_or(|last| lockable(last) != lockable(readout))
        {
            dom::set(lock, "aria-pressed", if locked { "true" } else { "false" });
            dom::set_if(lock, "disabled", readout.value.is_none().then_some(""));
        }
    }
}
