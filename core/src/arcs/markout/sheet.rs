//! The mark-out as a figure and as a list: where to set the compass, from which bolt row.

use super::MarkOut;
use crate::{
    arcs::Arc,
    datum::Datum,
    design::Design,
    format::{
        csv,
        drawing::{Colour, Drawing, Entity, Layer, caption},
    },
    language::said,
    projection::Projection,
    say,
    units::{self, Denominator, System, Unit, rounded_entry, show},
};
use kurbo::Point;

/// A place on the blank, as a maker measures it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fix {
    /// The bolt row it is measured from: the nearest.
    pub row: &'static str,
    /// Distance from that row, mm, positive toward the nose.
    pub along: f64,
    /// Distance from the centreline, mm, positive toward the left rail.
    pub across: f64,
}

/// A place from the nearest bolt row and the centreline.
#[must_use]
pub fn fixed_from(datum: &Datum, p: Point) -> Fix {
    let rows = [
        ("tail outer row", -datum.outer_row()),
        ("tail inner row", -datum.inner_row()),
        ("nose inner row", datum.inner_row()),
        ("nose outer row", datum.outer_row()),
    ];
    let mut nearest = rows[0];
    for row in rows {
        if (p.x - row.1).abs() < (p.x - nearest.1).abs() {
            nearest = row;
        }
    }
    Fix { row: nearest.0, along: p.x - nearest.1, across: p.y }
}

/// The pieces in drawing order, as CSV in mm.
#[must_use]
pub fn csv(made: &MarkOut, datum: &Datum, projection: Projection) -> String {
    csv::print(&rows(made, datum, projection))
}

/// The pieces in drawing order in texts, their heading first, in mm.
#[must_use]
pub fn rows(made: &MarkOut, datum: &Datum, projection: Projection) -> Vec<Vec<String>> {
    let mm = |value: f64| units::decimal(value, 2);
    let heading = [
        "Piece",
        "Kind",
        "Radius mm",
        "Centre from",
        "Centre along mm",
        "Centre across mm",
        "Start from",
        "Start along mm",
        "Start across mm",
        "End from",
        "End along mm",
        "End across mm",
        "Turns from the last by deg",
        "Largest deviation of all mm",
        "Outline",
    ];
    let mut rows = vec![heading.map(str::to_owned).to_vec()];
    for (i, piece) in made.pieces.iter().enumerate() {
        let place = |p: Option<Point>| match p.map(|p| fixed_from(datum, p)) {
            Some(Fix { row, along, across }) => [row.to_owned(), mm(along), mm(across)],
            None => [const { String::new() }; 3],
        };
        let kind = if piece.is_line() { "line" } else { "arc" };
        let kink = i.checked_sub(1).and_then(|before| made.kinks.get(before));
        let mut row = vec![(i + 1).to_string(), kind.to_owned(), piece.radius().map_or_else(String::new, mm)];
        for p in [piece.centre(), Some(piece.p0), Some(piece.p1)] {
            row.extend(place(p));
        }
        row.push(kink.map_or_else(String::new, |kink| mm(kink.to_degrees())));
        row.push(mm(made.deviation));
        row.push(projection.word().to_owned());
        rows.push(row);
    }
    rows
}

/// The pieces in drawing order in words, each on lines of its own, in the units the maker reads and as fine as a rule is.
#[must_use]
pub fn list(made: &MarkOut, datum: &Datum, system: System) -> Vec<String> {
    let length = |mm: f64| [&by_rule(mm.abs(), system), " ", Unit::Length.symbol(system)].concat();
    let place = |p: Point| {
        let Fix { row, along, across } = fixed_from(datum, p);
        let side = if across < 0.0 { "right" } else { "left" };
        let [far, aside] = [along, across].map(length);
        if along < 0.0 {
            say!("{far} to the tail of the {row}, {aside} {side}", far, row, aside, side)
        } else {
            say!("{far} to the nose of the {row}, {aside} {side}", far, row, aside, side)
        }
    };
    let line = |piece: &Arc| {
        let round = match piece.radius().zip(piece.centre()) {
            Some((radius, centre)) => {
                say!("Radius {radius}\nabout {place}", radius = length(radius), place = place(centre))
            }
            None => said("Straight").to_owned(),
        };
        say!("{line}\nfrom {start}\nto {end}", line = round, start = place(piece.p0), end = place(piece.p1))
    };
    made.pieces.iter().map(line).collect()
}

