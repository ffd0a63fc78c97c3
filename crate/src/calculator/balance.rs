//! Balanced line rejection: how much of the voltage between two earths a
//! balanced line turns into signal.

use super::filling::Filling;
use super::frequency::finite;
use super::ground_loop::{earth_volts, is_faulty_difference};
use super::report::Tone;
use super::shared::{MAINS, mains};
use super::{Calculator, Fault, Preset, Sheet, Values, ground_loop};
use crate::catalogue::typical::{COMMON_MODE_R, LEG_R, WINDING_C};
use crate::field::{Field, option};
use crate::network::{AUDIO_BAND, MIDBAND, OnePort, decibel, log_sweep, log_sweep_with};
use crate::part::{BalancedLine, Drive, OwnError, Receiver};
use crate::quantity::{Unit, VOLTS_AT_0_DBU};
use crate::words::Arg;

/// Points of a drawn curve.
const POINTS: usize = 121;
/// Orders of the harmonics that are given as numbers.
const HARMONICS: [(&str, f64); 3] = [("rejection_3", 3.0), ("rejection_5", 5.0), ("rejection_7", 7.0)];

/// What is out of balance, and what the receiver shows each leg, for every
/// calculator with a balanced line.
pub(super) const IMBALANCE: Field =
    Field::number("imbalance", "ΔR", Unit::Ohm, 10.0, (0.0, 50.0)).limits(0.0, 1e6).exact().at("source");
pub(super) const INPUT_R: Field =
    Field::number("input_r", "R_I", Unit::Ohm, 10e3, (5e3, 20e6)).limits(1.0, 1e12).marks(COMMON_MODE_R).at("receiver");
pub(super) const INPUT_SPREAD: Field =
    Field::number("input_spread", "δ_I", Unit::Percent, 0.01, (0.0, 0.1)).limits(0.0, 1.0).detail().at("receiver");
pub(super) const LEG_C: Field = Field::number("leg_c", "C_I", Unit::Farad, 1e-9, (100e-12, 10e-9))
    .limits(0.0, 1e-3)
    .bare(1e-12)
    .detail()
    .at("receiver");
pub(super) const C_IMBALANCE: Field = Field::number("c_imbalance", "ΔC", Unit::Farad, 20e-12, (0.0, 200e-12))
    .limits(0.0, 1e-3)
    .exact()
    .bare(1e-12)
    .detail()
    .at("receiver");

/// Rejections that are high, and usual, dB (common practice, no source).
const HIGH: f64 = 80.0;
const USUAL: f64 = 50.0;

