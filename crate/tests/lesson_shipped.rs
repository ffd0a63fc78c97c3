//! The lessons that ship: whole, fair, and never without an answer.
#![allow(clippy::unwrap_used)]

mod common;

use common::lesson::{SHIPPED, at, read, shipped};
use rayon::prelude::*;
use serde_json::{Value, json};
use stageohm::answer::look_up;
use stageohm::calculator::Calculator;
use stageohm::lesson::{Key, Lesson, LessonStep, check, deal, measure};
use stageohm::settings::Settings;
use std::collections::BTreeSet;

fn each(mut look: impl FnMut(&str, &Lesson)) {
    for (id, _) in SHIPPED {
        look(id, &read(&shipped(id)));
    }
}

/// Every text of a lesson.
fn texts(lesson: &Lesson) -> Vec<String> {
    let of = |step: &LessonStep| {
        let names = step.ways.iter().map(|way| &way.name).chain(step.cases.iter().map(|case| &case.name));
        let names = names.chain(step.drawer.iter().map(|part| &part.name));
        [&step.title, &step.text, &step.because, &step.note]
            .into_iter()
            .chain(&step.hints)
            .chain(names)
            .cloned()
            .collect()
    };
    let steps = lesson.steps.iter().flat_map(|step| -> Vec<String> { of(step) });
    [lesson.title.clone(), lesson.note.clone()].into_iter().chain(steps).collect()
}

/// Nothing is doubtful whatever is dealt, and what is right, given as a response, has full marks.
#[test]
fn every_step_has_an_answer_for_every_seed() {
    each(|id, lesson| {
        (1..=20).into_par_iter().for_each(|seed| {
            let dealt = deal(lesson, seed);
            for (place, checked) in check(lesson, &dealt, &Settings::default()).into_iter().enumerate() {
                let (step, here) = (&lesson.steps[place], format!("{id}, seed {seed}, step {}", place + 1));
                assert_eq!(checked.doubt, None, "{here}: {:?}", dealt.drawn);
                assert_eq!(checked.key.is_some(), step.kind != "read", "{here}");
                let Some(key) = checked.key else { continue };
                let marked = at(lesson, &dealt, place, response_of(step, &key));
                assert!(marked.share > 0.999, "{here}: {marked:?}");
                assert!((marked.points - step.points).abs() < 0.01 * step.points, "{here}");
            }
        });
    });
}

/// What is right for a step, as a response.
fn response_of(step: &LessonStep, key: &Key) -> Value {
    let value = key.value.unwrap_or(0.0);
    match step.kind.as_str() {
        "number" => json!({ "text": format!("{value:.9}") }),
        "magnitude" => json!({ "decade": value.abs().log10().floor() as i32 }),
        "curve" => json!({ "curve": key.curve }),
        "target" => json!({ "parts": key.parts }),
        "fault" => json!({ "case": key.case }),
        _ => json!({ "order": key.order.concat() }),
    }
}

/// A rule of thumb is fair: an estimate that is off by a tenth, or a decibel, loses little, and
/// one that is off by four, or 20 dB, has nothing.
#[test]
fn tolerances_are_those_of_an_estimate() {
    each(|id, lesson| {
        let dealt = deal(lesson, 5);
        for (place, step) in lesson.steps.iter().enumerate().filter(|(_, step)| step.kind == "number") {
            let right = at(lesson, &dealt, place, json!({ "text": "1" })).key.value.unwrap();
            let share = |said: f64| at(lesson, &dealt, place, json!({ "text": format!("{said:.9}") })).share;
            let is_level = step.good.ends_with("dB");
            let (near, far) = if is_level { (right + 1.0, right - 20.0) } else { (right * 1.1, right * 4.0) };
            assert!(
                share(near) >= 0.9 && share(far) == 0.0,
                "{id}, step {}: {} {}",
                place + 1,
                share(near),
                share(far)
            );
        }
    });
}