/// A length as a rule reads it: to a tenth of a millimetre, or a 64th of an inch.
fn by_rule(mm: f64, system: System) -> String {
    match system {
        System::Millimetres => show(mm, Unit::Length, system).text,
        System::Inches { .. } => {
            let finest = System::Inches { denominator: Denominator::SixtyFourths };
            rounded_entry(mm, Unit::Length, finest)
        }
    }
}

/// Half the length of the arms of a centre's cross, mm.
const CROSS: f64 = 4.0;
/// Height of capitals, mm.
const TEXT: f64 = 8.0;
/// Farthest that a centre is shown from the centreline, mm: beyond, no compass reaches.
const FAR: f64 = 600.0;

/// The figure: the pieces, their ends, and the compass points that lie within reach, with their radii.
#[must_use]
pub fn drawing(design: &Design, made: &MarkOut, projection: Projection, system: System) -> Drawing {
    let shape = design.shape();
    let cross = |p: Point| {
        let arm = |x: f64, y: f64| Entity::Line(Point::new(p.x - x, p.y - y), Point::new(p.x + x, p.y + y));
        [arm(CROSS, 0.0), arm(0.0, CROSS)]
    };
    let ends = made.pieces.iter().map(|piece| piece.p0).chain(made.pieces.last().map(|piece| piece.p1));
    let across = ends.map(|p| Entity::Line(Point::new(p.x, p.y - CROSS), Point::new(p.x, p.y + CROSS)));
    let within_reach = |piece: &Arc| piece.centre().filter(|centre| centre.y.abs() <= FAR);
    let radius = |i: usize, piece: &Arc| {
        let of = |radius| [": R ", &by_rule(radius, system)].concat();
        [(i + 1).to_string(), piece.radius().map_or_else(|| said(": straight").to_owned(), of)].concat()
    };
    let centres = made.pieces.iter().enumerate().filter_map(|(i, piece)| {
        let centre = within_reach(piece)?;
        let at = Point::new(centre.x + CROSS, centre.y + CROSS);
        let [along, up] = cross(centre);
        Some([along, up, Entity::Text { at, height: TEXT, text: radius(i, piece) }])
    });
    // Beside the middle of its piece, on the inner side.
    let numbers = made.pieces.iter().enumerate().map(|(i, piece)| {
        let middle = piece.point(0.5);
        let at = Point::new(middle.x - TEXT / 2.0, middle.y - 2.0 * TEXT);
        // What has no compass point in the figure says here what it is.
        let text = if within_reach(piece).is_some() { (i + 1).to_string() } else { radius(i, piece) };
        Entity::Text { at, height: TEXT, text }
    });
    let holes = shape.datum.holes().into_iter().filter(|hole| hole.y > 0.0);
    let holes = holes.map(|hole| projection.point(shape, hole));
    let bore = shape.datum.hole_diameter / 2.0;
    let tips = made.pieces.first().zip(made.pieces.last());
    let centreline = tips.map(|(first, last): (&Arc, &Arc)| Entity::Line(first.p0, last.p1));
    let layers = vec![
        Layer::new("mark-out", Colour::Black, [Entity::Open(made.pieces.clone())]),
        Layer::new("mark-out-ends", Colour::Green, across),
        Layer::new("mark-out-centres", Colour::Magenta, centres.flatten()),
        Layer::new("mark-out-numbers", Colour::Black, numbers),
        Layer::new("holes", Colour::Red, holes.map(|centre| Entity::Circle { centre, radius: bore })),
        Layer::new("centreline", Colour::Blue, centreline),
        Layer::new("text", Colour::Black, [caption(design, projection)]),
    ];
    Drawing { name: design.name().to_owned(), part: "mark-out", projection, layers }
}
