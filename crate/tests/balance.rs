//! Balanced line rejection against published rules, closed forms and a general
//! circuit simulator.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

mod common;

use serde_json::json;
use stageohm::Complex64;
use stageohm::answer::Answer;
use stageohm::report::Tone;

fn ask(values: serde_json::Value) -> Answer {
    common::ask(json!({ "calculator": "balance", "values": values }))
}

fn reading(values: serde_json::Value, id: &str) -> f64 {
    common::report("balance", values).reading(id).unwrap().value.unwrap_or(f64::INFINITY)
}

#[track_caller]
fn close(got: f64, expected: f64, tolerance: f64) {
    assert!((got - expected).abs() <= tolerance, "{got} is not {expected}");
}

/// Rows of 10 Ω imbalance, the test of IEC 60268-3 (from memory), on common-mode
/// resistances alone: −20·log10|Z/(Z + Z_S+) − Z/(Z + Z_S−)|, computed outside
/// the project.
#[test]
fn ten_ohms_of_imbalance() {
    for (hot, cold, input, expected) in [
        (10.0, 0.0, 5e3, 53.997),
        (10.0, 0.0, 10e3, 60.009),
        (10.0, 0.0, 20e3, 66.025),
        (10.0, 0.0, 10e6, 120.000),
        (160.0, 150.0, 5e3, 54.510),
        (160.0, 150.0, 10e3, 60.267),
        (160.0, 150.0, 20e3, 66.155),
        (160.0, 150.0, 10e6, 120.000),
    ] {
        let bare = json!({ "legs": "each", "leg_hot": hot, "leg_cold": cold, "input_r": input,
            "input_spread": 0.0, "leg_c": 0.0, "c_imbalance": 0.0 });
        for id in ["rejection", "rejection_7", "rejection_20k"] {
            close(reading(bare.clone(), id), expected, 6e-4);
        }
    }
}

/// Whitlock 1995: the impedances are a bridge, so rejection grows 20 dB for ten
/// times the common-mode impedance, and equal legs with equal impedances null it.
#[test]
fn bridge_of_whitlock() {
    let with = |input: f64, imbalance: f64| {
        reading(
            json!({ "leg_r": 20.0, "imbalance": imbalance, "input_r": input, "input_spread": 0.0, "leg_c": 0.0, "c_imbalance": 0.0 }),
            "rejection",
        )
    };
    close(with(10e6, 10.0) - with(1e6, 10.0), 20.0, 1e-3);
    close(with(1e6, 1.0) - with(1e6, 10.0), 20.0, 1e-3);
    assert_eq!(with(10e3, 0.0), f64::INFINITY);
}

/// Legs of 80 and 70 Ω into 9950 Ω ∥ 1.01 nF and 10 050 Ω ∥ 0.99 nF; the same
/// from a source floating by 100 pF; and with output capacitors of 47 µF ± 5 %
/// in reactance into 1.06 and 1.04 nF: general circuit simulator, AC analysis.
#[test]
fn circuit_simulator() {
    close(reading(json!({}), "rejection"), 59.501_410_580_3, 1e-8);
    close(reading(json!({}), "rejection_20k"), 55.019_681_091_0, 1e-8);
    let floating = json!({ "drive": "floating" });
    close(reading(floating.clone(), "rejection"), 135.514_332_479, 1e-6);
    close(reading(floating, "rejection_20k"), 83.370_014_662_0, 1e-8);
    let transformer = json!({ "input": "transformer", "coupling_c": 47e-6, "coupling_spread": 0.1 });
    close(reading(transformer.clone(), "rejection"), 106.719_536_109, 1e-6);
    close(reading(transformer, "rejection_20k"), 56.433_409_119_0, 1e-8);
}

