//! The limits at which an answer changes, each from both sides and as near as a
//! hundredth to it, with the source of the limit. What is between two words of a
//! verdict is common practice, no source, unless another is named.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]
#![recursion_limit = "256"]

mod common;

use common::{ask, reading, report, within};
use serde_json::{Value, json};
use stageohm::network::{OnePort, Response as _};
use stageohm::numeric::{bracketed_root, highest};
use stageohm::part::{Coils, Lead, Pickup, Pot, Taper, ToneControl};
use stageohm::report::{Report, Tone};
use std::f64::consts::TAU;

fn with(mut values: Value, more: Value) -> Value {
    for (id, value) in more.as_object().unwrap() {
        values[id] = value.clone();
    }
    values
}

/// The tone and the words of the verdict on a reading.
#[track_caller]
fn verdict(report: &Report, id: &str) -> (Tone, String) {
    let verdict = report.reading(id).unwrap_or_else(|| panic!("no {id}")).verdict.clone();
    let verdict = verdict.unwrap_or_else(|| panic!("{id} has no verdict"));
    (verdict.tone, verdict.text)
}

/// The tone of a verdict on each side of a limit.
#[track_caller]
fn turns(calculator: &str, id: &str, sides: [(Value, Tone); 2]) {
    for (values, expected) in sides {
        assert_eq!(verdict(&report(calculator, values.clone()), id).0, expected, "{id} with {values}");
    }
}

/// Whether any warning has these words.
fn warns(report: &Report, words: &str) -> bool {
    report.warnings.iter().any(|warning| warning.contains(words))
}

/// Whether an answer is refused at a field.
#[track_caller]
fn refused(calculator: &str, values: &Value, field: &str) -> bool {
    let answer = ask(json!({ "calculator": calculator, "values": values }));
    let problem = answer.fields.get(field).unwrap().problem.is_some();
    assert_eq!(answer.report.is_none(), problem, "{values}: {:?}", answer.problems);
    problem
}

/// The value of a field between two bounds at which a reading is this.
fn where_it_is(calculator: &str, values: &Value, field: &str, bounds: (f64, f64), id: &str, wanted: f64) -> f64 {
    let off = |x: f64| {
        let values = with(values.clone(), json!({ field: x.exp() }));
        let answer = ask(json!({ "calculator": calculator, "values": values, "working": false }));
        answer.report.unwrap().reading(id).and_then(|reading| reading.value).unwrap_or(f64::MIN) - wanted
    };
    let x = bracketed_root(off, bounds.0.ln(), bounds.1.ln(), 1e-9).unwrap_or_else(|| panic!("{id} is never {wanted}"));
    within(id, off(x), 0.0, 1e-6 * wanted.abs());
    x.exp()
}

/// Ground loop with nothing but the mains frequency and no inductance.
fn hum(more: Value) -> Value {
    let alone = json!({
        "inductance": 0.0, "harmonic_2": "", "harmonic_3": "", "harmonic_5": "", "harmonic_7": "", "harmonic_9": "",
        "harmonic_11": ""
    });
    with(alone, more)
}

/// 50 V of touch voltage (IEC 60364-4-41, from memory): nothing is computed above.
#[test]
fn dangerous_touch_voltage() {
    for (volts, stops) in [(49.6, false), (50.0, false), (50.4, true)] {
        let values = hum(json!({ "difference": volts }));
        assert_eq!(refused("ground-loop", &values, "difference"), stops, "{volts}");
        let line = json!({ "source": "output", "power": "earthed", "difference": volts });
        assert_eq!(refused("whole-line", &line, "difference"), stops, "{volts}");
        let thru = json!({ "thru": "earthed", "amp_difference": volts });
        assert_eq!(refused("whole-line", &thru, "amp_difference"), stops, "{volts}");
        let ranked = json!({ "source": "keyboard", "power": "earthed", "difference": volts });
        assert_eq!(refused("box-or-straight", &ranked, "difference"), stops, "{volts}");
        assert_eq!(refused("balance", &json!({ "difference": volts }), "difference"), stops, "{volts}");
        // Induced around 10 m² at 50 Hz: 2π·50·10 V for each tesla.
        let density = volts / (TAU * 50.0 * 10.0);
        let field = hum(json!({ "cause": "field", "density": density, "area": 10.0, "mains": "50" }));
        assert_eq!(refused("ground-loop", &field, "density"), stops, "{volts}");
    }
}

/// A fault is likely from 2 V between earths on (common practice, no source).
#[test]
fn faulty_difference() {
    for (volts, stops) in [(1.98, false), (2.0, true), (2.02, true)] {
        let values = hum(json!({ "difference": volts, "earth_r": 100.0 }));
        assert_eq!(warns(&report("ground-loop", values), "Stop here"), stops, "{volts}");
        let bridge = json!({ "difference": volts });
        assert_eq!(warns(&report("balance", bridge), "Stop here"), stops, "{volts}");
        let density = 1.000_001 * volts / (TAU * 60.0 * 10.0);
        let field = json!({ "cause": "field", "density": density, "area": 10.0, "mains": "60", "earth_r": 100.0 });
        assert_eq!(warns(&report("ground-loop", hum(field)), "Stop here"), stops, "{volts}");
    }
}

/// What counts is the whole voltage: with a third harmonic half as large, 6 dB
/// down, √(1 + 10^-0.6) times the component of the mains.
#[test]
fn faulty_with_harmonics() {
    let all = (1.0 + 10_f64.powf(-0.6)).sqrt();
    for (share, stops) in [(0.99, false), (1.01, true)] {
        let volts = json!({ "difference": 2.0 / all * share, "earth_r": 100.0, "harmonic_3": -6.0 });
        assert_eq!(warns(&report("ground-loop", hum(volts)), "Stop here"), stops, "{share}");
        let amperes = json!({ "cause": "leakage", "leakage": 0.5e-3 / all * share, "harmonic_3": -6.0 });
        assert_eq!(warns(&report("ground-loop", hum(amperes)), "Stop here"), stops, "{share}");
    }
}

