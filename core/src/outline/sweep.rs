//! Sweeps: curves kept under a name and laid on the outline wherever they are wanted, always the same curve.
//!
//! A sweep lies in a frame of its own. A laid span names the sweep and two *marks*, arc lengths along it; its two nodes
//! store the place. The curve between the marks is mapped by the one similarity that takes marks to nodes. It is
//! rigid: a chain whose nodes lie any nearer or farther apart than the marks is no outline.

mod keep;
mod laid;
mod lay;
mod rigid;
#[cfg(test)]
mod tests;

pub use self::laid::Laid;
use super::Course;
use crate::{
    curve::{family::Family, spiral::Spiral},
    design::Refusal,
    text, tolerance,
    units::{self, Unit},
};
use kurbo::{CubicBez, Point};
use std::sync::Arc;

/// A curve under a name.
///
/// Its numbers are whole nanometres, ten-millionths of a degree and, for an exponent, millionths.
#[derive(Clone, Debug)]
pub struct Sweep {
    name: String,
    curve: SweepCurve,
    /// The curve worked out, so that a drag does not do it over and over.
    run: Arc<Run>,
}

/// What curve a sweep is.
#[derive(Clone, Debug, PartialEq)]
pub enum SweepCurve {
    /// One of the families, known by its dimensions.
    Family(Family),
    /// A stretch of an outline, from the origin on.
    Own(Vec<Leg>),
}

/// A piece of an own curve; it begins where the one before ends, with the same tangent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Leg {
    /// A cubic with its two off-curve points and its end, mm.
    Cubic(Point, Point, Point),
    /// A length of batten: the Euler spiral between two tangent directions, radians, to its end, mm.
    Spiral(f64, f64, Point),
}

/// A curve worked out.
#[derive(Clone, Debug)]
struct Run {
    /// The legs, each with the arc length before it.
    legs: Vec<(f64, Course)>,
    /// The whole arc length.
    length: f64,
}

impl PartialEq for Sweep {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name && self.curve == other.curve
    }
}

/// The largest number of an own curve or of a family, mm: no deck is longer.
const LARGEST: f64 = 5000.0;

impl Sweep {
    /// Most sweeps of one outline.
    pub const MOST: usize = 16;
    /// Most legs of all own curves of one outline together. A nose takes four; a link must hold them all.
    pub const MOST_LEGS: usize = 40;
    /// Most cubics that one sweep resolves to.
    pub const MOST_CUBICS: usize = 64;
    /// Most characters of a name.
    pub const LONGEST_NAME: usize = 24;

    /// A sweep of that curve; its numbers are rounded to what a design stores.
    ///
    /// # Errors
    ///
    /// [`Refusal::TextTooLong`] for the name; [`Refusal::Impossible`] for a family out of its range, and for legs that
    /// are too many, too long, or meet in a corner.
    pub fn new(name: &str, curve: SweepCurve) -> Result<Self, Refusal> {
        let name = text::line("sweep name", name, Self::LONGEST_NAME)?;
        let curve = match curve {
            SweepCurve::Family(family) => SweepCurve::Family(stored_family(family)),
            SweepCurve::Own(legs) => SweepCurve::Own(legs.iter().map(Leg::stored).collect()),
        };
        let run = Arc::new(Run::of(&curve)?);
        Ok(Self { name, curve, run })
    }

    /// The same sweep under another name.
    ///
    /// # Errors
    ///
    /// [`Refusal::TextTooLong`].
    pub fn renamed(&self, name: &str) -> Result<Self, Refusal> {
        Ok(Self { name: text::line("sweep name", name, Self::LONGEST_NAME)?, ..self.clone() })
    }

    /// What it is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What curve it is.
    #[must_use]
    pub fn curve(&self) -> &SweepCurve {
        &self.curve
    }

    /// Its arc length, mm, in whole nanometres that it does not fall short of: the farthest a mark can be.
    #[must_use]
    pub fn length(&self) -> f64 {
        units::whole_nm((self.run.length * 1e6).floor() / 1e6)
    }

    /// How many legs it takes to write it down; none for a family.
    #[must_use]
    pub fn legs(&self) -> usize {
        match &self.curve {
            SweepCurve::Family(_) => 0,
            SweepCurve::Own(legs) => legs.len(),
        }
    }

    /// The point at the mark `s`, in its own frame, mm.
    #[must_use]
    pub fn point(&self, s: f64) -> Point {
        let (course, t) = self.at(s);
        course.point(t)
    }

    /// The tangent direction at the mark `s`, in its own frame, radians.
    #[must_use]
    pub fn angle(&self, s: f64) -> f64 {
        let (course, t) = self.at(s);
        course.tangent(t)
    }

    /// The distance between two marks, mm, as the crow flies.
    #[must_use]
    pub fn chord(&self, from: f64, to: f64) -> f64 {
        (self.point(to) - self.point(from)).hypot2().sqrt()
    }

    /// The leg that the mark `s` lies on, and its parameter there.
    fn at(&self, s: f64) -> (&Course, f64) {
        let legs = &self.run.legs;
        let after = legs.iter().position(|(before, _)| *before > s).unwrap_or(legs.len());
        let (before, course) = &legs[after.saturating_sub(1)];
        (course, course.at_length(s - before))
    }

