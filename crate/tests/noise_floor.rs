//! Noise floor against closed forms and values computed outside the project.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::{object, reading, within};
use stageohm::answer::Answer;
use stageohm::report::{Report, Tone, Verdict};

fn ask(values: &[(&str, &str)]) -> Answer {
    common::ask(serde_json::json!({ "calculator": "noise-floor", "values": object(values) }))
}

#[track_caller]
fn report(values: &[(&str, &str)]) -> Report {
    common::report("noise-floor", object(values))
}

#[track_caller]
fn check(report: &Report, id: &str, expected: f64, tolerance: f64) {
    within(id, reading(report, id), expected, tolerance);
}

/// Nothing behind the console's input makes noise.
const AT_THE_INPUT: [(&str, &str); 2] = [("range", ""), ("output_noise", "")];

/// A resistor on a console that neither loads nor makes noise.
const ALONE: &[(&str, &str)] = &[
    AT_THE_INPUT[0],
    AT_THE_INPUT[1],
    ("source", "output"),
    ("box", "none"),
    ("lead_length", "0"),
    ("console_r", "1e12"),
    ("console_c", "0"),
    ("console_noise", "densities"),
    ("console_en", "0"),
    ("console_in", "0"),
];

fn alone(more: &[(&'static str, &'static str)]) -> Report {
    report(&[ALONE, more].concat())
}

/// Johnson-Nyquist over exactly 20 000 Hz, computed: 4kTR·B in dBu.
#[test]
fn johnson_nyquist() {
    let band = [("band_from", "20"), ("band_to", "20020")];
    let cold = alone(&[&band[..], &[("source_r", "150"), ("temperature", "20")]].concat());
    check(&cold, "noise", -130.918, 1e-3);
    let warm = alone(&[&band[..], &[("source_r", "200"), ("temperature", "26.85")]].concat());
    check(&warm, "noise", -129.568, 1e-3);
    // All of it is the source's own.
    check(&warm, "added", 0.0, 1e-9);
}

/// The pickup rig into 1 MΩ, load thermal, 300.15 K: −109.81 dBu from a general
/// circuit simulator.
#[test]
fn pickup_rig() {
    let rig = report(&[
        AT_THE_INPUT[0],
        AT_THE_INPUT[1],
        ("source", "pickup"),
        ("box", "none"),
        ("lead_r", "0"),
        ("lead_l", "0"),
        ("console_r", "1M"),
        ("console_c", "0"),
        ("console_noise", "densities"),
        ("console_en", "0"),
        ("console_in", "0"),
        ("input_noise", "resistor"),
        ("temperature", "27"),
    ]);
    check(&rig, "noise", -109.81, 0.005);
}

/// kT/C: the noise of a resistor on a capacitor, over a band that leaves
/// 0.05 % of it out: kT/C·(2/π)·(atan(2π·f₂·RC) − atan(2π·f₁·RC)), computed.
#[test]
fn resistor_on_a_capacitor() {
    let rc = alone(&[("source_r", "1M"), ("console_c", "1000"), ("band_from", "0.1"), ("band_to", "1M")]);
    check(&rc, "noise", -111.711_958, 1e-5);
}

/// A piezo of 1 nF hears the thermal noise of the 1 MΩ behind it: the same
/// closed form over 20 Hz to 20 kHz, computed. Without that noise it is silent.
#[test]
fn piezo() {
    let piezo = [("source", "piezo"), ("console_r", "1M")];
    check(&alone(&[&piezo[..], &[("input_noise", "resistor")]].concat()), "noise", -112.093_903, 1e-5);
    let silent = alone(&piezo);
    assert_eq!(silent.reading("noise").unwrap().value, None);
    assert_eq!(silent.warnings.len(), 1);
}

/// The EIN of a noiseless amplifier with 150 Ω is that of the resistor:
/// −130.9 dBu (Johnson-Nyquist over 19 980 Hz at 293.15 K, computed).
#[test]
fn noiseless_amplifier() {
    check(&alone(&[]), "console_ein", -130.922_313, 1e-5);
    // And an EIN, the e.m.f. behind 150 Ω that makes the noise, turned into a noise
    // voltage behind the divider with 1.5 kΩ (computed) turns back.
    let stated = report(&[("console_in", "1 pA"), ("ein", "-128")]);
    check(&stated, "console_density", 1.381_254_517_3e-9, 1e-17);
    check(&stated, "console_ein", -128.0, 1e-9);
    // No resistor is quieter than itself.
    let answer = ask(&[("ein", "-131.5"), ("console_in", "0")]);
    assert!(answer.report.is_none());
    assert!(answer.fields.get("ein").unwrap().problem.as_ref().unwrap().message.contains("−130.9\u{a0}dBu"));
}

