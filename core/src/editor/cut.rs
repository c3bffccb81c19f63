//! The Cut room: what is exported as its fields choose it, made anew with every change, and the screen's own scale.

use super::{Editor, fields::Field};
use crate::{
    export::{CHOICES, Choice, Export, ExportError, File, Kind, Length, Made, Part, lengths},
    format::pdf::Picture,
    language::{figure, said},
    real, say,
    units::{self, System, Unit, Words, decimal, entry, entry_symbol, parse, show},
};
use kurbo::Rect;

/// The rooms of the page, in the order of the work.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Room {
    /// The outline is drawn.
    #[default]
    Draw,
    /// Veneers and glue.
    LayUp,
    /// The press.
    Press,
    /// Templates and files: the board is shown as it is exported.
    Cut,
    /// The printed sheet.
    Sheet,
}

/// What the Cut room holds, kept while designs come and go.
#[derive(Clone, Debug, Default)]
pub(super) struct Bench {
    pub(super) export: Export,
    pub(super) room: Room,
    pub(super) prepared: Option<Prepared>,
    /// The last name that the page was asked to draw, and what came of it.
    picture: Option<(String, Option<Picture>)>,
}

/// What is exported, made for the design in hand.
#[derive(Clone, Debug)]
pub struct Prepared {
    revision: u64,
    system: System,
    export: Export,
    /// The part, or why there is none.
    pub made: Result<Made, ExportError>,
    files: Vec<(Kind, Result<File, ExportError>)>,
}

/// What the page says of a file before it is saved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileFacts {
    /// Its kind.
    pub kind: Kind,
    /// In words: `15 entities, 3.2 kB`, or why there is no such file.
    pub text: String,
    /// Its bytes; none where there is no file.
    pub bytes: Option<usize>,
    /// What it draws, or how many rows it lists.
    pub entities: Option<usize>,
}

/// The short side of a card, mm (ISO/IEC 7810, ID-1, from memory).
const CARD: f64 = 53.98;
/// CSS pixels that a millimetre takes where nobody has measured: four to three points (CSS Values and Units).
const NOMINAL: f64 = units::POINTS_PER_MM * 4.0 / 3.0;
/// Least and most that a screen can have, px/mm: a wall, and the finest telephone.
const SCALES: (f64, f64) = (0.8, 16.0);

const CARD_READS: (&str, &str, &str) = (
    "card-reads",
    "The bar measures",
    "Lay a rule on the bar and type what it reads, or make the bar as long as the short side of a bank card.",
);

impl Room {
    /// The room with that name in the page.
    #[must_use]
    pub fn named(name: &str) -> Self {
        match name {
            "layup" => Self::LayUp,
            "press" => Self::Press,
            "cut" => Self::Cut,
            "sheet" => Self::Sheet,
            _ => Self::Draw,
        }
    }
}

impl Editor {
    /// The room that is open.
    #[must_use]
    pub fn room(&self) -> Room {
        self.bench.room
    }

    /// What the fields of the Cut room choose.
    #[must_use]
    pub fn export(&self) -> &Export {
        &self.bench.export
    }

    /// Goes on with the choices of an earlier session.
    #[must_use]
    pub fn exporting(mut self, export: Export) -> Self {
        self.bench.export = export;
        self
    }

    /// Says which day it is, as YYYY-MM-DD: templates carry it.
    pub fn dated(&mut self, date: String) {
        self.bench.export.template.date = date;
        self.prepare();
    }

    /// What is exported, while the Cut room is open.
    #[must_use]
    pub fn prepared(&self) -> Option<&Prepared> {
        self.bench.prepared.as_ref().filter(|_| self.bench.room == Room::Cut)
    }

    /// The part that the board is shown as.
    pub(super) fn made(&self) -> Option<&Made> {
        self.prepared()?.made.as_ref().ok()
    }

    /// The file of that kind, as the preview shows it.
    ///
    /// # Errors
    ///
    /// [`ExportError`].
    pub fn file(&self, kind: Kind) -> Result<File, ExportError> {
        self.make(&self.bench.export)?.file(kind)
    }

    /// The name of the design, if the PDF of what is exported is better with a [picture](Picture) of it and none was tried.
    #[must_use]
    pub fn name_to_draw(&self) -> Option<&str> {
        let name = self.history.design().name();
        let is_tried = self.bench.picture.as_ref().is_some_and(|(of, _)| of == name);
        self.made().filter(|made| made.wants_picture() && !is_tried).map(|_| name)
    }

