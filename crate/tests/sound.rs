//! What can be heard of an answer is what its readings say.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::report;
use serde_json::json;
use stageohm::network::a_weighting;
use stageohm::report::{Report, RigSound};

fn sound(report: &Report) -> &RigSound {
    report.sound.as_ref().unwrap()
}

/// All lines together, dB re the signal, with a weighting in dB.
fn together(sound: &RigSound, weighting: impl Fn(f64) -> f64) -> f64 {
    10.0 * sound.hum.iter().map(|line| 10_f64.powf((line.db + weighting(line.hz)) / 10.0)).sum::<f64>().log10()
}

fn near(got: Option<f64>, wanted: f64) {
    assert!(got.is_some_and(|got| (got - wanted).abs() < 1e-9), "{got:?} {wanted}");
}

fn value(report: &Report, id: &str) -> f64 {
    report.reading(id).unwrap().value.unwrap()
}

#[test]
fn of_a_ground_loop() {
    let report = report("ground-loop", json!({}));
    let sound = sound(&report);
    assert!(sound.hum.len() > 1 && sound.hum[0].hz == 50.0 && sound.noise.is_none() && sound.headroom.is_none());
    near(Some(-together(sound, |_| 0.0)), value(&report, "signal_to_hum"));
    near(Some(-together(sound, a_weighting)), value(&report, "signal_to_hum_a"));
}

#[test]
fn of_a_whole_line() {
    let report = report("whole-line", json!({}));
    let sound = sound(&report);
    near(sound.noise, -value(&report, "snr"));
    near(sound.headroom, value(&report, "margin"));
    near(Some(-together(sound, a_weighting)), value(&report, "signal_to_hum"));
}

#[test]
fn of_noise_and_levels() {
    let noise = report("noise-floor", json!({}));
    near(sound(&noise).noise, -value(&noise, "snr"));
    // It is that of 20 Hz to 20 kHz, whatever band is asked for.
    let narrow = report("noise-floor", json!({ "band_from": 1e3, "band_to": 2e3 }));
    near(sound(&narrow).noise, -value(&noise, "snr"));
    let levels = report("level-chain", json!({}));
    near(sound(&levels).noise, -value(&levels, "snr"));
    near(sound(&levels).headroom, value(&levels, "margin"));
    let pad = report("pad", json!({}));
    near(sound(&pad).noise, -value(&pad, "signal_to_noise"));
    assert!([noise, levels, pad].iter().all(|report| sound(report).hum.is_empty()));
}

/// Where no calculator knows of any, nothing is said.
#[test]
fn of_nothing() {
    assert!(report("pickup", json!({})).sound.is_none());
}
