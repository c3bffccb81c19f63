//! The table of figures, in the order the page lists them.

use super::{Figure, Panel};
use crate::{
    quantities::{Quantity, Reading},
    units::Unit,
    workshop::{
        Workshop, bend, drilling, fault::Fault, flex::Flex, laminate::Laminate, press, run::Needs, strike,
    },
};

const ELEMENTARY: &str = "Elementary geometry";
const ELASTIC: &str = "Elastic theory, derived here";
const BEAM: &str = "Wood Handbook Eq 9-2 and Table 9-1, plain bending, on Table 5-3a";
const BOLT: &str = "T = K·F·d and 0.75 of proof load after Shigley, as mechconcepts.tech and aionlinecalculator.com give them";
const RESORCINOL: &str = "In proportion, as a resorcinol bulletin in the F.8L manual, Table 3; for other glues common practice, no source; times from the data sheet";
const COUNTED: &str = "Counted";
const DEFINITION: &str = "By definition";

const FLAT_NOSE: &str = "the nose does not kick";
const FLAT_TAIL: &str = "the tail does not kick";
const NO_PRICE: &str = "no price given";

fn or(value: Option<f64>, why: &'static str) -> Reading {
    value.map_or(Reading::none(why), Reading::of)
}

fn plate(w: &Workshop<'_>, value: fn(&Laminate) -> f64) -> Reading {
    match &w.laminate {
        Ok(laminate) => Reading::of(value(laminate)),
        Err(fault) => Reading::none(fault.reason()),
    }
}

fn flex(w: &Workshop<'_>, value: fn(&Flex) -> f64) -> Reading {
    match &w.flex {
        Ok(flex) => Reading::of(value(flex)),
        Err(fault) => Reading::none(fault.reason()),
    }
}

fn needs(w: &Workshop<'_>, value: fn(&Needs) -> f64) -> Reading {
    match &w.needs {
        Ok(needs) => Reading::of(value(needs)),
        Err(fault) => Reading::none(fault.reason()),
    }
}

fn given(value: Result<f64, Fault>) -> Reading {
    value.map_or_else(|fault| Reading::none(fault.reason()), Reading::of)
}

/// Rows: key, label, unit, panel, `exact` or `estimate`, how to read it; then help and source.
macro_rules! rows {
    (@estimate exact) => { false };
    (@estimate estimate) => { true };
    ($($key:literal, $label:literal, $unit:ident, $panel:ident, $sort:ident, $read:expr; $help:literal, $source:expr;)*) => {
        /// Every figure that the workshop works out.
        pub static FIGURES: &[Figure] = &[$(Figure {
            quantity: Quantity { key: $key, label: $label, help: $help, unit: Unit::$unit },
            panel: Panel::$panel,
            source: $source,
            estimate: rows!(@estimate $sort),
            read: $read,
        }),*];
    };
}

