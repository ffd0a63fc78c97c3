//! Reads the file of a lesson: what can be kept of it, and what is wrong with the rest.

use super::file::{KIND, Lesson, LessonStep, STEPS_MOST, TEXT_LONGEST, VERSION};
use super::references::{of_draw, of_step};
use super::task::{Kind, flaw_of};
use crate::calculator::Calculator;
use crate::file::{Flaw, Raw, cut, fields, version};
use crate::named::Named;
use crate::settings::Settings;
use serde::Serialize;

/// A lesson as far as it could be read.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct ReadLesson {
    /// The lesson; nothing where the file is none, or of a newer version.
    pub lesson: Option<Lesson>,
    /// What is wrong with the rest, in the reader's words.
    pub flaws: Vec<LessonFlaw>,
}

/// What is wrong with a lesson.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct LessonFlaw {
    /// The step, from 1 on; nothing where it is about all of it.
    pub step: Option<usize>,
    /// What is wrong, with its place.
    pub text: String,
}

/// Reads the file of a lesson.
pub fn read_lesson(file: &Raw, settings: &Settings) -> ReadLesson {
    let told = |flaw: &Flaw| LessonFlaw { step: flaw.row, text: flaw.text(settings) };
    match read(file) {
        Ok((lesson, flaws)) => ReadLesson { lesson: Some(lesson), flaws: flaws.iter().map(told).collect() },
        Err(flaw) => ReadLesson { lesson: None, flaws: vec![told(&flaw)] },
    }
}

/// Nobody sits longer over a lesson, minutes.
const MINUTES_MOST: f64 = 10_000.0;

fn read(file: &Raw) -> Result<(Lesson, Vec<Flaw>), Flaw> {
    let refused = |key| Flaw::new("lesson", None, key);
    let Raw::Map(parts) = file else { return Err(refused("no-lesson")) };
    let is_lesson = |(name, part): &(String, Raw)| name == "stageohm" && *part == Raw::Text(KIND.to_owned());
    if !parts.iter().any(is_lesson) {
        return Err(refused("no-lesson"));
    }
    version(parts, VERSION, refused)?;
    let mut flaws = Vec::new();
    let (steps, others): (Vec<_>, Vec<_>) = parts.iter().cloned().partition(|(name, _)| name == "steps");
    let mut lesson: Lesson = fields(&others, &refused(""), &mut flaws);
    for (field, text) in
        [("title", &mut lesson.title), ("note", &mut lesson.note), ("by", &mut lesson.by), ("id", &mut lesson.id)]
    {
        cut(text, TEXT_LONGEST, || refused("").at(field), &mut flaws);
    }
    within(&mut lesson.minutes, MINUTES_MOST, || refused("").at("minutes"), &mut flaws);
    within(&mut lesson.pass, 1.0, || refused("").at("pass"), &mut flaws);
    match steps.last() {
        Some((_, Raw::List(steps))) => lesson.steps = read_steps(steps, &mut flaws),
        Some(_) => flaws.push(refused("no-list").at("steps")),
        None => {}
    }
    if lesson.steps.is_empty() {
        flaws.push(refused("no-steps"));
    }
    flaws.extend(unknown_fields(&lesson));
    flaws.extend(of_draw(&lesson));
    for (row, step) in (1..).zip(&lesson.steps) {
        let of_it = flaw_of(&lesson, step).into_iter().chain(of_step(&lesson, step));
        for flaw in of_it.map(|flaw| Flaw { row: Some(row), ..flaw }) {
            tell(&mut flaws, flaw, "no-points");
        }
    }
    for (field, key) in unsaid(&lesson) {
        tell(&mut flaws, refused(key).at(field), key);
    }
    Ok((lesson, flaws))
}

/// Of a field that could not be read it is told that, and not that nothing stands there.
fn tell(flaws: &mut Vec<Flaw>, flaw: Flaw, nothing: &str) {
    let is_told = |other: &Flaw| other.row == flaw.row && other.field == flaw.field;
    if flaw.key != nothing || !flaws.iter().any(is_told) {
        flaws.push(flaw);
    }
}

