//! Box or straight in: rankings that common practice settles (no published
//! source), what is refused, and that every number is that of the whole line.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::{ask, reading, report, within};
use serde_json::{Value, json};
use stageohm::calculator::Calculator;
use stageohm::report::{Candidate, Report, Tone};

fn ranked(values: Value) -> Report {
    report("box-or-straight", values)
}

fn candidate<'a>(report: &'a Report, id: &str) -> &'a Candidate {
    report.ranking.iter().find(|candidate| candidate.id == id).unwrap_or_else(|| panic!("no {id}"))
}

fn first(report: &Report) -> &str {
    report.ranking.first().unwrap().id
}

fn reason(candidate: &Candidate, id: &str) -> Option<f64> {
    candidate.reasons.iter().find(|reason| reason.reading.id == id).unwrap_or_else(|| panic!("no {id}")).reading.value
}

/// A passive guitar ten metres from a line input wants a box (common practice,
/// no source): straight in, 10 kΩ takes most of the treble.
#[test]
fn guitar_into_a_line_input() {
    let report = ranked(json!({ "lead_length": "3 m", "run_length": "10 m", "input": "line", "phantom": "none" }));
    assert!(["passive", "battery"].contains(&first(&report)), "{}", first(&report));
    let straight = candidate(&report, "straight");
    assert!(reason(straight, "loss").unwrap() > 6.0);
    assert!(straight.verdict.text.contains("treble"), "{}", straight.verdict.text);
    assert_eq!(candidate(&report, "phantom").place, None);
}

/// What a passive box gives is of microphone level, which a line input is not made
/// for (common practice, no source); a battery box gives enough. Phantom is on the
/// contacts of an XLR only: at a line input there is none.
#[test]
fn microphone_level_into_a_line_input_is_told() {
    for phantom in ["none", "switched", "always"] {
        let report = ranked(json!({ "run_length": "10 m", "input": "line", "phantom": phantom }));
        assert_eq!(first(&report), "battery", "{phantom}");
        let passive = candidate(&report, "passive");
        assert!(reason(passive, "level").unwrap() < -27.8);
        assert!(passive.verdict.text.contains("level for the input"), "{}", passive.verdict.text);
        assert_eq!(candidate(&report, "phantom").place, None);
    }
}

/// The answer says what it is for, and what a DI of the other kind would cost: the
/// values are those that were put in, the figures those of that way's own line.
#[test]
fn the_answer_names_its_question_and_the_other_kind() {
    let bass = ranked(json!({ "source": "bass", "lead_length": "6 m", "run_length": "30 m" }));
    let subject = "passive bass, 6\u{a0}m + 30\u{a0}m, into a microphone input";
    assert_eq!(bass.subject.as_deref(), Some(subject));
    let told = |report: &Report| report.headline[0].verdict.clone().unwrap().text;
    assert_eq!(first(&bass), "phantom");
    let margin = candidate(&bass, "passive").reasons.iter().find(|reason| reason.reading.id == "margin").unwrap();
    let over = reading(&bass, "tightest");
    assert!(over < margin.reading.value.unwrap());
    assert!(told(&bass).contains("Or passive DI: just as good, "), "{}", told(&bass));

    // Nothing is as far as nothing: one length is enough to say.
    let speech = ranked(json!({ "source": "microphone", "lead_length": "0", "run_length": "40 m" }));
    assert_eq!(speech.subject.as_deref(), Some("dynamic microphone, 40\u{a0}m, into a microphone input"));

    // One that needs a battery is more to bring, and one that misses a limit says which.
    let keys = ranked(json!({ "source": "keyboard", "phantom": "none" }));
    assert!(told(&keys).contains("Or active DI on a battery (lift on): works too"), "{}", told(&keys));
    let piezo = ranked(json!({ "source": "piezo", "phantom": "none", "lead_length": "15 m" }));
    assert!(told(&piezo).contains("Or passive DI: misses 2 limits (worst: bass, by "), "{}", told(&piezo));
    let ribbon = ranked(json!({ "source": "loudspeaker", "input": "instrument" }));
    assert!(ribbon.subject.is_some() && ribbon.headline[0].verdict.is_some());
}