/// And from 1 A in a shield on (common practice, no source): 1 V around a loop of
/// 1/0.99 and 1/1.01 Ω, of which the shield has 0.22 Ω.
#[test]
fn faulty_shield_current() {
    for (amperes, stops) in [(0.99, false), (1.01, true)] {
        let values = hum(json!({
            "difference": 1.0, "earth_r": 1.0 / amperes - 0.22, "lead_length": 10.0, "shield_r": 0.02, "contact_r": 0.01
        }));
        let report = report("ground-loop", values);
        within("current", reading(&report, "current"), amperes, 1e-9);
        assert_eq!(warns(&report, "Stop here"), stops, "{amperes}");
    }
}

/// A lifted DI opens the run alone. Two shields of 0.02 Ω that meet in it tie two earths
/// of 0.25 Ω each: 0.9 V in two directions through 0.54 Ω are more than 1 A, whatever the run
/// has. A second console behind a DI closes a loop with the first, by no lead of the stage.
#[test]
fn faulty_beside_the_run() {
    let keys = |more: Value| {
        let values = json!({
            "source": "output", "power": "earthed", "difference": 0.9, "earth_r": 0.25, "lead_length": 1.0,
            "box": "passive", "ground": "lifted", "thru": "earthed", "thru_length": 1.0, "amp_difference": 0.9,
            "amp_earth_r": 0.25, "shield_r": 0.01, "contact_r": 0.005, "inductance": 0.0
        });
        report("whole-line", with(values, more))
    };
    let stops = |report: &Report| {
        let is_told = report.cautions.iter().any(|caution| caution.contains("electrician"));
        assert!(!report.cautions_first || is_told, "{:?}", report.cautions);
        warns(report, "Stop here") && report.cautions_first
    };
    let lifted = keys(json!({}));
    assert!(reading(&lifted, "loop_current") < 1e-3 && stops(&lifted));
    // On one earth nothing flows between them.
    assert!(!stops(&keys(json!({ "thru": "same" }))));
    let floating = json!({ "power": "floating", "thru": "none", "split": "direct" });
    for (more, expected) in [
        (json!({ "second_difference": 2.01 }), true),
        (json!({ "second_difference": 1.0, "second_earth_r": 10.0 }), false),
        (json!({ "second_difference": 1.0, "second_earth_r": 0.1, "run_length": 1.0 }), true),
    ] {
        assert_eq!(stops(&keys(with(floating.clone(), more.clone()))), expected, "{more}");
    }
}

/// Touch current: 0.5 mA from equipment that has no earth of its own, 3.5 mA
/// where it has one (IEC 60335-1, measured as IEC 60990 has it, from memory). The
/// limit itself is allowed. Another way to earth counts by what it takes off a
/// body of 2 kΩ (500 Ω and 1.5 kΩ, IEC 60990): of 3 mA beside 400 Ω a body has
/// 3·400/2400 = 0.5 mA, and beside 1 MΩ nearly all.
#[test]
fn touch_current() {
    for (milliamperes, other, stops) in [
        (0.495, "", false),
        (0.5, "", false),
        (0.505, "", true),
        (3.465, "0.5", false),
        (3.5, "0.5", false),
        (3.535, "0.5", true),
        (2.97, "400", false),
        (3.03, "400", true),
        (0.499, "1M", false),
        (0.502, "1M", true),
    ] {
        let amperes = milliamperes / 1e3;
        let values = hum(json!({ "cause": "leakage", "leakage": amperes, "other_r": other }));
        assert_eq!(warns(&report("ground-loop", values), "Stop here"), stops, "{milliamperes} mA, {other}");
        let line = hum(json!({
            "source": "output", "power": "leaking", "leakage_current": amperes, "other_r": other
        }));
        assert_eq!(warns(&report("whole-line", line), "Stop here"), stops, "{milliamperes} mA, {other}");
    }
}

/// Behind a leakage there is no more than the mains: 240 V and 10 % (IEC 60038,
/// from memory).
#[test]
fn voltage_behind_a_leakage() {
    for (volts, stops) in [(230.0, false), (263.0, false), (265.0, true)] {
        let values = hum(json!({ "cause": "leakage", "leakage": 0.2e-3, "leakage_volts": volts }));
        assert_eq!(warns(&report("ground-loop", values), "Stop here"), stops, "{volts}");
    }
}

/// Hum is heard above the noise of a room, and masked 15 dB under it: a tone in
/// one critical band of a level that holds all of them (common practice, no
/// source).
#[test]
fn masked_hum() {
    let sound = reading(&report("ground-loop", hum(json!({}))), "sound");
    let room = |over: f64| hum(json!({ "room": sound - over }));
    turns("ground-loop", "signal_to_hum_a", [(room(0.01), Tone::Trouble), (room(-0.01), Tone::Watch)]);
    turns("ground-loop", "signal_to_hum_a", [(room(-14.9), Tone::Watch), (room(-15.1), Tone::Fine)]);
}

/// 48 V ± 4, 24 V ± 4, 12 V ± 1 (IEC 61938, from memory), at the two ends of
/// which a device is judged: what it has left on the lowest supply decides.
#[test]
fn phantom_tolerance() {
    for (supply, lowest, nominal, highest) in
        [("p48", 44.0, 48.0, 52.0), ("p24", 20.0, 24.0, 28.0), ("p12", 11.0, 12.0, 13.0)]
    {
        for (at, volts) in [("lowest", lowest), ("nominal", nominal), ("highest", highest)] {
            let report = report("phantom", json!({ "supply": supply, "supply_at": at }));
            within(supply, reading(&report, "supply_volts"), volts, 1e-9);
        }
        // Without current all of the supply is at the device.
        let at = |least: f64| json!({ "supply": supply, "current": 1e-6, "lead_length": 0.0, "least": least });
        turns("phantom", "voltage", [(at(lowest * 0.995), Tone::Fine), (at(lowest * 1.005), Tone::Watch)]);
        turns("phantom", "voltage", [(at(nominal * 0.995), Tone::Watch), (at(nominal * 1.005), Tone::Trouble)]);
        // Of one known by its lowest voltage too.
        let at = |least: f64| json!({ "supply": supply, "draws": "least", "lead_length": 0.0, "least": least });
        turns("phantom", "device_current", [(at(lowest * 0.995), Tone::Fine), (at(lowest * 1.005), Tone::Watch)]);
        let at = |least: f64| json!({ "phantom": supply, "current": 1e-6, "run_length": 0.0, "least": least });
        turns("whole-line", "supply", [(at(lowest * 0.995), Tone::Fine), (at(lowest * 1.005), Tone::Watch)]);
        turns("whole-line", "supply", [(at(nominal * 0.995), Tone::Watch), (at(nominal * 1.005), Tone::Trouble)]);
    }
}

