//! Fields that several calculators ask for, and the parts they make.

use super::field::{Field, option};
use super::{Fault, Values};
use crate::catalogue::typical::{LEAD_C as LEAD_CAPACITANCES, LOAD_RESISTANCE, SOURCE_RESISTANCE};
use crate::part::Lead;
use crate::quantity::Unit;

pub(super) const SOURCE_R: Field = Field::number("source_r", "R_S", Unit::Ohm, 150.0, (10.0, 100e3))
    .limits(0.0, 1e9)
    .marks(SOURCE_RESISTANCE)
    .at("source");
pub(super) const LEAD_LENGTH: Field =
    Field::number("lead_length", "l", Unit::Metre, 5.0, (0.0, 20.0)).limits(0.0, 10e3).at("lead");
pub(super) const LEAD_C: Field = Field::number("lead_c", "C′", Unit::FaradPerMetre, 100e-12, (60e-12, 160e-12))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .marks(LEAD_CAPACITANCES)
    .at("lead");
pub(super) const LEAD_R: Field =
    Field::number("lead_r", "R′", Unit::OhmPerMetre, 0.1, (0.05, 0.2)).limits(0.0, 1e3).detail().at("lead");
pub(super) const LEAD_L: Field = Field::number("lead_l", "L′", Unit::HenryPerMetre, 0.6e-6, (0.3e-6, 0.8e-6))
    .limits(0.0, 1e-3)
    .bare(1e-6)
    .detail()
    .at("lead");
pub(super) const LOAD_R: Field =
    Field::number("load_r", "R_L", Unit::Ohm, 10e3, (100.0, 10e6)).limits(1e-3, 1e12).marks(LOAD_RESISTANCE).at("load");
pub(super) const LOAD_C: Field =
    Field::number("load_c", "C_L", Unit::Farad, 0.0, (0.0, 10e-9)).limits(0.0, 1e-3).bare(1e-12).detail().at("load");

/// The mains frequency; its default is the reader's setting.
pub(super) const MAINS: Field = Field::choice("mains", &[option("50"), option("60")], "50").at("mains");

/// The mains frequency, Hz.
pub(super) fn mains(values: &Values) -> Result<f64, Fault> {
    Ok(if values.choice("mains")? == "60" { 60.0 } else { 50.0 })
}

/// The lead of the fields above.
pub(super) fn lead(values: &Values) -> Result<Lead, Fault> {
    Ok(Lead {
        length: values.number("lead_length")?,
        r: values.number("lead_r")?,
        l: values.number("lead_l")?,
        c: values.number("lead_c")?,
    })
}
