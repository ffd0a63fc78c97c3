//! Files that people keep and hand on: each part is read by itself, and what is wrong
//! with one takes no other with it.

mod fields;
mod flaw;
mod raw;

pub(crate) use fields::{cut, fields, version};
pub use flaw::Flaw;
pub use raw::{Raw, Reason};
