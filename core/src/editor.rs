//! The editor: a history and a session. Intents go in; scene, handles, readouts and messages come out.
//!
//! The session (view, selection, live gesture, units) is neither in the history nor in links. All that is shown is
//! derived from the design in hand: the one of the live gesture while there is one, else the present one.

mod bring;
mod command;
mod cut;
mod fields;
mod figure;
mod gesture;
mod handles;
mod ink;
mod intent;
mod pressed;
mod readout;
mod sheet;
mod shop;
mod snap;
mod sweeps;
mod target;
mod versions;

use self::{
    bring::Bring, cut::Bench, fields::Typed, gesture::Gesture, pressed::Pressed, sweeps::Laying,
    versions::Behind,
};
pub use self::{
    bring::Brought,
    command::Command,
    cut::{FileFacts, Prepared, Room},
    fields::Field,
    figure::Figure,
    gesture::Limit,
    handles::{HandleView, Slider},
    intent::{Direction, Intent},
    pressed::{PressedIntent, PressedView},
    readout::{Readout, inside, outside},
    shop::{Item, ShopIntent, Tick},
    snap::{Rule, Snapped},
    sweeps::{SweepIntent, SweepSize, SweepView},
    target::{Copy, Grip, Target},
    versions::{Difference, VersionView},
};
use crate::{
    check::{self, Problem},
    design::{Design, Refusal},
    history::History,
    language::said,
    measure::Measured,
    scene::{self, Scene, SceneInput},
    units::{System, Words},
    view::View,
};
use kurbo::{Point, Size};
use std::borrow::Cow;

/// The whole state of one open design.
#[derive(Clone, Debug)]
pub struct Editor {
    history: History,
    settings: Settings,
    view: View,
    follow_fit: bool,
    selection: Option<Target>,
    gesture: Option<Gesture>,
    typed: Option<Typed>,
    ink: Vec<Point>,
    redrawing: bool,
    laying: Option<Laying>,
    stretch_from: Option<usize>,
    behind: Option<Behind>,
    notice: Notice,
    last_nudge: Option<Nudge>,
    measured: Measured,
    revision: u64,
    bench: Bench,
    pressed: Pressed,
    bring: Bring,
}

/// How the maker likes things shown; kept by the browser, not in designs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Settings {
    /// Millimetres or inches.
    pub system: System,
    /// Whether the curvature comb is drawn.
    pub comb: bool,
    /// Whether keys and buttons move by the fine step.
    pub fine: bool,
    /// Whether a drag stops for a moment at lines.
    pub snap: bool,
    /// The farthest fairing may move the edge, mm.
    pub fairing_bound: f64,
    /// Whether the drawing is locked against stray sleeves: no drag or key changes it.
    pub locked: bool,
    /// Whether everything is black on white and large, for a bright workshop.
    pub workshop: bool,
    /// Whether the first steps have been shown.
    pub guided: bool,
    /// CSS pixels that a real millimetre takes on this screen, where it has been calibrated.
    pub px_per_mm: Option<f64>,
}

/// What the status line says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Notice {
    /// The words.
    pub text: String,
    /// Whether something was refused.
    pub refused: bool,
}

/// A nudge that the next one of the same target may join into one step.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Nudge {
    target: Target,
    at_ms: f64,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            system: System::default(),
            comb: false,
            fine: false,
            snap: false,
            fairing_bound: 0.5,
            workshop: false,
            guided: false,
            locked: false,
            px_per_mm: None,
        }
    }
}

impl Editor {
    /// An editor that opens `history` on a stage of that size.
    #[must_use]
    pub fn new(history: History, settings: Settings, size: Size) -> Self {
        let measured = Measured::of(history.design().shape());
        let view = View { centre: Point::ORIGIN, scale: 1.0, upright: false, size };
        let mut editor = Self {
            history,
            settings,
            view,
            follow_fit: true,
            selection: None,
            gesture: None,
            typed: None,
            ink: Vec::new(),
            redrawing: false,
            laying: None,
            stretch_from: None,
            behind: None,
            notice: Notice::default(),
            last_nudge: None,
            measured,
            revision: 0,
            bench: Bench::default(),
            pressed: Pressed::default(),
            bring: Bring::default(),
        };
        editor.fit();
        editor
    }

    /// The editor with its count of changes going on from `revision`, where an earlier session left off.
    #[must_use]
    pub fn resumed_at(self, revision: u64) -> Self {
        Self { revision, ..self }
    }

    /// Takes one intent. Nothing it does can fail: what is refused leaves the design as it was and says why.
    pub fn handle(&mut self, intent: Intent) {
        intent::handle(self, intent);
        self.prepare();
    }

    /// The design in hand: with the live gesture, if there is one.
    #[must_use]
    pub fn design(&self) -> &Design {
        self.gesture.as_ref().map_or(self.history.design(), Gesture::design)
    }

    /// The history, for saving it and for the undo and redo buttons.
    #[must_use]
    pub fn history(&self) -> &History {
        &self.history
    }

    /// A count that changes with every committed change, undo or redo: what a save must have reached.
    #[must_use]
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// How the maker likes things shown.
    #[must_use]
    pub fn settings(&self) -> Settings {
        self.settings
    }

    /// The window onto the deck.
    #[must_use]
    pub fn view(&self) -> View {
        self.view
    }

    /// What is selected.
    #[must_use]
    pub fn selection(&self) -> Option<Target> {
        self.selection
    }

    /// Whether the pen draws a stretch anew instead of dragging nodes.
    #[must_use]
    pub fn redrawing(&self) -> bool {
        self.redrawing && !self.settings.locked
    }

