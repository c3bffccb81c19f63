//! Events of the page as intents.

mod forms;
mod keys;
mod pointers;

/// Begins to listen to everything the page reports.
pub(crate) fn listen() {
    pointers::listen();
    keys::listen();
    forms::listen();
}
