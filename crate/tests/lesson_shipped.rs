//! The lessons that ship: whole, fair, and never without an answer.
#![allow(clippy::unwrap_used)]

mod common;

use common::lesson::{SHIPPED, at, read, shipped};
use rayon::prelude::*;
use serde_json::{Value, json};
use stageohm::answer::look_up;
use stageohm::calculator::Calculator;
use stageohm::lesson::{Key, Lesson, LessonStep, Seen, check, deal, measure};
use stageohm::settings::{Language, Settings};
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
        "ear" => json!({ "heard": key.heard }),
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
        assert_eq!(lesson.id, id);
        let kinds: BTreeSet<_> = lesson.steps.iter().map(|step| step.kind.as_str()).collect();
        if kinds == BTreeSet::from(["ear"]) {
            // Ears tire: it is shorter, and asks one thing.
            assert_eq!((lesson.minutes, lesson.steps.len()), (15.0, 5), "{id}");
        } else {
            assert!(lesson.minutes == 20.0 && (8..=11).contains(&lesson.steps.len()), "{id}");
            assert!(kinds.len() >= 5, "{id}: {kinds:?}");
        }
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

/// The terms that a text refers to, however they read there.
fn terms(text: &str) -> BTreeSet<&str> {
    let found = text.split("[[").skip(1).filter_map(|rest| rest.split_once("]]"));
    found.map(|(term, _)| term.split('|').next().unwrap_or(term)).collect()
}

/// Nothing is left in English, and no paragraph, term, hint or name is lost on the way.
#[test]
fn every_lesson_is_whole_in_spanish() {
    let same = |here: &str, own: &str, told: &str| {
        assert_eq!(own.split("\n\n").count(), told.split("\n\n").count(), "{here}: {told}");
        assert_eq!((own.is_empty(), terms(own)), (told.is_empty(), terms(told)), "{here}: {told}");
    };
    each(|id, lesson| {
        let told = lesson.variants.get("es").unwrap();
        same(id, &lesson.title, &told.title);
        same(id, &lesson.note, &told.note);
        for (place, step) in (1..).zip(&lesson.steps) {
            let (here, told) = (format!("{id}, step {place}"), step.variants.get("es").unwrap());
            same(&here, &step.title, &told.title);
            same(&here, &step.text, &told.text);
            same(&here, &step.because, &told.because);
            same(&here, &step.note, &told.note);
            assert_eq!(told.hints.len(), step.hints.len(), "{here}");
            step.hints.iter().zip(&told.hints).for_each(|(own, hint)| same(&here, own, hint));
            assert_eq!(told.names.len(), step.ways.len() + step.cases.len() + step.drawer.len(), "{here}");
            assert!(told.names.iter().all(|name| !name.is_empty()), "{here}");
        }
    });
}

/// Whether a text ends as a name begins, by one word of it or by more.
fn ends_as(text: &str, name: &str) -> bool {
    let is_between = |c: char| c.is_whitespace() || c == ',' || c == '(';
    let text = format!(" {}", text.to_lowercase().trim_end_matches(is_between).replace('\u{a0}', " "));
    let words: Vec<_> = name.split_whitespace().collect();
    (1..=words.len()).any(|count| text.ends_with(&format!(" {}", words[..count].join(" "))))
}

/// A term reads as its name, or as it is written here: that does not stand beside it once more.
#[test]
fn no_term_is_said_twice() {
    assert!(ends_as("Con la capacidad del cable, ", "capacidad del cable"));
    assert!(ends_as("forma una resonancia, ", "resonancia de una pastilla") && !ends_as("forma una ", "resonancia"));
    for language in Language::ALL {
        let entries = look_up(&Settings { language: *language, ..Settings::default() });
        each(|id, lesson| {
            for text in texts(&lesson.clone().told(language.code())) {
                for (at, _) in text.match_indices("[[") {
                    let term = text[at + 2..].split("]]").next().unwrap();
                    let (term, reads) = term.split_once('|').unwrap_or((term, ""));
                    let title = || entries.iter().find(|entry| entry.id == term).unwrap().title.clone();
                    let name = if reads.is_empty() { title() } else { reads.to_owned() };
                    assert!(!ends_as(&text[..at], &name.to_lowercase()), "{id}, {term}: {text}");
                }
            }
        });
    }
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
        let mut count = 0;
        for text in texts(lesson) {
            assert_eq!(text.matches("[[").count(), text.matches("]]").count(), "{id}: {text}");
            for term in terms(&text) {
                assert!(known.contains(term), "{id}: {term}");
                count += 1;
            }
            assert!(!text.contains('<') && text.trim() == text, "{id}: {text}");
        }
        assert!(count >= 5, "{id}: {count} terms");
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

/// One difference of the lesson by ear cannot be heard, on purpose; the others can by everybody,
/// with whatever is dealt. Copper of half an ohm in series with kilohms changes less than a
/// hundredth of a decibel.
#[test]
fn one_of_five_differences_cannot_be_heard() {
    let lesson = read(&shipped("by-ear"));
    for seed in 1..=20 {
        let checked = check(&lesson, &deal(&lesson, seed), &Settings::default());
        let alike = checked.iter().map(|step| step.key.as_ref().unwrap().seen == Some(Seen::Alike));
        assert_eq!(alike.collect::<Vec<_>>(), [false, false, false, true, false], "seed {seed}");
    }
    let marked = at(&lesson, &deal(&lesson, 1), 3, json!({ "seen": "alike" }));
    let plot = marked.plot.unwrap();
    let [a, b] = &plot.traces[..] else { unreachable!("{}", plot.traces.len()) };
    let most = a.y.iter().zip(&b.y).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
    assert!(most < 0.001, "{most} dB");
}

/// Before anything is heard, the trainer reads how it is listened to.
#[test]
fn ears_are_taken_care_of() {
    let by_ear = texts(&read(&shipped("by-ear"))).join("\n");
    for said in ["headphones, never the PA", "Nobody turns it up", "never lifted, cut or bypassed"] {
        assert!(by_ear.contains(said), "{said}");
    }
}
