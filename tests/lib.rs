//! Shared helpers of the tests: designs from curves that are known, designs and edits at random, dense polygons to
//! measure by counting instead of by formula, and files that what is made must equal.

pub mod dense;
pub mod draw;
pub mod kept;
pub mod photos;
pub mod random;
