//! Ground loop against Ohm's law, the law of induction, the A-weighting of
//! IEC 61672-1 and a general circuit simulator.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use serde_json::{Value, json};
use stageohm::answer::Answer;
use stageohm::quantity::VOLTS_AT_0_DBU;

/// The question with the mains frequency alone, unless values say otherwise.
fn ask(values: &Value) -> Answer {
    let mut all = json!({});
    for n in [2, 3, 5, 7, 9, 11] {
        all[format!("harmonic_{n}")] = json!("");
    }
    for (field, value) in values.as_object().unwrap() {
        all[field] = value.clone();
    }
    common::ask(json!({ "calculator": "ground-loop", "values": all }))
}

fn reading(values: &Value, id: &str) -> f64 {
    let answer = ask(values);
    let report = answer.report.unwrap_or_else(|| panic!("{:?}", answer.fields));
    report.reading(id).unwrap().value.unwrap_or_else(|| panic!("no {id}"))
}

fn volts(values: &Value) -> f64 {
    VOLTS_AT_0_DBU * 10_f64.powf(reading(values, "hum") / 20.0)
}

#[track_caller]
fn near(got: f64, expected: f64, relative: f64) {
    assert!((got - expected).abs() <= relative * expected.abs(), "{got} is not {expected}");
}

/// General circuit simulator, AC analysis: 0.1 V behind 0.5 Ω and 20 µH into a
/// shield of 0.22 Ω; the same into 100 pF and 1 kΩ; 0.25 mA of leakage from
/// 115 V into 100 pF and 1 kΩ.
#[test]
fn circuit_simulator() {
    near(volts(&json!({})), 3.055_439_215_27e-2, 1e-9);
    near(volts(&json!({ "connection": "isolated" })), 3.141_592_652_66e-6, 1e-9);
    near(volts(&json!({ "connection": "isolated", "cause": "leakage" })), 3.561_365_101_77e-3, 1e-9);
    // The eleventh harmonic alone of the same e.m.f., at 550 Hz.
    let eleventh = json!({ "harmonic_11": 0.0 });
    let both = volts(&eleventh);
    near((both * both - volts(&json!({})).powi(2)).sqrt(), 3.041_574_128_77e-2, 1e-8);
}

/// The inductance limits the current, but what adds to the signal is the
/// current times resistance alone (Ott 1988): with a loop reactance of 1 Ω and
/// no resistance elsewhere, E·R/√(R² + 1).
#[test]
fn inductance_cancels_inside_its_own_shield() {
    let l = 1.0 / (2.0 * std::f64::consts::PI * 50.0);
    let values = json!({ "earth_r": 0.0, "inductance": l, "contact_r": 1e-6, "shield_r": 0.02, "lead_length": 10.0 });
    let r = 0.200_002_f64;
    near(volts(&values), 0.1 * r / (r * r + 1.0).sqrt(), 1e-9);
}

/// Leakage by Ohm's law: 0.25 mA through 0.2 Ω is 50 µV; shared with an earth of
/// 0.2 Ω it halves.
#[test]
fn leakage() {
    let values = json!({ "cause": "leakage", "lead_length": 9.0, "inductance": 0.0 });
    near(volts(&values), 50e-6, 1e-6);
    let shared = json!({ "cause": "leakage", "lead_length": 9.0, "inductance": 0.0, "other_r": 0.2 });
    near(volts(&shared), 25e-6, 1e-6);
}

/// Law of induction: 2π·50 Hz·1 µT·5 m² = 1.5708 mV around 0.72 Ω.
#[test]
fn induction() {
    let values = json!({ "cause": "field", "inductance": 0.0 });
    near(volts(&values), 1.570_796e-3 * 0.22 / 0.72, 1e-6);
}

/// IEC 61672-1 table 3 (from memory): −30.2 dB at 50 Hz, −26.2 dB at 63 Hz; the
/// formula gives −30.3 dB at 50 Hz. Two equal components add 3.01 dB.
#[test]
fn weighting_and_sums() {
    let weight = reading(&json!({}), "hum_a") - reading(&json!({}), "hum");
    assert!((weight + 30.25).abs() < 0.1, "{weight}");
    let resistive = |third: Value| reading(&json!({ "inductance": 0.0, "harmonic_3": third }), "hum");
    near(resistive(json!(0.0)) - resistive(json!("")), 3.0103, 1e-4);
    // Hum from another loop at the same frequency adds as a voltage instead.
    let same = volts(&json!({ "other_hum": 0.01 })) - volts(&json!({}));
    near(same, 0.01, 1e-9);
}

