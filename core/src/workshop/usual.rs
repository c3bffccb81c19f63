//! What is usual of the settings that a shape keeps and the workshop uses.

use super::{fault::Fault, figures};
use crate::{
    design::Shape,
    quantities::{Quantity, setting},
};
use core::f64::consts::PI;

/// Usual spread per glue line, g/mm² (data sheets of PVA, from memory).
const SPREAD: [f64; 2] = [120e-6, 250e-6];
/// Usual distance of a bend line beyond the outer bolt row, mm (common practice, no source).
const BEND_LINE: [f64; 2] = [10.0, 32.0];
/// Usual angle of a kick (common practice, no source).
const ANGLE: [f64; 2] = [14.0 * PI / 180.0, 24.0 * PI / 180.0];
/// Usual depth of a concave mm (common practice, no source).
const CONCAVE: [f64; 2] = [8.0, 20.0];
/// Usual thickness of the finished deck, mm (common practice, no source; seven plies of about 1.5 mm in general articles).
const THICKNESS: [f64; 2] = [9.0, 14.0];

/// Every value that is possible but rare.
pub(super) fn rare(shape: &Shape, thickness: f64) -> Vec<Fault> {
    let (profile, mut found) = (&shape.profile, Vec::new());
    let mut look = |quantity: &'static Quantity, value: f64, usual: [f64; 2]| {
        if quantity.check(value, usual[0], usual[1]).is_err() {
            found.push(Fault::Unusual { quantity, found: value, usual });
        }
    };
    let ends = [
        (["nose-bend-line", "nose-kick-angle"], &profile.nose),
        (["tail-bend-line", "tail-kick-angle"], &profile.tail),
    ];
    for (keys, end) in ends {
        if end.kicks() {
            for ((key, value), usual) in
                keys.into_iter().zip([end.bend_line, end.angle]).zip([BEND_LINE, ANGLE])
            {
                look(&setting(key).quantity, value, usual);
            }
        }
    }
    if profile.concave_depth > 0.0 {
        look(&setting("concave-depth").quantity, profile.concave_depth, CONCAVE);
    }
    look(&setting("spread").quantity, shape.layup.spread, SPREAD);
    if let Some(figure) = figures::find("finished-thickness") {
        look(&figure.quantity, thickness, THICKNESS);
    }
    found
}
