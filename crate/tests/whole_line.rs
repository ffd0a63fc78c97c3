//! Whole line against rigs computed by hand: plain Python from the formulas,
//! written for this test and run apart from the project. Divider, 4·k·T·R,
//! A-weighting of IEC 61672-1 (pole frequencies from memory), V_cm·(bridge) of
//! Whitlock 1995, Millman's theorem for the earths, IEC 61938 (from memory) for
//! phantom.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]
#![recursion_limit = "256"]

mod common;

use common::{ask, reading, report, within};
use serde_json::{Value, json};
use stageohm::report::{Report, Tone};

/// A keyboard on an earth of its own through an active box; leads of pure
/// shield, and nothing but the mains frequency.
fn keyboard() -> Value {
    json!({
        "source": "output", "emf": 0.5, "crest": 12.0, "source_r": 1e3, "power": "earthed", "difference": 0.1,
        "earth_r": 0.5, "inductance": 0.0, "lead_length": 5.0, "lead_c": 0.0, "lead_r": 0.0, "lead_l": 0.0,
        "shield_r": 0.02, "contact_r": 0.01, "box": "active", "box_r": 1e6, "box_c": 0.0, "box_gain": 0.0,
        "box_clip": 8.0, "box_en": 10e-9, "box_in": 0.1e-12, "box_leg": 100.0, "run_length": 30.0, "run_c": 0.0,
        "run_r": 0.16, "run_l": 0.0, "imbalance": 10.0, "input_r": 10e3, "input_spread": 0.01, "leg_c": 0.0,
        "c_imbalance": 0.0, "console_r": 1500.0, "console_c": 0.0, "console_most": 10.0, "ein": -128.0, "ein_r": 150.0,
        "console_in": 1e-12, "phantom": "p48", "stray_density": 0.0, "stray_c": 0.0, "mains": "50", "harmonic_2": "", "harmonic_3": "", "harmonic_5": "",
        "harmonic_7": "", "harmonic_9": "", "harmonic_11": "", "range": "", "output_noise": ""
    })
}

fn with(mut values: Value, more: Value) -> Value {
    for (id, value) in more.as_object().unwrap() {
        values[id] = value.clone();
    }
    values
}

/// The run has 0.16 Ω/m for both cores, which here is in the signal's way too:
/// 4.8 Ω of 1700, 0.024 dB.
#[test]
fn active_box_by_hand() {
    let line = report("whole-line", with(keyboard(), json!({ "run_r": 0.0, "phantom": "off", "powered": "battery" })));
    for (id, expected, tolerance) in [
        ("level", -4.897_947_213, 1e-8),
        ("noise", -115.002_831_218, 1e-6),
        ("snr", 110.104_884_005, 1e-6),
        ("loop_current", 0.080_645_161, 1e-8),
        ("rejection", 59.344_828_823, 1e-8),
        ("hum", -39.113_849_184, 1e-8),
        ("hum_a", -69.385_465_855, 1e-6),
        ("signal_to_hum", 64.487_518_641, 1e-6),
        ("margin", 2.821_093_922, 1e-6),
        ("loss", 0.0, 1e-9),
        ("loss_bass", 0.0, 1e-9),
    ] {
        within(id, reading(&line, id), expected, tolerance);
    }
    let words = |id: &str| line.reading(id).unwrap().verdict.clone().unwrap();
    assert!(
        words("snr").text.contains("active DI") && words("snr").text.contains("85\u{a0}%"),
        "{}",
        words("snr").text
    );
    assert!(words("signal_to_hum").text.contains("first lead"), "{}", words("signal_to_hum").text);
    assert!(words("margin").text.contains("DI output"), "{}", words("margin").text);
    assert_eq!(words("margin").tone, Tone::Trouble);
    assert_eq!(words("snr").tone, Tone::Fine);
}

/// Phantom that is on puts its feed resistors across the legs, matched to 0.4 %
/// (IEC 61938, from memory), whatever is plugged in: 10 kΩ and 6.8 kΩ are 4.05 kΩ a
/// leg, 7 to 8 dB of rejection. The calculator of balance says the same.
#[test]
fn feed_resistors_across_the_legs() {
    let battery = json!({ "run_r": 0.0, "powered": "battery" });
    let line = |phantom| report("whole-line", with(with(keyboard(), battery.clone()), json!({ "phantom": phantom })));
    within("off", reading(&line("off"), "rejection"), 59.344_828_823, 1e-8);
    within("on", reading(&line("p48"), "rejection"), 52.026_744_335, 1e-4);
    let lifted = json!({ "phantom": "p48", "ground": "lifted" });
    let lifted = report("whole-line", with(with(keyboard(), battery), lifted));
    let link = lifted.links.iter().find(|link| link.calculator == "balance").unwrap();
    let filled: serde_json::Map<_, _> =
        link.values.iter().map(|(id, text)| ((*id).to_owned(), text.clone().into())).collect();
    within("balance", reading(&report("balance", filled.into()), "rejection"), 52.026_744_335, 0.01);
}

/// P48 at 4 mA has 34.4 V (load line, computed) without a line; with 30 m of
/// 0.08 Ω/m a core and 0.02 Ω/m of shield 34.3928 V.
#[test]
fn phantom() {
    let bare = report("whole-line", with(keyboard(), json!({ "run_length": 0.0 })));
    within("supply", reading(&bare, "supply"), 34.4, 1e-9);
    within("supply", reading(&report("whole-line", keyboard()), "supply"), 34.3928, 1e-9);
}

