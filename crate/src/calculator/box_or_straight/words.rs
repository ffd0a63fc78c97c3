//! The order in words: what to take, and why each stands where it does.

use super::instrument::STEREO_JACK;
use super::rank::Tried;
use super::way::Asked;
use super::{CALCULATOR, Channels, INPUT, INSTRUMENT, InputKind, Second};
use crate::calculator::whole_line::diagram;
use crate::calculator::whole_line::hum::RunConnection;
use crate::catalogue::typical::LINE_INPUT_GAIN;
use crate::fault::Fault;
use crate::field::Values;
use crate::field::direct_box::BoxKind;
use crate::field::earth::{AMP_DIFFERENCE, EARTH_VOLTS, Power, SUPPLY_LEAKAGE};
use crate::field::lead::LEAD_LENGTH;
use crate::field::microphone::MicrophoneKind;
use crate::field::question::{HEADROOM, HUM_LEAST, LOSS_MOST, SNR_LEAST, UNBALANCED_MOST};
use crate::field::run::RUN_LENGTH;
use crate::field::source::SourceKind;
use crate::network::MIDBAND;
use crate::quantity::Unit;
use crate::report::{Candidate, Reason, Sheet, Tone, Verdict};
use crate::words::{Arg, Args, Message};

fn name(id: &str) -> Arg {
    Arg::Key(format!("box-or-straight-way-{id}"))
}

fn count(number: usize) -> Arg {
    Arg::Text(number.to_string())
}

/// The name of a way; into which input, where there are two.
fn way(sheet: &Sheet, asked: &Asked, line: &Tried) -> Message {
    if re_amps(asked.input, line) {
        return sheet.word("way-reamp", &[]);
    }
    if asked.input == InputKind::Instrument && line.way.between == BoxKind::Active {
        return sheet.word("way-buffer", &[]);
    }
    let lift = lift(asked, line);
    if asked.input != InputKind::Either {
        let id = format!("way-{}", line.way.id);
        return match lift {
            Some(lift) => sheet.word("way-lift", &[("way", name(line.way.id)), ("lift", lift)]),
            None => sheet.word(id, &[]),
        };
    }
    let into = if asked.input_of(line.way) == InputKind::Line { "line" } else { "microphone" };
    let into = Arg::Key(format!("box-or-straight-channel-{into}"));
    let called = name(line.way.id);
    match lift {
        Some(lift) => sheet.word("way-lift-into", &[("way", called), ("lift", lift), ("channel", into)]),
        None => sheet.word("way-into", &[("way", called), ("channel", into)]),
    }
}

/// How the ground lift of a box is to stand, where it makes a difference.
fn lift(asked: &Asked, line: &Tried) -> Option<Arg> {
    let has_lift = line.way.between != BoxKind::None && !line.way.isolator;
    let matters = asked.earthed || asked.usual.source == SourceKind::Loudspeaker;
    (has_lift && matters).then(|| {
        let on = matches!(
            line.line.loops.run,
            RunConnection::Isolated { .. } | RunConnection::Balanced { lifted: true, .. }
        );
        Arg::Key(format!("box-or-straight-lift-{}", if on { "on" } else { "off" }))
    })
}

