//! What a response is worth: everything for what is right, less the further off it is, however
//! it is written.
#![allow(clippy::unwrap_used, clippy::panic)]

mod common;

use common::lesson::{at, first, of_step, read, shipped};
use common::{ask, report};
use proptest::prelude::*;
use serde_json::{Value, json};
use stageohm::lesson::{Dealt, Lesson, Marked, MarkedRow, Response, deal, mark, measure};
use stageohm::named::Named;
use stageohm::report::{Report, Tone};
use stageohm::settings::{Decimal, Settings};
use std::f64::consts::TAU;

fn number(calculator: &str, values: &Value, reading: &str, good: &str, none: &str) -> Lesson {
    of_step(
        calculator,
        values,
        json!({ "kind": "number", "reading": reading, "good": good, "none": none, "points": 4, "hints": ["a", "b"] }),
    )
}

fn ids(marked: &Marked) -> Vec<&str> {
    marked.findings.iter().map(|finding| finding.id).collect()
}

/// Keys against formulas that any handbook has: the loss of a potential divider, the corner of
/// R and C, the resonance of L and C.
#[test]
fn keys_are_those_of_the_handbooks() {
    for (source, load, farads) in [(150.0, 1500.0, 10e-9), (10e3, 10e3, 1e-9), (600.0, 47e3, 4.7e-9)] {
        let values = json!({ "source_r": format!("{source}"), "load_r": format!("{load}"), "load_c": "0" });
        let key = first(&number("source-load", &values, "loss", "0.1 dB", "3 dB"), json!({ "text": "0 dB" })).key;
        common::within("divider", key.value.unwrap(), 20.0 * f64::log10((source + load) / load), 1e-9);

        let values =
            json!({ "source_r": format!("{source}"), "load_r": format!("{load}"), "load_c": format!("{farads:e} F") });
        let key = first(&number("source-load", &values, "high_corner", "1 %", "9 %"), json!({ "text": "1 Hz" })).key;
        let corner = 1.0 / (TAU * (source * load / (source + load)) * farads);
        common::within("corner", key.value.unwrap(), corner, 1e-3 * corner);
    }
    for (henries, winding, metres) in [(2.5, 110e-12, 5.0), (4.5, 150e-12, 10.0), (6.0, 80e-12, 3.0)] {
        let values = json!({
            "coil_l": format!("{henries} H"), "coil_c": format!("{winding:e} F"), "lead_c": "100 pF/m",
            "lead_length": format!("{metres} m"), "load_c": "0",
        });
        let key = first(&number("pickup", &values, "free_resonance", "1 %", "9 %"), json!({ "text": "1 Hz" })).key;
        let resonance = 1.0 / (TAU * f64::sqrt(henries * (winding + 100e-12 * metres)));
        common::within("resonance", key.value.unwrap(), resonance, 1e-3 * resonance);
    }
}

#[test]
fn units_prefixes_and_decimal_signs_make_no_difference() {
    let corner = number(
        "source-load",
        &json!({ "source_r": "10k", "load_r": "10k", "load_c": "15.76n" }),
        "high_corner",
        "1 %",
        "50 %",
    );
    let share = |text: &str, decimal| {
        let settings = Settings { decimal, ..Settings::default() };
        let response = Response { text: text.to_owned(), ..Response::default() };
        let marked = mark(&corner, &deal(&corner, 1), 0, &response, &settings).unwrap();
        assert!(marked.problem.is_none(), "{text}: {marked:?}");
        marked.share
    };
    let hertz = share("2220 Hz", Decimal::Point);
    assert!((0.5..1.0).contains(&hertz), "{hertz}");
    for (text, decimal) in
        [("2220", Decimal::Point), ("2.22 kHz", Decimal::Point), ("2k22", Decimal::Point), ("2,22 kHz", Decimal::Comma)]
    {
        assert!((share(text, decimal) - hertz).abs() < 1e-12, "{text}");
    }
    let level = number("levels", &json!({ "level": "-3 dBu" }), "dbu", "0.1 dB", "6 dB");
    for (text, decimal) in
        [("-3 dBu", Decimal::Point), ("−3.0 dBu", Decimal::Point), ("−3,0 dBu", Decimal::Comma), ("-3", Decimal::Comma)]
    {
        let settings = Settings { decimal, ..Settings::default() };
        let response = Response { text: text.to_owned(), ..Response::default() };
        let share = mark(&level, &deal(&level, 1), 0, &response, &settings).unwrap().share;
        assert!((share - 1.0).abs() < 1e-12, "{text}");
    }
}

