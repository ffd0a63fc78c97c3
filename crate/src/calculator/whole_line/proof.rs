//! The calculators that prove what was found, filled in with the line.

use super::super::filling::Filling;
use super::super::ground_loop::DANGEROUS_DIFFERENCE;
use super::super::shared::mains;
use super::super::{Calculator, Fault, Sheet, Values};
use super::super::{balance, ground_loop, level_chain, noise_floor, phantom as supply, pickup, source_load};
use super::CALCULATOR;
use super::hum::Way;
use super::line::Line;
use super::rig::emf;
use crate::network::MIDBAND;
use crate::part::{Cause, Drive};
use crate::quantity::Unit;
use crate::words::Arg;
use std::f64::consts::TAU;

fn copied(calculator: &'static Calculator, values: &Values) -> Result<Filling, Fault> {
    Filling::copied(calculator, &CALCULATOR, values)
}

/// Source and first lead, and all that follows as one load, which is exact at
/// the frequency in question unless it is inductive there.
pub(super) fn tone(values: &Values, sheet: &mut Sheet, line: &Line, frequency: f64) -> Result<(), Fault> {
    if !sheet.wants_words() {
        return Ok(());
    }
    let lead = usize::from(line.rig.lead.length > 0.0);
    let y = line.chain.first.looking_on(line.rig.source.chain.len() + lead, frequency).inv();
    let kind = values.choice("source")?;
    let mut filling = copied(if kind == "pickup" { &pickup::CALCULATOR } else { &source_load::CALCULATOR }, values)?;
    filling.put("load_r", 1.0 / y.re.max(0.0), Unit::Ohm);
    filling.put("load_c", y.im.max(0.0) / (TAU * frequency), Unit::Farad);
    filling.put("frequency", frequency, Unit::Hertz);
    if kind != "pickup" {
        filling.put("emf", emf(values)?, Unit::Volt);
        filling.put("source_c", line.rig.lead.capacitance(), Unit::Farad);
        match kind {
            "piezo" => {
                filling.put("source_r", 0.0, Unit::Ohm);
                filling.put("coupling_c", values.number("piezo_c")?, Unit::Farad);
            }
            "microphone" => filling.put("source_r", values.number("microphone_r")?, Unit::Ohm),
            _ => {}
        }
    }
    let word = if y.im < 0.0 { "link-tone-inductive" } else { "link-tone" };
    sheet.link_to(word, &[("f", Arg::Quantity(frequency, Unit::Hertz))], &filling);
    Ok(())
}

/// The same rig, without a run and a pad; a thru counts as more capacitance of
/// the lead, and as a load beside that of an active box.
pub(super) fn noise(values: &Values, sheet: &mut Sheet, line: &Line) -> Result<(), Fault> {
    if !sheet.wants_words() {
        return Ok(());
    }
    let mut filling = copied(&noise_floor::CALCULATOR, values)?;
    filling.choose("source", if values.choice("source")? == "balanced" { "output" } else { values.choice("source")? });
    if let Some(thru) = &line.rig.thru {
        let lead = &line.rig.lead;
        let length = if lead.length > 0.0 { lead.length } else { 1.0 };
        let capacitance = lead.capacitance() + thru.lead.capacitance() + values.number("amp_c")?;
        filling.put("lead_length", length, Unit::Metre);
        filling.put("lead_c", capacitance / length, Unit::FaradPerMetre);
        if let Some((active, _)) = &line.chain.active {
            let both = 1.0 / (1.0 / active.input.r + 1.0 / values.number("amp_r")?);
            filling.put("box_r", both, Unit::Ohm);
        }
    }
    sheet.link_to("link-noise", &[], &filling);
    Ok(())
}

/// Level by level from the source, or from the first input on.
pub(super) fn levels(values: &Values, sheet: &mut Sheet, line: &Line) -> Result<(), Fault> {
    if !sheet.wants_words() {
        return Ok(());
    }
    let mut filling = copied(&level_chain::CALCULATOR, values)?;
    match line.rig.source.source.resistance() {
        Some(r) if line.rig.thru.is_none() => {
            filling.put("emf", emf(values)?, Unit::Volt);
            filling.put("source_r", r, Unit::Ohm);
        }
        // A chain of levels takes a source as a resistance: what else it is, and
        // what a thru takes, is counted up to the first input.
        _ => {
            let chain = &line.chain;
            let first = chain.first.tapped(chain.leads).transfer(MIDBAND).norm();
            filling.put("emf", emf(values)? * first, Unit::Volt);
            filling.put("source_r", 0.0, Unit::Ohm);
            filling.put("lead_length", 0.0, Unit::Metre);
        }
    }
    sheet.link_to("link-levels", &[], &filling);
    Ok(())
}

