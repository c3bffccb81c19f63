//! What happens to a photograph: chosen, clicked, looked at, traced, taken, kept.

use super::{
    ask::{about, ask, get, number, set, stop as stop_worker, text},
    desk::{Desk, clear_the_stage, field, show, with},
    under,
};
use crate::{app, dom, input, store::photos};
use halfbreadth_core::{capture::photo::Given, editor::Intent, format::json, language::said, say};
use js_sys::{Array, ArrayBuffer, Float64Array, Object};
use kurbo::{Point, Size};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Blob, Url};

/// The largest file that is opened, bytes: several times what a telephone writes.
const LARGEST: f64 = 60e6;

/// Takes the picture chosen in the file field.
pub(super) fn choose() {
    let chosen = field("photo-file");
    let Some(file) = chosen.files().and_then(|files| files.get(0)) else { return };
    // So that choosing the same file again is a change again.
    chosen.set_value("");
    if file.size() > LARGEST {
        let (found, most) = (file.size() / 1e6, LARGEST / 1e6);
        refuse(&say!(
            "{name} has {found} MB and cannot be opened: choose a picture of {most} MB at most",
            name = file.name(),
            found = dom::number(found.round()),
            most = dom::number(most)
        ));
        return;
    }
    spawn_local(async move {
        let Ok(picture) = photos::bytes(&file).await else {
            refuse(&say!("{name} cannot be read", name = file.name()));
            return;
        };
        if let Some(size) = opened(&picture).await {
            put_away();
            with(|desk| {
                desk.design = app::with(|app| app.keeper.id()).flatten();
                desk.address = address(&picture);
                (desk.picture, desk.size, desk.shown) = (Some(picture), Some(size), true);
                desk.cross = Point::new(size.width / 2.0, size.height / 2.0);
            });
            keep();
            show();
            clear_the_stage();
            dom::by_id("photo-table").unchecked_into::<web_sys::HtmlElement>().focus().ok();
        }
    });
}

/// An address of a picture for the page.
fn address(picture: &ArrayBuffer) -> String {
    let blob = Blob::new_with_buffer_source_sequence(&Array::of1(picture));
    blob.and_then(|blob| Url::create_object_url_with_blob(&blob)).unwrap_or_default()
}

/// Has the worker open a picture, which the page's end of it decodes from these bytes; says why where it cannot.
async fn opened(picture: &ArrayBuffer) -> Option<Size> {
    let given = Object::new();
    set(&given, "picture", picture);
    match ask("open", &given).await {
        Ok(answer) => Some(Size::new(number(&answer, "width"), number(&answer, "height"))),
        Err(why) => {
            refuse(&why);
            None
        }
    }
}

/// Opens the picture that was kept, where that has not been done yet.
pub(super) fn open_if_needed() {
    spawn_local(async {
        is_open().await;
        show();
    });
}

async fn is_open() -> bool {
    let is_needed = with(|desk| desk.size.is_none() || desk.closed);
    let Some(picture) = with(|desk| if is_needed { desk.picture.clone() } else { None }) else {
        return with(|desk| desk.size.is_some());
    };
    let size = opened(&picture).await;
    with(|desk| {
        let is_new = desk.size.is_none();
        (desk.size, desk.closed) = (size, false);
        if let Some(size) = size.filter(|_| is_new) {
            desk.cross = Point::new(size.width / 2.0, size.height / 2.0);
        }
    });
    size.is_some()
}

/// A click on the picture, pixels: a hole refined to its centre, or a place on a rail.
pub(super) fn click(place: Point) {
    let (on_rails, full) = with(|desk| {
        let (holes, rails) = Given::MOST;
        let full =
            if desk.on_rails { desk.given.rails.len() >= rails } else { desk.given.holes.len() >= holes };
        (desk.on_rails, full)
    });
    if full {
        refuse(said(if on_rails {
            "two places on the rails are clicked: press one to take it out"
        } else {
            "all eight holes are clicked: press one to take it out"
        }));
        return;
    }
    if on_rails {
        change(|given| given.rails.push(place));
        return;
    }
    let index = with(|desk| desk.given.holes.len());
    change(|given| given.holes.push(place));
    spawn_local(async move {
        let given = Object::new();
        set(&given, "x", &place.x.into());
        set(&given, "y", &place.y.into());
        if !is_open().await {
            return;
        }
        if let Ok(answer) = ask("hole", &given).await {
            let pair: Array = answer.unchecked_into();
            let centre = pair.get(0).as_f64().zip(pair.get(1).as_f64());
            // Only where that click is still there, and still where it was.
            let is_there = with(|desk| desk.given.holes.get(index) == Some(&place));
            if let (Some((x, y)), true) = (centre, is_there) {
                change(|given| given.holes[index] = Point::new(x, y));
            }
        }
    });
}

/// Changes what is given, keeps it, and looks at it anew.
pub(super) fn change(f: impl FnOnce(&mut Given)) {
    with(|desk| {
        f(&mut desk.given);
        desk.turn += 1;
        desk.misfits.clear();
        desk.found = None;
    });
    under::withdraw();
    keep();
    show();
    look();
}