/// The most current: 10, 10 and 15 mA (IEC 61938, from memory).
#[test]
fn phantom_current() {
    for (supply, most) in [("p48", 10e-3), ("p24", 10e-3), ("p12", 15e-3)] {
        for (share, warned) in [(0.99, false), (1.01, true)] {
            let values = json!({ "supply": supply, "current": most * share, "lead_length": 0.0, "least": 0.0 });
            assert_eq!(warns(&report("phantom", values), "more current than"), warned, "{supply} {share}");
            let line = json!({ "phantom": supply, "current": most * share, "run_length": 0.0, "least": 0.0 });
            assert_eq!(warns(&report("whole-line", line), "more current than"), warned, "{supply} {share}");
        }
    }
}

/// No lead is longer than 10 km: a device of 1 mA on P48 has 48 − 3.4 = 44.6 V
/// for a loop of 44.6 kΩ.
#[test]
fn longest_lead_of_phantom() {
    for (length, told) in [(9.9e3, true), (10.1e3, false)] {
        let values = json!({
            "current": 1e-3, "least": 0.0, "lead_length": 0.0, "core_r": 0.0, "shield_r": 44.6e3 / length
        });
        let longest = report("phantom", values).reading("longest").unwrap().value;
        assert_eq!(longest.is_some(), told, "{longest:?}");
        within("longest", longest.unwrap_or(length), length, 1e-6);
    }
}

/// The same of a lead of nothing but capacitance behind 1 kΩ, at 20 Hz: it loses
/// 1 dB at ω·R·C = √(10^0.1 − 1).
#[test]
fn longest_lead_by_loss() {
    for (length, told) in [(9.9e3, true), (10.1e3, false)] {
        let c = (10_f64.powf(0.1) - 1.0).sqrt() / (TAU * 20.0 * 1e3 * length);
        let values = json!({
            "source": "unbalanced", "source_r": 1e3, "load_r": 1e12, "load_c": 0.0, "lead_c": c, "lead_r": 0.0,
            "lead_l": 0.0, "frequency": 20.0, "limit": 1.0
        });
        let longest = report("lead-length", values).reading("longest_loss").unwrap().value;
        assert_eq!(longest.is_some(), told, "{longest:?}");
        within("longest", longest.unwrap_or(length), length, 1e-3);
    }
}

/// Half of the 0.25 W that the smallest usual resistor bears (common practice, no
/// source). 1 kΩ of input with K = 10 has 900 Ω in series: P = (E/1 kΩ)²·900 Ω.
#[test]
fn rating_of_pad_resistors() {
    for (watts, hot) in [(0.1238, false), (0.1262, true)] {
        let emf = 1e3 * f64::sqrt(watts / 900.0);
        let values = json!({
            "legs": "unbalanced", "source_r": 1e-3, "input_r": 1e3, "loss": 20.0, "load_r": 1e9, "emf": emf
        });
        let report = report("pad", values);
        within("power", reading(&report, "power_r1"), watts, 1e-6);
        assert_eq!(warns(&report, "half of what a 250\u{a0}mW"), hot, "{:?}", report.warnings);
        assert_eq!(!report.warnings.is_empty(), hot, "{:?}", report.warnings);
    }
    // What is fitted counts: of 1394.1 and 154.9 Ω, in E24 1.3 kΩ and 150 Ω, the
    // former takes (E/1.45 kΩ)²·1.3 kΩ.
    for (watts, hot) in [(0.1238, false), (0.1262, true)] {
        let emf = 1450.0 * f64::sqrt(watts / 1300.0);
        let values = json!({
            "legs": "unbalanced", "source_r": 1e-3, "input_r": 1549, "loss": 20.0, "load_r": 1e9, "emf": emf
        });
        let report = report("pad", values);
        assert!(reading(&report, "power_r1") < 0.122);
        assert_eq!(warns(&report, "half of what a 250\u{a0}mW"), hot, "{:?}", report.warnings);
    }
}

/// A pad from a shelf is as good as asked within 0.25 dB, and of use within 1 dB.
/// Its series arm comes out as 1.5 kΩ, its shunt arm as 130 Ω, open at its end:
/// K = 1 + 1500/130. Designed for less, it is off by as much.
#[test]
fn pads_off_what_was_asked() {
    let made = 20.0 * (1.0_f64 + 1500.0 / 130.0).log10();
    let off = |off: f64, series: f64| {
        let loss = made - off;
        let k = 10_f64.powf(loss / 20.0);
        let values = json!({ "legs": "unbalanced", "loss": loss, "input_r": series / (1.0 - 1.0 / k), "load_r": 1e9 });
        within("loss", reading(&report("pad", values.clone()), "loss_e24"), made, 1e-5);
        values
    };
    turns("pad", "loss_e24", [(off(0.2475, 1450.0), Tone::Fine), (off(0.2525, 1450.0), Tone::Watch)]);
    turns("pad", "loss_e24", [(off(0.99, 1397.0), Tone::Watch), (off(1.01, 1397.0), Tone::Trouble)]);
}

/// Two resistances within a millionth are equal, and need no pad between them.
#[test]
fn equal_resistances_need_no_pad() {
    for (apart, stops) in [(0.99e-6, true), (1.01e-6, false)] {
        let values = json!({ "design": "minimum", "source_r": 600.0, "load_r": 600.0 * (1.0 + apart) });
        assert_eq!(refused("pad", &values, "load_r"), stops, "{apart}");
    }
}

