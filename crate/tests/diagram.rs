//! The line diagram of a rig: which parts it has, in which order, and which loops
//! of earths are closed. What is expected follows from how such a rig is plugged
//! together (common practice, no source).
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

mod common;

use common::report;
use serde_json::{Value, json};
use stageohm::calculator::REGISTER;
use stageohm::report::{Diagram, Earth, PartSymbol};

fn diagram(calculator: &str, values: Value) -> Diagram {
    report(calculator, values).diagram.unwrap()
}

fn parts(diagram: &Diagram) -> Vec<&'static str> {
    diagram.parts.iter().map(|part| part.id).collect()
}

/// Each loop by its ends, and where it is open.
fn loops(diagram: &Diagram) -> Vec<(&'static str, &'static str, Option<&'static str>)> {
    diagram.loops.iter().map(|earth_loop| (earth_loop.from, earth_loop.to, earth_loop.open_at)).collect()
}

#[test]
fn parts_in_the_order_of_the_signal() {
    let plain = diagram("whole-line", json!({}));
    assert_eq!(parts(&plain), ["source", "lead", "box", "run", "console"]);
    let all = json!({ "thru": "earthed", "pad": "20", "console_gain": "30", "box": "passive" });
    let all = diagram("whole-line", all);
    assert_eq!(parts(&all), ["source", "lead", "thru", "box", "run", "pad", "console", "gain", "converter"]);
    let branches: Vec<_> = all.parts.iter().filter(|part| part.branch).map(|part| part.id).collect();
    assert_eq!(branches, ["thru"]);
    let bare = json!({ "lead_length": "0", "run_length": "0", "box": "none", "run": "unbalanced", "phantom": "off" });
    assert_eq!(parts(&diagram("whole-line", bare)), ["source", "console"]);
    let take_off = diagram("whole-line", json!({ "source": "loudspeaker" }));
    assert_eq!(parts(&take_off), ["source", "lead", "take_off", "box", "run", "console"]);
    let split = json!({ "source": "microphone", "box": "none", "split": "direct" });
    assert_eq!(parts(&diagram("whole-line", split)), ["source", "lead", "second", "run", "console"]);
}

/// A box is what it is: a transformer, or an amplifier. The lead to it is coaxial, and
/// the run from it a screened pair; the lead of a balanced source is one too.
#[test]
fn symbols() {
    let symbol = |values: Value, part: &str| diagram("whole-line", values).part(part).unwrap().symbol;
    assert_eq!(symbol(json!({}), "source"), PartSymbol::Coil);
    assert_eq!(symbol(json!({ "source": "piezo" }), "source"), PartSymbol::Crystal);
    assert_eq!(symbol(json!({}), "box"), PartSymbol::Amplifier);
    assert_eq!(symbol(json!({ "box": "passive" }), "box"), PartSymbol::Transformer);
    assert_eq!(symbol(json!({}), "lead"), PartSymbol::Coaxial);
    assert_eq!(symbol(json!({}), "run"), PartSymbol::Pair);
    assert_eq!(symbol(json!({ "source": "microphone", "box": "none" }), "lead"), PartSymbol::Pair);
    let straight = json!({ "box": "none", "run": "unbalanced", "phantom": "off" });
    assert_eq!(symbol(straight, "run"), PartSymbol::Coaxial);
}

/// Without an earth at the source there is no loop; with one it is closed through the
/// shields, and the ground lift opens it; between source and amplifier it does not.
#[test]
fn loops_of_earths() {
    assert_eq!(loops(&diagram("whole-line", json!({}))), []);
    let rig = |more: Value| {
        let mut values = json!({ "source": "output", "power": "earthed", "box": "passive" });
        values.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        diagram("whole-line", values)
    };
    assert_eq!(loops(&rig(json!({}))), [("source", "console", None)]);
    assert_eq!(loops(&rig(json!({ "ground": "lifted" }))), [("source", "console", Some("box"))]);
    assert_eq!(
        loops(&rig(json!({ "ground": "lifted", "thru": "earthed" }))),
        [("source", "console", Some("box")), ("thru", "console", Some("box")), ("source", "thru", None)]
    );
    // On the same earth nothing drives the one between the two.
    assert_eq!(loops(&rig(json!({ "ground": "lifted", "thru": "same" }))).len(), 2);
    assert_eq!(rig(json!({})).part("source").unwrap().earth, Some(Earth::Protective));
    assert_eq!(rig(json!({ "power": "leaking" })).part("source").unwrap().earth, Some(Earth::Leakage));
    assert_eq!(rig(json!({ "power": "floating" })).part("source").unwrap().earth, None);
    let split = json!({ "source": "microphone", "box": "none", "split": "direct" });
    assert_eq!(loops(&diagram("whole-line", split)), [("second", "console", None)]);
    let apart = json!({ "source": "microphone", "box": "none", "split": "transformer" });
    assert_eq!(loops(&diagram("whole-line", apart)), []);
}

