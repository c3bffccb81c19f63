//! The keeper of the design in hand: writes every commit, and knows what else is on the shelf.

use super::{database::Database, lock::Lock};
use crate::{app, dom};
use halfbreadth_core::{
    design::Design,
    editor::Editor,
    format::json::{self, Document, Object, Value},
    history::{History, Step},
    language::said,
};
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;

/// What is kept of the design in hand, and where.
pub(crate) struct Keeper {
    database: Option<Database>,
    id: Option<String>,
    /// Keeps other windows from writing this design.
    lock: Option<Lock>,
    /// Whether the design in hand was found in another window, so that this is a copy of it.
    is_elsewhere: bool,
    /// Whether a step of this design has been written, so that only the newest need be.
    begun: bool,
    /// Unknown keys of the file the design came from; they are written back.
    pub(crate) extras: Object,
    state: State,
    saved: u64,
    shelf: Vec<(String, String)>,
}

/// How safe the last change is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum State {
    /// It is in the database.
    Kept,
    /// It is on its way there.
    Keeping,
    /// It could not be written: the maker must save a file.
    Failed,
}

/// A kept history as it was left.
pub(crate) struct Resumed {
    pub(crate) history: History,
    pub(crate) revision: u64,
}

impl State {
    /// Its name in the page's hooks.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Kept => "kept",
            Self::Keeping => "keeping",
            Self::Failed => "failed",
        }
    }
}

impl Keeper {
    /// Opens the browser's storage and takes up the design that was last in hand, if there is one.
    pub(crate) async fn open() -> (Self, Option<Resumed>) {
        let mut keeper = Self::on(Database::open().await.ok());
        let resumed = match keeper.database.clone() {
            Some(database) => keeper.take_up_last(&database).await.unwrap_or_default(),
            None => None,
        };
        (keeper, resumed)
    }

    async fn take_up_last(&mut self, database: &Database) -> Result<Option<Resumed>, JsValue> {
        let records = records(database).await?;
        self.shelf = records.iter().map(Record::on_shelf).collect();
        for record in records {
            // A design that cannot be read stays where it is; the next one is taken.
            if let Some(resumed) = self.take_up(database, &record.id).await? {
                return Ok(Some(resumed));
            }
        }
        Ok(None)
    }

    /// Takes up a kept design: from now on changes go to it.
    async fn take_up(&mut self, database: &Database, id: &str) -> Result<Option<Resumed>, JsValue> {
        let Some(record) = database.design(id).await?.as_deref().and_then(Record::read) else {
            return Ok(None);
        };
        let mut steps = Vec::new();
        for text in database.steps(id).await? {
            if let Some((step, extras)) = read_step(&text) {
                steps.push(step);
                self.extras = extras;
            }
        }
        let present = record.present.min(steps.len().saturating_sub(1));
        let Some(history) = History::from_steps(steps, present) else { return Ok(None) };
        // Two windows that wrote one design would overwrite each other: the second has a copy.
        self.lock = Lock::of(&record.id).await;
        self.is_elsewhere = self.lock.is_none();
        (self.id, self.begun) = (Some(record.id).filter(|_| !self.is_elsewhere), !self.is_elsewhere);
        self.mark_saved(record.revision, State::Kept);
        Ok(Some(Resumed { history, revision: record.revision }))
    }

    /// Takes a design from the shelf into the running editor.
    pub(crate) fn take_from_shelf(id: String) {
        spawn_local(async move {
            let Some(Some(database)) = app::with(|app| app.keeper.database.clone()) else { return };
            let mut taken = Self::on(Some(database.clone()));
            if let Ok(Some(resumed)) = taken.take_up(&database, &id).await {
                app::with(|app| {
                    taken.shelf = core::mem::take(&mut app.keeper.shelf);
                    app.keeper = taken;
                    app.resume(resumed);
                });
            }
        });
    }

    /// The present state of a kept design.
    pub(crate) async fn design_on_shelf(id: &str) -> Option<Design> {
        let database = app::with(|app| app.keeper.database.clone())??;
        let taken = Self::on(Some(database.clone())).take_up(&database, id).await.ok()??;
        Some(taken.history.design().clone())
    }

    /// A keeper with no design yet.
    fn on(database: Option<Database>) -> Self {
        Self {
            database,
            id: None,
            lock: None,
            is_elsewhere: false,
            begun: false,
            extras: Object::default(),
            state: State::Keeping,
            saved: 0,
            shelf: Vec::new(),
        }
    }

    /// Begins with another design: one that is kept from now on, or a copy that is kept with its first change.
    pub(crate) fn begin(&mut self, keep: bool, extras: Object) {
        (self.id, self.lock, self.is_elsewhere) = (None, None, false);
        self.begun = false;
        self.extras = extras;
        if keep {
            self.keeping_id();
        }
    }

    /// The id that the design in hand is kept under, and its lock with it.
    fn keeping_id(&mut self) -> String {
        let is_new = self.id.is_none();
        let id = self.id.get_or_insert_with(new_id).clone();
        if is_new {
            let locked = id.clone();
            spawn_local(async move {
                let lock = Lock::of(&locked).await;
                app::with(|app| {
                    if app.keeper.id.as_ref() == Some(&locked) {
                        app.keeper.lock = lock;
                    }
                });
            });
        }
        id
    }

