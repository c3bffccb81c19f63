//! The page as the editor has it: only what changed is touched.

mod bring;
mod cut;
mod drawing;
mod fields;
mod figures;
mod handles;
mod help;
mod leaf;
mod lists;
mod magnifier;
mod pressed;
mod readouts;
mod shelf;
mod sweeps;
mod versions;

use self::{
    cut::Cut, drawing::Drawing, fields::Fields, figures::Figures, handles::Handles, leaf::Leaves,
    lists::Lists, magnifier::Magnifier, pressed::Pressed, readouts::Readouts, shelf::Shelf, sweeps::Sweeps,
    versions::Versions,
};
pub(crate) use self::{fields::set_value, help::explain};
use crate::{dom, store::Keeper};
use halfbreadth_core::{
    editor::{Command, Editor, Room, Target},
    language::{looked_up, said},
    say,
    units::decimal,
};
use web_sys::Element;

/// All parts of the page that change.
pub(crate) struct View {
    cut: Cut,
    leaves: Leaves,
    drawing: Drawing,
    figures: Figures,
    handles: Handles,
    readouts: Readouts,
    fields: Fields,
    shelf: Shelf,
    versions: Versions,
    sweeps: Sweeps,
    lists: Lists,
    magnifier: Magnifier,
    pressed: Pressed,
    buttons: Vec<Button>,
    texts: Painted,
    frames: u32,
    /// How many frames in a row have drawn only what a hand and an eye follow.
    light: u32,
}

/// Of so many frames of a drag, one draws what is read: letters and figures fifteen times a second, which is more than
/// anyone reads, and most of a frame's cost.
const READ_EVERY: u32 = 4;

/// How much of the page a frame draws.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Depth {
    /// What a hand and an eye follow: lines, handles, the magnifier.
    Followed,
    /// And what is read while a hand moves: letters on the drawing, figures, what to look at.
    Read,
    /// Everything.
    All,
}

/// A button of the page that runs a command.
struct Button {
    element: Element,
    command: Command,
    words: &'static str,
    /// Whether it can be pressed and whether it is, and the step it undoes, as last painted.
    painted: Option<(bool, Option<bool>, Option<String>)>,
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
    fn set(&mut self, key: &'static str, element: fn() -> Element, name: &str, value: Option<&str>) {
        if self.differs(key, value.unwrap_or("\u{0}")) {
            dom::set_if(&element(), name, value);
        }
    }

    /// Sets the text of the element of that id, if it changed.
    fn text(&mut self, id: &'static str, text: &str) {
        if self.differs(id, text) {
            dom::write(&dom::by_id(id), text);
        }
    }

    /// Sets an attribute of the body, if it changed.
    fn mark(&mut self, name: &'static str, value: Option<&str>) {
        self.set(name, || dom::body().into(), name, value);
    }
}

impl View {
    /// Takes hold of the elements the page declares and fills in the rows of the tables.
    pub(crate) fn new() -> Self {
        help::listen();
        let buttons = dom::all("[data-command]").into_iter().filter_map(Button::of).collect();
        Self {
            cut: Cut::default(),
            leaves: Leaves::default(),
            drawing: Drawing::new(),
            figures: Figures::new(),
            handles: Handles::new(),
            readouts: Readouts::new(),
            fields: Fields::new(),
            shelf: Shelf::new(),
            versions: Versions::new(),
            sweeps: Sweeps::new(),
            lists: Lists::new(),
            magnifier: Magnifier::new(),
            pressed: Pressed::new(),
            buttons,
            texts: Painted::default(),
            frames: 0,
            light: 0,
        }
    }

    /// Brings the page up to date. While a drag is `under_way` only what a hand and an eye follow, most of the time;
    /// answers whether the rest was left for the next frame.
    #[must_use]
    pub(crate) fn draw(&mut self, editor: &Editor, keeper: &Keeper, under_way: bool) -> bool {
        self.light = if under_way { (self.light + 1) % READ_EVERY } else { 0 };
        let depth = match (under_way, self.light) {
            (false, _) => Depth::All,
            (true, 0) => Depth::Read,
            (true, _) => Depth::Followed,
        };
        let scene = editor.scene();
        if depth != Depth::Followed {
            self.figures.draw(editor, &scene);
        }
        self.drawing.draw(editor, scene, depth == Depth::Followed);
        self.handles.draw(editor, depth != Depth::All);
        self.magnifier.draw(editor);
        self.notice(editor);
        if depth != Depth::Followed {
            self.draw_read(editor);
        }
        if depth == Depth::All {
            self.draw_rest(editor, keeper);
        }
        under_way
    }