/// Where a console has both inputs, a balanced output of line level goes to the line
/// input and one of microphone level, below −20 dBu, to the microphone's, as does every
/// microphone (common practice, no source): 10 kΩ tell a line input.
#[test]
fn a_balanced_output_goes_to_the_input_of_its_level() {
    for (source, emf, to_line) in [
        ("line", "+4 dBu", true),
        ("line", "-19.9 dBu", true),
        ("line", "-20.1 dBu", false),
        ("receiver", "-10 dBV", true),
        ("receiver", "20 mV", false),
        ("microphone", "1 V", false),
        ("keyboard", "20 mV", true),
    ] {
        let report =
            ranked(json!({ "source": source, "emf": emf, "input": "either", "phantom": "none", "power": "floating" }));
        let link = &candidate(&report, "straight").link;
        let console = link.values.iter().find(|(id, _)| *id == "console_r").map(|(_, text)| text.as_str());
        assert_eq!(console.is_some_and(|r| r.starts_with("10 ")), to_line, "{source} {emf}: {console:?}");
    }
}

/// The picture names the box that is there, and the answer no others than there are that
/// do as well.
#[test]
fn the_best_is_called_what_it_is() {
    for (values, called) in [
        (json!({ "source": "bass", "lead_length": "6 m", "run_length": "30 m" }), Some("active DI")),
        (json!({ "source": "keyboard", "phantom": "none" }), Some("passive DI")),
        (json!({ "source": "keyboard", "phantom": "none", "input": "line", "run_length": "30 m" }), Some("isolator")),
        (json!({ "lead_length": "3 m", "run_length": "0", "input": "instrument" }), None),
    ] {
        let report = ranked(values);
        let parts = report.diagram.as_ref().unwrap().parts.iter();
        let boxes: Vec<_> = parts.filter(|part| part.id == "box").map(|part| part.name.clone()).collect();
        assert_eq!(boxes, called.map(str::to_owned).into_iter().collect::<Vec<_>>());
        let told = report.headline[0].verdict.clone().unwrap().text;
        assert!(told.starts_with("meets all your limits") && !told.contains("Just as good:"), "{told}");
    }
}

/// A passive guitar beside an instrument input goes straight in (common
/// practice, no source).
#[test]
fn guitar_into_an_instrument_input() {
    let report = ranked(json!({ "lead_length": "3 m", "run_length": "0", "input": "instrument" }));
    assert_eq!(first(&report), "straight");
    assert_eq!(reading(&report, "broken"), 0.0);
    // That no limit is missed is not told first; that one is, is.
    let told = |report: &Report| report.headline.iter().any(|reading| reading.id == "broken");
    assert!(!told(&report));
    let far = ranked(json!({ "lead_length": "30 m", "run_length": "0", "input": "instrument" }));
    assert!(reading(&far, "broken") > 0.0 && told(&far));
}

/// A keyboard at line level on another outlet into a line input: straight in hums, a
/// line isolator cures it (common practice, no source). On a battery and within five
/// metres there is nothing to cure, and it goes straight in.
#[test]
fn keyboard_into_a_line_input() {
    let keys = |length: f64, power: &str| {
        let near = json!({
            "source": "keyboard", "input": "line", "phantom": "none", "lead_length": 3.0, "run_length": length, "power": power
        });
        ranked(near)
    };
    for length in [0.0, 30.0] {
        let report = keys(length, "earthed");
        assert_eq!(first(&report), "isolator");
        let (isolator, straight) = (candidate(&report, "isolator"), candidate(&report, "straight"));
        assert!(reason(straight, "signal_to_hum").unwrap() < 60.0);
        assert!(reason(isolator, "signal_to_hum").unwrap() > reason(straight, "signal_to_hum").unwrap() + 40.0);
    }
    assert_eq!(first(&keys(0.0, "floating")), "straight");
    assert_eq!(first(&keys(30.0, "floating")), "isolator");
}

