//! Pads against attenuator tables and against Ohm's law.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::{reading, within};
use serde_json::{Value, json};
use stageohm::answer::Answer;
use stageohm::report::Report;

fn ask(values: &Value) -> Answer {
    common::ask(json!({ "calculator": "pad", "values": values }))
}

#[track_caller]
fn report(values: &Value) -> Report {
    common::report("pad", values.clone())
}

#[track_caller]
fn near(report: &Report, id: &str, expected: f64, tolerance: f64) {
    within(id, reading(report, id), expected, tolerance);
}

#[track_caller]
fn refused(values: &Value, field: &str, words: &str) {
    let answer = ask(values);
    assert!(answer.report.is_none(), "{values}");
    let message = &answer
        .fields
        .get(field)
        .unwrap()
        .problem
        .as_ref()
        .unwrap_or_else(|| panic!("{values}: {:?}", answer.problems))
        .message;
    assert!(message.contains(words), "{values}: {message}");
}

/// 600 Ω, 10 dB, T and pi (K-factor formulas of attenuator tables), and the
/// halves of the T pad in the legs of the H pad.
#[test]
fn six_hundred_ohms() {
    let pad = |form: &str, legs: &str| {
        report(&json!({ "design": "matched", "form": form, "legs": legs, "loss": 10, "source_r": 600, "load_r": 600 }))
    };
    let t = pad("t", "unbalanced");
    near(&t, "r1", 311.696, 5e-4);
    near(&t, "r2", 421.637, 5e-4);
    near(&t, "r3", 311.696, 5e-4);
    let pi = pad("pi", "unbalanced");
    near(&pi, "r1", 1154.97, 5e-3);
    near(&pi, "r2", 853.815, 5e-4);
    near(&pi, "r3", 1154.97, 5e-3);
    let h = pad("t", "balanced");
    near(&h, "r1", 311.696 / 2.0, 5e-4);
    near(&h, "r2", 421.637, 5e-4);
    let o = pad("pi", "balanced");
    near(&o, "r1", 1154.97, 5e-3);
    near(&o, "r2", 853.815 / 2.0, 5e-4);
}

/// The 50 Ω rows of attenuator tables (T. R. Kuphaldt, Lessons in Electric
/// Circuits, vol. III, Attenuators; values from memory): loss, T series and
/// shunt, pi shunt and series.
#[test]
fn rows_of_the_tables() {
    for (loss, series, shunt, pi_shunt, pi_series) in [
        (3.0, 8.55, 141.93, 292.4, 17.61),
        (6.0, 16.61, 66.93, 150.48, 37.35),
        (10.0, 25.97, 35.14, 96.25, 71.15),
        (20.0, 40.91, 10.10, 61.11, 247.5),
    ] {
        let pad = |form: &str| {
            report(&json!({ "design": "matched", "form": form, "legs": "unbalanced", "loss": loss,
                            "source_r": 50, "load_r": 50 }))
        };
        near(&pad("t"), "r1", series, 6e-3);
        near(&pad("t"), "r2", shunt, 6e-3);
        near(&pad("pi"), "r1", pi_shunt, 6e-2);
        near(&pad("pi"), "r2", pi_series, 6e-2);
    }
}

/// 75 Ω to 50 Ω: 43.3 Ω and 86.6 Ω with 5.72 dB, as handbooks print it; the
/// mirrored pad the other way; and T and pi pads that stop right there.
#[test]
fn minimum_loss_pad() {
    let pad = |source: f64, load: f64| {
        report(&json!({ "design": "minimum", "legs": "unbalanced", "source_r": source, "load_r": load }))
    };
    let down = pad(75.0, 50.0);
    near(&down, "r1", 43.30, 5e-3);
    near(&down, "r2", 86.60, 5e-3);
    near(&down, "z_in", 75.0, 1e-9);
    near(&down, "z_out", 50.0, 1e-9);
    let up = pad(50.0, 75.0);
    near(&up, "r1", 86.60, 5e-3);
    near(&up, "r2", 43.30, 5e-3);
    near(&up, "z_in", 50.0, 1e-9);
    near(&up, "z_out", 75.0, 1e-9);
    let unequal = |form: &str, loss: f64| json!({ "design": "matched", "form": form, "legs": "unbalanced", "loss": loss, "source_r": 75, "load_r": 50 });
    refused(&unequal("t", 5.71), "loss", "5.8");
    refused(&unequal("pi", 3.0), "loss", "5.8");
    // What is left of the third resistor for the rest of the rounded 5.72 dB.
    near(&report(&unequal("t", 5.72)), "r1", 43.30, 0.01);
    assert!(reading(&report(&unequal("t", 5.72)), "r3") < 0.01);
    // An L pad that meets the source alone can take less: down to √(75/50).
    refused(&unequal("l", 1.7), "loss", "1.8\u{a0}dB");
    near(&report(&unequal("l", 3.0)), "z_in", 75.0, 1e-9);
    refused(&json!({ "design": "minimum", "source_r": 600, "load_r": 600 }), "load_r", "equal");
}