pub(super) static CALCULATOR: Calculator = Calculator {
    id: "balance",
    // What is out of balance is stated by fields of its own, so that no part
    // has a tolerance here: both legs off by as much would change nothing.
    fields: &[
        Field::choice(
            "drive",
            &[
                option("both"),
                option("one"),
                option("grounded"),
                option("unbalanced"),
                option("floating"),
                option("floating_grounded"),
            ],
            "both",
        )
        .at("source"),
        Field::choice("legs", &[option("mean"), option("each")], "mean").detail().at("source"),
        Field::number("leg_r", "R_S", Unit::Ohm, 75.0, (10.0, 1e3))
            .limits(0.0, 1e6)
            .exact()
            .marks(LEG_R)
            .when("legs", &["mean"])
            .at("source"),
        IMBALANCE.when("legs", &["mean"]),
        Field::number("leg_hot", "R_h", Unit::Ohm, 80.0, (10.0, 1e3))
            .limits(0.0, 1e6)
            .exact()
            .marks(LEG_R)
            .when("legs", &["each"])
            .at("source"),
        Field::number("leg_cold", "R_c", Unit::Ohm, 70.0, (10.0, 1e3))
            .limits(0.0, 1e6)
            .exact()
            .marks(LEG_R)
            .when("legs", &["each"])
            .at("source"),
        Field::number("coupling_c", "C_K", Unit::Farad, 47e-6, (10e-6, 220e-6))
            .limits(1e-9, 1.0)
            .exact()
            .absent()
            .bare(1e-6)
            .detail()
            .at("source"),
        Field::number("coupling_spread", "δ_K", Unit::Percent, 0.1, (0.0, 0.4)).limits(0.0, 1.0).detail().at("source"),
        Field::number("floating_c", "C_F", Unit::Farad, 100e-12, (2e-12, 1e-9))
            .limits(1e-16, 1e-3)
            .exact()
            .bare(1e-12)
            .marks(WINDING_C)
            .when("drive", &["floating"])
            .at("source"),
        Field::choice("input", &[option("electronic"), option("transformer")], "electronic").at("receiver"),
        INPUT_R.exact().when("input", &["electronic"]),
        INPUT_SPREAD.when("input", &["electronic"]),
        Field::number("winding_c", "C_ps", Unit::Farad, 100e-12, (2e-12, 1e-9))
            .limits(1e-16, 1e-6)
            .exact()
            .bare(1e-12)
            .marks(WINDING_C)
            .when("input", &["transformer"])
            .at("receiver"),
        LEG_C.exact(),
        C_IMBALANCE,
        Field::number("own", "a_I", Unit::Decibel, 80.0, (40.0, 120.0))
            .limits(0.0, 200.0)
            .absent()
            .detail()
            .at("receiver"),
        Field::number("difference", "U_cm", Unit::Volt, 0.1, (10e-3, 1.0)).limits(0.0, 1e3).at("mains"),
        MAINS,
    ],
    presets: &[
        Preset {
            id: "iec",
            values: &[
                ("legs", "each"),
                ("leg_hot", "10"),
                ("leg_cold", "0"),
                ("input_spread", "0"),
                ("leg_c", "0"),
                ("c_imbalance", "0"),
            ],
            held: &[],
        },
        Preset {
            id: "inputs",
            values: &[("input_r", "10k")],
            held: &[&[("input_r", "20k")], &[("input_r", "10M")], &[("input", "transformer")]],
        },
        Preset {
            id: "keys",
            values: &[("drive", "unbalanced"), ("legs", "each"), ("leg_hot", "1k"), ("leg_cold", "0")],
            held: &[],
        },
    ],
    solve,
};

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    sheet.caution("caution-earth");
    let f = mains(values)?;
    let at_f = [("f", Arg::Quantity(f, Unit::Hertz))];
    let line = line(values, values.choice("input")? == "transformer")?;
    let here = line.at(f);
    let u_cm = earth_volts(values, "difference")?;
    if is_faulty_difference(u_cm) {
        sheet.warn("stop", &[]);
    }

    let ([z_h, z_c], [y_h, y_c]) = (here.z, here.y);
    sheet.given("Z_h", z_h, Unit::Ohm);
    sheet.given("Z_c", z_c, Unit::Ohm);
    sheet.given("Y_h", y_h, Unit::Siemens);
    sheet.given("Y_c", y_c, Unit::Siemens);
    // Differences as numbers of their own: taken from rounded numbers they
    // would be lost in the rounding.
    sheet.given("Delta_Z", z_h - z_c, Unit::Ohm);
    sheet.given("Delta_Y", y_h - y_c, Unit::Siemens);
    sheet.step_with("mean_z", &[], "Z_m", "(Z_h + Z_c)/2", Unit::Ohm)?;
    sheet.step_with("mean_y", &[], "Y_m", "(Y_h + Y_c)/2", Unit::Siemens)?;
    sheet.step_with("share_hot", &[], "H_h", "1/(1 + Z_h*Y_h)", Unit::One)?;
    sheet.step_with("share_cold", &[], "H_c", "1/(1 + Z_c*Y_c)", Unit::One)?;
    match &line.floating {
        None => sheet.given("m", 1.0, Unit::One),
        Some(float) => {
            sheet.given("Y_F", float.admittance(f), Unit::Siemens);
            sheet.step_with("middle", &[], "m", "Y_F/(Y_F + Y_h*H_h + Y_c*H_c)", Unit::One)?;
        }
    }
    sheet.step_with("bridge", &[], "e_B", "-m*(Z_m*Delta_Y + Y_m*Delta_Z)*H_h*H_c", Unit::One)?;
    let error = match line.own {
        None => sheet.step("error", "e", "abs(e_B)", Unit::One)?,
        Some(own) => {
            sheet.given("a_I", -decibel(own.at_1_khz.into()), Unit::Decibel);
            sheet.given("f", f, Unit::Hertz);
            sheet.given("f_1", MIDBAND, Unit::Hertz);
            let slope = if own.rising { "*f/f_1" } else { "" };
            let own = format!("10^(-a_I/20){slope}*abs(m*(H_h + H_c)/2)");
            sheet.step("own_error", "e_I", &own, Unit::One)?;
            sheet.step("error", "e", "abs(e_B) + e_I", Unit::One)?
        }
    };
    if line.floating.is_none() {
        sheet.given("g_h", line.hot.emf, Unit::One);
        sheet.given("g_c", line.cold.emf, Unit::One);
        sheet.step_with("gain_step", &[], "G", "g_h*H_h - g_c*H_c", Unit::One)?;
    } else {
        // The middle of a floating source moves a little with its own signal.
        sheet.given("G", here.gain, Unit::One);
    }
    let gain = sheet.step("gain", "a_S", "20*log10(abs(G))", Unit::Decibel)?;
    sheet.given("U_cm", u_cm, Unit::Volt);
    sheet.given("U_0", VOLTS_AT_0_DBU, Unit::Volt);
    let rejection = sheet.step("rejection_step", "a", "-20*log10(e)", Unit::Decibel)?;
    let level = sheet.step("error_level_step", "a_e", "20*log10(U_cm*e/U_0)", Unit::DecibelU)?;
    let to_signal = sheet.step("rejection_signal_step", "a_G", "20*log10(abs(G)/e)", Unit::Decibel)?;
    sheet.headline("rejection", rejection, Unit::Decibel, &at_f);
    let (tone, verdict) = match rejection {
        _ if error == 0.0 => (Tone::Watch, "verdict-perfect"),
        a if a >= HIGH => (Tone::Fine, "verdict-high"),
        a if a >= USUAL => (Tone::Watch, "verdict-usual"),
        _ => (Tone::Trouble, "verdict-low"),
    };
    sheet.verdict(tone, verdict, &[]);
    sheet.headline("error_level", level, Unit::DecibelU, &at_f);
    sheet.headline("rejection_signal", to_signal, Unit::Decibel, &at_f);
    sheet.further("gain", gain, Unit::Decibel, &[]);
    for (id, order) in HARMONICS {
        sheet.further(id, line.rejection(order * f), Unit::Decibel, &[("f", Arg::Quantity(order * f, Unit::Hertz))]);
    }
    sheet.further("rejection_1k", line.rejection(1000.0), Unit::Decibel, &[]);
    sheet.further("rejection_20k", line.rejection(20e3), Unit::Decibel, &[]);
    sheet.further("imbalance_z", (z_h - z_c).norm(), Unit::Ohm, &at_f);
    sheet.further("input_z", y_h.inv().norm().min(y_c.inv().norm()), Unit::Ohm, &at_f);
    if matches!(values.choice("drive")?, "one" | "grounded") {
        sheet.warn("half", &[]);
    }

    // What rounding leaves of a difference is none to draw or to go on with.
    if error > f64::EPSILON {
        plots(values, sheet, &line, f, rejection)?;
        let filled = [
            ("connection", Arg::Text("balanced".to_owned())),
            ("rejection", Arg::Quantity(rejection, Unit::Decibel)),
            ("mains", Arg::Text(values.choice("mains")?.to_owned())),
        ];
        sheet.link_to("link-loop", &at_f, &Filling::of(&ground_loop::CALCULATOR, &filled));
    }
    sheet.source("source-whitlock");
    sheet.source("source-balance-test");
    sheet.source("source-practice");
    Ok(())
}

