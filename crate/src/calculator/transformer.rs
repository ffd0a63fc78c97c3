//! Transformer: what turns ratio and a real core do to impedance, level and band.

use super::frequency::Drawn;
use super::report::Tone;
use super::shared::{LOAD_C, LOAD_R, SOURCE_R};
use super::{Calculator, Fault, Preset, Sheet, Values};
use crate::catalogue::tolerance::PartKind;
use crate::catalogue::typical::TURNS;
use crate::field::{Field, joined};
use crate::network::{MIDBAND, OnePort, Path, Response as _, decibel, features};
use crate::part::Transformer;
use crate::quantity::Unit;
use crate::words::Arg;

/// A real transformer, for every calculator that has one.
pub(super) const TRANSFORMER: [Field; 8] = [
    Field::number("ratio", "n", Unit::Ratio, 12.0, (0.1, 20.0)).limits(1e-3, 1e3).marks(TURNS).at("transformer"),
    Field::number("r1", "R_1", Unit::Ohm, 2e3, (1.0, 10e3))
        .limits(0.0, 1e7)
        .part(PartKind::Winding)
        .detail()
        .at("transformer"),
    Field::number("r2", "R_2", Unit::Ohm, 15.0, (1.0, 1e3))
        .limits(0.0, 1e7)
        .part(PartKind::Winding)
        .detail()
        .at("transformer"),
    Field::number("magnetising", "L_m", Unit::Henry, 400.0, (1.0, 1000.0))
        .limits(1e-3, 1e6)
        .optional()
        .at("transformer"),
    Field::number("core_loss", "R_c", Unit::Ohm, 1e6, (10e3, 10e6))
        .limits(1.0, 1e12)
        .part(PartKind::Winding)
        .optional()
        .detail()
        .at("transformer"),
    Field::number("leakage", "L_k", Unit::Henry, 60e-3, (1e-3, 1.0))
        .limits(0.0, 1e3)
        .bare(1e-3)
        .detail()
        .at("transformer"),
    Field::number("c1", "C_1", Unit::Farad, 150e-12, (0.0, 2e-9))
        .limits(0.0, 1e-6)
        .bare(1e-12)
        .detail()
        .at("transformer"),
    Field::number("c2", "C_2", Unit::Farad, 0.0, (0.0, 2e-9)).limits(0.0, 1e-6).bare(1e-12).detail().at("transformer"),
];

/// The largest level on its primary at 20 Hz.
pub(super) const LARGEST: Field =
    Field::number("largest", "U_20", Unit::DecibelU, 20.0, (0.0, 30.0)).limits(-60.0, 80.0).at("transformer");

/// What the primary shows a source that it loads lightly, and one that it still
/// lets be heard, in source resistances (common practice, no source).
const LIGHT: f64 = 10.0;
const LOADING: f64 = 2.0;

