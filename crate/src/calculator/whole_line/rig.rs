//! The rig of the fields.

use super::super::level_chain::pad;
use super::super::noise_floor::source;
use super::super::shared::{between, lead};
use super::super::{Fault, Values, Working};
use crate::network::OnePort;
use crate::part::{Input, Lead, Rig, Thru};

/// Whether the source is balanced by itself.
pub(super) fn is_balanced(values: &Values) -> Result<bool, Fault> {
    Ok(matches!(values.choice("source")?, "balanced" | "microphone"))
}

/// The open-circuit level of the source, V.
pub(super) fn emf(values: &Values) -> Result<f64, Fault> {
    values.number(if values.choice("source")? == "microphone" { "microphone_emf" } else { "emf" })
}

/// What a box cannot do, said beside the field where it can be mended.
pub(super) fn check(values: &Values) -> Result<(), Fault> {
    if values.choice("box")? != "active" {
        return Ok(());
    }
    let phantom = values.choice("powered")? == "phantom";
    let unbalanced = values.choice("run")? == "unbalanced";
    let lifted = values.choice("ground")? == "lifted";
    match (phantom, unbalanced, lifted) {
        (true, true, _) => Err(Fault::at("run", "fault-phantom-run")),
        (true, _, true) => Err(Fault::at("ground", "fault-phantom-lift")),
        (_, true, true) => Err(Fault::at("ground", "fault-lift-run")),
        _ => Ok(()),
    }
}

/// The rig of the fields with this input of the console.
pub(super) fn rig(values: &Values, working: &mut Working, console: Input) -> Result<Rig, Fault> {
    let lead = lead(values)?;
    let boxed = values.choice("box")? != "none";
    let thru = if boxed && values.choice("thru")? != "none" {
        let input = OnePort::r_c(values.number("amp_r")?, values.number("amp_c")?);
        Some(Thru { lead: Lead { length: values.number("thru_length")?, ..lead }, input })
    } else {
        None
    };
    let run = Lead {
        length: values.number("run_length")?,
        r: values.number("run_r")?,
        l: values.number("run_l")?,
        c: values.number("run_c")?,
    };
    Ok(Rig {
        source: source(values)?,
        lead,
        thru,
        between: between(values, false)?,
        run,
        pad: pad(values, working)?,
        console,
    })
}