    /// The stretch between the node marked and the one selected, by their indices.
    #[must_use]
    pub fn stretch(&self) -> Option<(usize, usize)> {
        let from = self.stretch_from?;
        let Some(Target::Node(to)) = self.selection else { return None };
        (from != to).then_some((from.min(to), from.max(to)))
    }

    /// Whether something is taken hold of.
    #[must_use]
    pub fn holds_something(&self) -> bool {
        self.gesture.is_some()
    }

    /// Where what is held stands, on the copy that is held, mm: at a limit not where the pointer is.
    #[must_use]
    pub fn held_at(&self) -> Option<Point> {
        let grip = self.gesture.as_ref()?.grip;
        grip.target.place(&self.design().shape().outline).map(|place| grip.copy.map(place))
    }

    /// What the status line says.
    #[must_use]
    pub fn notice(&self) -> &Notice {
        &self.notice
    }

    /// Every measure of the design in hand.
    #[must_use]
    pub fn measured(&self) -> &Measured {
        &self.measured
    }

    /// What is doubtful about the design in hand.
    #[must_use]
    pub fn problems(&self) -> Vec<Problem> {
        check::problems(self.design().shape(), &self.measured, self.settings.system)
    }

    /// The drawing of the design in hand.
    #[must_use]
    pub fn scene(&self) -> Scene {
        scene::draw(&SceneInput {
            shape: self.design().shape(),
            measured: &self.measured,
            view: self.view,
            system: self.settings.system,
            comb: self.settings.comb,
            selection: self.selection,
            limit: self.gesture.as_ref().and_then(Gesture::limit),
            caught: self.gesture.as_ref().and_then(Gesture::caught),
            ink: &self.ink,
            stretch: self.stretch(),
            laying: self.laying.and_then(|laying| laying.first),
            behind: self.behind.as_ref().map(|behind| &behind.measured.half),
            brought: self.brought(),
            room: self.bench.room,
            inputs: self.design().workshop(),
            cut: self.made(),
        })
    }

    /// Opens another history in place of this one, keeping settings and stage.
    pub fn open(&mut self, history: History) {
        let next = self.revision + 1;
        let bench = core::mem::take(&mut self.bench);
        let pressed = self.pressed;
        *self = Self { bench, pressed, ..Self::new(history, self.settings, self.view.size).resumed_at(next) };
        self.prepare();
        self.fit();
    }

    /// Brings all that is derived up to date with the design in hand.
    fn refresh(&mut self) {
        self.measured = Measured::of(self.design().shape());
        if self.selection.is_some_and(|target| !target.exists(&self.design().shape().outline)) {
            self.selection = None;
        }
        if self.stretch_from.is_some_and(|node| node >= self.design().shape().outline.nodes.len()) {
            self.stretch_from = None;
        }
        let sweeps = self.history.design().shape().outline.sweeps.len();
        self.laying = self.laying.filter(|laying| laying.sweep < sweeps);
        self.refresh_behind();
    }

    /// Makes `design` the present one under the step name `name`.
    fn commit(&mut self, name: &str, design: Design) {
        self.history.commit(name, design);
        self.committed();
    }

    fn committed(&mut self) {
        self.revision += 1;
        self.refresh();
    }

    /// Says something in the status line: in English, to be looked up, or what is said already.
    pub fn say(&mut self, text: impl Into<Cow<'static, str>>) {
        let text = match text.into() {
            Cow::Borrowed(english) => said(english).to_owned(),
            Cow::Owned(text) => text,
        };
        self.notice = Notice { text, refused: false };
    }

    /// Says in the status line why something is refused, in the units on the screen.
    pub fn refuse(&mut self, why: &Refusal) {
        let why = why.said_in(self.settings.system);
        self.refuse_for(&why);
    }

    /// Says in the status line that something is refused, for a reason in words.
    pub fn refuse_for(&mut self, why: &dyn core::fmt::Display) {
        self.notice = Notice { text: sentence(&why.to_string()), refused: true };
    }

    /// Shows the whole deck, lying or standing, whichever shows it larger.
    fn fit(&mut self) {
        self.fit_unless(1.0);
    }

    /// Shows the whole deck after the stage has changed. It turns only where it shows larger by more than a little, so that
    /// a small change of the stage does not turn it to and fro.
    fn refit(&mut self) {
        self.fit_unless(TURN);
    }

    /// Shows the whole deck the way it stands, unless the other way it shows more than `gain` times as large.
    fn fit_unless(&mut self, gain: f64) {
        let stage = self.view.size;
        let made = self.made();
        let fitted = |upright| match made {
            Some(made) => scene::fitted_to(made.drawing.extent(), stage, upright),
            None => scene::fitted(self.design().shape(), &self.measured, stage, upright),
        };
        let (as_is, turned) = (fitted(self.view.upright), fitted(!self.view.upright));
        self.view = if turned.scale > gain * as_is.scale { turned } else { as_is };
        self.follow_fit = true;
    }
}

/// How much larger a deck must show the other way round before it turns.
const TURN: f64 = 1.12;

/// A message as a sentence: first letter large, a stop at the end, and the minus of all figures that are shown.
fn sentence(message: &str) -> String {
    let mut sentence = String::with_capacity(message.len() + 4);
    let mut last = ' ';
    for c in message.trim_end_matches('.').chars() {
        sentence.push(match c {
            '-' if !last.is_ascii_alphanumeric() => '−',
            _ if sentence.is_empty() => c.to_ascii_uppercase(),
            _ => c,
        });
        last = c;
    }
    sentence.push('.');
    sentence
}

#[cfg(test)]
mod tests;