/// A transformer opens the loop, a balanced connection does not.
#[test]
fn loops_by_connection() {
    let by = |connection: &str| loops(&diagram("ground-loop", json!({ "connection": connection })));
    assert_eq!(by("unbalanced"), [("source", "console", None)]);
    assert_eq!(by("balanced"), [("source", "console", None)]);
    assert_eq!(by("isolated"), [("source", "console", Some("isolator"))]);
    assert_eq!(by("screened"), [("source", "console", Some("isolator"))]);
}

/// What stands at a part is what the readings of the same report say.
#[test]
fn values_are_those_of_the_readings() {
    let values = json!({ "source": "output", "power": "earthed", "box": "passive" });
    let report = report("whole-line", values);
    let drawn = report.diagram.as_ref().unwrap();
    let says = |part: &str, reading: &str, word: &str| {
        let text = &report.reading(reading).unwrap().text;
        let said = &drawn.part(part).unwrap().values;
        assert!(said.contains(&format!("{word} {text}")), "{part}: {said:?} without {word} {text}");
    };
    says("console", "level", "in");
    says("console", "hum_a", "hum");
    says("console", "signal_to_hum", "signal-to-hum");
    says("lead", "hum_lead", "hum in");
    // Hum far below the noise is none to speak of.
    assert!(report.reading("hum_run").unwrap().value.unwrap() < -140.0);
    assert!(drawn.part("run").unwrap().values.iter().all(|value| !value.contains("hum")));
    let headroom = |values: Value, part: &str| {
        let said = diagram("level-chain", values).part(part).unwrap().values.clone();
        said.into_iter().find(|value| value.starts_with("headroom") || value.starts_with("clips")).unwrap()
    };
    // 12 dB of crest over 0 dBu, as a sine's 3.01 dB less, under the +10 dBu of the box
    // and the +20 dBu of the input: by hand.
    let hot = json!({ "emf": "0 dBu", "crest": "12", "source_r": "0", "box_clip": "5 dBu" });
    assert!(headroom(hot, "box").starts_with("clips by 4.0"), "12 − 3.01 − 5 dB");
    let fits = json!({ "emf": "0 dBu", "crest": "12", "source_r": "0", "box_clip": "10 dBu" });
    assert!(headroom(fits, "box").starts_with("headroom 1."), "10 − 12 + 3.01 dB");
}

/// Phantom where it is: 48 V behind 6.8 kΩ a leg at a box that takes 4 mA has
/// 48 − 4 mA·3.4 kΩ = 34.4 V (IEC 61938, from memory).
#[test]
fn phantom_where_it_is() {
    let fed = diagram("whole-line", json!({ "run_length": "0" }));
    assert!(fed.part("box").unwrap().values.iter().any(|value| value.starts_with("phantom 34.")), "{fed:?}");
    assert!(fed.part("console").unwrap().values.contains(&"phantom P48".to_owned()));
    let off = diagram("whole-line", json!({ "phantom": "off" }));
    assert!(off.part("box").unwrap().values.contains(&"no phantom".to_owned()));
    assert!(off.part("console").unwrap().values.contains(&"phantom off".to_owned()));
}

/// Box or straight in draws the way that it names, with what was asked at its head.
#[test]
fn the_best_way_is_drawn() {
    let report = report("box-or-straight", json!({ "source": "bass" }));
    let drawn = report.diagram.unwrap();
    assert_eq!(drawn.part("source").unwrap().name, "passive bass");
    let best = report.ranking.first().unwrap();
    let transformer = matches!(best.id, "passive" | "isolator");
    let expected = if transformer { PartSymbol::Transformer } else { PartSymbol::Amplifier };
    assert_eq!(drawn.part("box").unwrap().symbol, expected);
    // Nothing is drawn that nobody is to plug in.
    let stop = json!({ "source": "keyboard", "power": "earthed", "difference": "20 V" });
    assert!(common::report("box-or-straight", stop).diagram.is_none());
}

/// Whoever hides a field hides what it decides: each of these is a field, and so is
/// one of those that a part leads to, where it has any on this page.
#[test]
fn fields_are_those_of_the_calculator() {
    for calculator in REGISTER {
        let Some(drawn) = report(calculator.id, json!({})).diagram else { continue };
        for field in &drawn.shaped_by {
            assert!(calculator.field(field).is_some(), "{}: {field}", calculator.id);
        }
        for part in drawn.parts.iter().filter(|part| part.id != "box" || calculator.id != "box-or-straight") {
            let known = part.fields.iter().any(|field| calculator.field(field).is_some());
            assert!(known, "{}: {} leads nowhere", calculator.id, part.id);
        }
    }
}