/// The same pad solved by Ohm's law from its resistors: E behind R_S, a ladder,
/// R_L. Gives voltage ratio over the pad, input and output impedance.
fn by_ohms_law(form: &str, r: &[f64], r_s: f64, r_l: f64) -> (f64, f64, f64) {
    let parallel = |a: f64, b: f64| a * b / (a + b);
    if form == "t" {
        let end = r[2] + r_l;
        let middle = parallel(r[1], end);
        let ratio = (r[0] + middle) / middle * end / r_l;
        (ratio, r[0] + middle, r[2] + parallel(r[1], r[0] + r_s))
    } else {
        let end = parallel(r[2], r_l);
        ((r[1] + end) / end, parallel(r[0], r[1] + end), parallel(r[2], r[1] + parallel(r[0], r_s)))
    }
}

/// Bridging T and pi pads give the loss and both impedances that were asked for.
#[test]
fn bridging_pads_are_as_asked() {
    let mut solved = 0;
    for form in ["t", "pi"] {
        for (r_s, r_l) in [(150.0, 1.5e3), (50.0, 2.4e3), (600.0, 10e3), (1e3, 1e6)] {
            for (loss, z_in, z_out) in [(20.0, 1e3, 150.0), (10.0, 1.5e3, 600.0), (30.0, 5e3, 200.0), (40.0, 10e3, 1e3)]
            {
                let values = json!({ "form": form, "legs": "unbalanced", "loss": loss, "input_r": z_in,
                                     "output_r": z_out, "source_r": r_s, "load_r": r_l });
                let Some(report) = ask(&values).report else { continue };
                solved += 1;
                let r = ["r1", "r2", "r3"].map(|id| reading(&report, id));
                let (ratio, input, output) = by_ohms_law(form, &r, r_s, r_l);
                assert!((20.0 * ratio.log10() - loss).abs() < 1e-9, "{values}: {ratio}");
                assert!((input / z_in - 1.0).abs() < 1e-9, "{values}: {input}");
                assert!((output / z_out - 1.0).abs() < 1e-9, "{values}: {output}");
            }
        }
    }
    assert!(solved >= 20, "{solved}");
}

/// A bridging pad asked to show each end its own resistance is the matched pad
/// of the tables.
#[test]
fn bridging_becomes_matched() {
    for form in ["t", "pi"] {
        let bridging = report(&json!({ "form": form, "loss": 10, "input_r": 600, "source_r": 600, "load_r": 600 }));
        let matched = report(&json!({ "form": form, "design": "matched", "loss": 10, "source_r": 600, "load_r": 600 }));
        for id in ["r1", "r2", "r3", "z_in", "z_out", "noise", "insertion_loss"] {
            near(&bridging, id, reading(&matched, id), 1e-9 * reading(&matched, id).abs());
        }
    }
}

/// An L pad has its series resistor at the larger end (attenuator tables): 3 dB from 75 to
/// 50 Ω take 75 − Z_0/K = 31.6 Ω there and 326 Ω across, the other way round 118.5 Ω
/// across and 11.5 Ω; between equal ends it is at the source.
#[test]
fn an_l_pad_between_two_ends() {
    let k = 10_f64.powf(0.15);
    let middle = 3750_f64.sqrt();
    for (source, load, loss, r1, r2) in [
        (75.0, 50.0, 3.0, 75.0 - middle / k, 1.0 / (k / middle - 1.0 / 50.0)),
        (50.0, 75.0, 3.0, 1.0 / (1.0 / 50.0 - 1.0 / (k * middle)), k * middle - 75.0),
        (600.0, 600.0, 10.0, 600.0 - 600.0 / 10_f64.sqrt(), 1.0 / (10_f64.sqrt() / 600.0 - 1.0 / 600.0)),
    ] {
        let pad = report(&json!({ "design": "matched", "form": "l", "legs": "unbalanced", "loss": loss,
                                  "source_r": source, "load_r": load }));
        near(&pad, "r1", r1, 1e-6);
        near(&pad, "r2", r2, 1e-6);
        near(&pad, "z_in", source, 1e-6);
    }
}

/// What the load can see has two ends; right at the lower one stands the L pad.
#[test]
fn ends_of_the_output_impedance() {
    for form in ["t", "pi"] {
        let asked = |z_out: f64| json!({ "form": form, "legs": "unbalanced", "output_r": z_out });
        // 900 Ω in series and 1/(10/1 kΩ − 1/1.5 kΩ) across, behind 150 Ω.
        let least = 1.0 / (1.0 / 1050.0 + 10.0 / 1000.0 - 1.0 / 1500.0);
        let l = report(&asked(least));
        assert!((reading(&l, "z_out") - least).abs() < 1e-6);
        // The other way round: (K − 1)·1.5 kΩ in series, and across the source what leaves 1 kΩ.
        let most = 13.5e3 + 1.0 / (1.0 / 1e3 - 1.0 / 15e3 + 1.0 / 150.0);
        assert!((reading(&report(&asked(most)), "z_out") - most).abs() < 1e-3);
        refused(&asked(0.99 * least), "output_r", "97.3");
        refused(&asked(20e3), "output_r", "13.6");
    }
    refused(&json!({ "output_r": 150 }), "output_r", "Two resistors");
    refused(&json!({ "input_r": "15k" }), "input_r", "15");
}

