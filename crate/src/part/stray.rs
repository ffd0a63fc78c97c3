//! What the mains around an unbalanced lead puts into it, without any loop of earths.

use crate::Complex64;
use crate::network::{Node, Path};
use std::f64::consts::TAU;

/// The surroundings of an unbalanced lead, and how well its shield keeps them out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stray {
    /// Flux density of the mains' field, T rms.
    pub density: f64,
    /// Area between core and shield that the field finds open, a metre of lead, m:
    /// the core never lies quite in the middle.
    pub width: f64,
    /// Capacitance of a metre of the core, through the gaps of its shield, to what is
    /// on the mains, F/m.
    pub capacitance: f64,
    /// Voltage of that, V rms.
    pub volts: f64,
}

impl Stray {
    /// In series with the core of a lead of this length, V: 2π·f·B·A.
    pub fn emf(&self, length: f64, frequency: f64) -> f64 {
        TAU * frequency * self.density * self.width * length
    }

    /// Into the core of a lead of this length, A: 2π·f·C·V.
    pub fn current(&self, length: f64, frequency: f64) -> f64 {
        TAU * frequency * self.capacitance * length * self.volts
    }

    /// What both make of themselves across the load of a path, V, the lead being
    /// the one that ends at `node`. They are taken as in phase, the worst case.
    pub fn across_load(&self, path: &Path, node: Node, length: f64, frequency: f64) -> f64 {
        let z: Complex64 = path.looking_back(node, frequency);
        let emf = self.emf(length, frequency) + self.current(length, frequency) * z.norm();
        emf * path.transfer_behind(node, frequency).norm()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::network::OnePort;

    /// 1 µT through 1 cm² a metre, 10 m, 50 Hz: 2π·50·1e-6·1e-4·10 = 0.314 µV. 1 fF/m
    /// to 230 V, 10 m: 0.7226 nA, into 10 kΩ beside 10 kΩ 3.613 µV. By hand, from
    /// the law of induction and i = C·dv/dt.
    #[test]
    fn by_hand() {
        let stray = Stray { density: 1e-6, width: 1e-4, capacitance: 1e-15, volts: 230.0 };
        assert!((stray.emf(10.0, 50.0) - 0.314_159_265e-6).abs() < 1e-14);
        assert!((stray.current(10.0, 50.0) - 0.722_566_310e-9).abs() < 1e-17);
        let path = Path::new(OnePort::resistor(10e3), OnePort::resistor(10e3));
        let across = stray.across_load(&path, path.end(), 10.0, 50.0);
        assert!((across - (0.314_159_265e-6 + 7.225_663_1e-6) / 2.0).abs() < 1e-13, "{across}");
    }
}
