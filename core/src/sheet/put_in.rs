//! What the figures of the bench are worked out from where no row of the sheet says it: with it they can be followed by
//! hand.

use super::{Desk, shape::RIDE, sources::Sources};
use crate::{
    language::said,
    say,
    workshop::{inputs::table::INPUTS, press::PUBLISHED, species::Species},
};

/// Settings that the bench needs and no row of it shows.
const SETTINGS: [&str; 2] = ["spread", "glue-loss"];

/// Where the figures of the first page come from.
const PAGE_1: &str = "Dimensions are measured on the exact curves of the developed sheet; length and width in plan, rises, strike and lean follow from them by elementary geometry. The page says beside each figure how it is worked out.";

/// Every value the maker put in that has no row, then the woods of the plies, then the published pressures.
pub(super) fn put_in(desk: &Desk<'_>, sources: &mut Sources) -> [String; 4] {
    let keys = INPUTS.iter().map(|input| input.quantity.key);
    // A torque stands on the sheet where it is below the limits of bolts and mould, and nowhere else.
    let elsewhere = |key: &&str| RIDE.contains(key) || *key == "bolt-torque" || sources.told(key);
    let keys: Vec<&str> = SETTINGS.into_iter().chain(keys).filter(|key| !elsewhere(key)).collect();
    let values = keys.iter().filter_map(|key| desk.quantity(sources, key));
    let values: Vec<String> = values.map(|(label, figure, _)| [&label, " ", &figure].concat()).collect();
    let values = say!("Also put in by the maker: {values}.", values = values.join("; "));

    let mut woods: Vec<&Species> = Vec::new();
    for ply in &desk.workshop.shape.layup.plies {
        if woods.iter().all(|known| known.key != ply.species.key) {
            woods.push(ply.species);
        }
    }
    let system = desk.input.system;
    let woods: Vec<String> = woods.into_iter().map(|wood| wood.words(system)).collect();
    let pressures: Vec<String> = PUBLISHED.iter().map(|range| range.words(system)).collect();
    let pressures = say!("Published pressures for flat joints: {ranges}.", ranges = pressures.join("; "));
    [said(PAGE_1).to_owned(), values, say!("Woods: {woods}", woods = woods.join(" ")), pressures]
}