rows! {
    "springback", "Springback", Share, Profile, estimate, |w| plate(w, |p| p.along.springback());
        "Share of a bend that is lost on leaving the mould: Σ E·t³/12 ÷ D; 1/n² for n equal plies. Press one and measure.",
        ELASTIC;
    "nose-mould-angle", "Nose angle of the mould", Angle, Profile, estimate, |w| or(w.mould(true).map(|m| m.0), FLAT_NOSE);
        "Angle that the mould must have for the deck's: angle ÷ (1 − springback).",
        ELASTIC;
    "nose-mould-radius", "Nose radius of the mould", Length, Profile, estimate, |w| or(w.mould(true).map(|m| m.1), FLAT_NOSE);
        "Radius of the mould on the deck's top face: radius × (1 − springback). The lower half is cut to this and the thickness.",
        ELASTIC;
    "tail-mould-angle", "Tail angle of the mould", Angle, Profile, estimate, |w| or(w.mould(false).map(|m| m.0), FLAT_TAIL);
        "Angle that the mould must have for the deck's: angle ÷ (1 − springback).",
        ELASTIC;
    "tail-mould-radius", "Tail radius of the mould", Length, Profile, estimate, |w| or(w.mould(false).map(|m| m.1), FLAT_TAIL);
        "Radius of the mould on the deck's top face: radius × (1 − springback). The lower half is cut to this and the thickness.",
        ELASTIC;
    "nose-tip-rise", "Nose tip rise", Length, Profile, exact, |w| or(w.nose.map(|t| t.rise), FLAT_NOSE);
        "Height of the top face at the tip of the nose above the flat: R·(1 − cos θ) and the straight part's share.",
        ELEMENTARY;
    "tail-tip-rise", "Tail tip rise", Length, Profile, exact, |w| or(w.tail.map(|t| t.rise), FLAT_TAIL);
        "Height of the top face at the tip of the tail above the flat: R·(1 − cos θ) and the straight part's share.",
        ELEMENTARY;
    "nose-ply-slip", "Ply slip at the nose", Length, Profile, exact, |w| or(w.slip(true), FLAT_NOSE);
        "How far the ends of the outer plies slip past one another in the press: thickness of the plies × angle.",
        ELEMENTARY;
    "tail-ply-slip", "Ply slip at the tail", Length, Profile, exact, |w| or(w.slip(false), FLAT_TAIL);
        "How far the ends of the outer plies slip past one another in the press: thickness of the plies × angle.",
        ELEMENTARY;
    "smallest-bend-radius", "Smallest dry radius", Length, Profile, estimate,
        |w| or(bend::smallest_radius_of(&w.layers), "no ply has its grain round the bend");
        "Radius at which the first ply along the board reaches its strain at rupture: (t/2)·(MOE/MOR − 1). Cross plies have no published value. Many shops press tighter.",
        "Elastic theory on Wood Handbook Table 5-3a; agrees with the thinnest row of FAA AC 43.13-1B Table 1-2";

    "nose-strike-angle", "Nose strike angle", Angle, Ride, exact, |w| or(w.nose.map(|t| t.strike), FLAT_NOSE);
        "How far the deck turns about the nose axle until the lower edge of the tip strikes the ground: atan2(b, a) + asin(r ÷ √(a² + b²)).",
        ELEMENTARY;
    "tail-strike-angle", "Tail strike angle", Angle, Ride, exact, |w| or(w.tail.map(|t| t.strike), FLAT_TAIL);
        "How far the deck turns about the tail axle until the lower edge of the tip strikes the ground: atan2(b, a) + asin(r ÷ √(a² + b²)).",
        ELEMENTARY;
    "nose-tip-height", "Nose tip above ground", Length, Ride, exact, |w| or(w.nose.map(|t| t.height), FLAT_NOSE);
        "Height of the lower edge of the nose above the ground.",
        ELEMENTARY;
    "tail-tip-height", "Tail tip above ground", Length, Ride, exact, |w| or(w.tail.map(|t| t.height), FLAT_TAIL);
        "Height of the lower edge of the tail above the ground.",
        ELEMENTARY;
    "wheel-bite-lean", "Lean until wheel bite", Angle, Ride, estimate, |w| Reading::of(strike::wheel_bite_lean(w.shape, w.measured, &w.inputs.ride));
        "Lean at which the deck touches a wheel: atan(gap above the wheel ÷ half the width over the wheels), the deck leaning about the axle.",
        ELEMENTARY;
    "nose-over-wheels", "Deck beyond nose wheels", Length, Ride, exact, |w| Reading::of(w.beyond_wheels(w.measured.nose_axle_width));
        "How far each rail stands out beyond the wheels at the nose axle; negative where the wheels stand out.",
        ELEMENTARY;
    "tail-over-wheels", "Deck beyond tail wheels", Length, Ride, exact, |w| Reading::of(w.beyond_wheels(w.measured.tail_axle_width));
        "How far each rail stands out beyond the wheels at the tail axle; negative where the wheels stand out.",
        ELEMENTARY;

    "finished-thickness", "Finished thickness", Thickness, Layup, estimate, |w| Reading::of(w.thickness);
        "Sum of the plies and the glue lines, or the thickness measured.",
        DEFINITION;
    "wood-mass", "Wood", Mass, Layup, estimate, |w| Reading::of(w.wood_mass());
        "Area of the outline × thickness of the plies × density at 12 % moisture (1.12 × specific gravity).",
        "Wood Handbook Table 5-3a and Eq 4-14";
    "deck-mass", "Deck", Mass, Layup, estimate, |w| Reading::of(w.wood_mass() + w.coverage.dry);
        "Wood, and the solids of the glue inside the outline; without hardware, grip and finish.",
        "Wood Handbook Table 5-3a and Eq 4-14";
    "modulus-along", "Stiffness along", Pressure, Layup, estimate, |w| plate(w, |p| p.along.modulus(p.thickness));
        "Modulus of a solid board as thick and as stiff along the board: 12·D/t³, D = Σ E·(t³/12 + t·y²) about the weighted axis.",
        "Layered beam (Owen and Hinton, Eq 5.49) on Wood Handbook Tables 5-1 and 5-3a";
    "modulus-across", "Stiffness across", Pressure, Layup, estimate, |w| plate(w, |p| p.across.modulus(p.thickness));
        "The same across the board.",
        "Layered beam (Owen and Hinton, Eq 5.49) on Wood Handbook Tables 5-1 and 5-3a";
    "glue-water", "Moisture from the glue", Share, Layup, estimate, |w| or(w.glue_water(), "no plies");
        "Moisture that the water of the glue adds to the wood, of its dry mass: let the deck dry, clamped flat or in the mould, before it is cut.",
        "Worked from spread, solids and specific gravity";

    "end-margin", "Blank beyond each end", Length, Blank, exact, |w| Reading::of(w.margins.end);
        "Half of what the blank is longer than the outline; negative where it is too short.",
        ELEMENTARY;
    "side-margin", "Blank beyond each rail", Length, Blank, exact, |w| Reading::of(w.margins.side);
        "Half of what the blank is wider than the outline; negative where it is too narrow.",
        ELEMENTARY;
    "post-clearance", "Between veneer and posts", Length, Blank, exact, |w| Reading::of(w.inputs.mould.clear_length - w.shape.layup.blank_length);
        "What a flat veneer is shorter than the mould is clear between its posts.",
        ELEMENTARY;
    "veneers-per-sheet", "Veneers per sheet", Count, Blank, exact, |w| needs(w, |n| n.sheets.per_sheet);
        "Veneers along the board that come out of one sheet by cuts that run right through it.",
        COUNTED;
    "cross-veneers-per-sheet", "Cross plies per sheet", Count, Blank, exact, |w| needs(w, |n| n.cross_sheets.per_sheet);
        "Cross plies that come out of one sheet by cuts that run right through it.",
        COUNTED;
    "offcut-share", "Offcut", Share, Blank, exact, |w| needs(w, |n| n.sheets.offcut);
        "Share of the sheets for plies along the board that is left over from the run.",
        COUNTED;
    "cross-offcut-share", "Offcut of cross plies", Share, Blank, exact, |w| needs(w, |n| n.cross_sheets.offcut);
        "Share of the sheets for cross plies that is left over from the run.",
        COUNTED;

    "glue-volume", "Glue by volume", Volume, Glue, exact, |w| Reading::of(w.coverage.volume);
        "Glue to measure out for one deck: its mass ÷ its density.",
        DEFINITION;
    "glue-per-line", "Glue for one line", Mass, Glue, exact, |w| Reading::of(w.coverage.per_line);
        "Glue for one deck ÷ its glue lines, one fewer than its plies; the loss is in it.",
        DEFINITION;
    "glue-inside", "Glue in the deck", Mass, Glue, exact, |w| Reading::of(w.coverage.inside);
        "Wet glue inside the outline: area × lines × spread, no loss.",
        DEFINITION;
    "glue-dry", "Glue left when dry", Mass, Glue, estimate, |w| Reading::of(w.coverage.dry);
        "Solids of the glue inside the outline.",
        DEFINITION;
    "glue-saved", "Saved by a closer blank", Mass, Glue, exact, |w| Reading::of(w.coverage.saved);
        "Glue for one deck less that for the smallest blank that keeps the margins.",
        DEFINITION;
    "assembly-share", "Glue's time used", Share, Glue, estimate, |w| Reading::of(w.clock.used_share(w.shape.layup.glue_lines()));
        "Of the first line, the worst: open minutes ÷ open time + closed minutes ÷ assembly time. Above 100 % it skins over before the press is closed.",
        RESORCINOL;
    "time-to-press", "First glue to pressure", Minutes, Glue, exact, |w| Reading::of(w.clock.pressed(w.shape.layup.glue_lines()));
        "Lines × minutes per line, and closing the press.",
        COUNTED;
    "slowest-pace", "Slowest pace", Minutes, Glue, estimate, |w| or(w.clock.slowest_pace(w.shape.layup.glue_lines()), "closing alone takes too long");
        "Minutes per line at which the first line just keeps to its time.",
        RESORCINOL;

    "bolt-load", "Load on each bolt", Force, Press, estimate, |w| given(w.bolt_load);
        "F = T ÷ (K·d). Real loads scatter by a quarter or more (from memory).",
        BOLT;
    "bolt-load-limit", "Most on each bolt", Force, Press, estimate, |w| Reading::of(w.bolted().most_load());
        "Three quarters of the proof load: 0.75 × proof stress × stress area (π/4)·(d − 0.9382·p)².",
        "0.75 of proof load after Shigley, as mechconcepts.tech gives it; stress areas as engineersedge.com 15797";
    "torque-limit", "Most torque", Torque, Press, estimate, |w| Reading::of(w.bolted().most_torque());
        "Torque at three quarters of the proof load: K·F·d.",
        BOLT;
    "press-total", "Force of the press", Force, Press, estimate, |w| given(w.force);
        "Bolts × load on each, or the force typed.",
        BOLT;
    "pressed-area", "Pressed area", Area, Press, exact, |w| Reading::of(w.pressed_area());
        "The smaller of blank and mould in length and width, as seen from straight above.",
        ELEMENTARY;
    "pressure", "Pressure", Pressure, Press, estimate, |w| match w.force {
            Ok(force) => { let p = force / w.pressed_area(); Reading { value: Some(p), remark: press::beside_the_band(p) } }
            Err(fault) => Reading::none(fault.reason()),
        };
        "Force of the press ÷ pressed area. Published ranges are for flat joints and differ from one another; a hand-bolted mould mostly lies below them (common practice, no source).",
        "By definition; the published ranges name theirs";
    "wanted-torque", "Torque for the wanted pressure", Torque, Press, estimate, |w| w.wanted_torque();
        "K·d × pressure × area ÷ bolts; given only below the limits of mould and bolts.",
        BOLT;

    "flex-load", "Load", Force, Flex, exact, |w| Reading::of(w.inputs.ride.load());
        "Mass × gravity × landing factor, midway between the trucks.",
        DEFINITION;
    "deflection", "Gives by", Thickness, Flex, estimate, |w| flex(w, |f| f.deflection);
        "How far the middle goes down under the load on the two truck centres: ∫ M·m ÷ EI, with EI from the width, the waist and the concave at each station. For comparing decks; no rider mass is certified.",
        BEAM;
    "flat-deflection", "Without concave", Thickness, Flex, estimate, |w| flex(w, |f| f.flat_deflection);
        "The same for a deck without concave.",
        BEAM;
    "stiffness-ratio", "Stiffness, of the version behind", Ratio, Flex, estimate, |w| match (&w.flex, &w.against) {
            (Ok(flex), Some(against)) => Reading::of(flex.stiffness_ratio(against)),
            (Ok(_), None) => Reading::none("no version behind"),
            (Err(fault), _) => Reading::none(fault.reason()),
        };
        "Deflection of the version behind under its load ÷ deflection here under this one: 1.2 gives a sixth less way.",
        BEAM;
    "middle-stiffness", "Stiffness in the middle", BendingStiffness, Flex, estimate, |w| flex(w, |f| f.middle);
        "EI = D·w + Σ E·t·w·c²·(φ/5 − φ²/9): c the depth of the concave there, φ the share of the width that is arc; 4/45 without a flat strip.",
        BEAM;
    "top-stress", "Stress at the rails", Pressure, Flex, estimate, |w| flex(w, |f| f.top);
        "Greatest stress on the top face at the rail, two thirds of the concave and half the thickness from the axis; in the outermost ply along the board.",
        BEAM;
    "bottom-stress", "Stress below the centre", Pressure, Flex, estimate, |w| flex(w, |f| f.bottom);
        "Greatest stress on the bottom face at the centre, a third of the concave and half the thickness from the axis; in the outermost ply along the board.",
        BEAM;
    "stress-share", "Stress of the wood's strength", Share, Flex, estimate, |w| flex(w, |f| f.strength_share);
        "The greater stress ÷ modulus of rupture of small clear specimens, standing still. Real wood has flaws, riders land: no rider mass is certified.",
        "Wood Handbook Table 5-3a";

    "countersink-depth", "Countersink depth", Thickness, Finish, exact, |w| Reading::of(drilling::countersink_depth(
            w.shape.datum.hole_diameter, w.inputs.finish.countersink, w.inputs.finish.countersink_angle));
        "(countersink − hole) ÷ 2 ÷ tan(angle ÷ 2), from the top face. Drill from the top into a backing piece.",
        ELEMENTARY;
    "seal-area", "Area to seal", Area, Finish, exact, |w| Reading::of(w.area_to_seal());
        "Both faces and the rounded edge.",
        ELEMENTARY;
    "seal-area-below", "Area to seal, top gripped", Area, Finish, exact, |w| Reading::of(w.area_to_seal() - w.measured.area);
        "The bottom face and the rounded edge.",
        ELEMENTARY;
    "grip-length", "Grip sheet, length", Length, Finish, exact, |w| Reading::of(w.grip_sheet()[0]);
        "Length along the surface, and what is cut off at both ends.",
        ELEMENTARY;
    "grip-width", "Grip sheet, width", Length, Finish, exact, |w| Reading::of(w.grip_sheet()[1]);
        "Width along the surface, and what is cut off at both rails.",
        ELEMENTARY;

    "veneers-along", "Veneers along", Count, Run, exact, |w| needs(w, |n| n.along);
        "Veneers of the run with grain along the board.",
        COUNTED;
    "veneers-across", "Cross plies", Count, Run, exact, |w| needs(w, |n| n.across);
        "Veneers of the run with grain across the board.",
        COUNTED;
    "sheets", "Sheets to buy", Count, Run, exact, |w| needs(w, |n| n.sheets.sheets);
        "Stock sheets for the plies along the board.",
        COUNTED;
    "cross-sheets", "Cross sheets to buy", Count, Run, exact, |w| needs(w, |n| n.cross_sheets.sheets);
        "Stock sheets for the cross plies.",
        COUNTED;
    "run-glue", "Glue for the run", Mass, Run, exact, |w| needs(w, |n| n.glue);
        "Glue for one deck × decks.",
        COUNTED;
    "presses", "Press fillings", Count, Run, exact, |w| needs(w, |n| n.presses);
        "Decks ÷ decks pressed at a time, rounded up.",
        COUNTED;
    "days", "Days in the press", Ratio, Run, exact, |w| needs(w, |n| n.days);
        "Press fillings × time in the press, in days, one after the other.",
        COUNTED;
    "cost", "Cost", Ratio, Run, exact, |w| match &w.needs {
            Ok(needs) => or(needs.cost, NO_PRICE),
            Err(fault) => Reading::none(fault.reason()),
        };
        "Sheets, glue and all else at the prices given, in your own money; what has no price is left out.",
        COUNTED;
    "deck-cost", "Cost of a deck", Ratio, Run, exact, |w| match &w.needs {
            Ok(needs) => or(needs.cost.map(|cost| cost / w.inputs.run.decks), NO_PRICE),
            Err(fault) => Reading::none(fault.reason()),
        };
        "Cost of the run ÷ decks.",
        COUNTED;
}
