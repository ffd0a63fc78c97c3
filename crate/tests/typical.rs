//! The catalogue of typical values, number by number, against what the trade
//! takes for usual. Common practice, no source, where no other is named; a
//! standard is named where a value is one of its own (from memory).
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::{ask, within};
use serde_json::json;
use stageohm::answer::look_up;
use stageohm::catalogue::Mark;
use stageohm::catalogue::phantom::{FEED_MATCH, P12, P24, P48};
use stageohm::catalogue::typical;
use stageohm::look_up::LookUpEntry;
use stageohm::settings::Settings;

/// −10 dBV and +4 dBu (IEC 60027-3): 10^(−10/20) V and √0.6 V·10^(4/20).
const MINUS_10_DBV: f64 = 0.316_228;
const PLUS_4_DBU: f64 = 1.227_653;

/// A value and the range in which such values lie.
type Usual = (f64, Option<(f64, f64)>);

const fn one(value: f64) -> Usual {
    (value, None)
}

const fn from_to(value: f64, from: f64, to: f64) -> Usual {
    (value, Some((from, to)))
}

#[track_caller]
fn are(what: &str, marks: &[Mark], expected: &[Usual]) {
    assert_eq!(marks.len(), expected.len(), "{what}");
    let near = |got: f64, expected: f64| within(what, got, expected, 1e-5 * expected.abs());
    for (mark, (value, range)) in marks.iter().zip(expected) {
        near(mark.value, *value);
        assert_eq!(mark.range.is_some(), range.is_some(), "{what}: {}", mark.name);
        if let (Some(got), Some(range)) = (mark.range, *range) {
            near(got.0, range.0);
            near(got.1, range.1);
        }
    }
}

/// An active box of 2 × 50 to 2 × 150 Ω; a dynamic microphone of 200 Ω rated (IEC
/// 61938), 150 to 600 Ω; a line output of 600 Ω; keyboards; coils. A leg has half
/// of its output.
#[test]
fn sources() {
    are(
        "source",
        typical::SOURCE_RESISTANCE,
        &[
            from_to(200.0, 100.0, 300.0),
            from_to(200.0, 150.0, 600.0),
            one(600.0),
            from_to(1e3, 50.0, 10e3),
            from_to(10e3, 5e3, 15e3),
        ],
    );
    are("leg", typical::LEG_R, &[one(100.0), from_to(100.0, 50.0, 150.0), one(300.0)]);
    are("microphone", typical::MICROPHONE_R, &[one(150.0), one(200.0), one(600.0)]);
    are("piezo", typical::PIEZO_C, &[one(0.5e-9), from_to(1e-9, 0.3e-9, 5e-9), one(3e-9)]);
}

/// A microphone input of 1 to 2.4 kΩ (IEC 61938: no less than 1 kΩ), a line input
/// of 10 to 20 kΩ, a passive and an active box. To earth each leg of a simple
/// input has 5 to 20 kΩ, or the feed resistor of P48 (IEC 61938).
#[test]
fn inputs() {
    are(
        "load",
        typical::LOAD_RESISTANCE,
        &[from_to(1.5e3, 1e3, 2.4e3), from_to(10e3, 10e3, 20e3), one(180e3), one(1e6)],
    );
    are("common mode", typical::COMMON_MODE_R, &[one(6.8e3), from_to(10e3, 5e3, 20e3), one(20e3), one(10e6)]);
    assert_eq!((typical::LINE_INPUT_GAIN, typical::LINE_INPUT_R), (20.0, 10e3));
}

/// Single coils of 2 to 4 H and 5 to 8 kΩ, two coils of 4 to 8 H and 7 to 15 kΩ,
/// bass coils of 2 to 10 H; tracks of 250, 500 and 1000 kΩ, capacitors of 10, 22
/// and 47 nF.
#[test]
fn pickups() {
    are("coil", typical::COIL_L, &[from_to(2.5, 2.0, 4.0), from_to(5.0, 4.0, 8.0), from_to(5.0, 3.5, 6.0)]);
    are("coil", typical::COIL_R, &[from_to(6.5e3, 5e3, 8e3), from_to(8.5e3, 7e3, 15e3), one(9e3)]);
    are("track", typical::TRACK, &[one(250e3), one(500e3), one(1e6)]);
    are("tone", typical::TONE_C, &[one(10e-9), one(22e-9), one(47e-9)]);
}

