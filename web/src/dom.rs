//! Small words for the DOM. Nothing here knows what the page is about.

use js_sys::{Function, Number};
use wasm_bindgen::{JsCast, closure::Closure, prelude::wasm_bindgen};
use web_sys::{AddEventListenerOptions, Document, Element, Event, EventTarget, HtmlElement, Window};

/// The window. `boot` is the only way in, and only a page calls it.
pub(crate) fn window() -> Window {
    web_sys::window().expect("the editor runs in a page")
}

/// The document of the page.
pub(crate) fn document() -> Document {
    window().document().expect("a page has a document")
}

/// The body of the page.
pub(crate) fn body() -> HtmlElement {
    document().body().expect("the script runs after the body has begun")
}

/// The element that the page declares under that id.
pub(crate) fn by_id(id: &str) -> Element {
    document().get_element_by_id(id).expect("the page declares every element the editor asks for")
}

/// All elements that match a selector, in document order.
pub(crate) fn all(selector: &str) -> Vec<Element> {
    let found = document().query_selector_all(selector).expect("selectors are literals");
    (0..found.length()).filter_map(|i| found.get(i)?.dyn_into().ok()).collect()
}

/// A new HTML element.
pub(crate) fn create(tag: &str) -> HtmlElement {
    document().create_element(tag).expect("tags are literals").unchecked_into()
}

/// A new SVG element.
pub(crate) fn create_svg(tag: &str) -> Element {
    document().create_element_ns(Some("http://www.w3.org/2000/svg"), tag).expect("tags are literals")
}

/// Sets an attribute.
pub(crate) fn set(element: &Element, name: &str, value: &str) {
    element.set_attribute(name, value).expect("attribute names are literals");
}

#[wasm_bindgen]
extern "C" {
    /// An element, for attributes that are numbers: the browser writes them itself.
    type Numbered;

    #[wasm_bindgen(method, js_name = setAttribute)]
    fn set_attribute(this: &Numbered, name: &str, value: f64);

    /// Milliseconds since the page was opened.
    #[wasm_bindgen(js_namespace = performance)]
    pub(crate) fn now() -> f64;
}

/// Sets an attribute to a number, in the fewest digits that tell it from all others.
pub(crate) fn set_number(element: &Element, name: &str, value: f64) {
    element.unchecked_ref::<Numbered>().set_attribute(name, value);
}

/// Sets an attribute or takes it away.
pub(crate) fn set_if(element: &Element, name: &str, value: Option<&str>) {
    match value {
        Some(value) => set(element, name, value),
        None => element.remove_attribute(name).expect("attribute names are literals"),
    }
}

/// Sets the text of an element that has nothing but text. What is there is written over: a new text would be a new part of
/// the page, round which the browser works out styles anew.
pub(crate) fn write(element: &Element, text: &str) {
    match element.first_child() {
        Some(old) if !text.is_empty() => old.set_node_value(Some(text)),
        _ => element.set_text_content(Some(text)),
    }
}

/// A new element with a class and a text inside `parent`.
pub(crate) fn append(parent: &Element, tag: &str, class: &str, text: &str) -> HtmlElement {
    let child = create(tag);
    child.set_class_name(class);
    if !text.is_empty() {
        child.set_text_content(Some(text));
    }
    parent.append_child(&child).expect("a new element goes in");
    child
}

/// A function of JavaScript that calls `f`. It is never given back, so it is for what lives as long as the page.
pub(crate) fn callback(f: impl FnMut() + 'static) -> Function {
    Closure::<dyn FnMut()>::new(f).into_js_value().unchecked_into()
}

/// Calls `f` on every such event for as long as the page lives.
pub(crate) fn listen<E: JsCast>(target: &EventTarget, name: &str, f: impl Fn(E) + 'static) {
    listen_to_any(target, name, Box::new(move |event| f(event.unchecked_into())));
}

/// The same for events of all kinds, so that the page has only one kind of closure.
fn listen_to_any(target: &EventTarget, name: &str, f: Box<dyn Fn(Event)>) {
    let options = AddEventListenerOptions::new();
    options.set_passive(false);
    let closure = Closure::wrap(f).into_js_value();
    target
        .add_event_listener_with_callback_and_add_event_listener_options(
            name,
            closure.unchecked_ref(),
            &options,
        )
        .expect("event names are literals");
}

/// The value of a `data-` attribute of the nearest element that has it, from `target` outward.
pub(crate) fn data(target: Option<EventTarget>, name: &str) -> Option<(HtmlElement, String)> {
    let element: Element = target?.dyn_into().ok()?;
    let owner = element.closest(&format!("[{name}]")).ok()??;
    let value = owner.get_attribute(name)?;
    Some((owner.unchecked_into(), value))
}

/// A number in the fewest digits that tell it from all others, as JavaScript writes it.
pub(crate) fn number(value: f64) -> String {
    Number::from(value).to_string_with_radix(10).map_or(String::new(), String::from)
}
