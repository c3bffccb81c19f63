//! The template a deck is routed by: its edge beside the outline, its holes, lines and marks, and the band-saw line.
//!
//! A template is made for one export and never stored: it follows from a design and [`TemplateOptions`]. All of it lies on
//! one of the two outlines of the deck ([`Projection`]) in mm, x to the nose, y to the
//! left rail, top face up.

mod ears;
mod frame;
mod marking;
mod options;
pub mod stations;
mod warnings;

pub use self::{
    options::{Cut, Guide, HoleKind, OPTIONS, OptionRow, TemplateError, TemplateOptions},
    warnings::Warning,
};
use crate::{
    arcs::{
        self, Arc,
        offset::{Contour, Offset, offset},
    },
    design::{Design, Shape},
    format::drawing::{Colour, Drawing, Entity, Layer},
    outline::Half,
    projection::Projection,
    tolerance,
    units::System,
};
use kurbo::{Point, Rect};

/// A template.
#[derive(Clone, Debug, PartialEq)]
pub struct Template {
    /// The name of the design.
    pub name: String,
    /// Which outline it follows.
    pub projection: Projection,
    /// Its closed edges, the main one first: one for nearly all decks, and round a whole window the frame's own.
    pub edges: Vec<Vec<Arc>>,
    /// Whether it is a half: outline and saw line are then the left ones, open at the centreline.
    pub half: bool,
    /// The outline of the deck, to compare with.
    pub outline: Vec<Arc>,
    /// The lines the blank is sawn along; none where an opening is cut.
    pub saw_line: Vec<Vec<Arc>>,
    /// The bolt holes that lie on it: the left ones of a half template, none of a window.
    pub holes: Vec<Point>,
    /// How they are shown.
    pub hole_kind: HoleKind,
    /// Their diameter, mm.
    pub drill: f64,
    /// The centreline where there is wood: from end to end, or of a window beyond either tip.
    pub centreline: Vec<[Point; 2]>,
    /// Lines where each kick begins to bend, across the wood.
    pub bend_lines: Vec<[Point; 2]>,
    /// What is written on it, and the arrow to the nose.
    pub texts: Vec<Entity>,
    /// Bars to check its size by.
    pub check_bars: Vec<Entity>,
    /// What is doubtful about it.
    pub warnings: Vec<Warning>,
}

/// Half the length of the arms of a centre mark, and the radius of a ring round a doubtful place, mm.
const MARK: f64 = 5.0;

impl Template {
    /// Half the length of the metric check bar, mm.
    const HALF_BAR: f64 = 50.0;

    /// The template of a design.
    ///
    /// # Errors
    ///
    /// [`TemplateError`].
    pub fn of(design: &Design, options: TemplateOptions, system: System) -> Result<Self, TemplateError> {
        let options = options.checked()?;
        let shape = design.shape();
        let half = options.projection.half(shape);
        let parallel = |field: &'static str, distance: f64| {
            offset(&half, distance).map_err(|error| TemplateError::Offset { field, error })
        };
        let edge = parallel(options.guide.key(), options.edge())?;
        let saw_line = match options.cut {
            Cut::WindowOpening => Vec::new(),
            Cut::Outside | Cut::WindowDeck => parallel("saw-line", options.saw_line)?.contours,
        };
        let left = edge.contours.first().map(|contour| contour.left.as_slice()).unwrap_or_default();
        let wood = Wood::of(left, options.cut);
        let (base, room) = wood.room();
        Ok(Self {
            name: design.name().to_owned(),
            projection: options.projection,
            edges: wood.edges(&edge, options.half)?,
            half: options.half,
            outline: if options.half {
                left_outline(&half)
            } else {
                arcs::outline(&half, tolerance::EXPORT_ARCS)
            },
            saw_line: if options.half {
                saw_line.into_iter().map(|contour| contour.left).collect()
            } else {
                whole(&saw_line)
            },
            holes: holes(shape, &options),
            hole_kind: options.holes,
            drill: options.drill,
            centreline: wood.centreline(),
            bend_lines: wood.bend_lines(shape, options.half),
            texts: marking::texts(design, &options, &marking::cut(&options), (base, room)),
            check_bars: marking::check_bars(base),
            warnings: warnings::find(shape, &half, &edge, &options, system),
        })
    }

    /// The drawing of it, each part on a layer of its own.
    #[must_use]
    pub fn drawing(&self) -> Drawing {
        let chains = |chains: &[Vec<Arc>]| chains.iter().cloned().map(Entity::Chain).collect::<Vec<_>>();
        let line = |ends: &[Point; 2]| Entity::Line(ends[0], ends[1]);
        let beside = |chain: Vec<Arc>| if self.half { Entity::Open(chain) } else { Entity::Chain(chain) };
        let holes = self.holes.iter().flat_map(|hole| match self.hole_kind {
            HoleKind::Holes => vec![Entity::Circle { centre: *hole, radius: self.drill / 2.0 }],
            HoleKind::Marks => cross(*hole).to_vec(),
        });
        let mut layers = vec![
            Layer::new("template", Colour::Black, chains(&self.edges)),
            Layer::new("holes", Colour::Red, holes),
            Layer::new("saw-line", Colour::Magenta, self.saw_line.iter().cloned().map(beside)),
            Layer::new("outline", Colour::Grey, [beside(self.outline.clone())]),
            Layer::new("centreline", Colour::Blue, self.centreline.iter().map(line)),
            Layer::new("bend-lines", Colour::Green, self.bend_lines.iter().map(line)),
            Layer::new("text", Colour::Black, self.texts.clone()),
            Layer::new("check-bar", Colour::Cyan, self.check_bars.clone()),
        ];
        let doubtful: Vec<Entity> = self.warnings.iter().flat_map(|warning| self.mark(warning.at)).collect();
        if !doubtful.is_empty() {
            layers.push(Layer::new("doubtful", Colour::Red, doubtful));
        }
        Drawing { name: self.name.clone(), part: "template", projection: self.projection, layers }
    }
}

