//! A drag: from grab to drop, always computed from the design at grab.

use super::{
    Grip, Target,
    snap::{Snapped, snapped},
};
use crate::{
    design::{Design, Refusal},
    dimension::Slopes,
    edit::Edit,
    tolerance,
    units::{System, snap_pointer},
};
use kurbo::{Point, Vec2};

/// A drag under way.
#[derive(Clone, Debug)]
pub(super) struct Gesture {
    pub(super) grip: Grip,
    /// From the pointer to the thing in hand at grab, so that nothing jumps.
    offset: Vec2,
    start: Design,
    /// How what is held follows, at grab.
    slopes: Option<Slopes>,
    from: Point,
    shown: Option<Design>,
    stopped: Option<Stop>,
    caught: Option<Snapped>,
}

/// Where and why a gesture was stopped.
#[derive(Clone, Debug)]
pub(super) struct Stop {
    wanted: Point,
    reached: Point,
    pub(super) refusal: Refusal,
}

/// A stopped gesture as the scene draws it: from the last valid place to the wanted one, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// Where the thing in hand stays.
    pub reached: Point,
    /// Where the pointer wants it.
    pub wanted: Point,
}

impl Gesture {
    /// Takes hold of `grip` with the pointer at `at`, mm.
    pub(super) fn grab(design: &Design, grip: Grip, at: Point) -> Option<Self> {
        let from = grip.target.place(&design.shape().outline)?;
        let offset = grip.copy.map(from) - at;
        let (start, slopes) = (design.clone(), Slopes::of(design));
        Some(Self { grip, offset, start, slopes, from, shown: None, stopped: None, caught: None })
    }

    /// The design as the gesture has it.
    pub(super) fn design(&self) -> &Design {
        self.shown.as_ref().unwrap_or(&self.start)
    }

    /// The design as it was at grab.
    pub(super) fn start(&self) -> &Design {
        &self.start
    }

    /// Why the gesture stops short of the pointer, if it does.
    pub(super) fn stop(&self) -> Option<&Stop> {
        self.stopped.as_ref()
    }

    /// What to draw of a stopped gesture.
    pub(super) fn limit(&self) -> Option<Limit> {
        self.stopped.as_ref().map(|stop| Limit {
            reached: self.grip.copy.map(stop.reached),
            wanted: self.grip.copy.map(stop.wanted),
        })
    }

    /// What caught the drag, with the place it was caught at as it is drawn, if anything did.
    pub(super) fn caught(&self) -> Option<Snapped> {
        let caught = self.caught.filter(|caught| caught.along.or(caught.across).is_some())?;
        Some(Snapped { place: self.grip.copy.map(caught.place), ..caught })
    }

    /// Moves the thing in hand under the pointer at `to`, mm, or as far toward it as the outline stays valid. With
    /// `snap`, a radius in mm, it stops for a moment at lines.
    pub(super) fn drag(&mut self, to: Point, system: System, snap: Option<f64>) {
        let mut wanted = self.grip.copy.map(to + self.offset);
        self.caught =
            snap.map(|radius| snapped(self.start.shape(), self.grip.target, self.from, wanted, radius));
        if let Some(caught) = self.caught {
            wanted = caught.place;
        }
        let caught = |rule: fn(&Snapped) -> bool| self.caught.as_ref().is_some_and(rule);
        let round = |value, exact| if exact { value } else { snap_pointer(value, system) };
        let rounded = Point::new(
            round(wanted.x, caught(|c| c.along.is_some())),
            round(wanted.y, caught(|c| c.across.is_some())),
        );
        let before = self.stopped.as_ref().map(|stop| stop.reached);
        (self.shown, self.stopped) = self.farthest(rounded, before);
    }

    /// The design with the thing in hand as far on the way to `to` as it stays valid, by bisection. Where it stopped in the
    /// frame before, `near`, is where the search begins: from one frame to the next a hand moves little, and an edit under
    /// locks costs as much as some ten without.
    fn farthest(&self, to: Point, near: Option<Point>) -> (Option<Design>, Option<Stop>) {
        let Self { start, from, .. } = self;
        let from = *from;
        let attempt = |place: Point| {
            move_edit(self.grip.target, place).map(|edit| start.apply_on_the_way(&edit, self.slopes.as_ref()))
        };
        let mut refusal = match attempt(to) {
            None => return (None, None),
            Some(Ok(moved)) => return (Some(moved), None),
            Some(Err(refusal)) => refusal,
        };
        let way = to - from;
        // In whole steps of the way, so that the limit lies where it lies from wherever it is looked for.
        let steps = (way.hypot() / tolerance::GESTURE_STOP).ceil().max(1.0);
        let place = |step: f64| from.lerp(to, step / steps);
        let (mut good, mut bad) = (0.0, steps);
        let mut reached = None;
        // Away from where the search begins in growing strides, until the end lies between two of them; then, or at once where
        // nothing is known of it, by halves.
        let mut next = near.map(|near| ((near - from).dot(way) / way.hypot2() * steps).round());
        let mut stride = near.map_or(f64::INFINITY, |_| FIRST_STRIDE);
        while bad - good > 1.0 {
            let step =
                next.filter(|step| *step > good && *step < bad).unwrap_or(((good + bad) / 2.0).floor());
            next = match attempt(place(step)) {
                Some(Ok(moved)) => {
                    good = step;
                    reached = Some(moved);
                    (bad >= steps).then_some(step + stride)
                }
                Some(Err(nearer)) => {
                    bad = step;
                    // What stopped it is what lies just beyond the place it stopped at, not what lies under the pointer.
                    refusal = nearer;
                    (good <= 0.0).then_some(step - stride)
                }
                None => break,
            };
            stride *= 4.0;
        }
        (reached, Some(Stop { wanted: to, reached: place(good), refusal }))
    }
}

/// The edit that puts `target` at `to`.
pub(super) fn move_edit(target: Target, to: Point) -> Option<Edit> {
    match target {
        Target::Node(node) => Some(Edit::MoveNode { node, to }),
        Target::Handle(span, end) => Some(Edit::MoveHandle { span, end, to }),
        Target::Span(..) => None,
    }
}

/// How many steps from where the search for a stop begins it looks first.
const FIRST_STRIDE: f64 = 8.0;
