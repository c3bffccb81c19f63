//! A drawing for other programs and for machines: what is exported, decided once, for every format that prints it.
//!
//! Everything lies on the developed sheet, or on the plan, in mm: x to the nose, y to the left rail. A format prints layers and
//! entities and decides nothing but their spelling.

use crate::{
    arcs::{self, Arc},
    design::Design,
    language::Own,
    measure::Envelope,
    outline::{Half, resolve::extent},
    profile::{Kick, Profile},
    projection::Projection,
    say,
};

use kurbo::{Point, Rect};

/// The layers of a drawing under its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The name of the design; may be empty, and hold any character a name can.
    pub name: String,
    /// What is drawn, in a word or two.
    pub part: &'static str,
    /// Which of the two outlines of the deck it is of.
    pub projection: Projection,
    /// The layers, the one to be cut first.
    pub layers: Vec<Layer>,
}

/// Lines of one meaning, which a machine is told to treat alike.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// Its name: kebab-case, and never changed, because machines are set up by it.
    pub key: &'static str,
    /// Its colour, by which some programs tell layers apart.
    pub colour: Colour,
    /// What is on it.
    pub entities: Vec<Entity>,
}

/// The colours that every program has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Colour {
    /// Black on white paper, white on a black screen.
    Black,
    /// Red.
    Red,
    /// Green.
    Green,
    /// Blue.
    Blue,
    /// Magenta.
    Magenta,
    /// Cyan.
    Cyan,
    /// Grey, for what is only there to look at.
    Grey,
}

/// One thing drawn. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub enum Entity {
    /// The closed curve made of a half outline and its exact mirror.
    Symmetric(Half),
    /// A closed chain of lines and arcs.
    Chain(Vec<Arc>),
    /// A chain of lines and arcs with two ends.
    Open(Vec<Arc>),
    /// A closed curve of straight sides.
    Polygon(Vec<Point>),
    /// A circle.
    Circle {
        /// Its centre.
        centre: Point,
        /// Its radius.
        radius: f64,
    },
    /// A straight line between two points.
    Line(Point, Point),
    /// One line of text along x.
    Text {
        /// The left end of its baseline.
        at: Point,
        /// Height of its capitals.
        height: f64,
        /// What it says.
        text: String,
    },
}

/// What to leave out. The outline and the holes are always drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Options {
    /// Draw the centreline.
    pub centreline: bool,
    /// Draw a line across the deck where each kick begins to bend.
    pub bend_lines: bool,
    /// Draw the rectangle the veneers are cut to.
    pub blank: bool,
    /// Write the name and what the drawing is.
    pub text: bool,
    /// Which of the two outlines of the deck is drawn.
    pub projection: Projection,
}

impl Default for Options {
    /// Everything.
    fn default() -> Self {
        Self {
            centreline: true,
            bend_lines: true,
            blank: true,
            text: true,
            projection: Projection::Developed,
        }
    }
}

/// Height of capitals in a drawing, mm; a long name takes less.
const TEXT_HEIGHT: f64 = 8.0;

impl Drawing {
    /// The full deck of a design.
    #[must_use]
    pub fn deck(design: &Design, options: &Options) -> Self {
        let shape = design.shape();
        let half = options.projection.half(shape);
        let outline = extent_of(&half);
        let radius = shape.datum.hole_diameter / 2.0;
        let hole = |p: Point| Entity::Circle { centre: options.projection.point(shape, p), radius };
        let holes = shape.datum.holes().map(hole);

        let mut layers = vec![
            Layer::new("outline", Colour::Black, [Entity::Symmetric(half.clone())]),
            Layer::new("holes", Colour::Red, holes),
        ];
        if options.centreline {
            let line = Entity::Line(Point::new(outline.x0, 0.0), Point::new(outline.x1, 0.0));
            layers.push(Layer::new("centreline", Colour::Blue, [line]));
        }
        if options.bend_lines {
            layers.push(Layer::new("bend-lines", Colour::Green, bend_lines(design, &half)));
        }
        // The veneers are cut flat.
        if options.blank && options.projection == Projection::Developed {
            let size = (shape.layup.blank_length, shape.layup.blank_width);
            let blank = Rect::from_center_size((outline.center().x, 0.0), size);
            layers.push(Layer::new("blank", Colour::Magenta, [rectangle(blank)]));
        }
        if options.text {
            let room = shape.datum.wheelbase - 2.0 * TEXT_HEIGHT;
            layers.push(Layer::new("text", Colour::Black, texts(design.name(), options.projection, room)));
        }
        Self { name: design.name().to_owned(), part: "deck", projection: options.projection, layers }
    }

