//! Sweeps on screen: the list, laying one by two touches, and moving the one that is selected.

mod list;

pub use self::list::{SweepSize, SweepView};
pub(super) use self::list::{enter, enter_mark, marks};
use super::{Editor, Target, command, handles, intent};
use crate::{
    curve::family::Family,
    edit::{Edit, SweepEdit},
    outline::Span,
    say,
    units::{self, Step},
};
use core::f64::consts::PI;
use kurbo::Point;

/// What a person wants with sweeps. All but the first five speak of the selected span.
#[derive(Clone, Debug, PartialEq)]
pub enum SweepIntent {
    /// The marked stretch is kept as a sweep.
    Keep {
        /// What to call it; where that is empty it gets a number.
        name: String,
    },
    /// A sweep of a family is added.
    Add {
        /// What to call it; where that is empty it gets a number.
        name: String,
        /// Its curve.
        family: Family,
    },
    /// A sweep gets another name.
    Rename {
        /// Its index.
        sweep: usize,
        /// The name.
        name: String,
    },
    /// A sweep is taken away.
    Remove {
        /// Its index.
        sweep: usize,
    },
    /// The next two touches lay a sweep; the same again, and they no longer do.
    Lay {
        /// Its index.
        sweep: usize,
    },
    /// The marks move along the sweep.
    Slide {
        /// Toward the nose, or toward the tail.
        noseward: bool,
        /// How far.
        step: Step,
        /// When, ms on any clock: quick repeats join into one undo step.
        at_ms: f64,
    },
    /// The sweep turns about its first node.
    Turn {
        /// Anticlockwise, seen from above, or clockwise.
        anticlockwise: bool,
        /// How far.
        step: Step,
        /// When, ms on any clock.
        at_ms: f64,
    },
    /// The sweep is turned end for end, or over.
    Flip {
        /// Over the line between its nodes, so that it bends the other way.
        over: bool,
    },
    /// The stretch becomes one of its own.
    Free,
}

/// A sweep that is about to be laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Laying {
    pub(super) sweep: usize,
    /// The first touch.
    pub(super) first: Option<Point>,
}

/// One step of turning, radians.
fn turn_step(step: Step) -> f64 {
    let degrees = match step {
        Step::Coarse => 2.0,
        Step::Normal => 0.5,
        Step::Fine => 0.1,
    };
    degrees * PI / 180.0
}

pub(super) fn handle(editor: &mut Editor, intent: SweepIntent) {
    if editor.settings.locked {
        editor.say("The drawing is locked: unlock it to change things.");
        return;
    }
    let numbered = |editor: &Editor, name: String| {
        let count = editor.history.design().shape().outline.sweeps.len();
        if name.trim().is_empty() { say!("Sweep {number}", number = count + 1) } else { name }
    };
    match intent {
        SweepIntent::Keep { name } => keep(editor, name, numbered),
        SweepIntent::Add { name, family } => {
            let name = numbered(editor, name);
            made(editor, "added a sweep", SweepEdit::Add { name, family });
        }
        SweepIntent::Rename { sweep, name } => {
            made(editor, "renamed a sweep", SweepEdit::Rename { sweep, name });
        }
        SweepIntent::Remove { sweep } => {
            editor.laying = None; // its index may be another one's now
            made(editor, "took a sweep away", SweepEdit::Remove { sweep });
        }
        SweepIntent::Lay { sweep } => lay(editor, sweep),
        SweepIntent::Slide { noseward, step, at_ms } => {
            let by = units::step(editor.settings.system, fine(editor, step));
            let by = if noseward { by } else { -by };
            move_laid(editor, "slid a sweep", at_ms, |span| SweepEdit::Slide { span, by });
        }
        SweepIntent::Turn { anticlockwise, step, at_ms } => {
            let by = turn_step(fine(editor, step));
            let by = if anticlockwise { by } else { -by };
            move_laid(editor, "turned a sweep", at_ms, |span| SweepEdit::Turn { span, by });
        }
        SweepIntent::Flip { over } => {
            if let Some(span) = selected(editor) {
                made(editor, "flipped a sweep", SweepEdit::Flip { span, over });
            }
        }
        SweepIntent::Free => {
            if let Some(span) = selected(editor)
                && made(editor, "set a sweep free", SweepEdit::Free { span })
            {
                editor.selection = None;
            }
        }
    }
}

fn made(editor: &mut Editor, name: &str, edit: SweepEdit) -> bool {
    command::apply(editor, name, &Edit::Sweep(edit))
}

