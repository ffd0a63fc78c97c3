//! The whole line as a line diagram: beside level and headroom, hum where it comes
//! in, phantom where it stands, and the loops of earths.

use super::hum::RunConnection;
use super::line::{Fed, Line, Phantom};
use crate::calculator::diagram::Draft;
use crate::fault::Fault;
use crate::field::Values;
use crate::field::direct_box::{BOX, BoxKind, GROUND, Ground, POWERED};
use crate::field::earth::{AMP_DIFFERENCE, EARTH_VOLTS, POWER, Power, SUPPLY_LEAKAGE};
use crate::field::lead::LEAD_LENGTH;
use crate::field::loudspeaker::TAKE_OFF;
use crate::field::microphone::MICROPHONE_KIND;
use crate::field::pad::PAD;
use crate::field::phantom::{ConsolePhantom, PHANTOM};
use crate::field::run::{RUN, RUN_LENGTH};
use crate::field::source::SOURCE;
use crate::field::split::{SECOND_DIFFERENCE, SPLIT, Split};
use crate::field::thru::THRU;
use crate::part::{Between, Cause, GroundLoop};
use crate::quantity::Unit;
use crate::quantity::level::dbu;
use crate::report::{Diagram, Earth, EarthLoop, Sheet};
use crate::words::{Arg, Message};

/// What decides which parts there are, and how they are earthed.
const SHAPED_BY: &[&str] = &[
    SOURCE.id(),
    MICROPHONE_KIND.id(),
    POWER.id(),
    LEAD_LENGTH.id,
    BOX.id(),
    POWERED.id(),
    GROUND.id(),
    TAKE_OFF.id,
    THRU.id(),
    SPLIT.id(),
    RUN.id(),
    RUN_LENGTH.id,
    PAD.id,
    PHANTOM.id(),
];

/// Draws a line in the words of a sheet, which may be another calculator's.
pub(in crate::calculator) fn drawn(values: &Values, line: &Line, sheet: &Sheet) -> Result<Diagram<Message>, Fault> {
    let balanced = matches!(line.loops.run, RunConnection::Balanced { .. });
    let mut draft = Draft::of_rig(sheet, values, &line.rig, &line.points, [line.loops.through, balanced])?;
    hum(line, &mut draft);
    phantom(values, line, &mut draft)?;
    earths(values, line, sheet, &mut draft)?;
    Ok(draft.finish(SHAPED_BY))
}

/// Hum where it comes in, A-weighted, as it arrives at the console.
fn hum(line: &Line, draft: &mut Draft) {
    let [all, by_lead, by_run, _] = line.hum.weighted;
    for (part, word, volts) in
        [("lead", "rig-hum-in", by_lead), ("run", "rig-hum-in", by_run), ("console", "rig-hum", all)]
    {
        draft.hum(part, word, dbu(volts));
    }
    if let Some(distance) = line.hum.amplifier {
        draft.quantity("thru", "rig-signal-to-hum", distance, Unit::Decibel);
    }
    draft.quantity("console", "rig-signal-to-hum", line.hum.distance, Unit::Decibel);
}

/// Phantom at the console, and at what it feeds or stands on.
fn phantom(values: &Values, line: &Line, draft: &mut Draft) -> Result<(), Fault> {
    let at = match line.phantom {
        Phantom::Missing(fed) => Some((fed, None)),
        Phantom::Feeds { fed, volts, .. } => Some((fed, Some(volts))),
        Phantom::OnSource { volts, .. } => {
            draft.quantity("source", "rig-phantom-on", volts, Unit::Volt);
            None
        }
        Phantom::OnRibbon { .. } | Phantom::OnOutput => {
            draft.say("source", "rig-phantom-here", &[]);
            None
        }
        Phantom::Idle | Phantom::Unbalanced => None,
    };
    if let Some((fed, volts)) = at {
        let part = match fed {
            Fed::Box => "box",
            Fed::Microphone => "source",
        };
        match volts {
            Some(volts) => draft.quantity(part, "rig-supply", volts, Unit::Volt),
            None => draft.say(part, "rig-no-supply", &[]),
        }
    }
    let word = match values.choice(PHANTOM)? {
        ConsolePhantom::Off => "rig-phantom-off",
        ConsolePhantom::P48 => "rig-phantom-p48",
        ConsolePhantom::P24 => "rig-phantom-p24",
        ConsolePhantom::P12 => "rig-phantom-p12",
    };
    draft.say("console", word, &[]);
    Ok(())
}

