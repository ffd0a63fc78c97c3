//! A reading that is wanted, and what has to be put into a field for it, in words.

use super::{Entry, Problem, Wanted, solve_backwards};
use crate::calculator::Calculator;
use crate::field::Values;
use crate::quantity::level::{dbu, dbv};
use crate::quantity::{LONGEST, Reject, SHOWN, Unit, read, write};
use crate::report::{Reading, Report};
use crate::settings::Settings;
use crate::words::{Arg, Words};
use serde::Serialize;

/// What was found backwards.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Backwards {
    /// In words: how many answers there are, or why none.
    pub message: String,
    /// What is wrong with the wanted value.
    pub problem: Option<Problem>,
    /// Each answer.
    pub found: Vec<FoundText>,
}

/// One answer found backwards.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct FoundText {
    /// The field's value in SI units.
    pub value: f64,
    /// The same as printed.
    pub text: String,
    /// The reading there, as printed.
    pub reading: String,
}

pub(crate) fn backwards(
    calculator: &Calculator,
    values: &Values,
    report: &Report,
    wanted: &Wanted,
    settings: &Settings,
) -> Backwards {
    let words = Words::of(settings.language);
    let say = |key: &str, args: &[(&'static str, Arg)]| words.text(key, args, settings);
    let none = |message: String| Backwards {
        problem: Some(Problem { message, offers: Vec::new() }),
        message: String::new(),
        found: Vec::new(),
    };
    let Some(reading) = report.reading(&wanted.reading) else {
        return none(say("backwards-reading", &[("id", Arg::name(&wanted.reading))]));
    };
    let field = calculator.field(&wanted.field);
    let Some((field, number)) = field.and_then(|field| Some((field, field.kind.number()?))) else {
        return none(say("backwards-field", &[("id", Arg::name(&wanted.field))]));
    };
    let target = match wanted_value(&wanted.value, reading.unit, settings) {
        Ok(target) => reading.told.turn(target),
        Err(Reject::Long) => return none(say("problem-long", &[("longest", Arg::Text(LONGEST.to_string()))])),
        Err(reject) => {
            let offers = if let Reject::Ambiguous(offers) = reject { offers.to_vec() } else { Vec::new() };
            return Backwards {
                problem: Some(Problem {
                    message: say("backwards-value", &[("example", Arg::Text(example(reading, settings)))]),
                    offers,
                }),
                message: String::new(),
                found: Vec::new(),
            };
        }
    };
    let unit = number.unit_under(calculator, values);
    let solution = solve_backwards(calculator, values, settings, field.id, &wanted.reading, target);
    let found: Vec<_> = solution
        .found
        .into_iter()
        .map(|found| FoundText {
            value: found.value,
            text: number.written(found.value, unit, settings),
            reading: write(reading.told.turn(found.reading), reading.unit, reading.told.digits, settings),
        })
        .collect();
    let key = match found.len() {
        0 if solution.unchanged => "backwards-unchanged",
        0 => "backwards-none",
        1 => "backwards-one",
        _ => "backwards-many",
    };
    let message = say(
        key,
        &[
            ("reading", Arg::Text(reading.name.clone())),
            ("count", Arg::Text(found.len().to_string())),
            ("from", Arg::Entry(number.limits.0, unit)),
            ("to", Arg::Entry(number.limits.1, unit)),
        ],
    );
    Backwards { message, problem: None, found }
}

fn wanted_value(entry: &Entry, unit: Unit, settings: &Settings) -> Result<f64, Reject> {
    match entry {
        Entry::Number(value) if value.is_finite() => Ok(*value),
        Entry::Number(_) => Err(Reject::NotFinite),
        Entry::Other => Err(Reject::NotANumber),
        Entry::Text(text) => read_wanted(text, unit, settings),
    }
}

/// Reads the wanted value of a reading, a bare one in the unit that it is printed in. A level
/// may be told as another level, or as a voltage.
pub(crate) fn read_wanted(text: &str, unit: Unit, settings: &Settings) -> Result<f64, Reject> {
    let own = read(text, unit, unit.printing(settings.length).size, settings).map(|written| written.value);
    let level: fn(f64) -> f64 = match unit {
        Unit::DecibelU => dbu,
        Unit::DecibelV => dbv,
        _ => return own,
    };
    own.or_else(|reject| match reject {
        Reject::UnknownUnit(_) => read(text, Unit::Volt, 1.0, settings)
            .map(|written| level(written.value))
            .ok()
            .filter(|level| level.is_finite())
            .ok_or(reject),
        other => Err(other),
    })
}

fn example(reading: &Reading, settings: &Settings) -> String {
    reading.value.map_or_else(|| write(1.0, reading.unit, SHOWN, settings), |_| reading.text.clone())
}