/// Instrument leads of 60 to 160 pF/m, microphone pairs of 45 to 110 pF/m between
/// the cores; 5 m unbalanced, 600 m balanced.
#[test]
fn leads() {
    are("lead", typical::LEAD_C, &[one(60e-12), one(100e-12), one(160e-12)]);
    are("pair", typical::CORE_C, &[one(45e-12), one(110e-12)]);
    assert_eq!((typical::INSTRUMENT_LEAD, typical::BALANCED_LINE), (5.0, 600.0));
}

/// A guitar of 0.1 to 0.3 V, a piezo element of 0.1 to 0.5 V, keyboards from
/// −10 dBV to +4 dBu, a hot pickup of 0.5 V, an active bass of 0.5 to 1 V, a
/// laptop of 0.1 to 0.3 V while playing, a line of +4 dBu. A dynamic microphone of 2 mV/Pa: speech at
/// 94 dB SPL, which is 1 Pa (IEC 60268-4), and 20 dB over it.
#[test]
fn levels() {
    within("−10 dBV", typical::MINUS_10_DBV, 0.1_f64.sqrt(), 1e-15);
    within("+4 dBu", typical::PLUS_4_DBU, 0.6_f64.sqrt() * 10_f64.powf(0.2), 1e-14);
    are(
        "level",
        typical::SOURCE_LEVEL,
        &[
            from_to(0.2, 0.1, 0.3),
            from_to(0.3, 0.1, 0.5),
            from_to(MINUS_10_DBV, MINUS_10_DBV, PLUS_4_DBU),
            one(0.5),
            from_to(0.7, 0.5, 1.0),
            from_to(0.25, 0.1, 0.3),
            one(PLUS_4_DBU),
        ],
    );
    are("line", typical::LINE_LEVEL, &[one(MINUS_10_DBV), one(PLUS_4_DBU)]);
    are("microphone", typical::MICROPHONE_LEVEL, &[one(2e-3), one(20e-3)]);
}

/// A sine has √2, which is 3.0103 dB; keyboards 10 to 14 dB, plucked strings 12
/// to 20 dB.
#[test]
fn crest_factors() {
    are("crest", typical::CREST, &[one(3.010_3), from_to(12.0, 10.0, 14.0), from_to(15.0, 12.0, 20.0)]);
    within("sine", typical::CREST[0].value, 10.0 * 2_f64.log10(), 1e-14);
}

/// Amplifiers of 5 to 15 nV/√Hz behind instrument inputs, microphone inputs of
/// −129 to −125 dBu with 150 Ω.
#[test]
fn noise() {
    are("voltage", typical::NOISE_VOLTAGE, &[one(5e-9), one(10e-9), one(15e-9)]);
    are("input", typical::INPUT_NOISE, &[one(-129.0), one(-128.0), one(-125.0)]);
}

/// Boxes at unity or −20 dB, pads of 20 and 40 dB; isolators of 1 : 1, boxes of
/// 10 and 12 : 1, with 100 pF between the windings, or 2 pF with a screen.
#[test]
fn boxes() {
    are("gain", typical::BOX_GAIN, &[one(0.0), one(-20.0)]);
    are("pad", typical::PAD_LOSS, &[one(0.0), one(20.0), one(40.0)]);
    are("turns", typical::TURNS, &[one(1.0), one(10.0), one(12.0)]);
    are("winding", typical::WINDING_C, &[one(2e-12), one(100e-12)]);
}

/// 10 mV to 1 V between earths of a venue; switching supplies leak 0.1 to 0.25 mA
/// through their interference capacitors.
#[test]
fn mains() {
    are("earths", typical::EARTH_DIFFERENCE, &[one(10e-3), one(100e-3), one(1.0)]);
    are("leakage", typical::LEAKAGE, &[one(0.1e-3), one(0.25e-3)]);
}

