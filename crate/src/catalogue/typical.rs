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
