//! Whatever comes in, however odd, is read or refused: the kept cases of
//! `tests/corpus`, and what chance makes of them.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;
// Not among what all tests share: the crate that is published has no corpus.
#[path = "common/corpus.rs"]
mod kept;

use common::flaw::of_report;
use common::question::every_setting;
use kept::{FORMULAS, QUESTIONS, SEARCHES, TEXTS, cases, mutated};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use serde_json::Value;
use stageohm::answer::{Answer, Question, answer};
use stageohm::ask::{Entry, translate};
use stageohm::calculator::{Calculator, REGISTER};
use stageohm::expression::{Given, parse};
use stageohm::field::Values;
use stageohm::named::Named;
use stageohm::quantity::{Unit, read, read_number, write, write_entry};
use stageohm::seek::seek;
use stageohm::settings::Settings;

/// More draws take longer and find no more.
const FEW_DRAWS: u32 = 100;

/// What can be printed in every unit of its kind.
const PRINTED: std::ops::Range<f64> = 1e-290..1e290;
/// Sixty levels are read, and each bracket that printing adds takes up to three of them.
const MOST_BRACKETS: usize = 15;

fn config() -> ProptestConfig {
    let given = ProptestConfig::default();
    let seed = if given.rng_seed == RngSeed::Random { RngSeed::Fixed(1) } else { given.rng_seed };
    ProptestConfig { rng_seed: seed, max_shrink_iters: 10_000, ..given }
}

/// A text is refused, or it is a number that can be printed and read again.
fn text_flaws(text: &str) -> Vec<String> {
    let mut flaws = Vec::new();
    for settings in every_setting() {
        let numbers = Unit::ALL.into_iter().map(|unit| (unit, read(text, unit, 1.0, &settings)));
        for (unit, written) in numbers.filter_map(|(unit, read)| Some((unit, read.ok()?))) {
            let printed = write_entry(written.value, unit, &settings);
            let again = read(&printed, unit, 1.0, &settings).map(|again| again.value);
            // Six digits are written, and four decimals of what is told in tenths.
            let off = 1e-5 * written.value.abs() + coarse(unit);
            let is_near = again.as_ref().is_ok_and(|again| (again - written.value).abs() <= off);
            // In a smaller unit it may be more than there are numbers.
            let is_printed = written.value == 0.0 || PRINTED.contains(&written.value.abs());
            if !written.value.is_finite() || is_printed && !is_near {
                flaws.push(format!("{unit:?} {settings:?}: {} is printed as {printed} is {again:?}", written.value));
            }
            let shown = write(written.value, unit, 3, &settings);
            if shown.contains("NaN") || is_printed && shown.contains('∞') {
                flaws.push(format!("{unit:?} {settings:?}: {shown}"));
            }
        }
        if read_number(text, &settings).is_ok_and(|number| !number.is_finite()) {
            flaws.push(format!("{settings:?}: no end"));
        }
    }
    flaws
}

/// What the last decimal of a level, and what six digits of the temperature in °C, take away.
fn coarse(unit: Unit) -> f64 {
    match unit {
        Unit::Kelvin => 1e-5 * 273.15,
        Unit::Degree => 1e-4,
        _ if unit.symbol().starts_with("dB") => 1e-4,
        _ => 0.0,
    }
}

/// A formula is refused, or it prints as one that is the same.
fn formula_flaws(text: &str) -> Vec<String> {
    let Ok(formula) = parse(text) else { return Vec::new() };
    let mut flaws = Vec::new();
    let printed = formula.text();
    let is_deep = printed.matches(['(', '|']).count() > MOST_BRACKETS;
    match parse(&printed) {
        Ok(again) => {
            let (value, same) = (formula.value(&[]), again.value(&[]));
            let is_same = match (&value, &same) {
                (Ok(a), Ok(b)) => is_alike(a.re, b.re) && is_alike(a.im, b.im),
                // Names are printed in Greek, so that it may be another that is not known.
                (a, b) => a.is_err() && b.is_err(),
            };
            if !is_same || again.text() != printed {
                flaws.push(format!("{value:?} is printed as {printed}, which is {same:?}"));
            }
        }
        Err(error) if !is_deep => flaws.push(format!("{printed} does not read: {error:?}")),
        Err(_) => {}
    }
    for (value, unit) in [(1e4, Unit::Ohm), (-0.0, Unit::One), (f64::NAN, Unit::Volt), (f64::INFINITY, Unit::Farad)] {
        let scope = ["Z_L", "Z_S", "x", "a"].map(|name| Given { name: name.to_owned(), value: value.into(), unit });
        for settings in every_setting() {
            let _ = (formula.value(&scope), formula.numbers(&scope, &settings));
        }
    }
    flaws
}

fn is_alike(a: f64, b: f64) -> bool {
    a == b || a.is_nan() && b.is_nan()
}

/// What a question in a person's own words fills in is taken as it stands.
fn search_flaws(text: &str, settings: &Settings) -> Vec<String> {
    let mut flaws = Vec::new();
    for filling in seek(text, settings).fillings {
        let mut values = Named::default();
        for (id, text) in filling.values {
            values.insert(id, Entry::Text(text));
        }
        let calculator = Calculator::find(filling.calculator).unwrap();
        let (_, echoes) = Values::read(calculator, &values, settings);
        let problems = echoes.iter().filter_map(|(id, echo)| Some((id, &echo.problem.as_ref()?.message)));
        flaws.extend(problems.map(|(id, message)| format!("{}, {id}: {message}", calculator.id)));
    }
    flaws
}