/// IEC 61938: P48 48 V ± 4 through 6.8 kΩ, 10 mA at most; P24 24 V ± 4 through
/// 1.2 kΩ, 10 mA; P12 12 V ± 1 through 680 Ω, 15 mA; a pair of resistors within
/// 0.4 %. What devices draw is common practice: 2 to 7 mA.
#[test]
fn phantom() {
    for (supply, volts, tolerance, feed_r, most) in
        [(P48, 48.0, 4.0, 6.8e3, 10e-3), (P24, 24.0, 4.0, 1.2e3, 10e-3), (P12, 12.0, 1.0, 680.0, 15e-3)]
    {
        assert_eq!((supply.volts, supply.tolerance, supply.feed_r, supply.most), (volts, tolerance, feed_r, most));
    }
    assert_eq!(FEED_MATCH, 0.004);
    are("current", typical::PHANTOM_CURRENT, &[one(2e-3), one(4e-3), one(7e-3)]);
}

/// EBU R 68 puts 0 dBu (ITU-R BS.645) at −18 dBFS; SMPTE RP 155 puts −20 dBFS at
/// the alignment level, which is +4 dBu by common practice.
#[test]
fn alignment() {
    assert_eq!(typical::alignment("r68"), (0.0, -18.0));
    assert_eq!(typical::alignment("rp155"), (4.0, -20.0));
}

/// What the calculators begin with: a guitar with its controls full up on 5 m of
/// lead, a passive box of 12 : 1, an active box, a microphone input, two earths
/// of one venue.
#[test]
fn rigs_to_begin_with() {
    let begins = |calculator: &str, box_: &str, expected: &[(&str, f64)]| {
        let answer = ask(json!({ "calculator": calculator, "values": { "box": box_ } }));
        for (field, value) in expected {
            let got = answer.fields.get(field).unwrap_or_else(|| panic!("{calculator} has no {field}")).value.unwrap();
            within(field, got, *value, 1e-9 * value.abs());
        }
    };
    begins("noise-floor", "active", &[("emf", 0.2), ("coil_l", 2.5), ("coil_r", 6.5e3), ("coil_c", 110e-12)]);
    begins("noise-floor", "active", &[("volume_r", 250e3), ("tone_r", 250e3), ("tone_c", 22e-9)]);
    begins("noise-floor", "active", &[("lead_length", 5.0), ("lead_c", 100e-12), ("lead_r", 0.1), ("lead_l", 0.6e-6)]);
    begins("noise-floor", "active", &[("box_r", 1e6), ("box_c", 50e-12), ("box_gain", 0.0), ("box_leg", 100.0)]);
    begins("noise-floor", "active", &[("box_en", 10e-9), ("box_in", 0.1e-12), ("console_r", 1.5e3), ("ein", -128.0)]);
    begins("noise-floor", "passive", &[("ratio", 12.0), ("r1", 2e3), ("r2", 15.0), ("magnetising", 400.0)]);
    begins("noise-floor", "passive", &[("core_loss", 1e6), ("leakage", 60e-3), ("c1", 150e-12)]);
    begins("whole-line", "passive", &[("winding_c", 100e-12), ("largest", 20.0), ("console_most", 10.0)]);
    begins("whole-line", "active", &[("emf", 0.2), ("crest", 15.0), ("box_clip", 8.0), ("current", 4e-3)]);
    begins("whole-line", "active", &[("difference", 0.1), ("earth_r", 0.5), ("shield_r", 0.02), ("contact_r", 0.01)]);
    // What a line is asked to keep, and where hum is heard: these judge.
    let kept = [("loss_most", 3.0), ("snr_least", 60.0), ("hum_least", 60.0), ("headroom", 6.0)];
    for calculator in ["whole-line", "box-or-straight"] {
        begins(calculator, "active", &kept);
    }
    begins(
        "noise-floor",
        "active",
        &[("output_noise", -100.0), ("range", 110.0), ("gain_clip", 24.0), ("crest", 15.0)],
    );
    begins("noise-floor", "active", &[("snr_least", 60.0), ("band_from", 20.0), ("band_to", 20e3)]);
    begins("level-chain", "active", &[("headroom", 6.0), ("distance", 60.0), ("range", 110.0)]);
    let ground_loop = [("loudness", 95.0), ("room", 40.0), ("screened_c", 2e-12), ("rejection", 60.0)];
    for (field, value) in ground_loop {
        let asked = json!({ "calculator": "ground-loop", "values": {} });
        within(field, ask(asked).fields.get(field).unwrap().value.unwrap(), value, 1e-9 * value);
    }
    for (order, level) in [(2, -40.0), (3, -6.0), (5, -12.0), (7, -18.0), (9, -24.0), (11, -30.0)] {
        begins("whole-line", "active", &[(&format!("harmonic_{order}"), level)]);
    }
    begins("lead-length", "", &[("resonance_least", 3e3), ("limit", 1.0)]);
    begins("source-load", "", &[("limit", 0.5), ("frequency", 1e3)]);
    begins("whole-line", "active", &[("imbalance", 10.0), ("input_r", 10e3), ("leakage_current", 0.25e-3)]);
}

