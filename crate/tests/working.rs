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