fn plots(values: &Values, sheet: &mut Sheet, line: &BalancedLine, f: f64, rejection: f64) -> Result<(), Fault> {
    if !sheet.wants_plots() {
        return Ok(());
    }
    let transformer = values.choice("input")? == "transformer";
    let harmonics = HARMONICS.map(|(_, order)| order * f);
    let x = log_sweep_with(&AUDIO_BAND, POINTS, &[f, harmonics[0], harmonics[1], harmonics[2], 1000.0]);
    let over = |line: &BalancedLine| x.iter().map(|f| finite(line.rejection(*f))).collect::<Vec<_>>();
    let mut traces = vec![sheet.trace("curve", false, x.clone(), over(line))];
    // An imbalance that this input has may be impossible with the other one.
    if let Ok(other) = self::line(values, !transformer) {
        let id = if transformer { "curve-electronic" } else { "curve-transformer" };
        traces.push(sheet.trace(id, true, x.clone(), over(&BalancedLine { own: None, ..other })));
    }
    let marks = [("f", Arg::Quantity(f, Unit::Hertz)), ("rejection", Arg::Quantity(rejection, Unit::Decibel))];
    let marker = sheet.marker("marker-mains", &marks, f, rejection);
    let summary = [marks[0].clone(), marks[1].clone(), ("high", Arg::Quantity(line.rejection(20e3), Unit::Decibel))];
    if let Some((from, to)) = span(traces.iter().flat_map(|trace| &trace.y).copied()) {
        let plot = sheet.level_plot("by-frequency", &summary, "axis-rejection", Unit::Decibel, traces);
        (plot.y.from, plot.y.to) = (from, to);
        plot.markers.push(marker);
    }

    if !transformer {
        let band = 1e3..=100e6;
        let x = log_sweep(&band, 61);
        let y: Vec<_> = x
            .iter()
            .map(|r| self::line(&values.clone().with("input_r", *r), false).map(|line| finite(line.rejection(f))))
            .collect::<Result<_, _>>()?;
        if let Some((from, to)) = span(y.iter().copied()) {
            let axis = sheet.axis("axis-input", Unit::Ohm, true, *band.start(), *band.end());
            let levels = sheet.axis("axis-rejection", Unit::Decibel, false, from, to);
            let trace = sheet.trace("by-input-curve", false, x, y);
            let marker = sheet.marker("marker-input", &marks, values.number("input_r")?, rejection);
            let plot = sheet.plot("by-input", &marks, axis, levels, vec![trace]);
            plot.markers.push(marker);
            plot.stops = vec![5e3, 10e3, 20e3, 50e3, 100e3, 1e6, 10e6];
        }
    }
    Ok(())
}

