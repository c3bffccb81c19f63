//! The picture on the desk, the places clicked on it, and the glass that shows what is under the pointer larger.

use super::{
    desk::{Desk, show as show_desk, with},
    flow,
};
use crate::dom;
use halfbreadth_core::{language::Own, say, units::decimal};
use kurbo::{Point, Vec2};
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlElement, HtmlImageElement, KeyboardEvent, PointerEvent};

/// How much larger the glass shows the picture than the desk.
const FACTOR: f64 = 4.0;
/// Half its width, and how far above a finger its middle stands, CSS px.
const HALF: f64 = 72.0;
const ABOVE: f64 = 130.0;
/// A press this near to a click means that click, as a share of the picture's long side: a quarter of what the holes of one
/// row are apart where the deck fills the picture.
const SAME: f64 = 0.012;
/// Steps of the cross, CSS px of the picture on the desk: by an arrow, and with Shift.
const STEP: f64 = 8.0;
const FINE: f64 = 1.0;

pub(super) fn listen() {
    let desk = dom::by_id("photo-desk");
    // The stage below must not take hold of anything.
    for name in ["pointerdown", "pointermove", "pointerup", "pointercancel", "wheel", "click"] {
        dom::listen(&desk, name, |event: Event| event.stop_propagation());
    }
    let table = dom::by_id("photo-table");
    dom::listen(&table, "pointerdown", |event: PointerEvent| {
        if event.is_primary() && event.button() == 0 {
            let _ = dom::by_id("photo-table").set_pointer_capture(event.pointer_id());
            move_to(&event);
        }
    });
    dom::listen(&table, "pointermove", |event: PointerEvent| {
        let is_held = dom::by_id("photo-table").has_pointer_capture(event.pointer_id());
        if is_held || event.pointer_type() == "mouse" {
            move_to(&event);
        }
    });
    dom::listen(&table, "pointerup", |event: PointerEvent| {
        if dom::by_id("photo-table").has_pointer_capture(event.pointer_id()) {
            move_to(&event);
            hide_glass();
            press();
        }
    });
    for name in ["pointercancel", "pointerleave", "blur"] {
        dom::listen(&table, name, |_: Event| hide_glass());
    }
    dom::listen(&table, "click", |event: Event| {
        if let Some((_, name)) = dom::data(event.target(), "data-photo-mark") {
            take_out(&name);
        }
    });
    dom::listen(&table, "keydown", |event: KeyboardEvent| key(&event));
}

/// Clicks where the cross is, or takes out the click that is there already.
fn press() {
    let (cross, taken) = with(|desk| {
        let reach = SAME * desk.size.map_or(0.0, |size| size.width.max(size.height));
        let list = if desk.on_rails { &desk.given.rails } else { &desk.given.holes };
        let is_same = |place: &Point| (*place - desk.cross).hypot2() < reach * reach;
        let letter = if desk.on_rails { 'r' } else { 'h' };
        (desk.cross, list.iter().position(is_same).map(|i| format!("{letter}{i}")))
    });
    match taken {
        Some(name) => take_out(&name),
        None => flow::click(cross),
    }
}

/// Takes out the click of that name: `h` a hole, `r` a place on a rail, and its index.
fn take_out(name: &str) {
    let Some(Ok(index)) = name.get(1..).map(str::parse::<usize>) else { return };
    flow::change(|given| {
        let list = if name.starts_with('h') { &mut given.holes } else { &mut given.rails };
        if index < list.len() {
            list.remove(index);
        }
    });
    dom::by_id("photo-table").unchecked_into::<HtmlElement>().focus().ok();
}

fn key(event: &KeyboardEvent) {
    let is_on_mark = dom::data(event.target(), "data-photo-mark").is_some();
    let step = if event.shift_key() { FINE } else { STEP };
    let by = match event.key().as_str() {
        "ArrowLeft" => Vec2::new(-step, 0.0),
        "ArrowRight" => Vec2::new(step, 0.0),
        "ArrowUp" => Vec2::new(0.0, -step),
        "ArrowDown" => Vec2::new(0.0, step),
        "Enter" | " " if !is_on_mark => {
            event.prevent_default();
            event.stop_propagation();
            press();
            return;
        }
        "Escape" => {
            event.stop_propagation();
            with(|desk| desk.shown = false);
            show_desk();
            return;
        }
        _ => return,
    };
    event.prevent_default();
    event.stop_propagation();
    let per_px = with(|desk| desk.size.map_or(0.0, |size| size.width)) / rect().2.max(1.0);
    let cross = with(|desk| {
        let size = desk.size.unwrap_or_default();
        let to = desk.cross + by * per_px;
        desk.cross = Point::new(to.x.max(0.0).min(size.width), to.y.max(0.0).min(size.height));
        desk.cross
    });
    let (left, top, ..) = rect();
    show_glass(cross, Point::new(left + cross.x / per_px, top + cross.y / per_px));
}

/// The picture on the window: left, top, width and height, CSS px.
fn rect() -> (f64, f64, f64, f64) {
    let rect = dom::by_id("photo-table").get_bounding_client_rect();
    (rect.left(), rect.top(), rect.width(), rect.height())
}

