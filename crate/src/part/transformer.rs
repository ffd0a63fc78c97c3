//! A real transformer.

use crate::network::{Element, OnePort, Path};

/// The frequency at which the largest level of a transformer is stated, Hz.
pub(crate) const LARGEST_AT: f64 = 20.0;

/// A transformer with everything that bounds it. Leakage is referred to the
/// primary and stands, with the primary's resistance, in front of the
/// magnetising branch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Transformer {
    /// Turns ratio, primary to secondary.
    pub ratio: f64,
    /// Resistance of the primary winding, Ω.
    pub r1: f64,
    /// Resistance of the secondary winding, Ω.
    pub r2: f64,
    /// Leakage inductance, H, referred to the primary.
    pub leakage: f64,
    /// Magnetising inductance, H; none for an ideal core.
    pub magnetising: Option<f64>,
    /// Core-loss resistance parallel to it, Ω.
    pub core_loss: Option<f64>,
    /// Capacitance across the primary, F.
    pub c1: f64,
    /// Capacitance across the secondary, F.
    pub c2: f64,
}

impl Transformer {
    /// Nothing but its turns ratio.
    pub fn ideal(ratio: f64) -> Self {
        Self { ratio, r1: 0.0, r2: 0.0, leakage: 0.0, magnetising: None, core_loss: None, c1: 0.0, c2: 0.0 }
    }

    /// So much of what it has besides its turns ratio; nothing at 0, where it is ideal.
    #[must_use]
    pub fn grown(&self, share: f64) -> Self {
        if share == 0.0 {
            return Self::ideal(self.ratio);
        }
        Self {
            ratio: self.ratio,
            r1: self.r1 * share,
            r2: self.r2 * share,
            leakage: self.leakage * share,
            magnetising: self.magnetising.map(|l| l / share),
            core_loss: self.core_loss.map(|r| r / share),
            c1: self.c1 * share,
            c2: self.c2 * share,
        }
    }

    /// Adds the transformer to a path.
    #[must_use]
    pub fn added_to(&self, mut path: Path) -> Path {
        if self.c1 > 0.0 {
            path = path.with("part-primary-capacitance", Element::Shunt(OnePort::capacitor(self.c1)));
        }
        if self.r1 > 0.0 || self.leakage > 0.0 {
            path = path.with("part-primary", Element::Series(OnePort::series_rl(self.r1, self.leakage)));
        }
        if self.magnetising.is_some() || self.core_loss.is_some() {
            let core = OnePort::ParallelRlc {
                g: self.core_loss.map_or(0.0, |r| 1.0 / r),
                c: 0.0,
                reluctance: self.magnetising.map_or(0.0, |l| 1.0 / l),
            };
            path = path.with("part-core", Element::Shunt(core));
        }
        path = path.with("part-turns", Element::Transformer(self.ratio));
        if self.r2 > 0.0 {
            path = path.with("part-secondary", Element::Series(OnePort::resistor(self.r2)));
        }
        if self.c2 > 0.0 {
            path = path.with("part-secondary-capacitance", Element::Shunt(OnePort::capacitor(self.c2)));
        }
        path
    }

    /// The formula of what a load on the secondary is to the source, by the turns
    /// ratio `n`; the load is a formula too.
    pub(crate) fn reflected_load(load: &str) -> String {
        format!("n^2*{load}")
    }

    /// The formula of what a source on the primary is to the load.
    pub(crate) fn reflected_source(source: &str) -> String {
        format!("{source}/n^2")
    }

    /// The formula of the largest level on the primary at the frequency `f`, from
    /// `U_20`, the one at `f_20`. What saturates the core is its flux, U/(2π·f·N):
    /// with the frequency the level falls by 6 dB an octave.
    pub(crate) fn largest_level(f: &str) -> String {
        format!("U_20 + 20*log10({f}/f_20)")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Complex64;

    const EVERYTHING: Transformer = Transformer {
        ratio: 2.0,
        r1: 50.0,
        r2: 30.0,
        leakage: 60e-3,
        magnetising: Some(2.0),
        core_loss: Some(20e3),
        c1: 10e-9,
        c2: 20e-9,
    };

    /// Twice of what is in the way, and half of what is beside it: more of everything.
    /// Nothing of it is an ideal one.
    #[test]
    fn more_and_less_of_everything() {
        let twice = EVERYTHING.grown(2.0);
        assert_eq!((twice.ratio, twice.r1, twice.r2, twice.leakage), (2.0, 100.0, 60.0, 120e-3));
        assert_eq!((twice.magnetising, twice.core_loss, twice.c1, twice.c2), (Some(1.0), Some(10e3), 20e-9, 40e-9));
        assert_eq!(EVERYTHING.grown(1.0), EVERYTHING);
        assert_eq!(EVERYTHING.grown(0.0), Transformer::ideal(2.0));
    }

    /// Each part of it by itself and all together, between 100 Ω and 1 kΩ at 1 kHz:
    /// the load is n² times on the primary, and the rest are dividers by hand.
    #[test]
    fn each_part_is_a_divider() {
        let ideal = Transformer::ideal(2.0);
        let omega = std::f64::consts::TAU * 1e3;
        for (name, transformer) in [
            ("nothing", ideal),
            ("r1", Transformer { r1: 50.0, ..ideal }),
            ("leakage", Transformer { leakage: 60e-3, ..ideal }),
            ("magnetising", Transformer { magnetising: Some(0.2), ..ideal }),
            ("core loss", Transformer { core_loss: Some(2e3), ..ideal }),
            ("r2", Transformer { r2: 30.0, ..ideal }),
            ("c1", Transformer { c1: 100e-9, ..ideal }),
            ("c2", Transformer { c2: 200e-9, ..ideal }),
            ("all", EVERYTHING),
        ] {
            let path = transformer.added_to(Path::new(OnePort::resistor(100.0), OnePort::resistor(1e3)));
            let Transformer { ratio: n, r1, r2, leakage, magnetising, core_loss, c1, c2 } = transformer;
            // From the load back to the source.
            let secondary = 1.0 / Complex64::new(1e-3, omega * c2);
            let with_r2 = secondary + r2;
            let core =
                Complex64::new(core_loss.map_or(0.0, |r| 1.0 / r), magnetising.map_or(0.0, |l| -1.0 / (omega * l)));
            let primary = 1.0 / (1.0 / (with_r2 * n * n) + core);
            let with_r1 = primary + Complex64::new(r1, omega * leakage);
            let input = 1.0 / (1.0 / with_r1 + Complex64::new(0.0, omega * c1));
            let expected = input / (input + 100.0) * (primary / with_r1) / n * (secondary / with_r2);
            let got = path.transfer(1e3);
            assert!((got - expected).norm() < 1e-12 * expected.norm(), "{name}: {got} is not {expected}");
        }
        // A part that is not there is not named among those that are.
        let parts = |transformer: &Transformer| {
            transformer.added_to(Path::new(OnePort::resistor(100.0), OnePort::OPEN)).chain.len()
        };
        assert_eq!((parts(&ideal), parts(&EVERYTHING)), (1, 6));
    }
}
