//! The file of a lesson: what is read of it, whatever is in it, and its schema.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::damage;
use common::lesson::{SHIPPED, rig, shipped};
use common::schema::against;
use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::{Value, json};
use stageohm::lesson::{
    Case, Lesson, LessonRig, LessonStep, Limit, Part, Range, ReadLesson, Response, SCHEMA, STEPS_MOST, TEXT_LONGEST,
    Variant, WayGiven, check, deal, mark, measure, read_lesson,
};
use stageohm::settings::Settings;
use std::collections::BTreeSet;

fn read(file: &Value) -> ReadLesson {
    read_lesson(&serde_json::from_value(file.clone()).unwrap(), &Settings::default())
}

fn invalid(file: &Value) -> Vec<String> {
    against(SCHEMA, file)
}

#[test]
fn lessons_that_ship_are_valid_and_read_back_as_they_are_written() {
    for (id, _) in SHIPPED {
        assert_eq!(invalid(&shipped(id)), [] as [String; 0], "{id}");
        let lesson = common::lesson::read(&shipped(id));
        let written = serde_json::to_value(&lesson).unwrap();
        assert_eq!(invalid(&written), [] as [String; 0], "{id}");
        assert_eq!(read(&written).lesson.unwrap(), lesson, "{id}");
    }
}

/// The schema refuses what it should, else nothing here says anything.
#[test]
fn the_schema_refuses() {
    for (at, value) in [
        ("/stageohm", json!("show")),
        ("/version", json!(2)),
        ("/revision", json!(1.5)),
        ("/pass", json!(60)),
        ("/minutes", json!("20")),
        ("/title", json!("x".repeat(TEXT_LONGEST + 1))),
        ("/rig/mains", json!(50)),
        ("/rig/values/coil_l", json!(4.5)),
        ("/draw/coil_l", json!({ "any": [] })),
        ("/draw/coil_l/of", json!("3 H")),
        ("/draw/coil_l", json!({ "from": "1 H", "to": "2 H", "series": "E13" })),
        ("/steps", json!([])),
        ("/steps", json!(vec![json!({ "kind": "read" }); STEPS_MOST + 1])),
        ("/steps/0", json!({ "title": "no kind" })),
        ("/steps/0", json!({ "kind": "read", "colour": "red" })),
        ("/steps/1", json!({ "kind": "magnitude" })),
        ("/steps/1/points", json!(-1)),
        ("/steps/1/hints", json!("think")),
        ("/steps/3", json!({ "kind": "curve", "reading": "peak" })),
        ("/steps/6/best", json!("highest")),
        ("/steps/6/ways/0", json!({ "name": "a", "cost": 1 })),
        ("/steps/1", json!({ "kind": "ear" })),
        ("/steps/1", json!({ "kind": "ear", "ways": [{}, {}], "source": "drums" })),
        ("/steps/1", json!({ "kind": "ear", "ways": [{}, {}], "trials": 4 })),
        ("/steps/1", json!({ "kind": "ear", "ways": [{}, {}], "as_it_is": "yes" })),
        ("/steps/7/budget", json!("5")),
        ("/steps/7/drawer/0/cost", json!("2")),
        ("/steps/8/cases/0/values", json!([])),
    ] {
        let mut file = shipped("passive-bass");
        *file.pointer_mut(at).unwrap() = value;
        assert!(!invalid(&file).is_empty(), "{at}");
    }
}

/// Every field of the program is in the schema, and the other way round.
#[test]
fn the_schema_and_the_file_have_the_same_fields() {
    fn names(value: &Value) -> BTreeSet<&str> {
        value.as_object().unwrap().keys().map(String::as_str).collect()
    }
    fn written(value: impl serde::Serialize) -> Value {
        serde_json::to_value(value).unwrap()
    }
    let schema: Value = serde_json::from_str(SCHEMA).unwrap();
    assert_eq!(names(&written(Lesson::default())), names(&schema["properties"]));
    for (definition, thing) in [
        ("rig", written(LessonRig::default())),
        ("range", written(Range::default())),
        ("step", written(LessonStep::default())),
        ("limit", written(Limit::default())),
        ("part", written(Part::default())),
        ("case", written(Case::default())),
        ("way", written(WayGiven::default())),
        ("variant", written(Variant::default())),
    ] {
        assert_eq!(names(&thing), names(&schema["$defs"][definition]["properties"]), "{definition}");
    }
    assert_eq!(schema["properties"]["steps"]["maxItems"], json!(STEPS_MOST));
    assert_eq!(schema["$defs"]["step"]["properties"]["text"]["maxLength"], json!(TEXT_LONGEST));
}