    /// Where the design in hand was copied from, if it is a copy that is not kept yet: a `link`, or another `window`.
    pub(crate) fn copied_from(&self) -> Option<&'static str> {
        self.id.is_none().then_some(if self.is_elsewhere { "window" } else { "link" })
    }

    /// Lets go of the database: the page is being put aside, and comes back loaded anew or not at all.
    pub(crate) fn rest(&self) {
        if let Some(database) = &self.database {
            database.close();
        }
    }

    /// The id of the design in hand; none while it is a copy that is not kept.
    pub(crate) fn id(&self) -> Option<String> {
        self.id.clone()
    }

    /// How safe the last change is.
    pub(crate) fn state(&self) -> State {
        self.state
    }

    /// Id and name of every kept design, the last touched first.
    pub(crate) fn shelf(&self) -> &[(String, String)] {
        &self.shelf
    }

    /// The design in hand as a file.
    pub(crate) fn document(&self, editor: &Editor) -> Document {
        Document { design: editor.history().design().clone(), extras: self.extras.clone() }
    }

    /// Writes the present state of the editor, in the background.
    pub(crate) fn keep(&mut self, editor: &Editor) {
        let revision = editor.revision();
        let Some(database) = self.database.clone() else {
            self.state = State::Failed;
            return;
        };
        let id = self.keeping_id();
        let history = editor.history();
        let first = if core::mem::replace(&mut self.begun, true) { history.present() } else { 0 };
        let indices = if first == 0 { 0..history.steps().len() } else { first..first + 1 };
        let steps: Vec<_> = indices.map(|i| (i, write_step(&history.steps()[i], &self.extras))).collect();
        let count = history.steps().len();
        let name = history.design().name().to_owned();
        let record = Record {
            id: id.clone(),
            name: name.clone(),
            present: history.present(),
            revision,
            touched: now(),
        };
        self.put_on_shelf(&id, &name);
        self.state = State::Keeping;
        spawn_local(async move {
            let written = database.write(&id, &record.write(), &steps, count).await;
            app::with(|app| {
                app.keeper.mark_saved(revision, if written.is_ok() { State::Kept } else { State::Failed });
                if written.is_err() {
                    app.keeper.begun = false; // what is missing now is written with the next change
                    app.refuse(&said(
                        "this browser could not keep the change: save a file, so that it is not lost",
                    ));
                }
                app.request_frame();
            });
        });
    }

    fn put_on_shelf(&mut self, id: &str, name: &str) {
        self.shelf.retain(|(other, _)| other != id);
        self.shelf.insert(0, (id.to_owned(), name.to_owned()));
    }

    fn mark_saved(&mut self, revision: u64, state: State) {
        self.state = state;
        if state == State::Kept {
            self.saved = self.saved.max(revision);
            dom::set(&dom::body(), "data-saved", &self.saved.to_string());
        }
    }
}

/// The record of a kept design.
struct Record {
    id: String,
    name: String,
    present: usize,
    revision: u64,
    /// When it was last written, ms since 1970.
    touched: i64,
}

impl Record {
    fn on_shelf(&self) -> (String, String) {
        (self.id.clone(), self.name.clone())
    }

    fn write(&self) -> String {
        let Self { id, name, present, revision, touched } = self;
        let record = Value::object([
            ("id", id.as_str().into()),
            ("name", name.as_str().into()),
            ("present", (*present as i64).into()),
            ("revision", revision.cast_signed().into()),
            ("touched", (*touched).into()),
        ]);
        record.to_string()
    }

    fn read(text: &str) -> Option<Self> {
        let value = parse(text)?;
        let (text, whole) = (|key| value.get(key)?.as_text(), |key| value.get(key)?.as_whole());
        Some(Self {
            id: text("id")?.to_owned(),
            name: text("name")?.to_owned(),
            present: usize::try_from(whole("present")?).ok()?,
            revision: u64::try_from(whole("revision")?).ok()?,
            touched: whole("touched").unwrap_or_default(),
        })
    }
}

/// All records, the last touched first.
async fn records(database: &Database) -> Result<Vec<Record>, JsValue> {
    let mut records: Vec<Record> = Vec::new();
    for record in database.designs().await?.iter().filter_map(|text| Record::read(text)) {
        let place = records.partition_point(|other| other.touched >= record.touched);
        records.insert(place, record);
    }
    Ok(records)
}

fn write_step(step: &Step, extras: &Object) -> String {
    let document = Document { design: step.design.clone(), extras: extras.clone() };
    Value::object([("name", step.name.as_str().into()), ("design", json::to_value(&document))]).to_string()
}

fn read_step(text: &str) -> Option<(Step, Object)> {
    let step = parse(text)?;
    let name = step.get("name")?.as_text()?.to_owned();
    let document = json::from_value(step.get("design")?.clone()).ok()?;
    Some((Step { name, design: document.design }, document.extras))
}

/// What was kept, in which a design may lie one level down.
fn parse(text: &str) -> Option<Value> {
    Value::read(text, json::DEEPEST + 1).ok()
}

/// Milliseconds since 1970.
#[expect(clippy::cast_possible_truncation, reason = "whole, and far within the limits")]
fn now() -> i64 {
    js_sys::Date::now() as i64
}

/// An id no other design has.
fn new_id() -> String {
    let base36 = |number: f64| {
        js_sys::Number::from(number).to_string_with_radix(36).map_or_else(|_| String::new(), String::from)
    };
    format!("{}-{}", base36(js_sys::Date::now()), base36(js_sys::Math::random()))
}
