//! Readings beside the answer against closed forms, each worked by hand from the values
//! of its rig.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

mod common;

use common::{report, within};
use serde_json::{Value, json};
use stageohm::Complex64;
use std::f64::consts::TAU;

#[track_caller]
fn readings(calculator: &str, values: Value, expected: &[(&str, f64, f64)]) {
    let report = report(calculator, values);
    for (id, expected, tolerance) in expected {
        within(&format!("{calculator} {id}"), common::reading(&report, id), *expected, *tolerance);
    }
}

fn decibels(ratio: f64) -> f64 {
    20.0 * ratio.log10()
}

/// The A-weighting at 50 Hz, dB: its formula in IEC 61672-1, from memory.
const A_AT_50_HZ: f64 = -30.27;

/// 0 dBu in V.
fn reference() -> f64 {
    0.6_f64.sqrt()
}

/// 10 Ω in one leg into 10 kΩ: 1/1001 of 0.1 V.
#[test]
fn balance() {
    let values = json!({
        "legs": "each", "leg_hot": 10.0, "leg_cold": 0.0, "input_r": 10e3, "input_spread": 0.0, "leg_c": 0.0,
        "c_imbalance": 0.0, "difference": 0.1
    });
    readings(
        "balance",
        values,
        &[
            ("error_level", decibels(0.1 / 1001.0 / reference()), 1e-6),
            ("imbalance_z", 10.0, 1e-9),
            ("input_z", 10e3, 1e-6),
            ("rejection_signal", decibels(1001.0) - decibels(2.0 * 1.0) + decibels(1.0 + 1000.0 / 1001.0), 1e-6),
        ],
    );
}

/// Half of 0.1 V on a shield as large as the path of the earth, A-weighted, whatever is
/// plugged in behind it.
#[test]
fn ground_loop() {
    for connection in ["unbalanced", "balanced", "isolated"] {
        let values = json!({
            "difference": 0.1, "earth_r": 0.5, "inductance": 0.0, "lead_length": 10.0, "shield_r": 0.048,
            "contact_r": 0.01, "connection": connection, "other_hum": "", "harmonic_2": "", "harmonic_3": "",
            "harmonic_5": "", "harmonic_7": "", "harmonic_9": "", "harmonic_11": ""
        });
        readings(
            "ground-loop",
            values,
            &[("hum_unbalanced", decibels(0.05 / reference()) + A_AT_50_HZ, 0.01), ("shield", 0.5, 1e-9)],
        );
    }
}

/// 10 kΩ on 100 pF/m at 10 kHz, and on the 5 m that an instrument lead should not be
/// longer than (common practice, no source); a coil of 2.5 H on its own 110 pF.
#[test]
fn lead_length() {
    let values = json!({
        "source": "unbalanced", "source_r": 10e3, "load_r": 1e12, "load_c": 0.0, "lead_c": 100e-12, "lead_r": 0.0,
        "lead_l": 0.0, "frequency": 10e3, "lead_length": 12.0
    });
    let ratio = TAU * 10e3 * 10e3 * 500e-12;
    readings(
        "lead-length",
        values,
        &[
            ("capacitance", 1.2e-9, 1e-18),
            ("practice", 5.0, 1e-12),
            ("loss_practice", 10.0 * (1.0 + ratio * ratio).log10(), 1e-7),
        ],
    );
    let pickup = json!({ "coil_l": 2.5, "coil_c": 110e-12, "coil_r": 6.5e3, "instrument_r": 1e12, "volume_r": "", "tone_c": "" });
    let free = 1.0 / (TAU * (2.5_f64 * 110e-12).sqrt());
    readings("lead-length", pickup, &[("resonance_bare", free, 1e-3 * free)]);
}

/// EBU R 68: 0 dBFS is +18 dBu. +4 dBu with 12 dB of crest are −14 dBFS, a sine of the
/// same peak −5.01 dBFS.
#[test]
fn levels_and_full_scale() {
    let chain = json!({
        "source": "output", "source_r": 0.0, "lead_length": 0.0, "box": "none", "console_r": 1e6, "console_c": 0.0,
        "gain": 0.0, "emf": "+4 dBu", "crest": 12.0, "alignment": "r68"
    });
    readings("level-chain", chain, &[("full_scale_level", 18.0, 1e-9), ("peak_dbfs", -5.0103, 1e-4)]);
    let levels = json!({ "level": "+4 dBu", "alignment": "r68", "crest": 12.0 });
    readings(
        "levels",
        levels,
        &[
            ("full_scale_level", 18.0, 1e-9),
            ("dbv", 4.0 - 2.2185, 1e-4),
            ("dbfs", -14.0, 1e-9),
            ("peak_level", -5.0103, 1e-4),
            ("volts_peak", 1.227_653 * 10_f64.powf(0.6), 1e-4),
            ("volts_peak_to_peak", 2.0 * 1.227_653 * 10_f64.powf(0.6), 1e-4),
        ],
    );
}