    /// The rectangle that all curves and lines just fit into; text is not measured.
    #[must_use]
    pub fn extent(&self) -> Rect {
        let entities = self.layers.iter().flat_map(|layer| &layer.entities);
        let extents = entities.filter_map(Entity::extent);
        extents.reduce(|all, one| all.union(one)).unwrap_or(Rect::ZERO)
    }
}

impl Layer {
    pub(crate) fn new(key: &'static str, colour: Colour, entities: impl IntoIterator<Item = Entity>) -> Self {
        Self { key, colour, entities: entities.into_iter().collect() }
    }
}

impl Entity {
    fn extent(&self) -> Option<Rect> {
        match self {
            Self::Symmetric(half) => Some(extent_of(half)),
            Self::Chain(chain) | Self::Open(chain) => arcs::extent(chain),
            Self::Polygon(corners) => {
                let first = corners.first()?;
                let start = Rect::from_points(*first, *first);
                Some(corners.iter().fold(start, |all, corner| all.union_pt(*corner)))
            }
            Self::Circle { centre, radius } => {
                Some(Rect::from_center_size(*centre, (2.0 * radius, 2.0 * radius)))
            }
            Self::Line(from, to) => Some(Rect::from_points(*from, *to)),
            Self::Text { .. } => None,
        }
    }
}

/// The extent of the whole outline: as far to the right as to the left.
fn extent_of(half: &Half) -> Rect {
    let boxes = half.pieces().iter().map(|piece| extent(&piece.curve));
    let left = boxes.reduce(|all, one| all.union(one)).unwrap_or(Rect::ZERO);
    Rect { y0: -left.y1, ..left }
}

/// A line from edge to edge where each end that kicks begins to bend.
fn bend_lines(design: &Design, half: &Half) -> Vec<Entity> {
    let shape = design.shape();
    let envelope = Envelope::of(half);
    let outer = shape.datum.outer_row();
    let Profile { nose, tail, .. } = &shape.profile;
    let line = |kick: &Kick, sign: f64| {
        let x = sign * (outer + kick.bend_line);
        let y = envelope.half_breadth(x).filter(|_| kick.kicks())?;
        Some(Entity::Line(Point::new(x, -y), Point::new(x, y)))
    };
    [line(tail, -1.0), line(nose, 1.0)].into_iter().flatten().collect()
}

/// Under the half outline: the name and what it is, on a line of its own.
pub(crate) fn caption(design: &Design, projection: Projection) -> Entity {
    let named = if design.name().is_empty() { "" } else { ", " };
    let text = say!(
        "{name}{comma}{projection}: {meaning}",
        name = Own(design.name()),
        comma = named,
        projection = projection.word(),
        meaning = projection.meaning()
    );
    let room = design.shape().datum.wheelbase;
    let height = (TEXT_HEIGHT / 2.0).min(room / (4.0 / 3.0 * text.chars().count() as f64));
    Entity::Text { at: Point::new(-room / 2.0, -3.0 * TEXT_HEIGHT), height, text }
}

fn rectangle(rect: Rect) -> Entity {
    let Rect { x0, y0, x1, y1 } = rect;
    Entity::Polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(Point::from).to_vec())
}