/// The amplifier's earth, 0.2 V behind 0.3 Ω and three metres of shield, closes
/// a loop over the run although the source floats; with the source on its own
/// earth too it is a star of three, solved by superposition.
#[test]
fn thru_to_an_earthed_amplifier() {
    let thru = json!({
        "run_r": 0.0, "thru": "earthed", "thru_length": 3.0, "amp_r": 1e6, "amp_c": 0.0, "amp_difference": 0.2,
        "amp_earth_r": 0.3, "phantom": "off", "powered": "battery"
    });
    let both = report("whole-line", with(keyboard(), thru.clone()));
    within("hum", reading(&both, "hum"), -28.907_852_447, 1e-8);
    within("current", reading(&both, "loop_current"), 0.189_340_813, 1e-8);
    let floating = report("whole-line", with(with(keyboard(), thru), json!({ "power": "floating" })));
    within("level", reading(&floating, "level"), -4.906_620_094, 1e-8);
    within("hum", reading(&floating, "hum"), -76.345_060_870, 1e-8);
    within("signal to hum", reading(&floating, "signal_to_hum"), 101.710_057_448, 1e-6);
}

/// A 10:1 transformer without faults, its grounds lifted: all of the 0.1 V
/// stands over 100 pF in series with both legs.
#[test]
fn lifted_transformer() {
    let line = report(
        "whole-line",
        with(
            keyboard(),
            json!({
                "run_r": 0.0, "box": "passive", "ground": "lifted", "ratio": 10.0, "r1": 0.0, "r2": 0.0, "magnetising": "",
                "core_loss": "", "leakage": 0.0, "c1": 0.0, "c2": 0.0, "winding_c": 100e-12, "phantom": "off"
            }),
        ),
    );
    within("level", reading(&line, "level"), -23.859_826_182, 1e-8);
    within("rejection", reading(&line, "rejection"), 136.038_623_097, 1e-6);
    within("hum", reading(&line, "hum"), -153.857_121_418, 1e-5);
}

/// The working at the mains frequency, which evaluates the formulas it prints,
/// and the engine are two ways to one number, whatever closes the loop.
#[test]
fn working_and_engine_agree_on_hum() {
    let passive = json!({ "box": "passive", "phantom": "off" });
    let lifted = with(passive.clone(), json!({ "ground": "lifted" }));
    let thru = json!({ "thru": "earthed", "thru_length": 4.0, "inductance": 15e-6 });
    for more in [
        json!({}),
        json!({ "power": "leaking", "other_r": 2.0 }),
        json!({ "pin_1_r": 0.05 }),
        thru.clone(),
        with(thru.clone(), json!({ "power": "floating" })),
        lifted.clone(),
        with(lifted.clone(), thru),
        with(lifted, json!({ "run": "unbalanced" })),
        with(passive, json!({ "run": "unbalanced" })),
        json!({ "box": "none", "phantom": "off" }),
        json!({ "box": "none", "phantom": "off", "source": "balanced" }),
        json!({ "powered": "battery", "ground": "lifted" }),
        json!({ "power": "floating" }),
        json!({ "stray_density": 1e-6, "stray_c": 10e-15 }),
        json!({ "stray_density": 1e-6, "stray_c": 10e-15, "box": "none", "phantom": "off", "power": "floating" }),
    ] {
        let line = report("whole-line", with(keyboard(), more.clone()));
        if line.reading("hum").unwrap().value.is_none() {
            continue;
        }
        let step = line.working.iter().find(|step| step.formula.starts_with("U_f = ")).unwrap();
        let level = 20.0 * (step.value / 0.6_f64.sqrt()).log10();
        within(&more.to_string(), reading(&line, "hum"), level, 1e-9);
    }
}

/// A battery, no other earth and no field: nothing hums.
#[test]
fn nothing_hums_without_a_loop() {
    let line = report("whole-line", with(keyboard(), json!({ "power": "floating" })));
    assert_eq!(line.reading("signal_to_hum").unwrap().value, None);
    assert!(line.reading("signal_to_hum").unwrap().text.contains("no ground loop"));
}

/// What the mains around puts into an unbalanced lead, by hand: through 0.3 µT, 0.1 mm
/// and 5 m 47.12 nV in series; 1 fF/m to 230 V 0.3613 nA into 1 kΩ; both in phase
/// times 1e6/1.001e6·1500/1700. 30 m of unbalanced run more from 1 kΩ into 1.5 kΩ.
#[test]
fn leads_take_up_the_mains_around() {
    let stray = json!({ "power": "floating", "stray_density": 0.3e-6, "stray_c": 1e-15, "run_r": 0.0 });
    let line = report("whole-line", with(keyboard(), stray.clone()));
    let expected = (47.1239e-9 + 0.361_283e-9 * 1e3) * (1e6 / 1.001e6) * (1500.0 / 1700.0);
    within("by the lead", reading(&line, "hum"), 20.0 * (expected / 0.6_f64.sqrt()).log10(), 1e-3);
    let bare = json!({ "box": "none", "run": "unbalanced", "run_r": 0.0, "phantom": "off" });
    let line = report("whole-line", with(with(keyboard(), stray), bare));
    let expected = (7.0 * 47.1239e-9 + 7.0 * 0.361_283e-9 * 1e3) * 1500.0 / 2500.0;
    within("by lead and run", reading(&line, "hum"), 20.0 * (expected / 0.6_f64.sqrt()).log10(), 1e-3);
    assert!(line.reading("signal_to_hum").unwrap().verdict.as_ref().unwrap().text.contains("induced"));
}

