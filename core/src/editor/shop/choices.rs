//! What is chosen for the workshop from a few words.

use crate::{
    editor::fields::Named,
    workshop::{glue::Basis, inputs::Inputs, press::Thread},
};

/// A choice of the workshop.
pub(super) struct Choice {
    /// Key, label, help.
    pub(super) named: Named,
    /// The words to choose from, each as it is sent and as people read it.
    pub(super) options: &'static [(&'static str, &'static str)],
    /// Reads it.
    pub(super) get: fn(&Inputs) -> &'static str,
    /// Writes it; the word is one of the options.
    pub(super) set: fn(&mut Inputs, &str),
}

/// The basis that a word stands for.
pub(super) fn basis(word: &str) -> Option<Basis> {
    Basis::WORDS.iter().find(|known| known.0 == word).map(|known| known.1)
}

/// All of them.
pub(super) static CHOICES: [Choice; 3] = [
    Choice {
        named: (
            "spread-basis",
            "The rate is",
            "What the rate of the data sheet means. A rate per face put on both faces counts twice; a rate per glue line never.",
        ),
        options: &[
            ("line", "for each glue line"),
            ("one-face", "for a face, one face spread"),
            ("both-faces", "for a face, both faces spread"),
        ],
        get: |inputs| {
            Basis::WORDS.iter().find(|known| known.1 == inputs.glue.basis).map_or("line", |known| known.0)
        },
        set: |inputs, word| inputs.glue.basis = basis(word).unwrap_or(inputs.glue.basis),
    },
    Choice {
        named: (
            "laying-first",
            "Lay first",
            "Whether the stack is laid on the mould's lower half, the bottom ply first, or head down and turned before it goes in.",
        ),
        options: &[("bottom", "the bottom ply"), ("top", "the top ply")],
        get: |inputs| if inputs.glue.top_first { "top" } else { "bottom" },
        set: |inputs, word| inputs.glue.top_first = word == "top",
    },
    Choice {
        named: (
            "thread",
            "Thread",
            "The standard of the bolts' thread: it fixes the stress area for a pitch.",
        ),
        options: &[("metric", "metric"), ("inch", "unified inch")],
        get: |inputs| if inputs.press.thread == Thread::Inch { "inch" } else { "metric" },
        set: |inputs, word| inputs.press.thread = if word == "inch" { Thread::Inch } else { Thread::Metric },
    },
];
