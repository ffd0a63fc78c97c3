//! However much comes in, it is refused or answered at once.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::{Map, Value, json};
use stageohm::calculator::REGISTER;
use stageohm::quantity::LONGEST;

mod common;

use common::ask;

const MEGABYTE: usize = 1_000_000;

/// A message quotes what is short; a long text would only be repeated.
#[test]
fn a_book_in_a_field_is_refused_and_not_repeated() {
    for calculator in REGISTER {
        for field in calculator.fields {
            let book = "4k7 ".repeat(MEGABYTE / 4);
            let answer = ask(json!({ "calculator": calculator.id, "values": { field.id: book }, "working": false }));
            let echo = answer.fields.get(field.id).unwrap();
            if !echo.active {
                continue;
            }
            let message = &echo.problem.as_ref().unwrap_or_else(|| panic!("{} is read", field.id)).message;
            assert!(message.contains(&LONGEST.to_string()) && message.len() < 200, "{}: {message:.300}", field.id);
            assert!(answer.report.is_none());
        }
    }
}

/// A number has no more than 200 characters: many times what anybody types.
#[test]
fn what_is_as_long_as_may_be_is_read() {
    for (length, is_read) in [(200, true), (201, false)] {
        let number = format!("{}140k", "0".repeat(length - 4));
        let answer = ask(json!({ "calculator": "pickup", "values": { "load_r": number } }));
        let echo = answer.fields.get("load_r").unwrap();
        assert_eq!(echo.value == Some(140e3) && echo.problem.is_none(), is_read, "{length}");
    }
}

/// Eight strange fields can be read one by one, as many as fit on a screen; more
/// are told at once.
#[test]
fn strange_fields_are_told_one_by_one_while_they_are_few() {
    let problems = |count: usize| {
        let values: Map<String, Value> = (0..count).map(|n| (format!("strange_{n}"), json!("1"))).collect();
        ask(json!({ "calculator": "pickup", "values": values })).problems.len()
    };
    assert_eq!([1, 8, 9].map(problems), [1, 8, 1]);
}

#[test]
fn a_book_as_a_wanted_value_is_refused_and_not_repeated() {
    let backwards = json!({ "reading": "peak", "value": "3 ".repeat(MEGABYTE / 2), "field": "load_r" });
    let backwards = ask(json!({ "calculator": "pickup", "backwards": backwards })).backwards.unwrap();
    let message = backwards.problem.unwrap().message;
    assert!(message.contains(&LONGEST.to_string()) && message.len() < 200, "{message:.300}");
}

/// Sixty characters tell any name of a field from another.
#[test]
fn a_name_is_told_up_to_sixty_characters() {
    for (length, is_whole) in [(60, true), (61, false)] {
        let name = "Ω".repeat(length);
        let [problem] = &ask(json!({ "calculator": "pickup", "values": { &name: "1" } })).problems[..] else {
            panic!()
        };
        assert_eq!(problem.message.contains(&format!("“{name}”")), is_whole, "{}", problem.message);
        assert!(problem.message.contains(&"Ω".repeat(60)), "{}", problem.message);
    }
}

/// Names from outside are told as far as it helps to know them again.
#[test]
fn a_book_as_a_name_is_not_repeated() {
    let book = "Ω".repeat(MEGABYTE);
    let backwards = |reading: &str, field: &str| json!({ "reading": reading, "value": "1", "field": field });
    for question in [
        json!({ "calculator": book }),
        json!({ "calculator": "pickup", "values": { &book: "1" } }),
        json!({ "calculator": "pickup", "backwards": backwards(&book, "load_r") }),
        json!({ "calculator": "pickup", "backwards": backwards("peak", &book) }),
        json!({ "calculator": "pickup", "tolerances": { "percent": { &book: 5 } } }),
    ] {
        let answer = ask(question);
        let backwards = answer.backwards.and_then(|backwards| backwards.problem);
        let tolerances = answer.tolerances.and_then(|spread| spread.problem);
        let problem = answer.problems.into_iter().chain(backwards).chain(tolerances).next().unwrap();
        assert!(problem.message.contains("ΩΩΩ…"), "{:.300}", problem.message);
        assert!(problem.message.chars().count() < 400, "{:.300}", problem.message);
    }
}

/// Looked for one among the others, so many would take minutes.
#[test]
fn any_number_of_fields_that_there_are_not() {
    let values: Map<String, Value> = (0..200_000).map(|i| (format!("f{i}"), json!("1"))).collect();
    let mut question = json!({ "calculator": "pickup", "values": values });
    question["values"]["load_r"] = json!("10k");
    let answer = ask(question);
    // They are one problem, and the rest is used.
    assert_eq!(answer.problems.len(), 1);
    assert!(answer.problems[0].message.contains("199999"), "{}", answer.problems[0].message);
    assert_eq!(answer.fields.get("load_r").unwrap().value, Some(10e3));
    assert!(answer.report.is_some());
}

#[test]
fn a_few_fields_that_there_are_not_are_told_one_by_one() {
    let values = json!({ "warp": "9", "phaser": "1" });
    let problems = ask(json!({ "calculator": "pickup", "values": values })).problems;
    let mut messages: Vec<_> = problems.iter().map(|problem| problem.message.as_str()).collect();
    messages.sort_unstable();
    assert_eq!(messages.len(), 2);
    assert!(messages[0].contains("“phaser”") && messages[1].contains("“warp”"), "{messages:?}");
}