/// The U pad of 450 Ω, 107.14 Ω, 450 Ω in E24 and E96, worked by hand: 470, 110,
/// 470 Ω before 1.5 kΩ.
#[test]
fn preferred_values() {
    let u = report(&json!({}));
    near(&u, "r1", 450.0, 1e-9);
    near(&u, "r2", 1500.0 / 14.0, 1e-9);
    let across: f64 = 110.0 * 1500.0 / 1610.0;
    near(&u, "z_in_e24", 940.0 + across, 1e-9);
    near(&u, "loss_e24", 20.0 * ((940.0 + across) / across).log10(), 1e-9);
    near(&u, "z_out_e24", 110.0 * 1090.0 / 1200.0, 1e-9);
    let across: f64 = 107.0 * 1500.0 / 1607.0;
    near(&u, "loss_e96", 20.0 * ((906.0 + across) / across).log10(), 1e-9);
    let verdict = &u.reading("r1").unwrap().verdict.as_ref().unwrap().text;
    assert!(verdict.contains("470") && verdict.contains("453"), "{verdict}");
}

/// Power is kept: what the source gives is what resistors and load take. Each
/// series power of a balanced pad is there twice.
#[test]
fn powers_add_up() {
    for (legs, twice) in [("balanced", 2.0), ("unbalanced", 1.0)] {
        let pad = report(&json!({ "form": "t", "legs": legs, "emf": "10 V" }));
        let volts = 0.6_f64.sqrt() * 10_f64.powf(reading(&pad, "level") / 20.0);
        let taken = twice * (reading(&pad, "power_r1") + reading(&pad, "power_r3"))
            + reading(&pad, "power_r2")
            + volts * volts / 1500.0;
        let current: f64 = 10.0 / (150.0 + 1000.0);
        assert!((taken / (current * current * 1000.0) - 1.0).abs() < 1e-9, "{taken}");
    }
    let hot = report(&json!({ "emf": "40 V" }));
    assert!(hot.warnings.iter().any(|warning| warning.contains("resistor dissipates")), "{:?}", hot.warnings);
}

/// A matched 600 Ω pad looks back like 600 Ω, so at a noiseless 600 Ω load there
/// is the noise of 150 Ω: −130.918 dBu over 20 000 Hz at 293.15 K
/// (Johnson-Nyquist, computed), here over 19 980 Hz. At 10 dB a tenth of it is
/// the source's.
#[test]
fn thermal_noise() {
    let pad = report(&json!({ "design": "matched", "form": "t", "loss": 10, "source_r": 600, "load_r": 600 }));
    let all = -130.918 + 10.0 * (19_980.0_f64 / 20_000.0).log10();
    near(&pad, "noise_all", all, 1e-3);
    near(&pad, "noise", all + 10.0 * 0.9_f64.log10(), 1e-3);
}

/// Phantom: the balanced pad lets it through, the unbalanced one must not be there.
#[test]
fn phantom_supply() {
    let warned = |legs: &str, phantom: &str, words: &str| {
        let pad = report(&json!({ "legs": legs, "phantom": phantom }));
        assert!(!pad.cautions.is_empty());
        pad.warnings.iter().any(|warning| warning.contains(words))
    };
    assert!(warned("unbalanced", "on", "Never put an unbalanced pad"));
    assert!(warned("balanced", "on", "450"));
    assert!(!warned("balanced", "off", "hantom"));
}

/// No choice shows a key of the catalogue or a place that was not filled.
#[test]
fn every_choice_has_its_words() {
    for (design, form, legs) in [
        ("bridging", "l", "balanced"),
        ("bridging", "t", "balanced"),
        ("bridging", "pi", "unbalanced"),
        ("matched", "l", "balanced"),
        ("matched", "t", "unbalanced"),
        ("matched", "pi", "balanced"),
        ("minimum", "l", "unbalanced"),
    ] {
        for change in [
            json!({ "loss": 20 }),
            json!({ "loss": 120, "phantom": "on", "emf": "100 V" }),
            json!({ "source_r": 600, "load_r": 150, "input_r": 600, "output_r": "" }),
            json!({ "source_r": 1, "load_r": 100, "loss": 60 }),
        ] {
            let mut values = json!({ "design": design, "form": form, "legs": legs });
            values.as_object_mut().unwrap().extend(change.as_object().unwrap().clone());
            let answer = ask(&values);
            let text = serde_json::to_string(&answer).unwrap();
            for gap in ["\"pad-", " pad-", "common-", "{ $", "?"] {
                assert!(!text.contains(gap), "{values}: {gap} in {text}");
            }
            let refused = answer.fields.iter().any(|(_, echo)| echo.problem.is_some());
            assert!(answer.report.is_some() != refused, "{values}: {text}");
        }
    }
}