/// 1 kΩ into 1 kΩ that makes no noise: half of its 4·k·T·R, which referred to the open
/// source is all of it again; white noise A-weighted is 2.048 dB less (IEC 61672-1).
#[test]
fn noise_floor() {
    let values = json!({
        "source": "output", "source_r": 1e3, "emf": 0.2, "lead_length": 0.0, "box": "none", "console_r": 1e3,
        "console_c": 0.0, "console_noise": "densities", "console_en": 0.0, "console_in": 0.0, "range": "", "output_noise": ""
    });
    let noise = decibels(5.687_407e-7 / reference());
    readings(
        "noise-floor",
        values,
        &[
            ("source_z", 1e3, 1e-9),
            ("gain", decibels(0.5), 1e-9),
            ("referred", noise, 1e-5),
            ("noise", noise + decibels(0.5), 1e-5),
            ("snr_a", decibels(0.2 / 5.687_407e-7) + 2.048_27, 1e-3),
        ],
    );
}

/// A matched pad of 20 dB and 600 Ω at 1 V: 50 mV over the noise of 150 Ω.
#[test]
fn pad() {
    let values =
        json!({ "design": "matched", "form": "t", "loss": 20.0, "source_r": 600.0, "load_r": 600.0, "emf": "1 V" });
    let noise = (4.0 * 1.380_649e-23 * 293.15 * 150.0 * 19_980.0_f64).sqrt();
    readings(
        "pad",
        values,
        &[("signal_to_noise", decibels(0.05 / noise), 1e-6), ("noise_all", decibels(noise / reference()), 1e-6)],
    );
}

/// P48, 48 V ± 4 behind 3.4 kΩ (IEC 61938, from memory), on 30 m of 0.1 Ω/m a core and
/// 0.02 Ω/m of shield: 2.1 Ω of lead.
#[test]
fn phantom() {
    let values = json!({
        "supply": "p48", "lead_length": 30.0, "core_r": 0.1, "shield_r": 0.02, "current": 4e-3, "least": 20.0
    });
    readings(
        "phantom",
        values,
        &[
            ("lead_drop", 8.4e-3, 1e-12),
            ("most_current", 28.0 / 3402.1, 1e-12),
            ("voltage_lowest", 44.0 - 4e-3 * 3402.1, 1e-9),
            ("power", 4e-3 * (48.0 - 4e-3 * 3402.1), 1e-9),
        ],
    );
}

/// 2.5 H, 6.5 kΩ and 500 pF in all into 1 MΩ, without controls: the RLC divider.
#[test]
fn pickup() {
    let values = json!({
        "volume": "none", "tone": "none", "coil_l": 2.5, "coil_r": 6.5e3, "coil_c": 110e-12, "load_r": 1e6, "load_c": 0.0,
        "lead_length": 3.9, "lead_c": 100e-12, "lead_r": 0.0, "lead_l": 0.0, "frequency": 5e3
    });
    let coil = |f: f64| Complex64::new(6.5e3, TAU * f * 2.5);
    let level = |f: f64| -decibels((1.0 + coil(f) * Complex64::new(1e-6, TAU * f * 500e-12)).norm());
    let source = 1.0 / (1.0 / coil(1e3) + Complex64::new(0.0, TAU * 1e3 * 500e-12));
    readings(
        "pickup",
        values.clone(),
        &[
            ("level_1k", level(1e3), 1e-6),
            ("level_at", level(5e3), 1e-6),
            ("change_at", level(5e3) - level(1e3), 1e-6),
            ("impedance_1k", source.norm(), 1e-3),
        ],
    );
    // Two coils that cancel each other are told; one alone and two that add are not.
    let warns = |more: Value| {
        let mut values = values.clone();
        values.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        report("pickup", values).warnings.iter().any(|warning| warning.contains("mostly cancel"))
    };
    assert!(warns(json!({ "coils": "series", "coupling": 0.0, "phase": "out" })));
    assert!(!warns(json!({ "coils": "series", "coupling": 0.0, "phase": "in" })));
    assert!(!warns(json!({})));
}

/// 1 V and 1 kΩ into 1 kΩ: half of it, −3.80 dBu; 159.2 nF across the load are as much at
/// 1 kHz, 707 Ω together.
#[test]
fn source_and_load() {
    let values = json!({ "emf": "1 V", "source_r": 1e3, "load_r": 1e3, "source_l": 0.0, "source_c": 0.0, "load_c": 0.0, "frequency": 1e3 });
    readings("source-load", values, &[("level_dbu", decibels(0.5 / reference()), 1e-9), ("z_load", 1e3, 1e-9)]);
    let values = json!({ "source_r": 1e3, "load_r": 1e3, "load_c": 1.0 / (TAU * 1e6), "frequency": 1e3 });
    readings("source-load", values, &[("z_load", 1e3 / 2_f64.sqrt(), 1e-6)]);
}

