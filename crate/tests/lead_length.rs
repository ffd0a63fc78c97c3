//! Lead and line length against closed forms and values computed elsewhere.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use serde_json::{Value, json};
use stageohm::report::{Report, Tone};

#[track_caller]
fn report(values: &Value) -> Report {
    common::report("lead-length", values.clone())
}

#[track_caller]
fn reading(values: &Value, id: &str) -> Option<f64> {
    report(values).reading(id).unwrap_or_else(|| panic!("no reading {id}")).value
}

#[track_caller]
fn near(values: &Value, id: &str, expected: f64, tolerance: f64) {
    let got = reading(values, id).unwrap_or_else(|| panic!("{id} has no value"));
    assert!((got - expected).abs() <= tolerance, "{id}: {got} is not {expected} within {tolerance}");
}

/// 600 m of 100 pF/m, 0.1 Ω/m and 0.6 µH/m driven by 150 Ω, open end: computed
/// from the closed form in plain Python, double precision. The pair has 50 pF/m
/// between its cores and 100 pF/m from each to the shield.
#[test]
fn the_line_of_600_m() {
    let line = |r: &str, l: &str| {
        json!({ "source": "balanced", "source_r": 150, "load_r": 1e12, "lead_length": "600 m",
                "core_c": "50 pF/m", "shield_c": "100 pF/m", "lead_r": r, "lead_l": l })
    };
    near(&line("0.1", "0.6"), "loss_10k", 1.2068, 5e-5);
    near(&line("0.1", "0.6"), "loss_20k", 3.4037, 5e-5);
    near(&line("0", "0.6"), "loss_20k", 2.6389, 5e-5);
    near(&line("0", "0"), "loss_20k", 3.5776, 5e-5);
    // 1/(2π·150 Ω·60 nF), 3 dB under what the line passes far below it.
    near(&line("0", "0"), "high_corner", 17_683.9, 0.1);
}

/// The other way round: the loss of 600 m asks for 600 m, and the lumped
/// estimate is exact for a lead that is nothing but capacitance.
#[test]
fn the_loss_of_600_m_gives_600_m() {
    let ratio = std::f64::consts::TAU * 20e3 * 150.0 * 60e-9;
    let lumped = 10.0 * (1.0 + ratio * ratio).log10();
    assert!((lumped - 3.5776).abs() < 5e-5);
    let mut values = json!({ "source": "balanced", "source_r": 150, "load_r": 1e12,
                             "lead_r": 0, "lead_l": 0, "limit": lumped });
    near(&values, "longest_loss", 600.0, 1e-3);
    near(&values, "lumped", 600.0, 1e-3);
    values["lead_r"] = json!(0.1);
    values["lead_l"] = json!(0.6e-6);
    values["limit"] = json!(3.4037);
    near(&values, "longest_loss", 600.0, 0.02);
}

/// A lossless line with an open end: |E/U|² = cos² βl + (R_S/Z_0)² sin² βl
/// (D. M. Pozar, Microwave Engineering, section on the terminated line), which
/// rises to (R_S/Z_0)² at a quarter of the wavelength and falls again. The
/// longest length is the first crossing; a limit above the top has none.
#[test]
fn the_first_of_many_crossings() {
    let (r, l, c, f) = (150.0_f64, 0.6e-6_f64, 100e-12_f64, 20e3_f64);
    let beta = std::f64::consts::TAU * f * (l * c).sqrt();
    let square = r * r * c / l;
    let line = |limit: f64| {
        json!({ "source": "unbalanced", "source_r": r, "load_r": 1e12, "lead_c": c, "lead_l": l, "lead_r": 0,
                "limit": limit, "frequency": f, "lead_length": 10 })
    };
    for limit in [0.1, 1.0, 3.0, 5.7] {
        let sine = ((10_f64.powf(limit / 10.0) - 1.0) / (square - 1.0)).sqrt();
        let first = sine.asin() / beta;
        near(&line(limit), "longest_loss", first, 1e-5 * first);
    }
    let top = 10.0 * square.log10();
    assert_eq!(reading(&line(top + 0.01), "longest_loss"), None);
    near(&line(3.0), "wavelength", std::f64::consts::TAU / beta, 1e-6);
    let half = json!({ "source": "unbalanced", "source_r": r, "load_r": 1e12, "lead_c": c, "lead_l": l, "lead_r": 0,
                       "lead_length": std::f64::consts::PI / beta });
    near(&half, "loss", 0.0, 1e-9);
}

/// The pickup rig of 2.5 H, 6.5 kΩ, 110 pF with its controls full up into 1 MΩ
/// on 100 pF/m, lumped: peaks computed from the closed form in plain Python.
/// Each is also the resonance that its own length just keeps.
#[test]
fn pickup_leads() {
    for (length, resonance) in [(3.0, 4298.73), (6.0, 3481.94), (10.0, 2862.37), (15.0, 2408.40)] {
        let values = json!({ "lead_length": length, "lead_r": 0, "lead_l": 0, "resonance_least": resonance });
        near(&values, "resonance", resonance, 0.01);
        near(&values, "longest_resonance", length, 1e-3 * length / 10.0 + 1e-4);
    }
}

/// The resonance without losses: C = 1/((2πf)²·L), of which winding and load
/// take their part (any circuit-theory text).
#[test]
fn resonance_without_losses() {
    let total = 1.0 / ((std::f64::consts::TAU * 3e3).powi(2) * 2.5);
    let values = json!({ "resonance_least": "3k", "load_c": "50p" });
    near(&values, "lossless", (total - 110e-12 - 50e-12) / 100e-12, 1e-6);
}

