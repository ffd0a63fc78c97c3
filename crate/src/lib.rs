//! What happens to a signal between an instrument and a console.
//!
//! The library is read from the bottom up, and data walks one way through it:
//! text in a field → [`quantity`] → [`field::Values`] → [`part`] →
//! [`network`] → [`report::Sheet`] → [`report::Solution`] → [`words`] →
//! [`report::Report`]. Solving is pure: words come afterwards.
//!
//! All numbers inside are in SI units (V rms, A, Ω, H, F, m, Hz, K); prefixes,
//! feet and decimal commas exist only in [`quantity`]. Every fallible function
//! returns an error as a value: nothing in this library panics on any input.
//!
//! # Conventions
//! * Phasors turn as exp(+jωt); s = jω = j·2π·f.
//! * Chain matrix `[V1; I1] = [A B; C D]·[V2; I2]` with I2 leaving port 2
//!   (IEC 60050-131).
//! * 0 dB of a transfer is the open-circuit e.m.f. of the source.

pub mod answer;
pub mod ask;
pub mod calculator;
pub mod catalogue;
pub mod diagnosis;
pub mod expression;
mod fault;
pub mod field;
pub mod file;
#[cfg(feature = "hear")]
pub mod hear;
pub mod lesson;
pub mod listen;
pub mod look_up;
pub mod named;
pub mod network;
pub mod numeric;
pub mod part;
pub mod quantity;
pub mod report;
pub mod seek;
pub mod settings;
pub mod stage;
pub mod words;
pub mod working;

pub use fault::Fault;
pub use num_complex::Complex64;
