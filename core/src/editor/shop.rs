//! The workshop on screen: what it is told, what it works out, and what to look at.

mod choices;
mod plies;
mod records;

pub use self::plies::{Item, Tick};
use super::{Editor, Field, Readout, command, fields::Named};
use crate::{
    edit::Edit,
    language::{said, within},
    say,
    units::{Unit, entry, entry_symbol, parse, show},
    workshop::{
        FIGURES, Figure, INPUTS, Workshop,
        card::Card,
        inputs::{Group, Input, Inputs, table},
        press,
    },
};
use choices::CHOICES;

/// One wish about plies and records that needs more than a command says.
#[derive(Clone, Debug, PartialEq)]
pub enum ShopIntent {
    /// A ply is taken out of the stack, counted from 0 at the top face.
    RemovePly(usize),
    /// A ply is ticked on the record of the deck being pressed, as graded or as metered for moisture, or unticked.
    Tick {
        /// Which, counted from 0 at the top face.
        ply: usize,
        /// Metered, or graded.
        metered: bool,
    },
    /// A deck goes into the press: a record of it begins.
    BeginRecord {
        /// The day, as YYYY-MM-DD.
        date: String,
    },
    /// A record is taken away.
    RemoveRecord(usize),
    /// A record goes onto the build sheet, or the last one does again.
    PrintRecord(usize),
    /// The mould of another design is taken.
    TakeCard(Box<Card>),
}

const MOULD_NAME: Named = ("mould-name", "Mould", "What the mould is called, on its card and on the sheet.");
const SPREAD_RATE: Named = (
    "spread-rate",
    "Spread by the data sheet",
    "The rate of the glue's data sheet, on what the next choice says.",
);

impl Editor {
    /// The workshop's numbers for the design in hand, compared with the version behind.
    #[must_use]
    pub fn workshop(&self) -> Workshop<'_> {
        let design = self.design();
        let mut workshop = Workshop::of(design.shape(), &self.measured, design.workshop());
        workshop.against = self.workshop_behind().and_then(|behind| behind.flex.ok());
        workshop
    }

    /// The same for the version behind, by what the workshop is told now.
    pub(super) fn workshop_behind(&self) -> Option<Workshop<'_>> {
        let behind = self.behind.as_ref()?;
        let version = self.history.design().versions().get(behind.index)?;
        Some(Workshop::of(&version.shape, &behind.measured, self.design().workshop()))
    }

    /// Every figure that the workshop works out.
    #[must_use]
    pub fn worked_out(&self) -> Vec<Readout> {
        let (workshop, behind) = (self.workshop(), self.workshop_behind());
        let readout = |figure: &'static Figure| {
            let then = behind.as_ref().and_then(|behind| (figure.read)(behind).value);
            self.readout(&figure.quantity, (figure.read)(&workshop), then)
        };
        FIGURES.iter().map(readout).collect()
    }

    /// What is typed into the workshop and chosen there, each with what is wrong or doubtful about it.
    pub(super) fn shop_fields(&self, fields: &mut Vec<Field>) {
        let (inputs, system) = (self.design().workshop(), self.settings.system);
        for input in INPUTS {
            let unit = input.quantity.unit;
            let text = (input.get)(inputs).map_or(String::new(), |value| entry(value, unit, system));
            let [least, most] = [input.least, input.most].map(|limit| show(limit, unit, system));
            let symbol = entry_symbol(&text, unit, system);
            let enabled = input.group != Group::Mould || !inputs.mould.locked;
            let field =
                self.field(named(input), text, symbol, say!("{least} to {most}", least, most), enabled);
            fields.push(Field { optional: input.optional, ..field });
        }
        let name = inputs.mould.name.clone();
        fields.push(self.field(MOULD_NAME, name, "", String::new(), !inputs.mould.locked));
        let rate = entry(self.rate(), Unit::MassPerArea, system);
        let symbol = entry_symbol(&rate, Unit::MassPerArea, system);
        fields.push(self.field(SPREAD_RATE, rate, symbol, String::new(), true));
        for choice in &CHOICES {
            let field = self.field(choice.named, (choice.get)(inputs).to_owned(), "", String::new(), true);
            fields.push(Field { options: choice.options, ..field });
        }
        let faults = self.workshop().faults();
        for field in fields.iter_mut() {
            let fault = faults.iter().find(|fault| fault.field() == field.key);
            field.remark = fault.map_or(String::new(), |fault| fault.message(system));
        }
    }

    /// What is refused of the stack as a whole, and what is wrong or doubtful about it.
    #[must_use]
    pub fn stack_words(&self) -> String {
        let faults = self.workshop().faults();
        let refused = self.typed.as_ref().and_then(|typed| typed.message_of(plies::STACK));
        let of_stack = faults.iter().filter(|fault| matches!(fault.field(), plies::STACK | "ply-thickness"));
        let doubts = of_stack.map(|fault| fault.message(self.settings.system));
        refused.map(str::to_owned).into_iter().chain(doubts).collect::<Vec<_>>().join(" ")
    }

    /// The glue's rate as its data sheet gives it, g/mm².
    fn rate(&self) -> f64 {
        self.design().shape().layup.spread / self.design().workshop().glue.basis.per_line(1.0)
    }

    /// The published ranges of clamping pressure, each with who gives it, and how the pressure here lies to them.
    #[must_use]
    pub fn pressure_words(&self) -> Vec<String> {
        let system = self.settings.system;
        let workshop = self.workshop();
        let mut words = Vec::new();
        if let Ok(force) = workshop.force {
            let pressure = force / workshop.pressed_area();
            let shown = show(pressure, Unit::Pressure, system);
            words.push(say!("{shown} here: {compared}.", shown, compared = press::beside_the_band(pressure)));
        }
        words.extend(press::PUBLISHED.iter().map(|range| range.words(system)));
        words
    }

    /// The order in which the bolts are tightened.
    #[must_use]
    pub fn tightening_words(&self) -> Vec<String> {
        let bolts = self.design().workshop().press.order();
        let words = |bolt: &press::Bolt| {
            let side = if bolt.left { "left" } else { "right" };
            say!("pair {pair} from the tail, {side}", pair = bolt.pair, side)
        };
        bolts.iter().map(words).collect()
    }

    /// Whether the mould card keeps its fields.
    #[must_use]
    pub fn mould_is_locked(&self) -> bool {
        self.design().workshop().mould.locked
    }

    pub(super) fn toggle_mould_lock(&mut self) {
        let locked = !self.mould_is_locked();
        let name = if locked { "locked the mould card" } else { "unlocked the mould card" };
        self.choose(name, |inputs| inputs.mould.locked = locked);
    }

    /// Tells the workshop what is no number; whether it was accepted.
    fn choose(&mut self, name: &str, change: impl FnOnce(&mut Inputs)) -> bool {
        let mut inputs = self.history.design().workshop().clone();
        change(&mut inputs);
        command::apply(self, name, &Edit::Choose(Box::new(inputs)))
    }
}

