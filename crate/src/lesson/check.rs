//! What is right for each step of a lesson as a seed deals it, and what a trainer should
//! look at before learners do.

use super::deal::{Dealt, DealtStep};
use super::file::{Lesson, LessonStep};
use super::mark::{Drawer, Key, Set, alike, bench_of, decade_of, hardly_heard, in_the_way, is_flat, key, ties};
use super::task::{Kind, slacks};
use crate::settings::Settings;
use crate::words::{Arg, Words};
use serde::Serialize;

/// So near to the next power of ten, as a share, a magnitude is at a boundary (judgement).
const NEAR: f64 = 0.05;

/// A step as a seed deals it, for the trainer.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct StepCheck {
    /// What is right; nothing where the step asks nothing, or where it cannot be solved.
    pub key: Option<Key>,
    /// What to look at.
    pub doubt: Option<Doubt>,
    /// What is in the way, in the reader's words; empty where there is nothing more to say.
    pub why: String,
}

/// What is doubtful about a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Doubt {
    /// Nothing is right.
    Unsolvable,
    /// It is right without doing anything.
    Trivial,
    /// A little more or less would make something else right.
    Boundary,
    /// Another step shows what is right.
    Told,
}

/// Checks every step of a lesson that was dealt.
pub fn check(lesson: &Lesson, dealt: &Dealt, settings: &Settings) -> Vec<StepCheck> {
    let steps = lesson.steps.iter().enumerate();
    steps
        .map(|(at, step)| {
            let key = key(lesson, dealt, at, settings);
            let doubt = if Kind::of(step).asks() { doubt(lesson, dealt, (at, step), key.as_ref()) } else { None };
            let why = match doubt {
                Some(Doubt::Unsolvable) => in_the_way(lesson, dealt, at, settings),
                _ => None,
            };
            let teller = told_by(lesson, dealt, at).filter(|_| doubt.is_none());
            let told = teller.map(|teller| {
                let step = Arg::Text((teller + 1).to_string());
                Words::of(settings.language).text("lesson-told-by", &[("step", step)], settings)
            });
            StepCheck { key, doubt: doubt.or(teller.map(|_| Doubt::Told)), why: why.or(told).unwrap_or_default() }
        })
        .collect()
}

/// The step that shows the reading that this one asks for, of the same rig: one that is read
/// before it, or one with a fault, which tells what is usual and can be opened at any time.
fn told_by(lesson: &Lesson, dealt: &Dealt, at: usize) -> Option<usize> {
    let asked = lesson.steps.get(at).filter(|step| matches!(Kind::of(step), Kind::Number | Kind::Magnitude))?;
    let rig = dealt.steps.get(at)?;
    let tells = |(place, step): (usize, &LessonStep)| {
        let shows = match Kind::of(step) {
            Kind::Read => place < at && step.reading == asked.reading,
            Kind::Fault => step.measures.contains(&asked.reading),
            _ => false,
        };
        let same = |other: &DealtStep| other.calculator == rig.calculator && other.values == rig.values;
        shows && dealt.steps.get(place).is_some_and(same)
    };
    lesson.steps.iter().enumerate().position(tells)
}

fn doubt(lesson: &Lesson, dealt: &Dealt, (at, step): (usize, &LessonStep), key: Option<&Key>) -> Option<Doubt> {
    let Some(key) = key else { return Some(Doubt::Unsolvable) };
    let bench = bench_of(lesson, step, dealt.steps.get(at)?)?;
    match Kind::of(step) {
        Kind::Number => {
            let (reading, right) = (bench.reading(&step.reading)?, key.value?);
            // What is nothing is not worked out.
            (right == 0.0 || slacks(step, reading.unit, &bench).0.about(right) == 0.0).then_some(Doubt::Trivial)
        }
        Kind::Magnitude => {
            let value = key.value?.abs();
            let into = value / 10_f64.powi(decade_of(value)?);
            (!(1.0 + NEAR..=10.0 * (1.0 - NEAR)).contains(&into)).then_some(Doubt::Boundary)
        }
        Kind::Curve => is_flat(&bench, &step.plot, &step.trace).then_some(Doubt::Trivial),
        // That something meets the limits is known: there is a key.
        Kind::Target => Drawer::of(step).meets(&bench, &Set::default()).then_some(Doubt::Trivial),
        Kind::Fault => {
            let wrong = key.case?;
            let is_alike = |other: usize| other != wrong && alike(step, &bench, &step.cases[other], &step.cases[wrong]);
            (0..step.cases.len()).any(is_alike).then_some(Doubt::Boundary)
        }
        Kind::Choice => ties(key).then_some(Doubt::Boundary),
        Kind::Ear => hardly_heard(step, &bench).then_some(Doubt::Boundary),
        Kind::Read | Kind::Unknown => None,
    }
}
