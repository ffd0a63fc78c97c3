//! The simple formulas beside the answers: written with the symbols that stand
//! beside the fields, and right where nothing else plays a part.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::within;
use serde_json::json;
use stageohm::answer::describe;
use stageohm::calculator::REGISTER;
use stageohm::expression::{Given, parse};
use stageohm::quantity::Unit;
use stageohm::settings::Settings;

/// What a formula comes to with these values by their symbols.
fn value(formula: &str, given: &[(&str, f64)]) -> f64 {
    let (_, formula) = formula.split_once(" = ").unwrap();
    let scope: Vec<_> = given
        .iter()
        .map(|(name, value)| Given { name: (*name).into(), value: (*value).into(), unit: Unit::One })
        .collect();
    parse(formula).unwrap().value(&scope).unwrap_or_else(|error| panic!("{formula}: {error:?}")).re
}

/// Names of a printed formula: a letter and what follows it.
fn names(formula: &str) -> Vec<String> {
    let mut names = Vec::new();
    let mut name = String::new();
    for c in formula.chars().chain([' ']) {
        if c.is_alphanumeric() || c == '_' || c == '′' {
            name.push(c);
        } else if !name.is_empty() {
            names.push(std::mem::take(&mut name));
        }
    }
    names.retain(|name| !name.starts_with(|c: char| c.is_ascii_digit()));
    names.retain(|name| !["π", "log10", "√", "sqrt"].contains(&name.as_str()));
    names
}

#[test]
fn every_symbol_stands_beside_a_field_or_is_said() {
    let descriptions = describe(&Settings::default());
    let mut found = 0;
    for calculator in REGISTER {
        let description = descriptions.iter().find(|description| description.id == calculator.id).unwrap();
        let values = std::iter::once(&[][..]).chain(calculator.presets.iter().map(|preset| preset.values));
        for values in values {
            let values: std::collections::BTreeMap<_, _> = values.iter().copied().collect();
            let answer = common::ask(json!({ "calculator": calculator.id, "values": values }));
            let report = answer.report.unwrap();
            let because: Vec<_> = report.headline.iter().filter_map(|reading| reading.because.as_ref()).collect();
            assert!(because.len() <= 2, "{}: {because:?}", calculator.id);
            assert!(report.further.iter().all(|reading| reading.because.is_none()), "{}", calculator.id);
            for because in because {
                found += 1;
                assert!(because.text.starts_with("because "), "{}", because.text);
                assert!(because.formula_mathml.contains("<mo>=</mo>"), "{}", because.formula_mathml);
                let (_, formula) = because.formula.split_once(" = ").unwrap();
                for name in names(formula) {
                    let asked = description.fields.iter().any(|field| {
                        field.symbol == name && answer.fields.get(field.id).is_some_and(|echo| echo.active)
                    });
                    // What no field asks for is said, or a step of the working.
                    let said = because.text.split([' ', ',', ':']).any(|word| word == name)
                        || report.working.iter().any(|step| step.formula.contains(&name));
                    assert!(asked || said, "{}: {name} in {}", calculator.id, because.formula);
                }
            }
        }
    }
    assert!(found > 20, "{found}");
}

