//! Pickup, lead and load: what a passive pickup makes of what it is plugged into.

use super::frequency::Drawn;
use super::report::Tone as VerdictTone;
use super::shared::{LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R, LOAD_C, LOAD_R, lead};
use super::{Calculator, Fault, Preset, Sheet, Values};
use crate::catalogue::tolerance::PartKind;
use crate::catalogue::typical::{COIL_L, COIL_R, TONE_C, TRACK};
use crate::field::{Field, joined, option};
use crate::network::{MIDBAND, OnePort, Response as _, features};
use crate::part::{Coils, Lead, Pickup, Pot, Taper, Tone};
use crate::quantity::Unit;
use crate::words::Arg;
use std::f64::consts::TAU;

/// The load that stands for none in the reference curve, Ω.
const UNLOADED: f64 = 10e6;

/// A passive pickup with its controls, for every calculator that has one.
pub(super) const PICKUP: [Field; 15] = [
    Field::number("coil_l", "L_P", Unit::Henry, 2.5, (1.0, 10.0)).limits(1e-6, 1e3).marks(COIL_L).at("source"),
    Field::number("coil_r", "R_P", Unit::Ohm, 6.5e3, (1e3, 20e3))
        .limits(0.0, 1e6)
        .marks(COIL_R)
        .part(PartKind::Winding)
        .at("source"),
    Field::number("coil_c", "C_W", Unit::Farad, 110e-12, (50e-12, 200e-12))
        .limits(1e-15, 1e-6)
        .bare(1e-12)
        .at("source"),
    Field::number("coil_loss", "R_E", Unit::Ohm, 1e6, (100e3, 10e6))
        .limits(1.0, 1e12)
        .absent()
        .part(PartKind::Winding)
        .detail()
        .at("source"),
    Field::choice("coils", &[option("one"), option("series"), option("parallel")], "one").detail().at("source"),
    Field::number("coupling", "k", Unit::One, 0.0, (0.0, 0.8))
        .limits(0.0, 10.0)
        .when("coils", &["series", "parallel"])
        .detail()
        .at("source"),
    Field::choice("phase", &[option("in"), option("out")], "in")
        .when("coils", &["series", "parallel"])
        .detail()
        .at("source"),
    Field::choice("volume", &[option("fitted"), option("none")], "fitted").detail().at("controls"),
    Field::number("volume_r", "R_V", Unit::Ohm, 250e3, (100e3, 1e6))
        .limits(1.0, 1e9)
        .marks(TRACK)
        .part(PartKind::Track)
        .when("volume", &["fitted"])
        .detail()
        .at("controls"),
    Field::number("volume_turn", "x_V", Unit::Percent, 1.0, (0.0, 1.0)).when("volume", &["fitted"]).at("controls"),
    Field::choice("tone", &[option("before"), option("after"), option("none")], "before").detail().at("controls"),
    Field::number("tone_r", "R_T", Unit::Ohm, 250e3, (100e3, 1e6))
        .limits(0.0, 1e9)
        .marks(TRACK)
        .part(PartKind::Track)
        .when("tone", &["before", "after"])
        .detail()
        .at("controls"),
    Field::number("tone_c", "C_T", Unit::Farad, 22e-9, (10e-9, 100e-9))
        .limits(1e-12, 1e-3)
        .bare(1e-9)
        .marks(TONE_C)
        .when("tone", &["before", "after"])
        .detail()
        .at("controls"),
    Field::number("tone_turn", "x_T", Unit::Percent, 1.0, (0.0, 1.0)).when("tone", &["before", "after"]).at("controls"),
    Field::choice("taper", &[option("linear"), option("audio")], "audio").detail().at("controls"),
];

/// A top flatter than this is no resonance, dB over 1 kHz (common practice, no
/// source).
pub(super) const FLAT: f64 = 0.01;
/// Less than this below the wiper is a volume control at zero, Ω: no contact has
/// less.
const LEAST_VOLUME: f64 = 1e-3;

/// The closest coupling that is computed with.
const MOST_COUPLED: f64 = 0.999;