/// Ten times the source costs next to nothing, half of it most of the level; a tenth
/// of a decibel more than the source alone gives is a gain.
#[test]
fn loads_of_a_source() {
    let words = |times: f64| {
        let values = json!({ "source_r": 1e3, "load_r": 1e3 * times, "load_c": 0.0, "limit": 1.0 });
        verdict(&report("source-load", values), "loss")
    };
    // A stricter limit of one's own is kept or not.
    for (limit, tone) in [(0.83, Tone::Fine), (0.82, Tone::Watch)] {
        let values = json!({ "source_r": 1e3, "load_r": 10e3, "load_c": 0.0, "limit": limit });
        assert_eq!(verdict(&report("source-load", values), "loss").0, tone, "{limit}");
    }
    for (limit, below, above) in [
        (10.0, (Tone::Watch, "loads the source"), (Tone::Fine, "costs next to no level")),
        (0.5, (Tone::Trouble, "too small a load for this source"), (Tone::Watch, "loads the source")),
    ] {
        for (share, (tone, text)) in [(0.99, below), (1.01, above)] {
            let got = words(limit * share);
            assert!(got.0 == tone && got.1.contains(text), "{limit} {share}: {got:?}");
        }
    }
    let coil = json!({ "source_r": 6.5e3, "source_l": 2.5, "source_c": 610e-12, "load_r": 1e6, "load_c": 0.0 });
    for (loss, told) in [(-0.099, false), (-0.101, true)] {
        let frequency = where_it_is("source-load", &coil, "frequency", (100.0, 3e3), "loss", loss);
        let report = report("source-load", with(coil.clone(), json!({ "frequency": frequency })));
        assert_eq!(verdict(&report, "loss").1.contains("a gain of"), told, "{loss}");
    }
}

/// The same of a transformer's primary.
#[test]
fn primary_of_a_transformer() {
    let z_in = reading(&report("transformer", json!({})), "z_in");
    let source = |times: f64| json!({ "source_r": z_in / times });
    turns("transformer", "z_in", [(source(9.9), Tone::Watch), (source(10.1), Tone::Fine)]);
    turns("transformer", "z_in", [(source(1.98), Tone::Trouble), (source(2.02), Tone::Watch)]);
}

/// A rejection is high from 80 dB on, and low under 20 dB.
#[test]
fn rejections() {
    let bare = json!({ "input_spread": 0.0, "leg_c": 0.0, "c_imbalance": 0.0, "leg_r": 4e3, "input_r": 2e4 });
    let at = |rejection: f64| {
        let imbalance = where_it_is("balance", &bare, "imbalance", (1e-3, 8e3), "rejection", rejection);
        with(bare.clone(), json!({ "imbalance": imbalance }))
    };
    turns("balance", "rejection", [(at(79.5), Tone::Watch), (at(80.5), Tone::Fine)]);
    turns("balance", "rejection", [(at(19.9), Tone::Trouble), (at(20.1), Tone::Watch)]);
}

/// Capacitances out of balance let a voltage through that rises with frequency:
/// the third, fifth and seventh harmonic by 9.54, 13.98 and 16.90 dB.
#[test]
fn harmonics_of_a_rejection() {
    let values = json!({
        "imbalance": 0.0, "input_spread": 0.0, "input_r": 1e12, "leg_c": 1e-9, "c_imbalance": 100e-12, "mains": "50"
    });
    let report = report("balance", values);
    for (id, order) in [("rejection_3", 3.0_f64), ("rejection_5", 5.0), ("rejection_7", 7.0)] {
        within(id, reading(&report, "rejection") - reading(&report, id), 20.0 * order.log10(), 1e-4);
    }
}

/// Peaks within 3 dB of full scale are worth a look, and over it they clip (0 dBFS
/// is a full-scale sine, EBU R 68 and SMPTE RP 155).
#[test]
fn peaks_near_full_scale() {
    let sine = |dbfs: f64| json!({ "unit": "dbfs", "level": dbfs });
    turns("levels", "dbfs", [(sine(-3.04), Tone::Fine), (sine(-2.96), Tone::Watch)]);
    turns("levels", "dbfs", [(sine(-0.001), Tone::Watch), (sine(0.001), Tone::Trouble)]);
    // The peak of a sine is √2 of it, by definition.
    let sine = report("levels", json!({ "unit": "volt", "level": 1.0 }));
    within("peak", reading(&sine, "volts_peak"), 2.0_f64.sqrt(), 1e-12);
}

/// No level is more than 200 dB over anything: 10 kV are +82 dBu (computed).
#[test]
fn levels_that_are_none() {
    for (level, stops) in [(199.0, false), (201.0, true)] {
        assert_eq!(refused("levels", &json!({ "unit": "dbu", "level": level }), "level"), stops, "{level}");
    }
    // Nor is one found that is asked for.
    for (level, found) in [(199.0, true), (201.0, false)] {
        let question = json!({
            "calculator": "levels", "values": { "unit": "dbu" },
            "backwards": { "reading": "dbu", "value": level, "field": "level" }
        });
        assert_eq!(!ask(question).backwards.unwrap().found.is_empty(), found, "{level}");
    }
}

/// 0 dBu is the voltage of 1 mW into 600 Ω, √0.6 V, and 0 dBm 1 mW into whatever
/// is stated: √(1 mW·50 Ω) (IEC 60027-3).
#[test]
fn references_of_levels() {
    for (unit, r, volts) in
        [("dbu", 50.0, 0.6_f64.sqrt()), ("dbm", 600.0, 0.6_f64.sqrt()), ("dbm", 50.0, 0.05_f64.sqrt())]
    {
        let report = report("levels", json!({ "unit": unit, "level": 0.0, "power_r": r }));
        within(unit, reading(&report, "volts"), volts, 1e-12);
    }
}

/// The pickup of the defaults into a load: its resonance over the lowest frequencies
/// and over 1 kHz, apart
/// from the calculators.
fn pickup_peak(load: f64) -> [f64; 2] {
    let track = |r| Pot { r, turn: 1.0, taper: Taper::Linear };
    let pickup = Pickup {
        r: 6.5e3,
        l: 2.5,
        c: 110e-12,
        loss: None,
        coils: Coils::One,
        coupling: 0.0,
        volume: Some(track(250e3)),
        tone: Some(ToneControl { pot: track(250e3), c: 22e-9, before_volume: true }),
    };
    let lead = Lead { length: 5.0, r: 0.1, l: 0.6e-6, c: 100e-12 };
    let path = lead.added_to(pickup.path(OnePort::resistor(load)), "part-lead");
    let top = highest(|x| path.level(x.exp()), 1e3_f64.ln(), 10e3_f64.ln(), 60).exp();
    [path.level(top) - path.level(1e-3), path.level(top) - path.level(1000.0)]
}

