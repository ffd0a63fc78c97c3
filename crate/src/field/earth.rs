//! Earths, and what drives a current around a loop of them.

use super::mains::mains;
use super::thru::{THRU, TIED};
use super::{ChoiceField, Field, Values, choice};
use crate::catalogue::typical;
use crate::fault::Fault;
use crate::part::Cause;
use crate::quantity::Unit;
use std::f64::consts::TAU;

/// Above this between two earths nobody should be looking for hum, V: the
/// conventional limit of touch voltage (IEC 60364-4-41, from memory).
pub(crate) const DANGEROUS_DIFFERENCE: f64 = 50.0;

choice! {
    /// What drives a current around a loop.
    pub(crate) enum CauseKind {
        /// A voltage between two earths.
        Difference = "difference",
        /// Leakage of a supply.
        Leakage = "leakage",
        /// A magnetic field through the loop.
        Field = "field",
    }
}

choice! {
    /// How a source is powered.
    pub(crate) enum Power {
        /// Without any way to earth.
        Floating = "floating",
        /// From the mains, with a safety earth.
        Earthed = "earthed",
        /// From the mains without one, by a supply that leaks.
        Leaking = "leaking",
        /// Without an earth of its own, and earthed by something else that is plugged
        /// into it: a screen, a projector, a network, another computer.
        Linked = "linked",
    }
}

impl Power {
    /// Whether another earth than the console's is tied to the source.
    pub(crate) fn is_earthed(self) -> bool {
        match self {
            Self::Earthed | Self::Linked => true,
            Self::Floating | Self::Leaking => false,
        }
    }
}

const DIFFERENCE: &[&str] = &[CauseKind::Difference.id()];
const LEAKAGE: &[&str] = &[CauseKind::Leakage.id()];
/// Where another earth than the console's is tied to the source.
pub(crate) const EARTHED: &[&str] = &[Power::Earthed.id(), Power::Linked.id()];
const LEAKING: &[&str] = &[Power::Leaking.id()];

/// What drives the loop.
pub(crate) const CAUSE: ChoiceField<CauseKind> = CauseKind::field("cause", CauseKind::Difference).at("earth");
/// How the source is powered.
pub(crate) const POWER: ChoiceField<Power> = Power::field("power", Power::Floating).at("source");

/// Voltage between two earths with nothing connected, V.
pub(crate) const EARTH_VOLTS: Field = Field::number("difference", "E_E", Unit::Volt, 0.1, (10e-3, 1.0))
    .limits(0.0, 1e3)
    .marks(typical::EARTH_DIFFERENCE)
    .at("earth");
/// Current of a supply that leaks into a short to earth, A.
pub(crate) const LEAKAGE_CURRENT: Field = Field::number("leakage", "I_L", Unit::Ampere, 0.25e-3, (0.05e-3, 0.5e-3))
    .limits(1e-9, 0.1)
    .bare(1e-3)
    .marks(typical::LEAKAGE)
    .at("earth");
/// Voltage behind that leakage with nothing connected, V.
pub(crate) const LEAKAGE_VOLTS: Field =
    Field::number("leakage_volts", "E_L", Unit::Volt, 115.0, (60.0, 240.0)).limits(1.0, 500.0).detail().at("earth");
/// Another way to earth of equipment that leaks, Ω.
pub(crate) const OTHER_R: Field =
    Field::blank("other_r", "R_O", Unit::Ohm, (0.1, 10.0)).limits(1e-6, 1e9).exact().detail().at("earth");
/// Resistance of the path of the earth, Ω.
pub(crate) const EARTH_R: Field =
    Field::number("earth_r", "R_E", Unit::Ohm, 0.5, (0.1, 1.0)).limits(0.0, 1e6).exact().at("earth");
/// Inductance of a whole loop, H.
pub(crate) const LOOP_L: Field = Field::number("inductance", "L", Unit::Henry, 20e-6, (1e-6, 100e-6))
    .limits(0.0, 1.0)
    .exact()
    .bare(1e-6)
    .detail()
    .at("earth");
/// Voltage between the amplifier's earth and the console's, V.
pub(crate) const AMP_DIFFERENCE: Field = EARTH_VOLTS.named("amp_difference", "E_A").at("thru");
/// Resistance of the path of the amplifier's earth, Ω.
pub(crate) const AMP_EARTH_R: Field = EARTH_R.named("amp_earth_r", "R_EA").limits(1e-6, 1e6).detail();
/// Resistance of the part of the earths' paths that source and amplifier share, in front
/// of the console's, Ω; empty where they share none.
pub(crate) const SHARED_EARTH_R: Field = Field::blank("shared_earth_r", "R_ES", Unit::Ohm, (0.05, 0.5))
    .limits(0.0, 1e6)
    .exact()
    .when(THRU, TIED)
    .detail()
    .at("earth");
/// [`LEAKAGE_CURRENT`] beside a transformer, which has a leakage too.
pub(crate) const SUPPLY_LEAKAGE: Field = LEAKAGE_CURRENT.named("leakage_current", "I_L").detail();

/// What drives a single loop of stated cause, without its field.
pub(crate) const CAUSES: [Field; 4] = [
    EARTH_VOLTS.when(CAUSE, DIFFERENCE),
    LEAKAGE_CURRENT.when(CAUSE, LEAKAGE),
    LEAKAGE_VOLTS.when(CAUSE, LEAKAGE),
    OTHER_R.when(CAUSE, LEAKAGE),
];

/// What drives the loops of a whole line, by the power of its source and by its thru.
pub(crate) const EARTHS: [Field; 6] = [
    SUPPLY_LEAKAGE.when(POWER, LEAKING),
    LEAKAGE_VOLTS.when(POWER, LEAKING),
    OTHER_R.when(POWER, LEAKING),
    EARTH_R.limits(1e-6, 1e6).when(POWER, EARTHED).detail(),
    AMP_EARTH_R.when(THRU, TIED),
    LOOP_L,
];

/// The leakage of a supply, its current in this field.
pub(crate) fn leakage(values: &Values, current: Field) -> Result<Cause, Fault> {
    let amperes = values.number(current)?;
    let capacitance = amperes / (TAU * mains(values)? * values.number(LEAKAGE_VOLTS)?);
    Ok(Cause::Leakage { amperes, capacitance, other_r: values.optional(OTHER_R)? })
}

/// A voltage between two earths, of these fields.
pub(crate) fn difference(values: &Values, volts: Field, earth_r: Field) -> Result<Cause, Fault> {
    Ok(Cause::Difference { volts: earth_volts(values, volts)?, earth_r: values.number(earth_r)? })
}

/// The voltage of a field between two earths, V, where it is no danger to life.
pub(crate) fn earth_volts(values: &Values, field: Field) -> Result<f64, Fault> {
    let volts = values.number(field)?;
    if volts > DANGEROUS_DIFFERENCE { Err(field.fault("fault-dangerous-difference")) } else { Ok(volts) }
}
