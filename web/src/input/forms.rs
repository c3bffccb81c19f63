//! Buttons and fields.

use super::figures;
use crate::{app, dom, files};
use halfbreadth_core::{
    editor::{Command, Direction, Field, Intent, Room, ShopIntent, SweepIntent},
    export::Kind,
    format::json::Object,
    units::Step,
};
use wasm_bindgen::JsCast;
use web_sys::{
    Event, EventTarget, HtmlElement, HtmlInputElement, HtmlSelectElement, HtmlTextAreaElement, KeyboardEvent,
    UiEvent,
};

pub(super) fn listen() {
    let document = dom::document();
    // The click that opens the file field is made inside a click: it must not come back to the same listener.
    dom::listen(&dom::by_id("file"), "click", |event: Event| event.stop_propagation());
    dom::listen(&document, "click", |event: UiEvent| {
        // A click that counts none is a key or an assistive tool; the stage sees to pointers.
        match dom::data(event.target(), "data-figure-field") {
            Some((_, key)) if event.detail() == 0 => figures::open(&key),
            _ => clicked(event.target()),
        }
    });
    dom::listen(&dom::by_id("pasted"), "keydown", |event: KeyboardEvent| {
        if event.key() == "Enter" {
            files::open_pasted();
        }
    });
    dom::listen(&document, "input", |event: Event| mark_typed(event.target(), true));
    dom::listen(&document, "focusin", |event: Event| mark_typed(event.target(), false));
    dom::listen(&document, "change", |event: Event| changed(event.target()));
    dom::listen(&document, "keydown", |event: KeyboardEvent| {
        if matches!(event.key().as_str(), "Enter" | "Escape")
            && let Some((element, key)) = dom::data(event.target(), "data-field")
        {
            if event.key() == "Enter" && element.tag_name() == "INPUT" {
                enter(&element, key);
            } else if event.key() == "Escape" {
                app::send(Intent::Untype);
                dom::set_if(&element, TYPED, None);
                show_stored(&element, &key);
            }
        }
    });
}

fn clicked(target: Option<EventTarget>) {
    if let Some((_, name)) = dom::data(target.clone(), "data-command")
        && let Some(command) = Command::named(&name)
    {
        run(command);
    } else if let Some((_, name)) = dom::data(target.clone(), "data-nudge") {
        nudge(&name);
    } else if let Some((_, way)) = dom::data(target.clone(), "data-slide") {
        let (step, at_ms) = (Step::Normal, dom::now());
        app::send(Intent::Sweep(SweepIntent::Slide { noseward: way == "noseward", step, at_ms }));
    } else if let Some((_, way)) = dom::data(target.clone(), "data-turn") {
        let (step, at_ms) = (Step::Normal, dom::now());
        app::send(Intent::Sweep(SweepIntent::Turn { anticlockwise: way == "anticlockwise", step, at_ms }));
    } else if let Some((_, index)) = dom::data(target.clone(), "data-lay-sweep") {
        if let Ok(sweep) = index.parse() {
            app::send(Intent::Sweep(SweepIntent::Lay { sweep }));
            show_sheet(false); // the board is needed now, also where the list lay over it
        }
    } else if let Some((_, index)) = dom::data(target.clone(), "data-remove-sweep") {
        if let Ok(sweep) = index.parse() {
            app::send(Intent::Sweep(SweepIntent::Remove { sweep }));
        }
    } else if let Some((_, index)) = dom::data(target.clone(), "data-remove-ply") {
        if let Ok(ply) = index.parse() {
            app::send(Intent::Shop(ShopIntent::RemovePly(ply)));
        }
    } else if let Some((_, index)) = dom::data(target.clone(), "data-remove-record") {
        if let Ok(record) = index.parse() {
            app::send(Intent::Shop(ShopIntent::RemoveRecord(record)));
        }
    } else if let Some((button, what)) = dom::data(target.clone(), "data-tick") {
        if let Some(Ok(index)) = button.get_attribute("data-index").map(|index| index.parse()) {
            let tick = match what.as_str() {
                "printed" => ShopIntent::PrintRecord(index),
                what => ShopIntent::Tick { ply: index, metered: what == "metered" },
            };
            app::send(Intent::Shop(tick));
        }
    } else if let Some((_, id)) = dom::data(target.clone(), "data-take-mould") {
        files::take_mould(id);
    } else if let Some((_, room)) = dom::data(target.clone(), "data-room") {
        open_room(&room);
    } else if let Some((_, key)) = dom::data(target.clone(), "data-lock") {
        app::send(Intent::ToggleLock { key });
    } else if let Some((button, index)) = dom::data(target.clone(), "data-behind-version") {
        let shown = button.get_attribute("aria-pressed").as_deref() == Some("true");
        app::send(Intent::ShowBehind(index.parse().ok().filter(|_| !shown)));
    } else if let Some((_, index)) = dom::data(target.clone(), "data-go-back-to") {
        if let Ok(index) = index.parse() {
            app::send(Intent::GoBackTo(index));
        }
    } else if let Some((_, id)) = dom::data(target.clone(), "data-shelf") {
        files::take_from_shelf(id);
    } else if let Some((_, key)) = dom::data(target.clone(), "data-word") {
        crate::view::explain(&key);
    } else if dom::data(target, "data-sheet").is_some() {
        show_sheet(!dom::body().has_attribute("data-sheet-open"));
    }
}

