//! Pickup, lead and load: what a passive pickup makes of what it is plugged into.

use crate::calculator::{Calculator, Keeps, Preset};
use crate::fault::Fault;
use crate::field::lead::{LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R, lead};
use crate::field::load::{LOAD_C, LOAD_R};
use crate::field::pickup::{
    COIL_C, COIL_L, COIL_R, COILS, COUPLING, CoilsKind, PHASE, PICKUP, Phase, TONE_C, TONE_R, VOLUME_R, pickup,
};
use crate::field::question::FREQUENCY;
use crate::field::{Values, joined};
use crate::network::{MIDBAND, OnePort, Peak, Response as _, features};
use crate::part::{Coils, Lead, Pickup, Pot};
use crate::quantity::Unit;
use crate::report::{Drawn, Sheet, Tone};
use crate::words::Arg;
use std::f64::consts::TAU;

/// The load that stands for none in the reference curve, Ω.
const UNLOADED: f64 = 10e6;

pub(crate) static CALCULATOR: Calculator = Calculator {
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
            FREQUENCY.starting(5e3).usual(1e3, 10e3).limits(1.0, 1e6).detail(),
        ],
    ]),
    presets: &[
        Preset {
            id: "four",
            values: &[LOAD_R.typed("1M")],
            held: &[&[LOAD_R.typed("10k")], &[LOAD_R.typed("180k")], &[LOAD_R.typed("1M"), LEAD_LENGTH.typed("15 m")]],
        },
        Preset {
            id: "bass",
            values: &[
                COIL_L.typed("5 H"),
                COIL_R.typed("9k"),
                COIL_C.typed("150p"),
                TONE_C.typed("47n"),
                LEAD_LENGTH.typed("6 m"),
            ],
            held: &[],
        },
        Preset {
            id: "two-coil",
            values: &[
                CoilsKind::Series.to(COILS),
                COIL_L.typed("2 H"),
                COIL_R.typed("4k"),
                COUPLING.typed("0.3"),
                VOLUME_R.typed("500k"),
                TONE_R.typed("500k"),
            ],
            held: &[],
        },
    ],
    solve,
    keeps: Keeps::Nothing,
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
    let load = OnePort::parallel_rc(r_l, c_l);
    let stands = |pickup: &Pickup, lead: &Lead, load: &OnePort| {
        let path = lead.added_to(pickup.path(load.clone()), "part-lead");
        features(&path).peak.is_some_and(|peak| peak.height >= HEARD)
    };
    let full = |pot: &Pot| pot.turn >= 1.0;
    if stands(&Pickup { volume: None, tone: None, ..*pickup }, lead, &load) {
        let up = pickup.volume.as_ref().is_none_or(full) && pickup.tone.as_ref().is_none_or(|tone| full(&tone.pot));
        if up { "pots" } else { "controls" }
    } else if stands(pickup, lead, &OnePort::resistor(UNLOADED)) {
        "load"
    } else if stands(pickup, &Lead::NONE, &load) {
        "lead"
    } else {
        "together"
    }
}

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let (pickup, lead) = (pickup(values)?, lead(values)?);
    let (r_l, c_l, f) = (values.number(LOAD_R)?, values.number(LOAD_C)?, values.number(FREQUENCY)?);
    let into = |load: OnePort| lead.added_to(pickup.path(load), "part-lead");
    let rig = into(OnePort::parallel_rc(r_l, c_l));
    let unloaded = into(OnePort::resistor(UNLOADED));
    let found = features(&rig);
    let peak = found.peak;
    let at_f = [("f", Arg::Quantity(f, Unit::Hertz))];

    sheet.headline("peak", peak.map(|peak| peak.frequency), Unit::Hertz, &[]);
    sheet.headline("peak_height", peak.map(|peak| peak.height), Unit::Decibel, &[]);
    let (_, l_whole, c_whole, _) = pickup.whole();
    let own = 1.0 / (TAU * (l_whole * (c_whole + lead.capacitance() + c_l)).sqrt());
    let (tone, verdict) = match peak {
        None => (Tone::Trouble, "verdict-none"),
        Some(peak) if peak.height < HEARD => (Tone::Watch, "verdict-flat"),
        Some(peak) if peak.frequency < MOVED * own => (Tone::Watch, "verdict-moved"),
        Some(_) => (Tone::Fine, "verdict-open"),
    };
    let dull = matches!(verdict, "verdict-none" | "verdict-flat");
    let by = if dull && sheet.wants_words() { what_dulls(&pickup, &lead, r_l, c_l) } else { "" };
    sheet.verdict(tone, verdict, &[("by", Arg::Key(format!("pickup-by-{by}")))]);
    let load_loss = unloaded.level(f) - rig.level(f);
    sheet.headline("load_loss", load_loss, Unit::Decibel, &at_f);
    let (tone, verdict) = verdict_of_load(load_loss);
    sheet.verdict(tone, verdict, &[]);

    let level = rig.level(f);
    let [total, free] = resonance(sheet, &pickup, &lead, c_l)?;
    sheet.working.walk(&rig, f)?;
    if sheet.wants_working() {
        last_steps(sheet, unloaded.level(f), peak, found.midband)?;
    }
    sheet.further("level_at", level, Unit::Decibel, &at_f);
    sheet.further("change_at", level - found.midband, Unit::Decibel, &at_f);
    sheet.further("level_1k", found.midband, Unit::Decibel, &[]);
    sheet.further("peak_level", peak.map(|peak| peak.level), Unit::Decibel, &[]);
    sheet.further("low_corner", found.low_corner, Unit::Hertz, &[]);
    sheet.further("high_corner", found.high_corner, Unit::Hertz, &[]);
    sheet.further("total_c", total, Unit::Farad, &[]);
    sheet.further("free_resonance", free, Unit::Hertz, &[]);
    sheet.further("impedance_1k", rig.output_impedance(MIDBAND).norm(), Unit::Ohm, &[]);
    if pickup.coils != Coils::One && pickup.coupling <= 0.0 && values.choice(PHASE)? == Phase::Out {
        sheet.warn("out-of-phase", &[]);
    }

    let summary = summary(load_loss, f, peak);
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

