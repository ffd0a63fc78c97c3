//! What becomes of the signal on a line, held against what is asked of it.

use super::super::ground_loop::{dbu, is_faulty};
use super::super::level_chain::{Point, noise_by_point, points, tightest};
use super::super::noise_floor::{Floor, Signal, floor, loudest, signal};
use super::super::phantom::{adaptor, supply, voltage, whole_r};
use super::super::report::Tone;
use super::super::shared::{console, mains};
use super::super::{Fault, Sheet, Values};
use super::hum::{Hum, Loops, Way};
use super::proof;
use super::rig::{check, emf, is_balanced, rig};
use crate::network::{AUDIO_BAND, MIDBAND, Path, ROOM, Response as _};
use crate::part::{Between, Chain, Lead, Rig, Transformer};
use crate::quantity::Unit;
use crate::words::Arg;

/// A line as it was found.
pub(in super::super) struct Line {
    pub rig: Rig,
    pub chain: Chain,
    /// The source with nothing connected.
    pub alone: Path,
    pub points: Vec<Point>,
    /// The point with the least margin, and that margin, dB.
    pub tightest: &'static str,
    pub margin: Option<f64>,
    pub loops: Loops,
    /// What was found, in the order of the report and of its links.
    pub findings: Vec<Finding>,
    /// Whether it is a case for an electrician first.
    pub stop: bool,
}

/// One thing that was found.
pub(in super::super) struct Finding {
    /// Its reading in the report.
    pub id: &'static str,
    /// What is left over a limit, dB; nothing where there is none to keep, or
    /// no end to it.
    pub margin: Option<Margin>,
    /// Whether it makes the line one that must not be.
    pub refused: bool,
}

/// A limit counts as no less than this, dB.
const LEAST_LIMIT: f64 = 1.0;

/// What is left over a limit.
#[derive(Clone, Copy, Debug)]
pub(in super::super) struct Margin {
    /// dB, negative where the limit is broken.
    pub left: f64,
    /// The limit, dB.
    pub limit: f64,
}

impl Margin {
    fn new(left: f64, limit: f64) -> Option<Self> {
        left.is_finite().then_some(Self { left, limit })
    }

    /// What is left re the limit: 3 dB of tone are as much as 60 dB of noise,
    /// where that is what is asked.
    pub fn share(self) -> f64 {
        self.left / self.limit.max(LEAST_LIMIT)
    }
}

impl Line {
    /// How much more than the source alone the line loses at a frequency in Hz,
    /// each re its own level at 1 kHz, dB.
    pub fn loss(&self, frequency: f64) -> f64 {
        lost(&self.alone, &self.chain, frequency)
    }
}

fn lost(alone: &Path, chain: &Chain, frequency: f64) -> f64 {
    alone.level(frequency) - alone.level(MIDBAND) - chain.level(frequency) + chain.level(MIDBAND)
}

/// Computes a line and writes what is found: tone, noise, hum, headroom and
/// supply, each with a link to the calculator that proves it. The noise at every
/// point, for a picture of them, is computed only where it is `pictured`.
pub(in super::super) fn judge(values: &Values, sheet: &mut Sheet, pictured: bool) -> Result<Line, Fault> {
    check(values)?;
    let console = console(values, false, sheet)?;
    let rig = rig(values, sheet, console)?;
    let chain = rig.chain();
    let loops = Loops::new(values, &chain)?;
    let alone = rig.source.clone();
    let mut line = Line {
        rig,
        chain,
        alone,
        points: Vec::new(),
        tightest: "",
        margin: None,
        loops,
        findings: Vec::new(),
        stop: false,
    };
    tone(values, sheet, &mut line)?;
    let heard = noise(values, sheet, &mut line)?;
    hum(values, sheet, &mut line)?;
    levels(values, sheet, &mut line, &heard, pictured)?;
    phantom(values, sheet, &mut line)?;
    Ok(line)
}