impl Template {
    /// A ring round a place that the tool cannot follow, and round its mirror on a whole template.
    fn mark(&self, at: Option<Point>) -> Vec<Entity> {
        let Some(at) = at else { return Vec::new() };
        let mut centres = vec![at];
        if !self.half && at.y > 0.0 {
            centres.push(Point::new(at.x, -at.y));
        }
        centres.into_iter().map(|centre| Entity::Circle { centre, radius: MARK }).collect()
    }
}

/// The band-saw line of a design as a drawing of its own, with what it takes to lay it on a blank.
///
/// # Errors
///
/// [`TemplateError`]: only of the saw line and the drill.
pub fn saw_line(design: &Design, options: &TemplateOptions) -> Result<Drawing, TemplateError> {
    let TemplateOptions { projection, saw_line, .. } = *options;
    let half = projection.half(design.shape());
    let made = offset(&half, saw_line).map_err(|error| TemplateError::Offset { field: "saw-line", error })?;
    let main = made.contours.first().map(|contour| contour.left.as_slice()).unwrap_or_default();
    let ends = main.last().zip(main.first()).map(|(last, first)| Entity::Line(last.p1, first.p0));
    let options = TemplateOptions { half: false, cut: Cut::Outside, ..options.clone() };
    let radius = options.drill / 2.0;
    let holes = holes(design.shape(), &options).into_iter();
    let reach = reach(main, 0.0).unwrap_or(0.0);
    let texts = marking::texts(design, &options, &marking::sawn(saw_line), (0.0, reach));
    let chains = whole(&made.contours).into_iter().map(Entity::Chain);
    let outline = Entity::Chain(arcs::outline(&half, tolerance::EXPORT_ARCS));
    let layers = vec![
        Layer::new("saw-line", Colour::Magenta, chains),
        Layer::new("outline", Colour::Grey, [outline]),
        Layer::new("holes", Colour::Red, holes.map(|centre| Entity::Circle { centre, radius })),
        Layer::new("centreline", Colour::Blue, ends),
        Layer::new("text", Colour::Black, texts),
        Layer::new("check-bar", Colour::Cyan, marking::check_bars(0.0)),
    ];
    Ok(Drawing { name: design.name().to_owned(), part: "saw-line", projection, layers })
}

/// The left half of the outline, nose to tail.
fn left_outline(half: &Half) -> Vec<Arc> {
    let left = arcs::biarc::fit(half.path().segments(), tolerance::EXPORT_ARCS);
    left.iter().rev().map(Arc::reversed).collect()
}

fn whole(contours: &[Contour]) -> Vec<Vec<Arc>> {
    contours.iter().flat_map(Contour::whole).collect()
}

