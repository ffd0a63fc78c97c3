//! Typical source and load resistances, leads and pickups.

use crate::calculator::field::Mark;

const fn mark(value: f64, name: &'static str) -> Mark {
    Mark { value, name }
}

/// Resistances of sources, Ω (common practice; the microphone IEC 61938).
pub const SOURCE_RESISTANCE: &[Mark] = &[
    mark(100.0, "mark-active-box"),
    mark(200.0, "mark-microphone"),
    mark(600.0, "mark-line-600"),
    mark(1e3, "mark-keyboard"),
    mark(10e3, "mark-coil"),
];

/// Resistances of inputs, Ω (common practice, no source).
pub const LOAD_RESISTANCE: &[Mark] = &[
    mark(1.5e3, "mark-microphone-input"),
    mark(10e3, "mark-line-input"),
    mark(140e3, "mark-passive-box"),
    mark(1e6, "mark-instrument-input"),
];

/// Inductances of pickups, H (common practice, no source).
pub const COIL_L: &[Mark] = &[mark(2.5, "mark-single-coil"), mark(5.0, "mark-two-coil"), mark(8.0, "mark-bass-coil")];

/// Resistances of pickups, Ω (common practice, no source).
pub const COIL_R: &[Mark] =
    &[mark(6.5e3, "mark-single-coil"), mark(8.5e3, "mark-two-coil"), mark(10e3, "mark-bass-coil")];

/// Tracks of volume and tone controls, Ω (common practice, no source).
pub const TRACK: &[Mark] =
    &[mark(250e3, "mark-track-250"), mark(500e3, "mark-track-500"), mark(1e6, "mark-track-1000")];

/// Tone capacitors, F (common practice, no source).
pub const TONE_C: &[Mark] =
    &[mark(10e-9, "mark-tone-small"), mark(22e-9, "mark-tone-usual"), mark(47e-9, "mark-tone-large")];

/// Capacitances of instrument leads, F/m (common practice, no source).
pub const LEAD_C: &[Mark] =
    &[mark(60e-12, "mark-lead-low"), mark(100e-12, "mark-lead-usual"), mark(160e-12, "mark-lead-high")];

/// Turns ratios, primary to secondary (common practice, no source).
pub const TURNS: &[Mark] = &[mark(1.0, "mark-isolator"), mark(10.0, "mark-box-10"), mark(12.0, "mark-box-12")];

/// Source resistances of one leg, Ω (common practice; the microphone IEC 61938).
pub const LEG_R: &[Mark] =
    &[mark(50.0, "mark-active-box"), mark(100.0, "mark-microphone"), mark(300.0, "mark-line-600")];

/// Impedances from one leg of an input to earth, Ω (common practice, no source;
/// 5 to 20 kΩ of simple inputs).
pub const COMMON_MODE_R: &[Mark] = &[
    mark(6.8e3, "mark-phantom-feed"),
    mark(10e3, "mark-simple-input"),
    mark(20e3, "mark-line-input"),
    mark(10e6, "mark-raised-input"),
];

/// Inter-winding capacitances, F (common practice, no source).
pub const WINDING_C: &[Mark] = &[mark(2e-12, "mark-screened"), mark(100e-12, "mark-unscreened")];

/// Voltages between two earths of one venue, V (common practice, no source).
pub const EARTH_DIFFERENCE: &[Mark] =
    &[mark(10e-3, "mark-same-outlet"), mark(100e-3, "mark-same-venue"), mark(1.0, "mark-far-outlets")];

/// Leakage currents of supplies, A (order of magnitude, common practice, no source).
pub const LEAKAGE: &[Mark] = &[mark(0.1e-3, "mark-small-supply"), mark(0.25e-3, "mark-laptop-supply")];

/// Currents of devices on phantom, A (common practice, no source).
pub const PHANTOM_CURRENT: &[Mark] =
    &[mark(2e-3, "mark-active-box-least"), mark(4e-3, "mark-condenser"), mark(7e-3, "mark-active-box-most")];

/// Analogue and digital alignment level, dBu and dBFS, of a practice: EBU R 68
/// with 0 dBu (ITU-R BS.645), else SMPTE RP 155 with +4 dBu (usual analogue
/// side, common practice).
pub fn alignment(name: &str) -> (f64, f64) {
    if name == "r68" { (0.0, -18.0) } else { (4.0, -20.0) }
}
