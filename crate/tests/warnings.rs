//! What is told of a rig beside the answer: where it holds, and nowhere else. Every line
//! is common practice, no source.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

mod common;

use common::report;
use serde_json::{Value, json};

#[track_caller]
fn tells(calculator: &str, words: &str, cases: &[(Value, bool)]) {
    for (values, told) in cases {
        let warnings = report(calculator, values.clone()).warnings;
        assert_eq!(warnings.iter().any(|warning| warning.contains(words)), *told, "{values}: {warnings:?}");
    }
}

#[test]
fn shields_that_are_cut_or_faulty() {
    let with = |connection: &str, cause: &str, pin_1: f64| json!({ "connection": connection, "cause": cause, "leakage": 0.1e-3, "pin_1_r": pin_1 });
    tells(
        "ground-loop",
        "floats up to the voltage",
        &[
            (with("isolated", "leakage", 0.0), true),
            (json!({ "connection": "isolated", "cause": "leakage", "leakage": 0.1e-3, "other_r": 1.0 }), false),
            (with("isolated", "difference", 0.0), false),
            (with("balanced", "leakage", 0.0), false),
        ],
    );
    tells(
        "ground-loop",
        "The pin-1 fault",
        &[
            (with("balanced", "difference", 0.05), true),
            (with("balanced", "difference", 0.0), false),
            (json!({ "connection": "balanced", "pin_1_r": "" }), false),
            (json!({ "connection": "unbalanced" }), false),
        ],
    );
    let lifted = |power: &str, thru: &str, ground: &str| json!({ "source": "output", "box": "passive", "phantom": "off", "power": power, "thru": thru, "ground": ground });
    tells(
        "whole-line",
        "floats up to the voltage",
        &[
            (lifted("leaking", "none", "lifted"), true),
            (lifted("leaking", "earthed", "lifted"), false),
            (lifted("leaking", "none", "joined"), false),
            (lifted("earthed", "none", "lifted"), false),
        ],
    );
}

#[test]
fn hum_of_a_lead() {
    let cases = ["pickup", "unbalanced", "balanced"].map(|source| (json!({ "source": source }), source != "balanced"));
    tells("lead-length", "Hum is not computed here", &cases);
}

/// 110 dB under +18 dBu is a converter of −92 dBu, louder than a microphone input at
/// 0 dB of gain; 60 dB of gain lift the input's −128 dBu over it.
#[test]
fn noise_that_is_near() {
    let chain = |emf: &str, gain: f64| {
        json!({
            "source": "output", "source_r": 150.0, "emf": emf, "box": "none", "lead_length": 0.0, "gain": gain,
            "range": 110.0, "alignment": "r68", "distance": 60.0
        })
    };
    let cases = |near: bool, converter: bool, emf: &str, gain: f64| {
        tells("level-chain", "below the signal", &[(chain(emf, gain), near)]);
        tells("level-chain", "the converter's own", &[(chain(emf, gain), converter)]);
    };
    cases(true, true, "1 mV", 0.0);
    cases(true, false, "0.1 mV", 60.0);
    cases(false, false, "1 V", 0.0);
}

#[test]
fn phantom_where_it_should_not_be() {
    let cases = ["straight", "leg_open", "adaptor", "short", "transformer", "shield_open"]
        .map(|path| (json!({ "path": path, "current": 2e-3 }), path == "leg_open"));
    tells("phantom", "One core carries all the current", &cases);
    let line = |source: &str, run: &str, phantom: &str| json!({ "source": source, "box": "none", "microphone": "dynamic", "run": run, "phantom": phantom });
    tells(
        "whole-line",
        "Not every line output can stand phantom",
        &[
            (line("balanced", "balanced", "p48"), true),
            (line("balanced", "balanced", "off"), false),
            (line("microphone", "balanced", "p48"), false),
        ],
    );
}

/// Loudspeaker terminals: what the amplifier is decides what to mind.
#[test]
fn what_must_not_be_done_at_loudspeaker_terminals() {
    let terminals = |source: &str, amplifier: &str| json!({ "source": source, "amplifier": amplifier, "box": "passive", "ground": "lifted", "phantom": "off" });
    for (amplifier, words) in [
        ("grounded", "Make sure which terminal is ground"),
        ("bridged", "A bridged amplifier: keep the ground lift on"),
        ("valve", "must never run without its loudspeaker"),
    ] {
        for other in ["grounded", "bridged", "valve"] {
            tells("whole-line", words, &[(terminals("loudspeaker", other), other == amplifier)]);
        }
        tells("whole-line", words, &[(terminals("output", amplifier), false)]);
    }
}

#[test]
fn two_consoles_and_phantom() {
    for (source, words, told) in [
        ("condenser", "a condenser: the direct side", true),
        ("condenser", "a ribbon: the direct side", false),
        ("ribbon", "a ribbon: the direct side", true),
        ("microphone", "the direct side", false),
    ] {
        let cases = [("near", told), ("none", false)]
            .map(|(second, told)| (json!({ "source": source, "second": second }), told));
        tells("box-or-straight", words, &cases);
    }
}