/// White noise from 20 Hz to 20 kHz, A-weighted: −2.048 dB, computed by a
/// midpoint sum of 200 000 terms over the formula of IEC 61672-1, whose pole
/// frequencies are from memory.
#[test]
fn white_noise_weighted() {
    let white = alone(&[("source_r", "1k")]);
    let difference = white.reading("noise_a").unwrap().value.unwrap() - white.reading("noise").unwrap().value.unwrap();
    assert!((difference + 2.048_27).abs() < 1e-4, "{difference}");
}

/// 10 kΩ into an active box of 1 MΩ, 10 nV/√Hz, 0.1 pA/√Hz, −20 dB, 2 × 100 Ω,
/// into 1.5 kΩ with an EIN of −128 dBu and 1 pA/√Hz: each term by hand.
#[test]
fn active_box() {
    let chain = report(&[
        AT_THE_INPUT[0],
        AT_THE_INPUT[1],
        ("source", "output"),
        ("source_r", "10k"),
        ("emf", "0.2"),
        ("lead_length", "0"),
        ("box_c", "0"),
        ("box_gain", "-20"),
        ("console_c", "0"),
    ]);
    check(&chain, "of_source", -133.856_807, 1e-5);
    check(&chain, "of_box", -129.581_172, 1e-5);
    check(&chain, "of_console", -131.899_766, 1e-5);
    check(&chain, "noise", -126.658_715, 1e-5);
    check(&chain, "density", 2.545_904_863e-9, 1e-16);
    check(&chain, "signal", -32.934_493, 1e-5);
    check(&chain, "snr", 93.724_222, 1e-5);
    assert!(chain.headline[0].verdict.as_ref().unwrap().text.contains("active DI"));
}

/// An ideal 10:1 transformer makes 100 Ω of 10 kΩ, and a core loss of 10 kΩ
/// halves that and shares its noise: 4kT·50 Ω through 1500/1550, computed.
#[test]
fn passive_box() {
    let chain = report(&[
        AT_THE_INPUT[0],
        AT_THE_INPUT[1],
        ("source", "output"),
        ("source_r", "10k"),
        ("lead_length", "0"),
        ("box", "passive"),
        ("ratio", "10"),
        ("r1", "0"),
        ("r2", "0"),
        ("magnetising", ""),
        ("core_loss", "10k"),
        ("leakage", "0"),
        ("c1", "0"),
        ("console_r", "1.5k"),
        ("console_c", "0"),
        ("console_noise", "densities"),
        ("console_en", "0"),
        ("console_in", "0"),
    ]);
    check(&chain, "noise", -135.978_335, 1e-5);
    check(&chain, "of_source", -138.988_635, 1e-5);
    check(&chain, "of_transformer", -138.988_635, 1e-5);
}

/// The density of the working at 1 kHz and the spectrum's are two ways to one number.
#[test]
fn working_and_spectrum_agree() {
    for values in [
        &[("input_noise", "resistor")][..],
        &[("box", "passive")],
        &[("box", "none"), ("console_r", "10k"), ("console_noise", "densities"), ("input_noise", "resistor")],
        &[("source", "piezo")],
    ] {
        let report = report(values);
        let sum = &report.plots[0].traces[0];
        let at = sum.x.iter().position(|f| *f == 1000.0).unwrap();
        let stated = report.reading("density").unwrap().value.unwrap();
        assert!((sum.y[at] / stated - 1.0).abs() < 1e-9, "{} {stated}", sum.y[at]);
    }
}

#[test]
fn fields_wait_on_the_choice_of_their_part() {
    let active = |values: &[(&str, &str)], id: &str| ask(values).fields.get(id).unwrap().active;
    assert!(active(&[("source", "pickup")], "volume_r"));
    assert!(!active(&[("source", "pickup"), ("volume", "none")], "volume_r"));
    assert!(!active(&[("source", "output")], "volume"));
    assert!(!active(&[("source", "output")], "volume_r"));
}

#[test]
fn a_band_turned_round_is_explained() {
    for (from, to) in [("5k", "1k"), ("1k", "1k")] {
        let answer = ask(&[("band_from", from), ("band_to", to)]);
        assert!(answer.report.is_none());
        assert!(answer.fields.get("band_to").unwrap().problem.is_some());
    }
}

#[track_caller]
fn verdict(report: &Report, id: &str) -> Verdict {
    report.reading(id).unwrap().verdict.clone().unwrap()
}

