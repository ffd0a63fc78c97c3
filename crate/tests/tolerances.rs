//! Tolerances: against distributions and worst cases in closed form.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

mod common;

use common::{ask, within};
use serde_json::{Value, json};
use stageohm::ask::{ReadingSpread, Spread};
use stageohm::calculator::REGISTER;
use stageohm::catalogue::tolerance::PartKind;
use stageohm::field::Kind;
use stageohm::numeric::Draws;
use std::f64::consts::TAU;

#[track_caller]
fn spread(calculator: &str, values: Value, tolerances: Value) -> Spread {
    let question = json!({ "calculator": calculator, "values": values, "working": false, "tolerances": tolerances });
    let spread = ask(question).tolerances.unwrap();
    assert!(spread.problem.is_none(), "{:?}", spread.problem);
    spread
}

#[track_caller]
fn reading<'a>(spread: &'a Spread, id: &str) -> &'a ReadingSpread {
    spread.readings.iter().find(|reading| reading.id == id).unwrap_or_else(|| panic!("{id} is not spread"))
}

/// A source of 10 kΩ on a load of 10 kΩ, both ±5 %.
fn divider(draws: u32, seed: u32) -> Spread {
    spread(
        "source-load",
        json!({ "source_r": "10k", "load_r": "10k" }),
        json!({ "draws": draws, "seed": seed, "percent": { "all": 5 } }),
    )
}

/// The share of dividers that lose less than `loss` dB, exactly.
///
/// The loss is 20·log10(1 + w), w the ratio of two numbers that are evenly spread
/// from a to b. For w ≤ 1 the line U = w·V cuts a triangle of legs w·b − a and
/// (w·b − a)/w off the square of all pairs; for w ≥ 1 the same by symmetry, since
/// 1/w is spread as w is.
fn share_below(loss: f64) -> f64 {
    let (a, b) = (0.95, 1.05);
    let w = 10_f64.powf(loss / 20.0) - 1.0;
    let triangle = |w: f64| (w * b - a).max(0.0).powi(2) / (2.0 * w * (b - a) * (b - a));
    if w <= 1.0 { triangle(w) } else { 1.0 - triangle(1.0 / w) }
}

/// The quantiles of a divider are those of its exact distribution, as nearly as
/// that many draws can know: the share below an estimated quantile p has the
/// standard deviation √(p(1 − p)/n) (David and Nagaraja, Order Statistics).
#[test]
fn quantiles_of_a_divider_converge_to_the_exact_ones() {
    for (draws, seeds) in [(100, 10), (1000, 3), (5000, 1)] {
        for seed in 0..seeds {
            let spread = divider(draws, seed);
            let loss = reading(&spread, "loss");
            for (share, level) in [(0.05, loss.low), (0.5, loss.middle), (0.95, loss.high)] {
                let deviation = (share * (1.0 - share) / f64::from(draws)).sqrt();
                let got = share_below(level.unwrap());
                assert!((got - share).abs() < 4.0 * deviation, "{draws} draws, seed {seed}: {got} is not {share}");
            }
        }
    }
}

/// Fixed quantiles of the same by 10⁷ draws in NumPy 2.4.6: `default_rng(1)`,
/// `quantile(20*log10(1 + uniform(.95, 1.05, n)/uniform(.95, 1.05, n)), [.05, .5, .95])`.
#[test]
fn quantiles_of_a_divider_are_those_of_another_program() {
    let spread = divider(3000, 1);
    let loss = reading(&spread, "loss");
    // Three standard deviations of 3000 draws are 0.016 dB at the ends.
    within("5 %", loss.low.unwrap(), DIVIDER[0], 0.02);
    within("50 %", loss.middle.unwrap(), DIVIDER[1], 0.02);
    within("95 %", loss.high.unwrap(), DIVIDER[2], 0.02);
}
const DIVIDER: [f64; 3] = [5.728_556_4, 6.020_624_09, 6.322_782_57];