fn entry(id: &str) -> LookUpEntry {
    look_up(&Settings::default()).into_iter().find(|entry| entry.id == id).unwrap()
}

/// The numbers in the glossary, each by its definition: half of the power is
/// 3.01 dB, half of the voltage 6.02 dB, 1 V is 2.22 dBu, 12 : 1 is −21.58 dB and
/// puts 144 times a load in its place; 4k7 by IEC 60062.
#[test]
fn numbers_of_the_glossary() {
    for (id, numbers) in [
        ("term-corner", &["3.0 dB"][..]),
        ("term-crest-factor", &["3.0 dB"]),
        ("term-dbu", &["775 mV", "1.23 V"]),
        ("term-dbv", &["1 V", "316 mV", "2.2 dB"]),
        ("term-impedance-balanced", &["6.0 dB"]),
        ("term-turns-ratio", &["12:1", "−21.6 dB", "1 kΩ", "144 kΩ"]),
        ("term-value-code", &["4.7 kΩ", "2.2 Ω", "2.2 nF"]),
        ("adaptor-jack-xlr", &["48 V", "7.06 mA"]),
        ("adaptor-two-outputs", &["6.0 dB", "1 kΩ", "2 kΩ"]),
        ("adaptor-stereo-mono", &["6.0 dB", "1 kΩ", "2 kΩ"]),
    ] {
        let entry = entry(id);
        let text = [entry.text, entry.warnings].concat().join(" ").replace('\u{a0}', " ");
        for number in numbers {
            assert!(text.contains(number), "{id}: no {number} in “{text}”");
        }
    }
}

/// The links of the glossary begin with the numbers of their entries: 0 dBm,
/// +4 dBu, −10 dBV, a loudspeaker output 40 dB down, a keyboard of 1 kΩ, a passive
/// box, and two of 1 kΩ side by side.
#[test]
fn links_of_the_glossary() {
    for (id, field, text) in [
        ("term-dbm", "level", "0 dBm"),
        ("term-dbu", "level", "4 dBu"),
        ("term-dbv", "level", "−10 dBV"),
        ("term-loudspeaker-level", "loss", "40 dB"),
        ("value-input", "source_r", "1 kΩ"),
        ("value-input", "load_r", "180 kΩ"),
        ("adaptor-two-outputs", "source_r", "500 Ω"),
        ("adaptor-stereo-mono", "source_r", "500 Ω"),
    ] {
        let links = entry(id).links;
        let mut values = links.iter().flat_map(|link| &link.values);
        let found = values.find(|(name, _)| *name == field).map(|(_, text)| text.replace('\u{a0}', " "));
        assert_eq!(found.as_deref(), Some(text), "{id}");
    }
}

/// The rows of the tables of levels: round ones, and the two lines and 1 V.
#[test]
fn rows_of_the_tables() {
    let rows =
        |id: &str| -> Vec<f64> { entry(id).table.unwrap().rows.iter().map(|row| row[0].value.unwrap()).collect() };
    assert_eq!(
        rows("decibel-ratio"),
        [
            0.0, 0.1, 0.5, 1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0, 15.0, 18.0, 20.0, 24.0, 26.0,
            30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 120.0
        ]
    );
    let levels = [
        -128.0,
        -60.0,
        -50.0,
        -40.0,
        -30.0,
        -20.0,
        -10.0,
        10.0 * (0.1_f64 / 0.6).log10(),
        -6.0,
        0.0,
        10.0 * (1.0_f64 / 0.6).log10(),
        4.0,
        6.0,
        8.0,
        10.0,
        12.0,
        15.0,
        18.0,
        20.0,
        22.0,
        24.0,
        28.0,
    ];
    for (got, expected) in rows("level-units").iter().zip(levels) {
        within("level", *got, expected, 1e-12);
    }
}