/// One driven leg of two gives half of the voltage, 20·log10 2 = 6.0206 dB less,
/// and with it less rejection re the signal; a floating source loses nothing.
#[test]
fn six_decibels() {
    let still = |drive: &str, id: &str| {
        reading(
            json!({ "drive": drive, "leg_r": 1.0, "imbalance": 0.5, "input_r": 10e6, "leg_c": 0.0, "c_imbalance": 0.0 }),
            id,
        )
    };
    close(still("both", "gain"), 0.0, 1e-5);
    for drive in ["one", "grounded"] {
        close(still(drive, "gain"), -6.0206, 1e-4);
        close(still(drive, "rejection") - still(drive, "rejection_signal"), 6.0206, 1e-4);
    }
    close(still("floating_grounded", "gain"), 0.0, 1e-5);
    // An unbalanced output has its whole signal on the hot leg, and the hum of a grounded one.
    close(still("unbalanced", "gain"), 0.0, 1e-5);
    close(still("unbalanced", "rejection"), still("grounded", "rejection"), 1e-12);
    // 500 Ω grounded at the source into 10 kΩ: 20·log10(10.5/0.5), a divider.
    let keys = json!({ "drive": "unbalanced", "leg_r": 500.0, "imbalance": 0.0, "input_spread": 0.0, "leg_c": 0.0, "c_imbalance": 0.0 });
    close(reading(keys, "rejection"), 20.0 * 21.0_f64.log10(), 1e-9);
}

/// Half of the 100 pF between the windings from each leg: 63.662 MΩ at 50 Hz
/// (twice the 31.831 MΩ of the whole, 1/(2π·f·C)), and rejection falls 20 dB a
/// decade.
#[test]
fn transformer() {
    let bare = json!({ "input": "transformer", "leg_c": 0.0, "c_imbalance": 0.0 });
    close(reading(bare.clone(), "input_z"), 63.662e6, 1e3);
    close(reading(bare.clone(), "rejection"), 20.0 * (63.662e6_f64 / 10.0).log10(), 1e-3);
    close(reading(bare.clone(), "rejection_1k") - reading(bare, "rejection_20k"), 20.0 * 20.0_f64.log10(), 1e-3);
}

/// The worst case is the same whichever leg it falls on, and is the worst: the
/// spread of the input adds to the imbalance of the source.
#[test]
fn either_leg() {
    let with = |hot: f64, cold: f64, spread: f64| {
        let values =
            json!({ "legs": "each", "leg_hot": hot, "leg_cold": cold, "input_spread": spread, "coupling_c": 47e-6 });
        reading(values, "rejection")
    };
    close(with(70.0, 80.0, 0.02), with(80.0, 70.0, 0.02), 1e-9);
    assert!(with(70.0, 80.0, 0.02) < with(70.0, 80.0, 0.0));
}

/// A transformer's own capacitance allows an imbalance that the plain leg would
/// not; the comparison with the other input is then left out.
#[test]
fn imbalance_within_the_windings() {
    let report = ask(json!({ "input": "transformer", "leg_c": 0.0 })).report.unwrap();
    assert_eq!(report.plots[0].traces.len(), 1);
}

#[test]
fn what_cannot_be_is_explained_at_its_field() {
    for (values, field) in
        [(json!({ "leg_r": 4.0 }), "imbalance"), (json!({ "leg_c": 0.0, "c_imbalance": 1e-12 }), "c_imbalance")]
    {
        let answer = ask(values);
        assert!(answer.report.is_none());
        let message = &answer.fields.get(field).unwrap().problem.as_ref().unwrap().message;
        assert!(message.contains("twice their mean at most"), "{message}");
    }
}

/// 60 V between earths is no matter of hum: 50 V is the conventional limit of
/// touch voltage (IEC 60364-4-41, from memory).
#[test]
fn danger_comes_first() {
    let answer = ask(json!({ "difference": "60" }));
    assert!(answer.report.is_none());
    assert!(answer.fields.get("difference").unwrap().problem.as_ref().unwrap().message.contains("danger to life"));
}

