//! A lead or a line.

use crate::Complex64;
use crate::network::{BeforeLoad, Element, Line, Path};
use crate::quantity::level::decibels_of_power;
use std::f64::consts::TAU;

/// A lead or a line, by length and by what a metre of it has.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lead {
    /// Length, m.
    pub length: f64,
    /// Loop resistance, Ω/m.
    pub r: f64,
    /// Loop inductance, H/m.
    pub l: f64,
    /// Capacitance between the conductors that carry the signal, F/m.
    pub c: f64,
}

impl Lead {
    /// No lead.
    pub const NONE: Self = Self { length: 0.0, r: 0.0, l: 0.0, c: 0.0 };

    /// So much of its length.
    #[must_use]
    pub fn grown(self, share: f64) -> Self {
        Self { length: self.length * share, ..self }
    }

    /// The lead as an exact uniform line; leakage is below notice in dry leads.
    pub fn element(&self) -> Element {
        Element::Line(Line { length: self.length, r: self.r, l: self.l, g: 0.0, c: self.c })
    }

    /// Adds the lead to a path under this name; a lead of no length is none.
    #[must_use]
    pub fn added_to(&self, path: Path, name: &'static str) -> Path {
        if self.length > 0.0 { path.with(name, self.element()) } else { path }
    }

    /// What the lead takes behind `path` at a frequency in Hz, dB: the level without
    /// it less the level with it (its insertion loss); below zero it gains.
    pub fn loss(&self, path: &Path, frequency: f64) -> f64 {
        self.loss_behind(&path.before_load(frequency))
    }

    /// The same behind what is solved at a frequency already.
    pub fn loss_behind(&self, before: &BeforeLoad) -> f64 {
        decibels_of_power(before.power() / before.power_with(&self.element()))
    }

    /// The whole capacitance, F.
    pub fn capacitance(&self) -> f64 {
        self.length * self.c
    }

    /// The wavelength on the lead at a frequency in Hz, m: 2π over the imaginary
    /// part of γ = √((R+sL)·sC). Infinite for a lead without capacitance.
    pub fn wavelength(&self, frequency: f64) -> f64 {
        let omega = TAU * frequency;
        let gamma = (Complex64::new(self.r, omega * self.l) * Complex64::new(0.0, omega * self.c)).sqrt();
        TAU / gamma.im
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::network::OnePort;

    /// Of a line without resistance the wavelength is 1/(f·√(L′C′)), of one without
    /// inductance 2π/√(ω·R′C′/2) (any text on lines), whatever its length.
    #[test]
    fn wavelengths() {
        let lead = Lead { length: 7.0, r: 0.0, l: 0.5e-6, c: 100e-12 };
        for f in [50.0, 20e3, 1e6] {
            let lossless = 1.0 / (f * (0.5e-6_f64 * 100e-12).sqrt());
            assert!((lead.wavelength(f) / lossless - 1.0).abs() < 1e-12);
            let resistive = Lead { r: 0.16, l: 0.0, ..lead };
            let diffusive = TAU / (TAU * f * 0.16 * 100e-12 / 2.0).sqrt();
            assert!((resistive.wavelength(f) / diffusive - 1.0).abs() < 1e-12);
        }
        assert!(Lead { c: 0.0, ..lead }.wavelength(50.0).is_infinite());
        assert!((lead.capacitance() - 700e-12).abs() < 1e-21);
        assert!((lead.grown(0.5).capacitance() - 350e-12).abs() < 1e-21);
    }

    /// A lead that is all capacitance loses 20·log10 |1 + jωRC| behind a resistance, and
    /// one of no length nothing.
    #[test]
    fn what_a_capacitance_loses() {
        let path = Path::new(OnePort::resistor(10e3), OnePort::OPEN);
        let lead = Lead { length: 10.0, r: 0.0, l: 0.0, c: 100e-12 };
        let x = TAU * 5e3 * 10e3 * 1e-9;
        let expected = 10.0 * (1.0 + x * x).log10();
        assert!((lead.loss(&path, 5e3) - expected).abs() < 1e-9, "{}", lead.loss(&path, 5e3));
        assert_eq!(Lead::NONE.loss(&path, 5e3), 0.0);
    }
}
