//! Level chain: level, peaks, clip level, margin and noise at every point from
//! a source to the converter, and what pad or gain keeps a headroom.
//!
//! Levels are rms; peaks are given as the level of the sine that has the
//! same peak, 3.01 dB under peak volts, because clip levels and full scale are
//! stated for sines (EBU R 68, SMPTE RP 155).

use super::diagram::Draft;
use super::noise_floor::{self, SOURCES, WITH_EMF};
use crate::calculator::{Calculator, Keeps, Preset};
use crate::catalogue::typical::MINUS_10_DBV;
use crate::fault::Fault;
use crate::field::active_box::{BOX_C, BOX_CLIP, BOX_E, BOX_GAIN, BOX_I, BOX_LEG, BOX_R};
use crate::field::console::{CONSOLE_C, CONSOLE_E, CONSOLE_I, CONSOLE_MOST, CONSOLE_NOISE, CONSOLE_R, EIN, EIN_R};
use crate::field::converter::{ALIGNMENT, FULL_SCALE, RANGE, full_scale};
use crate::field::direct_box::{BOX, BOXES, BoxKind};
use crate::field::lead::{LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R};
use crate::field::microphone::{MICROPHONE_EMF, MICROPHONE_R};
use crate::field::pad::{INPUT_PAD, PAD, PAD_R};
use crate::field::pickup::PICKUP;
use crate::field::piezo::PIEZO_C;
use crate::field::preamp::{GAIN_CLIP, INPUT_GAIN, OUTPUT_NOISE, SET_GAIN};
use crate::field::question::{HEADROOM, SNR_LEAST};
use crate::field::run::{RUN_C, RUN_L, RUN_LENGTH, RUN_R};
use crate::field::signal::CREST;
use crate::field::source::{EMF, SOURCE_R, SourceKind, emf};
use crate::field::thru::{AMP_C, AMP_R, THRU, THRU_LENGTH};
use crate::field::transformer::{LARGEST, LOWEST, TRANSFORMER};
use crate::field::{Bound, Change, ChoiceField, Field, Requirement, Step, Values, folded, joined, only_when};
use crate::network::{AUDIO_BAND, BLOCK, MIDBAND, OnePort, Path, ROOM, band_powers};
use crate::part::{Between, Chain, LARGEST_AT, NoiseByPoint, Rig, Tap, Transformer};
use crate::quantity::Unit;
use crate::quantity::level::{dbu_of_square, power_ratio};
use crate::report::{Marker, RigSound, Sheet, Tone, Trace, finite};
use crate::words::{Arg, Args, Message};
use crate::working::Working;

const PASSIVE: &[&str] = &[BoxKind::Passive.id()];

/// What drives the chain.
const SOURCE: ChoiceField<SourceKind> = SOURCES.starting(SourceKind::Output.id());

/// The least distance of the signal from noise at the converter, dB.
const DISTANCE: Field = SNR_LEAST.named("distance", "S_min").detail();

