//! A lead or a line.

use crate::Complex64;
use crate::network::{Element, Line, Path, Response as _};
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
        path.level(frequency) - self.added_to(path.clone(), "part-lead").level(frequency)
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
