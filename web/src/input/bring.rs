//! Files of measurements and drawings, chosen or dropped on the page.

use crate::{app, dom};
use halfbreadth_core::{capture::drawing, editor::Intent};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{DragEvent, Event, File, FileList, HtmlInputElement};

/// The field that a file is chosen with.
const FIELD: &str = "shape-file";

pub(super) fn listen() {
    let field = dom::by_id(FIELD);
    // The click that opens it is made inside a click: it must not come back to the same listener.
    dom::listen(&field, "click", |event: Event| event.stop_propagation());
    dom::listen(&field, "change", |_: Event| {
        let field: HtmlInputElement = dom::by_id(FIELD).unchecked_into();
        bring(field.files());
        // So that choosing the same file again is a change again.
        field.set_value("");
    });
    let document = dom::document();
    dom::listen(&document, "dragover", |event: DragEvent| event.prevent_default());
    dom::listen(&document, "drop", |event: DragEvent| {
        event.prevent_default();
        bring(event.data_transfer().and_then(|dropped| dropped.files()));
    });
}

/// Opens the browser's list of files.
pub(super) fn choose() {
    dom::by_id(FIELD).unchecked_into::<HtmlInputElement>().click();
}

fn bring(files: Option<FileList>) {
    if let Some(file) = files.and_then(|files| files.get(0)) {
        spawn_local(read(file));
    }
}

async fn read(file: File) {
    let size = file.size();
    let text = if size > drawing::LONGEST as f64 {
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a size in whole bytes")]
        Err(size as usize)
    } else {
        let text = JsFuture::from(file.text()).await;
        Ok(text.ok().and_then(|text| text.as_string()).unwrap_or_default())
    };
    app::send(Intent::BringFile { name: file.name(), text });
}