/// The span of an axis in steps of 10 dB that holds all values: what stands low
/// is what matters here. Nothing where no value is finite: an imbalance may be
/// too small for numbers to tell.
fn span(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    let finite = values.filter(|value| value.is_finite()).map(|value| (value, value));
    let (least, most) = finite.reduce(|(least, most), (value, _)| (least.min(value), most.max(value)))?;
    Some(((least / 10.0).floor() * 10.0, (most / 10.0).ceil() * 10.0 + 10.0))
}

/// The line of the fields, into one kind of input or the other. What is out of
/// balance is put on the leg with the larger source impedance, so that it adds:
/// the worst case.
fn line(values: &Values, transformer: bool) -> Result<BalancedLine, Fault> {
    let (r_h, r_c) = if values.choice("legs")? == "each" {
        (values.number("leg_hot")?, values.number("leg_cold")?)
    } else {
        let (mean, imbalance) = (values.number("leg_r")?, values.number("imbalance")?);
        // At the most that there can be, the last printed digits may say more.
        if imbalance > 2.0 * mean * (1.0 + 1e-5) {
            return Err(Fault::at("imbalance", "fault-imbalance").with("most", Arg::AtMost(2.0 * mean, Unit::Ohm)));
        }
        (mean + imbalance / 2.0, (mean - imbalance / 2.0).max(0.0))
    };
    let drive = values.choice("drive")?;
    let grounded = matches!(drive, "grounded" | "unbalanced" | "floating_grounded");
    let sides = if r_c > r_h && !grounded { [-1.0, 1.0] } else { [1.0, -1.0] };
    let (coupling, coupling_spread) = (values.optional("coupling_c")?, values.number("coupling_spread")?);
    let source = |r: f64, side: f64| OnePort::Series {
        r,
        l: 0.0,
        elastance: coupling.map_or(0.0, |c| (1.0 + side * coupling_spread / 2.0) / c),
    };
    let legs = [source(r_h, sides[0]), source(r_c, sides[1])];
    let drive = match drive {
        "one" => Drive::One,
        "grounded" => Drive::Grounded,
        "unbalanced" => Drive::Unbalanced,
        "floating_grounded" => Drive::FloatingGrounded,
        "floating" => Drive::Floating(OnePort::capacitor(values.number("floating_c")?)),
        _ => Drive::Both,
    };
    let mut receiver = if transformer {
        // Half of the inter-winding capacitance is reached through each leg.
        receiver(values, f64::INFINITY, 0.0, values.number("winding_c")? / 2.0)?
    } else {
        receiver(values, values.number("input_r")?, values.number("input_spread")?, 0.0)?
    };
    receiver.own =
        values.optional("own")?.map(|level| OwnError { at_1_khz: 10_f64.powf(-level / 20.0), rising: transformer });
    Ok(BalancedLine::new(drive, legs, &receiver, sides))
}

/// A receiver of this resistance and spread, with the capacitances of the
/// fields and `c` more from each leg.
pub(super) fn receiver(values: &Values, r: f64, spread: f64, c: f64) -> Result<Receiver, Fault> {
    let (c, c_imbalance) = (values.number("leg_c")? + c, values.number("c_imbalance")?);
    if c_imbalance > 2.0 * c {
        return Err(Fault::at("c_imbalance", "fault-c-imbalance").with("most", Arg::AtMost(2.0 * c, Unit::Farad)));
    }
    Ok(Receiver { r, spread, c, c_imbalance, own: None })
}
