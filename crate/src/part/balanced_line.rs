//! A balanced line between a source and a receiver that stand on two earths.
//!
//! The two legs and the receiver's impedances to its earth are a bridge (B.
//! Whitlock, J. Audio Eng. Soc. 43(6), 1995): what is out of balance turns the
//! voltage between the two earths into a difference between the legs,
//! V_cm·[Z_I+/(Z_I+ + Z_S+) − Z_I−/(Z_I− + Z_S−)]. An impedance across the legs
//! divides signal and error alike and is left out of both.

use crate::Complex64;
use crate::network::{OnePort, decibel};

/// One leg of a balanced line.
#[derive(Clone, Debug, PartialEq)]
pub struct Leg {
    /// Impedance of the source in this leg.
    pub source: OnePort,
    /// Impedance from this leg to the earth of the receiver.
    pub input: OnePort,
    /// The leg's share of the source's e.m.f.: +½ and −½ where both are driven.
    pub emf: f64,
}

/// What a receiver makes by itself of a voltage that both of its legs share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OwnError {
    /// Error at 1 kHz re the shared voltage.
    pub at_1_khz: f64,
    /// Whether it rises with frequency, as capacitances make it.
    pub rising: bool,
}

/// A balanced line from a source on one earth to a receiver on another.
#[derive(Clone, Debug, PartialEq)]
pub struct BalancedLine {
    /// The leg that is in phase.
    pub hot: Leg,
    /// The leg of the return.
    pub cold: Leg,
    /// Impedance from the middle of a floating source to its earth; none where
    /// the source is earthed.
    pub floating: Option<OnePort>,
    /// The receiver's own error.
    pub own: Option<OwnError>,
}

/// The line at one frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Balance {
    /// Source impedance of the hot and the cold leg, Ω.
    pub z: [Complex64; 2],
    /// Admittance from the hot and the cold leg to the receiver's earth, S.
    pub y: [Complex64; 2],
    /// Share of V_cm that stands in the middle of the source.
    pub middle: Complex64,
    /// Difference between the legs that the bridge makes of V_cm, re V_cm.
    pub bridge: Complex64,
    /// Size of the whole error re V_cm, the receiver's own added in phase.
    pub error: f64,
    /// Difference between the legs that the source's e.m.f. makes, re that
    /// e.m.f. with both legs driven.
    pub gain: Complex64,
}

impl BalancedLine {
    /// The line at a frequency in Hz.
    pub fn at(&self, frequency: f64) -> Balance {
        let z = [&self.hot, &self.cold].map(|leg| leg.source.impedance(frequency));
        let y = [&self.hot, &self.cold].map(|leg| leg.input.admittance(frequency));
        let [hot, cold] = [z[0] * y[0] + 1.0, z[1] * y[1] + 1.0];
        // From the middle of the source through each leg to the receiver's earth.
        let (y_hot, y_cold) = (y[0] / hot, y[1] / cold);
        let (middle, signal_middle) = match &self.floating {
            None => (Complex64::ONE, Complex64::ZERO),
            Some(float) => {
                let y_f = float.admittance(frequency);
                let whole = y_f + y_hot + y_cold;
                (y_f / whole, -(y_hot * self.hot.emf + y_cold * self.cold.emf) / whole)
            }
        };
        // H+ − H− over one denominator, where equal legs cancel exactly.
        let unequal = (z[1] * y[1] - z[0] * y[0]) / (hot * cold);
        let bridge = middle * unequal;
        let shared = middle * (hot.inv() + cold.inv()) * 0.5;
        let own = self.own.map_or(0.0, |own| {
            let slope = if own.rising { frequency / 1000.0 } else { 1.0 };
            own.at_1_khz * slope * shared.norm()
        });
        let gain = hot.inv() * self.hot.emf - cold.inv() * self.cold.emf + signal_middle * unequal;
        Balance { z, y, middle, bridge, error: bridge.norm() + own, gain }
    }

    /// Rejection of the voltage between the earths at a frequency in Hz, dB;
    /// infinite where nothing is out of balance.
    pub fn rejection(&self, frequency: f64) -> f64 {
        -decibel(self.at(frequency).error.into())
    }
}