fn refused(answer: &Answer) -> Vec<String> {
    let fields =
        answer.fields.iter().filter_map(|(id, echo)| Some(format!("{id}: {}", echo.problem.as_ref()?.message)));
    fields.chain(answer.problems.iter().map(|problem| problem.message.clone())).collect()
}

/// A question has a whole answer or a reason why there is none, and means the
/// same to a reader with other settings.
fn question_flaws(json: &str) -> Vec<String> {
    let Ok(mut question) = serde_json::from_str::<Question>(json) else { return Vec::new() };
    if let Some(tolerances) = &mut question.tolerances {
        tolerances.draws = tolerances.draws.min(FEW_DRAWS);
    }
    let given = answer(&question);
    let mut flaws = match &given.report {
        Some(report) => of_report(report, &question.settings),
        // What was typed stands in the words of a problem, whatever it was.
        None if refused(&given).is_empty() => vec!["neither a report nor a problem".to_owned()],
        None => Vec::new(),
    };
    if given.report.is_some() {
        flaws.extend(every_setting().iter().flat_map(|settings| translation_flaws(&question, &given, settings)));
    }
    flaws
}

fn translation_flaws(question: &Question, given: &Answer, to: &Settings) -> Vec<String> {
    let translation = translate(question, to);
    let mut translated = question.clone();
    translated.settings = *to;
    (translated.working, translated.backwards, translated.cures, translated.tolerances) = (false, None, false, None);
    for (id, text) in translation.values.iter() {
        translated.values.insert(id.to_owned(), Entry::Text(text.clone()));
    }
    let same = answer(&translated);
    let differing = given.fields.iter().filter_map(|(id, echo)| {
        let other = same.fields.get(id)?;
        let is_same = match (echo.value, other.value) {
            // Six digits are written.
            (Some(a), Some(b)) => (a - b).abs() <= 1e-5 * a.abs(),
            (a, b) => a == b,
        };
        (echo.active && !is_same).then(|| format!("{id} for {to:?}: {:?} became {:?}", echo.value, other.value))
    });
    differing.collect()
}

#[test]
fn kept_texts() {
    for text in cases(TEXTS) {
        assert_eq!(text_flaws(&text), Vec::<String>::new(), "{text:?}");
    }
}

#[test]
fn kept_formulas() {
    for text in cases(FORMULAS) {
        assert_eq!(formula_flaws(&text), Vec::<String>::new(), "{text:?}");
    }
}

#[test]
fn kept_searches() {
    for text in cases(SEARCHES).into_iter().chain(cases(TEXTS)) {
        for settings in every_setting() {
            assert_eq!(search_flaws(&text, &settings), Vec::<String>::new(), "{text:?} {settings:?}");
        }
    }
}

#[test]
fn kept_questions() {
    for json in cases(QUESTIONS) {
        assert_eq!(question_flaws(&json), Vec::<String>::new(), "{json}");
    }
}

/// Every text in every field, whatever it asks for.
#[test]
fn kept_texts_in_fields() {
    for (place, text) in cases(TEXTS).iter().enumerate() {
        let calculator = REGISTER[place % REGISTER.len()];
        let values: serde_json::Map<_, _> =
            calculator.fields.iter().map(|field| (field.id.to_owned(), Value::from(text.as_str()))).collect();
        let json = serde_json::json!({ "calculator": calculator.id, "values": values, "working": false }).to_string();
        assert_eq!(question_flaws(&json), Vec::<String>::new(), "{json}");
    }
}

proptest! {
    // The same in every run; others with PROPTEST_RNG_SEED, and more with PROPTEST_CASES.
    #![proptest_config(config())]

    #[test]
    fn texts_by_chance(text in mutated(&[TEXTS, FORMULAS])) {
        prop_assert_eq!(text_flaws(&text), Vec::<String>::new());
    }

    #[test]
    fn formulas_by_chance(text in mutated(&[FORMULAS, TEXTS])) {
        prop_assert_eq!(formula_flaws(&text), Vec::<String>::new());
    }

    #[test]
    fn searches_by_chance(text in mutated(&[SEARCHES, TEXTS]), place in 0..8_usize) {
        prop_assert_eq!(search_flaws(&text, &every_setting()[place]), Vec::<String>::new());
    }

    /// The text of a question, whole or broken.
    #[test]
    fn questions_by_chance(json in mutated(&[QUESTIONS])) {
        prop_assert_eq!(question_flaws(&json), Vec::<String>::new());
    }

    /// A question that is one, with any text in any of its places.
    #[test]
    fn texts_in_questions_by_chance(
        json in proptest::sample::select(cases(QUESTIONS)),
        text in mutated(&[TEXTS]),
        place in any::<prop::sample::Index>(),
        is_number: bool,
    ) {
        if let Ok(mut question) = serde_json::from_str::<Value>(&json)
            && let Some(values) = question.get_mut("values").and_then(Value::as_object_mut)
            && let Some(value) = (!values.is_empty()).then(|| place.index(values.len())).and_then(|at| values.values_mut().nth(at))
        {
            let number = text.parse::<f64>().ok().filter(|_| is_number).and_then(serde_json::Number::from_f64);
            *value = number.map_or(Value::String(text), Value::Number);
            prop_assert_eq!(question_flaws(&question.to_string()), Vec::<String>::new());
        }
    }
}
