//! Photographs beside the designs they belong to, in a database of their own: a picture that finds no room costs no design.

use super::database::{answer, complete};
use crate::dom;
use js_sys::{Array, ArrayBuffer, Float64Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, Event, IdbDatabase, IdbTransaction, IdbTransactionMode};

const NAME: &str = "halfbreadth-photographs";
/// Key: the design's id. Value: the bytes of the picture's file and the numbers of what is clicked on it. Bytes, since some
/// browsers keep no file in a private window; releases before kept the file.
const PHOTOS: &str = "photographs";

async fn begin(mode: IdbTransactionMode) -> Result<IdbTransaction, JsValue> {
    let factory = dom::window().indexed_db()?.ok_or("no database")?;
    let request = factory.open_with_u32(NAME, 1)?;
    let opening = request.clone();
    dom::listen(&request, "upgradeneeded", move |_: Event| {
        if let Ok(database) = opening.result() {
            let _ = database.unchecked_into::<IdbDatabase>().create_object_store(PHOTOS);
        }
    });
    let database: IdbDatabase = answer(&request).await?.dyn_into()?;
    database.transaction_with_str_and_mode(PHOTOS, mode)
}

/// The picture of a design, and the numbers kept with it.
pub(crate) async fn read(id: &str) -> Result<Option<(ArrayBuffer, Vec<f64>)>, JsValue> {
    let store = begin(IdbTransactionMode::Readonly).await?.object_store(PHOTOS)?;
    let Ok(pair) = answer(&store.get(&id.into())?).await?.dyn_into::<Array>() else { return Ok(None) };
    let picture = match pair.get(0).dyn_into::<Blob>() {
        Ok(file) => bytes(&file).await?,
        Err(bytes) => bytes.dyn_into()?,
    };
    Ok(Some((picture, pair.get(1).dyn_into::<Float64Array>()?.to_vec())))
}

/// The bytes of a file.
pub(crate) async fn bytes(file: &Blob) -> Result<ArrayBuffer, JsValue> {
    JsFuture::from(file.array_buffer()).await?.dyn_into()
}

/// Keeps a picture and the numbers that go with it.
pub(crate) async fn write(id: &str, picture: &ArrayBuffer, numbers: &[f64]) -> Result<(), JsValue> {
    let transaction = begin(IdbTransactionMode::Readwrite).await?;
    let pair = Array::of2(picture, &Float64Array::from(numbers));
    transaction.object_store(PHOTOS)?.put_with_key(&pair, &id.into())?;
    complete(&transaction).await
}

/// Forgets the picture of a design.
pub(crate) async fn remove(id: &str) -> Result<(), JsValue> {
    let transaction = begin(IdbTransactionMode::Readwrite).await?;
    transaction.object_store(PHOTOS)?.delete(&id.into())?;
    complete(&transaction).await
}