/// The worst dividers have one arm at its top and the other at its bottom.
#[test]
fn worst_case_of_a_divider() {
    let spread = divider(100, 3);
    let loss = |w: f64| 20.0 * (1.0 + w).log10();
    within("most", reading(&spread, "loss").most.unwrap(), loss(1.05 / 0.95), 1e-12);
    within("least", reading(&spread, "loss").least.unwrap(), loss(0.95 / 1.05), 1e-12);
    // Every point of the curve reaches its own worst case: nothing here depends
    // on frequency.
    let curve = &spread.plots.iter().find(|plot| plot.id == "response").unwrap().traces[0];
    assert!(curve.most.len() > 200);
    for (least, most) in curve.least.iter().zip(&curve.most) {
        within("curve", *least, -loss(1.05 / 0.95), 1e-9);
        within("curve", *most, -loss(0.95 / 1.05), 1e-9);
    }
}

/// The corner f_c = 1/(2πRC) of a source on a capacitance is worst where both are
/// at the same end of ±5 % and ±10 %.
#[test]
fn worst_case_of_a_corner() {
    let spread = spread(
        "source-load",
        json!({ "source_r": "10k", "load_r": 1e12, "load_c": "1n" }),
        json!({ "draws": 100, "percent": { "load_r": 0 } }),
    );
    let corner = reading(&spread, "high_corner");
    let exact = |off: f64| 1.0 / (TAU * 10e3 * 1e-9 * off);
    for (got, expected) in [(corner.least, exact(1.05 * 1.1)), (corner.most, exact(0.95 * 0.9))] {
        within("corner", got.unwrap() / expected, 1.0, 1e-6);
    }
}

/// A coil on a lead, a load and nothing else, of which only the lead's
/// capacitance varies: near the resonance the level has its most inside the
/// range, at C = L/(R² + ω²L²), where the derivative of
/// |1 + (R + jωL)(G + jωC)|² to C is zero.
#[test]
fn worst_case_inside_the_range() {
    let (l, r, winding, load, f): (f64, f64, f64, f64, f64) = (2.5, 6.5e3, 110e-12, 1e6, 4e3);
    let spread = spread(
        "pickup",
        json!({
            "volume": "none", "tone": "none", "lead_r": "0", "lead_l": "0", "lead_length": "5 m", "lead_c": "100p",
            "load_r": "1M", "coil_l": l, "coil_r": r, "coil_c": winding, "frequency": f,
        }),
        json!({ "draws": 100, "percent": { "all": 0, "lead_c": 30 } }),
    );
    let w = TAU * f;
    let level = |c: f64| {
        let real = 1.0 + r / load - w * w * l * c;
        let imaginary = w * l / load + w * r * c;
        -10.0 * (real * real + imaginary * imaginary).log10()
    };
    let best = l / (r * r + w * w * l * l);
    let (from, to) = (winding + 0.7 * 500e-12, winding + 1.3 * 500e-12);
    assert!(from < best && best < to, "{from} {best} {to}");
    let got = reading(&spread, "level_at");
    within("most", got.most.unwrap(), level(best), 1e-5);
    within("least", got.least.unwrap(), level(from).min(level(to)), 1e-9);
    assert!(level(best) > level(from).max(level(to)) + 1.0, "a corner would do");
    assert_eq!(spread.varied.len(), 1);
}

/// The resistors of a pad are parts too: E24 values 910 Ω and 110 Ω make an
/// L pad of 20 dB from 1 kΩ into 1.5 kΩ.
#[test]
fn resistors_of_a_pad_have_tolerances() {
    let spread = spread(
        "pad",
        json!({ "legs": "unbalanced", "input_r": "1k", "loss": "20", "load_r": "1.5k" }),
        json!({ "draws": 100, "percent": { "resistor": 1 } }),
    );
    let got = reading(&spread, "loss_e24");
    let exact = |series: f64, shunt: f64| 20.0 * (1.0 + 910.0 * series * (1.0 / (110.0 * shunt) + 1.0 / 1.5e3)).log10();
    within("most", got.most.unwrap(), exact(1.01, 0.99), 1e-9);
    within("least", got.least.unwrap(), exact(0.99, 1.01), 1e-9);
}

