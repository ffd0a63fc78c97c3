//! Level chain: level, peaks, clip level, margin and noise at every point from
//! a source to the converter, and what pad or gain keeps a headroom.
//!
//! Levels are r.m.s.; peaks are given as the level of the sine that has the
//! same peak, 3.01 dB under peak volts, because clip levels and full scale are
//! stated for sines (EBU R 68, SMPTE RP 155).

use super::filling::Filling;
use super::frequency::finite;
use super::report::Tone;
use super::shared::{
    ALIGNMENT, BOX, BOX_C, BOX_E, BOX_GAIN, BOX_I, BOX_LEG, BOX_R, CONSOLE_C, CONSOLE_E, CONSOLE_I, CONSOLE_NOISE,
    CONSOLE_R, EIN, EIN_R, EMF, FULL_SCALE, LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R, SOURCE_R, between, console,
    full_scale, lead,
};
use super::transformer::{LARGEST, TRANSFORMER};
use super::{Calculator, Fault, Preset, Sheet, Values, Working, noise_floor};
use crate::catalogue::typical::{CREST, MINUS_10_DBV, PAD_LOSS};
use crate::field::{Field, joined, only_when};
use crate::network::{AUDIO_BAND, MIDBAND, OnePort, Path, ROOM, band_powers};
use crate::part::{Arms, Chain, Lead, Rig, Tap};
use crate::quantity::{Unit, VOLTS_AT_0_DBU};
use crate::words::Arg;

pub(super) const CREST_FACTOR: Field =
    Field::number("crest", "c", Unit::Decibel, 12.0, (3.0, 20.0)).limits(0.0, 60.0).marks(CREST).at("source");
pub(super) const BOX_CLIP: Field = Field::number("box_clip", "a_CB", Unit::DecibelU, 8.0, (0.0, 22.0))
    .limits(-60.0, 60.0)
    .when("box", &["active"])
    .at("box");
pub(super) const LOWEST: Field = Field::number("lowest", "f_low", Unit::Hertz, 40.0, (20.0, 200.0))
    .limits(1.0, 1e4)
    .when("box", &["passive"])
    .detail()
    .at("transformer");
pub(super) const PAD: Field =
    Field::number("pad", "a_P", Unit::Decibel, 0.0, (0.0, 40.0)).limits(0.0, 100.0).marks(PAD_LOSS).at("pad");
pub(super) const PAD_R: Field =
    Field::number("pad_r", "R_P", Unit::Ohm, 2e3, (500.0, 20e3)).limits(1.0, 1e9).detail().at("pad");
pub(super) const CONSOLE_MOST: Field =
    Field::number("console_most", "a_CK", Unit::DecibelU, 10.0, (0.0, 28.0)).limits(-60.0, 60.0).at("console");
pub(super) const HEADROOM: Field =
    Field::number("headroom", "h", Unit::Decibel, 6.0, (0.0, 20.0)).limits(0.0, 60.0).at("question");

pub(super) static CALCULATOR: Calculator = Calculator {
    id: "level-chain",
    fields: &joined::<42>(&[
        &[
            EMF.starting(MINUS_10_DBV),
            CREST_FACTOR,
            SOURCE_R.starting(1e3).detail(),
            LEAD_LENGTH.detail(),
            LEAD_C.detail(),
            LEAD_R,
            LEAD_L,
            BOX,
            BOX_GAIN,
            BOX_CLIP,
            BOX_R.detail(),
            BOX_C,
            BOX_LEG,
            BOX_E.detail(),
            BOX_I,
        ],
        &only_when(TRANSFORMER, "box", &["passive"]),
        &[
            LARGEST.when("box", &["passive"]),
            LOWEST,
            PAD,
            PAD_R,
            CONSOLE_R,
            CONSOLE_C,
            CONSOLE_MOST,
            Field::number("gain", "g", Unit::Decibel, 10.0, (0.0, 60.0)).limits(-40.0, 100.0).at("console"),
            Field::number("gain_clip", "a_CG", Unit::DecibelU, 24.0, (18.0, 28.0))
                .limits(-60.0, 60.0)
                .detail()
                .at("console"),
            CONSOLE_NOISE,
            EIN.detail(),
            EIN_R,
            CONSOLE_E.detail(),
            CONSOLE_I,
            ALIGNMENT,
            FULL_SCALE,
            Field::number("range", "D", Unit::Decibel, 110.0, (90.0, 125.0))
                .limits(0.0, 200.0)
                .detail()
                .at("converter"),
            HEADROOM,
            Field::number("distance", "S_min", Unit::Decibel, 60.0, (40.0, 100.0))
                .limits(0.0, 200.0)
                .detail()
                .at("question"),
        ],
    ]),
    presets: &[
        Preset { id: "keys", values: &[], held: &[&[("box", "passive"), ("gain", "30 dB")]] },
        Preset {
            id: "line",
            values: &[
                ("emf", "+4 dBu"),
                ("source_r", "150"),
                ("lead_length", "30 m"),
                ("box", "none"),
                ("console_r", "10k"),
                ("console_most", "+24 dBu"),
                ("gain", "0 dB"),
                ("ein", "-95 dBu"),
            ],
            held: &[],
        },
        Preset {
            id: "bass",
            values: &[("emf", "0.7 V"), ("crest", "18"), ("source_r", "2k"), ("lead_length", "6 m"), ("gain", "0 dB")],
            held: &[&[("box_gain", "-20 dB"), ("gain", "20 dB")]],
        },
    ],
    solve,
};

