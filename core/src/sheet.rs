//! The build sheet: one printed document of two pages with all that the bench asks for.
//!
//! The first page is the shape: what it is called, its drawing, every dimension, the table of offsets. The second is the
//! bench: laying order, glue, press, drilling, run, the record of the day, cautions. Both flow by one rule: letters are as
//! large as they can be, and are made smaller by steps until either page holds all of it; notes alone are cut, with words
//! that say so. Type that is read at arm's length is the largest.

mod bench;
mod board;
mod code;
mod column;
mod laying;
mod put_in;
mod record;
mod shape;
mod sources;
mod work;

use crate::{
    design::Design,
    format::pdf::letters,
    leaf::Leaf,
    measure::Measured,
    say,
    template::TemplateOptions,
    units::System,
    workshop::{Workshop, record::Record},
};
use core::fmt;
use kurbo::{Rect, Size};

/// All that a sheet is made from.
#[derive(Clone, Copy, Debug)]
pub struct SheetInput<'a> {
    /// The deck.
    pub design: &'a Design,
    /// How the template is cut, with version and date as they are written on it.
    pub template: &'a TemplateOptions,
    /// Millimetres or inches.
    pub system: System,
    /// What it is printed on.
    pub paper: SheetPaper,
    /// What fills in the record of the day; without one there are lines to write on.
    pub record: Option<&'a Record>,
    /// The share link, for the QR code.
    pub link: &'a str,
    /// What stands for a name with letters that the fonts of a page do not have.
    pub code: &'a str,
}

/// The paper of a sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SheetPaper {
    /// 210 × 297 mm (ISO 216, from memory).
    #[default]
    A4,
    /// 8 1/2 × 11 in (ANSI/ASME Y14.1 size A, from memory).
    Letter,
}

/// A sheet, laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Its two pages.
    pub pages: [Leaf; 2],
    /// Where the first page shows the code of the link: touching it opens the link.
    pub code: Option<Rect>,
}

/// Why there is no sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetError {
    /// A page does not hold its part even in the smallest letters: 1 the shape, 2 the bench.
    NoRoom {
        /// Which page.
        page: usize,
    },
}

/// White on all four sides, mm: more than any office printer leaves unprinted (common practice, no source).
pub const MARGIN: f64 = 10.0;
/// How large letters may be made, the largest first. The last leaves the smallest type at 1.7 mm, five
/// points: as small as print is read (common practice, no source).
const SCALES: [f64; 11] = [1.3, 1.24, 1.18, 1.12, 1.06, 1.0, 0.94, 0.88, 0.82, 0.76, 0.7];
/// White between two parts of a page, mm.
const GAP: f64 = 3.4;

impl SheetPaper {
    /// Both, with key in scripts and name on screen.
    pub const NAMED: [(&'static str, &'static str, Self); 2] =
        [("a4", "A4", Self::A4), ("letter", "Letter", Self::Letter)];

    /// Its size, upright.
    #[must_use]
    pub fn size(self) -> Size {
        match self {
            Self::A4 => Size::new(210.0, 297.0),
            Self::Letter => Size::new(215.9, 279.4),
        }
    }
}

impl Sheet {
    /// Lays out the sheet.
    ///
    /// # Errors
    ///
    /// [`SheetError`] where a page cannot hold its part.
    pub fn of(input: &SheetInput<'_>) -> Result<Self, SheetError> {
        let shape = input.design.shape();
        let measured = Measured::of(shape);
        let workshop = Workshop::of(shape, &measured, input.design.workshop());
        let desk = Desk { input, measured: &measured, workshop: &workshop };
        let size = input.paper.size();
        let second = largest(&|scale| bench::page(&desk, size, scale));
        let (second, put_in) = second.ok_or(SheetError::NoRoom { page: 2 })?;
        let first = largest(&|scale| shape::page(&desk, &put_in, size, scale));
        let (first, code) = first.ok_or(SheetError::NoRoom { page: 1 })?;
        Ok(Self { pages: [first, second], code })
    }
}

/// What is laid out in the largest letters in which it fits, by halving: what fits, fits in smaller letters too.
fn largest<T>(page: &dyn Fn(f64) -> Option<T>) -> Option<T> {
    let (mut found, mut from, mut to) = (None, 0, SCALES.len());
    while from < to {
        let middle = usize::midpoint(from, to);
        let laid_out = page(SCALES[middle]);
        if laid_out.is_some() {
            (found, to) = (laid_out, middle);
        } else {
            from = middle + 1;
        }
    }
    found
}

/// What both pages are made from, worked out once.
struct Desk<'a> {
    input: &'a SheetInput<'a>,
    measured: &'a Measured,
    workshop: &'a Workshop<'a>,
}

impl Desk<'_> {
    /// What the sheet calls the deck.
    fn name(&self) -> &str {
        let name = self.input.design.name();
        if name.is_empty() || letters::encoded(name).is_none() { self.input.code } else { name }
    }

    /// Version and date in words.
    fn version(&self) -> String {
        let TemplateOptions { version, date, .. } = self.input.template;
        let design = self.input.design;
        let version = match design.versions().last() {
            _ if !version.is_empty() => version.clone(),
            Some(last) if *last.shape == *design.shape() => last.name.clone(),
            Some(last) => say!("changed since {version}", version = last.name),
            None => String::new(),
        };
        match (version.is_empty(), date.is_empty()) {
            (true, true) => String::new(),
            (false, true) => say!("Version: {version}", version),
            (true, false) => say!("Printed {date}", date),
            (false, false) => say!("Version: {version}. Printed {date}", version, date),
        }
    }
}

/// Parts of a page one under another.
fn stacked(page: &mut Leaf, y: &mut f64, part: Leaf) {
    let height = part.size.height;
    page.place(part, (MARGIN, *y).into());
    *y += height + GAP;
}

impl fmt::Display for SheetError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self::NoRoom { page } = self;
        let (what, way_out) = if *page == 1 {
            ("the shape", "shorten the outline's list of places, or print the table of offsets alone")
        } else {
            ("the bench", "lay up fewer plies, or shorten the names in the records")
        };
        say!(in f, "{what} does not fit on page {page} even in the smallest letters: {way_out}",
            what,
            page,
            way_out
        )
    }
}

impl core::error::Error for SheetError {}

crate::language::say_displayed!(SheetError);

#[cfg(test)]
mod tests;
