//! What is right for each step of a lesson as a seed deals it, and what a trainer should
//! look at before learners do.

use super::deal::Dealt;
use super::file::{Lesson, LessonStep};
use super::mark::{Drawer, Key, Set, alike, bench_of, decade_of, is_flat, key, ties};
use super::task::{Kind, slacks};
use crate::settings::Settings;
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
}

/// Checks every step of a lesson that was dealt.
pub fn check(lesson: &Lesson, dealt: &Dealt, settings: &Settings) -> Vec<StepCheck> {
    let steps = lesson.steps.iter().enumerate();
    steps
        .map(|(at, step)| {
            let key = key(lesson, dealt, at, settings);
            let doubt = if Kind::of(step).asks() { doubt(lesson, dealt, (at, step), key.as_ref()) } else { None };
            StepCheck { key, doubt }
        })
        .collect()
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
        Kind::Read | Kind::Unknown => None,
    }
}
