//! Thermal noise of passive networks (Johnson 1928, Nyquist 1928).

use super::lanes::inverse;
use super::path::{Node, Path, cascade};
use num_complex::Complex64;
use std::ops::RangeInclusive;

/// Boltzmann's constant, J/K (exact, SI 2019).
pub const BOLTZMANN: f64 = 1.380_649e-23;
/// Room temperature where none is stated, K (20 °C).
pub const ROOM: f64 = 293.15;

/// Panels of the integration over a band; in ln f, where the densities of
/// audio networks are smooth.
const PANELS: usize = 600;

/// The thermal noise of a resistance, V²/Hz: 4·k·T·R.
pub fn johnson(r: f64, temperature: f64) -> f64 {
    4.0 * BOLTZMANN * temperature * r
}

/// Thermal noise across a load that makes none itself, by where it is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shares {
    /// Of the source and what stands before a node, V²/Hz.
    pub before: f64,
    /// Of what stands behind that node, V²/Hz.
    pub behind: f64,
    /// Everything at the load in parallel, the load too, Ω.
    pub node: Complex64,
}

impl Path {
    /// The thermal noise across the load at a frequency in Hz, V²/Hz:
    /// 4·k·T·Re Z with Z everything passive at that node in parallel.
    ///
    /// With `load_thermal` the load makes noise as a resistor does; without, it
    /// only loads, as the input of an amplifier whose own noise is stated
    /// otherwise. Right for chains of passive elements; behind a buffer only
    /// what follows the buffer is counted.
    pub fn thermal_density(&self, frequency: f64, temperature: f64, load_thermal: bool) -> f64 {
        let z = self.output_impedance(frequency);
        let y = inverse(z);
        let total = inverse(y + self.load.admittance(frequency));
        if load_thermal {
            johnson(total.re, temperature)
        } else {
            // Re Z of the source side alone, through the divider with the load.
            johnson(z.re, temperature) * (total * y).norm_sqr()
        }
    }

    /// The thermal noise across the load, which makes none, told apart by
    /// whether it is made before or behind a node.
    pub fn thermal_shares(&self, node: Node, frequency: f64, temperature: f64) -> Shares {
        let (before, behind) = self.split(node);
        let behind = cascade(behind, frequency);
        let front = cascade(before, frequency).output_impedance(self.source.impedance(frequency));
        let back = behind.output_impedance(front);
        let load = self.load.admittance(frequency);
        // Through the divider with the load, written so that zero stays zero.
        let divider = inverse(1.0 + back * load);
        let all = johnson(back.re, temperature) * divider.norm_sqr();
        let before = johnson(front.re, temperature) * behind.transfer(front, inverse(load)).norm_sqr();
        let behind = all - before;
        // A lossless part makes none, and what rounding leaves of it is none.
        let behind = if behind > 1e-12 * all { behind } else { 0.0 };
        Shares { before, behind, node: back * divider }
    }

    /// The thermal noise at a node, V²/Hz, with everything passive there in parallel; the load makes none.
    pub fn thermal_density_within(&self, node: Node, frequency: f64, temperature: f64) -> f64 {
        let (before, behind) = self.split(node);
        let front = cascade(before, frequency).output_impedance(self.source.impedance(frequency));
        let behind = cascade(behind, frequency);
        let load = self.load.admittance(frequency);
        let rest = inverse(behind.input_impedance(inverse(load)));
        // What the load has in Re Y: its conductance through the voltage transfer
        // from the node, which by reciprocity is the current transfer back.
        let to_load = behind.transfer(Complex64::default(), inverse(load));
        let g = (rest.re - load.re * to_load.norm_sqr()).max(0.0);
        let divider = inverse(1.0 + front * rest);
        johnson(front.re, temperature) * divider.norm_sqr() + johnson(g, temperature) * (front * divider).norm_sqr()
    }
}

/// The integral of a density over a band in Hz; see [`band_powers`].
pub fn band_power(density: impl Fn(f64) -> f64, band: &RangeInclusive<f64>) -> f64 {
    let [power] = band_powers(|f| [density(f)], band);
    power
}