/// A level is the same level told as another one, or as a voltage: 0 dBu is 0.775 V and
/// −2.2 dBV (IEC 60027-3).
#[test]
fn a_level_may_be_told_as_another_level_or_as_a_voltage() {
    let marked = |reading: &str, text: &str| {
        let lesson = number("levels", &json!({ "level": "0 dBu" }), reading, "0.01 dB", "6 dB");
        first(&lesson, json!({ "text": text }))
    };
    for (reading, text) in [
        ("dbu", "-2.218 dBV"),
        ("dbu", "0.7746 V"),
        ("dbu", "774.6 mV"),
        ("dbv", "0 dBu"),
        ("dbv", "-2.218"),
        ("dbv", "0.7746 Vrms"),
    ] {
        let marked = marked(reading, text);
        assert!(marked.problem.is_none() && marked.share >= 1.0, "{reading}: {text}: {marked:?}");
    }
    // Two decibels are no voltage, and no voltage has no level.
    assert!(marked("dbu", "-2.218").share < 1.0);
    assert!(marked("dbu", "0 V").problem.is_some() && marked("dbu", "3 kHz").problem.is_some());
}

/// Nothing at all, and what has the wrong sign, is as far off as can be.
#[test]
fn nothing_is_no_guess() {
    let corner = number("pickup", &json!({}), "high_corner", "20 %", "150 %");
    for text in ["0", "0 Hz", "-1 mHz", "-100 Hz", "1 µHz"] {
        assert_eq!(first(&corner, json!({ "text": text })).share, 0.0, "{text}");
    }
}

/// A rejection of 60 dB is also written as −60 dB, and so is a loss; a headroom of −6 dB is another.
#[test]
fn an_amount_may_have_either_sign() {
    let share = |calculator: &str, reading: &str, sign: f64| {
        let lesson = number(calculator, &json!({}), reading, "0.5 dB", "6 dB");
        let right = first(&lesson, json!({ "text": "1 dB" })).key.value.unwrap();
        first(&lesson, json!({ "text": format!("{:.6} dB", sign * right) })).share
    };
    for (calculator, reading) in [("balance", "rejection"), ("source-load", "loss")] {
        assert_eq!(share(calculator, reading, 1.0), 1.0, "{reading}");
        assert_eq!(share(calculator, reading, -1.0), 1.0, "{reading}");
    }
    assert_eq!((share("level-chain", "margin", 1.0), share("level-chain", "margin", -1.0)), (1.0, 0.0));
}

/// Nothing may be the answer: a source of no resistance loses nothing.
#[test]
fn nothing_may_be_the_answer() {
    let lesson = number("source-load", &json!({ "source_r": "0", "load_r": "10k" }), "loss", "5 %", "50 %");
    assert_eq!(first(&lesson, json!({ "text": "0" })).share, 1.0);
    assert_eq!(first(&lesson, json!({ "text": "3 dB" })).share, 0.0);
}

