//! Links to the calculators that show the working of what was found, filled in
//! with the line.

use super::CALCULATOR;
use super::hum::RunConnection;
use super::line::{Fed, Line, givens};
use crate::calculator::Calculator;
use crate::calculator::{
    balance, ground_loop, ground_loop::OTHER_HUM, level_chain, noise_floor, phantom as phantom_supply, pickup,
    source_load,
};
use crate::fault::Fault;
use crate::field::connection::{CIRCUIT_R, CONNECTION, ConnectionKind, REJECTION};
use crate::field::earth::{
    CAUSE, CauseKind, DANGEROUS_DIFFERENCE, EARTH_R, EARTH_VOLTS, LEAKAGE_CURRENT, SUPPLY_LEAKAGE,
};
use crate::field::lead::{CONTACT_R, LEAD_LENGTH, SHIELD_R};
use crate::field::leg::{DRIVE, DriveKind, FLOATING_C, IMBALANCE, LEG_R};
use crate::field::load::{LOAD_C, LOAD_R};
use crate::field::loudspeaker::SPEAKER_R;
use crate::field::mains::mains;
use crate::field::microphone::{MICROPHONE_CURRENT, MICROPHONE_LEAST, MICROPHONE_R};
use crate::field::phantom::{CORE_R, CURRENT, LEAST, OUTPUT_R, PATH, PhantomPath, SUPPLY, Supply};
use crate::field::piezo::PIEZO_C;
use crate::field::preamp::INPUT_GAIN;
use crate::field::question::{FREQUENCY, TREBLE};
use crate::field::receiver::{INPUT_R, INPUT_SPREAD};
use crate::field::run::{RUN_LENGTH, RUN_R};
use crate::field::signal::SIGNAL;
use crate::field::source::{COUPLING_C, EMF, OUTPUT_C, SOURCE, SOURCE_C, SOURCE_R, SourceKind, emf};
use crate::field::transformer::WINDING_C;
use crate::field::{Filling, Values};
use crate::network::{MIDBAND, Node, a_weighting};
use crate::part::{Between, Cause, Drive, PhantomFeed};
use crate::quantity::Unit;
use crate::report::Sheet;
use crate::words::Arg;
use crate::working::Working;
use std::f64::consts::TAU;

fn copied(calculator: &'static Calculator, values: &Values) -> Result<Filling, Fault> {
    calculator.filling_from(&CALCULATOR, values)
}

/// Source and first lead, and all that follows as one load, which is exact at
/// the frequency in question unless it is inductive there.
pub(super) fn tone(values: &Values, sheet: &mut Sheet, line: &Line, frequency: f64) -> Result<(), Fault> {
    if !sheet.wants_all_words() {
        return Ok(());
    }
    let kind = values.choice(SOURCE)?;
    // A pickup's own page asks for its treble.
    let at_treble = kind == SourceKind::Pickup && frequency <= MIDBAND;
    let frequency = if at_treble { values.number(TREBLE)? } else { frequency };
    let y = line.chain.first.looking_on(line.chain.behind_lead, frequency).inv();
    let mut filling =
        copied(if kind == SourceKind::Pickup { &pickup::CALCULATOR } else { &source_load::CALCULATOR }, values)?;
    filling.put(LOAD_R, 1.0 / y.re.max(0.0));
    filling.put(LOAD_C, y.im.max(0.0) / (TAU * frequency));
    filling.put(FREQUENCY, frequency);
    if kind != SourceKind::Pickup {
        filling.put(EMF, line.open_volts);
        filling.put(SOURCE_C, line.rig.lead.capacitance());
    }
    match kind {
        SourceKind::Piezo => {
            filling.put(SOURCE_R, 0.0);
            filling.put(COUPLING_C, values.number(PIEZO_C)?);
        }
        SourceKind::Microphone => filling.put(SOURCE_R, values.number(MICROPHONE_R)?),
        SourceKind::Loudspeaker => filling.put(SOURCE_R, values.number(SPEAKER_R)?),
        SourceKind::Output | SourceKind::Balanced => filling.put(COUPLING_C, values.optional(OUTPUT_C)?),
        SourceKind::Pickup => {}
    }
    let word = if y.im < 0.0 { "link-tone-inductive" } else { "link-tone" };
    sheet.link_to(word, &[("f", Arg::Entry(frequency, Unit::Hertz))], &filling);
    Ok(())
}