/// 10 kΩ on 10 : 1 with 400 Ω and 4 Ω of winding, 10 H and 100 kΩ of core, into 1 kΩ:
/// what lies beside the inductance is 10.4 kΩ, 100.4 kΩ and 100 kΩ.
#[test]
fn transformer() {
    let values = json!({
        "source_r": 10e3, "ratio": 10.0, "load_r": 1e3, "r1": 400.0, "r2": 4.0, "magnetising": 10.0, "core_loss": 100e3,
        "leakage": 0.0, "c1": 0.0, "c2": 0.0, "lead_length": 0.0, "load_c": 0.0, "largest": 20.0
    });
    let beside = 1.0 / (1.0 / 10.4e3 + 1.0 / 100.4e3 + 1.0 / 100e3);
    let corner = beside / (TAU * 10.0);
    // On the primary's terminals, behind 400 Ω, at f: the inductance beside the rest.
    let from_primary = |f: f64| {
        let y = Complex64::new(1.0 / 100.4e3 + 1.0 / 100e3, -1.0 / (TAU * f * 10.0));
        decibels((1.0 / (1.0 + 400.0 * y)).norm() * 0.1 * 1e3 / 1004.0)
    };
    readings(
        "transformer",
        values,
        &[
            ("low_estimate", corner, 1e-9 * corner),
            ("low_corner", corner, 0.01 * corner),
            ("reflected_source", 100.0, 1e-9),
            ("reflected_load", 100e3, 1e-6),
            ("ideal_level", -20.0, 1e-9),
            ("largest_20", 20.0, 1e-9),
            ("largest_20_load", 20.0 + from_primary(20.0), 1e-6),
            ("largest_40_load", 20.0 + decibels(2.0) + from_primary(40.0), 1e-6),
            ("largest_80_load", 20.0 + decibels(4.0) + from_primary(80.0), 1e-6),
        ],
    );
}

/// 1 kΩ straight into 1.5 kΩ with nothing but resistances: a divider, white noise, 17 dB
/// of gain, and what 0.3 µT through 0.1 mm and 12 m of lead put in at 50 Hz.
#[test]
fn whole_line() {
    let values = json!({
        "source": "output", "emf": 0.5, "source_r": 1e3, "power": "floating", "box": "none", "run": "unbalanced",
        "phantom": "off", "lead_length": 12.0, "lead_c": 0.0, "lead_r": 0.0, "lead_l": 0.0, "run_length": 0.0,
        "console_r": 1500.0, "console_c": 0.0, "console_gain": 17.0, "range": "", "output_noise": "",
        "stray_density": 0.3e-6, "stray_c": 0.0, "harmonic_2": "", "harmonic_3": "", "harmonic_5": "",
        "harmonic_7": "", "harmonic_9": "", "harmonic_11": ""
    });
    let answer = report("whole-line", values.clone());
    let snr = common::reading(&answer, "snr");
    let stray = TAU * 50.0 * 0.3e-6 * 0.1e-3 * 12.0 * 0.6;
    readings(
        "whole-line",
        values,
        &[
            ("level_change", decibels(0.6), 1e-6),
            ("level", decibels(0.3 / reference()), 1e-6),
            ("input_gain", 17.0, 1e-9),
            ("snr_a", snr + 2.048_27, 1e-3),
            ("hum", decibels(stray / reference()), 1e-3),
            ("hum_stray", decibels(stray / reference()) + A_AT_50_HZ, 0.01),
        ],
    );
}

/// The T of 10 dB and 600 Ω in E24 (IEC 60063): 300, 430 and 300 Ω for 311.7 and
/// 421.6 Ω. What it sends back is 20·log10 of sum over difference; and behind the exact
/// one of 20 dB stands a source of 600 Ω and a tenth of the e.m.f.
#[test]
fn pad_at_its_ends() {
    let values = |loss: f64| json!({ "design": "matched", "form": "t", "loss": loss, "source_r": 600.0, "load_r": 600.0, "emf": "1 V" });
    let z = 300.0 + 1.0 / (1.0 / 430.0 + 1.0 / 900.0);
    readings(
        "pad",
        json!({ "design": "matched", "form": "t", "legs": "unbalanced", "loss": 10.0, "source_r": 600.0, "load_r": 600.0 }),
        &[
            ("z_in_e24", z, 1e-9),
            ("z_out_e24", z, 1e-9),
            ("return_loss_e24", decibels((600.0 + z) / (600.0 - z)), 1e-9),
        ],
    );
    let answer = report("pad", values(20.0));
    let link = answer.links.iter().find(|link| link.calculator == "source-load").unwrap();
    let there: serde_json::Map<_, _> = link.values.iter().map(|(id, text)| ((*id).to_owned(), json!(text))).collect();
    readings(
        "source-load",
        there.into(),
        &[("level", 0.05, 1e-6), ("z_source", 600.0, 1e-3), ("loss", decibels(2.0), 1e-5)],
    );
}
