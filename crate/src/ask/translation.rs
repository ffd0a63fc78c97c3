//! A question in the texts of one reader, for a reader with other settings: a
//! bare 6 may be metres to one and feet to the other, and 1,5 is a number only to
//! some.

use super::wanted::read_wanted;
use super::{Entry, Question, Reader};
use crate::calculator::Calculator;
use crate::field::{Kind, Values};
use crate::named::Named;
use crate::quantity::{Unit, write_entry};
use crate::report::Depth;
use crate::settings::Settings;
use serde::Serialize;

/// What of a question has to be written in another way.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Translation {
    /// Texts for fields, those included that had none and would start otherwise.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub values: Named<String>,
    /// The wanted value, if the question is asked backwards.
    pub wanted: Option<String>,
}

/// How to write a question for a reader with the settings `to`, so that it asks
/// the same. A text that means the same to both stays as it was typed but for its
/// decimal sign, and one that means nothing to the one who wrote it stays as it is.
pub fn translate(question: &Question, to: &Settings) -> Translation {
    Calculator::find(&question.calculator).map_or_else(Translation::default, |known| translate_for(known, question, to))
}

/// The same for a question to this calculator.
pub fn translate_for(calculator: &Calculator, question: &Question, to: &Settings) -> Translation {
    let from = &question.settings;
    let mut translation = Translation::default();
    if from == to {
        return translation;
    }
    let (values, _) = Values::read(calculator, &question.values, from);
    let (writer, reader) = (Reader::new(calculator, from), Reader::new(calculator, to));
    let foreign = (from.decimal != to.decimal).then(|| from.decimal.signs()[0]);
    for field in calculator.fields {
        let entry = question.values.get(field.id);
        match (&field.kind, entry) {
            (Kind::Choice(choice), None) => {
                let unchosen = writer.unchosen(field, choice);
                if unchosen != reader.unchosen(field, choice) {
                    translation.values.insert(field.id, unchosen.to_owned());
                }
            }
            (Kind::Number(number), Some(Entry::Text(text))) => {
                let meaning = |reader: &Reader, text: &str| {
                    let (value, unit) = reader.text(number, text, &mut values.clone());
                    Some((value.ok()??, unit))
                };
                let write = |(value, unit)| number.written(value, unit, to);
                let (meant, read) = (|text: &str| meaning(&writer, text), |text: &str| meaning(&reader, text));
                if let Some(text) = rewritten(text, foreign, &meant, &read, &write) {
                    translation.values.insert(field.id, text);
                }
            }
            _ => {}
        }
    }
    translation.wanted = question.backwards.as_ref().and_then(|wanted| {
        let Entry::Text(text) = &wanted.value else { return None };
        let unit = unit_of(calculator, &wanted.reading, &values, from)?;
        let meaning = |settings: &Settings, text: &str| Some((read_wanted(text, unit, settings).ok()?, unit));
        let write = |(value, unit)| write_entry(value, unit, to);
        rewritten(text, foreign, &|text| meaning(from, text), &|text| meaning(to, text), &write)
    });
    translation
}

/// The unit of a reading; where the values have no answer, that which it begins with.
fn unit_of(calculator: &Calculator, reading: &str, values: &Values, settings: &Settings) -> Option<Unit> {
    let of = |values: &Values| {
        let report = calculator.report(values, settings, Depth::Readings).ok()?;
        Some(report.reading(reading)?.unit)
    };
    of(values).or_else(|| of(&Values::read(calculator, &Named::default(), settings).0))
}

type Meaning = (f64, Unit);

/// The text that means to a reader what this one means to its writer; nothing
/// where that is the text itself, or where it means nothing. What is open to its
/// writer, such as 1.234 under a decimal comma, stays open. A decimal sign that is
/// `foreign` to the reader becomes the reader's own.
fn rewritten(
    text: &str,
    foreign: Option<char>,
    meant: &dyn Fn(&str) -> Option<Meaning>,
    read: &dyn Fn(&str) -> Option<Meaning>,
    write: &dyn Fn(Meaning) -> String,
) -> Option<String> {
    let swapped = with_other_signs(text);
    let Some(meaning) = meant(text) else {
        return (read(text).is_some() && read(&swapped).is_none()).then_some(swapped);
    };
    let same = |text: &str| read(text).is_some_and(|(value, unit)| unit == meaning.1 && is_near(value, meaning.0));
    if same(text) {
        let signed = foreign.is_some_and(|sign| text.contains(sign));
        return Some(swapped).filter(|swapped| signed && same(swapped));
    }
    // What is printed may not have all the digits that were typed.
    let written = typed(&write(meaning));
    Some(if !same(&written) && same(&swapped) { swapped } else { written })
}

/// The same text with the other decimal sign, by way of one that no keyboard has.
fn with_other_signs(text: &str) -> String {
    text.replace('.', "\0").replace(',', ".").replace('\0', ",")
}

/// A printed text as a keyboard has it.
fn typed(text: &str) -> String {
    text.replace('\u{a0}', " ").replace('−', "-")
}

/// Whether two numbers are the same but for the last digits that print and reading cost.
fn is_near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
}
