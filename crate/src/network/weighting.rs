//! The A frequency weighting.

use crate::quantity::level::decibels_of_power;

/// A-weighting at a frequency in Hz, dB: the analytic formula of IEC 61672-1
/// (annex E), 0 dB at 1 kHz.
pub fn a_weighting(frequency: f64) -> f64 {
    decibels_of_power(a_weighting_power(frequency))
}

/// The same as a factor of powers.
pub fn a_weighting_power(frequency: f64) -> f64 {
    // The pole frequencies of IEC 61672-1, Hz, from memory.
    const F1: f64 = 20.598_997;
    const F2: f64 = 107.652_65;
    const F3: f64 = 737.862_23;
    const F4: f64 = 12_194.217;
    let power = |f: f64| {
        let s = f * f;
        let (sides, low, middle) = ((s + F1 * F1) * (s + F4 * F4), s + F2 * F2, s + F3 * F3);
        s * s * s * s / (sides * sides * low * middle)
    };
    power(frequency) / power(1000.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// IEC 61672-1 table 3, from memory: rounded to 0.1 dB there, and stated at
    /// the exact base-ten frequencies that the nominal ones stand for.
    #[test]
    fn table_of_the_standard() {
        for (tenths, expected) in [
            (13.0, -50.5),
            (15.0, -39.4),
            (17.0, -30.2),
            (18.0, -26.2),
            (20.0, -19.1),
            (21.0, -16.1),
            (30.0, 0.0),
            (40.0, -2.5),
        ] {
            let f = 10_f64.powf(tenths / 10.0);
            assert!((a_weighting(f) - expected).abs() < 0.051, "{f}: {}", a_weighting(f));
        }
    }
}
