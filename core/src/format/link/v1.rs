//! The payload of a link of version 1. Frozen: links of this version are out in the world.
//!
//! Counts, quantities and texts are as `bytes.rs` says.
//!
//! | what | as |
//! |---|---|
//! | name | text |
//! | which settings follow | count; bit *i* stands for row *i* of [`SETTINGS`] |
//! | those settings | a quantity each, in the order of the rows; all others have the value of their row |
//! | plies | count; 0 is [`USUAL_PLIES`] of [`USUAL_THICKNESS`], and then the next two are left out |
//! | cross plies | count; bit *i* stands for ply *i*, top face first |
//! | thicknesses | a quantity for each ply: the first as it is, the others less the one before |
//! | nodes | count of them, times two, plus one for a twin |
//! | each node | a byte `joint + 4 × span`, then quantities: along, across, and the angle where the joint is smooth |
//! | each span | nothing for a straight one; for a cubic its start and end handle; for a batten its angle at an end that is a corner; for a laid one the index of its sweep as a count, a byte `flip + 2 × reverse`, and its two marks |
//! | each sweep | up to the last one laid: its name as text, then a count: 0 to 3 for a family, with a quantity for each of its dimensions; or 4 more than the number of its legs, and each leg |
//! | each leg | a byte, 0 for a cubic and then six quantities, 1 for a spiral and then four: its two angles, and its end |
//!
//! Joints: 0 corner, 1 smooth, 2 led. Spans, of the one that leaves the node noseward: 0 straight or none, 1 cubic,
//! 2 batten, 3 laid. Families: 0 arc, 1 ellipse, 2 superellipse, 3 clothoid.
//! A handle is one quantity, its length, or at a corner two, along and across.

use super::{
    bytes::{Source, put_count, put_grains, put_text},
    sweep,
};
use crate::{
    demo,
    design::{Design, Shape},
    format::leaderless,
    layup::{Grain, Layup, Ply},
    outline::{Handle, Joint, Node, Outline, Span, Sweep},
    quantities,
    units::{self, Unit},
    workshop::species::SPECIES,
};
use kurbo::{Point, Vec2};

/// The settings of this version by their keys, each with the value it has where a link does not say, in grains. Those
/// that most decks change come first: seven of them make a byte.
pub(super) const SETTINGS: [(&str, i64); 19] = [
    ("wheelbase", 361_950_000),
    ("nose-kick-angle", 210_000_000),
    ("tail-kick-angle", 200_000_000),
    ("concave-depth", 10_000_000),
    ("concave-width", 209_550_000),
    ("blank-length", 838_200_000),
    ("blank-width", 241_300_000),
    ("nose-bend-line", 19_050_000),
    ("nose-bend-radius", 95_250_000),
    ("tail-bend-line", 19_050_000),
    ("tail-bend-radius", 95_250_000),
    ("concave-fade", 40_000_000),
    ("spread", 200_000_000),
    ("glue-loss", 10_000_000),
    ("flat-strip", 0),
    ("rail-tolerance", 500_000),
    ("pattern-length", 53_975_000),
    ("pattern-width", 41_275_000),
    ("hole-diameter", 5_200_000),
];

/// The kinds of span.
const STRAIGHT: u8 = 0;
const CUBIC: u8 = 1;
const BATTEN: u8 = 2;
const LAID: u8 = 3;

/// The grain of the plies where a link does not say.
const USUAL_PLIES: [Grain; 7] = {
    use Grain::{Across as X, Along as L};
    [L, L, X, L, X, L, L]
};
/// The thickness of those plies, in nm.
const USUAL_THICKNESS: i64 = 1_500_000;

/// Appends the name and shape of a design.
pub(super) fn write(design: &Design, bytes: &mut Vec<u8>) {
    put_text(bytes, design.name());
    write_settings(design.shape(), bytes);
    write_plies(&design.shape().layup.plies, bytes);
    write_outline(&design.shape().outline.with_used_sweeps(), bytes);
}

/// The name and shape in a payload; `None` where it is not one of this version. Nothing about the shape is checked.
pub(super) fn read(source: &mut Source<'_>) -> Option<(String, Shape)> {
    let name = source.text()?.to_owned();
    let mut shape = demo::turnstone().shape().clone();
    read_settings(source, &mut shape)?;
    shape.layup.plies = read_plies(source)?;
    shape.outline = read_outline(source)?;
    Some((name, shape))
}

fn write_settings(shape: &Shape, bytes: &mut Vec<u8>) {
    let stored = SETTINGS.map(|(key, usual)| {
        let setting = quantities::setting(key);
        let value = units::stored((setting.get)(shape), setting.quantity.unit);
        (value != usual).then_some(value)
    });
    let present = stored.iter().rev().fold(0, |bits, value| bits << 1 | u64::from(value.is_some()));
    put_count(bytes, present);
    stored.into_iter().flatten().for_each(|value| put_grains(bytes, value));
}

fn read_settings(source: &mut Source<'_>, shape: &mut Shape) -> Option<()> {
    let mut present = source.count()?;
    for (key, usual) in SETTINGS {
        let setting = quantities::setting(key);
        let value = if present & 1 == 1 { source.grains()? } else { usual };
        (setting.set)(shape, units::from_stored(value, setting.quantity.unit));
        present >>= 1;
    }
    (present == 0).then_some(())
}

fn write_plies(plies: &[Ply], bytes: &mut Vec<u8>) {
    let thickness = |ply: &Ply| units::stored(ply.thickness, Unit::Thickness);
    let usual = USUAL_PLIES.map(|grain| (grain, USUAL_THICKNESS));
    if plies.iter().map(|ply| (ply.grain, thickness(ply))).eq(usual) {
        return put_count(bytes, 0);
    }
    put_count(bytes, plies.len() as u64);
    let across = plies.iter().rev().map(|ply| u64::from(ply.grain == Grain::Across));
    put_count(bytes, across.fold(0, |bits, bit| bits << 1 | bit));
    let mut before = 0;
    for ply in plies {
        put_grains(bytes, thickness(ply) - before);
        before = thickness(ply);
    }
}

