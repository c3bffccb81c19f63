//! Fields: what can be typed, and what comes of it.

use super::{Editor, Target, bring, command, cut, gesture, handles, pressed, shop, sweeps};
use crate::{
    design::Refusal,
    dimension::{self, DIMENSIONS},
    edit::Edit,
    language::{said, within},
    quantities::{self, Quantity, SETTINGS},
    say,
    units::{Unit, entry, entry_symbol, parse, rounded_entry, show},
};
use kurbo::Point;
use std::borrow::Cow;

/// A field as the page shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    /// Its key.
    pub key: Cow<'static, str>,
    /// Its name.
    pub label: &'static str,
    /// Its definition.
    pub help: &'static str,
    /// The text in it: what was typed while that is refused, else the value as it can be typed again; a place or a measure
    /// rounded, so that a text left as it is must not be sent.
    pub text: String,
    /// Its unit as shown, may be empty.
    pub unit: &'static str,
    /// Its limits in words, may be empty.
    pub limits: String,
    /// Why what was typed is refused.
    pub message: Option<String>,
    /// What is doubtful about its value, or what was worked out for it; may be empty.
    pub remark: String,
    /// Whether it may be left empty.
    pub optional: bool,
    /// Whether it can be typed into now.
    pub enabled: bool,
    /// The words to choose one from, each as it is sent and as people read it; of a field to type into none.
    pub options: &'static [(&'static str, &'static str)],
}

/// A text that was typed and refused; it stays in its field.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Typed {
    key: String,
    text: String,
    message: String,
}

impl Typed {
    /// Something that was asked for by a button and is refused.
    pub(super) fn refused(key: &str, message: &str) -> Self {
        Self { key: key.to_owned(), text: String::new(), message: message.to_owned() }
    }

    /// Why, if it is of that key.
    pub(super) fn message_of(&self, key: &str) -> Option<&str> {
        (self.key == key).then_some(self.message.as_str())
    }
}

