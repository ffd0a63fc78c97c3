//! What calculators ask for: what a field is, and the fields that several of
//! them share.
//!
//! One noun a file: each gives its fields as constants, and the functions that
//! build its part from the values in them. A field that goes by the same
//! identifier asks the same in all calculators; where one differs in what is
//! usual, it is derived ([`Field::starting`], [`Field::usual`], [`Field::when`]
//! and so on). Values are taken out by the constant, so that a name that does
//! not exist does not build.
//!
//! The crest factor at which the levels begin is that of a sine, 20·log10 √2 dB:
//!
//! ```
//! use stageohm::calculator::Calculator;
//! use stageohm::field::Kind;
//!
//! let crest = Calculator::find("levels").unwrap().field("crest").unwrap();
//! let Kind::Number(number) = crest.kind else { panic!() };
//! assert!((number.default.unwrap() - 20.0 * 2_f64.sqrt().log10()).abs() < 1e-9);
//! ```

mod choice;
mod filling;
mod kind;
mod list;
mod requirement;
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
pub(crate) mod loudspeaker;
pub(crate) mod mains;
pub(crate) mod microphone;
pub(crate) mod pad;
pub(crate) mod phantom;
pub(crate) mod pickup;
pub(crate) mod piezo;
pub(crate) mod preamp;
pub(crate) mod question;
pub(crate) mod receiver;
pub(crate) mod run;
pub(crate) mod signal;
pub(crate) mod source;
pub(crate) mod split;
pub(crate) mod stray;
pub(crate) mod thru;
pub(crate) mod transformer;

pub(crate) use choice::choice;
pub use choice::{Answers, ChoiceField};
pub(crate) use filling::{Changed, Filling, Put};
pub use kind::{Choice, ChoiceOption, Field, Kind, Number};
pub(crate) use list::{folded, joined, only_when, same};
pub use requirement::{Answered, Bound, Change, Requirement, Step};
pub use values::Values;
