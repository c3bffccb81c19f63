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
        drawing::{Colour, Drawing, Layer, Options, caption},
        dxf::{self, DxfOptions},
        link, pdf, svg,
    },
    paper::{PaperOptions, Tiling},
    projection::Projection,
    sheet::{Sheet, SheetInput, SheetPaper},
    template::{Template, TemplateOptions, Warning, saw_line, stations},
    units::{System, Unit, show},
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
    /// Whether a drawing is printed on one page as large as it takes, whatever the paper.
    pub one_page: bool,
    /// How the build sheet is printed.
    pub sheet: SheetOptions,
}

/// How the build sheet is printed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SheetOptions {
    /// The paper.
    pub paper: SheetPaper,
    /// Whether its record is left to be filled in by hand, also where the design holds records.
    pub blank_record: bool,
    /// The address of the page that opens links, without the fragment; may be empty.
    pub address: String,
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
    /// The developed deck.
    fn default() -> Self {
        Self {
            part: Part::Deck,
            template: TemplateOptions::default(),
            dxf: DxfOptions::default(),
            mark_out: markout::USUAL,
            paper: PaperOptions::default(),
            one_page: false,
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
        let (mut warnings, mut remark, mut table, mut sheet) = (Vec::new(), String::new(), None, None);
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
                remark = format!("The template’s edge lies {away} {side} of the outline.");
                warnings.clone_from(&template.warnings);
                template.drawing()
            }
            Part::SawLine => saw_line(design, &self.template)?,
            Part::Offsets => {
                let stations = stations::table(shape, projection, stations::spacing(system));
                table = Some(stations::rows(&stations, projection));
                stations::drawing(design, &stations, projection)
            }
            Part::MarkOut => {
                let made = markout::mark_out(&projection.half(shape), self.mark_out)?;
                let within = show(made.deviation, Unit::Thickness, system);
                remark = format!("{} pieces, at most {within} from the outline.", made.pieces.len());
                table = Some(markout::rows(&made, &shape.datum, projection));
                let mut figure = markout::drawing(design.name(), &made, &shape.datum, projection);
                figure.layers.push(Layer::new("text", Colour::Black, [caption(design, projection)]));
                figure
            }
        };
        drawing.part = self.part.key();
        if self.part == Part::Sheet {
            let record = design.records().last().filter(|_| !self.sheet.blank_record);
            let (template, paper) = (&self.template, self.sheet.paper);
            let input = SheetInput { design, template, system, paper, record, link: &link, code: &code };
            sheet = Some(Sheet::of(&input)?);
        }
        Ok(Made { drawing, warnings, remark, sheet, link, table, export: self.clone(), code })
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
                let rows = self.table.as_ref().filter(|_| self.export.part == Part::Offsets);
                (bytes, rows.map_or(entities, |rows| rows.len() - 1), pages)
            }
            Kind::Csv => {
                let rows = self.table.as_deref().ok_or(ExportError::NoTable)?;
                (csv::print(rows).into_bytes(), rows.len() - 1, 0)
            }
        };
        Ok(File { name: self.name(kind), mime: kind.mime(), bytes, entities, pages })
    }

    /// How a PDF spreads the drawing over sheets; none on one page, or where there is no such PDF.
    #[must_use]
    pub fn tiling(&self) -> Option<Tiling> {
        let on_sheets = !self.export.one_page && !matches!(self.export.part, Part::Offsets | Part::Sheet);
        let tiling = on_sheets.then(|| pdf::tiling(&self.drawing, &self.export.paper, &self.code));
        tiling.and_then(Result::ok)
    }

    /// A PDF and its count of pages: the table of offsets alone, a mark-out with its list, else the drawing.
    fn pdf(&self) -> Result<(Vec<u8>, usize), ExportError> {
        let Drawing { name, projection, .. } = &self.drawing;
        let TemplateOptions { version, date, .. } = &self.export.template;
        let comma = if version.is_empty() || date.is_empty() { "" } else { ", " };
        let version = [version.as_str(), comma, date].concat();
        let caption = pdf::Caption { code: &self.code, projection: projection.word(), version: &version };
        let mut document = pdf::Document::new(name, caption);
        if let Some(sheet) = &self.sheet {
            for (i, page) in sheet.pages.iter().enumerate() {
                document.leaf(page, sheet.code.filter(|_| i == 0).map(|area| (area, self.link.as_str())));
            }
        } else if self.export.one_page && self.export.part != Part::Offsets {
            document.sheet(&self.drawing, self.export.paper.margin)?;
        } else if self.export.part != Part::Offsets {
            document.tiles(&self.drawing, &self.export.paper)?;
        }
        if let Some((heading, rows)) = self.table.as_deref().and_then(<[_]>::split_first) {
            let columns: Vec<pdf::Column> = heading
                .iter()
                .enumerate()
                .map(|(i, heading)| {
                    let is_word = |row: &Vec<String>| row.get(i).is_some_and(|cell| has_letters(cell));
                    pdf::Column { heading, words: rows.iter().any(is_word) }
                })
                .collect();
            let title = if self.export.part == Part::Offsets { "Table of offsets" } else { "Mark-out" };
            document.table(title, &columns, rows, &self.export.paper)?;
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

fn has_letters(cell: &str) -> bool {
    cell.bytes().any(|byte| byte.is_ascii_alphabetic())
}

#[cfg(test)]
mod tests;
