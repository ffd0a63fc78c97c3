//! Phantom supply against IEC 61938 (values from memory), Ohm's law and a
//! general circuit simulator.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use serde_json::{Value, json};
use stageohm::answer::Answer;
use stageohm::report::{Report, Tone};

fn ask(calculator: &str, values: &Value) -> Answer {
    common::ask(json!({ "calculator": calculator, "values": values }))
}

fn report(values: &Value) -> Report {
    common::report("phantom", values.clone())
}

fn reading(values: &Value, id: &str) -> f64 {
    report(values).reading(id).unwrap().value.unwrap_or_else(|| panic!("no {id}"))
}

#[track_caller]
fn near(got: f64, expected: f64, relative: f64) {
    assert!((got - expected).abs() <= relative * expected.abs(), "{got} is not {expected}");
}

/// P48 of IEC 61938, 48 V behind two 6.8 kΩ in parallel: 48 V − I·3.4 kΩ.
#[test]
fn voltage_at_the_device() {
    for (milliamperes, expected) in [(1.0, 44.6), (2.0, 41.2), (4.0, 34.4), (7.0, 24.2), (10.0, 14.0)] {
        near(reading(&json!({ "lead_length": 0.0, "current": milliamperes / 1e3 }), "voltage"), expected, 1e-12);
    }
    let p12 = json!({ "supply": "p12", "supply_at": "lowest", "lead_length": 0.0, "current": 15e-3 });
    near(reading(&p12, "voltage"), 11.0 - 15e-3 * 340.0, 1e-12);
    let p24 = json!({ "supply": "p24", "supply_at": "highest", "lead_length": 0.0, "current": 10e-3 });
    near(reading(&p24, "voltage"), 28.0 - 10e-3 * 600.0, 1e-12);
}

/// 48 V/3.4 kΩ = 14.1176 mA, 48 V/6.8 kΩ = 7.0588 mA, and the most power at half
/// of the voltage and half of the short-circuit current (maximum power transfer).
#[test]
fn shorts_and_most_power() {
    let straight = json!({ "lead_length": 0.0 });
    near(reading(&straight, "short_both"), 14.117_647e-3, 1e-6);
    near(reading(&straight, "short_one"), 7.058_824e-3, 1e-6);
    near(reading(&straight, "best_current"), 7.058_824e-3, 1e-6);
    near(reading(&straight, "best_power"), 24.0 * 7.058_824e-3, 1e-6);
    // No current beside it gives more.
    for current in [6.9e-3, 7.2e-3] {
        assert!(reading(&json!({ "lead_length": 0.0, "current": current }), "power") < 24.0 * 7.058_824e-3);
    }
    near(reading(&json!({ "path": "short", "lead_length": 0.0 }), "total"), 14.117_647e-3, 1e-6);
    near(reading(&json!({ "path": "adaptor", "lead_length": 0.0 }), "feed_power"), 48.0 * 48.0 / 6.8e3, 1e-12);
}

/// General circuit simulator, operating point: 48 V through 6.8 kΩ and 2.4 Ω in
/// each leg and 0.6 Ω of shield; one leg on the shield and 6.5 kΩ on the other;
/// then 8 mA from both.
#[test]
fn circuit_simulator() {
    let adaptor = json!({ "path": "adaptor", "output_r": 6.5e3, "mismatch": 0.0 });
    near(reading(&adaptor, "voltage_on_output"), 23.451_287_977_8, 1e-9);
    near(reading(&adaptor, "leg_current"), 7.055_392_512_97e-3, 1e-9);
    near(reading(&adaptor, "other_leg_current"), 3.607_890_458_13e-3, 1e-9);
    near(reading(&adaptor, "offset"), 23.443_013_972_9, 1e-9);
    let two = json!({ "current": 5e-3, "second": 3e-3 });
    near(reading(&two, "voltage"), 20.785_6, 1e-9);
}

/// Legs that nothing feeds, 0.4 % apart, by nodal analysis (NumPy): one core on the
/// shield after 30 m and the other open or on 1 kΩ, whose own 6.149 V a mismatch
/// makes a little more; both shorted after 100 m. Never more than the supply has.
#[test]
fn mismatch_on_a_faulty_path() {
    let offset = |values| reading(&values, "offset");
    near(offset(json!({ "path": "adaptor", "output_r": "", "lead_length": 30 })), 47.978_875_099, 1e-9);
    near(offset(json!({ "path": "adaptor", "output_r": 1e3, "lead_length": 30 })), 6.159_567_502, 1e-9);
    near(offset(json!({ "path": "adaptor", "output_r": 1e3, "lead_length": 30, "mismatch": 0 })), 6.149, 1e-4);
    near(offset(json!({ "path": "short", "lead_length": 100 })), 225.220_373e-6, 1e-8);
}

