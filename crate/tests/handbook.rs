//! The first four calculators against values from outside the project.
//!
//! "Computed" values follow from the formula named and were evaluated
//! independently of this project, in double precision.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

mod common;

use common::{ask, reading, report, within};
use serde_json::json;
use stageohm::Complex64;
use stageohm::network::{Element, Line, OnePort, Path, Response as _, features};
use std::f64::consts::TAU;

/// Definition of the levels, IEC 60027-3; values computed.
#[test]
fn levels_by_definition() {
    let zero_dbv = report("levels", json!({ "level": "0 dBV" }));
    within("0 dBV in dBu", reading(&zero_dbv, "dbu"), 2.2185, 5e-5);
    let consumer = report("levels", json!({ "level": "-10 dBV" }));
    within("-10 dBV in dBu", reading(&consumer, "dbu"), -7.7815, 5e-5);
    within("-10 dBV in V", reading(&consumer, "volts"), 0.316_23, 5e-6);
    let professional = report("levels", json!({ "level": "+4 dBu" }));
    within("+4 dBu in V", reading(&professional, "volts"), 1.227_65, 5e-6);
    within("+4 dBu of a sine, peak", reading(&professional, "volts_peak"), 1.227_65 * 2_f64.sqrt(), 1e-5);
    within("+4 dBu of a sine, peak to peak", reading(&professional, "volts_peak_to_peak"), 3.4723, 1e-4);
    let milliwatt = report("levels", json!({ "level": "0 dBm", "power_r": "600" }));
    within("0 dBm into 600 Ω in V", reading(&milliwatt, "volts"), 0.6_f64.sqrt(), 1e-12);
}

/// Definition of the levels, IEC 60027-3: the line levels of the catalogue are what they are called.
#[test]
fn line_levels() {
    use stageohm::catalogue::typical::{MINUS_10_DBV, PLUS_4_DBU};
    within("-10 dBV", MINUS_10_DBV, 10_f64.powf(-10.0 / 20.0), 1e-15);
    within("+4 dBu", PLUS_4_DBU, 0.6_f64.sqrt() * 10_f64.powf(4.0 / 20.0), 1e-14);
}

/// EBU R 68 with 0 dBu (ITU-R BS.645) puts full scale at +18 dBu; SMPTE RP 155
/// with the usual +4 dBu at +24 dBu.
#[test]
fn digital_alignment() {
    for (alignment, analogue, digital) in
        [("r68", "0 dBu", -18.0), ("rp155", "+4 dBu", -20.0), ("r68", "18 dBu", 0.0), ("rp155", "24 dBu", 0.0)]
    {
        let report = report("levels", json!({ "level": analogue, "alignment": alignment }));
        within(alignment, reading(&report, "dbfs"), digital, 1e-9);
    }
}

/// Voltage dividers, computed.
#[test]
fn dividers() {
    for (source, load, level) in [("10k", "10k", -6.0206), ("150", "10k", -0.129_32), ("10k", "1M", -0.086_43)] {
        let report = report("source-load", json!({ "source_r": source, "load_r": load }));
        within(&format!("{source} into {load}"), -reading(&report, "loss"), level, 5e-5);
    }
}

/// Maximum power transfer: a matched load takes all the power there is, at half
/// the voltage (Horowitz and Hill, The Art of Electronics).
#[test]
fn matched_load_takes_the_available_power() {
    let report = report("source-load", json!({ "source_r": "600", "load_r": "600", "emf": "1.5492" }));
    within("power re available", reading(&report, "power_loss"), 0.0, 1e-9);
    within("1.5492 V behind 600 Ω gives 1 mW", reading(&report, "power"), 1e-3, 1e-7);
    within("bridging ratio", reading(&report, "ratio"), 1.0, 1e-12);
}

/// The smallest load really loses the stated amount: 150 Ω and 0.5 dB computed
/// from R = R_S·k/(1 − k), k = 10^(−0.5/20).
#[test]
fn smallest_load() {
    let k = 10_f64.powf(-0.5 / 20.0);
    let plain = report("source-load", json!({ "source_r": "150", "limit": "0.5 dB" }));
    within("smallest load", reading(&plain, "least_load"), 150.0 * k / (1.0 - k), 1e-6);
    let reactive = json!({ "source_r": "10k", "source_l": "1 H", "source_c": "2n2", "load_c": "1n", "limit": "1 dB", "frequency": "3k" });
    let least = reading(&report("source-load", reactive.clone()), "least_load");
    let mut loaded = reactive;
    loaded["load_r"] = json!(least);
    within("loss at the smallest load", reading(&report("source-load", loaded), "loss"), 1.0, 1e-9);
}

