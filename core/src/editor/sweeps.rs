//! Sweeps on screen: the list, laying one by two touches, and moving the one that is selected.

use super::{Editor, Target, command, handles, intent};
use crate::{
    curve::family::Family,
    edit::{Edit, SweepEdit},
    outline::{Span, Sweep, SweepCurve},
    units::{self, Step, Unit, show},
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

/// A sweep as the page lists it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SweepView {
    /// Its place in the list.
    pub index: usize,
    /// What it is called.
    pub name: String,
    /// What curve it is, in words.
    pub family: String,
    /// How many stretches of the edge it is laid on.
    pub used: usize,
    /// Whether the next touches lay it.
    pub laying: bool,
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

impl Editor {
    /// All sweeps of the design.
    #[must_use]
    pub fn sweeps(&self) -> Vec<SweepView> {
        let outline = &self.history.design().shape().outline;
        let sweeps = outline.sweeps.iter().enumerate();
        sweeps
            .map(|(index, sweep)| SweepView {
                index,
                name: sweep.name().to_owned(),
                family: self.family_words(sweep),
                used: outline.laid_by(index),
                laying: self.laying.is_some_and(|laying| laying.sweep == index),
            })
            .collect()
    }

    /// Whether touches lay a sweep instead of taking hold of something.
    #[must_use]
    pub fn is_laying(&self) -> bool {
        self.laying.is_some() && !self.settings.locked
    }

    /// The sweep of the selected span and which part of it is laid there, in words; none where it is not laid.
    #[must_use]
    pub fn laid_words(&self) -> Option<String> {
        let outline = &self.design().shape().outline;
        let Span::Laid { sweep, from, to, .. } = *outline.spans.get(self.laid_span()?)? else { return None };
        let sweep = outline.sweeps.get(sweep)?;
        let [from, to, whole] = [from, to, sweep.length()].map(|mm| self.length_words(mm));
        Some(format!("{}, from {from} to {to} of {whole}", sweep.name()))
    }

    /// The selected span, if it is laid.
    fn laid_span(&self) -> Option<usize> {
        let Some(Target::Span(s, _)) = self.selection else { return None };
        let span = self.history.design().shape().outline.spans.get(s)?;
        matches!(span, Span::Laid { .. }).then_some(s)
    }

    fn length_words(&self, mm: f64) -> String {
        show(mm, Unit::Length, self.settings.system).to_string()
    }

    fn family_words(&self, sweep: &Sweep) -> String {
        let length = |mm: f64| self.length_words(mm);
        match *sweep.curve() {
            SweepCurve::Own(_) => format!("own curve, {} long", length(sweep.length())),
            SweepCurve::Family(Family::Arc { radius, turn }) => {
                let turn = show(turn, Unit::Angle, self.settings.system);
                format!("arc, radius {}, {turn}", length(radius))
            }
            SweepCurve::Family(Family::Ellipse { along, across }) => {
                format!("quarter of an ellipse, {} by {}", length(along), length(across))
            }
            SweepCurve::Family(Family::Superellipse { along, across, exponent }) => format!(
                "quarter of a superellipse, {} by {}, exponent {}",
                length(along),
                length(across),
                units::decimal_trimmed(exponent, 3)
            ),
            SweepCurve::Family(Family::Clothoid { radius, length: along }) => {
                format!("clothoid, {} long to radius {}", length(along), length(radius))
            }
        }
    }
}

pub(super) fn handle(editor: &mut Editor, intent: SweepIntent) {
    if editor.settings.locked {
        editor.say("The drawing is locked: unlock it to change things.");
        return;
    }
    let numbered = |editor: &Editor, name: String| {
        let count = editor.history.design().shape().outline.sweeps.len();
        if name.trim().is_empty() { format!("Sweep {}", count + 1) } else { name }
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
        editor.say(format!("Kept as “{name}”: it can be laid anywhere on the edge."));
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
    editor.laying = Some(Laying { sweep, first: None });
    editor.say(format!("Touch the edge where “{name}” is to begin, then where it is to end."));
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
    let sweep = laying.sweep;
    if made(editor, "laid a sweep", SweepEdit::Lay { sweep, at: [first, at] }) {
        editor.laying = None;
        editor.selection = newly_laid(editor, sweep, first);
        editor.say("Laid. Slide, turn or flip it, or drag one of its nodes to move it.");
    } else {
        // Why is in the status line; the next touch begins anew.
        editor.laying = Some(Laying { first: None, ..laying });
    }
    true
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
