//! Parts that a practitioner knows, which build chains.

mod lead;
mod pad;
mod pickup;
mod transformer;

pub use lead::Lead;
pub use pad::{Pad, Place};
pub use pickup::{Coils, Pickup, Pot, Taper, Tone};
pub use transformer::Transformer;