/// A series circuit is least at its resonance, R, inside of what the coil may be,
/// and most where the coil is furthest off, √(R² + (ω·ΔL)²) (any circuit-theory text).
/// So is a power highest at its match, inside of what the load may be.
#[test]
fn extremes_inside_the_range_of_a_part() {
    let (omega, coil) = (TAU * 1000.0, 0.1);
    let spread_of = |values: Value, part: &str| {
        spread("source-load", values, json!({ "draws": 100, "percent": { "all": 0, part: 20 } }))
    };
    let series = json!({
        "source_r": 100.0, "source_l": coil, "coupling_c": 1.0 / (1.07 * omega * omega * coil), "frequency": 1000.0
    });
    let spread = spread_of(series, "source_l");
    let z = reading(&spread, "z_source");
    within("least", z.least.unwrap(), 100.0, 1e-3);
    within("most", z.most.unwrap(), 100_f64.hypot(0.27 * omega * coil), 1e-9);
    let spread = spread_of(json!({ "source_r": 1070.0, "load_r": 1000.0, "emf": "2 V" }), "load_r");
    let power = reading(&spread, "power");
    within("most", power.most.unwrap(), 1.0 / 1070.0, 1e-10);
    within("least", power.least.unwrap(), 4.0 * 800.0 / (1870.0 * 1870.0), 1e-12);
}

/// Each of the same resistors keeps to its own tolerance.
#[test]
fn each_resistor_of_a_pad_has_its_own_tolerance() {
    let exact = |series: f64, shunt: f64| 20.0 * (1.0 + 910.0 * series * (1.0 / (110.0 * shunt) + 1.0 / 1.5e3)).log10();
    for [of_r1, of_r2] in [[1.0, 5.0], [5.0, 1.0], [2.0, 0.0], [0.0, 2.0]] {
        let spread = spread(
            "pad",
            json!({ "legs": "unbalanced", "input_r": "1k", "loss": "20", "load_r": "1.5k" }),
            json!({ "draws": 100, "percent": { "r1": of_r1, "r2": of_r2 } }),
        );
        let got = reading(&spread, "loss_e24");
        let (series, shunt) = (of_r1 / 100.0, of_r2 / 100.0);
        within("most", got.most.unwrap(), exact(1.0 + series, 1.0 - shunt), 1e-9);
        within("least", got.least.unwrap(), exact(1.0 - series, 1.0 + shunt), 1e-9);
    }
}

#[test]
fn the_same_seed_draws_the_same_rigs() {
    let [a, b, c] = [7, 7, 8].map(|seed| serde_json::to_string(&divider(500, seed)).unwrap());
    assert_eq!(a, b);
    assert_ne!(a, c);
}

/// A tolerance by field goes before one by kind, and that before one for all.
#[test]
fn the_nearest_tolerance_holds() {
    let wide = |percent: Value| {
        let spread = spread(
            "source-load",
            json!({ "source_r": "1k", "load_r": "1k" }),
            json!({ "draws": 100, "percent": percent }),
        );
        let of = |name: &str| {
            spread.varied.iter().find(|part| part.name == name).map(|part| part.text.replace('\u{a0}', " "))
        };
        (of("Source resistance"), of("Load resistance"))
    };
    let text = |percent: &str| Some(percent.to_owned());
    assert_eq!(wide(json!({})), (text("±5 %: 950 Ω to 1.05 kΩ"), text("±5 %: 950 Ω to 1.05 kΩ")));
    assert_eq!(wide(json!({ "all": 10 })).1, text("±10 %: 900 Ω to 1.1 kΩ"));
    assert_eq!(wide(json!({ "all": 10, "resistor": 2 })).1, text("±2 %: 980 Ω to 1.02 kΩ"));
    let both = wide(json!({ "all": 10, "resistor": 2, "load_r": 0 }));
    assert_eq!(both, (text("±2 %: 980 Ω to 1.02 kΩ"), None));
}

