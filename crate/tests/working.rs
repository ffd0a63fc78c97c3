//! The working is what was computed: every printed substitution is read back
//! and evaluated, and must give the result that is printed beside it.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::ask;
use common::step::flaw;
use serde_json::json;
use stageohm::calculator::{Calculator, REGISTER};
use stageohm::report::Report;

fn reports(calculator: &Calculator) -> Vec<(String, Report)> {
    let presets = calculator.presets.iter().flat_map(|preset| {
        std::iter::once(preset.values)
            .chain(preset.held.iter().copied())
            .map(|values| (preset.id.to_owned(), values.iter().copied().collect()))
    });
    std::iter::once(("defaults".to_owned(), std::collections::BTreeMap::new()))
        .chain(presets)
        .filter_map(|(name, values)| {
            let answer = ask(json!({ "calculator": calculator.id, "values": values }));
            answer.report.map(|report| (format!("{}/{name}", calculator.id), report))
        })
        .collect()
}

#[test]
fn every_printed_substitution_gives_its_result() {
    let mut steps = 0;
    for calculator in REGISTER {
        for (place, report) in reports(calculator) {
            assert!(!report.working.is_empty(), "{place} shows no working");
            for step in &report.working {
                assert_eq!(flaw(step), None, "{place}");
                steps += 1;
            }
        }
    }
    assert!(steps > 100, "only {steps} steps were checked");
}

/// The walk from load to source ends in the level that the engine gives.
#[test]
fn the_walk_agrees_with_the_engine() {
    for (calculator, values, reading) in [
        ("pickup", json!({}), "level_at"),
        (
            "pickup",
            json!({ "coils": "series", "coil_loss": "500k", "volume_turn": "60 %", "tone_turn": "20 %" }),
            "level_at",
        ),
        ("transformer", json!({}), "level"),
        ("transformer", json!({ "c2": "470p", "load_c": "220p", "source_l": "1 H" }), "level"),
    ] {
        let report = common::report(calculator, values);
        let walked = report.working.iter().find(|step| step.formula.starts_with("a = ")).unwrap().value;
        let engine = common::reading(&report, reading);
        assert!((walked - engine).abs() < 1e-9, "{calculator}: {walked} is not {engine}");
    }
}

/// Found by a search over frequency or length, which no formula gives; the working
/// walks the line there.
const SEARCHED: &[&str] =
    &["peak", "resonance", "longest_loss", "longest_resonance", "high_corner", "low_corner", "loss_e24"];
/// Told by counting, or of another line whose own working shows it.
const COUNTED: &[&str] = &["broken", "parts", "next_broken", "tightest"];

/// Every answer to read first is what some step of the working comes to.
#[test]
fn the_working_explains_the_headlines() {
    let mut unexplained = Vec::new();
    let mut explained = 0;
    for calculator in REGISTER {
        for (place, report) in reports(calculator) {
            for reading in &report.headline {
                let Some(value) = reading.value else { continue };
                let is_told = SEARCHED.contains(&reading.id) || COUNTED.contains(&reading.id);
                let near = |step: f64| (step - value).abs() <= 1e-9 * value.abs().max(1e-12);
                if report.working.iter().any(|step| near(step.value)) {
                    explained += 1;
                } else if !is_told {
                    unexplained.push(format!("{place}: {} = {}", reading.id, reading.text));
                }
            }
        }
    }
    assert_eq!(unexplained, Vec::<String>::new());
    assert!(explained > 100, "only {explained}");
}

/// The voltage of a level in dBu.
fn volts(level: f64) -> f64 {
    0.6_f64.sqrt() * 10_f64.powf(level / 20.0)
}

fn step(report: &Report, symbol: &str) -> f64 {
    let equals = format!("{symbol} = ");
    let step = report.working.iter().find(|step| step.formula.starts_with(&equals));
    step.unwrap_or_else(|| panic!("no step {symbol}")).value
}

#[track_caller]
fn agree(walked: f64, engine: f64, place: &str) {
    assert!((walked - engine).abs() <= 1e-9 * engine.abs(), "{place}: {walked} is not {engine}");
}

