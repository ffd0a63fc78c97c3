//! Transformer: what turns ratio and a real core do to impedance, level and band.

use crate::calculator::{Calculator, Keeps, Preset};
use crate::fault::Fault;
use crate::field::load::{LOAD_C, LOAD_R};
use crate::field::source::{SOURCE_L, SOURCE_R};
use crate::field::transformer::{
    C1, CORE_LOSS, LARGEST, LEAKAGE, MAGNETISING, R1, R2, RATIO, TRANSFORMER, transformer,
};
use crate::field::{Values, joined};
use crate::network::{MIDBAND, OnePort, Path, Response as _, decibels_of_transfer, features};
use crate::part::{LARGEST_AT, Transformer};
use crate::quantity::Unit;
use crate::report::{Drawn, Sheet, Tone};
use crate::words::Arg;

/// What the primary shows a source that it loads lightly, and one that it still
/// lets be heard, in source resistances (common practice, no source).
const LIGHT: f64 = 10.0;
const LOADING: f64 = 2.0;

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "transformer",
    fields: &joined::<_, 13>(&[
        &[SOURCE_R.starting(10e3), SOURCE_L],
        &TRANSFORMER,
        &[LARGEST, LOAD_R.starting(1500.0), LOAD_C],
    ]),
    first: &[SOURCE_R.id, RATIO.id, LOAD_R.id],
    presets: &[
        Preset { id: "box", values: &[], held: &[] },
        Preset {
            id: "isolator",
            values: &[
                SOURCE_R.typed("150"),
                RATIO.typed("1:1"),
                R1.typed("60"),
                R2.typed("60"),
                MAGNETISING.typed("20 H"),
                CORE_LOSS.typed("100k"),
                LEAKAGE.typed("5 mH"),
                C1.typed("300p"),
                LARGEST.typed("+18 dBu"),
                LOAD_R.typed("10k"),
            ],
            held: &[],
        },
    ],
    solve,
    keeps: Keeps::Nothing,
};

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let (r_s, r_l, c_l) = (values.number(SOURCE_R)?, values.number(LOAD_R)?, values.number(LOAD_C)?);
    let part = transformer(values)?;
    let source = OnePort::series_rl(r_s, values.number(SOURCE_L)?);
    let load = OnePort::parallel_rc(r_l, c_l);
    let rig = part.added_to(Path::new(source.clone(), load.clone()));
    let straight = Path::new(source, load);
    let found = features(&rig);
    let transfer = rig.transfer(MIDBAND);
    let z_in = rig.input_impedance(MIDBAND).norm();
    let z_out = rig.output_impedance(MIDBAND).norm();

    shown(sheet, z_in, rig.source.impedance(MIDBAND).norm())?;
    sheet.headline("level", found.midband, Unit::Decibel, &[]);
    sheet.headline("z_out", z_out, Unit::Ohm, &[]);
    if !sheet.wants_further() {
        return Ok(());
    }

    for (name, value, unit) in [
        ("n", part.ratio, Unit::Ratio),
        ("R_S", r_s, Unit::Ohm),
        ("R_L", r_l, Unit::Ohm),
        ("R_1", part.r1, Unit::Ohm),
        ("R_2", part.r2, Unit::Ohm),
    ] {
        sheet.working.given(name, value, unit);
    }
    sheet.working.given("Z_Q", rig.output_impedance(MIDBAND), Unit::Ohm);
    sheet.working.step("z_out_step", "Z_o", "abs(Z_Q)", Unit::Ohm)?;
    ideal(sheet)?;
    let loss = decibels_of_transfer(straight.transfer(MIDBAND)) - decibels_of_transfer(transfer);
    sheet.further_loss("insertion_loss", loss, &[]);
    sheet.further("low_corner", found.low_corner, Unit::Hertz, &[]);
    sheet.further("high_corner", found.high_corner, Unit::Hertz, &[]);
    low_estimate(sheet, &part)?;
    largest(values, sheet, &rig)?;
    sheet.working.walk(&rig, MIDBAND)?;
    if sheet.wants_working() {
        sheet.working.given("a_D", decibels_of_transfer(straight.transfer(MIDBAND)), Unit::Decibel);
        sheet.working.step("insertion_loss_step", "a_i", "a_D - a", Unit::Decibel)?;
    }

    sheet.response_plot(
        "response",
        &[("level", Arg::Quantity(found.midband, Unit::Decibel))],
        &[
            Drawn { id: "curve", reference: false, response: &rig },
            Drawn { id: "curve-straight", reference: true, response: &straight },
        ],
        Some(&found),
    );
    sheet.source("source-chain");
    sheet.source("source-whitlock");
    sheet.source("source-practice");
    Ok(())
}

