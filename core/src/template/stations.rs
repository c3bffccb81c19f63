//! The table of offsets: half-breadths at stations from the datum, as boatbuilders keep them, and at every named place.

use crate::{
    design::{Design, Shape},
    format::{
        csv,
        drawing::{Colour, Drawing, Entity, Layer, caption},
    },
    language,
    measure::Measured,
    order::sort_by_number,
    outline::Half,
    projection::Projection,
    units::{self, System, Unit, show},
};
use kurbo::{ParamCurve, Point};

/// One row of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Station {
    /// Distance from the datum, mm, positive toward the nose.
    pub x: f64,
    /// What is there; empty at a plain station.
    pub name: &'static str,
    /// Distances of the edge from the centreline, mm, the largest (the half-breadth) first; several where the edge folds
    /// back.
    pub crossings: Vec<f64>,
}

/// Places nearer to one another along an edge than this, mm, are one crossing: a joint is met from both its sides.
const SAME: f64 = 1e-6;

/// Plain stations nearer to one another than this, mm, would fill a book: then there are none.
const CLOSEST: f64 = 1.0;

/// Distance between plain stations, mm: 25 mm, or an inch (common practice, no source).
#[must_use]
pub fn spacing(system: System) -> f64 {
    match system {
        System::Millimetres => 25.0,
        System::Inches { .. } => units::inches(1.0),
    }
}

/// The table of one deck, tail to nose: plain stations every `spacing` mm (1 at least) from the datum, and the named places.
#[must_use]
pub fn table(shape: &Shape, projection: Projection, spacing: f64) -> Vec<Station> {
    let half = shape.outline.resolve();
    let mut places = named(shape);
    let ends = places.iter().map(|place| place.0);
    let (tail, nose) = ends.fold((0.0_f64, 0.0_f64), |(tail, nose), x| (tail.min(x), nose.max(x)));
    let from_above = |x: f64| projection.point(shape, Point::new(x, 0.0)).x;
    if spacing.is_finite() && spacing >= CLOSEST {
        let last = from_above(nose);
        let mut i = (from_above(tail) / spacing).ceil();
        while i * spacing <= last {
            places.push((developed(i * spacing, tail, nose, from_above), ""));
            i += 1.0;
        }
    }
    // Both outlines have their crossings where the sheet has them: stations do not mix when it is bent.
    let station = |(x, name): (f64, &'static str)| {
        let seen = |y: f64| projection.point(shape, Point::new(x, y)).y;
        Station { x: from_above(x), name, crossings: crossings(&half, x).into_iter().map(seen).collect() }
    };
    let stations = places.into_iter().map(station);
    let mut stations: Vec<Station> = stations.filter(|station| !station.crossings.is_empty()).collect();
    sort_by_number(&mut stations, |station| station.x);
    // A plain station where a named place is says nothing more.
    let named: Vec<f64> = stations.iter().filter(|s| !s.name.is_empty()).map(|s| s.x).collect();
    stations.retain(|s| !s.name.is_empty() || named.iter().all(|x| (x - s.x).abs() > SAME));
    stations
}

/// The station of the sheet that is seen at `x` from above, by halving.
fn developed(x: f64, tail: f64, nose: f64, from_above: impl Fn(f64) -> f64) -> f64 {
    // On the flat between the bends, and on the sheet itself, it is the same to the bit.
    if (from_above(x) - x).abs() <= 0.0 {
        return x;
    }
    let (mut below, mut above) = (tail, nose);
    for _ in 0..60 {
        let middle = f64::midpoint(below, above);
        if from_above(middle) <= x { below = middle } else { above = middle }
    }
    below
}

/// The named places of a deck with their developed stations.
fn named(shape: &Shape) -> Vec<(f64, &'static str)> {
    let measured = Measured::of(shape);
    let (datum, profile) = (&shape.datum, &shape.profile);
    let mut places = vec![(0.0, DATUM)];
    let ends = [(-1.0, &measured.tail, &profile.tail, TAIL), (1.0, &measured.nose, &profile.nose, NOSE)];
    for (sign, end, kick, [tip, shoulder, bend, outer, axle, inner]) in ends {
        places.push((sign * end.end.x, tip));
        places.extend(end.shoulder.map(|at| (sign * at.at.x, shoulder)));
        if kick.kicks() {
            places.push((sign * (datum.outer_row() + kick.bend_line), bend));
        }
        places.push((sign * datum.outer_row(), outer));
        places.push((sign * datum.truck_centre(), axle));
        places.push((sign * datum.inner_row(), inner));
    }
    places.extend(measured.waist().map(|waist| (waist.at.x, "waist")));
    let widest = measured.envelope.stretches().iter().flat_map(|stretch| [stretch.start, stretch.end]);
    places.extend(widest.reduce(|a, b| if b.y > a.y { b } else { a }).map(|p| (p.x, "widest")));
    places
}

const DATUM: &str = "datum";
const TAIL: [&str; 6] = [
    "tail end",
    "tail shoulder",
    "tail bend line",
    "tail outer bolt row",
    "tail axle",
    "tail inner bolt row",
];
const NOSE: [&str; 6] = [
    "nose end",
    "nose shoulder",
    "nose bend line",
    "nose outer bolt row",
    "nose axle",
    "nose inner bolt row",
];

