//! Which window has a design in hand: a lock that the browser lets go of when the window closes, however it does.

use js_sys::{Function, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue, closure::Closure, prelude::wasm_bindgen};
use wasm_bindgen_futures::JsFuture;

/// How long a window that is just closing, or is being loaded anew, has to let go, ms.
const PATIENCE: f64 = 700.0;

#[wasm_bindgen]
extern "C" {
    type Locks;
    #[wasm_bindgen(method, catch)]
    fn request(this: &Locks, name: &str, options: &Object, granted: &Function) -> Result<Refusable, JsValue>;

    type Refusable;
    #[wasm_bindgen(method, js_name = "catch")]
    fn if_refused(this: &Refusable, f: &Function) -> JsValue;

    type AbortSignal;
    #[wasm_bindgen(static_method_of = AbortSignal, catch)]
    fn timeout(ms: f64) -> Result<JsValue, JsValue>;
}

/// A design that no other window may write while this lives.
pub(super) struct Lock(Option<Function>);

impl Lock {
    /// The lock of a design; `None` where another window has it. A browser without locks gives one that locks nothing.
    pub(super) async fn of(id: &str) -> Option<Self> {
        let Some(locks) = locks() else { return Some(Self(None)) };
        let name = ["halfbreadth ", id].concat();
        // First without waiting, however long a slow machine takes for the answer; then with patience.
        if let Some(lock) = Self::ask(&locks, &name, "ifAvailable", &JsValue::TRUE).await {
            return Some(lock);
        }
        let patience = AbortSignal::timeout(PATIENCE).ok()?;
        Self::ask(&locks, &name, "signal", &patience).await
    }

    async fn ask(locks: &Locks, name: &str, option: &str, value: &JsValue) -> Option<Self> {
        let options = Object::new();
        let _ = Reflect::set(&options, &option.into(), value);
        let release = JsFuture::from(Promise::new(&mut |resolve, reject| {
            // The lock is held until the promise that this function answers with is kept: `release` keeps it.
            let refuse = reject.clone();
            let granted = Closure::once_into_js(move |lock: JsValue| -> JsValue {
                if lock.is_null() {
                    let _ = refuse.call0(&JsValue::NULL);
                    return JsValue::NULL;
                }
                Promise::new(&mut |release, _| {
                    let _ = resolve.call1(&JsValue::NULL, &release);
                })
                .into()
            });
            match locks.request(name, &options, granted.unchecked_ref()) {
                Ok(asked) => drop(asked.if_refused(&reject)),
                Err(error) => drop(reject.call1(&JsValue::NULL, &error)),
            }
        }));
        release.await.ok().map(|release| Self(release.dyn_into().ok()))
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        if let Some(release) = &self.0 {
            let _ = release.call0(&JsValue::NULL);
        }
    }
}

/// The browser's locks; none where the page came neither over TLS nor from this machine.
fn locks() -> Option<Locks> {
    let navigator = crate::dom::window().navigator();
    let locks = Reflect::get(&navigator, &"locks".into()).ok()?;
    locks.is_object().then(|| locks.unchecked_into())
}
