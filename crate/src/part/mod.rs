//! Parts that a practitioner knows, which build chains.

mod balanced_line;
mod ground_loop;
mod lead;
mod mains;
mod pickup;
mod transformer;

pub use balanced_line::{Balance, BalancedLine, Leg, OwnError};
pub use ground_loop::{Cause, Connection, GroundLoop};
pub use lead::Lead;
pub use mains::{Component, Spectrum};
pub use pickup::{Coils, Pickup, Pot, Taper, Tone};
pub use transformer::Transformer;