fn fine(editor: &Editor, step: Step) -> Step {
    if editor.settings.fine && step == Step::Normal { Step::Fine } else { step }
}

fn selected(editor: &mut Editor) -> Option<usize> {
    let span = editor.laid_span();
    if span.is_none() {
        editor.say("Select a stretch that a sweep is laid on first.");
    }
    span
}

fn keep(editor: &mut Editor, name: String, numbered: impl Fn(&Editor, String) -> String) {
    let Some((from, to)) = editor.stretch() else {
        editor.say("Mark the stretch first: select the node where it begins, mark it, and select the node where it ends.");
        return;
    };
    let name = numbered(editor, name);
    if made(editor, "kept a sweep", SweepEdit::Keep { from, to, name: name.clone() }) {
        editor.stretch_from = None;
        editor.say(say!("Kept as “{name}”: it can be laid anywhere on the edge.", name));
    }
}

/// Begins to lay a sweep, or no longer does.
fn lay(editor: &mut Editor, sweep: usize) {
    let outline = &editor.history.design().shape().outline;
    let Some(name) = outline.sweeps.get(sweep).map(|sweep| sweep.name().to_owned()) else { return };
    if editor.laying.take().is_some_and(|laying| laying.sweep == sweep) {
        editor.say("Left as it was.");
        return;
    }
    editor.redrawing = false;
    if let Some((from, to)) = editor.stretch() {
        // Two nodes are marked: they stand for the two touches, so that it can be done without a pointer.
        let place = |node: usize| editor.history.design().shape().outline.nodes[node].place;
        lay_between(editor, sweep, [place(from), place(to)]);
        return;
    }
    editor.laying = Some(Laying { sweep, first: None });
    editor.say(say!("Touch the edge where “{name}” is to begin, then where it is to end.", name));
}

/// Takes a touch for the sweep that is being laid; whether there is one.
pub(super) fn touch(editor: &mut Editor, at: Point, reach: f64) -> bool {
    let Some(laying) = editor.laying.filter(|_| !editor.settings.locked) else { return false };
    /// A touch for a sweep may lie farther off than one that takes hold of something.
    const FARTHER: f64 = 2.0;
    if handles::span_near(editor, at, FARTHER * reach).is_none() {
        editor.say("Touch the edge itself, or press Escape to leave it as it was.");
        return true;
    }
    let Some(first) = laying.first else {
        editor.laying = Some(Laying { first: Some(at), ..laying });
        editor.say("Now touch the edge where it is to end.");
        return true;
    };
    // Where it is refused why is in the status line, and the next touch begins anew.
    let done = lay_between(editor, laying.sweep, [first, at]);
    editor.laying = (!done).then_some(Laying { first: None, ..laying });
    true
}

/// Lays a sweep between two places of the edge; whether it could be.
fn lay_between(editor: &mut Editor, sweep: usize, at: [Point; 2]) -> bool {
    let done = made(editor, "laid a sweep", SweepEdit::Lay { sweep, at });
    if done {
        editor.stretch_from = None;
        editor.selection = newly_laid(editor, sweep, at[0]);
        editor.say("Laid. Slide it, turn it, or drag one of its nodes to move it.");
    }
    done
}

/// The span laid by a sweep that lies nearest to a touch.
fn newly_laid(editor: &Editor, sweep: usize, near: Point) -> Option<Target> {
    let outline = &editor.history.design().shape().outline;
    let mut best: Option<(f64, Target)> = None;
    for copy in super::Copy::of(outline) {
        for (s, span) in outline.spans.iter().enumerate() {
            let Span::Laid { sweep: by, .. } = *span else { continue };
            let course = outline.course(s);
            let (_, distance) = course.nearest(copy.map(near));
            if by == sweep && best.is_none_or(|(least, _)| distance < least) {
                best = Some((distance, Target::Span(s, course.point(0.5))));
            }
        }
    }
    best.map(|(_, target)| target)
}

/// Moves the selected laid span by one step; quick repeats are one step of the history.
fn move_laid(editor: &mut Editor, name: &str, at_ms: f64, edit: impl Fn(usize) -> SweepEdit) {
    let Some(span) = selected(editor) else { return };
    let Some(target) = editor.selection else { return };
    match editor.history.design().apply(&Edit::Sweep(edit(span))) {
        Err(refusal) => editor.refuse(&refusal),
        Ok(moved) => intent::commit_nudge(editor, name, target, at_ms, moved),
    }
}
