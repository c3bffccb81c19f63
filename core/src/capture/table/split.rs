//! What stands between the columns of a table, and its cells.

use crate::units::common_fraction;

/// What stands between columns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Columns {
    /// Tabs: pasted from a spreadsheet.
    Tabs,
    /// Semicolons: a file where the comma is the decimal mark.
    Semicolons,
    /// Commas.
    Commas,
    /// Spaces.
    Spaces,
}

impl Columns {
    /// What stands between the columns of this text.
    pub(super) fn of(text: &str) -> Self {
        if text.bytes().any(|byte| byte == b'\t') {
            Self::Tabs
        } else if text.bytes().any(|byte| byte == b';') {
            Self::Semicolons
        } else if text.split('\n').any(|line| comma_separates(line.as_bytes())) {
            Self::Commas
        } else {
            Self::Spaces
        }
    }

    /// The cells of a line, without the spaces and quotes round them.
    pub(super) fn cells(self, line: &str) -> Vec<String> {
        match self {
            Self::Tabs => parted(line, b'\t'),
            Self::Semicolons => parted(line, b';'),
            Self::Commas => parted(line, b','),
            Self::Spaces => spaced(line),
        }
    }
}

/// Whether a comma of this line stands between columns: not between two digits, or in a line that has a point as well or
/// nothing else between its figures.
fn comma_separates(line: &[u8]) -> bool {
    let has_point = line.contains(&b'.');
    let trimmed = line.trim_ascii();
    let has_space = trimmed.contains(&b' ');
    let is_digit = |i: Option<usize>| i.and_then(|i| trimmed.get(i)).is_some_and(u8::is_ascii_digit);
    let first = trimmed
        .first()
        .is_some_and(|byte| byte.is_ascii_digit() || matches!(byte, b'-' | b'+' | b'.' | b'"'));
    (0..trimmed.len()).any(|i| {
        let between = is_digit(i.checked_sub(1)) && is_digit(Some(i + 1));
        trimmed[i] == b',' && first && (!between || has_point || !has_space)
    })
}

/// A line cut at a mark that does not stand in quotes.
fn parted(line: &str, mark: u8) -> Vec<String> {
    let mut cells = Vec::new();
    let (mut from, mut quoted, mut fresh) = (0, false, true);
    for (i, byte) in line.bytes().enumerate() {
        // A quote opens a cell only where it begins it: elsewhere it means inches.
        if byte == b'"' && (fresh || quoted) {
            quoted = !quoted;
        } else if byte == mark && !quoted {
            cells.push(cell(line.get(from..i).unwrap_or_default()));
            from = i + 1;
            fresh = true;
            continue;
        }
        fresh &= byte == b' ';
    }
    cells.push(cell(line.get(from..).unwrap_or_default()));
    cells
}

fn cell(text: &str) -> String {
    let text = text.trim();
    let inner = text.strip_prefix('"').and_then(|text| text.strip_suffix('"'));
    let Some(inner) = inner else { return text.to_owned() };
    // Two quotes in a quoted cell are one.
    let (mut cell, mut is_kept) = (String::with_capacity(inner.len()), false);
    for c in inner.chars() {
        is_kept = c == '"' && !is_kept;
        if c != '"' || is_kept {
            cell.push(c);
        }
    }
    cell
}

/// A line cut at its spaces; a fraction belongs to the whole number before it, and a unit to its figure.
fn spaced(line: &str) -> Vec<String> {
    let mut cells: Vec<String> = Vec::new();
    for word in line.split_whitespace() {
        let starts_number =
            word.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '-' | '+' | '−' | '.'));
        // Signs of fractions are the only figures beyond plain ones that people type.
        let is_sign = |c: char| common_fraction(c).is_some();
        let is_fraction = word.bytes().any(|byte| byte == b'/') || word.chars().all(is_sign);
        match cells.last_mut() {
            Some(last) if is_fraction && last.bytes().all(|byte| byte.is_ascii_digit() || byte == b'-') => {
                last.push(' ');
                last.push_str(word);
            }
            Some(last)
                if !starts_number
                    && !is_fraction
                    && last.starts_with(|c: char| {
                        c.is_ascii() && !c.is_ascii_alphabetic() || c == '−' || is_sign(c)
                    }) =>
            {
                last.push(' ');
                last.push_str(word);
            }
            _ => cells.push(word.to_owned()),
        }
    }
    cells
}