/// The amplifier on the thru, by hand: 50 mV through 0.5 Ω of earth, 3 m and 30 m of
/// shield drive 0.05/(0.5 + 0.08 + 0.62) = 41.67 mA, of which 0.08 Ω in the thru's
/// shield make 3.333 mV beside 0.5 V: 43.52 dB, and 30.27 dB more by the A-weighting
/// at 50 Hz (its formula in IEC 61672-1, from memory).
#[test]
fn hum_in_the_amplifier_on_the_thru() {
    let thru = json!({
        "power": "floating", "thru": "earthed", "thru_length": 3.0, "amp_r": 1e9, "amp_c": 0.0, "amp_difference": 0.05,
        "amp_earth_r": 0.5, "powered": "battery", "phantom": "off", "source_r": 1.0
    });
    let line = report("whole-line", with(keyboard(), thru.clone()));
    let volts = 0.05 / (0.5 + 0.08 + 0.62) * 0.08;
    within("joined", reading(&line, "amplifier_hum"), 20.0 * (0.5_f64 / volts).log10() + 30.27, 0.02);
    // An amplifier of 1 kΩ at the end of 300 Ω beside a source of 1 kΩ and a box of 10 kΩ:
    // both divide what is in the shield, and the signal (dividers, by hand).
    let low = json!({ "amp_r": 1e3, "lead_r": 100.0, "lead_length": 0.0, "source_r": 1e3, "box_r": 10e3 });
    let loaded = report("whole-line", with(with(keyboard(), thru.clone()), low));
    let beside = |a: f64, b: f64| a * b / (a + b);
    let hum = volts * 1e3 / (1e3 + 300.0 + beside(1e3, 10e3));
    let load = beside(1e3 + 300.0, 10e3);
    let signal = 0.5 * load / (1e3 + load) * 1e3 / (1e3 + 300.0);
    within("loaded", reading(&loaded, "amplifier_hum"), 20.0 * (signal / hum).log10() + 30.27, 0.02);
    let lifted = report("whole-line", with(with(keyboard(), thru), json!({ "ground": "lifted" })));
    assert!(reading(&lifted, "amplifier_hum") > reading(&line, "amplifier_hum") + 40.0);
}

/// A ground lift opens the way to the console: a source and an amplifier that stand each on an
/// earth of its own keep their loop, and nobody is sent to the switch. It is told of where it
/// helps, by more than 40 dB: with a source on no earth, and with one on the amplifier's.
#[test]
fn a_lift_is_named_where_it_helps() {
    let thru = |more: Value| {
        let rig = json!({
            "thru": "earthed", "thru_length": 3.0, "amp_difference": 1.0, "difference": 1.0, "powered": "battery",
            "phantom": "off"
        });
        report("whole-line", with(with(keyboard(), rig), more))
    };
    for (more, helps) in [(json!({}), false), (json!({ "power": "floating" }), true), (json!({ "thru": "same" }), true)]
    {
        let joined = thru(more.clone());
        let lifted = thru(with(more.clone(), json!({ "ground": "lifted" })));
        let gain = lifted.reading("amplifier_hum").and_then(|hum| hum.value).unwrap_or(f64::INFINITY)
            - reading(&joined, "amplifier_hum");
        assert!(if helps { gain > 40.0 } else { gain < 3.0 }, "{more}: {gain}");
        let verdict = joined.reading("amplifier_hum").unwrap().verdict.clone().unwrap();
        assert_eq!(verdict.tone, Tone::Trouble, "{more}");
        assert_eq!(verdict.text.contains("switch on the ground lift"), helps, "{more}: {}", verdict.text);
    }
}

/// A condenser needs phantom, and no transformer in its way; a ribbon is kept away
/// from it; a dynamic one does not mind (common practice, no source).
#[test]
fn microphones_and_phantom() {
    let straight = json!({ "source": "microphone", "box": "none", "lead_length": 0.0 });
    let ask = |kind: &str, more: Value| {
        report("whole-line", with(with(straight.clone(), json!({ "microphone": kind })), more))
    };
    within("fed", reading(&ask("condenser", json!({ "run_length": 0.0 })), "supply"), 34.4, 1e-9);
    let off = ask("condenser", json!({ "phantom": "off" }));
    assert_eq!(off.reading("supply").unwrap().verdict.as_ref().unwrap().tone, Tone::Trouble);
    let isolated = ask("condenser", json!({ "box": "passive" }));
    assert!(isolated.reading("supply").unwrap().verdict.as_ref().unwrap().text.contains("transformer"));
    // Nor does a DI hand on the phantom that it works from.
    for powered in ["phantom", "battery"] {
        let behind = ask("condenser", json!({ "box": "active", "powered": powered }));
        within(powered, reading(&behind, "supply"), 0.0, 1e-12);
        assert_eq!(behind.headline[0].id, "supply");
        assert_eq!(behind.headline[0].verdict.as_ref().unwrap().tone, Tone::Trouble);
    }
    assert!(ask("ribbon", json!({})).warnings.iter().any(|warning| warning.contains("ribbon")));
    // As DI or straight has it, which refuses that way: a trouble, told first, and switched off.
    let on_ribbon = ask("ribbon", json!({}));
    assert_eq!(on_ribbon.headline[0].id, "phantom_on_ribbon");
    within("on a ribbon", reading(&on_ribbon, "phantom_on_ribbon"), 48.0, 1e-12);
    assert_eq!(on_ribbon.headline[0].verdict.as_ref().unwrap().tone, Tone::Trouble);
    let values = with(straight.clone(), json!({ "microphone": "ribbon", "phantom": "p48" }));
    let cures = common::ask(json!({ "calculator": "whole-line", "values": values, "cures": true })).cures.unwrap();
    assert!(cures.iter().any(|cure| cure.link.text == "Switch phantom off"), "{cures:?}");
    assert!(ask("ribbon", json!({ "phantom": "off" })).warnings.is_empty());
    assert!(ask("dynamic", json!({})).warnings.is_empty());
}

