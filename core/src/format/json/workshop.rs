//! The workshop's numbers and the press-day records in a file.

use super::{
    Object, Value,
    cursor::{At, Read},
    reading::text_or_empty,
    writing::grains,
};
use crate::workshop::{
    INPUTS, Inputs,
    glue::Basis,
    inputs::Group,
    press::Thread,
    record::{MEASURED, Record},
};

fn word_of<T: Copy + PartialEq>(words: &[(&'static str, T)], value: T) -> Value {
    words.iter().find(|(_, known)| *known == value).map_or("", |(word, _)| *word).into()
}

pub(super) fn write_inputs(inputs: &Inputs) -> Value {
    let mut groups = Object::default();
    for (group, _, key) in Group::ALL {
        let mut held = Object::default();
        match group {
            Group::Mould => {
                held.push("name", inputs.mould.name.as_str().into());
                held.push("locked", inputs.mould.locked.into());
            }
            Group::Glue => {
                held.push("basis", word_of(&Basis::WORDS, inputs.glue.basis));
                held.push("top-first", inputs.glue.top_first.into());
            }
            Group::Press => held.push("thread", word_of(&Thread::WORDS, inputs.press.thread)),
            _ => {}
        }
        for input in INPUTS.iter().filter(|input| input.group == group) {
            if let Some(value) = (input.get)(inputs) {
                held.push(input.quantity.key, grains(value, input.quantity.unit));
            }
        }
        groups.push(key, Value::Object(held));
    }
    Value::Object(groups)
}

/// What the workshop was told; what a file does not say is as usual.
pub(super) fn inputs(root: &At<'_>) -> Read<Inputs> {
    let mut inputs = Inputs::default();
    let Some(at) = root.get("workshop")? else { return Ok(inputs) };
    for (group, _, key) in Group::ALL {
        let Some(held) = at.get(key)? else { continue };
        let flag = |key| held.get(key)?.map_or(Ok(false), |flag| flag.flag());
        match group {
            Group::Mould => {
                inputs.mould.name = text_or_empty(&held, "name")?;
                inputs.mould.locked = flag("locked")?;
            }
            Group::Glue => {
                inputs.glue.top_first = flag("top-first")?;
                if let Some(basis) = held.get("basis")? {
                    inputs.glue.basis = basis.word(&Basis::WORDS)?;
                }
            }
            Group::Press => {
                if let Some(thread) = held.get("thread")? {
                    inputs.press.thread = thread.word(&Thread::WORDS)?;
                }
            }
            _ => {}
        }
        for input in INPUTS.iter().filter(|input| input.group == group) {
            if let Some(value) = held.get(input.quantity.key)? {
                (input.set)(&mut inputs, Some(value.number(input.quantity.unit)?));
            }
        }
    }
    Ok(inputs)
}

pub(super) fn write_record(record: &Record) -> Value {
    let mut held = Object::default();
    for (key, text) in
        [("serial", &record.serial), ("date", &record.date), ("lots", &record.lots), ("notes", &record.notes)]
    {
        held.push(key, text.as_str().into());
    }
    for (key, ticks) in [("graded", record.graded), ("metered", record.metered)] {
        held.push(key, (1..=PLIES).filter(|ply| ticks >> (ply - 1) & 1 == 1).map(Value::from).collect());
    }
    for (row, value) in MEASURED.iter().zip(record.measured) {
        if let Some(value) = value {
            held.push(row.quantity.key, grains(value, row.quantity.unit));
        }
    }
    Value::Object(held)
}

/// The most plies there are to tick.
const PLIES: i64 = *crate::layup::Layup::PLY_COUNT.end() as i64;

pub(super) fn records(root: &At<'_>) -> Read<Vec<Record>> {
    root.get("records")?.map_or(Ok(Vec::new()), |list| list.each(Record::MOST, record))
}

fn record(at: At<'_>) -> Read<Record> {
    let ticks = |key| -> Read<u32> {
        let Some(list) = at.get(key)? else { return Ok(0) };
        let plies = list.each(32, |ply| {
            let number = ply.whole()?;
            if (1..=PLIES).contains(&number) { Ok(number - 1) } else { Err(ply.not("the number of a ply")) }
        })?;
        Ok(plies.into_iter().fold(0, |ticks, ply| ticks | 1 << ply))
    };
    let mut record = Record {
        serial: text_or_empty(&at, "serial")?,
        date: text_or_empty(&at, "date")?,
        lots: text_or_empty(&at, "lots")?,
        notes: text_or_empty(&at, "notes")?,
        graded: ticks("graded")?,
        metered: ticks("metered")?,
        ..Record::default()
    };
    for (row, value) in MEASURED.iter().zip(&mut record.measured) {
        if let Some(found) = at.get(row.quantity.key)? {
            *value = Some(found.number(row.quantity.unit)?);
        }
    }
    Ok(record)
}
