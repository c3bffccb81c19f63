//! The bench timer on the page: the clock, the buttons, the sound and the screen that stays on.

mod awake;
mod sound;

use self::sound::Sound;
use crate::{app, dom};
use halfbreadth_core::{
    say,
    workshop::bench::{Board, Cue, Moment, Plan, Session},
};
use js_sys::Date;
use std::cell::RefCell;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Event, HtmlDialogElement, HtmlElement, KeyboardEvent, Storage};

/// Where the session is kept.
const KEY: &str = "halfbreadth.bench";
/// How often the clock is looked at, ms.
const TICK: i32 = 200;

#[derive(Default)]
struct Bench {
    session: Option<Session>,
    last: Option<Moment>,
    shown: Option<Board>,
    /// Whether the maker is asked if the timer is to stop.
    asks: bool,
    sound: Sound,
    ticks: bool,
}

thread_local! {
    static BENCH: RefCell<Bench> = RefCell::default();
}

/// Listens, and goes on with the session of an earlier visit.
pub(crate) fn begin() {
    dom::listen(&dom::document(), "click", |event: Event| {
        if let Some((_, what)) = dom::data(event.target(), "data-bench") {
            with(|bench| bench.press(&what));
        }
    });
    dom::listen(&dom::document(), "keydown", |event: KeyboardEvent| {
        let on_button = dom::data(event.target(), "data-bench").is_some();
        if event.key() == " " && !on_button && dialog().open() {
            event.prevent_default();
            with(|bench| bench.press("next"));
        }
    });
    dom::listen(&dom::by_id("bench"), "cancel", |event: Event| {
        // Esc by a sleeve must not take the timer from sight while glue is open.
        if with(|bench| bench.is_busy()) {
            event.prevent_default();
        }
    });
    dom::listen(&dom::document(), "visibilitychange", |_: Event| {
        with(|bench| bench.stay_awake());
    });
    with(|bench| {
        let line = storage().and_then(|storage| storage.get_item(KEY).ok().flatten());
        bench.session = line.and_then(|line| Session::resumed(&line));
        if bench.session.is_some() {
            bench.tick_on();
            if bench.is_busy() {
                bench.open();
            }
        }
        bench.draw();
    });
}

fn with<T>(f: impl FnOnce(&mut Bench) -> T) -> T {
    BENCH.with_borrow_mut(f)
}

fn storage() -> Option<Storage> {
    dom::window().local_storage().ok().flatten()
}

fn dialog() -> HtmlDialogElement {
    dom::by_id("bench").unchecked_into()
}

/// Minutes that clocks here are ahead of UTC at a moment.
fn offset(moment: f64) -> f64 {
    -Date::new(&JsValue::from_f64(moment)).get_timezone_offset()
}

/// The plan of the design in hand.
fn plan() -> Option<Plan> {
    app::with(|app| {
        let design = app.editor.design();
        Plan::of(&design.shape().layup, &design.workshop().glue)
    })
}

impl Bench {
    /// Whether glue is open, or about to be.
    fn is_busy(&self) -> bool {
        let busy = |session: &Session| matches!(phase(session), "countdown" | "lay" | "close");
        self.session.as_ref().is_some_and(busy)
    }

    fn press(&mut self, what: &str) {
        let now = Date::now();
        match what {
            "open" => self.open(),
            "leave" => dialog().close(),
            "sound" => self.sound.play(Cue::Step),
            "start" if self.session.is_none() => self.start(now),
            "next" | "hold" => {
                if let Some(session) = &mut self.session {
                    if what == "next" {
                        session.next(now);
                    } else {
                        session.hold(now);
                    }
                    self.keep();
                }
            }
            "stop" => self.asks = true,
            "go-on" => self.asks = false,
            "forget" => {
                self.session = None;
                self.last = None;
                self.asks = false;
                self.keep();
                awake::release();
            }
            _ => {}
        }
        self.draw();
        match what {
            // The space bar is for the next step from there.
            "start" | "go-on" => focus("#bench-title"),
            "stop" => focus("#bench [data-bench=go-on]"),
            "forget" => focus("#bench [data-bench=start]"),
            _ => {}
        }
    }