/// A 12:1 transformer: −20·log10 12 dB, and 12² times the load (any text on
/// transformers; computed).
#[test]
fn turns_ratio() {
    for (load, reflected) in [("1k", 144e3), ("1k5", 216e3)] {
        let report = report("transformer", json!({ "ratio": "12:1", "load_r": load }));
        within("step", reading(&report, "ideal_level"), -21.584, 5e-4);
        within("reflected", reading(&report, "reflected_load"), reflected, 1e-6);
    }
}

/// An ideal transformer between matched resistances loses 6.02 dB and its step,
/// from the divider n²·R_L/(n²·R_L + R_S).
#[test]
fn ideal_transformer_is_a_divider() {
    let ideal = json!({
        "source_r": "14k4", "ratio": "12", "load_r": "100", "r1": "0", "r2": "0", "magnetising": "", "core_loss": "",
        "leakage": "0", "c1": "0", "c2": "0",
    });
    let report = report("transformer", ideal);
    within("level", reading(&report, "level"), -6.0206 - 21.5836, 1e-4);
    within("input", reading(&report, "z_in"), 14.4e3, 1e-6);
    within("output", reading(&report, "z_out"), 100.0, 1e-9);
    assert_eq!(report.reading("low_corner").unwrap().value, None);
    assert_eq!(report.reading("high_corner").unwrap().value, None);
}

/// A coil into a resistance is 3 dB down where its reactance is as large as both
/// resistances, (R + R_L)/(2πL), wherever 1 kHz lies: a bass of 8 H and 9.5 kΩ into
/// 10 kΩ at 388 Hz.
#[test]
fn corner_of_a_coil_into_a_load() {
    let bass = json!({
        "coil_l": "8 H", "coil_r": "9k5", "coil_c": "1 fF", "volume": "none", "tone": "none", "lead_length": "0 m",
        "load_r": "10k", "load_c": "0",
    });
    let exact = 19.5e3 / (2.0 * std::f64::consts::PI * 8.0);
    within("corner", reading(&report("pickup", bass), "high_corner"), exact, 1e-3);
    within("corner", exact, 388.0, 0.1);
}

/// What a load takes is counted against the same lead into 10 MΩ and nothing
/// else, its capacitance too: 1 nF of it takes about as much as 10 m of lead do.
#[test]
fn capacitance_of_a_load_is_a_load() {
    let rig =
        |load_r: &str, load_c: &str| report("pickup", json!({ "load_r": load_r, "load_c": load_c, "frequency": "5k" }));
    let [loaded, open] = [rig("1M", "1n"), rig("10M", "0")];
    let lost = reading(&open, "level_at") - reading(&loaded, "level_at");
    assert!(lost > 8.0, "{lost}");
    within("loss", reading(&loaded, "load_loss"), lost, 1e-9);
}

/// What is across the terminals of a source is a part of it: 6.5 kΩ and 2.5 H with
/// 610 pF at 5 kHz are 151.5 kΩ (parallel impedances, any circuit-theory text), of
/// which 140 kΩ are 0.92 times.
#[test]
fn capacitance_across_the_terminals() {
    let values = json!({ "source_r": "6k5", "source_l": "2.5 H", "source_c": "610p", "load_r": "140k", "load_c": "0", "frequency": "5k" });
    let report = report("source-load", values);
    let w = 2.0 * std::f64::consts::PI * 5e3;
    let exact = stageohm::Complex64::new(6.5e3, w * 2.5);
    let exact = (exact / (1.0 + exact * stageohm::Complex64::new(0.0, w * 610e-12))).norm();
    within("source", reading(&report, "z_source"), exact, 1e-6);
    within("source", exact, 151.5e3, 50.0);
    within("ratio", reading(&report, "ratio"), 140e3 / exact, 1e-9);
}

/// A passive box on a real microphone input shows a source 140 kΩ or so
/// (common practice, no source: the order of size is checked, no more).
#[test]
fn passive_box_shows_the_order_of_140_kilohms() {
    let report = report("transformer", json!({ "load_r": "1k" }));
    let z = reading(&report, "z_in");
    assert!((100e3..200e3).contains(&z), "{z}");
}

/// Flux is voltage over frequency: twice the frequency takes twice the voltage
/// (Whitlock 1995).
#[test]
fn largest_level_rises_6_db_an_octave() {
    let report = report("transformer", json!({}));
    within("40 Hz", reading(&report, "largest_40") - reading(&report, "largest_20"), 6.0206, 1e-4);
    within("80 Hz", reading(&report, "largest_80") - reading(&report, "largest_20"), 12.0412, 1e-4);
}

