//! The loudspeaker terminals of an amplifier, and the pad that takes the signal off
//! them.

use super::source::{SOURCE, SourceKind};
use super::{ChoiceField, Field, Values, choice};
use crate::fault::Fault;
use crate::network::{OnePort, Path};
use crate::part::Arms;
use crate::quantity::Unit;
use crate::quantity::level::ratio;

choice! {
    /// What drives the loudspeaker, and with it what must not be done to it.
    pub(crate) enum PowerAmplifier {
        /// Transistors, one terminal on its ground.
        Grounded = "grounded",
        /// Transistors in a bridge: both terminals are live.
        Bridged = "bridged",
        /// Valves with an output transformer: never without a load.
        Valve = "valve",
    }
}

const THERE: &[&str] = &[SourceKind::Loudspeaker.id()];

/// What drives the loudspeaker.
pub(crate) const POWER_AMPLIFIER: ChoiceField<PowerAmplifier> =
    PowerAmplifier::field("amplifier", PowerAmplifier::Grounded).when(SOURCE, THERE).at("source");
/// Level at the terminals, V.
pub(crate) const SPEAKER_EMF: Field =
    Field::number("speaker_emf", "E", Unit::Volt, 10.0, (0.5, 50.0)).limits(1e-9, 1e3).when(SOURCE, THERE).at("source");
/// Source resistance of the amplifier, Ω.
pub(crate) const SPEAKER_R: Field = Field::number("speaker_r", "R_AL", Unit::Ohm, 0.1, (0.01, 10.0))
    .limits(0.0, 1e6)
    .when(SOURCE, THERE)
    .detail()
    .at("source");
/// What the pad takes off, dB; 0 dB is no pad.
pub(crate) const TAKE_OFF: Field = Field::number("take_off", "a_TO", Unit::Decibel, 40.0, (0.0, 60.0))
    .limits(0.0, 100.0)
    .when(SOURCE, THERE)
    .at("source");
/// Its resistance across the terminals, Ω (common practice, no source).
pub(crate) const TAKE_OFF_R: Field = Field::number("take_off_r", "R_TO", Unit::Ohm, 10e3, (1e3, 100e3))
    .limits(1.0, 1e9)
    .when(SOURCE, THERE)
    .detail()
    .at("source");

/// The pad in front of the box: an open divider of the resistance `R_TO` that takes
/// off `a_TO`.
pub(crate) fn take_off(values: &Values) -> Result<Option<Arms>, Fault> {
    if values.choice(SOURCE)? != SourceKind::Loudspeaker {
        return Ok(None);
    }
    let (loss, r) = (values.number(TAKE_OFF)?, values.number(TAKE_OFF_R)?);
    let lower = r / ratio(loss);
    Ok((loss > 0.0).then(|| Arms { series: OnePort::resistor(r - lower), shunt: OnePort::resistor(lower) }))
}

/// The terminals.
pub(crate) fn loudspeaker(values: &Values) -> Result<Path, Fault> {
    Ok(Path::new(OnePort::resistor(values.number(SPEAKER_R)?), OnePort::OPEN))
}