/// What stands at the end of the first lead, or behind the pad of a loudspeaker, as a
/// plain source: what a split or a pad makes of it is in there.
fn as_output(filling: &mut Filling, values: &Values, line: &Line, node: Node) -> Result<(), Fault> {
    let first = &line.chain.first;
    let through = first.tapped(node).transfer(MIDBAND).norm();
    let (back, on) = (first.looking_back(node, MIDBAND), first.looking_on(node, MIDBAND));
    filling.choose(SOURCE, SourceKind::Output);
    filling.put(EMF, emf(values)? * through * ((back + on) / on).norm());
    filling.put(SOURCE_R, back.re);
    filling.put(LEAD_LENGTH, 0.0);
    Ok(())
}

/// The source for a calculator that knows no split and no pad of a loudspeaker.
fn fed(filling: &mut Filling, values: &Values, line: &Line) -> Result<(), Fault> {
    let kind = values.choice(SOURCE)?;
    let is_split = line.rig.between == Between::Nothing && line.rig.thru.is_some();
    match kind {
        SourceKind::Loudspeaker => as_output(filling, values, line, line.chain.at_box),
        SourceKind::Microphone | SourceKind::Balanced if is_split => {
            as_output(filling, values, line, line.chain.at_box)
        }
        SourceKind::Balanced => {
            filling.choose(SOURCE, SourceKind::Output);
            Ok(())
        }
        SourceKind::Pickup | SourceKind::Piezo | SourceKind::Output | SourceKind::Microphone => {
            filling.choose(SOURCE, kind);
            Ok(())
        }
    }
}

/// Where the noise of the same rig comes from.
pub(super) fn noise(values: &Values, sheet: &mut Sheet, line: &Line) -> Result<(), Fault> {
    if !sheet.wants_all_words() {
        return Ok(());
    }
    let mut filling = copied(&noise_floor::CALCULATOR, values)?;
    fed(&mut filling, values, line)?;
    sheet.link_to("link-noise", &[], &filling);
    Ok(())
}

/// Level by level from the source.
pub(super) fn levels(values: &Values, sheet: &mut Sheet, line: &Line) -> Result<(), Fault> {
    if !sheet.wants_all_words() {
        return Ok(());
    }
    let mut filling = copied(&level_chain::CALCULATOR, values)?;
    // Rounded down, or what is written might take the headroom that it was set to keep.
    filling.put(INPUT_GAIN, (1e4 * line.gain + 1e-6).floor() / 1e4);
    fed(&mut filling, values, line)?;
    sheet.link_to("link-levels", &[], &filling);
    Ok(())
}

