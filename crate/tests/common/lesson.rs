//! Lessons in a test: those that ship, and some of a single step.

use super::ask;
use serde_json::{Value, json};
use stageohm::lesson::{Dealt, Lesson, Marked, Response, deal, mark, read_lesson};
use stageohm::settings::Settings;

/// The lessons that ship, by identifier.
pub const SHIPPED: [(&str, &str); 4] = [
    ("passive-bass", include_str!("../../lessons/passive-bass.json")),
    ("hum", include_str!("../../lessons/hum.json")),
    ("levels", include_str!("../../lessons/levels.json")),
    ("by-ear", include_str!("../../lessons/by-ear.json")),
];

/// The file of a lesson that ships.
pub fn shipped(id: &str) -> Value {
    let (_, text) = SHIPPED.iter().find(|(known, _)| *known == id).unwrap();
    serde_json::from_str(text).unwrap()
}

/// A lesson in whose file nothing is wrong. What a test does not care for need not be in it:
/// its name, what passes and points.
#[track_caller]
pub fn read(file: &Value) -> Lesson {
    let file = &with(json!({ "id": "test", "pass": 0.5 }), file);
    let read = read_lesson(&serde_json::from_value(file.clone()).unwrap(), &Settings::default());
    assert!(read.flaws.is_empty(), "{:?}", read.flaws);
    read.lesson.unwrap()
}

fn with(usual: Value, file: &Value) -> Value {
    let mut all = usual;
    let map = all.as_object_mut().unwrap();
    map.extend(file.as_object().unwrap().clone());
    for step in map.get_mut("steps").and_then(Value::as_array_mut).into_iter().flatten() {
        let step = step.as_object_mut().unwrap();
        step.entry("points").or_insert_with(|| json!(1));
    }
    all
}

/// A rig with a value for every field.
#[track_caller]
pub fn rig(calculator: &str, values: &Value) -> Value {
    let answer = ask(json!({ "calculator": calculator, "values": values }));
    assert!(answer.report.is_some(), "{calculator} {values}");
    let texts: serde_json::Map<_, _> =
        answer.fields.iter().map(|(id, echo)| (id.to_owned(), echo.text.clone().into())).collect();
    json!({ "calculator": calculator, "mains": "50", "values": texts })
}

/// A lesson of a single step.
#[track_caller]
pub fn of_step(calculator: &str, values: &Value, step: Value) -> Lesson {
    let rig = rig(calculator, values);
    read(&json!({ "stageohm": "lesson", "version": 1, "rig": rig, "steps": [step] }))
}

/// What a response to the first step is worth.
#[track_caller]
pub fn first(lesson: &Lesson, response: Value) -> Marked {
    at(lesson, &deal(lesson, 1), 0, response)
}

/// What a response to a step is worth.
#[track_caller]
pub fn at(lesson: &Lesson, dealt: &Dealt, step: usize, response: Value) -> Marked {
    let response: Response = serde_json::from_value(response).unwrap();
    mark(lesson, dealt, step, &response, &Settings::default()).unwrap()
}
