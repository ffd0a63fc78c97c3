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

#[cfg(test)]
mod tests {
    use super::*;

    const F: f64 = 2e3;

    /// Solves a system of three linear equations by Cramer's rule.
    fn solved(m: [[Complex64; 3]; 3], right: [Complex64; 3]) -> [Complex64; 3] {
        let determinant = |m: [[Complex64; 3]; 3]| {
            let minor = |i: usize, j: usize| m[1][i] * m[2][j] - m[1][j] * m[2][i];
            m[0][0] * minor(1, 2) - m[0][1] * minor(0, 2) + m[0][2] * minor(0, 1)
        };
        let with = |column: usize| {
            let mut replaced = m;
            for (row, value) in replaced.iter_mut().zip(right) {
                row[column] = value;
            }
            replaced
        };
        [0, 1, 2].map(|column| determinant(with(column)) / determinant(m))
    }

    /// The middle of the source, the hot and the cold leg by the node equations
    /// (Kirchhoff), with so much between the earths and so much e.m.f. in the source.
    fn nodes(line: &BalancedLine, common: f64, emf: f64) -> [Complex64; 3] {
        // An earthed source hangs on its earth by next to nothing.
        let y_f = line.floating.as_ref().map_or(1e9.into(), |float| float.admittance(F));
        let [g_h, g_c] = [&line.hot, &line.cold].map(|leg| leg.source.impedance(F).inv());
        let [y_h, y_c] = [&line.hot, &line.cold].map(|leg| leg.input.admittance(F));
        let [e_h, e_c] = [&line.hot, &line.cold].map(|leg| leg.emf * emf);
        let zero = Complex64::ZERO;
        solved(
            [[y_f + g_h + g_c, -g_h, -g_c], [-g_h, g_h + y_h, zero], [-g_c, zero, g_c + y_c]],
            [y_f * common - g_h * e_h - g_c * e_c, g_h * e_h, g_c * e_c],
        )
    }

    /// Every drive, with legs, loads and imbalances of all kinds.
    #[test]
    fn as_the_node_equations_say() {
        let receiver = Receiver { r: 8e3, spread: 0.1, c: 2e-9, c_imbalance: 0.6e-9, own: None };
        let leg = |r: f64, c: f64| OnePort::Series(vec![OnePort::resistor(r), OnePort::capacitor(c)]);
        for drive in [
            Drive::Both,
            Drive::One,
            Drive::Floating(OnePort::capacitor(300e-12)),
            Drive::Floating(OnePort::parallel_rc(50e3, 1e-9)),
        ] {
            let line = BalancedLine::new(drive.clone(), [leg(900.0, 1e-6), leg(700.0, 2e-6)], &receiver, [1.0, -1.0]);
            let got = line.at(F);
            let near = |what: &str, got: Complex64, expected: Complex64| {
                assert!((got - expected).norm() < 1e-5 * expected.norm(), "{drive:?}, {what}: {got} is not {expected}");
            };
            let [middle, hot, cold] = nodes(&line, 1.0, 0.0);
            near("middle", got.middle, middle);
            near("bridge", got.bridge, hot - cold);
            // What comes back to the earth of the source through both legs.
            let current = hot * line.hot.input.admittance(F) + cold * line.cold.input.admittance(F);
            near("common mode", line.common_mode(F), current.inv());
            let [_, hot, cold] = nodes(&line, 0.0, 1.0);
            near("gain", got.gain, hot - cold);
            assert!((line.rejection(F) + 20.0 * got.bridge.norm().log10()).abs() < 1e-9);
        }
    }

    /// The leg on whose side an imbalance is has the larger admittance, by half of it more
    /// than the mean, and the other one by half of it less.
    #[test]
    fn sides_of_an_imbalance() {
        let receiver = Receiver { r: 10e3, spread: 0.02, c: 1e-9, c_imbalance: 0.2e-9, own: None };
        let omega = std::f64::consts::TAU * F;
        for (sides, resistances, capacitances) in [
            ([1.0, 1.0], [9.9e3, 10.1e3], [1.1e-9, 0.9e-9]),
            ([1.0, -1.0], [9.9e3, 10.1e3], [0.9e-9, 1.1e-9]),
            ([-1.0, 1.0], [10.1e3, 9.9e3], [1.1e-9, 0.9e-9]),
        ] {
            let line = BalancedLine::new(Drive::Both, [OnePort::SHORT, OnePort::SHORT], &receiver, sides);
            for (leg, r, c) in
                [(line.hot, resistances[0], capacitances[0]), (line.cold, resistances[1], capacitances[1])]
            {
                let expected = Complex64::new(1.0 / r, omega * c);
                assert!((leg.input.admittance(F) - expected).norm() < 1e-12 * expected.norm(), "{sides:?}");
            }
        }
    }

    /// A feed resistor across each leg, both differences on the same side: 10 kΩ
    /// beside 6.8 kΩ (conductances add; any circuit-theory text).
    #[test]
    fn feed_resistors() {
        let receiver = Receiver { r: 10e3, spread: 1e-4, c: 0.0, c_imbalance: 0.0, own: None };
        let fed = receiver.fed_through(6.8e3, 4e-5);
        let conductance = |side: f64| (1.0 + side * 0.5e-4) / 10e3 + (1.0 + side * 2e-5) / 6.8e3;
        let mean = (conductance(1.0) + conductance(-1.0)) / 2.0;
        assert!((fed.r * mean - 1.0).abs() < 1e-12);
        assert!((fed.spread * mean / (conductance(1.0) - conductance(-1.0)) - 1.0).abs() < 1e-9);
        let [more, less] = [1.0, -1.0].map(|side| fed.leg([side, 0.0]).admittance(50.0).re);
        assert!(((more - less) / (conductance(1.0) - conductance(-1.0)) - 1.0).abs() < 1e-4 && more > less);
    }
}