/// Loudspeaker terminals at 10 V and 12 dB of crest: a sine of 28.15 V, which makes
/// 79.2 mW in 10 kΩ; 40 dB less of it is left. By hand.
#[test]
fn loudspeaker_take_off() {
    let terminals = json!({
        "source": "loudspeaker", "speaker_emf": 10.0, "speaker_r": 0.0, "take_off": 40.0, "take_off_r": 10e3, "crest": 12.0,
        "powered": "battery", "phantom": "off", "box_r": 1e12, "box_c": 0.0, "run_r": 0.0, "power": "floating"
    });
    let line = report("whole-line", with(keyboard(), terminals.clone()));
    within("heat", reading(&line, "take_off_heat"), 0.0792, 1e-4);
    let level = 20.0 * (0.1_f64 / 0.6_f64.sqrt()).log10() + 20.0 * (1500.0_f64 / 1700.0).log10();
    within("level", reading(&line, "level"), level, 1e-6);
    let bridged = with(with(keyboard(), terminals), json!({ "amplifier": "bridged" }));
    assert!(report("whole-line", bridged.clone()).warnings.iter().any(|warning| warning.starts_with("Do not connect")));
    let lifted = with(bridged, json!({ "box": "passive", "ground": "lifted" }));
    assert!(report("whole-line", lifted).warnings.iter().all(|warning| !warning.starts_with("Do not connect")));
}

/// 1 µF in series with 1 kΩ into 1.5 kΩ: a corner of 63.7 Hz, at 40 Hz 5.48 dB under the
/// highest frequencies. By hand, from the divider.
#[test]
fn output_capacitor() {
    let values = json!({
        "power": "floating", "box": "none", "lead_length": 0.0, "run": "unbalanced", "run_length": 0.0, "output_c": 1e-6,
        "phantom": "off", "bass": 40.0, "smallest_load": 10e3, "console_c": 0.0
    });
    let line = report("whole-line", with(keyboard(), values));
    let at = |f: f64| {
        let x = 1.0 / (std::f64::consts::TAU * f * 1e-6);
        20.0 * (1500.0 / (2500.0_f64.powi(2) + x * x).sqrt()).log10()
    };
    within("bass", reading(&line, "loss_bass"), at(20e3) - at(40.0), 1e-6);
    assert_eq!(line.reading("impedance").unwrap().verdict.as_ref().unwrap().tone, Tone::Trouble);
}

/// Two consoles of 1.5 kΩ on one microphone of 200 Ω: 750 Ω, 3.75 times; 0.977 dB less
/// than with one. By hand, from the divider.
#[test]
fn two_consoles() {
    let values = json!({
        "source": "microphone", "microphone_r": 200.0, "box": "none", "lead_length": 0.0, "run_length": 0.0,
        "phantom": "off"
    });
    let one = report("whole-line", with(keyboard(), values.clone()));
    let two = report("whole-line", with(with(keyboard(), values.clone()), json!({ "split": "direct" })));
    within("ratio", reading(&two, "load_ratio"), 3.75, 1e-9);
    let lost = 20.0 * (1500.0 / 1700.0 * 950.0 / 750.0_f64).log10();
    within("lost", reading(&one, "level") - reading(&two, "level"), lost, 1e-6);
    // Joined, the earths of the two consoles close a loop; a transformer opens it.
    let apart = |split: &str| {
        let more = json!({ "split": split, "second_difference": 0.5, "run_length": 30.0 });
        report("whole-line", with(with(keyboard(), values.clone()), more))
    };
    assert!(apart("direct").reading("loop_current").is_some_and(|current| current.value.unwrap() > 0.1));
    assert!(apart("transformer").reading("loop_current").is_none());
}

/// What a box cannot do is said beside the field where it is mended.
#[test]
fn impossible_boxes() {
    for (values, field) in [
        (json!({ "ground": "lifted" }), "ground"),
        (json!({ "run": "unbalanced" }), "run"),
        (json!({ "powered": "battery", "run": "unbalanced", "ground": "lifted" }), "ground"),
        (json!({ "source": "output", "power": "earthed", "difference": 60.0 }), "difference"),
        (json!({ "box": "none", "source": "balanced", "power": "earthed", "imbalance": 2e3 }), "imbalance"),
    ] {
        let answer = ask(json!({ "calculator": "whole-line", "values": values }));
        assert!(answer.report.is_none(), "{values}");
        assert!(answer.fields.get(field).unwrap().problem.is_some(), "{values}: {:?}", answer.problems);
    }
}

/// Phantom that must not be there, and phantom that is missing.
#[test]
fn phantom_in_the_wrong_place() {
    let on_source = report("whole-line", json!({ "box": "none", "phantom": "p48" }));
    let reading = on_source.reading("supply_on_source").unwrap();
    assert_eq!(reading.verdict.as_ref().unwrap().tone, Tone::Trouble);
    // 48 V behind 6.8 kΩ onto 6.5 kΩ of coil parallel to 250 kΩ of track.
    let coil = 6.5e3 * 250e3 / 256.5e3;
    within("on the pickup", reading.value.unwrap(), 48.0 * coil / (6.8e3 + coil), 0.05);
    let missing = report("whole-line", json!({ "phantom": "off" }));
    assert_eq!(missing.reading("supply").unwrap().value, Some(0.0));
    let fed = report("whole-line", json!({ "source": "microphone", "box": "none", "phantom": "p48" }));
    assert!(fed.reading("supply_on_source").is_none());
}

