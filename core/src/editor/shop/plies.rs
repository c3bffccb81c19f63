//! The plies as the page lists them, and the order they are laid in.

use super::super::{Editor, Field, command, fields::Typed};
use crate::{
    edit::Edit,
    language::said,
    layup::{Grain, Ply},
    profile::Kick,
    say,
    units::{System, Unit, entry, entry_symbol, parse, show},
    workshop::{
        bend,
        glue::Basis,
        order::{Spread, laying_order},
        species::{SPECIES, Species},
        stacks::PRESETS,
    },
};

/// One of several things in a list: its heading, its fields and what can be ticked of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Its place in the list.
    pub index: usize,
    /// Its heading.
    pub title: String,
    /// Its fields.
    pub fields: Vec<Field>,
    /// What can be ticked of it.
    pub ticks: Vec<Tick>,
}

/// Something to tick.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tick {
    /// Its name in the page's hooks.
    pub key: &'static str,
    /// Its name.
    pub label: &'static str,
    /// Whether it is ticked.
    pub on: bool,
}

const THICKNESS: &str = "Thickness";
const GRAINS: &[(&str, &str)] = &[("L", "along"), ("X", "across")];

/// The woods to choose from: key and name.
static WOODS: [(&str, &str); SPECIES.len()] = {
    let mut woods = [("", ""); SPECIES.len()];
    let mut i = 0;
    while i < woods.len() {
        woods[i] = (SPECIES[i].key, SPECIES[i].label);
        i += 1;
    }
    woods
};

impl Editor {
    /// The woods on offer: strength, stiffness and weight of each, and where they were read.
    #[must_use]
    pub fn wood_words(&self) -> Vec<String> {
        SPECIES.iter().map(|wood| wood.words(self.settings.system)).collect()
    }

    /// The plies, top face first.
    #[must_use]
    pub fn plies(&self) -> Vec<Item> {
        let system = self.settings.system;
        let design = self.design();
        let record = design.records().last();
        let profile = &design.shape().profile;
        let kicks = [("; the nose is tighter", &profile.nose), ("; the tail is tighter", &profile.tail)];
        let plies = design.shape().layup.plies.iter().enumerate();
        plies
            .map(|(index, ply)| {
                let key = |word: &str| format!("ply-{}-{word}", index + 1);
                let thickness = entry(ply.thickness, Unit::Thickness, system);
                let symbol = entry_symbol(&thickness, Unit::Thickness, system);
                let grain = if ply.grain == Grain::Along { "L" } else { "X" };
                let [grain, wood, thickness] = [
                    (key("grain"), "Grain", grain.to_owned(), "", GRAINS),
                    (key("wood"), "Wood", ply.species.key.to_owned(), "", &WOODS),
                    (key("thickness"), THICKNESS, thickness, symbol, &[]),
                ]
                .map(|(key, label, text, unit, options)| self.item_field(key, label, text, unit, options));
                let thickness = Field { remark: bends(ply, &kicks, system), ..thickness };
                let tick = |key, label, ticks: u32| Tick { key, label, on: ticks >> index & 1 == 1 };
                Item {
                    index,
                    title: say!("Ply {number}", number = index + 1),
                    fields: vec![grain, wood, thickness],
                    ticks: record.map_or(Vec::new(), |record| {
                        vec![
                            tick("graded", "Graded", record.graded),
                            tick("metered", "Moisture", record.metered),
                        ]
                    }),
                }
            })
            .collect()
    }

    /// The plies in the order they are laid, in words.
    #[must_use]
    pub fn laying_words(&self) -> Vec<String> {
        let layup = &self.design().shape().layup;
        let glue = &self.design().workshop().glue;
        let both_faces = glue.basis == Basis::BothFaces;
        let laid = laying_order(layup, glue.top_first, both_faces);
        laid.iter()
            .map(|laid| {
                let ply = &layup.plies[laid.ply - 1];
                let grain = if laid.grain == Grain::Along { "along" } else { "across" };
                let thickness = show(ply.thickness, Unit::Thickness, self.settings.system);
                let better = match (laid.shows_below, laid.shows_above) {
                    (true, _) => ", better face down",
                    (_, true) => ", better face up",
                    _ => "",
                };
                let spread = match laid.spread {
                    Spread::Neither => "spread nothing on it",
                    Spread::Upper => "spread its upper face",
                    Spread::Lower => "spread its lower face before it goes on",
                    Spread::Both => "spread its lower face before it goes on, then its upper",
                };
                say!(
                    "Ply {ply}: {thickness}, grain {grain}{better}; {spread}.",
                    ply = laid.ply,
                    thickness,
                    grain,
                    better,
                    spread
                )
            })
            .collect()
    }
}

/// How tight a ply bends dry by estimate, and which kicks are tighter.
fn bends(ply: &Ply, kicks: &[(&'static str, &Kick)], system: System) -> String {
    if ply.grain == Grain::Across {
        return said("no published bend: its grain runs across the kicks").to_owned();
    }
    let least = bend::smallest_radius(ply.thickness, ply.species.elasticity, ply.species.rupture);
    let mut words = say!("bends dry to {least} by estimate", least = show(least, Unit::Length, system));
    for (tighter, _) in kicks.iter().filter(|(_, kick)| kick.kicks() && kick.radius < least) {
        words.push_str(said(tighter));
    }
    words
}

/// What was typed or chosen of ply `index`, counted from 0 at the top face.
pub(super) fn enter(editor: &mut Editor, index: usize, word: &str, text: &str) -> Result<(), String> {
    let mut plies = editor.history.design().shape().layup.plies.clone();
    let ply = plies.get_mut(index).ok_or(said("there is no such ply"))?;
    match word {
        "grain" => ply.grain = if text == "X" { Grain::Across } else { Grain::Along },
        "wood" => ply.species = Species::find(text).ok_or(said("there is no such wood"))?,
        _ => {
            let thickness = parse(text, Unit::Thickness, editor.settings.system);
            ply.thickness = thickness.map_err(|error| error.to_string())?;
        }
    }
    editor.attempt(&say!("changed ply {number}", number = index + 1), &Edit::LayUp(plies))
}

pub(super) fn remove(editor: &mut Editor, index: usize) {
    let mut plies = editor.history.design().shape().layup.plies.clone();
    if index < plies.len() {
        plies.remove(index);
        lay(editor, &say!("took out ply {number}", number = index + 1), plies);
    }
}

/// Lays up other plies; what is refused is said beside them.
fn lay(editor: &mut Editor, name: &str, plies: Vec<Ply>) {
    editor.typed = None;
    if !command::apply(editor, name, &Edit::LayUp(plies)) {
        editor.typed = Some(Typed::refused(STACK, &editor.notice.text));
    }
}

/// The key that what is refused of the whole stack goes by.
pub(super) const STACK: &str = "plies";

/// Puts one more ply like the last one below it.
pub(in crate::editor) fn add(editor: &mut Editor) {
    let mut plies = editor.history.design().shape().layup.plies.clone();
    plies.extend(plies.last().cloned());
    lay(editor, "added a ply", plies);
}

/// Lays up one of the usual stacks in the wood and thickness of the top ply.
pub(in crate::editor) fn lay_up(editor: &mut Editor, preset: usize) {
    let top = editor.history.design().shape().layup.plies.first();
    let (thickness, species) = top.map_or((1.5, &SPECIES[0]), |ply| (ply.thickness, ply.species));
    let plies: Vec<Ply> = PRESETS[preset].plies(thickness, species);
    let name = say!("laid up {count} plies", count = plies.len());
    lay(editor, &name, plies);
}
