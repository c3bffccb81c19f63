//! Places seen from straight above, or measured with a straight rule, laid back onto the developed sheet.

use crate::{datum::Datum, profile::Profile, real};
use kurbo::Point;

/// The point of the developed sheet that [`Profile::plan`] shows at `p`, mm.
///
/// Beyond the reach of a concave, where nothing is seen from above, its farthest point.
pub(super) fn developed(profile: &Profile, datum: &Datum, p: Point) -> Point {
    let (kick, sign) = if p.x < 0.0 { (&profile.tail, -1.0) } else { (&profile.nose, 1.0) };
    let bend = datum.outer_row() + kick.bend_line;
    let run = p.x.abs() - bend;
    let x = if run <= 0.0 || !kick.kicks() {
        p.x
    } else {
        let (sin, cos) = real::sincos(kick.angle);
        let arc = kick.radius * sin;
        let beyond = if run <= arc {
            kick.radius * real::asin(run / kick.radius)
        } else {
            kick.radius * kick.angle + (run - arc) / cos
        };
        sign * (bend + beyond)
    };
    let depth = profile.concave_at(datum, x);
    let (flat, m) = (profile.flat_strip / 2.0, (profile.concave_width - profile.flat_strip) / 2.0);
    let out = p.y.abs() - flat;
    if depth <= 0.0 || out <= 0.0 {
        return Point::new(x, p.y);
    }
    let radius = (m * m + depth * depth) / (2.0 * depth);
    let y = flat + radius * real::asin((out / radius).min(1.0));
    Point::new(x, y.copysign(p.y))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo;

    #[test]
    fn what_is_seen_from_above_goes_back_to_where_it_came_from() {
        for deck in demo::all() {
            let (profile, datum) = (&deck.shape().profile, &deck.shape().datum);
            for x in [-410.0, -300.0, -255.0, -240.0, 0.0, 130.0, 250.0, 262.0, 300.0, 380.0] {
                for y in [-95.0, -20.0, 0.0, 4.0, 60.0, 100.0] {
                    let p = Point::new(x, y);
                    let back = developed(profile, datum, profile.plan(datum, p));
                    assert!((back - p).hypot() < 1e-9, "{p:?} {back:?}");
                }
            }
        }
    }
}
