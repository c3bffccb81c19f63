//! Designs drawn from curves that are known exactly.

use halfbreadth_core::{
    datum::Datum,
    design::{Design, Refusal, Shape},
    layup::Layup,
    outline::{Handle, Joint, Node, Outline, Span},
    profile::{Kick, Profile},
    real,
};
use kurbo::{ParamCurve, Point, Vec2};

/// A node of a curve to draw: where it is and which way the curve runs there, tail to nose, radians.
#[derive(Clone, Copy, Debug)]
pub struct Through {
    /// Where, mm.
    pub place: Point,
    /// The direction of travel, radians.
    pub angle: f64,
}

/// How two neighbouring nodes are joined.
#[derive(Clone, Copy, Debug)]
pub enum Join {
    /// By a straight line.
    Line,
    /// By a cubic with handles of these lengths, mm.
    Handles(f64, f64),
}

/// A design with that outline on the default holes, bend lines, layup and glue, with the concave as wide as allowed.
///
/// # Errors
///
/// The refusal of the one door for designs.
pub fn design(outline: Outline, datum: Datum) -> Result<Design, Refusal> {
    Design::new("Test deck", "", shape(outline, datum), Vec::new())
}

/// The shape of [`design`].
#[must_use]
pub fn shape(outline: Outline, datum: Datum) -> Shape {
    Shape {
        datum,
        outline,
        rail_tolerance: 0.5,
        profile: Profile {
            nose: Kick::default(),
            tail: Kick::default(),
            concave_depth: 10.0,
            concave_width: 200.0,
            flat_strip: 0.0,
            concave_fade: 40.0,
        },
        layup: Layup::default(),
    }
}

/// The default bolt pattern with the wheelbase that leaves `kick` mm from the outer row to an end `half` mm away.
#[must_use]
pub fn datum_for(half: f64, kick: f64) -> Datum {
    let pattern = Datum::default().pattern_length;
    Datum { wheelbase: 2.0 * (half - kick - pattern), ..Datum::default() }
}

/// A chain through the nodes, all smooth. The first and the last must be tips square to the centreline.
#[must_use]
pub fn smooth(nodes: &[Through], joins: &[Join]) -> Outline {
    let last = nodes.len() - 1;
    let node = |(i, n): (usize, &Through)| Node {
        place: n.place,
        joint: if i == 0 || i == last { Joint::Led } else { Joint::Smooth(n.angle) },
    };
    let span = |join: &Join| match *join {
        Join::Line => Span::Straight,
        Join::Handles(start, end) => Span::Cubic { start: Handle::Along(start), end: Handle::Along(end) },
    };
    Outline {
        nodes: nodes.iter().enumerate().map(node).collect(),
        spans: joins.iter().map(span).collect(),
        twin: false,
        sweeps: Vec::new(),
    }
}

/// A chain with corners everywhere, from the control points of its cubics, tail to nose.
#[must_use]
pub fn cornered(cubics: &[[(f64, f64); 4]]) -> Outline {
    let corner = |place: (f64, f64)| Node { place: place.into(), joint: Joint::Corner };
    let first = cubics.first().map(|c| corner(c[0]));
    let free = |handle: (f64, f64), node: (f64, f64)| Handle::Free(Point::from(handle) - Point::from(node));
    Outline {
        nodes: first.into_iter().chain(cubics.iter().map(|c| corner(c[3]))).collect(),
        spans: cubics
            .iter()
            .map(|c| Span::Cubic { start: free(c[1], c[0]), end: free(c[2], c[3]) })
            .collect(),
        twin: false,
        sweeps: Vec::new(),
    }
}

/// A chain of straight spans between corners, tail to nose.
#[must_use]
pub fn polygon(corners: &[(f64, f64)]) -> Outline {
    Outline {
        nodes: corners.iter().map(|&p| Node { place: p.into(), joint: Joint::Corner }).collect(),
        spans: vec![Span::Straight; corners.len() - 1],
        twin: false,
        sweeps: Vec::new(),
    }
}

/// Handles for an arc of a circle that turns by `turn` radians: 4/3·tan(turn/4) radii, the usual one (from memory),
/// off the circle by 3e-4 radii at a right angle and with the sixth power of the turn.
#[must_use]
pub fn arc_handles(radius: f64, turn: f64) -> Join {
    let length = radius * 4.0 / 3.0 * real::tan(turn / 4.0);
    Join::Handles(length, length)
}

/// Handle lengths for the cubic between two nodes that comes nearest to the curve on which `distance` is zero: the
/// distances of three points of the cubic are brought down by Gauss–Newton.
#[must_use]
pub fn fitted(from: Through, to: Through, distance: &dyn Fn(Point) -> f64) -> Join {
    const PROBES: [f64; 5] = [0.2, 0.35, 0.5, 0.65, 0.8];
    let chord = (to.place - from.place).hypot();
    let misses = |a: f64, b: f64| PROBES.map(|t| distance(cubic(from, to, a, b).eval(t)));
    let (mut a, mut b) = (chord / 3.0, chord / 3.0);
    for _ in 0..30 {
        let step = chord * 1e-5;
        let (at, da, db) = (misses(a, b), misses(a + step, b), misses(a, b + step));
        let (mut m, mut r) = ([0.0; 3], [0.0; 2]);
        for i in 0..PROBES.len() {
            let (u, v) = ((da[i] - at[i]) / step, (db[i] - at[i]) / step);
            m = [m[0] + u * u, m[1] + u * v, m[2] + v * v];
            r = [r[0] + u * at[i], r[1] + v * at[i]];
        }
        let det = m[0] * m[2] - m[1] * m[1];
        if det.abs() < 1e-12 * (m[0] + m[2]).powi(2) {
            break; // the span is as good as straight: any handles do
        }
        a -= (m[2] * r[0] - m[1] * r[1]) / det;
        b -= (m[0] * r[1] - m[1] * r[0]) / det;
    }
    let kept = |length: f64| length.clamp(chord / 6.0, chord);
    Join::Handles(kept(a), kept(b))
}

/// The cubic between two nodes with handles of those lengths.
#[must_use]
pub fn cubic(from: Through, to: Through, start: f64, end: f64) -> kurbo::CubicBez {
    let along = |n: Through, length: f64| -> Vec2 { real::unit_vector(n.angle) * length };
    kurbo::CubicBez::new(from.place, from.place + along(from, start), to.place - along(to, end), to.place)
}