/// What names a field: key, label, help.
pub(super) type Named = (&'static str, &'static str, &'static str);

/// Fields that are no settings of the table.
const NAME: Named = ("name", "Name", "What the deck is called, on files and on the sheet.");
const NOTES: Named = ("notes", "Notes", "Whatever belongs to this deck. Notes are not sent with a link.");
const ALONG: Named = (
    "node-along",
    "Along",
    "The selected node's place along the board from the middle of the bolt holes, noseward.",
);
const ACROSS: Named = ("node-across", "Across", "The selected node's distance from the centreline.");

const MARK_FROM: Named = ("mark-from", "From mark", "Where along its sweep the selected stretch begins.");
const MARK_TO: Named = ("mark-to", "To mark", "Where along its sweep the selected stretch ends.");

/// Bounds of the fairing bound, mm.
const FAIRING: (f64, f64) = (0.05, 2.0);
const FAIRING_BOUND: Named =
    ("fairing-bound", "Fair within", "The farthest that fairing a stretch may move the edge.");

impl Editor {
    /// All fields.
    #[must_use]
    pub fn fields(&self) -> Vec<Field> {
        let design = self.design();
        let system = self.settings().system;
        let mut fields = self.fields_in_hand();
        for (field, text) in [(NAME, design.name()), (NOTES, design.notes())] {
            fields.push(self.field(field, text.to_owned(), "", String::new(), true));
        }
        let limits = |least, most, unit| {
            let [least, most] = [least, most].map(|limit| show(limit, unit, system));
            say!("{least} to {most}", least, most)
        };
        let bound = entry(self.settings().fairing_bound, Unit::Length, system);
        let bounds = limits(FAIRING.0, FAIRING.1, Unit::Thickness);
        let bound_symbol = entry_symbol(&bound, Unit::Length, system);
        fields.push(self.field(FAIRING_BOUND, bound, bound_symbol, bounds, true));
        for dimension in DIMENSIONS.iter().filter(|d| quantities::find_setting(d.key).is_none()) {
            let Quantity { key, label, help, unit, .. } = *dimension.quantity();
            let value = dimension.read(design.shape(), &self.measured).value;
            let text = value.map_or(String::new(), |value| rounded_entry(value, unit, system));
            let symbol = unit.symbol(system);
            fields.push(self.field((key, label, help), text, symbol, String::new(), value.is_some()));
        }
        for setting in SETTINGS {
            let Quantity { key, label, help, unit, .. } = setting.quantity;
            let text = entry((setting.get)(design.shape()), unit, system);
            let limits = limits(setting.least, setting.most, unit);
            let symbol = entry_symbol(&text, unit, system);
            fields.push(self.field((key, label, help), text, symbol, limits, true));
        }
        self.pressed_field(&mut fields);
        self.shop_fields(&mut fields);
        self.cut_fields(&mut fields);
        self.bring_fields(&mut fields);
        fields
    }

    /// Those of what is selected: a node's place, and the marks of a laid sweep.
    #[must_use]
    pub fn fields_in_hand(&self) -> Vec<Field> {
        let system = self.settings().system;
        let place = self.selection().and_then(|target| match target {
            Target::Span(..) => None,
            other => other.place(&self.design().shape().outline),
        });
        let marks = sweeps::marks(self);
        let symbol = Unit::Length.symbol(system);
        let mut fields = Vec::new();
        for (field, value) in [
            (ALONG, place.map(|p| p.x)),
            (ACROSS, place.map(|p| p.y)),
            (MARK_FROM, marks.map(|marks| marks[0])),
            (MARK_TO, marks.map(|marks| marks[1])),
        ] {
            let text = value.map_or(String::new(), |value| rounded_entry(value, Unit::Length, system));
            fields.push(self.field(field, text, symbol, String::new(), value.is_some()));
        }
        fields
    }

    /// A field of one of several things.
    pub(super) fn item_field(
        &self,
        key: String,
        label: &'static str,
        text: String,
        unit: &'static str,
        options: &'static [(&'static str, &'static str)],
    ) -> Field {
        let refused = self.typed.as_ref().filter(|typed| typed.key == key);
        let (text, message) = match refused {
            Some(typed) => (typed.text.clone(), Some(typed.message.clone())),
            None => (text, None),
        };
        let field = self.field(("", label, ""), text, unit, String::new(), true);
        Field { key: Cow::Owned(key), message, options, ..field }
    }

    pub(super) fn field(
        &self,
        (key, label, help): Named,
        text: String,
        unit: &'static str,
        limits: String,
        enabled: bool,
    ) -> Field {
        let refused = self.typed.as_ref().filter(|typed| typed.key == key);
        Field {
            key: Cow::Borrowed(key),
            label,
            help,
            text: refused.map_or(text, |typed| typed.text.clone()),
            unit,
            limits,
            message: refused.map(|typed| typed.message.clone()),
            remark: String::new(),
            optional: false,
            enabled,
            options: &[],
        }
    }
}

/// Takes a typed text: the change it asks for, or a message that stays with the field.
pub(super) fn enter(editor: &mut Editor, key: &str, text: &str) {
    editor.typed = None;
    let refusal = match key {
        "name" => attempt(editor, "renamed the deck", &Edit::Rename(text.to_owned())),
        "notes" => attempt(editor, "wrote notes", &Edit::Annotate(text.to_owned())),
        "fairing-bound" => fairing_bound(editor, text),
        "node-along" => place(editor, text, |p, x| Point::new(x, p.y)),
        "node-across" => place(editor, text, |p, y| Point::new(p.x, y)),
        "section-station" => pressed::enter(editor, text),
        "mark-from" => sweeps::enter_mark(editor, 0, text),
        "mark-to" => sweeps::enter_mark(editor, 1, text),
        _ if bring::is_field(key) => bring::set(editor, key, text),
        _ if cut::is_field(key) => cut::set(editor, key, text),
        _ if shop::is_field(key) => shop::set(editor, key, text),
        _ => match numbered(key) {
            Some(("version", version, "name")) => {
                attempt(editor, "named a version", &Edit::NameVersion { version, name: text.to_owned() })
            }
            Some(("version", version, "note")) => attempt(
                editor,
                "wrote a version’s notes",
                &Edit::NoteVersion { version, note: text.to_owned() },
            ),
            Some((what @ ("ply" | "record"), index, word)) => shop::enter(editor, what, index, word, text),
            Some(("sweep", sweep, word)) => sweeps::enter(editor, sweep, word, text),
            _ => setting(editor, key, text),
        },
    };
    if let Err(message) = refusal {
        let message = super::sentence(&message);
        editor.notice = super::Notice { text: message.clone(), refused: true };
        editor.typed = Some(Typed { key: key.to_owned(), text: text.to_owned(), message });
    }
}

/// What, which one and what of it a key like `version-2-note` means, counted from 1.
fn numbered(key: &str) -> Option<(&str, usize, &str)> {
    let (what, rest) = key.split_once('-')?;
    let (number, word) = rest.split_once('-')?;
    Some((what, number.parse::<usize>().ok()?.checked_sub(1)?, word))
}

fn fairing_bound(editor: &mut Editor, text: &str) -> Result<(), String> {
    let system = editor.settings.system;
    let mm = parse(text, Unit::Length, system).map_err(|error| error.to_string())?;
    if !(FAIRING.0..=FAIRING.1).contains(&mm) {
        let limit = |mm| show(mm, Unit::Thickness, system);
        return Err(say!("fair within {least} to {most}", least = limit(FAIRING.0), most = limit(FAIRING.1)));
    }
    editor.settings.fairing_bound = mm;
    Ok(())
}

fn attempt(editor: &mut Editor, name: &str, edit: &Edit) -> Result<(), String> {
    if command::apply(editor, name, edit) { Ok(()) } else { Err(editor.notice.text.clone()) }
}

fn setting(editor: &mut Editor, key: &str, text: &str) -> Result<(), String> {
    if let Some(dimension) = dimension::find(key) {
        let quantity = dimension.quantity();
        let system = editor.settings.system;
        let value = parse(text, quantity.unit, system).map_err(|error| error.to_string())?;
        let name = say!("set {what}", what = within(quantity.label));
        return attempt(editor, &name, &Edit::Dimension { key: dimension.key, value });
    }
    let setting = quantities::find_setting(key).ok_or_else(|| Refusal::NoSuch("field").to_string())?;
    let quantity = &setting.quantity;
    let system = editor.settings.system;
    let value = parse(text, quantity.unit, system).map_err(|error| error.to_string())?;
    let name = say!("set {what}", what = within(quantity.label));
    attempt(editor, &name, &Edit::Set { key: quantity.key, value })
}

fn place(editor: &mut Editor, text: &str, moved: fn(Point, f64) -> Point) -> Result<(), String> {
    let value = parse(text, Unit::Length, editor.settings.system).map_err(|error| error.to_string())?;
    let target = editor.selection.ok_or(said("select a node first"))?;
    let outline = &editor.history.design().shape().outline;
    let from = target.place(outline).ok_or(said("select a node first"))?;
    let edit = gesture::move_edit(target, moved(from, value)).ok_or(said("select a node first"))?;
    let name = say!("placed {what}", what = handles::name(editor, target));
    attempt(editor, &name, &edit)
}