/// What is nearest keeps what was taken: phantom is put on before another box is.
#[test]
fn the_nearest_set_keeps_what_was_taken() {
    let lesson = read(&shipped("passive-bass"));
    let parts = json!({ "box": "active", "run": "balanced", "lead_length": "3 m" });
    let marked = at(&lesson, &deal(&lesson, 3), 7, json!({ "parts": parts }));
    assert_eq!(marked.key.parts.get("box").map(String::as_str), Some("active"), "{:?}", marked.key);
    assert_eq!(marked.key.parts.get("phantom").map(String::as_str), Some("p48"), "{:?}", marked.key);
}

/// The sign is named where it is the only mistake, not where the figure is near nothing anyhow.
#[test]
fn a_small_figure_has_no_wrong_sign() {
    let lesson = number("levels", &json!({ "level": "-1 dBu" }), "dbu", "1.5 dB", "9 dB");
    assert!(!ids(&first(&lesson, json!({ "text": "2 dBu" }))).contains(&"sign"));
    let lesson = number("levels", &json!({ "level": "-30 dBu" }), "dbu", "1.5 dB", "9 dB");
    assert_eq!(ids(&first(&lesson, json!({ "text": "30 dBu" }))), ["sign"]);
}

/// To draw nothing happening is no answer, nor is a curve that goes the other way.
#[test]
fn a_level_line_is_worth_nothing() {
    let lesson = read(&shipped("passive-bass"));
    let dealt = deal(&lesson, 7);
    let marked = |curve: Value| at(&lesson, &dealt, 3, json!({ "curve": curve }));
    for level in [0.0, -5.0, -12.0, -30.0, -40.0] {
        let line = marked(json!([[40, level], [8000, level]]));
        assert!(line.share < 0.02, "{level}: {}", line.share);
        assert!(!ids(&line).contains(&"drawn-for"), "{level}: {:?}", line.findings);
        assert!(!line.findings.is_empty(), "{level}");
    }
    assert!(marked(json!([[40, -30], [8000, 0]])).share < 0.02);
    // What most draw first, without the divider in the bass, has something, and less than the key.
    let right = marked(json!([[40, -5], [80, -5]])).key.curve;
    let without: Vec<_> = right.iter().map(|(hz, level)| (*hz, level + 5.0)).collect();
    let (without, right) = (marked(json!(without)), marked(json!(right)));
    assert!((0.3..0.9).contains(&without.share), "{}", without.share);
    assert_eq!((right.share, ids(&right)), (1.0, vec!["right"]));
    assert!(right.key.text.contains("where it is level"), "{}", right.key.text);
}

/// A gain is less of a loss, and breaks no limit of one: −20·log10 of a ratio above one.
#[test]
fn a_gain_is_no_loss() {
    // A resonance lifts the treble: 10 m of lead on a coil of 3.5 H, into a megohm.
    let lesson = read(&shipped("passive-bass"));
    let is_it = |dealt: &Dealt| {
        [("coil_l", "3.5 H"), ("lead_length", "10 m")]
            .iter()
            .all(|(id, text)| dealt.drawn.get(id).is_some_and(|drawn| drawn == text))
    };
    let dealt = (1..500).map(|seed| deal(&lesson, seed)).find(is_it).unwrap();
    let parts = json!({ "box": "active", "phantom": "p48", "run": "balanced" });
    let target = at(&lesson, &dealt, 7, json!({ "parts": parts }));
    let row = &target.rows[0];
    assert!(row.name.contains("lost") && row.is.starts_with('−') && row.fits && target.share == 1.0, "{target:?}");
    let mut values = serde_json::to_value(&dealt.steps[7].values).unwrap();
    values.as_object_mut().unwrap().extend(parts.as_object().unwrap().clone());
    let ways = json!([
        { "name": "a gain", "values": {} },
        { "name": "a loss", "values": { "box": "none", "phantom": "off", "run": "unbalanced", "lead_length": "30 m" } },
    ]);
    let step = json!({ "kind": "choice", "reading": "loss", "best": "least", "ways": ways, "points": 1 });
    let choice = first(&of_step("whole-line", &values, step), json!({ "order": ["0", "1"] }));
    assert_eq!((choice.share, choice.rows[0].rank, choice.rows[0].place), (1.0, Some(1), Some(1)), "{choice:?}");
}