pub(super) static CALCULATOR: Calculator = Calculator {
    id: "transformer",
    fields: &joined::<13>(&[
        &[
            SOURCE_R.starting(10e3),
            Field::number("source_l", "L_S", Unit::Henry, 0.0, (0.0, 10.0)).limits(0.0, 1e3).detail().at("source"),
        ],
        &TRANSFORMER,
        &[LARGEST, LOAD_R.starting(1500.0), LOAD_C],
    ]),
    presets: &[
        Preset { id: "box", values: &[], held: &[] },
        Preset {
            id: "isolator",
            values: &[
                ("source_r", "150"),
                ("ratio", "1:1"),
                ("r1", "60"),
                ("r2", "60"),
                ("magnetising", "20 H"),
                ("core_loss", "100k"),
                ("leakage", "5 mH"),
                ("c1", "300p"),
                ("largest", "+18 dBu"),
                ("load_r", "10k"),
            ],
            held: &[],
        },
    ],
    solve,
};

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let (r_s, r_l, c_l) = (values.number("source_r")?, values.number("load_r")?, values.number("load_c")?);
    let part = transformer(values)?;
    let source = OnePort::r_l(r_s, values.number("source_l")?);
    let load = OnePort::r_c(r_l, c_l);
    let rig = part.added_to(Path::new(source.clone(), load.clone()));
    let straight = Path::new(source, load);
    let found = features(&rig, MIDBAND);
    let transfer = rig.transfer(1000.0);
    let z_in = rig.input_impedance(1000.0).norm();
    let z_out = rig.output_impedance(1000.0).norm();

    sheet.headline("z_in", z_in, Unit::Ohm, &[]);
    let (tone, verdict) = match z_in / r_s {
        r if r >= LIGHT => (Tone::Fine, "verdict-light"),
        r if r >= LOADING => (Tone::Watch, "verdict-loading"),
        _ => (Tone::Trouble, "verdict-heavy"),
    };
    sheet.verdict(tone, verdict, &[]);
    sheet.headline("level", found.reference, Unit::Decibel, &[]);
    sheet.headline("z_out", z_out, Unit::Ohm, &[]);

    for (name, value, unit) in [
        ("n", part.ratio, Unit::Ratio),
        ("R_S", r_s, Unit::Ohm),
        ("R_L", r_l, Unit::Ohm),
        ("R_1", part.r1, Unit::Ohm),
        ("R_2", part.r2, Unit::Ohm),
    ] {
        sheet.given(name, value, unit);
    }
    let step_down = sheet.step("ideal_level", "a_n", "-20*log10(n)", Unit::Decibel)?;
    let reflected_load = sheet.step("reflected_load", "R_L′", "n^2*R_L", Unit::Ohm)?;
    let reflected_source = sheet.step("reflected_source", "R_S′", "R_S/n^2", Unit::Ohm)?;
    sheet.further("ideal_level", step_down, Unit::Decibel, &[]);
    sheet.further("reflected_load", reflected_load, Unit::Ohm, &[]);
    sheet.further("reflected_source", reflected_source, Unit::Ohm, &[]);
    sheet.further("insertion_loss", decibel(straight.transfer(1000.0)) - decibel(transfer), Unit::Decibel, &[]);
    sheet.further("low_corner", found.low_corner, Unit::Hertz, &[]);
    sheet.further("high_corner", found.high_corner, Unit::Hertz, &[]);
    if let Some(l_m) = part.magnetising {
        sheet.given("L_m", l_m, Unit::Henry);
        sheet.given("R_c", part.core_loss.unwrap_or(f64::INFINITY), Unit::Ohm);
        sheet.step("parallel", "R_p", "1/(1/(R_S + R_1) + 1/(n^2*(R_2 + R_L)) + 1/R_c)", Unit::Ohm)?;
        let low = sheet.step("low_estimate", "f_u", "R_p/(2*pi*L_m)", Unit::Hertz)?;
        sheet.further("low_estimate", low, Unit::Hertz, &[]);
    }
    largest(values, sheet, &rig)?;
    sheet.working.walk(&rig, 1000.0)?;
    if sheet.wants_working() {
        sheet.given("a_D", decibel(straight.transfer(1000.0)), Unit::Decibel);
        sheet.step("insertion_loss_step", "a_i", "a_D - a", Unit::Decibel)?;
    }

    sheet.response_plot(
        "response",
        &[("level", Arg::Quantity(found.reference, Unit::Decibel))],
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

/// The largest level at low frequencies: flux = U/(2π·f·N), so the primary
/// takes U_20·f/20 Hz; what it leaves at the load follows from the response.
fn largest(values: &Values, sheet: &mut Sheet, rig: &Path) -> Result<(), Fault> {
    sheet.given("U_20", values.number("largest")?, Unit::DecibelU);
    for (f, symbol, primary, at_load) in [
        (20.0, "U_20Hz", "largest_20", "largest_20_load"),
        (40.0, "U_40Hz", "largest_40", "largest_40_load"),
        (80.0, "U_80Hz", "largest_80", "largest_80_load"),
    ] {
        sheet.given("f", f, Unit::Hertz);
        sheet.given("f_20", 20.0, Unit::Hertz);
        let level = sheet.step(primary, symbol, "U_20 + 20*log10(f/f_20)", Unit::DecibelU)?;
        sheet.further(primary, level, Unit::DecibelU, &[]);
        // From the primary's terminals to the load: the source's own drop taken out.
        let z_in = rig.input_impedance(f);
        let from_primary = rig.level(f) - decibel(z_in / (z_in + rig.source.impedance(f)));
        sheet.further(at_load, level + from_primary, Unit::DecibelU, &[]);
    }
    Ok(())
}

/// The transformer of the fields that every calculator with one shares.
pub(super) fn transformer(values: &Values) -> Result<Transformer, Fault> {
    Ok(Transformer {
        ratio: values.number("ratio")?,
        r1: values.number("r1")?,
        r2: values.number("r2")?,
        leakage: values.number("leakage")?,
        magnetising: values.optional("magnetising")?,
        core_loss: values.optional("core_loss")?,
        c1: values.number("c1")?,
        c2: values.number("c2")?,
    })
}
