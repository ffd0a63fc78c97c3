//! Phantom supplies of IEC 61938 (values from memory of the standard).
//!
//! ```
//! use stageohm::catalogue::phantom::P48;
//!
//! // Both legs on the shield: 48 V through 6.8 kΩ twice are 14 mA.
//! assert!((2.0 * P48.volts / P48.feed_r - 14e-3).abs() < 0.2e-3);
//! ```

/// A phantom supply: a voltage on both legs, each through a feed resistor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhantomSupply {
    /// Nominal voltage, V.
    pub volts: f64,
    /// Either way, V.
    pub tolerance: f64,
    /// Feed resistor of each leg, Ω.
    pub feed_r: f64,
    /// The most current of a device, A.
    pub most: f64,
}

/// The most by which the two feed resistors of a supply may differ.
pub const FEED_MATCH: f64 = 0.004;

/// P48.
pub const P48: PhantomSupply = PhantomSupply { volts: 48.0, tolerance: 4.0, feed_r: 6.8e3, most: 10e-3 };
/// P24.
pub const P24: PhantomSupply = PhantomSupply { volts: 24.0, tolerance: 4.0, feed_r: 1.2e3, most: 10e-3 };
/// P12.
pub const P12: PhantomSupply = PhantomSupply { volts: 12.0, tolerance: 1.0, feed_r: 680.0, most: 15e-3 };
