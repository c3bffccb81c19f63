//! The pen that draws: collects items, knows the scale and the units.

use crate::{
    units::{System, Unit, show},
    view::View,
};
use kurbo::{BezPath, Circle, Point, Shape as _, Vec2};

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
        /// The letters.
        text: String,
    },
}

/// Which part of a text stands at its place; vertically it is always the middle.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its left end.
    Start,
    /// Its middle.
    Middle,
    /// Its right end.
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
}

impl Role {
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
}

impl Pen {
    pub(super) fn new(view: View, system: System) -> Self {
        Self { scene: Scene::default(), view, system, px: 1.0 / view.scale }
    }

    pub(super) fn finish(self) -> Scene {
        self.scene
    }

    pub(super) fn path(&mut self, id: impl Into<String>, role: Role, path: BezPath) {
        if !path.is_empty() {
            self.scene.items.push(Item { id: id.into(), role, mark: Mark::Path(path) });
        }
    }

    pub(super) fn line(&mut self, id: impl Into<String>, role: Role, a: Point, b: Point) {
        self.path(id, role, polyline(&[a, b]));
    }

    pub(super) fn text(
        &mut self,
        id: impl Into<String>,
        role: Role,
        at: Point,
        anchor: Anchor,
        text: impl Into<String>,
    ) {
        self.scene.items.push(Item {
            id: id.into(),
            role,
            mark: Mark::Text { at, anchor, text: text.into() },
        });
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
pub(super) fn polyline(points: &[Point]) -> BezPath {
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
pub(super) fn circle(centre: Point, radius: f64) -> BezPath {
    Circle::new(centre, radius).to_path(radius * 1e-3)
}

/// A cross of that half size.
pub(super) fn cross(centre: Point, size: f64) -> BezPath {
    let (dx, dy) = (Vec2::new(size, 0.0), Vec2::new(0.0, size));
    let mut path = polyline(&[centre - dx, centre + dx]);
    path.extend(polyline(&[centre - dy, centre + dy]));
    path
}
