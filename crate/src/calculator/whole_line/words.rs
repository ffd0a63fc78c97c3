//! A line in words: what was found held against what is asked of it, each with
//! a link to the calculator that shows the working.

use super::blame::Blame;
use super::hum::RunConnection;
use super::line::{Fed, Line, Phantom, shorts_bridge};
use super::links;
use crate::calculator::level_chain::{Point, because_of_headroom};
use crate::calculator::noise_floor::loudest;
use crate::fault::Fault;
use crate::field::Values;
use crate::field::direct_box::{GROUND, Ground};
use crate::field::earth::{POWER, Power};
use crate::field::loudspeaker::{POWER_AMPLIFIER, PowerAmplifier, SPEAKER_EMF, TAKE_OFF, TAKE_OFF_R};
use crate::field::mains::mains;
use crate::field::microphone::MICROPHONE_CURRENT;
use crate::field::phantom::{CURRENT, ConsolePhantom, PHANTOM, Supply};
use crate::field::question::{
    BASS, HEADROOM, HUM_LEAST, LEVEL_LEAST, LOAD_RATIO, LOSS_MOST, SNR_LEAST, TREBLE, UNBALANCED_MOST,
};
use crate::field::signal::CREST;
use crate::field::source::{SMALLEST_LOAD, SOURCE, SourceKind};
use crate::field::thru::THRU;
use crate::part::{Between, Feeding};
use crate::quantity::Unit;
use crate::quantity::level::{HALF_POWER, dbu, ratio};
use crate::report::{HEARD, Sheet, Tone};
use crate::words::Arg;

/// Writes down what was found of a line.
pub(in crate::calculator) fn write(values: &Values, line: &Line, sheet: &mut Sheet) -> Result<(), Fault> {
    // What is not fed does not work, however good all else is.
    let dead = is_dead(&line.phantom);
    if dead {
        phantom(values, line, sheet)?;
    }
    tone(values, line, sheet)?;
    noise(values, line, sheet)?;
    hum(values, line, sheet)?;
    levels(values, line, sheet)?;
    unbalanced(values, line, sheet)?;
    load(values, line, sheet)?;
    take_off(values, sheet)?;
    if dead { Ok(()) } else { phantom(values, line, sheet) }
}

/// Whether something is without its supply, or stands where it may do harm.
fn is_dead(phantom: &Phantom) -> bool {
    match *phantom {
        Phantom::Missing(_) | Phantom::OnSource { .. } | Phantom::OnRibbon { .. } => true,
        Phantom::Feeds { volts, least, .. } => volts < least,
        Phantom::Idle | Phantom::Unbalanced | Phantom::OnOutput => false,
    }
}

/// From this share of what may be lost on, it is worth a look (common practice,
/// no source).
const CLOSE: f64 = 0.5;

/// Where a pickup resonates with the lead alone.
const RESONANCE_OF_LEAD: &str = "1/(2*pi*sqrt(L_P*(C_W + C′*l)))";

