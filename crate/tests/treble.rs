//! What takes a pickup's treble, on every page that says so: one rig, one loss,
//! one severity. The steps of severity are common practice, no source.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

mod common;

use common::{reading, report, within};
use serde_json::{Value, json};
use stageohm::report::{Report, Tone};

#[track_caller]
fn verdict(report: &Report, id: &str) -> (Tone, String) {
    let verdict = report.reading(id).unwrap_or_else(|| panic!("no {id}")).verdict.clone();
    let verdict = verdict.unwrap_or_else(|| panic!("{id} has no verdict"));
    (verdict.tone, verdict.text)
}

/// The level of the pickup rig at a frequency from its closed form: coil of 2.5 H
/// and 6.5 kΩ, all capacitance as one, both pots of 250 kΩ full up, 22 nF.
fn closed_form(capacitance: f64, load: f64, f: f64) -> f64 {
    type C = stageohm::Complex64;
    let s = C::new(0.0, std::f64::consts::TAU * f);
    let tone = 1.0 / (250e3 + 1.0 / (s * 22e-9));
    let admittance = s * capacitance + 1.0 / 250e3 + tone + 1.0 / load;
    -20.0 * (1.0 + (6.5e3 + s * 2.5) * admittance).norm().log10()
}

/// What a lead takes is the level without it less the level with it, and it is as
/// much, and as bad, on the page of the pickup as on that of the lead.
#[test]
fn one_lead_on_two_pages() {
    let lumped = json!({ "lead_c": "100 pF/m", "lead_r": 0, "lead_l": 0 });
    for length in [0.0, 1.0, 3.0, 6.0, 9.0, 12.0, 15.0, 20.0, 30.0] {
        let mut rig = lumped.clone();
        rig["lead_length"] = json!(length);
        let pickup = report("pickup", rig.clone());
        let lead = report("lead-length", rig);
        let [on_pickup, on_lead] = [reading(&pickup, "lead_loss"), reading(&lead, "loss")];
        within(&format!("{length} m"), on_pickup, on_lead, 1e-9);
        let exact = closed_form(110e-12, 1e6, 5e3) - closed_form(110e-12 + 100e-12 * length, 1e6, 5e3);
        within(&format!("{length} m, closed form"), on_lead, exact, 1e-6);
        let (here, there) = (verdict(&pickup, "lead_loss"), verdict(&lead, "loss"));
        assert_eq!(here.0, there.0, "{length} m: {here:?} {there:?}");
        assert!(there.1.starts_with(&here.1), "{length} m: {here:?} {there:?}");
    }
    // 1 dB is heard, 3 dB plainly, 6 dB makes it dark, of 10 dB little is left.
    for (length, tone, words) in [
        (7.0, Tone::Watch, "slightly darker"),
        (9.0, Tone::Watch, "audibly darker"),
        (12.0, Tone::Trouble, "clearly darker"),
        (20.0, Tone::Trouble, "most of the treble is gone"),
    ] {
        let (got, text) = verdict(&report("pickup", json!({ "lead_length": length })), "lead_loss");
        assert!(got == tone && text == words, "{length} m: {got:?} {text}");
    }
}

/// The headline is the reading at the length that was typed; then the longest.
#[test]
fn the_length_that_is_asked_about() {
    let lead = report("lead-length", json!({ "lead_length": 12 }));
    let headline = &lead.headline[0];
    assert_eq!(headline.id, "loss");
    assert!(headline.name.contains("12\u{a0}m") && headline.name.contains("5\u{a0}kHz"), "{}", headline.name);
    within("loss", headline.value.unwrap(), 6.9, 0.05);
    let (_, text) = verdict(&lead, "loss");
    assert!(text.contains("clearly darker") && text.contains("6.57") && text.contains("8.9"), "{text}");
    assert_eq!(lead.headline[1].id, "longest_loss");
}

/// A lead that raises the level gains; nobody calls that a loss below zero.
#[test]
fn a_lead_that_gains() {
    for (calculator, id) in [("lead-length", "loss"), ("pickup", "lead_loss")] {
        let report = report(calculator, json!({ "lead_length": 4 }));
        let loss = report.reading(id).unwrap();
        assert!(loss.value.unwrap() < -1.0);
        assert!(loss.name.to_lowercase().contains("gain") && !loss.text.contains('−'), "{} {}", loss.name, loss.text);
        assert!(loss.verdict.as_ref().unwrap().text.contains("brighter"));
    }
    let values = json!({ "source_r": 6.5e3, "source_l": 2.5, "source_c": 610e-12, "load_r": 140e3, "frequency": 3e3 });
    let source = report("source-load", values);
    let loss = source.reading("loss").unwrap();
    assert!(loss.value.unwrap() < -0.1 && loss.name.starts_with("Gain") && !loss.text.contains('−'), "{loss:?}");
    assert!(verdict(&source, "loss").1.contains("gain"));
}

/// What shows as 0.0 dB is no gain, though a run may lift the highest frequencies by
/// thousandths.
#[test]
fn nothing_is_no_gain() {
    let line = report("whole-line", json!({}));
    let bass = line.reading("loss_bass").unwrap();
    assert!(bass.value.unwrap() < 0.0);
    assert_eq!((bass.name.as_str(), bass.text.as_str()), ("Bass lost on the way, at 80\u{a0}Hz", "0.0\u{a0}dB"));
}