/// What spoils a limit that was kept never earns anything: with 10 dB of pad alone the input
/// clips and the converter gets too little; gain on top of it mends the one and not the other.
#[test]
fn no_limit_is_bought_with_another() {
    let lesson = read(&shipped("levels"));
    let step = &lesson.steps[6];
    let mut compared = 0;
    for seed in 1..=6 {
        let dealt = deal(&lesson, seed);
        let of = |field: &'static str| step.drawer.iter().filter(move |part| part.field == field);
        for pad in of("pad").map(|part| &part.value) {
            for gain in of("gain").map(|part| &part.value) {
                let with = at(&lesson, &dealt, 6, json!({ "parts": { "pad": pad, "gain": gain } }));
                let without = at(&lesson, &dealt, 6, json!({ "parts": { "pad": pad } }));
                // What is still missed is missed by as much.
                let is_no_worse = |(now, before): (&MarkedRow, &MarkedRow)| now.fits || now.is == before.is;
                if with.rows.iter().zip(&without.rows).all(is_no_worse) {
                    compared += 1;
                    assert!(with.share >= without.share, "{seed} {pad} {gain}: {} {}", with.share, without.share);
                }
            }
        }
    }
    assert!(compared > 10, "{compared}");
}

/// The reading that proves it is told: a worn contact of an ohm is on the ohmmeter.
#[test]
fn the_reading_that_differs_the_most_is_told() {
    let lesson = read(&shipped("hum"));
    let named = |part: &str| lesson.steps[6].cases.iter().position(|case| case.name.contains(part)).unwrap();
    let (worn, field) = (named("Worn plugs"), named("in a loop"));
    let dealt = (1..200).map(|seed| deal(&lesson, seed)).find(|dealt| dealt.steps[6].wrong == Some(field)).unwrap();
    let marked = at(&lesson, &dealt, 6, json!({ "case": worn, "measured": ["current", "shield"] }));
    let shield = marked.rows.iter().find(|row| row.id == "shield").unwrap();
    assert!(marked.findings[0].text.contains(&shield.is), "{marked:?}");
    assert_eq!(marked.rows.len(), 2);
}

/// What cannot be read is no wrong answer: it is told, and nothing is marked.
#[test]
fn what_cannot_be_read_is_told() {
    let corner = number("source-load", &json!({ "load_c": "10n" }), "high_corner", "1 %", "50 %");
    for text in ["", "much", "3 V", "1e999 Hz"] {
        let marked = first(&corner, json!({ "text": text }));
        assert!(marked.problem.is_some() && marked.findings.is_empty() && marked.points == 0.0, "{text}");
    }
}

#[test]
fn a_number_names_the_slip() {
    let corner = number("pickup", &json!({}), "free_resonance", "5 %", "60 %");
    let right = first(&corner, json!({ "text": "1 Hz" })).key.value.unwrap();
    let told = |text: String| ids(&first(&corner, json!({ "text": text }))).join(" ");
    assert_eq!(told(format!("{right:.3} Hz")), "right");
    assert_eq!(told(format!("{:.3} Hz", right * 1000.0)), "power");
    // One or two powers are no prefix.
    assert_eq!(told(format!("{:.3} Hz", right / 10.0)), "tens");
    // A step may have been left out instead, so it is told what that takes: 10:1 once, not squared.
    let step = json!({ "kind": "number", "reading": "reflected_load", "open": ["ratio"], "good": "10 %", "points": 2 });
    let transformer = of_step("transformer", &json!({ "ratio": "10:1", "load_r": "1.5k" }), step);
    let once = first(&transformer, json!({ "text": "15k" }));
    assert_eq!(ids(&once), ["tens", "needs-less"]);
    assert!(once.findings[1].text.contains("3.16:1"), "{once:?}");
    assert_eq!(told(format!("-{right:.3} Hz")), "sign");
    let rejection = number("balance", &json!({}), "rejection", "1 dB", "9 dB");
    let right = first(&rejection, json!({ "text": "1 dB" })).key.value.unwrap();
    let told = |text: String| ids(&first(&rejection, json!({ "text": text }))).join(" ");
    assert_eq!(told(format!("{:.3} dB", right / 2.0)), "half-decibels");
    assert_eq!(told(format!("{:.3} dB", right * 2.0)), "twice-decibels");
    assert_eq!(told(format!("{:.3} dB", right + 6.0)), "double");
}

