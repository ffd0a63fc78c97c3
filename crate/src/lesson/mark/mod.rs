//! What a response is worth, and what it would have meant.

mod choice;
mod curve;
mod ear;
mod fault;
mod magnitude;
mod number;
mod target;

pub(super) use choice::ties;
pub(super) use curve::is_flat;
pub(super) use ear::hardly_heard;
pub use ear::{Eye, EyeRow, eye, x_of};
pub(super) use fault::alike;
pub(super) use magnitude::decade_of;
pub(super) use target::{Drawer, Set};

use super::bench::Bench;
use super::deal::{Dealt, DealtStep, Side};
use super::file::{Lesson, LessonStep};
use super::task::Kind;
use crate::ask::Problem;
use crate::named::Named;
use crate::quantity::{Unit, write};
use crate::report::{Plot, Trace};
use crate::settings::Settings;
use crate::words::{Arg, Message, Words};
use serde::{Deserialize, Serialize};

/// Each hint costs this share of the credit, and all of them no more than the most
/// (judgement).
const HINT: f64 = 0.2;
const HINTS_MOST: f64 = 0.6;

/// A response to a step. Which of it counts is said by the kind of the step.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "LessonResponse"))]
#[serde(default, deny_unknown_fields)]
pub struct Response {
    /// A quantity, as typed.
    pub text: String,
    /// The power of ten.
    pub decade: Option<i32>,
    /// Points of a curve: Hz, and the height in the unit of the plot, rising along the first.
    pub curve: Vec<(f64, f64)>,
    /// What of the drawer goes where: values by field.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub parts: Named<String>,
    /// What was measured, in order.
    pub measured: Vec<String>,
    /// What is said to be wrong: its place among the cases of the step.
    pub case: Option<usize>,
    /// Ways in order, the best first, by their identifiers.
    pub order: Vec<String>,
    /// What X was said to be, trial by trial.
    pub heard: Vec<Heard>,
    /// What was seen instead, by who does not listen.
    pub seen: Option<Seen>,
    /// How sure the learner was, from 1 to 3.
    pub sure: Option<u8>,
    /// How many hints were opened.
    pub hints: usize,
}

/// What X was said to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "EarHeard"))]
#[serde(rename_all = "lowercase")]
pub enum Heard {
    /// The first rig.
    A,
    /// The second one.
    B,
    /// Neither: no difference is heard.
    Skip,
}

impl From<Side> for Heard {
    fn from(side: Side) -> Self {
        match side {
            Side::A => Self::A,
            Side::B => Self::B,
        }
    }
}

/// Which of two curves without names is that of A.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "EarSeen"))]
#[serde(rename_all = "lowercase")]
pub enum Seen {
    /// The first one.
    First,
    /// The second one.
    Second,
    /// Nobody can say: they are alike.
    Alike,
}

/// What a response is worth.
#[derive(Clone, Debug, Default, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Marked {
    /// Why nothing can be made of the response yet; nothing else is told then.
    pub problem: Option<Problem>,
    /// The credit, from 0 to 1, hints taken off.
    pub share: f64,
    /// The points.
    pub points: f64,
    /// Of so many.
    pub of: f64,
    /// The number that was said, in its unit without prefix; nothing where it is none.
    pub said: Option<f64>,
    /// What would have been right.
    pub key: Key,
    /// The credit before hints were taken off.
    pub before_hints: f64,
    /// The number that was said, as it was understood; empty where it is none.
    pub said_text: String,
    /// What there is to say of the response, in the reader's words.
    pub findings: Vec<Finding>,
    /// What was said beside what is so, one thing a row.
    pub rows: Vec<MarkedRow>,
    /// What was asked for beside what was said; nothing where there is no plot of both.
    pub plot: Option<Plot>,
}

/// Something that was said beside what is so. Of a target each limit, and each other trouble;
/// of a choice each way, in the right order; of a fault each reading that was measured.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct MarkedRow {
    /// The reading, or the way.
    pub id: String,
    /// Its name.
    pub name: String,
    /// What it reads: with the parts that were taken, with the way, with what is wrong.
    pub is: String,
    /// What it should read, what is wrong with it, or what it would read with the fault that
    /// was named.
    pub other: String,
    /// Where a way was put, from 1 on.
    pub place: Option<usize>,
    /// Where it belongs; ways that are tied have one place.
    pub rank: Option<usize>,
    /// Whether the two agree.
    pub fits: bool,
}

