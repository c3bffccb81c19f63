//! Cautions: what can hurt whoever presses, cuts or rides a deck, named where the work is.
//!
//! Common practice of workshops, no source. They come before no machine's manual, no data sheet and no law.

use crate::language::said;

/// A kind of work with what to mind in it.
#[derive(Clone, Copy, Debug)]
pub struct Caution {
    /// The work.
    pub work: &'static str,
    /// What to mind, a sentence or two each.
    pub rules: &'static [&'static str],
}

impl Caution {
    /// What to mind, in the current language.
    #[must_use]
    pub fn words(&self) -> String {
        let mut words = String::new();
        for rule in self.rules {
            words.push_str(if words.is_empty() { "" } else { " " });
            words.push_str(said(rule));
        }
        words
    }
}

/// All cautions, in the order of the work.
pub static CAUTIONS: [Caution; 9] = [
    Caution {
        work: "Before anything",
        rules: &[
            "The machine’s manual, the glue’s data sheet, local codes and licensed practice come before anything said here.",
            "In a class there is a trained person at every machine.",
        ],
    },
    Caution {
        work: "Gluing",
        rules: &[
            "Spread, open time, clamping, drying and what to wear are in the glue’s own data sheet.",
            "Ventilate.",
        ],
    },
    Caution {
        work: "Pressing",
        rules: &[
            "A closed press holds stored force: tighten and release evenly, and stand aside of bolts and spars.",
            "Stay below the limit of the bolts and of the mould. A printed mould creeps, and can crack.",
        ],
    },
    Caution {
        work: "Band saw",
        rules: &[
            "A pressed blank rocks: keep the wood under the blade on the table, and the guard down.",
            "Eye, ear and lung protection; no gloves near anything that turns. Unplug before touching the blade.",
        ],
    },
    Caution {
        work: "Router",
        rules: &[
            "Screw the deck to the template through its bolt holes, or clamp it. Eye, ear and lung protection.",
            "Feed against the bit’s rotation: hand-held, round the outside anticlockwise as seen from above; on a table the other way.",
            "Enter at a run-off ear, never at a corner; light passes, and slow at the tips.",
            "Unplug before touching the bit.",
        ],
    },
    Caution { work: "Drill", rules: &["Clamp the deck, on a backing piece. Eye protection; no gloves."] },
    Caution {
        work: "Dust and finish",
        rules: &[
            "Extraction and a respirator.",
            "Ventilate while a finish dries. Oily rags heat by themselves: spread them out to dry, or keep them under water.",
        ],
    },
    Caution {
        work: "A new deck",
        rules: &[
            "Load it slowly near the ground; look for cracks and lifting plies then and before each ride.",
            "First rides slow, with helmet and pads. Retire it at the first crack, and leave it in no hot car.",
            "Tips at least 12 mm round. Check that no wheel bites.",
        ],
    },
    Caution {
        work: "These figures",
        rules: &[
            "Figures are estimates for comparing decks: no rider’s mass is certified by them.",
            "Decks given or sold fall under product law and standards.",
        ],
    },
];