/// The source's own noise is what nobody can take away, and all else is to be watched.
/// A resistor of 1 kΩ makes 4.02 nV/√Hz (4·k·T·R at 293.15 K): 0.2 nV beside it are
/// 0.25 % of the power, which is not yet all of it, and 20 nV are 96 %.
#[test]
fn who_makes_most_of_it() {
    for (console_en, tone, share) in
        [("0", Tone::Fine, "100"), ("0.2 nV", Tone::Fine, "99"), ("20 nV", Tone::Watch, "96")]
    {
        let words = verdict(&alone(&[("source_r", "1k"), ("console_en", console_en)]), "noise");
        assert_eq!(words.tone, tone, "{console_en}");
        assert!(words.text.starts_with(&format!("{share}\u{a0}%")), "{}", words.text);
        assert_eq!(words.text.contains("the console:"), tone == Tone::Watch, "{}", words.text);
    }
    // A piezo and what is behind it without noise: nobody makes any.
    let silent = alone(&[("source", "piezo"), ("console_r", "1M")]);
    assert!(silent.reading("noise").unwrap().verdict.is_none());
    assert_eq!(silent.reading("added").unwrap().value, None);
    assert!(silent.plots.is_empty());
}

/// 1 kΩ makes 568.7 nV over 19 980 Hz: 60 dB over that are 568.7 µV.
#[test]
fn what_is_quiet_enough() {
    for (emf, tone) in [("569 µV", Tone::Fine), ("568 µV", Tone::Trouble)] {
        let report = alone(&[("source_r", "1k"), ("emf", emf)]);
        within(emf, reading(&report, "snr"), 60.0, 0.02);
        assert_eq!(verdict(&report, "snr").tone, tone, "{emf}");
    }
}

/// An EIN that is stated with 150 Ω says little from ten times as much on (common
/// practice, no source); densities say it anywhere, and so does a box in front. A piezo
/// hears the resistance behind it, unless that is counted.
#[test]
fn what_to_take_with_care() {
    let warnings = |more: &[(&'static str, &'static str)]| {
        report(&[&[("source", "output"), ("box", "none"), ("lead_length", "0")][..], more].concat()).warnings
    };
    assert_eq!(warnings(&[("source_r", "1.49k")]), [""; 0]);
    let told = warnings(&[("source_r", "1.51k")]);
    assert!(told.len() == 1 && told[0].contains("150\u{a0}Ω") && told[0].contains("1.51\u{a0}kΩ"), "{told:?}");
    assert_eq!(warnings(&[("source_r", "1.51k"), ("ein_r", "200")]), [""; 0]);
    assert_eq!(warnings(&[("source_r", "1.51k"), ("console_noise", "densities")]), [""; 0]);
    assert_eq!(warnings(&[("source_r", "1.51k"), ("box", "active")]), [""; 0]);
    let piezo = [("source", "piezo"), ("box", "active")];
    let told = warnings(&piezo);
    assert!(told.len() == 1 && told[0].contains("piezo"), "{told:?}");
    assert_eq!(warnings(&[&piezo[..], &[("input_noise", "resistor")]].concat()), [""; 0]);
}

/// The density of 1 kΩ is 4.023 nV/√Hz at every frequency; three decades under 10 nV
/// are shown, and what is under them is left out.
#[test]
fn spectrum() {
    for (console_en, drawn) in
        [("0.005 nV", &["sum", "cause-source"][..]), ("0.02 nV", &["sum", "cause-source", "cause-console-voltage"])]
    {
        let report = alone(&[("source_r", "1k"), ("console_en", console_en)]);
        let plot = &report.plots[0];
        within("to", plot.y.to, 1e-8, 1e-20);
        within("from", plot.y.from, 1e-11, 1e-23);
        assert!(plot.y.log);
        let traces: Vec<_> = plot.traces.iter().map(|trace| trace.id).collect();
        assert_eq!(traces, drawn, "{console_en}");
        for trace in &plot.traces[..2] {
            assert_eq!((trace.x[0], *trace.x.last().unwrap()), (20.0, 20e3));
            for y in &trace.y {
                within(trace.id, *y, 4.0236e-9, 1e-12);
            }
        }
    }
}

/// The same line level by level: 0.2 V are −11.761 dBu (re 0.7746 V), and 17 dB of gain
/// are 17 dB.
#[test]
fn levels_of_the_same_line() {
    let here = alone(&[("source_r", "1k"), ("emf", "0.2"), ("console_gain", "17")]);
    let link = here.links.iter().find(|link| link.calculator == "level-chain").unwrap();
    let values: Vec<_> = link.values.iter().map(|(id, text)| (*id, text.as_str())).collect();
    let there = common::report("level-chain", object(&values));
    check(&there, "level_console_input", -11.760_913, 1e-5);
    check(&there, "level_converter", 17.0 - 11.760_913, 1e-5);
}