const REQUIREMENTS: &[Requirement] = &[
    Requirement {
        reading: "margin",
        bound: Bound::at_least(HEADROOM),
        changes: &[
            Change::less(INPUT_GAIN, Step::Of(1.0)),
            Change::more(PAD, Step::Of(10.0)),
            Change::less(BOX_GAIN, Step::Of(20.0)),
            Change::less(EMF, Step::Decibels),
        ],
    },
    Requirement {
        reading: "snr",
        bound: Bound::at_least(DISTANCE),
        changes: &[
            Change::more(INPUT_GAIN, Step::Of(1.0)),
            Change::less(PAD, Step::Of(10.0)),
            Change::more(EMF, Step::Decibels),
        ],
    },
];

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "level-chain",
    fields: &joined::<_, 70>(&[
        &[
            SOURCE.field(),
            EMF.starting(MINUS_10_DBV).when(SOURCE, WITH_EMF),
            MICROPHONE_EMF,
            CREST,
            SOURCE_R.starting(1e3).when(SOURCE, &[SourceKind::Output.id()]).detail(),
            PIEZO_C.detail(),
            MICROPHONE_R.detail(),
        ],
        &only_when(folded(PICKUP), SOURCE, &[SourceKind::Pickup.id()]),
        &[
            LEAD_LENGTH.detail(),
            LEAD_C.detail(),
            LEAD_R,
            LEAD_L,
            BOX.field(),
            BOX_GAIN,
            BOX_CLIP,
            BOX_R.detail(),
            BOX_C,
            BOX_LEG,
            BOX_E.detail(),
            BOX_I,
        ],
        &only_when(TRANSFORMER, BOX, PASSIVE),
        &[
            LARGEST.when(BOX, PASSIVE),
            LOWEST,
            THRU.when(BOX, BOXES).detail().field(),
            THRU_LENGTH.detail(),
            AMP_R,
            AMP_C,
            RUN_LENGTH.starting(0.0).detail(),
            RUN_C,
            RUN_R,
            RUN_L,
            PAD,
            PAD_R,
            CONSOLE_R,
            CONSOLE_C,
            CONSOLE_MOST,
            INPUT_GAIN,
            GAIN_CLIP,
            CONSOLE_NOISE.field(),
            EIN.detail(),
            EIN_R,
            CONSOLE_E.detail(),
            CONSOLE_I,
            OUTPUT_NOISE,
            ALIGNMENT.field(),
            FULL_SCALE,
            RANGE,
            HEADROOM,
            DISTANCE,
        ],
    ]),
    first: &[SOURCE.id(), EMF.id, MICROPHONE_EMF.id, INPUT_GAIN.id],
    presets: &[
        Preset { id: "keys", values: &[], held: &[&[BoxKind::Passive.to(BOX), INPUT_GAIN.typed("30 dB")]] },
        Preset {
            id: "line",
            values: &[
                EMF.typed("+4 dBu"),
                SOURCE_R.typed("150"),
                LEAD_LENGTH.typed("30 m"),
                BoxKind::None.to(BOX),
                CONSOLE_R.typed("10k"),
                CONSOLE_MOST.typed("+24 dBu"),
                INPUT_GAIN.typed("0 dB"),
                EIN.typed("-95 dBu"),
            ],
            held: &[],
        },
        Preset {
            id: "bass",
            values: &[
                EMF.typed("0.7 V"),
                CREST.typed("18"),
                SOURCE_R.typed("2k"),
                LEAD_LENGTH.typed("6 m"),
                INPUT_GAIN.typed("0 dB"),
            ],
            held: &[&[BOX_GAIN.typed("-20 dB"), INPUT_GAIN.typed("20 dB")]],
        },
    ],
    solve,
    keeps: Keeps::These(REQUIREMENTS),
};

/// The names of a point of the chain: its word and its readings.
pub(super) struct Names {
    pub id: &'static str,
    pub point: &'static str,
    level: &'static str,
    peak: &'static str,
    margin: &'static str,
    noise: &'static str,
}

macro_rules! names {
    ($name:ident, $id:literal) => {
        const $name: Names = Names {
            id: $id,
            point: concat!("level-chain-point-", $id),
            level: concat!("level_", $id),
            peak: concat!("peak_", $id),
            margin: concat!("margin_", $id),
            noise: concat!("noise_", $id),
        };
    };
}

names!(AT_SOURCE, "source");
names!(BOX_INPUT, "box_input");
names!(BOX_OUTPUT, "box_output");
names!(PAD_INPUT, "pad_input");
names!(CONSOLE_INPUT, "console_input");
names!(GAIN, "gain");
names!(CONVERTER, "converter");

/// A point of the chain.
pub(super) struct Point {
    pub names: Names,
    /// Rms, dBu.
    pub level: f64,
    /// The level of the sine with the same peak, dBu.
    peak: f64,
    /// The largest sine, dBu, where there is a limit.
    pub clip: Option<f64>,
    /// V², 20 Hz to 20 kHz.
    noise: f64,
}

impl Point {
    /// Whether it is the input of a box.
    pub(super) fn is_box_input(&self) -> bool {
        self.names.point == BOX_INPUT.point
    }

    /// Whether it lies behind the console's input.
    pub(super) fn is_behind_the_input(&self) -> bool {
        matches!(self.names.id, "gain" | "converter")
    }

    /// Whether it is the input or the output of a box.
    fn is_of_box(&self) -> bool {
        self.is_box_input() || self.names.point == BOX_OUTPUT.point
    }