/// The names of a point of the chain: its word and its readings.
pub(super) struct Names {
    pub point: &'static str,
    level: &'static str,
    peak: &'static str,
    margin: &'static str,
    noise: &'static str,
}

macro_rules! names {
    ($name:ident, $id:literal) => {
        const $name: Names = Names {
            point: concat!("level-chain-point-", $id),
            level: concat!("level_", $id),
            peak: concat!("peak_", $id),
            margin: concat!("margin_", $id),
            noise: concat!("noise_", $id),
        };
    };
}

names!(SOURCE, "source");
names!(BOX_INPUT, "box_input");
names!(BOX_OUTPUT, "box_output");
names!(PAD_INPUT, "pad_input");
names!(CONSOLE_INPUT, "console_input");
names!(GAIN, "gain");
names!(CONVERTER, "converter");

/// A point of the chain.
pub(super) struct Point {
    pub names: Names,
    /// R.m.s., dBu.
    pub level: f64,
    /// The level of the sine with the same peak, dBu.
    peak: f64,
    /// The largest sine, dBu, where there is a limit.
    clip: Option<f64>,
    /// V², 20 Hz to 20 kHz.
    noise: f64,
}

impl Point {
    /// From the peaks to the clip level, dB.
    pub fn margin(&self) -> Option<f64> {
        self.clip.map(|clip| clip - self.peak)
    }
}

/// An L pad that shows a stated resistance and loses a stated level into the
/// console's resistance: its series and its shunt arm.
pub(super) fn pad(values: &Values, working: &mut Working) -> Result<Option<Arms>, Fault> {
    let (loss, r, load) = (values.number("pad")?, values.number("pad_r")?, values.number("console_r")?);
    working.given("R_P", r, Unit::Ohm);
    working.given("R_K", load, Unit::Ohm);
    if loss == 0.0 {
        return Ok(None);
    }
    let most = load * 10_f64.powf(loss / 20.0);
    if r > most {
        return Err(Fault::at("pad_r", "fault-pad")
            .with("pad", Arg::Quantity(loss, Unit::Decibel))
            .with("most", Arg::AtMost(most, Unit::Ohm)));
    }
    working.given("a_P", loss, Unit::Decibel);
    let series = working.step("pad_series", "R_1", "R_P*(1 - 10^(-a_P/20))", Unit::Ohm)?;
    let shunt = working.step("pad_shunt", "G_2", "10^(a_P/20)/R_P - 1/R_K", Unit::Siemens)?;
    let shunt = OnePort::Parallel { g: shunt.max(0.0), c: 0.0, reluctance: 0.0 };
    Ok(Some(Arms { series: OnePort::resistor(series), shunt }))
}

