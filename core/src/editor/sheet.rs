//! The Sheet room: the build sheet, made anew with every change; and the leaves that other rooms show.

use super::{Editor, Room};
use crate::{
    export::{Export, ExportError, File, Kind, Part},
    figure,
    leaf::Leaf,
    say,
    sheet::Sheet,
    units::{Unit, Words, show},
};
use kurbo::Size;

/// Figures of the press beside its numbers, and the size of their letters, mm: a column of the build sheet.
const BOLTS: Size = Size::new(64.0, 18.0);
const FLEX: Size = Size::new(64.0, 32.0);
const FIGURES: f64 = 2.6;

impl Editor {
    /// The build sheet, while its room is open.
    #[must_use]
    pub fn sheet(&self) -> Option<Result<&Sheet, &ExportError>> {
        let prepared = self.bench.prepared.as_ref().filter(|_| self.bench.room == Room::Sheet)?;
        match &prepared.made {
            Ok(made) => made.sheet.as_ref().map(Ok),
            Err(error) => Some(Err(error)),
        }
    }

    /// The leaves that the open room shows, each under the id of its place: the two pages, or the figures of the press.
    #[must_use]
    pub fn leaves(&self) -> Vec<(&'static str, Leaf)> {
        match self.bench.room {
            Room::Sheet => {
                let pages = self.sheet().and_then(Result::ok).map(|sheet| &sheet.pages);
                let ids = ["page-1", "page-2"].into_iter();
                ids.zip(pages.into_iter().flatten()).map(|(id, page)| (id, page.clone())).collect()
            }
            Room::Press => {
                let workshop = self.workshop();
                let system = self.settings.system;
                let bolts = figure::tightening(&workshop.inputs.press.order(), BOLTS);
                vec![("bolts-figure", bolts), ("flex-figure", figure::flex(&workshop, system, FLEX, FIGURES))]
            }
            _ => Vec::new(),
        }
    }

    /// What the Sheet room says of the sheet.
    #[must_use]
    pub fn sheet_words(&self) -> String {
        match self.sheet() {
            None => String::new(),
            Some(Err(error)) => super::sentence(&error.said_in(self.settings.system).to_string()),
            Some(Ok(sheet)) => {
                let [width, height] = [sheet.pages[0].size.width, sheet.pages[0].size.height];
                let length = |mm| show(mm, Unit::Length, self.settings.system);
                say!(
                    "Two pages of {width} × {height}, as they are printed.",
                    width = length(width).text,
                    height = length(height)
                )
            }
        }
    }

    /// The build sheet as a file.
    ///
    /// # Errors
    ///
    /// [`ExportError`].
    pub fn sheet_file(&self) -> Result<File, ExportError> {
        self.sheet_export().make(self.history.design(), self.settings.system)?.file(Kind::Pdf)
    }

    /// Says under which address the page opens links: the build sheet carries it.
    pub fn addressed(&mut self, address: String) {
        self.bench.export.sheet.address = address;
    }

    pub(super) fn sheet_export(&self) -> Export {
        Export { part: Part::Sheet, ..self.bench.export.clone() }
    }
}
