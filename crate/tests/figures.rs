//! How many figures a number is told to.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

mod common;

use common::{ask, reading, report, within};
use serde_json::{Value, json};
use stageohm::calculator::{Calculator, REGISTER};
use stageohm::quantity::read;
use stageohm::report::{Reading, Report};
use stageohm::settings::Settings;

/// The answers of every calculator to its defaults and its presets.
fn reports() -> Vec<(&'static str, Report)> {
    let mut reports = Vec::new();
    for calculator in REGISTER {
        let presets = calculator.presets.iter();
        let sets = presets.flat_map(|preset| std::iter::once(&preset.values).chain(preset.held)).copied();
        for values in std::iter::once(&[][..]).chain(sets) {
            reports.push((calculator.id, report(calculator.id, common::object(values))));
        }
    }
    reports
}

fn readings(report: &Report) -> impl Iterator<Item = &Reading> {
    let reasons = report.ranking.iter().flat_map(|way| &way.reasons).map(|reason| &reason.reading);
    report.headline.iter().chain(&report.further).chain(reasons).filter(|reading| reading.value.is_some())
}

/// The digits of a printed number, without its sign, its unit and the zeros before it;
/// a whole number without a prefix is not cut short.
fn figures(text: &str) -> usize {
    let number: String = text.chars().take_while(|c| c.is_ascii_digit() || ".−".contains(*c)).collect();
    if number.contains('.') {
        number.chars().filter(char::is_ascii_digit).skip_while(|digit| *digit == '0').count()
    } else {
        0
    }
}

/// The places behind the point.
fn places(text: &str) -> usize {
    text.split_once('.').map_or(0, |(_, behind)| behind.chars().take_while(char::is_ascii_digit).count())
}

/// Three figures of a result and 0.1 dB of a level (common practice, no source); a
/// level that is converted has 0.01 dB, a resistor that is designed four figures.
#[test]
fn a_result_has_three_figures() {
    let (mut fine, mut seen) = ([0, 0], 0);
    for (calculator, report) in reports() {
        for Reading { id, unit, text, .. } in readings(&report) {
            let most = if unit.is_level() { 1 } else { 3 };
            let got = if unit.is_level() { places(text) } else { figures(text) };
            let converted = calculator == "levels" && unit.is_level();
            let designed = calculator == "pad" && ["r1", "r2", "r3"].contains(id);
            fine[0] += usize::from(converted && got == 2);
            fine[1] += usize::from(designed && got == 4);
            assert!(got <= most + usize::from(converted || designed), "{calculator} {id}: {text}");
            // A whole number of volts or parts is not rounded to fewer.
            assert!(!unit.is_level() || got == most + usize::from(converted), "{calculator} {id}: {text}");
            seen += 1;
        }
    }
    assert!(seen > 500 && fine.iter().all(|seen| *seen > 0), "{seen} {fine:?}");
}

/// What is copied and saved has the digits of the working, and reads back.
#[test]
fn the_exact_number_is_there_to_copy() {
    let settings = Settings::default();
    for (calculator, report) in reports() {
        for Reading { id, value, unit, exact, text, .. } in readings(&report) {
            let (value, exact) = (value.unwrap(), exact.as_deref().unwrap());
            let size = unit.printing(settings.length).size;
            let back = read(exact, *unit, size, &settings).unwrap().value;
            let slack = if unit.is_level() { 5.1e-5 } else { 5.1e-6 * value.abs() };
            // A loss that is told as a gain has its sign turned.
            let off = (back - value).abs().min(if unit.is_level() { (back + value).abs() } else { f64::INFINITY });
            assert!(off <= slack, "{calculator} {id}: {value} is copied as {exact}");
            assert_eq!(
                exact.starts_with('−'),
                text.starts_with('−') || (exact.len() > 1 && back < 0.0),
                "{id}: {exact}"
            );
        }
    }
}

/// Half the level is lost into a load like the source, 6.0206 dB: 20·lg 2, computed.
#[test]
fn half_the_level() {
    let loss = report("source-load", json!({ "source_r": "10k", "load_r": "10k", "load_c": "0" }));
    let loss = loss.reading("loss").unwrap();
    assert_eq!((loss.text.as_str(), loss.exact.as_deref()), ("6.0\u{a0}dB", Some("6.0206\u{a0}dB")));
}

/// What was typed is told as it was typed, however many figures it has.
#[test]
fn what_was_typed_is_told_as_typed() {
    let typed = report("source-load", json!({ "frequency": "2947 Hz", "limit": "0.25" }));
    assert_eq!(typed.reading("loss").unwrap().name, "Loss at 2.947\u{a0}kHz");
    assert!(typed.reading("least_load").unwrap().name.ends_with("0.25\u{a0}dB"));
    let kept = report("whole-line", json!({ "snr_least": "60" }));
    let text = &kept.reading("snr").unwrap().verdict.as_ref().unwrap().text;
    assert!(text.starts_with("meets your 60\u{a0}dB"), "{text}");
}