/// Whatever is asked for can be chosen too, for all parts and for one kind, in
/// the order of size.
#[test]
fn every_tolerance_asked_for_is_a_step() {
    for (percent, kind, steps) in [
        (json!({ "all": 7 }), 7.0, [0.0, 1.0, 2.0, 5.0, 7.0, 10.0, 20.0].as_slice()),
        (json!({ "all": 7, "resistor": 5 }), 5.0, &[0.0, 1.0, 2.0, 5.0, 7.0, 10.0, 20.0]),
        (json!({ "all": 7, "resistor": 0.5 }), 0.5, &[0.0, 0.5, 1.0, 2.0, 5.0, 7.0, 10.0, 20.0]),
        (json!({ "resistor": 50 }), 50.0, &[0.0, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0]),
    ] {
        let spread = spread("source-load", json!({}), json!({ "draws": 100, "percent": percent }));
        let resistors = spread.kinds.iter().find(|kind| kind.id == "resistor").unwrap();
        assert_eq!(resistors.percent, kind);
        assert_eq!(resistors.steps.iter().map(|step| step.percent).collect::<Vec<_>>(), steps);
        assert!(spread.kinds.iter().all(|kind| kind.steps.iter().any(|step| step.percent == kind.percent)));
    }
}

/// The usual tolerances (common practice, no source; a resistor's is that of E24
/// in IEC 60063).
#[test]
fn usual_tolerances() {
    for (kind, percent) in [
        (PartKind::Resistor, 5.0),
        (PartKind::Track, 20.0),
        (PartKind::Capacitor, 10.0),
        (PartKind::Winding, 10.0),
        (PartKind::Lead, 10.0),
        (PartKind::Length, 2.0),
        (PartKind::Turns, 1.0),
    ] {
        assert_eq!(kind.usual(), percent, "{kind:?}");
    }
}

/// The letters of IEC 60062 (from memory): F 1 %, G 2 %, J 5 %, K 10 %, M 20 %.
#[test]
fn letters_of_tolerances() {
    let spread = spread("source-load", json!({}), json!({ "draws": 100 }));
    let resistors = spread.kinds.iter().find(|kind| kind.id == "resistor").unwrap();
    let steps: Vec<_> = resistors.steps.iter().map(|step| (step.percent, step.text.replace('\u{a0}', " "))).collect();
    let lettered = [(1.0, "F"), (2.0, "G"), (5.0, "J"), (10.0, "K"), (20.0, "M")];
    let expected: Vec<_> =
        lettered.iter().map(|(percent, letter)| (*percent, format!("±{percent} % ({letter})"))).collect();
    assert_eq!(steps[1..], expected);
}

/// A device on P48 through a shield that alone varies, by ±20 %, and the shield
/// of each draw of a seed: parts are drawn in the order of their fields, the
/// length, which is exact here, before the shield.
fn shields(draws: usize, seed: u32) -> (Value, Value, Vec<f64>) {
    let values = json!({ "core_r": 0.0, "leg_r": 0.0, "lead_length": 10.0, "shield_r": 100.0 });
    let tolerances = json!({ "draws": draws, "seed": seed, "percent": { "all": 0, "shield_r": 20 } });
    let mut random = Draws::new(seed);
    let mut drawn: Vec<_> = (0..draws)
        .map(|_| {
            random.share();
            80.0 + 40.0 * random.share()
        })
        .collect();
    drawn.sort_by(f64::total_cmp);
    (values, tolerances, drawn)
}

