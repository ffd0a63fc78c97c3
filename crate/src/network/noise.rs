//! Thermal noise of passive networks (Johnson 1928, Nyquist 1928).

use super::lanes::inverse;
use super::path::Path;
use std::ops::RangeInclusive;

/// Boltzmann's constant, J/K (exact, SI 2019).
pub const BOLTZMANN: f64 = 1.380_649e-23;
/// Room temperature where none is stated, K (20 °C).
pub const ROOM: f64 = 293.15;

/// Panels of the integration over a band; in ln f, where the densities of
/// audio networks are smooth.
const PANELS: usize = 1200;

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
            4.0 * BOLTZMANN * temperature * total.re
        } else {
            // Re Z of the source side alone, through the divider with the load.
            4.0 * BOLTZMANN * temperature * z.re * (total * y).norm_sqr()
        }
    }
}

/// The integral of a density over a band in Hz, by Simpson's rule in ln f.
/// Relative accuracy 1e-9 on the smooth densities of audio networks.
pub fn band_power(density: impl Fn(f64) -> f64, band: &RangeInclusive<f64>) -> f64 {
    let (from, to) = (band.start().ln(), band.end().ln());
    let step = (to - from) / PANELS as f64;
    let sum: f64 = (0..=PANELS)
        .map(|i| {
            let f = (from + step * i as f64).exp();
            let weight = match i {
                0 | PANELS => 1.0,
                _ if i % 2 == 1 => 4.0,
                _ => 2.0,
            };
            weight * density(f) * f
        })
        .sum();
    sum * step / 3.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::network::OnePort;

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
}
