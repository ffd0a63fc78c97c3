//! What calculators ask for.

mod kind;

pub use kind::{Answer, Choice, Field, Kind, Number};
pub(crate) use kind::{folded, joined, only_when, option, unit_option};
