//! Bringing in the last deck: what was typed or chosen, what is found in it, and taking it or leaving it.

use super::{Editor, command, fields::Field};
use crate::{
    capture::{
        Taken,
        drawing::{self, Centreline, LengthUnit},
        measured::{self, From},
        table,
    },
    edit::Edit,
    language::said,
    outline::Half,
    projection::Projection,
    say,
    units::{Unit, entry, parse, show, show_difference},
};

/// What is being brought in; the design in hand is not touched by it.
#[derive(Clone, Debug, Default)]
pub(super) struct Bring {
    rows: String,
    drawing: Option<String>,
    measured: measured::Options,
    read_as: drawing::Options,
    found: Option<Brought>,
    fault: Option<(&'static str, String)>,
}

/// A shape that was found and not taken yet.
#[derive(Clone, Debug)]
pub struct Brought {
    /// What was found.
    pub taken: Taken,
    /// Its half outline, resolved.
    pub half: Half,
}

/// One of several words.
struct Choice {
    names: (&'static str, &'static str, &'static str),
    options: &'static [(&'static str, &'static str)],
    get: fn(&Bring) -> usize,
    set: fn(&mut Bring, usize),
    /// Whether it is about drawings, else about tables.
    of_drawing: bool,
}

const ROWS: (&str, &str, &str) = (
    "bring-rows",
    "Measurements",
    "A station and a half-breadth on each line, or a station, left and right; typed, or pasted from a spreadsheet.",
);
const TIP: (&str, &str, &str) = (
    "bring-tip",
    "Tip to outer bolts",
    "From the tip that stations are counted from to the outer bolt row beside it; left empty, as on the deck in hand.",
);
const WITHIN: (&str, &str, &str) =
    ("bring-within", "Meet within", "How near the edge is to come to what was measured or drawn.");

static CHOICES: [Choice; 7] = [
    Choice {
        names: ("bring-from", "Stations from", "Where stations are counted from, and which way."),
        options: &[
            (From::Datum.key(), "Middle of the bolts, to the nose"),
            (From::TailTip.key(), "Tail tip, to the nose"),
            (From::NoseTip.key(), "Nose tip, to the tail"),
            (From::TailBolts.key(), "Tail’s outer bolts, to the nose"),
            (From::NoseBolts.key(), "Nose’s outer bolts, to the tail"),
        ],
        get: |b| b.measured.from as usize,
        set: |b, i| b.measured.from = From::ALL[i],
        of_drawing: false,
    },
    Choice {
        names: (
            "bring-taped",
            "Measured",
            "Taped along the surface, or with a straight rule: that is laid onto the developed sheet by the pressed shape.",
        ),
        options: &[("taped", "Taped along the surface"), ("straight", "Straight, from above")],
        get: |b| usize::from(!b.measured.taped),
        set: |b, i| b.measured.taped = i == 0,
        of_drawing: false,
    },
    Choice {
        names: ("bring-breadth", "Breadths", "From the centreline to the rail, or from rail to rail."),
        options: &[("half", "Half"), ("full", "Full width")],
        get: |b| usize::from(b.measured.full),
        set: |b, i| b.measured.full = i == 1,
        of_drawing: false,
    },
    Choice {
        names: ("bring-unit", "Unit of the drawing", "What a number in the file counts."),
        options: &[
            ("file", "As the file says"),
            ("mm", "Millimetres"),
            ("cm", "Centimetres"),
            ("m", "Metres"),
            ("in", "Inches"),
            ("px", "Pixels, 96 to the inch"),
            ("pt", "Points, 72 to the inch"),
        ],
        get: |b| b.read_as.unit.map_or(0, |unit| unit as usize + 1),
        set: |b, i| b.read_as.unit = i.checked_sub(1).map(|i| LengthUnit::ALL[i]),
        of_drawing: true,
    },
    Choice {
        names: ("bring-centreline", "Centreline by", "How the centreline of the drawing is found."),
        options: &[
            (Centreline::Either.key(), "Bolt holes, else symmetry"),
            (Centreline::Holes.key(), "Bolt holes"),
            (Centreline::Symmetry.key(), "Symmetry"),
            (Centreline::Level.key(), "Level line"),
            (Centreline::Upright.key(), "Upright line"),
        ],
        get: |b| b.read_as.centreline as usize,
        set: |b, i| b.read_as.centreline = Centreline::ALL[i],
        of_drawing: true,
    },
    Choice {
        names: (
            "bring-projection",
            "Drawn as",
            "The flat sheet along the top face, or the plan seen from above.",
        ),
        options: &[
            ("file", "As the file says, else developed"),
            (Projection::Developed.key(), "Developed"),
            (Projection::Plan.key(), "Plan, from above"),
        ],
        get: |b| b.read_as.projection.map_or(0, |projection| projection as usize + 1),
        set: |b, i| b.read_as.projection = [None, Some(Projection::Developed), Some(Projection::Plan)][i],
        of_drawing: true,
    },
    Choice {
        names: ("bring-nose", "Nose of the drawing", "Which end of the drawing is the nose."),
        options: &[("right", "Right or top"), ("left", "Left or bottom")],
        get: |b| usize::from(b.read_as.turned),
        set: |b, i| b.read_as.turned = i == 1,
        of_drawing: true,
    },
];

impl Editor {
    /// The shape that was found and not taken yet.
    #[must_use]
    pub fn brought(&self) -> Option<&Brought> {
        self.bring.found.as_ref()
    }

