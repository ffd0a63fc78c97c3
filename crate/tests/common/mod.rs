//! Asking a calculator in a test, as a page would.
#![allow(clippy::panic, clippy::unwrap_used, clippy::needless_pass_by_value, dead_code, missing_docs, unreachable_pub)]

pub mod damage;
pub mod flaw;
pub mod lesson;
pub mod question;
pub mod schema;
pub mod step;

use stageohm::answer::{Answer, Question, answer};
use stageohm::report::Report;

pub fn ask(question: serde_json::Value) -> Answer {
    answer(&serde_json::from_value::<Question>(question).unwrap())
}

/// Texts as somebody types them, by field.
pub fn object(values: &[(&str, &str)]) -> serde_json::Value {
    values.iter().map(|(id, text)| ((*id).to_owned(), (*text).into())).collect::<serde_json::Map<_, _>>().into()
}

/// The report of a calculator whose values are all right.
#[track_caller]
pub fn report(calculator: &str, values: serde_json::Value) -> Report {
    let answer = ask(serde_json::json!({ "calculator": calculator, "values": values }));
    let wrong: Vec<_> = answer.fields.iter().filter(|(_, echo)| echo.problem.is_some()).collect();
    answer.report.unwrap_or_else(|| panic!("{calculator}: {wrong:?} {:?}", answer.problems))
}

/// A reading that must exist.
#[track_caller]
pub fn reading(report: &Report, id: &str) -> f64 {
    report.reading(id).unwrap_or_else(|| panic!("no reading {id}")).value.unwrap_or_else(|| panic!("{id} has no value"))
}

#[track_caller]
pub fn within(what: &str, got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{what}: {got} is not {expected} within {tolerance}");
}
