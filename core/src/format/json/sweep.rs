//! Sweeps as JSON: a family by its word and dimensions, an own curve by its legs.
//!
//! ```json
//! "sweeps": [
//!   { "name": "round nose", "family": "superellipse", "along": 160000000, "across": 100000000, "exponent": 2400000 },
//!   { "name": "my tail", "legs": [{ "kind": "spiral", "start": 0, "end": -71000000, "x": 61000000, "y": -4000000 }, …] }
//! ]
//! ```
//!
//! Dimensions and places are nanometres, angles ten-millionths of a degree, an exponent millionths. A leg begins where
//! the one before ends, the first at the origin; a cubic leg has its off-curve points and its end as
//! `"points": [x, y, x, y, x, y]`.

use super::{
    Object, Value,
    cursor::{At, Read},
};
use crate::{
    curve::family::Family,
    outline::{Leg, Sweep, SweepCurve},
    units::{self, Unit},
};
use kurbo::Point;

/// The words of the families, each with the keys of its dimensions and their units.
const FAMILIES: [(&str, &[(&str, Unit)]); 4] = [
    ("arc", &[("radius", Unit::Length), ("turn", Unit::Angle)]),
    ("ellipse", &[("along", Unit::Length), ("across", Unit::Length)]),
    ("superellipse", &[("along", Unit::Length), ("across", Unit::Length), ("exponent", Unit::Ratio)]),
    ("clothoid", &[("radius", Unit::Length), ("length", Unit::Length)]),
];

pub(super) fn read(at: At<'_>) -> Read<Sweep> {
    let name = at.get("name")?.map_or(Ok(""), |name| name.text())?;
    let curve = match at.get("family")? {
        Some(word) => {
            let kind = word.word(&core::array::from_fn::<_, 4, _>(|kind| (FAMILIES[kind].0, kind)))?;
            let mut numbers = [0.0; 3];
            for (number, (key, unit)) in numbers.iter_mut().zip(FAMILIES[kind].1) {
                *number = at.need(key)?.quantity(*unit)?;
            }
            SweepCurve::Family(Family::of_numbers(kind, numbers))
        }
        None => SweepCurve::Own(at.need("legs")?.each(Sweep::MOST_LEGS, leg)?),
    };
    Sweep::new(name, curve).map_err(|refusal| at.refused(refusal))
}

fn leg(at: At<'_>) -> Read<Leg> {
    if at.need("kind")?.word(&[("cubic", true), ("spiral", false)])? {
        let points = at.need("points")?;
        let numbers = points.each(6, |number| number.quantity(Unit::Length))?;
        let [a, b, c, d, e, f] = numbers[..] else { return Err(points.not("[x, y, x, y, x, y]")) };
        return Ok(Leg::Cubic(Point::new(a, b), Point::new(c, d), Point::new(e, f)));
    }
    let number = |key, unit| at.need(key)?.quantity(unit);
    let to = Point::new(number("x", Unit::Length)?, number("y", Unit::Length)?);
    Ok(Leg::Spiral(number("start", Unit::Angle)?, number("end", Unit::Angle)?, to))
}

pub(super) fn write(sweep: &Sweep) -> Value {
    let mut known = Object::from_iter([("name", sweep.name().into())]);
    match sweep.curve() {
        SweepCurve::Family(family) => {
            let (kind, numbers) = family.numbers();
            let (word, dimensions) = FAMILIES[kind];
            known.push("family", word.into());
            for (number, (key, unit)) in numbers.into_iter().zip(dimensions) {
                known.push(key, grains(number, *unit));
            }
        }
        SweepCurve::Own(legs) => known.push("legs", legs.iter().map(write_leg).collect()),
    }
    Value::Object(known)
}

fn write_leg(leg: &Leg) -> Value {
    match *leg {
        Leg::Cubic(p1, p2, p3) => {
            let numbers = [p1, p2, p3].into_iter().flat_map(|p| [p.x, p.y]);
            let points = numbers.map(|mm| grains(mm, Unit::Length)).collect();
            Value::object([("kind", "cubic".into()), ("points", points)])
        }
        Leg::Spiral(start, end, to) => Value::object([
            ("kind", "spiral".into()),
            ("start", grains(start, Unit::Angle)),
            ("end", grains(end, Unit::Angle)),
            ("x", grains(to.x, Unit::Length)),
            ("y", grains(to.y, Unit::Length)),
        ]),
    }
}

fn grains(value: f64, unit: Unit) -> Value {
    Value::from(units::stored(value, unit))
}