fn tone(values: &Values, sheet: &mut Sheet, line: &mut Line) -> Result<(), Fault> {
    let (treble, bass, most) = (values.number("treble")?, values.number("bass")?, values.number("loss_most")?);
    let (at_treble, at_bass) = (line.loss(treble), line.loss(bass));
    let (worse, f) = if at_bass > at_treble { (at_bass, bass) } else { (at_treble, treble) };
    sheet.headline("loss", at_treble, Unit::Decibel, &[("f", Arg::Quantity(treble, Unit::Hertz))]);
    let by = if sheet.wants_words() { what_takes(line, f, worse) } else { "" };
    let args = [
        ("limit", Arg::Quantity(most, Unit::Decibel)),
        ("loss", Arg::Quantity(worse, Unit::Decibel)),
        ("f", Arg::Quantity(f, Unit::Hertz)),
        ("by", Arg::Key(format!("whole-line-by-{by}"))),
    ];
    let (tone, word) = match worse {
        worse if worse > most => (Tone::Trouble, "verdict-tone-lost"),
        worse if worse > CLOSE * most => (Tone::Watch, "verdict-tone-kept"),
        _ => (Tone::Fine, "verdict-tone-kept"),
    };
    sheet.verdict(tone, word, &args);
    sheet.further("loss_bass", at_bass, Unit::Decibel, &[("f", Arg::Quantity(bass, Unit::Hertz))]);
    if sheet.wants_working() {
        for (name, transfer) in [
            ("H_a", line.alone.transfer(f)),
            ("H_a1", line.alone.transfer(MIDBAND)),
            ("H_l", line.chain.transfer(f)),
            ("H_l1", line.chain.transfer(MIDBAND)),
        ] {
            sheet.given(name, transfer, Unit::One);
        }
        sheet.step("loss_step", "a_l", "20*log10(abs(H_a/H_a1)) - 20*log10(abs(H_l/H_l1))", Unit::Decibel)?;
    }
    proof::tone(values, sheet, line, f)?;
    let id = if at_bass > at_treble { "loss_bass" } else { "loss" };
    line.findings.push(Finding { id, margin: Margin::new(most - worse, most), refused: false });
    Ok(())
}

/// From this share of what may be lost on, it is worth a look (common practice,
/// no source).
const CLOSE: f64 = 0.5;

/// Less than this is no part's doing, dB (common practice, no source).
const HEARD: f64 = 0.05;

/// The part without which the least would be lost at a frequency in Hz.
fn what_takes(line: &Line, frequency: f64, loss: f64) -> &'static str {
    if loss < HEARD {
        return "nothing";
    }
    let rig = &line.rig;
    let mut variants = vec![
        ("lead", Rig { lead: Lead::NONE, ..rig.clone() }),
        ("thru", Rig { thru: None, ..rig.clone() }),
        ("run", Rig { run: Lead::NONE, ..rig.clone() }),
    ];
    let mut light = rig.clone();
    (light.console.r, light.console.c) = (f64::INFINITY, 0.0);
    variants.push(("console", light));
    match rig.between {
        Between::Nothing => {}
        Between::Passive(Transformer { ratio, .. }) => {
            let ideal = Transformer {
                ratio,
                r1: 0.0,
                r2: 0.0,
                leakage: 0.0,
                magnetising: None,
                core_loss: None,
                c1: 0.0,
                c2: 0.0,
            };
            variants.push(("box", Rig { between: Between::Passive(ideal), ..rig.clone() }));
        }
        Between::Active(mut active) => {
            (active.input.r, active.input.c) = (f64::INFINITY, 0.0);
            variants.push(("box", Rig { between: Between::Active(active), ..rig.clone() }));
        }
    }
    let gains = variants.iter().map(|(name, rig)| (*name, loss - lost(&line.alone, &rig.chain(), frequency)));
    let heard = gains.filter(|(_, gain)| *gain > HEARD);
    heard.max_by(|a, b| a.1.total_cmp(&b.1)).map_or("nothing", |(name, _)| name)
}

fn noise(values: &Values, sheet: &mut Sheet, line: &mut Line) -> Result<Signal, Fault> {
    let least = values.number("snr_least")?;
    let Floor { parts, noise, noise_a, .. } = floor(sheet, &line.chain, ROOM, &AUDIO_BAND)?;
    let heard = signal(sheet, &line.chain, emf(values)?)?;
    let (loudest, share) = loudest(&parts);
    let args = [
        ("limit", Arg::Quantity(least, Unit::Decibel)),
        ("share", Arg::Quantity(share, Unit::Percent)),
        ("by", Arg::Key(format!("whole-line-noise-{loudest}"))),
    ];
    sheet.headline("snr", heard.snr, Unit::Decibel, &[]);
    keep(sheet, heard.snr, least, ["verdict-noise-kept", "verdict-noise-lost"], &args);
    sheet.further("noise", noise, Unit::DecibelU, &[]);
    sheet.further("noise_a", noise_a, Unit::DecibelU, &[]);
    sheet.further("snr_a", heard.snr_a, Unit::Decibel, &[]);
    proof::noise(values, sheet, line)?;
    line.findings.push(Finding { id: "snr", margin: Margin::new(heard.snr - least, least), refused: false });
    Ok(heard)
}

