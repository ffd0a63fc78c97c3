//! A loop of two earths and a shield, and what its current does to a signal.
//!
//! The inductance limits the current, but a core inside its shield sees the
//! same flux: what adds in series with the signal is the current times the
//! resistance of the shield and its contacts only (H. W. Ott, Noise Reduction
//! Techniques in Electronic Systems, 2nd ed. 1988).

use crate::Complex64;
use std::f64::consts::TAU;

/// What drives a current around the loop; sizes at the mains frequency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cause {
    /// A potential difference between the two earths, V, behind the resistance
    /// of the earth path, Ω.
    Difference {
        /// With the shield open, V.
        volts: f64,
        /// Of the earth path, Ω.
        earth_r: f64,
    },
    /// A field through the loop, with the resistance of the earth path.
    Field {
        /// Flux density, T.
        density: f64,
        /// Area, m².
        area: f64,
        /// Of the earth path, Ω.
        earth_r: f64,
    },
    /// Leakage of a supply through its interference capacitors.
    Leakage {
        /// Into a short to earth, A.
        amperes: f64,
        /// The capacitance that it comes through, F.
        capacitance: f64,
        /// Resistance of another way to earth, Ω, if there is one.
        other_r: Option<f64>,
    },
}

/// How the signal gets from one piece of equipment to the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Connection {
    /// The shield is the return of the signal.
    Unbalanced,
    /// Two legs and a shield.
    Balanced {
        /// Error re the common-mode voltage.
        error: f64,
        /// Resistance that shield current shares with the signal's ground
        /// inside equipment with a pin-1 fault, Ω.
        pin_1_r: f64,
    },
    /// A transformer, with no metallic way across.
    Isolated {
        /// From winding to winding, F.
        capacitance: f64,
        /// Of the signal circuit behind the transformer, Ω.
        circuit_r: f64,
    },
}

/// A loop of two earths and a shield.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GroundLoop {
    /// What drives it.
    pub cause: Cause,
    /// Inductance of the whole loop, H.
    pub inductance: f64,
    /// Resistance of the shield and its contacts, Ω.
    pub shield_r: f64,
}

impl GroundLoop {
    /// The e.m.f. in the loop, V, and the impedance of all of it but the
    /// shield's resistance, Ω, at a frequency in Hz; for a cause whose size there
    /// is that at the mains frequency.
    pub(super) fn source(&self, frequency: f64) -> (Complex64, Complex64) {
        let omega = TAU * frequency;
        let coil = Complex64::new(0.0, omega * self.inductance);
        match self.cause {
            Cause::Difference { volts, earth_r } => (volts.into(), coil + earth_r),
            Cause::Field { density, area, earth_r } => ((omega * density * area).into(), coil + earth_r),
            Cause::Leakage { amperes, capacitance, other_r } => {
                let z = Complex64::new(other_r.map_or(0.0, |r| 1.0 / r), omega * capacitance).inv();
                (z * amperes, coil + z)
            }
        }
    }

    /// The current around the loop at a frequency in Hz, A.
    pub fn current(&self, connection: &Connection, frequency: f64) -> f64 {
        let (emf, z) = self.source(frequency);
        (emf / (z + connection.across(self.shield_r, frequency))).norm()
    }

    /// The voltage in series with the signal at a frequency in Hz, V.
    pub fn hum(&self, connection: &Connection, frequency: f64) -> f64 {
        self.current(connection, frequency) * connection.volts_per_ampere(self.shield_r)
    }
}

impl Connection {
    /// What closes a loop over it at a frequency in Hz, Ω, with the resistance
    /// of its shield and contacts.
    pub fn across(&self, shield_r: f64, frequency: f64) -> Complex64 {
        match self {
            Self::Unbalanced => shield_r.into(),
            Self::Balanced { pin_1_r, .. } => (shield_r + pin_1_r).into(),
            Self::Isolated { capacitance, circuit_r } => {
                Complex64::new(*circuit_r, -1.0 / (TAU * frequency * capacitance))
            }
        }
    }

    /// The voltage in series with the signal for each ampere around the loop, Ω.
    pub fn volts_per_ampere(&self, shield_r: f64) -> f64 {
        match self {
            Self::Unbalanced => shield_r,
            // The legs lie inside the shield, so that only its resistive drop is
            // common to them; what a pin-1 fault adds is taken as in phase.
            Self::Balanced { error, pin_1_r } => (shield_r + pin_1_r) * error + pin_1_r,
            // As if the whole capacitance ended on the live side: the worst case.
            Self::Isolated { circuit_r, .. } => *circuit_r,
        }
    }
}