/// What a lesson leaves out without which its results mean nothing.
fn unsaid(lesson: &Lesson) -> impl Iterator<Item = (&'static str, &'static str)> {
    let asks = lesson.steps.iter().any(|step| Kind::of(step).asks());
    let unsaid = [("id", "unnamed", lesson.id.is_empty()), ("pass", "no-pass", asks && lesson.pass == 0.0)];
    unsaid.into_iter().filter(|(.., is)| *is).map(|(field, key, _)| (field, key))
}

fn read_steps(parts: &[Raw], flaws: &mut Vec<Flaw>) -> Vec<LessonStep> {
    if parts.len() > STEPS_MOST {
        let many = Flaw::new("steps", Some(STEPS_MOST + 1), "many");
        flaws.push(many.with("most", &STEPS_MOST.to_string()).with("count", &parts.len().to_string()));
    }
    let mut steps = Vec::new();
    for (row, part) in (1..).zip(parts.iter().take(STEPS_MOST)) {
        let flaw = Flaw::new("steps", Some(row), "");
        let Raw::Map(parts) = part else {
            flaws.push(Flaw { key: "no-row", ..flaw });
            continue;
        };
        let mut step: LessonStep = fields(parts, &flaw, flaws);
        for (field, text) in [
            ("title", &mut step.title),
            ("text", &mut step.text),
            ("because", &mut step.because),
            ("note", &mut step.note),
        ] {
            cut(text, TEXT_LONGEST, || flaw.clone().at(field), flaws);
        }
        if let Some(budget) = &mut step.budget {
            within(budget, f64::MAX, || flaw.clone().at("budget"), flaws);
        }
        within(&mut step.points, 1000.0, || flaw.clone().at("points"), flaws);
        shorten(&mut step, &flaw, flaws);
        steps.push(step);
    }
    steps
}

/// Leaves a number out that is not between 0 and the most.
fn within(number: &mut f64, most: f64, flaw: impl FnOnce() -> Flaw, flaws: &mut Vec<Flaw>) {
    if !(0.0..=most).contains(number) {
        *number = 0.0;
        flaws.push(Flaw { key: "kind", ..flaw() });
    }
}

/// Takes no more of each list of a step than there may be.
fn shorten(step: &mut LessonStep, flaw: &Flaw, flaws: &mut Vec<Flaw>) {
    short(&mut step.hints, || flaw.clone().at("hints"), flaws);
    short(&mut step.open, || flaw.clone().at("open"), flaws);
    short(&mut step.given, || flaw.clone().at("given"), flaws);
    short(&mut step.limits, || flaw.clone().at("limits"), flaws);
    short(&mut step.drawer, || flaw.clone().at("drawer"), flaws);
    short(&mut step.cases, || flaw.clone().at("cases"), flaws);
    short(&mut step.measures, || flaw.clone().at("measures"), flaws);
    short(&mut step.ways, || flaw.clone().at("ways"), flaws);
}

fn short<T>(list: &mut Vec<T>, flaw: impl FnOnce() -> Flaw, flaws: &mut Vec<Flaw>) {
    if list.len() > STEPS_MOST {
        let many = Flaw { key: "many", ..flaw() }.with("most", &STEPS_MOST.to_string());
        flaws.push(many.with("count", &list.len().to_string()));
        list.truncate(STEPS_MOST);
    }
}

/// Fields that the calculators have not.
fn unknown_fields(lesson: &Lesson) -> Vec<Flaw> {
    let mut flaws = Vec::new();
    let mut look = |row: Option<usize>, calculator: &str, names: &Named<String>| {
        let Some(calculator) = Calculator::find(calculator) else { return };
        for (field, _) in names.iter().filter(|(field, _)| calculator.field(field).is_none()) {
            let list = if row.is_some() { "steps" } else { "lesson" };
            flaws.push(Flaw::new(list, row, "no-field").at(field));
        }
    };
    look(None, &lesson.rig.calculator, &lesson.rig.values);
    for (row, step) in (1..).zip(&lesson.steps) {
        let rig = lesson.rig_of(step);
        if step.rig.is_some() {
            look(Some(row), &rig.calculator, &rig.values);
        }
        look(Some(row), &rig.calculator, &step.values);
    }
    flaws
}
