//! Paper to print on at true scale: its sizes, what must fit on it, and the tiles that cover a drawing.
//!
//! Lengths in mm. A page has the drawing in its *window*; beside that, inside the printer's margins, stand the check bars
//! and the words that every page carries.

mod error;
#[cfg(test)]
mod tests;
mod tiling;

pub use self::{
    error::PaperError,
    tiling::{Tile, Tiling},
};
use crate::{
    language::{figure, said},
    quantities::Quantity,
    say,
    units::{self, Unit},
};
use kurbo::{Rect, Size};

/// The paper in the printer.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216, from memory).
    #[default]
    A4,
    /// 297 × 420 mm (ISO 216, from memory).
    A3,
    /// 8 1/2 × 11 in (ANSI/ASME Y14.1 size A, from memory).
    Letter,
    /// 11 × 17 in (ANSI/ASME Y14.1 size B, from memory).
    Tabloid,
    /// A roll of so many mm across, cut off as long as the drawing needs.
    Roll(f64),
    /// A sheet of two sides in mm, either way round.
    Custom(f64, f64),
}

/// What to print on and how the tiles lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PaperOptions {
    /// The paper.
    pub paper: Paper,
    /// White on all four sides, where the printer cannot print: see [`MARGIN`].
    pub margin: f64,
    /// The width that neighbouring tiles both show: see [`OVERLAP`].
    pub overlap: f64,
}

/// White round a page: 0 to 50 mm.
pub static MARGIN: Quantity = Quantity {
    key: "margin",
    label: "Margin",
    help: "White on all four sides of a page. Most printers leave 4 to 7 mm unprinted (common practice, no source).",
    unit: Unit::Length,
};
/// Width that two tiles share: 0 to 50 mm.
pub static OVERLAP: Quantity = Quantity {
    key: "overlap",
    label: "Overlap",
    help: "Width that two neighbouring tiles both show, to lay one over the other.",
    unit: Unit::Length,
};
/// One side of a sheet of one's own size, or the width of a roll: 100 to 5000 mm.
pub static PAPER_WIDTH: Quantity = Quantity {
    key: "paper-width",
    label: "Paper width",
    help: "Width of the sheet or of the roll.",
    unit: Unit::Length,
};
/// The other side of a sheet of one's own size: 100 to 5000 mm.
pub static PAPER_HEIGHT: Quantity =
    Quantity { key: "paper-height", label: "Paper height", help: "Height of the sheet.", unit: Unit::Length };

/// Largest margin and largest overlap; between two of each a page still has a window.
pub(crate) const WIDEST_BAND: f64 = 50.0;
/// Sides of paper that are accepted (common practice, no source).
pub(crate) const SIDES: (f64, f64) = (100.0, 5000.0);
/// The longest side of a page, in points of 1/72 in: beyond it readers refuse the file or scale it (PDF 1.7, annex C.2,
/// from memory).
const LONGEST_SIDE: f64 = 14_400.0;

/// What a page carries beside its window: a strip on the left for the upright check bars, a foot for the level ones and
/// the words.
pub(crate) const STRIP: f64 = 9.0;
/// Height of that foot.
pub(crate) const FOOT: f64 = 15.5;
/// The room that a check bar of 4 in and the figure at its end take.
const BAR_ROOM: f64 = 115.0;
/// White inside the window round the drawing, so that no line is cut in half along its length.
const EDGE: f64 = 1.0;

impl Default for PaperOptions {
    /// A4, margins of 10 mm, an overlap of 10 mm (common practice, no source).
    fn default() -> Self {
        Self { paper: Paper::default(), margin: 10.0, overlap: 10.0 }
    }
}

impl Paper {
    /// The papers that have a name: key in scripts, name on screen, size. Rolls are those of common plotters (common
    /// practice, no source).
    pub const NAMED: [(&'static str, &'static str, Self); 8] = [
        ("a4", "A4", Self::A4),
        ("a3", "A3", Self::A3),
        ("letter", "Letter", Self::Letter),
        ("tabloid", "Tabloid", Self::Tabloid),
        ("roll-610", "Roll, 610 mm", Self::Roll(610.0)),
        ("roll-914", "Roll, 914 mm", Self::Roll(914.0)),
        ("roll-24-in", "Roll, 24 in", Self::Roll(609.6)),
        ("roll-36-in", "Roll, 36 in", Self::Roll(914.4)),
    ];

