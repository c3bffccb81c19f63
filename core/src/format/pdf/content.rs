//! What a page shows: lines, curves and words, in mm with y up from the lower left corner.

use super::{
    file::hexadecimal,
    letters::{self, Letters},
    picture::Picture,
};
use crate::{
    format::drawing::Colour,
    leaf::Face,
    units::{self, POINTS_PER_MM},
};
use kurbo::{BezPath, PathEl, Point, Rect, Vec2};

/// Width of every line on paper, mm: as thin as an office printer draws without breaks (common practice, no source).
pub(super) const HAIRLINE: f64 = 0.15;

/// The operators of one page or form.
#[derive(Debug)]
pub(super) struct Content(String);

/// Which way a line of words runs.
#[derive(Clone, Copy)]
pub(super) enum Runs {
    /// To the right.
    Level,
    /// Upward.
    Upright,
}

impl Content {
    /// The content of a form, in mm of the drawing.
    pub(super) fn form() -> Self {
        Self(String::new())
    }

    /// The content of a page: from here on in mm, with hairlines.
    pub(super) fn page() -> Self {
        let scale = units::decimal_trimmed(POINTS_PER_MM, 12);
        let mut content = Self(format!("{scale} 0 0 {scale} 0 0 cm\n1 j\n"));
        content.put(&[HAIRLINE], "w");
        content
    }

    pub(super) fn text(&self) -> &str {
        &self.0
    }

    /// An operator behind its numbers, in mm to a tenth of a micrometre.
    pub(super) fn put(&mut self, numbers: &[f64], operator: &str) {
        for n in numbers {
            self.0.push_str(&number(*n));
            self.0.push(' ');
        }
        self.0.push_str(operator);
        self.0.push('\n');
    }

    /// From here on what is drawn is a drawing seen through a window, moved by `shift` and scaled.
    pub(super) fn window(&mut self, window: Rect, shift: Vec2, scale: f64) {
        self.put(&[], "q");
        self.put(&[window.x0, window.y0, window.width(), window.height()], "re");
        self.put(&[], "W n");
        let factor = units::decimal_trimmed(scale, 9);
        self.0.push_str(&format!("{factor} 0 0 {factor} "));
        self.put(&[shift.x, shift.y], "cm");
        self.put(&[HAIRLINE / scale], "w");
    }

    /// The window closes.
    pub(super) fn end_window(&mut self) {
        self.put(&[], "Q");
    }

    /// A form of the page by its name.
    pub(super) fn show(&mut self, name: &str) {
        self.0.push('/');
        self.put(&[], &format!("{name} Do"));
    }

    /// The colour of lines and words, as the other formats have it.
    pub(super) fn colour(&mut self, colour: Colour) {
        self.rgb(match colour {
            Colour::Black => [0.0, 0.0, 0.0],
            Colour::Red => [1.0, 0.0, 0.0],
            Colour::Green => [0.0, 1.0, 0.0],
            Colour::Blue => [0.0, 0.0, 1.0],
            Colour::Magenta => [1.0, 0.0, 1.0],
            Colour::Cyan => [0.0, 1.0, 1.0],
            Colour::Grey => [0.5, 0.5, 0.5],
        });
    }

    /// Red, green and blue of lines and words, each from 0 to 1.
    pub(super) fn rgb(&mut self, rgb: [f64; 3]) {
        self.put(&rgb, "RG");
        self.put(&rgb, "rg");
    }

    /// Grey from 0, black, to 1, white.
    pub(super) fn grey(&mut self, grey: f64) {
        self.put(&[grey], "G");
        self.put(&[grey], "g");
    }

    /// Lines from here on are dashed.
    pub(super) fn dashes(&mut self) {
        self.put(&[], "[2 1.5] 0 d");
    }

    /// Lines from here on are solid again.
    pub(super) fn solid(&mut self) {
        self.put(&[], "[] 0 d");
    }

    pub(super) fn line(&mut self, from: Point, to: Point) {
        self.put(&[from.x, from.y], "m");
        self.put(&[to.x, to.y], "l");
        self.put(&[], "S");
    }

    pub(super) fn rectangle(&mut self, rect: Rect) {
        self.put(&[rect.x0, rect.y0, rect.width(), rect.height()], "re");
        self.put(&[], "S");
    }

    pub(super) fn path(&mut self, path: &BezPath) {
        self.trace(path);
        self.put(&[], "S");
    }

    /// The inside of a path, by its winding.
    pub(super) fn inside(&mut self, path: &BezPath) {
        self.trace(path);
        self.put(&[], "f");
    }

    fn trace(&mut self, path: &BezPath) {
        let mut last = Point::ORIGIN;
        for element in path.elements() {
            match element {
                PathEl::MoveTo(p) => self.put(&[p.x, p.y], "m"),
                PathEl::LineTo(p) => self.put(&[p.x, p.y], "l"),
                PathEl::QuadTo(p, q) => {
                    let (start, end) = (last.lerp(*p, 2.0 / 3.0), q.lerp(*p, 2.0 / 3.0));
                    self.put(&[start.x, start.y, end.x, end.y, q.x, q.y], "c");
                }
                PathEl::CurveTo(p, q, r) => self.put(&[p.x, p.y, q.x, q.y, r.x, r.y], "c"),
                PathEl::ClosePath => self.put(&[], "h"),
            }
            last = element.end_point().unwrap_or(last);
        }
    }

    /// A line of words from the left end of its baseline; `size` in mm is that of the font. A picture in front of them is
    /// level.
    pub(super) fn words(&mut self, at: Point, size: f64, runs: Runs, letters: &Letters) {
        let picture = letters.picture.map_or(0.0, |width| size * width);
        if picture > 0.0 {
            self.put(&[], "q");
            let (height, base) = (size * Picture::HEIGHT, at.y - size * Picture::BELOW);
            self.put(&[picture, 0.0, 0.0, height, at.x, base], "cm");
            self.show("N");
            self.put(&[], "Q");
        }
        self.words_in(Face::Plain, Point::new(at.x + picture, at.y), size, runs, &letters.text);
    }

    /// Plain text in a face.
    pub(super) fn words_in(&mut self, face: Face, at: Point, size: f64, runs: Runs, text: &[u8]) {
        let turn = match runs {
            Runs::Level => [1.0, 0.0, 0.0, 1.0],
            Runs::Upright => [0.0, 1.0, -1.0, 0.0],
        };
        self.0.push_str("BT /");
        self.0.push_str(face.font());
        self.0.push(' ');
        self.put(&[size], "Tf");
        self.put(&turn, "");
        self.put(&[at.x, at.y], "Tm");
        self.0.push_str(&hexadecimal(text.iter().copied()));
        self.0.push_str(" Tj ET\n");
    }

    /// A line of words that is made smaller where it is longer than `room`.
    pub(super) fn words_within(&mut self, at: Point, size: f64, room: f64, letters: &Letters) {
        let size = size.min(room / letters::width(letters));
        self.words(at, size, Runs::Level, letters);
    }
}

pub(super) fn number(value: f64) -> String {
    units::decimal_trimmed(value, 4)
}
