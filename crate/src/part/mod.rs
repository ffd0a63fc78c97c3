//! Parts that a practitioner knows, which build chains.
//!
//! The capacitance of 6 m of lead of 100 pF/m, and where 10 kΩ in front of it
//! lose 3 dB:
//!
//! ```
//! use stageohm::network::{MIDBAND, OnePort, Path, features};
//! use stageohm::part::Lead;
//!
//! let lead = Lead { length: 6.0, r: 0.1, l: 0.6e-6, c: 100e-12 };
//! assert!((lead.capacitance() - 600e-12).abs() < 1e-18);
//! let path = lead.added_to(Path::new(OnePort::resistor(10e3), OnePort::OPEN), "lead");
//! let corner = features(&path).high_corner.unwrap();
//! assert!((corner / 26.5e3 - 1.0).abs() < 0.01);
//! ```

mod active_box;
mod balanced_line;
mod earth_star;
mod ground_loop;
mod input;
mod lead;
mod mains;
mod pad;
mod phantom;
mod pickup;
mod rig;
mod stray;
mod transformer;
mod worst_line;

pub use active_box::ActiveBox;
pub use balanced_line::{Balance, BalancedLine, Drive, Leg, OwnError, Receiver};
pub use earth_star::{EarthStar, SecondEarth, StarArm, StarCurrents};
pub use ground_loop::{Cause, Connection, GroundLoop};
pub(crate) use input::EquivalentNoise;
pub use input::{Input, InputNoise};
pub use lead::Lead;
pub use mains::{Component, Spectrum};
pub(crate) use pad::LPad;
pub use pad::{Arms, Pad, Place};
pub(crate) use phantom::{Feeding, PhantomFeed};
pub use pickup::{Coils, Pickup, Pot, Taper, ToneControl};
pub use rig::{Behind, Between, Chain, ChainNoise, NoiseByCause, NoiseByPoint, Rig, RigPart, Tap, Thru};
pub use stray::Stray;
pub(crate) use transformer::LARGEST_AT;
pub use transformer::Transformer;
pub use worst_line::WorstLine;