/// What to take, how it stands, and what the next would be.
pub(super) fn headlines(values: &Values, sheet: &mut Sheet, asked: &Asked, tried: &[Tried]) -> Result<(), Fault> {
    subject(values, sheet)?;
    let best = tried.first().filter(|best| best.refused.is_none());
    let Some(best) = best else {
        sheet.headline("take", None, Unit::One, &[("best", name("nothing"))]);
        sheet.verdict(Tone::Trouble, "verdict-nothing", &[]);
        return working(values, sheet, tried);
    };
    let tied: Vec<_> = tried.iter().skip(1).filter(|line| line.rank() == best.rank()).collect();
    let other = other_kind(tried, best);
    // That it is as good is said with what it costs.
    let told = |line: &&&Tried| other.is_some_and(|other| other.way.id == line.way.id);
    let others: Vec<_> = tied.iter().filter(|line| !told(line)).map(|line| way(sheet, asked, line)).collect();
    let untold = others.len();
    let other = other.map(|other| instead(sheet, asked, other, best));
    let called = Arg::Messages(vec![way(sheet, asked, best)]);
    let args = [
        ("best", called.clone()),
        ("broken", count(best.broken)),
        ("others", Arg::Messages(others)),
        ("at", best.at()),
        ("by", by(best)),
        ("other", Arg::Messages(other.into_iter().collect())),
    ];
    let take = if best.stop { name("nothing") } else { called };
    sheet.headline("take", None, Unit::One, &[("best", take)]);
    if best.stop {
        // Nobody is to plug anything in there, and no figure invites anybody to.
        sheet.verdict(Tone::Trouble, "verdict-stop", &args);
        return working(values, sheet, tried);
    }
    match (best.broken, best.missed, untold) {
        (0, _, 0) if with_fewer(tried, best) => sheet.verdict(Tone::Fine, "verdict-take-safer", &args),
        (0, _, 0) => sheet.verdict(Tone::Fine, "verdict-take", &args),
        (0, _, _) => sheet.verdict(Tone::Fine, "verdict-take-tied", &args),
        (_, 0, _) => sheet.verdict(Tone::Watch, "verdict-take-just", &args),
        (_, _, 0) => sheet.verdict(Tone::Trouble, "verdict-take-broken", &args),
        _ => sheet.verdict(Tone::Trouble, "verdict-take-broken-tied", &args),
    }
    missed(sheet, "broken", best.broken, &args);
    let (left, unit) = best.left();
    sheet.headline("tightest", left, unit, &args);
    let boxes = if asked.channels == Channels::Two { 2 } else { 1 };
    sheet.headline("parts", f64::from(boxes * best.way.parts), Unit::One, &args);
    let nearest = tried.iter().filter(|line| line.refused.is_none()).max_by(|a, b| a.share().total_cmp(&b.share()));
    if let Some(nearest) = nearest.filter(|nearest| best.missed > 0 && nearest.share() > best.share()) {
        sheet.warn("nearest", &[("nearest", name(nearest.way.id)), ("by", by(nearest))]);
    }
    let next = tried.iter().skip(1).find(|line| line.refused.is_none());
    if let Some(next) = next {
        let args = [("next", Arg::Messages(vec![way(sheet, asked, next)]))];
        missed(sheet, "next_broken", next.broken, &args);
    }
    for id in ["loss", "loss_bass", "snr", "signal_to_hum", "margin", "level"] {
        let Some(reading) = best.solution.reading(id) else { continue };
        match (id, reading.value) {
            ("loss" | "loss_bass", Some(loss)) => sheet.further_loss(id, loss, &args),
            (_, value) => sheet.further(id, value, reading.unit, &args),
        }
    }
    sheet.link_to("link-best", &args, &best.filling);
    working(values, sheet, tried)
}

/// What the answer is for: what it is, how far, into what. A length of nothing goes
/// without saying.
fn subject(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let lengths = [values.number(LEAD_LENGTH)?, values.number(RUN_LENGTH)?];
    let key = |id: String| Arg::Key(format!("box-or-straight-{id}"));
    let source = ("source", key(format!("source-{}", values.choice(INSTRUMENT)?.id())));
    let into = ("into", key(format!("into-{}", values.choice(INPUT)?.id())));
    let metres = |length| Arg::Quantity(length, Unit::Metre);
    let length = match lengths {
        [lead, run] if lead > 0.0 && run > 0.0 => {
            Arg::Messages(vec![sheet.word("lengths", &[("lead", metres(lead)), ("run", metres(run))])])
        }
        [lead, run] => metres(lead.max(run)),
    };
    sheet.subject(&[source, ("length", length), into]);
    Ok(())
}

/// The first way of another kind than the best: a DI of the other kind beside a DI.
fn other_kind<'a>(tried: &'a [Tried], best: &Tried) -> Option<&'a Tried> {
    let kind = |line: &Tried| (line.way.between, line.way.isolator);
    let counterpart = match kind(best) {
        (BoxKind::Active, _) => Some((BoxKind::Passive, false)),
        (BoxKind::Passive, false) => Some((BoxKind::Active, false)),
        _ => None,
    };
    let of_it = tried.iter().find(|line| counterpart == Some(kind(line)));
    of_it.or_else(|| tried.iter().find(|line| kind(line) != kind(best)))
}

