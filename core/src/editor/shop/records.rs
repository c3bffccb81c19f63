//! The press-day records as the page lists them.

use super::{
    super::{Editor, command},
    plies::{Item, Tick},
};
use crate::{
    edit::Edit,
    export::SheetRecord,
    language::{said, within},
    say,
    units::{entry, entry_symbol, parse, show},
    workshop::record::{MEASURED, Record},
};

/// The texts of a record: word in the key, label.
const TEXTS: [(&str, &str); 4] = [
    ("serial", "Serial number"),
    ("date", "Date"),
    ("lots", "Lots of veneer and glue"),
    ("notes", "Ride notes"),
];

fn text<'a>(record: &'a mut Record, word: &str) -> Option<&'a mut String> {
    Some(match word {
        "serial" => &mut record.serial,
        "date" => &mut record.date,
        "lots" => &mut record.lots,
        "notes" => &mut record.notes,
        _ => return None,
    })
}

impl Editor {
    /// The decks pressed so far, the first one first; each number with what was worked out beside it.
    #[must_use]
    pub fn record_items(&self) -> Vec<Item> {
        let system = self.settings.system;
        let workshop = self.workshop();
        let records = self.design().records();
        let printed = self.bench.export.sheet.record_of(records);
        let item = |(index, record): (usize, &Record)| {
            let key = |word: &str| format!("record-{}-{word}", index + 1);
            let mut record = record.clone();
            let mut fields = Vec::new();
            for (word, label) in TEXTS {
                let text = text(&mut record, word).cloned().unwrap_or_default();
                fields.push(self.item_field(key(word), label, text, "", &[]));
            }
            for (row, value) in MEASURED.iter().zip(record.measured) {
                let unit = row.quantity.unit;
                let text = value.map_or(String::new(), |value| entry(value, unit, system));
                let symbol = entry_symbol(&text, unit, system);
                let mut field = self.item_field(key(row.quantity.key), row.quantity.label, text, symbol, &[]);
                field.help = row.quantity.help;
                if let Some(computed) = (row.computed)(&workshop) {
                    field.remark = say!("worked out: {computed}", computed = show(computed, unit, system));
                }
                fields.push(field);
            }
            let title = say!("Deck {serial}", serial = record.serial);
            let tick = Tick { key: "printed", label: "On the sheet", on: printed == Some(index) };
            Item { index, title, fields, ticks: vec![tick] }
        };
        records.iter().enumerate().map(item).collect()
    }

    fn with_records(&mut self, name: &str, change: impl FnOnce(&mut Vec<Record>)) -> bool {
        let mut records = self.history.design().records().to_vec();
        change(&mut records);
        command::apply(self, name, &Edit::Note(records))
    }
}

/// What was typed of record `index`, counted from 0.
pub(super) fn enter(editor: &mut Editor, index: usize, word: &str, typed: &str) -> Result<(), String> {
    let mut record = editor.design().records().get(index).ok_or(said("there is no such record"))?.clone();
    let mut label = "Words";
    if let Some(text) = text(&mut record, word) {
        typed.clone_into(text);
    } else {
        let row = MEASURED.iter().zip(&mut record.measured).find(|(row, _)| row.quantity.key == word);
        let (row, value) = row.ok_or(said("there is no such field"))?;
        label = row.quantity.label;
        *value = if typed.trim().is_empty() {
            None
        } else {
            let read = parse(typed, row.quantity.unit, editor.settings.system);
            Some(read.map_err(|error| error.to_string())?)
        };
    }
    let name = say!("noted {what}", what = within(label));
    editor.answered(|editor| editor.with_records(&name, |records| records[index] = record))
}

pub(super) fn begin(editor: &mut Editor, date: &str) {
    let serial = (editor.history.design().records().len() + 1).to_string();
    let record = Record { serial: serial.clone(), date: date.to_owned(), ..Record::default() };
    if editor.with_records("began a record", |records| records.push(record)) {
        editor.say(say!("Deck {serial}: note here what is done and what comes out.", serial));
    }
}

pub(super) fn remove(editor: &mut Editor, index: usize) {
    if index < editor.history.design().records().len() {
        editor.bench.export.sheet.record = SheetRecord::Last;
        editor.with_records("took a record away", |records| drop(records.remove(index)));
    }
}

/// Puts record `index` onto the build sheet, or the last one where it stands there.
pub(super) fn print(editor: &mut Editor, index: usize) {
    let record = &mut editor.bench.export.sheet.record;
    *record = if *record == SheetRecord::Of(index) { SheetRecord::Last } else { SheetRecord::Of(index) };
}

pub(super) fn tick(editor: &mut Editor, ply: usize, metered: bool) {
    if ply >= editor.history.design().shape().layup.plies.len() {
        return;
    }
    let (name, bit) = (if metered { "metered a ply" } else { "graded a ply" }, 1 << ply);
    editor.with_records(name, |records| {
        if let Some(record) = records.last_mut() {
            *(if metered { &mut record.metered } else { &mut record.graded }) ^= bit;
        }
    });
}