fn tone(values: &Values, line: &Line, sheet: &mut Sheet) -> Result<(), Fault> {
    let (treble, bass, most) = (values.number(TREBLE)?, values.number(BASS)?, values.number(LOSS_MOST)?);
    let (worse, f) = line.tone.worse;
    sheet.headline_loss("loss", line.tone.treble, &[("f", Arg::Entry(treble, Unit::Hertz))]);
    let by = if sheet.wants_words() {
        let blame = Blame::new(line, f);
        if worse < HEARD || blame.is_of_lead() {
            match values.choice(SOURCE)? {
                SourceKind::Pickup => sheet.because("loss.because-pickup", "f_0", RESONANCE_OF_LEAD)?,
                SourceKind::Output => sheet.because("loss.because", "f_c", "1/(2*pi*R_S*C′*l)")?,
                _ => {}
            }
        }
        blame.working(&mut sheet.working, f)?;
        vec![blame.words(worse)]
    } else {
        vec![]
    };
    let args = [
        ("limit", Arg::Entry(most, Unit::Decibel)),
        ("loss", Arg::Quantity(worse, Unit::Decibel)),
        ("f", Arg::Entry(f, Unit::Hertz)),
        ("by", Arg::Messages(by)),
    ];
    let (tone, word) = match worse {
        worse if worse > most => (Tone::Trouble, "verdict-tone-lost"),
        worse if worse > CLOSE * most => (Tone::Watch, "verdict-tone-kept"),
        worse if worse < HEARD => (Tone::Fine, "verdict-tone-whole"),
        _ => (Tone::Fine, "verdict-tone-kept"),
    };
    let at_bass = [("f", Arg::Entry(bass, Unit::Hertz))];
    if line.tone.bass > line.tone.treble && worse > most {
        // What is missed is told of the end at which it is.
        let treble =
            if line.tone.treble > most { (Tone::Trouble, "verdict-too") } else { (Tone::Fine, "verdict-treble-kept") };
        sheet.verdict(treble.0, treble.1, &args);
        sheet.headline_loss("loss_bass", line.tone.bass, &at_bass);
        sheet.verdict(tone, word, &args);
    } else {
        sheet.verdict(tone, word, &args);
        sheet.further_loss("loss_bass", line.tone.bass, &at_bass);
    }
    links::tone(values, sheet, line, f)
}

fn noise(values: &Values, line: &Line, sheet: &mut Sheet) -> Result<(), Fault> {
    let least = values.number(SNR_LEAST)?;
    let (loudest, share) = loudest(&line.floor.parts);
    let args = [
        ("limit", Arg::Entry(least, Unit::Decibel)),
        ("share", Arg::Quantity(share, Unit::Percent)),
        ("by", Arg::Key(format!("whole-line-noise-{loudest}"))),
    ];
    sheet.headline("snr", line.signal.snr, Unit::Decibel, &[]);
    keep(sheet, line.signal.snr, least, ["verdict-noise-kept", "verdict-noise-lost"], &args);
    sheet.further("noise", line.floor.noise, Unit::DecibelU, &[]);
    sheet.further("noise_a", line.floor.noise_a, Unit::DecibelU, &[]);
    sheet.further("snr_a", line.signal.snr_a, Unit::Decibel, &[]);
    sheet.further("input_gain", line.gain, Unit::Decibel, &[]);
    links::noise(values, sheet, line)
}

fn hum(values: &Values, line: &Line, sheet: &mut Sheet) -> Result<(), Fault> {
    let (hum, least) = (&line.hum, values.number(HUM_LEAST)?);
    let [all, by_lead, by_run, stray] = hum.weighted;
    let by = match line.loops.run {
        _ if stray >= by_lead.max(by_run) => "stray",
        _ if by_lead >= by_run => "lead",
        RunConnection::Balanced { lifted: true, .. } => "lifted",
        RunConnection::Balanced { .. } => "balanced",
        RunConnection::Isolated { .. } => "isolated",
        RunConnection::Unbalanced => "run",
    };
    sheet.headline("signal_to_hum", hum.distance, Unit::Decibel, &[]);
    let args = [("limit", Arg::Entry(least, Unit::Decibel)), ("by", Arg::Key(format!("whole-line-hum-{by}")))];
    if all > 0.0 {
        keep(sheet, hum.distance, least, ["verdict-hum-kept", "verdict-hum-lost"], &args);
    } else {
        sheet.verdict(Tone::Fine, "verdict-hum-none", &[]);
    }
    sheet.further("hum", hum.level(), Unit::DecibelU, &[]);
    sheet.further("hum_a", hum.level_a, Unit::DecibelU, &[]);
    if stray > 0.0 {
        sheet.further("hum_stray", dbu(stray), Unit::DecibelU, &[]);
    }
    if let Some(distance) = hum.amplifier {
        sheet.further("amplifier_hum", distance, Unit::Decibel, &[]);
        let args = [("limit", Arg::Entry(least, Unit::Decibel))];
        // Source and amplifier on earths of their own make a loop that never goes through the lift.
        let star = &line.loops.star;
        let apart = star.source.is_some() && values.choice(POWER)?.is_earthed() && !star.same_earth;
        let lifted = values.choice(GROUND)? == Ground::Lifted;
        let hums = if lifted || apart { "verdict-amplifier-loop" } else { "verdict-amplifier-hums" };
        keep(sheet, distance, least, ["verdict-amplifier-quiet", hums], &args);
    }
    if line.must_stop() {
        sheet.stop();
    }
    if line.loops.star.is_driven() {
        loops(values, line, sheet)?;
    }
    links::hum(values, sheet, line, by_lead >= by_run)
}