/// What a way would cost that is taken instead of the best, in a sentence.
fn instead(sheet: &Sheet, asked: &Asked, line: &Tried, best: &Tried) -> Message {
    let args = [
        ("way", Arg::Messages(vec![way(sheet, asked, line)])),
        ("at", line.at()),
        ("by", by(line)),
        ("broken", count(line.broken)),
        ("parts", count(line.way.parts as usize)),
    ];
    let word = match (line.refused, line.broken, line.tightest) {
        (Some(finding), ..) => {
            let why = sheet.word(format!("refused-{finding}"), &[("hangs", Arg::Messages(vec![]))]);
            return sheet.word("other-refused", &[("way", args[0].1.clone()), ("why", Arg::Messages(vec![why]))]);
        }
        (None, 0, Some(_)) if line.rank() == best.rank() => "other-tied",
        (None, 0, Some(_)) if line.way.parts > best.way.parts => "other-parts",
        (None, 0, Some(_)) => "other-keeps",
        (None, 0, None) => "other-free",
        (None, 1, _) => "other-broken-one",
        (None, ..) => "other-broken",
    };
    sheet.word(word, &args)
}

/// Whether fewer parts would do, but for what nobody has measured.
fn with_fewer(tried: &[Tried], best: &Tried) -> bool {
    tried.iter().any(|line| line.refused.is_none() && line.broken == 0 && line.way.parts < best.way.parts)
}

/// How many limits are missed; nobody is told first that none is.
fn missed(sheet: &mut Sheet, id: &'static str, broken: usize, args: Args) {
    if broken == 0 {
        sheet.further(id, 0.0, Unit::One, args);
    } else {
        sheet.headline(id, broken as f64, Unit::One, args);
    }
}

/// Less than this would be shown as nothing, dB.
const LEAST_MISSED: f64 = 0.05;

/// By how much a way keeps or misses its tightest limit.
fn by(line: &Tried) -> Arg {
    match line.left() {
        // What is missed is missed by something.
        (left, Unit::Decibel) if left < 0.0 && left > -LEAST_MISSED => Arg::AtLeast(-left, Unit::Decibel),
        (left, unit) => Arg::Quantity(left.abs(), unit),
    }
}

/// What to mind whatever is taken.
pub(super) fn mind(sheet: &mut Sheet, asked: &Asked, best: Option<&Tried>) {
    let source_r = best.map(|best| best.line.alone.output_impedance(MIDBAND).norm());
    match (asked.channels, source_r) {
        (Channels::Two, _) if best.is_some_and(|best| best.way.parts > 0) => sheet.warn("two-channels", &[]),
        (Channels::Summed, Some(r)) => {
            let args = [
                ("r", Arg::Quantity(r, Unit::Ohm)),
                ("resistor", Arg::Quantity((SUMMING * r).max(LEAST_SUMMING), Unit::Ohm)),
            ];
            sheet.warn("y-lead", &args);
        }
        _ => {}
    }
    for note in asked.notes.iter().filter(|note| **note != STEREO_JACK || asked.takes_balanced()) {
        sheet.warn(note, &[]);
    }
    if asked.second != Second::None {
        match asked.usual.microphone {
            MicrophoneKind::Condenser => sheet.warn("split-fed", &[]),
            MicrophoneKind::Ribbon => sheet.warn("split-unfed", &[]),
            MicrophoneKind::Dynamic => {}
        }
    }
    let Some(best) = best else { return };
    if best.broken == 0
        && asked.earthed
        && best.way.between == BoxKind::None
        && asked.usual.source != SourceKind::Microphone
    {
        sheet.warn("earthed", &[]);
    }
}

/// Whether the box of a way feeds a guitar amplifier: a re-amp box then.
fn re_amps(input: InputKind, line: &Tried) -> bool {
    input == InputKind::Amplifier && line.way.between == BoxKind::Passive && !line.way.isolator
}

