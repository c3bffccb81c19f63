//! What leaves for the bench: a part of a deck, how it is made, and the files of it.
//!
//! The page, its preview and scripts all come through here, so that what is shown is what a file holds.

mod choice;
mod error;

pub use self::{
    choice::{CHOICES, Choice, Length, lengths},
    error::ExportError,
};
use crate::{
    arcs::markout,
    design::Design,
    file_stem,
    format::{
        csv,
        drawing::{Drawing, Options},
        dxf::{self, DxfOptions},
        link,
        pdf::{self, Picture},
        svg,
    },
    language::{figure, looked_up, said},
    paper::{PaperOptions, Tiling},
    projection::Projection,
    say,
    sheet::{Sheet, SheetInput, SheetPaper},
    template::{Template, TemplateOptions, Warning, saw_line, stations},
    units::{System, Unit, show},
    workshop::record::Record,
};

/// What is exported, and how. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Export {
    /// Which part.
    pub part: Part,
    /// How a template is cut; of which outline, for every part. Whether it is a half follows from the part.
    pub template: TemplateOptions,
    /// How a DXF file is written.
    pub dxf: DxfOptions,
    /// How far a mark-out may lie from the outline.
    pub mark_out: f64,
    /// What a PDF is printed on.
    pub paper: PaperOptions,
    /// Where the size of the paper comes from: it is chosen together with `paper.paper`.
    pub paper_from: PaperFrom,
    /// Width and height of the maker's own sheet, and the width of their own roll.
    pub own: [f64; 2],
    /// How the build sheet is printed.
    pub sheet: SheetOptions,
}

/// Where the size of the paper comes from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PaperFrom {
    /// It has a name.
    #[default]
    Named,
    /// A sheet of the maker's own size.
    Own,
    /// A roll of the maker's own width.
    OwnRoll,
    /// One page as large as the drawing takes, for a plotter.
    OnePage,
}

/// How the build sheet is printed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SheetOptions {
    /// The paper.
    pub paper: SheetPaper,
    /// What fills in its record of the day.
    pub record: SheetRecord,
    /// The address of the page that opens links, without the fragment; may be empty.
    pub address: String,
}

/// What fills in the record of a sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SheetRecord {
    /// The last record of the design, where there is one.
    #[default]
    Last,
    /// A pencil: lines are left.
    Blank,
    /// The record in that place, counted from 0; the last one where there is none.
    Of(usize),
}

impl SheetOptions {
    /// The place of the record that is printed, among those of a design.
    #[must_use]
    pub fn record_of(&self, records: &[Record]) -> Option<usize> {
        match self.record {
            SheetRecord::Blank => None,
            SheetRecord::Of(place) if place < records.len() => Some(place),
            _ => records.len().checked_sub(1),
        }
    }
}

/// What is exported.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The deck with its holes, lines and blank.
    Deck,
    /// The whole template.
    Template,
    /// Half a template, to be turned over.
    HalfTemplate,
    /// The line the blank is sawn along.
    SawLine,
    /// The table of offsets: half-breadths at stations.
    Offsets,
    /// The half outline by compass and rule.
    MarkOut,
    /// The build sheet: all that the bench asks for on two pages.
    Sheet,
}

/// The kind of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A drawing for laser cutters, plotters and drawing programs.
    Svg,
    /// A drawing for routers and drawing programs.
    Dxf,
    /// Paper at true scale: a drawing, its table, or both.
    Pdf,
    /// A table for spreadsheets.
    Csv,
}

/// A part of a deck, made: what its preview shows and its files hold.
#[derive(Clone, Debug)]
pub struct Made {
    /// The drawing, the one thing that every kind of drawing file prints.
    pub drawing: Drawing,
    /// What to look at before cutting.
    pub warnings: Vec<Warning>,
    /// What it comes to, in a sentence; may be empty.
    pub remark: String,
    /// What its table comes to, a line for each row, in the units the maker reads; empty where there is none.
    pub list: Vec<String>,
    /// The name of the design, for pages whose fonts cannot write it.
    pub picture: Option<Picture>,
    /// The pages of the build sheet, where it is that.
    pub sheet: Option<Sheet>,
    link: String,
    table: Option<Vec<Vec<String>>>,
    export: Export,
    /// What a page calls a design whose name has letters that its fonts do not.
    code: String,
}

/// A file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct File {
    /// Its name: safe letters, with the part and the projection.
    pub name: String,
    /// Its media type.
    pub mime: &'static str,
    /// What is in it.
    pub bytes: Vec<u8>,
    /// How many things it draws, or how many rows it lists.
    pub entities: usize,
    /// How many pages it has; 0 for what has none.
    pub pages: usize,
}

/// Letters of a design's short code.
const CODE: usize = 6;

