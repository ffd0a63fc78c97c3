//! What would mend an answer: each cure, done, mends the limit that it is for and
//! misses no other for it; a step less would not do. Two by hand.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::{ask, report, within};
use serde_json::{Map, Value, json};
use stageohm::ask::Cure;
use stageohm::calculator::REGISTER;
use stageohm::report::{Report, Tone};

fn cures(calculator: &str, values: &Value) -> Vec<Cure> {
    ask(json!({ "calculator": calculator, "values": values, "cures": true, "working": false })).cures.unwrap()
}

fn filled(cure: &Cure) -> Value {
    let values: Map<_, _> = cure.link.values.iter().map(|(id, text)| ((*id).to_owned(), text.clone().into())).collect();
    values.into()
}

fn texts(cures: &[Cure]) -> Vec<&str> {
    cures.iter().map(|cure| cure.link.text.as_str()).collect()
}

fn troubles(report: &Report) -> Vec<&'static str> {
    let readings = report.headline.iter().chain(&report.further);
    let trouble =
        readings.filter(|reading| reading.verdict.as_ref().is_some_and(|verdict| verdict.tone == Tone::Trouble));
    trouble.map(|reading| reading.id).collect()
}

/// Lines that miss one limit or several.
fn lines() -> Vec<Value> {
    let mut lines = Vec::new();
    for more in [
        json!({ "lead_length": 15.0 }),
        json!({ "source": "piezo", "lead_length": 20.0, "emf": 0.3, "box": "passive", "phantom": "off" }),
        json!({ "source": "output", "emf": 2.0 }),
        json!({ "source": "output", "emf": 2.0, "box": "none", "phantom": "off" }),
        json!({ "source": "output", "emf": 0.3, "power": "earthed", "difference": 0.5 }),
        json!({ "source": "output", "emf": 0.3, "box": "none", "run": "unbalanced", "phantom": "off", "run_length": 60.0 }),
        json!({ "source": "output", "emf": 0.3, "box": "none", "phantom": "p48" }),
        json!({ "phantom": "off" }),
        json!({ "source": "microphone", "microphone": "condenser", "box": "none", "phantom": "off" }),
        json!({ "thru": "earthed", "thru_length": 3.0, "box": "passive", "phantom": "off" }),
        json!({ "run_length": 3000.0 }),
    ] {
        lines.push(more);
    }
    lines
}

/// In the calculators whose answers have something to keep.
#[test]
fn every_cure_cures() {
    let mut count = 0;
    for values in lines() {
        let before = troubles(&report("whole-line", values.clone()));
        let found = cures("whole-line", &values);
        assert!(!before.is_empty() && !found.is_empty(), "{values}: {before:?}");
        for cure in found {
            let after = troubles(&report(cure.link.calculator, filled(&cure)));
            let place = format!("{values}: {}", cure.link.text);
            assert!(before.contains(&cure.reading), "{place}: {}", cure.reading);
            assert!(!after.contains(&cure.reading), "{place}: {after:?}");
            assert!(after.iter().all(|id| before.contains(id)), "{place}: {after:?} beside {before:?}");
            assert!(!cure.link.text.contains("cure"), "{place}: no words");
            count += 1;
        }
    }
    assert!(count > 20, "{count}");
}

/// A keyboard of 2 V with 15 dB of crest has peaks like a sine of +20.23 dBu: 18.23 dB
/// less keep 6 dB at an active box of +8 dBu (a source resistance of 1 kΩ into 1 MΩ
/// takes 0.01): 19 dB, in whole decibels; or its pad of 20 dB. By hand.
#[test]
fn a_hot_keyboard() {
    let values = json!({ "source": "output", "emf": 2.0, "crest": 15.0, "power": "floating", "lead_length": 3.0 });
    let peak = 20.0 * (2.0 / 0.6_f64.sqrt()).log10() + 15.0 - 3.0103;
    assert!((peak - (8.0 - 6.0) - 18.23).abs() < 0.02, "{peak}");
    let found = cures("whole-line", &values);
    let texts = texts(&found);
    assert!(texts.contains(&"Turn the source down 19\u{a0}dB"), "{texts:?}");
    assert!(texts.iter().any(|text| text.starts_with("Switch the DI's pad in")), "{texts:?}");
}

