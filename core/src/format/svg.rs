//! The drawing as SVG at true scale, for laser cutters, plotters and drawing programs.
//!
//! Written so that no reader can get the size wrong: width and height in mm with the same numbers in the view box,
//! so that one unit is one millimetre; y turned over in the numbers and not by a transform; strokes as presentation
//! attributes; no style sheet, no entity, no reference. Curves stay the cubics they are, to a nanometre. One group
//! a layer.

use super::drawing::{Colour, Drawing, Entity, Layer, Options};
use crate::{arcs::Arc, design::Design, outline::Half, units};
use kurbo::{BezPath, PathEl, Point};

/// Digits after the point: nanometres, as a design stores.
const PLACES: u8 = 6;
/// White round the drawing, mm, so that no viewer cuts a line in half.
const MARGIN: f64 = 10.0;
/// Arcs of a larger radius, mm, are lines: on a metre they rise by a quarter of a micrometre.
const STRAIGHT: f64 = 5e8;
/// Width of every line, mm: a hairline, whose middle machines follow.
const STROKE: &str = "0.1";
/// Font size over the height of capitals, in the usual sans-serif faces.
const FONT_SIZE: f64 = 1.4;

/// The full deck of a design as an SVG file, with all a drawing of it can have.
#[must_use]
pub fn export(design: &Design) -> String {
    print(&Drawing::deck(design, &Options::default()))
}

/// Any drawing as an SVG file: [`Drawing::deck`] leaves out what its options say.
#[must_use]
pub fn print(drawing: &Drawing) -> String {
    let sheet = drawing.extent().inflate(MARGIN, MARGIN);
    let page = Page { left: sheet.x0, top: sheet.y1 };
    let (width, height) = (number(sheet.width()), number(sheet.height()));
    let name = escaped(&drawing.name);
    let (word, meaning) = (drawing.projection.word(), drawing.projection.meaning());
    let title = if name.is_empty() { word.to_owned() } else { format!("{name}, {word}") };
    let part = drawing.part;
    let layers: String = drawing.layers.iter().map(|layer| page.layer(layer)).collect();
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{width}mm\" height=\"{height}mm\" \
         viewBox=\"0 0 {width} {height}\">\n\
         <title>{title}</title>\n\
         <desc>{word} {part}: {meaning}, nose to the right. True scale: one unit is one millimetre.</desc>\n\
         {layers}</svg>\n"
    )
}

/// The corner of the sheet that is 0, 0 in the file; y runs down from there.
struct Page {
    left: f64,
    top: f64,
}

impl Page {
    fn layer(&self, Layer { key, colour, entities }: &Layer) -> String {
        let stroke = hex(*colour);
        let entities: String = entities.iter().map(|entity| self.entity(entity, stroke)).collect();
        format!(
            "<g id=\"{key}\" fill=\"none\" stroke=\"{stroke}\" stroke-width=\"{STROKE}\">\n{entities}</g>\n"
        )
    }

    fn entity(&self, entity: &Entity, colour: &str) -> String {
        let (x, y) = (|p: &Point| number(p.x - self.left), |p: &Point| number(self.top - p.y));
        match entity {
            Entity::Symmetric(half) => format!("<path d=\"{}\"/>\n", self.outline(half)),
            Entity::Chain(chain) => format!("<path d=\"{} Z\"/>\n", self.chain(chain)),
            Entity::Open(chain) => format!("<path d=\"{}\"/>\n", self.chain(chain)),
            Entity::Polygon(corners) => {
                let corners: Vec<String> = corners.iter().map(|corner| self.place(corner)).collect();
                format!("<polygon points=\"{}\"/>\n", corners.join(" "))
            }
            Entity::Circle { centre, radius } => {
                format!("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", x(centre), y(centre), number(*radius))
            }
            Entity::Line(from, to) => {
                format!("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>\n", x(from), y(from), x(to), y(to))
            }
            Entity::Text { at, height, text } => format!(
                "<text x=\"{}\" y=\"{}\" font-family=\"sans-serif\" font-size=\"{}\" fill=\"{colour}\" \
                 stroke=\"none\">{}</text>\n",
                x(at),
                y(at),
                number(FONT_SIZE * height),
                escaped(text),
            ),
        }
    }

    fn outline(&self, half: &Half) -> String {
        path_data(half.closed(), |p| self.place(&p))
    }

    /// With y turned over, anticlockwise in mm is anticlockwise on the screen, and that is 0.
    fn chain(&self, chain: &[Arc]) -> String {
        chain_data(chain, ["0", "1"], &|p| self.place(p))
    }

    fn place(&self, p: &Point) -> String {
        format!("{},{}", number(p.x - self.left), number(self.top - p.y))
    }
}

/// A path as SVG path data, in mm with y up as in a design, to a nanometre.
#[must_use]
pub fn path(path: &BezPath) -> String {
    path_data(path.elements().iter().copied(), |p| format!("{},{}", number(p.x), number(p.y)))
}

/// Closed chains as SVG path data, in mm with y up as in a design, to a nanometre; arcs that run anticlockwise there have
/// the sweep flag 1, as SVG counts angles from x to y.
#[must_use]
pub fn chains(chains: &[Vec<Arc>]) -> String {
    let place = |p: &Point| format!("{},{}", number(p.x), number(p.y));
    let data: Vec<String> = chains.iter().map(|chain| chain_data(chain, ["1", "0"], &place) + " Z").collect();
    data.join(" ")
}

/// Arcs stay arcs: two half turns never end where they began, so that no reader can lose one. `flags` are those of
/// anticlockwise and of clockwise arcs.
fn chain_data(chain: &[Arc], flags: [&str; 2], place: &dyn Fn(&Point) -> String) -> String {
    let start = chain.first().map_or_else(String::new, |arc| format!("M{}", place(&arc.p0)));
    let pieces = chain.iter().map(|arc| match arc.radius().filter(|radius| *radius < STRAIGHT) {
        None => format!(" L{}", place(&arc.p1)),
        Some(radius) => {
            let radius = number(radius);
            let sweep = flags[usize::from(arc.bulge < 0.0)];
            format!(" A{radius},{radius} 0 0 {sweep} {}", place(&arc.p1))
        }
    });
    start + &pieces.collect::<String>()
}

fn path_data(elements: impl IntoIterator<Item = PathEl>, place: impl Fn(Point) -> String) -> String {
    let elements = elements.into_iter().map(|element| match element {
        PathEl::MoveTo(p) => format!("M{}", place(p)),
        PathEl::LineTo(p) => format!("L{}", place(p)),
        PathEl::QuadTo(p, q) => format!("Q{} {}", place(p), place(q)),
        PathEl::CurveTo(p, q, r) => format!("C{} {} {}", place(p), place(q), place(r)),
        PathEl::ClosePath => "Z".to_owned(),
    });
    elements.collect::<Vec<_>>().join(" ")
}

fn number(value: f64) -> String {
    units::decimal_trimmed(value, PLACES)
}

fn hex(colour: Colour) -> &'static str {
    match colour {
        Colour::Black => "#000000",
        Colour::Red => "#FF0000",
        Colour::Green => "#00FF00",
        Colour::Blue => "#0000FF",
        Colour::Magenta => "#FF00FF",
        Colour::Cyan => "#00FFFF",
        Colour::Grey => "#808080",
    }
}

/// Text that means itself in XML; characters that XML 1.0 forbids are left out.
fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&apos;"),
            '\u{fffe}' | '\u{ffff}' => {}
            c if c.is_control() => {}
            c => escaped.push(c),
        }
    }
    escaped
}

#[cfg(test)]
mod tests;
