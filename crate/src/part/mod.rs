//! Parts that a practitioner knows, which build chains.

mod active_box;
mod input;
mod lead;
mod pad;
mod pickup;
mod transformer;

pub use active_box::ActiveBox;
pub use input::{Input, InputNoise};
pub use lead::Lead;
pub use pad::{Pad, Place};
pub use pickup::{Coils, Pickup, Pot, Taper, Tone};
pub use transformer::Transformer;
