//! Shared helpers of the tests: designs from curves that are known, designs and edits at random, and dense polygons to
//! measure by counting instead of by formula.

pub mod dense;
pub mod draw;
pub mod random;
