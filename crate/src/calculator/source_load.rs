//! Source into load: what a load does to a source.
//!
//! A source e.m.f. behind R and L in series (and a coupling capacitor, if there
//! is one), capacitance across its terminals, into a load of R parallel C.
//! Sources: the voltage divider of any circuit-theory text, terms as in
//! IEC 60050-131.

use crate::Complex64;
use crate::calculator::{Calculator, Keeps, Preset};
use crate::catalogue::typical::MINUS_10_DBV;
use crate::fault::Fault;
use crate::field::Values;
use crate::field::load::{LOAD_C, LOAD_R};
use crate::field::question::{FREQUENCY, LIMIT};
use crate::field::source::{COUPLING_C, EMF, SOURCE_C, SOURCE_L, SOURCE_R};
use crate::network::{Element, OnePort, Path, decibels_of_transfer, features, log_sweep};
use crate::quantity::Unit;
use crate::quantity::level::{dbu, decibels, ratio};
use crate::report::{Drawn, HEARD, Sheet, Tone, span};
use crate::words::{Arg, Args};

/// Loads that stand for these, in source impedances: one that takes next to
/// nothing off, and one half of the source's own size, from which on most is lost
/// (common practice, no source). What is judged is the loss that was computed: a
/// coil and a capacitance may pass more into a load than its size lets expect.
const BRIDGING: f64 = 10.0;
const MATCHED: f64 = 0.5;

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "source-load",
    fields: &[
        SOURCE_R,
        EMF.starting(MINUS_10_DBV).usual(1e-3, 10.0).marks(&[]),
        SOURCE_L,
        COUPLING_C,
        SOURCE_C,
        LOAD_R,
        LOAD_C,
        FREQUENCY.detail(),
        LIMIT,
    ],
    first: &[SOURCE_R.id, LOAD_R.id],
    presets: &[
        Preset { id: "keys", values: &[SOURCE_R.typed("1k"), LOAD_R.typed("10k"), EMF.typed("-2 dBV")], held: &[] },
        Preset {
            id: "six_hundred",
            values: &[SOURCE_R.typed("600"), LOAD_R.typed("600"), EMF.typed("+4 dBu")],
            held: &[],
        },
    ],
    solve,
    keeps: Keeps::Nothing,
};

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let (r_s, l_s, c_s) = (values.number(SOURCE_R)?, values.number(SOURCE_L)?, values.number(SOURCE_C)?);
    let (r_l, c_l) = (values.number(LOAD_R)?, values.number(LOAD_C)?);
    let (emf, f, limit) = (values.number(EMF)?, values.number(FREQUENCY)?, values.number(LIMIT)?);
    let elastance = values.optional(COUPLING_C)?.map_or(0.0, |c| 1.0 / c);
    let source = OnePort::SeriesRlc { r: r_s, l: l_s, elastance };
    let path = |r_l: f64| {
        let path = Path::new(source.clone(), OnePort::parallel_rc(r_l, c_l));
        if c_s > 0.0 { path.with("part-source-capacitance", Element::Shunt(OnePort::capacitor(c_s))) } else { path }
    };
    let rig = path(r_l);
    let at_f = [("f", Arg::Entry(f, Unit::Hertz))];

    sheet.working.walk(&rig, f)?;
    let transfer = rig.transfer(f);
    let loss = -decibels_of_transfer(transfer);
    sheet.headline_loss("loss", loss, &at_f);
    // Parts that are reactive come on top of what the resistances do.
    let divided = 20.0 * ((r_s + r_l) / r_l).log10();
    let word = if (loss - divided).abs() < HEARD { "loss.because" } else { "loss.because-reactive" };
    sheet.because(word, "U", "E*R_L/(R_S + R_L)")?;
    let (tone, verdict) = match loss {
        loss if loss < -HEARD => (Tone::Fine, "verdict-gain"),
        loss if loss > limit && loss <= loss_into(BRIDGING) => (Tone::Watch, "verdict-over"),
        loss if loss <= loss_into(BRIDGING) => (Tone::Fine, "verdict-bridging"),
        loss if loss <= loss_into(MATCHED) => (Tone::Watch, "verdict-loaded"),
        _ => (Tone::Trouble, "verdict-overload"),
    };
    let args = [("loss", Arg::Quantity(loss.abs(), Unit::Decibel)), ("limit", Arg::Entry(limit, Unit::Decibel))];
    sheet.verdict(tone, verdict, &args);
    if sheet.wants_working() {
        sheet.working.step("loss_step", "a_L", "-a", Unit::Decibel)?;
    }

    let z_s = source.impedance(f);
    sheet.working.given("Z_S", z_s, Unit::Ohm);
    sheet.working.given("Y_S", OnePort::capacitor(c_s).admittance(f), Unit::Siemens);
    sheet.working.given("Z_in", OnePort::parallel_rc(r_l, c_l).impedance(f), Unit::Ohm);
    // Its capacitance is across its terminals, and so a part of the source.
    let z_source = sheet.working.step_with("z_source_step", &[], "Z_Q", "Z_S/(1 + Z_S*Y_S)", Unit::Ohm)?.norm();
    let ratio = sheet.working.step("ratio", "r", "abs(Z_in)/abs(Z_Q)", Unit::One)?;
    sheet.headline("ratio", ratio, Unit::Ratio, &[]);

    least_load(sheet, z_s, OnePort::capacitor(c_s + c_l).admittance(f), limit)?;
    if !sheet.wants_further() {
        return Ok(());
    }
    sheet.working.given("E", emf, Unit::Volt);
    sheet.working.given("H", transfer, Unit::One);
    at_load(sheet, z_s, r_l, OnePort::parallel_rc(r_l, c_l).admittance(f), &at_f)?;
    sheet.further("z_source", z_source, Unit::Ohm, &[]);
    sheet.further("z_load", OnePort::parallel_rc(r_l, c_l).impedance(f).norm(), Unit::Ohm, &[]);

    over_frequency(sheet, &rig);
    let change = |r_l: f64| decibels_of_transfer(path(r_l).transfer(f));
    by_load(sheet, z_source, r_l, change, &at_f);
    sheet.source("source-divider");
    sheet.source("source-power");
    sheet.source("source-practice");
    Ok(())
}

