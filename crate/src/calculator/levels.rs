//! Levels: the same voltage in every unit of the trade, and what is between it and
//! the level that an input is made for.

use super::pad;
use crate::calculator::{Calculator, Keeps, Preset};
use crate::catalogue::typical::{LINE_INPUT_R, LINE_LEVEL};
use crate::fault::Fault;
use crate::field::converter::{ALIGNMENT, Alignment, FULL_SCALE, full_scale};
use crate::field::load::LOAD_R;
use crate::field::signal::CREST;
use crate::field::source::EMF;
use crate::field::{ChoiceField, Field, Values, choice};
use crate::quantity::level::HALF_POWER;
use crate::quantity::{FINE, Unit};
use crate::report::{Sheet, Tone};
use crate::words::Arg;

/// Peaks this near to full scale are worth a look, dBFS (common practice, no
/// source).
const NEAR: f64 = -3.0;

/// Levels this near to each other are one: a trim takes up the rest, dB (common
/// practice, no source).
const SAME: f64 = 1.0;

/// 0 dBu is the voltage that puts this power, W, into this resistance, Ω (IEC
/// 60027-3).
const REFERENCE_POWER: f64 = 1e-3;
const REFERENCE_R: f64 = 600.0;

/// No level of any unit is higher, dB: 10 kV are +82 dBu.
const MOST: f64 = 200.0;

choice! {
    /// A unit in which levels are stated.
    pub(crate) enum LevelUnit {
        /// dBu.
        Dbu = "dbu" in Unit::DecibelU,
        /// dBV.
        Dbv = "dbv" in Unit::DecibelV,
        /// dBm.
        Dbm = "dbm" in Unit::DecibelM,
        /// dBFS.
        Dbfs = "dbfs" in Unit::DecibelFullScale,
        /// V rms
        Volt = "volt" in Unit::Volt,
        /// V peak.
        VoltPeak = "volt_peak" in Unit::VoltPeak,
        /// V from peak to peak.
        VoltPeakToPeak = "volt_pp" in Unit::VoltPeakToPeak,
    }
}

/// The unit in which the level is stated.
pub(crate) const UNIT: ChoiceField<LevelUnit> = LevelUnit::field("unit", LevelUnit::Dbu).at("level");
/// The level.
pub(crate) const LEVEL: Field =
    Field::number("level", "a", Unit::DecibelU, 4.0, (0.0, 0.0)).limits(-200.0, 10e3).unit_from(UNIT).at("level");
/// The level that an input is made for, V; none where that is not asked.
pub(crate) const INTO: Field =
    Field::blank("into", "U_I", Unit::Volt, (10e-3, 12.3)).limits(1e-9, 10e3).marks(LINE_LEVEL).at("level");
