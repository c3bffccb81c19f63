//! Everything drawn in a file, and the contour in it that is a deck.

use super::{
    DrawingError, LengthUnit,
    strokes::{Contour, Stroke, arc},
    xml::find,
};
use crate::{
    outline::{heading_at, resolve::extent},
    projection::Projection,
    real,
};
use core::f64::consts::{PI, TAU};
use kurbo::{Affine, Point, Rect, Vec2};

/// Most lines and curves of one drawing: an outline to a thousandth of a millimetre has seven hundred, and comparing the
/// halves of more takes its time with their square.
pub(super) const MOST_STROKES: usize = 4000;
/// Most that are open and have to be joined.
const MOST_OPEN: usize = 3000;
/// Ends this near, mm, are joined.
const JOINED: f64 = 0.1;
/// Least and most length of a deck, mm (common practice, no source).
const DECKS: (f64, f64) = (300.0, 2000.0);
/// Least and most diameter of a bolt hole in a drawing, mm (common practice, no source).
const HOLES: (f64, f64) = (2.0, 14.0);
/// A frame round the deck is no longer than so many times its outline.
const FRAME: f64 = 0.7;

/// Everything drawn in a file.
#[derive(Debug, Default)]
pub(super) struct Sketch {
    contours: Vec<Contour>,
    /// Centres and radii.
    pub(super) circles: Vec<(Point, f64)>,
    /// Millimetres in a unit of the file, where it says.
    pub(super) unit: Option<f64>,
    /// Which outline it is, where a file of this tool says.
    pub(super) projection: Option<Projection>,
    /// How many blocks are placed in it that it does not hold.
    pub(super) blocks: usize,
    strokes: usize,
}

impl Sketch {
    pub(super) fn is_empty(&self) -> bool {
        self.strokes == 0
    }

    pub(super) fn add(&mut self, mut contour: Contour) {
        let is_some =
            |stroke: &Stroke| (stroke.curve.p3 - stroke.curve.p0).hypot2() > 0.0 || !stroke.straight;
        contour.strokes.retain(|stroke| stroke.curve.is_finite() && is_some(stroke));
        self.strokes += contour.strokes.len();
        if !contour.strokes.is_empty() {
            self.contours.push(contour);
        }
    }

    /// Adds all that another sketch holds, laid elsewhere; `named` where what places it is named after the outline.
    pub(super) fn take_in(&mut self, other: &Self, to: Affine, named: bool) -> Result<(), DrawingError> {
        // Before it is copied.
        if self.strokes + other.strokes > MOST_STROKES {
            return Err(DrawingError::TooMany);
        }
        for contour in &other.contours {
            let mut contour = contour.clone();
            contour.map(to);
            contour.named |= named;
            self.add(contour);
        }
        self.projection = self.projection.or(other.projection);
        Ok(())
    }

    pub(super) fn add_circle(&mut self, centre: Point, radius: f64, named: bool) {
        let strokes = arc(centre, Vec2::new(radius, 0.0), Vec2::new(0.0, radius), 0.0, TAU);
        self.add(Contour { strokes, closed: true, named });
    }

    /// Looks in words for what this tool says of its own drawings.
    pub(super) fn read_words(&mut self, words: &str) {
        for projection in [Projection::Developed, Projection::Plan] {
            let word = projection.word();
            if find(words, word).is_some() && find(words, projection.meaning()).is_some() {
                self.projection = Some(projection);
            }
        }
    }

    pub(super) fn check_size(&self) -> Result<(), DrawingError> {
        if self.strokes > MOST_STROKES { Err(DrawingError::TooMany) } else { Ok(()) }
    }