/// All distances of the edge from the centreline at station `x`, the largest first.
fn crossings(half: &Half, x: f64) -> Vec<f64> {
    let mut found: Vec<f64> = Vec::new();
    for piece in half.pieces() {
        found.extend(piece.at_x(x).map(|t| piece.curve.eval(t).y));
        // A stretch that stays at the station is met at both its ends.
        let on = |p: Point| (p.x - x).abs() <= SAME;
        found.extend([piece.curve.p0, piece.curve.p3].into_iter().filter(|p| on(*p)).map(|p| p.y));
    }
    sort_by_number(&mut found, |y| -*y);
    found.dedup_by(|a, b| (*a - *b).abs() <= SAME);
    found
}

/// Height of the figures in a drawing of the table, mm: six of them stand side by side from one station to the next.
const FIGURES: f64 = 5.0;

/// The table in lines, in the units the maker reads.
#[must_use]
pub fn list(stations: &[Station], system: System) -> Vec<String> {
    let length = |mm: f64| show(mm, Unit::Length, system).to_string();
    let line = |station: &Station| {
        let mut line = length(station.x);
        for (i, y) in station.crossings.iter().enumerate() {
            line += if i == 0 { ": " } else { "; " };
            line += &length(*y);
        }
        let comma = if station.name.is_empty() { "" } else { ", " };
        [&line, comma, language::said(station.name)].concat()
    };
    stations.iter().map(line).collect()
}

/// The table as a figure: a line to the edge at every station, with the station and the half-breadth at the plain ones and the datum.
#[must_use]
pub fn drawing(design: &Design, stations: &[Station], projection: Projection, system: System) -> Drawing {
    let line = |station: &Station| {
        let y = station.crossings.first().copied().unwrap_or(0.0);
        Entity::Line(Point::new(station.x, 0.0), Point::new(station.x, y))
    };
    let text = |station: &Station, value: f64, y: f64| {
        let at = Point::new(station.x, y);
        Entity::Text { at, height: FIGURES, text: show(value, Unit::Length, system).text }
    };
    let plain = stations.iter().filter(|station| station.name.is_empty() || station.name == DATUM);
    let figures = plain.flat_map(|station| {
        let y = station.crossings.first().copied().unwrap_or(0.0);
        [text(station, station.x, -2.0 * FIGURES), text(station, y, y + FIGURES)]
    });
    let ends = stations
        .first()
        .zip(stations.last())
        .map(|(first, last)| Entity::Line(Point::new(first.x, 0.0), Point::new(last.x, 0.0)));
    let outline = Entity::Symmetric(projection.half(design.shape()));
    let layers = vec![
        Layer::new("outline", Colour::Black, [outline]),
        Layer::new("offsets", Colour::Green, stations.iter().map(line)),
        Layer::new("centreline", Colour::Blue, ends),
        Layer::new("text", Colour::Black, figures.chain([caption(design, projection)])),
    ];
    Drawing { name: design.name().to_owned(), part: "offsets", projection, layers }
}

/// The table as CSV: see [`rows`].
#[must_use]
pub fn csv(stations: &[Station], projection: Projection) -> String {
    csv::print(&rows(stations, projection))
}

/// The table in texts, its heading first: in mm to two places, and in inches to fractions.
#[must_use]
pub fn rows(stations: &[Station], projection: Projection) -> Vec<Vec<String>> {
    let inches = System::Inches { denominator: units::Denominator::SixtyFourths };
    let mm = |value: f64| units::decimal(value, 2);
    let inch = |value: f64| fraction(&show(value, Unit::Length, inches).text);
    let heading = [
        "Station mm",
        "Half-breadth mm",
        "Further crossings mm",
        "Station in",
        "Half-breadth in",
        "Further crossings in",
    ];
    let said = |title: &str| format!("{title} ({})", projection.word());
    let mut rows = vec![heading.into_iter().map(said).collect::<Vec<_>>()];
    rows[0].push("Place".to_owned());
    for Station { x, name, crossings } in stations {
        let first = crossings.first().copied().unwrap_or(f64::NAN);
        let further = |text: &dyn Fn(f64) -> String| {
            crossings.iter().skip(1).map(|y| text(*y)).collect::<Vec<_>>().join("; ")
        };
        rows.push(vec![
            mm(*x),
            mm(first),
            further(&mm),
            inch(*x),
            inch(first),
            further(&inch),
            (*name).to_owned(),
        ]);
    }
    rows
}

/// A shown length in inches with signs every program reads; a bare fraction after a 0, or a spreadsheet takes it for a
/// day of the year.
fn fraction(shown: &str) -> String {
    let mut text = shown.replace('−', "-");
    let start = text.find(|c: char| c.is_ascii_digit()).unwrap_or(0);
    let figures = text.get(start..).unwrap_or_default();
    if figures.contains('/') && !figures.contains(' ') {
        text.insert_str(start, "0 ");
    }
    text.replace('≈', "~")
}

#[cfg(test)]
mod tests;
