//! A question keeps its meaning for a reader with other settings.
#![allow(clippy::unwrap_used, clippy::panic, clippy::needless_pass_by_value)]

use proptest::prelude::*;
use serde_json::{Value, json};
use stageohm::answer::{Question, answer};
use stageohm::ask::{Translation, translate};
use stageohm::quantity::{Unit, read};
use stageohm::settings::{Decimal, Language, Length, Mains, Settings};

mod common;

const FOOT: f64 = 0.3048;

/// The settings of a link that names none.
const POINT: Settings =
    Settings { decimal: Decimal::Point, length: Length::Metre, mains: Mains::Hz50, language: Language::English };
const COMMA: Settings = Settings { decimal: Decimal::Comma, ..POINT };
const FEET: Settings = Settings { length: Length::Foot, ..POINT };
const COMMA_FEET: Settings = Settings { decimal: Decimal::Comma, ..FEET };

fn question(json: Value) -> Question {
    serde_json::from_value(json).unwrap()
}

fn filled(calculator: &str, values: Value, from: &Settings, to: &Settings) -> Translation {
    translate(&question(json!({ "calculator": calculator, "values": values, "settings": from })), to)
}

/// How a wanted value is written for another reader; nothing where it stays.
fn wanted(calculator: &str, reading: &str, text: &str, from: &Settings, to: &Settings) -> Option<String> {
    let backwards = json!({ "reading": reading, "value": text, "field": "" });
    translate(&question(json!({ "calculator": calculator, "backwards": backwards, "settings": from })), to).wanted
}

#[test]
fn a_wanted_value_is_written_in_the_way_of_its_new_reader() {
    for (calculator, reading, text, from, to, expected) in [
        // 20 m are 65.6168 ft of 0.3048 m.
        ("lead-length", "longest_loss", "20", POINT, FEET, Some("65.6168 ft")),
        ("lead-length", "longest_loss", "20", POINT, COMMA_FEET, Some("65,6168 ft")),
        ("lead-length", "longest_loss", "20", FEET, POINT, Some("6.096 m")),
        ("lead-length", "longest_loss", "20", FEET, COMMA, Some("6,096 m")),
        ("lead-length", "longest_loss", "20", POINT, COMMA, None),
        ("lead-length", "longest_loss", "20 m", POINT, COMMA_FEET, None),
        ("lead-length", "longest_loss", "66 ft", COMMA_FEET, POINT, None),
        ("lead-length", "longest_loss", "1.625 m", POINT, COMMA_FEET, Some("1,625 m")),
        ("pickup", "peak", "3.125 kHz", POINT, COMMA, Some("3,125 kHz")),
        ("pickup", "peak", "3,125 kHz", COMMA, FEET, Some("3.125 kHz")),
        ("pickup", "peak", "3k125", POINT, COMMA_FEET, None),
        // What its writer was asked to choose between, the reader is asked too.
        ("pickup", "peak", "3.125 kHz", COMMA, POINT, Some("3,125 kHz")),
        ("pickup", "peak", "1,234 kHz", POINT, COMMA_FEET, Some("1.234 kHz")),
        // What both would read is written with the sign of its reader.
        ("pickup", "peak", "3.5 kHz", POINT, COMMA, Some("3,5 kHz")),
        ("pickup", "peak", "3,5 kHz", COMMA, POINT, Some("3.5 kHz")),
        ("pickup", "peak", "3.5 kHz", POINT, FEET, None),
        // It has that sign already, whatever its writer's is.
        ("pickup", "peak", "3,5 kHz", POINT, COMMA, None),
        ("pickup", "peak", "3.125 kHz", POINT, FEET, None),
        ("pickup", "total_c", "470", POINT, COMMA_FEET, None),
        ("levels", "dbu", "+4 dBu", POINT, COMMA, None),
        ("levels", "dbu", "4.125", POINT, COMMA, Some("4,125 dBu")),
        ("levels", "dbfs", "-12.375 dBFS", POINT, COMMA, Some("-12,375 dBFS")),
        // As a voltage the level would lose its last digits.
        ("levels", "volts", "+4.125 dBu", POINT, COMMA, Some("+4,125 dBu")),
        ("levels", "volts", "1.228 V", POINT, COMMA, Some("1,228 V")),
        ("source-load", "ratio", "66.125:1", POINT, COMMA, Some("66,125:1")),
        ("source-load", "ratio", "12:1", POINT, COMMA_FEET, None),
        ("source-load", "phase", "45°", POINT, COMMA_FEET, None),
        // What means nothing to the one who wrote it.
        ("pickup", "peak", "high", POINT, COMMA_FEET, None),
        // What was open to its writer, and would be one number to the reader.
        ("pickup", "peak", "1,500", POINT, COMMA, Some("1.500")),
        ("pickup", "peak", "", POINT, COMMA_FEET, None),
        ("pickup", "no_such_reading", "1.500", POINT, COMMA, None),
        ("no-such-calculator", "peak", "1.500", POINT, COMMA, None),
    ] {
        let written = wanted(calculator, reading, text, &from, &to);
        assert_eq!(written.as_deref(), expected, "{reading} {text} from {from:?} to {to:?}");
    }
}

