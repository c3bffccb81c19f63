//! The state of the desk, and what the page's buttons and fields do to it.

use super::{flow, marks};
use crate::{app, dom, input};
use halfbreadth_core::{
    capture::photo::Given,
    language::said,
    outline::Outline,
    units::{System, Unit, parse, rounded_entry},
};
use js_sys::ArrayBuffer;
use kurbo::{Point, Size};
use std::cell::RefCell;
use wasm_bindgen::JsCast;
use web_sys::{Event, HtmlInputElement, UiEvent};

/// A photograph and what is clicked on it.
#[derive(Default)]
pub(super) struct Desk {
    /// The design it belongs to.
    pub(super) design: Option<String>,
    /// The bytes of the picture's file.
    pub(super) picture: Option<ArrayBuffer>,
    /// Its address for the page.
    pub(super) address: String,
    /// Its size, pixels; none before the worker has opened it.
    pub(super) size: Option<Size>,
    /// Whether the worker has let go of it, and has to open it again.
    pub(super) closed: bool,
    /// What is given beside it.
    pub(super) given: Given,
    /// The misfit of each hole as it is shown; none before the holes fit.
    pub(super) misfits: Vec<String>,
    /// What the clicks say, or why they do not fit.
    pub(super) words: String,
    /// Whether clicks go to the rails.
    pub(super) on_rails: bool,
    /// Whether it lies over the stage.
    pub(super) shown: bool,
    /// Whether the rectified picture lies under the outline.
    pub(super) under: bool,
    /// The outline found, and what is to be said of it.
    pub(super) found: Option<(Outline, String)>,
    /// Where the cross stands, pixels of the picture.
    pub(super) cross: Point,
    /// Counts what has changed, so that an answer to an older question is not taken.
    pub(super) turn: u32,
}

thread_local! {
    static DESK: RefCell<Desk> = RefCell::default();
}

/// Does something with the desk.
pub(super) fn with<T>(f: impl FnOnce(&mut Desk) -> T) -> T {
    DESK.with_borrow_mut(f)
}

/// Begins to listen to the photograph's part of the page.
pub(crate) fn listen() {
    dom::listen(&dom::by_id("photo-file"), "click", |event: Event| event.stop_propagation());
    dom::listen(&dom::by_id("photo-file"), "change", |_: Event| flow::choose());
    dom::listen(&dom::document(), "click", |event: UiEvent| {
        if let Some((_, name)) = dom::data(event.target(), "data-photo") {
            press(&name);
        }
    });
    for (id, of) in [("photo-height", Of::Height), ("photo-width", Of::Width)] {
        dom::listen(&dom::by_id(id), "change", move |_: Event| typed(id, of));
    }
    marks::listen();
}

fn press(name: &str) {
    match name {
        "choose" => field("photo-file").click(),
        "holes" | "rails" => {
            let on_rails = name == "rails";
            with(|desk| {
                desk.shown = !(desk.shown && desk.on_rails == on_rails);
                desk.on_rails = on_rails;
            });
            flow::open_if_needed();
            clear_the_stage();
        }
        "turn" => flow::change(|given| given.turned = !given.turned),
        "clear" => flow::change(|given| {
            given.holes.clear();
            given.rails.clear();
        }),
        "under" => flow::toggle_under(),
        "trace" => flow::trace(),
        "stop" => flow::stop(),
        "take" => flow::take(),
        "leave" => flow::leave(),
        "remove" => flow::remove(),
        "leave-desk" => with(|desk| desk.shown = false),
        _ => {}
    }
    show();
}

/// Where the panel is a sheet over the stage, puts it down: the picture is needed now.
pub(super) fn clear_the_stage() {
    if with(|desk| desk.shown) {
        input::show_sheet(false);
    }
}

/// Which of the two measures beside the picture.
#[derive(Clone, Copy)]
enum Of {
    Height,
    Width,
}

fn typed(id: &'static str, of: Of) {
    let field = field(id);
    let text = field.value();
    let system = app::with(|app| app.editor.settings().system).unwrap_or_default();
    let value = if text.trim().is_empty() { Ok(None) } else { parse(&text, Unit::Length, system).map(Some) };
    let is_wrong = match value {
        Ok(value) if value.is_none_or(|mm| mm > 0.0) => {
            flow::change(|given| match of {
                Of::Height => given.height = value,
                Of::Width => given.width = value,
            });
            false
        }
        Ok(_) => {
            app::with(|app| {
                app.refuse(&said("a length of 0 or less cannot be: type what was measured, or nothing"))
            });
            true
        }
        Err(why) => {
            app::with(|app| app.refuse(&why));
            true
        }
    };
    dom::set_if(&field, "aria-invalid", is_wrong.then_some("true"));
    if !is_wrong {
        show();
    }
}

pub(super) fn field(id: &str) -> HtmlInputElement {
    dom::by_id(id).unchecked_into()
}

/// Brings the page up to date with the desk.
pub(super) fn show() {
    let system = app::with(|app| app.editor.settings().system).unwrap_or(System::Millimetres);
    with(|desk| {
        let hidden = |id: &str, hidden: bool| dom::set_if(&dom::by_id(id), "hidden", hidden.then_some(""));
        hidden("photo-work", desk.picture.is_none());
        hidden("photo-found", desk.found.is_none());
        hidden("photo-desk", !(desk.shown && desk.size.is_some()));
        dom::set_if(&dom::body(), "data-photo-shown", desk.shown.then_some(""));
        dom::set_if(&dom::body(), "data-photo-found", desk.found.as_ref().map(|_| ""));
        for (name, pressed) in [
            ("holes", desk.shown && !desk.on_rails),
            ("rails", desk.shown && desk.on_rails),
            ("under", desk.under),
            ("turn", desk.given.turned),
        ] {
            for button in dom::all("[data-photo]") {
                if button.get_attribute("data-photo").as_deref() == Some(name) {
                    dom::set(&button, "aria-pressed", if pressed { "true" } else { "false" });
                }
            }
        }
        dom::by_id("photo-words").set_text_content(Some(&desk.words));
        let found = desk.found.as_ref().map_or("", |(_, words)| words);
        dom::by_id("photo-traced").set_text_content(Some(found));
        for (id, value) in [("photo-height", desk.given.height), ("photo-width", desk.given.width)] {
            let text = value.map_or(String::new(), |mm| rounded_entry(mm, Unit::Length, system));
            field(id).set_value(&text);
        }
        for element in dom::all("[data-photo-unit]") {
            element.set_text_content(Some(Unit::Length.symbol(system)));
        }
        marks::show(desk);
    });
}
