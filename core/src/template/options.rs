//! What a person chooses about a template, and the one door that checks it.

use crate::{
    arcs::offset::OffsetError,
    design::Refusal,
    language::said,
    projection::Projection,
    quantities::Quantity,
    say, text, tolerance,
    units::{System, Unit, Words, error_with_words, show},
};
use core::fmt;

/// The choices for one export. Lengths in mm. Checked by [`TemplateOptions::checked`].
#[derive(Clone, Debug, PartialEq)]
pub struct TemplateOptions {
    /// What rides along the template.
    pub guide: Guide,
    /// Outside diameter of the guide bushing.
    pub bushing: f64,
    /// Outside diameter of the bearing.
    pub bearing: f64,
    /// Diameter of the bit.
    pub bit: f64,
    /// Which side is cut, and what is kept.
    pub cut: Cut,
    /// Distance of the band-saw line from the outline.
    pub saw_line: f64,
    /// Thickness of the template itself.
    pub thickness: f64,
    /// How the bolt holes are shown.
    pub holes: HoleKind,
    /// Diameter of the holes, for the drill or for a drill guide.
    pub drill: f64,
    /// Half a template with the centreline as its edge, to be turned over.
    pub half: bool,
    /// Which outline it follows.
    pub projection: Projection,
    /// What the maker calls this state of the deck; may be empty.
    pub version: String,
    /// The day, as YYYY-MM-DD; it comes in from outside, and may be empty.
    pub date: String,
}

/// What rides along the template's edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Guide {
    /// A bushing in the router's base, round the bit and wider than it.
    Bushing,
    /// A bearing on the bit.
    Bearing,
}

/// Which side is cut, and what is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cut {
    /// The template lies on the deck; the router runs round its outside.
    Outside,
    /// The router runs round the inside of a window, and the deck is what is cut out.
    WindowDeck,
    /// The router runs round the inside of a window, and what is left is an opening of the deck's outline.
    WindowOpening,
}

/// How the bolt holes are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HoleKind {
    /// As holes of the drill's size.
    Holes,
    /// As crosses to centre-punch through.
    Marks,
}

/// A length of a template that a person sets.
#[derive(Debug)]
pub struct OptionRow {
    /// What it is.
    pub quantity: Quantity,
    /// Smallest value accepted.
    pub least: f64,
    /// Largest value accepted.
    pub most: f64,
    /// Reads it.
    pub get: fn(&TemplateOptions) -> f64,
    /// Writes it.
    pub set: fn(&mut TemplateOptions, f64),
}

/// Every length of a template that a person sets, in the order they are asked for.
pub const OPTIONS: &[OptionRow] = &[
    // All limits and defaults of this table: common practice, no source. Bushings of 16 and 30 mm are sold (community.screwfix,
    // routerforums), and inch ones from 5/16 to 1 in (from memory).
    row(
        "bushing",
        "Guide bushing",
        "Outside diameter of the bushing that rides along the template. Measure yours.",
        (5.0, 60.0),
        |o| o.bushing,
        |o, v| o.bushing = v,
    ),
    row(
        "bearing",
        "Bearing",
        "Outside diameter of the bearing on the bit. As wide as the bit, it follows the template's edge itself.",
        (2.0, 60.0),
        |o| o.bearing,
        |o, v| o.bearing = v,
    ),
    row("bit", "Bit", "Cutting diameter of the router bit.", (2.0, 30.0), |o| o.bit, |o, v| o.bit = v),
    // To within 2 to 3 mm before routing (from memory).
    row(
        "saw-line",
        "Saw line",
        "Distance outside the outline at which the blank is sawn before it is routed.",
        (0.5, 6.0),
        |o| o.saw_line,
        |o, v| o.saw_line = v,
    ),
    // Common practice, no source: above 6 mm a sheet does not bend into a kick.
    row(
        "template-thickness",
        "Template thickness",
        "Thickness of the template. Only a thin one follows a kick (common practice, no source).",
        (1.0, 25.0),
        |o| o.thickness,
        |o, v| o.thickness = v,
    ),
    row(
        "drill",
        "Drill",
        "Diameter of the bolt holes in the template: that of the drill, or of the drill guide that sits in them.",
        (1.0, 20.0),
        |o| o.drill,
        |o, v| o.drill = v,
    ),
];

const fn row(
    key: &'static str,
    label: &'static str,
    help: &'static str,
    (least, most): (f64, f64),
    get: fn(&TemplateOptions) -> f64,
    set: fn(&mut TemplateOptions, f64),
) -> OptionRow {
    OptionRow { quantity: Quantity { key, label, help, unit: Unit::Length }, least, most, get, set }
}