fn loops(values: &Values, line: &Line, sheet: &mut Sheet) -> Result<(), Fault> {
    let mains = mains(values)?;
    let [_, by_lead, by_run, _] = line.hum.weighted;
    sheet.further("hum_lead", dbu(by_lead), Unit::DecibelU, &[]);
    sheet.further("hum_run", dbu(by_run), Unit::DecibelU, &[]);
    sheet.further("loop_current", line.hum.current, Unit::Ampere, &[]);
    if let Some((balanced, _)) = line.loops.line(&line.chain, mains) {
        let at_f = [("f", Arg::Quantity(mains, Unit::Hertz))];
        sheet.further("rejection", balanced.rejection(mains), Unit::Decibel, &at_f);
    }
    let apart = matches!(line.loops.run, RunConnection::Isolated { .. } | RunConnection::Balanced { lifted: true, .. });
    if apart && values.choice(POWER)? == Power::Leaking && !values.choice(THRU)?.is_earthed() {
        sheet.warn("floats", &[]);
    }
    Ok(())
}

fn levels(values: &Values, line: &Line, sheet: &mut Sheet) -> Result<(), Fault> {
    let (margin, headroom) = (line.margin, values.number(HEADROOM)?);
    let args = [("point", Arg::Key(line.tightest.to_owned())), ("limit", Arg::Entry(headroom, Unit::Decibel))];
    sheet.headline("margin", margin, Unit::Decibel, &[]);
    because_of_headroom(sheet)?;
    if margin < 0.0 {
        sheet.verdict(Tone::Trouble, "verdict-clips", &args);
    } else {
        keep(sheet, margin, headroom, ["verdict-room-kept", "verdict-room-lost"], &args);
    }
    sheet.further("level", line.signal.signal, Unit::DecibelU, &[]);
    let pairs = line.points.iter().zip(line.points.iter().skip(1));
    let change = |(a, b): &(&Point, &Point)| b.level - a.level;
    let least = values.optional(LEVEL_LEAST)?.filter(|least| line.signal.signal < *least);
    if let Some(least) = least {
        sheet.verdict(Tone::Trouble, "verdict-faint", &[("least", Arg::Entry(least, Unit::DecibelU))]);
    } else if let Some(most) = pairs.max_by(|a, b| change(a).abs().total_cmp(&change(b).abs())) {
        let by = [
            ("by", Arg::Quantity(change(&most), Unit::Decibel)),
            ("from", Arg::Key(most.0.names.point.to_owned())),
            ("to", Arg::Key(most.1.names.point.to_owned())),
        ];
        sheet.verdict(Tone::Fine, "verdict-level", &by);
    }
    sheet.further("level_change", line.signal.gain, Unit::Decibel, &[]);
    links::levels(values, sheet, line)
}

/// Writes a reading with those to read first where it misses its limit.
fn written(sheet: &mut Sheet, missed: bool, id: &'static str, value: f64, unit: Unit) {
    if missed {
        sheet.headline(id, value, unit, &[]);
    } else {
        sheet.further(id, value, unit, &[]);
    }
}