fn run(command: Command) {
    match command {
        Command::KeepVersion => app::send(Intent::KeepVersion { date: today() }),
        Command::BeginRecord => app::send(Intent::Shop(ShopIntent::BeginRecord { date: today() })),
        Command::CopyLink => files::copy_link(),
        Command::SaveFile => files::save(),
        Command::OpenFile => {
            dom::by_id("file").unchecked_into::<HtmlInputElement>().click();
        }
        Command::ChooseShape => super::bring::choose(),
        Command::ExportSvg => files::export(Kind::Svg),
        Command::ExportDxf => files::export(Kind::Dxf),
        Command::ExportPdf => files::export(Kind::Pdf),
        Command::ExportCsv => files::export(Kind::Csv),
        Command::ExportSheet => files::export_sheet(),
        Command::PrintSheet => {
            let _ = dom::window().print();
        }
        Command::KeepCopy => {
            app::with(|app| {
                app.keeper.begin(true, Object::default());
                app.keeper.keep(&app.editor);
                app.say("Kept.");
            });
        }
        Command::GoBack => files::go_back(),
        Command::OpenLink => files::open_pasted(),
        Command::OpenTurnstone | Command::OpenWhimbrel | Command::OpenDunlin => {
            // A fresh deck is a design of its own: the one in hand stays on the shelf.
            app::with(|app| app.keeper.begin(true, Object::default()));
            app::send(Intent::Run(command));
        }
        other => app::send(Intent::Run(other)),
    }
}

/// Today's date in the maker's own time zone, as YYYY-MM-DD.
fn today() -> String {
    let now = js_sys::Date::new_0();
    format!("{:04}-{:02}-{:02}", now.get_full_year(), now.get_month() + 1, now.get_date())
}

/// A button beside the fields of the selected node: `noseward`, `tailward`, `outward` or `inward`.
fn nudge(name: &str) {
    let direction = match name {
        "noseward" => Direction::Noseward,
        "tailward" => Direction::Tailward,
        "outward" => Direction::Outward,
        _ => Direction::Inward,
    };
    if let Some(target) = app::with(|app| app.editor.selection()).flatten() {
        app::send(Intent::Nudge { target, direction, step: Step::Normal, at_ms: dom::now() });
    }
}

fn open_room(room: &str) {
    dom::set(&dom::body(), "data-in", room);
    app::with(|app| app.editor.dated(today()));
    app::send(Intent::Enter(Room::named(room)));
    for scroller in dom::all(".panel, .rest") {
        scroller.set_scroll_top(0);
    }
    // On an upright screen the sheet holds what is in the room; drawing wants the whole board.
    show_sheet(room != "draw");
    for button in dom::all("[data-room]") {
        let here = button.get_attribute("data-room").as_deref() == Some(room);
        dom::set_if(&button, "aria-current", here.then_some("true"));
    }
}

/// Slides the sheet of a small screen up, or down.
pub(crate) fn show_sheet(open: bool) {
    dom::set_if(&dom::body(), "data-sheet-open", open.then_some(""));
    for button in dom::all("[data-sheet]") {
        dom::set(&button, "aria-expanded", if open { "true" } else { "false" });
    }
}

fn changed(target: Option<EventTarget>) {
    if let Some((element, key)) = dom::data(target.clone(), "data-field") {
        enter(&element, key);
    } else if dom::data(target, "data-file").is_some() {
        files::open_chosen();
    }
}

fn enter(element: &HtmlElement, key: String) {
    send_text(element, &key, value(element));
    show_stored(element, &key);
}

/// Marks a field that was typed into since it got the focus.
const TYPED: &str = "data-typed";

fn mark_typed(target: Option<EventTarget>, typed: bool) {
    if let Some(element) = target.and_then(|target| target.dyn_into::<HtmlElement>().ok()) {
        dom::set_if(&element, TYPED, typed.then_some(""));
    }
}

/// Sends the text of a field unless nobody typed it and it is the value the field shows: that may be rounded, and must not
/// come back. What was refused may be asked for again. Answers whether it was sent.
pub(super) fn send_text(element: &HtmlElement, key: &str, text: String) -> bool {
    let is_typed = element.has_attribute(TYPED);
    dom::set_if(element, TYPED, None);
    let is_new =
        is_typed || field_named(key).is_none_or(|field| field.message.is_some() || field.text != text);
    if is_new {
        app::send(Intent::Type { key: key.to_owned(), text });
    }
    is_new
}

/// A field as the editor has it.
pub(super) fn field_named(key: &str) -> Option<Field> {
    app::with(|app| app.editor.fields().into_iter().find(|field| field.key == key)).flatten()
}

fn show_stored(element: &HtmlElement, key: &str) {
    if let Some(field) = field_named(key) {
        crate::view::set_value(element, &field.text);
    }
}

fn value(element: &HtmlElement) -> String {
    if let Some(input) = element.dyn_ref::<HtmlInputElement>() {
        input.value()
    } else if let Some(select) = element.dyn_ref::<HtmlSelectElement>() {
        select.value()
    } else {
        element.dyn_ref::<HtmlTextAreaElement>().map(HtmlTextAreaElement::value).unwrap_or_default()
    }
}