pub(super) static CALCULATOR: Calculator = Calculator {
    id: "pickup",
    fields: &joined::<22>(&[
        &PICKUP,
        &[
            LEAD_LENGTH,
            LEAD_C,
            LEAD_R,
            LEAD_L,
            LOAD_R.starting(1e6),
            LOAD_C,
            Field::number("frequency", "f", Unit::Hertz, 5e3, (1e3, 10e3)).limits(1.0, 1e6).detail().at("question"),
        ],
    ]),
    presets: &[
        Preset {
            id: "four",
            values: &[("load_r", "1M")],
            held: &[&[("load_r", "10k")], &[("load_r", "140k")], &[("load_r", "1M"), ("lead_length", "15 m")]],
        },
        Preset {
            id: "bass",
            values: &[
                ("coil_l", "5 H"),
                ("coil_r", "9k"),
                ("coil_c", "150p"),
                ("tone_c", "47n"),
                ("lead_length", "6 m"),
            ],
            held: &[],
        },
        Preset {
            id: "two-coil",
            values: &[
                ("coils", "series"),
                ("coil_l", "2 H"),
                ("coil_r", "4k"),
                ("coupling", "0.3"),
                ("volume_r", "500k"),
                ("tone_r", "500k"),
            ],
            held: &[],
        },
    ],
    solve,
};

/// A resonance that stands out, dB over 1 kHz (common practice, no source).
const HEARD: f64 = 1.0;
/// A peak this far below the resonance of coil and capacitance is the tone
/// control's (common practice, no source).
const MOVED: f64 = 0.6;

/// What a load takes off at the frequency in question without being heard, and
/// without being missed, dB (common practice, no source).
const LIGHT: f64 = 1.0;
const AUDIBLE: f64 = 3.0;

/// The first of controls, load and lead without which the pickup's resonance
/// would stand out.
fn what_dulls(pickup: &Pickup, lead: &Lead, r_l: f64, c_l: f64) -> &'static str {
    let stands = |pickup: &Pickup, lead: &Lead, r_l: f64| {
        let path = lead.added_to(pickup.path(OnePort::r_c(r_l, c_l)), "part-lead");
        features(&path, MIDBAND).peak.is_some_and(|peak| peak.height >= HEARD)
    };
    if stands(&Pickup { volume: None, tone: None, ..*pickup }, lead, r_l) {
        "controls"
    } else if stands(pickup, lead, UNLOADED) {
        "load"
    } else if stands(pickup, &Lead::NONE, r_l) {
        "lead"
    } else {
        "together"
    }
}

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let (pickup, lead) = (pickup(values)?, lead(values)?);
    let (r_l, c_l, f) = (values.number("load_r")?, values.number("load_c")?, values.number("frequency")?);
    let into = |load: OnePort| lead.added_to(pickup.path(load), "part-lead");
    let rig = into(OnePort::r_c(r_l, c_l));
    let unloaded = into(OnePort::r_c(UNLOADED, c_l));
    let found = features(&rig, MIDBAND);
    let peak = found.peak.filter(|peak| peak.height > FLAT);
    let at_f = [("f", Arg::Quantity(f, Unit::Hertz))];

    sheet.headline("peak", peak.map(|peak| peak.frequency), Unit::Hertz, &[]);
    sheet.headline("peak_height", peak.map(|peak| peak.height), Unit::Decibel, &[]);
    let (_, l_whole, c_whole, _) = pickup.whole();
    let own = 1.0 / (TAU * (l_whole * (c_whole + lead.capacitance() + c_l)).sqrt());
    let (tone, verdict) = match peak {
        None => (VerdictTone::Trouble, "verdict-none"),
        Some(peak) if peak.height < HEARD => (VerdictTone::Watch, "verdict-flat"),
        Some(peak) if peak.frequency < MOVED * own => (VerdictTone::Watch, "verdict-moved"),
        Some(_) => (VerdictTone::Fine, "verdict-open"),
    };
    let dull = matches!(verdict, "verdict-none" | "verdict-flat");
    let by = if dull && sheet.wants_words() { what_dulls(&pickup, &lead, r_l, c_l) } else { "" };
    sheet.verdict(tone, verdict, &[("by", Arg::Key(format!("pickup-by-{by}")))]);
    let load_loss = unloaded.level(f) - rig.level(f);
    sheet.headline("load_loss", load_loss, Unit::Decibel, &at_f);
    let (tone, verdict) = match load_loss {
        loss if loss < LIGHT => (VerdictTone::Fine, "verdict-light"),
        loss if loss < AUDIBLE => (VerdictTone::Watch, "verdict-audible"),
        _ => (VerdictTone::Trouble, "verdict-heavy"),
    };
    sheet.verdict(tone, verdict, &[]);

    let level = rig.level(f);
    sheet.given("L", l_whole, Unit::Henry);
    sheet.given("C_W", c_whole, Unit::Farad);
    sheet.given("C′", lead.c, Unit::FaradPerMetre);
    sheet.given("l", lead.length, Unit::Metre);
    sheet.given("C_L", c_l, Unit::Farad);
    let total = sheet.step("total_c", "C_t", "C_W + C′*l + C_L", Unit::Farad)?;
    let free = sheet.step("free_resonance", "f_0", "1/(2*pi*sqrt(L*C_t))", Unit::Hertz)?;
    sheet.working.walk(&rig, f)?;
    // What the headlines take from the curves: the walk, which left `a`, does the
    // same at any frequency.
    if sheet.wants_working() {
        sheet.given("a_U", unloaded.level(f), Unit::Decibel);
        sheet.step("load_loss_step", "a_L", "a_U - a", Unit::Decibel)?;
        if let Some(peak) = peak {
            sheet.given("a_p", peak.level, Unit::Decibel);
            sheet.given("a_1", found.reference, Unit::Decibel);
            let at = [("f", Arg::Quantity(peak.frequency, Unit::Hertz))];
            sheet.step_with("height_step", &at, "h", "a_p - a_1", Unit::Decibel)?;
        }
    }
    sheet.further("level_at", level, Unit::Decibel, &at_f);
    sheet.further("change_at", level - found.reference, Unit::Decibel, &at_f);
    sheet.further("level_1k", found.reference, Unit::Decibel, &[]);
    sheet.further("peak_level", peak.map(|peak| peak.level), Unit::Decibel, &[]);
    sheet.further("low_corner", found.low_corner, Unit::Hertz, &[]);
    sheet.further("high_corner", found.high_corner, Unit::Hertz, &[]);
    sheet.further("total_c", total, Unit::Farad, &[]);
    sheet.further("free_resonance", free, Unit::Hertz, &[]);
    sheet.further("impedance_1k", rig.output_impedance(1000.0).norm(), Unit::Ohm, &[]);
    if pickup.coils != Coils::One && pickup.coupling <= 0.0 && values.choice("phase")? == "out" {
        sheet.warn("out-of-phase", &[]);
    }

    let loss_arg = ("loss", Arg::Quantity(load_loss, Unit::Decibel));
    let summary = match peak {
        Some(peak) => [
            loss_arg,
            ("f", Arg::Quantity(f, Unit::Hertz)),
            ("peak", Arg::Quantity(peak.frequency, Unit::Hertz)),
            ("height", Arg::Quantity(peak.height, Unit::Decibel)),
        ],
        None => [
            loss_arg,
            ("f", Arg::Quantity(f, Unit::Hertz)),
            ("peak", Arg::Key("pickup-peak.none".into())),
            ("height", Arg::Key("pickup-peak_height.none".into())),
        ],
    };
    sheet.response_plot(
        "response",
        &summary,
        &[
            Drawn { id: "curve", reference: false, response: &rig },
            Drawn { id: "curve-unloaded", reference: true, response: &unloaded },
        ],
        Some(&found),
    );
    sheet.source("source-chain");
    sheet.source("source-pickup");
    sheet.source("source-practice");
    Ok(())
}

