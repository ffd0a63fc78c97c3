//! An active box.

use super::Input;
use crate::network::OnePort;

/// An active box: an input with its noise, gain, and a balanced output.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ActiveBox {
    /// Its input; the noise is that of the whole box, referred to it.
    pub input: Input,
    /// Voltage gain from the input to the open output.
    pub gain: f64,
    /// Output resistance of one leg, Ω.
    pub leg_r: f64,
}

impl ActiveBox {
    /// What the output puts in series: both legs.
    pub fn output(&self) -> OnePort {
        OnePort::resistor(2.0 * self.leg_r)
    }
}
