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
    /// A second console that a lead ties to the console, at the far end of the way onward;
    /// none without one.
    pub second: Option<SecondEarth>,
}

/// An earth that is tied to the console's equipment, behind the run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SecondEarth {
    /// It, and the shield of its lead.
    pub arm: GroundLoop,
    /// Of the parts of the earths' paths that it shares with source and amplifier, in front
    /// of the console's, Ω.
    pub shared_r: [f64; 2],
    /// What stands on the same earth: then their voltages are one and the same.
    pub same_as: Option<StarArm>,
}

impl SecondEarth {
    /// What its own loop does: an e.m.f. for each ohm that it shares, A, and its admittance, S.
    fn seen(&self, frequency: f64) -> (Complex64, Complex64) {
        let [source, amplifier] = self.shared_r;
        let (emf, z) = self.arm.source(frequency);
        let y = (z + self.arm.shield_r + source.max(amplifier)).inv();
        (emf * y, y)
    }
}

/// An arm of a star.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StarArm {
    /// The source's.
    Source,
    /// The amplifier's.
    Amplifier,
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
        let second = self.second.filter(|second| second.shared_r != [0.0; 2]);
        let (behind, y) = second.map_or((Complex64::ZERO, Complex64::ZERO), |second| second.seen(frequency));
        let shared = second.map_or([0.0; 2], |second| second.shared_r);
        // The loop of the second console is eliminated: what is left are the two arms, with
        // other impedances and with what it drives in them.
        let onward = onward + self.shared_r - y * shared[0] * shared[1];
        let arm = |arm: &Option<GroundLoop>, [own, other]: [f64; 2]| {
            arm.map(|arm| {
                let (emf, z) = arm.source(frequency);
                let more = (own - self.shared_r).max(0.0) - y * own * (own - other);
                (emf, z + arm.shield_r + more)
            })
        };
        let (source, amplifier) = (arm(&self.source, shared), arm(&self.amplifier, [shared[1], shared[0]]));
        let driven = |own: Option<(Complex64, Complex64)>, other: Option<(Complex64, Complex64)>| {
            own.map_or((Complex64::ZERO, Complex64::ONE), |(emf, z)| divided(emf, z, other.map(|(_, z)| z), onward))
        };
        let (by_source, by_amplifier) = (driven(source, amplifier), driven(amplifier, source));
        // What one arm drives and does not go onward comes back through the other.
        let back = |(current, share): (Complex64, Complex64)| -current * (1.0 - share);
        let on = |(current, share): (Complex64, Complex64)| current * share;
        let instead = |own: Option<(Complex64, Complex64)>, shared: f64| own.map(|(_, z)| (-behind * shared, z));
        let second_in_source = driven(instead(source, shared[0]), amplifier);
        let second_in_amplifier = driven(instead(amplifier, shared[1]), source);
        StarCurrents {
            source: self.size(by_source.0, back(by_amplifier), second_in_source.0 + back(second_in_amplifier)),
            onward: self.size(on(by_source), on(by_amplifier), on(second_in_source) + on(second_in_amplifier)),
            amplifier: self.size(back(by_source), by_amplifier.0, back(second_in_source) + second_in_amplifier.0),
        }
    }

    /// What the second console's earth drives through the shield of its own lead at a
    /// frequency in Hz, A: that loop closes whatever the arms do.
    pub fn in_second(&self, frequency: f64) -> f64 {
        self.second.map_or(0.0, |second| second.seen(frequency).0.norm())
    }

    /// What source, amplifier and second console drive through one place, all together.
    fn size(&self, source: Complex64, amplifier: Complex64, second: Complex64) -> f64 {
        let mut parts = [source, amplifier];
        let apart = match self.second.and_then(|second| second.same_as) {
            Some(StarArm::Source) => {
                parts[0] += second;
                0.0
            }
            Some(StarArm::Amplifier) => {
                parts[1] += second;
                0.0
            }
            None => second.norm(),
        };
        let [source, amplifier] = parts;
        apart + if self.same_earth { (source + amplifier).norm() } else { source.norm() + amplifier.norm() }
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
        let star = EarthStar {
            source: Some(arm(0.1, 0.5, 0.12)),
            amplifier: None,
            same_earth: false,
            shared_r: 0.0,
            second: None,
        };
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
            second: None,
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
        let star = EarthStar { source: alike, amplifier: alike, same_earth: true, shared_r: 0.0, second: None };
        let currents = star.currents(0.62.into(), 50.0);
        let onward = 0.1 / (0.31 + 0.62);
        assert!((currents.onward - onward).abs() < 1e-12);
        assert!((currents.source - onward / 2.0).abs() < 1e-12);
        assert!((currents.amplifier - onward / 2.0).abs() < 1e-12);
        let lifted = star.currents(1e9.into(), 50.0);
        assert!(lifted.source < 1e-9 && lifted.amplifier < 1e-9);
    }

    /// A source of 3 V behind 2 Ω, and this second console behind its run.
    fn with_second(second: SecondEarth) -> EarthStar {
        EarthStar {
            source: Some(arm(3.0, 1.0, 1.0)),
            amplifier: None,
            same_earth: false,
            shared_r: 0.0,
            second: Some(second),
        }
    }

    /// A second console behind the run, by hand: 6 V behind 2 Ω across 1 Ω that is shared
    /// are 2 V behind 2/3 Ω. Through 4/3 Ω of run and a source of 1 Ω behind 2 Ω they drive
    /// 2/4 A, and the source's own 3 V drive 3/4 A.
    #[test]
    fn a_second_console() {
        let second = SecondEarth { arm: arm(6.0, 1.5, 0.5), shared_r: [1.0; 2], same_as: None };
        let star = with_second(second);
        let currents = star.currents((4.0 / 3.0).into(), 50.0);
        assert!((currents.source - 1.25).abs() < 1e-12 && (currents.onward - 1.25).abs() < 1e-12, "{currents:?}");
        // On the source's earth one takes from the other.
        let same = Some(SecondEarth { same_as: Some(StarArm::Source), ..second });
        let together = EarthStar { second: same, ..star }.currents((4.0 / 3.0).into(), 50.0);
        assert!((together.onward - 0.25).abs() < 1e-12, "{together:?}");
        // Two arms alike of 4 Ω are as one of 2 Ω, and half goes through each.
        let four = Some(arm(0.0, 3.0, 1.0));
        let both =
            EarthStar { source: four, amplifier: four, shared_r: 1.0, ..star }.currents((4.0 / 3.0).into(), 50.0);
        assert!((both.onward - 0.5).abs() < 1e-12 && (both.amplifier - 0.25).abs() < 1e-12, "{both:?}");
        // Loop by loop, where the second shares 2 Ω with the source and each 1 Ω with the
        // amplifier, and the run has 3 Ω: 6 S + 4 A + 2 B, 4 S + 5 A + 1 B and 2 S + 1 A + 4 B
        // are 3, 0 and 0 V (S = 57/46, A = -42/46), then 0, 0 and 6 V (S = -36/46, A = 12/46).
        let source = Some(arm(3.0, 0.5, 0.5));
        let amplifier = Some(arm(0.0, 0.5, 0.5));
        let uneven = Some(SecondEarth { arm: arm(6.0, 1.0, 1.0), shared_r: [2.0, 1.0], same_as: None });
        let star = EarthStar { source, amplifier, second: uneven, same_earth: false, shared_r: 1.0 };
        let currents = star.currents(3.0.into(), 50.0);
        for (got, of_46) in [(currents.source, 93.0), (currents.onward, 39.0), (currents.amplifier, 54.0)] {
            assert!((got - of_46 / 46.0).abs() < 1e-12, "{currents:?}");
        }
    }

    /// What shares nothing adds nothing, and without an arm nothing flows.
    #[test]
    fn a_second_console_that_is_apart() {
        let second = SecondEarth { arm: arm(6.0, 1.5, 0.5), shared_r: [1.0; 2], same_as: None };
        let star = with_second(second);
        let apart = EarthStar { second: Some(SecondEarth { shared_r: [0.0; 2], ..second }), ..star };
        assert_eq!(apart.currents(2.0.into(), 50.0), EarthStar { second: None, ..star }.currents(2.0.into(), 50.0));
        assert_eq!(EarthStar { source: None, ..star }.currents(2.0.into(), 50.0).onward, 0.0);
    }
}
