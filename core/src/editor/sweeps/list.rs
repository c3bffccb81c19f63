//! The sweeps as the page lists them, and what is typed of them: dimensions of families, marks of laid spans.

use super::made;
use crate::{
    curve::family::Family,
    edit::SweepEdit,
    editor::{Editor, Target},
    language::{Own, said},
    outline::{Span, Sweep, SweepCurve},
    say,
    units::{Unit, entry, entry_symbol, parse, show},
};

/// A sweep as the page lists it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SweepView {
    /// Its place in the list.
    pub index: usize,
    /// What it is called.
    pub name: String,
    /// What curve it is, and where it is laid, in words.
    pub words: String,
    /// Its dimensions, of a family; they can be typed while it is laid nowhere.
    pub sizes: Vec<SweepSize>,
    /// How many stretches of the edge it is laid on.
    pub used: usize,
    /// Whether the next touches lay it.
    pub laying: bool,
}

/// A dimension of a sweep.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SweepSize {
    /// The word for it in the key of its field.
    pub word: &'static str,
    /// Its name.
    pub label: &'static str,
    /// Its value as it can be typed again.
    pub text: String,
    /// Its unit as shown; empty where there is none, or where the text has its own.
    pub unit: &'static str,
}

/// The dimensions of a family: word, name, unit, value.
type Size = (&'static str, &'static str, Unit, f64);

fn sizes(family: &Family) -> Vec<Size> {
    let along = |value| ("along", "Half axis along", Unit::Length, value);
    let across = |value| ("across", "Half axis across", Unit::Length, value);
    match *family {
        Family::Arc { radius, turn } => {
            vec![("radius", "Radius", Unit::Length, radius), ("turn", "Turn", Unit::Angle, turn)]
        }
        Family::Ellipse { along: a, across: b } => vec![along(a), across(b)],
        Family::Superellipse { along: a, across: b, exponent } => {
            vec![along(a), across(b), ("exponent", "Exponent", Unit::Ratio, exponent)]
        }
        Family::Clothoid { radius, length } => vec![
            ("radius", "Radius at its end", Unit::Length, radius),
            ("length", "Length", Unit::Length, length),
        ],
    }
}

/// The family with one of its dimensions set.
fn resized(family: &Family, word: &str, value: f64) -> Family {
    let mut resized = *family;
    match (&mut resized, word) {
        (Family::Arc { radius, .. } | Family::Clothoid { radius, .. }, "radius") => *radius = value,
        (Family::Arc { turn, .. }, _) => *turn = value,
        (Family::Clothoid { length, .. }, _) => *length = value,
        (Family::Ellipse { along, .. } | Family::Superellipse { along, .. }, "along") => *along = value,
        (Family::Ellipse { across, .. } | Family::Superellipse { across, .. }, "across") => *across = value,
        (Family::Ellipse { .. }, _) => {}
        (Family::Superellipse { exponent, .. }, _) => *exponent = value,
    }
    resized
}

impl Editor {
    /// All sweeps of the design.
    #[must_use]
    pub fn sweeps(&self) -> Vec<SweepView> {
        let outline = &self.history.design().shape().outline;
        let system = self.settings.system;
        let sweeps = outline.sweeps.iter().enumerate();
        sweeps
            .map(|(index, sweep)| {
                let used = outline.laid_by(index);
                let sizes = match sweep.curve() {
                    SweepCurve::Family(family) if used == 0 => sizes(family),
                    _ => Vec::new(),
                };
                let size = |(word, label, unit, value): Size| {
                    let text = entry(value, unit, system);
                    SweepSize { word, label, unit: entry_symbol(&text, unit, system), text }
                };
                SweepView {
                    index,
                    name: sweep.name().to_owned(),
                    words: self.sweep_words(sweep, used),
                    sizes: sizes.into_iter().map(size).collect(),
                    used,
                    laying: self.laying.is_some_and(|laying| laying.sweep == index),
                }
            })
            .collect()
    }