/// Where only what the simple formula knows plays a part, it gives the answer.
#[test]
fn the_simple_formulas_are_those_of_the_textbook() {
    let because = |report: &stageohm::report::Report| report.headline[0].because.clone().unwrap().formula;

    let bare = json!({ "source_r": "10k", "source_l": "0", "source_c": "0", "load_r": "20k", "load_c": "0", "emf": "3 V", "coupling_c": "" });
    let report = common::report("source-load", bare);
    within("divider", value(&because(&report), &[("E", 3.0), ("R_S", 10e3), ("R_L", 20e3)]), 2.0, 1e-12);
    within("the same", common::reading(&report, "level"), 2.0, 1e-9);

    // 2.5 H with 1 nF resonates at 1 / (2π √(2.5e-9)) = 3183 Hz.
    let report = common::report("pickup", json!({}));
    let given = [("L_P", 2.5), ("C_W", 0.2e-9), ("C′", 0.1e-9), ("l", 6.0), ("C_L", 0.2e-9)];
    within("resonance", value(&because(&report), &given), 3183.1, 0.1);

    let report = common::report("transformer", json!({}));
    within("square of the turns", value(&because(&report), &[("n", 12.0), ("R_L", 1e3)]), 144e3, 1e-6);

    // 10 kΩ and 1 nF: 15.9 kHz.
    let report = common::report("lead-length", json!({ "source": "unbalanced" }));
    let corner = value(&because(&report), &[("R_S", 10e3), ("C′", 0.1e-9), ("l", 10.0)]);
    within("low-pass", corner, 15_915.5, 0.1);

    let report = common::report("levels", json!({}));
    within("0 dBu", value(&because(&report), &[("U", 0.6_f64.sqrt()), ("U_0", 0.6_f64.sqrt())]), 0.0, 1e-12);

    let report = common::report("level-chain", json!({}));
    // A sine at +10 dBu under a clip level of +22 dBu.
    within(
        "sine",
        value(&because(&report), &[("a_C", 22.0), ("a", 10.0), ("c", 20.0 * 2_f64.sqrt().log10())]),
        12.0,
        1e-9,
    );

    // IEC 61938 has 6.81 kΩ in each leg: 48 V and 4 mA leave 34.38 V at once.
    let report = common::report("phantom", json!({}));
    let given = [("U_P", 48.0), ("I_D", 4e-3), ("R_F", 6.81e3)];
    within("phantom", value(&because(&report), &given), 34.38, 1e-9);

    // 10 kΩ over 10 Ω: 60 dB, as IEC 60268-3 measures it.
    let report = common::report("balance", json!({}));
    within("balance", value(&because(&report), &[("R_I", 10e3), ("ΔR", 10.0)]), 60.0, 1e-9);

    // 100 mA along 10 m of 20 mΩ/m and two contacts of 10 mΩ.
    let report = common::report("ground-loop", json!({}));
    within(
        "shield",
        value(&because(&report), &[("I", 0.1), ("R′_sh", 0.02), ("l", 10.0), ("R_k", 0.01)]),
        0.022,
        1e-12,
    );
}

/// What a formula does not explain has none: a resonance that the tone control makes or
/// a load has damped, hum that comes past the shield, tone that the input takes.
#[test]
fn no_formula_for_something_else() {
    let because = |calculator: &str, values: serde_json::Value| {
        let report = common::report(calculator, values);
        report.headline.into_iter().find_map(|reading| reading.because).map(|because| because.formula)
    };
    assert!(because("pickup", json!({})).is_some());
    assert_eq!(because("pickup", json!({ "tone_turn": "0 %" })), None);
    assert_eq!(because("pickup", json!({ "load_r": "10k" })), None);
    assert!(because("ground-loop", json!({})).is_some());
    for connection in ["balanced", "isolated", "screened"] {
        assert_eq!(because("ground-loop", json!({ "connection": connection })), None, "{connection}");
    }
    let tone = |values| because("whole-line", values).unwrap_or_default();
    assert!(tone(json!({})).starts_with("f_0"));
    assert!(!tone(json!({ "box": "none" })).starts_with("f_0"));
}

/// All that makes noise stands in the formula of the noise, which gives the headline.
#[test]
fn all_noise_in_the_formula() {
    for values in [json!({}), json!({ "box": "none", "source": "microphone" }), json!({ "box": "active" })] {
        let report = common::report("noise-floor", values);
        let formula = report.headline[0].because.clone().unwrap().formula;
        let level = |id: &str| common::reading(&report, id);
        let parts = [
            ("U_S", "of_source"),
            ("U_T", "of_transformer"),
            ("U_B", "of_box"),
            ("U_K", "of_console"),
            ("U_D", "of_converter"),
        ];
        let given: Vec<_> = parts
            .iter()
            .filter(|(symbol, _)| formula.contains(symbol))
            .map(|(symbol, id)| (*symbol, 0.6_f64.sqrt() * 10_f64.powf(level(id) / 20.0)))
            .collect();
        let volts = value(&formula, &given);
        within("noise", 20.0 * (volts / 0.6_f64.sqrt()).log10(), level("noise"), 1e-6);
    }
}
