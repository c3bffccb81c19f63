//! The width of the pressed deck seen from straight above.

use super::Envelope;
use crate::design::Shape;

/// Half the width of the widest place seen from above, mm.
///
/// The concave narrows the plan most where it is deepest, so the place need not be the widest of the sheet. Where the
/// concave is even, the plan is widest at a turning point of the edge; where it fades, stations are looked at.
pub(super) fn widest(envelope: &Envelope, shape: &Shape) -> f64 {
    let Shape { datum, profile, .. } = shape;
    let plan = |x: f64, y: f64| profile.across(datum, x, y).0;
    let mut widest = 0.0_f64;
    for stretch in envelope.stretches() {
        for p in [stretch.start, stretch.end] {
            if p.y > widest {
                widest = widest.max(plan(p.x, p.y));
            }
        }
    }
    for (kick, sign) in [(&profile.nose, 1.0), (&profile.tail, -1.0)] {
        let bend = sign * (datum.outer_row() + kick.reference());
        let faded = bend - sign * profile.concave_fade;
        widest = widest_in_fade(envelope, bend.min(faded), bend.max(faded), widest, plan);
    }
    widest
}

/// The same between two stations, where it is more than `widest`.
fn widest_in_fade(
    envelope: &Envelope,
    from: f64,
    to: f64,
    mut widest: f64,
    plan: impl Fn(f64, f64) -> f64,
) -> f64 {
    const STEPS: u32 = 32; // a millimetre or so of fade per step moves the width by less than a micrometre
    for stretch in envelope.stretches().iter().filter(|s| s.start.x < to && s.end.x > from) {
        // From the higher end down: the plan is never wider than the sheet, so below `widest` there is nothing to find.
        let ends = [stretch.start.x.max(from), stretch.end.x.min(to)];
        let [high, low] = if stretch.start.y > stretch.end.y { ends } else { [ends[1], ends[0]] };
        for k in 0..=STEPS {
            let x = high + (low - high) * f64::from(k) / f64::from(STEPS);
            let y = stretch.height_at(x);
            if y <= widest {
                break;
            }
            widest = widest.max(plan(x, y));
        }
    }
    widest
}
