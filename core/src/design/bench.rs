//! What a design holds for the workshop: the numbers its maker gives, the mould's card, and what came out of the press.

use super::{Design, Refusal, Shape};
use crate::{
    text, units,
    workshop::{INPUTS, Inputs, card::Card, record::Record},
};
use std::sync::Arc;

impl Design {
    /// What the maker tells the workshop.
    #[must_use]
    pub fn workshop(&self) -> &Inputs {
        &self.workshop
    }

    /// The decks pressed so far, the first one first.
    #[must_use]
    pub fn records(&self) -> &[Record] {
        &self.records
    }

    /// The design with other numbers for the workshop, rounded to what a design stores.
    ///
    /// # Errors
    ///
    /// [`Refusal::OutOfRange`], [`Refusal::TextTooLong`].
    pub fn with_workshop(&self, mut inputs: Inputs) -> Result<Self, Refusal> {
        inputs.mould.name = text::line("mould-name", &inputs.mould.name, Self::LONGEST_NAME)?;
        for input in INPUTS {
            let Some(value) = (input.get)(&inputs) else { continue };
            input.quantity.check(value, input.least, input.most)?;
            (input.set)(&mut inputs, Some(units::whole(value, input.quantity.unit)));
        }
        Ok(Self { workshop: Arc::new(inputs), ..self.clone() })
    }

    /// The design with other records.
    ///
    /// # Errors
    ///
    /// [`Refusal::TooMany`], and as [`Record::checked`].
    pub fn with_records(&self, records: Vec<Record>) -> Result<Self, Refusal> {
        let found = records.len();
        if found > Record::MOST {
            return Err(Refusal::TooMany { what: "records", found, most: Record::MOST });
        }
        let records = records.into_iter().map(Record::checked).collect::<Result<_, _>>()?;
        Ok(Self { records, ..self.clone() })
    }

    /// The design for another mould.
    ///
    /// # Errors
    ///
    /// The [`Refusal`] of the shape that would be.
    pub fn with_card(&self, card: &Card) -> Result<Self, Refusal> {
        let (mut shape, mut inputs) = (Shape::clone(&self.shape), Inputs::clone(&self.workshop));
        card.put(&mut shape, &mut inputs);
        self.with_shape(shape)?.with_workshop(inputs)
    }

    /// The design itself, where it keeps to the locked card of the one it came from.
    ///
    /// # Errors
    ///
    /// [`Refusal::Impossible`].
    pub(crate) fn on_the_card_of(self, before: &Self) -> Result<Self, Refusal> {
        let card = Card::of(before);
        if card.is_locked() && !card.agrees(&Card::of(&self)) {
            return Err(Refusal::Impossible(
                "the mould card is locked and keeps its mould, kicks, concave and drill guides: unlock it to change them",
            ));
        }
        Ok(self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{demo, edit::Edit};

    fn locked() -> Design {
        let deck = demo::turnstone();
        let mut inputs = deck.workshop().clone();
        inputs.mould.locked = true;
        deck.apply(&Edit::Choose(Box::new(inputs))).unwrap()
    }

    #[test]
    fn a_locked_card_keeps_its_fields_and_nothing_else() {
        let deck = locked();
        for key in ["wheelbase", "pattern-length", "nose-bend-radius", "tail-kick-angle", "concave-depth"] {
            let value = (crate::quantities::setting(key).get)(deck.shape()) * 1.01;
            let refusal = deck.apply(&Edit::Set { key, value }).unwrap_err();
            assert!(refusal.to_string().starts_with("the mould card is locked"), "{key}");
        }
        assert!(deck.apply(&Edit::Tell { key: "mould-length", value: Some(900.0) }).is_err());
        assert!(deck.apply(&Edit::Dimension { key: "wheelbase", value: 370.0 }).is_err());
        assert!(deck.apply(&Edit::TakeCard(Box::new(Card::of(&demo::dunlin())))).is_err());
        for edit in [
            Edit::Set { key: "hole-diameter", value: 5.5 },
            Edit::Set { key: "blank-length", value: 850.0 },
            Edit::Dimension { key: "overall-width", value: 215.0 },
            Edit::Tell { key: "decks", value: Some(3.0) },
            Edit::Rename("Knot".to_owned()),
        ] {
            assert!(deck.apply(&edit).is_ok(), "{edit:?}");
        }
        let mut inputs = deck.workshop().clone();
        inputs.mould.locked = false;
        assert!(deck.apply(&Edit::Choose(Box::new(inputs))).is_ok());
    }

    #[test]
    fn one_mould_serves_many_outlines() {
        let (turnstone, dunlin) = (demo::turnstone(), demo::dunlin());
        let taken = dunlin.apply(&Edit::TakeCard(Box::new(Card::of(&turnstone)))).unwrap();
        assert_eq!(Card::of(&taken), Card::of(&turnstone));
        assert_eq!(taken.shape().outline, dunlin.shape().outline);
        assert_eq!(taken.shape().layup, dunlin.shape().layup);
    }

    #[test]
    fn numbers_for_the_workshop_have_limits_and_are_stored_whole() {
        let deck = demo::turnstone();
        let tell = |key, value| deck.apply(&Edit::Tell { key, value });
        assert_eq!(tell("open-time", Some(1e6)).unwrap_err().field(), "open-time");
        assert_eq!(tell("open-time", Some(f64::NAN)).unwrap_err().field(), "open-time");
        let told = tell("open-time", Some(4.000_000_4)).unwrap();
        assert_eq!(told.workshop().glue.open, 4.0);
        assert_eq!(tell("mould-pressure", Some(0.3)).unwrap().workshop().mould.pressure, Some(0.3));
        // A number that must stand is not emptied.
        assert_eq!(tell("open-time", None).unwrap().workshop().glue.open, deck.workshop().glue.open);
    }
}
