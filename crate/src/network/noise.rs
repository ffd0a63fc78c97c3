//! Thermal noise of passive networks (Johnson 1928, Nyquist 1928).

use super::ladder::Port;
use super::lanes::{Lanes, Omegas, inverse};
use super::path::{Node, Path};
use std::ops::RangeInclusive;

/// Boltzmann's constant, J/K (exact, SI 2019).
pub const BOLTZMANN: f64 = 1.380_649e-23;
/// Room temperature where none is stated, K (20 °C).
pub const ROOM: f64 = 293.15;

/// The fewest panels of the trapezium rule over a band, the most, and by how much an
/// integral may change where they are halved no more.
const FEWEST: usize = 32;
const MOST: usize = 512;
const AGREE: f64 = 1e-5;

/// The thermal noise of a resistance, V²/Hz: 4·k·T·R.
pub fn johnson(r: f64, temperature: f64) -> f64 {
    4.0 * BOLTZMANN * temperature * r
}

/// Thermal noise across a load that makes none itself, by where it is made.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Shares {
    /// Of the source and what stands before a node, V²/Hz.
    pub before: f64,
    /// Of what stands behind that node, V²/Hz.
    pub behind: f64,
    /// |Z|² of everything at the load in parallel, the load too, Ω².
    pub node: f64,
    /// |H|² from the e.m.f. to the load.
    pub power: f64,
}

/// Thermal noise at a node within a path, the load making none.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Within {
    /// With everything passive there in parallel, V²/Hz.
    pub density: f64,
    /// |H|² from the e.m.f. to the node.
    pub power: f64,
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
    /// whether it is made before or behind a node, at frequencies in Hz.
    pub fn thermal_shares<const N: usize>(&self, node: Node, frequencies: &[f64; N], temperature: f64) -> [Shares; N] {
        let at = Omegas::new(frequencies);
        let (before, behind) = self.split(node);
        let front = Port::at_source(&self.source, &at).on(before, &at);
        let end = front.on(behind, &at);
        let (front_z, open) = (front.impedance(), end.i.inverse());
        let back = end.v.times(&open);
        // Through the divider with the load, written so that zero stays zero.
        let divider = divider(&back, &self.load.admittance_lanes(&at));
        let (all, node) = (divider.norm_sqr(), back.times(&divider).norm_sqr());
        let through = open.times(&divider);
        let (of_front, power) = (front.i.times(&through).norm_sqr(), through.norm_sqr());
        let mut shares = [Shares::default(); N];
        for k in 0..N {
            let all = johnson(back.re[k], temperature) * all[k];
            let before = johnson(front_z.re[k], temperature) * of_front[k];
            let behind = all - before;
            // A lossless part makes none, and what rounding leaves of it is none.
            let behind = if behind > 1e-12 * all { behind } else { 0.0 };
            shares[k] = Shares { before, behind, node: node[k], power: power[k] };
        }
        shares
    }

    /// The thermal noise at a node, at frequencies in Hz.
    pub fn thermal_within<const N: usize>(&self, node: Node, frequencies: &[f64; N], temperature: f64) -> [Within; N] {
        let at = Omegas::new(frequencies);
        let (before, behind) = self.split(node);
        let front = Port::at_source(&self.source, &at).on(before, &at);
        let on = Port::looking_on(behind, &self.load, &at);
        // What the load has in Re Y: its conductance through the voltage transfer
        // from the node, which by reciprocity is the current transfer back.
        let to_load = on.v.inverse();
        let rest = on.i.times(&to_load);
        let (load, taken) = (self.load.admittance_lanes(&at), to_load.norm_sqr());
        let front_z = front.impedance();
        let divider = divider(&front_z, &rest);
        let (of_front, of_rest) = (divider.norm_sqr(), front_z.times(&divider).norm_sqr());
        let power = front.i.inverse().times(&divider).norm_sqr();
        let mut within = [Within::default(); N];
        for k in 0..N {
            let g = (rest.re[k] - load.re[k] * taken[k]).max(0.0);
            let density = johnson(front_z.re[k], temperature) * of_front[k] + johnson(g, temperature) * of_rest[k];
            within[k] = Within { density, power: power[k] };
        }
        within
    }
}

/// What an admittance behind an impedance leaves of a voltage.
#[inline]
fn divider<const N: usize>(z: &Lanes<N>, y: &Lanes<N>) -> Lanes<N> {
    let mut sum = Lanes::ONE;
    sum.add_product(z, y);
    sum.inverse()
}