#[test]
fn a_wanted_value_is_translated_beside_values_that_have_no_answer() {
    let backwards = json!({ "reading": "longest_loss", "value": "20", "field": "limit" });
    for values in [json!({ "load_c": "pigs" }), json!({ "limit": "500 dB", "lead_length": "-1" })] {
        let asked = json!({ "calculator": "lead-length", "values": values, "backwards": backwards });
        assert_eq!(translate(&question(asked), &FEET).wanted.as_deref(), Some("65.6168 ft"), "{values}");
    }
}

#[test]
fn a_field_keeps_its_meaning() {
    for (calculator, field, text, from, to, expected) in [
        ("pickup", "lead_length", "6", POINT, FEET, Some("19.685 ft")),
        ("pickup", "lead_length", "8,2", COMMA_FEET, POINT, Some("2.49936 m")),
        ("pickup", "lead_length", "2.500", POINT, COMMA, Some("2,5 m")),
        ("pickup", "lead_length", "6 m", POINT, COMMA_FEET, None),
        ("pickup", "lead_c", "100", POINT, FEET, Some("30.48 pF/ft")),
        ("pickup", "load_r", "4k7", POINT, COMMA_FEET, None),
        ("whole-line", "current", "0.2 A", POINT, COMMA, Some("0,2 A")),
        ("whole-line", "current", "0,2 A", COMMA, POINT, Some("0.2 A")),
        ("pickup", "load_r", "2.2k", POINT, COMMA, Some("2,2k")),
        ("pickup", "load_r", "12 pigs", POINT, COMMA_FEET, None),
        // Too long a lead to compute with is as long to everybody.
        ("pickup", "lead_length", "99000", POINT, FEET, Some("324803 ft")),
        // A field that plays no part means something all the same, and nonsense stays.
        ("lead-length", "frequency", "1.500 kHz", POINT, COMMA, Some("1,5 kHz")),
        ("lead-length", "frequency", "1,500 kHz", POINT, COMMA, Some("1.500 kHz")),
        ("lead-length", "frequency", "1,500 pigs", POINT, COMMA, None),
        // A level chooses its unit.
        ("levels", "level", "4.125 dBV", POINT, COMMA, Some("4,125 dBV")),
        ("levels", "level", "4.125", POINT, COMMA, Some("4,125 dBu")),
        ("pickup", "no_such_field", "1.500", POINT, COMMA, None),
    ] {
        let translation = filled(calculator, json!({ field: text }), &from, &to);
        let written = translation.values.get(field).map(String::as_str);
        assert_eq!(written, expected, "{field} {text} from {from:?} to {to:?}");
        assert_eq!(translation.values.iter().count(), usize::from(expected.is_some()), "{field} {text}");
    }
}