    /// The outline of the deck in mm, with circles in mm too.
    pub(super) fn outline(&mut self, unit: Option<LengthUnit>) -> Result<Contour, DrawingError> {
        let Some(mm) = unit.map(LengthUnit::mm).or(self.unit) else {
            let largest =
                self.contours.iter().map(size).reduce(|a, b| if a.area() >= b.area() { a } else { b });
            let all = largest.ok_or_else(|| self.none(None))?;
            return Err(DrawingError::Unit(all.width(), all.height()));
        };
        for contour in &mut self.contours {
            contour.map(Affine::scale(mm));
        }
        let gap = self.join()?;
        self.find_circles();
        let mut closed: Vec<&Contour> = self.contours.iter().filter(|contour| contour.closed).collect();
        if closed.is_empty() {
            return Err(self.none(gap));
        }
        crate::order::sort_by_number(&mut closed, |contour| -contour.area().abs());
        let largest = size(closed[0]);
        let long = |contour: &Contour| size(contour).width().max(size(contour).height());
        closed.retain(|contour| (DECKS.0..=DECKS.1).contains(&long(contour)));
        let Some(first) = closed.first() else {
            return Err(DrawingError::NoDeck(largest.width(), largest.height()));
        };
        let named = closed.iter().find(|contour| contour.named);
        // A rectangle round an outline is the blank or the sheet.
        let inner =
            closed.iter().find(|contour| !is_rectangle(contour) && long(contour) >= FRAME * long(first));
        Ok(Contour::clone(named.or(inner).unwrap_or(first)))
    }

    fn none(&self, gap: Option<f64>) -> DrawingError {
        DrawingError::NoContour { strokes: self.strokes, blocks: self.blocks, gap }
    }