/// How much unbalanced line lies before the console.
fn unbalanced(values: &Values, line: &Line, sheet: &mut Sheet) -> Result<(), Fault> {
    let Some(length) = line.unbalanced() else { return Ok(()) };
    let most = values.optional(UNBALANCED_MOST)?;
    let parts = if line.rig.between == Between::Nothing { line.loops.unbalanced } else { [0.0, length] };
    sheet.working.given("l_1u", parts[0], Unit::Metre);
    sheet.working.given("l_3u", parts[1], Unit::Metre);
    let length = sheet.working.step("unbalanced", "l_u", "l_1u + l_3u", Unit::Metre)?;
    written(sheet, most.is_some_and(|most| length > most), "unbalanced", length, Unit::Metre);
    let Some(most) = most else { return Ok(()) };
    let args = [("most", Arg::Entry(most, Unit::Metre))];
    let (tone, word) = if length > most {
        // Where a box stands already, another one would not help.
        let is_behind = line.rig.between != Between::Nothing;
        (Tone::Trouble, if is_behind { "verdict-unbalanced-behind" } else { "verdict-unbalanced-long" })
    } else {
        (Tone::Fine, "verdict-unbalanced-short")
    };
    sheet.verdict(tone, word, &args);
    Ok(())
}

/// What the source sees, held against its own resistance and what its maker allows.
fn load(values: &Values, line: &Line, sheet: &mut Sheet) -> Result<(), Fault> {
    if let Some(ratio) = line.load_ratio {
        let least = values.number(LOAD_RATIO)?;
        sheet.working.given("Z_ld", line.load, Unit::Ohm);
        sheet.working.given("Z_so", line.load / ratio, Unit::Ohm);
        let ratio = sheet.working.step("load_ratio", "k", "Z_ld/Z_so", Unit::One)?;
        let args = [("least", Arg::Entry(least, Unit::One)), ("load", Arg::Quantity(line.load, Unit::Ohm))];
        written(sheet, ratio < least, "load_ratio", ratio, Unit::One);
        let (tone, word) =
            if ratio < least { (Tone::Trouble, "verdict-load-low") } else { (Tone::Fine, "verdict-load-high") };
        sheet.verdict(tone, word, &args);
    }
    sheet.further("impedance", line.load, Unit::Ohm, &[]);
    if let Some(least) = values.optional(SMALLEST_LOAD)? {
        let args = [("least", Arg::Entry(least, Unit::Ohm))];
        let (tone, word) = if line.load < least {
            (Tone::Trouble, "verdict-below-smallest")
        } else {
            (Tone::Fine, "verdict-above-smallest")
        };
        sheet.verdict(tone, word, &args);
    }
    Ok(())
}

/// What usual resistors in a box stand, W (common practice, no source).
const MOST_HEAT: f64 = 0.5;

/// What a take-off from loudspeaker terminals gets, and what must not be done there.
fn take_off(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    if values.choice(SOURCE)? != SourceKind::Loudspeaker {
        return Ok(());
    }
    if values.number(TAKE_OFF)? > 0.0 {
        // A pad that stands the amplifier's largest sine stands its music.
        let peak = values.number(SPEAKER_EMF)? * ratio(values.number(CREST)? - HALF_POWER);
        let heat = peak.powi(2) / values.number(TAKE_OFF_R)?;
        let args = [("most", Arg::Quantity(MOST_HEAT, Unit::Watt))];
        let (tone, word) = if heat > MOST_HEAT {
            (Tone::Trouble, "verdict-take-off-hot")
        } else {
            (Tone::Fine, "verdict-take-off-cool")
        };
        sheet.further("take_off_heat", heat, Unit::Watt, &[]);
        sheet.verdict(tone, word, &args);
    }
    match values.choice(POWER_AMPLIFIER)? {
        _ if shorts_bridge(values)? => sheet.warn("bridged-shorted", &[]),
        PowerAmplifier::Grounded => sheet.warn("take-off-grounded", &[]),
        PowerAmplifier::Bridged => sheet.warn("take-off-bridged", &[]),
        PowerAmplifier::Valve => sheet.warn("take-off-valve", &[]),
    }
    Ok(())
}

/// The share of the resistance in the way that is most of it.
const MOST: f64 = 0.5;