    /// From the peaks to the clip level, dB.
    pub(super) fn margin(&self) -> Option<f64> {
        self.clip.map(|clip| clip - self.peak)
    }
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
    let rig = noise_floor::rig(values, false, &mut sheet.working)?;
    let chain = rig.chain();
    sheet.working.given("E", emf(values)?, Unit::Volt);
    for (symbol, value, unit) in [
        ("c", values.number(CREST)?, Unit::Decibel),
        ("g", values.number(INPUT_GAIN)?, Unit::Decibel),
        ("h", values.number(HEADROOM)?, Unit::Decibel),
        ("a_CK", values.number(CONSOLE_MOST)?, Unit::DecibelU),
        ("a_CG", values.number(GAIN_CLIP)?, Unit::DecibelU),
    ] {
        sheet.working.given(symbol, value, unit);
    }
    if let Some(source) = values.choice(ALIGNMENT)?.source() {
        sheet.source(source);
    }
    let full_scale = full_scale(values, &mut sheet.working)?;
    let noise = noise_by_point(&chain);
    let mut points = points(values, &mut sheet.working, &chain, noise)?;
    let gain = values.number(INPUT_GAIN)?;
    behind_the_input(values, &mut sheet.working, &mut points, gain, full_scale)?;
    let headroom = values.number(HEADROOM)?;

    let (tightest, margin) = tightest(&points);
    let at = [("point", Arg::Key(tightest.to_owned())), ("headroom", Arg::Entry(headroom, Unit::Decibel))];
    sheet.headline("margin", margin, Unit::Decibel, &[]);
    because_of_headroom(sheet)?;
    match margin {
        Some(margin) if margin < 0.0 => sheet.verdict(Tone::Trouble, "verdict-clips", &at),
        Some(margin) if margin < headroom => sheet.verdict(Tone::Watch, "verdict-close", &at),
        _ => sheet.verdict(Tone::Fine, "verdict-room", &at),
    }
    what_keeps_headroom(values, sheet, &chain, &points)?;
    if !sheet.wants_further() {
        return Ok(());
    }
    for point in &points {
        readings(sheet, point);
    }
    let peak = sheet.working.step("peak_dbfs", "d_p", "p_6 - a_FS", Unit::DecibelFullScale)?;
    sheet.further("peak_dbfs", peak, Unit::DecibelFullScale, &[]);
    sheet.further("full_scale_level", full_scale, Unit::DecibelU, &[]);
    let snr = signal_to_noise(values, sheet)?;
    sheet.sound(|| RigSound { hum: Vec::new(), noise: Some(-snr), headroom: margin });
    picture(sheet, &points, tightest, margin);
    draw(values, sheet, &rig, &points)?;

    sheet.caution("caution-hearing");
    if chain.active.is_some() {
        sheet.caution("caution-phantom");
    }
    for source in ["source-levels", "source-chain", "source-johnson", "source-amplifier-noise", "source-practice"] {
        sheet.source(source);
    }
    link(values, sheet)
}

/// Draws the rig; a run from a box or a microphone is balanced.
fn draw(values: &Values, sheet: &mut Sheet, rig: &Rig, points: &[Point]) -> Result<(), Fault> {
    if !sheet.wants_all_words() {
        return Ok(());
    }
    let own = values.choice(SOURCE)?.is_balanced();
    let draft = Draft::of_rig(sheet, values, rig, points, [own, own || rig.between != Between::Nothing])?;
    let drawn = draft.finish(&[SOURCE.id(), LEAD_LENGTH.id, BOX.id(), THRU.id(), RUN_LENGTH.id, PAD.id]);
    sheet.diagram(drawn);
    Ok(())
}

/// Why there is headroom or none, said of the reading written last.
pub(super) fn because_of_headroom(sheet: &mut Sheet) -> Result<(), Fault> {
    sheet.because("because-headroom", "m", "a_C - (a + c - 10*log10(2))")
}

