//! A run of decks: what to buy, how long it takes, what it costs.

use super::{
    blank::{Cutting, Sheet, Size},
    fault::Fault,
    inputs::Inputs,
    order,
};
use crate::layup::{Grain, Layup};

/// The needs of a run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Needs {
    /// Veneers with grain along the board.
    pub along: f64,
    /// Veneers with grain across it.
    pub across: f64,
    /// What they are cut from.
    pub sheets: Cutting,
    /// The same of the cross plies.
    pub cross_sheets: Cutting,
    /// Glue to buy, g.
    pub glue: f64,
    /// Fillings of the press, all moulds at once.
    pub presses: f64,
    /// Days, one filling after the other.
    pub days: f64,
    /// What it costs in the maker's money; `None` where no price is given.
    pub cost: Option<f64>,
}

const MINUTES_PER_DAY: f64 = 24.0 * 60.0;

impl Needs {
    /// The needs of as many decks as the inputs say.
    ///
    /// # Errors
    ///
    /// [`Fault::SheetTooSmall`].
    pub fn of(layup: &Layup, inputs: &Inputs) -> Result<Self, Fault> {
        let (run, stock) = (&inputs.run, &inputs.stock);
        let blank = Size { length: layup.blank_length, width: layup.blank_width };
        let sheet = |length, width| Sheet { size: Size { length, width }, kerf: stock.kerf };
        let veneers = |grain| order::count(layup, grain) as f64 * run.decks;
        let (along, across) = (veneers(Grain::Along), veneers(Grain::Across));
        let sheets = sheet(stock.sheet_length, stock.sheet_width).cut(blank, along, "sheet-length")?;
        let cross_sheets =
            sheet(stock.cross_length, stock.cross_width).cut(blank, across, "cross-sheet-length")?;
        let glue = layup.glue_mass() * run.decks;
        let presses = (run.decks / run.moulds).ceil();
        let prices = [
            (run.sheet_price, sheets.sheets),
            (run.cross_price, cross_sheets.sheets),
            (run.glue_price, glue / 1000.0),
            (run.other_price, run.decks),
        ];
        let cost = prices.into_iter().fold(None, |sum, (price, count)| {
            price.map_or(sum, |price| Some(sum.unwrap_or(0.0) + price * count))
        });
        Ok(Self {
            along,
            across,
            sheets,
            cross_sheets,
            glue,
            presses,
            days: presses * inputs.glue.press_time / MINUTES_PER_DAY,
            cost,
        })
    }
}