impl Default for TemplateOptions {
    /// A half template for a 16 mm bushing and a 6.35 mm bit (common practice, no source; the saw line of 2 mm from memory).
    fn default() -> Self {
        Self {
            guide: Guide::Bushing,
            bushing: 16.0,
            bearing: 6.35,
            bit: 6.35,
            cut: Cut::Outside,
            saw_line: 2.0,
            thickness: 3.0,
            holes: HoleKind::Holes,
            drill: 5.2,
            half: true,
            projection: Projection::Developed,
            version: String::new(),
            date: String::new(),
        }
    }
}

impl TemplateOptions {
    /// Most characters of the version and of the date.
    pub const LONGEST_TEXT: usize = 80;

    /// The options with their texts cleaned, if all of them can be met.
    ///
    /// # Errors
    ///
    /// The first [`TemplateError`] found.
    pub fn checked(mut self) -> Result<Self, TemplateError> {
        for row in OPTIONS {
            row.quantity.check((row.get)(&self), row.least, row.most).map_err(TemplateError::Refused)?;
        }
        let too_narrow = self.guide == Guide::Bushing && self.bushing <= self.bit + tolerance::PARAMETER;
        if too_narrow {
            return Err(TemplateError::BushingTooNarrow { bushing: self.bushing, bit: self.bit });
        }
        let line = |field, text: &str| text::line(field, text, Self::LONGEST_TEXT);
        self.version = line("version", &self.version).map_err(TemplateError::Refused)?;
        self.date = line("date", &self.date).map_err(TemplateError::Refused)?;
        Ok(self)
    }

    /// Distance of the template's edge from the outline, mm, positive outward.
    ///
    /// The bit's edge is (B − b)/2 inside that of the bushing, or beyond it on the far side of the bit: (B + b)/2
    /// (franz-makes, 360woodworking, ukworkshop: 15 mm and 9 mm give 3 mm).
    #[must_use]
    pub fn edge(&self) -> f64 {
        let guide = match self.guide {
            Guide::Bushing => self.bushing,
            Guide::Bearing => self.bearing,
        };
        match self.cut {
            Cut::Outside => -(guide - self.bit) / 2.0,
            Cut::WindowDeck => f64::midpoint(guide, self.bit),
            Cut::WindowOpening => (guide - self.bit) / 2.0,
        }
    }
}

impl Guide {
    /// Its name in scripts, and the key of its diameter.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Bushing => "bushing",
            Self::Bearing => "bearing",
        }
    }
}

impl Cut {
    /// Its name in files and scripts.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Outside => "outside",
            Self::WindowDeck => "window-deck",
            Self::WindowOpening => "window-opening",
        }
    }

    /// Its name on screen and on the template.
    #[must_use]
    pub const fn label(self) -> &'static str {
        match self {
            Self::Outside => "Outside of the template",
            Self::WindowDeck => "Window, the deck is kept",
            Self::WindowOpening => "Window, an opening is left",
        }
    }
}

/// Why there is no such template.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum TemplateError {
    /// A length outside its limits, or a text that is too long.
    Refused(Refusal),
    /// A bushing that the bit does not fit through.
    BushingTooNarrow {
        /// Outside diameter of the bushing, mm.
        bushing: f64,
        /// Diameter of the bit, mm.
        bit: f64,
    },
    /// The outline has no such parallel.
    Offset {
        /// The field that asks for it.
        field: &'static str,
        /// Why.
        error: OffsetError,
    },
    /// A half template whose edge does not come far enough past the centreline for its ears.
    NoEars,
}

impl TemplateError {
    /// The key of the field at fault.
    #[must_use]
    pub fn field(&self) -> &'static str {
        match self {
            Self::Refused(refusal) => refusal.field(),
            Self::BushingTooNarrow { .. } => "bushing",
            Self::NoEars => "half",
            Self::Offset { field, .. } => field,
        }
    }
}

impl Words for TemplateError {
    fn words(&self, f: &mut fmt::Formatter<'_>, system: System) -> fmt::Result {
        let length = |mm: f64| show(mm, Unit::Thickness, system);
        match self {
            Self::Refused(refusal) => refusal.words(f, system),
            Self::BushingTooNarrow { bushing, bit } => say!(in f, "a bit of {bit} does not fit through a bushing of {bushing}: take a wider bushing or a thinner bit", bit = length(*bit), bushing = length(*bushing)),
            Self::Offset { error, .. } => error.words(f, system),
            Self::NoEars => f.write_str(said("the edge does not come past the centreline far enough for run-off ears: choose the full template")),
        }
    }
}

error_with_words!(TemplateError);