fn pickup(load: f64, lead: f64, extra: serde_json::Value) -> serde_json::Value {
    let mut values = json!({ "load_r": load, "lead_length": lead, "lead_r": 0, "lead_l": 0 });
    values.as_object_mut().unwrap().extend(extra.as_object().unwrap().clone());
    values
}

/// The pickup rig, computed from its closed form: levels re e.m.f. at four
/// frequencies, and the peak.
#[test]
fn pickup_into_five_loads() {
    type Row = (f64, [f64; 4], Option<(f64, f64)>);
    let rows: [Row; 5] = [
        (10e3, [-4.645, -7.524, -18.699, -24.983], None),
        (47e3, [-1.491, -1.786, -7.764, -16.707], None),
        (140e3, [-0.785, -0.582, -2.773, -14.935], Some((0.319, 2947.75))),
        (1e6, [-0.461, -0.089, 0.493, -14.378], Some((3.637, 3706.37))),
        (10e6, [-0.412, -0.020, 1.050, -14.316], Some((4.350, 3776.38))),
    ];
    for (load, levels, peak) in rows {
        for (frequency, level) in [100.0, 1e3, 5e3, 10e3].into_iter().zip(levels) {
            let report = report("pickup", pickup(load, 5.0, json!({ "frequency": frequency })));
            within(&format!("{load} Ω at {frequency} Hz"), reading(&report, "level_at"), level, 1e-3);
        }
        let report = report("pickup", pickup(load, 5.0, json!({})));
        match peak {
            None => assert_eq!(report.reading("peak").unwrap().value, None, "{load} Ω"),
            Some((level, frequency)) => {
                within(&format!("{load} Ω: peak level"), reading(&report, "peak_level"), level, 1e-3);
                within(&format!("{load} Ω: peak"), reading(&report, "peak"), frequency, 0.02);
            }
        }
    }
}

/// The same rig into 1 MΩ on leads of 100 pF/m, lumped; computed.
#[test]
fn pickup_on_four_leads() {
    for (length, level, frequency) in
        [(3.0, 2.536, 4298.73), (6.0, 4.034, 3481.94), (10.0, 5.070, 2862.37), (15.0, 5.729, 2408.40)]
    {
        let report = report("pickup", pickup(1e6, length, json!({})));
        within(&format!("{length} m: level"), reading(&report, "peak_level"), level, 1e-3);
        within(&format!("{length} m: frequency"), reading(&report, "peak"), frequency, 0.02);
    }
}

/// 600 m at 100 pF/m driven by 150 Ω: lumped, exact and lossless; computed.
#[test]
fn a_line_of_600_metres() {
    let line = |r, l| {
        let line = Line { length: 600.0, r, l, g: 0.0, c: 100e-12 };
        Path::new(OnePort::resistor(150.0), OnePort::OPEN).with("part-lead", Element::Line(line))
    };
    let lumped = Path::new(OnePort::resistor(150.0), OnePort::capacitor(600.0 * 100e-12));
    // Its corner is stated re the level at the lowest frequencies.
    within("lumped corner", features(&lumped).high_corner.unwrap(), 17_683.9, 0.05);
    within("lumped at 20 kHz", lumped.level(20e3), -3.5776, 5e-5);
    within("exact at 10 kHz", line(0.1, 0.6e-6).level(10e3), -1.2068, 5e-5);
    within("exact at 20 kHz", line(0.1, 0.6e-6).level(20e3), -3.4037, 5e-5);
    within("lossless at 20 kHz", line(0.0, 0.6e-6).level(20e3), -2.6389, 5e-5);
}

/// Piezo elements, computed: level Cp/(Cp + Clead), corner 1/(2πR(Cp + Clead)).
#[test]
fn piezo_elements() {
    let element = |lead: f64, load: f64| {
        Path::new(OnePort::capacitor(1e-9), OnePort::resistor(load))
            .with("part-lead", Element::Shunt(OnePort::capacitor(lead)))
    };
    within("level with a lead", element(500e-12, 1e6).level(1e6), -3.522, 5e-4);
    let corner = |path: &Path| features(path).low_corner.unwrap();
    within("corner with a lead", corner(&element(500e-12, 1e6)), 106.10, 0.005);
    for (load, frequency) in [(10e3, 15_915.0), (140e3, 1136.8), (1e6, 159.15), (10e6, 15.915)] {
        within("corner", corner(&element(0.0, load)) / frequency, 1.0, 1e-4);
    }
}