/// A source of coil and capacitance that rises into its load: a gain.
fn coil(frequency: &str) -> Value {
    json!({
        "source_r": "6.5k", "source_l": "2.5", "source_c": "610p", "load_r": "1M", "load_c": "0", "frequency": frequency
    })
}

/// A gain is told as one, a loss as one, and what shows as 0.0 dB is no gain.
#[test]
fn a_gain_is_one_where_it_shows() {
    let told = |values: Value| {
        let report = report("source-load", values);
        let loss = report.reading("loss").unwrap();
        (loss.value.unwrap(), loss.name.clone(), loss.text.clone())
    };
    let (loss, name, text) = told(coil("2k"));
    assert!(loss < -1.0 && name.starts_with("Gain at") && !text.contains('−'), "{loss} {name} {text}");
    let (loss, name, text) = told(coil("380"));
    assert!((-0.05..0.0).contains(&loss), "{loss}");
    assert!(name.starts_with("Loss at") && text == "0.0\u{a0}dB", "{name} {text}");
    for (calculator, report) in reports() {
        for Reading { id, name, text, .. } in readings(&report) {
            assert!(!text.starts_with("−0.0\u{a0}") && !text.starts_with("−0.00\u{a0}"), "{calculator} {id}: {text}");
            let gain = name.to_lowercase().contains("gained") || name.starts_with("Gain at");
            assert!(!(gain && text.starts_with("0.0\u{a0}")), "{calculator}: {name}: {text}");
        }
    }
}

/// What is wanted of a reading is wanted as it is told: 1 dB of a gain is a loss of
/// −1 dB; and tolerances spread it as a gain.
#[test]
fn a_gain_is_asked_and_spread_as_one() {
    let answer = ask(json!({
        "calculator": "source-load", "values": coil("2k"),
        "backwards": { "reading": "loss", "value": "1 dB", "field": "frequency" },
        "tolerances": {},
    }));
    let backwards = answer.backwards.unwrap();
    let found = &backwards.found[0];
    assert_eq!(found.reading, "1.0\u{a0}dB");
    let there = report("source-load", coil(&found.value.to_string()));
    within("the gain", reading(&there, "loss"), -1.0, 1e-6);
    let spread = answer.tolerances.unwrap();
    let loss = spread.readings.iter().find(|reading| reading.id == "loss").unwrap();
    assert!(!loss.text.contains('−'), "{}", loss.text);
    let numbers: Vec<f64> =
        loss.text.split(" to ").map(|text| text.trim_end_matches("\u{a0}dB").parse().unwrap()).collect();
    assert!(numbers[0] < numbers[1], "{}", loss.text);
}

/// A limit that a fault names is taken where it is written.
#[test]
fn a_limit_that_is_named_is_taken() {
    for (calculator, values, field) in [
        ("pad", json!({ "design": "matched", "form": "t", "loss": "3", "source_r": "75", "load_r": "50" }), "loss"),
        ("pad", json!({ "design": "matched", "form": "l", "loss": "0.1", "source_r": "75", "load_r": "50" }), "loss"),
        ("pad", json!({ "form": "t", "output_r": "10" }), "output_r"),
        ("pad", json!({ "form": "t", "output_r": "200k" }), "output_r"),
        ("noise-floor", json!({ "ein": "-140" }), "ein"),
        ("level-chain", json!({ "pad": "1" }), "pad_r"),
        ("balance", json!({ "leg_r": "4", "imbalance": "10" }), "imbalance"),
        ("phantom", json!({ "draws": "least", "least": "60" }), "least"),
        ("phantom", json!({ "current": "40 mA" }), "current"),
    ] {
        let refused = ask(json!({ "calculator": calculator, "values": values }));
        let problem = refused.fields.get(field).and_then(|echo| echo.problem.as_ref());
        let problem = problem.unwrap_or_else(|| panic!("{calculator} takes {values}"));
        let unit = Calculator::find(calculator).unwrap().field(field).unwrap().kind.number().unwrap().unit;
        let mut named = limits(&problem.message);
        // What else is named, such as the pad whose input is asked for, is no limit of this field.
        named.retain(|limit| read(limit, unit, 1.0, &Settings::default()).is_ok());
        assert!(!named.is_empty(), "{}", problem.message);
        for limit in named {
            let mut values = values.clone();
            values[field] = json!(limit);
            let taken = ask(json!({ "calculator": calculator, "values": values }));
            assert!(taken.report.is_some(), "{calculator}: “{}”, but {limit} is refused", problem.message);
        }
    }
}

/// The numbers with a unit in a text.
fn limits(text: &str) -> Vec<String> {
    let words: Vec<_> = text.split(' ').collect();
    let limit = |word: &&str| word.contains('\u{a0}');
    words.iter().filter(|word| limit(word)).map(|word| word.trim_end_matches([',', '.', ':', ';']).to_owned()).collect()
}