fn hum(values: &Values, sheet: &mut Sheet, line: &mut Line) -> Result<(), Fault> {
    let least = values.number("hum_least")?;
    line.loops.working(values, sheet, &line.chain)?;
    let hum = line.loops.hum(&line.chain);
    let [level_a, to_hum] = hum.steps(sheet)?;
    let [all, by_lead, by_run] = hum.weighted;
    let by = match line.loops.way {
        _ if by_lead >= by_run => "lead",
        Way::Balanced { lifted: true, .. } => "lifted",
        Way::Balanced { .. } => "balanced",
        Way::Isolated { .. } => "isolated",
        Way::Unbalanced => "run",
    };
    sheet.headline("signal_to_hum", to_hum, Unit::Decibel, &[]);
    let args = [("limit", Arg::Quantity(least, Unit::Decibel)), ("by", Arg::Key(format!("whole-line-hum-{by}")))];
    if all > 0.0 {
        keep(sheet, to_hum, least, ["verdict-hum-kept", "verdict-hum-lost"], &args);
    } else {
        sheet.verdict(Tone::Fine, "verdict-hum-none", &[]);
    }
    sheet.further("hum", hum.level(), Unit::DecibelU, &[]);
    sheet.further("hum_a", level_a, Unit::DecibelU, &[]);
    if line.loops.star.is_driven() {
        readings_of_hum(values, sheet, line, &hum)?;
    }
    proof::hum(values, sheet, line, by_lead >= by_run)?;
    line.findings.push(Finding { id: "signal_to_hum", margin: Margin::new(to_hum - least, least), refused: false });
    Ok(())
}

fn readings_of_hum(values: &Values, sheet: &mut Sheet, line: &mut Line, hum: &Hum) -> Result<(), Fault> {
    let mains = mains(values)?;
    let [_, by_lead, by_run] = hum.weighted;
    sheet.further("hum_lead", dbu(by_lead), Unit::DecibelU, &[]);
    sheet.further("hum_run", dbu(by_run), Unit::DecibelU, &[]);
    sheet.further("current", hum.current, Unit::Ampere, &[]);
    if let Some((balanced, _)) = line.loops.line(&line.chain, mains) {
        let at_f = [("f", Arg::Quantity(mains, Unit::Hertz))];
        sheet.further("rejection", balanced.rejection(mains), Unit::Decibel, &at_f);
    }
    let causes = [line.loops.star.source, line.loops.star.amplifier].into_iter().flatten();
    if causes.into_iter().any(|arm| is_faulty(&arm.cause, &line.loops.spectrum, hum.current)) {
        sheet.warn("stop", &[]);
        line.stop = true;
    }
    let apart = matches!(line.loops.way, Way::Isolated { .. } | Way::Balanced { lifted: true, .. });
    if apart && values.choice("power")? == "leaking" && values.choice("thru")? != "earthed" {
        sheet.warn("floats", &[]);
    }
    Ok(())
}

fn levels(values: &Values, sheet: &mut Sheet, line: &mut Line, heard: &Signal, pictured: bool) -> Result<(), Fault> {
    let headroom = values.number("headroom")?;
    sheet.given("c", values.number("crest")?, Unit::Decibel);
    let noise = if pictured { noise_by_point(&line.chain) } else { [f64::NAN; 5] };
    line.points = points(values, sheet, &line.chain, noise)?;
    (line.tightest, line.margin) = tightest(&line.points);
    let margin = line.margin.unwrap_or(f64::NAN);
    let args = [("point", Arg::Key(line.tightest.to_owned())), ("limit", Arg::Quantity(headroom, Unit::Decibel))];
    sheet.headline("margin", margin, Unit::Decibel, &[]);
    if margin < 0.0 {
        sheet.verdict(Tone::Trouble, "verdict-clips", &args);
    } else {
        keep(sheet, margin, headroom, ["verdict-room-kept", "verdict-room-lost"], &args);
    }
    sheet.further("level", heard.signal, Unit::DecibelU, &[]);
    let pairs = line.points.iter().zip(line.points.iter().skip(1));
    let change = |(a, b): &(&Point, &Point)| b.level - a.level;
    if let Some(most) = pairs.max_by(|a, b| change(a).abs().total_cmp(&change(b).abs())) {
        let change = change(&most);
        let by = [
            ("by", Arg::Quantity(change, Unit::Decibel)),
            ("from", Arg::Key(most.0.names.point.to_owned())),
            ("to", Arg::Key(most.1.names.point.to_owned())),
        ];
        sheet.verdict(Tone::Fine, "verdict-level", &by);
    }
    sheet.further("level_change", heard.gain, Unit::Decibel, &[]);
    proof::levels(values, sheet, line)?;
    line.findings.push(Finding {
        id: "margin",
        margin: Margin::new(margin - headroom, headroom),
        refused: margin < 0.0,
    });
    Ok(())
}

