//! Equipment on earths of its own whose shields meet at one place, from where
//! one way leads on to the console's earth.

use super::GroundLoop;
use crate::Complex64;

/// A source and an amplifier, each on an earth of its own or on none, whose
/// shields meet at the box, or where the source's lead ends if there is none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EarthStar {
    /// The source's earth and the shield of its lead; none where it floats.
    pub source: Option<GroundLoop>,
    /// The amplifier's earth and the shield of its lead; none without one.
    pub amplifier: Option<GroundLoop>,
    /// Whether both stand on the same earth: then their voltages are one and the same.
    pub same_earth: bool,
    /// Of the part of the earths' paths that both share, in front of the console's, Ω.
    pub shared_r: f64,
}

/// Sizes of currents, A.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StarCurrents {
    /// In the shield of the source's lead.
    pub source: f64,
    /// On to the console's earth.
    pub onward: f64,
    /// In the shield of the amplifier's lead.
    pub amplifier: f64,
}

impl EarthStar {
    /// Whether anything drives a current.
    pub fn is_driven(&self) -> bool {
        self.source.is_some() || self.amplifier.is_some()
    }

    /// The currents at a frequency in Hz, with `onward` from the meeting place
    /// on to the console's earth, Ω. The phase between two causes is not known
    /// unless they stand on the same earth: their sizes are added, the worst case.
    pub fn currents(&self, onward: Complex64, frequency: f64) -> StarCurrents {
        let onward = onward + self.shared_r;
        let arm = |arm: &Option<GroundLoop>| {
            arm.map(|arm| {
                let (emf, z) = arm.source(frequency);
                (emf, z + arm.shield_r)
            })
        };
        let (source, amplifier) = (arm(&self.source), arm(&self.amplifier));
        let driven = |own: Option<(Complex64, Complex64)>, other: Option<(Complex64, Complex64)>| {
            own.map_or((Complex64::ZERO, Complex64::ONE), |(emf, z)| divided(emf, z, other.map(|(_, z)| z), onward))
        };
        let (by_source, by_amplifier) = (driven(source, amplifier), driven(amplifier, source));
        // What one arm drives and does not go onward comes back through the other.
        let back = |(current, share): (Complex64, Complex64)| -current * (1.0 - share);
        let on = |(current, share): (Complex64, Complex64)| current * share;
        let both = |a: Complex64, b: Complex64| if self.same_earth { (a + b).norm() } else { a.norm() + b.norm() };
        StarCurrents {
            source: both(by_source.0, back(by_amplifier)),
            onward: both(on(by_source), on(by_amplifier)),
            amplifier: both(by_amplifier.0, back(by_source)),
        }
    }
}

/// The current of an e.m.f. behind `z`, and the share of it that goes onward
/// where another arm takes the rest.
fn divided(emf: Complex64, z: Complex64, other: Option<Complex64>, onward: Complex64) -> (Complex64, Complex64) {
    match other {
        None => (emf / (z + onward), Complex64::ONE),
        Some(other) => {
            let share = other / (other + onward);
            (emf / (z + onward * share), share)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::part::{Cause, Connection};

    fn arm(volts: f64, earth_r: f64, shield_r: f64) -> GroundLoop {
        GroundLoop { cause: Cause::Difference { volts, earth_r }, inductance: 0.0, shield_r }
    }

    /// With one arm it is the plain loop.
    #[test]
    fn one_arm_is_a_loop() {
        let star = EarthStar { source: Some(arm(0.1, 0.5, 0.12)), amplifier: None, same_earth: false, shared_r: 0.0 };
        let currents = star.currents(0.62.into(), 50.0);
        let ground_loop = GroundLoop { shield_r: 0.12 + 0.62, ..arm(0.1, 0.5, 0.0) };
        assert!((currents.source - ground_loop.current(&Connection::Unbalanced, 50.0)).abs() < 1e-15);
        assert!((currents.onward - 0.1 / 1.24).abs() < 1e-15);
    }

    /// Three resistances in a star, by hand (Millman): 1 V behind 1 Ω, 2 V
    /// behind 2 Ω, 3 Ω onward. Of the first alone the meeting place has 6/11 V,
    /// of the second 6/11 V too.
    #[test]
    fn two_arms() {
        let star = EarthStar {
            source: Some(arm(1.0, 0.5, 0.5)),
            amplifier: Some(arm(2.0, 1.5, 0.5)),
            same_earth: false,
            shared_r: 0.0,
        };
        let currents = star.currents(3.0.into(), 50.0);
        assert!((currents.source - (5.0 / 11.0 + 6.0 / 11.0)).abs() < 1e-12, "{currents:?}");
        assert!((currents.onward - (2.0 / 11.0 + 2.0 / 11.0)).abs() < 1e-12, "{currents:?}");
        assert!((currents.amplifier - (8.0 / 11.0 + 3.0 / 11.0)).abs() < 1e-12, "{currents:?}");
        // What both share is in the way onward.
        assert_eq!(EarthStar { shared_r: 1.0, ..star }.currents(2.0.into(), 50.0), currents);
        // Both at once, where they stand on the same earth: 12/11 V at the meeting place,
        // and some of what the second drives comes back through the first.
        let together = EarthStar { same_earth: true, ..star }.currents(3.0.into(), 50.0);
        assert!((together.source - 1.0 / 11.0).abs() < 1e-12, "{together:?}");
        assert!((together.onward - 4.0 / 11.0).abs() < 1e-12, "{together:?}");
        assert!((together.amplifier - 5.0 / 11.0).abs() < 1e-12, "{together:?}");
    }

    /// On the same earth, with arms alike, nothing flows between the two, and half of
    /// the current goes through each: 0.1 V behind (0.5 + 0.12)/2 + 0.62 Ω.
    #[test]
    fn the_same_earth() {
        let alike = Some(arm(0.1, 0.5, 0.12));
        let star = EarthStar { source: alike, amplifier: alike, same_earth: true, shared_r: 0.0 };
        let currents = star.currents(0.62.into(), 50.0);
        let onward = 0.1 / (0.31 + 0.62);
        assert!((currents.onward - onward).abs() < 1e-12);
        assert!((currents.source - onward / 2.0).abs() < 1e-12);
        assert!((currents.amplifier - onward / 2.0).abs() < 1e-12);
        let lifted = star.currents(1e9.into(), 50.0);
        assert!(lifted.source < 1e-9 && lifted.amplifier < 1e-9);
    }
}