/// The lower, the middle and the upper value are those with 5, 50 and 95 % of the
/// draws below: of 101 draws in order the sixth, the 51st and the 96th.
#[test]
fn shares_of_the_draws() {
    let (values, tolerances, drawn) = shields(101, 3);
    let spread = spread("phantom", values, tolerances);
    let voltage = reading(&spread, "voltage");
    let volts = |shield: f64| 48.0 - 4e-3 * (3.4e3 + 10.0 * shield);
    within("low", voltage.low.unwrap(), volts(drawn[95]), 1e-9);
    within("middle", voltage.middle.unwrap(), volts(drawn[50]), 1e-9);
    within("high", voltage.high.unwrap(), volts(drawn[5]), 1e-9);
}

/// A curve is shown where half of the draws have it, and not where fewer do: with
/// 20 V left for it and a second device beside, no current may be left for the
/// first, and then there is no answer.
#[test]
fn curves_of_half_the_draws() {
    // A seed of which more than half have more shield than is marked.
    let (values, tolerances, drawn) = shields(200, 5);
    assert!(drawn[98] > 100.0, "{}", drawn[98]);
    for (there, shown) in [(101, true), (100, true), (99, false)] {
        let between = (drawn[there - 1] + drawn[there]) / 2.0;
        let mut values = values.clone();
        values["draws"] = json!("least");
        values["second"] = json!(28.0 / (3.4e3 + 10.0 * between));
        values["shield_r"] = json!(100.0);
        let answer = ask(json!({
            "calculator": "phantom", "values": values, "working": false, "tolerances": tolerances
        }));
        let Some(spread) = answer.tolerances else { panic!("{:?}", answer.fields) };
        within("share", reading(&spread, "device_current").share, there as f64 / 200.0, 1e-12);
        let curve = &spread.plots[0].traces[0];
        assert_eq!(curve.low.iter().any(|low| low.is_finite()), shown, "{there}");
    }
}

/// What may be asked for, from both sides; 2000 draws where nothing is said.
#[test]
fn widest_tolerance_and_most_draws() {
    spread("source-load", json!({}), json!({ "draws": 100, "percent": { "all": 50 } }));
    let most = spread("levels", json!({}), json!({ "draws": 10_000 }));
    assert!(most.varied.is_empty());
    let usual = spread("phantom", json!({}), json!({ "percent": { "all": 0, "shield_r": 5 } }));
    assert!(usual.message.starts_with("2000 "), "{}", usual.message);
}

/// Nothing is drawn beyond what a calculator computes with.
#[test]
fn ranges_end_at_the_limits_of_fields() {
    let spread = spread("source-load", json!({ "load_r": 1e12 }), json!({ "draws": 100 }));
    let load = spread.varied.iter().find(|part| part.name == "Load resistance").unwrap();
    assert!(load.text.ends_with("to 1000\u{a0}GΩ"), "{}", load.text);
}

#[test]
fn wrong_tolerances_are_explained() {
    for (tolerances, part) in [
        (json!({ "draws": 99 }), "100 to 10000"),
        (json!({ "draws": 10_001 }), "100 to 10000"),
        (json!({ "percent": { "all": 50.5 } }), "0 to 50"),
        (json!({ "percent": { "resistor": -1 } }), "0 to 50"),
        (json!({ "percent": { "emf": 5 } }), "emf"),
        (json!({ "percent": { "nothing": 5 } }), "nothing"),
    ] {
        let answer = ask(json!({ "calculator": "source-load", "tolerances": tolerances }));
        let spread = answer.tolerances.unwrap();
        let message = spread.problem.unwrap().message;
        assert!(message.contains(part) && spread.readings.is_empty(), "{message}");
        assert!(answer.report.is_some());
    }
}

/// Where a reading exists in some rigs only, its share says so.
#[test]
fn a_resonance_that_comes_and_goes() {
    // A load that all but takes the peak.
    let spread = spread("pickup", json!({ "load_r": "130k" }), json!({ "draws": 1000, "percent": { "all": 20 } }));
    let peak = reading(&spread, "peak");
    assert!(peak.share > 0.05 && peak.share < 0.95, "{}", peak.share);
    assert!(peak.text.contains("of rigs that have it"), "{}", peak.text);
}