/// 110 m of unbalanced lead from 2 kΩ into a microphone input, and 60 m from a keyboard
/// without an earth, are no way to do it (common practice, no source: five metres).
#[test]
fn long_unbalanced_runs_are_not_recommended() {
    for values in [
        json!({ "source": "active", "power": "floating", "source_r": 2e3, "run_length": 110.0 }),
        json!({ "source": "keyboard", "power": "floating", "input": "line", "run_length": 60.0 }),
    ] {
        let report = ranked(values);
        assert_ne!(first(&report), "straight");
        assert!(candidate(&report, "straight").place.is_some_and(|place| place > 1));
    }
    let allowed = json!({ "source": "keyboard", "power": "floating", "input": "line", "run_length": 60.0, "unbalanced_most": 100.0 });
    assert_eq!(first(&ranked(allowed)), "straight");
}

/// What is earthed by a screen or a projector is as earthed as by its own pin, and
/// without one it is not (common practice, no source).
#[test]
fn what_else_is_plugged_in_closes_a_loop() {
    let laptop =
        |power: &str| ranked(json!({ "source": "laptop", "power": power, "difference": 0.1, "run_length": 30.0 }));
    let hum = |power: &str| reason(candidate(&laptop(power), "phantom"), "signal_to_hum");
    assert_eq!(hum("linked"), hum("earthed"));
    assert!(hum("linked").unwrap() < 60.0 && hum("floating").unwrap() > 80.0);
    assert_eq!(first(&laptop("linked")), "passive");
}

/// Signal-to-noise and signal-to-hum of 80 dB and more decide nothing, and neither
/// does less than 1 dB (common practice, no source).
#[test]
fn what_nobody_hears_decides_nothing() {
    let keys = json!({ "source": "keyboard", "power": "floating", "run_length": 30.0 });
    let report = ranked(keys);
    for way in ["passive", "phantom"] {
        assert!(reason(candidate(&report, way), "snr").unwrap() > 80.0);
        assert_eq!(candidate(&report, way).place, Some(1), "{way}");
    }
    assert_eq!(first(&report), "passive");
    // Two that are half a decibel apart, with the limit in between, are as good.
    let apart = |least: f64| {
        ranked(
            json!({ "source": "guitar", "loss_most": 9.0, "snr_least": least, "enough": 110.0, "phantom": "always" }),
        )
    };
    let snr = |way: &str| reason(candidate(&apart(60.0), way), "snr").unwrap();
    let (passive, phantom) = (snr("passive"), snr("phantom"));
    assert!((phantom - passive).abs() < 1.0 && phantom > passive, "{passive} {phantom}");
    let between = apart(0.5 * (passive + phantom));
    assert_eq!(candidate(&between, "passive").place, candidate(&between, "phantom").place);
    assert_eq!(candidate(&between, "passive").verdict.tone, Tone::Watch);
    // A limit that one misses by as little and another keeps by far does decide.
    let loss = reason(candidate(&ranked(json!({ "source": "guitar" })), "passive"), "loss").unwrap();
    let report = ranked(json!({ "source": "guitar", "loss_most": loss - 0.3 }));
    assert!(candidate(&report, "passive").place > candidate(&report, "phantom").place);
}

/// A laptop whose switching supply has an earth pin, into a microphone input:
/// what isolates is first (common practice, no source). Without an earth pin the
/// leakage alone stays under the limits here, and what isolates hums less all
/// the same.
#[test]
fn laptop_on_its_supply() {
    let report = ranked(json!({ "source": "laptop", "power": "earthed" }));
    assert_eq!(first(&report), "passive");
    for id in ["straight", "phantom"] {
        assert!(reason(candidate(&report, id), "signal_to_hum").unwrap() < 60.0, "{id}");
    }
    let leaking = ranked(json!({ "source": "laptop", "power": "leaking" }));
    let hum = |id: &str| reason(candidate(&leaking, id), "signal_to_hum").unwrap();
    assert!(hum("passive") > hum("straight"), "{} {}", hum("passive"), hum("straight"));
}

