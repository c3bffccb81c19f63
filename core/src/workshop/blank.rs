//! The blank round the outline, and the sheets its veneers are cut from.

use super::fault::Fault;
use crate::{layup::Layup, measure::Measured};

/// Least blank beyond the outline, mm: room for the saw (common practice, no source). At the ends the slip of the plies comes on top.
pub const MARGIN: f64 = 6.0;
/// Least by which a veneer must be shorter than the clear length between the mould's posts, mm (common practice, no source).
pub const POST_CLEARANCE: f64 = 3.0;

/// Length along the board and width across it, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Size {
    /// Along the board.
    pub length: f64,
    /// Across it.
    pub width: f64,
}

/// What the blank has to spare round the outline, mm; negative where it is too small.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Margins {
    /// Beyond either end: the outline lies in the middle.
    pub end: f64,
    /// Beyond either rail.
    pub side: f64,
    /// What an end needs: [`MARGIN`] and the slip.
    pub end_needed: f64,
}

impl Margins {
    /// The margins of a blank round an outline whose plies slip by `slip` mm at the worse end.
    #[must_use]
    pub fn of(measured: &Measured, layup: &Layup, slip: f64) -> Self {
        Self {
            end: (layup.blank_length - measured.overall_length) / 2.0,
            side: (layup.blank_width - measured.overall_width) / 2.0,
            end_needed: MARGIN + slip,
        }
    }

    /// The smallest blank that keeps the margins.
    #[must_use]
    pub fn smallest(&self, measured: &Measured) -> Size {
        Size {
            length: measured.overall_length + 2.0 * self.end_needed,
            width: measured.overall_width + 2.0 * MARGIN,
        }
    }

    /// Where the blank is too small, or tight.
    #[must_use]
    pub fn check(&self) -> Vec<Fault> {
        let sides = [("blank-length", self.end, self.end_needed), ("blank-width", self.side, MARGIN)];
        let doubt = |(field, margin, least): (&'static str, f64, f64)| {
            if margin < 0.0 {
                Some(Fault::BlankTooSmall { field, short: -2.0 * margin })
            } else {
                (margin < least).then_some(Fault::NarrowMargin { field, margin, least })
            }
        };
        sides.into_iter().filter_map(doubt).collect()
    }
}

/// Whether the flat blank clears the posts of the mould.
#[must_use]
pub fn check_posts(layup: &Layup, clear_length: f64) -> Option<Fault> {
    let spare = clear_length - layup.blank_length;
    (spare < POST_CLEARANCE).then_some(Fault::Posts { spare })
}

/// A stock sheet, measured the way the blank lies on it: for a ply along the board its grain runs along the length, for a
/// cross ply along the width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheet {
    /// Its size.
    pub size: Size,
    /// What a cut takes, mm.
    pub kerf: f64,
}

/// What is cut from sheets of one kind.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Cutting {
    /// Veneers from one sheet.
    pub per_sheet: f64,
    /// Sheets to buy.
    pub sheets: f64,
    /// Share of the sheets that is left over; 0 where none is bought.
    pub offcut: f64,
}

impl Sheet {
    /// How many rectangles come out of one sheet by cuts that run right through it. All lie the same way, as the grain
    /// wants, so rows of columns are the best there is.
    #[must_use]
    pub fn per_sheet(&self, blank: Size) -> f64 {
        let fit = |sheet: f64, piece: f64| ((sheet + self.kerf) / (piece + self.kerf)).floor();
        fit(self.size.length, blank.length) * fit(self.size.width, blank.width)
    }

    /// The sheets for so many veneers.
    ///
    /// # Errors
    ///
    /// [`Fault::SheetTooSmall`] where not one comes out of a sheet; `field` names the sheet's length.
    pub fn cut(&self, blank: Size, veneers: f64, field: &'static str) -> Result<Cutting, Fault> {
        let per_sheet = self.per_sheet(blank);
        if veneers <= 0.0 {
            return Ok(Cutting { per_sheet, ..Cutting::default() });
        }
        if per_sheet < 1.0 {
            return Err(Fault::SheetTooSmall { field });
        }
        let sheets = (veneers / per_sheet).ceil();
        let used = veneers * blank.length * blank.width;
        let offcut = 1.0 - used / (sheets * self.size.length * self.size.width);
        Ok(Cutting { per_sheet, sheets, offcut })
    }
}