/// Where the bass is the worse end, the page of the pickup is asked about the treble that
/// the line was asked about, and says the same of it.
#[test]
fn the_link_of_a_bass_keeps_its_treble() {
    let line = report("whole-line", json!({ "box": "active", "treble": "2 kHz", "bass": "40 Hz", "coil_l": "5 H" }));
    let link = line.links.iter().find(|link| link.calculator == "pickup").unwrap();
    let values: serde_json::Map<_, _> = link.values.iter().map(|(id, text)| ((*id).to_owned(), json!(text))).collect();
    assert_eq!(values.get("frequency").unwrap(), "2 kHz");
    let pickup = report("pickup", values.into());
    let [on_the_way, to_the_lead_and_load] = [reading(&line, "loss"), reading(&pickup, "tone_loss")];
    within("treble at 2 kHz", to_the_lead_and_load, on_the_way, 0.05);
}

/// The tone is judged from that of the pickup at its own best: controls full up,
/// nothing connected; each level re the lowest frequencies, where it is flat.
#[test]
fn tone_from_its_own_best() {
    let treble = |c: f64, load: f64| closed_form(c, load, 5e3) - closed_form(c, load, 20.0);
    for (load, lead, tone, words) in [
        (1e6, 5.0, Tone::Fine, "no treble lost"),
        (180e3, 5.0, Tone::Watch, "slightly darker; cause: the load"),
        (100e3, 5.0, Tone::Watch, "audibly darker; cause: the load"),
        (47e3, 5.0, Tone::Trouble, "clearly darker; cause: the load"),
        (10e3, 5.0, Tone::Trouble, "most of the treble is gone; cause: the load"),
        (1e6, 12.0, Tone::Trouble, "clearly darker; cause: the lead"),
    ] {
        let values = json!({ "load_r": load, "lead_length": lead, "lead_r": 0, "lead_l": 0 });
        let pickup = report("pickup", values);
        let exact = treble(110e-12, 1e15) - treble(110e-12 + lead * 100e-12, load);
        within(&format!("{load} {lead}"), reading(&pickup, "tone_loss"), exact, 1e-3);
        let (got, text) = verdict(&pickup, "tone_loss");
        assert!(got == tone && text.starts_with(words), "{load} {lead}: {got:?} {text}");
    }
    // Controls that are turned down are named, and are their player's choice.
    for (values, words) in [
        (json!({ "tone_turn": 0 }), "the tone control turned down"),
        (json!({ "volume_turn": 0.8, "lead_length": 6 }), "the volume control turned down"),
    ] {
        let (tone, text) = verdict(&report("pickup", values), "tone_loss");
        assert!(tone == Tone::Watch && text.contains(words), "{tone:?} {text}");
    }
}

/// A pickup without a resonance is not dull for that: a humbucker on pots of 25 kΩ
/// loses nothing to a light load, and its pots are what damps it.
#[test]
fn no_peak_is_not_dull() {
    let values = |turn: f64| json!({ "volume_r": "25k", "tone_r": "25k", "volume_turn": turn, "lead_length": 1, "load_r": "1M", "coil_l": "4 H" });
    let pickup = report("pickup", values(1.0));
    assert_eq!(pickup.reading("peak").unwrap().value, None);
    let (tone, text) = verdict(&pickup, "peak_height");
    assert!(tone == Tone::Fine && text.contains("pots"), "{tone:?} {text}");
    assert_eq!(verdict(&pickup, "tone_loss").0, Tone::Fine);
    for report in [pickup, report("pickup", values(0.7)), report("pickup", json!({ "load_r": "10k" }))] {
        let texts = report.headline.iter().filter_map(|reading| reading.verdict.as_ref());
        assert!(texts.into_iter().all(|verdict| !verdict.text.contains("dull")));
    }
}

/// Both pages follow one link: what the page of the lead says of a pickup at its
/// own frequency is said behind its link too.
#[test]
fn the_link_keeps_the_frequency() {
    let lead = report("lead-length", json!({ "treble": "3k", "lead_length": 12 }));
    let link = lead.links.iter().find(|link| link.calculator == "pickup").unwrap();
    let filled: std::collections::BTreeMap<_, _> = link.values.iter().cloned().collect();
    let pickup = report("pickup", json!(filled));
    within("loss", reading(&pickup, "lead_loss"), reading(&lead, "loss"), 1e-9);
}

/// What is lost into a load is said in the decibels that were computed, and no
/// word says of which part of the voltage that would be.
#[test]
fn the_loss_that_was_computed() {
    let rig = |load: f64| -> Value { json!({ "source_r": 1e3, "load_r": load, "frequency": 100 }) };
    for (load, loss, tone) in [
        (100e3, "", Tone::Fine),
        (5e3, "1.6\u{a0}dB", Tone::Watch),
        (1e3, "6.0\u{a0}dB", Tone::Watch),
        (200.0, "15.6\u{a0}dB", Tone::Trouble),
    ] {
        let (got, text) = verdict(&report("source-load", rig(load)), "loss");
        assert!(got == tone && text.contains(loss) && !text.contains("half"), "{load}: {got:?} {text}");
    }
}
