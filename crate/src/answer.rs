//! The contract that the page, the examples and any other program share.
//!
//! ```
//! use stageohm::answer::{Question, answer};
//!
//! let question = r#"{ "calculator": "source-load", "values": { "source_r": "600", "load_r": "600" } }"#;
//! let question: Question = serde_json::from_str(question).unwrap();
//! let report = answer(&question).report.unwrap();
//! assert_eq!(report.headline[0].text, "6.02\u{a0}dB");
//! ```

use crate::calculator::{
    Calculator, Depth, Description, Entry, Fault, Kind, Problem, REGISTER, Report, Spread, Tolerances, Values,
    solve_backwards, solve_tolerances,
};
use crate::calculator::{Echo, Reading};
use crate::look_up::{LookUpEntry, entries};
use crate::named::Named;
use crate::quantity::{LONGEST, Reject, Unit, read, write};
use crate::settings::Settings;
use crate::words::{Arg, Words};
use serde::{Deserialize, Serialize};

/// A question to a calculator.
#[derive(Clone, Debug, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Question {
    /// Identifier of the calculator.
    pub calculator: String,
    /// What was put into its fields; fields left out have their defaults.
    #[serde(default)]
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, Entry>"))]
    pub values: Named<Entry>,
    /// How the reader wants numbers and words.
    #[serde(default)]
    pub settings: Settings,
    /// Whether to write the working.
    #[serde(default = "yes")]
    pub working: bool,
    /// A reading to meet by one field, if the question is asked backwards.
    #[serde(default)]
    pub backwards: Option<Wanted>,
    /// The tolerances of parts, if what they do is asked too.
    #[serde(default)]
    pub tolerances: Option<Tolerances>,
}

/// So many fields that a calculator does not have are told one by one; more of
/// them are one problem.
const MOST_STRANGE: usize = 8;

fn yes() -> bool {
    true
}

/// A reading to meet by one field.
#[derive(Clone, Debug, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Wanted {
    /// The reading.
    pub reading: String,
    /// Its wanted value, as text or in its unit.
    pub value: Entry,
    /// The field to solve for.
    pub field: String,
}

/// The answer to a question.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Answer {
    /// How each field was understood.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, Echo>"))]
    pub fields: Named<Echo>,
    /// What is wrong with the question as a whole.
    pub problems: Vec<Problem>,
    /// The report; nothing while a field or the question has a problem.
    pub report: Option<Report>,
    /// What was found backwards, if it was asked.
    pub backwards: Option<Backwards>,
    /// What tolerances do, if it was asked.
    pub tolerances: Option<Spread>,
}

/// What was found backwards.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Backwards {
    /// In words: how many answers there are, or why none.
    pub message: String,
    /// What is wrong with the wanted value.
    pub problem: Option<Problem>,
    /// Each answer.
    pub found: Vec<FoundText>,
}

/// One answer found backwards.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct FoundText {
    /// The field's value in SI units.
    pub value: f64,
    /// The same as printed.
    pub text: String,
    /// The reading there, as printed.
    pub reading: String,
}

/// The descriptions of all calculators, in the order of the page.
pub fn describe(settings: &Settings) -> Vec<Description> {
    REGISTER.iter().map(|calculator| calculator.describe(settings)).collect()
}

/// The description of one calculator, for settings; nothing where there is none of this identifier.
pub fn describe_one(calculator: &str, settings: &Settings) -> Option<Description> {
    Some(Calculator::find(calculator)?.describe(settings))
}

/// Everything that there is to look up, in the order of the page.
pub fn look_up(settings: &Settings) -> Vec<LookUpEntry> {
    entries(settings)
}

/// The words of the page itself: every message whose key begins with `page-`,
/// without that beginning.
pub fn page_words(settings: &Settings) -> Named<&'static str> {
    let words = Words::of(settings.language).messages().filter(|(_, attribute, _)| attribute.is_empty());
    Named::distinct(words.filter_map(|(key, _, text)| Some((key.strip_prefix("page-")?, text))))
}