/// The load into which that resonance is so high, dB, over the level at the lowest
/// frequencies or over that at 1 kHz.
fn load_of_peak(over: usize, height: f64) -> f64 {
    let root = bracketed_root(|x| pickup_peak(x.exp())[over] - height, 20e3_f64.ln(), 10e6_f64.ln(), 1e-9);
    root.unwrap_or_else(|| panic!("no peak of {height} dB")).exp()
}

/// A peak under 0.3 dB over the plateau is no resonance, on no page: a pickup of
/// 2.5 H and its controls, which passes most at the lowest frequencies but for the
/// peak. From 1 dB over 1 kHz on it stands out.
#[test]
fn resonances() {
    for (height, there) in [(0.297, false), (0.303, true)] {
        let load = load_of_peak(0, height);
        let pickup = report("pickup", json!({ "load_r": load }));
        assert_eq!(pickup.reading("peak").unwrap().value.is_some(), there, "{height}");
        let response = pickup.plots.iter().find(|plot| plot.id == "response").unwrap();
        let marked = response.markers.iter().any(|marker| marker.text.starts_with("resonance"));
        assert_eq!(marked, there, "{height}");
        let lead = report("lead-length", json!({ "lead_length": 5.0, "instrument_r": load }));
        assert_eq!(lead.reading("resonance").unwrap().value.is_some(), there, "{height}");
    }
    let load = |height: f64| json!({ "load_r": load_of_peak(1, height) });
    turns("pickup", "peak_height", [(load(0.99), Tone::Watch), (load(1.01), Tone::Fine)]);
}

/// A resonance under 0.6 of that of the coil with its capacitances is the tone
/// control's: turned down, it puts its capacitor across the coil.
#[test]
fn resonance_of_the_tone_control() {
    let down = json!({ "tone_turn": 0.0, "volume": "none", "load_r": 10e6 });
    let free = reading(&report("pickup", down.clone()), "free_resonance");
    let at = |share: f64| {
        let tone_c = where_it_is("pickup", &down, "tone_c", (0.1e-9, 10e-9), "peak", share * free);
        with(down.clone(), json!({ "tone_c": tone_c }))
    };
    turns("pickup", "peak_height", [(at(0.594), Tone::Watch), (at(0.606), Tone::Fine)]);
}

/// Of treble 1 dB is missed a little, 3 dB audibly, 6 dB clearly, and of 10 dB most
/// is gone; a gain is told from 1 dB on, and minded from 3 dB. A load is counted
/// from 10 MΩ, which stand for none.
#[test]
fn losses_of_treble() {
    let load =
        |loss: f64| json!({ "load_r": where_it_is("pickup", &json!({}), "load_r", (1e3, 10e6), "load_loss", loss) });
    for (limit, below, above) in [
        (1.0, (Tone::Fine, "no treble lost"), (Tone::Watch, "slightly")),
        (3.0, (Tone::Watch, "slightly"), (Tone::Watch, "audibly")),
        (6.0, (Tone::Watch, "audibly"), (Tone::Trouble, "clearly")),
        (10.0, (Tone::Trouble, "clearly"), (Tone::Trouble, "most of the treble is gone")),
    ] {
        for (share, (tone, text)) in [(0.99, below), (1.01, above)] {
            let got = verdict(&report("pickup", load(limit * share)), "load_loss");
            assert!(got.0 == tone && got.1.starts_with(text), "{limit} {share}: {got:?}");
        }
    }
    let [light, open] = [1e6, 10e6].map(|load| report("pickup", json!({ "load_r": load })));
    let lost = reading(&open, "level_at") - reading(&light, "level_at");
    within("loss", reading(&light, "load_loss"), lost, 1e-9);
}

/// The tone is judged from the pickup with nothing connected and its controls up: as it
/// is then nothing is lost.
#[test]
fn a_pickup_at_its_best() {
    let best = json!({ "load_r": 1e12, "load_c": 0.0, "lead_length": 0.0 });
    within("best", reading(&report("pickup", best), "tone_loss"), 0.0, 1e-6);
}

/// What would take at least half of a loss of tone with it is named: the lead of this
/// rig, and the load too once its own share is half.
#[test]
fn what_takes_half_of_the_tone() {
    let rig = |load: f64| json!({ "load_r": load, "lead_length": 12.0 });
    let share = |load: f64| {
        let lost = |more: Value| reading(&report("pickup", with(rig(load), more)), "tone_loss");
        let all = lost(json!({}));
        (all - lost(json!({ "load_r": 10e6 }))) / all
    };
    let load = bracketed_root(|x| share(x.exp()) - 0.5, 1e3_f64.ln(), 1e6_f64.ln(), 1e-9).unwrap().exp();
    for (load, named) in [(0.98 * load, true), (1.02 * load, false)] {
        let text = verdict(&report("pickup", rig(load)), "tone_loss").1;
        assert_eq!(text.contains("the load"), named, "{load}: {text}");
    }
}

/// What is in the way below a contact's milliohm is no path, and no two coils are
/// coupled wholly.
#[test]
fn pickups_that_are_none() {
    for (turn, stops) in [(0.99e-3, true), (1.01e-3, false)] {
        let values = json!({ "taper": "linear", "volume_r": 1.0, "volume_turn": turn });
        assert_eq!(refused("pickup", &values, "volume_turn"), stops, "{turn}");
    }
    for (coupling, stops) in [(0.998, false), (1.0, true)] {
        assert_eq!(refused("pickup", &json!({ "coils": "series", "coupling": coupling }), "coupling"), stops);
    }
}

