//! A design from a JSON value, field by field; only named fields are read, so nothing else can get in.

use super::{
    FORMAT, PER_PLY, ReadError, UNIT, VERSION, Value, Wrong,
    cursor::{At, Read},
    sweep, workshop,
};
use crate::{
    demo,
    design::{Design, Shape, Version},
    dimension::{DIMENSIONS, Lock},
    format::leaderless,
    layup::{Grain, Layup, Ply},
    outline::{Handle, Joint, Node, Outline, Span, Sweep},
    quantities::{Part, SETTINGS},
    units::Unit,
    workshop::species::SPECIES,
};
use kurbo::{Point, Vec2};
use std::sync::Arc;

pub(super) fn design(value: &Value) -> Read<Design> {
    let root = At::root(value);
    if root.get("format")?.is_none_or(|format| format.value.as_text() != Some(FORMAT)) {
        return Err(Box::new(ReadError::NotADesign));
    }
    let at = root.need("version")?;
    match at.whole()? {
        VERSION => {}
        found if found > VERSION => return Err(Box::new(ReadError::Newer { found, known: VERSION })),
        found => return Err(at.wrong(Wrong::Word { found: found.to_string(), known: vec!["1"] })),
    }
    if let Some(unit) = root.get("unit")? {
        unit.word(&[(UNIT, ())])?; // numbers in any other unit would be read as something else entirely
    }

    let usual = demo::turnstone();
    let name = text_or_empty(&root, "name")?;
    let notes = text_or_empty(&root, "notes")?;
    let current = shape(root.need("shape")?, usual.shape())?;
    let versions = match root.get("versions")? {
        Some(list) => list.each(Design::MOST_VERSIONS, |entry| version(entry, usual.shape()))?,
        None => Vec::new(),
    };
    let locks = locks(&root)?;
    let inputs = workshop::inputs(&root)?;
    let records = workshop::records(&root)?;
    let design = Design::new(&name, &notes, current, versions.clone()).map_err(|refusal| {
        // Versions are checked first: the fault lies in the first that is refused by itself, or else in the design.
        let at_fault = versions.iter().position(|version| {
            let shape = Shape::clone(&version.shape);
            Design::new("", "", shape, vec![version.clone()]).is_err()
        });
        let prefix = at_fault.map_or(String::new(), |i| format!("versions[{i}]"));
        ReadError::refused(&prefix, refusal)
    })?;
    let design = design.with_locks(locks).map_err(|refusal| ReadError::refused("locks", refusal))?;
    let design = design.with_workshop(inputs).map_err(|refusal| ReadError::refused("workshop", refusal))?;
    design.with_records(records).map_err(|refusal| ReadError::refused("records", refusal))
}

/// The locked dimensions; a key that is no dimension's is not read, so that a newer page's locks do no harm.
fn locks(root: &At<'_>) -> Read<Vec<Lock>> {
    let Some(held) = root.get("locks")? else { return Ok(Vec::new()) };
    let mut locks = Vec::new();
    for dimension in DIMENSIONS {
        if let Some(value) = held.get(dimension.key)? {
            locks.push(Lock { key: dimension.key, value: value.quantity(dimension.quantity().unit)? });
        }
    }
    Ok(locks)
}

fn version(at: At<'_>, usual: &Shape) -> Read<Version> {
    Ok(Version {
        name: text_or_empty(&at, "name")?,
        note: text_or_empty(&at, "note")?,
        date: text_or_empty(&at, "date")?,
        shape: Arc::new(shape(at.need("shape")?, usual)?),
    })
}

pub(super) fn text_or_empty(at: &At<'_>, key: &str) -> Read<String> {
    at.get(key)?.map_or(Ok(String::new()), |text| text.text().map(str::to_owned))
}

