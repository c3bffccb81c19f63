//! A photograph brought in: the desk on which its holes are clicked, and the worker that does the heavy part.
//!
//! The desk lies over the stage. Everything about the picture is computed in the worker, by the same core; what comes back
//! is words, places and an outline.

mod ask;
mod desk;
mod flow;
mod marks;
mod under;
pub mod work;

pub(crate) use self::{desk::listen, flow::follow};
