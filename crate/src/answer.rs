//! The contract that the page, the examples and any other program share.
//!
//! ```
//! use stageohm::answer::{Question, answer};
//!
//! let question = r#"{ "calculator": "source-load", "values": { "source_r": "600", "load_r": "600" } }"#;
//! let question: Question = serde_json::from_str(question).unwrap();
//! let report = answer(&question).report.unwrap();
//! assert_eq!(report.headline[0].text, "6.0\u{a0}dB");
//! ```

pub use crate::ask::{Backwards, FoundText, Question, Wanted};

use crate::ask::{Cure, Description, Echo, Problem, Spread, backwards, cures, solve_tolerances};
use crate::calculator::{Calculator, REGISTER};
use crate::field::Values;
use crate::look_up::{LookUpEntry, entries};
use crate::named::Named;
use crate::report::{Depth, Report};
use crate::settings::Settings;
use crate::words::{Arg, Words};
use serde::Serialize;

/// At most this many fields that a calculator does not have are told one by one;
/// more of them are one problem.
const MOST_STRANGE: usize = 8;

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
    /// What would mend the limits that are missed, if it was asked.
    pub cures: Option<Vec<Cure>>,
    /// What tolerances do, if it was asked.
    pub tolerances: Option<Spread>,
}

impl Answer {
    const EMPTY: Self = Self {
        fields: Named::EMPTY,
        problems: Vec::new(),
        report: None,
        backwards: None,
        cures: None,
        tolerances: None,
    };
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
    let Some(calculator) = Calculator::find(&question.calculator) else {
        let known: Vec<_> = REGISTER.iter().map(|calculator| calculator.id).collect();
        let args = [("id", Arg::name(&question.calculator)), ("known", Arg::Text(known.join(", ")))];
        return Answer {
            problems: vec![Problem::of("problem-calculator", &args, &question.settings)],
            ..Answer::EMPTY
        };
    };
    let settings = &question.settings;
    let (mut answer, values) = forwards(calculator, question);
    if let Some(report) = &answer.report
        && !question.brief
    {
        answer.backwards =
            question.backwards.as_ref().map(|wanted| backwards(calculator, &values, report, wanted, settings));
        answer.cures = question.cures.then(|| cures(calculator, &values, settings));
        answer.tolerances = question
            .tolerances
            .as_ref()
            .map(|wanted| solve_tolerances(calculator, &values, &answer.fields, wanted, settings));
    }
    answer
}

/// Answers a question to this calculator, as [`answer`] does; what is asked at
/// length, backwards, cures and tolerances, is left without an answer. A program
/// that asks nothing else has nothing else in it.
pub fn answer_forwards(calculator: &Calculator, question: &Question) -> Answer {
    forwards(calculator, question).0
}

fn forwards(calculator: &Calculator, question: &Question) -> (Answer, Values) {
    let settings = &question.settings;
    let mut answer = Answer::EMPTY;
    let strange: Vec<_> =
        question.values.iter().map(|(id, _)| id).filter(|id| calculator.field(id).is_none()).collect();
    match strange.as_slice() {
        [first, others @ ..] if others.len() >= MOST_STRANGE => answer.problems.push(Problem::of(
            "problem-fields",
            &[("id", Arg::name(first)), ("count", Arg::Text(others.len().to_string()))],
            settings,
        )),
        few => {
            answer
                .problems
                .extend(few.iter().map(|id| Problem::of("problem-field", &[("id", Arg::name(id))], settings)));
        }
    }
    let (values, fields) = Values::read(calculator, &question.values, settings);
    answer.fields = fields;
    if answer.fields.iter().any(|(_, echo)| echo.problem.is_some()) {
        return (answer, values);
    }
    let depth = match (question.brief, question.working) {
        (true, _) => Depth::Headline,
        (false, true) => Depth::Working,
        (false, false) => Depth::Plots,
    };
    match calculator.report(&values, settings, depth) {
        Ok(report) => answer.report = Some(report),
        Err(fault) => Problem::place(&fault, settings, &mut answer.fields, &mut answer.problems),
    }
    (answer, values)
}