/// Corners and picture of the response.
fn over_frequency(sheet: &mut Sheet, rig: &Path) {
    let found = features(rig);
    sheet.further("low_corner", found.low_corner, Unit::Hertz, &[]);
    sheet.further("high_corner", found.high_corner, Unit::Hertz, &[]);

    let level = ("level", Arg::Quantity(found.midband, Unit::Decibel));
    sheet.response_plot(
        "response",
        &[level],
        &[Drawn { id: "response-curve", reference: false, response: rig }],
        Some(&found),
    );
}

/// What a resistance loses into one of so many times its size, dB.
fn loss_into(times: f64) -> f64 {
    decibels(1.0 + 1.0 / times)
}

/// The smallest load that loses no more than `limit` dB: |1 + Z_S·(G + Y)| =
/// 10^(a/20) is a quadratic in G = 1/R, `y` being the admittance of all capacitance.
fn least_load(sheet: &mut Sheet, z_s: Complex64, y: Complex64, limit: f64) -> Result<(), Fault> {
    sheet.working.given("Y_C", y, Unit::Siemens);
    sheet.working.given("a_max", limit, Unit::Decibel);
    let q = sheet.working.step_with("q", &[], "q", "1 + Z_S*Y_C", Unit::One)?;
    let k = ratio(limit);
    // So small that its square is nothing, it is none.
    let none = z_s.norm_sqr() < f64::MIN_POSITIVE;
    let least = if none || (q.norm() > k && (q.conj() * z_s).re >= 0.0) {
        None
    } else {
        sheet.working.step("qz", "p", "re(q)*re(Z_S) + im(q)*im(Z_S)", Unit::Ohm)?;
        let g = sheet.working.step(
            "least_g",
            "G",
            "(sqrt(p^2 + abs(Z_S)^2*(10^(a_max/10) - abs(q)^2)) - p)/abs(Z_S)^2",
            Unit::Siemens,
        )?;
        (g > 0.0).then(|| sheet.working.step("least_load_step", "R_min", "1/G", Unit::Ohm)).transpose()?
    };
    let why = if none { "source-load-any" } else { "source-load-lost" };
    let args = [("limit", Arg::Entry(limit, Unit::Decibel)), ("why", Arg::Key(why.to_owned()))];
    sheet.headline("least_load", least, Unit::Ohm, &args);
    Ok(())
}

/// Voltage, current and power at the load, of resistance `r_l` and admittance
/// `y_l`; from `E` and `H`.
fn at_load(sheet: &mut Sheet, z_s: Complex64, r_l: f64, y_l: Complex64, at_f: Args) -> Result<(), Fault> {
    sheet.working.given("R_L", r_l, Unit::Ohm);
    sheet.working.given("Y_L", y_l, Unit::Siemens);
    let volts = sheet.working.step("level", "U", "E*abs(H)", Unit::Volt)?;
    sheet.further("level", volts, Unit::Volt, &[]);
    sheet.further("level_dbu", dbu(volts), Unit::DecibelU, &[]);
    let phase = sheet.working.step("phase_step", "phi", "arg(H)", Unit::Degree)?;
    sheet.further("phase", phase, Unit::Degree, at_f);
    let current = sheet.working.step("current", "I", "U*abs(Y_L)", Unit::Ampere)?;
    sheet.further("current", current, Unit::Ampere, &[]);
    let power = sheet.working.step("power", "P", "U^2/R_L", Unit::Watt)?;
    sheet.further("power", power, Unit::Watt, &[]);
    let available =
        if z_s.re > 0.0 { Some(sheet.working.step("available", "P_av", "E^2/(4*re(Z_S))", Unit::Watt)?) } else { None };
    sheet.further("available", available, Unit::Watt, &[]);
    let power_loss =
        available.map(|_| sheet.working.step("power_loss", "a_P", "10*log10(P/P_av)", Unit::Decibel)).transpose()?;
    sheet.further("power_loss", power_loss, Unit::Decibel, &[]);
    Ok(())
}

/// The loss by the resistance of the load.
fn by_load(sheet: &mut Sheet, z_source: f64, r_l: f64, change: impl Fn(f64) -> f64, at_f: Args) {
    if !sheet.wants_plots() {
        return;
    }
    let size = z_source.max(1.0);
    let loads = log_sweep(&(size / 100.0..=size * 1000.0), 121);
    let levels: Vec<_> = loads.iter().map(|load| change(*load)).collect();
    let (from, to) = span(levels.iter().copied());
    let x = sheet.axis("axis-load", Unit::Ohm, true, size / 100.0, size * 1000.0);
    let y = sheet.axis("axis-loss", Unit::Decibel, false, from, to);
    let marker = sheet.marker("marker-load", &[], r_l, change(r_l));
    let trace = sheet.trace("by-load-curve", false, loads, levels);
    let stops = [0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 100.0].map(|times| times * size);
    let plot = sheet.plot("by-load", at_f, x, y, vec![trace]);
    plot.markers.push(marker);
    plot.stops = stops.to_vec();
}