#[test]
fn values_that_contradict_each_other_keep_their_meaning_too() {
    let values = json!({ "band_from": "20.000 kHz", "band_to": "20.500 Hz" });
    assert!(common::ask(json!({ "calculator": "noise-floor", "values": values })).report.is_none());
    let translation = filled("noise-floor", values, &POINT, &COMMA);
    assert_eq!(translation.values.get("band_from").map(String::as_str), Some("20 kHz"));
    assert_eq!(translation.values.get("band_to").map(String::as_str), Some("20,5 Hz"));
}

#[test]
fn the_mains_of_the_writer_are_put_in_where_nobody_chose() {
    let sixty = Settings { mains: Mains::Hz60, ..POINT };
    let put = |values: Value| filled("ground-loop", values, &POINT, &sixty).values.get("mains").cloned();
    assert_eq!(put(json!({})).as_deref(), Some("50"));
    assert_eq!(put(json!({ "mains": "60" })), None);
}

fn settings() -> impl Strategy<Value = Settings> {
    let decimal = prop_oneof![Just(Decimal::Point), Just(Decimal::Comma)];
    let length = prop_oneof![Just(Length::Metre), Just(Length::Foot)];
    let mains = prop_oneof![Just(Mains::Hz50), Just(Mains::Hz60)];
    (decimal, length, mains).prop_map(|(decimal, length, mains)| Settings { decimal, length, mains, ..POINT })
}

proptest! {
    /// Whoever reads it, a length stays that length in metres. The number comes from
    /// the text here, without our reader.
    #[test]
    fn a_length_is_the_same_to_every_reader(
        thousandths in 300_u32..60_000,
        unit in prop_oneof![Just((" m", Some(1.0))), Just((" ft", Some(FOOT))), Just((" cm", Some(0.01))), Just(("", None))],
        from in settings(),
        to in settings(),
    ) {
        let metres_in = |settings: &Settings| if settings.length == Length::Foot { FOOT } else { 1.0 };
        let metres = f64::from(thousandths) / 1000.0 * unit.1.unwrap_or(metres_in(&from));
        let sign = if from.decimal == Decimal::Comma { ',' } else { '.' };
        let text = format!("{}{sign}{:03}{}", thousandths / 1000, thousandths % 1000, unit.0);
        let backwards = json!({ "reading": "longest_loss", "value": text, "field": "limit" });
        let values = json!({ "lead_length": text });
        let asked = json!({ "calculator": "lead-length", "values": values, "backwards": backwards, "settings": from });
        let translation = translate(&question(asked), &to);
        let field = translation.values.get("lead_length").cloned();
        for written in [translation.wanted, field].map(|written| written.unwrap_or_else(|| text.clone())) {
            let read = read(&written, Unit::Metre, metres_in(&to), &to).unwrap().value;
            // Six digits are written.
            prop_assert!((read - metres).abs() <= 5e-6 * metres, "{text} → {written} is {read} m");
        }
    }
}

/// 20 m of this lead take 12.07 dB off, 20 ft take 0.353 dB off: each reader is
/// told what the one who wrote was told.
#[test]
fn a_question_backwards_has_the_same_answer_for_every_reader() {
    for from in [POINT, FEET] {
        let asked = |settings: &Settings, value: &str| {
            let backwards = json!({ "reading": "longest_loss", "value": value, "field": "limit" });
            question(json!({ "calculator": "lead-length", "backwards": backwards, "settings": settings }))
        };
        for to in [POINT, COMMA_FEET] {
            let written = translate(&asked(&from, "20"), &to).wanted.unwrap_or_else(|| "20".to_owned());
            let backwards = answer(&asked(&to, &written)).backwards.unwrap();
            let found: Vec<_> = backwards.found.iter().map(|found| found.value).collect();
            let expected = if from == FEET { 0.353 } else { 12.07 };
            assert!((found[0] - expected).abs() <= 5e-4 * expected && found.len() == 1, "{written}: {found:?}");
        }
    }
}
