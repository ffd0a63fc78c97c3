//! An electronic input with noise of its own.

use crate::network::{AUDIO_BAND, OnePort, ROOM, johnson};
use crate::quantity::level::dbu_of_square;

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

    /// The same with so much of its load.
    #[must_use]
    pub fn grown(self, share: f64) -> Self {
        Self { r: self.r / share, c: self.c * share, ..self }
    }

    /// What it adds with `node`, |Z|² of everything at its terminals in parallel and
    /// itself too, Ω², at a temperature in K.
    pub fn noise(&self, node: f64, temperature: f64) -> InputNoise {
        InputNoise {
            voltage: self.e_n * self.e_n,
            current: self.i_n * self.i_n * node,
            resistance: if self.thermal { johnson(1.0 / self.r, temperature) * node } else { 0.0 },
        }
    }
}

impl InputNoise {
    /// All causes together, V²/Hz.
    pub fn sum(&self) -> f64 {
        self.voltage + self.current + self.resistance
    }
}

/// An equivalent input noise (EIN) as a noise voltage density, and back: formulas.
///
/// An EIN is taken as measured: unweighted from 20 Hz to 20 kHz at 20 °C, with
/// the stated resistance across the input, and with the input's own resistance
/// in it, which then must not be counted again. It is the e.m.f. that would make
/// the noise (equivalent noise source e.m.f., IEC 60268-3, from memory): the noise
/// voltage `e_K` stands behind the divider of the stated resistance `R_EIN` and
/// the input's `R_K`.
pub(crate) struct EquivalentNoise;

impl EquivalentNoise {
    /// That divider, `D_K`.
    pub(crate) const DIVIDER: &str = "R_K/(R_K + R_EIN)";
    /// The e.m.f. of the level `a_EIN`, `U_EIN`.
    pub(crate) const VOLTS: &str = "U_0*10^(a_EIN/20)";
    /// The noise voltage density.
    pub(crate) const DENSITY: &str = "D_K*sqrt(U_EIN^2/B - 4*k_B*T_0*R_EIN - (i_K*R_EIN)^2)";
    /// The level of a noise voltage density, dBu.
    pub(crate) const LEVEL: &str = "10*log10((4*k_B*T_0*R_EIN + (e_K/D_K)^2 + (i_K*R_EIN)^2)*B/U_0^2)";

    /// The band in which it is measured, Hz.
    pub(crate) fn bandwidth() -> f64 {
        AUDIO_BAND.end() - AUDIO_BAND.start()
    }

    /// The least that there can be, dBu: what a resistance in Ω and a noise current
    /// in A/√Hz through it make alone.
    pub(crate) fn least(r: f64, i_n: f64) -> f64 {
        dbu_of_square((johnson(r, ROOM) + (i_n * r).powi(2)) * Self::bandwidth())
    }
}