/// What phantom does on the line, where it does anything.
fn phantom(values: &Values, line: &Line, sheet: &mut Sheet) -> Result<(), Fault> {
    match line.phantom {
        Phantom::Idle => {}
        Phantom::Missing(fed) => {
            sheet.headline("supply", 0.0, Unit::Volt, &[("fed", named(fed))]);
            let word = match (fed, values.choice(PHANTOM)?) {
                (Fed::Box, _) => "verdict-no-supply",
                (Fed::Microphone, ConsolePhantom::Off) => "verdict-microphone-no-supply",
                (Fed::Microphone, _) => "verdict-microphone-cut-off",
            };
            sheet.verdict(Tone::Trouble, word, &[]);
            links::phantom(values, sheet, Supply::P48, fed, None)?;
        }
        Phantom::Feeds { fed, supply, volts, least, feed_share } => {
            feeds(values, sheet, fed, supply, [volts, least, feed_share])?;
            links::phantom(values, sheet, supply, fed, None)?;
        }
        Phantom::OnSource { supply, volts, output_r } => {
            sheet.headline("supply_on_source", volts, Unit::Volt, &[]);
            sheet.verdict(Tone::Trouble, "verdict-on-source", &[]);
            links::phantom(values, sheet, supply, Fed::Box, Some(output_r))?;
        }
        Phantom::OnRibbon { supply } => {
            sheet.headline("phantom_on_ribbon", supply.values().volts, Unit::Volt, &[]);
            sheet.verdict(Tone::Trouble, "verdict-on-ribbon", &[]);
            sheet.warn("phantom-ribbon", &[]);
        }
        Phantom::Unbalanced => sheet.warn("phantom-unbalanced", &[]),
        Phantom::OnOutput => sheet.warn("phantom-line", &[]),
    }
    Ok(())
}

fn named(fed: Fed) -> Arg {
    Arg::Key(match fed {
        Fed::Box => "whole-line-fed-box".to_owned(),
        Fed::Microphone => "whole-line-fed-microphone".to_owned(),
    })
}

/// The voltage at what is fed, the least that it works at, and the feed's share of
/// the resistance in its way.
fn feeds(
    values: &Values,
    sheet: &mut Sheet,
    fed: Fed,
    supply: Supply,
    [volts, least, feed_share]: [f64; 3],
) -> Result<(), Fault> {
    let supply = supply.values();
    let by = if feed_share >= MOST { "whole-line-supply-feed" } else { "whole-line-supply-lead" };
    let args = [
        ("fed", named(fed)),
        ("least", Arg::Entry(least, Unit::Volt)),
        ("lost", Arg::Quantity(supply.volts - volts, Unit::Volt)),
        ("by", Arg::Key(by.to_owned())),
    ];
    let current = match fed {
        Fed::Box => CURRENT,
        Fed::Microphone => MICROPHONE_CURRENT,
    };
    let is_over = values.number(current)? > supply.most;
    let (tone, word) = match Feeding::by(volts, volts - supply.tolerance, least) {
        Feeding::Starved => (Tone::Trouble, "verdict-starved"),
        Feeding::Tight => (Tone::Watch, "verdict-supply-tight"),
        // Another console may not deliver more than the standard allows.
        Feeding::Runs if is_over => (Tone::Watch, "verdict-runs"),
        Feeding::Runs => (Tone::Fine, "verdict-runs"),
    };
    let name = [("fed", named(fed))];
    match tone {
        Tone::Fine => sheet.further("supply", volts, Unit::Volt, &name),
        Tone::Watch | Tone::Trouble => sheet.headline("supply", volts, Unit::Volt, &name),
    }
    sheet.verdict(tone, word, &args);
    if is_over {
        sheet.warn("over", &[("most", Arg::Quantity(supply.most, Unit::Ampere))]);
    }
    Ok(())
}

/// A distance in dB held against the least that is wanted.
fn keep(sheet: &mut Sheet, got: f64, least: f64, [kept, lost]: [&'static str; 2], args: &[(&'static str, Arg)]) {
    let tone = graded(got - least);
    sheet.verdict(tone, if tone == Tone::Trouble { lost } else { kept }, args);
}

/// What to make of a distance that is so many dB over its limit.
pub(crate) fn graded(over: f64) -> Tone {
    match over {
        over if over < 0.0 => Tone::Trouble,
        over if over < NEAR => Tone::Watch,
        _ => Tone::Fine,
    }
}

/// This near to a limit is worth a look, dB (common practice, no source).
const NEAR: f64 = 3.0;