/// The level at the converter, and what gain and what pad keep the headroom.
fn what_keeps_headroom(values: &Values, sheet: &mut Sheet, chain: &Chain, points: &[Point]) -> Result<(), Fault> {
    let headroom = values.number(HEADROOM)?;
    let digital = sheet.working.step("dbfs", "d", "a_6 - a_FS", Unit::DecibelFullScale)?;
    sheet.headline("dbfs", digital, Unit::DecibelFullScale, &[]);
    let gain = sheet.working.step("most_gain", "g_h", "min(a_CG, a_FS) - h - p_4", Unit::Decibel)?;
    // Neither gain nor a pad mends what clips in front of them.
    let before = points.iter().filter(|point| point.is_of_box());
    let lost = before.filter_map(Point::margin).any(|margin| margin < headroom);
    let pad = pad_for_headroom(values, sheet, chain)?;
    let why = if lost { "level-chain-before" } else { "level-chain-no-pad" };
    let wanted = [("headroom", Arg::Entry(headroom, Unit::Decibel)), ("why", Arg::Key(why.to_owned()))];
    sheet.headline("gain_for_headroom", Some(gain).filter(|_| !lost), Unit::Decibel, &wanted);
    sheet.headline("pad_for_headroom", pad.filter(|_| !lost), Unit::Decibel, &wanted);
    Ok(())
}

/// Level, peaks, margin and noise of a point, and that it clips.
fn readings(sheet: &mut Sheet, point: &Point) {
    let names = &point.names;
    sheet.further(names.level, point.level, Unit::DecibelU, &[]);
    sheet.further(names.peak, point.peak, Unit::DecibelU, &[]);
    if let Some(margin) = point.margin() {
        sheet.further(names.margin, margin, Unit::Decibel, &[]);
    }
    sheet.further(names.noise, dbu_of_square(point.noise), Unit::DecibelU, &[]);
    if let Some(margin) = point.margin().filter(|margin| *margin < 0.0) {
        let id = if point.is_of_box() { "clips-in-box" } else { "clips" };
        let by = ("by", Arg::Quantity(-margin, Unit::Decibel));
        sheet.warn(id, &[("point", Arg::Key(names.point.to_owned())), by]);
    }
}

/// Points to the noise of the same line.
fn link(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let mut filling = noise_floor::CALCULATOR.filling_from(&CALCULATOR, values)?;
    filling.put(SET_GAIN, values.number(INPUT_GAIN)?);
    sheet.link_to("link-noise-floor", &[], &filling);
    Ok(())
}

/// The noise at every point up to the console's input, V², 20 Hz to 20 kHz.
fn noise_by_point(chain: &Chain) -> NoiseByPoint {
    let densities = |frequencies: &[f64; BLOCK]| chain.noise(frequencies, ROOM).by_point().map(NoiseByPoint::into_row);
    NoiseByPoint::from_row(band_powers(densities, &AUDIO_BAND))
}

/// The point with the least margin.
pub(super) fn tightest(points: &[Point]) -> (&'static str, Option<f64>) {
    let margins = points.iter().filter_map(|point| point.margin().map(|margin| (point.names.point, margin)));
    let tightest = margins.min_by(|a, b| a.1.total_cmp(&b.1));
    (tightest.map_or("", |(point, _)| point), tightest.map(|(_, margin)| margin))
}

/// Every point up to the console's input, in order, with the working of its
/// level and its noise in V² as [`NoiseByPoint`] has it. `E`, `U_0` and
/// `c` are given.
pub(super) fn points(
    values: &Values,
    working: &mut Working,
    chain: &Chain,
    noise: NoiseByPoint,
) -> Result<Vec<Point>, Fault> {
    let mut points = vec![point(working, AT_SOURCE, 0, "20*log10(E/U_0)", None, noise.source)?];
    let tap = |working: &mut Working, tap: &Tap| working.given("H", tap.path.transfer(MIDBAND), Unit::One);
    // The level of the e.m.f. that drives the path in question.
    let mut emf = "a_0";
    if let Some(primary) = &chain.primary {
        working.given("U_20", values.number(LARGEST)?, Unit::DecibelU);
        working.given("f_low", values.number(LOWEST)?, Unit::Hertz);
        working.given("f_20", LARGEST_AT, Unit::Hertz);
        let clip = working.step("largest_lowest", "a_CT", &Transformer::largest_level("f_low"), Unit::DecibelU)?;
        tap(working, primary);
        points.push(point(working, BOX_INPUT, 1, "a_0 + 20*log10(abs(H))", Some(clip), noise.box_input)?);
    }
    if chain.active.is_some() {
        working.walk(&chain.first, MIDBAND)?;
        working.given("H", chain.first.transfer(MIDBAND), Unit::One);
        points.push(point(working, BOX_INPUT, 1, "a_0 + 20*log10(abs(H))", None, noise.box_input)?);
        working.given("g_B", values.number(BOX_GAIN)?, Unit::Decibel);
        points.push(point(working, BOX_OUTPUT, 2, "a_1 + g_B", Some(values.number(BOX_CLIP)?), noise.box_output)?);
        emf = "a_2";
    }
    let through = format!("{emf} + 20*log10(abs(H))");
    if let Some(pad) = &chain.pad {
        tap(working, pad);
        points.push(point(working, PAD_INPUT, 3, &through, None, noise.before_pad)?);
    }
    working.walk(chain.last(), MIDBAND)?;
    working.given("H", chain.last().transfer(MIDBAND), Unit::One);
    points.push(point(working, CONSOLE_INPUT, 4, &through, Some(values.number(CONSOLE_MOST)?), noise.console)?);
    Ok(points)
}

