//! What can hurt someone: said in one line that unfolds, before the answer only where
//! it is dangerous now. The rules are those of the trade (common practice, no source)
//! where no other is named.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

mod common;

use common::report;
use serde_json::{Value, json};
use stageohm::settings::Language;
use stageohm::words::Words;

/// The first sentence is what stays on the screen: short enough for a line, and with
/// more behind it.
#[test]
fn a_line_that_unfolds() {
    let mut cautions = 0;
    for (key, attribute, text) in Words::of(Language::English).messages() {
        if !key.starts_with("caution-") || !attribute.is_empty() {
            continue;
        }
        let (line, more) = text.split_once(". ").unwrap_or_else(|| panic!("{key} has nothing to unfold"));
        assert!(line.chars().count() <= 90 && !more.is_empty(), "{key}: {line}");
        cautions += 1;
    }
    assert!(cautions >= 7, "{cautions}");
}

/// Of a ground loop, 0.1 V between earths is no danger, 3 V are; nor are 0.25 mA of
/// leakage, but 0.6 mA with no other earth (0.5 mA of touch current, from memory of
/// IEC 60990).
#[test]
fn first_where_it_is_dangerous_now() {
    let leaking = |leakage: f64| json!({ "cause": "leakage", "leakage": leakage, "other_r": "" });
    for (values, first) in
        [(json!({}), false), (json!({ "difference": 3.0 }), true), (leaking(0.25e-3), false), (leaking(0.6e-3), true)]
    {
        let report = report("ground-loop", values.clone());
        assert_eq!(report.cautions_first, first, "{values}");
        let rcd = report.cautions.iter().find(|caution| caution.contains("RCD")).unwrap();
        for words in ["in place of the earth", "30 mA", "Never bypass"] {
            assert!(rcd.contains(words), "{rcd}");
        }
    }
    // The balance of a line is no loop, and the same earths are as dangerous.
    for (difference, first) in [(0.1, false), (3.0, true)] {
        let report = report("balance", json!({ "difference": difference }));
        let has = |words: &str| report.cautions.iter().any(|caution| caution.contains(words));
        assert_eq!((report.cautions_first, has("electrician"), has("RCD")), (first, first, first), "{difference}");
    }
}

/// A loudspeaker's level at a pad: over +24 dBu, which line outputs give at most, or
/// over +4 dBu from less than 1 Ω.
#[test]
fn a_pad_at_an_amplifier() {
    let warned = |values: Value| {
        let pad = report("pad", values);
        let has = |words: &str| pad.cautions.iter().any(|caution| caution.contains(words));
        assert_eq!((has("bridged"), has("bridged")), (has("valve"), pad.cautions_first), "{:?}", pad.cautions);
        has("bridged")
    };
    for (emf, source_r, expected) in [
        ("+23.9 dBu", 150.0, false),
        ("+24.1 dBu", 150.0, true),
        ("+4.1 dBu", 0.99, true),
        ("+4.1 dBu", 1.01, false),
        ("+3.9 dBu", 0.1, false),
    ] {
        assert_eq!(warned(json!({ "emf": emf, "source_r": source_r })), expected, "{emf} {source_r}");
    }
}

/// Who is told to measure is told how, and a functional earth is no altered supply.
#[test]
fn how_to_measure_and_how_to_earth() {
    let messages: Vec<_> = Words::of(Language::English).messages().collect();
    let measured: Vec<_> = messages.iter().filter(|(_, _, text)| text.contains("Measure ")).collect();
    assert!(measured.len() >= 7, "{measured:?}");
    for (key, _, text) in measured {
        for words in
            ["between the two chassis", "signal leads unplugged", "rated meter", "inside an outlet", "electrician"]
        {
            assert!(text.contains(words), "{key}: {text}");
        }
    }
    let floating: Vec<_> = messages.iter().filter(|(key, _, _)| key.ends_with("-floats")).collect();
    assert_eq!(floating.len(), 2);
    for (key, _, text) in floating {
        for words in ["functional earth", "shield of a signal lead", "Never alter a double-insulated supply"] {
            assert!(text.contains(words), "{key}: {text}");
        }
    }
}
