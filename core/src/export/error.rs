//! Why there is no such file.

use super::choice::Choice;
use crate::{
    arcs::markout::{self, MarkOutError},
    design::Refusal,
    format::dxf::DxfError,
    language::said,
    paper::PaperError,
    say,
    sheet::SheetError,
    template::TemplateError,
    units::{System, Words, error_with_words},
};
use core::fmt;

/// Why there is no such file.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub enum ExportError {
    /// A length outside its limits, or a text that is too long.
    Refused(Refusal),
    /// A word that is none of the choices.
    NoSuch {
        /// What was to be chosen.
        choice: &'static Choice,
        /// The word.
        found: String,
    },
    /// There is no such template.
    Template(TemplateError),
    /// There is no such DXF file.
    Dxf(DxfError),
    /// There is no such mark-out.
    MarkOut(MarkOutError),
    /// It cannot be put on that paper.
    Paper(PaperError),
    /// The part has no table.
    NoTable,
    /// The part is pages of words, which only paper holds.
    OnlyPaper,
    /// The build sheet does not fit on its pages.
    Sheet(SheetError),
}

impl ExportError {
    /// The key of the field at fault.
    #[must_use]
    pub fn field(&self) -> &'static str {
        match self {
            Self::Refused(refusal) => refusal.field(),
            Self::NoSuch { choice, .. } => choice.key,
            Self::Template(error) if error.field() == "half" => "part",
            Self::Template(error) => error.field(),
            Self::Dxf(error) => error.field(),
            Self::Paper(error) => error.field(),
            Self::MarkOut(_) => markout::TOLERANCE.key,
            Self::NoTable | Self::OnlyPaper | Self::Sheet(_) => "part",
        }
    }
}

impl Words for ExportError {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        match self {
            Self::Refused(refusal) => refusal.words(f, system),
            Self::NoSuch { choice, found } => {
                say!(in f, "{label} has no “{found}”: use ", label = choice.label, found)?;
                for (i, option) in choice.options.iter().enumerate() {
                    f.write_str(if i > 0 { ", " } else { "" })?;
                    f.write_str(option.0)?;
                }
                Ok(())
            }
            Self::Template(error) => error.words(f, system),
            Self::Dxf(error) => error.words(f, system),
            Self::MarkOut(error) => error.words(f, system),
            Self::Paper(error) => error.words(f, system),
            Self::OnlyPaper => f.write_str(said("the build sheet is pages of words: take it as PDF")),
            Self::Sheet(error) => write!(f, "{error}"),
            Self::NoTable => f.write_str(said("this part has no table: choose the offsets or the mark-out")),
        }
    }
}

error_with_words!(ExportError);

impl From<Refusal> for ExportError {
    fn from(error: Refusal) -> Self {
        Self::Refused(error)
    }
}

impl From<TemplateError> for ExportError {
    fn from(error: TemplateError) -> Self {
        Self::Template(error)
    }
}

impl From<DxfError> for ExportError {
    fn from(error: DxfError) -> Self {
        Self::Dxf(error)
    }
}

impl From<MarkOutError> for ExportError {
    fn from(error: MarkOutError) -> Self {
        Self::MarkOut(error)
    }
}

impl From<SheetError> for ExportError {
    fn from(error: SheetError) -> Self {
        Self::Sheet(error)
    }
}

impl From<PaperError> for ExportError {
    fn from(error: PaperError) -> Self {
        Self::Paper(error)
    }
}
