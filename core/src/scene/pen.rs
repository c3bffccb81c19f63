//! The pen that draws: collects items, knows the scale and the units.

use super::{
    RULERS,
    labels::{self, Labels, Place},
};
use crate::{
    real,
    units::{System, Unit, show},
    view::View,
};
use kurbo::{BezPath, Circle, Point, Rect, Shape as _, Vec2};

/// The whole drawing, in the order it is drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene {
    /// What is drawn, the lowest first.
    pub items: Vec<Item>,
}

/// One thing on the drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Its name, the same from frame to frame.
    pub id: String,
    /// What it stands for; gives its looks.
    pub role: Role,
    /// What is drawn.
    pub mark: Mark,
}

/// A line drawing or some letters.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A path, mm.
    Path(BezPath),
    /// A line of text.
    Text {
        /// Where its anchor stands, mm.
        at: Point,
        /// Which part of it stands there.
        anchor: Anchor,
        /// Whether it reads upward, as the figure of a dimension line that stands upright does.
        turned: bool,
        /// The letters.
        text: String,
        /// The key of the field that this figure is, if it can be set.
        field: Option<&'static str>,
    },
    /// A line of text as it is engraved: as large as the drawing.
    Engraved {
        /// The left end of its baseline, mm.
        at: Point,
        /// Height of its capitals, mm.
        height: f64,
        /// The letters.
        text: String,
    },
}

impl Item {
    /// The box that the letters of a text take on the stage, CSS pixels, by estimate.
    #[must_use]
    pub fn letters(&self, view: &View) -> Option<Rect> {
        let Mark::Text { at, anchor, turned, ref text, .. } = self.mark else { return None };
        Some(labels::area(view, self.role, text, Place { at, anchor, turned }))
    }
}

/// Which part of a text stands at its place; across its line it is always the middle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its first letter.
    Start,
    /// Its middle.
    Middle,
    /// Its last letter.
    End,
}

/// What an item stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// The paper's faint squares.
    Grid,
    /// The rectangle each veneer is cut to.
    Blank,
    /// The face of the deck.
    Deck,
    /// The half of the edge that is drawn.
    Edge,
    /// Its mirror images.
    EdgeMirror,
    /// The centreline.
    Centreline,
    /// A bend line.
    BendLine,
    /// A bolt hole with its cross hair.
    Hole,
    /// A straight rail on the edge.
    Rail,
    /// The curvature comb.
    Comb,
    /// A dimension line.
    Dimension,
    /// The figure of a dimension.
    DimensionText,
    /// The figure of a dimension that carries the shape's character.
    DimensionStrong,
    /// A mark for the tightest bend or the compass point.
    Spot,
    /// The selected span.
    Selected,
    /// Where a gesture was stopped.
    Limit,
    /// The line that caught a drag.
    Guide,
    /// The stroke under the pen.
    Ink,
    /// The marks of a laid sweep.
    Sweep,
    /// The edge of the version behind.
    Behind,
    /// The side view.
    Side,
    /// A ruler's ticks.
    Ruler,
    /// A ruler's figures.
    RulerText,
    /// The line the blank is sawn along.
    SawLine,
    /// Where a drawing on paper is cut and joined.
    Join,
    /// The grain of a veneer.
    WoodGrain,
    /// A post of the mould, that veneers lie between.
    Post,
    /// The mould.
    Mould,
    /// The bolts that close it.
    Bolt,
    /// Letters as they are engraved.
    Engraved,
    /// A facet of the pressed deck, 0 the lightest of five tints.
    Facet(u8),
    /// A ply in its edge or in a cross-section, the grain along the board.
    PlyAlong,
    /// A ply with its grain across.
    PlyAcross,
    /// Where the pressed deck is cut for the cross-section.
    Station,
}

impl Role {
    /// Size of its letters, CSS pixels, as the page's styles have them.
    pub(super) fn letters(self) -> f64 {
        if self == Self::RulerText { 12.0 } else { 14.0 }
    }

    /// The role's name for styles.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Grid => "grid",
            Self::Blank => "blank",
            Self::Deck => "deck",
            Self::Edge => "edge",
            Self::EdgeMirror => "edge-mirror",
            Self::Centreline => "centreline",
            Self::BendLine => "bend-line",
            Self::Hole => "hole",
            Self::Rail => "rail",
            Self::Comb => "comb",
            Self::Dimension => "dimension",
            Self::DimensionText => "dimension-text",
            Self::DimensionStrong => "dimension-strong",
            Self::Spot => "spot",
            Self::Selected => "selected",
            Self::Limit => "limit",
            Self::Guide => "guide",
            Self::Ink => "ink",
            Self::Sweep => "sweep",
            Self::Behind => "behind",
            Self::Side => "side",
            Self::Ruler => "ruler",
            Self::RulerText => "ruler-text",
            Self::SawLine => "saw-line",
            Self::Join => "join",
            Self::WoodGrain => "wood-grain",
            Self::Post => "post",
            Self::Mould => "mould",
            Self::Bolt => "bolt",
            Self::Engraved => "engraved",
            Self::Facet(tint) => {
                ["facet-0", "facet-1", "facet-2", "facet-3", "facet-4"][usize::from(tint.min(4))]
            }
            Self::PlyAlong => "ply-along",
            Self::PlyAcross => "ply-across",
            Self::Station => "station",
        }
    }
}

