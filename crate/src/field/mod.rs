//! What calculators ask for: what a field is, and the fields that several of
//! them share.
//!
//! One noun a file: each gives its fields as constants, and the functions that
//! build its part from the values in them. A field that goes by the same
//! identifier asks the same in all calculators; where one differs in what is
//! usual, it is derived ([`Field::starting`], [`Field::usual`], [`Field::when`]
//! and so on). Values are taken out by the constant, so that a name that does
//! not exist does not build.

mod choice;
mod filling;
mod kind;
mod list;
mod values;

pub(crate) mod active_box;
pub(crate) mod connection;
pub(crate) mod console;
pub(crate) mod converter;
pub(crate) mod direct_box;
pub(crate) mod earth;
pub(crate) mod lead;
pub(crate) mod leg;
pub(crate) mod load;
pub(crate) mod mains;
pub(crate) mod microphone;
pub(crate) mod pad;
pub(crate) mod phantom;
pub(crate) mod pickup;
pub(crate) mod piezo;
pub(crate) mod question;
pub(crate) mod receiver;
pub(crate) mod run;
pub(crate) mod signal;
pub(crate) mod source;
pub(crate) mod thru;
pub(crate) mod transformer;

pub(crate) use choice::choice;
pub use choice::{Answers, ChoiceField};
pub(crate) use filling::{Filling, Put};
pub use kind::{Choice, ChoiceOption, Field, Kind, Number};
pub(crate) use list::{folded, joined, only_when};
pub use values::Values;