/// A line out of balance in four ways, each on a side of its own.
struct FourWays {
    /// Ω and F of a leg, Ω and F from it to earth.
    mean: [f64; 4],
    /// What its two are apart, re their mean; of the coupling capacitors in reactance.
    apart: [f64; 4],
}

impl FourWays {
    /// The rejection where these sides, +1 or −1, have more of each, in dB, from
    /// V_cm·[Z_I+/(Z_I+ + Z_S+) − Z_I−/(Z_I− + Z_S−)] (Whitlock 1995).
    fn rejection(&self, f: f64, sides: [f64; 4]) -> f64 {
        let omega = std::f64::consts::TAU * f;
        let [r, farads, input, c] = self.mean;
        let share = |leg: f64| {
            let more = |i: usize| 1.0 + leg * sides[i] * self.apart[i] / 2.0;
            let z = Complex64::new(r * more(0), -more(1) / (omega * farads));
            let y = Complex64::new(1.0 / (input * more(2)), omega * c * more(3));
            1.0 / (1.0 + z * y)
        };
        -20.0 * (share(1.0) - share(-1.0)).norm().log10()
    }

    /// The least over all sixteen.
    fn worst(&self, f: f64) -> f64 {
        let sides = (0..16).map(|set| [1, 2, 4, 8].map(|bit| if set & bit == 0 { 1.0 } else { -1.0 }));
        sides.map(|sides| self.rejection(f, sides)).fold(f64::INFINITY, f64::min)
    }
}

/// Which sides are the worst hangs on the frequency where capacitors couple the legs:
/// with one leg heavier in all four the line is 0.014 dB better at 350 Hz than it may be,
/// and with a larger difference of the capacitances to earth 0.5 dB.
#[test]
fn the_worst_of_all_sides() {
    for (mean, apart, missed) in [
        ([75.0, 10e-6, 10e3, 1e-9], [10.0 / 75.0, 0.4, 0.01, 0.02], 0.0144),
        ([75.0, 22e-6, 20e3, 1e-9], [10.0 / 75.0, 0.4, 0.0, 0.2], 0.5407),
    ] {
        let line = FourWays { mean, apart };
        let values = json!({
            "leg_r": mean[0], "imbalance": 10.0, "coupling_c": mean[1], "coupling_spread": apart[1], "input_r": mean[2],
            "input_spread": apart[2], "leg_c": mean[3], "c_imbalance": apart[3] * mean[3]
        });
        for (id, order) in [("rejection", 1.0), ("rejection_3", 3.0), ("rejection_5", 5.0), ("rejection_7", 7.0)] {
            close(reading(values.clone(), id), line.worst(order * 50.0), 1e-8);
        }
        close(reading(values.clone(), "rejection_1k"), line.worst(1e3), 1e-8);
        close(reading(values, "rejection_20k"), line.worst(20e3), 1e-8);
        close(line.rejection(350.0, [1.0, 1.0, -1.0, 1.0]) - line.worst(350.0), missed, 1e-4);
    }
}

