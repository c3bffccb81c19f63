//! A shape taken from a drawing: the outline found in an SVG or DXF file, laid on the bolt holes and made symmetrical.
//!
//! What is symmetrical already is followed exactly, so that the tool's own files come back as they were; what is not is
//! averaged over its two halves and drawn as a fair chain, with the asymmetry told.

mod centre;
mod chain;
mod dxf;
mod error;
mod halves;
mod number;
mod sketch;
mod strokes;
mod svg;
mod xml;

pub use self::error::DrawingError;
use self::{centre::Frame, halves::Halves, sketch::Sketch};
use super::{Asymmetry, Found, Taken, develop::developed, measured};
use crate::{
    datum::Datum,
    design::Shape,
    language::{figure, said},
    outline::Outline,
    projection::Projection,
    say,
    units::{decimal, inches},
};
use kurbo::Point;

/// The longest text that is read, in bytes.
pub const LONGEST: usize = 8_000_000;
/// Halves that lie apart by no more than this, mm, are one another's mirror: a tenth of a template's accuracy more than files
/// are rounded to.
const MIRRORED: f64 = 0.02;
/// How near an edge that is followed exactly comes to the drawing, mm; a file's own arcs take 0.002 mm of the hundredth.
const EXACT: f64 = 0.004;
/// Places along the edge at which its distance from the drawing is shown.
const PLACES: usize = 24;

/// What a number in a drawing counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LengthUnit {
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Metres.
    Metre,
    /// Inches.
    Inch,
    /// Pixels of the web, 96 to the inch.
    Pixel,
    /// Points of a printed page, 72 to the inch.
    Point,
}

/// What the centreline is found by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Centreline {
    /// The bolt holes where there are eight, else the shape's own symmetry.
    #[default]
    Either,
    /// The bolt holes.
    Holes,
    /// The shape's own symmetry.
    Symmetry,
    /// It lies level in the drawing, halfway up the shape.
    Level,
    /// It stands upright in the drawing, in the middle of the shape.
    Upright,
}

/// How a drawing is to be read.
#[derive(Clone, Debug, PartialEq)]
pub struct Options {
    /// What a number counts; none takes what the file says.
    pub unit: Option<LengthUnit>,
    /// What the centreline is found by.
    pub centreline: Centreline,
    /// Which of the two outlines was drawn; none takes what a file of this tool says, else the developed one.
    pub projection: Option<Projection>,
    /// Whether the nose lies at the left or at the bottom, and not at the right or at the top.
    pub turned: bool,
    /// How near a chain comes to a drawing that is not symmetrical, mm.
    pub tolerance: f64,
}

impl Default for Options {
    fn default() -> Self {
        Self { unit: None, centreline: Centreline::Either, projection: None, turned: false, tolerance: 0.3 }
    }
}

impl LengthUnit {
    /// All of them.
    pub const ALL: [Self; 6] =
        [Self::Millimetre, Self::Centimetre, Self::Metre, Self::Inch, Self::Pixel, Self::Point];

    /// Its name in scripts.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Metre => "m",
            Self::Inch => "in",
            Self::Pixel => "px",
            Self::Point => "pt",
        }
    }

    fn mm(self) -> f64 {
        match self {
            Self::Millimetre => 1.0,
            Self::Centimetre => 10.0,
            Self::Metre => 1000.0,
            Self::Inch => inches(1.0),
            Self::Pixel => inches(1.0) / 96.0,
            Self::Point => inches(1.0) / 72.0,
        }
    }
}

impl Centreline {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Either, Self::Holes, Self::Symmetry, Self::Level, Self::Upright];

    /// Its name in scripts.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Either => "either",
            Self::Holes => "holes",
            Self::Symmetry => "symmetry",
            Self::Level => "level",
            Self::Upright => "upright",
        }
    }
}

impl Options {
    /// Least and most of the tolerance, mm.
    pub const TOLERANCES: (f64, f64) = (0.05, 5.0);
}

/// The shape in the text of an SVG or DXF file. `shape` gives the bolt holes where the drawing has none, the place of the
/// middle of its length then, and the pressed shape to develop a plan by.
///
/// # Errors
///
/// [`DrawingError`].
pub fn read(text: &str, options: &Options, shape: &Shape) -> Result<Taken, DrawingError> {
    if !(options.tolerance >= Options::TOLERANCES.0 && options.tolerance <= Options::TOLERANCES.1) {
        return Err(DrawingError::Tolerance(options.tolerance));
    }
    if text.len() > LONGEST {
        return Err(DrawingError::TooLarge(text.len()));
    }
    let text = text.trim_start_matches('\u{feff}').trim_start();
    let mut sketch = if text.starts_with('<') { svg::read(text)? } else { dxf::read(text)? };
    let contour = sketch.outline(options.unit)?;
    let frame = Frame::find(&contour, &sketch.circles, options, shape)?;
    let projection = options.projection.or(sketch.projection).unwrap_or_default();
    let mut datum = frame.datum.clone();
    let mut halves = Halves::of(&contour, &frame)?;
    if projection == Projection::Plan {
        let pressed = datum.clone().unwrap_or_else(|| shape.datum.clone());
        let laid = |p: Point| developed(&shape.profile, &pressed, p);
        halves = halves.developed(&laid);
        if let Some(datum) = &mut datum {
            let seen = datum.pattern_width;
            // The concave draws the rows of holes together by a hundredth or two, which changes little from round to round.
            for _ in 0..3 {
                let mean = mean_width(shape, datum);
                datum.pattern_width += seen - mean;
            }
        }
    }
    let farthest = halves.asymmetry();
    let mirrored = farthest.distance <= MIRRORED;
    let read_as = if projection == Projection::Plan {
        "Read as the plan, seen from above"
    } else {
        "Read as the developed sheet"
    };
    let mut remarks = vec![say!("{read_as}; centreline by {found_by}.", read_as, found_by = frame.found_by)];
    let exact = mirrored.then(|| chain::exact(&halves.left, EXACT)).flatten();
    let is_exact = exact.is_some();
    let (outline, edge): (Outline, Vec<Point>) = match exact {
        Some(outline) => (outline, halves.places(PLACES)),
        None => {
            let mean = halves.mean();
            let outline = chain::fair(&mean, options.tolerance).ok_or(DrawingError::Wild)?;
            (outline, mean.places(PLACES))
        }
    };
    if !mirrored {
        let most = figure(decimal(farthest.distance, 2));
        remarks.push(say!("The two halves lie {most} mm apart at the most; their mean is drawn.", most));
    }
    if !is_exact {
        remarks.push(said("Drawn as a fair chain of few spans.").to_owned());
    }
    if frame.datum.is_none() {
        remarks
            .push(said("No bolt holes: its middle lies where the middle of the deck in hand is.").to_owned());
    }
    let found = |at: Point| Found { at, residual: measured::off(&outline, at), suspect: false, line: 0 };
    let points = edge.into_iter().map(found).collect();
    let asymmetry = Some(Asymmetry { most: farthest.distance, at: farthest.at });
    Ok(Taken { outline, datum, points, asymmetry, remarks })
}

/// The mean width of the four rows of bolt holes as seen from above, mm.
fn mean_width(shape: &Shape, datum: &Datum) -> f64 {
    let across = datum.holes().map(|hole| shape.profile.plan(datum, hole).y.abs());
    across.iter().sum::<f64>() / 4.0
}

#[cfg(test)]
mod tests;