/// What is left with the whole line's longest lead that keeps the limit is the same as
/// asked backwards, to the step of 0.1 m.
#[test]
fn the_longest_lead_is_that_of_solving_backwards() {
    let values = json!({ "lead_length": 15.0 });
    let backwards = json!({ "reading": "loss", "value": "3 dB", "field": "lead_length" });
    let answer = ask(json!({ "calculator": "whole-line", "values": values, "backwards": backwards, "working": false }));
    let longest = answer.backwards.unwrap().found[0].value;
    let found = cures("whole-line", &values);
    let cure = found.iter().find(|cure| cure.link.text.starts_with("Shorten the first lead")).unwrap();
    let (_, text) = cure.link.values.iter().find(|(id, _)| *id == "lead_length").unwrap();
    let shortened: f64 = text.trim_end_matches(|c: char| !c.is_ascii_digit()).parse().unwrap();
    within("longest", shortened, (longest * 10.0).floor() / 10.0, 1e-9);
}

/// The ranking is mended by the same, in its own fields where it has them.
#[test]
fn a_ranking_is_mended_in_its_own_fields() {
    let values = json!({ "lead_length": 15.0 });
    let found = cures("box-or-straight", &values);
    let shorter = found.iter().find(|cure| cure.link.text.starts_with("Shorten the first lead")).unwrap();
    assert_eq!(shorter.link.calculator, "box-or-straight");
    let after = report("box-or-straight", filled(shorter));
    assert_ne!(after.headline[0].verdict.as_ref().unwrap().tone, Tone::Trouble);
    // Nothing is to be mended where all is kept, and nobody mends a fault of the earths.
    assert!(cures("box-or-straight", &json!({})).is_empty());
    assert!(cures("box-or-straight", &json!({ "source": "keyboard", "difference": "5 V" })).is_empty());
}

/// All presets may be asked, whatever they miss.
#[test]
fn presets_may_be_asked() {
    for calculator in REGISTER {
        for preset in calculator.presets {
            let values: Map<_, _> = preset.values.iter().map(|(id, text)| ((*id).to_owned(), json!(text))).collect();
            for cure in cures(calculator.id, &values.into()) {
                assert!(!cure.link.text.contains("cure"), "{} {}: {}", calculator.id, preset.id, cure.link.text);
                report(cure.link.calculator, filled(&cure));
            }
        }
    }
}

/// Two earths on an unbalanced lead, the commonest hum: a transformer with its ground lifted
/// parts them (common practice, no source), and what keeps all else is offered.
#[test]
fn an_unbalanced_lead_that_hums_gets_a_transformer() {
    let values = json!({
        "source": "output", "power": "earthed", "box": "none", "run": "unbalanced", "lead_length": 2.0,
        "run_length": 2.0, "console_r": "10k", "console_most": "+24 dBu", "ein": "-95 dBu", "phantom": "off"
    });
    assert!(troubles(&report("whole-line", values.clone())).contains(&"signal_to_hum"));
    let found = cures("whole-line", &values);
    let boxed = found.iter().find(|cure| cure.link.text == "Use a passive DI, ground lift on");
    let after = troubles(&report("whole-line", filled(boxed.unwrap_or_else(|| panic!("{:?}", texts(&found))))));
    assert!(after.is_empty(), "{after:?}");
}

/// A gain that is set too high clips the converter, and the gain is what one turns first: by
/// as many whole decibels as the headroom is short, and so many are left. One that is far too
/// low leaves the signal in the noise of the converter.
#[test]
fn a_gain_that_is_set_is_turned() {
    for (gain, reading, way) in [
        (60.0, "margin", "Turn the gain down"),
        (30.0, "margin", "Turn the gain down"),
        (-20.0, "snr", "Turn the gain up"),
    ] {
        let values = json!({ "console_gain": gain });
        let found = cures("whole-line", &values);
        let first = found.iter().find(|cure| cure.reading == reading).unwrap();
        assert!(first.link.text.starts_with(way), "{gain}: {:?}", texts(&found));
        if reading == "margin" {
            let short = 6.0 - report("whole-line", values).reading("margin").unwrap().value.unwrap();
            let (_, text) = first.link.values.iter().find(|(id, _)| *id == "console_gain").unwrap();
            let turned: f64 = text.split_whitespace().next().unwrap().parse().unwrap();
            within("gain", turned, gain - short.ceil(), 1e-9);
        }
    }
}

