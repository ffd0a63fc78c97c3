//! One rig, asked of the whole line and of each calculator that shows the working
//! of a part of it: the answers agree. They share functions, so that this says that they
//! are put together alike, and that a link is filled in with the rig at hand.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::{ask, reading, report, within};
use serde_json::{Map, Value, json};
use stageohm::calculator::Calculator;
use stageohm::report::Report;

fn agree(calculator: &str, values: Value, line: &Report, pairs: &[(&str, &str)], tolerance: f64) {
    let single = report(calculator, values);
    for (of_line, of_single) in pairs {
        let name = format!("{calculator}: {of_line}");
        within(&name, reading(line, of_line), reading(&single, of_single), tolerance);
    }
}

/// A pickup straight into an input, and through an active box: its resonance,
/// corner and level at 5 kHz.
#[test]
fn tone_with_pickup() {
    let pickup = json!({ "coil_l": 4.0, "coil_r": 8e3, "volume_r": 500e3, "tone_turn": 0.9, "lead_length": 6.0, "load_r": 1e6, "load_c": 50e-12 });
    let mut straight = pickup.clone();
    for id in ["load_r", "load_c"] {
        straight.as_object_mut().unwrap().remove(id);
    }
    let mut boxed = straight.clone();
    for (id, value) in [
        ("box", json!("none")),
        ("run_length", json!(0.0)),
        ("phantom", json!("off")),
        ("console_r", json!(1e6)),
        ("console_c", json!(50e-12)),
        ("console_noise", json!("densities")),
    ] {
        straight[id] = value;
    }
    let line = report("whole-line", straight);
    let pairs = [
        ("peak", "peak"),
        ("peak_height", "peak_height"),
        ("high_corner", "high_corner"),
        ("level_1k", "level_1k"),
        ("level_treble", "level_at"),
    ];
    agree("pickup", pickup.clone(), &line, &pairs, 1e-9);
    // Behind a box without noise of its own or loss the same; the console's
    // capacitance on 200 Ω and the run move it by less than a thousandth.
    boxed["run_length"] = json!(0.0);
    boxed["console_c"] = json!(0.0);
    let line = report("whole-line", boxed);
    agree(
        "pickup",
        pickup,
        &line,
        &[("peak", "peak"), ("peak_height", "peak_height"), ("high_corner", "high_corner")],
        1e-6,
    );
}

/// With its controls full up, what the line loses is what the pickup is darker by than at
/// its own best, at every length and load.
#[test]
fn tone_lost_with_pickup() {
    for length in [0.0, 3.0, 12.0, 30.0] {
        for load in [10e3, 100e3, 1e6] {
            let pickup = json!({ "lead_length": length, "load_r": load, "load_c": 50e-12 });
            let line = json!({
                "lead_length": length, "box": "none", "run": "unbalanced", "run_length": 0.0, "phantom": "off",
                "console_r": load, "console_c": 50e-12, "console_noise": "densities"
            });
            agree("pickup", pickup, &report("whole-line", line), &[("loss", "tone_loss")], 1e-9);
        }
    }
}

/// The rigs of level and noise: every box, a pad, and no run.
fn boxes() -> Vec<Value> {
    let common =
        json!({ "emf": 0.5, "crest": 14.0, "source_r": 2e3, "lead_length": 4.0, "console_r": 2e3, "headroom": 5.0 });
    [
        json!({ "box": "none" }),
        json!({ "box": "passive", "ratio": 10.0, "lowest": 60.0 }),
        json!({ "box": "active", "box_gain": -10.0, "box_en": 20e-9 }),
    ]
    .into_iter()
    .map(|more| merge(&common, &more))
    .collect()
}

fn merge(a: &Value, b: &Value) -> Value {
    let mut all: Map<String, Value> = a.as_object().unwrap().clone();
    all.extend(b.as_object().unwrap().clone());
    Value::Object(all)
}

