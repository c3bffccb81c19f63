//! Events of the page as intents.

mod bring;
mod card;
mod figures;
mod forms;
mod keys;
mod pointers;

pub(crate) use self::{figures::open_figure, pointers::finger};

/// Begins to listen to everything the page reports.
pub(crate) fn listen() {
    pointers::listen();
    keys::listen();
    forms::listen();
    figures::listen();
    card::listen();
    bring::listen();
}