/// What the answer would have needed, put in, gives the answer.
#[test]
fn what_an_answer_would_have_needed_gives_it() {
    let step = json!({ "kind": "number", "reading": "free_resonance", "open": ["lead_length"] });
    let lesson = of_step("pickup", &json!({ "lead_length": "5 m" }), step);
    let marked = first(&lesson, json!({ "text": "3 kHz" }));
    assert_eq!(ids(&marked), ["needs-more"]);
    let metres =
        marked.findings[0].text.split("have to be ").nth(1).unwrap().split(" m").next().unwrap().replace('\u{a0}', " ");
    let metres = metres.split(' ').next().unwrap().to_owned();
    let solved = report("pickup", json!({ "lead_length": format!("{metres} m") }));
    common::within("resonance", common::reading(&solved, "free_resonance"), 3000.0, 10.0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// The further off, the less: as a ratio either way, and by decibels.
    #[test]
    fn a_number_is_worth_less_the_further_it_is_off(a in 1.0..4.0_f64, b in 1.0..4.0_f64, up: bool) {
        let lesson = number("source-load", &json!({ "load_c": "10n" }), "high_corner", "10 %", "150 %");
        let right = first(&lesson, json!({ "text": "1 Hz" })).key.value.unwrap();
        let share = |ratio: f64| {
            let said = if up { right * ratio } else { right / ratio };
            first(&lesson, json!({ "text": format!("{said:.6} Hz") })).share
        };
        let (near, far) = (a.min(b), a.max(b));
        prop_assert!(share(near) >= share(far));
        prop_assert!(share(1.0) == 1.0 && share(1.0 / 1.09) == 1.0 && share(2.6) == 0.0);
        // Twice and half are equally good guesses.
        let either = |said: f64| first(&lesson, json!({ "text": format!("{said:.6} Hz") })).share;
        prop_assert!((either(right * near) - either(right / near)).abs() < 1e-6);
    }

    #[test]
    fn a_level_is_worth_less_the_further_it_is_off(a in 0.0..12.0_f64, b in 0.0..12.0_f64, up: bool) {
        let lesson = number("levels", &json!({ "level": "-10 dBu" }), "dbu", "1 dB", "8 dB");
        let share = |off: f64| {
            let said = if up { -10.0 + off } else { -10.0 - off };
            first(&lesson, json!({ "text": format!("{said:.6} dBu") })).share
        };
        let (near, far) = (a.min(b), a.max(b));
        prop_assert!(share(near) >= share(far) && share(0.9) == 1.0 && share(8.1) == 0.0);
    }

    /// Moved up or down, the right curve is worth less the more.
    #[test]
    fn a_curve_is_worth_less_the_further_it_is_off(a in 0.0..20.0_f64, b in 0.0..20.0_f64, up: bool, load in 0..3_usize) {
        let lesson = of_step(
            "pickup",
            &json!({ "load_r": (["10k", "100k", "1M"][load]) }),
            json!({ "kind": "curve", "plot": "response", "from": "50 Hz", "to": "10 kHz", "good": "1.5 dB", "none": "9 dB" }),
        );
        let right = first(&lesson, json!({ "curve": [[50, 0], [100, 0]] })).key.curve;
        let share = |off: f64| {
            let off = if up { off } else { -off };
            let points: Vec<_> = right.iter().map(|(hz, level)| (*hz, level + off)).collect();
            first(&lesson, json!({ "curve": points })).share
        };
        let (near, far) = (a.min(b), a.max(b));
        prop_assert!(share(near) >= share(far) - 1e-9, "{} {}", share(near), share(far));
        prop_assert!(share(0.0) > 0.99 && share(1.4) > 0.99 && share(20.0) < 0.5);
    }

    /// A decade is exact, a neighbour is half, the rest is nothing.
    #[test]
    fn a_magnitude_is_exact_or_half_or_nothing(ohms in 2_u32..98_000_000, off in -4_i32..5) {
        let values = json!({ "source_r": format!("{ohms}"), "load_r": "1G" });
        let lesson = of_step("source-load", &values, json!({ "kind": "magnitude", "reading": "z_source" }));
        let decade = ohms.ilog10().cast_signed();
        let share = first(&lesson, json!({ "decade": decade + off })).share;
        prop_assert_eq!(share, [1.0, 0.5, 0.0][(off.unsigned_abs() as usize).min(2)]);
    }

    #[test]
    fn hints_cost_and_none_that_there_is_not(hints in 0_usize..9) {
        let lesson = number("levels", &json!({}), "dbu", "1 dB", "8 dB");
        let marked = first(&lesson, json!({ "text": "4 dBu", "hints": hints }));
        let share = 1.0 - 0.2 * hints.min(2) as f64;
        prop_assert!((marked.share - share).abs() < 1e-12 && (marked.points - 4.0 * share).abs() < 1e-12);
    }
}

/// Every order of a list, in any order.
fn orders(things: &[usize]) -> Vec<Vec<usize>> {
    let Some((first, rest)) = things.split_first() else { return vec![vec![]] };
    let inner = orders(rest);
    let into = |order: &Vec<usize>| {
        (0..=order.len())
            .map(|at| {
                let mut order = order.clone();
                order.insert(at, *first);
                order
            })
            .collect::<Vec<_>>()
    };
    inner.iter().flat_map(into).collect()
}

/// Each order is worth the share of its pairs that are right by what `solve` reads, ties either way.
#[test]
fn a_choice_is_worth_its_pairs() {
    for (loads, good) in [(["1M", "180k", "47k", "10k"], "0.01 dB"), (["1M", "1.01M", "47k", "10k"], "0.5 dB")] {
        let ways: Vec<_> = loads.iter().map(|load| json!({ "name": load, "values": { "load_r": load } })).collect();
        let step = json!({ "kind": "choice", "reading": "load_loss", "good": good, "ways": ways });
        let lesson = of_step("pickup", &json!({}), step);
        let lost = loads.map(|load| {
            let report = report("pickup", json!({ "load_r": load }));
            common::reading(&report, "load_loss")
        });
        let slack = good.strip_suffix(" dB").unwrap().parse::<f64>().unwrap();
        for order in orders(&[0, 1, 2, 3]) {
            let pairs = || (0..4).flat_map(|a| (a + 1..4).map(move |b| (a, b)));
            let right = pairs().filter(|(a, b)| lost[order[*a]] <= lost[order[*b]] + slack).count();
            let named: Vec<_> = order.iter().map(ToString::to_string).collect();
            let share = first(&lesson, json!({ "order": named })).share;
            common::within(&format!("{order:?}"), share, right as f64 / 6.0, 1e-12);
        }
    }
    // Half an order is none.
    let lesson = read(&shipped("passive-bass"));
    assert!(at(&lesson, &deal(&lesson, 1), 6, json!({ "order": ["0", "1"] })).problem.is_some());
    assert!(at(&lesson, &deal(&lesson, 1), 6, json!({ "order": ["0", "1", "1", "2", "3"] })).problem.is_some());
}

/// What a ranking calls just as good may stand either way.
#[test]
fn ties_of_a_ranking_may_stand_either_way() {
    let lesson = of_step("box-or-straight", &json!({ "source": "bass" }), json!({ "kind": "choice" }));
    for order in [["phantom", "passive", "battery", "straight"], ["passive", "phantom", "battery", "straight"]] {
        let marked = first(&lesson, json!({ "order": order }));
        assert_eq!((marked.share, ids(&marked)), (1.0, vec!["right"]));
        assert_eq!(marked.key.order[0].len(), 2);
    }
    let wrong = first(&lesson, json!({ "order": ["straight", "passive", "phantom", "battery"] }));
    assert_eq!((wrong.share, ids(&wrong)), (0.5, vec!["order"]));
}

/// Whether a set of parts is right, by what `solve` answers.
fn is_right(calculator: &str, values: &Named<String>, step: &stageohm::lesson::LessonStep) -> bool {
    let texts: serde_json::Map<_, _> = values.iter().map(|(id, text)| (id.to_owned(), text.clone().into())).collect();
    let Some(report) = ask(json!({ "calculator": calculator, "values": texts })).report else { return false };
    // A treble that is gained is none that is lost: the value of a loss has its sign.
    let reads = |report: &Report, id: &str| report.reading(id).and_then(|reading| reading.value);
    let bound = |text: &str| text.split(' ').next().unwrap().replace('−', "-").parse::<f64>().ok();
    let keeps = step.limits.iter().all(|limit| {
        reads(&report, &limit.reading).is_some_and(|is| {
            bound(&limit.least).is_none_or(|least| is >= least) && bound(&limit.most).is_none_or(|most| is <= most)
        })
    });
    let named = |id: &str| step.limits.iter().any(|limit| limit.reading == id);
    let troubles = report.headline.iter().chain(&report.further).filter(|reading| {
        reading.verdict.as_ref().is_some_and(|verdict| verdict.tone == Tone::Trouble) && !named(reading.id)
    });
    keeps && troubles.count() == 0
}

/// Every set of parts of every target that ships, one after the other: full marks for those that
/// meet all limits with nothing else wrong, and for no other.
#[test]
fn every_set_that_meets_the_limits_counts_and_no_other() {
    for (id, place, seeds) in [("passive-bass", 7, 3), ("hum", 7, 1), ("levels", 6, 3)] {
        let lesson = read(&shipped(id));
        let step = &lesson.steps[place];
        let mut fields: Vec<&str> = step.drawer.iter().map(|part| part.field.as_str()).collect();
        fields.sort_unstable();
        fields.dedup();
        let mut sets = vec![Vec::new()];
        for field in fields {
            let parts = step.drawer.iter().filter(|part| part.field == field);
            let with: Vec<_> =
                parts.flat_map(|part| sets.iter().map(move |set| [set.as_slice(), &[part]].concat())).collect();
            sets.extend(with);
        }
        for seed in 1..=seeds {
            let dealt = deal(&lesson, seed);
            let mut right = 0;
            for set in &sets {
                let cost: f64 = set.iter().map(|part| part.cost).sum();
                let parts: serde_json::Map<_, _> =
                    set.iter().map(|part| (part.field.clone(), part.value.clone().into())).collect();
                let marked = at(&lesson, &dealt, place, json!({ "parts": parts }));
                if step.budget.is_some_and(|budget| cost > budget) {
                    assert!(marked.problem.is_some(), "{id}: {parts:?}");
                    continue;
                }
                let mut values = dealt.steps[place].values.clone();
                for part in set {
                    values.insert(part.field.clone(), part.value.clone());
                }
                let is_right = is_right(&dealt.steps[place].calculator, &values, step);
                right += usize::from(is_right);
                assert_eq!(marked.share >= 1.0, is_right, "{id} {seed}: {parts:?} {marked:?}");
                assert!(marked.findings.iter().all(|finding| finding.text.len() > 10), "{:?}", marked.findings);
            }
            assert!(right > 0 && right < sets.len(), "{id} {seed}");
        }
    }
}

/// A box without power, and parts that do not go together, are no line.
#[test]
fn a_line_that_does_not_work_is_told_why() {
    let lesson = read(&shipped("passive-bass"));
    let dealt = deal(&lesson, 3);
    let marked = |parts: Value| at(&lesson, &dealt, 7, json!({ "parts": parts }));
    let dead = marked(json!({ "box": "active", "run": "balanced" }));
    assert_eq!(ids(&dead), ["limit-trouble"]);
    assert!(dead.findings[0].text.contains("no phantom") && dead.share <= 0.25, "{dead:?}");
    let apart = marked(json!({ "box": "active" }));
    assert_eq!((ids(&apart), apart.share), (vec!["limit-apart"], 0.0));
    assert!(apart.findings[0].text.contains("balanced"), "{apart:?}");
    // To leave everything as it is mends nothing.
    assert_eq!(marked(json!({})).share, 0.0);
    assert!(marked(json!({ "box": "magic" })).problem.is_some());
}

#[test]
fn a_fault_that_reads_the_same_is_worth_half() {
    let cases = [
        ("A", json!({ "lead_length": "9 m" })),
        ("B", json!({ "lead_length": "9.00001 m" })),
        ("C", json!({ "load_r": "10k" })),
    ];
    let cases = cases.map(|(name, values)| json!({ "name": name, "values": values }));
    let step = json!({ "kind": "fault", "measures": ["peak", "level_1k"], "cases": cases, "plot": "response" });
    let lesson = of_step("pickup", &json!({}), step);
    for seed in 1..=12 {
        let dealt = deal(&lesson, seed);
        let wrong = dealt.steps[0].wrong.unwrap();
        for said in 0..3 {
            let marked = at(&lesson, &dealt, 0, json!({ "case": said, "measured": ["peak"] }));
            let (share, id) = match (said, wrong) {
                _ if said == wrong => (1.0, "right"),
                (0, 1) | (1, 0) => (0.5, "fault-alike"),
                _ => (0.0, "fault-reads"),
            };
            assert_eq!((marked.share, ids(&marked)), (share, vec![id]), "{said} {wrong}");
            assert_eq!(marked.plot.unwrap().traces.len(), 1 + usize::from(said != wrong));
        }
        assert_eq!(ids(&at(&lesson, &dealt, 0, json!({ "case": wrong }))), ["right", "fault-guessed"]);
    }
}

/// With its volume turned down a bass has no level to read: that is measured as well.
#[test]
fn what_a_fault_leaves_nothing_of_is_measured() {
    let cases = ["0 %", "0%"].map(|turn| json!({ "name": turn, "values": { "volume_turn": turn } }));
    let lesson = of_step("pickup", &json!({}), json!({ "kind": "fault", "measures": ["level_1k"], "cases": cases }));
    let measured = measure(&lesson, &deal(&lesson, 1), 0, "level_1k", &Settings::default()).unwrap();
    assert_eq!(measured.text, "–");
    assert!(measured.usual.ends_with("dB"), "{measured:?}");
}

/// A straight slope has no plateau to be marked by.
#[test]
fn a_slope_is_no_plateau() {
    let lesson = read(&shipped("hum"));
    let dealt = deal(&lesson, 1);
    let marked = at(&lesson, &dealt, 4, json!({ "curve": [[30, 114], [15000, 60]] }));
    assert!(marked.share > 0.9, "{marked:?}");
    // The right slope, 8 dB too low: its slopes and its want of a peak are right.
    let marked = at(&lesson, &dealt, 4, json!({ "curve": [[30, 105], [15000, 51]] }));
    assert!((0.5..0.9).contains(&marked.share) && ids(&marked) == ["level-low"], "{marked:?}");
}
