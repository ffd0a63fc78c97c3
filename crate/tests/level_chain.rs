//! Level chain against chains computed by hand.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::{object, reading, within};
use stageohm::answer::Answer;
use stageohm::report::Report;

fn ask(values: &[(&str, &str)]) -> Answer {
    common::ask(serde_json::json!({ "calculator": "level-chain", "values": object(values) }))
}

#[track_caller]
fn report(values: &[(&str, &str)]) -> Report {
    common::report("level-chain", object(values))
}

#[track_caller]
fn check(report: &Report, id: &str, expected: f64, tolerance: f64) {
    within(id, reading(report, id), expected, tolerance);
}

/// A source without resistance straight into a converter.
const STRAIGHT: &[(&str, &str)] = &[
    ("source_r", "0"),
    ("lead_length", "0"),
    ("box", "none"),
    ("console_r", "1M"),
    ("console_c", "0"),
    ("console_most", "+30"),
    ("gain_clip", "+30"),
    ("gain", "0"),
];

/// +4 dBu with a crest factor of 12 dB: a sine with the same peak has
/// 4 + 12 − 3.0103 = +12.9897 dBu. EBU R 68 with 0 dBu: full scale +18 dBu, so
/// −14 dBFS and 5.0103 dB of margin; SMPTE RP 155 with +4 dBu: +24 dBu, −20 dBFS
/// and 11.0103 dB.
#[test]
fn alignment() {
    let line = [STRAIGHT, &[("emf", "+4 dBu"), ("crest", "12")]].concat();
    let r68 = report(&[&line[..], &[("alignment", "r68")]].concat());
    check(&r68, "level_converter", 4.0, 1e-9);
    check(&r68, "peak_converter", 12.9897, 1e-4);
    check(&r68, "dbfs", -14.0, 1e-9);
    check(&r68, "margin", 5.0103, 1e-4);
    assert!(r68.headline[0].verdict.as_ref().unwrap().text.contains("converter"));
    let rp155 = report(&[&line[..], &[("alignment", "rp155")]].concat());
    check(&rp155, "dbfs", -20.0, 1e-9);
    check(&rp155, "margin", 11.0103, 1e-4);
}

/// 0 dBu of a sine lies at −18 dBFS (EBU R 68), its peak 18 dB below full
/// scale; −10 dBV is −7.7815 dBu (IEC 60027-3, computed).
#[test]
fn sine_and_dbv() {
    let sine = report(&[STRAIGHT, &[("emf", "0 dBu"), ("crest", "3.0102999566")]].concat());
    check(&sine, "dbfs", -18.0, 1e-9);
    check(&sine, "margin", 18.0, 1e-8);
    let consumer = report(&[STRAIGHT, &[("emf", "-10 dBV")]].concat());
    check(&consumer, "level_source", -7.7815, 1e-4);
}

/// 150 Ω into 10 kΩ costs 0.12932 dB (divider, computed).
#[test]
fn loading() {
    let line = report(&[STRAIGHT, &[("emf", "0 dBu"), ("source_r", "150"), ("console_r", "10k")]].concat());
    check(&line, "level_console_input", -0.129_32, 1e-5);
}

/// An active box at −20 dB with 2 × 100 Ω into 1.5 kΩ: +6 dBu becomes −14 dBu
/// open and −15.0872 dBu loaded (1500/1700, computed). A clip level of +8 dBu
/// leaves 13.0103 dB to peaks of 12 dB crest.
#[test]
fn active_box() {
    let chain = report(
        &[
            STRAIGHT,
            &[
                ("emf", "6 dBu"),
                ("box", "active"),
                ("box_r", "1e12"),
                ("box_c", "0"),
                ("box_gain", "-20"),
                ("console_r", "1.5k"),
            ],
        ]
        .concat(),
    );
    check(&chain, "level_box_output", -14.0, 1e-9);
    check(&chain, "level_console_input", -15.0872, 1e-4);
    check(&chain, "margin_box_output", 13.0103, 1e-4);
}