/// What would have been right.
#[derive(Clone, Debug, Default, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "LessonKey"))]
pub struct Key {
    /// In words.
    pub text: String,
    /// The number, in its unit without prefix.
    pub value: Option<f64>,
    /// From and to where a number has full credit.
    pub full: Option<(f64, f64)>,
    /// The right order, by identifier; the ways of one list are tied.
    pub order: Vec<Vec<String>>,
    /// What of the drawer would have done, by field.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub parts: Named<String>,
    /// The case that it was.
    pub case: Option<usize>,
    /// Points of a curve.
    pub curve: Vec<(f64, f64)>,
    /// What X was, trial by trial; a skip where nothing is to be heard.
    pub heard: Vec<Heard>,
    /// Which of the two curves is that of A.
    pub seen: Option<Seen>,
}

/// Something to say of a response.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "LessonFinding"))]
pub struct Finding {
    /// What kind of thing it is.
    pub id: &'static str,
    /// In the reader's words.
    pub text: String,
}

/// A reading that was measured.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Measured {
    /// The reading.
    pub reading: String,
    /// Its name.
    pub name: String,
    /// What it reads.
    pub text: String,
    /// What it reads of a rig with nothing wrong.
    pub usual: String,
}

/// A step that was dealt, a response to it, and for whom.
pub(super) struct Case<'a> {
    pub step: &'a LessonStep,
    pub dealt: &'a DealtStep,
    pub bench: Bench,
    pub response: &'a Response,
    pub settings: &'a Settings,
}

impl Case<'_> {
    pub(super) fn say(&self, key: &str, args: &[(&'static str, Arg)]) -> String {
        Words::of(self.settings.language).text(key, args, self.settings)
    }

    /// A finding in the words of `lesson-found-<id>`.
    pub(super) fn found(&self, id: &'static str, args: &[(&'static str, Arg)]) -> Finding {
        Finding { id, text: self.say(&format!("lesson-found-{id}"), args) }
    }

    /// A response that nothing can be made of.
    pub(super) fn problem(&self, key: &str) -> Marked {
        Marked { problem: Some(Problem::of(key, &[], self.settings)), ..Marked::default() }
    }

    /// What a field is called.
    pub(super) fn field_name(&self, id: &str) -> String {
        let words = Words::of(self.settings.language);
        words.of_calculator(self.bench.calculator.id, id, "").unwrap_or(id).to_owned()
    }

    /// A plot with these traces instead of its own, all of each within it.
    pub(super) fn pictured(&self, mut plot: Plot<Message>, traces: Vec<Trace<Message>>) -> Plot {
        let heights = traces.iter().flat_map(|trace| &trace.y).copied().filter(|y| y.is_finite());
        (plot.y.from, plot.y.to) =
            heights.fold((plot.y.from, plot.y.to), |(least, most), y| (least.min(y), most.max(y)));
        plot.traces = traces;
        plot.worded(self.settings)
    }

    /// The trace of the step for a rig that was said, under a name of its own.
    pub(super) fn said_trace(&self, said: &Bench, name: String) -> Option<Trace<Message>> {
        let (_, trace) = said.trace(&self.step.plot, &self.step.trace)?;
        Some(Trace { id: "said", name: Message::Text(name.into()), reference: true, ..trace })
    }

    /// A number as a reader reads it.
    pub(super) fn written(&self, value: f64, unit: Unit) -> Arg {
        Arg::Text(self.text_of(value, unit))
    }

    /// The same, as it stands alone.
    pub(super) fn text_of(&self, value: f64, unit: Unit) -> String {
        write(value, unit, crate::quantity::SHOWN, self.settings)
    }
}