/// What phantom feeds is the microphone, which has a least voltage of its own. By Ohm's law, on
/// the feed resistors of IEC 61938 (from memory): 2 mA through two of 1.2 kΩ leave 22.8 V of
/// 24 V and through two of 6.8 kΩ 41.2 V of 48 V; through two of 680 Ω 11.3 V of 12 V. It has
/// none behind an unbalanced run.
#[test]
fn a_microphone_is_fed_as_it_needs() {
    let microphone = |more: Value| {
        let mut values = json!({
            "source": "microphone", "microphone": "condenser", "box": "none", "run_length": 0.0, "lead_length": 0.0,
            "microphone_current": "2 mA"
        });
        values.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        let found = cures("whole-line", &values);
        found.iter().filter(|cure| cure.reading == "supply").map(|cure| cure.link.text.clone()).collect::<Vec<_>>()
    };
    assert_eq!(microphone(json!({ "phantom": "p24", "microphone_least": 24.0 })), ["Use 48 V phantom"]);
    assert!(microphone(json!({ "phantom": "p12", "microphone_least": 9.0 })).is_empty());
    assert_eq!(microphone(json!({ "phantom": "p48", "run": "unbalanced" })), ["Use a balanced run"]);
}

/// Beside “Stop here”, which says to touch neither, nothing is to be changed: 3 V between two
/// consoles, and a loop of 0.8 V through 0.1 Ω of earth and less than 0.1 Ω of shield, which
/// is more than 1 A (common practice, no source). A line that misses as much without a fault
/// is mended.
#[test]
fn nothing_mends_a_fault_of_the_earths() {
    let consoles = |volts: f64| {
        json!({
            "source": "balanced", "power": "earthed", "box": "none", "split": "direct", "second_difference": volts,
            "phantom": "off"
        })
    };
    let loops = |earth_r: f64| json!({ "difference": 0.8, "earth_r": earth_r, "lead_length": 3.0, "inductance": 0.0 });
    for (calculator, values, is_mended) in [
        ("whole-line", consoles(3.0), false),
        ("whole-line", consoles(1.0), true),
        ("ground-loop", loops(0.1), false),
        ("ground-loop", loops(1.0), true),
    ] {
        let stops = report(calculator, values.clone()).warnings.iter().any(|warning| warning.starts_with("Stop here"));
        assert_eq!(stops, !is_mended, "{values}");
        let found = cures(calculator, &values);
        assert_eq!(!found.is_empty(), is_mended, "{values}: {:?}", texts(&found));
    }
}

/// Nothing that can harm is a cure: what ties a live output of a bridged amplifier to
/// ground, and what hums because of a fault (common practice, no source).
#[test]
fn no_cure_can_harm() {
    for values in [
        json!({ "source": "loudspeaker", "amplifier": "bridged", "box": "none", "phantom": "p48", "run_length": 0.0 }),
        json!({ "source": "output", "power": "leaking", "leakage_current": "3 mA", "run_length": 60.0, "box": "none" }),
    ] {
        for cure in cures("whole-line", &values) {
            let after = report(cure.link.calculator, filled(&cure));
            let harm =
                after.warnings.iter().find(|warning| warning.starts_with("Stop") || warning.starts_with("Do not"));
            assert!(harm.is_none(), "{values}: {}: {harm:?}", cure.link.text);
        }
    }
    for amplifier in ["bridged", "grounded", "valve"] {
        for input in ["line", "instrument", "amplifier"] {
            let values = json!({ "source": "loudspeaker", "amplifier": amplifier, "input": input });
            let found = cures("box-or-straight", &values);
            assert!(texts(&found).iter().all(|text| !text.contains("pad") || text.contains("loudspeaker")), "{values}");
        }
    }
}

/// A pickup straight into a microphone input wants a DI, on a battery where there is no
/// phantom; a leak or an earth wants a transformer (common practice, no source).
#[test]
fn boxes_are_cures() {
    let has = |values: Value, text: &str| {
        let found = cures("whole-line", &values);
        assert!(texts(&found).contains(&text), "{values}: {:?}", texts(&found));
    };
    has(json!({ "box": "none", "phantom": "off", "run_length": 0.0 }), "Use an active DI on a battery");
    let earthed = json!({ "source": "output", "power": "earthed", "emf": 0.3, "difference": 0.5 });
    has(earthed, "Use a passive DI, ground lift on");
}