/// Who stands on which earth, and the loops that this makes.
fn earths(values: &Values, line: &Line, sheet: &Sheet, draft: &mut Draft) -> Result<(), Fault> {
    let star = &line.loops.star;
    let lifted = values.choice(BOX)? != BoxKind::None && values.choice(GROUND)? == Ground::Lifted;
    if values.choice(BOX)? != BoxKind::None {
        draft.say("box", if lifted { "rig-lift-on" } else { "rig-lift-off" }, &[]);
    }
    let other = if line.rig.between == Between::Nothing { "second" } else { "thru" };
    let power = values.choice(POWER)?;
    for (part, earth) in [
        ("console", Some(Earth::Protective)),
        (other, star.amplifier.map(|_| Earth::Protective)),
        (
            "source",
            star.source.map(|_| match power {
                Power::Linked => Earth::Earth,
                Power::Leaking => Earth::Leakage,
                Power::Earthed | Power::Floating => Earth::Protective,
            }),
        ),
    ] {
        if let Some(part) = draft.part(part) {
            part.earth = earth;
        }
    }
    if other == "second" && values.choice(SPLIT)? == Split::Transformer {
        draft.say("second", "rig-split-apart", &[]);
    }
    let way = |way: &str| ("way", Arg::Key(format!("common-rig-way-{way}")));
    let shared = [
        ("current", Arg::Quantity(line.hum.current, Unit::Ampere)),
        ("shield", Arg::Key(format!("common-rig-{}", if line.rig.run.length > 0.0 { "run" } else { "lead" }))),
    ];
    let set_by: [&[&str]; 2] =
        [&[EARTH_VOLTS.id, SUPPLY_LEAKAGE.id, POWER.id()], &[AMP_DIFFERENCE.id, SECOND_DIFFERENCE.id, EARTH_VOLTS.id]];
    for ((from, arm), fields) in [("source", &star.source), (other, &star.amplifier)].into_iter().zip(set_by) {
        let Some(arm) = arm else { continue };
        let word = if lifted { "rig-loop-open" } else { "rig-loop" };
        let mut args = vec![way(from), ("drives", Arg::Messages(vec![drives(sheet, arm)]))];
        args.extend(shared.iter().cloned());
        draft.earth_loop(EarthLoop {
            from,
            to: "console",
            open_at: lifted.then_some("box"),
            text: sheet.word(word, &args),
            fields: fields.to_vec(),
        });
    }
    // A lift at the box leaves the way from the one to the other as it is.
    if lifted && star.source.is_some() && star.amplifier.is_some() && !star.same_earth {
        draft.earth_loop(EarthLoop {
            from: "source",
            to: other,
            open_at: None,
            text: sheet.word("rig-loop-thru", &[way("both")]),
            fields: vec![AMP_DIFFERENCE.id],
        });
    }
    Ok(())
}

/// What drives a loop.
pub(in crate::calculator) fn drives(sheet: &Sheet, arm: &GroundLoop) -> Message {
    let said = |word: &'static str, value, unit| sheet.word(word, &[("value", Arg::Quantity(value, unit))]);
    match arm.cause {
        Cause::Difference { volts, .. } => said("rig-difference", volts, Unit::Volt),
        Cause::Leakage { amperes, .. } => said("rig-leakage", amperes, Unit::Ampere),
        Cause::Field { density, .. } => said("rig-field", density, Unit::Tesla),
    }
}