/// The best way as a line diagram. All that is asked may decide which way that is.
pub(super) fn drawn(values: &Values, sheet: &mut Sheet, best: &Tried) -> Result<(), Fault> {
    if !sheet.wants_all_words() {
        return Ok(());
    }
    let mut drawn = diagram::drawn(&best.filling.to_values(), &best.line, sheet)?;
    if let Some(source) = drawn.parts.first_mut() {
        source.name = sheet.word(format!("source-{}", values.choice(INSTRUMENT)?.id()), &[]);
    }
    let input = values.choice(INPUT)?;
    for part in &mut drawn.parts {
        match part.id {
            "box" if best.way.isolator => part.name = sheet.word("rig-isolator-box", &[]),
            "box" if re_amps(input, best) => part.name = sheet.word("rig-reamp", &[]),
            "console" if input == InputKind::Amplifier => part.name = sheet.word("rig-amplifier", &[]),
            _ => {}
        }
    }
    drawn.shaped_by = CALCULATOR.fields.iter().map(|field| field.id).collect();
    sheet.diagram(drawn);
    Ok(())
}

/// Two outputs are summed by resistors of so many times their own (common practice,
/// no source: then neither loads the other to speak of).
const SUMMING: f64 = 10.0;
/// And of no less than this, Ω.
const LEAST_SUMMING: f64 = 1e3;

/// What every way has left of its tightest limit.
fn working(values: &Values, sheet: &mut Sheet, tried: &[Tried]) -> Result<(), Fault> {
    if !sheet.wants_working() {
        return Ok(());
    }
    sheet.working.given("a_max", values.number(LOSS_MOST)?, Unit::Decibel);
    sheet.working.given("a_min", values.number(SNR_LEAST)?, Unit::Decibel);
    sheet.working.given("a_SH", values.number(HUM_LEAST)?, Unit::Decibel);
    sheet.working.given("h", values.number(HEADROOM)?, Unit::Decibel);
    for line in tried {
        let mut terms = Vec::new();
        for limit in line.limits() {
            let Some(margin) = limit.margin else { continue };
            let (symbol, term) = match limit.id {
                "loss" => ("a_T", "(a_max - a_T)/max(a_max, 1)"),
                "loss_bass" => ("a_B", "(a_max - a_B)/max(a_max, 1)"),
                "snr" => ("S", "(S - a_min)/max(a_min, 1)"),
                "signal_to_hum" => ("S_H", "(S_H - a_SH)/max(a_SH, 1)"),
                "margin" => ("m", "(m - h)/max(h, 1)"),
                "amplifier_hum" => ("S_A", "(S_A - a_SH)/max(a_SH, 1)"),
                "unbalanced" => ("q_l", "q_l"),
                "load_ratio" => ("q_R", "q_R"),
                "level" => ("q_L", "q_L"),
                _ => ("q_m", "q_m"),
            };
            match line.solution.reading(limit.id).and_then(|reading| reading.value) {
                Some(value) if symbol != term => sheet.working.given(symbol, value, Unit::Decibel),
                _ => sheet.working.given(symbol, margin.share, Unit::Percent),
            }
            terms.push(term);
        }
        if terms.is_empty() {
            continue;
        }
        sheet.working.step_with(
            "step-share",
            &[("way", name(line.way.id))],
            "q",
            &format!("min({})", terms.join(", ")),
            Unit::Percent,
        )?;
    }
    Ok(())
}