/// What of a whole line the single calculator asks for too.
fn of_calculator(calculator: &str, values: &Value) -> Value {
    let known = Calculator::find(calculator).unwrap();
    let values = values.as_object().unwrap().iter().filter(|(id, _)| known.field(id).is_some());
    Value::Object(values.map(|(id, value)| (id.clone(), value.clone())).collect())
}

/// An output on no run, phantom off.
fn output(values: &Value) -> Value {
    merge(values, &json!({ "source": "output", "run_length": 0.0, "phantom": "off" }))
}

#[test]
fn level_with_level_chain() {
    for rig in boxes() {
        for pad in [0.0, 10.0] {
            let rig = merge(&rig, &json!({ "pad": pad }));
            let line = report("whole-line", output(&rig));
            // The single one goes on to the converter: nothing clips there.
            let far = json!({ "gain": 0.0, "gain_clip": 60.0, "alignment": "own", "full_scale": 60.0 });
            let chain = merge(&of_calculator("level-chain", &rig), &far);
            agree("level-chain", chain, &line, &[("level", "level_console_input"), ("margin", "margin")], 1e-9);
        }
    }
}

#[test]
fn noise_with_noise_floor() {
    for rig in boxes() {
        let line = report("whole-line", output(&rig));
        let single = merge(&of_calculator("noise-floor", &rig), &json!({ "source": "output" }));
        let pairs =
            [("noise", "noise"), ("noise_a", "noise_a"), ("snr", "snr"), ("snr_a", "snr_a"), ("level", "signal")];
        agree("noise-floor", single, &line, &pairs, 1e-9);
    }
    // The other sources, straight in.
    for source in ["pickup", "piezo", "microphone"] {
        let rig = json!({ "source": source, "box": "active", "lead_length": 4.0 });
        let line = report("whole-line", merge(&rig, &json!({ "run_length": 0.0 })));
        agree("noise-floor", rig, &line, &[("noise", "noise"), ("snr", "snr")], 1e-9);
    }
}

