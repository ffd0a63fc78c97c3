//! What a trainer is told of a lesson before learners get it, and what becomes of a step that
//! has no answer.
#![allow(clippy::unwrap_used)]

mod common;

use common::lesson::{first, of_step, read, rig};
use serde_json::{Value, json};
use stageohm::lesson::{Doubt, Lesson, StepCheck, check, deal, read_lesson};
use stageohm::settings::Settings;

fn checked(lesson: &Lesson) -> Vec<StepCheck> {
    check(lesson, &deal(lesson, 1), &Settings::default())
}

fn on_a_divider(steps: &Value) -> Lesson {
    let rig = rig("source-load", &json!({ "source_r": "10k", "load_r": "10k" }));
    read(&json!({ "stageohm": "lesson", "version": 1, "rig": rig, "steps": steps }))
}

/// A load of 10 kΩ on 10 kΩ loses 6.02 dB (a potential divider); one of 100 kΩ loses 0.83 dB.
#[test]
fn what_stands_in_the_way_of_every_set_of_parts_is_named() {
    let with = |drawer: Value, most: &str| {
        let limits = json!([{ "reading": "loss", "most": most }]);
        let step = json!({ "kind": "target", "limits": limits, "drawer": drawer, "points": 2 });
        checked(&of_step("source-load", &json!({ "source_r": "10k", "load_r": "10k" }), step)).remove(0)
    };
    let part = |value: &str| json!({ "field": "load_r", "value": value, "cost": 1 });
    let short = with(json!([part("22k"), part("100k")]), "0.5 dB");
    assert_eq!(short.doubt, Some(Doubt::Unsolvable));
    // That of the set that comes closest.
    assert!(short.why.replace('\u{a0}', " ").contains("0.3 dB over the 0.5 dB"), "{}", short.why);
    let fine = with(json!([part("22k"), part("100k")]), "1 dB");
    assert_eq!((fine.doubt, fine.why.as_str()), (None, ""));
    let values: Vec<_> = ["load_r", "source_r", "load_c"]
        .iter()
        .flat_map(|field| (1..=20).map(move |value| json!({ "field": field, "value": format!("{value}"), "cost": 1 })))
        .collect();
    let many = with(json!(values), "0.5 dB");
    assert_eq!(many.doubt, Some(Doubt::Unsolvable));
    assert!(many.why.contains("4096"), "{}", many.why);
}

#[test]
fn a_step_whose_answer_another_one_shows_is_told() {
    let asks = json!({ "kind": "number", "reading": "loss", "points": 1 });
    let shows = json!({ "kind": "read", "reading": "loss" });
    let cases = json!([
        { "name": "as it is", "values": {} },
        { "name": "half the load", "values": { "load_r": "4.7k" } },
    ]);
    let measures = json!({ "kind": "fault", "measures": ["loss", "z_load"], "cases": cases });
    let elsewhere = json!({ "kind": "read", "reading": "loss", "values": { "load_r": "1M" } });
    let of = |steps: Value, at: usize| {
        let check = checked(&on_a_divider(&steps)).remove(at);
        (check.doubt, check.why)
    };
    let told = |step: &str| (Some(Doubt::Told), format!("Step {step} shows the answer."));
    assert_eq!(of(json!([shows, asks]), 1), told("1"));
    // What is usual can be looked at first, wherever it stands.
    assert_eq!(of(json!([asks, measures]), 0), told("2"));
    assert_eq!(of(json!([measures, asks]), 1), told("1"));
    // To look at afterwards what was asked for is what a lesson is for.
    assert_eq!(of(json!([asks, shows]), 0).0, None);
    assert_eq!(of(json!([elsewhere, asks]), 1).0, None);
    assert_eq!(of(json!([{ "kind": "read", "reading": "z_load" }, asks]), 1).0, None);
}

/// The learner is not to blame for a step that has no answer.
#[test]
fn a_step_without_an_answer_counts_for_nothing() {
    // Without capacitance there is no upper corner.
    let lesson = of_step(
        "source-load",
        &json!({ "load_c": "0" }),
        json!({ "kind": "number", "reading": "high_corner", "points": 5 }),
    );
    let marked = first(&lesson, json!({ "text": "1 kHz" }));
    assert!(marked.problem.is_none(), "{marked:?}");
    assert_eq!((marked.points, marked.of), (0.0, 0.0));
    assert_eq!(marked.findings.iter().map(|one| one.id).collect::<Vec<_>>(), ["no-key"]);
    assert_eq!(checked(&lesson)[0].doubt, Some(Doubt::Unsolvable));
}

/// Nor for a calculator that is not known here, nor for a curve that has no beginning.
#[test]
fn a_rig_that_has_no_answer_counts_for_nothing() {
    let number = json!({ "kind": "number", "reading": "loss", "points": 5 });
    let rig = json!({ "calculator": "source-lode", "mains": "50", "values": {} });
    let file = json!({ "stageohm": "lesson", "version": 1, "rig": rig, "steps": [number] });
    let misspelt = read_lesson(&serde_json::from_value(file).unwrap(), &Settings::default()).lesson.unwrap();
    // A coil without resistance makes no noise, of which there is no level.
    let curve = json!({ "kind": "curve", "plot": "chain-noise", "points": 5 });
    let noiseless = of_step("whole-line", &json!({ "coil_r": "0" }), curve);
    let said = json!({ "text": "6 dB", "curve": [[20.0, 0.0], [20000.0, 0.0]] });
    for lesson in [misspelt, noiseless] {
        let marked = first(&lesson, said.clone());
        assert!(marked.problem.is_none(), "{marked:?}");
        assert_eq!((marked.points, marked.of), (0.0, 0.0));
        assert_eq!(marked.findings.iter().map(|one| one.id).collect::<Vec<_>>(), ["no-key"]);
        assert_eq!(checked(&lesson)[0].doubt, Some(Doubt::Unsolvable));
    }
}

/// A guess is drawn as the rig that it would take, beside the rig that is there: half the
/// voltage is a load as large as the source.
#[test]
fn a_wrong_number_is_drawn_beside_the_right_one() {
    let lesson = of_step(
        "source-load",
        &json!({ "source_r": "10k", "load_r": "100k", "load_c": "1n" }),
        json!({ "kind": "number", "reading": "loss", "plot": "response", "open": ["load_r"], "points": 1 }),
    );
    let marked = first(&lesson, json!({ "text": "6.02 dB" }));
    let plot = marked.plot.unwrap();
    let [right, said] = &plot.traces[..] else { unreachable!("{:?}", plot.traces.len()) };
    assert_eq!(said.id, "said");
    assert!(said.name.replace('\u{a0}', " ").ends_with("10 kΩ"), "{}", said.name);
    common::within("as said", right.y[0] - said.y[0], 6.02 - 0.828, 0.02);
    // What is right has nothing beside it.
    assert!(first(&lesson, json!({ "text": "0.83 dB" })).plot.is_none());
}