    /// Takes the picture of a name; none where it cannot be drawn.
    pub fn pictured(&mut self, name: String, picture: Option<Picture>) {
        self.bench.picture = Some((name, picture));
        self.bench.prepared = None;
        self.prepare();
    }

    fn make(&self, export: &Export) -> Result<Made, ExportError> {
        let design = self.history.design();
        let mut made = export.make(design, self.settings.system)?;
        let drawn = self.bench.picture.as_ref().filter(|(of, _)| of == design.name());
        made.picture = drawn.and_then(|(_, picture)| picture.clone());
        Ok(made)
    }

    pub(super) fn can_save(&self, kind: Kind) -> bool {
        self.prepared()
            .is_none_or(|prepared| prepared.files.iter().any(|file| file.0 == kind && file.1.is_ok()))
    }

    /// Makes what is exported where something has changed. What is live in a gesture is made when it ends.
    pub(super) fn prepare(&mut self) {
        let system = self.settings.system;
        let room = self.bench.room;
        if !matches!(room, Room::Cut | Room::Sheet) || self.gesture.is_some() {
            return;
        }
        let export = if room == Room::Cut { self.bench.export.clone() } else { self.sheet_export() };
        let is_same =
            |old: &Prepared| old.revision == self.revision && old.system == system && old.export == export;
        if self.bench.prepared.as_ref().is_some_and(is_same) {
            return;
        }
        let chosen_anew = self.bench.prepared.as_ref().is_none_or(|old| old.export != export);
        let made = self.make(&export);
        let file = |kind| Some((kind, made.as_ref().ok()?.file(kind)));
        let kinds = Kind::ALL.into_iter().filter(|_| room == Room::Cut);
        let files = kinds.filter_map(file).collect();
        self.bench.prepared = Some(Prepared { revision: self.revision, system, export, made, files });
        if chosen_anew && room == Room::Cut && self.follow_fit {
            self.refit();
        }
    }

    /// What the page says of the size of the part, and of what it comes to.
    #[must_use]
    pub fn cut_words(&self) -> String {
        let Some(prepared) = self.prepared() else { return String::new() };
        match &prepared.made {
            Err(error) => super::sentence(&error.said_in(self.settings.system)),
            Ok(made) => {
                let Rect { x0, y0, x1, y1 } = made.drawing.extent();
                let length = |mm| show(mm, Unit::Length, self.settings.system);
                let projection = made.drawing.projection;
                let size = format!("{} × {}", length(x1 - x0).text, length(y1 - y0));
                say!(
                    "{projection}: {size}. {remark}",
                    projection = projection.word(),
                    size,
                    remark = made.remark
                )
            }
        }
    }

    /// What to look at before cutting, in the order of their marks on the drawing.
    pub fn cut_warnings(&self) -> impl Iterator<Item = &str> {
        let made = self.made().into_iter();
        made.flat_map(|made| made.warnings.iter().map(|warning| warning.text.as_str()))
    }

    /// What the table of the part comes to, a line for each row.
    pub fn cut_list(&self) -> impl Iterator<Item = &str> {
        let made = self.made().into_iter();
        made.flat_map(|made| made.list.iter().map(String::as_str))
    }

    /// What the page says of each file before it is saved.
    #[must_use]
    pub fn file_facts(&self) -> Vec<FileFacts> {
        let facts = |(kind, file): &(Kind, Result<File, ExportError>)| match file {
            Ok(file) => {
                let has_table = matches!(self.bench.export.part, Part::Offsets | Part::MarkOut);
                let is_table = *kind == Kind::Csv || *kind == Kind::Pdf && has_table;
                let things = if is_table { "rows" } else { "entities" };
                let pages = match file.pages {
                    0 => String::new(),
                    1 => said("1 page, ").to_owned(),
                    pages => say!("{pages} pages, ", pages),
                };
                let size = figure(decimal(file.bytes.len() as f64 / 1000.0, 1));
                let text = say!(
                    "{pages}{entities} {things}, {size} kB",
                    pages,
                    entities = file.entities,
                    things,
                    size
                );
                let (bytes, entities) = (Some(file.bytes.len()), Some(file.entities));
                FileFacts { kind: *kind, text, bytes, entities }
            }
            Err(error) => {
                let text = super::sentence(&error.said_in(self.settings.system));
                FileFacts { kind: *kind, text, bytes: None, entities: None }
            }
        };
        self.prepared().map_or(Vec::new(), |prepared| prepared.files.iter().map(facts).collect())
    }

