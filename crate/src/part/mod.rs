//! Parts that a practitioner knows, which build chains.

mod active_box;
mod balanced_line;
mod earth_star;
mod ground_loop;
mod input;
mod lead;
mod mains;
mod pad;
mod pickup;
mod rig;
mod transformer;

pub use active_box::ActiveBox;
pub use balanced_line::{Balance, BalancedLine, Drive, Leg, OwnError, Receiver};
pub use earth_star::{EarthStar, StarCurrents};
pub use ground_loop::{Cause, Connection, GroundLoop};
pub use input::{Input, InputNoise};
pub use lead::Lead;
pub use mains::{Component, Spectrum};
pub use pad::{Pad, Place};
pub use pickup::{Coils, Pickup, Pot, Taper, Tone};
pub use rig::{Arms, Between, Chain, Rig, Tap, Thru};
pub use transformer::Transformer;
