//! What a person wants, as the browser reports it.

use super::{
    Command, Editor, Grip, Nudge, PressedIntent, Room, ShopIntent, SweepIntent, Target, command, cut, fields,
    gesture, pressed, shop, sweeps,
};
use crate::{
    design::Design,
    dimension,
    edit::Edit,
    editor::{Gesture, bring, handles, ink},
    language::within,
    outline::Outline,
    say,
    units::{self, Step},
};
use kurbo::{Point, Size, Vec2};

/// One wish of the person at the screen. Places and distances are mm on the deck, texts are as typed.
#[derive(Clone, Debug, PartialEq)]
pub enum Intent {
    /// A pointer went down: take hold of the nearest handle within `reach`, or mark the edge there.
    Grab {
        /// Where.
        at: Point,
        /// How far from the pointer a handle may be, mm.
        reach: f64,
    },
    /// The pointer that holds something moved.
    Drag {
        /// Where to.
        to: Point,
    },
    /// The pointer went up: what was dragged stays.
    Drop,
    /// The gesture was broken off: everything is as it was at grab.
    Cancel,
    /// The pen goes down to draw a stretch anew.
    InkBegin {
        /// Where.
        at: Point,
    },
    /// The pen moved.
    Ink {
        /// Where it has been since the last time.
        places: Vec<Point>,
    },
    /// The pen went up: the stretch under the stroke is drawn anew.
    InkEnd,
    /// Something is done with a sweep.
    Sweep(SweepIntent),
    /// Something is done with plies or records.
    Shop(ShopIntent),
    /// A dimension is locked as it measures now, or let go again.
    ToggleLock {
        /// Its key.
        key: String,
    },
    /// The present shape is kept as a version.
    KeepVersion {
        /// The day, as YYYY-MM-DD.
        date: String,
    },
    /// A version is shown behind the current shape, or none.
    ShowBehind(Option<usize>),
    /// The shape goes back to a version; all versions stay.
    GoBackTo(usize),
    /// A half outline brought in from outside takes the place of the one in hand.
    Bring {
        /// What the step is called.
        step: &'static str,
        /// The outline.
        outline: Outline,
    },
    /// A key or button moves something by one step.
    Nudge {
        /// What.
        target: Target,
        /// Which way.
        direction: Direction,
        /// How far.
        step: Step,
        /// When, ms on any clock: quick repeats join into one undo step.
        at_ms: f64,
    },
    /// A field was typed into.
    Type {
        /// Its key.
        key: String,
        /// The text as typed.
        text: String,
    },
    /// A field was left without keeping what was typed.
    Untype,
    /// Something is selected, or nothing.
    Select(Option<Target>),
    /// A button, menu entry or key stroke.
    Run(Command),
    /// Zoom by a factor about a place that stays put.
    Zoom {
        /// The place.
        about: Point,
        /// Larger than 1 to come nearer.
        factor: f64,
    },
    /// Push the deck by a distance.
    Pan {
        /// The distance.
        by: Vec2,
    },
    /// Something is done with the picture of the pressed deck.
    Pressed(PressedIntent),
    /// A file with measurements or a drawing is brought in.
    BringFile {
        /// Its name.
        name: String,
        /// Its text, or its size in bytes where it is larger than anything that is read.
        text: Result<String, usize>,
    },
    /// A room is entered.
    Enter(Room),
    /// The bar that stands for the short side of a card is so long on this screen, CSS pixels.
    Calibrate(f64),
    /// The stage has another size, CSS pixels.
    Resize(Size),
}

/// The four directions of keys and buttons, on the deck.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// Toward the nose.
    Noseward,
    /// Toward the tail.
    Tailward,
    /// Away from the centreline of the drawn half.
    Outward,
    /// Toward the centreline of the drawn half.
    Inward,
}

/// How long a drag waits at a line, px.
const SNAP: f64 = 5.0;

/// Repeats within this time, ms, are one step of undo.
const NUDGE_PAUSE: f64 = 1000.0;

pub(super) fn handle(editor: &mut Editor, intent: Intent) {
    match intent {
        Intent::Grab { at, reach } => {
            if !sweeps::touch(editor, at, reach) {
                grab(editor, at, reach);
            }
        }
        Intent::Sweep(intent) => sweeps::handle(editor, intent),
        Intent::Drag { to } => drag(editor, to),
        Intent::Drop => drop_it(editor),
        Intent::Cancel => cancel(editor),
        Intent::ToggleLock { key } => toggle_lock(editor, &key),
        Intent::KeepVersion { date } => editor.keep_version(&date),
        Intent::ShowBehind(index) => editor.show_behind(index),
        Intent::Bring { step, outline } => {
            bring::take_shape(editor, step, &Edit::TakeShape { outline, datum: None });
        }
        Intent::GoBackTo(index) => {
            command::apply(editor, "went back to a version", &Edit::GoBackTo { version: index });
        }
        Intent::InkBegin { at } => ink::begin(editor, at),
        Intent::Ink { places } => ink::go_on(editor, &places),
        Intent::InkEnd => ink::end(editor),
        Intent::Nudge { target, direction, step, at_ms } => nudge(editor, target, direction, step, at_ms),
        Intent::Type { key, text } => fields::enter(editor, &key, &text),
        Intent::Untype => editor.typed = None,
        Intent::Select(target) => {
            editor.selection = target;
            say_stretch(editor);
        }
        Intent::Run(command) => command::run(editor, command),
        Intent::Zoom { about, factor } => {
            editor.view = editor.view.zoomed(about, factor);
            editor.follow_fit = false;
        }
        Intent::Pan { by } => {
            editor.view = editor.view.panned(by);
            editor.follow_fit = false;
        }
        Intent::Pressed(intent) => pressed::handle(editor, intent),
        Intent::Shop(intent) => shop::handle(editor, intent),
        Intent::BringFile { name, text } => bring::file(editor, &name, text),
        Intent::Enter(room) => cut::enter(editor, room),
        Intent::Calibrate(px) => cut::calibrate(editor, px),
        Intent::Resize(size) => {
            editor.view.size = size;
            if editor.follow_fit {
                editor.refit();
            }
        }
    }
}