    /// Why the choices do not go together: the field at fault and the message.
    fn cut_fault(&self) -> Option<(&'static str, String)> {
        let prepared = self.prepared()?;
        let pdf = || prepared.files.iter().find(|file| file.0 == Kind::Pdf)?.1.as_ref().err();
        let error = prepared.made.as_ref().err().or_else(pdf)?;
        Some((error.field(), super::sentence(&error.said_in(self.settings.system))))
    }

    /// The fields of the Cut room.
    pub(super) fn cut_fields(&self, fields: &mut Vec<Field>) {
        let (export, system) = (&self.bench.export, self.settings.system);
        let first = fields.len();
        for choice in &CHOICES {
            let Choice { key, label, help, options, .. } = choice;
            let text = choice.get(export).to_owned();
            let field = self.field((key, label, help), text, "", String::new(), export.uses(key));
            fields.push(Field { options, ..field });
        }
        for length in lengths() {
            let quantity = length.quantity;
            let text = |mm| entry(mm, quantity.unit, system);
            let limits = [length.least, length.most].map(|mm| show(mm, quantity.unit, system));
            let limits = say!("{least} to {most}", least = limits[0], most = limits[1]);
            let names = (quantity.key, quantity.label, quantity.help);
            let text = text(length.get(export));
            let unit = entry_symbol(&text, quantity.unit, system);
            fields.push(self.field(names, text, unit, limits, export.uses(quantity.key)));
        }
        if let Some((key, message)) = self.cut_fault() {
            for field in fields.iter_mut().skip(first).filter(|field| field.key == key) {
                field.message.get_or_insert_with(|| message.clone());
            }
        }
        let text = entry(CARD, Unit::Thickness, system);
        let unit = entry_symbol(&text, Unit::Thickness, system);
        fields.push(self.field(CARD_READS, text, unit, String::new(), true));
    }

    /// Length of the bar that stands for the short side of a card, CSS pixels.
    #[must_use]
    pub fn card(&self) -> f64 {
        CARD * self.settings.px_per_mm.unwrap_or(NOMINAL)
    }
}

pub(super) fn enter(editor: &mut Editor, room: Room) {
    let was = core::mem::replace(&mut editor.bench.room, room);
    if was != room {
        editor.prepare();
        if editor.follow_fit {
            editor.refit();
        }
    }
}

pub(super) fn is_field(key: &str) -> bool {
    key == CARD_READS.0 || Choice::named(key).is_some() || Length::named(key).is_some()
}

/// Takes what was typed or chosen in a field of the Cut room.
pub(super) fn set(editor: &mut Editor, key: &str, text: &str) -> Result<(), String> {
    let system = editor.settings.system;
    if let Some(choice) = Choice::named(key) {
        return choice.set(&mut editor.bench.export, text).map_err(|error| error.said_in(system));
    }
    let unit = Length::named(key).map_or(Unit::Thickness, |length| length.quantity.unit);
    let mm = parse(text, unit, system).map_err(|error| error.to_string())?;
    let Some(length) = Length::named(key) else {
        let px = editor.card() * CARD / mm;
        let (least, most) = (CARD * SCALES.0, CARD * SCALES.1);
        if !(least..=most).contains(&px) {
            return Err(said("the bar cannot be as long as that on a screen: read the rule again").to_owned());
        }
        calibrate(editor, px);
        return Ok(());
    };
    length.set(&mut editor.bench.export, mm).map_err(|error| error.said_in(system))
}

/// The bar is as long as the short side of a card when it is so many CSS pixels long.
pub(super) fn calibrate(editor: &mut Editor, px: f64) {
    if px.is_finite() {
        editor.settings.px_per_mm = Some(real::clamp(px / CARD, SCALES.0, SCALES.1));
    }
}

/// Shows the deck as large as it is.
pub(super) fn true_size(editor: &mut Editor) {
    let scale = editor.settings.px_per_mm.unwrap_or(NOMINAL);
    editor.view = editor.view.zoomed(editor.view.centre, scale / editor.view.scale);
    editor.follow_fit = false;
    let words = if editor.settings.px_per_mm.is_some() {
        "At full size."
    } else {
        "At full size, if this screen is as it says: check the bar in Cut against a card."
    };
    editor.say(words);
}

#[cfg(test)]
mod tests;