/// A tenth of the track at half a turn, as audio controls are made (common
/// practice, no source); by the same law a fortieth at a quarter and 13/40 at
/// three quarters.
#[test]
fn audio_taper() {
    for (turn, share) in [(0.0, 0.0), (0.25, 0.025), (0.5, 0.1), (0.75, 0.325), (1.0, 1.0)] {
        within("share", Taper::Audio.share(turn), share, 1e-12);
        within("share", Taper::Linear.share(turn), turn, 0.0);
    }
    // 10 kΩ of load on the wiper of 250 kΩ at half a turn: 25 kΩ parallel to it,
    // 225 kΩ above, behind 6.5 kΩ of coil (divider, far below the resonance).
    let values = json!({
        "taper": "audio", "volume_turn": 0.5, "tone": "none", "load_r": 10e3, "lead_r": 0.0, "lead_l": 0.0,
        "frequency": 1.0
    });
    let below: f64 = 1.0 / (1.0 / 25e3 + 1.0 / 10e3);
    let level = 20.0 * (below / (below + 225e3 + 6.5e3)).log10();
    within("level", reading(&report("pickup", values), "level_at"), level, 1e-4);
}

/// Two coils of 2 H, 4 kΩ and 100 pF with a coupling of 0.3 (circuit theory: the
/// same current through both, so L + M each): in series 5.2 H, 8 kΩ and 50 pF,
/// in parallel 1.3 H, 2 kΩ and 200 pF.
#[test]
fn two_coils() {
    for (coils, l, r, c) in [("series", 5.2, 8e3, 50e-12), ("parallel", 1.3, 2e3, 200e-12), ("one", 2.0, 4e3, 100e-12)]
    {
        let values = json!({
            "coils": coils, "coupling": if coils == "one" { 0.0 } else { 0.3 }, "coil_l": 2.0, "coil_r": 4e3, "coil_c": 100e-12,
            "volume": "none", "tone": "none", "load_r": 10e3, "lead_r": 0.0, "lead_l": 0.0, "lead_length": 4.0,
            "lead_c": 100e-12, "frequency": 1.0
        });
        let report = report("pickup", values);
        within(coils, reading(&report, "total_c"), c + 400e-12, 1e-18);
        let f = 1.0 / (TAU * f64::sqrt(l * (c + 400e-12)));
        within(coils, reading(&report, "free_resonance"), f, 1e-9 * f);
        within(coils, reading(&report, "level_at"), 20.0 * f64::log10(10e3 / (10e3 + r)), 1e-4);
    }
}

/// A lead raises a pickup's treble by a decibel before that is told, and by three
/// before it is minded; a line the level by a tenth.
#[test]
fn a_lead_that_raises_the_level() {
    // Far under the resonance a longer lead brings it nearer, and the level up.
    let pickup = json!({ "treble": 2e3, "instrument_r": 10e6, "lead_c": 100e-12 });
    let line = json!({ "source": "balanced", "source_r": 10.0, "load_r": 1e6, "lead_r": 0.0, "frequency": 20e3 });
    for (values, most, loss, tone, told) in [
        (&pickup, 10.0, -0.99, Tone::Fine, ""),
        (&pickup, 10.0, -1.01, Tone::Fine, "brighter"),
        (&pickup, 10.0, -2.97, Tone::Fine, "brighter"),
        (&pickup, 10.0, -3.03, Tone::Watch, "brighter"),
        (&line, 1e3, -0.099, Tone::Fine, ""),
        (&line, 1e3, -0.101, Tone::Watch, "a gain"),
    ] {
        let length = where_it_is("lead-length", values, "lead_length", (0.01, most), "loss", loss);
        let report = report("lead-length", with(values.clone(), json!({ "lead_length": length })));
        let got = verdict(&report, "loss");
        let tells = got.1.starts_with("brighter") || got.1.starts_with("a gain");
        assert!(got.0 == tone && tells != told.is_empty() && got.1.starts_with(told), "{loss}: {got:?}");
    }
}

/// Unbalanced leads longer than 5 m are limited by hum, whatever tone allows
/// (common practice, no source); balanced ones are usable to 600 m.
#[test]
fn leads_of_practice() {
    let short = |length: f64| json!({ "source": "unbalanced", "source_r": 150.0, "lead_length": length });
    turns("lead-length", "longest_loss", [(short(4.95), Tone::Fine), (short(5.05), Tone::Watch)]);
    for (source, practice) in [("unbalanced", 5.0), ("balanced", 600.0)] {
        let report = report("lead-length", json!({ "source": source }));
        within(source, reading(&report, "practice"), practice, 0.0);
    }
}

/// An equivalent input noise is that of its stated source: with one of more than
/// ten times that, the noise current which it leaves open decides.
#[test]
fn noise_stated_for_another_source() {
    for (times, warned) in [(9.9, false), (10.1, true)] {
        let values = json!({
            "source": "microphone", "microphone_r": 150.0 * times, "ein_r": 150.0, "lead_length": 0.0, "box": "none"
        });
        assert_eq!(warns(&report("noise-floor", values), "the noise current decides"), warned, "{times}");
    }
}

/// An output through an active box, everything near ideal but the first lead.
fn line(more: Value) -> Value {
    let plain = json!({
        "source": "output", "emf": 0.3, "crest": 12.0, "source_r": 10e3, "lead_length": 10.0, "lead_c": 0.0, "lead_r": 0.0,
        "lead_l": 0.0, "box_r": 1e12, "box_c": 0.0, "run_c": 0.0, "run_r": 0.0, "run_l": 0.0, "console_r": 1e12,
        "console_c": 0.0, "console_most": 20.0, "mains": "50"
    });
    with(plain, more)
}

/// A distance that has less than 3 dB to spare is near its limit.
#[test]
fn near_a_limit() {
    let earthed = json!({ "power": "earthed" });
    let found = report("whole-line", line(earthed.clone()));
    for (id, limit) in [("snr", "snr_least"), ("signal_to_hum", "hum_least"), ("margin", "headroom")] {
        let got = reading(&found, id);
        assert!(got > 4.0, "{id}: {got}");
        let left = |left: f64| with(line(earthed.clone()), json!({ limit: got - left }));
        turns("whole-line", id, [(left(2.97), Tone::Watch), (left(3.03), Tone::Fine)]);
        turns("whole-line", id, [(left(-0.01), Tone::Trouble), (left(0.01), Tone::Watch)]);
    }
}