/// Limits are the reader's: each decides on the verdict of its reading.
#[test]
fn limits_decide() {
    let tone = |line: &Report, id: &str| line.reading(id).unwrap().verdict.as_ref().unwrap().tone;
    for (limit, id, lax, strict) in [
        ("loss_most", "loss", 10.0, 0.0),
        ("snr_least", "snr", 40.0, 150.0),
        ("hum_least", "signal_to_hum", 40.0, 100.0),
        ("headroom", "margin", 1.0, 20.0),
    ] {
        let values = with(keyboard(), json!({ "lead_c": 100e-12, "source_r": 20e3 }));
        let kept = report("whole-line", with(values.clone(), json!({ limit: lax })));
        assert_ne!(tone(&kept, id), Tone::Trouble, "{limit}");
        let lost = report("whole-line", with(values, json!({ limit: strict })));
        assert_eq!(tone(&lost, id), Tone::Trouble, "{limit}");
    }
}

/// What is said of the tone that is lost, and the shares of the working with their sum.
fn blame(values: Value) -> (String, f64, Vec<(String, f64)>, f64) {
    let line = report("whole-line", values);
    let loss = line.headline.iter().find(|reading| reading.id == "loss").unwrap();
    let step = line.working.iter().find(|step| step.name.contains("Share of each part")).unwrap();
    let (_, symbols) = step.formula.split_once(" = ").unwrap();
    let numbers = step.numbers.replace(['(', ')'], "").replace('−', "-").replace("\u{a0}dB", "");
    let shares = symbols.split(" + ").map(str::to_owned).zip(numbers.split(" + ").map(|n| n.trim().parse().unwrap()));
    (loss.verdict.as_ref().unwrap().text.clone(), loss.value.unwrap(), shares.collect(), step.value)
}

/// A pickup into 1.5 kΩ at the end of 35 m: without the input the leads would take more
/// than all of it takes now, and without the run next to nothing is gained, but it is the
/// input that damps the coil: 2.5 H have 78 kΩ at 5 kHz, 3.5 nF of lead 9 kΩ. The same of
/// a bass, where leaving out any one part alone makes it no better. What is lost: chain
/// matrices of both, multiplied apart from this project.
#[test]
fn a_low_input_is_to_blame() {
    let straight = json!({ "box": "none", "run": "unbalanced", "phantom": "off", "console_r": 1500.0 });
    let bass = json!({
        "console_r": 2000.0, "lead_length": 15.0, "coil_l": 5.0, "coil_r": 9e3, "coil_c": 150e-12, "tone_c": 47e-9,
        "bass": 40.0, "treble": 2e3
    });
    for (values, lost) in [(straight.clone(), 20.19), (with(straight.clone(), bass), 15.12)] {
        let (text, loss, shares, _) = blame(values);
        within("loss", loss, lost, 0.01);
        assert!(text.contains("mostly the console's input (") && !text.contains(" and the "), "{text}");
        assert!(shares[0].1 > 0.95 * loss, "{shares:?}");
    }
    // Into 1 MΩ it is the run.
    let (text, ..) = blame(with(straight, json!({ "console_r": 1e6 })));
    assert!(text.contains("mostly the run (") && !text.contains(" and the "), "{text}");
}

/// 10 kΩ into leads of nothing but capacitance: each has as much of the loss as it has
/// of the capacitance, 10·log10((1 + (ω·R·C)²)/(1 + (ω₁·R·C)²)) together, ω₁ at 20 Hz.
#[test]
fn capacitances_share_a_loss() {
    let lines = json!({
        "source": "output", "source_r": 10e3, "box": "none", "phantom": "off", "console_r": 1e12, "console_c": 0.0,
        "lead_c": 100e-12, "lead_r": 0.0, "lead_l": 0.0, "run_c": 100e-12, "run_r": 0.0, "run_l": 0.0
    });
    let by_hand = |metres: f64| {
        let wrc = |f: f64| std::f64::consts::TAU * f * 10e3 * 100e-12 * metres;
        10.0 * ((1.0 + wrc(5e3).powi(2)) / (1.0 + wrc(20.0).powi(2))).log10()
    };
    let (text, loss, shares, sum) = blame(with(lines.clone(), json!({ "lead_length": 10.0, "run_length": 30.0 })));
    within("loss", loss, by_hand(40.0), 1e-6);
    within("sum", sum, loss, 1e-9);
    for (symbol, share) in [("a_run", 0.75), ("a_lead", 0.25), ("a_console", 0.0)] {
        let (_, got) = shares.iter().find(|(of, _)| of == symbol).unwrap_or_else(|| panic!("{shares:?}"));
        within(symbol, *got, share * loss, 0.01);
    }
    assert!(text.contains("mostly the run (") && !text.contains(" and the "), "{text}");
    // Two alike are named together.
    let (text, loss, shares, _) = blame(with(lines, json!({ "lead_length": 20.0, "run_length": 20.0 })));
    within("one", shares[0].1, loss / 2.0, 0.01);
    assert!(text.contains("mostly the ") && text.contains("the run (") && text.contains("the first lead ("), "{text}");
}

/// Whatever a line is made of, what its parts take adds up to what is lost on it.
#[test]
fn shares_add_up() {
    let mut parts = 0;
    for more in [
        json!({}),
        json!({ "box": "passive", "thru": "floating", "thru_length": 3.0, "phantom": "off", "pad": 20.0 }),
        json!({ "thru": "floating", "thru_length": 3.0, "pad": 10.0 }),
        json!({ "source": "piezo", "box": "none", "phantom": "off", "pad": 10.0 }),
        json!({ "source": "microphone", "box": "none", "lead_length": 0.0, "run_length": 0.0 }),
    ] {
        let (_, loss, shares, sum) = blame(with(more.clone(), json!({ "bass": 5e3 })));
        within(&more.to_string(), sum, loss, 1e-9);
        parts = parts.max(shares.len());
    }
    assert_eq!(parts, 6);
}