impl Default for Export {
    /// The developed deck, on A4; a sheet of one's own begins as A2.
    fn default() -> Self {
        Self {
            part: Part::Deck,
            template: TemplateOptions::default(),
            dxf: DxfOptions::default(),
            mark_out: markout::USUAL,
            paper: PaperOptions::default(),
            paper_from: PaperFrom::default(),
            own: [420.0, 594.0],
            sheet: SheetOptions::default(),
        }
    }
}

impl Export {
    /// Makes the part, with its words in the units the maker reads.
    ///
    /// # Errors
    ///
    /// [`ExportError`] where the choices do not go together or the shape has no such part.
    pub fn make(&self, design: &Design, system: System) -> Result<Made, ExportError> {
        if self.part != Part::Sheet {
            self.dxf.check()?;
        }
        let projection = self.template.projection;
        let shape = design.shape();
        let (mut warnings, mut remark, mut table, mut list) = (Vec::new(), String::new(), None, Vec::new());
        let link = link::encode(design);
        // The end of a link is its checksum: no two decks in one shop have the same.
        let code = link.get(link.len().saturating_sub(CODE)..).unwrap_or_default().to_owned();
        let link = [&self.sheet.address, link::FRAGMENT, &link].concat();
        let mut drawing = match self.part {
            Part::Deck | Part::Sheet => Drawing::deck(design, &Options { projection, ..Options::default() }),
            Part::Template | Part::HalfTemplate => {
                let options =
                    TemplateOptions { half: self.part == Part::HalfTemplate, ..self.template.clone() };
                let edge = options.edge();
                let template = Template::of(design, options, system)?;
                let side = if edge < 0.0 { "inside" } else { "outside" };
                let away = show(edge.abs(), Unit::Thickness, system);
                remark = say!("The template’s edge lies {away} {side} of the outline.", away, side);
                warnings.clone_from(&template.warnings);
                template.drawing()
            }
            Part::SawLine => saw_line(design, &self.template)?,
            Part::Offsets => {
                let stations = stations::table(shape, projection, stations::spacing(system));
                table = Some(stations::rows(&stations, projection));
                list = stations::list(&stations, system);
                stations::drawing(design, &stations, projection, system)
            }
            Part::MarkOut => {
                let made = markout::mark_out(&projection.half(shape), self.mark_out)?;
                let within = show(made.deviation, Unit::Thickness, system);
                remark = say!(
                    "{count} pieces, at most {within} from the outline.",
                    count = made.pieces.len(),
                    within
                );
                table = Some(markout::rows(&made, &shape.datum, projection));
                list = markout::list(&made, &shape.datum, system);
                markout::drawing(design, &made, projection, system)
            }
        };
        drawing.part = self.part.key();
        let mut sheet = None;
        if self.part == Part::Sheet {
            let records = design.records();
            let record = self.sheet.record_of(records).map(|place| &records[place]);
            let (template, paper) = (&self.template, self.sheet.paper);
            let input = SheetInput { design, template, system, paper, record, link: &link, code: &code };
            sheet = Some(Sheet::of(&input)?);
        }
        Ok(Made {
            drawing,
            warnings,
            remark,
            list,
            picture: None,
            sheet,
            link,
            table,
            export: self.clone(),
            code,
        })
    }
}

impl Made {
    /// The file of that kind.
    ///
    /// # Errors
    ///
    /// [`ExportError::NoTable`], and what the kind of DXF refuses.
    pub fn file(&self, kind: Kind) -> Result<File, ExportError> {
        if self.sheet.is_some() && kind != Kind::Pdf {
            return Err(ExportError::OnlyPaper);
        }
        let entities = self.drawing.layers.iter().map(|layer| layer.entities.len()).sum();
        let (bytes, entities, pages) = match kind {
            Kind::Svg => (svg::print(&self.drawing).into_bytes(), entities, 0),
            Kind::Dxf => (dxf::print_with(&self.drawing, &self.export.dxf)?.into_bytes(), entities, 0),
            Kind::Pdf => {
                let (bytes, pages) = self.pdf()?;
                (bytes, self.table.as_ref().map_or(entities, |rows| rows.len() - 1), pages)
            }
            Kind::Csv => {
                let rows = self.table.as_deref().ok_or(ExportError::NoTable)?;
                (csv::print(rows).into_bytes(), rows.len() - 1, 0)
            }
        };
        Ok(File { name: self.name(kind), mime: kind.mime(), bytes, entities, pages })
    }

    /// Whether a PDF of it is better with a picture of the name: its pages have no letters for it.
    #[must_use]
    pub fn wants_picture(&self) -> bool {
        self.picture.is_none() && !pdf::can_write(&self.drawing.name)
    }