/// So is a loss of more than half of what may be lost.
#[test]
fn near_the_most_loss() {
    let values = line(json!({ "lead_c": 500e-12 }));
    let lost = reading(&report("whole-line", values.clone()), "loss");
    let most = |times: f64| with(values.clone(), json!({ "loss_most": times * lost }));
    turns("whole-line", "loss", [(most(2.02), Tone::Fine), (most(1.98), Tone::Watch)]);
    turns("whole-line", "loss", [(most(1.01), Tone::Watch), (most(0.99), Tone::Trouble)]);
}

/// A part is named for a loss from 0.1 dB on; less nobody hears.
#[test]
fn what_takes_a_loss() {
    for (loss, named) in [(0.099, "no treble or bass lost"), (0.101, "the first lead")] {
        let c = where_it_is("whole-line", &line(json!({})), "lead_c", (1e-12, 1e-9), "loss", loss);
        let (_, text) = verdict(&report("whole-line", line(json!({ "lead_c": c }))), "loss");
        assert!(text.contains(named), "{loss}: {text}");
    }
    // Nor is one named where less than that is more than may be lost: not the one part that
    // has most of it, and not the two that share it.
    let lead = |share: f64| {
        json!({
            "source": "output", "source_r": 10e3, "box": "none", "phantom": "off", "console_r": 1e12, "console_c": 0.0,
            "lead_c": 100e-12, "lead_r": 0.0, "lead_l": 0.0, "run_c": 100e-12, "run_r": 0.0, "run_l": 0.0,
            "lead_length": 4.0 * (1.0 - share), "run_length": 4.0 * share, "loss_most": 0.01
        })
    };
    for share in [0.9, 0.5] {
        let (tone, text) = verdict(&report("whole-line", lead(share)), "loss");
        assert!(tone == Tone::Trouble && text.contains("no part of the line loses any worth naming"), "{text}");
    }
}

/// A part is named alone where it has more than 60 % of a loss: of 40 m of nothing but
/// capacitance as much as it has of the length.
#[test]
fn who_is_named_alone() {
    for (share, alone) in [(0.59, false), (0.61, true)] {
        let values = json!({
            "source": "output", "source_r": 10e3, "box": "none", "phantom": "off", "console_r": 1e12, "console_c": 0.0,
            "lead_c": 100e-12, "lead_r": 0.0, "lead_l": 0.0, "run_c": 100e-12, "run_r": 0.0, "run_l": 0.0,
            "lead_length": 40.0 * (1.0 - share), "run_length": 40.0 * share
        });
        let (_, text) = verdict(&report("whole-line", values), "loss");
        assert!(text.contains("mostly the run ("), "{share}: {text}");
        assert_eq!(!text.contains(" and the first lead ("), alone, "{share}: {text}");
    }
}

/// Most of a phantom supply is lost where most of the resistance is: in the feed
/// resistors (3.4 kΩ together, IEC 61938, from memory) or in the run.
#[test]
fn where_phantom_is_lost() {
    for (share, named) in [(0.99, "in the feed resistors"), (1.01, "in the run")] {
        let values = line(json!({ "current": 1e-3, "run_length": 1e3, "shield_r": 3.4 * share, "least": 0.0 }));
        let (_, text) = verdict(&report("whole-line", values), "supply");
        assert!(text.contains(named), "{share}: {text}");
    }
}

/// A line input has 20 dB of gain up to its own −10 dBV (common practice, no
/// source): less than −27.78 dBu is too faint for it.
#[test]
fn too_faint_for_a_line_input() {
    let keys = |dbu: f64| {
        let emf = 0.6_f64.sqrt() * 10_f64.powf(dbu / 20.0);
        json!({
            "source": "keyboard", "power": "floating", "input": "line", "phantom": "none", "snr_least": 0.0, "hum_least": 0.0,
            "lead_length": 3.0, "run_length": 0.0, "emf": emf
        })
    };
    let loss = reading(&report("box-or-straight", keys(-20.0)), "level") + 20.0;
    let least = 10.0 * (0.1_f64 / 0.6).log10() - 20.0;
    for (over, faint) in [(0.1, false), (-0.1, true)] {
        let report = report("box-or-straight", keys(least - loss + over));
        within("level", reading(&report, "level"), least + over, 1e-3);
        let straight = report.ranking.iter().find(|way| way.id == "straight").unwrap();
        let told = straight.reasons.iter().find(|reason| reason.reading.id == "level").unwrap();
        assert_eq!(told.reading.verdict.as_ref().unwrap().tone == Tone::Trouble, faint, "{over}");
    }
}

/// Pads come in steps of 10 dB, in an active box of at least 20, of their own up
/// to 60 dB: a keyboard straight into a microphone input of +10 dBu with 6 dB of
/// headroom.
#[test]
fn pads_of_a_ranking() {
    let pads = |emf: f64| {
        let report = report("box-or-straight", json!({ "source": "keyboard", "power": "floating", "emf": emf }));
        let pad = |id: &str, field: &str| {
            let way = report.ranking.iter().find(|way| way.id == id)?;
            way.link.values.iter().find(|(name, _)| *name == field).map(|(_, text)| text.replace('\u{a0}', " "))
        };
        (pad("straight_pad", "pad"), pad("phantom_pad", "box_gain"))
    };
    let text = |text: &str| Some(text.to_owned());
    // The level for an excess, from the margin of the same way without a pad.
    let emf = |way: &str, excess: f64| {
        let report = report("box-or-straight", json!({ "source": "keyboard", "power": "floating", "emf": 0.1 }));
        let way = report.ranking.iter().find(|other| other.id == way).unwrap();
        let margin = way.reasons.iter().find(|reason| reason.reading.id == "margin").unwrap().reading.value.unwrap();
        0.1 * 10_f64.powf((excess + margin - 6.0) / 20.0)
    };
    assert_eq!(pads(emf("straight", 9.9)).0, text("10 dB"));
    assert_eq!(pads(emf("straight", 10.1)).0, text("20 dB"));
    assert_eq!(pads(emf("straight", 62.5)).0, text("60 dB"));
    assert_eq!(pads(emf("phantom", 5.0)).1, text("−20 dB"));
    assert_eq!(pads(emf("phantom", 25.0)).1, text("−30 dB"));
}

