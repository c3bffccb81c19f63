//! The handles over the drawing: HTML elements of constant size, moved by transform.

use crate::dom;
use halfbreadth_core::{
    editor::{Editor, HandleView, Slider},
    units::decimal,
};
use web_sys::HtmlElement;

/// All handles on the stage.
pub(super) struct Handles {
    parent: HtmlElement,
    shown: Vec<Shown>,
}

struct Shown {
    id: String,
    element: HtmlElement,
    sliders: Vec<HtmlElement>,
    last: Option<HandleView>,
    place: String,
    is_stop: bool,
}

impl Handles {
    pub(super) fn new() -> Self {
        use wasm_bindgen::JsCast;
        let parent = dom::by_id("handles").unchecked_into();
        Self { parent, shown: Vec::new() }
    }

    /// Puts every handle in its place; where that is enough, what is said of the old ones stays as it was.
    pub(super) fn draw(&mut self, editor: &Editor, only_places: bool) {
        let view = editor.view();
        let handles = editor.handles();
        // One tab stop for all free nodes: the selected one, or the first.
        let drawn = || handles.iter().filter(|handle| !handle.sliders.is_empty());
        let stop = drawn().find(|handle| handle.selected).or_else(|| drawn().next());
        let stop = stop.map(|handle| handle.id.clone());
        let mut left = core::mem::take(&mut self.shown);
        for handle in handles {
            let px = view.to_px(handle.at);
            let place = format!("translate({}px,{}px)", decimal(px.x, 1), decimal(px.y, 1));
            let is_stop = stop.as_ref() == Some(&handle.id);
            let shown = left.iter().position(|shown| shown.id == handle.id).map(|i| left.remove(i));
            let mut shown = shown.unwrap_or_else(|| Shown::new(&self.parent, &handle));
            if shown.place != place {
                let _ = shown.element.style().set_property("transform", &place);
                shown.place = place;
            }
            let is_new = shown.last.is_none();
            let differs = shown.last.as_ref() != Some(&handle) || shown.is_stop != is_stop;
            if is_new || (differs && !only_places) {
                shown.describe(&handle, is_stop);
                shown.last = Some(handle);
                shown.is_stop = is_stop;
            }
            self.shown.push(shown);
        }
        for shown in left {
            shown.element.remove();
        }
    }
}

impl Shown {
    fn new(parent: &HtmlElement, handle: &HandleView) -> Self {
        let element = dom::append(parent, "div", "handle", "");
        dom::set(&element, "data-handle", &handle.id);
        dom::set(&element, "tabindex", "-1");
        let sliders = if handle.sliders.is_empty() {
            dom::set(&element, "aria-hidden", "true");
            Vec::new()
        } else {
            dom::set(&element, "role", "group");
            handle
                .sliders
                .iter()
                .map(|slider| {
                    let child = dom::append(&element, "div", "slider", "");
                    dom::set(&child, "role", "slider");
                    dom::set(&child, "data-axis", slider.axis);
                    dom::set(
                        &child,
                        "aria-orientation",
                        if slider.axis == "along" { "horizontal" } else { "vertical" },
                    );
                    child
                })
                .collect()
        };
        Self { id: handle.id.clone(), element, sliders, last: None, place: String::new(), is_stop: false }
    }

    fn describe(&self, handle: &HandleView, is_stop: bool) {
        let far = if handle.sliders.is_empty() { " far" } else { "" };
        let selected = if handle.selected { " selected" } else { "" };
        let marked = if handle.marked { " marked" } else { "" };
        self.element.set_class_name(&format!("handle {}{far}{selected}{marked}", handle.look));
        if !handle.sliders.is_empty() {
            dom::set(&self.element, "aria-label", &handle.label);
        }
        for (element, slider) in self.sliders.iter().zip(&handle.sliders) {
            let Slider { label, value, least, most, text, .. } = slider;
            dom::set(element, "aria-label", label);
            dom::set(element, "aria-valuenow", &decimal(*value, 3));
            dom::set(element, "aria-valuemin", &decimal(*least, 3));
            dom::set(element, "aria-valuemax", &decimal(*most, 3));
            dom::set(element, "aria-valuetext", text);
            dom::set(element, "tabindex", if is_stop { "0" } else { "-1" });
        }
    }
}
