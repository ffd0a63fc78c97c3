//! Balanced line rejection: how much of the voltage between two earths a
//! balanced line turns into signal.

use super::ground_loop;
use super::ground_loop::is_faulty_difference;
use crate::calculator::{Calculator, Keeps, Preset};
use crate::fault::Fault;
use crate::field::connection::{CONNECTION, ConnectionKind, REJECTION};
use crate::field::earth::{EARTH_VOLTS, earth_volts};
use crate::field::leg::{DRIVE, DriveKind, FLOATING_C, IMBALANCE, LEG_R};
use crate::field::mains::{MAINS, mains};
use crate::field::receiver::{C_IMBALANCE, INPUT_R, INPUT_SPREAD, LEG_C, electronic, receiver};
use crate::field::source::COUPLING_C;
use crate::field::transformer::WINDING_C;
use crate::field::{ChoiceField, Field, Values, choice};
use crate::network::{AUDIO_BAND, MIDBAND, OnePort, decibels_of_transfer, log_sweep, log_sweep_with};
use crate::part::{Balance, BalancedLine, Drive, OwnError, WorstLine};
use crate::quantity::Unit;
use crate::quantity::level::ratio;
use crate::report::{Sheet, Tone, finite};
use crate::words::{Arg, Args};

/// Points of a drawn curve.
const POINTS: usize = 121;
/// Orders of the harmonics that are given as numbers.
const HARMONICS: [(&str, f64); 3] = [("rejection_3", 3.0), ("rejection_5", 5.0), ("rejection_7", 7.0)];

choice! {
    /// How the source impedances of the legs are stated.
    enum Stated {
        /// By their mean and their difference.
        Mean = "mean",
        /// One by one.
        Each = "each",
    }
}

choice! {
    /// What receives a balanced line.
    enum ReceiverKind {
        /// An electronic input.
        Electronic = "electronic",
        /// A transformer.
        Transformer = "transformer",
    }
}

const MEAN: &[&str] = &[Stated::Mean.id()];
const EACH: &[&str] = &[Stated::Each.id()];
const ELECTRONIC: &[&str] = &[ReceiverKind::Electronic.id()];

/// How the source impedances of the legs are stated.
const LEGS: ChoiceField<Stated> = Stated::field("legs", Stated::Mean).detail().at("source");
/// Source resistance of the hot leg, Ω.
const LEG_HOT: Field = LEG_R.named("leg_hot", "R_h").starting(80.0).exact().when(LEGS, EACH);
/// Source resistance of the cold leg, Ω.
const LEG_COLD: Field = LEG_R.named("leg_cold", "R_c").starting(70.0).exact().when(LEGS, EACH);
/// Difference between the coupling capacitors re their mean.
const COUPLING_SPREAD: Field =
    Field::number("coupling_spread", "δ_K", Unit::Percent, 0.1, (0.0, 0.4)).limits(0.0, 1.0).detail().at("source");
/// What receives the line.
const INPUT: ChoiceField<ReceiverKind> = ReceiverKind::field("input", ReceiverKind::Electronic).at("receiver");
/// Rejection of the receiver by itself at 1 kHz, dB.
const OWN: Field = Field::blank("own", "a_I", Unit::Decibel, (40.0, 120.0)).limits(0.0, 200.0).detail().at("receiver");