/// Collects the items of a scene.
pub(super) struct Pen {
    scene: Scene,
    pub(super) view: View,
    pub(super) system: System,
    /// Millimetres that a CSS pixel covers.
    pub(super) px: f64,
    labels: Labels,
}

/// A text before it has a place.
#[derive(Clone, Copy)]
pub(super) struct Letters<'a> {
    pub(super) id: &'a str,
    pub(super) role: Role,
    pub(super) field: Option<&'static str>,
    pub(super) text: &'a str,
}

impl Pen {
    pub(super) fn new(view: View, system: System) -> Self {
        let labels = Labels::new(&view);
        Self { scene: Scene::default(), view, system, px: 1.0 / view.scale, labels }
    }

    pub(super) fn finish(self) -> Scene {
        self.scene
    }

    pub(super) fn path(&mut self, id: &str, role: Role, path: BezPath) {
        if !path.is_empty() {
            self.scene.items.push(Item { id: id.to_owned(), role, mark: Mark::Path(path) });
        }
    }

    pub(super) fn line(&mut self, id: &str, role: Role, a: Point, b: Point) {
        self.path(id, role, polyline(&[a, b]));
    }

    pub(super) fn engrave(&mut self, id: String, at: Point, height: f64, text: String) {
        self.scene.items.push(Item { id, role: Role::Engraved, mark: Mark::Engraved { at, height, text } });
    }

    /// Letters go elsewhere where they can: a node or a hole is there, mm.
    pub(super) fn spare(&mut self, node: Point) {
        self.labels.spare(self.view.to_px(node));
    }

    /// Writes a text at the first of the places that is free and clear of nodes, and answers whether there was one. What is
    /// drawn first matters most: what finds no room stays away.
    pub(super) fn label(&mut self, letters: &Letters<'_>, places: &[Place]) -> bool {
        places.iter().any(|place| self.label_at(letters, *place, true))
    }

    /// Writes a text where it is free, and answers whether it is.
    pub(super) fn label_at(&mut self, letters: &Letters<'_>, place: Place, spare_nodes: bool) -> bool {
        let Letters { id, role, field, text } = *letters;
        let area = labels::area(&self.view, role, text, place);
        let free = self.labels.is_free(area, spare_nodes);
        if free {
            self.labels.take(area);
            let Place { at, anchor, turned } = place;
            let mark = Mark::Text { at, anchor, turned, text: text.to_owned(), field };
            self.scene.items.push(Item { id: id.to_owned(), role, mark });
        }
        free
    }

    /// The shares of a level or upright line between which letters on it show, if any: from one share of the way from `a` to
    /// `b` to the other. None of a line among the figures of a ruler does.
    pub(super) fn part_on_stage(&self, a: Point, b: Point) -> Option<(f64, f64)> {
        let Rect { x0, y0, x1, y1 } = self.labels.stage();
        let (a, b) = (self.view.to_px(a), self.view.to_px(b));
        let level = (b.x - a.x).abs() > (b.y - a.y).abs();
        let clear = if level { a.y >= RULERS.0 } else { a.x >= RULERS.1 };
        let (a, b, least, most) = if level { (a.x, b.x, x0, x1) } else { (a.y, b.y, y0, y1) };
        let share = |at: f64| real::clamp((at - a) / (b - a), 0.0, 1.0);
        let (from, to) = (share(least).min(share(most)), share(least).max(share(most)));
        (clear && from < to).then_some((from, to))
    }

    /// A length as the drawing shows it: the figure alone, a drawing has one unit.
    pub(super) fn length(&self, mm: f64) -> String {
        show(mm, Unit::Length, self.system).text
    }

    /// A distance on the screen, right and down in CSS pixels, as one on the deck.
    pub(super) fn screen(&self, right: f64, down: f64) -> Vec2 {
        self.view.vector_to_mm(Vec2::new(right, down))
    }
}

/// A line through points.
pub(crate) fn polyline(points: &[Point]) -> BezPath {
    let mut path = BezPath::new();
    for (i, &p) in points.iter().enumerate() {
        if i == 0 {
            path.move_to(p);
        } else {
            path.line_to(p);
        }
    }
    path
}

/// A circle as four cubics; for the eye, so a thousandth of its radius will do.
pub(crate) fn circle(centre: Point, radius: f64) -> BezPath {
    Circle::new(centre, radius).to_path(radius * 1e-3)
}

/// A cross of that half size.
pub(super) fn cross(centre: Point, size: f64) -> BezPath {
    let (dx, dy) = (Vec2::new(size, 0.0), Vec2::new(0.0, size));
    let mut path = polyline(&[centre - dx, centre + dx]);
    path.extend(polyline(&[centre - dy, centre + dy]));
    path
}
