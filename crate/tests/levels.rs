//! From one level into an input that is made for another.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::{reading, report, within};
use serde_json::json;
use stageohm::report::{Report, Tone};

#[track_caller]
fn verdict(report: &Report) -> (Tone, String) {
    let verdict = report.reading("hotter").unwrap().verdict.clone().unwrap();
    (verdict.tone, verdict.text)
}

/// +4 dBu is 4 − (−7.7815) = 11.7815 dB over −10 dBV (0 dBV is 2.2185 dBu, IEC
/// 60027-3): down with a trim or a pad, up with gain and no pad.
#[test]
fn plus_4_into_minus_10() {
    let down = report("levels", json!({ "level": "+4 dBu", "into": "-10 dBV" }));
    let headline = &down.headline[0];
    assert_eq!((headline.id, headline.text.as_str()), ("hotter", "11.78\u{a0}dB"));
    within("down", headline.value.unwrap(), 11.7815, 5e-5);
    let (tone, text) = verdict(&down);
    assert!(tone == Tone::Watch && text.contains("11.78") && text.contains("trim") && text.contains("a pad"), "{text}");

    let up = report("levels", json!({ "level": "-10 dBV", "into": "+4 dBu" }));
    within("up", reading(&up, "hotter"), -11.7815, 5e-5);
    let (_, text) = verdict(&up);
    assert!(text.contains("11.78\u{a0}dB more gain") && text.contains("no pad"), "{text}");
    assert!(!up.headline[0].text.contains('−') && up.headline[0].name.starts_with("Gain"), "{:?}", up.headline[0]);
    assert!(up.links.is_empty());
}

/// One link on: a pad of that loss, which the level behind it proves.
#[test]
fn the_pad_for_it() {
    let down = report("levels", json!({ "level": "+4 dBu", "into": "-10 dBV" }));
    let [link] = &down.links[..] else { panic!("{:?}", down.links) };
    assert_eq!(link.calculator, "pad");
    let filled: std::collections::BTreeMap<_, _> = link.values.iter().cloned().collect();
    let answer = common::ask(json!({ "calculator": "pad", "values": filled }));
    assert!(answer.problems.is_empty() && answer.fields.iter().all(|(_, echo)| echo.problem.is_none()));
    let asked = answer.fields.get("loss").unwrap().value.unwrap();
    within("asked", asked, 11.7815, 1e-3);
    // Preferred values of the E24 series are within a decibel of it.
    within("made", reading(&answer.report.unwrap(), "loss_e24"), 11.7815, 1.0);
}

/// Less than a decibel apart is the same level; nothing is said where no input is.
#[test]
fn the_same_level() {
    for (level, tone) in [(-8.77, Tone::Fine), (-8.79, Tone::Watch), (-6.79, Tone::Fine), (-6.77, Tone::Watch)] {
        let report = report("levels", json!({ "level": level, "unit": "dbu", "into": "-10 dBV" }));
        assert_eq!(verdict(&report).0, tone, "{level}");
    }
    assert!(report("levels", json!({})).reading("hotter").is_none());
}