/// A dynamic microphone goes straight into a microphone input (common practice,
/// no source), and nothing else makes sense.
#[test]
fn microphone() {
    let report = ranked(json!({ "source": "microphone", "phantom": "always" }));
    assert_eq!(first(&report), "straight");
    assert_eq!(report.ranking.len(), 1);
    assert_eq!(report.ranking[0].place, Some(1));
}

/// What must not be is refused and comes last: an active box without power,
/// phantom on a pickup, peaks past a clip level.
#[test]
fn refused() {
    let none = ranked(json!({ "phantom": "none" }));
    let always = ranked(json!({ "phantom": "always" }));
    let hot = ranked(json!({ "source": "laptop", "emf": "2 V" }));
    for (report, id, word) in [
        (&none, "phantom", "power"),
        (&always, "straight", "phantom"),
        (&hot, "straight", "clips"),
        (&hot, "battery", "clips"),
    ] {
        let refused = candidate(report, id);
        assert_eq!(refused.place, None, "{id}");
        assert_eq!(refused.verdict.tone, Tone::Trouble);
        assert!(refused.verdict.text.contains(word), "{}", refused.verdict.text);
        let last = report.ranking.iter().rposition(|candidate| candidate.place.is_some()).unwrap();
        assert!(report.ranking.iter().position(|candidate| candidate.id == id).unwrap() > last);
    }
}

/// Places: fewest limits missed, then fewest parts; what is equal shares a place and
/// says so.
#[test]
fn places_and_ties() {
    let report = ranked(json!({ "source": "keyboard", "power": "floating", "lead_length": 3.0, "run_length": 20.0 }));
    let (passive, phantom) = (candidate(&report, "passive"), candidate(&report, "phantom"));
    assert_eq!((passive.place, phantom.place), (Some(1), Some(1)));
    assert!(phantom.verdict.text.contains("just as good"));
    assert!(report.headline[0].verdict.as_ref().unwrap().text.contains("active DI on phantom"));
    assert_eq!(candidate(&report, "battery").place, Some(3));
    assert!(candidate(&report, "straight").place > Some(3));
    // The limits are the reader's: with less asked of hum, straight in is best.
    let near = json!({
        "source": "keyboard", "input": "line", "phantom": "none", "lead_length": 3.0, "run_length": 0.0, "hum_least": 20.0
    });
    let lax = ranked(near);
    assert_eq!(first(&lax), "straight");
    assert!(lax.warnings.iter().any(|warning| warning.contains("Measure")), "{:?}", lax.warnings);
}

/// A thru comes out of a box, and its amplifier's earth calls for a lift.
#[test]
fn bass_with_its_amplifier() {
    let report = ranked(json!({ "source": "bass", "thru": "earthed" }));
    assert!(report.ranking.iter().all(|candidate| !["straight", "isolator"].contains(&candidate.id)));
    assert_eq!(first(&report), "passive");
    assert!(candidate(&report, "passive").link.values.contains(&("ground", "lifted".to_owned())));
}

