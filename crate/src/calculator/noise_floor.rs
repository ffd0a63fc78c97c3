//! Noise floor: the noise that a source, a box and a console input make
//! together, and which of them makes it.
//!
//! Thermal noise of everything passive up to an amplifier's input is
//! 4·k·T·Re Z at that node (Johnson 1928, Nyquist 1928), the amplifier's noise
//! current flows through Z, its noise voltage adds in series; the sum passes
//! the gain to the next input and starts afresh there. Terms are not
//! correlated and add as powers.

use super::level_chain;
use crate::calculator::{Calculator, Keeps, Preset};
use crate::fault::Fault;
use crate::field::active_box::{BOX_C, BOX_E, BOX_GAIN, BOX_I, BOX_LEG, BOX_R};
use crate::field::console::{
    CONSOLE_C, CONSOLE_E, CONSOLE_I, CONSOLE_NOISE, CONSOLE_R, EIN, EIN_R, NoiseStatedAs, console,
};
use crate::field::converter::{ALIGNMENT, FULL_SCALE, RANGE};
use crate::field::direct_box::{BOX, BOXES, BoxKind, between};
use crate::field::lead::{LEAD_C, LEAD_L, LEAD_LENGTH, LEAD_R, lead};
use crate::field::microphone::{MICROPHONE_EMF, MICROPHONE_R};
use crate::field::pad::{PAD, PAD_R, pad};
use crate::field::pickup::PICKUP;
use crate::field::piezo::PIEZO_C;
use crate::field::preamp::{GAIN_CLIP, INPUT_GAIN, OUTPUT_NOISE, SET_GAIN, behind};
use crate::field::question::{HEADROOM, SNR_LEAST};
use crate::field::run::{RUN_C, RUN_L, RUN_LENGTH, RUN_R, run};
use crate::field::signal::CREST;
use crate::field::source::{EMF, SOURCE, SOURCE_R, SourceKind, emf, source};
use crate::field::thru::{AMP_C, AMP_R, THRU, THRU_LENGTH, thru};
use crate::field::transformer::TRANSFORMER;
use crate::field::{ChoiceField, Field, Values, choice, joined, only_when};
use crate::network::{
    AUDIO_BAND, MIDBAND, Path, ROOM, a_weighting_power, band_powers, decibels_of_transfer, log_sweep_with,
};
use crate::part::{Chain, EquivalentNoise, Input, NoiseByCause, Rig};
use crate::quantity::Unit;
use crate::quantity::level::dbu_of_square;
use crate::report::{RigSound, Sheet, Tone};
use crate::words::Arg;
use crate::working::Working;
use std::ops::RangeInclusive;

choice! {
    /// Where the noise of an input comes from.
    enum NoiseOrigin {
        /// Its amplifier alone.
        Amplifier = "amplifier",
        /// Its resistance too.
        Resistor = "resistor",
    }
}

/// The sources that there are here; a balanced one makes the noise of an output.
pub(super) const SOURCES: ChoiceField<SourceKind> = SOURCE.among(&[
    SourceKind::Pickup.answer(),
    SourceKind::Output.answer(),
    SourceKind::Piezo.answer(),
    SourceKind::Microphone.answer(),
]);
/// Those whose level is an e.m.f. of its own.
pub(super) const WITH_EMF: &[&str] = &[SourceKind::Pickup.id(), SourceKind::Output.id(), SourceKind::Piezo.id()];
const PASSIVE: &[&str] = &[BoxKind::Passive.id()];

/// Where the noise of an input comes from.
const INPUT_NOISE: ChoiceField<NoiseOrigin> =
    NoiseOrigin::field("input_noise", NoiseOrigin::Amplifier).detail().at("question");
/// Temperature of all that is passive, K.
const TEMPERATURE: Field =
    Field::number("temperature", "T", Unit::Kelvin, ROOM, (273.15, 313.15)).limits(1.0, 1000.0).detail().at("question");
/// The beginning of the band in which noise counts, Hz.
const BAND_FROM: Field = Field::number("band_from", "f_1", Unit::Hertz, *AUDIO_BAND.start(), (10.0, 1e3))
    .limits(0.1, 1e6)
    .detail()
    .at("question");
/// The end of the band in which noise counts, Hz.
const BAND_TO: Field = Field::number("band_to", "f_2", Unit::Hertz, *AUDIO_BAND.end(), (5e3, 40e3))
    .limits(0.1, 1e6)
    .detail()
    .at("question");