/// The points behind the console's input, of this gain in dB, which is `g` in the
/// scope: that gain, and the converter.
pub(super) fn behind_the_input(
    values: &Values,
    working: &mut Working,
    points: &mut Vec<Point>,
    gain: f64,
    full_scale: f64,
) -> Result<(), Fault> {
    let arriving = power_ratio(gain) * points.last().map_or(0.0, |console| console.noise);
    working.given("U_I", arriving.sqrt(), Unit::Volt);
    let mut own = |field: Field, id: &str, symbol: &str, given: &str, formula: &str| match values.optional(field)? {
        None => {
            working.given(symbol, 0.0, Unit::Volt);
            Ok(())
        }
        Some(value) => {
            working.given(given, value, field.unit());
            working.step(id, symbol, formula, Unit::Volt).map(drop)
        }
    };
    own(OUTPUT_NOISE, "output_noise_step", "U_O", "a_O", "U_0*10^(a_O/20)")?;
    own(RANGE, "converter_noise", "U_D", "D", "U_0*10^((a_FS - D)/20)")?;
    let noise = working.step("gain_noise", "U_N", "sqrt(U_I^2 + U_O^2)", Unit::Volt)?;
    points.push(point(working, GAIN, 5, "a_4 + g", Some(values.number(GAIN_CLIP)?), noise.powi(2))?);
    let noise = working.step("total_noise", "U_C", "sqrt(U_N^2 + U_D^2)", Unit::Volt)?;
    points.push(point(working, CONVERTER, 6, "a_5", Some(full_scale), noise.powi(2))?);
    Ok(())
}

/// The least loss of a pad that keeps the headroom at the console's input;
/// none where it is kept without.
fn pad_for_headroom(values: &Values, sheet: &mut Sheet, chain: &Chain) -> Result<Option<f64>, Fault> {
    let last = chain.last();
    let kept = chain.pad.as_ref().map_or(last.chain.as_slice(), |pad| last.before(pad.node));
    let bare = Path { source: last.source.clone(), chain: kept.to_vec(), load: last.load.clone() };
    let emf = if chain.active.is_some() { "a_2" } else { "a_0" };
    sheet.working.given("H_b", bare.transfer(MIDBAND), Unit::One);
    let without = sheet.working.step(
        "peak_without_pad",
        "p_b",
        &format!("{emf} + 20*log10(abs(H_b)) + c - 10*log10(2)"),
        Unit::DecibelU,
    )?;
    if without <= values.number(CONSOLE_MOST)? - values.number(HEADROOM)? {
        return Ok(None);
    }
    let open = Path { load: OnePort::OPEN, ..bare };
    sheet.working.given("H_q", open.transfer(MIDBAND), Unit::One);
    sheet.working.given("Z_q", open.output_impedance(MIDBAND), Unit::Ohm);
    // Into the pad instead of the console; the loss is never less than that of
    // its series arm alone.
    let least = INPUT_PAD.least_factor();
    let formula = format!(
        "max({emf} + 20*log10(abs(H_q*R_pad/(R_pad + Z_q))) + c - 10*log10(2) - a_CK + h, 20*log10({least}), 0)"
    );
    sheet.working.step("least_pad", "a_h", &formula, Unit::Decibel).map(Some)
}

