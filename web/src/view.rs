//! The page as the editor has it: only what changed is touched.

mod drawing;
mod fields;
mod handles;
mod magnifier;
mod readouts;
mod shelf;
mod versions;

pub(crate) use self::fields::set_value;
use self::{
    drawing::Drawing, fields::Fields, handles::Handles, magnifier::Magnifier, readouts::Readouts,
    shelf::Shelf, versions::Versions,
};
use crate::{dom, store::Keeper};
use halfbreadth_core::{
    editor::{Command, Editor, Target},
    units::decimal,
};
use web_sys::Element;

/// All parts of the page that change.
pub(crate) struct View {
    drawing: Drawing,
    handles: Handles,
    readouts: Readouts,
    fields: Fields,
    shelf: Shelf,
    versions: Versions,
    magnifier: Magnifier,
    buttons: Vec<Button>,
    texts: Painted,
    frames: u32,
}

/// A button of the page that runs a command.
struct Button {
    element: Element,
    command: Command,
    words: &'static str,
}

/// What was last written where, so that the DOM is not written again and never read.
#[derive(Default)]
pub(crate) struct Painted(Vec<(&'static str, String)>);

impl Painted {
    /// Whether `value` differs from what was last painted under `key`; remembers it.
    fn differs(&mut self, key: &'static str, value: &str) -> bool {
        match self.0.iter_mut().find(|painted| painted.0 == key) {
            Some((_, old)) if old == value => return false,
            Some((_, old)) => value.clone_into(old),
            None => self.0.push((key, value.to_owned())),
        }
        true
    }

    /// Sets an attribute of an element, if it changed.
    fn set(&mut self, key: &'static str, element: &Element, name: &str, value: Option<&str>) {
        if self.differs(key, value.unwrap_or("\u{0}")) {
            dom::set_if(element, name, value);
        }
    }

    /// Sets the text of an element, if it changed.
    fn text(&mut self, key: &'static str, element: &Element, text: &str) {
        if self.differs(key, text) {
            element.set_text_content(Some(text));
        }
    }
}

impl View {
    /// Takes hold of the elements the page declares and fills in the rows of the tables.
    pub(crate) fn new() -> Self {
        let buttons = dom::all("[data-command]").into_iter().filter_map(Button::of).collect();
        Self {
            drawing: Drawing::new(),
            handles: Handles::new(),
            readouts: Readouts::new(),
            fields: Fields::new(),
            shelf: Shelf::new(),
            versions: Versions::new(),
            magnifier: Magnifier::new(),
            buttons,
            texts: Painted::default(),
            frames: 0,
        }
    }

    /// Brings the page up to date.
    pub(crate) fn draw(&mut self, editor: &Editor, keeper: &Keeper) {
        self.drawing.draw(editor);
        self.handles.draw(editor);
        self.readouts.draw(editor);
        self.fields.draw(editor);
        self.shelf.draw(keeper);
        self.versions.draw(editor);
        self.magnifier.draw(editor);
        for button in &self.buttons {
            button.draw(editor);
        }
        self.status(editor, keeper);
    }

    /// Shows how long the last frame took, ms, on the developer's line.
    pub(crate) fn show_timing(&mut self, recompute: f64, draw: f64) {
        self.frames += 1;
        let body = dom::body();
        let [recompute, draw] = [recompute, draw].map(|ms| decimal(ms, 2));
        let text = format!("recompute {recompute} ms · draw {draw} ms · frame {}", self.frames);
        self.texts.text("timing", &dom::by_id("timing"), &text);
        self.texts.set("frames", &body, "data-frames", Some(&self.frames.to_string()));
    }

    fn status(&mut self, editor: &Editor, keeper: &Keeper) {
        let body = dom::body();
        let notice = editor.notice();
        self.texts.text("notice", &dom::by_id("notice"), &notice.text);
        let tone = if notice.refused { "refused" } else { "said" };
        self.texts.set("tone", &dom::by_id("notice"), "data-tone", Some(tone));
        let selected = match editor.selection() {
            Some(Target::Node(_)) => "node",
            Some(Target::Handle(..)) => "handle",
            Some(Target::Span(..)) => "span",
            None => "nothing",
        };
        self.texts.set("selection", &body, "data-selected", Some(selected));
        self.texts.set("redrawing", &body, "data-redrawing", editor.redrawing().then_some(""));
        self.texts.set("behind", &body, "data-behind", editor.behind());
        self.texts.set("upright", &body, "data-upright", editor.view().upright.then_some(""));
        self.texts.set("revision", &body, "data-revision", Some(&editor.revision().to_string()));
        self.texts.set("copy", &body, "data-copy", keeper.is_copy().then_some(""));
        self.texts.set("keeping", &body, "data-keeping", Some(keeper.state().name()));
        let problems = editor.problems();
        let words: Vec<&str> = problems.iter().map(|problem| problem.text.as_str()).collect();
        if self.texts.differs("problems", &words.join("\n")) {
            let list = dom::by_id("problems");
            list.set_text_content(None);
            for problem in &problems {
                let row = dom::append(&list, "li", "", &problem.text);
                dom::set(&row, "data-problem", problem.key);
            }
        }
    }
}

impl Button {
    fn of(element: Element) -> Option<Self> {
        let command = Command::named(&element.get_attribute("data-command")?)?;
        let words = Command::all().find(|row| row.0 == command).map_or("", |row| row.2);
        if element.text_content().is_none_or(|text| text.trim().is_empty()) {
            element.set_text_content(Some(words));
        }
        Some(Self { element, command, words })
    }

    fn draw(&self, editor: &Editor) {
        let step = match self.command {
            Command::Undo => editor.history().undo_name(),
            Command::Redo => editor.history().redo_name(),
            _ => None,
        };
        if matches!(self.command, Command::Undo | Command::Redo) {
            let text = step.map_or(self.words.to_owned(), |name| format!("{}: {name}", self.words));
            dom::set(&self.element, "aria-label", &text);
            dom::set(&self.element, "title", &text);
            dom::set_if(&self.element, "data-step", step);
        }
        dom::set_if(&self.element, "disabled", (!editor.can(self.command)).then_some(""));
        if let Some(on) = editor.is_on(self.command) {
            dom::set(&self.element, "aria-pressed", if on { "true" } else { "false" });
        }
    }
}