pub(crate) static CALCULATOR: Calculator = Calculator {
    id: "noise-floor",
    fields: &joined::<_, 70>(&[
        &[
            SOURCES.field(),
            EMF.when(SOURCE, WITH_EMF),
            MICROPHONE_EMF,
            SOURCE_R.starting(1e3).when(SOURCE, &[SourceKind::Output.id()]),
            PIEZO_C,
            MICROPHONE_R,
            CREST.starting(15.0).detail(),
        ],
        &only_when(PICKUP, SOURCE, &[SourceKind::Pickup.id()]),
        &[LEAD_LENGTH, LEAD_C, LEAD_R, LEAD_L],
        &[BOX.field(), BOX_R, BOX_C, BOX_GAIN, BOX_E, BOX_I, BOX_LEG],
        &only_when(TRANSFORMER, BOX, PASSIVE),
        &[THRU.when(BOX, BOXES).detail().field(), THRU_LENGTH.detail(), AMP_R, AMP_C],
        &[RUN_LENGTH.starting(0.0).detail(), RUN_C, RUN_R, RUN_L, PAD.detail(), PAD_R],
        &[CONSOLE_R, CONSOLE_C, CONSOLE_NOISE.field(), EIN, EIN_R, CONSOLE_E, CONSOLE_I],
        &[SET_GAIN, GAIN_CLIP, OUTPUT_NOISE, ALIGNMENT.detail().field(), FULL_SCALE.detail(), RANGE],
        &[HEADROOM.detail(), INPUT_NOISE.field(), SNR_LEAST, TEMPERATURE, BAND_FROM, BAND_TO],
    ]),
    first: &[SOURCE.id(), EMF.id, MICROPHONE_EMF.id],
    presets: &[
        Preset {
            id: "guitar",
            values: &[],
            held: &[
                &[BoxKind::Passive.to(BOX)],
                &[
                    BoxKind::None.to(BOX),
                    CONSOLE_R.typed("1M"),
                    NoiseStatedAs::Densities.to(CONSOLE_NOISE),
                    CONSOLE_E.typed("10 nV"),
                    CONSOLE_I.typed("0.1 pA"),
                ],
            ],
        },
        Preset {
            id: "piezo",
            values: &[
                SourceKind::Piezo.to(SOURCE),
                EMF.typed("0.3"),
                BOX_R.typed("10M"),
                BOX_I.typed("0.01 pA"),
                NoiseOrigin::Resistor.to(INPUT_NOISE),
            ],
            held: &[],
        },
        Preset {
            id: "speech",
            values: &[SourceKind::Microphone.to(SOURCE), BoxKind::None.to(BOX), LEAD_LENGTH.typed("20 m")],
            held: &[],
        },
        Preset {
            id: "keys",
            values: &[SourceKind::Output.to(SOURCE), EMF.typed("-10 dBV"), BoxKind::Passive.to(BOX)],
            held: &[],
        },
    ],
    solve,
    keeps: Keeps::Nothing,
};

/// A source of more than this many times the resistance at which an equivalent
/// input noise is stated has the noise current to fear, which that figure leaves
/// open (common practice, no source).
const ELSEWHERE: f64 = 10.0;