#[test]
fn what_is_no_lesson_or_a_newer_one_is_refused() {
    for (file, words) in [
        (json!([]), "not the file of a lesson"),
        (json!({}), "not the file of a lesson"),
        (json!({ "stageohm": "show", "version": 1 }), "not the file of a lesson"),
        (json!({ "stageohm": "lesson" }), "no version"),
        (json!({ "stageohm": "lesson", "version": "1" }), "no version"),
        (json!({ "stageohm": "lesson", "version": 2 }), "version 2"),
    ] {
        let read = read(&file);
        assert!(read.lesson.is_none(), "{file}");
        assert!(read.flaws.len() == 1 && read.flaws[0].text.contains(words), "{file}: {:?}", read.flaws);
    }
}

/// Each kind of damage is told with its place, and takes nothing else with it.
#[test]
fn damage_is_told_by_step_and_the_rest_is_kept() {
    for (at, name, value, step, words) in [
        ("", "colour", json!("red"), None, "nothing goes by this name"),
        ("", "steps", json!([]), None, "no steps"),
        ("", "steps", json!("none"), None, "should be a list"),
        ("", "title", json!(["a"]), None, "not what stands here"),
        ("", "pass", json!(60), None, "not what stands here"),
        ("", "minutes", json!(-1), None, "not what stands here"),
        ("/rig/values", "colour", json!("red"), None, "no calculator asks for this"),
        ("/steps/1", "kind", json!("riddle"), Some(2), "riddle"),
        ("/steps/1", "kind", json!(3), Some(2), "not what stands here"),
        ("/steps/1", "reading", json!("taste"), Some(2), "taste"),
        ("/steps/1", "points", json!(-1), Some(2), "not what stands here"),
        ("/steps/1", "hints", json!(vec!["a"; STEPS_MOST + 1]), Some(2), "61 rows"),
        ("/steps/1", "values", json!({ "coil_l": "much" }), Some(2), "much"),
        ("/steps/1", "values", json!({ "colour": "red" }), Some(2), "no calculator asks for this"),
        ("/steps/1", "text", json!("x".repeat(TEXT_LONGEST + 1)), Some(2), "cut"),
        ("/steps/3", "plot", json!("picture"), Some(4), "picture"),
        ("/steps/5", "rig", json!({ "calculator": "oracle" }), Some(6), "oracle"),
        ("/steps/6", "best", json!("highest"), Some(7), "highest"),
        ("/steps/7", "limits", json!([]), Some(8), "nothing in it"),
        ("/steps/7", "limits", json!([{ "reading": "taste" }]), Some(8), "taste"),
        ("/steps/7", "drawer", json!([]), Some(8), "nothing in it"),
        ("/steps/8", "cases", json!([{ "name": "one" }]), Some(9), "nothing in it"),
        ("/steps/8", "measures", json!([]), Some(9), "nothing in it"),
        ("/steps/8", "measures", json!(["taste"]), Some(9), "taste"),
    ] {
        let mut file = shipped("passive-bass");
        file.pointer_mut(at).unwrap()[name] = value.clone();
        let read = read(&file);
        let told = read.flaws.iter().find(|flaw| flaw.text.contains(words) && flaw.step == step);
        assert!(told.is_some(), "{at} {name} {value}: {:?}", read.flaws);
        assert!(read.flaws.iter().all(|flaw| !flaw.text.contains("file-") && !flaw.text.contains('{')), "{read:?}");
        let kept = read.lesson.unwrap();
        assert_eq!(kept.id, "passive-bass");
        if name != "steps" {
            assert_eq!(kept.steps.len(), 10);
        }
    }
}