/// What a response to a step is worth; nothing where there is no such step, or it asks nothing.
pub fn mark(lesson: &Lesson, dealt: &Dealt, at: usize, response: &Response, settings: &Settings) -> Option<Marked> {
    let (step, dealt) = (lesson.steps.get(at)?, dealt.steps.get(at)?);
    if !Kind::of(step).asks() {
        return None;
    }
    let Some(bench) = bench_of(lesson, step, dealt) else { return Some(unanswerable(settings)) };
    let case = Case { step, dealt, bench, response, settings };
    let marking: fn(&Case, Key) -> Marked = match Kind::of(step) {
        Kind::Number => number::mark,
        Kind::Magnitude => magnitude::mark,
        Kind::Curve => curve::mark,
        Kind::Target => target::mark,
        Kind::Fault => fault::mark,
        Kind::Choice => choice::mark,
        Kind::Ear => ear::mark,
        Kind::Read | Kind::Unknown => return None,
    };
    let Some(key) = key_of(&case) else { return Some(unanswerable(settings)) };
    let mut marked = marking(&case, key);
    if marked.problem.is_none() {
        marked.before_hints = marked.share;
        let hints = response.hints.min(step.hints.len()) as f64;
        marked.share *= 1.0 - (HINT * hints).min(HINTS_MOST);
        marked.of = step.points;
        marked.points = marked.share * step.points;
    }
    Some(marked)
}

/// What has no answer is nobody's mistake: it is told, and counts for nothing.
fn unanswerable(settings: &Settings) -> Marked {
    let text = Words::of(settings.language).text("lesson-found-no-key", &[], settings);
    Marked { findings: vec![Finding { id: "no-key", text }], ..Marked::default() }
}

/// What is right for a step, whatever was answered; nothing where it asks nothing, or nothing
/// is right.
fn key_of(case: &Case) -> Option<Key> {
    match Kind::of(case.step) {
        Kind::Number => number::key(case),
        Kind::Magnitude => magnitude::key(case),
        Kind::Curve => curve::key(case),
        Kind::Target => target::key(case),
        Kind::Fault => fault::key(case),
        Kind::Choice => choice::key(case),
        Kind::Ear => ear::key(case),
        Kind::Read | Kind::Unknown => None,
    }
}

/// As [`key_of`], of a step by its place.
pub(super) fn key(lesson: &Lesson, dealt: &Dealt, at: usize, settings: &Settings) -> Option<Key> {
    let (step, dealt) = (lesson.steps.get(at)?, dealt.steps.get(at)?);
    let bench = bench_of(lesson, step, dealt)?;
    key_of(&Case { step, dealt, bench, response: &Response::default(), settings })
}

/// What is in the way of every set of parts of a step: of the one that comes closest. Nothing
/// where the step is of another kind.
pub(super) fn in_the_way(lesson: &Lesson, dealt: &Dealt, at: usize, settings: &Settings) -> Option<String> {
    let (step, dealt) = (lesson.steps.get(at)?, dealt.steps.get(at)?);
    if Kind::of(step) != Kind::Target {
        return None;
    }
    let bench = bench_of(lesson, step, dealt)?;
    Some(target::in_the_way(&Case { step, dealt, bench, response: &Response::default(), settings }))
}

/// What a measurement of a step reads; nothing where it offers no such reading, or its rig has
/// none with nothing wrong.
pub fn measure(lesson: &Lesson, dealt: &Dealt, at: usize, reading: &str, settings: &Settings) -> Option<Measured> {
    let (step, dealt) = (lesson.steps.get(at)?, dealt.steps.get(at)?);
    if !step.measures.iter().any(|one| one == reading) {
        return None;
    }
    let bench = bench_of(lesson, step, dealt)?;
    let usual = bench.worded(reading, settings)?;
    let wrong = bench.with(&step.cases.get(dealt.wrong?)?.values).worded(reading, settings);
    // With what is wrong there may be nothing to read, which is a finding as well.
    let text = wrong.map_or_else(|| "–".to_owned(), |wrong| wrong.text);
    Some(Measured { reading: reading.to_owned(), name: usual.name, text, usual: usual.text })
}

/// The rig of a step that was dealt.
pub(super) fn bench_of(lesson: &Lesson, step: &LessonStep, dealt: &DealtStep) -> Option<Bench> {
    Bench::of(&dealt.calculator, dealt.values.clone(), lesson.rig_of(step).settings())
}
