//! Bringing in a deck that exists: what was measured, photographed or drawn becomes a half outline on the datum.

pub mod photo;