fn read_plies(source: &mut Source<'_>) -> Option<Vec<Ply>> {
    let ply =
        |grain, nm| Ply { thickness: units::from_stored(nm, Unit::Thickness), grain, species: &SPECIES[0] };
    let number = source.length(*Layup::PLY_COUNT.end())?;
    if number == 0 {
        return Some(USUAL_PLIES.map(|grain| ply(grain, USUAL_THICKNESS)).to_vec());
    }
    let across = source.count()?;
    let mut nm = 0;
    let mut plies = Vec::with_capacity(number);
    for i in 0..number {
        nm += source.grains()?;
        plies.push(ply(if across >> i & 1 == 1 { Grain::Across } else { Grain::Along }, nm));
    }
    (across >> number == 0).then_some(plies)
}

fn write_outline(outline: &Outline, bytes: &mut Vec<u8>) {
    let put_length = |bytes: &mut Vec<u8>, mm: f64| put_grains(bytes, units::nm(mm));
    put_count(bytes, 2 * outline.nodes.len() as u64 + u64::from(outline.twin));
    for (i, node) in outline.nodes.iter().enumerate() {
        let (joint, angle) = match node.joint {
            Joint::Corner => (0, None),
            Joint::Smooth(angle) => (1, Some(angle)),
            Joint::Led => (2, None),
        };
        let span = match outline.spans.get(i) {
            Some(Span::Cubic { .. }) => CUBIC,
            Some(Span::Batten { .. }) => BATTEN,
            Some(Span::Laid { .. }) => LAID,
            Some(Span::Straight) | None => STRAIGHT,
        };
        bytes.push(joint + 4 * span);
        put_length(bytes, node.place.x);
        put_length(bytes, node.place.y);
        if let Some(angle) = angle {
            put_grains(bytes, units::tenmillionths_deg(angle));
        }
    }
    for span in &outline.spans {
        match *span {
            Span::Straight => {}
            Span::Cubic { start, end } => {
                for handle in [start, end] {
                    match handle {
                        Handle::Along(length) => put_length(bytes, length),
                        Handle::Free(offset) => {
                            put_length(bytes, offset.x);
                            put_length(bytes, offset.y);
                        }
                    }
                }
            }
            Span::Laid { sweep, from, to, flip, reverse } => {
                put_count(bytes, sweep as u64);
                bytes.push(u8::from(flip) + 2 * u8::from(reverse));
                put_length(bytes, from);
                put_length(bytes, to);
            }
            Span::Batten { start, end } => {
                for angle in [start, end].into_iter().flatten() {
                    put_grains(bytes, units::tenmillionths_deg(angle));
                }
            }
        }
    }
    // Of a shared design every sweep is in use, so the last one laid is the last.
    outline.sweeps.iter().for_each(|sweep| sweep::write(sweep, bytes));
}

fn read_outline(source: &mut Source<'_>) -> Option<Outline> {
    let code = source.length(2 * Outline::MOST_NODES + 1)?;
    let (number, twin) = (code / 2, code % 2 == 1);
    let length = |source: &mut Source<'_>| source.grains().map(units::from_nm);
    let mut nodes = Vec::with_capacity(number);
    let mut kinds = Vec::with_capacity(number);
    for _ in 0..number {
        let code = source.byte()?;
        let place = Point::new(length(source)?, length(source)?);
        let joint = match code % 4 {
            0 => Joint::Corner,
            1 => Joint::Smooth(units::from_tenmillionths_deg(source.grains()?)),
            2 => Joint::Led,
            _ => return None,
        };
        nodes.push(Node { place, joint });
        kinds.push(code / 4);
    }
    if kinds.pop()? != STRAIGHT {
        return None; // no span leaves the last node
    }
    let handle = |source: &mut Source<'_>, node: &Node| match node.joint {
        Joint::Corner => Some(Handle::Free(Vec2::new(length(source)?, length(source)?))),
        Joint::Smooth(_) | Joint::Led => length(source).map(Handle::Along),
    };
    let lean = |source: &mut Source<'_>, node: &Node| match node.joint {
        Joint::Corner => Some(Some(units::from_tenmillionths_deg(source.grains()?))),
        Joint::Smooth(_) | Joint::Led => Some(None),
    };
    let mut spans = Vec::with_capacity(number);
    let mut laid = 0;
    for (&kind, ends) in kinds.iter().zip(nodes.windows(2)) {
        spans.push(match kind {
            STRAIGHT => Span::Straight,
            CUBIC => Span::Cubic { start: handle(source, &ends[0])?, end: handle(source, &ends[1])? },
            BATTEN => Span::Batten { start: lean(source, &ends[0])?, end: lean(source, &ends[1])? },
            LAID => {
                let sweep = source.length(Sweep::MOST)?;
                let flags = source.byte().filter(|flags| *flags < 4)?;
                let (flip, reverse) = (flags & 1 == 1, flags & 2 == 2);
                laid = laid.max(sweep + 1);
                Span::Laid { sweep, from: length(source)?, to: length(source)?, flip, reverse }
            }
            _ => return None,
        });
    }
    let mut sweeps = Vec::with_capacity(laid);
    for _ in 0..laid {
        sweeps.push(sweep::read(source)?);
    }
    let outline = Outline { spans, nodes, twin, sweeps };
    leaderless(&outline).is_none().then_some(outline)
}
