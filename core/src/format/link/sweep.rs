//! Sweeps in a link. Part of the frozen layout of version 1, which `v1.rs` describes.

use super::bytes::{Source, put_count, put_grains, put_text};
use crate::{
    curve::family::Family,
    outline::{Leg, Sweep, SweepCurve},
    units::{self, Unit},
};
use kurbo::Point;

/// The dimensions of the families.
const FAMILIES: [&[Unit]; 4] = [
    &[Unit::Length, Unit::Angle],
    &[Unit::Length, Unit::Length],
    &[Unit::Length, Unit::Length, Unit::Ratio],
    &[Unit::Length, Unit::Length],
];

pub(super) fn write(sweep: &Sweep, bytes: &mut Vec<u8>) {
    put_text(bytes, sweep.name());
    match sweep.curve() {
        SweepCurve::Family(family) => {
            let (kind, numbers) = family.numbers();
            put_count(bytes, kind as u64);
            for (number, unit) in numbers.into_iter().zip(FAMILIES[kind]) {
                put_grains(bytes, units::stored(number, *unit));
            }
        }
        SweepCurve::Own(legs) => {
            put_count(bytes, (FAMILIES.len() + legs.len()) as u64);
            for leg in legs {
                write_leg(leg, bytes);
            }
        }
    }
}

fn write_leg(leg: &Leg, bytes: &mut Vec<u8>) {
    let put_place = |bytes: &mut Vec<u8>, p: Point| {
        put_grains(bytes, units::nm(p.x));
        put_grains(bytes, units::nm(p.y));
    };
    match *leg {
        Leg::Cubic(p1, p2, p3) => {
            bytes.push(0);
            for p in [p1, p2, p3] {
                put_place(bytes, p);
            }
        }
        Leg::Spiral(start, end, to) => {
            bytes.push(1);
            put_grains(bytes, units::tenmillionths_deg(start));
            put_grains(bytes, units::tenmillionths_deg(end));
            put_place(bytes, to);
        }
    }
}

/// The next sweep; `None` where there is none, or where it has no curve.
pub(super) fn read(source: &mut Source<'_>) -> Option<Sweep> {
    let name = source.text()?.to_owned();
    let kind = source.length(FAMILIES.len() + Sweep::MOST_LEGS)?;
    let curve = if let Some(units) = FAMILIES.get(kind) {
        let mut numbers = [0.0; 3];
        for (number, unit) in numbers.iter_mut().zip(*units) {
            *number = units::from_stored(source.grains()?, *unit);
        }
        SweepCurve::Family(Family::of_numbers(kind, numbers))
    } else {
        let mut legs = Vec::new();
        for _ in FAMILIES.len()..kind {
            legs.push(read_leg(source)?);
        }
        SweepCurve::Own(legs)
    };
    Sweep::new(&name, curve).ok()
}

fn read_leg(source: &mut Source<'_>) -> Option<Leg> {
    let length = |source: &mut Source<'_>| source.grains().map(units::from_nm);
    let angle = |source: &mut Source<'_>| source.grains().map(units::from_tenmillionths_deg);
    let place = |source: &mut Source<'_>| Some(Point::new(length(source)?, length(source)?));
    match source.byte()? {
        0 => Some(Leg::Cubic(place(source)?, place(source)?, place(source)?)),
        1 => Some(Leg::Spiral(angle(source)?, angle(source)?, place(source)?)),
        _ => None,
    }
}
