//! What is doubtful about a template: places that the tool cannot reach, and sheets that will not bend.

use super::{Cut, TemplateOptions};
use crate::{
    arcs::offset::{Offset, Place, offset},
    design::Shape,
    language::said,
    outline::Half,
    projection::Projection,
    say,
    units::{System, Unit, show},
};
use kurbo::Point;

/// Something to look at before cutting a template.
#[derive(Clone, Debug, PartialEq)]
pub struct Warning {
    /// Key of the field it is about.
    pub key: &'static str,
    /// What is found, the limit, and the way out.
    pub text: String,
    /// Where on the left half, if anywhere; the right half has its mirror.
    pub at: Option<Point>,
}

/// Thickest sheet that follows a kick, mm (common practice, no source).
const FLEXIBLE: f64 = 6.0;

/// All of them, in the units the maker reads.
pub(super) fn find(
    shape: &Shape,
    half: &Half,
    edge: &Offset,
    options: &TemplateOptions,
    system: System,
) -> Vec<Warning> {
    let length = |mm: f64| show(mm, Unit::Thickness, system);
    let mut found = Vec::new();
    for place in &edge.places {
        let what = at_place(place, options.edge(), system);
        let away = length(options.edge().abs());
        let text =
            say!("{what}, and the template is {away} from it: the cut comes out rounder there.", what, away);
        found.push(Warning { key: options.guide.key(), text, at: Some(place.at) });
    }
    // The bit's centre runs along a parallel on the side that is cut away.
    let radius = options.bit / 2.0;
    let centre = if options.cut == Cut::WindowOpening { -radius } else { radius };
    let beside = offset(half, centre).map(|beside| beside.places).unwrap_or_default();
    for place in beside {
        let what = at_place(&place, centre, system);
        let text = say!(
            "{what}, and the bit's radius is {radius}: take a thinner bit, or file it.",
            what,
            radius = length(radius)
        );
        found.push(Warning { key: "bit", text, at: Some(place.at) });
    }
    if edge.contours.len() > 1 {
        found.push(Warning {
            key: options.guide.key(),
            text: said("The template falls into several parts: take a guide nearer to the bit's size.")
                .to_owned(),
            at: None,
        });
    }
    let kicks = [&shape.profile.nose, &shape.profile.tail].into_iter().filter(|kick| kick.kicks());
    let angle = kicks.map(|kick| kick.angle).fold(0.0, f64::max);
    if options.projection == Projection::Developed && angle > 0.0 && options.thickness > FLEXIBLE {
        let far = length(options.thickness / 2.0 * angle);
        let text = say!(
            "A template of {thickness} will not follow a kick, and bent into it would reach {far} too far: use at most {most}, or the plan.",
            thickness = length(options.thickness),
            far,
            most = length(FLEXIBLE)
        );
        found.push(Warning { key: "template-thickness", text, at: None });
    }
    found
}

/// What is in the way of a tool on the parallel at `distance`.
fn at_place(place: &Place, distance: f64, system: System) -> String {
    let inward = distance < 0.0;
    let Some(radius) = place.radius else { return said("Another part of the edge is in the way").to_owned() };
    if radius <= 0.0 {
        return if inward { "The edge has a corner" } else { "The edge has an inner corner" }.to_owned();
    }
    let does = if inward { "bulges" } else { "hollows" };
    say!("The edge {does} with a radius of {radius}", does, radius = show(radius, Unit::Thickness, system))
}
