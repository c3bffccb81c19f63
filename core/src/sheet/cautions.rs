//! The cautions, where the work is named. Common practice; they take nobody's place who knows the machine.

/// Heading and text of each.
pub(super) const CAUTIONS: [(&str, &str); 6] = [
    (
        "Press",
        "Stored force: tighten and release evenly, from the middle out, and stand aside of bolts and spars. Stay below the limits of bolts and mould; a printed mould creeps and can crack.",
    ),
    (
        "Saw, router, drill",
        "Eye, ear and lung protection. Band saw: a pressed blank rocks, keep the wood under the blade on the table, guard down, no gloves near anything that turns. Router: deck screwed to the template or clamped; feed against the bit's rotation (hand-held round the outside anticlockwise from above, on a table the other way); enter at a run-off ear, never at a corner; light passes, slow at the tips; unplug before touching the bit. Drill: clamp, backing piece.",
    ),
    (
        "Dust, glue, finish",
        "Extraction and respirator. Keep to the glue's data sheet. Ventilate when finishing; oily rags heat by themselves.",
    ),
    (
        "New deck",
        "Slow load test near the ground; look for cracks and lifting plies then and before each ride. First rides slow, helmet and pads. Retire it at the first crack. No hot cars. Tips at least 12 mm round. Check for wheel bite.",
    ),
    (
        "Figures",
        "Estimates where they say so: no rider mass is certified. Decks given or sold fall under product law and standards. A class needs a trained person at every machine.",
    ),
    ("Before all this", "The machine's manual, the glue's data sheet, local codes and licensed practice."),
];