/// The loop in which most of the hum comes in: the first lead's, or the run's.
pub(super) fn hum(values: &Values, sheet: &mut Sheet, line: &Line, in_lead: bool) -> Result<(), Fault> {
    if !sheet.wants_all_words() {
        return Ok(());
    }
    let (loops, chain) = (&line.loops, &line.chain);
    let arm = loops.star.source.or(loops.star.amplifier);
    // The rejection of a floating source falls with frequency, and lifted there is
    // no shield whose drop a loop could show: there the bridge says more.
    let bridged = match &loops.run {
        RunConnection::Balanced { drive, lifted, .. } => *lifted || matches!(drive, Drive::Floating(_)),
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
            filling.put(EARTH_VOLTS, volts);
            // What else is in the loop counts to the path of the earth.
            filling.put(EARTH_R, earth_r + rest);
        }
        Some(_) => {
            filling.choose(CAUSE, CauseKind::Leakage);
            filling.put(LEAKAGE_CURRENT, values.number(SUPPLY_LEAKAGE)?);
        }
        None => filling.put(EARTH_VOLTS, 0.0),
    }
    if shield_r > 0.0 {
        let (first, run) = (values.number(LEAD_LENGTH)?, values.number(RUN_LENGTH)?);
        let length = match (in_lead, loops.through) {
            (true, _) => first,
            (false, true) => first + run,
            (false, false) => run,
        };
        filling.put(LEAD_LENGTH, length);
        let contacts = shield_r - values.number(SHIELD_R)? * length;
        filling.put(CONTACT_R, contacts / 2.0);
    }
    // Hum stands in series with the signal there.
    let behind =
        if in_lead { chain.transfer(MIDBAND) } else { chain.last().transfer_behind(chain.before_run, MIDBAND) };
    let signal = emf(values)? * (chain.transfer(MIDBAND) / behind).norm();
    filling.put(SIGNAL, signal);
    // What the mains around puts in, as so much at every harmonic: the same A-weighted.
    let flat = loops.spectrum.sum(|_| 1.0, a_weighting);
    filling.put(OTHER_HUM, Some(line.hum.weighted[3] / flat / behind.norm()).filter(|volts| *volts > 0.0));
    let mains = mains(values)?;
    match (&loops.run, loops.line(chain, mains)) {
        (RunConnection::Isolated { circuit_r, .. }, _) if !in_lead => {
            filling.choose(CONNECTION, ConnectionKind::Isolated);
            filling.put(CIRCUIT_R, *circuit_r);
        }
        (_, Some((balanced, _))) if !in_lead => {
            filling.choose(CONNECTION, ConnectionKind::Balanced);
            filling.put(REJECTION, balanced.rejection(mains));
        }
        _ => filling.choose(CONNECTION, ConnectionKind::Unbalanced),
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
        filling.choose(DRIVE, DriveKind::Floating);
        filling.put(FLOATING_C, values.number(WINDING_C)?);
    }
    if let RunConnection::Balanced { receiver, .. } = &line.loops.run {
        filling.put(INPUT_R, receiver.r);
        filling.put(INPUT_SPREAD, receiver.spread);
    }
    filling.put(LEG_R, z.re / 2.0);
    filling.put(IMBALANCE, values.number(IMBALANCE)?.min(z.re));
    let common_mode = line.loops.common_mode(&line.chain, mains);
    filling.put_up_to(DANGEROUS_DIFFERENCE, EARTH_VOLTS, common_mode);
    sheet.link_to("link-balance", &[], &filling);
    Ok(())
}

/// Direct current that meets more than this is blocked by a capacitor, Ω.
const BLOCKED: f64 = 1e9;

/// The run as the way of phantom from this supply, to a box or onto an output.
pub(super) fn phantom(
    values: &Values,
    sheet: &mut Sheet,
    supply: Supply,
    fed: Fed,
    output_r: Option<f64>,
) -> Result<(), Fault> {
    if !sheet.wants_all_words() {
        return Ok(());
    }
    let (mut length, core_r) = (values.number(RUN_LENGTH)?, values.number(RUN_R)? / 2.0);
    let mut filling = copied(&phantom_supply::CALCULATOR, values)?;
    let current = match fed {
        Fed::Box => values.number(CURRENT)?,
        Fed::Microphone => {
            length += values.number(LEAD_LENGTH)?;
            filling.put(CURRENT, values.number(MICROPHONE_CURRENT)?);
            filling.put(LEAST, values.number(MICROPHONE_LEAST)?);
            values.number(MICROPHONE_CURRENT)?
        }
    };
    filling.choose(SUPPLY, supply);
    filling.put(LEAD_LENGTH, length);
    filling.put(CORE_R, core_r);
    let mut working = Working::new(CALCULATOR.id, false);
    givens(values, &mut working, supply)?;
    working.given("l", length, Unit::Metre);
    let whole_r = working.value(&PhantomFeed { legs: 2.0 }.whole_r())?;
    if output_r.is_none() && current * whole_r > supply.values().volts {
        // No supply gives that, and there it is said instead of computed.
        return Ok(());
    }
    if let Some(r) = output_r {
        filling.choose(PATH, PhantomPath::Adaptor);
        filling.put(OUTPUT_R, Some(r).filter(|r| *r <= BLOCKED));
    }
    sheet.link_to("link-phantom", &[], &filling);
    Ok(())
}
