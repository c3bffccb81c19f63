//! Questions to the worker.

use crate::{app, dom};
use halfbreadth_core::{
    format::json,
    language::{looked_up, said},
    units::System,
};
use js_sys::{Float64Array, Function, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue, closure::Closure};
use wasm_bindgen_futures::JsFuture;

/// Asks the worker for a task; the progress bars of the page follow it. What is refused is a text.
pub(super) async fn ask(task: &str, given: &JsValue) -> Result<JsValue, String> {
    let refused = |why: JsValue| {
        why.as_string().map_or_else(
            || said("the picture cannot be worked on here").to_owned(),
            |why| looked_up(&why).to_owned(),
        )
    };
    let asker = Reflect::get(&dom::window(), &"askWorker".into()).map_err(refused)?;
    let asker: &Function =
        asker.dyn_ref().ok_or_else(|| said("this page has no part that works on pictures"))?;
    let progress = Closure::<dyn FnMut(f64)>::new(|share: f64| show_progress(Some(share)));
    let asked = asker.call3(&JsValue::NULL, &task.into(), given, progress.as_ref()).map_err(refused)?;
    let answer = JsFuture::from(asked.unchecked_into::<Promise>()).await;
    show_progress(None);
    answer.map_err(refused)
}

/// Stops the worker in the middle of what it does; all that was asked is refused with an empty text.
pub(super) fn stop() {
    let asker = Reflect::get(&dom::window(), &"askWorker".into()).unwrap_or_default();
    if let Some(stop) = get(&asker, "stop").dyn_ref::<Function>() {
        let _ = stop.call0(&JsValue::NULL);
    }
}

/// What every question about the deck in hand needs: the clicks, the design and the units.
pub(super) fn about(numbers: &[f64]) -> JsValue {
    let (design, inches) = app::with(|app| {
        let inches = app.editor.settings().system != System::Millimetres;
        (json::write(&app.keeper.document(&app.editor)), inches)
    })
    .unwrap_or_default();
    let about = Object::new();
    set(&about, "given", &Float64Array::from(numbers).into());
    set(&about, "design", &design.into());
    set(&about, "inches", &inches.into());
    about.into()
}

/// A property of an answer.
pub(super) fn get(answer: &JsValue, key: &str) -> JsValue {
    Reflect::get(answer, &key.into()).unwrap_or_default()
}

/// A text in an answer.
pub(super) fn text(answer: &JsValue, key: &str) -> String {
    get(answer, key).as_string().unwrap_or_default()
}

/// A number in an answer; 0 where there is none.
pub(super) fn number(answer: &JsValue, key: &str) -> f64 {
    get(answer, key).as_f64().unwrap_or_default()
}

/// Sets a property of an object just made, which cannot fail.
pub(super) fn set(object: &JsValue, key: &str, value: &JsValue) {
    let _ = Reflect::set(object, &key.into(), value);
}

fn show_progress(share: Option<f64>) {
    for part in dom::all("[data-photo-progress]") {
        dom::set_if(&part, "hidden", share.is_none().then_some(""));
        if let (Some(share), Some(bar)) = (share, part.first_element_child()) {
            dom::set(&bar, "value", &dom::number(share));
        }
    }
}