/// The thermal noise of the pickup rig into 1 MΩ, load thermal, 20 Hz to
/// 20 kHz, 300.15 K: from a general circuit simulator.
#[test]
fn thermal_noise_of_the_pickup() {
    use stageohm::network::{AUDIO_BAND, band_power};
    let path = Path::new(OnePort::series_rl(6500.0, 2.5), OnePort::resistor(1e6))
        .with("", Element::Shunt(OnePort::capacitor(110e-12)))
        .with("", Element::Shunt(OnePort::series_rc(250e3, 22e-9)))
        .with("", Element::Shunt(OnePort::resistor(250e3)))
        .with("", Element::Shunt(OnePort::capacitor(500e-12)));
    let power = band_power(|f| path.thermal_density(f, 300.15, true), &AUDIO_BAND);
    within("noise, dBu", 10.0 * (power / 0.6).log10(), -109.81, 0.005);
}

/// Asked backwards, the tables above give their own inputs back.
#[test]
fn tables_asked_backwards() {
    let backwards = |calculator: &str, values: serde_json::Value, reading: &str, value: &str, field: &str| {
        let question = json!({
            "calculator": calculator, "values": values,
            "backwards": { "reading": reading, "value": value, "field": field },
        });
        ask(question).backwards.unwrap()
    };
    let load = backwards("source-load", json!({ "source_r": "10k" }), "loss", "6.0206 dB", "load_r");
    assert_eq!(load.found.len(), 1);
    within("load for 6 dB", load.found[0].value, 10e3, 0.1);

    // The available power, E²/(4·R), as it is printed: a little more than there is.
    let load = backwards("source-load", json!({ "source_r": "150", "emf": "-10 dBV" }), "power", "167 µW", "load_r");
    assert_eq!(load.found.len(), 1, "{load:?}");
    within("matched load", load.found[0].value / 150.0, 1.0, 1e-3);
    let load = backwards("source-load", json!({ "source_r": "150", "emf": "-10 dBV" }), "power", "168 µW", "load_r");
    assert_eq!(load.found.len(), 0, "{load:?}");

    // The height of the resonance rises with the load: one answer, near 1 MΩ.
    let load = backwards("pickup", pickup(1e6, 5.0, json!({})), "peak_level", "3.637 dB", "load_r");
    assert_eq!(load.found.len(), 1, "{load:?}");
    within("load for that peak", load.found[0].value / 1e6, 1.0, 2e-3);

    // A resonance of 2 408.40 Hz takes 15 m.
    let lead = backwards("pickup", pickup(1e6, 5.0, json!({})), "peak", "2408.40 Hz", "lead_length");
    assert_eq!(lead.found.len(), 1, "{lead:?}");
    within("lead", lead.found[0].value, 15.0, 1e-3);

    // A peak of +20 dB is out of reach, and is said to be.
    let none = backwards("pickup", pickup(1e6, 5.0, json!({})), "peak_height", "20 dB", "lead_c");
    assert!(none.found.is_empty() && none.message.contains("No value"), "{none:?}");

    // Power into the load has a maximum: half of it is met twice (computed:
    // R/(R + 1)² = 1/8 gives R = 3 ± √8).
    let half = backwards("source-load", json!({ "source_r": "1k", "emf": "2 V" }), "power", "0.5 mW", "load_r");
    assert_eq!(half.found.len(), 2, "{half:?}");
    within("smaller", half.found[0].value, 1e3 * (3.0 - 8_f64.sqrt()), 1e-3);
    within("larger", half.found[1].value, 1e3 * (3.0 + 8_f64.sqrt()), 1e-3);

    // Near its maximum both loads lie between two samples of the range, wherever these
    // fall: P/P_max = 4x/(1 + x)² = 1 − 1e-4 at x = 0.99/1.01 and 1.01/0.99.
    for ohms in [1e3, 1.05e3, 1.1e3] {
        let watts = format!("{:?} W", (1.0 - 1e-4) / ohms);
        let near = backwards("source-load", json!({ "source_r": ohms, "emf": "2 V" }), "power", &watts, "load_r");
        let found: Vec<_> = near.found.iter().map(|found| found.value / ohms).collect();
        assert_eq!(found.len(), 2, "{ohms}: {found:?}");
        within("just smaller", found[0], 0.99 / 1.01, 1e-6);
        within("just larger", found[1], 1.01 / 0.99, 1e-6);
    }

    // Where a lead is not there at all: a device at 4 mA behind 3.4 kΩ.
    let none_needed = backwards("phantom", json!({ "current": "4 mA" }), "voltage", "34.4 V", "lead_length");
    assert_eq!(none_needed.found.iter().map(|found| found.value).collect::<Vec<_>>(), [0.0]);
    // A field that has no part in it, and a stretch along which nothing happens.
    let available = ask(json!({ "calculator": "source-load", "values": {} })).report.unwrap();
    let available = format!("{:?} W", available.reading("available").unwrap().value.unwrap());
    let same = backwards("source-load", json!({}), "available", &available, "load_r");
    assert!(same.found.is_empty() && same.message.contains("does not change"), "{}", same.message);
    let flat = backwards("source-load", json!({}), "loss", "0.12932084498463256 dB", "load_c");
    assert!(flat.found.len() <= 1, "{:?}", flat.message);

    let wrong = backwards("pickup", json!({}), "peak", "high", "load_r");
    assert!(wrong.problem.unwrap().message.contains("kHz"));
}

