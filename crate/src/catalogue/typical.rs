//! Typical values: of sources and loads, leads, pickups, transformers and pads, and
//! of levels, noise and supplies.
//!
//! ```
//! use stageohm::catalogue::typical::MINUS_10_DBV;
//!
//! // 20·log10 of a voltage in volts is its level in dBV.
//! assert!((20.0 * MINUS_10_DBV.log10() + 10.0).abs() < 1e-9);
//! ```

use super::mark::Mark;
use crate::quantity::level::HALF_POWER;

const fn mark(value: f64, name: &'static str) -> Mark {
    Mark { value, range: None, name }
}

/// With the range in which such values lie.
const fn ranged(value: f64, from: f64, to: f64, name: &'static str) -> Mark {
    Mark { value, range: Some((from, to)), name }
}

/// Resistances of sources, Ω (common practice; the microphone IEC 61938).
pub const SOURCE_RESISTANCE: &[Mark] = &[
    ranged(200.0, 100.0, 300.0, "mark-active-box-both"),
    ranged(200.0, 150.0, 600.0, "mark-microphone"),
    mark(600.0, "mark-line-600"),
    ranged(1e3, 50.0, 10e3, "mark-keyboard"),
    ranged(10e3, 5e3, 15e3, "mark-coil"),
];

/// Resistances of inputs, Ω (common practice, no source).
pub const LOAD_RESISTANCE: &[Mark] = &[
    ranged(1.5e3, 1e3, 2.4e3, "mark-microphone-input"),
    ranged(LINE_INPUT_R, LINE_INPUT_R, 20e3, "mark-line-input"),
    mark(180e3, "mark-passive-box"),
    mark(1e6, "mark-instrument-input"),
];

/// Inductance of a passive bass's coil, H (common practice, no source).
pub const BASS_COIL_L: f64 = 5.0;
/// Resistance of that coil, Ω (common practice, no source).
pub const BASS_COIL_R: f64 = 9e3;

/// Inductances of pickups, H (common practice, no source).
pub const COIL_L: &[Mark] = &[
    ranged(2.5, 2.0, 4.0, "mark-single-coil"),
    ranged(5.0, 4.0, 8.0, "mark-two-coil"),
    ranged(BASS_COIL_L, 3.5, 6.0, "mark-bass-coil"),
];

/// Resistances of pickups, Ω (common practice, no source).
pub const COIL_R: &[Mark] = &[
    ranged(6.5e3, 5e3, 8e3, "mark-single-coil"),
    ranged(8.5e3, 7e3, 15e3, "mark-two-coil"),
    mark(BASS_COIL_R, "mark-bass-coil"),
];

/// Tracks of volume and tone controls, Ω (common practice, no source).
pub const TRACK: &[Mark] =
    &[mark(250e3, "mark-track-250"), mark(500e3, "mark-track-500"), mark(1e6, "mark-track-1000")];

/// Tone capacitors, F (common practice, no source).
pub const TONE_C: &[Mark] =
    &[mark(10e-9, "mark-tone-small"), mark(22e-9, "mark-tone-usual"), mark(47e-9, "mark-tone-large")];

/// Of a line input, Ω (common practice, no source).
pub const LINE_INPUT_R: f64 = 10e3;

/// Capacitances of instrument leads, F/m (common practice, no source).
pub const LEAD_C: &[Mark] =
    &[mark(60e-12, "mark-lead-low"), mark(100e-12, "mark-lead-usual"), mark(160e-12, "mark-lead-high")];

/// −10 dBV, the consumer line level, V rms (common practice, no source).
pub const MINUS_10_DBV: f64 = 0.316_227_766_016_837_94;
/// +4 dBu, the studio line level, V rms (common practice, no source).
pub const PLUS_4_DBU: f64 = 1.227_652_987_983_88;

/// Levels that line inputs are made for, V rms (common practice, no source).
pub const LINE_LEVEL: &[Mark] = &[mark(MINUS_10_DBV, "mark-consumer-level"), mark(PLUS_4_DBU, "mark-line-level")];

/// A laptop while playing, V rms: a sine at its full scale is about 1 V, and music
/// has 12 dB of crest (common practice, no source).
pub const LAPTOP_LEVEL: f64 = 0.25;

