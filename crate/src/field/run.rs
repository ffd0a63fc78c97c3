//! The run: the line on to the console.

use super::lead::{LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R};
use super::{ChoiceField, Field, Values, choice};
use crate::fault::Fault;
use crate::part::Lead;

choice! {
    /// How the run gets the signal on.
    pub(crate) enum Run {
        /// In two legs.
        Balanced = "balanced",
        /// In one, with the shield as its return.
        Unbalanced = "unbalanced",
    }
}

/// How the run gets the signal on.
pub(crate) const RUN: ChoiceField<Run> = Run::field("run", Run::Balanced).at("run");
/// Length, m.
pub(crate) const RUN_LENGTH: Field = LEAD_LENGTH.named("run_length", "l_R").starting(30.0).usual(0.0, 100.0).at("run");
/// Capacitance of a metre, F/m.
pub(crate) const RUN_C: Field = LEAD_C.named("run_c", "C′_R").usual(45e-12, 160e-12).marks(&[]).detail().at("run");
/// Resistance of a metre, there and back, Ω/m.
pub(crate) const RUN_R: Field = LEAD_R.named("run_r", "R′_R").starting(0.16).at("run");
/// Inductance of a metre, H/m.
pub(crate) const RUN_L: Field = LEAD_L.named("run_l", "L′_R").at("run");

/// The run.
pub(crate) fn run(values: &Values) -> Result<Lead, Fault> {
    Ok(Lead {
        length: values.number(RUN_LENGTH)?,
        r: values.number(RUN_R)?,
        l: values.number(RUN_L)?,
        c: values.number(RUN_C)?,
    })
}