fn named(input: &'static Input) -> Named {
    (input.quantity.key, input.quantity.label, input.quantity.help)
}

pub(super) fn handle(editor: &mut Editor, intent: ShopIntent) {
    match intent {
        ShopIntent::RemovePly(ply) => plies::remove(editor, ply),
        ShopIntent::Tick { ply, metered } => records::tick(editor, ply, metered),
        ShopIntent::BeginRecord { date } => records::begin(editor, &date),
        ShopIntent::RemoveRecord(record) => records::remove(editor, record),
        ShopIntent::PrintRecord(record) => records::print(editor, record),
        ShopIntent::TakeCard(card) => {
            if command::apply(editor, "took a mould", &Edit::TakeCard(card)) {
                editor.say("This deck is for that mould now: look at its holes and bends.");
            }
        }
    }
}

pub(super) use plies::{add as add_ply, lay_up};

/// Whether the workshop has a field of that name.
pub(super) fn is_field(key: &str) -> bool {
    table::find(key).is_some()
        || [MOULD_NAME.0, SPREAD_RATE.0].contains(&key)
        || CHOICES.iter().any(|choice| choice.named.0 == key)
}

/// Takes what was typed or chosen in a field of the workshop.
pub(super) fn set(editor: &mut Editor, key: &str, text: &str) -> Result<(), String> {
    let system = editor.settings.system;
    if let Some(input) = table::find(key) {
        let quantity = &input.quantity;
        let value = if input.optional && text.trim().is_empty() {
            None
        } else {
            Some(parse(text, quantity.unit, system).map_err(|error| error.to_string())?)
        };
        let name = say!("set {what}", what = within(quantity.label));
        return editor.attempt(&name, &Edit::Tell { key: quantity.key, value });
    }
    if key == MOULD_NAME.0 {
        let text = text.to_owned();
        return editor.answered(|editor| editor.choose("named the mould", |inputs| inputs.mould.name = text));
    }
    let basis = editor.design().workshop().glue.basis;
    if key == SPREAD_RATE.0 {
        let rate = parse(text, Unit::MassPerArea, system).map_err(|error| error.to_string())?;
        return editor.attempt("set the spread", &Edit::Spread { rate, basis });
    }
    let choice =
        CHOICES.iter().find(|choice| choice.named.0 == key).ok_or(said("there is no such choice"))?;
    let word =
        choice.options.iter().find(|option| option.0 == text).ok_or(said("there is no such choice"))?.0;
    if let Some(basis) = choices::basis(word) {
        let rate = editor.rate();
        return editor.attempt("set what the spread means", &Edit::Spread { rate, basis });
    }
    let name = say!("set {what}", what = within(choice.named.1));
    editor.answered(|editor| editor.choose(&name, |inputs| (choice.set)(inputs, word)))
}

/// Takes what was typed or chosen of one ply or one record.
pub(super) fn enter(
    editor: &mut Editor,
    what: &str,
    index: usize,
    word: &str,
    text: &str,
) -> Result<(), String> {
    if what == "ply" {
        plies::enter(editor, index, word, text)
    } else {
        records::enter(editor, index, word, text)
    }
}

impl Editor {
    fn attempt(&mut self, name: &str, edit: &Edit) -> Result<(), String> {
        self.answered(|editor| command::apply(editor, name, edit))
    }

    fn answered(&mut self, make: impl FnOnce(&mut Self) -> bool) -> Result<(), String> {
        if make(self) { Ok(()) } else { Err(self.notice.text.clone()) }
    }
}
