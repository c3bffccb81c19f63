//! Mouse, finger and pen on the stage: the only conversion from pixels to millimetres.

use super::{figures, keys};
use crate::{app, dom};
use halfbreadth_core::{editor::Intent, real};
use kurbo::{Point, Vec2};
use std::cell::Cell;
use wasm_bindgen::{JsCast, prelude::wasm_bindgen};
use web_sys::{Element, Event, MouseEvent, PointerEvent, WheelEvent};

/// How far from the pointer a handle may be to be taken hold of, and how far a pointer may tremble without meaning
/// anything, CSS px: mouse, pen, finger.
const MOUSE: Reach = Reach { handle: 12.0, slop: 3.0 };
const PEN: Reach = Reach { handle: 20.0, slop: 5.0 };
const TOUCH: Reach = Reach { handle: 30.0, slop: 10.0 };
/// Wheel units that double the scale.
const WHEEL_OCTAVE: f64 = 400.0;

#[derive(Clone, Copy, Debug)]
struct Reach {
    handle: f64,
    slop: f64,
}

/// What the pointers on the stage are doing.
#[derive(Clone, Copy, Debug)]
enum State {
    /// Nothing.
    Idle,
    /// One pointer is down and has not moved beyond its slop: over a figure, or holding something or nothing.
    Pressed { id: i32, at: Point, slop: f64, holds: bool, figure: Option<&'static str> },
    /// One is down that will touch the edge for a sweep, unless it moves on: then it pushes the deck.
    Touching { id: i32, at: Point, reach: Reach },
    /// One pointer drags what it took hold of.
    Dragging { id: i32 },
    /// One pointer draws a stretch anew.
    Inking { id: i32 },
    /// One pointer pushes the deck.
    Panning { id: i32, last: Point },
    /// Two fingers push and stretch it.
    Pinching { ids: [i32; 2], at: [Point; 2] },
}

thread_local! {
    static STATE: Cell<State> = const { Cell::new(State::Idle) };
    static FINGER: Cell<Option<Point>> = const { Cell::new(None) };
    /// Where the stage lay in the window when it was last touched, CSS px: nothing moves it under a hand, and to ask in
    /// every frame of a drag is not cheap.
    static STAGE: Cell<Vec2> = const { Cell::new(Vec2::ZERO) };
    /// Whether the tap under way has opened a field: the mouse events made of a touch must not take its focus.
    static OPENED: Cell<bool> = const { Cell::new(false) };
}

pub(super) fn listen() {
    let stage = dom::by_id("stage");
    dom::listen(&stage, "pointerdown", down);
    dom::listen(&stage, "pointermove", moved);
    dom::listen(&stage, "pointerup", up);
    dom::listen(&stage, "pointercancel", |event: PointerEvent| lost(&event));
    dom::listen(&stage, "lostpointercapture", |event: PointerEvent| lost(&event));
    dom::listen(&stage, "wheel", wheel);
    // The browser would focus, and so select, the uppermost handle under the pointer; `down` has decided which is meant.
    dom::listen(&stage, "mousedown", |event: Event| {
        let opened = OPENED.take();
        // A touch that has opened the field is a mouse in it afterwards, in some browsers: it would unmark the text.
        if in_field(&event) && !opened {
            return;
        }
        event.prevent_default();
        if !opened {
            keys::follow_selection(false);
        }
    });
    // Some browsers zoom the whole page on a pinch whatever `touch-action` says.
    dom::listen(&stage, "gesturestart", |event: Event| event.prevent_default());
    dom::listen(&stage, "contextmenu", |event: Event| event.prevent_default());
}

/// Whether an event is one of the field over a figure.
fn in_field(event: &Event) -> bool {
    dom::data(event.target(), "data-field-on-drawing").is_some()
}

/// Where a finger is on the stage, CSS px, while one is down: it covers what it moves.
pub(crate) fn finger() -> Option<Point> {
    FINGER.get()
}

fn change(f: impl FnOnce(State) -> State) {
    STATE.set(f(STATE.get()));
}

#[wasm_bindgen]
extern "C" {
    /// A mouse or pointer event whose place keeps its fraction of a pixel: `web_sys` cuts that off, and a pen has it.
    type Placed;

    #[wasm_bindgen(method, getter, js_name = clientX)]
    fn client_x(this: &Placed) -> f64;

    #[wasm_bindgen(method, getter, js_name = clientY)]
    fn client_y(this: &Placed) -> f64;
}

/// Where a pointer is in the window, CSS px.
pub(super) fn client(event: &MouseEvent) -> Point {
    let event: &Placed = event.unchecked_ref();
    Point::new(event.client_x(), event.client_y())
}

/// Where a pointer is on the stage, CSS px from its top left, as the stage lay when it was last touched.
fn place_of(event: &MouseEvent) -> Point {
    client(event) - STAGE.get()
}

/// Sees where the stage lies.
fn find_stage() {
    let stage = dom::by_id("stage").get_bounding_client_rect();
    STAGE.set(Vec2::new(stage.left(), stage.top()));
}

/// The place on the deck under a point of the stage, mm, and the length of a pixel there.
fn to_mm(px: Point) -> (Point, f64) {
    app::with(|app| {
        let view = app.editor.view();
        (view.to_mm(px), 1.0 / view.scale)
    })
    .unwrap_or((Point::ORIGIN, 1.0))
}

fn down(event: PointerEvent) {
    OPENED.set(false);
    let on_button = dom::data(event.target(), "data-command").is_some();
    if event.button() != 0 || on_button || in_field(&event) {
        return;
    }
    find_stage();
    let px = place_of(&event);
    let reach = match event.pointer_type().as_str() {
        "touch" => TOUCH,
        "pen" => PEN,
        _ => MOUSE,
    };
    FINGER.set((event.pointer_type() == "touch").then_some(px));
    change(|state| match state {
        State::Idle => {
            let stage: Element = dom::by_id("stage");
            let _ = stage.set_pointer_capture(event.pointer_id());
            let (at, mm) = to_mm(px);
            if app::with(|app| app.editor.redrawing()) == Some(true) {
                app::send(Intent::InkBegin { at });
                return State::Inking { id: event.pointer_id() };
            }
            if app::with(|app| app.editor.is_laying()) == Some(true) {
                return State::Touching { id: event.pointer_id(), at: px, reach };
            }
            let reach_mm = reach.handle * mm;
            let figure = app::with(|app| app.editor.figure_at(at, reach_mm)).flatten();
            // A tap is the figure's; a drag from there is still that of a node within reach.
            app::send(Intent::Grab { at, reach: reach_mm });
            let holds = app::with(|app| app.editor.holds_something()) == Some(true);
            State::Pressed { id: event.pointer_id(), at: px, slop: reach.slop, holds, figure }
        }
        // A second finger stops the pen: the window is meant.
        State::Inking { id } => {
            app::send(Intent::Cancel);
            State::Pinching { ids: [id, event.pointer_id()], at: [px, px] }
        }
        // A second finger before the slop is passed means the window, not the node.
        State::Pressed { id, at, .. } => {
            app::send(Intent::Cancel);
            State::Pinching { ids: [id, event.pointer_id()], at: [at, px] }
        }
        State::Panning { id, last: at } | State::Touching { id, at, .. } => {
            State::Pinching { ids: [id, event.pointer_id()], at: [at, px] }
        }
        State::Dragging { .. } | State::Pinching { .. } => state,
    });
}

fn moved(event: PointerEvent) {
    let px = place_of(&event);
    let pointer = event.pointer_id();
    if FINGER.get().is_some() && event.is_primary() {
        FINGER.set(Some(px));
    }
    change(|state| match state {
        State::Inking { id } if id == pointer => {
            let places = coalesced(&event).iter().map(|e| to_mm(place_of(e)).0).collect();
            app::send(Intent::Ink { places });
            state
        }
        State::Pressed { id, at, slop, holds, .. } if id == pointer => {
            if (px - at).hypot() <= slop {
                return state;
            }
            if holds {
                app::send_move(Intent::Drag { to: to_mm(px).0 });
                State::Dragging { id }
            } else {
                pan(px - at);
                State::Panning { id, last: px }
            }
        }
        State::Touching { id, at, reach } if id == pointer => {
            if (px - at).hypot() <= reach.slop {
                return state;
            }
            pan(px - at);
            State::Panning { id, last: px }
        }
        State::Dragging { id } if id == pointer => {
            app::send_move(Intent::Drag { to: to_mm(px).0 });
            state
        }
        State::Panning { id, last } if id == pointer => {
            pan(px - last);
            State::Panning { id, last: px }
        }
        State::Pinching { ids, at } if ids.contains(&pointer) => {
            let mut new = at;
            new[usize::from(ids[1] == pointer)] = px;
            pinch(at, new);
            State::Pinching { ids, at: new }
        }
        _ => state,
    });
}

fn pan(by: Vec2) {
    let by = app::with(|app| app.editor.view().vector_to_mm(by)).unwrap_or_default();
    app::send(Intent::Pan { by });
}

fn pinch(old: [Point; 2], new: [Point; 2]) {
    let spread = |[a, b]: [Point; 2]| (b - a).hypot().max(1.0);
    pan(new[0].midpoint(new[1]) - old[0].midpoint(old[1]));
    let about = to_mm(new[0].midpoint(new[1])).0;
    app::send(Intent::Zoom { about, factor: spread(new) / spread(old) });
}

/// Every place the pen has been since the last event: the browser reports one event a frame and keeps the rest in it.
fn coalesced(event: &PointerEvent) -> Vec<PointerEvent> {
    let all: Vec<PointerEvent> =
        event.get_coalesced_events().iter().filter_map(|e| e.dyn_into().ok()).collect();
    if all.is_empty() { vec![event.clone()] } else { all }
}

fn up(event: PointerEvent) {
    let pointer = event.pointer_id();
    FINGER.set(None);
    let tapped = match STATE.get() {
        State::Pressed { id, figure, .. } if id == pointer => figure,
        _ => None,
    };
    change(|state| match state {
        State::Inking { id } if id == pointer => {
            app::send(Intent::InkEnd);
            State::Idle
        }
        State::Touching { id, at, reach } if id == pointer => {
            let (at, mm) = to_mm(at);
            app::send(Intent::Grab { at, reach: reach.handle * mm });
            app::send(Intent::Drop);
            State::Idle
        }
        State::Pressed { id, .. } | State::Dragging { id } if id == pointer => {
            app::send(Intent::Drop);
            State::Idle
        }
        other => without(other, pointer),
    });
    if let Some(key) = tapped {
        app::send(Intent::Select(None));
        OPENED.set(true);
        figures::open(key);
    }
}

/// A pointer that the browser took away: what it dragged is as it was at grab.
fn lost(event: &PointerEvent) {
    let pointer = event.pointer_id();
    FINGER.set(None);
    change(|state| match state {
        State::Pressed { id, .. } | State::Dragging { id } | State::Inking { id } if id == pointer => {
            app::send(Intent::Cancel);
            State::Idle
        }
        other => without(other, pointer),
    });
}

/// The state after a pointer has gone that held nothing.
fn without(state: State, pointer: i32) -> State {
    match state {
        State::Panning { id, .. } | State::Touching { id, .. } if id == pointer => State::Idle,
        State::Pinching { ids, at } if ids.contains(&pointer) => {
            let stays = usize::from(ids[0] == pointer);
            State::Panning { id: ids[stays], last: at[stays] }
        }
        other => other,
    }
}

/// Breaks off a drag: the Esc key.
pub(super) fn cancel() {
    change(|state| match state {
        State::Pressed { .. } | State::Dragging { .. } | State::Inking { .. } => {
            app::send(Intent::Cancel);
            State::Idle
        }
        // Nothing is held, but touches or strokes are waited for.
        other if app::with(|app| app.editor.is_laying() || app.editor.redrawing()) == Some(true) => {
            app::send(Intent::Cancel);
            other
        }
        other => other,
    });
}

fn wheel(event: WheelEvent) {
    event.prevent_default();
    find_stage();
    let (about, _) = to_mm(place_of(&event));
    let lines = if event.delta_mode() == WheelEvent::DOM_DELTA_LINE { 24.0 } else { 1.0 };
    let (dx, dy) = (event.delta_x() * lines, event.delta_y() * lines);
    // A trackpad pinch reports as a wheel with Ctrl; sideways and shifted wheels push.
    if event.shift_key() || dx.abs() > dy.abs() {
        let by = Vec2::new(-(dx + if event.shift_key() { dy } else { 0.0 }), 0.0);
        pan(by);
    } else {
        let speed = if event.ctrl_key() { 4.0 } else { 1.0 };
        app::send(Intent::Zoom { about, factor: real::pow(2.0, -dy * speed / WHEEL_OCTAVE) });
    }
}