/// The lead that a loss allows at 5 kHz has that loss, though the loss of
/// shorter leads is first a gain.
#[test]
fn the_longest_lead_has_the_loss() {
    let longest = reading(&json!({}), "longest_loss").unwrap();
    near(&json!({ "lead_length": longest }), "loss", 1.0, 1e-6);
    assert!(reading(&json!({ "lead_length": 4 }), "loss").unwrap() < -1.0);
    let longest = reading(&json!({}), "longest_resonance").unwrap();
    near(&json!({ "lead_length": longest }), "resonance", 3e3, 0.01);
}

/// Where nothing keeps the resonance, the answer says so in words.
#[test]
fn no_resonance_to_keep() {
    for values in [json!({ "instrument_r": "10k" }), json!({ "resonance_least": "9k" })] {
        let report = report(&values);
        let longest = report.reading("longest_resonance").unwrap();
        assert_eq!(longest.value, None);
        assert!(longest.text.contains("even without a lead"), "{}", longest.text);
    }
}

/// What sets the limit: tone for a pickup and for a high resistance, hum for an
/// active output, neither for a balanced line that is short enough.
#[test]
fn what_sets_the_limit() {
    for (values, word) in [
        (json!({}), "tone sets"),
        (json!({ "source": "unbalanced", "source_r": "1k" }), "hum pick-up"),
        (json!({ "source": "unbalanced", "source_r": "30k", "load_r": "1M", "lead_length": 1 }), "tone sets"),
        (json!({ "source": "balanced", "lead_length": "100 m" }), "neither"),
        (json!({ "source": "balanced", "lead_length": "600 m" }), "too long"),
    ] {
        let report = report(&values);
        let text = &report.reading("longest_loss").unwrap().verdict.as_ref().unwrap().text;
        assert!(text.contains(word), "{values}: {text}");
        assert!(report.reading("practice").unwrap().verdict.is_some());
    }
}

/// Presets mean the same to a reader who thinks in feet.
#[test]
fn presets_in_feet() {
    for preset in stageohm::calculator::Calculator::find("lead-length").unwrap().presets {
        let values: std::collections::BTreeMap<_, _> = preset.values.iter().copied().collect();
        let longest = |length: &str| {
            let question = json!({ "calculator": "lead-length", "values": values, "settings": { "length": length } });
            let answer = common::ask(question);
            answer.report.unwrap().reading("longest_loss").unwrap().value
        };
        assert_eq!(longest("metre"), longest("foot"), "{}", preset.id);
    }
}

/// No choice shows a key of the catalogue or a place that was not filled.
#[test]
fn every_choice_has_its_words() {
    for source in ["pickup", "unbalanced", "balanced"] {
        for change in [
            json!({}),
            json!({ "lead_length": 0 }),
            json!({ "lead_length": "2 km" }),
            json!({ "limit": 40, "frequency": 20, "treble": 20 }),
            json!({ "lead_c": 0, "core_c": 0, "shield_c": 0 }),
            json!({ "source_r": 0, "volume_r": "", "tone_c": "" }),
            json!({ "instrument_r": "10k", "coil_l": "1 mH" }),
        ] {
            let mut values = json!({ "source": source });
            values.as_object_mut().unwrap().extend(change.as_object().unwrap().clone());
            let text = serde_json::to_string(&report(&values)).unwrap();
            for gap in ["lead-length-", "common-", "{ $", "null,\"unit\":\"metre\",\"text\":\"\"", "?"] {
                assert!(!text.contains(gap), "{values}: {gap} in {text}");
            }
        }
    }
}

/// 6 m of 100 pF/m keep the resonance of the pickup rig at 3481.94 Hz: a metre more is
/// too long for that, a metre less is not; and with 10 kΩ there is none to keep.
#[test]
fn a_resonance_that_is_kept_or_sunk() {
    let verdict = |more: Value| {
        let mut values = json!({ "lead_r": 0, "lead_l": 0, "resonance_least": 3481.94 });
        values.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        report(&values).reading("longest_resonance").unwrap().verdict.clone().unwrap().tone
    };
    assert_eq!(verdict(json!({ "lead_length": 5 })), Tone::Fine);
    assert_eq!(verdict(json!({ "lead_length": 7 })), Tone::Trouble);
    assert_eq!(verdict(json!({ "lead_length": 5, "instrument_r": "10k" })), Tone::Trouble);
}

/// A limit of the reader's own may be one that nobody hears: beyond it a lead is too long,
/// and no more is said of it. Less than 0.5 dB is not heard (common practice, no source).
#[test]
fn past_a_limit_that_nobody_hears() {
    for values in [
        json!({ "source": "unbalanced", "lead_length": 300.0, "limit": 0.5 }),
        json!({ "source": "pickup", "lead_length": 6.3, "limit": 0.3 }),
    ] {
        let report = report(&values);
        let loss = report.reading("loss").unwrap().value.unwrap();
        let longest = report.reading("longest_loss").unwrap();
        let verdict = longest.verdict.as_ref().unwrap();
        assert!(verdict.text.starts_with("too long"), "{values}: {} at {loss}", verdict.text);
        assert!(!verdict.text.contains("audibly") && verdict.tone != Tone::Fine, "{values}: {verdict:?}");
    }
}
