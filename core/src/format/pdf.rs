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
mod figure;
mod file;
mod frame;
mod ink;
mod joins;
mod leaf;
pub(crate) mod letters;
mod map;
mod picture;
mod table;
#[cfg(test)]
mod tests;

use self::{content::Content, file::File, ink::Ink, letters::Letters};
pub use self::{picture::Picture, table::Column};
use super::drawing::Drawing;
use crate::{
    language::said,
    leaf::Leaf,
    paper::{self, PaperError, PaperOptions, Tiling},
};
use kurbo::{Rect, Size};

/// What every page says beside what it shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Caption<'a> {
    /// What stands on pages for a name with letters that the base fonts don't have, where there is no picture of it; the
    /// file's properties hold the name itself.
    pub code: &'a str,
    /// The name as a picture, for pages whose fonts cannot write it.
    pub picture: Option<&'a Picture>,
    /// `DEVELOPED` or `PLAN`.
    pub projection: &'a str,
    /// Date or version, as the caller knows it; may be empty.
    pub version: &'a str,
}

/// A PDF file in the making: pages are added one part after the other.
#[derive(Debug)]
pub struct Document<'a> {
    title: Title<'a>,
    file: File,
    /// The name and object of the picture of the name, as resources list it; may be empty.
    pictures: String,
}

/// What every page is headed by.
#[derive(Clone, Copy, Debug)]
struct Title<'a> {
    name: &'a str,
    caption: Caption<'a>,
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

/// How [`tiles`] spreads a drawing over pages, for a preview.
///
/// # Errors
///
/// As [`tiles`].
pub fn tiling(drawing: &Drawing, options: &PaperOptions, caption: Caption) -> Result<Tiling, PaperError> {
    Ink::of(drawing, &caption).tiling(options)
}

/// Whether pages can write a name with their own fonts; for others they take a [`Picture`].
#[must_use]
pub fn can_write(name: &str) -> bool {
    letters::encoded(name).is_some()
}

impl<'a> Document<'a> {
    /// A document without pages yet, about the design of that name.
    #[must_use]
    pub fn new(name: &'a str, caption: Caption<'a>) -> Self {
        let mut file = File::new();
        let picture = caption.picture.filter(|_| !can_write(name));
        let pictures =
            picture.map_or_else(String::new, |picture| format!("/N {} 0 R", file.picture(picture)));
        Self { title: Title { name, caption }, file, pictures }
    }

    /// Adds a drawing on tiles, behind a map of them where there are several.
    ///
    /// # Errors
    ///
    /// As [`tiles`]; nothing is added then.
    pub fn tiles(&mut self, drawing: &Drawing, options: &PaperOptions) -> Result<(), PaperError> {
        let ink = Ink::of(drawing, &self.title.caption);
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
        let ink = Ink::of(drawing, &self.title.caption);
        let tiling = Tiling::sheet(ink.extent(), margin)?;
        self.drawing(&ink, &tiling, "");
        Ok(())
    }

    /// Adds a drawing on one page of the paper, made as small as it takes: a figure to read, not to measure.
    ///
    /// # Errors
    ///
    /// [`PaperError`] for margins or paper outside their limits, or where there is nothing to print.
    pub fn figure(
        &mut self,
        heading: &str,
        drawing: &Drawing,
        options: &PaperOptions,
    ) -> Result<(), PaperError> {
        let ink = Ink::of(drawing, &self.title.caption);
        let extent = ink.extent();
        if extent.is_zero_area() {
            return Err(PaperError::Empty);
        }
        let form = self.file.form(extent.inflate(1.0, 1.0), &ink.content(), &self.pictures);
        let (page, content) = figure::page(heading, extent, options.pages()?, options.margin, &self.title);
        let forms = format!("/D {form} 0 R{}", self.pictures);
        self.file.page(page, &content, &forms);
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
        heading: &str,
        columns: &[Column],
        rows: &[Vec<String>],
        options: &PaperOptions,
    ) -> Result<(), PaperError> {
        let paper = options.pages()?;
        for (page, content) in table::pages(heading, columns, rows, paper, options.margin, &self.title) {
            self.file.page(page, &content, &self.pictures);
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
        let Caption { projection, version, .. } = self.title.caption;
        let about =
            [projection, ", ", said("true scale"), if version.is_empty() { "" } else { ", " }, version];
        self.file.finish(self.title.name, &about.concat())
    }

    fn drawing(&mut self, ink: &Ink, tiling: &Tiling, paper: &str) {
        let pictures = &self.pictures;
        let drawing = self.file.form(ink.extent().inflate(1.0, 1.0), &ink.content(), pictures);
        let (extent, joins) = joins::content(tiling);
        let joins = self.file.form(extent, &joins, "");
        let forms = format!("/D {drawing} 0 R/J {joins} 0 R{pictures}");
        let several = tiling.tiles.len() > 1;
        if several {
            self.file.page(tiling.page, &map::content(tiling, paper, &self.title), &forms);
        }
        for &tile in &tiling.tiles {
            let mut content = Content::page();
            content.window(paper::window(tiling.page, tiling.margin), tiling.to_page(tile), 1.0);
            content.show("D");
            if several {
                content.show("J");
            }
            content.end_window();
            frame::draw(&mut content, tiling, several.then_some(tile), &self.title);
            self.file.page(tiling.page, &content, &forms);
        }
    }
}

impl Title<'_> {
    /// The name and the projection with more words behind them: of a name that the font cannot write its picture, else its code.
    fn letters(&self, more: &str) -> Letters {
        let comma = if self.name.is_empty() { "" } else { ", " };
        let text = [self.name, comma, self.caption.projection, more].concat();
        letters::named(&text, self.name, &self.caption)
    }

    /// The version behind a comma; empty where there is none.
    fn version(&self) -> String {
        let version = self.caption.version;
        if version.is_empty() { String::new() } else { [", ", version].concat() }
    }
}

/// The size of the page in points, as a media box.
fn media_box(page: Size) -> String {
    use crate::units::{POINTS_PER_MM, decimal_trimmed};
    let points = |mm: f64| decimal_trimmed(mm * POINTS_PER_MM, 6);
    format!("[0 0 {} {}]", points(page.width), points(page.height))
}