/// The loudspeaker's pad is in the box, and what falls along the shield of the lead to
/// it is taken off as the signal is: 0.1 V through 0.5 Ω of earth, 0.12 Ω of lead and
/// 0.62 Ω of run make 80.6 mA and 9.677 mV beside 10 V, 60.28 dB, and 30.27 dB more by
/// the A-weighting at 50 Hz (IEC 61672-1, from memory). By hand.
#[test]
fn hum_before_the_loudspeaker_pad() {
    let terminals = json!({
        "source": "loudspeaker", "speaker_emf": 10.0, "speaker_r": 0.0, "powered": "battery", "phantom": "off",
        "run_r": 0.0, "imbalance": 0.0, "input_spread": 0.0
    });
    let line = report("whole-line", with(keyboard(), terminals));
    let volts = 0.1 / (0.5 + 0.12 + 0.62) * 0.12;
    within("to hum", reading(&line, "signal_to_hum"), 20.0 * (10.0_f64 / volts).log10() + 30.27, 0.02);
    // The amplifier sees the pad.
    within("load", reading(&line, "impedance"), 10e3, 2.0);
}

/// A thru of 15 m beside a lead of 5 m takes up four times as much: 12.04 dB. By hand.
#[test]
fn a_thru_takes_up_the_mains_around() {
    let stray = json!({ "power": "floating", "stray_density": 0.0, "stray_c": 1e-15, "amp_r": 1e12, "amp_c": 0.0 });
    let hum = |more: Value| reading(&report("whole-line", with(with(keyboard(), stray.clone()), more)), "hum");
    let thru = hum(json!({ "thru": "floating", "thru_length": 15.0 }));
    within("thru", thru - hum(json!({})), 20.0 * 4.0_f64.log10(), 1e-6);
}

/// What burns is told: 28.15 V of sine in 1 kΩ are 0.79 W. By hand.
#[test]
fn a_loudspeaker_pad_that_burns() {
    let values = json!({ "source": "loudspeaker", "speaker_emf": 10.0, "crest": 12.0, "take_off_r": 1e3 });
    let line = report("whole-line", with(keyboard(), values));
    within("heat", reading(&line, "take_off_heat"), 0.7924, 1e-3);
    assert_eq!(line.reading("take_off_heat").unwrap().verdict.as_ref().unwrap().tone, Tone::Trouble);
}

/// A DI without its supply comes before all else that is told of its line, as an
/// engineer would say it (common practice, no source); one that is just fed comes last.
#[test]
fn without_its_supply() {
    let fed = |phantom: &str, length: &str| {
        let rig = json!({ "box": "active", "powered": "phantom", "phantom": phantom, "run_length": length });
        report("whole-line", rig)
            .headline
            .into_iter()
            .map(|it| (it.id, it.verdict.map(|it| it.tone)))
            .collect::<Vec<_>>()
    };
    assert_eq!(fed("p12", "80 m")[0], ("supply", Some(Tone::Trouble)));
    assert_eq!(fed("off", "30 m")[0], ("supply", Some(Tone::Trouble)));
    assert_eq!(fed("p24", "80 m").last(), Some(&("supply", Some(Tone::Watch))));
    assert!(fed("p48", "30 m").iter().all(|(id, _)| *id != "supply"));
}

/// The same rigs in the calculators that the line points to, which take what is written
/// in a link, to six figures: what is known of them by hand is known there.
#[test]
fn where_the_line_points_to() {
    let there = |line: &Report, calculator: &str| {
        let link = line.links.iter().find(|link| link.calculator == calculator);
        let link = link.unwrap_or_else(|| panic!("no link to {calculator}"));
        let values: serde_json::Map<_, _> =
            link.values.iter().map(|(id, text)| ((*id).to_owned(), text.clone().into())).collect();
        report(calculator, values.into())
    };
    let check = |line: &Report, calculator: &str, id: &str, expected: f64, tolerance: f64| {
        within(&format!("{calculator} {id}"), reading(&there(line, calculator), id), expected, tolerance);
    };
    // As in the test of the active box.
    let line = report("whole-line", with(keyboard(), json!({ "run_r": 0.0, "phantom": "off", "powered": "battery" })));
    check(&line, "level-chain", "level_console_input", -4.897_947, 1e-4);
    check(&line, "noise-floor", "noise", -115.002_831, 1e-4);
    check(&line, "noise-floor", "snr", 110.104_884, 1e-4);
    check(&line, "ground-loop", "current", 0.080_645, 1e-5);
    // 0.12 Ω of the first lead's shield in series with the signal before the box, which is
    // divided as the signal is: 0.5 V re 80.6 mA in it.
    let distance = 20.0 * (0.5_f64 / (0.080_645_161 * 0.12)).log10();
    check(&line, "ground-loop", "signal_to_hum", distance, 1e-3);
    // 1 kΩ into 1 MΩ.
    check(&line, "source-load", "loss", 20.0 * 1.001_f64.log10(), 1e-5);
    // A microphone straight in: 200 Ω into 1.5 kΩ.
    let microphone = json!({ "source": "microphone", "microphone_r": 200.0, "box": "none", "lead_length": 0.0,
        "run_length": 0.0, "phantom": "off" });
    let line = report("whole-line", with(keyboard(), microphone.clone()));
    check(&line, "source-load", "loss", 20.0 * (1700.0_f64 / 1500.0).log10(), 1e-5);
    check(&line, "noise-floor", "source_z", 200.0, 1e-3);
    // Two consoles on it: for a calculator of one it is 200 Ω beside 1.5 kΩ, and as much
    // less open.
    let line = report("whole-line", with(keyboard(), with(microphone, json!({ "split": "direct" }))));
    check(&line, "noise-floor", "source_z", 200.0 * 1500.0 / 1700.0, 1e-2);
    // The loop of the run: 30 m and its two contacts are 0.62 Ω, of which the balanced
    // line rejects 59.34 dB.
    let thru = json!({
        "run_r": 0.0, "thru": "earthed", "thru_length": 3.0, "amp_r": 1e6, "amp_c": 0.0, "amp_difference": 0.2,
        "amp_earth_r": 0.3, "phantom": "off", "powered": "battery", "power": "floating"
    });
    let line = report("whole-line", with(keyboard(), thru));
    check(&line, "ground-loop", "shield", 0.62, 1e-6);
    check(&line, "ground-loop", "current", 0.2 / (0.3 + 0.08 + 0.62), 1e-6);
    // A loudspeaker's pad, as an output of 100 Ω a 40 dB down from 10 V.
    let terminals = json!({
        "source": "loudspeaker", "speaker_emf": 10.0, "speaker_r": 0.0, "take_off": 40.0, "take_off_r": 10e3,
        "powered": "battery", "phantom": "off", "box_r": 1e12, "power": "floating", "run_r": 0.0
    });
    let line = report("whole-line", with(keyboard(), terminals));
    let open = 20.0 * (0.1_f64 / 0.6_f64.sqrt()).log10();
    check(&line, "level-chain", "level_source", open, 1e-3);
    check(&line, "noise-floor", "source_z", 10e3 * 0.01 * 0.99, 1.0);
}