fn look() {
    let (turn, numbers, count) = with(|desk| (desk.turn, desk.given.numbers(), desk.given.holes.len()));
    if count < 4 {
        with(|desk| desk.words.clear());
        show();
        return;
    }
    spawn_local(async move {
        if !is_open().await {
            return;
        }
        let answer = ask("look", &about(&numbers)).await;
        with(|desk| {
            if desk.turn != turn {
                return; // something else is clicked by now
            }
            match answer {
                Ok(answer) => {
                    desk.words = text(&answer, "words");
                    let misfits: Array = get(&answer, "misfits").unchecked_into();
                    desk.misfits = misfits.iter().filter_map(|misfit| misfit.as_string()).collect();
                }
                Err(why) => desk.words = why,
            }
        });
        show();
    });
}

/// Lays the rectified picture under the outline, or takes it away.
pub(super) fn toggle_under() {
    if with(|desk| desk.under) {
        with(|desk| desk.under = false);
        under::lift();
    } else {
        spawn_local(async {
            lay_under().await;
            show();
        });
    }
}

async fn lay_under() {
    if !is_open().await {
        return;
    }
    let numbers = with(|desk| desk.given.numbers());
    match ask("sheet", &about(&numbers)).await {
        Ok(answer) => {
            let covers: Float64Array = get(&answer, "covers").unchecked_into();
            let corners = [0, 1, 2, 3].map(|i| covers.get_index(i));
            let blob: Blob = get(&answer, "blob").unchecked_into();
            if let Ok(address) = Url::create_object_url_with_blob(&blob) {
                under::lay(&address, corners);
                with(|desk| (desk.under, desk.shown) = (true, false));
            }
        }
        Err(why) => refuse(&why),
    }
}

/// Has the edge traced, and shows the outline found over the picture.
pub(super) fn trace() {
    let (turn, numbers) = with(|desk| (desk.turn, desk.given.numbers()));
    spawn_local(async move {
        if !is_open().await {
            return;
        }
        match ask("trace", &about(&numbers)).await {
            Ok(answer) => {
                let found = json::read(&text(&answer, "design"));
                let (Ok(found), true) = (found, with(|desk| desk.turn == turn)) else { return };
                lay_under().await;
                if with(|desk| desk.turn != turn) {
                    return; // it was stopped
                }
                let outline = found.design.shape().outline.clone();
                under::propose(&outline);
                with(|desk| {
                    desk.found = Some((outline, text(&answer, "words")));
                    desk.shown = false;
                });
                show();
                input::show_sheet(false); // the board is needed now, and what to do with it stands under it
                app::with(|app| app.say("The edge is found: take the shape, or leave it."));
            }
            Err(why) => refuse(&why),
        }
    });
}

/// Stops what the worker does; the picture and the clicks stay.
pub(super) fn stop() {
    stop_worker();
    with(|desk| {
        desk.closed = true;
        desk.turn += 1; // whatever waits for an answer waits no more
    });
    app::with(|app| app.say("Stopped: the picture and the clicks are as they were."));
}

/// Makes the outline found the deck's.
pub(super) fn take() {
    let Some((outline, _)) = with(|desk| desk.found.take()) else { return };
    under::withdraw();
    app::send(Intent::Bring { step: "took the shape of a photograph", outline });
}

/// Lets go of the outline found.
pub(super) fn leave() {
    with(|desk| desk.found = None);
    under::withdraw();
}

/// Takes the picture away, also from where it is kept.
pub(super) fn remove() {
    let id = with(|desk| desk.design.clone());
    put_away();
    if let Some(id) = id {
        spawn_local(async move {
            let _ = photos::remove(&id).await;
        });
    }
}

fn put_away() {
    let old = with(|desk| {
        let turn = desk.turn + 1;
        core::mem::replace(desk, Desk { turn, ..Desk::default() })
    });
    if !old.address.is_empty() {
        let _ = Url::revoke_object_url(&old.address);
    }
    under::withdraw();
    under::lift();
}

/// Follows the design in hand: another one has another photograph, or none.
pub(crate) fn follow(id: Option<&str>) {
    let (is_same, has_picture) = with(|desk| (desk.design.as_deref() == id, desk.picture.is_some()));
    let Some(id) = id else {
        if !is_same {
            put_away();
            show();
        }
        return;
    };
    if is_same {
        return;
    }
    let was_copy = with(|desk| desk.design.is_none());
    if has_picture && was_copy {
        // A copy that is kept from now on keeps its picture too.
        with(|desk| desk.design = Some(id.to_owned()));
        keep();
        return;
    }
    put_away();
    with(|desk| desk.design = Some(id.to_owned()));
    let id = id.to_owned();
    spawn_local(async move {
        if let Ok(Some((picture, numbers))) = photos::read(&id).await {
            let is_wanted = with(|desk| desk.design.as_deref() == Some(&*id) && desk.picture.is_none());
            if is_wanted {
                with(|desk| {
                    desk.address = address(&picture);
                    desk.picture = Some(picture);
                    desk.given = Given::from_numbers(&numbers);
                });
                look();
            }
        }
        show();
    });
}

/// Keeps picture and clicks beside the design.
fn keep() {
    let kept = with(|desk| Some((desk.design.clone()?, desk.picture.clone()?, desk.given.numbers())));
    if let Some((id, picture, numbers)) = kept {
        spawn_local(async move {
            let written = photos::write(&id, &picture, &numbers).await;
            dom::set(&dom::body(), "data-photo-saved", if written.is_ok() { "yes" } else { "no" });
            if written.is_err() {
                refuse(said(
                    "this browser has no room to keep the picture: it stays only until the page is closed",
                ));
            }
        });
    }
}

/// Says why something is refused; what was stopped says nothing.
fn refuse(why: &str) {
    if !why.is_empty() {
        app::with(|app| app.refuse(&why));
    }
}