/// The integrals of several densities over a band in Hz, by Simpson's rule in
/// ln f. Relative accuracy over three decades 1e-9 where the densities are
/// smooth, 1e-5 where a resonance has a Q of 10.
pub fn band_powers<const N: usize>(densities: impl Fn(f64) -> [f64; N], band: &RangeInclusive<f64>) -> [f64; N] {
    let (from, to) = (band.start().ln(), band.end().ln());
    let step = (to - from) / PANELS as f64;
    let mut sums = [0.0; N];
    for i in 0..=PANELS {
        let f = (from + step * i as f64).exp();
        let weight = match i {
            0 | PANELS => 1.0,
            _ if i % 2 == 1 => 4.0,
            _ => 2.0,
        };
        for (sum, density) in sums.iter_mut().zip(densities(f)) {
            *sum += weight * density * f;
        }
    }
    sums.map(|sum| sum * step / 3.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::network::{Element, OnePort};

    fn dbu(power: f64) -> f64 {
        10.0 * (power / 0.6).log10()
    }

    /// Johnson-Nyquist, computed independently: 150 Ω over exactly 20 000 Hz at
    /// 293.15 K, and 200 Ω at 300 K.
    #[test]
    fn resistors() {
        for (r, t, expected) in [(150.0, 293.15, -130.918), (200.0, 300.0, -129.568)] {
            let path = Path::new(OnePort::resistor(r), OnePort::OPEN);
            let power = band_power(|f| path.thermal_density(f, t, false), &(1e-3..=20_000.0));
            assert!((dbu(power) - expected).abs() < 1e-3, "{}", dbu(power));
        }
    }

    /// kT/C: the noise of a resistor on a capacitor over all frequencies does not
    /// depend on the resistor.
    #[test]
    fn resistor_on_a_capacitor() {
        let path = Path::new(OnePort::resistor(10e3), OnePort::capacitor(1e-9));
        let power = band_power(|f| path.thermal_density(f, 300.0, true), &(1e-3..=1e12));
        let expected = BOLTZMANN * 300.0 / 1e-9;
        assert!((power / expected - 1.0).abs() < 1e-6, "{power} {expected}");
    }

    /// A resonance of Q = 10 at f0: the noise of R in series with L on C, whose
    /// closed form over all frequencies is kT/C; in bounds so wide that they
    /// leave 1e-9 of it out.
    #[test]
    fn resonance() {
        let (l, c) = (2.5, 600e-12);
        let r = (2.5_f64 / 600e-12).sqrt() / 10.0;
        let path = Path::new(OnePort::series_rl(r, l), OnePort::capacitor(c));
        // Three decades about f0 hold all but the flat foot 4kTR below them and
        // the tail 4kTR·(f0/f)⁴ above.
        let f0 = 1.0 / (std::f64::consts::TAU * (l * c).sqrt());
        let (from, to) = (f0 / 10_f64.powf(1.5), f0 * 10_f64.powf(1.5));
        let power = band_power(|f| path.thermal_density(f, 300.0, false), &(from..=to));
        let foot = johnson(r, 300.0) * from;
        let tail = johnson(r, 300.0) * f0.powi(4) / (3.0 * to.powi(3));
        let ratio = (power + foot + tail) / (BOLTZMANN * 300.0 / c);
        assert!((ratio - 1.0).abs() < 1e-4, "{ratio}");
    }

    /// Three resistors, by hand: 1 kΩ source, 2 kΩ in series, 6 kΩ load without
    /// noise. At the load 4kT·3k·(6/9)², of which a third is the source's; at
    /// the node between, the source through 8/9 and the 2 kΩ through 1/9.
    #[test]
    fn shares_of_a_divider() {
        let path = Path::new(OnePort::resistor(1e3), OnePort::resistor(6e3))
            .with("part-lead", Element::Series(OnePort::resistor(2e3)));
        let shares = path.thermal_shares(Node::SOURCE, 1e3, 300.0);
        let close = |a: f64, b: f64| assert!((a / b - 1.0).abs() < 1e-12, "{a} {b}");
        close(shares.before, johnson(1e3, 300.0) * (6.0_f64 / 9.0).powi(2));
        close(shares.behind, johnson(2e3, 300.0) * (6.0_f64 / 9.0).powi(2));
        close(shares.node.re, 2e3);
        let within = johnson(1e3, 300.0) * (8.0_f64 / 9.0).powi(2) + johnson(2e3, 300.0) * (1.0_f64 / 9.0).powi(2);
        close(path.thermal_density_within(Node::SOURCE, 1e3, 300.0), within);
        close(path.thermal_density_within(path.end(), 1e3, 300.0), shares.before + shares.behind);
    }
}
