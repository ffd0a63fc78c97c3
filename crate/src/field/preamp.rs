//! What stands behind the input of the console: its gain, what that can put out,
//! and the noise that comes in behind it.
//!
//! Equivalent input noise is stated at full gain. What follows the gain makes a
//! noise of its own that no gain changes, so referred to the input it rises as the
//! gain falls, and so does that of the converter.

use super::converter::{RANGE, full_scale};
use super::question::HEADROOM;
use super::signal::CREST;
use super::{Field, Values};
use crate::fault::Fault;
use crate::part::Behind;
use crate::quantity::Unit;
use crate::working::Working;

/// Gain of the console's input, dB.
pub(crate) const INPUT_GAIN: Field =
    Field::number("gain", "g", Unit::Decibel, 10.0, (0.0, 60.0)).limits(-40.0, 100.0).at("console");
/// The same where it may be left to the headroom.
pub(crate) const SET_GAIN: Field = INPUT_GAIN.named("console_gain", "g_K").absent().detail();
/// The largest sine behind that gain, dBu.
pub(crate) const GAIN_CLIP: Field =
    Field::number("gain_clip", "a_CG", Unit::DecibelU, 24.0, (18.0, 28.0)).limits(-60.0, 60.0).detail().at("console");
/// The noise behind the gain that no gain changes, dBu, unweighted from 20 Hz to
/// 20 kHz: what is measured there at the lowest gain (common practice, no source).
pub(crate) const OUTPUT_NOISE: Field = Field::number("output_noise", "a_O", Unit::DecibelU, -100.0, (-110.0, -85.0))
    .limits(-180.0, 0.0)
    .optional()
    .detail()
    .at("console");

/// The noise that comes in behind the gain, referred to the console's input, where
/// the signal has the level `a_S`. A gain that is not set is the most that keeps
/// the headroom. `U_0` and `B` are given; leaves `g_K`, `e_O` and `e_D` in the scope.
pub(crate) fn behind(values: &Values, working: &mut Working) -> Result<Behind, Fault> {
    full_scale(values, working)?;
    if let Some(gain) = values.optional(SET_GAIN)? {
        working.given("g_K", gain, Unit::Decibel);
    } else {
        working.given("a_CG", values.number(GAIN_CLIP)?, Unit::DecibelU);
        working.given("h", values.number(HEADROOM)?, Unit::Decibel);
        working.given("c", values.number(CREST)?, Unit::Decibel);
        working.step("set_gain", "g_K", "min(a_CG, a_FS) - h - (a_S + c - 10*log10(2))", Unit::Decibel)?;
    }
    let mut density = |field: Field, id: &str, symbol: &str, level: &str, formula: &str| -> Result<f64, Fault> {
        let Some(value) = values.optional(field)? else {
            working.given(symbol, 0.0, Unit::VoltPerRootHertz);
            return Ok(0.0);
        };
        working.given(level, value, field.unit());
        working.step(id, symbol, formula, Unit::VoltPerRootHertz).map(|density| density * density)
    };
    Ok(Behind {
        output: density(OUTPUT_NOISE, "output_density", "e_O", "a_O", "U_0*10^((a_O - g_K)/20)/sqrt(B)")?,
        converter: density(RANGE, "converter_density", "e_D", "D", "U_0*10^((a_FS - D - g_K)/20)/sqrt(B)")?,
    })
}