/// Rejections that are high, and still worth having, dB (common practice, no source).
const HIGH: f64 = 80.0;
const FAIR: f64 = 20.0;

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "balance",
    // What is out of balance is stated by fields of its own, so that no part
    // has a tolerance here: both legs off by as much would change nothing.
    fields: &[
        DRIVE.field(),
        LEGS.field(),
        LEG_R.exact().when(LEGS, MEAN),
        IMBALANCE.when(LEGS, MEAN),
        LEG_HOT,
        LEG_COLD,
        COUPLING_C.exact().usual(10e-6, 220e-6).limits(1e-9, 1.0),
        COUPLING_SPREAD,
        FLOATING_C,
        INPUT.field(),
        INPUT_R.exact().when(INPUT, ELECTRONIC),
        INPUT_SPREAD.when(INPUT, ELECTRONIC),
        WINDING_C.exact().when(INPUT, &[ReceiverKind::Transformer.id()]).at("receiver"),
        LEG_C.exact(),
        C_IMBALANCE,
        OWN,
        EARTH_VOLTS.named("difference", "U_cm").marks(&[]).at("mains"),
        MAINS.field(),
    ],
    first: &[DRIVE.id(), INPUT.id()],
    presets: &[
        Preset {
            id: "iec",
            values: &[
                Stated::Each.to(LEGS),
                LEG_HOT.typed("10"),
                LEG_COLD.typed("0"),
                INPUT_SPREAD.typed("0"),
                LEG_C.typed("0"),
                C_IMBALANCE.typed("0"),
            ],
            held: &[],
        },
        Preset {
            id: "inputs",
            values: &[INPUT_R.typed("10k")],
            held: &[&[INPUT_R.typed("20k")], &[INPUT_R.typed("10M")], &[ReceiverKind::Transformer.to(INPUT)]],
        },
        Preset {
            id: "keys",
            values: &[DriveKind::Unbalanced.to(DRIVE), Stated::Each.to(LEGS), LEG_HOT.typed("1k"), LEG_COLD.typed("0")],
            held: &[],
        },
    ],
    solve,
    keeps: Keeps::Nothing,
};

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    sheet.caution("caution-earth");
    let f = mains(values)?;
    let at_f = [("f", Arg::Entry(f, Unit::Hertz))];
    let line = line(values, values.choice(INPUT)?)?;
    let worst = line.at(f);
    let here = worst.at(f);
    let u_cm = earth_volts(values, EARTH_VOLTS)?;
    if is_faulty_difference(u_cm) {
        sheet.stop();
        sheet.caution("caution-electrician");
        sheet.caution("caution-rcd");
    }

    let ([z_h, z_c], [y_h, y_c]) = (here.z, here.y);
    let error = error(sheet, worst, &here, f)?;
    let gain = gain(sheet, worst, &here)?;
    sheet.working.given("U_cm", u_cm, Unit::Volt);
    let rejection = sheet.working.step("rejection_step", "a", "-20*log10(e)", Unit::Decibel)?;
    let level = sheet.working.dbu("error_level_step", "a_e", "U_cm*e")?;
    let to_signal = sheet.working.step("rejection_signal_step", "a_G", "20*log10(abs(G)/e)", Unit::Decibel)?;
    sheet.headline("rejection", rejection, Unit::Decibel, &at_f);
    let (tone, verdict) = match rejection {
        _ if error == 0.0 => (Tone::Watch, "verdict-perfect"),
        a if a >= HIGH => (Tone::Fine, "verdict-high"),
        a if a >= FAIR => (Tone::Watch, "verdict-fair"),
        _ => (Tone::Trouble, "verdict-low"),
    };
    sheet.verdict(tone, verdict, &[("gain", Arg::Quantity(rejection, Unit::Decibel))]);
    if values.choice(INPUT)? == ReceiverKind::Electronic && values.choice(LEGS)? == Stated::Mean {
        // All of the resistance of an unbalanced source is in one leg.
        let imbalance = if values.choice(DRIVE)? == DriveKind::Unbalanced { "R_S" } else { "ΔR" };
        sheet.because("rejection.because", "a", &format!("20*log10(R_I/{imbalance})"))?;
    }
    sheet.headline("error_level", level, Unit::DecibelU, &at_f);
    sheet.headline("rejection_signal", to_signal, Unit::Decibel, &at_f);
    sheet.further("gain", gain, Unit::Decibel, &[]);
    for (id, order) in HARMONICS {
        sheet.further(id, line.rejection(order * f), Unit::Decibel, &[("f", Arg::Entry(order * f, Unit::Hertz))]);
    }
    sheet.further("rejection_1k", line.rejection(MIDBAND), Unit::Decibel, &[]);
    sheet.further("rejection_20k", line.rejection(20e3), Unit::Decibel, &[]);
    sheet.further("imbalance_z", (z_h - z_c).norm(), Unit::Ohm, &at_f);
    sheet.further("input_z", y_h.inv().norm().min(y_c.inv().norm()), Unit::Ohm, &at_f);
    if matches!(values.choice(DRIVE)?, DriveKind::One | DriveKind::Grounded) {
        sheet.warn("half", &[]);
    }

    // What rounding leaves of a difference is none to draw or to go on with.
    if error > f64::EPSILON {
        plots(values, sheet, &line, f, rejection)?;
        link(values, sheet, rejection, &at_f)?;
    }
    sheet.source("source-whitlock");
    sheet.source("source-balance-test");
    sheet.source("source-practice");
    Ok(())
}