fn grab(editor: &mut Editor, at: Point, reach: f64) {
    editor.gesture = None;
    let grip = handles::nearest(editor, at, reach);
    editor.selection = match grip {
        Some(Grip { target, .. }) => Some(target),
        None => handles::span_near(editor, at, reach),
    };
    say_stretch(editor);
    if let Some(grip) = grip.filter(|_| !editor.settings.locked) {
        editor.gesture = Gesture::grab(editor.history.design(), grip, at);
    }
}

/// Says what can be done once both ends of a stretch are marked.
fn say_stretch(editor: &mut Editor) {
    if editor.stretch().is_some() {
        editor.say("The stretch is marked: fair it, or keep it as a sweep.");
    }
}

fn drag(editor: &mut Editor, to: Point) {
    let system = editor.settings.system;
    let Some(gesture) = &mut editor.gesture else { return };
    let snap = editor.settings.snap.then(|| SNAP / editor.view.scale);
    gesture.drag(to, system, snap);
    match (gesture.stop().map(|stop| stop.refusal.clone()), gesture.caught()) {
        (Some(refusal), _) => editor.refuse(&refusal),
        (None, Some(caught)) => editor.say(handles::caught_words(editor, caught)),
        (None, None) => editor.say(""),
    }
    editor.refresh();
}

fn toggle_lock(editor: &mut Editor, key: &str) {
    let Some(dimension) = dimension::find(key) else { return };
    let locked = editor.history.design().locks().iter().any(|lock| lock.key == dimension.key);
    let what = within(dimension.quantity().label);
    let name = if locked { say!("let go of {what}", what) } else { say!("locked {what}", what) };
    command::apply(editor, &name, &Edit::SetLock { key: dimension.key, locked: !locked });
}

fn drop_it(editor: &mut Editor) {
    let Some(gesture) = editor.gesture.take() else { return };
    if gesture.design() == gesture.start() {
        editor.refresh();
    } else {
        let name = say!("moved {what}", what = handles::name(editor, gesture.grip.target));
        editor.commit(&name, gesture.design().clone());
    }
}

fn cancel(editor: &mut Editor) {
    if !core::mem::take(&mut editor.ink).is_empty() {
        editor.say("Left as it was.");
        return;
    }
    if editor.laying.take().is_some() {
        editor.say("Left as it was.");
    }
    // With nothing under way it is the pen that is put down.
    if editor.gesture.is_none() && core::mem::take(&mut editor.redrawing) {
        editor.say("");
    }
    if editor.gesture.take().is_some() {
        editor.say("Left as it was.");
        editor.refresh();
    }
}

fn nudge(editor: &mut Editor, target: Target, direction: Direction, step: Step, at_ms: f64) {
    if editor.settings.locked {
        editor.say("The drawing is locked: unlock it to move things.");
        return;
    }
    let step = if editor.settings.fine && step == Step::Normal { Step::Fine } else { step };
    let length = units::step(editor.settings.system, step);
    let by = match direction {
        Direction::Noseward => Vec2::new(length, 0.0),
        Direction::Tailward => Vec2::new(-length, 0.0),
        Direction::Outward => Vec2::new(0.0, length),
        Direction::Inward => Vec2::new(0.0, -length),
    };
    let Some(place) = target.place(&editor.design().shape().outline) else { return };
    let Some(edit) = gesture::move_edit(target, place + by) else { return };
    editor.selection = Some(target);
    match editor.history.design().apply(&edit) {
        Err(refusal) => editor.refuse(&refusal),
        Ok(moved) => {
            let name = say!("nudged {what}", what = handles::name(editor, target));
            commit_nudge(editor, &name, target, at_ms, moved);
        }
    }
}

/// Makes `moved` the present design; where it goes on with the last nudge of the same target, as one step with it.
pub(super) fn commit_nudge(editor: &mut Editor, name: &str, target: Target, at_ms: f64, moved: Design) {
    if &moved == editor.history.design() {
        return;
    }
    let joins =
        editor.last_nudge.is_some_and(|last| last.target == target && at_ms - last.at_ms < NUDGE_PAUSE);
    editor.say("");
    if joins && editor.history.undo_name() == Some(name) {
        editor.history.amend(moved);
        editor.committed();
    } else {
        editor.commit(name, moved);
    }
    editor.last_nudge = Some(Nudge { target, at_ms });
}
