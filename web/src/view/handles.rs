//! The handles over the drawing: HTML elements of constant size, moved by transform.

use crate::dom;
use halfbreadth_core::{
    editor::{Editor, Grip, HandleView, Slider},
    units::decimal,
};
use kurbo::Point;
use web_sys::{CssStyleDeclaration, HtmlElement};

/// All handles on the stage.
pub(super) struct Handles {
    parent: HtmlElement,
    shown: Vec<Shown>,
}

struct Shown {
    grip: Grip,
    element: HtmlElement,
    style: CssStyleDeclaration,
    sliders: Vec<HtmlElement>,
    last: Option<HandleView>,
    /// Where it stands on the stage, CSS px.
    place: Option<Point>,
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
        let places = editor.handle_places();
        let are_there = self.shown.iter().map(|shown| shown.grip).eq(places.iter().map(|place| place.0));
        if !are_there || !only_places {
            self.describe(editor);
        }
        let view = editor.view();
        for (shown, (_, at)) in self.shown.iter_mut().zip(places) {
            shown.put(view.to_px(at));
        }
    }

    /// Brings what is said of the handles up to date, and has one element for each.
    fn describe(&mut self, editor: &Editor) {
        let handles = editor.handles();
        // One tab stop for all free nodes: the selected one, or the first.
        let drawn = || handles.iter().filter(|handle| !handle.sliders.is_empty());
        let stop = drawn().find(|handle| handle.selected).or_else(|| drawn().next());
        let stop = stop.map(|handle| handle.grip);
        let mut left = core::mem::take(&mut self.shown);
        for handle in handles {
            let is_stop = stop == Some(handle.grip);
            let shown = left.iter().position(|shown| shown.grip == handle.grip).map(|i| left.remove(i));
            let mut shown = shown.unwrap_or_else(|| Shown::new(&self.parent, &handle));
            if shown.last.as_ref() != Some(&handle) || shown.is_stop != is_stop {
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
        let style = element.style();
        Self { grip: handle.grip, element, style, sliders, last: None, place: None, is_stop: false }
    }

    fn put(&mut self, px: Point) {
        if self.place != Some(px) {
            let place = ["translate(", &decimal(px.x, 1), "px,", &decimal(px.y, 1), "px)"].concat();
            let _ = self.style.set_property("transform", &place);
            self.place = Some(px);
        }
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