/// Every fault reads unlike every other by something that can be measured.
#[test]
fn faults_can_be_told_apart() {
    each(|id, lesson| {
        for (place, step) in lesson.steps.iter().enumerate().filter(|(_, step)| step.kind == "fault") {
            let mut seen: BTreeSet<Vec<String>> = BTreeSet::new();
            let mut wrong = BTreeSet::new();
            for seed in 1..=60 {
                let dealt = deal(lesson, seed);
                if dealt.drawn != deal(lesson, 1).drawn || !wrong.insert(dealt.steps[place].wrong) {
                    continue;
                }
                let reads = |id: &String| measure(lesson, &dealt, place, id, &Settings::default()).unwrap().text;
                seen.insert(step.measures.iter().map(reads).collect());
            }
            assert_eq!(seen.len(), wrong.len(), "{id}: {seen:?}");
        }
    });
}

#[test]
fn every_value_is_pinned() {
    each(|id, lesson| {
        for rig in std::iter::once(&lesson.rig).chain(lesson.steps.iter().filter_map(|step| step.rig.as_ref())) {
            let calculator = Calculator::find(&rig.calculator).unwrap();
            for field in calculator.fields {
                assert!(rig.values.get(field.id).is_some(), "{id}: {} {}", rig.calculator, field.id);
            }
        }
    });
}

#[test]
fn every_lesson_is_whole() {
    each(|id, lesson| {
        assert_eq!((lesson.id.as_str(), lesson.minutes), (id, 20.0));
        assert!((8..=11).contains(&lesson.steps.len()), "{id}");
        let kinds: BTreeSet<_> = lesson.steps.iter().map(|step| step.kind.as_str()).collect();
        assert!(kinds.len() >= 5, "{id}: {kinds:?}");
        assert!(lesson.draw.iter().count() >= 2, "{id}");
        assert!(lesson.note.len() > 200, "{id}");
        for (place, step) in (1..).zip(&lesson.steps) {
            let here = format!("{id}, step {place}");
            assert!(step.title.len() > 5 && step.text.len() > 60 && step.note.len() > 30, "{here}");
            if step.kind == "read" {
                continue;
            }
            assert!(step.points > 0.0 && !step.hints.is_empty() && step.because.len() > 100, "{here}");
            // What the learner has to know is shown.
            assert!(!step.given.is_empty(), "{here}");
        }
    });
}

/// Fields that are shown are there, and terms that are looked up can be.
#[test]
fn fields_and_terms_exist() {
    let known: BTreeSet<String> = look_up(&Settings::default()).into_iter().map(|entry| entry.id.to_owned()).collect();
    each(|id, lesson| {
        for step in &lesson.steps {
            let rig = step.rig.as_ref().unwrap_or(&lesson.rig);
            let calculator = Calculator::find(&rig.calculator).unwrap();
            for field in step.open.iter().chain(&step.given) {
                assert!(calculator.field(field).is_some(), "{id}, {}: {field}", step.title);
            }
        }
        let mut terms = 0;
        for text in texts(lesson) {
            assert_eq!(text.matches("[[").count(), text.matches("]]").count(), "{id}: {text}");
            for term in text.split("[[").skip(1).map(|rest| rest.split("]]").next().unwrap()) {
                assert!(known.contains(term), "{id}: {term}");
                terms += 1;
            }
            assert!(!text.contains('<') && text.trim() == text, "{id}: {text}");
        }
        assert!(terms >= 5, "{id}: {terms} terms");
    });
}

/// Nobody is told to lift an earth; those who ask are told not to.
#[test]
fn safety_earths_stay() {
    let hum = texts(&read(&shipped("hum"))).join("\n");
    for said in [
        "never lifted, cut",
        "Every safety earth stays",
        "Never lift, cut or bypass a safety earth",
        "licensed electrician",
    ] {
        assert!(hum.contains(said), "{said}");
    }
}