/// Where noise is made, by the words for it.
fn by_word(noise: &NoiseByCause) -> [(&'static str, f64); 11] {
    [
        ("cause-source", noise.source),
        ("cause-transformer", noise.passive),
        ("cause-box-resistance", noise.box_resistance),
        ("cause-box-voltage", noise.box_voltage),
        ("cause-box-current", noise.box_current),
        ("cause-box-output", noise.box_output),
        ("cause-console-resistance", noise.console_resistance),
        ("cause-console-voltage", noise.console_voltage),
        ("cause-console-current", noise.console_current),
        ("cause-console-output", noise.console_output),
        ("cause-converter", noise.converter),
    ]
}

fn solve(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let band = values.number(BAND_FROM)?..=values.number(BAND_TO)?;
    if band.start() >= band.end() {
        return Err(BAND_TO.fault("fault-band"));
    }
    let emf = emf(values)?;
    let thermal = values.choice(INPUT_NOISE)? == NoiseOrigin::Resistor;
    let mut chain = rig(values, thermal, &mut sheet.working)?.chain();
    let temperature = values.number(TEMPERATURE)?;

    let [gain, signal] = arriving(&mut sheet.working, &chain, emf)?;
    chain.behind = behind(values, &mut sheet.working)?;
    let density = at_midband(&mut sheet.working, &chain, temperature)?;
    let of_band = over_band(&chain, temperature, &band);
    let Floor { parts, total, noise, noise_a } = floor(&mut sheet.working, of_band)?;
    let [snr, snr_a] = distances(&mut sheet.working)?;
    let referred = sheet.working.step("referred", "a_E", "a_N - g", Unit::DecibelU)?;
    let added =
        (total > 0.0).then(|| sheet.working.step("added", "a_add", "20*log10(U_N/U_S)", Unit::Decibel)).transpose()?;

    let (loudest, share) = loudest(&parts);
    let share = [("share", Arg::Quantity(share, Unit::Percent))];
    sheet.headline("noise", noise, Unit::DecibelU, &[]);
    let powers: Vec<_> =
        parts.iter().filter(|part| part.power > 0.0).map(|part| format!("{}^2", part.symbol)).collect();
    if !powers.is_empty() {
        sheet.because("noise.because", "U_N", &format!("sqrt({})", powers.join(" + ")))?;
    }
    if total > 0.0 {
        let tone = if loudest == "source" { Tone::Fine } else { Tone::Watch };
        sheet.verdict(tone, format!("verdict-{loudest}"), &share);
    }
    sheet.headline("snr", snr, Unit::Decibel, &[]);
    let least = values.number(SNR_LEAST)?;
    let wanted = [("least", Arg::Entry(least, Unit::Decibel))];
    if snr >= least {
        sheet.verdict(Tone::Fine, "verdict-quiet", &wanted);
    } else {
        sheet.verdict(Tone::Trouble, "verdict-noisy", &wanted);
    }
    sheet.headline("noise_a", noise_a, Unit::DecibelU, &[]);
    sheet.headline("snr_a", snr_a, Unit::Decibel, &[]);
    if !sheet.wants_further() {
        return Ok(());
    }

    // What is heard is the noise of the audio band, whichever is asked for.
    sheet.sound(|| {
        let heard = if band == AUDIO_BAND { of_band } else { over_band(&chain, temperature, &AUDIO_BAND) };
        RigSound { noise: Some(level(heard) - signal), ..RigSound::default() }
    });
    sheet.further("added", added, Unit::Decibel, &[]);
    sheet.further("signal", signal, Unit::DecibelU, &[]);
    sheet.further("gain", gain, Unit::Decibel, &[]);
    sheet.further("referred", referred, Unit::DecibelU, &[]);
    for (part, id) in parts.into_iter().zip(["of_source", "of_transformer", "of_box", "of_console", "of_converter"]) {
        sheet.further(id, dbu_of_square(part.power), Unit::DecibelU, &[]);
    }
    sheet.further("density", density, Unit::VoltPerRootHertz, &[]);
    of_inputs(values, sheet, &chain, thermal)?;
    if total > 0.0 {
        spectrum(sheet, &chain, temperature, noise, &format!("noise-floor-part-{loudest}"));
    }
    sources(values, sheet)?;
    link(values, sheet)
}

fn sources(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    for source in ["source-johnson", "source-amplifier-noise", "source-weighting", "source-chain", "source-practice"] {
        sheet.source(source);
    }
    if let Some(source) = values.choice(ALIGNMENT)?.source() {
        sheet.source(source);
    }
    Ok(())
}

/// The rig of the fields, input resistances with or without noise of their own.
pub(super) fn rig(values: &Values, thermal: bool, working: &mut Working) -> Result<Rig, Fault> {
    let console = console(values, thermal, working)?;
    let (lead, between) = (lead(values)?, between(values, thermal)?);
    Ok(Rig {
        source: source(values)?,
        lead,
        thru: thru(values, lead, &between)?,
        take_off: None,
        between,
        run: run(values)?,
        pad: pad(values, working)?,
        console,
    })
}

/// What the first input sees, and the console's figures beside it.
fn of_inputs(values: &Values, sheet: &mut Sheet, chain: &Chain, thermal: bool) -> Result<(), Fault> {
    let source_z = chain.first.output_impedance(MIDBAND).norm();
    sheet.further("source_z", source_z, Unit::Ohm, &[]);
    sheet.further("console_density", chain.console.e_n, Unit::VoltPerRootHertz, &[]);
    let ein = sheet.working.step("ein_step", "a_R", EquivalentNoise::LEVEL, Unit::DecibelU)?;
    sheet.further("console_ein", ein, Unit::DecibelU, &[("r", Arg::Entry(values.number(EIN_R)?, Unit::Ohm))]);

    if values.choice(SOURCE)? == SourceKind::Piezo && !thermal {
        sheet.warn("piezo-resistance", &[]);
    }
    if chain.active.is_none()
        && values.choice(CONSOLE_NOISE)? == NoiseStatedAs::Ein
        && source_z > ELSEWHERE * values.number(EIN_R)?
    {
        sheet.warn(
            "ein-elsewhere",
            &[("r", Arg::Entry(values.number(EIN_R)?, Unit::Ohm)), ("z", Arg::Quantity(source_z, Unit::Ohm))],
        );
    }
    Ok(())
}

/// Points to the levels of the same line.
fn link(values: &Values, sheet: &mut Sheet) -> Result<(), Fault> {
    let mut filling = level_chain::CALCULATOR.filling_from(&CALCULATOR, values)?;
    filling.put(INPUT_GAIN, sheet.working.value_of("g_K").re);
    sheet.link_to("link-level-chain", &[], &filling);
    Ok(())
}

/// What a part of a line makes of the noise.
#[derive(Clone, Copy)]
pub(super) struct Share {
    /// The part.
    pub part: &'static str,
    /// The symbol of its noise.
    symbol: &'static str,
    /// V².
    power: f64,
}

/// The noise at the console's input.
pub(super) struct Floor {
    /// By the part of the line that makes it.
    pub parts: [Share; 5],
    /// V.
    pub total: f64,
    /// dBu.
    pub noise: f64,
    /// A-weighted, dBu.
    pub noise_a: f64,
}

/// What the parts of a line make of the noise at a frequency in Hz, or over a band of
/// them, and all of it A-weighted.
pub(super) type ByPart = [f64; 6];

/// The densities at a frequency in Hz, V²/Hz.
pub(super) fn by_part(noise: &NoiseByCause, frequency: f64) -> ByPart {
    let weighted = noise.sum() * a_weighting_power(frequency);
    [noise.source, noise.passive, noise.of_box(), noise.of_console(), noise.converter, weighted]
}

/// The noise over a band in Hz, V².
fn over_band(chain: &Chain, temperature: f64, band: &RangeInclusive<f64>) -> ByPart {
    band_powers(
        |frequencies| {
            let causes = chain.noise(frequencies, temperature).by_cause();
            std::array::from_fn(|k| by_part(&causes[k], frequencies[k]))
        },
        band,
    )
}

/// The level of all of it together, dBu.
fn level([parts @ .., _]: ByPart) -> f64 {
    dbu_of_square(parts.iter().sum())
}

/// Writes down the noise of a band, V²; leaves `U_N` and `a_N` in the scope, and
/// `a_A` for its A-weighted level.
pub(super) fn floor(working: &mut Working, powers: ByPart) -> Result<Floor, Fault> {
    let [of_source, passive, of_box, of_console, of_converter, weighted] = powers;
    let parts = [
        Share { part: "source", symbol: "U_S", power: of_source },
        Share { part: "transformer", symbol: "U_T", power: passive },
        Share { part: "box", symbol: "U_B", power: of_box },
        Share { part: "console", symbol: "U_K", power: of_console },
        Share { part: "converter", symbol: "U_D", power: of_converter },
    ];
    for Share { symbol, power, .. } in parts {
        working.given(symbol, power.sqrt(), Unit::Volt);
    }
    let total = working.step("total", "U_N", "sqrt(U_S^2 + U_T^2 + U_B^2 + U_K^2 + U_D^2)", Unit::Volt)?;
    let noise = working.dbu("noise", "a_N", "U_N")?;
    working.given("U_A", weighted.sqrt(), Unit::Volt);
    let noise_a = working.dbu("noise_a", "a_A", "U_A")?;
    Ok(Floor { parts, total, noise, noise_a })
}

/// The part that makes most of the noise, and its share of it to a
/// whole percent; all of it only where there is no other.
pub(super) fn loudest(parts: &[Share; 5]) -> (&'static str, f64) {
    let loudest = parts.iter().fold(parts[0], |most, part| if part.power > most.power { *part } else { most });
    let share = loudest.power / parts.iter().map(|part| part.power).sum::<f64>();
    let at_most = if share < 1.0 { 0.99 } else { 1.0 };
    (loudest.part, f64::min((100.0 * share).round() / 100.0, at_most))
}

/// What an e.m.f. in V becomes at the console's input: the gain to there, dB, and
/// the level, dBu, which is `a_S` in the scope.
pub(super) fn arriving(working: &mut Working, chain: &Chain, emf: f64) -> Result<[f64; 2], Fault> {
    working.given("E", emf, Unit::Volt);
    working.given("H", chain.transfer(MIDBAND).norm(), Unit::One);
    let gain = working.step("gain", "g", "20*log10(H)", Unit::Decibel)?;
    let signal = working.step("signal", "a_S", "20*log10(E/U_0) + g", Unit::DecibelU)?;
    Ok([gain, signal])
}

/// How far the signal of [`arriving`] is from the noise that [`floor`] left, and from
/// it A-weighted, dB.
pub(super) fn distances(working: &mut Working) -> Result<[f64; 2], Fault> {
    let snr = working.step("snr", "S", "a_S - a_N", Unit::Decibel)?;
    let snr_a = working.step("snr_a", "S_A", "a_S - a_A", Unit::Decibel)?;
    Ok([snr, snr_a])
}

/// The working of the density at 1 kHz, V/√Hz.
fn at_midband(working: &mut Working, chain: &Chain, temperature: f64) -> Result<f64, Fault> {
    working.given("T", temperature, Unit::Kelvin);
    match &chain.active {
        None => input(working, "console", &chain.first, &chain.console, "0"),
        Some((active, second)) => {
            working.given("e_B", active.input.e_n, Unit::VoltPerRootHertz);
            working.given("i_B", active.input.i_n, Unit::AmperePerRootHertz);
            input(working, "box", &chain.first, &active.input, "0")?;
            working.given("g_B", decibels_of_transfer(active.gain.into()), Unit::Decibel);
            working.step("gain-factor", "G_B", "10^(g_B/20)", Unit::One)?;
            working.given("H_2", second.transfer(MIDBAND).norm(), Unit::One);
            working.step("arriving", "e_2", "G_B*H_2*e_1", Unit::VoltPerRootHertz)?;
            input(working, "console", second, &chain.console, "e_2")
        }
    }
}

/// The density at 1 kHz at an input: what arrives there through an amplifier,
/// the thermal noise of the passive network in front of it, and its own.
fn input(working: &mut Working, at: &str, path: &Path, input: &Input, arriving: &str) -> Result<f64, Fault> {
    let (e, i) = if at == "box" { ("e_B", "i_B") } else { ("e_K", "i_K") };
    working.given("Z_q", path.output_impedance(MIDBAND), Unit::Ohm);
    working.given("Z_e", path.load.impedance(MIDBAND), Unit::Ohm);
    working.step_with(&format!("node-{at}"), &[], "Z_k", "Z_q*Z_e/(Z_q + Z_e)", Unit::Ohm)?;
    working.step(
        &format!("thermal-{at}"),
        "e_t",
        "sqrt(4*k_B*T*re(Z_q))*abs(Z_e/(Z_q + Z_e))",
        Unit::VoltPerRootHertz,
    )?;
    let mut sum = format!("e_t^2 + {e}^2 + ({i}*abs(Z_k))^2");
    if at == "console" {
        sum.push_str(" + e_O^2 + e_D^2");
    }
    if arriving != "0" {
        sum = format!("{arriving}^2 + {sum}");
    }
    if input.thermal {
        working.given("R_e", input.r, Unit::Ohm);
        sum.push_str(" + 4*k_B*T/R_e*abs(Z_k)^2");
    }
    working.step(&format!("density-{at}"), "e_1", &format!("sqrt({sum})"), Unit::VoltPerRootHertz)
}

/// The density of each cause and of their sum over the audio band.
fn spectrum(sheet: &mut Sheet, chain: &Chain, temperature: f64, noise: f64, loudest: &str) {
    if !sheet.wants_plots() {
        return;
    }
    let x = log_sweep_with(&AUDIO_BAND, 121, &[MIDBAND]);
    let densities: Vec<_> = x.iter().flat_map(|f| chain.noise(&[*f], temperature).by_cause()).collect();
    let sum: Vec<f64> = densities.iter().map(|noise| noise.sum().sqrt()).collect();
    let causes: Vec<_> = densities.iter().map(by_word).collect();
    let highest = sum.iter().copied().fold(0.0, f64::max);
    // Three decades show all that adds a thousandth of the noise or more.
    let to = 10_f64.powf(highest.log10().ceil());
    let mut traces = vec![sheet.trace("sum", false, x.clone(), sum)];
    for (i, (id, _)) in causes.first().into_iter().flatten().enumerate() {
        let y: Vec<_> = causes.iter().map(|causes| causes[i].1.sqrt()).collect();
        if y.iter().any(|y| *y > to * 1e-3) {
            traces.push(sheet.trace(id, true, x.clone(), y));
        }
    }
    let summary = [("noise", Arg::Quantity(noise, Unit::DecibelU)), ("part", Arg::Key(loudest.to_owned()))];
    let plot = sheet.level_plot("spectrum", &summary, "axis-density", Unit::VoltPerRootHertz, traces);
    (plot.y.log, plot.y.from, plot.y.to) = (true, to * 1e-3, to);
}
