//! The keyboard: undo anywhere, arrows on a handle, Esc to break off.

use super::pointers;
use crate::{
    app::{self, App},
    dom,
};
use halfbreadth_core::{
    editor::{Command, Direction, Grip, Intent, Target},
    units::Step,
};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, KeyboardEvent};

pub(super) fn listen() {
    dom::listen(&dom::document(), "keydown", |event: KeyboardEvent| {
        if handle(&event) {
            event.prevent_default();
        }
    });
    dom::listen(&dom::by_id("handles"), "focusin", |event: web_sys::Event| {
        if let Some(target) = handle_of(event.target()) {
            app::send(Intent::Select(Some(target)));
        }
    });
}

fn handle_of(target: Option<web_sys::EventTarget>) -> Option<Target> {
    let (_, id) = dom::data(target, "data-handle")?;
    id.parse::<Grip>().ok().map(|grip| grip.target)
}

/// Whether the key meant something.
fn handle(event: &KeyboardEvent) -> bool {
    let key = event.key();
    if key == "Escape" {
        // The sheet of tools takes it first, to shut.
        if dom::all("#more:popover-open").is_empty() {
            pointers::cancel();
        }
        return false;
    }
    if key == "F1" {
        if let Some((_, key)) = dom::data(event.target(), "data-field") {
            crate::view::explain(&key);
            return true;
        }
        return false;
    }
    let typing = event
        .target()
        .and_then(|t| t.dyn_into::<Element>().ok())
        .is_some_and(|element| matches!(element.tag_name().as_str(), "INPUT" | "TEXTAREA"));
    if (event.ctrl_key() || event.meta_key()) && !event.alt_key() {
        let command = match (key.to_ascii_lowercase().as_str(), event.shift_key()) {
            ("z", false) => Command::Undo,
            ("z", true) | ("y", false) => Command::Redo,
            _ => return false,
        };
        // Inside a text field the browser's own undo is the one that is meant.
        if !typing {
            app::send(Intent::Run(command));
        }
        return !typing;
    }
    if typing || event.alt_key() {
        return false;
    }
    handle_of(event.target()).is_some_and(|target| on_handle(event, &key, target))
}

/// A key on a handle: arrows move it as they point on the screen, Page Up and Down go to its neighbours.
fn on_handle(event: &KeyboardEvent, key: &str, target: Target) -> bool {
    let command = match key {
        "PageUp" => Some(Command::NextNode),
        "PageDown" => Some(Command::PreviousNode),
        "Delete" => Some(Command::DeleteNode),
        _ => None,
    };
    if let Some(command) = command {
        app::send(Intent::Run(command));
        follow_selection(true);
        return true;
    }
    let upright = app::with(|app| app.editor.view().upright).unwrap_or_default();
    let Some(direction) = direction(key, upright) else { return false };
    let step = if event.shift_key() { Step::Coarse } else { Step::Normal };
    app::send(Intent::Nudge { target, direction, step, at_ms: dom::now() });
    true
}

/// The direction on the deck of an arrow on the screen.
fn direction(key: &str, upright: bool) -> Option<Direction> {
    let directions = [Direction::Noseward, Direction::Inward, Direction::Tailward, Direction::Outward];
    let turn = match key {
        "ArrowRight" => 0,
        "ArrowDown" => 1,
        "ArrowLeft" => 2,
        "ArrowUp" => 3,
        _ => return None,
    };
    // An upright board is the wide one turned a quarter anticlockwise.
    Some(directions[(turn + usize::from(upright)) % 4])
}

/// Puts the focus on the handle that has just been selected, by keys on its first value, which shows; where there is
/// none, takes it from whatever has it.
pub(super) fn follow_selection(by_keys: bool) {
    app::with(App::draw);
    let part = if by_keys { " [role=slider]" } else { "" };
    let stop = dom::all(&format!(".handle.selected:not(.far){part}")).into_iter().next();
    let element =
        |element: Option<Element>| element.and_then(|element| element.dyn_into::<HtmlElement>().ok());
    if let Some(stop) = element(stop) {
        let _ = stop.focus();
    } else if let Some(active) = element(dom::document().active_element()) {
        let _ = active.blur();
    }
}
