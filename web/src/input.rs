//! Events of the page as intents.

mod card;
mod figures;
mod forms;
mod keys;
mod pointers;
mod pressed;

pub(crate) use self::{figures::open_figure, forms::show_sheet, pointers::finger};

/// Begins to listen to everything the page reports.
pub(crate) fn listen() {
    pointers::listen();
    keys::listen();
    forms::listen();
    figures::listen();
    card::listen();
    pressed::listen();
}