/// 1 kΩ on an ideal 10:1 transformer into 1.5 kΩ: 150 kΩ reflected, so
/// 20·log10(150/151) on the primary and 20 dB less behind. Its largest level of
/// +20 dBu at 20 Hz is +26.0206 dBu at 40 Hz (flux = U/(2π·f·N)).
#[test]
fn passive_box() {
    let chain = report(&[
        ("emf", "0 dBu"),
        ("crest", "12"),
        ("source_r", "1k"),
        ("lead_length", "0"),
        ("box", "passive"),
        ("ratio", "10"),
        ("r1", "0"),
        ("r2", "0"),
        ("magnetising", ""),
        ("core_loss", ""),
        ("leakage", "0"),
        ("c1", "0"),
        ("console_c", "0"),
        ("console_r", "1.5k"),
        ("largest", "20"),
        ("lowest", "40"),
    ]);
    let primary = 20.0 * (150.0_f64 / 151.0).log10();
    check(&chain, "level_box_input", primary, 1e-9);
    check(&chain, "level_console_input", primary - 20.0, 1e-9);
    check(&chain, "margin_box_input", 26.0206 - (primary + 12.0 - 3.0103), 1e-4);
}

/// A 20 dB pad of 2 kΩ between 150 Ω and 1.5 kΩ: arms of 1800 Ω and 230.77 Ω,
/// 20 dB and 2000/2150. Its thermal noise before it and with the console's
/// (EIN −128 dBu as an e.m.f. behind 150 Ω, 1 pA/√Hz) behind it, by superposition, computed.
#[test]
fn pad() {
    let chain = report(&[
        ("emf", "0 dBu"),
        ("source_r", "150"),
        ("lead_length", "0"),
        ("box", "none"),
        ("pad", "20"),
        ("pad_r", "2k"),
        ("console_r", "1.5k"),
        ("console_c", "0"),
    ]);
    check(&chain, "level_pad_input", 20.0 * (2000.0_f64 / 2150.0).log10(), 1e-9);
    check(&chain, "level_console_input", -20.628_169, 1e-6);
    check(&chain, "noise_pad_input", -131.240_440, 1e-5);
    check(&chain, "noise_console_input", -128.221_934, 1e-5);
}

/// 1 kΩ into 1.5 kΩ with an EIN of −128 dBu, 10 dB of gain, and a converter of
/// 110 dB under +18 dBu, computed.
#[test]
fn noise() {
    let rig = [
        ("emf", "-20 dBu"),
        ("source_r", "1k"),
        ("lead_length", "0"),
        ("box", "none"),
        ("console_c", "0"),
        ("gain", "10"),
        ("range", "110"),
    ];
    let chain = report(&[&rig[..], &[("output_noise", "")]].concat());
    check(&chain, "noise_source", -122.683_226, 1e-5);
    check(&chain, "noise_console_input", -125.692_809, 1e-5);
    check(&chain, "noise_gain", -115.692_809, 1e-5);
    check(&chain, "noise_converter", -91.981_483, 1e-5);
    // 20·log10(1500/2500) = −4.436975 dB.
    check(&chain, "snr", -20.0 - 4.436_975 + 10.0 + 91.981_483, 1e-5);
    // With −95 dBu of output noise behind the gain: sums of powers, computed.
    let chain = report(&[&rig[..], &[("output_noise", "-95")]].concat());
    check(&chain, "noise_console_input", -125.692_809, 1e-5);
    check(&chain, "noise_gain", -94.963_131, 1e-5);
    check(&chain, "noise_converter", -90.223_308, 1e-5);
    // Without a converter's noise that of the gain is all.
    let chain = report(&[&rig[..4], &[("console_c", "0"), ("output_noise", "-95"), ("range", "")]].concat());
    check(&chain, "noise_converter", -94.963_131, 1e-5);
}

/// A source without resistance makes no noise, before a pad either: 1 kΩ and
/// more of the pad do not count where a short holds the node.
#[test]
fn a_source_without_resistance_is_silent() {
    let chain = report(&[STRAIGHT, &[("pad", "20")]].concat());
    assert_eq!(chain.reading("noise_pad_input").unwrap().value, None);
    assert_eq!(chain.reading("noise_pad_input").unwrap().text, "none");
    assert!(reading(&chain, "noise_console_input").is_finite());
}