/// Isolation falls 20 dB a decade: a component of ten times the frequency comes
/// through ten times as large (1/(2π·f·C) against a small resistance).
#[test]
fn isolation_falls_with_frequency() {
    let alone = |n: &str, mains: &str| {
        let plain = volts(&json!({ "connection": "screened", "mains": mains }));
        let with = volts(&json!({ "connection": "screened", "mains": mains, n: 0.0 }));
        (with * with - plain * plain).sqrt() / plain
    };
    for (harmonic, order) in [
        ("harmonic_2", 2.0),
        ("harmonic_3", 3.0),
        ("harmonic_5", 5.0),
        ("harmonic_7", 7.0),
        ("harmonic_9", 9.0),
        ("harmonic_11", 11.0),
    ] {
        near(alone(harmonic, "50"), order, 1e-6);
        near(alone(harmonic, "60"), order, 1e-6);
    }
}

/// A balanced line takes its rejection off; a pin-1 fault puts current times
/// its resistance back, whatever the rejection.
#[test]
fn balanced() {
    near(reading(&json!({ "connection": "balanced", "rejection": 74.0 }), "improvement"), 74.0, 1e-9);
    let fault = json!({ "connection": "balanced", "rejection": 200.0, "pin_1_r": 0.05, "inductance": 0.0 });
    near(volts(&fault), 0.1 / 0.77 * 0.05, 1e-8);
    // Of 40 dB the legs make a hundredth of what is common to them, which is along 0.22 Ω
    // of shield and 0.05 Ω in the equipment, and the fault comes on top, in phase.
    let fault = json!({ "connection": "balanced", "rejection": 40.0, "pin_1_r": 0.05, "inductance": 0.0 });
    near(volts(&fault), 0.1 / 0.77 * (0.27 * 0.01 + 0.05), 1e-8);
}

#[test]
fn danger_comes_first() {
    let answer = ask(&json!({}));
    let report = answer.report.unwrap();
    assert!(report.cautions[0].starts_with("Never lift"), "{:?}", report.cautions);
    assert!(report.cautions[1].contains("licensed electrician"));
    let faulty = ask(&json!({ "difference": 3.0 })).report.unwrap();
    assert!(faulty.warnings.iter().any(|warning| warning.starts_with("Stop here")), "{:?}", faulty.warnings);
    let deadly = ask(&json!({ "difference": 60.0 }));
    assert!(deadly.report.is_none());
    assert!(deadly.fields.get("difference").unwrap().problem.as_ref().unwrap().message.contains("danger to life"));
}

/// Between harmonics there is nothing, and nothing is drawn: a height each, and no more.
#[test]
fn a_harmonic_is_one_stem() {
    let report =
        common::ask(json!({ "calculator": "ground-loop", "values": { "connection": "balanced" } })).report.unwrap();
    let plot = &report.plots[0];
    assert!(plot.x.discrete && plot.traces.len() == 2);
    for trace in &plot.traces {
        assert_eq!(trace.x, plot.stops, "{}", trace.id);
        assert!(trace.y.iter().all(|level| *level > plot.y.from), "{}: {:?} over {}", trace.id, trace.y, plot.y.from);
    }
}

/// Harmonics are whole multiples of the mains frequency.
#[test]
fn harmonics_of_the_mains() {
    for (mains, expected) in [
        ("50", [50.0, 100.0, 150.0, 250.0, 350.0, 450.0, 550.0]),
        ("60", [60.0, 120.0, 180.0, 300.0, 420.0, 540.0, 660.0]),
    ] {
        let asked = json!({ "calculator": "ground-loop", "values": { "mains": mains } });
        let report = common::ask(asked).report.unwrap();
        assert_eq!(report.plots.first().unwrap().stops, expected);
    }
}

/// Where nothing hums, no connection is better than another, and nothing is computed from
/// two levels of nothing.
#[test]
fn nothing_to_make_better() {
    let silent = json!({ "difference": 0.0, "connection": "isolated" });
    let report = common::report("ground-loop", silent);
    assert!(report.reading("improvement").is_none());
    assert!(report.working.iter().all(|step| !step.result.contains('?')));
    let report = common::report("ground-loop", json!({ "connection": "isolated" }));
    assert!(report.reading("improvement").unwrap().value.unwrap() > 40.0);
}
