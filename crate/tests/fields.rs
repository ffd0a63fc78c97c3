//! What may be put into a field: its limits, its default, values of the trade
//! and presets are taken however they are written.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::ask;
use common::question::every_setting;
use serde_json::{Value, json};
use stageohm::ask::{Echo, Entry};
use stageohm::calculator::{Calculator, REGISTER};
use stageohm::field::{Kind, Number, Values};
use stageohm::named::Named;
use stageohm::quantity::{Unit, VOLTS_AT_0_DBU, write, write_entry};
use stageohm::settings::{Length, Settings};

/// What a field makes of an entry, by itself: the choices are those under which
/// it plays a part.
fn echo(calculator: &Calculator, field: &str, entry: &Value, settings: &Settings) -> Echo {
    let mut entries = Named::default();
    entries.insert(field.to_owned(), serde_json::from_value::<Entry>(entry.clone()).unwrap());
    let mut next = calculator.field(field);
    while let Some((choice, answers)) = next.and_then(|field| field.when) {
        entries.insert(choice, Entry::Text(answers[0].to_owned()));
        next = calculator.field(choice);
    }
    let (_, echoes) = Values::read(calculator, &entries, settings);
    let echo = echoes.get(field).unwrap().clone();
    assert!(echo.active, "{} {field} plays no part", calculator.id);
    echo
}

/// Takes an entry of a field, or says who refused it.
#[track_caller]
fn taken(calculator: &Calculator, field: &str, entry: &Value, settings: &Settings) -> Echo {
    let echo = echo(calculator, field, entry, settings);
    let problem = echo.problem.as_ref().map(|problem| &problem.message);
    assert_eq!(problem, None, "{} {field}: {entry} under {settings:?}", calculator.id);
    echo
}

/// The question of every calculator is a few of its own fields, each once, and at the
/// start some but no more than four of them are there to be answered.
#[test]
fn the_question_is_a_few_fields() {
    for calculator in REGISTER {
        let (_, echoes) = Values::read(calculator, &Named::default(), &Settings::default());
        let mut seen = std::collections::BTreeSet::new();
        for id in calculator.first {
            assert!(calculator.field(id).is_some(), "{} has no {id}", calculator.id);
            assert!(seen.insert(id), "{} asks for {id} twice", calculator.id);
        }
        let active = calculator.first.iter().filter(|id| echoes.get(id).unwrap().active).count();
        assert!((1..=4).contains(&active), "{} asks {active} first", calculator.id);
    }
}

/// A voltage that changes the answer is there to be seen: what stands on no earth cannot
/// share one, so that the thru or the second console has its own.
#[test]
fn a_voltage_that_hums_is_shown() {
    for (field, choices) in [
        ("amp_difference", json!({ "source": "pickup", "box": "passive", "phantom": "off", "thru": "same" })),
        ("second_difference", json!({ "source": "microphone", "box": "none", "phantom": "off", "split": "same" })),
    ] {
        let at = |volts: f64| {
            let mut values = choices.clone();
            values[field] = volts.into();
            ask(json!({ "calculator": "whole-line", "values": values, "working": false }))
        };
        let (less, more) = (at(0.01), at(0.3));
        let [of_less, of_more] = [less.report, more.report].map(|report| {
            let report = report.unwrap();
            ["signal_to_hum", "amplifier_hum"].map(|id| report.reading(id).and_then(|reading| reading.value))
        });
        assert_ne!(of_less, of_more, "{field}");
        assert!(less.fields.get(field).unwrap().active, "{field} is not shown");
    }
}

fn numbers() -> impl Iterator<Item = (&'static Calculator, &'static str, &'static Number)> {
    REGISTER.iter().flat_map(|calculator| {
        calculator.fields.iter().filter_map(|field| match &field.kind {
            Kind::Number(number) => Some((*calculator, field.id, number)),
            Kind::Choice(_) => None,
        })
    })
}

/// A value as a reader may write it: in the unit of these settings, in that of
/// others, and a voltage as a level.
fn ways(value: f64, unit: Unit, settings: &Settings) -> Vec<String> {
    let other = match settings.length {
        Length::Metre => Length::Foot,
        Length::Foot => Length::Metre,
    };
    let other = Settings { length: other, ..*settings };
    let mut ways =
        vec![write(value, unit, 6, settings), write_entry(value, unit, settings), write(value, unit, 6, &other)];
    if unit == Unit::Volt && value > 0.0 {
        for (unit, reference) in [(Unit::DecibelV, 1.0), (Unit::DecibelU, VOLTS_AT_0_DBU)] {
            ways.push(write(20.0 * (value / reference).log10(), unit, 6, settings));
        }
    }
    ways
}