    /// The paper with that key.
    #[must_use]
    pub fn named(key: &str) -> Option<Self> {
        Self::NAMED.iter().find(|row| row.0 == key).map(|row| row.2)
    }

    /// What it is called on a page.
    #[must_use]
    pub fn label(self) -> String {
        let named = Self::NAMED.iter().find(|row| row.2 == self).map(|row| said(row.1).to_owned());
        let mm = |length| figure(units::decimal_trimmed(length, 1));
        named.unwrap_or_else(|| match self {
            Self::Custom(width, height) => {
                say!("{width} x {height} mm", width = mm(width), height = mm(height))
            }
            _ => say!("Roll, {width} mm", width = mm(self.sides().0)),
        })
    }

    /// Its two sides; a roll has only a width.
    fn sides(self) -> (f64, Option<f64>) {
        match self {
            Self::A4 => (210.0, Some(297.0)),
            Self::A3 => (297.0, Some(420.0)),
            Self::Letter => (215.9, Some(279.4)),
            Self::Tabloid => (279.4, Some(431.8)),
            Self::Roll(width) => (width, None),
            Self::Custom(width, height) => (width, Some(height)),
        }
    }

    /// Both ways to lay a page, upright first; of a roll, as long as `needed` says.
    pub(crate) fn pages(self, needed: Size) -> [Size; 2] {
        let (side, other) = self.sides();
        let (short, long) = (side.min(other.unwrap_or(side)), side.max(other.unwrap_or(side)));
        match other {
            Some(_) => [Size::new(short, long), Size::new(long, short)],
            None => [Size::new(side, needed.height), Size::new(needed.width, side)],
        }
    }
}

impl PaperOptions {
    /// Checks margin, overlap and paper against their limits.
    ///
    /// # Errors
    ///
    /// [`PaperError::OutOfRange`] with the field at fault, also for what is not a number.
    pub fn check(&self) -> Result<(), PaperError> {
        let (least, most) = SIDES;
        MARGIN.check(self.margin, 0.0, WIDEST_BAND)?;
        OVERLAP.check(self.overlap, 0.0, WIDEST_BAND)?;
        let (width, height) = self.paper.sides();
        PAPER_WIDTH.check(width, least, most)?;
        Ok(PAPER_HEIGHT.check(height.unwrap_or(least), least, most)?)
    }

    /// Both ways to lay a page for a table.
    pub(crate) fn pages(&self) -> Result<[Size; 2], PaperError> {
        self.check()?;
        let pages = self.paper.pages(TABLE_ON_A_ROLL);
        check_page(pages[0], self.margin)?;
        check_page(pages[1], self.margin)?;
        Ok(pages)
    }
}

/// Length of a page of a table on a roll: that of A4.
const TABLE_ON_A_ROLL: Size = Size::new(297.0, 297.0);

/// The window of a page in the page's own coordinates: y up from the lower left corner.
pub(crate) fn window(page: Size, margin: f64) -> Rect {
    Rect::new(margin + STRIP, margin + FOOT, page.width - margin, page.height - margin)
}

/// The page that holds a drawing of that size in one window, at least as large as its check bars need.
fn page_for(drawing: Size, margin: f64) -> Size {
    let side = |length: f64, beside: f64| (length + 2.0 * EDGE).max(BAR_ROOM) + beside + 2.0 * margin;
    Size::new(side(drawing.width, STRIP), side(drawing.height, FOOT))
}

/// Refuses a page that has no room for its check bars, or that is longer than a PDF can say.
fn check_page(page: Size, margin: f64) -> Result<(), PaperError> {
    // A margin typed in inches may miss its millimetres by a rounding.
    const SLACK: f64 = 1e-9;
    for (found, beside) in [(page.width, STRIP), (page.height, FOOT)] {
        let least = BAR_ROOM + beside + 2.0 * margin;
        if found < least - SLACK {
            return Err(PaperError::NoRoom { found, margin, least });
        }
    }
    let found = page.width.max(page.height);
    let most = LONGEST_SIDE / units::POINTS_PER_MM;
    if found > most + SLACK { Err(PaperError::TooLong { found, most }) } else { Ok(()) }
}