    /// Whether touches lay a sweep instead of taking hold of something.
    #[must_use]
    pub fn is_laying(&self) -> bool {
        self.laying.is_some() && !self.settings.locked
    }

    /// The sweep of the selected span and its length, in words; none where it is not laid.
    #[must_use]
    pub fn laid_words(&self) -> Option<String> {
        let outline = &self.design().shape().outline;
        let Span::Laid { sweep, .. } = *outline.spans.get(self.laid_span()?)? else { return None };
        let sweep = outline.sweeps.get(sweep)?;
        let length = self.length_words(sweep.length());
        Some(say!(
            "Selected: “{name}”, used between two marks on its {length}.",
            name = Own(sweep.name()),
            length
        ))
    }

    /// The selected span, if it is laid.
    pub(super) fn laid_span(&self) -> Option<usize> {
        let Some(Target::Span(s, _)) = self.selection else { return None };
        let span = self.history.design().shape().outline.spans.get(s)?;
        matches!(span, Span::Laid { .. }).then_some(s)
    }

    fn length_words(&self, mm: f64) -> String {
        show(mm, Unit::Length, self.settings.system).to_string()
    }

    fn sweep_words(&self, sweep: &Sweep, used: usize) -> String {
        let curve = match sweep.curve() {
            SweepCurve::Own(_) => "own curve",
            SweepCurve::Family(Family::Arc { .. }) => "circular arc",
            SweepCurve::Family(Family::Ellipse { .. }) => "quarter of an ellipse",
            SweepCurve::Family(Family::Superellipse { .. }) => "quarter of a superellipse",
            SweepCurve::Family(Family::Clothoid { .. }) => "clothoid",
        };
        let length = self.length_words(sweep.length());
        let laid = match used {
            0 => String::new(),
            1 => said(", laid once").to_owned(),
            _ => say!(", laid {times} times", times = used),
        };
        say!("{curve}, {length} long{laid}", curve, length, laid)
    }
}

/// The marks of the selected laid span, mm along its sweep.
pub(in crate::editor) fn marks(editor: &Editor) -> Option<[f64; 2]> {
    let outline = &editor.design().shape().outline;
    match outline.spans.get(editor.laid_span()?)? {
        Span::Laid { from, to, .. } => Some([*from, *to]),
        _ => None,
    }
}

/// Takes what was typed for a sweep: its name, or one of its dimensions.
pub(in crate::editor) fn enter(
    editor: &mut Editor,
    sweep: usize,
    word: &str,
    text: &str,
) -> Result<(), String> {
    if word == "name" {
        return done(editor, "renamed a sweep", SweepEdit::Rename { sweep, name: text.to_owned() });
    }
    let outline = &editor.history.design().shape().outline;
    let Some(SweepCurve::Family(family)) = outline.sweeps.get(sweep).map(Sweep::curve) else {
        return Ok(());
    };
    let size = sizes(family).into_iter().find(|size| size.0 == word);
    let Some((_, _, unit, _)) = size else { return Ok(()) };
    let value = parse(text, unit, editor.settings.system).map_err(|error| error.to_string())?;
    let family = resized(family, word, value);
    done(editor, "set a sweep’s size", SweepEdit::Reshape { sweep, family })
}

/// Takes what was typed for the first or the second mark of the selected laid span.
pub(in crate::editor) fn enter_mark(editor: &mut Editor, which: usize, text: &str) -> Result<(), String> {
    let value = parse(text, Unit::Length, editor.settings.system).map_err(|error| error.to_string())?;
    let laid = editor.laid_span().zip(marks(editor));
    let (span, mut marks) = laid.ok_or(said("select a stretch that a sweep is laid on first"))?;
    marks[which] = value;
    done(editor, "set a mark", SweepEdit::Mark { span, marks })
}

fn done(editor: &mut Editor, name: &str, edit: SweepEdit) -> Result<(), String> {
    if made(editor, name, edit) { Ok(()) } else { Err(editor.notice.text.clone()) }
}