/// The distance from noise in the three calculators that give it, of one rig with
/// these more values; `gain` is that of the level chain.
fn distances(more: &Value, gain: f64) -> [(&'static str, Report); 3] {
    let rig = merge(
        &json!({ "emf": 0.1, "crest": 15.0, "source_r": 1e3, "lead_length": 0.0, "box": "none", "console_r": 10e3,
            "console_c": 0.0, "ein": -128.0, "ein_r": 150.0, "console_in": 0.0, "output_noise": -95.0 }),
        more,
    );
    let of = |calculator| report(calculator, merge(&of_calculator(calculator, &rig), &json!({ "source": "output" })));
    let chain = merge(&of_calculator("level-chain", &rig), &json!({ "gain": gain }));
    let line = report("whole-line", output(&rig));
    [("whole line", line), ("noise floor", of("noise-floor")), ("level chain", report("level-chain", chain))]
}

/// An input of 10 kΩ on 1 kΩ by hand: 4·k·T·R of the source behind the divider; an EIN
/// of −128 dBu at 150 Ω without the 4·k·T·R of those, behind the divider of both; −95 dBu
/// behind the gain; and a converter of 110 dB under +18 dBu (EBU R 68, 0 dBu at
/// −18 dBFS). All add as powers; dBu are 10·log10 of V²/0.6.
#[test]
fn one_distance_from_noise() {
    let thermal = |r: f64| 4.0 * 1.380_649e-23 * 293.15 * r * 19_980.0;
    let square = |dbu: f64| 0.6 * 10_f64.powf(dbu / 10.0);
    let dbu = |square: f64| 10.0 * (square / 0.6).log10();
    let level = dbu((0.1 * 10.0_f64 / 11.0).powi(2));
    let source = thermal(1e3) * (10.0_f64 / 11.0).powi(2);
    let input = (square(-128.0) - thermal(150.0)) * (10e3_f64 / 10_150.0).powi(2);
    let by_hand = |gain: f64| level - dbu(source + input + square(-95.0 - gain) + square(18.0 - 110.0 - gain));
    // At full gain the input makes it, at none what is behind it: 28 dB more.
    within("full gain", by_hand(60.0), level - dbu(source + input), 0.01);
    within("no gain", by_hand(0.0), level - dbu(square(-95.0) + square(-92.0)), 0.01);
    for gain in [0.0, 20.0, 60.0] {
        for (name, report) in distances(&json!({ "console_gain": gain }), gain) {
            within(&format!("{name} at {gain} dB"), reading(&report, "snr"), by_hand(gain), 1e-4);
        }
    }
    // Left open, it is the gain that keeps 6 dB under full scale: a sine has its peaks
    // 3.01 dB over its level.
    let gain = 18.0 - 6.0 - (level + 15.0 - 10.0 * 2_f64.log10());
    for (name, report) in distances(&json!({}), gain) {
        within(name, reading(&report, "snr"), by_hand(gain), 1e-4);
    }
}

/// Whoever follows a link from one to another is told the same, whatever is set.
#[test]
fn links_keep_the_distance_from_noise() {
    let own = json!({ "console_gain": 3.0, "gain_clip": 30.0, "alignment": "own", "full_scale": 22.0, "range": 100.0 });
    for more in [json!({}), json!({ "console_gain": 12.0, "alignment": "rp155" }), own] {
        for (from, report) in distances(&more, 12.0) {
            let mut followed = 0;
            for link in &report.links {
                let filled: std::collections::BTreeMap<_, _> = link.values.iter().cloned().collect();
                if !["noise-floor", "level-chain"].contains(&link.calculator) {
                    continue;
                }
                let to = common::report(link.calculator, json!(filled));
                let name = format!("{more}: {from} to {}", link.calculator);
                within(&name, reading(&to, "snr"), reading(&report, "snr"), 0.01);
                followed += 1;
            }
            assert!(followed > 0, "{from}");
        }
    }
}

/// Every source, every box, with and without a run and a pad, in the three: one distance
/// from noise, whether the rig is typed in or a link is followed.
#[test]
fn every_source_has_one_distance_from_noise() {
    for source in ["pickup", "piezo", "output", "balanced", "microphone", "loudspeaker"] {
        for boxed in ["none", "passive", "active"] {
            for more in [json!({}), json!({ "run_length": 60.0, "pad": 10.0 })] {
                if source == "loudspeaker" && boxed == "none" {
                    continue;
                }
                let rig = merge(&json!({ "source": source, "box": boxed, "lead_length": 6.0 }), &more);
                followed(&merge(&rig, &json!({ "run_length": more["run_length"].as_f64().unwrap_or(0.0) })), 0.02);
            }
        }
    }
}

/// A second console and an amplifier on the thru too.
#[test]
fn a_split_or_a_thru_has_one_distance_from_noise() {
    for split in ["direct", "transformer"] {
        followed(&json!({ "source": "microphone", "box": "none", "split": split }), 0.05);
    }
    for source in ["output", "pickup", "piezo"] {
        for boxed in ["passive", "active"] {
            followed(&json!({ "source": source, "box": boxed, "thru": "same", "thru_length": 6.0 }), 0.02);
        }
    }
}

/// Follows the links of a whole line to its noise and its levels, which say as it does how
/// far the signal is from noise, within so many dB.
fn followed(rig: &Value, tolerance: f64) {
    let line = report("whole-line", rig.clone());
    for calculator in ["noise-floor", "level-chain"] {
        let link = line.links.iter().find(|link| link.calculator == calculator).unwrap();
        let filled: std::collections::BTreeMap<_, _> = link.values.iter().cloned().collect();
        let single = report(calculator, json!(filled));
        within(&format!("{rig}: {calculator}"), reading(&single, "snr"), reading(&line, "snr"), tolerance);
    }
}

/// What clips behind a gain that is set is seen in the whole line too.
#[test]
fn a_gain_that_clips() {
    for gain in [10.0, 40.0] {
        let [(_, line), _, (_, chain)] = distances(&json!({ "console_gain": gain }), gain);
        within("margin", reading(&line, "margin"), reading(&chain, "margin"), 1e-9);
    }
}

/// Leads of pure shield: the signal's way is the same at every frequency, as a
/// ground loop takes it to be.
const FLAT: &str = r#"{ "lead_c": 0.0, "lead_r": 0.0, "lead_l": 0.0, "run_c": 0.0, "run_r": 0.0, "run_l": 0.0, "console_c": 0.0,
    "leg_c": 0.0, "c_imbalance": 0.0, "phantom": "off", "source": "output", "emf": 0.5, "mains": "60",
    "stray_density": 0.0, "stray_c": 0.0 }"#;