#[test]
fn a_limit_is_taken_in_whatever_unit_it_is_written() {
    let mut written = 0;
    for (calculator, field, number) in numbers().filter(|(_, _, number)| number.unit_from.is_none()) {
        for settings in every_setting() {
            for limit in [number.limits.0, number.limits.1] {
                for text in ways(limit, number.unit, &settings) {
                    let value = taken(calculator, field, &json!(text), &settings).value.unwrap();
                    let (from, to) = number.limits;
                    assert!((from..=to).contains(&value), "{field}: {text} is {value}, beyond {from} to {to}");
                    assert!((value - limit).abs() <= 2e-5 * limit.abs(), "{field}: {text} is {value} and not {limit}");
                    written += 1;
                }
            }
        }
    }
    assert!(written > 5000, "only {written} were written");
}

/// What goes beyond by more than its digits is refused, and the message names
/// limits that are taken as they stand in it.
#[test]
fn past_a_limit_the_message_names_what_is_taken() {
    let printed = |text: &str, behind: &str| text.split(behind).nth(1).map(str::to_owned);
    for (calculator, field, number) in numbers().filter(|(_, _, number)| number.unit_from.is_none()) {
        for settings in every_setting() {
            let (from, to) = number.limits;
            for beyond in [from - 1e-3 * from.abs().max(1.0), to * 1.001 + 1e-3] {
                let problem = echo(calculator, field, &json!(beyond), &settings).problem;
                let problem = problem.unwrap_or_else(|| panic!("{} {field} takes {beyond}", calculator.id));
                let span = printed(&problem.message, " from ").unwrap();
                for limit in span.trim_end_matches('.').split(" to ") {
                    taken(calculator, field, &json!(limit), &settings);
                }
            }
        }
    }
}

/// 10 km are 32 808.3990 ft, international feet of 0.3048 m.
#[test]
fn ten_kilometres_in_feet() {
    let calculator = Calculator::find("lead-length").unwrap();
    let feet = Settings { length: Length::Foot, ..Settings::default() };
    let shown = taken(calculator, "lead_length", &json!(10_000), &feet).text;
    assert_eq!(shown, "32808.4\u{a0}ft");
    assert_eq!(taken(calculator, "lead_length", &json!(shown), &feet).value, Some(10_000.0));
    let problem = echo(calculator, "lead_length", &json!("32809 ft"), &feet).problem;
    assert!(problem.is_some_and(|problem| problem.message.contains("32808.4\u{a0}ft")));
}

/// What is usual goes from one end to the other, both of them in it, and what lies just
/// outside is taken with a note.
#[test]
fn what_is_unusual_is_noted() {
    let settings = Settings::default();
    for (calculator, field, number) in numbers().filter(|(_, _, number)| number.unit_from.is_none()) {
        let noted = |value: f64| taken(calculator, field, &json!(value), &settings).note.is_some();
        let (from, to) = number.usual;
        let beyond = 1e-3 * (to - from);
        assert!(!noted(from) && !noted(to), "{field} of {}: {from} to {to}", calculator.id);
        assert!(from - beyond < number.limits.0 || noted(from - beyond), "{field} of {}: {from}", calculator.id);
        assert!(to + beyond > number.limits.1 || noted(to + beyond), "{field} of {}: {to}", calculator.id);
    }
}

/// Less than nothing in a field of volts is a level whose unit was left out, and is
/// offered as one; a resistance below zero is nothing of the kind.
#[test]
fn a_level_without_its_unit_is_offered_as_one() {
    let settings = Settings::default();
    let calculator = Calculator::find("source-load").unwrap();
    let offers = |field: &str, text: &str| echo(calculator, field, &json!(text), &settings).problem.unwrap().offers;
    assert_eq!(offers("emf", "-10"), ["−10 dBV", "−10 dBu"]);
    assert_eq!(offers("emf", "2 kV"), Vec::<String>::new());
    assert_eq!(offers("source_r", "-10"), Vec::<String>::new());
}

/// A slider goes by factors where what is usual spans 30:1 and more; levels are such a
/// scale already, and nothing that may be zero can be on one.
#[test]
fn a_wide_span_is_slid_by_factors() {
    let is_log = |calculator: &str, field: &str| {
        let field = Calculator::find(calculator).unwrap().field(field).unwrap();
        field.kind.number().unwrap().is_log()
    };
    assert!(is_log("source-load", "source_r") && is_log("source-load", "load_r"));
    assert!(!is_log("source-load", "limit") && !is_log("level-chain", "gain") && !is_log("pickup", "tone_turn"));
}

/// Defaults, ends of sliders and values of the trade, as a field would show them.
#[test]
fn what_a_field_offers_it_takes() {
    let mut offered = 0;
    for (calculator, field, number) in numbers() {
        let unit = number.unit;
        let ends = [number.usual.0, number.usual.1].map(Some);
        let ends = if number.unit_from.is_some() { [None, None] } else { ends };
        let marks = number.marks.iter().flat_map(|mark| {
            let (from, to) = mark.range.unwrap_or((mark.value, mark.value));
            [from, mark.value, to].map(Some)
        });
        for value in [number.default].into_iter().chain(ends).chain(marks).flatten() {
            for settings in every_setting() {
                let shown = taken(calculator, field, &json!(value), &settings);
                let back = taken(calculator, field, &json!(shown.text), &settings).value.unwrap();
                assert!(
                    (back - value).abs() <= 2e-5 * value.abs(),
                    "{field}: {value} is {} is {back} {unit:?}",
                    shown.text
                );
                offered += 1;
            }
        }
    }
    assert!(offered > 5000, "only {offered} values are offered");
}

