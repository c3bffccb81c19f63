//! A table of stations and half-breadths as people type, paste or save it, read into rows.
//!
//! Columns stand apart by tabs, semicolons, commas or spaces, whichever the text has, in this order; a comma between digits
//! is a decimal mark wherever something else stands between columns. Lengths are read as everywhere on the page: with
//! units, inches and fractions. The first line may be a header in any words.

mod error;
mod split;

pub use self::error::{Fault, TableError};
use self::split::Columns;
use crate::units::{System, Unit, parse};

/// The longest text that is read, in bytes: a thousand rows take a tenth of it.
pub const LONGEST: usize = 200_000;
/// Most rows of one table.
pub const MOST_ROWS: usize = 400;

/// One row: what was measured across the deck at one station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// The line of the text it stands on, from 1.
    pub line: usize,
    /// The station as given, mm.
    pub station: f64,
    /// What was measured there, mm: to the left rail, or across both.
    pub breadth: f64,
    /// What was measured to the right rail, where that has a column of its own, mm.
    pub right: Option<f64>,
}

/// The rows of a table, in the order of the text; a number without a unit is in that of `system`.
///
/// # Errors
///
/// A [`TableError`] that names the line at fault.
pub fn read(text: &str, system: System) -> Result<Vec<Row>, TableError> {
    if text.len() > LONGEST {
        return Err(TableError::TooLong(text.len()));
    }
    let text = text.trim_start_matches('\u{feff}');
    let columns = Columns::of(text);
    let mut rows: Vec<Row> = Vec::new();
    let mut headers = 0;
    for (i, line) in lines(text).enumerate() {
        let number = i + 1;
        let cells = columns.cells(line);
        if cells.iter().all(|cell| cell.is_empty()) {
            continue;
        }
        if rows.is_empty() && headers < 3 && is_header(&cells, system) {
            headers += 1;
            continue;
        }
        let at = |fault| TableError::Line { line: number, fault };
        rows.push(row(number, &cells, columns, system).map_err(at)?);
        if rows.len() > MOST_ROWS {
            return Err(TableError::TooManyRows);
        }
    }
    if rows.is_empty() { Err(TableError::Empty) } else { Ok(rows) }
}

/// Lines ended as by any system.
fn lines(text: &str) -> impl Iterator<Item = &str> {
    text.split('\n').flat_map(|line| line.strip_suffix('\r').unwrap_or(line).split('\r'))
}

/// Whether no cell that something stands in is a length.
fn is_header(cells: &[String], system: System) -> bool {
    cells.iter().all(|cell| parse(cell, Unit::Length, system).is_err())
}

fn row(line: usize, cells: &[String], columns: Columns, system: System) -> Result<Row, Fault> {
    // A spreadsheet may hang empty columns on every line.
    let used = cells.iter().rposition(|cell| !cell.is_empty()).map_or(0, |last| last + 1);
    if let [only] = &cells[..used] {
        parse(only, Unit::Length, system).map_err(Fault::Unreadable)?; // a word beside a figure is taken for its unit
    }
    if !(2..=3).contains(&used) {
        return Err(Fault::Columns { found: used, comma: columns == Columns::Commas && used > 3 });
    }
    let mut lengths = [0.0; 3];
    for (length, cell) in lengths.iter_mut().zip(&cells[..used]) {
        *length = parse(cell, Unit::Length, system).map_err(Fault::Unreadable)?;
    }
    let [station, breadth, right] = lengths;
    let right = (used == 3).then_some(right);
    if breadth < 0.0 || right.is_some_and(|right| right < 0.0) {
        return Err(Fault::Negative);
    }
    Ok(Row { line, station, breadth, right })
}

#[cfg(test)]
mod tests;