/// Writes the working of a point whose level is `formula`; `n` numbers it.
fn point(
    working: &mut Working,
    names: Names,
    n: usize,
    formula: &str,
    clip: Option<f64>,
    noise: f64,
) -> Result<Point, Fault> {
    let at = [("point", Arg::Key(names.point.to_owned()))];
    let mut step = |id: &str, symbol: String, formula: &str, unit| {
        working.step_with(id, &at, &symbol, formula, unit).map(|value| value.re)
    };
    let level = step("step-level", format!("a_{n}"), formula, Unit::DecibelU)?;
    let peak = step("step-peak", format!("p_{n}"), &format!("a_{n} + c - 10*log10(2)"), Unit::DecibelU)?;
    let point = Point { names, level, peak, clip, noise };
    if let Some(clip) = clip {
        working.given("a_C", clip, Unit::DecibelU);
        working.step_with("step-margin", &at, &format!("m_{n}"), &format!("a_C - p_{n}"), Unit::Decibel)?;
    }
    Ok(point)
}

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let console = console(values, false, &mut sheet.working)?;
    let chain = Rig {
        source: Path::new(OnePort::resistor(values.number("source_r")?), OnePort::OPEN),
        lead: lead(values)?,
        thru: None,
        between: between(values, false)?,
        run: Lead::NONE,
        pad: pad(values, &mut sheet.working)?,
        console,
    }
    .chain();
    sheet.given("E", values.number("emf")?, Unit::Volt);
    for (field, symbol, unit) in [
        ("crest", "c", Unit::Decibel),
        ("gain", "g", Unit::Decibel),
        ("range", "D", Unit::Decibel),
        ("headroom", "h", Unit::Decibel),
        ("console_most", "a_CK", Unit::DecibelU),
        ("gain_clip", "a_CG", Unit::DecibelU),
    ] {
        sheet.given(symbol, values.number(field)?, unit);
    }
    let full_scale = full_scale(values, sheet)?;
    let noise = noise_by_point(&chain);
    let mut points = points(values, &mut sheet.working, &chain, noise)?;
    behind_the_input(values, sheet, &mut points, full_scale)?;
    let headroom = values.number("headroom")?;

    let (tightest, margin) = tightest(&points);
    let at = [("point", Arg::Key(tightest.to_owned())), ("headroom", Arg::Quantity(headroom, Unit::Decibel))];
    sheet.headline("margin", margin, Unit::Decibel, &[]);
    match margin {
        Some(margin) if margin < 0.0 => sheet.verdict(Tone::Trouble, "verdict-clips", &at),
        Some(margin) if margin < headroom => sheet.verdict(Tone::Watch, "verdict-close", &at),
        _ => sheet.verdict(Tone::Fine, "verdict-room", &at),
    }
    let digital = sheet.step("dbfs", "d", "a_6 - a_FS", Unit::DecibelFullScale)?;
    sheet.headline("dbfs", digital, Unit::DecibelFullScale, &[]);
    let gain = sheet.step("most_gain", "g_h", "min(a_CG, a_FS) - h - p_4", Unit::Decibel)?;
    // Neither gain nor a pad mends what clips in front of them.
    let before = points.iter().filter(|point| [BOX_INPUT.point, BOX_OUTPUT.point].contains(&point.names.point));
    let lost = before.filter_map(|point| point.margin()).any(|margin| margin < headroom);
    let pad = pad_for_headroom(values, sheet, &chain)?;
    let why = if lost { "level-chain-before" } else { "level-chain-no-pad" };
    let wanted = [("headroom", Arg::Quantity(headroom, Unit::Decibel)), ("why", Arg::Key(why.to_owned()))];
    sheet.headline("gain_for_headroom", Some(gain).filter(|_| !lost), Unit::Decibel, &wanted);
    sheet.headline("pad_for_headroom", pad.filter(|_| !lost), Unit::Decibel, &wanted);

    for point in &points {
        let names = &point.names;
        sheet.further(names.level, point.level, Unit::DecibelU, &[]);
        sheet.further(names.peak, point.peak, Unit::DecibelU, &[]);
        if let Some(margin) = point.margin() {
            sheet.further(names.margin, margin, Unit::Decibel, &[]);
        }
        sheet.further(names.noise, noise_level(point.noise), Unit::DecibelU, &[]);
        if let Some(margin) = point.margin().filter(|margin| *margin < 0.0) {
            let id = if [BOX_INPUT.point, BOX_OUTPUT.point].contains(&names.point) { "clips-in-box" } else { "clips" };
            let by = ("by", Arg::Quantity(-margin, Unit::Decibel));
            sheet.warn(id, &[("point", Arg::Key(names.point.to_owned())), by]);
        }
    }
    let peak = sheet.step("peak_dbfs", "d_p", "p_6 - a_FS", Unit::DecibelFullScale)?;
    sheet.further("peak_dbfs", peak, Unit::DecibelFullScale, &[]);
    sheet.further("full_scale_level", full_scale, Unit::DecibelU, &[]);
    signal_to_noise(values, sheet)?;
    picture(sheet, &points, tightest, margin);

    sheet.caution("caution-hearing");
    if chain.active.is_some() {
        sheet.caution("caution-phantom");
    }
    for source in ["source-levels", "source-chain", "source-johnson", "source-amplifier-noise", "source-practice"] {
        sheet.source(source);
    }
    let filled = [
        ("source", Arg::Text("output".into())),
        ("emf", Arg::Quantity(values.number("emf")?, Unit::Volt)),
        ("source_r", Arg::Quantity(values.number("source_r")?, Unit::Ohm)),
        ("box", Arg::Text(values.choice("box")?.into())),
        ("box_gain", Arg::Quantity(values.number("box_gain")?, Unit::Decibel)),
        ("console_r", Arg::Quantity(values.number("console_r")?, Unit::Ohm)),
    ];
    sheet.link_to("link-noise-floor", &[], &Filling::of(&noise_floor::CALCULATOR, &filled));
    Ok(())
}

