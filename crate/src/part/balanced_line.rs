//! A balanced line between a source and a receiver that stand on two earths.
//!
//! The two legs and the receiver's impedances to its earth are a bridge (B.
//! Whitlock, J. Audio Eng. Soc. 43(6), 1995): what is out of balance turns the
//! voltage between the two earths into a difference between the legs,
//! V_cm·[Z_I+/(Z_I+ + Z_S+) − Z_I−/(Z_I− + Z_S−)]. An impedance across the legs
//! divides signal and error alike and is left out of both.

use crate::Complex64;
use crate::network::{MIDBAND, OnePort, decibels_of_transfer};

/// One leg of a balanced line.
#[derive(Clone, Debug, PartialEq)]
pub struct Leg {
    /// Impedance of the source in this leg.
    pub source: OnePort,
    /// Impedance from this leg to the earth of the receiver.
    pub input: OnePort,
    /// The leg's share of the source's e.m.f.: +½ and −½ where both are driven,
    /// +1 where the source is unbalanced.
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

/// How the legs of a balanced line are driven.
#[derive(Clone, Debug, PartialEq)]
pub enum Drive {
    /// Both, half and half, from a source that stands on its earth.
    Both,
    /// The hot one; the cold one has its impedance but no signal.
    One,
    /// The hot one of two halves; the cold one is on the source's earth.
    Grounded,
    /// The hot one, from an unbalanced output whose return is the cold one.
    Unbalanced,
    /// A floating source whose cold end is put on its earth.
    FloatingGrounded,
    /// Both, from a source that floats with this from its middle to its earth.
    Floating(OnePort),
}

/// What a receiver shows each leg, and how unequal it may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Receiver {
    /// Resistance from a leg to earth, Ω.
    pub r: f64,
    /// Difference between the two re their mean.
    pub spread: f64,
    /// Capacitance from a leg to earth, F.
    pub c: f64,
    /// Difference between the two, F.
    pub c_imbalance: f64,
    /// Its own error.
    pub own: Option<OwnError>,
}

impl Receiver {
    /// The same with a feed resistor of so many ohms across each leg, of which two
    /// are `spread` of their mean apart: the worst case, in which both differences
    /// are on the same side.
    #[must_use]
    pub fn fed_through(self, feed_r: f64, spread: f64) -> Self {
        let (own, feed) = (1.0 / self.r, 1.0 / feed_r);
        let g = own + feed;
        Self { r: 1.0 / g, spread: (own * self.spread + feed * spread) / g, ..self }
    }

    /// From a leg to earth; `sides` are +1 for the leg that is loaded more by the
    /// resistance and by the capacitance.
    fn leg(&self, [of_r, of_c]: [f64; 2]) -> OnePort {
        OnePort::parallel_rc(self.r * (1.0 - of_r * self.spread / 2.0), self.c + of_c * self.c_imbalance / 2.0)
    }
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
    /// Difference between the legs that the source's e.m.f. makes, re the whole
    /// e.m.f. that it has with all of its legs driven.
    pub gain: Complex64,
}

impl BalancedLine {
    /// A line of the source impedances of its hot and cold leg. The receiver's
    /// resistance and its capacitance load the hot leg more where their side is +1,
    /// and the cold one where it is −1.
    pub fn new(drive: Drive, legs: [OnePort; 2], receiver: &Receiver, sides: [f64; 2]) -> Self {
        let (legs, emf, floating) = match drive {
            Drive::Both => (legs, [0.5, -0.5], None),
            Drive::One => (legs, [0.5, 0.0], None),
            Drive::Grounded | Drive::Unbalanced => {
                let whole = if drive == Drive::Unbalanced { 1.0 } else { 0.5 };
                let [hot, _] = legs;
                ([hot, OnePort::SHORT], [whole, 0.0], None)
            }
            // The grounded leg of a floating source is a way for the signal still:
            // its impedance stands in the other leg.
            Drive::FloatingGrounded => ([OnePort::Series(legs.to_vec()), OnePort::SHORT], [1.0, 0.0], None),
            Drive::Floating(float) => (legs, [0.5, -0.5], Some(float)),
        };
        let [hot, cold] = legs;
        let [hot_emf, cold_emf] = emf;
        Self {
            hot: Leg { source: hot, input: receiver.leg(sides), emf: hot_emf },
            cold: Leg { source: cold, input: receiver.leg(sides.map(|side| -side)), emf: cold_emf },
            floating,
            own: receiver.own,
        }
    }

    /// What both legs together are between the source's earth and the receiver's
    /// at a frequency in Hz, Ω.
    pub fn common_mode(&self, frequency: f64) -> Complex64 {
        let through = |leg: &Leg| {
            let y = leg.input.admittance(frequency);
            y / (leg.source.impedance(frequency) * y + 1.0)
        };
        let legs = (through(&self.hot) + through(&self.cold)).inv();
        self.floating.as_ref().map_or(legs, |float| legs + float.impedance(frequency))
    }

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
            let slope = if own.rising { frequency / MIDBAND } else { 1.0 };
            own.at_1_khz * slope * shared.norm()
        });
        let gain = hot.inv() * self.hot.emf - cold.inv() * self.cold.emf + signal_middle * unequal;
        Balance { z, y, middle, bridge, error: bridge.norm() + own, gain }
    }

    /// Rejection of the voltage between the earths at a frequency in Hz, dB;
    /// infinite where nothing is out of balance.
    pub fn rejection(&self, frequency: f64) -> f64 {
        -decibels_of_transfer(self.at(frequency).error.into())
    }
}