    /// Joins open contours end to end until they close; gives the smallest gap that is left, mm.
    fn join(&mut self) -> Result<Option<f64>, DrawingError> {
        let (closed, mut open): (Vec<_>, Vec<_>) =
            core::mem::take(&mut self.contours).into_iter().partition(|contour| contour.closed);
        self.contours = closed;
        // What ends where it began is closed, whatever else ends there.
        let is_shut = |contour: &Contour| {
            contour.start().zip(contour.end()).is_some_and(|(a, b)| (b - a).hypot2() <= JOINED * JOINED)
                && contour.strokes.iter().map(Stroke::length).sum::<f64>() > 2.0 * JOINED
        };
        let (shut, still): (Vec<_>, Vec<_>) = open.into_iter().partition(is_shut);
        open = still;
        for mut contour in shut {
            if let (Some(start), Some(last)) = (contour.start(), contour.strokes.last_mut()) {
                last.curve.p3 = start;
            }
            contour.closed = true;
            self.contours.push(contour);
        }
        if open.len() > MOST_OPEN {
            return Err(DrawingError::TooMany);
        }
        let mut smallest: Option<f64> = None;
        while let Some(mut chain) = open.pop() {
            // Whether the other end has been tried since the chain last grew.
            let mut is_turned = false;
            while let Some((start, end)) = chain.start().zip(chain.end()) {
                let shut = (end - start).hypot2().sqrt();
                let is_long = chain.strokes.iter().map(Stroke::length).sum::<f64>() > 2.0 * JOINED;
                if shut <= JOINED && is_long {
                    if let Some(last) = chain.strokes.last_mut() {
                        last.curve.p3 = start;
                    }
                    chain.closed = true;
                    break;
                }
                // Of several that begin here the one that runs on straightest; else the nearest.
                let ahead = chain.strokes.last().map_or(Vec2::ZERO, |last| heading_at(&last.curve, 1.0));
                let mut best: Option<(f64, usize, bool)> = None;
                let mut straightest = f64::INFINITY;
                for (i, other) in open.iter().enumerate() {
                    for (at, turned) in [(other.start(), false), (other.end(), true)] {
                        let apart = at.map_or(f64::INFINITY, |at| (at - end).hypot2().sqrt());
                        if apart <= JOINED {
                            let stroke = if turned { other.strokes.last() } else { other.strokes.first() };
                            let along = stroke.map_or(Vec2::ZERO, |stroke| {
                                if turned {
                                    -heading_at(&stroke.curve, 1.0)
                                } else {
                                    heading_at(&stroke.curve, 0.0)
                                }
                            });
                            let turn = real::wrapped(real::direction(along) - real::direction(ahead)).abs();
                            if turn < straightest {
                                (straightest, best) = (turn, Some((apart, i, turned)));
                            }
                        } else if straightest.is_infinite() && best.is_none_or(|best| apart < best.0) {
                            best = Some((apart, i, turned));
                        }
                    }
                }
                // A line that only touches here, such as a centreline, is left to what runs on straighter with it.
                let is_taken = |(_, i, turned): (f64, usize, bool)| {
                    let other = |k: usize, turned: bool| {
                        let stroke = if turned { open[k].strokes.last() } else { open[k].strokes.first() };
                        let turned_at = if turned { 1.0 } else { 0.0 };
                        stroke.map_or(Vec2::ZERO, |stroke| {
                            heading_at(&stroke.curve, turned_at) * if turned { -1.0 } else { 1.0 }
                        })
                    };
                    let away = other(i, turned);
                    let near =
                        |at: Option<Point>| at.is_some_and(|at| (at - end).hypot2() <= JOINED * JOINED);
                    let straighter = |k: usize, turned: bool| {
                        real::wrapped(real::direction(away) - real::direction(-other(k, turned))).abs()
                            < straightest - 1e-3
                    };
                    (0..open.len()).any(|k| {
                        k != i
                            && (near(open[k].start()) && straighter(k, false)
                                || near(open[k].end()) && straighter(k, true))
                    })
                };
                let best = best.filter(|best| best.0 > JOINED || !is_taken(*best));
                match best {
                    Some((apart, i, turned)) if apart <= JOINED => {
                        is_turned = false;
                        let mut next = open.swap_remove(i);
                        if turned {
                            next.reverse();
                        }
                        if let Some(first) = next.strokes.first_mut() {
                            first.curve.p0 = end;
                        }
                        chain.named |= next.named;
                        chain.strokes.append(&mut next.strokes);
                    }
                    _ => {
                        let gap =
                            best.map_or(shut, |best| best.0.min(if is_long { shut } else { f64::INFINITY }));
                        smallest = Some(smallest.map_or(gap, |least| least.min(gap)));
                        // The other end may go on.
                        let onward = |other: &Contour| {
                            let near = |at: Option<Point>| {
                                at.is_some_and(|at| (at - start).hypot2() <= JOINED * JOINED)
                            };
                            near(other.start()) || near(other.end())
                        };
                        if is_turned || !open.iter().any(onward) {
                            break;
                        }
                        is_turned = true;
                        chain.reverse();
                    }
                }
            }
            self.contours.push(chain);
        }
        Ok(smallest)
    }

    /// Closed contours that are circles as large as bolt holes.
    fn find_circles(&mut self) {
        for contour in self.contours.iter().filter(|contour| contour.closed) {
            let size = size(contour);
            let (diameter, other) = (size.width(), size.height());
            let round = PI / 4.0 * diameter * diameter;
            if (diameter - other).abs() < 0.02 * diameter
                && (HOLES.0..=HOLES.1).contains(&diameter)
                && (contour.area().abs() - round).abs() < 0.03 * round
            {
                self.circles.push((size.center(), f64::midpoint(diameter, other) / 2.0));
            }
        }
    }
}

pub(super) fn size(contour: &Contour) -> Rect {
    let boxes = contour.strokes.iter().map(|stroke| extent(&stroke.curve));
    boxes.reduce(|all, one| all.union(one)).unwrap_or(Rect::ZERO)
}

fn is_rectangle(contour: &Contour) -> bool {
    // However it is turned: four straight sides.
    let straight = contour.strokes.iter().filter(|stroke| stroke.straight && stroke.length() > 1.0).count();
    straight == 4 && contour.strokes.iter().all(|stroke| stroke.straight)
}