/// What must hold for every calculator, the order of the five numbers, the
/// present answer within them, and words for all of it.
#[test]
fn every_calculator_has_a_spread_that_holds_its_answer() {
    // Few parts, since this is a build without optimisation.
    let few = json!({ "all": 0, "resistor": 5, "lead": 5 });
    for calculator in REGISTER {
        let here = calculator.id;
        let answer = ask(json!({
            "calculator": calculator.id, "working": false, "tolerances": { "draws": 100, "percent": few },
        }));
        let (report, spread) = (answer.report.unwrap(), answer.tolerances.unwrap());
        assert!(spread.problem.is_none(), "{here}");
        assert_eq!(!spread.kinds.is_empty(), calculator.has_parts(), "{here}");
        assert!(!spread.message.contains("tolerance-"), "{here}: {}", spread.message);
        for kind in &spread.kinds {
            assert!(!kind.name.contains("part-kind"), "{here}: {}", kind.name);
        }
        for part in &spread.varied {
            assert!(part.text.starts_with('±') && !part.name.contains('_'), "{here}: {part:?}");
        }
        for ReadingSpread { id, low, middle, high, least, most, share, .. } in &spread.readings {
            let [low, middle, high, least, most] = [low, middle, high, least, most].map(|value| value.unwrap());
            assert!(least <= low && low <= middle && middle <= high && high <= most, "{here}: {id}");
            assert!((0.0..=1.0).contains(share), "{here}: {id}");
            if let Some(value) = report.reading(id).unwrap().value {
                assert!(least <= value && value <= most, "{here}: {id} {least} {value} {most}");
            }
        }
        for band in &spread.plots {
            let plot = report.plots.iter().find(|plot| plot.id == band.id).unwrap();
            assert!(!band.summary.contains("tolerance-") && !band.summary.contains("{ $"), "{here}: {}", band.summary);
            assert!(band.from <= plot.y.from && band.to >= plot.y.to, "{here}: {}", band.id);
            for curve in &band.traces {
                let trace = plot.traces.iter().find(|trace| trace.id == curve.id).unwrap();
                for (i, y) in trace.y.iter().enumerate().filter(|(i, y)| y.is_finite() && curve.low[*i].is_finite()) {
                    let (least, most) = (curve.least[i], curve.most[i]);
                    assert!(least <= curve.low[i] && curve.low[i] <= curve.high[i] && curve.high[i] <= most, "{here}");
                    assert!(least <= *y && *y <= most, "{here}: {} {least} {y} {most}", curve.id);
                }
            }
        }
    }
}

/// Where the places along a plot have names, the words of its band use them.
#[test]
fn the_widest_place_is_called_by_its_name() {
    let tolerances = json!({ "draws": 100 });
    let answer = ask(json!({ "calculator": "level-chain", "working": false, "tolerances": tolerances }));
    let (report, spread) = (answer.report.unwrap(), answer.tolerances.unwrap());
    let (places, band) = (&report.plots[0].x.names, &spread.plots[0]);
    let widths = band.traces[0].low.iter().zip(&band.traces[0].high).map(|(low, high)| high - low);
    let (widest, _) = widths.enumerate().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
    let sentence = format!("It is widest at “{}”: ", places[widest]);
    assert!(places.len() > 4 && !places[widest].is_empty(), "{places:?}");
    assert!(band.summary.contains(&sentence), "{}", band.summary);
}

/// A tolerance is asked for by one name: no field is called as a kind of part is.
#[test]
fn names_of_fields_and_kinds_are_apart() {
    for field in REGISTER.iter().flat_map(|calculator| calculator.fields) {
        assert!(field.id != "all" && PartKind::ALL.iter().all(|kind| kind.id() != field.id), "{}", field.id);
        if let Kind::Number(number) = &field.kind {
            assert!(number.part.is_none() || number.limits.0 >= 0.0, "{} may be negative", field.id);
        }
    }
}
