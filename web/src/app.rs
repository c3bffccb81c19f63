//! The one running editor of the page, and the frame that draws it.

use crate::{
    dom, files, input, photo, picture,
    store::{self, Keeper, Resumed},
    view::View,
};
use halfbreadth_core::{
    demo,
    editor::{Editor, Intent},
    format::json::Object,
    history::History,
};
use js_sys::Function;
use kurbo::Size;
use std::borrow::Cow;
use std::cell::{Cell, RefCell};
use web_sys::ResizeObserver;

/// Everything the page holds.
pub(crate) struct App {
    /// The editor.
    pub(crate) editor: Editor,
    /// What the browser keeps of it.
    pub(crate) keeper: Keeper,
    /// Intents that came since the last frame; moves of one drag replace each other.
    waiting: Vec<Intent>,
    view: View,
    /// Draws the next frame.
    frame: Function,
    frame_is_due: bool,
    /// Whether the last frame of a drag left something for a frame without news.
    leaves_something: bool,
    /// The design that the photograph was last told of.
    followed: Option<Option<String>>,
}

thread_local! {
    /// Lives as long as the page once it has booted.
    static APP: Cell<Option<&'static RefCell<App>>> = const { Cell::new(None) };
}

/// Does something with the running editor; nothing before the page has booted.
pub(crate) fn with<T>(f: impl FnOnce(&mut App) -> T) -> Option<T> {
    let app = APP.get()?;
    Some(f(&mut app.borrow_mut()))
}

/// Sends an intent: it is handled at once, and drawn with the next frame.
pub(crate) fn send(intent: Intent) {
    with(|app| app.send(intent));
}

/// Sends a move: only the last one before a frame counts.
pub(crate) fn send_move(intent: Intent) {
    with(|app| {
        let same = |old: &Intent| core::mem::discriminant(old) == core::mem::discriminant(&intent);
        if app.waiting.last().is_some_and(same) {
            app.waiting.pop();
        }
        app.waiting.push(intent);
        app.request_frame();
    });
}

/// Opens the page: the design kept in this browser, the one in the link, or the first demo deck.
pub(crate) fn boot() {
    wasm_bindgen_futures::spawn_local(async {
        let (keeper, resumed) = Keeper::open().await;
        let fresh = resumed.is_none();
        let (history, revision) = match resumed {
            Some(Resumed { history, revision }) => (history, revision),
            None => (History::new("opened", demo::turnstone()), 0),
        };
        let editor = Editor::new(history, store::settings(), stage_size());
        let editor = editor.exporting(store::export()).resumed_at(revision);
        let mut editor = editor;
        editor.addressed(files::address());
        let app = App {
            editor,
            keeper,
            waiting: Vec::new(),
            view: View::new(),
            frame: dom::callback(|| {
                with(App::draw);
            }),
            frame_is_due: false,
            leaves_something: false,
            followed: None,
        };
        APP.set(Some(Box::leak(Box::new(RefCell::new(app)))));
        if fresh {
            with(|app| app.keeper.keep(&app.editor));
        }
        input::listen();
        photo::listen();
        observe_stage();
        observe_putting_aside();
        files::open_address();
        crate::bench::begin();
        with(App::draw);
        dom::set(&dom::body(), "data-ready", "");
    });
}

impl App {
    /// Handles an intent.
    pub(crate) fn send(&mut self, intent: Intent) {
        self.flush();
        self.handle(intent);
        self.request_frame();
    }

    fn handle(&mut self, intent: Intent) {
        let (revision, settings) = (self.editor.revision(), self.editor.settings());
        let types = matches!(intent, Intent::Type { .. });
        self.editor.handle(intent);
        if self.editor.revision() != revision {
            self.keeper.keep(&self.editor);
        }
        if types || self.editor.settings() != settings {
            store::keep_settings(&self.editor);
        }
    }

    fn flush(&mut self) {
        for intent in core::mem::take(&mut self.waiting) {
            self.handle(intent);
        }
    }

    /// Opens a history as a design of its own, kept at once; or as a copy that is kept with its first change.
    pub(crate) fn open(&mut self, history: History, keep: bool, extras: Object) {
        self.editor.open(history);
        self.keeper.begin(keep, extras);
        if keep {
            self.keeper.keep(&self.editor);
        }
        self.request_frame();
    }

    /// Goes on with a kept history where it was left, or with a copy of it that is kept with its first change.
    pub(crate) fn resume(&mut self, resumed: Resumed) {
        self.editor.open(resumed.history);
        if self.keeper.copied_from().is_none() {
            self.keeper.keep(&self.editor);
        }
        self.request_frame();
    }

    /// Says something in the status line: in English, to be looked up, or what is said already.
    pub(crate) fn say(&mut self, text: impl Into<Cow<'static, str>>) {
        self.editor.say(text);
        self.request_frame();
    }

    /// Says in the status line why something is refused.
    pub(crate) fn refuse(&mut self, why: &impl core::fmt::Display) {
        self.editor.refuse_for(why);
        self.request_frame();
    }

    /// Tells the photograph which design is in hand, once it is drawn.
    fn follow(&mut self) {
        let id = self.keeper.id();
        if self.followed != Some(id.clone()) {
            self.followed = Some(id.clone());
            wasm_bindgen_futures::spawn_local(async move { photo::follow(id.as_deref()) });
        }
    }

    /// Asks the browser for a frame, once.
    pub(crate) fn request_frame(&mut self) {
        if !self.frame_is_due {
            self.frame_is_due = true;
            let _ = dom::window().request_animation_frame(&self.frame);
        }
    }

    /// Draws. Called by the browser for the next frame; directly where focus must follow at once.
    pub(crate) fn draw(&mut self) {
        self.frame_is_due = false;
        let start = dom::now();
        let has_news = !self.waiting.is_empty();
        let under_way = has_news && self.editor.holds_something();
        self.flush();
        self.draw_name();
        let computed = dom::now();
        let catches_up = self.leaves_something && !has_news;
        self.leaves_something = self.view.draw(&self.editor, &self.keeper, under_way);
        self.follow();
        if self.leaves_something {
            self.request_frame(); // what was left out is drawn as soon as the hand rests
        }
        if !catches_up {
            self.view.show_timing(computed - start, dom::now() - computed);
        }
    }
}

/// A browser may put a page aside whole when another comes, and bring it back as it was: in between others may have written.
fn observe_putting_aside() {
    dom::listen(&dom::window(), "pagehide", |_: web_sys::Event| {
        with(|app| app.keeper.rest());
    });
    dom::listen(&dom::window(), "pageshow", |event: web_sys::Event| {
        if js_sys::Reflect::get(&event, &"persisted".into()).is_ok_and(|was_aside| was_aside.is_truthy()) {
            let _ = dom::window().location().reload();
        }
    });
}

impl App {
    /// Draws the name of the design for paper whose fonts cannot write it, where paper is asked for.
    fn draw_name(&mut self) {
        if let Some(name) = self.editor.name_to_draw().map(str::to_owned) {
            let picture = picture::of(&name);
            self.editor.pictured(name, picture);
        }
    }
}

/// Size of the stage, CSS pixels.
fn stage_size() -> Size {
    let stage = dom::by_id("stage");
    Size::new(f64::from(stage.client_width()), f64::from(stage.client_height()))
}

fn observe_stage() {
    let changed = dom::callback(|| send(Intent::Resize(stage_size())));
    if let Ok(observer) = ResizeObserver::new(&changed) {
        observer.observe(&dom::by_id("stage"));
    }
}
