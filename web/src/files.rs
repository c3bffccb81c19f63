//! Files and links in and out.

use crate::{app, dom, store::Keeper};
use halfbreadth_core::{
    design::Design,
    editor::{Intent, ShopIntent},
    export::{self, ExportError, Kind},
    file_stem,
    format::{
        json::{self, Object},
        link,
    },
    history::History,
    language::{Own, said},
    say,
    workshop::card::Card,
};
use js_sys::{Array, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Blob, BlobPropertyBag, File, HtmlAnchorElement, HtmlInputElement, Url};

/// Opens the design in the page's address, now and whenever it changes.
pub(crate) fn open_address() {
    open_fragment();
    dom::listen(&dom::window(), "hashchange", |_: web_sys::Event| open_fragment());
}

/// Opens the link in the fragment as a copy: what was in hand stays on the shelf, and the copy is kept only with its
/// first change.
fn open_fragment() {
    let location = dom::window().location();
    let fragment = location.hash().unwrap_or_default();
    if !fragment.starts_with("#d=") {
        return;
    }
    if let Err(error) = open_link(&fragment) {
        app::with(|app| app.refuse(&error));
    }
    // The link has been read: a reload must bring back the maker's own work.
    let bare = location.pathname().unwrap_or_default() + &location.search().unwrap_or_default();
    if let Ok(history) = dom::window().history() {
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&bare));
    }
}

fn open_link(text: &str) -> Result<(), link::LinkError> {
    let design = link::decode(text)?;
    let name = design.name().to_owned();
    app::with(|app| {
        app.open(History::new("opened a link", design), false, Object::default());
        app.say(say!("{name} came with a link.", name));
    });
    Ok(())
}

/// Opens the link that was pasted into the page's field: where no browser follows it here, as in a page from a disk.
pub(crate) fn open_pasted() {
    let field: HtmlInputElement = dom::by_id("pasted").unchecked_into();
    let why = match open_link(&field.value()) {
        Ok(()) => {
            field.set_value("");
            None
        }
        Err(error) => Some(error.to_string()),
    };
    dom::set_if(&field, "aria-invalid", why.as_ref().map(|_| "true"));
    dom::by_id("pasted-why").set_text_content(why.as_deref());
}

/// Goes back from a copy to the design that was last in hand.
pub(crate) fn go_back() {
    let last = app::with(|app| app.keeper.shelf().first().cloned()).flatten();
    if let Some((id, _)) = last {
        Keeper::take_from_shelf(id);
    }
}

/// Takes a design from the shelf.
pub(crate) fn take_from_shelf(id: String) {
    Keeper::take_from_shelf(id);
}

/// What a link begins with: the address the page says it is published at, else its own. A page from a disk that says none
/// has no address that means anything elsewhere.
pub(crate) fn address() -> String {
    let location = dom::window().location();
    let own = || match location.protocol().ok().as_deref() {
        Some("file:") => String::new(),
        _ => [location.origin(), location.pathname()].map(Result::unwrap_or_default).concat(),
    };
    dom::body().get_attribute("data-address").unwrap_or_else(own)
}

/// Takes the mould of a design on the shelf for the one in hand.
pub(crate) fn take_mould(id: String) {
    spawn_local(async move {
        if let Some(design) = Keeper::design_on_shelf(&id).await {
            let card = Box::new(Card::of(&design));
            app::send(Intent::Shop(ShopIntent::TakeCard(card)));
        }
    });
}

/// Copies a link to the design in hand, and shows it for where the clipboard is closed.
pub(crate) fn copy_link() {
    let address = address();
    let Some(link) = app::with(|app| format!("{address}#d={}", link::encode(app.editor.history().design())))
    else {
        return;
    };
    let field: HtmlInputElement = dom::by_id("link").unchecked_into();
    field.set_value(&link);
    dom::set(&dom::body(), "data-link", "");
    let copying = dom::window().navigator().clipboard().write_text(&link);
    spawn_local(async move {
        let text = match JsFuture::from(copying).await {
            Ok(_) => say!("Link copied: {count} characters, the whole shape.", count = link.len()),
            Err(_) => {
                field.select();
                said("The clipboard is closed to this page: copy the link from its field.").to_owned()
            }
        };
        app::with(|app| app.say(text));
    });
}

/// Saves the design in hand as a file.
pub(crate) fn save() {
    let made = app::with(|app| {
        let document = app.keeper.document(&app.editor);
        (stem(&document.design), json::write(&document))
    });
    if let Some((stem, text)) = made {
        download(&format!("{stem}.json"), "application/json", text.as_bytes());
    }
}

/// Saves the file of that kind of the part that is chosen.
pub(crate) fn export(kind: Kind) {
    hand_out(app::with(|app| app.editor.file(kind)));
}

/// Saves the build sheet.
pub(crate) fn export_sheet() {
    hand_out(app::with(|app| app.editor.sheet_file()));
}

fn hand_out(file: Option<Result<export::File, ExportError>>) {
    match file {
        Some(Ok(file)) => download(&file.name, file.mime, &file.bytes),
        Some(Err(error)) => {
            app::with(|app| app.refuse(&error));
        }
        None => {}
    }
}

fn stem(design: &Design) -> String {
    file_stem(design.name())
}

/// Hands a file to the browser's downloads.
fn download(name: &str, mime: &str, bytes: &[u8]) {
    let options = BlobPropertyBag::new();
    options.set_type(mime);
    let blob = Blob::new_with_u8_array_sequence_and_options(&Array::of1(&Uint8Array::from(bytes)), &options);
    let address = blob.and_then(|blob| Url::create_object_url_with_blob(&blob));
    match address {
        Ok(address) => {
            let anchor: HtmlAnchorElement = dom::create("a").unchecked_into();
            anchor.set_href(&address);
            anchor.set_download(name);
            anchor.click();
            app::with(|app| app.say(say!("Saved {name}.", name = Own(name))));
        }
        Err(_) => {
            app::with(|app| {
                app.refuse(&said("this browser gave no room for the file: close other pages and try again"))
            });
        }
    }
}

/// Opens the file chosen in the page's file field.
pub(crate) fn open_chosen() {
    let field: HtmlInputElement = dom::by_id("file").unchecked_into();
    let Some(file) = field.files().and_then(|files| files.get(0)) else { return };
    spawn_local(async move {
        let outcome = read(&file).await;
        // So that choosing the same file again is a change again.
        field.set_value("");
        app::with(|app| match outcome {
            Ok(document) => {
                let name = document.design.name().to_owned();
                app.open(History::new("opened a file", document.design), true, document.extras);
                app.say(say!("Opened {name}.", name));
            }
            Err(why) => app.refuse(&why),
        });
    });
}

async fn read(file: &File) -> Result<json::Document, String> {
    if file.size() > json::LARGEST as f64 {
        return Err(say!(
            "{name} is too large to be a design: at most {most} MB",
            name = file.name(),
            most = json::LARGEST >> 20
        ));
    }
    let text =
        JsFuture::from(file.text()).await.map_err(|_| say!("{name} cannot be read", name = file.name()))?;
    json::read(&text.as_string().unwrap_or_default()).map_err(|error| error.to_string())
}