    fn open(&mut self) {
        let dialog = dialog();
        if !dialog.open() {
            let _ = dialog.show_modal();
        }
        self.stay_awake();
    }

    fn start(&mut self, now: f64) {
        self.sound.unlock();
        self.session = plan().map(|plan| Session::start(plan, now));
        self.last = None;
        self.keep();
        self.tick_on();
        self.stay_awake();
    }

    /// Losing a session to a full storage loses what a maker can read off a clock: it is passed over.
    fn keep(&self) {
        let Some(storage) = storage() else { return };
        let _ = match &self.session {
            Some(session) => storage.set_item(KEY, &session.kept()),
            None => storage.remove_item(KEY),
        };
    }

    fn stay_awake(&self) {
        if self.is_busy() && dialog().open() {
            awake::request();
        }
    }

    fn tick_on(&mut self) {
        if !self.ticks {
            self.ticks = true;
            let tick = dom::callback(|| with(Self::tick));
            let _ = dom::window().set_interval_with_callback_and_timeout_and_arguments_0(&tick, TICK);
        }
    }

    fn tick(&mut self) {
        let Some(session) = &self.session else { return };
        let at = session.at(Date::now());
        if let Some(cue) = self.last.as_ref().and_then(|last| Cue::between(last, &at)) {
            self.sound.play(cue);
        }
        self.last = Some(at);
        self.draw();
    }

    /// Writes what has changed.
    fn draw(&mut self) {
        let dialog = dialog();
        dom::set_if(&dialog, "data-asks", self.asks.then_some(""));
        let text = |id: &str, text: &str| dom::by_id(id).set_text_content(Some(text));
        let Some(session) = &self.session else {
            dom::set(&dialog, "data-phase", "setup");
            dom::set_if(&dialog, "data-late", None);
            if let Some(plan) = plan() {
                text(
                    "bench-plan",
                    &say!("{ready}. {plan}.", ready = plan.ready_words(), plan = plan.words()),
                );
            }
            text("bench-line", "");
            self.shown = None;
            return;
        };
        let board = session.board(Date::now(), &offset);
        let last = self.shown.as_ref();
        if last == Some(&board) {
            return;
        }
        dom::set(&dialog, "data-phase", board.phase);
        dom::set_if(&dialog, "data-late", (!board.late.is_empty()).then_some(""));
        dom::set_if(&dialog, "data-steps", board.can_step.then_some(""));
        for (id, words) in [
            ("bench-headline", board.headline.as_str()),
            ("bench-figure", &board.figure),
            ("bench-of", board.figure_of),
            ("bench-now", &board.now),
            ("bench-next", &board.next),
            ("bench-open-left", &board.open),
            ("bench-assembly-left", &board.assembly),
            ("bench-used", &board.used_words),
            ("bench-late", board.late),
            ("bench-opens", &board.opens),
        ] {
            text(id, words);
        }
        let figure = dom::by_id("bench-figure");
        dom::set_if(&figure, "data-long", (board.figure.len() > 6).then_some(""));
        let bar: HtmlElement = dom::by_id("bench-bar").unchecked_into();
        let share = halfbreadth_core::units::decimal(100.0 * board.used.min(1.0), 1);
        let _ = bar.style().set_property("width", &[&share, "%"].concat());
        for button in dom::all("[data-bench=hold]") {
            dom::set(&button, "aria-pressed", if board.held { "true" } else { "false" });
        }
        // Spoken at steps, and when it is late: never every second.
        if last.is_none_or(|last| (&last.now, last.late) != (&board.now, board.late)) {
            text(
                "bench-says",
                &say!("{late} {now}. Next: {next}", late = board.late, now = board.now, next = board.next),
            );
        }
        let line = say!(
            "{headline}, {figure} {figure_of}. Opens {time}.",
            headline = board.headline,
            figure = board.figure,
            figure_of = board.figure_of,
            time = board.opens
        );
        text("bench-line", &line);
        self.shown = Some(board);
    }
}

fn phase(session: &Session) -> &'static str {
    session.board(Date::now(), &|_| 0.0).phase
}

/// Puts the focus on what a selector finds first.
fn focus(selector: &str) {
    if let Some(element) = dom::all(selector).into_iter().next() {
        let _ = element.unchecked_into::<HtmlElement>().focus();
    }
}