/// Two equal coils, each of R, L, a loss resistance and a capacitance, coupled by k: in
/// series they have L + L ± 2M, in parallel (L² − M²)/(L + L ∓ 2M) (any circuit-theory
/// text), and the lower inductance where one of them is the other way round.
#[test]
fn two_coils() {
    let (r, l, c, k, loss, f) = (4e3, 2.5, 120e-12, 0.2, 300e3, 5e3);
    let (m, omega) = (k * l, TAU * f);
    for (coils, phase, sign) in
        [("series", "in", 1.0), ("series", "out", -1.0), ("parallel", "in", 1.0), ("parallel", "out", -1.0)]
    {
        let (together, r, c, loss) = match coils {
            "series" => (l + l + sign * 2.0 * m, 2.0 * r, c / 2.0, 2.0 * loss),
            _ => ((l * l - m * m) / (l + l - sign * 2.0 * m), r / 2.0, 2.0 * c, loss / 2.0),
        };
        let report = report(
            "pickup",
            json!({
                "coils": coils, "phase": phase, "coupling": k, "coil_l": l, "coil_r": "4 kΩ", "coil_c": "120 pF",
                "coil_loss": "300 kΩ", "volume": "none", "tone": "none", "lead_length": 0.0, "load_r": "1 GΩ", "load_c": 0.0,
                "frequency": f
            }),
        );
        let free = 1.0 / (TAU * f64::sqrt(together * c));
        within("resonance", reading(&report, "free_resonance") / free, 1.0, 1e-9);
        let coil = Complex64::new(0.0, omega * together);
        let source = coil * loss / (coil + loss) + r;
        let load = Complex64::new(1e-9, omega * c);
        within("level", reading(&report, "level_at"), -20.0 * (source * load + 1.0).norm().log10(), 1e-9);
    }
}

/// What dulls a pickup is named: a tone control that is shut makes a resonance
/// of its own with its capacitor, f = 1/(2π√(L·C)) (any circuit-theory text); a
/// line input damps it; a volume control half shut does so without any load.
#[test]
fn what_dulls_a_pickup() {
    let words = |values: serde_json::Value| {
        let report = report("pickup", values);
        report.reading("peak_height").unwrap().verdict.clone().unwrap().text
    };
    assert!(words(json!({ "tone_turn": 0.0 })).contains("tone control"));
    assert!(words(json!({ "load_r": "10k" })).contains("the load"));
    assert!(words(json!({ "load_r": "10M", "volume_turn": 0.5 })).contains("volume control"));
    assert!(words(json!({ "load_r": "10M" })).contains("stands out"));
}

/// What is no value at all is told at its field; the rest is still read.
#[test]
fn no_value_at_all() {
    let answer =
        ask(json!({ "calculator": "pickup", "values": { "load_r": null, "lead_length": [5], "coil_l": "4 H" } }));
    assert!(
        answer.fields.get("load_r").unwrap().problem.is_some()
            && answer.fields.get("lead_length").unwrap().problem.is_some()
    );
    assert!(answer.fields.get("coil_l").unwrap().problem.is_none());
}

/// No more than the whole field of a coil passes through another: |k| < 1 (the
/// energy of coupled coils is positive, any circuit-theory text).
#[test]
fn coupling_has_an_end() {
    let answer = ask(json!({ "calculator": "pickup", "values": { "coils": "series", "coupling": "1.2" } }));
    assert!(answer.fields.get("coupling").unwrap().problem.as_ref().unwrap().message.contains("less than 1"));
    assert!(
        ask(json!({ "calculator": "pickup", "values": { "coils": "series", "coupling": "0.9" } })).report.is_some()
    );
}