    /// What the page says of it, a line each: how near it comes, what lies off, how it was read; or why there is none.
    #[must_use]
    pub fn brought_words(&self) -> Vec<String> {
        if let Some((_, message)) = self.bring.fault.as_ref().filter(|fault| fault.0 == "bring-file") {
            return vec![message.clone()];
        }
        let Some(Brought { taken, .. }) = self.brought() else { return Vec::new() };
        let system = self.settings.system;
        let mut words = vec![say!(
            "At the most {misfit} from what was found, at {places} places.",
            misfit = show(taken.misfit(), Unit::Thickness, system),
            places = taken.points.len()
        )];
        for suspect in taken.suspects() {
            let off = show_difference(suspect.residual, Unit::Length, system);
            words.push(say!(
                "Line {line} lies {off} off a fair edge and is left out: measure there again, and beside it.",
                line = suspect.line,
                off
            ));
        }
        words.extend_from_slice(&taken.remarks);
        words
    }

    pub(super) fn can_take(&self) -> bool {
        self.bring.found.is_some() && !self.settings.locked
    }

    pub(super) fn can_leave(&self) -> bool {
        let bring = &self.bring;
        bring.found.is_some() || bring.drawing.is_some() || bring.fault.is_some() || !bring.rows.is_empty()
    }

