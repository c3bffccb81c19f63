//! A leaf as a picture on a page: SVG elements without styles of their own. Classes name tones and faces, so that a page
//! gives them its colours and its fonts; every line of words says how long it is.

use super::{Face, Leaf, Mark, Tone};
use crate::{format::svg, units::decimal_trimmed};

/// One element of the picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Element {
    /// Its tag: `path` or `text`.
    pub tag: &'static str,
    /// Its attributes.
    pub attributes: Vec<(&'static str, String)>,
    /// The words in it.
    pub text: String,
}

impl Leaf {
    /// The box of the picture, as an SVG has it.
    #[must_use]
    pub fn view_box(&self) -> String {
        ["0 0", &number(self.size.width), &number(self.size.height)].join(" ")
    }

    /// What is in it, the lowest first.
    pub fn picture(&self) -> impl Iterator<Item = Element> {
        self.marks.iter().map(Mark::element)
    }
}

impl Mark {
    fn element(&self) -> Element {
        match self {
            Self::Stroke { path, width, tone, dashed } => {
                let dash = if *dashed { " dashed" } else { "" };
                let class = ["line ", tone.name(), dash].concat();
                let attributes =
                    vec![("class", class), ("d", svg::path(path)), ("stroke-width", number(*width))];
                Element { tag: "path", attributes, text: String::new() }
            }
            Self::Fill { path, tone } => {
                let attributes = vec![("class", tone.name().to_owned()), ("d", svg::path(path))];
                Element { tag: "path", attributes, text: String::new() }
            }
            Self::Words { at, style, upright, text } => {
                let face = match style.face {
                    Face::Plain => "",
                    Face::Bold => " bold",
                    Face::Serif => " serif",
                };
                let [x, y] = [number(at.x), number(at.y)];
                let mut attributes = vec![
                    ("class", [style.tone.name(), face].concat()),
                    ("font-size", number(style.size)),
                    ("textLength", number(style.length(text))),
                    ("lengthAdjust", "spacingAndGlyphs".to_owned()),
                ];
                if *upright {
                    attributes.push(("transform", ["rotate(-90 ", &x, " ", &y, ")"].concat()));
                }
                attributes.extend([("x", x), ("y", y)]);
                Element { tag: "text", attributes, text: text.clone() }
            }
        }
    }
}

impl Tone {
    /// Its name for a page's styles.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Ink => "ink",
            Self::Soft => "soft",
            Self::Rule => "rule",
            Self::Wood => "wood",
            Self::Paper => "paper",
            Self::Red => "red",
            Self::Blue => "blue",
        }
    }
}

fn number(mm: f64) -> String {
    decimal_trimmed(mm, 3)
}