/// What stands for a source, an isolator and an input where nothing else is said
/// (common practice, no source).
#[test]
fn usual_values_of_a_ranking() {
    let check = |values: Value, way: &str, expected: &[(&str, f64)]| {
        let report = report("box-or-straight", values);
        let way = report.ranking.iter().find(|other| other.id == way).unwrap_or_else(|| panic!("no {way}"));
        let filled: serde_json::Map<_, _> =
            way.link.values.iter().map(|(id, text)| ((*id).to_owned(), text.clone().into())).collect();
        let line = ask(json!({ "calculator": way.link.calculator, "values": filled }));
        for (field, value) in expected {
            let got = line.fields.get(field).unwrap().value.unwrap();
            within(field, got, *value, 1e-5 * value.abs());
        }
    };
    for (source, way, expected) in [
        ("guitar", "phantom", &[("emf", 0.2), ("crest", 15.0), ("bass", 80.0), ("treble", 5e3)][..]),
        ("bass", "phantom", &[("emf", 0.2), ("crest", 16.0), ("bass", 40.0), ("treble", 2e3)]),
        ("bass", "phantom", &[("coil_l", 5.0), ("coil_r", 9e3), ("coil_c", 150e-12), ("tone_c", 47e-9)]),
        ("piezo", "phantom", &[("emf", 0.3), ("crest", 15.0), ("bass", 80.0), ("treble", 5e3)]),
        ("piezo", "phantom", &[("box_r", 10e6), ("box_in", 0.04e-12)]),
        ("active", "straight", &[("emf", 0.7), ("crest", 15.0), ("bass", 80.0), ("treble", 5e3), ("source_r", 2e3)]),
        ("keyboard", "straight", &[("emf", 0.1_f64.sqrt()), ("crest", 12.0), ("bass", 40.0), ("treble", 10e3)]),
        (
            "laptop",
            "straight",
            &[("emf", 0.25), ("crest", 12.0), ("bass", 40.0), ("treble", 10e3), ("source_r", 100.0)],
        ),
        ("microphone", "straight", &[("microphone_emf", 2e-3), ("crest", 12.0), ("bass", 80.0), ("treble", 10e3)]),
    ] {
        check(json!({ "source": source }), way, expected);
    }
    let isolator = [("ratio", 1.0), ("r1", 60.0), ("r2", 60.0), ("magnetising", 20.0), ("core_loss", 100e3)];
    check(json!({ "source": "keyboard" }), "isolator", &isolator);
    check(json!({ "source": "keyboard" }), "isolator", &[("leakage", 5e-3), ("c1", 300e-12), ("largest", 18.0)]);
    let line = [("console_r", 10e3), ("console_most", 24.0), ("ein", -95.0)];
    check(json!({ "source": "keyboard", "input": "line" }), "straight", &line);
    let instrument = [("console_r", 1e6), ("console_c", 50e-12), ("console_most", 12.0)];
    check(json!({ "input": "instrument" }), "straight", &instrument);
    check(json!({ "input": "instrument" }), "straight", &[("console_en", 10e-9), ("console_in", 0.1e-12)]);
}

/// Bands as engineers speak of them (common practice, no source), over the range
/// of hearing, 20 Hz to 20 kHz.
#[test]
fn bands_of_a_response() {
    let report = report("pickup", json!({}));
    let response = report.plots.iter().find(|plot| plot.id == "response").unwrap();
    let from: Vec<_> = response.bands.iter().map(|band| band.from).collect();
    assert_eq!(from, [20.0, 60.0, 250.0, 500.0, 2000.0, 4000.0, 8000.0]);
    assert_eq!(response.bands.last().unwrap().to, 20e3);
    assert_eq!((response.x.from, response.x.to), (20.0, 20e3));
    // A corner is marked where half of the power is gone: 10·lg ½.
    let corner = response.markers.iter().find(|marker| marker.text.starts_with("−3 dB")).unwrap();
    let lowest = -20.0 * (1.0_f64 + 6.5e3 / 250e3 + 6.5e3 / 1e6).log10();
    within("corner", corner.y, lowest - 3.010_299_957, 1e-5);
}

/// Where the first thing to do is to stop, nothing is called fine, inaudible or
/// best: 3 V between two earths, and 0.6 mA of leakage with no other earth.
#[test]
fn nothing_is_fine_beside_a_stop() {
    for values in [
        json!({ "difference": 3.0, "connection": "isolated" }),
        json!({ "cause": "leakage", "leakage": 0.6e-3, "other_r": "", "connection": "isolated" }),
    ] {
        let report = report("ground-loop", values);
        let (tone, text) = verdict(&report, "signal_to_hum_a");
        assert!(tone == Tone::Trouble && text.starts_with("stop here first"), "{text}");
    }
    let report = report("box-or-straight", json!({ "source": "keyboard", "power": "earthed", "difference": 3.0 }));
    assert!(!report.ranking.is_empty());
    for way in &report.ranking {
        assert_eq!((way.place, way.verdict.tone), (None, Tone::Trouble), "{}", way.id);
    }
}

/// What is judged is the loss that was computed: a coil whose capacitance makes it
/// resonate loses nothing into a load of less than its impedance.
#[test]
fn a_gain_is_no_loss() {
    let values = json!({ "source_r": 6.5e3, "source_l": 2.5, "source_c": 610e-12, "load_r": 140e3, "load_c": 0.0, "frequency": 4e3 });
    let report = report("source-load", values);
    assert!(reading(&report, "loss") < 0.0 && reading(&report, "ratio") < 2.0);
    assert_eq!(verdict(&report, "loss").0, Tone::Fine);
}

/// Pots that are full up are a load, and no setting; pots that leave a pickup no
/// resonance even so are to blame however they are set.
#[test]
fn pots_that_are_full_up() {
    let pots = |track: &str, volume: f64| {
        let values = json!({ "volume_r": track, "volume_turn": volume, "load_r": 10e6 });
        verdict(&report("pickup", values), "peak_height").1
    };
    for (track, volume, by) in
        [("25k", 1.0, "its own pots"), ("25k", 0.7, "its own pots"), ("250k", 0.5, "the volume control")]
    {
        assert!(pots(track, volume).contains(by), "{track} {volume}: {}", pots(track, volume));
    }
}