/// Every candidate of every preset opens as the whole line that it was ranked
/// by, and every reason opens a calculator that answers.
#[test]
fn links_open() {
    let calculator = Calculator::find("box-or-straight").unwrap();
    let fillings =
        calculator.presets.iter().flat_map(|preset| std::iter::once(preset.values).chain(preset.held.iter().copied()));
    for filling in fillings {
        let values: std::collections::BTreeMap<_, _> = filling.iter().copied().collect();
        let answer = ranked(json!(values));
        assert!(!answer.ranking.is_empty(), "{filling:?}");
        for candidate in &answer.ranking {
            let filled: std::collections::BTreeMap<_, _> = candidate.link.values.iter().cloned().collect();
            let line = report(candidate.link.calculator, json!(filled));
            for reason in &candidate.reasons {
                let id = reason.reading.id;
                let same = line.reading(id).unwrap_or_else(|| panic!("{} has no {id}", candidate.id));
                match (reason.reading.value, same.value) {
                    // Six digits are written into a link.
                    (Some(a), Some(b)) => within(id, a, b, 1e-3),
                    (a, b) => assert_eq!(a, b, "{} {id}", candidate.id),
                }
                let Some(link) = &reason.link else { continue };
                let filled: std::collections::BTreeMap<_, _> = link.values.iter().cloned().collect();
                let answer = ask(json!({ "calculator": link.calculator, "values": filled }));
                let wrong: Vec<_> = answer.fields.iter().filter(|(_, echo)| echo.problem.is_some()).collect();
                assert!(answer.report.is_some(), "{filling:?} {} {id}: {wrong:?}", candidate.id);
            }
            assert!(candidate.reasons.len() >= 4, "{}", candidate.id);
        }
    }
}

/// The safety earth and phantom are spoken of whatever is asked.
#[test]
fn cautions() {
    let report = ranked(json!({}));
    for word in ["safety earth", "phantom", "licensed electrician"] {
        assert!(report.cautions.iter().any(|caution| caution.contains(word)), "{word}");
    }
    let faulty = ranked(json!({ "source": "keyboard", "difference": "5 V" }));
    assert!(faulty.warnings.iter().any(|warning| warning.starts_with("Stop here")));
}

/// What misses a limit by less, more than a decibel less, stands before what misses it
/// by more, whatever it takes to bring (ranking by the trade's own sense, no source).
#[test]
fn the_nearer_miss_comes_first() {
    let report = ranked(json!({ "lead_length": 15.0, "loss_most": 0.5, "unbalanced_most": "" }));
    let missing: Vec<_> =
        report.ranking.iter().filter(|way| way.verdict.text.contains("misses one of your limits")).collect();
    let by = |way: &Candidate| reason(way, "loss").unwrap();
    assert!(missing.len() > 1, "{:?}", report.ranking.iter().map(|way| &way.verdict.text).collect::<Vec<_>>());
    assert!(missing.windows(2).all(|pair| by(pair[0]) <= by(pair[1]) + 1.0));
    assert!(missing.iter().any(|way| by(way) > by(missing[0]) + 1.0));
}

/// Nothing is recommended where an electrician comes first: 30 V between earths,
/// and 3 mA from a supply without an earth pin (0.5 mA of touch current, IEC 60990
/// from memory).
#[test]
fn an_electrician_comes_first() {
    for values in [
        json!({ "source": "keyboard", "input": "line", "difference": "30" }),
        json!({ "source": "laptop", "power": "leaking", "leakage_current": "3 mA" }),
    ] {
        let report = ranked(values);
        assert_eq!(report.headline[0].verdict.as_ref().unwrap().tone, Tone::Trouble);
        assert_eq!(report.headline[0].text, "nothing here");
        assert!(report.warnings.iter().any(|warning| warning.contains("licensed electrician")));
    }
}

/// A balanced output goes straight in, as every wireless receiver does; an isolator is
/// the spare in the bag (common practice, no source). The picture names what is used.
#[test]
fn receiver_straight_in() {
    let report = ranked(json!({ "source": "receiver" }));
    assert_eq!(first(&report), "straight");
    let isolator = candidate(&report, "isolator");
    assert!(isolator.verdict.text.contains("more parts"), "{}", isolator.verdict.text);
    // A ratio has no decibels to spare.
    assert!(isolator.verdict.text.contains('%'), "{}", isolator.verdict.text);

    let part = |values: Value, id: &str| {
        let report = ranked(values);
        let part = report.diagram.unwrap().parts.into_iter().find(|part| part.id == id);
        (report.ranking[0].id, part.map(|part| part.name))
    };
    let keyboard = json!({ "source": "keyboard", "input": "line" });
    assert_eq!(part(keyboard, "box"), ("isolator", Some("isolator".to_owned())));
    let amplifier = json!({ "source": "line", "input": "amplifier", "lead_length": "3 m", "run_length": "5 m" });
    assert_eq!(part(amplifier, "console").1.as_deref(), Some("amplifier input"));
}