/// The working of a loop, component by component, comes to what the part computes.
#[test]
fn the_working_of_a_loop_agrees_with_the_engine() {
    for cause in [
        json!({ "cause": "difference", "inductance": "2 mH" }),
        json!({ "cause": "field", "density": "2 µT", "area": "10 m²" }),
        json!({ "cause": "leakage" }),
        json!({ "cause": "leakage", "other_r": "0.4" }),
    ] {
        for connection in [
            json!({ "connection": "unbalanced", "other_hum": "1 mV" }),
            json!({ "connection": "balanced", "rejection": "50", "pin_1_r": "0.05" }),
            json!({ "connection": "isolated" }),
            json!({ "connection": "screened", "circuit_r": "600" }),
        ] {
            let mut values = cause.clone();
            for (field, value) in connection.as_object().unwrap() {
                values[field] = value.clone();
            }
            let place = values.to_string();
            let report = common::report("ground-loop", values);
            agree(step(&report, "U"), volts(common::reading(&report, "hum")), &place);
            agree(step(&report, "U_A"), volts(common::reading(&report, "hum_a")), &place);
            let currents = [1, 2, 3, 5, 7, 9, 11].map(|n| step(&report, &format!("I_{n}")).powi(2));
            agree(currents.iter().sum::<f64>().sqrt(), common::reading(&report, "current"), &place);
        }
    }
}

/// The working of the loops of a line at the mains frequency comes to what the parts
/// compute, where there are no harmonics.
#[test]
fn the_working_of_two_loops_agrees_with_the_engine() {
    for source in [
        json!({ "source": "pickup" }),
        json!({ "source": "output", "power": "earthed" }),
        json!({ "source": "output", "power": "leaking", "other_r": "3" }),
        json!({ "source": "balanced", "power": "earthed" }),
    ] {
        for way in [
            json!({ "box": "passive", "thru": "earthed" }),
            json!({ "box": "passive", "ground": "lifted", "thru": "earthed", "pad": "20" }),
            json!({ "box": "passive", "ground": "lifted", "run": "unbalanced" }),
            json!({ "box": "active", "powered": "battery", "thru": "earthed", "inductance": "2 mH" }),
            json!({ "box": "none", "run": "unbalanced", "run_length": "10 m" }),
            json!({ "box": "none", "run": "balanced", "pin_1_r": "0.05" }),
            json!({ "box": "none", "run": "balanced", "split": "same", "second_shared_r": "0.2" }),
            json!({ "box": "active", "powered": "battery", "split": "direct", "second_shared_r": "0.3" }),
            json!({ "box": "passive", "split": "same", "second_shared_r": "0.3" }),
            json!({ "box": "passive", "split": "direct", "second_shared_r": "0.3", "thru": "earthed", "shared_earth_r": "0.1" }),
            json!({ "box": "passive", "split": "direct", "second_shared_r": "0.1", "thru": "same", "shared_earth_r": "0.3" }),
            json!({ "box": "passive", "split": "same", "second_shared_r": "0.2", "thru": "earthed", "shared_earth_r": "0.2" }),
        ] {
            let mut values = json!({ "phantom": "off" });
            for n in [2, 3, 5, 7, 9, 11] {
                values[format!("harmonic_{n}")] = json!("");
            }
            for (field, value) in source.as_object().unwrap().iter().chain(way.as_object().unwrap()) {
                values[field] = value.clone();
            }
            let place = values.to_string();
            let report = common::report("whole-line", values);
            let Some(current) = report.reading("current") else {
                // Without a loop there is only what unbalanced leads take up.
                if let Some(hum) = report.reading("hum").unwrap().value {
                    agree(step(&report, "U_f"), volts(hum), &place);
                } else {
                    assert!(report.working.iter().all(|step| !step.formula.starts_with("U_f")), "{place}");
                }
                continue;
            };
            agree(step(&report, "I_s3"), current.value.unwrap(), &place);
            agree(step(&report, "U_f"), volts(common::reading(&report, "hum")), &place);
        }
    }
}