/// What phantom does on this line, where it does anything.
fn phantom(values: &Values, sheet: &mut Sheet, line: &mut Line) -> Result<(), Fault> {
    let (on, boxed) = (values.choice("phantom")?, values.choice("box")?);
    let fed = boxed == "active" && values.choice("powered")? == "phantom";
    let least = values.number("least")?;
    if on != "off" && !fed {
        return misplaced(values, sheet, line, on);
    }
    if !fed {
        return Ok(());
    }
    if on == "off" {
        sheet.further("supply", 0.0, Unit::Volt, &[]);
        sheet.verdict(Tone::Trouble, "verdict-no-supply", &[]);
        proof::phantom(values, sheet, "p48", None)?;
        line.findings.push(Finding { id: "supply", margin: None, refused: true });
        return Ok(());
    }
    let supply = supply(on);
    givens(values, sheet, on)?;
    sheet.given("I_D", values.number("current")?, Unit::Ampere);
    sheet.given("I_2", 0.0, Unit::Ampere);
    whole_r(sheet, 2.0)?;
    let volts = voltage(sheet)?.max(0.0);
    let feed = sheet.step("feed_share", "q", "R_F/2/R", Unit::Percent)?;
    sheet.further("supply", volts, Unit::Volt, &[]);
    let by = if feed >= MOST { "whole-line-supply-feed" } else { "whole-line-supply-lead" };
    let args = [
        ("least", Arg::Quantity(least, Unit::Volt)),
        ("lost", Arg::Quantity(supply.volts - volts, Unit::Volt)),
        ("by", Arg::Key(by.to_owned())),
    ];
    let (tone, word) = match volts {
        volts if volts < least => (Tone::Trouble, "verdict-starved"),
        volts if volts - supply.tolerance < least => (Tone::Watch, "verdict-supply-tight"),
        _ => (Tone::Fine, "verdict-runs"),
    };
    sheet.verdict(tone, word, &args);
    if values.number("current")? > supply.most {
        sheet.warn("over", &[("most", Arg::Quantity(supply.most, Unit::Ampere))]);
    }
    proof::phantom(values, sheet, on, None)?;
    line.findings.push(Finding { id: "supply", margin: None, refused: volts < least });
    Ok(())
}

/// The share of the resistance in the way that is most of it.
const MOST: f64 = 0.5;

/// Phantom that nothing on the line is fed by.
fn misplaced(values: &Values, sheet: &mut Sheet, line: &mut Line, on: &str) -> Result<(), Fault> {
    let boxed = values.choice("box")?;
    if boxed == "none" && !is_balanced(values)? {
        let output_r = line.chain.last().looking_back(line.chain.run, DIRECT).norm();
        givens(values, sheet, on)?;
        let fed = adaptor(sheet, Some(output_r))?;
        sheet.further("supply_on_source", fed.voltage, Unit::Volt, &[]);
        sheet.verdict(Tone::Trouble, "verdict-on-source", &[]);
        proof::phantom(values, sheet, on, Some(output_r))?;
        line.findings.push(Finding { id: "supply_on_source", margin: None, refused: true });
    } else if values.choice("run")? == "unbalanced" {
        sheet.warn("phantom-unbalanced", &[]);
    } else if boxed == "none" && values.choice("source")? == "balanced" {
        sheet.warn("phantom-line", &[]);
    }
    Ok(())
}

/// As good as direct current, Hz: what has any capacitance in its way passes none.
const DIRECT: f64 = 1e-9;

fn givens(values: &Values, sheet: &mut Sheet, on: &str) -> Result<(), Fault> {
    let supply = supply(on);
    sheet.given("U_P", supply.volts, Unit::Volt);
    sheet.given("R_F", supply.feed_r, Unit::Ohm);
    sheet.given("R′_k", values.number("run_r")? / 2.0, Unit::OhmPerMetre);
    sheet.given("R′_sh", values.number("shield_r")?, Unit::OhmPerMetre);
    sheet.given("l", values.number("run_length")?, Unit::Metre);
    Ok(())
}

/// A distance in dB held against the least that is wanted.
fn keep(sheet: &mut Sheet, got: f64, least: f64, [kept, lost]: [&'static str; 2], args: &[(&'static str, Arg)]) {
    match got - least {
        over if over < 0.0 => sheet.verdict(Tone::Trouble, lost, args),
        over if over < NEAR => sheet.verdict(Tone::Watch, kept, args),
        _ => sheet.verdict(Tone::Fine, kept, args),
    }
}

/// This near to a limit is worth a look, dB (common practice, no source).
const NEAR: f64 = 3.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// Of a limit of 2 dB a half is left with 1 dB; one of less than 1 dB counts as
    /// 1 dB.
    #[test]
    fn shares_of_limits() {
        for (left, limit, share) in [(1.0, 2.0, 0.5), (0.3, 1.01, 0.3 / 1.01), (0.3, 0.99, 0.3), (0.3, 0.0, 0.3)] {
            assert!((Margin { left, limit }.share() - share).abs() < 1e-12, "{left} of {limit}");
        }
    }
}
