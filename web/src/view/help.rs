//! Help: what every quantity means, written when it is first asked for; and the cautions, all of them on a sheet and each
//! where its work is named.

use crate::dom;
use halfbreadth_core::{cautions::CAUTIONS, words::words};
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlElement};

/// Fills the places of cautions now, and the two sheets as they open.
pub(super) fn listen() {
    for place in dom::all("[data-caution]") {
        let work = place.get_attribute("data-caution").unwrap_or_default();
        if let Some(caution) = CAUTIONS.iter().find(|caution| caution.work == work) {
            dom::append(&place, "strong", "", caution.work);
            let words = [" ", &caution.words()].concat();
            dom::append(&place, "span", "", &words);
        }
    }
    on_opening("words", |list| {
        for (quantity, source) in words() {
            let name = dom::append(list, "dt", "", quantity.label);
            dom::set(&name, "id", &["word-", quantity.key].concat());
            dom::set(&name, "tabindex", "-1");
            dom::append(list, "dd", "", quantity.help);
            if !source.is_empty() {
                dom::append(list, "dd", "source", source);
            }
        }
    });
    on_opening("cautions", |list| {
        for caution in &CAUTIONS {
            dom::append(list, "dt", "", caution.work);
            for rule in caution.rules {
                dom::append(list, "dd", "", rule);
            }
        }
    });
}

fn on_opening(sheet: &'static str, fill: fn(&Element)) {
    dom::listen(&dom::by_id(sheet), "beforetoggle", move |_: Event| {
        if let Some(list) = dom::all(&["#", sheet, " dl"].concat()).first()
            && list.child_element_count() == 0
        {
            fill(list);
        }
    });
}

/// Opens the sheet of words at a quantity.
pub(crate) fn explain(key: &str) {
    if dom::all("#words:popover-open").is_empty() {
        dom::by_id("words-button").unchecked_into::<HtmlElement>().click();
    }
    if let Some(word) = dom::document().get_element_by_id(&["word-", key].concat()) {
        let _ = word.unchecked_into::<HtmlElement>().focus();
    }
}
