//! Where an answer or an entry points to, what it gives there is taken.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

mod common;

use common::flaw::{links, of_link};
use common::question::every_setting;
use common::{ask, object, reading, report, within};
use serde_json::{Map, Value, json};
use stageohm::answer::look_up;
use stageohm::calculator::{Calculator, Preset, REGISTER};
use stageohm::field::Kind;
use stageohm::report::Link;
use stageohm::settings::Settings;

fn links_of(calculator: &str, values: Value, settings: &Settings) -> Vec<Link> {
    let answer = ask(json!({ "calculator": calculator, "values": values, "settings": settings, "working": false }));
    let report = answer.report.unwrap_or_else(|| panic!("{calculator}: {:?}", answer.problems));
    links(&report).into_iter().cloned().collect()
}

#[track_caller]
fn all_are_taken(links: &[Link], settings: &Settings) {
    let flaws: Vec<_> = links.iter().flat_map(|link| of_link(link, settings)).collect();
    assert_eq!(flaws, Vec::<String>::new());
}

/// Each preset of a calculator and what it holds beside it.
fn presets(calculator: &Calculator) -> impl Iterator<Item = &'static [(&'static str, &'static str)]> {
    let fillings = |preset: &'static Preset| std::iter::once(preset.values).chain(preset.held.iter().copied());
    calculator.presets.iter().flat_map(fillings)
}

#[test]
fn entries_lead_to_what_takes_them() {
    for settings in every_setting() {
        let links: Vec<_> = look_up(&settings).into_iter().flat_map(|entry| entry.links).collect();
        assert!(links.len() > 100, "only {} links", links.len());
        all_are_taken(&links, &settings);
    }
}

/// The same thing has the same limits in calculators that hand it on.
#[test]
fn what_one_calculator_takes_those_that_it_points_to_take_too() {
    let mut pairs = 0;
    for from in REGISTER {
        let links: Vec<_> =
            presets(from).flat_map(|values| links_of(from.id, object(values), &Settings::default())).collect();
        for to in links.iter().filter_map(|link| Calculator::find(link.calculator)) {
            for field in from.fields {
                let (Kind::Number(given), Some(Kind::Number(taken))) =
                    (&field.kind, to.field(field.id).map(|field| &field.kind))
                else {
                    continue;
                };
                if given.unit == taken.unit {
                    let inside = taken.limits.0 <= given.limits.0 && given.limits.1 <= taken.limits.1;
                    assert!(
                        inside,
                        "{} of {}: {:?} into {:?} of {}",
                        field.id, from.id, given.limits, taken.limits, to.id
                    );
                    pairs += 1;
                }
            }
        }
    }
    assert!(pairs > 100, "only {pairs} pairs of fields");
}

/// A level so hot that a box has to take off more than any does.
#[test]
fn a_box_turned_down_far() {
    for emf in ["10 V", "100 V", "1 kV"] {
        let links = links_of("box-or-straight", object(&[("emf", emf)]), &Settings::default());
        let gain = |link: &&Link| link.values.iter().any(|(id, text)| *id == "box_gain" && text.starts_with('−'));
        assert!(links.iter().any(|link| gain(&link)), "{emf}: no box is turned down");
        all_are_taken(&links, &Settings::default());
    }
}

/// More than 50 V between two earths is not computed with, so nothing leads there.
#[test]
fn a_voltage_that_is_dangerous_leads_nowhere() {
    // 100 mA along 10 kΩ of shield.
    let leak = [("cause", "leakage"), ("connection", "balanced"), ("leakage", "100 mA"), ("shield_r", "1k")];
    let links = links_of("ground-loop", object(&leak), &Settings::default());
    assert_eq!(links, []);
    let leaking = [
        ("source", "output"),
        ("power", "leaking"),
        ("box", "passive"),
        ("ground", "lifted"),
        ("leakage_volts", "240 V"),
    ];
    all_are_taken(&links_of("whole-line", object(&leaking), &Settings::default()), &Settings::default());
}

/// A current that no supply gives is told on the screen of the line alone.
#[test]
fn a_starved_box() {
    let values = [("current", "20 mA"), ("run_length", "100 m")];
    let links = links_of("whole-line", object(&values), &Settings::default());
    assert!(links.iter().all(|link| link.calculator != "phantom"));
    all_are_taken(&links, &Settings::default());
    // 3.4 kΩ and 100 m of shield of 14 Ω/m drop 48 V at 10 mA: that leaves nothing, and
    // 9.9 mA a little.
    for current in ["10 mA", "9.9 mA"] {
        let values = [("current", current), ("run_length", "100 m"), ("run_r", "0"), ("shield_r", "14")];
        let links = links_of("whole-line", object(&values), &Settings::default());
        let link = links.iter().find(|link| link.calculator == "phantom").unwrap_or_else(|| panic!("{current}"));
        all_are_taken(std::slice::from_ref(link), &Settings::default());
    }
}

/// A supply that a box can do with is handed on with the run behind it: from 48 V, 4 mA
/// leave 48 V − 4 mA·3.4 kΩ (P48 of IEC 61938, from memory).
#[test]
fn a_fed_box() {
    let values = [
        ("source", "output"),
        ("phantom", "p48"),
        ("current", "4 mA"),
        ("run_length", "80 m"),
        ("run_r", "0"),
        ("shield_r", "0"),
    ];
    let links = links_of("whole-line", object(&values), &Settings::default());
    let link = links.iter().find(|link| link.calculator == "phantom").unwrap();
    let values: Map<String, Value> = link.values.iter().map(|(id, text)| ((*id).to_owned(), json!(text))).collect();
    assert_eq!(values["lead_length"], "80 m");
    let there = report("phantom", values.into());
    within("voltage", reading(&there, "voltage"), 34.4, 1e-9);
}

/// What a line is as one load is the same at one frequency as a resistance and a
/// capacitance, but for a coil: that is said, and said of no other.
#[test]
fn a_coil_is_left_out_of_a_load() {
    for (at, more, coil) in [
        ("a lead and an input", [("box", "none"), ("leakage", "0")], false),
        // In the bass, where it loses most, a transformer is a coil.
        ("a transformer", [("box", "passive"), ("leakage", "1 H")], true),
    ] {
        let values = object(&[&[("source", "output")][..], &more[..]].concat());
        let links = links_of("whole-line", values, &Settings::default());
        let link = links.iter().find(|link| link.calculator == "source-load").unwrap();
        assert_eq!(link.text.contains("ignoring its inductance"), coil, "{at}: {}", link.text);
        let none = link.values.iter().any(|(id, text)| *id == "load_c" && text.starts_with("0 "));
        assert_eq!(none, coil, "{at}: {:?}", link.values);
    }
}

/// What a link cannot put in it says, and what it can it says nothing of.
#[test]
fn a_link_says_what_it_leaves_out() {
    let text = |emf: &str| {
        let links = links_of("pad", object(&[("emf", emf)]), &Settings::default());
        links.into_iter().map(|link| link.text).collect::<Vec<_>>().join("; ")
    };
    // The pad takes off 20 dB, and the least voltage of all is 1 nV.
    assert!(text("1 nV").contains("out of range"), "{}", text("1 nV"));
    assert!(!text("1 V").contains("out of range"), "{}", text("1 V"));
}
