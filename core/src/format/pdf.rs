//! A drawing on paper at true scale, and tables beside it, as PDF.
//!
//! Written so that a printer cannot get the size wrong unnoticed: media boxes are exact, scaling is switched off in the
//! file, and every page of a drawing asks for actual size and carries check bars of 100 mm and 4 in along both of its
//! axes. The drawing is stored once and shown by every tile through its window, so neighbouring tiles agree to the last
//! digit; the join marks are stored in the same way. Curves stay cubics, to a tenth of a micrometre. The same input gives
//! the same bytes.
//!
//! PDF 1.7 as in ISO 32000-1, from memory: base-14 Helvetica in WinAnsi encoding, nothing embedded, nothing compressed.

mod content;
mod file;
mod frame;
mod ink;
mod joins;
mod leaf;
pub(crate) mod letters;
mod map;
mod table;
#[cfg(test)]
mod tests;

pub use self::table::Column;
use self::{content::Content, file::File, ink::Ink};
use super::drawing::Drawing;
use crate::{
    leaf::Leaf,
    paper::{self, PaperError, PaperOptions, Tiling},
};
use kurbo::{Rect, Size};

/// What every page says beside what it shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Caption<'a> {
    /// What stands on pages for a name with letters that the base fonts don't have; the file's properties hold the name
    /// itself.
    pub code: &'a str,
    /// `DEVELOPED` or `PLAN`.
    pub projection: &'a str,
    /// Date or version, as the caller knows it; may be empty.
    pub version: &'a str,
}

/// A PDF file in the making: pages are added one part after the other.
#[derive(Debug)]
pub struct Document<'a> {
    name: &'a str,
    caption: Caption<'a>,
    file: File,
}

/// A drawing on tiles, with a map of them on the first page where there are several.
///
/// # Errors
///
/// [`PaperError`] where the paper is too small for its margins, or there is nothing to print.
pub fn tiles(drawing: &Drawing, options: &PaperOptions, caption: Caption) -> Result<Vec<u8>, PaperError> {
    let mut document = Document::new(&drawing.name, caption);
    document.tiles(drawing, options)?;
    Ok(document.finish())
}

/// A drawing on one page as large as it takes, for a plotter; `margin` in mm.
///
/// # Errors
///
/// [`PaperError`] where the page would be longer than a file can say, or there is nothing to print.
pub fn sheet(drawing: &Drawing, margin: f64, caption: Caption) -> Result<Vec<u8>, PaperError> {
    let mut document = Document::new(&drawing.name, caption);
    document.sheet(drawing, margin)?;
    Ok(document.finish())
}

/// How [`tiles`] spreads a drawing over pages, for a preview; `code` as in its caption.
///
/// # Errors
///
/// As [`tiles`].
pub fn tiling(drawing: &Drawing, options: &PaperOptions, code: &str) -> Result<Tiling, PaperError> {
    Ink::of(drawing, code).tiling(options)
}

impl<'a> Document<'a> {
    /// A document without pages yet, about the design of that name.
    #[must_use]
    pub fn new(name: &'a str, caption: Caption<'a>) -> Self {
        Self { name, caption, file: File::new() }
    }

    /// Adds a drawing on tiles, behind a map of them where there are several.
    ///
    /// # Errors
    ///
    /// As [`tiles`]; nothing is added then.
    pub fn tiles(&mut self, drawing: &Drawing, options: &PaperOptions) -> Result<(), PaperError> {
        let ink = Ink::of(drawing, self.caption.code);
        let tiling = ink.tiling(options)?;
        self.drawing(&ink, &tiling, &options.paper.label());
        Ok(())
    }

    /// Adds a drawing on one page as large as it takes; `margin` in mm.
    ///
    /// # Errors
    ///
    /// As [`sheet`]; nothing is added then.
    pub fn sheet(&mut self, drawing: &Drawing, margin: f64) -> Result<(), PaperError> {
        let ink = Ink::of(drawing, self.caption.code);
        let tiling = Tiling::sheet(ink.extent(), margin)?;
        self.drawing(&ink, &tiling, "");
        Ok(())
    }

    /// Adds a table of texts, flowing over as many pages as it takes.
    ///
    /// It lies upright or on its side, whichever it fits on, and is printed smaller where it fits on neither.
    ///
    /// # Errors
    ///
    /// [`PaperError`] for margins or paper outside their limits.
    pub fn table(
        &mut self,
        title: &str,
        columns: &[Column],
        rows: &[Vec<String>],
        options: &PaperOptions,
    ) -> Result<(), PaperError> {
        let paper = options.pages()?;
        let name = self.title();
        for (page, content) in table::pages(title, columns, rows, paper, options.margin, &name, self.caption)
        {
            self.file.page(page, &content, "");
        }
        Ok(())
    }

    /// Adds a leaf as a page; touching it within `link` opens an address.
    pub fn leaf(&mut self, page: &Leaf, link: Option<(Rect, &str)>) {
        let link = link.map_or_else(String::new, |(area, address)| leaf::link(page, area, address));
        self.file.page_with(page.size, &leaf::content(page), "", &link);
    }

    /// How many pages it has so far.
    #[must_use]
    pub fn pages(&self) -> usize {
        self.file.pages()
    }

    /// The bytes of the file.
    #[must_use]
    pub fn finish(self) -> Vec<u8> {
        let Caption { projection, version, .. } = self.caption;
        let about = format!("{projection}, true scale, {version}");
        self.file.finish(self.name, about.trim_end_matches(", "))
    }

    fn drawing(&mut self, ink: &Ink, tiling: &Tiling, paper: &str) {
        let drawing = self.file.form(ink.extent().inflate(1.0, 1.0), &ink.content());
        let (extent, joins) = joins::content(tiling);
        let joins = self.file.form(extent, &joins);
        let forms = format!("/D {drawing} 0 R/J {joins} 0 R");
        let several = tiling.tiles.len() > 1;
        if several {
            let content = map::content(tiling, paper, &self.title(), self.caption);
            self.file.page(tiling.page, &content, &forms);
        }
        for &tile in &tiling.tiles {
            let mut content = Content::page();
            content.window(paper::window(tiling.page, tiling.margin), tiling.to_page(tile), 1.0);
            content.show("D");
            if several {
                content.show("J");
            }
            content.end_window();
            frame::draw(&mut content, tiling, several.then_some(tile), &self.title(), self.caption);
            self.file.page(tiling.page, &content, &forms);
        }
    }

    /// What a page calls the design: its name, or its code where the font cannot write the name.
    fn title(&self) -> String {
        let name = if letters::encoded(self.name).is_some() { self.name } else { self.caption.code };
        if name.is_empty() {
            self.caption.projection.to_owned()
        } else {
            format!("{name}, {}", self.caption.projection)
        }
    }
}

/// The size of the page in points, as a media box.
fn media_box(page: Size) -> String {
    use crate::units::{POINTS_PER_MM, decimal_trimmed};
    let points = |mm: f64| decimal_trimmed(mm * POINTS_PER_MM, 6);
    format!("[0 0 {} {}]", points(page.width), points(page.height))
}
