//! Every numeric accuracy, named, with its unit, its reason, and what a user would see of it.

/// Arc length by quadrature, relative. Nobody sees a tenth of a micrometre on a perimeter of two metres.
pub const ARC_LENGTH_RELATIVE: f64 = 1e-9;

/// Roots in the parameter of a cubic. On a span of half a metre this is half a nanometre, below what a design stores.
pub const PARAMETER: f64 = 1e-12;

/// Two tangents closer than this, in radians, are one: 0.2 µm over the length of a kick.
pub const TANGENT: f64 = 1e-6;

/// Two stored places closer than this, in mm, are one node. Smaller spans have no direction worth the name.
pub const NODE_GAP: f64 = 0.01;

/// A length within this of a 64th of an inch, in nm, is typed again as that 64th: twice what a dimension is met to, and a
/// four-hundredth of the way to the next.
pub const SIXTY_FOURTH_NM: f64 = 1000.0;

/// Curves that come nearer to each other than this, in mm, count as touching, so the outline is not simple there.
/// A saw kerf is a hundred times wider.
pub const TOUCH: f64 = 1e-3;

/// Curvature below which a tip is flat, in 1/mm: a radius of five metres cannot be told from a straight edge.
pub const FLAT_CURVATURE: f64 = 1.0 / 5000.0;

/// Length beyond the end reference, in mm, below which a taper angle would be noise.
pub const TAPER_LENGTH: f64 = 10.0;

/// Largest deviation, in mm, for which a kick still counts as drawn with a compass.
pub const ROUND_MISFIT: f64 = 1.0;

/// Arcs that stand for the outline in files, in mm: a fifth of the hundredth that a template is checked to.
pub const EXPORT_ARCS: f64 = 0.002;

/// How far from its true distance a parallel of the outline may lie, mm: what a template is checked to.
pub const OFFSET: f64 = 0.01;

/// Area below which a contour of a parallel is what rounding left of nothing, mm².
pub const OFFSET_AREA: f64 = 0.01;

/// To this, in mm, the largest distance is found at which a parallel still exists: finer than a bit is ground.
pub const OFFSET_LIMIT: f64 = 1e-3;

/// How far the plan outline's curves may lie from the true one, mm: half of what the arcs of a file may add to it.
pub const PLAN: f64 = 0.001;

/// Change of curvature, in 1/mm, that counts as a turn in the fairness count; less is rounding of stored places.
pub const CURVATURE_NOISE: f64 = 1e-6;

/// Largest jump of curvature, 1/mm, at a pin of a batten that counts as none: rounding places to the nanometre makes a
/// tenth of it on spans of 20 mm, and a comb shows it from 1e-4 on.
pub const BATTEN_JUMP: f64 = 2e-8;

/// How far the nodes of a laid sweep may lie from being as far apart as its marks, mm: the repeatability promised of it.
pub const RIGID: f64 = 1e-3;

/// How far a span may leave the one it was converted from, mm.
pub const CONVERSION: f64 = 0.01;

/// Where a gesture stops at the limit is found to this, mm: what a pointer’s place is rounded to.
pub const GESTURE_STOP: f64 = 0.01;