fn move_to(event: &PointerEvent) {
    let (left, top, width, _) = rect();
    let at = Point::new(f64::from(event.client_x()), f64::from(event.client_y()));
    let per_px = with(|desk| desk.size.map_or(0.0, |size| size.width)) / width.max(1.0);
    let cross = ((at - Point::new(left, top)) * per_px).to_point();
    with(|desk| desk.cross = cross);
    show_glass(cross, at);
}

/// Shows what lies about a place of the picture that is at `at` on the window.
fn show_glass(cross: Point, at: Point) {
    let glass: HtmlElement = dom::by_id("photo-glass").unchecked_into();
    let desk = dom::by_id("photo-desk").get_bounding_client_rect();
    let (_, _, width, height) = rect();
    let size = with(|desk| desk.size).unwrap_or_default();
    // Near the top of the desk it goes beside the finger, toward the middle.
    let (x, y) = (at.x - desk.left(), at.y - desk.top());
    let (x, y) = if y > ABOVE + HALF {
        (x, y - ABOVE)
    } else {
        (if x < desk.width() / 2.0 { x + ABOVE } else { x - ABOVE }, y.max(HALF))
    };
    let px = |value: f64| format!("{}px", decimal(value, 1));
    let style = glass.style();
    let _ = style.set_property("transform", &format!("translate({},{})", px(x - HALF), px(y - HALF)));
    if let Some(image) = glass.first_element_child() {
        let style = image.unchecked_into::<HtmlElement>().style();
        let _ = style.set_property("width", &px(FACTOR * width));
        let _ = style.set_property("height", &px(FACTOR * height));
        let shift = |share: f64, whole: f64| px(HALF - FACTOR * share * whole);
        let (u, v) = (cross.x / size.width.max(1.0), cross.y / size.height.max(1.0));
        let _ =
            style.set_property("transform", &format!("translate({},{})", shift(u, width), shift(v, height)));
    }
    dom::set_if(&glass, "hidden", None);
}

fn hide_glass() {
    dom::set(&dom::by_id("photo-glass"), "hidden", "");
}

/// Brings picture and marks up to date.
pub(super) fn show(desk: &Desk) {
    let Some(size) = desk.size else { return };
    let table: HtmlElement = dom::by_id("photo-table").unchecked_into();
    let ratio = dom::number(size.width / size.height.max(1.0));
    let _ = table.style().set_property("--ratio", &ratio);
    for image in dom::all("[data-photo-image]") {
        let image: HtmlImageElement = image.unchecked_into();
        if image.src() != desk.address {
            image.set_src(&desk.address);
        }
    }
    let marks = dom::by_id("photo-marks");
    while let Some(old) = marks.last_element_child() {
        old.remove();
    }
    for (i, place) in desk.given.holes.iter().enumerate() {
        let misfit = desk.misfits.get(i).map_or("", String::as_str);
        let number = i + 1;
        let label = if misfit.is_empty() {
            say!("Hole {number}: take it out", number)
        } else {
            say!("Hole {number}, off by {misfit}: take it out", number, misfit = Own(misfit))
        };
        let button = mark(&marks, &format!("h{i}"), *place, desk, &label);
        let class = away(*place, &desk.given.holes);
        dom::append(&button, "span", class, misfit);
    }
    for (i, place) in desk.given.rails.iter().enumerate() {
        mark(
            &marks,
            &format!("r{i}"),
            *place,
            desk,
            &say!("Place {number} on the rails: take it out", number = i + 1),
        );
    }
}

/// On which side of a hole its figure has room: away from the other three of its truck.
fn away(place: Point, holes: &[Point]) -> &'static str {
    let mut truck = [(f64::INFINITY, Point::ORIGIN); 3];
    for other in holes.iter().filter(|other| **other != place) {
        let mut next = ((*other - place).hypot2(), *other);
        for nearest in &mut truck {
            if next.0 < nearest.0 {
                core::mem::swap(nearest, &mut next);
            }
        }
    }
    let off =
        truck.iter().filter(|near| near.0.is_finite()).fold(Vec2::ZERO, |sum, near| sum + (place - near.1));
    match (off.x < 0.0, off.y < 0.0) {
        (true, true) => "left above",
        (true, false) => "left below",
        (false, true) => "right above",
        (false, false) => "right below",
    }
}

fn mark(marks: &Element, name: &str, place: Point, desk: &Desk, label: &str) -> HtmlElement {
    let button = dom::append(marks, "button", "photo-mark", "");
    dom::set(&button, "type", "button");
    dom::set(&button, "data-photo-mark", name);
    dom::set(&button, "aria-label", label);
    let size = desk.size.unwrap_or_default();
    let share = |part: f64, whole: f64| format!("{}%", decimal(100.0 * part / whole.max(1.0), 3));
    let _ = button.style().set_property("left", &share(place.x, size.width));
    let _ = button.style().set_property("top", &share(place.y, size.height));
    button
}