    /// The courses between two marks, in its own frame.
    fn stretch(&self, from: f64, to: f64) -> Vec<Course> {
        let mut stretch = Vec::new();
        for (i, (before, course)) in self.run.legs.iter().enumerate() {
            let after = self.run.legs.get(i + 1).map_or(self.run.length, |next| next.0);
            // What reaches into a leg by less than what a mark stores does not reach into it.
            if from.max(*before) + MARK >= to.min(after) {
                continue;
            }
            let [a, b] = [from, to].map(|s| course.at_length(s - before));
            stretch.extend(course.stretch(a, b));
        }
        stretch
    }
}

/// The smallest dimension of a family, mm.
const SMALLEST: f64 = 0.1;

/// The shortest piece of a sweep that is laid, mm.
const SHORTEST: f64 = 2.0;

/// The grain of a mark, mm.
const MARK: f64 = 1e-6;

const NO_FAMILY: Refusal = Refusal::Impossible(
    "a sweep of that family has dimensions from 0.1 mm to 5 m, at most a whole turn, and an exponent from 2 to 20",
);
const TOO_LONG: Refusal =
    Refusal::Impossible("a sweep is at most 5 m long and 64 pieces: keep a shorter stretch");
const CORNERED: Refusal =
    Refusal::Impossible("a sweep is one curve without a corner: keep a stretch between corners");
const NO_CURVE: Refusal = Refusal::Impossible("a sweep needs a curve: keep a stretch between two nodes");

impl Run {
    fn of(curve: &SweepCurve) -> Result<Self, Refusal> {
        let courses = match curve {
            SweepCurve::Family(family) => courses_of_family(family)?,
            SweepCurve::Own(legs) => courses_of_legs(legs)?,
        };
        let mut length = 0.0;
        let mut legs = Vec::with_capacity(courses.len());
        let mut cubics = 0;
        for course in courses {
            let before = length;
            length += course.length_to(1.0);
            cubics += course.curves().take(Sweep::MOST_CUBICS + 1).count();
            legs.push((before, course));
        }
        let fits = length <= LARGEST && cubics <= Sweep::MOST_CUBICS; // not so for NaN
        if fits { Ok(Self { legs, length }) } else { Err(TOO_LONG) }
    }
}

fn courses_of_family(family: &Family) -> Result<Vec<Course>, Refusal> {
    let lengths = match *family {
        Family::Arc { radius, .. } => [radius; 2],
        Family::Ellipse { along, across } | Family::Superellipse { along, across, .. } => [along, across],
        Family::Clothoid { radius, length } => [radius, length],
    };
    if lengths.iter().any(|length| !(SMALLEST..=LARGEST).contains(length)) {
        return Err(NO_FAMILY);
    }
    let cubics = family.cubics().ok_or(NO_FAMILY)?;
    Ok(match family.spiral() {
        Some(spiral) => vec![Course::Spiral(spiral)],
        None => cubics.into_iter().map(Course::Cubic).collect(),
    })
}

fn courses_of_legs(legs: &[Leg]) -> Result<Vec<Course>, Refusal> {
    if legs.is_empty() {
        return Err(NO_CURVE);
    }
    let mut courses: Vec<Course> = Vec::with_capacity(legs.len());
    let mut from = Point::ORIGIN;
    for leg in legs {
        let course = match *leg {
            Leg::Cubic(p1, p2, p3) => {
                let long = |v: kurbo::Vec2| v.hypot2() >= tolerance::NODE_GAP.powi(2); // not so for NaN
                if !long(p1 - from) || !long(p3 - p2) {
                    return Err(NO_CURVE);
                }
                Course::Cubic(CubicBez::new(from, p1, p2, p3))
            }
            Leg::Spiral(start, end, to) => {
                Course::Spiral(Spiral::between(from, start, to, end).ok_or(NO_CURVE)?)
            }
        };
        let to = course.point(1.0);
        if !(to.x.abs() <= LARGEST && to.y.abs() <= LARGEST) {
            return Err(TOO_LONG);
        }
        if let Some(before) = courses.last() {
            let turn = crate::real::wrapped(course.tangent(0.0) - before.tangent(1.0));
            if turn.is_nan() || turn.abs() > tolerance::TANGENT {
                return Err(CORNERED);
            }
        }
        from = leg.end();
        courses.push(course);
    }
    Ok(courses)
}

impl Leg {
    /// Where it ends, mm.
    #[must_use]
    pub fn end(&self) -> Point {
        match *self {
            Self::Cubic(.., to) | Self::Spiral(.., to) => to,
        }
    }

    fn stored(&self) -> Self {
        let place = |p: Point| Point::new(units::whole_nm(p.x), units::whole_nm(p.y));
        match *self {
            Self::Cubic(p1, p2, p3) => Self::Cubic(place(p1), place(p2), place(p3)),
            Self::Spiral(start, end, to) => {
                Self::Spiral(units::whole_angle(start), units::whole_angle(end), place(to))
            }
        }
    }
}

fn stored_family(family: Family) -> Family {
    let length = units::whole_nm;
    match family {
        Family::Arc { radius, turn } => {
            Family::Arc { radius: length(radius), turn: units::whole_angle(turn) }
        }
        Family::Ellipse { along, across } => Family::Ellipse { along: length(along), across: length(across) },
        Family::Superellipse { along, across, exponent } => Family::Superellipse {
            along: length(along),
            across: length(across),
            exponent: units::from_stored(units::stored(exponent, Unit::Ratio), Unit::Ratio),
        },
        Family::Clothoid { radius, length: along } => {
            Family::Clothoid { radius: length(radius), length: length(along) }
        }
    }
}
