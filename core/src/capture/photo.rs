//! A deck brought in from a photograph.
//!
//! The bolt holes have known places, so their places in the picture give the plane-to-plane projection and, with the
//! pressed shape, the camera: where every place of the developed sheet shows in the picture. Through that map the picture
//! is laid true to scale under the outline, and the deck's edge is looked for in it.
//!
//! What a photograph cannot show stays unknown: it is taken that pixels are square, that the picture is not cropped
//! unevenly, and that the lens bends straight lines no more than the holes themselves tell.

mod body;
mod camera;
mod centre;
mod edge;
mod error;
mod given;
mod holes;
mod homography;
mod picture;
mod trace;
mod words;

pub use self::{
    body::Body,
    camera::{Camera, Seen, Sight},
    centre::hole_centre,
    edge::{Edge, Rays},
    error::PhotoError,
    given::{Given, Set},
    holes::{Clicked, sort_holes},
    homography::{Homography, HomographyError},
    picture::{Picture, Sheet},
    trace::{Traced, trace},
};