/// What the transformer and its load show the source, and what to make of it.
fn shown(sheet: &mut Sheet, z_in: f64, z_source: f64) -> Result<(), Fault> {
    sheet.headline("z_in", z_in, Unit::Ohm, &[]);
    sheet.because("z_in.because", "Z", &Transformer::reflected_load("R_L"))?;
    let (tone, verdict) = match z_in / z_source {
        r if r >= LIGHT => (Tone::Fine, "verdict-light"),
        r if r >= LOADING => (Tone::Watch, "verdict-loading"),
        _ => (Tone::Trouble, "verdict-heavy"),
    };
    sheet.verdict(tone, verdict, &[]);
    Ok(())
}

/// What the turns ratio of a transformer alone does to the level, to the load and to the source.
fn ideal(sheet: &mut Sheet) -> Result<(), Fault> {
    let step_down = sheet.working.step("ideal_level", "a_n", "-20*log10(n)", Unit::Decibel)?;
    let reflected_load =
        sheet.working.step("reflected_load", "R_L′", &Transformer::reflected_load("R_L"), Unit::Ohm)?;
    let reflected_source =
        sheet.working.step("reflected_source", "R_S′", &Transformer::reflected_source("R_S"), Unit::Ohm)?;
    sheet.further("ideal_level", step_down, Unit::Decibel, &[]);
    sheet.further("reflected_load", reflected_load, Unit::Ohm, &[]);
    sheet.further("reflected_source", reflected_source, Unit::Ohm, &[]);
    Ok(())
}

/// The corner of the magnetising inductance with all that is parallel to it.
fn low_estimate(sheet: &mut Sheet, part: &Transformer) -> Result<(), Fault> {
    if let Some(l_m) = part.magnetising {
        sheet.working.given("L_m", l_m, Unit::Henry);
        sheet.working.given("R_c", part.core_loss.unwrap_or(f64::INFINITY), Unit::Ohm);
        let load = Transformer::reflected_load("(R_2 + R_L)");
        let formula = format!("1/(1/(R_S + R_1) + 1/({load}) + 1/R_c)");
        sheet.working.step("parallel", "R_p", &formula, Unit::Ohm)?;
        let low = sheet.working.step("low_estimate", "f_u", "R_p/(2*pi*L_m)", Unit::Hertz)?;
        sheet.further("low_estimate", low, Unit::Hertz, &[]);
    }
    Ok(())
}

/// The largest level at low frequencies; what it leaves at the load follows from
/// the response.
fn largest(values: &Values, sheet: &mut Sheet, rig: &Path) -> Result<(), Fault> {
    sheet.working.given("U_20", values.number(LARGEST)?, Unit::DecibelU);
    for (f, symbol, primary, at_load) in [
        (20.0, "U_20Hz", "largest_20", "largest_20_load"),
        (40.0, "U_40Hz", "largest_40", "largest_40_load"),
        (80.0, "U_80Hz", "largest_80", "largest_80_load"),
    ] {
        sheet.working.given("f", f, Unit::Hertz);
        sheet.working.given("f_20", LARGEST_AT, Unit::Hertz);
        let level = sheet.working.step(primary, symbol, &Transformer::largest_level("f"), Unit::DecibelU)?;
        sheet.further(primary, level, Unit::DecibelU, &[]);
        // From the primary's terminals to the load: the source's own drop taken out.
        let z_in = rig.input_impedance(f);
        let from_primary = rig.level(f) - decibels_of_transfer(z_in / (z_in + rig.source.impedance(f)));
        sheet.further(at_load, level + from_primary, Unit::DecibelU, &[]);
    }
    Ok(())
}
