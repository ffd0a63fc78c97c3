//! An electronic input with noise of its own.

use crate::network::{OnePort, johnson};
use num_complex::Complex64;

/// An electronic input: what it loads with, and the noise it adds.
///
/// Model: R parallel C, a noise current across them, and a noise voltage behind
/// them in series with the signal, not correlated (C. D. Motchenbacher and
/// J. A. Connelly, Low-Noise Electronic System Design; P. Horowitz and W. Hill,
/// The Art of Electronics).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Input {
    /// Resistance, Ω.
    pub r: f64,
    /// Capacitance, F.
    pub c: f64,
    /// Noise voltage density, V/√Hz.
    pub e_n: f64,
    /// Noise current density, A/√Hz.
    pub i_n: f64,
    /// Whether its resistance makes thermal noise too. It does not where it is
    /// made by feedback, or where `e_n` and `i_n` hold it already.
    pub thermal: bool,
}

/// What an input adds at its own terminals, by cause, V²/Hz.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InputNoise {
    /// Of its noise voltage.
    pub voltage: f64,
    /// Of its noise current, which flows through all that is at the node.
    pub current: f64,
    /// Of its resistance.
    pub resistance: f64,
}

impl Input {
    /// What it loads with.
    pub fn load(&self) -> OnePort {
        OnePort::parallel_rc(self.r, self.c)
    }

    /// What it adds with `node`, everything at its terminals in parallel and
    /// itself too, Ω, at a temperature in K.
    pub fn noise(&self, node: Complex64, temperature: f64) -> InputNoise {
        let z = node.norm_sqr();
        InputNoise {
            voltage: self.e_n.powi(2),
            current: self.i_n.powi(2) * z,
            resistance: if self.thermal { johnson(1.0 / self.r, temperature) * z } else { 0.0 },
        }
    }
}

impl InputNoise {
    /// All causes together, V²/Hz.
    pub fn sum(&self) -> f64 {
        self.voltage + self.current + self.resistance
    }
}