/// Where a template has wood: within its edge, or round a window in a frame.
struct Wood<'a> {
    /// The left part of the main edge, nose to tail.
    left: &'a [Arc],
    /// What the frame of a window fits into.
    frame: Option<Rect>,
}

impl<'a> Wood<'a> {
    fn of(left: &'a [Arc], cut: Cut) -> Self {
        Self { left, frame: (cut != Cut::Outside).then(|| frame::outside(left)) }
    }

    /// Amidships: where the wood begins over the centreline, and how much there is of it, mm.
    fn room(&self) -> (f64, f64) {
        match self.frame {
            Some(frame) => {
                let edge = arcs::extent(self.left).unwrap_or_default();
                (edge.y1, frame.y1 - edge.y1)
            }
            None => (0.0, reach(self.left, 0.0).unwrap_or(0.0)),
        }
    }

    /// All closed edges. Parts that fell off have no ears: a warning tells of them.
    fn edges(&self, edge: &Offset, half: bool) -> Result<Vec<Vec<Arc>>, TemplateError> {
        if !half {
            let frame = self.frame.map(frame::whole);
            return Ok(whole(&edge.contours).into_iter().chain(frame).collect());
        }
        let is_split = edge.contours.first().is_some_and(|contour| !contour.closed);
        let main = is_split.then_some(self.left).and_then(|left| match self.frame {
            Some(outside) => frame::half(left, outside),
            None => ears::edge(left),
        });
        let others = edge.contours[1..].iter().flat_map(|contour| contour.whole().into_iter().take(1));
        Ok([main.ok_or(TemplateError::NoEars)?].into_iter().chain(others).collect())
    }

    fn centreline(&self) -> Vec<[Point; 2]> {
        let Some((last, first)) = self.left.last().zip(self.left.first()) else { return Vec::new() };
        match self.frame {
            Some(frame) => [(frame.x0, last.p1), (frame.x1, first.p0)]
                .map(|(out, tip)| [tip, Point::new(out, 0.0)])
                .to_vec(),
            None => vec![[last.p1, first.p0]],
        }
    }

    /// Where each kick begins to bend, on all of the wood.
    fn bend_lines(&self, shape: &Shape, half: bool) -> Vec<[Point; 2]> {
        let profile = &shape.profile;
        let mut lines = Vec::new();
        for (kick, sign) in [(&profile.tail, -1.0), (&profile.nose, 1.0)] {
            let x = sign * (shape.datum.outer_row() + kick.bend_line);
            let Some(y) = reach(self.left, x).filter(|_| kick.kicks()) else { continue };
            let line = |from: f64, to: f64| [Point::new(x, from), Point::new(x, to)];
            match self.frame {
                Some(frame) => {
                    lines.push(line(y, frame.y1));
                    if !half {
                        lines.push(line(-y, frame.y0));
                    }
                }
                None => lines.push(line(if half { 0.0 } else { -y }, y)),
            }
        }
        lines
    }
}

/// A window has no wood where the holes are.
fn holes(shape: &Shape, options: &TemplateOptions) -> Vec<Point> {
    let holes = shape.datum.holes().into_iter().filter(|hole| hole.y > 0.0 || !options.half);
    if options.cut == Cut::Outside {
        holes.map(|hole| options.projection.point(shape, hole)).collect()
    } else {
        Vec::new()
    }
}

/// The largest height of a chain at station `x`, mm.
fn reach(chain: &[Arc], x: f64) -> Option<f64> {
    let at_x = |arc: &Arc| {
        let (before, after) = (arc.p0.x - x, arc.p1.x - x);
        if before * after > 0.0 {
            return None;
        }
        let (mut a, mut b) = (0.0, 1.0);
        for _ in 0..53 {
            let middle = f64::midpoint(a, b);
            if (arc.point(middle).x - x) * before > 0.0 { a = middle } else { b = middle }
        }
        Some(arc.point(b).y)
    };
    chain.iter().filter_map(at_x).fold(None, |most: Option<f64>, y| Some(most.map_or(y, |m| m.max(y))))
}

fn cross(at: Point) -> [Entity; 2] {
    let arm = |x: f64, y: f64| Entity::Line(Point::new(at.x - x, at.y - y), Point::new(at.x + x, at.y + y));
    [arm(MARK, 0.0), arm(0.0, MARK)]
}

#[cfg(test)]
mod tests;