/// The noise at every point up to the console's input, V², 20 Hz to 20 kHz.
pub(super) fn noise_by_point(chain: &Chain) -> [f64; 5] {
    band_powers(|f| chain.noise_by_point(f, ROOM), &AUDIO_BAND)
}

/// The point with the least margin.
pub(super) fn tightest(points: &[Point]) -> (&'static str, Option<f64>) {
    let margins = points.iter().filter_map(|point| point.margin().map(|margin| (point.names.point, margin)));
    let tightest = margins.min_by(|a, b| a.1.total_cmp(&b.1));
    (tightest.map_or("", |(point, _)| point), tightest.map(|(_, margin)| margin))
}

/// Every point up to the console's input, in order, with the working of its
/// level and its noise in V² as [`Chain::noise_by_point`] has it. `E`, `U_0` and
/// `c` are given.
pub(super) fn points(
    values: &Values,
    working: &mut Working,
    chain: &Chain,
    noise: [f64; 5],
) -> Result<Vec<Point>, Fault> {
    let [source, input, output, before_pad, at_console] = noise;
    let mut points = vec![point(working, SOURCE, 0, "20*log10(E/U_0)", None, source)?];
    let tap = |working: &mut Working, tap: &Tap| working.given("H", tap.path.transfer(MIDBAND), Unit::One);
    // The level of the e.m.f. that drives the path in question.
    let mut emf = "a_0";
    if let Some(primary) = &chain.primary {
        working.given("U_20", values.number("largest")?, Unit::DecibelU);
        working.given("f_low", values.number("lowest")?, Unit::Hertz);
        working.given("f_20", 20.0, Unit::Hertz);
        let clip = working.step("largest_lowest", "a_CT", "U_20 + 20*log10(f_low/f_20)", Unit::DecibelU)?;
        tap(working, primary);
        points.push(point(working, BOX_INPUT, 1, "a_0 + 20*log10(abs(H))", Some(clip), input)?);
    }
    if chain.active.is_some() {
        working.walk(&chain.first, MIDBAND)?;
        working.given("H", chain.first.transfer(MIDBAND), Unit::One);
        points.push(point(working, BOX_INPUT, 1, "a_0 + 20*log10(abs(H))", None, input)?);
        working.given("g_B", values.number("box_gain")?, Unit::Decibel);
        points.push(point(working, BOX_OUTPUT, 2, "a_1 + g_B", Some(values.number("box_clip")?), output)?);
        emf = "a_2";
    }
    let through = format!("{emf} + 20*log10(abs(H))");
    if let Some(pad) = &chain.pad {
        tap(working, pad);
        points.push(point(working, PAD_INPUT, 3, &through, None, before_pad)?);
    }
    working.walk(chain.last(), MIDBAND)?;
    working.given("H", chain.last().transfer(MIDBAND), Unit::One);
    points.push(point(working, CONSOLE_INPUT, 4, &through, Some(values.number("console_most")?), at_console)?);
    Ok(points)
}

/// The points behind the console's input: its gain and the converter.
fn behind_the_input(values: &Values, sheet: &mut Sheet, points: &mut Vec<Point>, full_scale: f64) -> Result<(), Fault> {
    let gain = 10_f64.powf(values.number("gain")? / 10.0);
    let noise = gain * points.last().map_or(0.0, |console| console.noise);
    points.push(point(&mut sheet.working, GAIN, 5, "a_4 + g", Some(values.number("gain_clip")?), noise)?);
    sheet.given("U_N", noise.sqrt(), Unit::Volt);
    sheet.step("converter_noise", "U_D", "U_0*10^((a_FS - D)/20)", Unit::Volt)?;
    let noise = sheet.step("total_noise", "U_C", "sqrt(U_N^2 + U_D^2)", Unit::Volt)?;
    points.push(point(&mut sheet.working, CONVERTER, 6, "a_5", Some(full_scale), noise.powi(2))?);
    Ok(())
}