/// What to make of what a load takes off, dB.
fn verdict_of_load(loss: f64) -> (Tone, &'static str) {
    match loss {
        loss if loss < LIGHT => (Tone::Fine, "verdict-light"),
        loss if loss < AUDIBLE => (Tone::Watch, "verdict-audible"),
        _ => (Tone::Trouble, "verdict-heavy"),
    }
}

/// What the headlines take from the curves, behind the walk, which left `a` and
/// does the same at any frequency; `reference` is the level that a peak is over.
fn last_steps(sheet: &mut Sheet, unloaded: f64, peak: Option<Peak>, reference: f64) -> Result<(), Fault> {
    sheet.working.given("a_U", unloaded, Unit::Decibel);
    sheet.working.step("load_loss_step", "a_L", "a_U - a", Unit::Decibel)?;
    if let Some(peak) = peak {
        sheet.working.given("a_p", peak.level, Unit::Decibel);
        sheet.working.given("a_1", reference, Unit::Decibel);
        let at = [("f", Arg::Quantity(peak.frequency, Unit::Hertz))];
        sheet.working.step_with("height_step", &at, "h", "a_p - a_1", Unit::Decibel)?;
    }
    Ok(())
}

/// Capacitance `C_t` of all together, F, and where it resonates with the coil, Hz.
fn resonance(sheet: &mut Sheet, pickup: &Pickup, lead: &Lead, c_l: f64) -> Result<[f64; 2], Fault> {
    let (_, l_whole, c_whole, _) = pickup.whole();
    sheet.working.given("L", l_whole, Unit::Henry);
    sheet.working.given("C_W", c_whole, Unit::Farad);
    sheet.working.given("C′", lead.c, Unit::FaradPerMetre);
    sheet.working.given("l", lead.length, Unit::Metre);
    sheet.working.given("C_L", c_l, Unit::Farad);
    let total = sheet.working.step("total_c", "C_t", "C_W + C′*l + C_L", Unit::Farad)?;
    let free = sheet.working.step("free_resonance", "f_0", "1/(2*pi*sqrt(L*C_t))", Unit::Hertz)?;
    Ok([total, free])
}

/// What the picture shows: what the load takes off at `f` Hz, and the peak.
fn summary(load_loss: f64, f: f64, peak: Option<Peak>) -> [(&'static str, Arg); 4] {
    let loss_arg = ("loss", Arg::Quantity(load_loss, Unit::Decibel));
    match peak {
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
    }
}