/// The current left at the lowest voltage is the one that leads to it.
#[test]
fn from_the_lowest_voltage_and_back() {
    let left = reading(&json!({ "draws": "least", "least": 24.0 }), "device_current");
    near(reading(&json!({ "current": left }), "voltage"), 24.0, 1e-12);
    let longest = json!({ "current": 4.1e-3, "least": 34.0, "shield_r": 0.5 });
    let length = reading(&longest, "longest");
    near(reading(&json!({ "current": 4.1e-3, "lead_length": length, "shield_r": 0.5 }), "voltage"), 34.0, 1e-9);
}

/// Equal halves of 4 mA through resistors 0.4 % apart: 2 mA·27.2 Ω = 54.4 mV;
/// and the rejection that the feed resistors leave is that of the same bridge.
#[test]
fn mismatch_of_the_feed_resistors() {
    near(reading(&json!({}), "offset"), 54.4e-3, 1e-9);
    near(reading(&json!({}), "offset_current"), 4e-6, 1e-9);
    let bridge = json!({ "leg_r": 75.0, "imbalance": 0.0, "input_r": 6.8e3, "input_spread": 0.004, "leg_c": 0.0, "c_imbalance": 0.0 });
    let bridge = ask("balance", &bridge).report.unwrap().reading("rejection").unwrap().value.unwrap();
    near(reading(&json!({}), "feed_rejection"), bridge, 1e-9);
}

/// Phantom does not cross a transformer, and a broken shield gives no way back.
#[test]
fn what_blocks_it() {
    for path in ["transformer", "shield_open", "short"] {
        let report = report(&json!({ "path": path }));
        let voltage = report.reading("voltage").unwrap();
        assert_eq!(voltage.value, Some(0.0));
        assert_eq!(voltage.verdict.as_ref().unwrap().tone, Tone::Trouble);
    }
    // One core: the current goes through one 6.8 kΩ.
    near(reading(&json!({ "path": "leg_open", "lead_length": 0.0 }), "voltage"), 48.0 - 4e-3 * 6.8e3, 1e-12);
}

#[test]
fn what_cannot_be_is_explained_at_its_field() {
    for (values, field) in [
        (json!({ "current": 20e-3 }), "current"),
        (json!({ "second": 12e-3 }), "second"),
        (json!({ "draws": "least", "least": 50.0 }), "least"),
        (json!({ "draws": "least", "second": 10e-3 }), "second"),
    ] {
        let answer = ask("phantom", &values);
        assert!(answer.report.is_none(), "{values}");
        assert!(answer.fields.get(field).unwrap().problem.is_some(), "{values}: {:?}", answer.fields);
    }
}

/// Lifted, a DI loses the way back of its phantom current, unless an output
/// transformer or an isolated converter keeps it (common practice, no source). What
/// is kept is what it had with the grounds joined.
#[test]
fn a_lifted_ground_and_its_supply() {
    let ask = |values: Value| common::ask(json!({ "calculator": "whole-line", "values": values }));
    let lost = ask(json!({ "ground": "lifted" }));
    let problem = lost.fields.get("ground").unwrap().problem.as_ref().unwrap();
    assert!(lost.report.is_none() && problem.message.contains("output transformer"), "{}", problem.message);
    let kept = ask(json!({ "ground": "lifted", "lifted_supply": "kept" })).report.unwrap();
    let joined = ask(json!({})).report.unwrap();
    assert_eq!(kept.reading("supply").unwrap().value, joined.reading("supply").unwrap().value);
    // A battery asks for neither.
    assert!(ask(json!({ "powered": "battery", "ground": "lifted" })).report.is_some());
}

/// Phantom is on XLR contacts only, and that is said where phantom is asked for.
#[test]
fn no_phantom_on_a_jack() {
    for (calculator, field) in [("phantom", "supply"), ("whole-line", "phantom")] {
        let calculator = stageohm::calculator::Calculator::find(calculator).unwrap();
        let described = calculator.describe(&stageohm::settings::Settings::default());
        let help = described.fields.iter().find(|described| described.id == field).unwrap().help.clone();
        assert!(help.contains("XLR contacts only") && help.contains("line input"), "{help}");
    }
}

