//! What the browser keeps: every design with its whole history in IndexedDB, how things are shown in localStorage.
//!
//! A commit writes one step and the design's record, in one transaction; `body[data-saved]` shows the revision that is
//! safely there. localStorage is no place for designs: a killed browser loses what was written there for up to a
//! minute. A web lock for each design lets one window at a time write it: another opens it as a copy.

mod database;
mod keeper;
mod lock;
pub(crate) mod photos;
mod settings;

pub(crate) use self::{
    keeper::{Keeper, Resumed},
    settings::{export, keep_settings, settings},
};