/// A shape, with the value of `usual` for every setting that is missing.
fn shape(at: At<'_>, usual: &Shape) -> Read<Shape> {
    let mut shape = usual.clone();
    shape.outline = outline(at.need(Part::Outline.key())?)?;
    for part in Part::ALL {
        let Some(held) = at.get(part.key())? else { continue };
        for setting in SETTINGS.iter().filter(|s| s.part == part && s.quantity.key != PER_PLY) {
            if let Some(value) = held.get(setting.quantity.key)? {
                (setting.set)(&mut shape, value.quantity(setting.quantity.unit)?);
            }
        }
        if part == Part::Layup
            && let Some(plies) = held.get("plies")?
        {
            shape.layup.plies = plies.each(*Layup::PLY_COUNT.end(), ply)?;
        }
    }
    Ok(shape)
}

fn ply(at: At<'_>) -> Read<Ply> {
    Ok(Ply {
        thickness: at.need("thickness")?.quantity(Unit::Thickness)?,
        grain: at.need("grain")?.word(&[("L", Grain::Along), ("X", Grain::Across)])?,
        species: at
            .get("wood")?
            .map_or(Ok(&SPECIES[0]), |wood| wood.word(&SPECIES.each_ref().map(|s| (s.key, s))))?,
    })
}

fn outline(at: At<'_>) -> Read<Outline> {
    let twin = at.get("twin")?.map_or(Ok(false), |twin| twin.flag())?;
    let nodes = at.need("nodes")?;
    let sweeps = at.get("sweeps")?.map_or(Ok(Vec::new()), |list| list.each(Sweep::MOST, sweep::read))?;
    let outline = Outline {
        twin,
        sweeps,
        nodes: nodes.each(Outline::MOST_NODES, node)?,
        spans: at.need("spans")?.each(Outline::MOST_NODES, span)?,
    };
    match leaderless(&outline) {
        Some(i) => Err(nodes.inside(i, "angle", Wrong::Missing)),
        None => Ok(outline),
    }
}

fn node(at: At<'_>) -> Read<Node> {
    let smooth = at.need("joint")?.word(&[("corner", false), ("smooth", true)])?;
    let angle = at.get("angle")?.filter(|_| smooth);
    let joint = match angle {
        Some(angle) => Joint::Smooth(angle.quantity(Unit::Angle)?),
        None if smooth => Joint::Led,
        None => Joint::Corner,
    };
    let (x, y) = (at.need("x")?.quantity(Unit::Length)?, at.need("y")?.quantity(Unit::Length)?);
    Ok(Node { place: Point::new(x, y), joint })
}

/// Reads one kind of span.
type SpanReader = fn(&At<'_>) -> Read<Span>;

/// The kinds of span by their words; a new kind is a new row.
const SPAN_KINDS: &[(&str, SpanReader)] = &[
    ("straight", |_| Ok(Span::Straight)),
    ("cubic", |at| Ok(Span::Cubic { start: handle(at.need("start")?)?, end: handle(at.need("end")?)? })),
    ("laid", laid),
    ("batten", |at| Ok(Span::Batten { start: lean(at.get("start")?)?, end: lean(at.get("end")?)? })),
];

fn laid(at: &At<'_>) -> Read<Span> {
    let sweep = at.need("sweep")?;
    let index = usize::try_from(sweep.whole()?).map_err(|_| sweep.not("the index of a sweep"))?;
    let mark = |key| at.need(key)?.quantity(Unit::Length);
    let flag = |key| at.get(key)?.map_or(Ok(false), |flag| flag.flag());
    let (from, to) = (mark("from")?, mark("to")?);
    Ok(Span::Laid { sweep: index, from, to, flip: flag("flip")?, reverse: flag("reverse")? })
}

fn lean(at: Option<At<'_>>) -> Read<Option<f64>> {
    at.map(|angle| angle.quantity(Unit::Angle)).transpose()
}

fn span(at: At<'_>) -> Read<Span> {
    let read = at.need("kind")?.word(SPAN_KINDS)?;
    read(&at)
}

fn handle(at: At<'_>) -> Read<Handle> {
    if !matches!(at.value, Value::List(_)) {
        return at.quantity(Unit::Length).map(Handle::Along);
    }
    let offset = at.each(2, |part| part.quantity(Unit::Length))?;
    match offset[..] {
        [along, across] => Ok(Handle::Free(Vec2::new(along, across))),
        _ => Err(at.not("a length or [along, across]")),
    }
}
