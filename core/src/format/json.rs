//! The maker's file: a design as plain JSON, with fixed key order and whole numbers only.
//!
//! ```json
//! {
//!   "format": "halfbreadth",
//!   "version": 1,
//!   "unit": "nm, 1e-7 degree, 1e-8 of the whole, ug/m2",
//!   "name": "Turnstone",
//!   "notes": "",
//!   "shape": {
//!     "datum": { "wheelbase": 361950000, … },
//!     "outline": {
//!       "twin": false,
//!       "rail-tolerance": 500000,
//!       "nodes": [{ "x": -400050000, "y": 0, "joint": "smooth" }, { …, "joint": "smooth", "angle": 47008051 }, …],
//!       "spans": [{ "kind": "cubic", "start": 83940000, "end": 37465991 }, { "kind": "straight" }, …]
//!     },
//!     "profile": { "nose-bend-line": 19050000, … },
//!     "layup": { "blank-length": 838200000, …, "plies": [{ "thickness": 1500000, "grain": "L", "wood": "sugar-maple" }, …] }
//!   },
//!   "workshop": { "wood": { "moisture": 7000000, … }, "mould": { "name": "", "locked": false, … }, … },
//!   "records": [{ "serial": "1", "date": "2026-03-14", "graded": [1, 7], "day-glue": 265000000, … }],
//!   "versions": [{ "name": "first", "note": "", "date": "2026-03-07", "shape": { … } }]
//! }
//! ```
//!
//! * A number is a whole count of grains (see [`units`](crate::units)): nanometres, ten-millionths of a degree and
//!   so on.
//! * The settings of a part go by their keys in [`quantities::SETTINGS`](crate::quantities::SETTINGS); one that is
//!   missing has the value of the first demo deck, so that settings can be added without a new version. Nodes and
//!   spans must be there.
//! * A smooth node has an `angle` unless its tip, the middle of a twin, or a straight span
//!   or a laid sweep beside it gives the tangent.
//! * A handle is a length along the tangent of a smooth node, or `[along, across]` as seen from a corner.
//! * A laid span is `{ "kind": "laid", "sweep": 0, "from": …, "to": …, "flip": false, "reverse": false }` with its two
//!   marks as lengths along the sweep of that index in the outline's `"sweeps"`, which stand after its spans where
//!   there are any: `json/sweep.rs`.
//! * The workshop's numbers go by their keys in [`INPUTS`](crate::workshop::INPUTS) and those of a record by theirs in
//!   [`MEASURED`](crate::workshop::record::MEASURED); an empty one is left out.
//! * Keys that this version does not know are kept beside the design and written back after the known ones; not so
//!   inside lists, whose entries an edit may renumber.
//!
//! A script's design object is the same tree as a [`Value`] ([`from_value`], [`to_value`]).

mod cursor;
mod error;
mod extras;
mod reading;
mod sweep;
mod value;
mod workshop;
mod writing;

pub use error::{ReadError, Wrong};
pub use value::{NotJson, Number, Object, Value};

use crate::design::Design;

/// A design as a file holds it.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// The design.
    pub design: Design,
    /// What the file said besides, by the same path.
    pub extras: Object,
}

impl From<Design> for Document {
    fn from(design: Design) -> Self {
        Self { design, extras: Object::default() }
    }
}

/// What `format` says in every file.
const FORMAT: &str = "halfbreadth";
/// The layout written, and the newest one read.
const VERSION: i64 = 1;
/// What one grain is, for a reader without this documentation.
const UNIT: &str = "nm, 1e-7 degree, 1e-8 of the whole, ug/m2";

/// Largest file read, in bytes: as much as the largest design there can be. A deck with a year of versions takes a
/// twentieth.
pub const LARGEST: usize = 16 << 20;
/// Deepest nesting read. A design needs nine levels; the rest is for keys of others.
pub const DEEPEST: usize = 32;

/// The setting that is stored ply by ply.
const PER_PLY: &str = "ply-thickness";

/// Reads a file.
///
/// # Errors
///
/// [`ReadError`]: a text that is too long or no JSON, a value that does not fit its field, and whatever
/// [`Design::new`] refuses.
pub fn read(text: &str) -> Result<Document, ReadError> {
    if text.len() > LARGEST {
        return Err(ReadError::TooLong { found: text.len(), most: LARGEST });
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text); // some editors put a byte order mark there
    from_value(Value::read(text, DEEPEST).map_err(|reason| ReadError::NotJson { reason })?)
}

/// Reads a design from a JSON value.
///
/// # Errors
///
/// As [`read`].
pub fn from_value(value: Value) -> Result<Document, ReadError> {
    if !cursor::is_within_depth(&value, DEEPEST) {
        return Err(ReadError::TooDeep { most: DEEPEST });
    }
    let design = reading::design(&value).map_err(|error| *error)?;
    let extras = extras::beyond(value, &writing::design(&design));
    Ok(Document { design, extras })
}

/// Writes a file; reading and writing it again gives the same bytes.
#[must_use]
pub fn write(document: &Document) -> String {
    format!("{:#}\n", to_value(document))
}

/// The document as a JSON value.
#[must_use]
pub fn to_value(document: &Document) -> Value {
    let mut known = writing::design(&document.design);
    extras::merge(&mut known, &document.extras);
    Value::Object(known)
}

#[cfg(test)]
mod tests;