/// The working of the error `e` re the voltage between the earths, and of what
/// it is made of.
fn error(sheet: &mut Sheet, line: &BalancedLine, here: &Balance, f: f64) -> Result<f64, Fault> {
    let ([z_h, z_c], [y_h, y_c]) = (here.z, here.y);
    sheet.working.given("Z_h", z_h, Unit::Ohm);
    sheet.working.given("Z_c", z_c, Unit::Ohm);
    sheet.working.given("Y_h", y_h, Unit::Siemens);
    sheet.working.given("Y_c", y_c, Unit::Siemens);
    // Differences as numbers of their own: taken from rounded numbers they
    // would be lost in the rounding.
    sheet.working.given("Delta_Z", z_h - z_c, Unit::Ohm);
    sheet.working.given("Delta_Y", y_h - y_c, Unit::Siemens);
    sheet.working.step_with("mean_z", &[], "Z_m", "(Z_h + Z_c)/2", Unit::Ohm)?;
    sheet.working.step_with("mean_y", &[], "Y_m", "(Y_h + Y_c)/2", Unit::Siemens)?;
    sheet.working.step_with("share_hot", &[], "H_h", "1/(1 + Z_h*Y_h)", Unit::One)?;
    sheet.working.step_with("share_cold", &[], "H_c", "1/(1 + Z_c*Y_c)", Unit::One)?;
    match &line.floating {
        None => sheet.working.given("m", 1.0, Unit::One),
        Some(float) => {
            sheet.working.given("Y_F", float.admittance(f), Unit::Siemens);
            sheet.working.step_with("middle", &[], "m", "Y_F/(Y_F + Y_h*H_h + Y_c*H_c)", Unit::One)?;
        }
    }
    sheet.working.step_with("bridge", &[], "e_B", "-m*(Z_m*Delta_Y + Y_m*Delta_Z)*H_h*H_c", Unit::One)?;
    match line.own {
        None => sheet.working.step("error", "e", "abs(e_B)", Unit::One),
        Some(own) => {
            sheet.working.given("a_I", -decibels_of_transfer(own.at_1_khz.into()), Unit::Decibel);
            sheet.working.given("f", f, Unit::Hertz);
            sheet.working.given("f_1", MIDBAND, Unit::Hertz);
            let slope = if own.rising { "*f/f_1" } else { "" };
            let own = format!("10^(-a_I/20){slope}*abs(m*(H_h + H_c)/2)");
            sheet.working.step("own_error", "e_I", &own, Unit::One)?;
            sheet.working.step("error", "e", "abs(e_B) + e_I", Unit::One)
        }
    }
}

/// The working of the signal's level behind the legs re its e.m.f., dB.
fn gain(sheet: &mut Sheet, line: &BalancedLine, here: &Balance) -> Result<f64, Fault> {
    if line.floating.is_none() {
        sheet.working.given("g_h", line.hot.emf, Unit::One);
        sheet.working.given("g_c", line.cold.emf, Unit::One);
        sheet.working.step_with("gain_step", &[], "G", "g_h*H_h - g_c*H_c", Unit::One)?;
    } else {
        // The middle of a floating source moves a little with its own signal.
        sheet.working.given("G", here.gain, Unit::One);
    }
    sheet.working.step("gain", "a_S", "20*log10(abs(G))", Unit::Decibel)
}

/// Points to what this rejection makes of a loop.
fn link(values: &Values, sheet: &mut Sheet, rejection: f64, at_f: Args) -> Result<(), Fault> {
    let mut filling = ground_loop::CALCULATOR.filling();
    filling.choose(CONNECTION, ConnectionKind::Balanced);
    filling.put(REJECTION, rejection);
    filling.choose(MAINS, values.choice(MAINS)?);
    sheet.link_to("link-loop", at_f, &filling);
    Ok(())
}