/// What a receiver makes by itself of what both of its legs share is stated with both
/// legs joined, so legs that load the source share less of it: at most the mean of
/// their two dividers stands there (common practice, no source), and the error of the
/// bridge is added in phase, the worst there is.
#[test]
fn own_error_of_the_receiver() {
    let bare = |more: serde_json::Value| {
        let mut values = json!({ "legs": "each", "input_spread": 0.0, "leg_c": 0.0, "c_imbalance": 0.0, "own": 60.0 });
        values.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        values
    };
    // Equal legs of 10 kΩ into 10 kΩ: no bridge, and half of the voltage on each.
    let equal = bare(json!({ "leg_hot": 10e3, "leg_cold": 10e3, "input_r": 10e3 }));
    for id in ["rejection", "rejection_7", "rejection_1k", "rejection_20k"] {
        close(reading(equal.clone(), id), 60.0 + 20.0 * 2_f64.log10(), 1e-9);
    }
    // 10 kΩ in the hot leg alone: dividers of 1/2 and 1, which differ by 1/2 and have
    // the mean 3/4.
    let one = bare(json!({ "leg_hot": 10e3, "leg_cold": 0.0, "input_r": 10e3 }));
    for id in ["rejection", "rejection_7", "rejection_20k"] {
        close(reading(one.clone(), id), -20.0 * (0.5_f64 + 0.75e-3).log10(), 1e-9);
    }
    // A transformer's rises with frequency, 60 dB being what it is at 1 kHz: into 50 pF
    // a leg, with 150 Ω in each, it falls by 20·log10 of the frequencies' ratio.
    let wound = bare(json!({ "input": "transformer", "leg_hot": 150.0, "leg_cold": 150.0 }));
    close(reading(wound.clone(), "rejection"), 60.0 + 20.0 * 20_f64.log10(), 1e-6);
    close(reading(wound.clone(), "rejection_1k"), 60.0, 1e-6);
    close(reading(wound, "rejection_20k"), 60.0 - 20.0 * 20_f64.log10(), 1e-4);
    // A source that floats by 100 pF into 10 kΩ: behind the capacitor stand both legs
    // side by side, (10 kΩ + 10 kΩ)/2 of which half is the receiver's.
    let floats =
        bare(json!({ "drive": "floating", "floating_c": 100e-12, "leg_hot": 10e3, "leg_cold": 10e3, "input_r": 10e3 }));
    let x_f = 1.0 / (std::f64::consts::TAU * 50.0 * 100e-12);
    let share = Complex64::new(5e3, 0.0) / Complex64::new(10e3, -x_f);
    close(reading(floats, "rejection"), 60.0 - 20.0 * share.norm().log10(), 1e-9);
}

/// One leg of R and one without, into R_I on resistances alone: 1/e = 1 + R_I/R.
fn one_leg(leg: f64, input: f64) -> serde_json::Value {
    json!({ "legs": "each", "leg_hot": leg, "leg_cold": 0.0, "input_r": input, "input_spread": 0.0, "leg_c": 0.0, "c_imbalance": 0.0 })
}

/// From 80 dB on a rejection is high, below 20 dB low (common practice, no source), and
/// one without an end is none of a real line.
#[test]
fn what_a_rejection_is_called() {
    for (leg, input, decibels, tone, word) in [
        (10.0, 100e3, 80.0009, Tone::Fine, "high"),
        (10.0, 99e3, 79.9136, Tone::Watch, "fair"),
        (1e3, 9.1e3, 20.0864, Tone::Watch, "fair"),
        (1e3, 8.9e3, 19.9127, Tone::Trouble, "low"),
    ] {
        let report = common::report("balance", one_leg(leg, input));
        let rejection = report.reading("rejection").unwrap();
        close(rejection.value.unwrap(), decibels, 1e-4);
        let verdict = rejection.verdict.as_ref().unwrap();
        assert_eq!(verdict.tone, tone, "{leg} {input}");
        assert!(verdict.text.starts_with(word), "{}", verdict.text);
        assert!(report.links.iter().any(|link| link.calculator == "ground-loop"));
    }
    let report = common::report("balance", one_leg(0.0, 10e3));
    let verdict = report.reading("rejection").unwrap().verdict.as_ref().unwrap();
    assert_eq!(verdict.tone, Tone::Watch);
    assert!(verdict.text.contains("no real line"), "{}", verdict.text);
    // And is nothing to draw, nor to go on with.
    assert!(report.plots.is_empty() && report.links.is_empty());
}

