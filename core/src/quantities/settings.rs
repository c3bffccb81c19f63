//! The table of settings. Defaults, limits and their sources: see the comment on each row; "common practice" has no
//! published source.

use super::{Part, Quantity, Setting};
use crate::units::Unit;
use core::f64::consts::PI;

/// Radians of so many degrees.
const fn deg(degrees: f64) -> f64 {
    degrees * PI / 180.0
}

/// Every quantity a person sets, in the order the page lists them.
pub const SETTINGS: &[Setting] = &[
    // About 14 in in general articles; the limits are those of decks that can be stood on.
    Setting {
        quantity: Quantity {
            key: "wheelbase",
            label: "Wheelbase",
            help: "Distance between the two inner bolt rows (common practice). The origin lies midway between them.",
            unit: Unit::Length,
        },
        part: Part::Datum,
        least: 150.0,
        most: 900.0,
        get: |s| s.datum.wheelbase,
        set: |s, v| s.datum.wheelbase = v,
    },
    // 2 1/8 in newer, 2 1/2 in older: common practice.
    Setting {
        quantity: Quantity {
            key: "pattern-length",
            label: "Bolt pattern, along",
            help: "Distance between the two bolt rows of one truck. 2 1/8 in and 2 1/2 in are common (common practice).",
            unit: Unit::Length,
        },
        part: Part::Datum,
        least: 30.0,
        most: 120.0,
        get: |s| s.datum.pattern_length,
        set: |s, v| s.datum.pattern_length = v,
    },
    Setting {
        quantity: Quantity {
            key: "pattern-width",
            label: "Bolt pattern, across",
            help: "Distance between the two holes of a bolt row. 1 5/8 in is common (common practice).",
            unit: Unit::Length,
        },
        part: Part::Datum,
        least: 25.0,
        most: 80.0,
        get: |s| s.datum.pattern_width,
        set: |s, v| s.datum.pattern_width = v,
    },
    Setting {
        quantity: Quantity {
            key: "hole-diameter",
            label: "Bolt hole",
            help: "Diameter drilled for a truck bolt. 13/64 in or 5.2 mm is common (common practice); measure your bolts.",
            unit: Unit::Length,
        },
        part: Part::Datum,
        least: 3.0,
        most: 10.0,
        get: |s| s.datum.hole_diameter,
        set: |s, v| s.datum.hole_diameter = v,
    },
    Setting {
        quantity: Quantity {
            key: "rail-tolerance",
            label: "Rail tolerance",
            help: "How far the edge may leave its highest point and still count as straight rail.",
            unit: Unit::Length,
        },
        part: Part::Outline,
        least: 0.1,
        most: 2.0,
        get: |s| s.rail_tolerance,
        set: |s, v| s.rail_tolerance = v,
    },
    Setting {
        quantity: Quantity {
            key: "nose-bend-line",
            label: "Nose bend line",
            help: "Where the flat ends and the nose begins to bend up, measured outward from the outer bolt row.",
            unit: Unit::Length,
        },
        part: Part::Profile,
        least: 0.0,
        most: 80.0,
        get: |s| s.profile.nose.bend_line,
        set: |s, v| s.profile.nose.bend_line = v,
    },
    Setting {
        quantity: Quantity {
            key: "nose-bend-radius",
            label: "Nose bend radius",
            help: "Radius of the nose's bend on the top face, of the deck as it comes out of the press.",
            unit: Unit::Length,
        },
        part: Part::Profile,
        least: 30.0,
        most: 500.0,
        get: |s| s.profile.nose.radius,
        set: |s, v| s.profile.nose.radius = v,
    },
    Setting {
        quantity: Quantity {
            key: "nose-kick-angle",
            label: "Nose kick angle",
            help: "Angle of the straight part of the nose above the flat. 0 is a nose that lies flat and does not kick.",
            unit: Unit::Angle,
        },
        part: Part::Profile,
        least: 0.0,
        most: deg(40.0),
        get: |s| s.profile.nose.angle,
        set: |s, v| s.profile.nose.angle = v,
    },
    Setting {
        quantity: Quantity {
            key: "tail-bend-line",
            label: "Tail bend line",
            help: "Where the flat ends and the tail begins to bend up, measured outward from the outer bolt row.",
            unit: Unit::Length,
        },
        part: Part::Profile,
        least: 0.0,
        most: 80.0,
        get: |s| s.profile.tail.bend_line,
        set: |s, v| s.profile.tail.bend_line = v,
    },
    Setting {
        quantity: Quantity {
            key: "tail-bend-radius",
            label: "Tail bend radius",
            help: "Radius of the tail's bend on the top face, of the deck as it comes out of the press.",
            unit: Unit::Length,
        },
        part: Part::Profile,
        least: 30.0,
        most: 500.0,
        get: |s| s.profile.tail.radius,
        set: |s, v| s.profile.tail.radius = v,
    },
    Setting {
        quantity: Quantity {
            key: "tail-kick-angle",
            label: "Tail kick angle",
            help: "Angle of the straight part of the tail above the flat. 0 is a tail that lies flat and does not kick.",
            unit: Unit::Angle,
        },
        part: Part::Profile,
        least: 0.0,
        most: deg(40.0),
        get: |s| s.profile.tail.angle,
        set: |s, v| s.profile.tail.angle = v,
    },
    Setting {
        quantity: Quantity {
            key: "concave-depth",
            label: "Concave",
            help: "Height of the rail above the centre on the top face, between the trucks. 0 is flat.",
            unit: Unit::Length,
        },
        part: Part::Profile,
        least: 0.0,
        most: 25.0,
        get: |s| s.profile.concave_depth,
        set: |s, v| s.profile.concave_depth = v,
    },
    Setting {
        quantity: Quantity {
            key: "concave-width",
            label: "Concave width",
            help: "Straight width over which the concave's depth is measured; a narrower deck takes less of the same arc.",
            unit: Unit::Length,
        },
        part: Part::Profile,
        least: 120.0,
        most: 320.0,
        get: |s| s.profile.concave_width,
        set: |s, v| s.profile.concave_width = v,
    },
    Setting {
        quantity: Quantity {
            key: "flat-strip",
            label: "Flat strip",
            help: "Width of a flat strip along the middle of the concave; 0 is one arc from rail to rail.",
            unit: Unit::Length,
        },
        part: Part::Profile,
        least: 0.0,
        most: 260.0,
        get: |s| s.profile.flat_strip,
        set: |s, v| s.profile.flat_strip = v,
    },
    Setting {
        quantity: Quantity {
            key: "concave-fade",
            label: "Concave fade",
            help: "Length over which the concave fades to nothing before a bend line: a kick and a concave together cannot be developed.",
            unit: Unit::Length,
        },
        part: Part::Profile,
        least: 0.0,
        most: 150.0,
        get: |s| s.profile.concave_fade,
        set: |s, v| s.profile.concave_fade = v,
    },
    Setting {
        quantity: Quantity {
            key: "ply-thickness",
            label: "Ply",
            help: "Thickness of one veneer; sets all plies. 1.5 mm and 1/16 in are common.",
            unit: Unit::Thickness,
        },
        part: Part::Layup,
        least: 0.4,
        most: 4.0,
        get: |s| s.layup.plies.first().map_or(f64::NAN, |ply| ply.thickness),
        set: |s, v| s.layup.plies.iter_mut().for_each(|ply| ply.thickness = v),
    },
    Setting {
        quantity: Quantity {
            key: "blank-length",
            label: "Blank length",
            help: "Length of the rectangle each veneer is cut to.",
            unit: Unit::Length,
        },
        part: Part::Layup,
        least: 300.0,
        most: 1800.0,
        get: |s| s.layup.blank_length,
        set: |s, v| s.layup.blank_length = v,
    },
    Setting {
        quantity: Quantity {
            key: "blank-width",
            label: "Blank width",
            help: "Width of the rectangle each veneer is cut to.",
            unit: Unit::Length,
        },
        part: Part::Layup,
        least: 120.0,
        most: 400.0,
        get: |s| s.layup.blank_width,
        set: |s, v| s.layup.blank_width = v,
    },
    Setting {
        quantity: Quantity {
            key: "spread",
            label: "Glue per line",
            help: "Glue spread for one glue line, both faces together. Take it from the glue's data sheet.",
            unit: Unit::MassPerArea,
        },
        part: Part::Layup,
        least: 50e-6,
        most: 500e-6,
        get: |s| s.layup.spread,
        set: |s, v| s.layup.spread = v,
    },
    Setting {
        quantity: Quantity {
            key: "glue-loss",
            label: "Glue lost",
            help: "Glue that stays on the roller, in the pot and as squeeze-out, as a share of what the lines take (common practice).",
            unit: Unit::Share,
        },
        part: Part::Layup,
        least: 0.0,
        most: 0.5,
        get: |s| s.layup.loss,
        set: |s, v| s.layup.loss = v,
    },
];