fn signal_to_noise(values: &Values, sheet: &mut Sheet) -> Result<f64, Fault> {
    let snr = sheet.working.step("snr", "S", "a_6 - 20*log10(U_C/U_0)", Unit::Decibel)?;
    let least = values.number(DISTANCE)?;
    let args = [("snr", Arg::Quantity(snr, Unit::Decibel)), ("least", Arg::Entry(least, Unit::Decibel))];
    sheet.further("snr", snr, Unit::Decibel, &args);
    if snr < least {
        sheet.verdict(Tone::Trouble, "verdict-noise", &args);
        sheet.warn("noise-near", &args);
        if sheet.working.value_of("U_D").re > sheet.working.value_of("U_N").re {
            sheet.warn("converter-noise", &[]);
        }
    } else {
        sheet.verdict(Tone::Fine, "verdict-quiet", &args);
    }
    Ok(snr)
}

/// Level, peaks and clip level at every point of the chain as bars, and the noise
/// there apart, which lies far below.
pub(super) fn picture(sheet: &mut Sheet, points: &[Point], tightest: &str, margin: Option<f64>) {
    if !sheet.wants_plots() {
        return;
    }
    let x: Vec<_> = (0..points.len()).map(|i| i as f64).collect();
    let all = |value: fn(&Point) -> f64| points.iter().map(value).collect::<Vec<_>>();
    let levels = vec![
        sheet.trace("curve-level", false, x.clone(), all(|point| point.level)),
        sheet.trace("curve-peak", false, x.clone(), all(|point| point.peak)),
        sheet.trace("curve-clip", true, x.clone(), all(|point| point.clip.unwrap_or(f64::NAN))),
    ];
    let noise = vec![sheet.trace("curve-noise", false, x.clone(), all(|point| finite(dbu_of_square(point.noise))))];
    let headrooms: Vec<_> = points
        .iter()
        .zip(&x)
        .filter_map(|(point, x)| Some((point.names.point == tightest, *x, point.clip?, point.margin()?)))
        .map(|(lowest, x, clip, margin)| {
            let id = if margin < 0.0 {
                "marker-clips"
            } else if lowest {
                "marker-lowest-headroom"
            } else {
                "marker-headroom"
            };
            let args = [("margin", Arg::Quantity(margin.abs(), Unit::Decibel))];
            Marker { stressed: lowest, ..sheet.marker(id, &args, x, clip) }
        })
        .collect();
    let noises: Vec<_> = points
        .iter()
        .zip(&x)
        .map(|(point, x)| (*x, dbu_of_square(point.noise)))
        .map(|(x, noise)| sheet.marker("marker-noise", &[("noise", Arg::Quantity(noise, Unit::DecibelU))], x, noise))
        .collect();
    let margin = ("margin", Arg::Quantity(margin.unwrap_or(f64::NAN), Unit::Decibel));
    bars(sheet, "chain", &[margin, ("point", Arg::Key(tightest.to_owned()))], points, levels, headrooms);
    let arriving = points.last().map_or(0.0, |point| point.noise);
    let at_end = [("noise", Arg::Quantity(dbu_of_square(arriving), Unit::DecibelU))];
    bars(sheet, "chain-noise", &at_end, points, noise, noises);
}

/// A plot with a row for every point.
fn bars(
    sheet: &mut Sheet,
    id: &'static str,
    summary: Args,
    points: &[Point],
    traces: Vec<Trace<Message>>,
    markers: Vec<Marker<Message>>,
) {
    let finite = || traces.iter().flat_map(|trace| &trace.y).copied().filter(|y| y.is_finite());
    let (least, most) =
        finite().fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), y| (least.min(y), most.max(y)));
    if least > most {
        return;
    }
    // The shortest bar is to be seen as well.
    let (from, to) = ((least / 10.0).ceil() * 10.0 - 20.0, (most / 10.0).ceil() * 10.0);
    let names = points.iter().map(|point| sheet.message(point.names.point)).collect();
    let (places, levels) = (sheet.places("axis-point", names), sheet.axis("axis-dbu", Unit::DecibelU, false, from, to));
    let plot = sheet.plot(id, summary, places, levels, traces);
    plot.markers = markers;
    plot.stops = (0..points.len()).map(|i| i as f64).collect();
}