/// One driven leg and two halves of which one is grounded give half of the signal.
#[test]
fn half_of_the_signal_is_told() {
    for (drive, told) in [
        ("both", false),
        ("one", true),
        ("grounded", true),
        ("unbalanced", false),
        ("floating", false),
        ("floating_grounded", false),
    ] {
        let warnings = common::report("balance", json!({ "drive": drive })).warnings;
        assert_eq!(warnings.iter().any(|warning| warning.contains("6 dB less")), told, "{drive}: {warnings:?}");
    }
}

/// By frequency a line on resistances alone is flat, and by the resistance of the input
/// it is 1 + R_I/R; the axes go in tens of decibels, one more above.
#[test]
fn plots() {
    let report = common::report("balance", one_leg(10.0, 10e3));
    let expected = |input: f64| 20.0 * (1.0 + input / 10.0).log10();
    let plot = |id: &str| report.plots.iter().find(|plot| plot.id == id).unwrap();
    let by_frequency = plot("by-frequency");
    for y in &by_frequency.traces[0].y {
        close(*y, expected(10e3), 1e-6);
    }
    // With 50 pF from each leg of a transformer to earth, 3.1831 MΩ at 1 kHz.
    let other = by_frequency.traces.iter().find(|trace| trace.id == "curve-transformer").unwrap();
    let at = other.x.iter().position(|f| *f == 1e3).unwrap();
    close(other.y[at], expected(3.183_099e6), 1e-3);
    assert!(other.reference && !by_frequency.traces[0].reference);
    close(by_frequency.markers[0].x, 50.0, 1e-9);
    close(by_frequency.markers[0].y, expected(10e3), 1e-6);
    // From the 60.009 dB of this input to the 144 dB of the other at 20 Hz.
    assert_eq!((by_frequency.y.from, by_frequency.y.to), (60.0, 160.0));
    let by_input = plot("by-input");
    let trace = &by_input.traces[0];
    close(trace.x[0], 1e3, 1e-6);
    close(*trace.x.last().unwrap(), 100e6, 1e-1);
    for (x, y) in trace.x.iter().zip(&trace.y) {
        close(*y, expected(*x), 1e-6);
    }
    // 40.09 dB at 1 kΩ, 140.0 dB at 100 MΩ.
    assert_eq!((by_input.y.from, by_input.y.to), (40.0, 160.0));
    close(by_input.markers[0].x, 10e3, 1e-9);
    close(by_input.markers[0].y, expected(10e3), 1e-6);
    // A transformer has no such resistance to plot.
    let wound = common::report("balance", json!({ "input": "transformer" }));
    assert!(wound.plots.iter().all(|plot| plot.id != "by-input"));
    assert!(wound.plots[0].traces.iter().any(|trace| trace.id == "curve-electronic"));
}

/// What goes on to the ground loop: a balanced line of this rejection on this mains.
#[test]
fn the_loop_of_this_line() {
    let report = common::report("balance", {
        let mut values = one_leg(10.0, 10e3);
        values["mains"] = json!("60");
        values
    });
    let link = report.links.iter().find(|link| link.calculator == "ground-loop").unwrap();
    let value =
        |id: &str| link.values.iter().find(|(field, _)| *field == id).map(|(_, text)| text.replace('\u{a0}', " "));
    assert_eq!(value("connection").as_deref(), Some("balanced"));
    assert_eq!(value("rejection").as_deref(), Some("60.0087 dB"));
    assert_eq!(value("mains").as_deref(), Some("60"));
}

/// Harmonics of the mains are whole multiples of its frequency.
#[test]
fn harmonics_are_named_by_their_frequency() {
    for (mains, third, fifth, seventh) in [("50", "150", "250", "350"), ("60", "180", "300", "420")] {
        let report = common::report("balance", json!({ "mains": mains }));
        for (id, expected) in [("rejection_3", third), ("rejection_5", fifth), ("rejection_7", seventh)] {
            let name = &report.reading(id).unwrap().name;
            assert!(name.contains(&format!(" {expected}\u{a0}Hz")), "{name}");
        }
    }
}
