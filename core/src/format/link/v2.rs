//! What a link of version 2 says before the payload of version 1: the workshop's numbers. Frozen: such links are out in
//! the world.
//!
//! | what | as |
//! |---|---|
//! | choices | a byte: 1 inch threads, 2 and 4 the basis of the glue's rate, 8 top ply first, 16 a locked mould card |
//! | name of the mould | text |
//! | which numbers follow | count; bit *i* stands for row *i* of [`NUMBERS`] |
//! | those numbers | a quantity each, in the order of the rows; all others are as their row says |
//! | woods | count, 0 where all plies are of the first; then for each ply, top face first, a count: its row of [`WOODS`] |
//!
//! Bases: 0 per line, 1 on one face, 2 on each of both faces.

use super::bytes::{Source, put_count, put_grains, put_text};
use crate::{
    design::Design,
    layup::Layup,
    units,
    workshop::{Inputs, glue::Basis, inputs::table, press::Thread, species::Species},
};

/// The numbers of this version by their keys, each with what it is where a link does not say, in grains: empty or a
/// value. Prices do not travel.
const NUMBERS: [(&str, Option<i64>); 40] = [
    ("moisture", Some(7_000_000)),
    ("bond-line", Some(100_000)),
    ("measured-thickness", None),
    ("mould-length", Some(850_000_000)),
    ("mould-width", Some(250_000_000)),
    ("mould-clear-length", Some(845_000_000)),
    ("mould-pressure", None),
    ("sheet-length", Some(914_400_000)),
    ("sheet-width", Some(254_000_000)),
    ("cross-sheet-length", Some(914_400_000)),
    ("cross-sheet-width", Some(254_000_000)),
    ("kerf", Some(2_000_000)),
    ("glue-density", Some(1_100_000)),
    ("glue-solids", Some(50_000_000)),
    ("open-time", Some(5_000_000)),
    ("assembly-time", Some(10_000_000)),
    ("minutes-per-line", Some(1_000_000)),
    ("closing-time", Some(3_000_000)),
    ("press-time", Some(1_440_000_000)),
    ("bolts", Some(10)),
    ("bolt-diameter", Some(10_000_000)),
    ("bolt-pitch", Some(1_500_000)),
    ("nut-factor", Some(200_000)),
    ("bolt-torque", Some(12_000_000)),
    ("proof-stress", Some(225_000_000)),
    ("press-force", None),
    ("wanted-pressure", None),
    ("axle-height", Some(53_000_000)),
    ("axle-offset", Some(0)),
    ("riser", Some(0)),
    ("wheel-diameter", Some(53_000_000)),
    ("wheel-half-width", None),
    ("rider", Some(75_000_000_000)),
    ("landing-factor", Some(1_000_000)),
    ("countersink", Some(10_000_000)),
    ("countersink-angle", Some(900_000_000)),
    ("round-over", Some(3_200_000)),
    ("grip-overlap", Some(6_000_000)),
    ("decks", Some(10)),
    ("moulds", Some(1)),
];

/// The woods of this version by their keys.
const WOODS: [&str; 7] = [
    "sugar-maple",
    "red-maple",
    "yellow-birch",
    "white-ash",
    "shagbark-hickory",
    "pecan-hickory",
    "american-beech",
];

const BASES: [Basis; 3] = [Basis::Line, Basis::OneFace, Basis::BothFaces];

/// What a design's workshop was told; nothing where all is as usual, and version 1 says as much.
pub(super) fn write(design: &Design) -> Vec<u8> {
    let inputs = design.workshop();
    let mut bytes = Vec::new();
    bytes.push(choices(inputs));
    put_text(&mut bytes, &inputs.mould.name);
    let told = NUMBERS.map(|(key, usual)| {
        let input = table::find(key)?;
        let value = (input.get)(inputs).map(|value| units::stored(value, input.quantity.unit));
        value.filter(|_| value != usual)
    });
    put_count(&mut bytes, told.iter().rev().fold(0, |bits, value| bits << 1 | u64::from(value.is_some())));
    told.into_iter().flatten().for_each(|value| put_grains(&mut bytes, value));
    let wood = |key: &str| WOODS.iter().position(|known| *known == key).unwrap_or(0) as u64;
    let plies = &design.shape().layup.plies;
    if plies.iter().all(|ply| wood(ply.species.key) == 0) {
        put_count(&mut bytes, 0);
    } else {
        put_count(&mut bytes, plies.len() as u64);
        plies.iter().for_each(|ply| put_count(&mut bytes, wood(ply.species.key)));
    }
    if bytes.iter().all(|byte| *byte == 0) { Vec::new() } else { bytes }
}

fn choices(inputs: &Inputs) -> u8 {
    let basis =
        BASES.iter().zip(0..).find(|(basis, _)| **basis == inputs.glue.basis).map_or(0, |found| found.1);
    u8::from(inputs.press.thread == Thread::Inch)
        | basis << 1
        | u8::from(inputs.glue.top_first) << 3
        | u8::from(inputs.mould.locked) << 4
}

/// The workshop's numbers and the woods of the plies, none where all are of the usual one; `None` where it is not of this
/// version.
pub(super) fn read(source: &mut Source<'_>) -> Option<(Inputs, Vec<&'static Species>)> {
    let mut inputs = Inputs::default();
    let choices = source.byte().filter(|byte| *byte < 32)?;
    inputs.press.thread = if choices & 1 == 1 { Thread::Inch } else { Thread::Metric };
    inputs.glue.basis = *BASES.get(usize::from(choices >> 1 & 3))?;
    inputs.glue.top_first = choices >> 3 & 1 == 1;
    inputs.mould.locked = choices >> 4 & 1 == 1;
    source.text()?.clone_into(&mut inputs.mould.name);
    let mut told = source.count()?;
    for (key, usual) in NUMBERS {
        let value = if told & 1 == 1 { Some(source.number()?) } else { usual };
        if let (Some(input), Some(value)) = (table::find(key), value) {
            (input.set)(&mut inputs, Some(units::from_stored(value, input.quantity.unit)));
        }
        told >>= 1;
    }
    let count = source.length(*Layup::PLY_COUNT.end())?;
    let mut woods = Vec::with_capacity(count);
    for _ in 0..count {
        woods.push(Species::find(WOODS.get(source.length(WOODS.len())?)?)?);
    }
    (told == 0).then_some((inputs, woods))
}