#[test]
fn steps_too_many_are_left_out_and_told() {
    let mut file = shipped("passive-bass");
    file["steps"] = json!(vec![json!({ "kind": "read" }); STEPS_MOST + 1]);
    let read = read(&file);
    assert_eq!(read.lesson.unwrap().steps.len(), STEPS_MOST);
    assert!(read.flaws.iter().any(|flaw| flaw.text.contains("61 rows")), "{:?}", read.flaws);
}

/// Everything that may be asked of a lesson, with responses that have something in every field.
fn exercise(lesson: &Lesson) {
    let settings = Settings::default();
    let response: Response = serde_json::from_value(json!({
        "text": "3 k", "decade": 3, "curve": [[50, 0], [5000, -6]], "parts": { "box": "passive" },
        "measured": ["peak"], "case": 1, "order": ["1", "0"], "sure": 2, "hints": 9,
    }))
    .unwrap();
    for seed in [0, u32::MAX] {
        let dealt = deal(lesson, seed);
        assert_eq!(dealt.steps.len(), lesson.steps.len());
        assert_eq!(check(lesson, &dealt, &settings).len(), lesson.steps.len());
        for at in 0..=lesson.steps.len() {
            for response in [&response, &Response::default()] {
                if let Some(marked) = mark(lesson, &dealt, at, response, &settings) {
                    assert!((0.0..=1.0).contains(&marked.share), "{marked:?}");
                }
            }
            measure(lesson, &dealt, at, "peak", &settings);
        }
    }
}

