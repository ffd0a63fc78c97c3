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