/// The loop in which most of the hum comes in: the first lead's, or the run's.
pub(super) fn hum(values: &Values, sheet: &mut Sheet, line: &Line, in_lead: bool) -> Result<(), Fault> {
    if !sheet.wants_words() {
        return Ok(());
    }
    let (loops, chain) = (&line.loops, &line.chain);
    let arm = loops.star.source.or(loops.star.amplifier);
    // The rejection of a floating source falls with frequency, and lifted there is
    // no shield whose drop a loop could show: there the bridge says more.
    let bridged = match &loops.way {
        Way::Balanced { drive, lifted, .. } => *lifted || matches!(drive, Drive::Floating(_)),
        _ => false,
    };
    if !in_lead && arm.is_some() && bridged {
        return bridge(values, sheet, line);
    }
    let mut filling = copied(&ground_loop::CALCULATOR, values)?;
    let arm_r = arm.map_or(0.0, |arm| arm.shield_r);
    let (shield_r, rest) = if in_lead { (loops.lead_r(), loops.run_r) } else { (loops.run_r, arm_r) };
    match arm.map(|arm| arm.cause) {
        Some(Cause::Difference { volts, earth_r }) => {
            filling.put("difference", volts, Unit::Volt);
            // What else is in the loop counts to the path of the earth.
            filling.put("earth_r", earth_r + rest, Unit::Ohm);
        }
        Some(_) => {
            filling.choose("cause", "leakage");
            filling.put("leakage", values.number("leakage_current")?, Unit::Ampere);
        }
        None => filling.put("difference", 0.0, Unit::Volt),
    }
    if shield_r > 0.0 {
        let (first, run) = (values.number("lead_length")?, values.number("run_length")?);
        let length = match (in_lead, loops.through) {
            (true, _) => first,
            (false, true) => first + run,
            (false, false) => run,
        };
        filling.put("lead_length", length, Unit::Metre);
        let contacts = shield_r - values.number("shield_r")? * length;
        filling.put("contact_r", contacts / 2.0, Unit::Ohm);
    }
    // Hum stands in series with the signal there.
    let behind = if in_lead { chain.transfer(MIDBAND) } else { chain.last().transfer_behind(chain.run, MIDBAND) };
    let signal = emf(values)? * (chain.transfer(MIDBAND) / behind).norm();
    filling.put("signal", signal, Unit::Volt);
    let mains = mains(values)?;
    match (&loops.way, loops.line(chain, mains)) {
        (Way::Isolated { circuit_r, .. }, _) if !in_lead => {
            filling.choose("connection", "isolated");
            filling.put("circuit_r", *circuit_r, Unit::Ohm);
        }
        (_, Some((balanced, _))) if !in_lead => {
            filling.choose("connection", "balanced");
            filling.put("rejection", balanced.rejection(mains), Unit::Decibel);
        }
        _ => filling.choose("connection", "unbalanced"),
    }
    sheet.link_to("link-hum", &[], &filling);
    Ok(())
}

/// The legs of a balanced run under the voltage between its two ends.
fn bridge(values: &Values, sheet: &mut Sheet, line: &Line) -> Result<(), Fault> {
    let mains = mains(values)?;
    let Some((balanced, z)) = line.loops.line(&line.chain, mains) else { return Ok(()) };
    let mut filling = copied(&balance::CALCULATOR, values)?;
    if balanced.floating.is_some() {
        filling.choose("drive", "floating");
        filling.put("floating_c", values.number("winding_c")?, Unit::Farad);
    }
    filling.put("leg_r", z.re / 2.0, Unit::Ohm);
    filling.put("imbalance", values.number("imbalance")?.min(z.re), Unit::Ohm);
    let common_mode = line.loops.common_mode(&line.chain, mains);
    filling.put_up_to(DANGEROUS_DIFFERENCE, "difference", common_mode, Unit::Volt);
    sheet.link_to("link-balance", &[], &filling);
    Ok(())
}

/// Direct current that meets more than this is blocked by a capacitor, Ω.
const BLOCKED: f64 = 1e9;

/// The run as the way of phantom from this supply, to a box or onto an output.
pub(super) fn phantom(values: &Values, sheet: &mut Sheet, on: &str, output_r: Option<f64>) -> Result<(), Fault> {
    if !sheet.wants_words() {
        return Ok(());
    }
    let (length, core_r) = (values.number("run_length")?, values.number("run_r")? / 2.0);
    let mut filling = copied(&supply::CALCULATOR, values)?;
    filling.choose("supply", on);
    filling.put("lead_length", length, Unit::Metre);
    filling.put("core_r", core_r, Unit::OhmPerMetre);
    let from = supply::supply(on);
    let whole_r = (from.feed_r + core_r * length) / 2.0 + values.number("shield_r")? * length;
    if output_r.is_none() && values.number("current")? * whole_r > from.volts {
        // No supply gives that, and there it is said instead of computed.
        return Ok(());
    }
    if let Some(r) = output_r {
        filling.choose("path", "adaptor");
        filling.put("output_r", Some(r).filter(|r| *r <= BLOCKED), Unit::Ohm);
    }
    sheet.link_to("link-phantom", &[], &filling);
    Ok(())
}
