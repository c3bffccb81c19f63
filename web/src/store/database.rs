//! IndexedDB behind futures: two stores, one of designs and one of their steps.

use crate::dom;
use js_sys::{Array, Function, Promise};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Event, IdbDatabase, IdbKeyRange, IdbObjectStore, IdbRequest, IdbTransaction, IdbTransactionMode,
};

/// Other pages of the same site share the origin, so the name says whose it is.
const NAME: &str = "halfbreadth";
const VERSION: u32 = 1;
/// Key: the design's id. Value: its record as JSON.
const DESIGNS: &str = "designs";
/// Key: [id, index]. Value: the step as JSON.
const STEPS: &str = "steps";

/// How long a database may take to answer, ms. An engine may let one wait for ever for a page that it has put aside in the
/// middle of a write: better to begin without it, and to say that nothing is kept, than not to begin.
const PATIENCE: i32 = 8_000;

/// The open database.
#[derive(Clone)]
pub(super) struct Database(IdbDatabase);

impl Database {
    pub(super) async fn open() -> Result<Self, JsValue> {
        let factory = dom::window().indexed_db()?.ok_or("no database")?;
        let request = factory.open_with_u32(NAME, VERSION)?;
        let opening = request.clone();
        dom::listen(&request, "upgradeneeded", move |_: Event| {
            if let Ok(database) = opening.result() {
                let database: IdbDatabase = database.unchecked_into();
                // Where a store cannot be made, opening fails as a whole, which is noticed there.
                let _ = database.create_object_store(DESIGNS).and(database.create_object_store(STEPS));
            }
        });
        Ok(Self(answer(&request).await?.dyn_into()?))
    }

    /// Lets go of it, so that a page put aside holds up no other.
    pub(super) fn close(&self) {
        self.0.close();
    }

    /// The record of a design.
    pub(super) async fn design(&self, id: &str) -> Result<Option<String>, JsValue> {
        let store = self.read(DESIGNS)?;
        Ok(answer(&store.get(&id.into())?).await?.as_string())
    }

    /// The records of all designs.
    pub(super) async fn designs(&self) -> Result<Vec<String>, JsValue> {
        let store = self.read(DESIGNS)?;
        let all: Array = answer(&store.get_all()?).await?.dyn_into()?;
        Ok(all.iter().filter_map(|value| value.as_string()).collect())
    }

    /// All steps of a design, oldest first.
    pub(super) async fn steps(&self, id: &str) -> Result<Vec<String>, JsValue> {
        let store = self.read(STEPS)?;
        let range = IdbKeyRange::bound(&step_key(id, 0.0), &step_key(id, f64::MAX))?;
        let all: Array = answer(&store.get_all_with_key(&range)?).await?.dyn_into()?;
        Ok(all.iter().filter_map(|value| value.as_string()).collect())
    }

    /// Writes a design's record and some of its steps, and takes away those from `count` on; all or nothing.
    pub(super) async fn write(
        &self,
        id: &str,
        record: &str,
        steps: &[(usize, String)],
        count: usize,
    ) -> Result<(), JsValue> {
        let both = Array::of2(&DESIGNS.into(), &STEPS.into());
        let transaction =
            self.0.transaction_with_str_sequence_and_mode(&both, IdbTransactionMode::Readwrite)?;
        let store = transaction.object_store(STEPS)?;
        for (index, step) in steps {
            store.put_with_key(&step.as_str().into(), &step_key(id, *index as f64))?;
        }
        let rest = IdbKeyRange::bound(&step_key(id, count as f64), &step_key(id, f64::MAX))?;
        store.delete(&rest)?;
        transaction.object_store(DESIGNS)?.put_with_key(&record.into(), &id.into())?;
        complete(&transaction).await
    }

    fn read(&self, store: &str) -> Result<IdbObjectStore, JsValue> {
        self.0.transaction_with_str(store)?.object_store(store)
    }
}

fn step_key(id: &str, index: f64) -> JsValue {
    Array::of2(&id.into(), &index.into()).into()
}

/// The result of a request.
pub(super) async fn answer(request: &IdbRequest) -> Result<JsValue, JsValue> {
    let promise = Promise::new(&mut |resolve, reject| {
        give_up_after(&reject);
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&reject));
    });
    JsFuture::from(promise).await?;
    request.result()
}

/// The end of a transaction: only then is it safely written.
pub(super) async fn complete(transaction: &IdbTransaction) -> Result<(), JsValue> {
    let promise = Promise::new(&mut |resolve, reject| {
        give_up_after(&reject);
        transaction.set_oncomplete(Some(&resolve));
        transaction.set_onabort(Some(&reject));
        transaction.set_onerror(Some(&reject));
    });
    JsFuture::from(promise).await.map(|_| ())
}

/// Calls `reject` when patience ends; a promise that is kept by then does not mind.
fn give_up_after(reject: &Function) {
    let _ = dom::window().set_timeout_with_callback_and_timeout_and_arguments_0(reject, PATIENCE);
}