/// Legs that float by a transformer are more than a loop: 10 : 1 with its grounds lifted,
/// as in the test of it, is a bridge of 136.04 dB.
#[test]
fn a_lifted_transformer_points_to_its_bridge() {
    let lifted = json!({
        "run_r": 0.0, "box": "passive", "ground": "lifted", "ratio": 10.0, "r1": 0.0, "r2": 0.0, "magnetising": "",
        "core_loss": "", "leakage": 0.0, "c1": 0.0, "c2": 0.0, "winding_c": 100e-12, "phantom": "off"
    });
    let line = report("whole-line", with(keyboard(), lifted));
    let link = line.links.iter().find(|link| link.calculator == "balance").unwrap();
    let values: serde_json::Map<_, _> =
        link.values.iter().map(|(id, text)| ((*id).to_owned(), text.clone().into())).collect();
    let there = report("balance", values.into());
    within("rejection", reading(&there, "rejection"), 136.038_623, 0.01);
    // The whole 0.1 V stands between the earths, for nothing joins them.
    within("hum", reading(&there, "error_level"), 20.0 * (0.1_f64 / 0.6_f64.sqrt()).log10() - 136.038_623, 0.01);
}

/// P48 at 4 mA loses 4 mA·3.4 kΩ = 13.6 V in its feed resistors; 1 km of run with 5 Ω/m
/// a core and 2 Ω/m of shield another 4 mA·4.5 kΩ, which is most of it.
#[test]
fn where_phantom_is_lost() {
    for (length, run_r, shield_r, current, tone, lost, by) in [
        (0.0, 0.16, 0.02, 4e-3, Tone::Fine, "13.6\u{a0}V", "in the feed resistors"),
        (1000.0, 10.0, 2.0, 4e-3, Tone::Trouble, "31.6\u{a0}V", "in the run"),
    ] {
        let values = json!({ "run_length": length, "run_r": run_r, "shield_r": shield_r, "current": current, "lead_length": 0.0 });
        let verdict =
            report("whole-line", with(keyboard(), values)).reading("supply").unwrap().verdict.clone().unwrap();
        assert_eq!(verdict.tone, tone, "{}", verdict.text);
        assert!(verdict.text.contains(&format!("{lost} are lost, mostly {by}")), "{}", verdict.text);
    }
}

/// Straight in on one shield, by hand: 0.1 V through 0.5 Ω of earth, 0.12 Ω of the lead's
/// shield and 0.62 Ω of the run's are 80.65 mA, and all of the 0.74 Ω is in series with
/// the signal; 1.5 kΩ of 2.5 kΩ arrive. A third harmonic of half adds a quarter of the
/// power, and 50 Hz A-weighted are 30.27 dB less (IEC 61672-1, from memory).
#[test]
fn hum_of_an_unbalanced_line() {
    let bare = json!({ "box": "none", "run": "unbalanced", "run_r": 0.0, "phantom": "off" });
    let line = |more: Value| report("whole-line", with(with(keyboard(), bare.clone()), more));
    let dbu = |volts: f64| 20.0 * (volts / 0.6_f64.sqrt()).log10();
    let current = 0.1 / 1.24;
    let earthed = line(json!({}));
    within("current", reading(&earthed, "loop_current"), current, 1e-9);
    within("hum", reading(&earthed, "hum"), dbu(current * 0.74 * 0.6), 1e-6);
    within("lead", reading(&earthed, "hum_lead"), dbu(current * 0.12 * 0.6) - 30.27, 0.01);
    within("run", reading(&earthed, "hum_run"), dbu(current * 0.62 * 0.6) - 30.27, 0.01);
    within("signal", reading(&earthed, "signal_to_hum"), 20.0 * (0.5 / (current * 0.74)).log10() + 30.27, 0.01);
    let harmonic = line(json!({ "harmonic_3": -6.0206 }));
    within("harmonic", reading(&harmonic, "hum") - reading(&earthed, "hum"), 10.0 * 1.25_f64.log10(), 1e-4);
    within("current", reading(&harmonic, "loop_current"), current * 1.25_f64.sqrt(), 1e-6);
    // A supply that leaks 0.25 mA drives as much around whatever is in its way.
    let leaking = line(json!({ "power": "leaking", "leakage_current": 0.25e-3 }));
    within("leaks", reading(&leaking, "loop_current"), 0.25e-3, 1e-8);
    within("hum", reading(&leaking, "hum"), dbu(0.25e-3 * 0.74 * 0.6), 1e-3);
    // What stays of it with another way to earth of 0.74 Ω is half.
    let shared = line(json!({ "power": "leaking", "leakage_current": 0.25e-3, "other_r": 0.74 }));
    within("shared", reading(&shared, "loop_current"), 0.125e-3, 1e-8);
}