#[test]
fn hum_with_ground_loop() {
    let flat: Value = serde_json::from_str(FLAT).unwrap();
    let to_hum = [("signal_to_hum", "signal_to_hum_a")];
    // Straight in, unbalanced: all of the shield counts.
    let rig = json!({ "power": "earthed", "box": "none", "run": "unbalanced", "run_length": 0.0, "lead_length": 20.0 });
    let single = json!({ "lead_length": 20.0, "signal": 0.5, "mains": "60" });
    agree("ground-loop", single, &report("whole-line", merge(&flat, &rig)), &to_hum, 1e-9);
    // A leaking supply, the same way.
    let rig = merge(&rig, &json!({ "power": "leaking", "leakage_current": 0.2e-3 }));
    let single = json!({ "cause": "leakage", "leakage": 0.2e-3, "lead_length": 20.0, "signal": 0.5, "mains": "60" });
    agree("ground-loop", single, &report("whole-line", merge(&flat, &rig)), &to_hum, 1e-9);
    // A balanced output on a balanced run: the rejection is that of the balance
    // calculator, with the half of the legs' 1 kΩ in each.
    let rig =
        json!({ "source": "balanced", "power": "earthed", "box": "none", "lead_length": 0.0, "run_length": 30.0 });
    let line = report("whole-line", merge(&flat, &rig));
    let balance = json!({ "leg_r": 500.0, "leg_c": 0.0, "c_imbalance": 0.0, "mains": "60" });
    agree("balance", balance, &line, &[("rejection", "rejection")], 1e-9);
    let rejection = reading(&line, "rejection");
    let single =
        json!({ "connection": "balanced", "rejection": rejection, "lead_length": 30.0, "signal": 0.5, "mains": "60" });
    agree("ground-loop", single, &line, &[("signal_to_hum", "signal_to_hum_a"), ("loop_current", "current")], 1e-9);
    // The worst sides of all that is out of balance are the same in both, though the
    // capacitances count as much as the resistances here.
    let far = json!({ "leg_c": 10e-9, "c_imbalance": 4e-9, "input_r": 1e6, "imbalance": 30.0 });
    let line = report("whole-line", merge(&merge(&flat, &rig), &far));
    let balance = merge(&json!({ "leg_r": 500.0, "mains": "60" }), &far);
    agree("balance", balance, &line, &[("rejection", "rejection")], 1e-9);
    // A transformer with nothing metallic across into an unbalanced input.
    let rig = json!({
        "power": "earthed", "box": "passive", "ground": "lifted", "run": "unbalanced", "ratio": 1.0, "r1": 0.0, "r2": 0.0,
        "magnetising": "", "core_loss": "", "leakage": 0.0, "c1": 0.0, "console_r": 10e3, "lead_length": 5.0
    });
    let line = report("whole-line", merge(&flat, &rig));
    let circuit_r = 1e3 * 10e3 / 11e3;
    let signal = 0.5 * 10.0 / 11.0 / (10.0 / 11.0);
    let single = json!({
        "connection": "isolated", "circuit_r": circuit_r, "lead_length": 30.0, "signal": signal, "mains": "60"
    });
    // The first lead's shield stands in that loop too, here 0.12 Ω of 30 MΩ,
    // and what falls along it is a thousandth of the hum.
    agree("ground-loop", single, &line, &to_hum, 0.01);
}