    /// How a PDF spreads the drawing over sheets; none on one page, or where there is no such PDF.
    #[must_use]
    pub fn tiling(&self) -> Option<Tiling> {
        let on_sheets = self.export.paper_from != PaperFrom::OnePage
            && self.table.is_none()
            && self.export.part != Part::Sheet;
        let tiling = on_sheets.then(|| pdf::tiling(&self.drawing, &self.export.paper, self.caption("")));
        tiling.and_then(Result::ok)
    }

    fn caption<'a>(&'a self, version: &'a str) -> pdf::Caption<'a> {
        let projection = said(self.drawing.projection.word());
        pdf::Caption { code: &self.code, picture: self.picture.as_ref(), projection, version }
    }

    /// A PDF and its count of pages: the drawing at true scale; or a table behind its figure, which is reduced to a sheet
    /// unless one page as large as it takes is asked for.
    fn pdf(&self) -> Result<(Vec<u8>, usize), ExportError> {
        let TemplateOptions { version, date, .. } = &self.export.template;
        let comma = if version.is_empty() || date.is_empty() { "" } else { ", " };
        let version = [version.as_str(), comma, date].concat();
        let mut document = pdf::Document::new(&self.drawing.name, self.caption(&version));
        let paper = &self.export.paper;
        let title = said(if self.export.part == Part::Offsets { "Table of offsets" } else { "Mark-out" });
        if let Some(sheet) = &self.sheet {
            for (i, page) in sheet.pages.iter().enumerate() {
                document.leaf(page, sheet.code.filter(|_| i == 0).map(|area| (area, self.link.as_str())));
            }
        } else if self.export.paper_from == PaperFrom::OnePage {
            document.sheet(&self.drawing, paper.margin)?;
        } else if self.table.is_some() {
            document.figure(title, &self.drawing, paper)?;
        } else {
            document.tiles(&self.drawing, paper)?;
        }
        if let Some((heading, rows)) = self.table.as_deref().and_then(<[_]>::split_first) {
            let heading: Vec<String> = heading.iter().map(|cell| on_paper(cell)).collect();
            let rows: Vec<Vec<String>> =
                rows.iter().map(|row| row.iter().map(|cell| on_paper(cell)).collect()).collect();
            let columns: Vec<pdf::Column> = heading
                .iter()
                .enumerate()
                .map(|(i, heading)| {
                    let is_word = |row: &Vec<String>| row.get(i).is_some_and(|cell| has_letters(cell));
                    pdf::Column { heading, words: rows.iter().any(is_word) }
                })
                .collect();
            document.table(title, &columns, &rows, paper)?;
        }
        let pages = document.pages();
        Ok((document.finish(), pages))
    }

    /// The name of the design, the part and the projection; of the plain deck the first alone.
    fn name(&self, kind: Kind) -> String {
        let mut name = file_stem(&self.drawing.name);
        let projection = self.drawing.projection;
        let part = self.export.part;
        if part == Part::Sheet {
            name.push('-');
            name += part.key();
        } else if part != Part::Deck || projection != Projection::Developed {
            for word in [part.key(), projection.key()] {
                name.push('-');
                name += word;
            }
        }
        name.push('.');
        name + kind.key()
    }
}

impl Part {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::Deck,
        Self::Template,
        Self::HalfTemplate,
        Self::SawLine,
        Self::Offsets,
        Self::MarkOut,
        Self::Sheet,
    ];

    /// Its name in files and scripts.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Deck => "deck",
            Self::Template => "template",
            Self::HalfTemplate => "half-template",
            Self::SawLine => "saw-line",
            Self::Offsets => "offsets",
            Self::MarkOut => "mark-out",
            Self::Sheet => "sheet",
        }
    }
}

impl Kind {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Svg, Self::Dxf, Self::Pdf, Self::Csv];

    /// Its name in scripts, and the ending of its files.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Svg => "svg",
            Self::Dxf => "dxf",
            Self::Pdf => "pdf",
            Self::Csv => "csv",
        }
    }

    /// The kind of that name.
    #[must_use]
    pub fn named(key: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.key() == key)
    }

    const fn mime(self) -> &'static str {
        match self {
            Self::Svg => "image/svg+xml",
            Self::Dxf => "image/vnd.dxf",
            Self::Pdf => "application/pdf",
            Self::Csv => "text/csv",
        }
    }
}

/// A cell of a table, which files have in English, as pages that are read have it.
fn on_paper(cell: &str) -> String {
    match cell.strip_suffix(')').and_then(|cell| cell.split_once(" (")) {
        Some((title, projection)) => [looked_up(title), " (", looked_up(projection), ")"].concat(),
        None if has_letters(cell) => looked_up(cell).to_owned(),
        None => figure(cell.to_owned()),
    }
}

fn has_letters(cell: &str) -> bool {
    cell.bytes().any(|byte| byte.is_ascii_alphabetic())
}

#[cfg(test)]
mod tests;