fn plots(values: &Values, sheet: &mut Sheet, line: &WorstLine, f: f64, rejection: f64) -> Result<(), Fault> {
    if !sheet.wants_plots() {
        return Ok(());
    }
    let harmonics = HARMONICS.map(|(_, order)| order * f);
    let x = log_sweep_with(&AUDIO_BAND, POINTS, &[f, harmonics[0], harmonics[1], harmonics[2], MIDBAND]);
    let over = |line: &WorstLine| x.iter().map(|f| finite(line.rejection(*f))).collect::<Vec<_>>();
    let mut traces = vec![sheet.trace("curve", false, x.clone(), over(line))];
    // An imbalance that this input has may be impossible with the other one.
    let (input, other, id) = match values.choice(INPUT)? {
        here @ ReceiverKind::Electronic => (here, ReceiverKind::Transformer, "curve-transformer"),
        here @ ReceiverKind::Transformer => (here, ReceiverKind::Electronic, "curve-electronic"),
    };
    if let Ok(other) = self::line(values, other) {
        traces.push(sheet.trace(id, true, x.clone(), over(&other.without_own())));
    }
    let marks = [("f", Arg::Entry(f, Unit::Hertz)), ("rejection", Arg::Quantity(rejection, Unit::Decibel))];
    let marker = sheet.marker("marker-mains", &marks, f, rejection);
    let summary = [marks[0].clone(), marks[1].clone(), ("high", Arg::Quantity(line.rejection(20e3), Unit::Decibel))];
    if let Some((from, to)) = whole_span(traces.iter().flat_map(|trace| &trace.y).copied()) {
        let plot = sheet.level_plot("by-frequency", &summary, "axis-rejection", Unit::Decibel, traces);
        (plot.y.from, plot.y.to) = (from, to);
        plot.markers.push(marker);
    }

    if input == ReceiverKind::Electronic {
        let band = 1e3..=100e6;
        let x = log_sweep(&band, 61);
        let y: Vec<_> = x
            .iter()
            .map(|r| self::line(&values.clone().with(INPUT_R, *r), input).map(|line| finite(line.rejection(f))))
            .collect::<Result<_, _>>()?;
        if let Some((from, to)) = whole_span(y.iter().copied()) {
            let axis = sheet.axis("axis-input", Unit::Ohm, true, *band.start(), *band.end());
            let levels = sheet.axis("axis-rejection", Unit::Decibel, false, from, to);
            let trace = sheet.trace("by-input-curve", false, x, y);
            let marker = sheet.marker("marker-input", &marks, values.number(INPUT_R)?, rejection);
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
fn whole_span(values: impl Iterator<Item = f64>) -> Option<(f64, f64)> {
    let finite = values.filter(|value| value.is_finite()).map(|value| (value, value));
    let (least, most) = finite.reduce(|(least, most), (value, _)| (least.min(value), most.max(value)))?;
    Some(((least / 10.0).floor() * 10.0, (most / 10.0).ceil() * 10.0 + 10.0))
}

/// The line of the fields, into one kind of input or the other, with every
/// imbalance on either side.
fn line(values: &Values, input: ReceiverKind) -> Result<WorstLine, Fault> {
    let [hot, cold] = legs(values)?;
    let drive = values.choice(DRIVE)?;
    let (coupling, coupling_spread) = (values.optional(COUPLING_C)?, values.number(COUPLING_SPREAD)?);
    let source = |r: f64, side: f64| OnePort::SeriesRlc {
        r,
        l: 0.0,
        elastance: coupling.map_or(0.0, |c| (1.0 + side * coupling_spread / 2.0) / c),
    };
    let pair = |hot: f64, cold: f64, side: f64| [source(hot, side), source(cold, -side)];
    let mut others = vec![];
    if coupling.is_some() {
        others.push(pair(hot, cold, -1.0));
    }
    // A whole line has the same error as its mirror image, so the leg with more
    // resistance may stay the hot one, but where the cold one does not count.
    let one_leg = match drive {
        DriveKind::Grounded | DriveKind::Unbalanced => true,
        DriveKind::Both | DriveKind::One | DriveKind::Floating | DriveKind::FloatingGrounded => false,
    };
    if one_leg && values.choice(LEGS)? == Stated::Mean {
        others.push(pair(cold, hot, 1.0));
        others.push(pair(cold, hot, -1.0));
    }
    let drive = match drive {
        DriveKind::Both => Drive::Both,
        DriveKind::One => Drive::One,
        DriveKind::Grounded => Drive::Grounded,
        DriveKind::Unbalanced => Drive::Unbalanced,
        DriveKind::FloatingGrounded => Drive::FloatingGrounded,
        DriveKind::Floating => Drive::Floating(OnePort::capacitor(values.number(FLOATING_C)?)),
    };
    let mut receiver = match input {
        // Half of the inter-winding capacitance is reached through each leg.
        ReceiverKind::Transformer => receiver(values, f64::INFINITY, 0.0, values.number(WINDING_C)? / 2.0)?,
        ReceiverKind::Electronic => electronic(values)?,
    };
    let rising = input == ReceiverKind::Transformer;
    receiver.own = values.optional(OWN)?.map(|level| OwnError { at_1_khz: ratio(-level), rising });
    Ok(WorstLine::new(&drive, &pair(hot, cold, 1.0), &others, &receiver))
}

/// The source resistances of the hot and the cold leg, Ω.
fn legs(values: &Values) -> Result<[f64; 2], Fault> {
    match values.choice(LEGS)? {
        Stated::Each => Ok([values.number(LEG_HOT)?, values.number(LEG_COLD)?]),
        Stated::Mean => {
            let (mean, imbalance) = (values.number(LEG_R)?, values.number(IMBALANCE)?);
            // At the most that there can be, the last printed digits may say more.
            if imbalance > 2.0 * mean * (1.0 + 1e-5) {
                return Err(IMBALANCE.fault("fault-imbalance").with("most", Arg::AtMost(2.0 * mean, Unit::Ohm)));
            }
            Ok([mean + imbalance / 2.0, (mean - imbalance / 2.0).max(0.0)])
        }
    }
}