/// What is said of each part beside its level: how its ground lift stands, which phantom
/// is on and where, how a second console is joined, and how long a lead is.
#[test]
fn what_is_said_of_a_part() {
    let says = |values: Value, part: &str, text: &str| {
        let drawn = diagram("whole-line", values.clone());
        let part = drawn.part(part).unwrap_or_else(|| panic!("{values}: no {part}"));
        part.values.iter().any(|value| value.replace('\u{a0}', " ") == text)
    };
    let lift = |ground: &str| json!({ "source": "output", "box": "passive", "phantom": "off", "ground": ground });
    for (ground, on) in [("lifted", true), ("joined", false)] {
        assert_eq!(says(lift(ground), "box", "ground lift on"), on, "{ground}");
        assert_eq!(says(lift(ground), "box", "ground lift off"), !on, "{ground}");
    }
    for (phantom, text) in
        [("off", "phantom off"), ("p48", "phantom P48"), ("p24", "phantom P24"), ("p12", "phantom P12")]
    {
        let microphone = json!({ "source": "microphone", "microphone": "dynamic", "box": "none", "phantom": phantom });
        assert!(says(microphone, "console", text), "{phantom}");
    }
    let ribbon =
        |phantom: &str| json!({ "source": "microphone", "microphone": "ribbon", "box": "none", "phantom": phantom });
    assert!(
        says(ribbon("p48"), "source", "phantom is present") && !says(ribbon("off"), "source", "phantom is present")
    );
    let condenser = json!({ "source": "microphone", "microphone": "condenser", "box": "none", "phantom": "off" });
    assert!(says(condenser, "source", "no phantom"));
    let split = |split: &str| json!({ "source": "microphone", "box": "none", "split": split });
    assert!(says(split("transformer"), "second", "through a transformer"));
    assert!(!says(split("direct"), "second", "through a transformer"));
    let long = json!({ "lead_length": "7 m", "run_length": "31 m", "pad": "20", "box": "passive", "phantom": "off" });
    assert!(
        says(long.clone(), "lead", "7 m") && says(long.clone(), "run", "31 m") && says(long, "pad", "20.0 dB down")
    );
    let terminals = json!({ "source": "loudspeaker", "take_off": "40" });
    assert!(says(terminals, "take_off", "40.0 dB down"));
}

/// What closes or opens a loop is told with what drives it, and with the current where
/// there is one: 0.1 V through 0.5 Ω, 6 m of lead and 30 m of run of 0.02 Ω/m and their
/// four contacts of 10 mΩ are 79.4 mA (by hand).
#[test]
fn what_is_said_of_a_loop() {
    let rig = |more: Value| {
        let mut values = json!({
            "source": "output", "power": "earthed", "box": "passive", "phantom": "off", "difference": 0.1, "earth_r": 0.5,
            "shield_r": 0.02, "contact_r": 0.01, "inductance": 0.0, "lead_length": 6.0, "run_length": 30.0,
            "harmonic_2": "", "harmonic_3": "", "harmonic_5": "", "harmonic_7": "", "harmonic_9": "", "harmonic_11": ""
        });
        values.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        let drawn = diagram("whole-line", values);
        drawn.loops.iter().map(|earth_loop| earth_loop.text.replace('\u{a0}', " ")).collect::<Vec<_>>()
    };
    let drives = "100 mV between the earths";
    assert_eq!(
        rig(json!({})),
        [format!("Earth loop from source to console, closed: {drives}, 79.4 mA in the shield of the run")]
    );
    let short = rig(json!({ "run_length": 0.0, "box": "none", "run": "unbalanced" }));
    assert!(short[0].ends_with("in the shield of the lead"), "{short:?}");
    assert_eq!(
        rig(json!({ "ground": "lifted" })),
        [format!("Earth loop from source to console, open at the ground lift: {drives}")]
    );
    let leaking = rig(json!({ "power": "leaking", "leakage_current": 0.25e-3 }));
    assert!(leaking[0].contains("closed: 250 µA leakage, 250 µA in the shield"), "{leaking:?}");
    let both = rig(json!({ "ground": "lifted", "thru": "earthed", "amp_difference": 0.2 }));
    assert_eq!(both[1], "Earth loop from amplifier to console, open at the ground lift: 200 mV between the earths");
    assert_eq!(both[2], "Earth loop from source to amplifier, closed: a ground lift does not open it");
}