fn anything() -> impl Strategy<Value = Value> {
    damage::anything(
        &[
            "read", "number", "curve", "target", "fault", "choice", "pickup", "peak", "response", "10 %", "-1",
            "1e999 V",
        ],
        &["kind", "values", "reading", "plot", "rig", "draw", "limits", "drawer", "cases", "ways", "of", "field"],
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    #[test]
    fn nothing_at_all_panics(file in anything(), steps in proptest::collection::vec(anything(), 0..4)) {
        let mut file = file;
        if let Value::Object(parts) = &mut file {
            parts.insert("stageohm".to_owned(), json!("lesson"));
            parts.insert("version".to_owned(), json!(1));
            parts.insert("steps".to_owned(), Value::from(steps));
        }
        if let Some(lesson) = read(&file).lesson {
            exercise(&lesson);
        }
    }

    /// A lesson damaged anywhere: what the schema refuses is told; what is kept is valid and
    /// reads back as it is.
    #[test]
    fn a_damaged_lesson_is_told_and_what_is_kept_is_whole(
        which in 0..SHIPPED.len(),
        changes in proptest::collection::vec((any::<Index>(), anything()), 1..3),
    ) {
        let mut file = shipped(SHIPPED[which].0);
        // Some steps are enough, and what is asked of all of them takes long.
        file["steps"].as_array_mut().unwrap().truncate(3);
        for (place, value) in changes {
            damage::put(&mut file, &place, value, &["/version", "/stageohm"]);
        }
        let ReadLesson { lesson, flaws } = read(&file);
        let lesson = lesson.unwrap();
        if !invalid(&file).is_empty() {
            prop_assert!(!flaws.is_empty(), "{:?}", invalid(&file));
        }
        let written = serde_json::to_value(&lesson).unwrap();
        if !lesson.steps.is_empty() {
            prop_assert_eq!(invalid(&written), [] as [String; 0]);
        }
        prop_assert_eq!(&read(&written).lesson.unwrap(), &lesson);
        exercise(&lesson);
    }
}

/// An object with other parts over its own.
fn with(mut usual: Value, over: Value) -> Value {
    if let (Value::Object(usual), Value::Object(over)) = (&mut usual, over) {
        usual.extend(over);
    }
    usual
}

/// What says nothing is told: a limit that cannot be read would be none, and a part that goes
/// nowhere would do nothing.
#[test]
fn what_a_step_refers_to_has_to_be_there() {
    let rig = rig("pickup", &json!({}));
    let flaws = |lesson: Value, step: Value| {
        let step = with(json!({ "points": 1 }), step);
        let usual = json!({
            "stageohm": "lesson", "version": 1, "id": "a", "pass": 0.5, "rig": rig,
            "steps": [{ "kind": "read" }, step],
        });
        read(&with(usual, lesson)).flaws.into_iter().map(|flaw| flaw.text).collect::<Vec<_>>()
    };
    let number = |part: Value| with(json!({ "kind": "number", "reading": "free_resonance" }), part);
    assert_eq!(flaws(json!({}), number(json!({ "good": "5 %", "none": "50 %" }))), Vec::<String>::new());
    let target = |limits: Value, drawer: Value| json!({ "kind": "target", "limits": limits, "drawer": drawer });
    let limits = json!([{ "reading": "high_corner", "least": "1 kHz" }]);
    let drawer = json!([{ "field": "load_r", "value": "1M" }]);
    assert_eq!(flaws(json!({}), target(limits.clone(), drawer.clone())), Vec::<String>::new());
    let fault = |values: Value| {
        let cases = json!([{ "name": "fine", "values": {} }, { "name": "not", "values": values }]);
        json!({ "kind": "fault", "measures": ["peak"], "cases": cases })
    };
    let curve = |from: &str, to: &str| json!({ "kind": "curve", "plot": "response", "from": from, "to": to });
    for (lesson, step, told) in [
        (json!({}), number(json!({ "given": ["nope"] })), "nope"),
        (json!({}), number(json!({ "open": ["nope"] })), "nope"),
        (json!({}), number(json!({ "good": "x" })), "“x” is not understood"),
        (json!({}), number(json!({ "good": "60 %", "none": "50 %" })), "no wider"),
        (json!({}), number(json!({ "points": 0 })), "no points"),
        (json!({}), curve("10 kHz", "50 Hz"), "ends before"),
        (json!({}), curve("1 kHz", "1 kHz"), "ends before"),
        (json!({}), curve("-5 Hz", "1 kHz"), "“-5 Hz” is not understood"),
        (json!({}), target(json!([{ "reading": "high_corner", "least": "banana" }]), drawer.clone()), "“banana”"),
        (json!({}), target(json!([{ "reading": "high_corner" }]), drawer.clone()), "no least and no most"),
        (json!({}), target(limits.clone(), json!([{ "field": "nope", "value": "1" }])), "nope"),
        (json!({}), target(limits.clone(), json!([{ "field": "load_r", "value": "one" }])), "“one”"),
        (json!({}), target(limits.clone(), json!([{ "field": "load_r", "value": "1M", "cost": -1000 }])), "drawer"),
        (
            json!({}),
            target(
                limits,
                json!([{ "field": "load_r", "value": "1M" }, { "name": "B", "field": "load_r", "value": "1M" }]),
            ),
            "“B” puts in the same",
        ),
        (json!({}), fault(json!({ "nope": "1" })), "nope"),
        (json!({}), fault(json!({ "load_r": "much" })), "“much”"),
        (json!({ "draw": { "nope": { "of": ["1"] } } }), number(json!({})), "nope"),
        (json!({ "draw": { "load_r": { "of": [] } } }), number(json!({})), "nothing can be dealt"),
        (json!({ "draw": { "load_r": { "from": "1M", "to": "1k" } } }), number(json!({})), "nothing can be dealt"),
        (json!({ "draw": { "load_r": { "of": ["banana"] } } }), number(json!({})), "“banana”"),
        (json!({ "pass": 60 }), number(json!({})), "pass"),
        (json!({}), number(json!({ "points": "two" })), "points"),
        (json!({ "minutes": 1e308 }), number(json!({})), "minutes"),
        (json!({ "id": "" }), number(json!({})), "identifier"),
    ] {
        let flaws = flaws(lesson, step.clone());
        assert!(flaws.len() == 1 && flaws[0].contains(told), "{told}: {step} {flaws:?}");
    }
}