#[test]
fn supply_with_phantom() {
    for (on, current, length) in [("p48", 7e-3, 80.0), ("p24", 3e-3, 10.0), ("p12", 5e-3, 40.0)] {
        let line = report(
            "whole-line",
            json!({ "phantom": on, "current": current, "least": 5.0, "run_length": length, "run_r": 0.2 }),
        );
        let single = json!({ "supply": on, "current": current, "least": 5.0, "lead_length": length, "core_r": 0.1 });
        agree("phantom", single, &line, &[("supply", "voltage")], 1e-9);
    }
}

/// Every link of every preset, followed: the calculator behind it answers, and
/// says what the whole line says, as near as a ground loop leaves out the shape of the
/// response.
#[test]
fn links_prove_what_is_said() {
    let calculator = Calculator::find("whole-line").unwrap();
    let fillings =
        calculator.presets.iter().flat_map(|preset| std::iter::once(preset.values).chain(preset.held.iter().copied()));
    for filling in fillings {
        let values: std::collections::BTreeMap<_, _> = filling.iter().copied().collect();
        let line = report("whole-line", json!(values));
        for link in &line.links {
            let filled: std::collections::BTreeMap<_, _> = link.values.iter().cloned().collect();
            let answer = ask(json!({ "calculator": link.calculator, "values": filled }));
            let wrong: Vec<_> = answer.fields.iter().filter(|(_, echo)| echo.problem.is_some()).collect();
            assert!(answer.problems.is_empty() && wrong.is_empty(), "{filling:?} {}: {wrong:?}", link.calculator);
            let single = answer.report.unwrap();
            let said = |id: &str| line.reading(id).and_then(|reading| reading.value);
            let proof = |id: &str| single.reading(id).and_then(|reading| reading.value);
            let pair = match link.calculator {
                "noise-floor" => (said("snr"), proof("snr"), 0.02),
                // The loop that gives most of it, beside what the mains around puts in.
                "ground-loop" => {
                    let volts = |level: f64| 10_f64.powf(level / 20.0);
                    let most = [said("hum_lead"), said("hum_run")].into_iter().flatten().reduce(f64::max);
                    let both = [most, said("hum_stray")].into_iter().flatten().map(volts).reduce(|a, b| a + b);
                    let distance = both.map(|both| said("level").unwrap() - 20.0 * both.log10());
                    (distance, proof("signal_to_hum_a"), 0.3)
                }
                // One component at the mains frequency, where the run gives most.
                "balance" => (said("rejection"), proof("rejection"), 0.1),
                "level-chain" => (said("level"), proof("level_console_input"), 0.02),
                "phantom" => (said("supply"), proof("voltage"), 1e-3),
                _ => continue,
            };
            match pair {
                (Some(said), Some(proof), tolerance) => {
                    let name = format!("{filling:?} {}", link.calculator);
                    within(&name, said, proof, tolerance);
                }
                (said, proof, _) => assert_eq!(said.is_some(), proof.is_some(), "{filling:?} {}", link.calculator),
            }
        }
    }
}

/// The link of tone makes one load of all that follows the first lead: exact at
/// its frequency, whatever stands there.
#[test]
fn the_link_of_tone_is_exact() {
    for more in [
        json!({ "box": "none" , "phantom": "off" }),
        json!({ "box": "none", "phantom": "off", "run": "unbalanced", "run_length": 10.0, "console_r": 10e3 }),
        json!({ "source": "piezo", "box": "none", "phantom": "off" }),
        json!({ "source": "output", "box": "none", "phantom": "off" }),
    ] {
        let line = report(
            "whole-line",
            merge(&json!({ "bass": 5e3, "lead_r": 0.0, "lead_l": 0.0, "run_r": 0.0, "run_l": 0.0 }), &more),
        );
        let link = line.links.iter().find(|link| matches!(link.calculator, "pickup" | "source-load")).unwrap();
        let filled: std::collections::BTreeMap<_, _> = link.values.iter().cloned().collect();
        let single = report(link.calculator, json!(filled));
        let level = if link.calculator == "pickup" { reading(&single, "level_at") } else { -reading(&single, "loss") };
        // Six digits are written into a link.
        within(&more.to_string(), reading(&line, "level_treble"), level, 2e-5);
    }
}
