//! The field over a figure of the drawing: opened by a tap or a key, applied with Enter, left with Esc.

use super::forms::{self, field_named};
use crate::{
    app::{self, App},
    dom,
};
use halfbreadth_core::editor::Intent;
use std::borrow::Cow;
use std::cell::Cell;
use wasm_bindgen::JsCast;
use web_sys::{Event, HtmlElement, HtmlInputElement, KeyboardEvent};

thread_local! {
    static OPEN: Cell<Option<&'static str>> = const { Cell::new(None) };
}

/// The key of the field that is open over the drawing.
pub(crate) fn open_figure() -> Option<&'static str> {
    OPEN.get()
}

pub(super) fn listen() {
    let field = field();
    dom::listen(&field, "keydown", |event: KeyboardEvent| {
        match event.key().as_str() {
            "Enter" if !apply() => {}
            "Enter" => close(true),
            "Escape" => {
                app::send(Intent::Untype);
                close(true);
            }
            _ => return,
        }
        // The focus is on the figure by now, which the same key would open again.
        event.prevent_default();
    });
    // What is typed is taken when the field is left, as everywhere.
    dom::listen(&field, "blur", |_: Event| {
        if OPEN.get().is_some() {
            apply();
            close(false);
        }
    });
}

/// Opens the field of a figure, with its text marked so that typing replaces it.
pub(super) fn open(key: &str) {
    let Some(field_of) = field_named(key) else { return };
    // The fields of the drawing are those of a table: their keys are literals.
    let Cow::Borrowed(key) = field_of.key else { return };
    OPEN.set(Some(key));
    let field = field();
    dom::set(&field, "data-field-on-drawing", key);
    dom::set_if(&field, "aria-invalid", None);
    dom::set_if(&field, "hidden", None);
    field.set_value(&field_of.text);
    app::with(App::draw);
    let _ = field.focus();
    field.select();
}

/// Sends what is typed if it is new; answers whether it was not refused.
fn apply() -> bool {
    let field = field();
    let Some(key) = OPEN.get() else { return true };
    if !forms::send_text(&field, key, field.value()) {
        return true;
    }
    let refused = field_named(key).is_some_and(|field| field.message.is_some());
    dom::set_if(&field, "aria-invalid", refused.then_some("true"));
    !refused
}

/// Closes the field; with `back` the focus goes back to its figure.
fn close(back: bool) {
    let Some(key) = OPEN.take() else { return };
    let field = field();
    dom::set(&field, "hidden", "");
    dom::set_if(&field, "data-field-on-drawing", None);
    app::with(App::draw);
    if back && let Some(figure) = dom::all(&format!("[data-figure-field={key}]")).first() {
        let _ = figure.unchecked_ref::<HtmlElement>().focus();
    }
}

fn field() -> HtmlInputElement {
    dom::by_id("figure-field").unchecked_into()
}