/// A refusal that names a limit has it taken where it is written, under every
/// setting, to the digits that are shown.
#[test]
fn a_named_limit_is_taken() {
    let refusals = [
        ("noise-floor", json!({ "ein": -139.0 }), "ein"),
        ("level-chain", json!({ "pad": 20, "pad_r": 1e6, "console_r": 2345.67 }), "pad_r"),
        ("pad", json!({ "design": "matched", "form": "l", "source_r": 75, "load_r": 50, "loss": 1 }), "loss"),
        ("pad", json!({ "design": "matched", "form": "t", "source_r": 77, "load_r": 50, "loss": 1 }), "loss"),
        ("pad", json!({ "input_r": 90e3, "load_r": 1234.567 }), "input_r"),
        ("pad", json!({ "form": "pi", "output_r": 1e6 }), "output_r"),
        ("pad", json!({ "form": "t", "output_r": 1 }), "output_r"),
        ("phantom", json!({ "draws": "least", "least": 60 }), "least"),
        ("phantom", json!({ "current": 0.05 }), "current"),
        ("balance", json!({ "legs": "mean", "leg_r": 12.3456, "imbalance": 1e3 }), "imbalance"),
        ("balance", json!({ "c_imbalance": 1e-6, "leg_c": 123.456e-12 }), "c_imbalance"),
    ];
    let mut taken = 0;
    for (calculator, values, field) in refusals {
        for settings in every_setting() {
            let problem = |values: &Value| {
                let asked = ask(json!({ "calculator": calculator, "values": values, "settings": settings }));
                asked.fields.get(field).unwrap().problem.clone()
            };
            let message = problem(&values).unwrap_or_else(|| panic!("{values} is taken")).message;
            // A number and its unit, wherever they stand.
            let limits: Vec<_> = message
                .split([' ', ':', ';'])
                .filter(|word| word.contains('\u{a0}'))
                .map(|word| word.trim_end_matches(['.', ',']))
                .collect();
            let is_taken = |limit: &&&str| {
                let mut values = values.clone();
                values[field] = json!(limit);
                problem(&values).is_none()
            };
            assert!(limits.iter().any(|limit| is_taken(&limit)), "{values}: “{message}”");
            taken += 1;
        }
    }
    assert!(taken >= 80, "only {taken}");
}

/// Presets are written under the settings of links, and read under those of the
/// reader once what they mean is written anew.
#[test]
fn presets_are_taken_under_every_setting() {
    for calculator in REGISTER {
        let presets = calculator.presets.iter();
        for values in presets.flat_map(|preset| std::iter::once(preset.values).chain(preset.held.iter().copied())) {
            for (field, text) in values {
                let meant = taken(calculator, field, &json!(text), &Settings::default());
                for settings in every_setting() {
                    let entry = meant.value.map_or(json!(meant.text), |value| json!(value));
                    let shown = taken(calculator, field, &entry, &settings);
                    let again = taken(calculator, field, &json!(shown.text), &settings);
                    let near = |a: f64, b: f64| (a - b).abs() <= 1e-5 * b.abs();
                    let same = again.value.zip(meant.value).map_or(again.text == meant.text, |(a, b)| near(a, b));
                    assert!(same, "{} {field}: {text} becomes {}", calculator.id, shown.text);
                }
            }
        }
    }
}

/// A symbol of the formulas stands for one thing: two fields have the same only
/// where they are never asked together.
#[test]
fn symbols_are_unique_in_a_calculator() {
    let mut shared = Vec::new();
    for calculator in REGISTER {
        let fields: Vec<_> = calculator.fields.iter().filter(|field| !field.symbol.is_empty()).collect();
        for (i, a) in fields.iter().enumerate() {
            for b in fields.iter().skip(i + 1).filter(|b| b.symbol == a.symbol) {
                let apart = match (a.when, b.when) {
                    (Some((choice, answers)), Some((other, others))) => {
                        choice == other && !answers.iter().any(|answer| others.contains(answer))
                    }
                    _ => false,
                };
                if !apart {
                    shared.push(format!("{}: {} is {} and {}", calculator.id, a.symbol, a.id, b.id));
                }
            }
        }
    }
    assert_eq!(shared, Vec::<String>::new());
}

/// What an empty field says of itself can be typed into it.
#[test]
fn none_is_empty() {
    let put = |text: &str| ask(json!({ "calculator": "ground-loop", "values": { "other_hum": text } }));
    let answer = put("none");
    assert!(answer.problems.is_empty(), "{:?}", answer.problems);
    assert_eq!(answer.fields.get("other_hum").unwrap().value, None);
    // Where a number is wanted it is none.
    let answer = ask(json!({ "calculator": "pickup", "values": { "load_r": "none" } }));
    assert!(answer.fields.get("load_r").unwrap().problem.is_some());
}