/// The load line of P48, 48 V ± 4 behind 3.4 kΩ (IEC 61938, from memory): straight from
/// the open voltage to the short circuit, which 52 V bring to 15.29 mA.
#[test]
fn load_line() {
    let answer = report(&json!({ "lead_length": 0.0, "current": 4e-3, "least": 20.0 }));
    let plot = &answer.plots[0];
    let close = |got: f64, expected: f64| assert!((got - expected).abs() < 1e-9, "{got} is not {expected}");
    close(plot.x.from, 0.0);
    close(plot.x.to, 52.0 / 3.4e3);
    close(plot.y.from, 0.0);
    close(plot.y.to, 60.0);
    for (id, volts) in [("curve", 48.0), ("curve-lowest", 44.0), ("curve-highest", 52.0)] {
        let trace = plot.traces.iter().find(|trace| trace.id == id).unwrap();
        close(trace.x[0], 0.0);
        close(*trace.x.last().unwrap(), 52.0 / 3.4e3);
        for (x, y) in trace.x.iter().zip(&trace.y) {
            let left = volts - x * 3.4e3;
            if left > 1e-9 {
                close(*y, left);
            } else {
                assert!(y.is_nan() || y.abs() < 1e-9, "{id}: {y} at {x}");
            }
        }
    }
    let trace = |id: &str| plot.traces.iter().find(|trace| trace.id == id).unwrap();
    assert_eq!(trace("curve-least").y, [20.0, 20.0]);
    assert_eq!(trace("curve-device").y, [0.0, 52.0]);
    for x in &trace("curve-device").x {
        assert!((x / 4e-3 - 1.0).abs() < 1e-5 && *x <= 4e-3, "{x}");
    }
    assert!(trace("curve-device").x[0] < trace("curve-device").x[1]);
    close(plot.markers[0].x, 4e-3);
    close(plot.markers[0].y, 34.4);
    assert_eq!((plot.bands[0].from, plot.bands[0].to), (0.0, 10e-3));
    // Stops as far as the short circuit at 14.1 mA.
    assert_eq!(plot.stops, [1e-3, 2e-3, 4e-3, 7e-3, 10e-3]);
}

/// P24 gives 10 mA at most (IEC 61938, from memory): a device of 12 mA has its 8 V there, and
/// may not have them elsewhere.
#[test]
fn more_than_the_standard_allows() {
    for (milliamperes, tone) in [(9.9, Tone::Fine), (12.0, Tone::Watch)] {
        let device = json!({
            "supply": "p24", "lead_length": 0.0, "current": milliamperes / 1e3, "least": 8.0, "draws": "current"
        });
        let verdict = report(&device).headline[0].verdict.clone().unwrap();
        assert_eq!(verdict.tone, tone, "{milliamperes}");
        let line = common::report(
            "whole-line",
            json!({
                "box": "active", "powered": "phantom", "phantom": "p24", "run_length": 0.0,
                "current": milliamperes / 1e3, "least": 8.0
            }),
        );
        assert_eq!(line.reading("supply").unwrap().verdict.as_ref().unwrap().tone, tone, "{milliamperes}");
        assert_eq!(line.headline.iter().any(|reading| reading.id == "supply"), tone == Tone::Watch);
    }
    // What is left is more than may be drawn: (24 V − 5 V) / 600 Ω, 31.7 mA.
    let left = report(&json!({ "supply": "p24", "lead_length": 0.0, "draws": "least", "least": 5.0 }));
    assert_eq!(left.headline[0].verdict.as_ref().unwrap().tone, Tone::Watch);
}

/// Phantom on an output that was not made for it feeds nothing: it is not held against what a
/// device needs, and no balanced lead mends an output that has no second leg, whatever its
/// resistance (common practice, no source).
#[test]
fn an_adaptor_feeds_nothing() {
    for output_r in [json!(""), json!(100.0), json!(6.5e3)] {
        let values = json!({ "path": "adaptor", "output_r": output_r, "least": 20.0 });
        let told = report(&values);
        assert_eq!(told.headline[0].id, "voltage_on_output");
        assert_eq!(told.headline[0].verdict.as_ref().unwrap().tone, Tone::Trouble);
        let answer = common::ask(json!({ "calculator": "phantom", "values": values, "cures": true }));
        assert_eq!(answer.cures.unwrap(), [], "{values}");
    }
}
