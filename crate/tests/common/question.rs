//! Random questions over all calculators: within the limits, at them and beyond
//! them, under every setting.

use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::{Map, Value, json};
use stageohm::calculator::REGISTER;
use stageohm::field::{Field, Kind};
use stageohm::quantity::write_entry;
use stageohm::settings::{Decimal, Length, Mains, Settings};

/// The largest number of fields of a calculator.
const FIELDS: usize = 99;

/// What is put into one field: what kind of value, and where in its span.
type Pick = (u8, f64);

/// All settings that change what is read or printed.
pub fn every_setting() -> Vec<Settings> {
    let mut all = Vec::new();
    for decimal in [Decimal::Point, Decimal::Comma] {
        for length in [Length::Metre, Length::Foot] {
            for mains in [Mains::Hz50, Mains::Hz60] {
                all.push(Settings { decimal, length, mains, ..Settings::default() });
            }
        }
    }
    all
}

/// A question as JSON; it shrinks towards one with few fields filled in.
pub fn question() -> impl Strategy<Value = Value> {
    let picks = vec((0..15_u8, 0.0..1.0_f64, 0.0..1.0_f64), FIELDS);
    (0..REGISTER.len(), 0..every_setting().len(), 0.0..1.0_f64, 0..8_u8, picks).prop_map(
        |(calculator, settings, density, extreme, picks)| {
            let (calculator, settings) = (REGISTER[calculator], every_setting()[settings]);
            let mut values = Map::new();
            for (field, (kind, x, rarely)) in calculator.fields.iter().zip(picks) {
                // Some questions stand at the ends of the limits alone.
                let kind = if extreme == 7 { 8 + kind % 3 } else { kind };
                // Some fill in a field or two, others nearly all.
                if rarely < density.powi(2)
                    && let Some(value) = pick(field, (kind, x), &settings)
                {
                    values.insert(field.id.to_owned(), value);
                }
            }
            json!({ "calculator": calculator.id, "values": values, "settings": settings })
        },
    )
}

/// What is picked for a field; nothing leaves its default.
fn pick(field: &Field, (kind, x): Pick, settings: &Settings) -> Option<Value> {
    let number = match &field.kind {
        Kind::Choice(choice) => {
            let place = (x * choice.options.len() as f64) as usize;
            return Some(json!(choice.options.get(place)?.id));
        }
        Kind::Number(number) => number,
    };
    let (from, to) = number.limits;
    let value = match kind {
        0 => return None,
        1..=4 => between(number.usual, x),
        5..=7 => between(number.limits, x),
        8 => from,
        9 => to,
        // Next to nothing.
        10 => 1e-300_f64.max(from),
        11 if number.optional => return Some(json!("")),
        // Beyond, by little or by much.
        11 | 12 => to + to.abs() * 10_f64.powf(8.0 * x - 6.0),
        13 => 10_f64.powf(600.0 * x - 300.0) * if ((x * 1e5) as u64).is_multiple_of(2) { 1.0 } else { -1.0 },
        _ => from - from.abs().max(1e-9) * 10_f64.powf(8.0 * x - 6.0),
    };
    // As typed, or as a program gives it.
    Some(if ((x * 1e4) as u64).is_multiple_of(2) {
        json!(write_entry(value, number.unit, settings))
    } else {
        json!(value)
    })
}

/// A place between two ends, on a log scale where they allow.
fn between((from, to): (f64, f64), x: f64) -> f64 {
    if from < 0.0 || to <= 0.0 || to / from.max(to * 1e-12) < 30.0 {
        return from + (to - from) * x;
    }
    let least = from.max(to * 1e-12);
    least * (to / least).powf(x)
}