/// The count of a way is that of the list, and what is to spare is rounded alike in both.
#[test]
fn headline_and_list_say_the_same() {
    let report = ranked(json!({ "source": "guitar", "input": "amplifier" }));
    assert_eq!(reading(&report, "broken"), 2.0);
    assert!(report.ranking[0].verdict.text.starts_with("misses 2 of your limits"));
    for source in ["guitar", "laptop", "bass", "keyboard", "piezo", "receiver", "line", "headphones"] {
        let report = ranked(json!({ "source": source }));
        let spare = report.reading("tightest").unwrap().text.clone();
        let text = &report.ranking[0].verdict.text;
        assert!(text.contains(&spare), "{source}: {spare} in {text}");
    }
}

/// Ways that keep all limits are told apart by what they bring: a battery is one part
/// more than phantom, and of two with as many parts neither is the better.
#[test]
fn a_place_is_called_what_it_is() {
    let keys = ranked(json!({ "source": "keyboard", "power": "floating", "run_length": 30.0 }));
    let text = |report: &Report, id: &str| candidate(report, id).verdict.text.clone();
    for (way, called) in [
        ("passive", "just as good: meets all your limits"),
        ("phantom", "just as good: meets all your limits"),
        ("battery", "meets all your limits, with more parts (2)"),
    ] {
        assert!(text(&keys, way).starts_with(called), "{way}: {}", text(&keys, way));
        assert_eq!(candidate(&keys, way).verdict.tone, Tone::Fine, "{way}");
    }
    let microphone = ranked(json!({ "source": "microphone" }));
    assert!(text(&microphone, "straight").starts_with("best: "), "{}", text(&microphone, "straight"));
    // 30 m of instrument lead misses one limit or more, and is no way to do it.
    let guitar = ranked(json!({ "lead_length": "30 m", "run_length": "0", "input": "instrument" }));
    let missed = reading(&guitar, "broken");
    let called =
        if missed == 1.0 { "misses one of your limits".to_owned() } else { format!("misses {missed} of your limits") };
    let best = &guitar.ranking[0];
    assert!(best.verdict.text.starts_with(&called) && best.verdict.tone == Tone::Trouble, "{}", best.verdict.text);
}

/// What it is, how far and into what; a length of nothing goes without saying.
#[test]
fn the_question_once_more() {
    for (lead, run, length) in [(6.0, 30.0, "6\u{a0}m + 30\u{a0}m"), (6.0, 0.0, "6\u{a0}m"), (0.0, 30.0, "30\u{a0}m")] {
        let report = ranked(json!({ "source": "bass", "lead_length": lead, "run_length": run }));
        assert_eq!(report.subject.unwrap(), format!("passive bass, {length}, into a microphone input"));
    }
}

/// What to mind with what is taken: two sides of a stereo source want two boxes, and
/// summed by a lead they short each other: ten times 1 kΩ, and no less than 1 kΩ
/// (common practice, no source).
#[test]
fn what_to_mind_with_two_sides() {
    let keys = |channels: &str, r: f64| {
        ranked(
            json!({ "source": "keyboard", "channels": channels, "source_r": r, "power": "floating", "run_length": 30.0 }),
        )
    };
    let says = |report: &Report, text: &str| report.warnings.iter().any(|warning| warning.contains(text));
    let summed = keys("summed", 1e3);
    assert!(says(&summed, "10\u{a0}kΩ") && says(&summed, "1\u{a0}kΩ"), "{:?}", summed.warnings);
    assert!(says(&keys("summed", 50.0), "1\u{a0}kΩ"), "{:?}", keys("summed", 50.0).warnings);
    assert!(!says(&keys("one", 1e3), "10\u{a0}kΩ"));
    let (one, two) = (keys("one", 1e3), keys("two", 1e3));
    assert_eq!(reading(&two, "parts"), 2.0 * reading(&one, "parts"));
    assert!(reading(&one, "parts") > 0.0);
}

