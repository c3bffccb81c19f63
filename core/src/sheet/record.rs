//! The record of the day beside what was worked out: filled in from the design, else with lines for a pencil.

use super::{
    Desk,
    column::{Column, LEADING, SMALL, TEXT},
};
use crate::{
    language::said,
    leaf::{Leaf, Style, Tone, wrapped},
    say,
    workshop::record::{MEASURED, Record},
};
use kurbo::Point;

/// Columns of the record, white between them, and the height of a field, mm.
const COLUMNS: usize = 4;
const GUTTER: f64 = 4.0;
const FIELD: f64 = 8.6;
/// Most lines for notes on riding, and the distance of two, mm.
const LINES: usize = 6;
const PITCH: f64 = 6.4;

/// A field: its label, what was worked out, what was noted.
type Field = (&'static str, String, String);

/// The record, with as many lines for notes as `room` mm hold, one at least.
pub(super) fn record(desk: &Desk<'_>, width: f64, scale: f64, room: f64) -> Leaf {
    let mut column = Column::new(width, scale);
    column.heading(said(if desk.input.record.is_some() {
        "Press-day record of one deck"
    } else {
        "Press-day record of one deck: print or copy this page for each"
    }));
    let fields = fields(desk);
    let each = (width - GUTTER * (COLUMNS - 1) as f64) / COLUMNS as f64;
    let height = FIELD * scale;
    let small = Style::plain(SMALL * scale);
    let top = column.y;
    for (i, (label, worked_out, noted)) in fields.iter().enumerate() {
        let label = said(label);
        let (row, place) = (i / COLUMNS, i % COLUMNS);
        let x = place as f64 * (each + GUTTER);
        let base = top + (row + 1) as f64 * height - 0.5;
        column.leaf.line((x, base), (x + each, base), 0.2, Tone::Ink);
        let line = base - height + LEADING * small.size;
        let label_style = small.within(0.6 * each, label);
        column.leaf.words(Point::new(x, line), label_style, label);
        let style = small.within(each - label_style.length(label) - 1.0, worked_out);
        column.leaf.words_to(Point::new(x + each, line), style.soft(), worked_out);
        let (style, noted) = Style::plain(1.15 * TEXT * scale).cut(each, noted);
        column.leaf.words(Point::new(x, base - 0.9), style.toned(Tone::Blue), &noted);
    }
    column.y = top + fields.len().div_ceil(COLUMNS) as f64 * height;
    column.line(small, said("Ride notes"));
    let notes = desk.input.record.map_or("", |record| record.notes.as_str());
    let style = Style::plain(TEXT * scale).toned(Tone::Blue);
    let notes = wrapped(notes, style, width);
    let fit = (1..=LINES)
        .take_while(|&lines| lines == 1 || column.y + lines as f64 * PITCH * scale <= room)
        .count();
    for i in 0..fit {
        column.gap(PITCH);
        let at = Point::new(0.0, column.y - 0.9);
        let last = i + 1 == fit && notes.len() > fit;
        if last {
            let more = notes.len() - i;
            column.leaf.words(at, style, &say!("… cut here: {more} more lines stand in the design.", more));
        } else if let Some(line) = notes.get(i) {
            column.leaf.words(at, style, line);
        }
        column.leaf.line((0.0, column.y), (width, column.y), 0.2, Tone::Ink);
    }
    column.finish()
}

fn fields(desk: &Desk<'_>) -> Vec<Field> {
    let record = desk.input.record;
    let text = |of: fn(&Record) -> &str| record.map_or(String::new(), |record| of(record).to_owned());
    let shown = |row: usize, value: Option<f64>| {
        value.map_or(String::new(), |value| desk.value(&MEASURED[row].quantity, value))
    };
    let mut fields = vec![
        ("Serial number", String::new(), text(|record| &record.serial)),
        ("Date", String::new(), text(|record| &record.date)),
        ("Lots of veneer and glue", String::new(), text(|record| &record.lots)),
    ];
    for (i, row) in MEASURED.iter().enumerate() {
        // No torque is worked out where none is given.
        let withheld = row.quantity.key == "day-torque" && desk.gives_no_torque();
        let computed = (row.computed)(desk.workshop).filter(|_| !withheld);
        let worked_out = shown(i, computed);
        let worked_out = if worked_out.is_empty() { worked_out } else { ["(", &worked_out, ")"].concat() };
        fields.push((row.quantity.label, worked_out, shown(i, record.and_then(|record| record.measured[i]))));
    }
    for label in ["Pressed by", "Checked by", "Load test"] {
        fields.push((label, String::new(), String::new()));
    }
    fields
}
