//! The lead from a source to what it is plugged into.

use super::{Field, Values};
use crate::catalogue::typical;
use crate::fault::Fault;
use crate::part::Lead;
use crate::quantity::Unit;

/// No lead that is laid is longer, m.
pub(crate) const LONGEST_LEAD: f64 = 10e3;

/// Length, m.
pub(crate) const LEAD_LENGTH: Field =
    Field::number("lead_length", "l", Unit::Metre, 5.0, (0.0, 20.0)).limits(0.0, LONGEST_LEAD).at("lead");
/// Capacitance of a metre, F/m.
pub(crate) const LEAD_C: Field = Field::number("lead_c", "C′", Unit::FaradPerMetre, 100e-12, (60e-12, 160e-12))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .marks(typical::LEAD_C)
    .at("lead");
/// Resistance of a metre, there and back, Ω/m.
pub(crate) const LEAD_R: Field =
    Field::number("lead_r", "R′", Unit::OhmPerMetre, 0.1, (0.05, 0.2)).limits(0.0, 1e3).detail().at("lead");
/// Inductance of a metre, H/m.
pub(crate) const LEAD_L: Field = Field::number("lead_l", "L′", Unit::HenryPerMetre, 0.6e-6, (0.3e-6, 0.8e-6))
    .limits(0.0, 1e-3)
    .bare(1e-6)
    .detail()
    .at("lead");
/// Resistance of a metre of the shield, Ω/m.
pub(crate) const SHIELD_R: Field =
    Field::number("shield_r", "R′_sh", Unit::OhmPerMetre, 0.02, (5e-3, 0.1)).limits(0.0, 1e3).at("lead");
/// Resistance of the contact of the shield at either end, Ω.
pub(crate) const CONTACT_R: Field = Field::number("contact_r", "R_k", Unit::Ohm, 10e-3, (1e-3, 0.5))
    .limits(1e-6, 1e4)
    .exact()
    .bare(1e-3)
    .detail()
    .at("lead");

/// The lead.
pub(crate) fn lead(values: &Values) -> Result<Lead, Fault> {
    Ok(Lead {
        length: values.number(LEAD_LENGTH)?,
        r: values.number(LEAD_R)?,
        l: values.number(LEAD_L)?,
        c: values.number(LEAD_C)?,
    })
}

/// The resistance of the shield of a lead of this length, m, and of its contacts, Ω.
pub(crate) fn shield(values: &Values, length: f64) -> Result<f64, Fault> {
    Ok(values.number(SHIELD_R)? * length + 2.0 * values.number(CONTACT_R)?)
}