/// A way in its place.
pub(super) fn candidate(
    values: &Values,
    sheet: &mut Sheet,
    asked: &Asked,
    line: &Tried,
    tried: &[Tried],
) -> Result<(), Fault> {
    if !sheet.wants_all_words() {
        return Ok(());
    }
    let same = tried.iter().filter(|other| other.rank() == line.rank()).count();
    let better = tried.iter().filter(|other| other.rank() < line.rank()).count();
    let (tone, word) = match (line.refused, line.missed, line.broken) {
        // Nobody is to plug anything in there.
        _ if line.stop => (Tone::Trouble, "place-stop".to_owned()),
        (Some(finding), ..) => (Tone::Trouble, format!("refused-{finding}")),
        (None, 0, 0) if line.risk.is_some() => (Tone::Watch, format!("risk-{}", line.risk.unwrap_or_default())),
        (None, 0, 1..) => (Tone::Watch, "place-just".to_owned()),
        (None, 0, 0) if same > 1 => (Tone::Fine, "place-tied".to_owned()),
        (None, 0, 0) if better == 0 => (Tone::Fine, "place-best".to_owned()),
        // What is better meets all limits too, and is less to bring.
        (None, 0, 0) => (Tone::Fine, "place-parts".to_owned()),
        (None, 1, 1) => (Tone::Trouble, "place-broken-one".to_owned()),
        (None, ..) => (Tone::Trouble, "place-broken".to_owned()),
    };
    let args = [
        ("broken", count(line.broken)),
        ("parts", count(line.way.parts as usize)),
        ("at", line.at()),
        ("by", by(line)),
        ("hangs", Arg::Messages(deciding(values, sheet, asked, line)?.into_iter().collect())),
    ];
    let mut links = line.solution.links.iter();
    let mut reasons = Vec::new();
    for limit in line.limits() {
        let link = if limit.linked { links.next().cloned() } else { None };
        if let Some(reading) = line.solution.reading(limit.id).cloned() {
            reasons.push(Reason { reading, link });
        }
    }
    let link = sheet.linked(sheet.word("link-line", &[]), &line.filling);
    let candidate = Candidate {
        id: line.way.id,
        name: way(sheet, asked, line),
        place: (line.refused.is_none() && !line.stop).then(|| better as u32 + 1),
        verdict: Verdict { tone, text: sheet.word(word, &args) },
        reasons,
        link,
    };
    sheet.candidate(candidate);
    Ok(())
}

/// The assumption that decides about a way: change it, and its place changes.
fn deciding(values: &Values, sheet: &Sheet, asked: &Asked, line: &Tried) -> Result<Option<Message>, Fault> {
    let Some(id) = line.decided_by() else { return Ok(None) };
    let line_values = line.filling.to_values();
    let volts = |field| -> Result<Arg, Fault> { Ok(Arg::Entry(line_values.number(field)?, Unit::Volt)) };
    let (word, args) = match id {
        "margin" => {
            let tightest = line.line.points.iter().find(|point| point.names.point == line.line.tightest);
            let Some(clip) = tightest.and_then(|point| point.clip) else { return Ok(None) };
            let point = ("point", Arg::Key(line.line.tightest.to_owned()));
            ("hangs-on-clip", vec![point, ("clip", Arg::Quantity(clip, Unit::DecibelU))])
        }
        "amplifier_hum" => ("hangs-on-difference", vec![("volts", volts(AMP_DIFFERENCE)?)]),
        "signal_to_hum" if asked.thru && line.line.loops.star.amplifier.is_some() => {
            ("hangs-on-difference", vec![("volts", volts(AMP_DIFFERENCE)?)])
        }
        "signal_to_hum" => match asked.power {
            _ if line.line.hum.weighted[3] >= line.line.hum.weighted[1].max(line.line.hum.weighted[2]) => {
                return Ok(None);
            }
            Power::Earthed | Power::Linked => ("hangs-on-difference", vec![("volts", volts(EARTH_VOLTS)?)]),
            Power::Leaking => {
                let amperes = line_values.number(SUPPLY_LEAKAGE)?;
                ("hangs-on-leakage", vec![("amperes", Arg::Entry(amperes, Unit::Ampere))])
            }
            Power::Floating => return Ok(None),
        },
        "unbalanced" => {
            let Some(most) = values.optional(UNBALANCED_MOST)? else { return Ok(None) };
            ("hangs-on-length", vec![("most", Arg::Entry(most, Unit::Metre))])
        }
        "load_ratio" => ("hangs-on-load", vec![("r", Arg::Quantity(line.line.load, Unit::Ohm))]),
        "level" if asked.input_of(line.way) == InputKind::Line => {
            ("hangs-on-gain", vec![("gain", Arg::Quantity(LINE_INPUT_GAIN, Unit::Decibel))])
        }
        "supply" if asked.usual.source == SourceKind::Microphone => ("hangs-on-phantom", vec![]),
        "supply" => ("hangs-on-supply", vec![]),
        _ => return Ok(None),
    };
    Ok(Some(sheet.word(word, &args)))
}
