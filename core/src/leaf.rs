//! A leaf: what is inked on one printed page, or in one figure, with nothing left to decide.
//!
//! Lengths in mm from the upper left corner, x to the right and y *down*. The PDF and the page's preview print the same
//! leaf, so that what is seen is what comes out of the printer. Letters are those of the base fonts of a PDF: a leaf knows
//! how long its words are, and a preview stretches its own font to that length.

mod picture;
mod words;

pub use self::{
    picture::Element,
    words::{Style, wrapped},
};
use crate::format::pdf::letters;
use kurbo::{Affine, BezPath, Line, Point, Rect, Shape as _, Size, Vec2};

/// One printed page, or one figure.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Leaf {
    /// Its size.
    pub size: Size,
    /// What is on it, the lowest first.
    pub marks: Vec<Mark>,
}

/// One thing on a leaf.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A line along a path.
    Stroke {
        /// The path.
        path: BezPath,
        /// Width of the line.
        width: f64,
        /// Its tone.
        tone: Tone,
        /// Whether it is dashed.
        dashed: bool,
    },
    /// The inside of a path, by its winding.
    Fill {
        /// The path.
        path: BezPath,
        /// Its tone.
        tone: Tone,
    },
    /// One line of words.
    Words {
        /// The left end of the baseline; the lower end where they read upward.
        at: Point,
        /// Face, size and tone.
        style: Style,
        /// Whether they read upward.
        upright: bool,
        /// The words, in letters that the fonts have.
        text: String,
    },
}

/// A face of the letters.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Face {
    /// Sans serif, for most.
    #[default]
    Plain,
    /// Sans serif, bold: headings and figures read at arm's length.
    Bold,
    /// Serif: the great figures.
    Serif,
}

/// A tone of the ink.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Tone {
    /// Ink.
    #[default]
    Ink,
    /// Thinned ink, still to be read.
    Soft,
    /// A faint rule.
    Rule,
    /// The wood of the board.
    Wood,
    /// Blank paper, where letters interrupt lines.
    Paper,
    /// The red pencil.
    Red,
    /// The blue pencil.
    Blue,
}

impl Face {
    /// Its name among the fonts of a PDF page.
    pub(crate) fn font(self) -> &'static str {
        match self {
            Self::Plain => "F",
            Self::Bold => "B",
            Self::Serif => "S",
        }
    }
}

impl Tone {
    /// Red, green and blue, each of 255: the colours of the page on white paper.
    #[must_use]
    pub fn rgb(self) -> [u8; 3] {
        match self {
            Self::Ink => [0x17, 0x19, 0x1A],
            Self::Soft => [0x55, 0x59, 0x5A],
            Self::Rule => [0xB4, 0xB1, 0xA6],
            Self::Wood => [0xF3, 0xEE, 0xE0],
            Self::Paper => [0xFF; 3],
            Self::Red => [0xB5, 0x37, 0x1F],
            Self::Blue => [0x26, 0x56, 0x8F],
        }
    }
}

impl Leaf {
    /// A blank leaf.
    #[must_use]
    pub fn new(size: Size) -> Self {
        Self { size, marks: Vec::new() }
    }

    /// Writes a line of words from the left end of its baseline; how long it is.
    pub fn words(&mut self, at: Point, style: Style, text: &str) -> f64 {
        let text: String = text.chars().map(letters::shown).collect();
        let length = style.length(&text);
        if !text.trim().is_empty() {
            self.marks.push(Mark::Words { at, style, upright: false, text });
        }
        length
    }

    /// Writes a line of words that reads upward from its lower end.
    pub fn upright(&mut self, at: Point, style: Style, text: &str) {
        let text = text.chars().map(letters::shown).collect();
        self.marks.push(Mark::Words { at, style, upright: true, text });
    }

    /// Writes a line of words that ends at a place.
    pub fn words_to(&mut self, end: Point, style: Style, text: &str) {
        self.words(end - Vec2::new(style.length(text), 0.0), style, text);
    }

    /// Writes a line of words round the middle of its baseline.
    pub fn words_round(&mut self, middle: Point, style: Style, text: &str) {
        self.words(middle - Vec2::new(style.length(text) / 2.0, 0.0), style, text);
    }

    /// A line along a path.
    pub fn stroke(&mut self, path: BezPath, width: f64, tone: Tone) {
        self.marks.push(Mark::Stroke { path, width, tone, dashed: false });
    }

    /// A dashed line along a path.
    pub fn dashes(&mut self, path: BezPath, width: f64, tone: Tone) {
        self.marks.push(Mark::Stroke { path, width, tone, dashed: true });
    }

    /// A straight line.
    pub fn line(&mut self, from: impl Into<Point>, to: impl Into<Point>, width: f64, tone: Tone) {
        self.stroke(Line::new(from.into(), to.into()).to_path(1.0), width, tone);
    }

    /// An empty box.
    pub fn frame(&mut self, rect: Rect, width: f64, tone: Tone) {
        self.stroke(rect.to_path(1.0), width, tone);
    }

    /// A filled path.
    pub fn fill(&mut self, path: BezPath, tone: Tone) {
        self.marks.push(Mark::Fill { path, tone });
    }

    /// Puts a figure on it, its upper left corner at a place.
    pub fn place(&mut self, figure: Self, corner: Point) {
        let shift = corner.to_vec2();
        for mut mark in figure.marks {
            match &mut mark {
                Mark::Stroke { path, .. } | Mark::Fill { path, .. } => {
                    path.apply_affine(Affine::translate(shift));
                }
                Mark::Words { at, .. } => *at += shift,
            }
            self.marks.push(mark);
        }
    }

    /// The box of each line of words with the words: from the baseline's depth to the height of its capitals.
    pub fn texts(&self) -> impl Iterator<Item = (Rect, &str)> {
        self.marks.iter().filter_map(|mark| match mark {
            Mark::Words { at, style, upright, text } => {
                Some((style.extent(*at, *upright, text), text.as_str()))
            }
            _ => None,
        })
    }
}