/// Which ways there are at all, without those with a pad (common practice, no source): a
/// microphone needs no box, an isolator is for outputs, what ends at an instrument's input
/// needs none but a piezo's buffer, and a guitar's amplifier wants a line brought down.
#[test]
fn which_ways_there_are() {
    let ways = |values: Value| -> Vec<&'static str> {
        let mut ways: Vec<_> =
            ranked(values).ranking.iter().map(|way| way.id).filter(|id| !id.contains("pad")).collect();
        ways.sort_unstable();
        ways
    };
    let boxes = ["battery", "passive", "phantom", "straight"];
    let all = ["battery", "isolator", "passive", "phantom", "straight"];
    for (source, input, expected) in [
        ("guitar", "microphone", &boxes[..]),
        ("guitar", "line", &boxes),
        ("guitar", "either", &boxes),
        ("guitar", "instrument", &["straight"]),
        ("guitar", "amplifier", &["straight"]),
        ("piezo", "microphone", &boxes),
        ("piezo", "instrument", &["battery", "straight"]),
        ("piezo", "amplifier", &["straight"]),
        ("keyboard", "microphone", &all),
        ("keyboard", "line", &all),
        ("keyboard", "either", &all),
        ("keyboard", "instrument", &["isolator", "straight"]),
        ("keyboard", "amplifier", &["isolator", "passive", "straight"]),
        ("line", "microphone", &["isolator", "straight"]),
        ("line", "line", &["isolator", "straight"]),
        ("line", "amplifier", &["isolator", "passive", "straight"]),
        ("microphone", "microphone", &["straight"]),
        ("microphone", "line", &["straight"]),
        ("loudspeaker", "microphone", &boxes),
        ("loudspeaker", "line", &boxes),
        ("loudspeaker", "instrument", &["straight"]),
    ] {
        assert_eq!(ways(json!({ "source": source, "input": input })), expected, "{source} into {input}");
    }
    // A thru is that of a box.
    assert_eq!(ways(json!({ "source": "bass", "thru": "earthed" })), ["battery", "passive", "phantom"]);
    // An isolator keeps phantom that cannot be switched off from a ribbon, and from that alone.
    for (source, phantom, expected) in [
        ("ribbon", "always", &["isolator", "straight"][..]),
        ("ribbon", "switched", &["straight"]),
        ("microphone", "always", &["straight"]),
    ] {
        assert_eq!(ways(json!({ "source": source, "phantom": phantom })), expected, "{source} {phantom}");
    }
    for second in ["near", "far"] {
        assert_eq!(ways(json!({ "source": "microphone", "second": second })), ["split", "y_lead"]);
    }
}

/// Pads come in steps of 10 dB (common practice, no source): 15 dB of crest on 10 V are a
/// sine of +34.2 dBu, which 32.2 dB bring 6 dB under the +8 dBu of a box; 20 dB at least.
#[test]
fn pads_in_steps() {
    for (emf, gain) in [("2 V", "−20"), ("3 V", "−30"), ("10 V", "−40"), ("100 V", "−60")] {
        let report =
            ranked(json!({ "source": "keyboard", "power": "floating", "emf": emf, "crest": 15.0, "headroom": 6.0 }));
        let values = &candidate(&report, "battery_pad").link.values;
        let put = values.iter().find(|(id, _)| *id == "box_gain").map(|(_, text)| text.clone()).unwrap();
        assert!(put.starts_with(gain), "{emf}: {put}");
    }
    let quiet = ranked(json!({ "source": "keyboard", "power": "floating", "emf": "50 mV", "crest": 15.0 }));
    assert!(quiet.ranking.iter().all(|way| !way.id.ends_with("_pad")));
}

