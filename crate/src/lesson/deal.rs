//! The values that a seed deals: the same everywhere.

use super::bench::{Bench, over};
use super::file::{Lesson, LessonStep, Range};
use super::task::{Kind, trials};
use crate::calculator::Calculator;
use crate::catalogue::Series;
use crate::field::Number;
use crate::named::Named;
use crate::numeric::Draws;
use crate::quantity::write_entry;
use crate::report::Depth;
use crate::settings::Settings;
use serde::{Deserialize, Serialize};

/// A lesson as a seed deals it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Dealt {
    /// The seed.
    pub seed: u32,
    /// What was dealt, by field.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub drawn: Named<String>,
    /// Its steps, in order.
    pub steps: Vec<DealtStep>,
}

/// A step as a seed deals it.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct DealtStep {
    /// The calculator of its rig; empty where there is none of that name.
    pub calculator: String,
    /// What stands in the fields of the rig, as far as the learner may know.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub values: Named<String>,
    /// The ways to put in order, in the order in which they are shown.
    pub ways: Vec<Way>,
    /// What may be wrong with the rig, in the order in which it is shown: places among the
    /// cases of the step.
    pub cases: Vec<usize>,
    /// How often X is to be named; 0 where the step is not by ear.
    pub trials: u8,
    /// What the learner is not to know: the place of what is wrong among the cases.
    #[serde(skip)]
    #[cfg_attr(feature = "typescript", ts(skip))]
    pub wrong: Option<usize>,
    /// Nor which rig X is, trial by trial.
    #[serde(skip)]
    #[cfg_attr(feature = "typescript", ts(skip))]
    pub x: Vec<Side>,
    /// Nor of which rig the first of the two curves is that a step by ear shows to the eye.
    #[serde(skip)]
    #[cfg_attr(feature = "typescript", ts(skip))]
    pub first: Side,
}

/// One of the two rigs of a step by ear.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "EarSide"))]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// The first way of the step.
    #[default]
    A,
    /// The second one.
    B,
}

/// A way to do it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Way {
    /// By what a response names it.
    pub id: String,
    /// What it is called.
    pub name: String,
}

/// Random numbers for one thing of a lesson: what else is dealt does not change them.
pub(super) fn draws(seed: u32, name: &str) -> Draws {
    // FNV-1a, 32 bits.
    let hash = name.bytes().fold(0x811c_9dc5_u32, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193));
    Draws::new(seed.wrapping_mul(0x9e37_79b9) ^ hash)
}

/// A place below `count`.
pub(super) fn place(draws: &mut Draws, count: usize) -> usize {
    ((draws.share() * count as f64) as usize).min(count.saturating_sub(1))
}

/// One of two, each as likely whatever came before: who counts knows nothing of the next.
fn side(draws: &mut Draws) -> Side {
    if draws.share() < 0.5 { Side::A } else { Side::B }
}

/// Places below `count` in an order of their own.
fn shuffled(draws: &mut Draws, count: usize) -> Vec<usize> {
    let mut order: Vec<_> = (0..count).collect();
    for last in (1..count).rev() {
        order.swap(last, place(draws, last + 1));
    }
    order
}

/// What a range may deal, as texts of the lesson; nothing where it says nothing, or nothing
/// that can be read.
pub(super) fn choices(range: &Range, number: Option<&Number>, settings: &Settings) -> Vec<String> {
    if !range.of.is_empty() {
        return range.of.clone();
    }
    let Some(number) = number else { return Vec::new() };
    let end = |text: &str| crate::ask::read_wanted(text, number.unit, settings).ok();
    let (Some(from), Some(to)) = (end(&range.from), end(&range.to)) else { return Vec::new() };
    let written = |value: f64| write_entry(value, number.unit, settings).replace('\u{a0}', " ");
    let is_range = from > 0.0 && to >= from && to / from <= SPAN;
    if is_range { Series::from(range.series).between(from, to).map(written).collect() } else { Vec::new() }
}

/// So many times the least the most may be.
const SPAN: f64 = 1e12;

/// Deals a lesson.
pub fn deal(lesson: &Lesson, seed: u32) -> Dealt {
    let mut drawn = Named::default();
    let calculators: Vec<_> =
        lesson.steps.iter().filter_map(|step| Calculator::find(&lesson.rig_of(step).calculator)).collect();
    for (field, range) in lesson.draw.iter() {
        let number = calculators.iter().find_map(|calculator| calculator.field(field)?.kind.number());
        let choices = choices(range, number, &lesson.rig.settings());
        if let Some(text) = choices.get(place(&mut draws(seed, field), choices.len())) {
            drawn.insert(field.to_owned(), text.clone());
        }
    }
    let steps = (0..).zip(&lesson.steps).map(|(at, step)| dealt_step(lesson, step, at, seed, &drawn)).collect();
    Dealt { seed, drawn, steps }
}

fn dealt_step(lesson: &Lesson, step: &LessonStep, at: usize, seed: u32, drawn: &Named<String>) -> DealtStep {
    let rig = lesson.rig_of(step);
    let trials = if Kind::of(step) == Kind::Ear { trials(step) } else { 0 };
    let Some(calculator) = Calculator::find(&rig.calculator) else {
        return DealtStep { trials, ..DealtStep::default() };
    };
    let mut values = rig.values.clone();
    for (field, text) in drawn.iter().filter(|(field, _)| calculator.field(field).is_some()) {
        values.insert(field.to_owned(), text.clone());
    }
    let values = over(values, &step.values);
    let wrong = place(&mut draws(seed, &format!("case {at}")), step.cases.len());
    let mut order = draws(seed, &format!("order {at}"));
    let mut x = draws(seed, &format!("x {at}"));
    let ways = ways(step, || Bench::of(&rig.calculator, values.clone(), rig.settings()));
    DealtStep {
        calculator: rig.calculator.clone(),
        ways: shuffled(&mut order, ways.len()).into_iter().map(|way| ways[way].clone()).collect(),
        cases: shuffled(&mut order, step.cases.len()),
        trials,
        x: (0..trials).map(|_| side(&mut x)).collect(),
        first: side(&mut draws(seed, &format!("eye {at}"))),
        wrong: (!step.cases.is_empty()).then_some(wrong),
        values,
    }
}

/// The ways of a step: its own, or those that its calculator ranks.
fn ways(step: &LessonStep, bench: impl FnOnce() -> Option<Bench>) -> Vec<Way> {
    if step.kind != "choice" {
        return Vec::new();
    }
    if !step.ways.is_empty() {
        return (0..)
            .zip(&step.ways)
            .map(|(at, way): (usize, _)| Way { id: at.to_string(), name: way.name.clone() })
            .collect();
    }
    let settings = Settings::default();
    let ranking = bench().and_then(|bench| bench.solution(Depth::Plots)).map(|solution| solution.ranking);
    let named = |ranking: Vec<crate::report::Candidate<crate::words::Message>>| {
        ranking.iter().map(|one| Way { id: one.id.to_owned(), name: one.name.text(&settings) }).collect()
    };
    ranking.map(named).unwrap_or_default()
}