/// Open-circuit levels of sources, V rms (common practice, no source).
pub const SOURCE_LEVEL: &[Mark] = &[
    ranged(0.2, 0.1, 0.3, "mark-guitar-level"),
    ranged(0.3, 0.1, 0.5, "mark-piezo-level"),
    ranged(MINUS_10_DBV, MINUS_10_DBV, PLUS_4_DBU, "mark-keyboard-level"),
    mark(0.5, "mark-hot-level"),
    ranged(0.7, 0.5, 1.0, "mark-active-bass-level"),
    ranged(LAPTOP_LEVEL, 0.1, 0.3, "mark-laptop-level"),
    mark(PLUS_4_DBU, "mark-line-level"),
];

/// Levels of a dynamic microphone, V rms: about 2 mV/Pa, at 94 dB SPL and at
/// the 114 dB SPL of a near shout (common practice, no source).
pub const MICROPHONE_LEVEL: &[Mark] = &[mark(2e-3, "mark-speech-level"), mark(20e-3, "mark-shout-level")];

/// Crest factors, dB (common practice, no source; a sine by definition).
pub const CREST: &[Mark] = &[
    mark(HALF_POWER, "mark-sine"),
    ranged(12.0, 10.0, 14.0, "mark-keyboard"),
    ranged(15.0, 12.0, 20.0, "mark-plucked"),
];

/// Capacitances of piezo elements, F (common practice, no source).
pub const PIEZO_C: &[Mark] =
    &[mark(0.5e-9, "mark-piezo-small"), ranged(1e-9, 0.3e-9, 5e-9, "mark-piezo"), mark(3e-9, "mark-piezo-large")];

/// Rated impedances of dynamic microphones, Ω (200 Ω: IEC 61938, from memory;
/// the others common practice).
pub const MICROPHONE_R: &[Mark] =
    &[mark(150.0, "mark-microphone-150"), mark(200.0, "mark-microphone"), mark(600.0, "mark-microphone-600")];

/// Noise voltage densities of amplifiers behind instrument inputs, V/√Hz
/// (common practice, no source).
pub const NOISE_VOLTAGE: &[Mark] = &[mark(5e-9, "mark-quiet"), mark(10e-9, "mark-usual"), mark(15e-9, "mark-plain")];

/// Equivalent input noise of microphone inputs with 150 Ω, 20 Hz to 20 kHz,
/// dBu (common practice, no source).
pub const INPUT_NOISE: &[Mark] = &[mark(-129.0, "mark-quiet"), mark(-128.0, "mark-usual"), mark(-125.0, "mark-plain")];

/// Gains of active boxes, dB (common practice, no source).
pub const BOX_GAIN: &[Mark] = &[mark(0.0, "mark-unity"), mark(-20.0, "mark-box-pad")];

/// The gain that a line input has up to its own line level, dB; what needs more
/// wants a microphone input (common practice, no source).
pub const LINE_INPUT_GAIN: f64 = 20.0;

/// Losses of pads, dB (common practice, no source).
pub const PAD_LOSS: &[Mark] = &[mark(0.0, "mark-no-pad"), mark(20.0, "mark-pad-20"), mark(40.0, "mark-pad-40")];

/// Direct capacitances between the two cores of a screened pair, F/m (common
/// practice, no source).
pub const CORE_C: &[Mark] = &[mark(45e-12, "mark-pair-low"), mark(110e-12, "mark-pair-high")];

/// The length under which unbalanced instrument leads are kept, m: 5 m, or
/// 15 ft (common practice, no source).
pub const INSTRUMENT_LEAD: f64 = 5.0;
/// The length to which balanced lines are said to be usable, m (common
/// practice, no source).
pub const BALANCED_LINE: f64 = 600.0;

/// Turns ratios, primary to secondary (common practice, no source).
pub const TURNS: &[Mark] = &[mark(1.0, "mark-isolator"), mark(10.0, "mark-box-10"), mark(12.0, "mark-box-12")];

/// Source resistances of one leg, Ω (common practice; the microphone IEC 61938).
pub const LEG_R: &[Mark] =
    &[mark(100.0, "mark-microphone"), ranged(100.0, 50.0, 150.0, "mark-active-box"), mark(300.0, "mark-line-600")];

/// Impedances from one leg of an input to earth, Ω (common practice, no source).
pub const COMMON_MODE_R: &[Mark] = &[
    mark(6.8e3, "mark-phantom-feed"),
    ranged(10e3, 5e3, 20e3, "mark-simple-input"),
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
