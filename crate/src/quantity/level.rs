//! Ratios ⇄ decibels, and volts ⇄ dBu and dBV.
//!
//! ```
//! use stageohm::quantity::level::{decibels, volts_at_dbu};
//!
//! // Half the voltage, and +4 dBu (EBU Tech. 3276, from memory).
//! assert!((decibels(0.5) + 6.0206).abs() < 1e-4);
//! assert!((volts_at_dbu(4.0) - 1.228).abs() < 1e-3);
//! ```

use super::VOLTS_AT_0_DBU;

/// How far half the power is down, 10·log10 2 dB; as much is a sine's crest factor.
pub const HALF_POWER: f64 = 3.010_299_956_639_812;

/// A ratio of voltages in decibels. Zero gives −∞.
pub fn decibels(ratio: f64) -> f64 {
    20.0 * ratio.log10()
}

/// A ratio of powers in decibels. Zero gives −∞.
pub fn decibels_of_power(ratio: f64) -> f64 {
    10.0 * ratio.log10()
}

/// Decibels as a ratio of voltages.
pub fn ratio(decibels: f64) -> f64 {
    10_f64.powf(decibels / 20.0)
}

/// Decibels as a ratio of powers.
pub fn power_ratio(decibels: f64) -> f64 {
    10_f64.powf(decibels / 10.0)
}

/// A voltage in dBu.
pub fn dbu(volts: f64) -> f64 {
    decibels(volts / VOLTS_AT_0_DBU)
}

/// The square of a voltage, as noise is summed, in dBu.
pub fn dbu_of_square(square: f64) -> f64 {
    decibels_of_power(square / VOLTS_AT_0_DBU.powi(2))
}

/// A voltage in dBV.
pub fn dbv(volts: f64) -> f64 {
    decibels(volts)
}

/// A level in dBu as a voltage, V.
pub fn volts_at_dbu(level: f64) -> f64 {
    VOLTS_AT_0_DBU * ratio(level)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 V is 0 dBV and +2.218 dBu, 0 dBu is 1 mW in 600 Ω (IEC 60027-3), and
    /// +4 dBu is 1.2277 V (EBU Tech. 3276, from memory).
    #[test]
    fn volts_and_levels() {
        let close = |got: f64, expected: f64| assert!((got - expected).abs() < 1e-4, "{got} is not {expected}");
        close(dbu(1.0), 2.218_49);
        close(dbv(1.0), 0.0);
        close(dbu(0.6_f64.sqrt()), 0.0);
        close(dbu_of_square(0.6), 0.0);
        close(volts_at_dbu(4.0), 1.227_65);
    }

    /// A tenth of a voltage is −20 dB, a tenth of a power −10 dB (IEC 60027-3).
    #[test]
    fn ratios_and_decibels() {
        assert_eq!((decibels(0.1), decibels_of_power(0.1)), (-20.0, -10.0));
        assert_eq!((ratio(-20.0), power_ratio(-10.0)), (0.1, 0.1));
        assert_eq!(decibels(0.0), f64::NEG_INFINITY);
    }
}
