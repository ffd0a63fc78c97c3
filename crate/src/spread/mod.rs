//! Many draws of one thing: seeded random numbers, and what share of the draws
//! lies where.

mod draws;
mod samples;

pub use draws::Draws;
pub use samples::{Extremes, Samples};