/// Where no way keeps all limits, the one that comes nearest to its own is told beside the
/// one that misses the fewest: of 5 m of unbalanced line, 10 m and 100 m make 105 m too
/// much, and a box behind the 10 m 95 m.
#[test]
fn the_nearest_is_told() {
    let nearest =
        |values: Value| ranked(values).warnings.into_iter().find(|warning| warning.contains("Closest to its limits"));
    let far = json!({ "source": "piezo", "input": "instrument", "lead_length": 10.0, "run_length": 100.0 });
    let told = nearest(far.clone()).unwrap();
    assert!(told.ends_with("active DI on a battery, which misses by 95\u{a0}m."), "{told}");
    assert_eq!(first(&ranked(far)), "straight");
    // Where the first is the nearest too, or keeps all limits, nothing is told.
    assert_eq!(nearest(json!({ "lead_length": "30 m", "run_length": "0", "input": "instrument" })), None);
    assert_eq!(nearest(json!({})), None);
}

/// Each way that must not be says why, and on what its place hangs.
#[test]
fn why_a_way_is_refused() {
    for (values, way, words) in [
        (json!({ "source": "ribbon", "phantom": "always" }), "straight", "phantom on a ribbon"),
        (json!({ "source": "loudspeaker" }), "straight", "only through a DI made for them"),
        (json!({ "source": "condenser", "phantom": "none" }), "straight", "without it a condenser is silent"),
        (
            json!({ "source": "guitar", "phantom": "none" }),
            "phantom",
            "with a battery, or phantom at this input, it would work",
        ),
        (json!({ "source": "guitar", "phantom": "always" }), "straight", "an output that was not made for it"),
        (json!({ "source": "laptop", "emf": "2 V" }), "straight", "it clips. Weakest point: "),
    ] {
        let report = ranked(values.clone());
        let refused = candidate(&report, way);
        assert!(refused.place.is_none() && refused.verdict.text.contains(words), "{values}: {}", refused.verdict.text);
    }
    // And what was kept or missed hangs on what nobody has measured.
    let keys = ranked(
        json!({ "source": "keyboard", "input": "line", "power": "earthed", "difference": 0.3, "run_length": 0.0 }),
    );
    let text = &candidate(&keys, "straight").verdict.text;
    assert!(text.contains("It depends on the 300\u{a0}mV between the two earths"), "{text}");
    let bass = ranked(json!({ "source": "bass", "thru": "earthed", "amp_difference": 0.2 }));
    let texts: Vec<_> = bass.ranking.iter().map(|way| &way.verdict.text).collect();
    assert!(
        texts.iter().any(|text| text.contains("It depends on the 200\u{a0}mV between the two earths")),
        "{texts:?}"
    );
}

/// A box between two earths is named with its ground lift, which is on where it may be: an
/// active one on phantom would lose its supply. Where a console has both inputs each way
/// is named with its own.
#[test]
fn how_a_way_is_named() {
    let named = |values: Value, way: &str| candidate(&ranked(values), way).name.clone();
    let keys = |power: &str, input: &str| json!({ "source": "keyboard", "power": power, "input": input });
    for (way, lift) in [("passive", "lift on"), ("battery", "lift on"), ("phantom", "lift off")] {
        let earthed = named(keys("earthed", "microphone"), way);
        assert!(earthed.contains(lift), "{way}: {earthed}");
        let floating = named(keys("floating", "microphone"), way);
        assert!(!floating.contains("lift"), "{way}: {floating}");
    }
    for way in ["straight", "isolator"] {
        assert!(!named(keys("earthed", "microphone"), way).contains("lift"), "{way}");
    }
    for (way, channel) in
        [("straight", "line"), ("isolator", "line"), ("passive", "microphone"), ("battery", "microphone")]
    {
        for power in ["earthed", "floating"] {
            let name = named(keys(power, "either"), way);
            assert!(name.contains(channel), "{way}, {power}: {name}");
        }
    }
    let kept = json!({ "source": "keyboard", "power": "earthed", "lifted_supply": "kept" });
    assert!(named(kept, "phantom").contains("lift on"));
}