/// The least loss of a pad that keeps the headroom at the console's input;
/// none where it is kept without.
fn pad_for_headroom(values: &Values, sheet: &mut Sheet, chain: &Chain) -> Result<Option<f64>, Fault> {
    let last = chain.last();
    let kept = chain.pad.as_ref().map_or(last.chain.as_slice(), |pad| last.chain.get(..pad.cut).unwrap_or_default());
    let bare = Path { source: last.source.clone(), chain: kept.to_vec(), load: last.load.clone() };
    let emf = if chain.active.is_some() { "a_2" } else { "a_0" };
    sheet.given("H_b", bare.transfer(MIDBAND), Unit::One);
    let without = sheet.step(
        "peak_without_pad",
        "p_b",
        &format!("{emf} + 20*log10(abs(H_b)) + c - 10*log10(2)"),
        Unit::DecibelU,
    )?;
    if without <= values.number("console_most")? - values.number("headroom")? {
        return Ok(None);
    }
    let open = Path { load: OnePort::OPEN, ..bare };
    sheet.given("H_q", open.transfer(MIDBAND), Unit::One);
    sheet.given("Z_q", open.output_impedance(MIDBAND), Unit::Ohm);
    // Into the pad instead of the console; the loss is never less than that of
    // its series arm alone.
    let formula =
        format!("max({emf} + 20*log10(abs(H_q*R_P/(R_P + Z_q))) + c - 10*log10(2) - a_CK + h, 20*log10(R_P/R_K), 0)");
    sheet.step("least_pad", "a_h", &formula, Unit::Decibel).map(Some)
}

fn signal_to_noise(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let snr = sheet.step("snr", "S", "a_6 - 20*log10(U_C/U_0)", Unit::Decibel)?;
    let least = values.number("distance")?;
    let args = [("snr", Arg::Quantity(snr, Unit::Decibel)), ("least", Arg::Quantity(least, Unit::Decibel))];
    sheet.further("snr", snr, Unit::Decibel, &args);
    if snr < least {
        sheet.verdict(Tone::Trouble, "verdict-noise", &args);
        sheet.warn("noise-near", &args);
        if sheet.value_of("U_D").re > sheet.value_of("U_N").re {
            sheet.warn("converter-noise", &[]);
        }
    } else {
        sheet.verdict(Tone::Fine, "verdict-quiet", &args);
    }
    Ok(())
}

fn noise_level(power: f64) -> f64 {
    10.0 * (power / VOLTS_AT_0_DBU.powi(2)).log10()
}

/// Level, peaks, clip level and noise over the points of the chain.
pub(super) fn picture(sheet: &mut Sheet, points: &[Point], tightest: &str, margin: Option<f64>) {
    if !sheet.wants_plots() {
        return;
    }
    let x: Vec<_> = (0..points.len()).map(|i| i as f64).collect();
    let all = |value: fn(&Point) -> f64| points.iter().map(value).collect::<Vec<_>>();
    let traces = vec![
        sheet.trace("curve-level", false, x.clone(), all(|point| point.level)),
        sheet.trace("curve-peak", false, x.clone(), all(|point| point.peak)),
        sheet.trace("curve-clip", true, x.clone(), all(|point| point.clip.unwrap_or(f64::NAN))),
        sheet.trace("curve-noise", true, x.clone(), all(|point| finite(noise_level(point.noise)))),
    ];
    let finite = || traces.iter().flat_map(|trace| &trace.y).copied().filter(|y| y.is_finite());
    let from = (finite().fold(f64::INFINITY, f64::min) / 10.0).floor() * 10.0;
    let to = (finite().fold(f64::NEG_INFINITY, f64::max) / 10.0).ceil() * 10.0;
    let names = points.iter().map(|point| sheet.message(point.names.point)).collect();
    let (places, levels) = (sheet.places("axis-point", names), sheet.axis("axis-dbu", Unit::DecibelU, false, from, to));
    let margin = ("margin", Arg::Quantity(margin.unwrap_or(f64::NAN), Unit::Decibel));
    let summary = [margin, ("point", Arg::Key(tightest.to_owned()))];
    let marker = points
        .iter()
        .zip(&x)
        .find(|(point, _)| point.names.point == tightest)
        .map(|(point, x)| sheet.marker("marker-tightest", &summary, *x, point.peak));
    let plot = sheet.plot("chain", &summary, places, levels, traces);
    plot.markers.extend(marker);
    plot.stops = x;
}
