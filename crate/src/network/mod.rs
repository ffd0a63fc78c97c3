//! Circuit theory: chains of two-ports and what can be read off them.
//!
//! A [`Path`] runs from an e.m.f. behind a source impedance through a chain of
//! [`Element`]s into a load. It is solved from the load back to the source with
//! one voltage and one current per frequency (the ladder method), which costs
//! one complex product an element where the product of chain matrices costs
//! eight, and from the source on in the same way where something looks back;
//! [`TwoPort`] holds the matrices themselves, as the second opinion in the tests.
//!
//! Accuracy: 1e-12 relative on a transfer away from exact cancellation, 1e-7
//! relative on the frequency of a feature.
//!
//! A 10 kΩ source into 10 kΩ with 1 nF across loses 6 dB, and 3 dB more at
//! 1/(2π·5 kΩ·1 nF) = 31.83 kHz:
//!
//! ```
//! use stageohm::network::{Element, OnePort, Path, decibels_of_transfer};
//!
//! let path = Path::new(OnePort::resistor(10e3), OnePort::resistor(10e3))
//!     .with("lead", Element::Shunt(OnePort::capacitor(1e-9)));
//! assert!((decibels_of_transfer(path.transfer(100.0)) + 6.02).abs() < 0.01);
//! assert!((decibels_of_transfer(path.transfer(31.83e3)) + 9.03).abs() < 0.01);
//! ```

mod element;
mod feature;
mod ladder;
mod lanes;
mod line;
mod noise;
mod one_port;
mod path;
mod sweep;
mod two_port;
mod weighting;

pub use element::{Element, Section};
pub use feature::{Features, MIDBAND, Peak, Response, features, level_place, lost, slope};
pub use line::Line;
pub(crate) use line::MOST_LOSS;
pub use noise::{BLOCK, BOLTZMANN, ROOM, Shares, Within, band_power, band_powers, johnson};
pub use one_port::OnePort;
pub use path::{BeforeLoad, Node, Path};
pub use sweep::{AUDIO_BAND, log_sweep, log_sweep_with};
pub use two_port::TwoPort;
pub use weighting::{a_weighting, a_weighting_power};

use crate::quantity::level::decibels_of_power;
use num_complex::Complex64;

/// 20·log10 of the size of a transfer, dB. Zero gives −∞.
pub fn decibels_of_transfer(transfer: Complex64) -> f64 {
    decibels_of_power(transfer.norm_sqr())
}
