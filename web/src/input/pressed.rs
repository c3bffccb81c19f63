//! The pressed deck under a finger, and its sliders.

use super::pointers;
use crate::{app, dom};
use halfbreadth_core::{
    editor::{Intent, PressedIntent},
    solid::Turn,
};
use kurbo::{Point, Size};
use std::cell::Cell;
use wasm_bindgen::JsCast;
use web_sys::{
    Element, Event, HtmlDialogElement, HtmlElement, HtmlInputElement, PointerEvent, ResizeObserver,
};

thread_local! {
    /// Which pointer turns the deck, and where it was last.
    static HELD: Cell<Option<(i32, Point)>> = const { Cell::new(None) };
}

fn send(intent: PressedIntent) {
    app::send(Intent::Pressed(intent));
}

pub(super) fn listen() {
    let solid = dom::by_id("solid");
    dom::listen(&solid, "pointerdown", |event: PointerEvent| {
        if HELD.get().is_none() && event.button() == 0 {
            let _ = dom::by_id("solid").set_pointer_capture(event.pointer_id());
            HELD.set(Some((event.pointer_id(), pointers::client(&event))));
        }
    });
    dom::listen(&solid, "pointermove", |event: PointerEvent| {
        let at = pointers::client(&event);
        if let Some((id, last)) = HELD.get()
            && id == event.pointer_id()
        {
            HELD.set(Some((id, at)));
            send(PressedIntent::Drag(at - last));
        }
    });
    for name in ["pointerup", "pointercancel", "lostpointercapture"] {
        dom::listen(&solid, name, |event: PointerEvent| {
            if HELD.get().is_some_and(|held| held.0 == event.pointer_id()) {
                HELD.set(None);
                send(PressedIntent::Rest);
            }
        });
    }
    for id in ["solid-turn", "solid-tilt", "solid-cut"] {
        dom::listen(&dom::by_id(id), "input", move |event: Event| {
            let range = event.target().and_then(|target| target.dyn_into::<HtmlInputElement>().ok());
            let Some(value) = range.map(|range| range.value_as_number()) else { return };
            send(match id {
                "solid-turn" => PressedIntent::Turn(Turn::Turn, value),
                "solid-tilt" => PressedIntent::Turn(Turn::Tilt, value),
                _ => PressedIntent::Cut(value),
            });
        });
    }
    dom::listen(&dom::document(), "click", |event: Event| {
        if let Some((_, what)) = dom::data(event.target(), "data-solid") {
            match what.as_str() {
                "stand-again" => send(PressedIntent::StandAgain),
                what => enlarge(what == "larger"),
            }
        }
    });
    dom::listen(&dom::by_id("solid-large"), "close", |_: Event| {
        put(false);
        // It was out of sight when the browser gave the focus back.
        if let Some(button) = dom::all("[data-solid=larger]").into_iter().next() {
            let _ = button.unchecked_into::<HtmlElement>().focus();
        }
    });
    let frames = || ["solid", "section"].map(|id| size(&dom::by_id(id)));
    let changed = dom::callback(move || send(PressedIntent::Frames(frames())));
    if let Ok(observer) = ResizeObserver::new(&changed) {
        observer.observe(&solid);
        observer.observe(&dom::by_id("section"));
    }
}

/// Shows the deck over the whole page, or back in its place.
fn enlarge(larger: bool) {
    let dialog: HtmlDialogElement = dom::by_id("solid-large").unchecked_into();
    if larger {
        put(true);
        let _ = dialog.show_modal();
    } else {
        dialog.close();
    }
}

/// Puts the deck with its sliders where it is to stand.
fn put(in_dialog: bool) {
    let figure = dom::by_id("solid-figure");
    let _ = if in_dialog {
        dom::by_id("solid-large").append_child(&figure)
    } else {
        dom::by_id("pressed").insert_before(&figure, Some(&dom::by_id("section")))
    };
}

/// Size on the screen, CSS pixels; none of what is not seen.
fn size(element: &Element) -> Size {
    let frame = element.get_bounding_client_rect();
    Size::new(frame.width(), frame.height())
}
