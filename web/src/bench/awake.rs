//! A screen that stays on while the hands cannot touch it.

use crate::dom;
use std::cell::RefCell;
use wasm_bindgen::{JsCast, JsValue, prelude::wasm_bindgen};
use wasm_bindgen_futures::JsFuture;

#[wasm_bindgen]
extern "C" {
    /// A navigator of a browser that knows the Screen Wake Lock API.
    type Wakeful;

    #[wasm_bindgen(method, getter, js_name = wakeLock)]
    fn wake_lock(this: &Wakeful) -> Option<WakeLock>;

    type WakeLock;

    #[wasm_bindgen(method, catch)]
    fn request(this: &WakeLock, kind: &str) -> Result<js_sys::Promise, JsValue>;

    type Sentinel;

    #[wasm_bindgen(method)]
    fn release(this: &Sentinel) -> js_sys::Promise;
}

thread_local! {
    static HELD: RefCell<Option<Sentinel>> = const { RefCell::new(None) };
}

/// Asks for it. The browser takes it back when the page is hidden, so it is asked for again then; where it is refused the
/// maker's own settings decide.
pub(super) fn request() {
    let navigator: Wakeful = dom::window().navigator().unchecked_into();
    let Some(promise) = navigator.wake_lock().and_then(|lock| lock.request("screen").ok()) else { return };
    wasm_bindgen_futures::spawn_local(async move {
        if let Ok(sentinel) = JsFuture::from(promise).await {
            release();
            HELD.set(Some(sentinel.unchecked_into()));
        }
    });
}

/// Lets it go dark again.
pub(super) fn release() {
    if let Some(sentinel) = HELD.take() {
        let promise = sentinel.release();
        wasm_bindgen_futures::spawn_local(async move {
            let _ = JsFuture::from(promise).await;
        });
    }
}