/// What is advised does what it says: with the advised pad and gain the
/// console's input and the converter keep exactly the headroom.
#[test]
fn advice_holds() {
    for rig in [
        &[("box", "none"), ("source_r", "600"), ("emf", "+10 dBu"), ("gain", "0")][..],
        &[("box", "active"), ("box_clip", "30"), ("emf", "+10 dBu"), ("gain", "0")],
        &[("box", "none"), ("emf", "+10 dBu"), ("gain", "0"), ("pad", "40"), ("pad_r", "5k")],
    ] {
        let rig = [rig, &[("headroom", "9"), ("console_c", "0")]].concat();
        let before = report(&rig);
        let pad = reading(&before, "pad_for_headroom").to_string();
        let padded = [&rig[..], &[("pad", pad.as_str())]].concat();
        let after = report(&padded);
        check(&after, "margin_console_input", 9.0, 1e-9);
        let gain = reading(&after, "gain_for_headroom").to_string();
        let set = report(&[&padded[..], &[("gain", gain.as_str())]].concat());
        check(&set, "margin_converter", 9.0, 1e-9);
        check(&set, "margin", 9.0, 1e-9);
    }
    let quiet = report(&[("emf", "10 mV")]);
    assert_eq!(quiet.reading("pad_for_headroom").unwrap().value, None);
}

#[test]
fn what_clips_is_named() {
    let hot = report(&[("emf", "1 V"), ("crest", "18"), ("gain", "0"), ("console_most", "+30")]);
    let verdict = hot.headline[0].verdict.as_ref().unwrap();
    assert!(verdict.text.contains("DI output"), "{}", verdict.text);
    assert!(hot.warnings.iter().any(|warning| warning.contains("DI output") && warning.contains("source down")));
    let faint = report(&[("emf", "1 mV"), ("box", "none"), ("gain", "0")]);
    assert_eq!(faint.warnings.len(), 2, "{:?}", faint.warnings);
}

#[test]
fn the_picture_has_a_place_for_every_point() {
    let plot = &report(&[("pad", "20")]).plots[0];
    assert_eq!(plot.x.names.len(), 7);
    assert_eq!(plot.x.names[3], "before the pad");
    assert!(plot.traces.iter().all(|trace| trace.x.len() == 7 && trace.y.len() == 7));
    // Each stage that can clip has its headroom written; the tightest is the box's output.
    let [level, peak, clip] = &plot.traces[..] else { panic!("{:?}", plot.traces) };
    assert_eq!(plot.markers.len(), clip.y.iter().filter(|clip| clip.is_finite()).count());
    assert!(level.y.iter().zip(&peak.y).all(|(level, peak)| level < peak));
    let least = clip.y.iter().zip(&peak.y).map(|(clip, peak)| clip - peak).fold(f64::INFINITY, f64::min);
    let stressed: Vec<_> = plot.markers.iter().filter(|marker| marker.stressed).collect();
    assert_eq!((stressed.len(), stressed[0].x, stressed[0].y), (1, 2.0, clip.y[2]));
    assert!((stressed[0].y - peak.y[2] - least).abs() < 1e-9);
    assert!(stressed[0].text.starts_with("lowest headroom"), "{}", stressed[0].text);
}

/// Noise lies so far below the levels that beside them nothing of either is seen.
#[test]
fn noise_has_a_plot_of_its_own() {
    let report = report(&[]);
    let [levels, noise] = &report.plots[..] else { panic!("{:?}", report.plots) };
    assert!(levels.traces.iter().all(|trace| trace.id != "curve-noise"));
    let [only] = &noise.traces[..] else { panic!("{:?}", noise.traces) };
    assert_eq!(only.y.len(), noise.x.names.len());
    assert!(noise.y.to < levels.y.from, "{} {}", noise.y.to, levels.y.from);
}

#[test]
fn an_impossible_pad_is_explained() {
    let answer = ask(&[("pad", "1")]);
    assert!(answer.report.is_none());
    assert!(answer.fields.get("pad_r").unwrap().problem.as_ref().unwrap().message.contains("1.68\u{a0}kΩ"));
}

/// What clips is over by what the margin is short, to the same figure.
#[test]
fn one_number_for_one_overload() {
    for emf in ["+20 dBu", "+20.02 dBu", "+20.04 dBu", "+20.06 dBu", "+20.08 dBu"] {
        let line = report(&[STRAIGHT, &[("emf", emf), ("crest", "12"), ("alignment", "r68")]].concat());
        let margin = line.reading("margin").unwrap().text.replace('\u{2212}', "");
        assert!(line.warnings.iter().any(|warning| warning.contains(&margin)), "{margin}: {:?}", line.warnings);
    }
}