/// A balanced output straight in is one shield all the way, none of it in series with the
/// signal; a second console joined to it closes a loop over two runs.
#[test]
fn hum_of_a_balanced_line() {
    let bare = json!({ "source": "balanced", "box": "none", "run_r": 0.0, "phantom": "off" });
    let line = |more: Value| report("whole-line", with(with(keyboard(), bare.clone()), more));
    let earthed = line(json!({}));
    within("current", reading(&earthed, "loop_current"), 0.1 / 1.24, 1e-9);
    assert_eq!(earthed.reading("hum_lead").unwrap().value, None);
    let hum = |line: &Report| reading(line, "hum");
    // Of the voltage along 0.74 Ω, the rejection is left, and the console divides no more
    // of it than the bridge does.
    let along = 20.0 * (0.1 / 1.24 * 0.74 / 0.6_f64.sqrt()).log10();
    assert!(hum(&earthed) < along - reading(&earthed, "rejection") + 1e-9);
    let split = json!({ "power": "floating", "split": "direct", "second_difference": 0.3, "second_earth_r": 0.25 });
    let joined = line(split.clone());
    within("current", reading(&joined, "loop_current"), 0.3 / (0.25 + 0.62 + 0.74), 1e-6);
    let near = line(with(split, json!({ "second_difference": 0.0 })));
    assert_eq!(near.reading("signal_to_hum").unwrap().value, None);
}

/// Readings that miss their limit stand among those to read first, the others further
/// down; each says by what it is held: 5 m and 30 m of unbalanced lead, 1.5 kΩ on 1 kΩ.
#[test]
fn what_misses_is_read_first() {
    let bare = json!({ "box": "none", "run": "unbalanced", "run_r": 0.0, "phantom": "off", "power": "floating" });
    let line = |more: Value| report("whole-line", with(with(keyboard(), bare.clone()), more));
    for (more, id, value, missed, words) in [
        (json!({ "unbalanced_most": 34.0 }), "unbalanced", 35.0, true, "longer than the 34\u{a0}m"),
        (json!({ "unbalanced_most": 36.0 }), "unbalanced", 35.0, false, "within your 36\u{a0}m"),
        (json!({ "load_ratio_least": 1.6 }), "load_ratio", 1.5, true, "1.5\u{a0}kΩ: less than 1.6 times"),
        (json!({ "load_ratio_least": 1.4 }), "load_ratio", 1.5, false, "1.5\u{a0}kΩ: at least 1.4 times"),
    ] {
        let line = line(more.clone());
        let first = line.headline.iter().any(|reading| reading.id == id);
        assert_eq!(first, missed, "{more}");
        within(id, reading(&line, id), value, 1e-6);
        let verdict = line.reading(id).unwrap().verdict.as_ref().unwrap();
        assert!(verdict.text.contains(words), "{more}: {}", verdict.text);
        assert_eq!(verdict.tone == Tone::Trouble, missed, "{more}");
    }
    for (least, tone, words) in
        [(1.6e3, Tone::Trouble, "below the 1.6\u{a0}kΩ"), (1.4e3, Tone::Fine, "1.4\u{a0}kΩ or more")]
    {
        let verdict = line(json!({ "smallest_load": least })).reading("impedance").unwrap().verdict.clone().unwrap();
        assert!(verdict.tone == tone && verdict.text.contains(words), "{least}: {}", verdict.text);
    }
    // Behind a box the run alone is unbalanced, and where it is balanced nothing is.
    let boxed = json!({ "box": "passive", "run": "unbalanced" });
    within("run", reading(&line(boxed), "unbalanced"), 30.0, 1e-9);
    assert!(report("whole-line", keyboard()).reading("unbalanced").is_none());
    // An ideal 10 : 1 is the largest step of its line.
    let ideal = json!({
        "box": "passive", "run": "balanced", "ratio": 10.0, "r1": 0.0, "r2": 0.0, "magnetising": "", "core_loss": "",
        "leakage": 0.0, "c1": 0.0, "c2": 0.0
    });
    let step = line(ideal).reading("level").unwrap().verdict.clone().unwrap().text;
    assert!(step.starts_with("biggest step: ") && step.ends_with("−20.0\u{a0}dB"), "{step}");
}

/// Where most of the hum comes in, by how the run is connected.
#[test]
fn where_hum_comes_in() {
    let by = |more: Value| {
        let line = report(
            "whole-line",
            with(with(keyboard(), json!({ "run_r": 0.0, "phantom": "off", "powered": "battery" })), more),
        );
        line.reading("signal_to_hum").unwrap().verdict.clone().unwrap().text
    };
    let straight =
        |lead: f64, run: f64| json!({ "box": "none", "run": "unbalanced", "lead_length": lead, "run_length": run });
    let lifted = |run: &str| json!({ "box": "passive", "ground": "lifted", "run": run, "lead_length": 0.0 });
    for (more, words) in [
        (straight(5.0, 30.0), "comes in on the shield of the run"),
        (straight(30.0, 5.0), "comes in on the shield of the first lead"),
        (json!({ "lead_length": 0.0 }), "what the balanced run fails to reject"),
        (lifted("balanced"), "of the full voltage between the earths"),
        (lifted("unbalanced"), "through the capacitance between the windings"),
        (with(straight(5.0, 5.0), json!({ "power": "floating", "stray_density": 1e-6 })), "by mains nearby"),
    ] {
        let text = by(more.clone());
        assert!(text.contains(words), "{more}: {text}");
    }
}
