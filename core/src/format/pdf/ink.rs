//! A drawing as paths and words: what a page shows of it, how far it reaches, and whether any of it lies in a tile.

use super::{
    Caption,
    content::{Content, Runs},
    letters::{self, CAPITALS, Letters},
    picture::Picture,
};
use crate::{
    arcs::{self, Arc},
    format::drawing::{Colour, Drawing, Entity},
    outline::resolve::extent,
    paper::{PaperError, PaperOptions, Tiling},
};
use kurbo::{BezPath, CubicBez, ParamCurve, Point, Rect, Vec2};

/// The layers of a drawing, ready to be drawn. In mm, on the drawing.
pub(super) struct Ink {
    layers: Vec<(Colour, Vec<Mark>)>,
}

enum Mark {
    Path(BezPath),
    Words {
        /// The left end of the baseline.
        at: Point,
        /// The size of the font.
        size: f64,
        letters: Letters,
    },
}

impl Ink {
    pub(super) fn of(drawing: &Drawing, caption: &Caption) -> Self {
        let words = |text: &str| letters::named(text, &drawing.name, caption);
        let mark = |entity: &Entity| match entity {
            Entity::Symmetric(half) => Mark::Path(half.closed()),
            Entity::Chain(chain) => Mark::Path(closed(chain)),
            Entity::Open(chain) => Mark::Path(open(chain)),
            Entity::Polygon(corners) => Mark::Path(polygon(corners)),
            Entity::Circle { centre, radius } => Mark::Path(circle(*centre, *radius)),
            Entity::Line(from, to) => Mark::Path(open(&[Arc::line(*from, *to)])),
            Entity::Text { at, height, text } => {
                Mark::Words { at: *at, size: height / CAPITALS, letters: words(text) }
            }
        };
        let layers =
            drawing.layers.iter().map(|layer| (layer.colour, layer.entities.iter().map(mark).collect()));
        Self { layers: layers.collect() }
    }

    /// The rectangle that all of it just fits into, words too; empty where there is nothing.
    pub(super) fn extent(&self) -> Rect {
        let extents = self.marks().filter_map(Mark::extent);
        extents.reduce(|all, one| all.union(one)).unwrap_or(Rect::ZERO)
    }

    /// Whether any of it lies in a rectangle or touches it.
    pub(super) fn touches(&self, rect: Rect) -> bool {
        self.marks().any(|mark| mark.touches(rect))
    }

    /// Spread over tiles.
    pub(super) fn tiling(&self, options: &PaperOptions) -> Result<Tiling, PaperError> {
        Tiling::lay(self.extent(), options, &|rect| self.touches(rect))
    }

    /// What a page shows of it.
    pub(super) fn content(&self) -> Content {
        let mut content = Content::form();
        for (colour, marks) in &self.layers {
            content.colour(*colour);
            for mark in marks {
                match mark {
                    Mark::Path(path) => content.path(path),
                    Mark::Words { at, size, letters } => content.words(*at, *size, Runs::Level, letters),
                }
            }
        }
        content
    }

    fn marks(&self) -> impl Iterator<Item = &Mark> {
        self.layers.iter().flat_map(|(_, marks)| marks)
    }
}

impl Mark {
    fn extent(&self) -> Option<Rect> {
        match self {
            Self::Path(path) => {
                let boxes = path.segments().map(|segment| extent(&segment.to_cubic()));
                boxes.reduce(|all, one| all.union(one))
            }
            Self::Words { at, size, letters } => {
                let below = if letters.picture.is_some() { Picture::BELOW } else { 1.0 - CAPITALS };
                let (length, depth) = (size * letters::width(letters), size * below);
                Some(Rect::new(at.x, at.y - depth, at.x + length, at.y + size))
            }
        }
    }

    fn touches(&self, rect: Rect) -> bool {
        match self {
            Self::Path(path) => path.segments().any(|segment| passes(&segment.to_cubic(), rect, FINEST)),
            Self::Words { .. } => self.extent().is_some_and(|extent| meet(extent, rect)),
        }
    }
}

/// Halvings of a curve until what is left of it is taken to be where its handles are: a metre comes to a quarter of a
/// millimetre, and what is wrong at worst is a tile printed that could be left out.
const FINEST: u8 = 12;

fn passes(curve: &CubicBez, rect: Rect, halvings: u8) -> bool {
    let hull = Rect::from_points(curve.p0, curve.p3).union_pt(curve.p1).union_pt(curve.p2);
    let inside = |p: Point| meet(Rect::from_points(p, p), rect);
    if !meet(hull, rect) {
        return false;
    }
    if inside(curve.p0) || inside(curve.p3) || halvings == 0 {
        return true;
    }
    let (first, second) = curve.subdivide();
    passes(&first, rect, halvings - 1) || passes(&second, rect, halvings - 1)
}

/// Whether two rectangles have a point in common, be it on an edge.
fn meet(a: Rect, b: Rect) -> bool {
    a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1
}

fn polygon(corners: &[Point]) -> BezPath {
    let sides: Vec<Arc> = corners.windows(2).map(|pair| Arc::line(pair[0], pair[1])).collect();
    closed(&sides)
}

pub(super) fn circle(centre: Point, radius: f64) -> BezPath {
    let (right, left) = (centre + Vec2::new(radius, 0.0), centre - Vec2::new(radius, 0.0));
    closed(&[Arc { p0: right, p1: left, bulge: 1.0 }, Arc { p0: left, p1: right, bulge: 1.0 }])
}

/// A chain of lines and arcs as a closed path.
fn closed(chain: &[Arc]) -> BezPath {
    let mut path = open(chain);
    if !path.is_empty() {
        path.close_path();
    }
    path
}

/// A chain of lines and arcs as a path.
fn open(chain: &[Arc]) -> BezPath {
    let mut path = BezPath::new();
    arcs::trace(&mut path, chain);
    path
}