/// The pickup of the fields that every calculator with a pickup shares.
pub(super) fn pickup(values: &Values) -> Result<Pickup, Fault> {
    let taper = if values.choice("taper")? == "linear" { Taper::Linear } else { Taper::Audio };
    let pot = |r, turn| -> Result<Pot, Fault> { Ok(Pot { r: values.number(r)?, turn: values.number(turn)?, taper }) };
    let volume = if values.choice("volume")? == "fitted" { Some(pot("volume_r", "volume_turn")?) } else { None };
    if volume.is_some_and(|volume| volume.taper.share(volume.turn) * volume.r < LEAST_VOLUME) {
        return Err(Fault::at("volume_turn", "fault-volume-zero"));
    }
    let tone = match values.choice("tone")? {
        "none" => None,
        place => Some(Tone {
            pot: pot("tone_r", "tone_turn")?,
            c: values.number("tone_c")?,
            before_volume: place == "before",
        }),
    };
    let coupling = values.number("coupling")?;
    // No field is shared more than wholly, and wholly only without any leakage.
    if coupling > MOST_COUPLED {
        return Err(Fault::at("coupling", "fault-coupling"));
    }
    Ok(Pickup {
        r: values.number("coil_r")?,
        l: values.number("coil_l")?,
        c: values.number("coil_c")?,
        loss: values.optional("coil_loss")?,
        coils: match values.choice("coils")? {
            "series" => Coils::Series,
            "parallel" => Coils::Parallel,
            _ => Coils::One,
        },
        coupling: if values.choice("phase")? == "out" { -coupling } else { coupling },
        volume,
        tone,
    })
}
