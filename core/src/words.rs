//! Words: every quantity of the page with what it means, for whoever asks.

use crate::{
    quantities::{MEASURES, Quantity, SETTINGS},
    workshop::{FIGURES, INPUTS},
};

/// Every quantity that is set or read, in the order of the tables, with where its formula or default comes from; empty
/// where the help says all.
pub fn words() -> impl Iterator<Item = (&'static Quantity, &'static str)> {
    let drawn = MEASURES.iter().map(|measure| (&measure.quantity, ""));
    let set = SETTINGS.iter().map(|setting| (&setting.quantity, setting.source));
    let worked_out = FIGURES.iter().map(|figure| (&figure.quantity, figure.source));
    let put_in = INPUTS.iter().map(|input| (&input.quantity, input.source));
    drawn.chain(set).chain(worked_out).chain(put_in)
}

#[cfg(test)]
mod tests {
    use super::words;

    #[test]
    fn every_word_has_a_label_and_a_help_text_and_stands_once() {
        let all: Vec<_> = words().collect();
        for (i, (quantity, _)) in all.iter().enumerate() {
            assert!(!quantity.label.is_empty() && quantity.help.len() > 10, "{}", quantity.key);
            let again = all.iter().skip(i + 1).any(|(other, _)| other.key == quantity.key);
            assert!(!again, "{} stands twice", quantity.key);
        }
    }
}