/// Answers a question. Whatever is wrong with it is part of the answer.
pub fn answer(question: &Question) -> Answer {
    let settings = &question.settings;
    let words = Words::of(settings.language);
    let problem = |key: &str, args: &[(&'static str, Arg)]| Problem {
        message: words.text(key, args, settings),
        offers: Vec::new(),
    };
    let mut answer =
        Answer { fields: Named::default(), problems: Vec::new(), report: None, backwards: None, tolerances: None };
    let Some(calculator) = Calculator::find(&question.calculator) else {
        let known: Vec<_> = REGISTER.iter().map(|calculator| calculator.id).collect();
        answer.problems.push(problem(
            "problem-calculator",
            &[("id", Arg::name(&question.calculator)), ("known", Arg::Text(known.join(", ")))],
        ));
        return answer;
    };
    let strange: Vec<_> =
        question.values.iter().map(|(id, _)| id).filter(|id| calculator.field(id).is_none()).collect();
    match strange.as_slice() {
        [first, others @ ..] if others.len() >= MOST_STRANGE => answer.problems.push(problem(
            "problem-fields",
            &[("id", Arg::name(first)), ("count", Arg::Text(others.len().to_string()))],
        )),
        few => answer.problems.extend(few.iter().map(|id| problem("problem-field", &[("id", Arg::name(id))]))),
    }
    let (values, fields) = Values::read(calculator, &question.values, settings);
    answer.fields = fields;
    if answer.fields.iter().any(|(_, echo)| echo.problem.is_some()) {
        return answer;
    }
    let depth = if question.working { Depth::Working } else { Depth::Plots };
    match calculator.report(&values, settings, depth) {
        Ok(report) => {
            if let Some(wanted) = &question.backwards {
                answer.backwards = Some(backwards(calculator, &values, &report, wanted, settings));
            }
            answer.tolerances = question
                .tolerances
                .as_ref()
                .map(|wanted| solve_tolerances(calculator, &values, &answer.fields, wanted, settings));
            answer.report = Some(report);
        }
        Err(fault) => place(&mut answer, &fault, problem(fault.key(), fault.args())),
    }
    answer
}

/// Puts a fault beside the field that caused it, or with the whole question.
fn place(answer: &mut Answer, fault: &Fault, problem: Problem) {
    match fault.field().and_then(|field| answer.fields.get_mut(field)) {
        Some(echo) => echo.problem = Some(problem),
        None => answer.problems.push(problem),
    }
}

fn backwards(
    calculator: &Calculator,
    values: &Values,
    report: &Report,
    wanted: &Wanted,
    settings: &Settings,
) -> Backwards {
    let words = Words::of(settings.language);
    let say = |key: &str, args: &[(&'static str, Arg)]| words.text(key, args, settings);
    let none = |message: String| Backwards {
        problem: Some(Problem { message, offers: Vec::new() }),
        message: String::new(),
        found: Vec::new(),
    };
    let Some(reading) = report.reading(&wanted.reading) else {
        return none(say("backwards-reading", &[("id", Arg::name(&wanted.reading))]));
    };
    let is_number = |field: &crate::calculator::Field| matches!(field.kind, Kind::Number(_));
    let Some(field) = calculator.field(&wanted.field).filter(|field| is_number(field)) else {
        return none(say("backwards-field", &[("id", Arg::name(&wanted.field))]));
    };
    let target = match wanted_value(&wanted.value, reading.unit, settings) {
        Ok(target) => target,
        Err(Reject::Long) => return none(say("problem-long", &[("longest", Arg::Text(LONGEST.to_string()))])),
        Err(reject) => {
            let offers = if let Reject::Ambiguous(offers) = reject { offers.to_vec() } else { Vec::new() };
            return Backwards {
                problem: Some(Problem {
                    message: say("backwards-value", &[("example", Arg::Text(example(reading, settings)))]),
                    offers,
                }),
                message: String::new(),
                found: Vec::new(),
            };
        }
    };
    let Kind::Number(number) = &field.kind else { return none(String::new()) };
    let unit = number.unit_under(calculator, values);
    let solution = solve_backwards(calculator, values, settings, field.id, &wanted.reading, target);
    let found: Vec<_> = solution
        .found
        .into_iter()
        .map(|found| FoundText {
            value: found.value,
            text: number.written(found.value, unit, settings),
            reading: write(found.reading, reading.unit, 4, settings),
        })
        .collect();
    let key = match found.len() {
        0 if solution.unchanged => "backwards-unchanged",
        0 => "backwards-none",
        1 => "backwards-one",
        _ => "backwards-many",
    };
    let message = say(
        key,
        &[
            ("reading", Arg::Text(reading.name.clone())),
            ("wanted", Arg::Quantity(target, reading.unit)),
            ("count", Arg::Text(found.len().to_string())),
            ("from", Arg::Quantity(number.limits.0, unit)),
            ("to", Arg::Quantity(number.limits.1, unit)),
        ],
    );
    Backwards { message, problem: None, found }
}

fn wanted_value(entry: &Entry, unit: Unit, settings: &Settings) -> Result<f64, Reject> {
    match entry {
        Entry::Number(value) if value.is_finite() => Ok(*value),
        Entry::Number(_) => Err(Reject::NotFinite),
        Entry::Other => Err(Reject::NotANumber),
        Entry::Text(text) => read_wanted(text, unit, settings),
    }
}

/// Reads the wanted value of a reading, a bare one in the unit that it is printed in.
pub(crate) fn read_wanted(text: &str, unit: Unit, settings: &Settings) -> Result<f64, Reject> {
    read(text, unit, unit.printed(settings).0, settings).map(|written| written.value)
}

fn example(reading: &Reading, settings: &Settings) -> String {
    reading.value.map_or_else(|| write(1.0, reading.unit, 4, settings), |_| reading.text.clone())
}
