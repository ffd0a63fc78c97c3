//! How bad a loss of treble is, wherever one is judged.

use super::Tone;

/// Less than this nobody hears, dB: neither as a loss nor as a gain (common practice,
/// no source).
pub(crate) const HEARD: f64 = 0.1;

/// From these losses on treble is missed a little, audibly, clearly, and mostly,
/// dB (common practice, no source).
const SLIGHT: f64 = 1.0;
const AUDIBLE: f64 = 3.0;
const CLEAR: f64 = 6.0;
const MOST: f64 = 10.0;

/// What to make of a loss of treble, dB; below zero it is a gain. The words are
/// those that all calculators share.
pub(crate) fn treble(loss: f64) -> (Tone, &'static str) {
    match loss {
        loss if loss >= MOST => (Tone::Trouble, "treble-gone"),
        loss if loss >= CLEAR => (Tone::Trouble, "treble-clear"),
        loss if loss >= AUDIBLE => (Tone::Watch, "treble-audible"),
        loss if loss >= SLIGHT => (Tone::Watch, "treble-slight"),
        loss if loss > -SLIGHT => (Tone::Fine, "treble-kept"),
        loss if loss > -AUDIBLE => (Tone::Fine, "treble-brighter"),
        _ => (Tone::Watch, "treble-brighter"),
    }
}

/// The word for the way of a level that has lost so many dB: a loss is down, a gain
/// is up.
pub(crate) fn way(loss: f64) -> &'static str {
    if loss < 0.0 { "common-up" } else { "common-down" }
}
