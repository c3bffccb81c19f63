//! A shape taken from a table of stations and half-breadths: a fair edge of few pins, with what was measured beside it.
//!
//! The edge is a batten through the fewest pins that foretell the measurements, square to the centreline at its tips. A tip
//! that was not measured slides to where the batten wants it. What lies off a fair edge is left out and pointed out.

mod ends;
mod error;
mod options;
mod outliers;

pub use self::{
    error::MeasuredError,
    options::{From, Options},
};
use super::{
    Asymmetry, Found, Taken,
    table::{Fault, Row, TableError},
};
use crate::{
    curve::{
        batten,
        fit::{Fitted, fit_places},
    },
    design::Shape,
    language::{figure, said},
    order::sort_by_number,
    outline::{Joint, Node, Outline, Span},
    say,
    tolerance::NODE_GAP,
    units::decimal,
};
use ends::Ends;
use kurbo::Point;

/// Fewest stations beside the tips that a shape is drawn from.
pub const FEWEST: usize = 4;
/// Farthest that a station may lie from the datum, mm: twice what the longest deck reaches.
const FARTHEST: f64 = 1500.0;
/// Largest difference of left and right that still is one deck's, mm (common practice, no source).
const APART: f64 = 30.0;
/// Weight of the guess where a tip lies that was not measured: a hint of a few millimetres beside measurements good to a half.
const GUESS: f64 = 0.02;
/// A half-breadth below this, mm, is none: the edge meets the centreline there.
const NOTHING: f64 = 0.05;

/// A measurement laid onto the developed sheet.
#[derive(Clone, Copy, Debug)]
struct Mark {
    at: Point,
    line: usize,
}

/// The shape that rows of a table describe. `shape` gives the bolt holes, and the pressed shape to develop by; with
/// stations from a tip also where that tip lies, unless the options say.
///
/// # Errors
///
/// [`MeasuredError`], with the line at fault.
pub fn fit(rows: &[Row], options: &Options, shape: &Shape) -> Result<Taken, MeasuredError> {
    options.check()?;
    let mut marks = Vec::new();
    let mut asymmetry: Option<Asymmetry> = None;
    for row in rows {
        let at = options.place(row, shape).map_err(|fault| line(row.line, fault))?;
        if let Some(right) = row.right {
            let apart = (row.breadth - right).abs();
            if asymmetry.is_none_or(|found| apart > found.most) {
                asymmetry = Some(Asymmetry { most: apart, at });
            }
        }
        marks.push(Mark { at, line: row.line });
    }
    sort_by_number(&mut marks, |mark| mark.at.x);
    for pair in marks.windows(2) {
        if pair[1].at.x - pair[0].at.x < NODE_GAP {
            let (earlier, later) = (pair[0].line.min(pair[1].line), pair[0].line.max(pair[1].line));
            return Err(line(later, Fault::Duplicate { earlier }));
        }
    }
    let ends = Ends::of(&mut marks, options, shape)?;
    if marks.len() < FEWEST {
        return Err(MeasuredError::TooFew { found: marks.len() });
    }
    let suspects = outliers::find(&marks, &ends, options.tolerance);
    let kept: Vec<Mark> = marks.iter().filter(|mark| !suspects.contains(&mark.line)).copied().collect();
    let outline = outline(&lay(&kept, &ends, options.tolerance)?, &ends).ok_or(MeasuredError::Wild)?;
    let found = |mark: &Mark| Found {
        at: mark.at,
        residual: off(&outline, mark.at),
        suspect: suspects.contains(&mark.line),
        line: mark.line,
    };
    let points: Vec<Found> = marks.iter().map(found).collect();
    let mut taken = Taken { outline, datum: None, points, asymmetry, remarks: Vec::new() };
    taken.remarks = remarks(&taken, &ends);
    Ok(taken)
}

fn line(line: usize, fault: Fault) -> MeasuredError {
    MeasuredError::Table(TableError::Line { line, fault })
}

/// The batten laid through marks and tips.
fn lay(marks: &[Mark], ends: &Ends, tolerance: f64) -> Result<Fitted, MeasuredError> {
    let mut places = Vec::with_capacity(marks.len() + 2);
    places.push(ends.first());
    places.extend(marks.iter().map(|mark| mark.at));
    places.push(ends.last());
    let mut weights = vec![1.0; places.len()];
    weights[0] = GUESS;
    weights[places.len() - 1] = GUESS;
    let mut fitted = fit_places(&places, &weights, ends.clamps(), ends.slides(), tolerance)
        .map_err(|_| MeasuredError::Wild)?;
    fitted.asides.pop();
    fitted.asides.remove(0);
    Ok(fitted)
}

/// The pins as a chain, tail to nose; none where no batten runs through them.
fn outline(fitted: &Fitted, ends: &Ends) -> Option<Outline> {
    let pins = &fitted.pins;
    let angles = batten::solve(pins, ends.clamps(), None).ok()?;
    let last = pins.len() - 1;
    let mut chain = Outline { nodes: Vec::new(), spans: Vec::new(), twin: false, sweeps: Vec::new() };
    if ends.blunt[0] {
        chain.nodes.push(Node { place: Point::new(pins[0].x, 0.0), joint: Joint::Led });
        chain.spans.push(Span::Straight);
    }
    for (i, (&place, &angle)) in pins.iter().zip(&angles).enumerate() {
        let end = usize::from(i == last);
        let joint = match i {
            _ if i > 0 && i < last => Joint::Smooth(angle),
            _ if ends.blunt[end] => Joint::Corner,
            _ => Joint::Led,
        };
        chain.nodes.push(Node { place, joint });
        if i < last {
            let lean = |pin: usize, blunt: bool| blunt.then(|| angles[pin]);
            let start = lean(0, i == 0 && ends.blunt[0]);
            let end = lean(last, i + 1 == last && ends.blunt[1]);
            chain.spans.push(Span::Batten { start, end });
        }
    }
    if ends.blunt[1] {
        chain.spans.push(Span::Straight);
        chain.nodes.push(Node { place: Point::new(pins[last].x, 0.0), joint: Joint::Led });
    }
    chain.settle();
    chain.relax().ok()?;
    Some(chain)
}

/// How far outside the chain a point lies, mm.
pub(super) fn off(chain: &Outline, p: Point) -> f64 {
    let mut best = (0.0, f64::INFINITY);
    for s in 0..chain.spans.len() {
        let course = chain.course(s);
        let (t, distance) = course.nearest(p);
        if distance < best.1 {
            let along = crate::real::unit_vector(course.tangent(t));
            best = (distance.copysign(along.cross(p - course.point(t))), distance);
        }
    }
    best.0
}

fn remarks(taken: &Taken, ends: &Ends) -> Vec<String> {
    let mut remarks = Vec::new();
    for (end, words) in [
        (0, "The tail’s tip was not measured: a fair edge puts it where it is drawn."),
        (1, "The nose’s tip was not measured: a fair edge puts it where it is drawn."),
    ] {
        if ends.slides()[end] {
            remarks.push(said(words).to_owned());
        }
    }
    if let Some(Asymmetry { most, .. }) = taken.asymmetry {
        remarks.push(say!(
            "Left and right differ by {most} mm at the most; their mean is drawn.",
            most = figure(decimal(most, 1))
        ));
    }
    remarks
}

#[cfg(test)]
mod tests;