/// The integral of a density over a band in Hz; see [`band_powers`].
pub fn band_power(density: impl Fn(f64) -> f64, band: &RangeInclusive<f64>) -> f64 {
    let [power] = band_powers(|frequencies| frequencies.map(|f| [density(f)]), band);
    power
}

/// How many frequencies of a band are asked for together.
pub const BLOCK: usize = 16;

/// The integrals of several densities over a band in Hz, by Simpson's rule in ln f, in
/// which the densities of audio networks are smooth. The panels are halved until the
/// integrals change by less than 1e-5, which leaves less than 1e-6 of them: of what is
/// smooth a fifteenth of the change, of a resonance its square, for there the trapezium
/// rule under Simpson's converges exponentially (Trefethen and Weideman, SIAM Review 56,
/// 2014). The most panels over three decades leave 1e-5 with a Q of 10.
pub fn band_powers<const N: usize>(
    densities: impl Fn(&[f64; BLOCK]) -> [[f64; N]; BLOCK],
    band: &RangeInclusive<f64>,
) -> [f64; N] {
    let (from, to) = (band.start().ln(), band.end().ln());
    let (mut panels, mut step) = (FEWEST, (to - from) / FEWEST as f64);
    let (ends, all) = (sums(&densities, from, to - from, 2), sums(&densities, from, step, panels + 1));
    let mut trapezium = [0.0; N];
    let mut simpson = [f64::NAN; N];
    for n in 0..N {
        trapezium[n] = step * (all[n] - 0.5 * ends[n]);
    }
    loop {
        let between = sums(&densities, from + 0.5 * step, step, panels);
        let mut agree = true;
        for n in 0..N {
            let finer = 0.5 * (trapezium[n] + step * between[n]);
            let better = (4.0 * finer - trapezium[n]) / 3.0;
            agree &= (better - simpson[n]).abs() <= AGREE * better.abs();
            (trapezium[n], simpson[n]) = (finer, better);
        }
        (panels, step) = (2 * panels, 0.5 * step);
        if agree || panels >= MOST {
            return simpson;
        }
    }
}

/// The sums of densities over ln f, at `count` places from `first` on.
fn sums<const N: usize>(
    densities: &impl Fn(&[f64; BLOCK]) -> [[f64; N]; BLOCK],
    first: f64,
    step: f64,
    count: usize,
) -> [f64; N] {
    let mut sums = [0.0; N];
    // Frequencies rise by the same factor: one exponential a block is enough.
    let mut factors = [1.0; BLOCK];
    for k in 1..BLOCK.min(count) {
        factors[k] = (step * k as f64).exp();
    }
    for block in (0..count).step_by(BLOCK) {
        let lowest = (first + step * block as f64).exp();
        let frequencies = factors.map(|factor| lowest * factor);
        let densities = densities(&frequencies);
        for k in 0..BLOCK.min(count - block) {
            for n in 0..N {
                sums[n] += densities[k][n] * frequencies[k];
            }
        }
    }
    sums
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
        let [shares] = path.thermal_shares(Node::SOURCE, &[1e3], 300.0);
        let close = |a: f64, b: f64| assert!((a / b - 1.0).abs() < 1e-12, "{a} {b}");
        close(shares.before, johnson(1e3, 300.0) * (6.0_f64 / 9.0).powi(2));
        close(shares.behind, johnson(2e3, 300.0) * (6.0_f64 / 9.0).powi(2));
        close(shares.node, 2e3_f64.powi(2));
        let within = johnson(1e3, 300.0) * (8.0_f64 / 9.0).powi(2) + johnson(2e3, 300.0) * (1.0_f64 / 9.0).powi(2);
        let [at_source] = path.thermal_within(Node::SOURCE, &[1e3], 300.0);
        let [at_end] = path.thermal_within(path.end(), &[1e3], 300.0);
        close(at_source.density, within);
        close(at_end.density, shares.before + shares.behind);
        // 6 kΩ of 9, and 8 kΩ of 9 at the node between.
        close(at_source.power, (8.0_f64 / 9.0).powi(2));
        close(at_end.power, (6.0_f64 / 9.0).powi(2));
        close(shares.power, (6.0_f64 / 9.0).powi(2));
    }
}