    /// The fields of bringing in.
    pub(super) fn bring_fields(&self, fields: &mut Vec<Field>) {
        let (bring, system) = (&self.bring, self.settings.system);
        let first = fields.len();
        let is_drawing = bring.drawing.is_some();
        fields.push(self.field(ROWS, bring.rows.clone(), "", String::new(), !is_drawing));
        for choice in &CHOICES {
            let text = choice.options[(choice.get)(bring)].0.to_owned();
            let field = self.field(choice.names, text, "", String::new(), choice.of_drawing == is_drawing);
            fields.push(Field { options: choice.options, ..field });
        }
        let symbol = Unit::Length.symbol(system);
        let from_tip = matches!(bring.measured.from, From::TailTip | From::NoseTip) && !is_drawing;
        let tip = bring.measured.tip_to_bolts.map_or(String::new(), |mm| entry(mm, Unit::Length, system));
        fields.push(self.field(TIP, tip, symbol, String::new(), from_tip));
        let within = if is_drawing { bring.read_as.tolerance } else { bring.measured.tolerance };
        fields.push(self.field(WITHIN, entry(within, Unit::Length, system), symbol, String::new(), true));
        if let Some((key, message)) = &bring.fault {
            for field in fields.iter_mut().skip(first).filter(|field| field.key == *key) {
                field.message.get_or_insert_with(|| message.clone());
            }
        }
    }
}

pub(super) fn is_field(key: &str) -> bool {
    key.starts_with("bring-")
}

/// Takes what was typed or chosen in a field, and looks again at what is brought in.
pub(super) fn set(editor: &mut Editor, key: &str, text: &str) -> Result<(), String> {
    let system = editor.settings.system;
    let length = |text: &str| parse(text, Unit::Length, system).map_err(|error| error.to_string());
    let bring = &mut editor.bring;
    if key == ROWS.0 {
        text.clone_into(&mut bring.rows);
    } else if key == TIP.0 {
        bring.measured.tip_to_bolts = if text.trim().is_empty() { None } else { Some(length(text)?) };
    } else if key == WITHIN.0 {
        let mm = length(text)?;
        bring.measured.tolerance = mm;
        bring.read_as.tolerance = mm;
    } else if let Some(choice) = CHOICES.iter().find(|choice| choice.names.0 == key)
        && let Some(i) = choice.options.iter().position(|option| option.0 == text)
    {
        (choice.set)(bring, i);
    } else {
        return Err(said("there is no such choice").to_owned());
    }
    look(editor);
    Ok(())
}

/// Takes the text of a file, or its size where it is larger than anything that is read.
pub(super) fn file(editor: &mut Editor, name: &str, text: Result<String, usize>) {
    match text {
        Err(bytes) => {
            editor.bring.found = None;
            fail(editor, "bring-file", &drawing::DrawingError::TooLarge(bytes));
        }
        Ok(text) if is_drawing(name, &text) => {
            editor.bring.drawing = Some(text);
            look(editor);
        }
        Ok(text) => {
            editor.bring.drawing = None;
            if text.len() > table::LONGEST {
                fail(editor, "bring-file", &table::TableError::TooLong(text.len()));
                return;
            }
            editor.bring.rows = text;
            look(editor);
        }
    }
}

/// Whether a file is a drawing by its name, or by how it begins.
fn is_drawing(name: &str, text: &str) -> bool {
    let ends = |end: &str| {
        let from = name.len().saturating_sub(end.len());
        name.get(from..).is_some_and(|ending| ending.eq_ignore_ascii_case(end))
    };
    ends(".svg") || ends(".dxf") || text.trim_start_matches('\u{feff}').trim_start().starts_with('<')
}

fn fail(editor: &mut Editor, key: &'static str, error: &dyn core::fmt::Display) {
    let message = super::sentence(&error.to_string());
    editor.refuse_for(error);
    editor.bring.fault = Some((key, message));
}

/// Finds the shape anew in what is brought in.
fn look(editor: &mut Editor) {
    let shape = editor.history.design().shape();
    let bring = &editor.bring;
    let found = if let Some(text) = &bring.drawing {
        drawing::read(text, &bring.read_as, shape).map_err(|error| (key_of(error.field()), error.to_string()))
    } else if bring.rows.trim().is_empty() {
        editor.bring.found = None;
        editor.bring.fault = None;
        return;
    } else {
        table::read(&bring.rows, editor.settings.system)
            .map_err(measured::MeasuredError::from)
            .and_then(|rows| measured::fit(&rows, &bring.measured, shape))
            .map_err(|error| (key_of(error.field()), error.to_string()))
    };
    match found {
        Ok(taken) => {
            let half = taken.outline.resolve();
            let off = taken.suspects().count();
            editor.bring.found = Some(Brought { taken, half });
            editor.bring.fault = None;
            editor.say(if off == 0 {
                "A shape was found: take it, or leave it."
            } else {
                "A shape was found, but some measurements lie off it: look at them first."
            });
        }
        Err((key, message)) => {
            editor.bring.found = None;
            fail(editor, key, &message);
        }
    }
}

/// The page's field for one that the core names.
fn key_of(field: &str) -> &'static str {
    match field {
        "rows" => "bring-rows",
        "tip-to-bolts" => "bring-tip",
        "tolerance" => "bring-within",
        "unit" => "bring-unit",
        "centreline" => "bring-centreline",
        _ => "bring-file",
    }
}

/// Makes the shape that was found the one in hand.
pub(super) fn take(editor: &mut Editor) {
    let Some(brought) = &editor.bring.found else { return };
    let edit = brought.taken.edit();
    if take_shape(editor, "took a shape that was brought in", &edit) {
        editor.bring = Bring::default();
    }
}

/// Makes a shape from outside the one in hand; whether it was accepted.
pub(super) fn take_shape(editor: &mut Editor, step: &str, edit: &Edit) -> bool {
    let lets_go = !editor.history.design().locks().is_empty();
    let taken = command::apply(editor, step, edit);
    if taken {
        editor.selection = None;
        editor.fit();
        editor.say(if lets_go { "Taken; dimensions that were held are let go." } else { "Taken." });
    }
    taken
}

/// Leaves what was brought in.
pub(super) fn leave(editor: &mut Editor) {
    editor.bring = Bring::default();
    editor.say("Left; the deck is as it was.");
}

#[cfg(test)]
mod tests;