const POWER_R: Field =
    Field::number("power_r", "R", Unit::Ohm, 600.0, (50.0, 1e3)).limits(1e-3, 1e9).exact().detail().at("signal");

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "levels",
    fields: &[
        LEVEL,
        UNIT.field(),
        INTO,
        CREST.starting(HALF_POWER).usual(0.0, 20.0).marks(&[]).at("signal"),
        POWER_R,
        ALIGNMENT.field(),
        FULL_SCALE,
    ],
    first: &[LEVEL.id, UNIT.id()],
    presets: &[
        Preset { id: "consumer", values: &[LEVEL.typed("-10 dBV")], held: &[] },
        Preset { id: "professional", values: &[LEVEL.typed("+4 dBu"), Alignment::Rp155.to(ALIGNMENT)], held: &[] },
        Preset {
            id: "into",
            values: &[LEVEL.typed("+4 dBu"), INTO.typed("-10 dBV")],
            held: &[&[LEVEL.typed("-10 dBV"), INTO.typed("+4 dBu")]],
        },
        Preset { id: "speech", values: &[LEVEL.typed("-18 dBFS"), CREST.typed("12")], held: &[] },
    ],
    solve,
    keeps: Keeps::Nothing,
};

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    // A converted level is set by its number.
    sheet.tell_finer(|_, unit| unit.is_level());
    let given = values.number(LEVEL)?;
    let unit = values.choice(UNIT)?;
    sheet.working.given("c", values.number(CREST)?, Unit::Decibel);
    sheet.working.given("R", values.number(POWER_R)?, Unit::Ohm);
    sheet.working.given("P_0", REFERENCE_POWER, Unit::Watt);
    sheet.working.given("R_0", REFERENCE_R, Unit::Ohm);
    sheet.working.step("reference", "U_0", "sqrt(P_0*R_0)", Unit::Volt)?;
    if let Some(source) = values.choice(ALIGNMENT)?.source() {
        sheet.source(source);
    }
    let full_scale = full_scale(values, &mut sheet.working)?;

    let formula = match unit {
        LevelUnit::Dbu => "U_0*10^(a/20)",
        LevelUnit::Dbv => "1*10^(a/20)",
        LevelUnit::Dbm => "sqrt(P_0*R*10^(a/10))",
        LevelUnit::Dbfs => "U_0*10^((a + a_FS)/20)",
        LevelUnit::Volt => "a",
        LevelUnit::VoltPeak => "a/10^(c/20)",
        LevelUnit::VoltPeakToPeak => "a/2/10^(c/20)",
    };
    let unit = unit.answer().unit.unwrap_or(LEVEL.unit());
    if given <= 0.0 && !unit.is_level() {
        return Err(LEVEL.fault("fault-volts-positive"));
    }
    if given > MOST && unit.is_level() {
        return Err(LEVEL.fault("fault-level-much"));
    }
    sheet.working.given("a", given, unit);
    let volts = sheet.working.step("volts", "U", formula, Unit::Volt)?;
    let dbu = sheet.working.step("dbu", "a_u", "20*log10(U/U_0)", Unit::DecibelU)?;
    sheet.working.given("U_1", 1.0, Unit::Volt);
    let dbv = sheet.working.step("dbv", "a_V", "20*log10(U/U_1)", Unit::DecibelV)?;
    let power = sheet.working.step("power", "P", "U^2/R", Unit::Watt)?;
    let dbm = sheet.working.step("dbm", "a_m", "10*log10(P/P_0)", Unit::DecibelM)?;
    let dbfs = sheet.working.step("dbfs", "d", "a_u - a_FS", Unit::DecibelFullScale)?;
    let peak = sheet.working.step("volts_peak", "U_p", "U*10^(c/20)", Unit::VoltPeak)?;
    let peak_to_peak = sheet.working.step("volts_peak_to_peak", "U_pp", "2*U_p", Unit::VoltPeakToPeak)?;
    let peak_level = sheet.working.step("peak_level", "d_p", "d + c - 10*log10(2)", Unit::DecibelFullScale)?;

    if let Some(into) = values.optional(INTO)? {
        into_input(sheet, into, volts)?;
    }
    sheet.headline("dbu", dbu, Unit::DecibelU, &[]);
    sheet.because("dbu.because", "a_u", "20*log10(U/U_0)")?;
    sheet.headline("dbv", dbv, Unit::DecibelV, &[]);
    sheet.headline("volts", volts, Unit::Volt, &[]);
    sheet.headline("dbfs", dbfs, Unit::DecibelFullScale, &[]);
    of_peaks(sheet, peak_level);
    sheet.further("peak_level", peak_level, Unit::DecibelFullScale, &[]);
    sheet.further("full_scale_level", full_scale, Unit::DecibelU, &[]);
    sheet.further("volts_peak", peak, Unit::VoltPeak, &[]);
    sheet.further("volts_peak_to_peak", peak_to_peak, Unit::VoltPeakToPeak, &[]);
    sheet.further("dbm", dbm, Unit::DecibelM, &[]);
    sheet.further("power", power, Unit::Watt, &[]);
    sheet.source("source-levels");
    Ok(())
}

/// What to make of the peaks, dBFS.
fn of_peaks(sheet: &mut Sheet, peak_level: f64) {
    if peak_level > 1e-9 {
        sheet.verdict(Tone::Trouble, "verdict-clips", &[]);
    } else if peak_level > NEAR {
        sheet.verdict(Tone::Watch, "verdict-near", &[]);
    } else {
        sheet.verdict(Tone::Fine, "verdict-room", &[]);
    }
}

/// How much hotter the level `a_u` of `volts` is than an input is made for, and what
/// to do about it.
fn into_input(sheet: &mut Sheet, into: f64, volts: f64) -> Result<(), Fault> {
    sheet.working.given("U_I", into, Unit::Volt);
    sheet.working.step("into_dbu", "a_I", "20*log10(U_I/U_0)", Unit::DecibelU)?;
    let hotter = sheet.working.step("hotter_step", "a_D", "a_u - a_I", Unit::Decibel)?;
    sheet.headline_loss("hotter", hotter, &[]);
    let (tone, verdict) = match hotter {
        hotter if hotter.abs() < SAME => (Tone::Fine, "verdict-same"),
        hotter if hotter > 0.0 => (Tone::Watch, "verdict-down"),
        _ => (Tone::Watch, "verdict-up"),
    };
    sheet.verdict(tone, verdict, &[("step", Arg::Figures(hotter.abs(), Unit::Decibel, FINE))]);
    if hotter >= SAME {
        let mut filling = pad::CALCULATOR.filling();
        filling.choose(pad::LEGS, pad::Legs::Unbalanced);
        filling.put(pad::LOSS, hotter);
        filling.put(EMF, volts);
        filling.put(LOAD_R, LINE_INPUT_R);
        sheet.link_to("link-pad", &[], &filling);
    }
    Ok(())
}