/// The name over the centreline and what the drawing is under it, amidships, where there are no holes.
fn texts(name: &str, projection: Projection, room: f64) -> Vec<Entity> {
    let text = |text: String, above: bool| {
        // No letter is wider than capitals are high by more than a third.
        let widest = 4.0 / 3.0 * text.chars().count().max(1) as f64;
        let height = TEXT_HEIGHT.min(room / widest);
        let y = if above { TEXT_HEIGHT / 2.0 } else { -TEXT_HEIGHT / 2.0 - height };
        Entity::Text { at: Point::new(-room / 2.0, y), height, text }
    };
    let what =
        say!("{projection}: {meaning}", projection = projection.word(), meaning = projection.meaning());
    let what = text([&what, ", 1:1, mm"].concat(), false);
    let name = (!name.is_empty()).then(|| text(name.to_owned(), true));
    name.into_iter().chain([what]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    fn layer<'a>(drawing: &'a Drawing, key: &str) -> &'a [Entity] {
        &drawing.layers.iter().find(|layer| layer.key == key).unwrap().entities
    }

    #[test]
    fn the_first_demo_deck_has_its_published_places() {
        let drawing = Drawing::deck(&demo::turnstone(), &Options::default());
        // Outer rows lie 180.975 + 53.975 mm off the origin and the bend lines 19.05 mm beyond; half widths from
        // the table.
        let across = |x: f64, y: f64| Entity::Line((x, -y).into(), (x, y).into());
        assert_eq!(layer(&drawing, "bend-lines"), [across(-254.0, 100.2), across(254.0, 100.8)]);
        let ends = Entity::Line((-400.05, 0.0).into(), (412.75, 0.0).into());
        assert_eq!(layer(&drawing, "centreline"), [ends]);
        let hole = Entity::Circle { centre: (-234.95, 20.6375).into(), radius: 2.6 };
        assert_eq!(layer(&drawing, "holes")[0], hole);
        // The blank lies evenly round the outline: 12.7 mm beyond either end.
        let extent = drawing.extent();
        assert!((extent.x0 + 412.75).abs() < 1e-9 && (extent.x1 - 425.45).abs() < 1e-9, "{extent:?}");
        assert_eq!((extent.y0, extent.y1), (-120.65, 120.65));
    }

    #[test]
    fn an_end_that_lies_flat_has_no_bend_line() {
        let drawing = Drawing::deck(&demo::whimbrel(), &Options::default());
        assert_eq!(layer(&drawing, "bend-lines").len(), 1);
    }

    #[test]
    fn options_leave_out_all_but_the_outline_and_the_holes() {
        let none =
            Options { centreline: false, bend_lines: false, blank: false, text: false, ..Options::default() };
        let drawing = Drawing::deck(&demo::dunlin(), &none);
        let keys: Vec<_> = drawing.layers.iter().map(|layer| layer.key).collect();
        assert_eq!(keys, ["outline", "holes"]);
        let extent = drawing.extent();
        assert_eq!((extent.x1, extent.y1), (361.95, 95.25));
        assert_eq!((extent.x0, extent.y0), (-361.95, -95.25));
    }

    #[test]
    fn the_plan_is_shorter_and_has_no_blank() {
        let options = Options { projection: Projection::Plan, ..Options::default() };
        let drawing = Drawing::deck(&demo::turnstone(), &options);
        assert!((drawing.extent().width() - 796.3).abs() < 0.05, "{:?}", drawing.extent());
        assert!(drawing.layers.iter().all(|layer| layer.key != "blank"));
    }

    #[test]
    fn a_long_name_is_written_smaller() {
        let height = |name: &str| {
            let drawing = Drawing::deck(&demo::dunlin().renamed(name).unwrap(), &Options::default());
            let Entity::Text { height, .. } = layer(&drawing, "text")[0] else { panic!("no text") };
            height
        };
        assert!((height("Dunlin") - TEXT_HEIGHT).abs() < 1e-12);
        assert!(height(&"W".repeat(80)) < 3.0);
    }
}