    /// What is read while a hand moves.
    fn draw_read(&mut self, editor: &Editor) {
        let readouts = editor.readouts();
        self.drawing.name_it(editor, &readouts);
        self.readouts.draw(readouts);
        self.versions.draw(editor);
        self.fields.draw(&editor.fields_in_hand());
        if matches!(editor.room(), Room::LayUp | Room::Press) {
            self.readouts.draw(editor.worked_out());
            self.lists.draw(editor);
        }
        self.pressed.draw(editor);
        self.leaves.draw(editor, &mut self.texts);
        self.problems(editor);
    }

    /// What waits until the hand rests.
    fn draw_rest(&mut self, editor: &Editor, keeper: &Keeper) {
        self.fields.draw(&editor.fields());
        self.shelf.draw(keeper);
        self.sweeps.draw(editor);
        self.lists.draw(editor);
        self.readouts.draw(editor.worked_out());
        self.cut.draw(editor, &mut self.texts);
        bring::draw(editor, &mut self.texts);
        for button in &mut self.buttons {
            button.draw(editor);
        }
        self.status(editor, keeper);
    }

    /// Shows how long the last frame took, ms, on the developer's line.
    pub(crate) fn show_timing(&mut self, recompute: f64, draw: f64) {
        self.frames += 1;
        let [recompute, draw] = [recompute, draw].map(|ms| decimal(ms, 2));
        let text = say!(
            "recompute {recompute} ms · draw {draw} ms · frame {count}",
            recompute,
            draw,
            count = self.frames
        );
        if self.light == 0 {
            self.texts.text("timing", &text);
        }
        self.texts.mark("data-frames", Some(&self.frames.to_string()));
    }

    fn notice(&mut self, editor: &Editor) {
        let notice = editor.notice();
        self.texts.text("notice", &notice.text);
        let tone = if notice.refused { "refused" } else { "said" };
        self.texts.set("tone", || dom::by_id("notice"), "data-tone", Some(tone));
    }

    fn status(&mut self, editor: &Editor, keeper: &Keeper) {
        let selected = match editor.selection() {
            Some(Target::Node(_)) => "node",
            Some(Target::Handle(..)) => "handle",
            Some(Target::Span(..)) if editor.laid_words().is_some() => "laid",
            Some(Target::Span(..)) => "span",
            None => "nothing",
        };
        self.texts.mark("data-selected", Some(selected));
        self.texts.mark("data-redrawing", editor.redrawing().then_some(""));
        self.texts.mark("data-laying", editor.is_laying().then_some(""));
        self.texts.mark("data-behind", editor.behind());
        self.texts.mark("data-upright", editor.view().upright.then_some(""));
        self.texts.mark("data-revision", Some(&editor.revision().to_string()));
        self.texts.mark("data-theme", editor.settings().workshop.then_some("workshop"));
        self.texts.mark("data-guide", (!editor.settings().guided).then_some(""));
        self.texts.mark("data-copy", keeper.copied_from());
        self.texts.mark("data-keeping", Some(keeper.state().name()));
    }

    fn problems(&mut self, editor: &Editor) {
        let problems = editor.problems();
        let words: Vec<&str> = problems.iter().map(|problem| problem.text.as_str()).collect();
        if self.texts.differs("problems", &words.join("\n")) {
            let count = (!problems.is_empty()).then(|| problems.len().to_string());
            for button in dom::all("[data-sheet]") {
                dom::set_if(&button, "data-problems", count.as_deref());
            }
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
        Some(Self { element, command, words, painted: None })
    }

    fn draw(&mut self, editor: &Editor) {
        let step = match self.command {
            Command::Undo => editor.history().undo_name(),
            Command::Redo => editor.history().redo_name(),
            _ => None,
        };
        let now = Some((editor.can(self.command), editor.is_on(self.command), step.map(str::to_owned)));
        if now == self.painted {
            return;
        }
        if matches!(self.command, Command::Undo | Command::Redo) {
            let words = said(self.words);
            let text = step.map_or(words.to_owned(), |name| [words, ": ", looked_up(name)].concat());
            dom::set(&self.element, "aria-label", &text);
            dom::set(&self.element, "title", &text);
            dom::set_if(&self.element, "data-step", step.map(looked_up));
        }
        if let Some((can, on, _)) = now {
            dom::set_if(&self.element, "disabled", (!can).then_some(""));
            if let Some(on) = on {
                dom::set(&self.element, "aria-pressed", if on { "true" } else { "false" });
            }
        }
        self.painted = now;
    }
}
