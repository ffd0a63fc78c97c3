//! Reads what was put into the fields of a calculator.

use super::Entry;
use crate::calculator::Calculator;
use crate::fault::Fault;
use crate::field::mains::{MAINS, MainsFrequency};
use crate::field::{Choice, Field, Kind, Number, Values};
use crate::named::Named;
use crate::quantity::{EXACT, LONGEST, Reject, Unit, is_long, read, write, write_entry};
use crate::settings::Settings;
use crate::words::{Arg, Args, Words};
use serde::Serialize;

/// How a field was understood.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Echo {
    /// The value in engineering form, empty where the field is empty; for a
    /// choice its identifier.
    pub text: String,
    /// The number in SI units; nothing for a choice or an empty field.
    pub value: Option<f64>,
    /// Whether the field plays a part under the present choices.
    pub active: bool,
    /// What is wrong with it.
    pub problem: Option<Problem>,
    /// What is unusual about it.
    pub note: Option<String>,
}

/// What is wrong, in the reader's words.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Problem {
    /// The message.
    pub message: String,
    /// Texts that would be understood, to choose from.
    pub offers: Vec<String>,
}

impl Problem {
    /// The problem of a message.
    pub(crate) fn of(key: &str, args: Args, settings: &Settings) -> Self {
        Self { message: Words::of(settings.language).text(key, args, settings), offers: Vec::new() }
    }

    /// Puts a fault beside the field that caused it, or with the whole question.
    pub(crate) fn place(fault: &Fault, settings: &Settings, fields: &mut Named<Echo>, whole: &mut Vec<Self>) {
        let problem = Self::of(fault.key(), fault.args(), settings);
        match fault.field().and_then(|field| fields.get_mut(field)) {
            Some(echo) => echo.problem = Some(problem),
            None => whole.push(problem),
        }
    }
}

impl Values {
    /// Reads what was put into the fields. A field that is missing has its
    /// default, and so has, for the answer's sake, one with a problem.
    pub fn read(calculator: &Calculator, entries: &Named<Entry>, settings: &Settings) -> (Self, Named<Echo>) {
        let reader = Reader::new(calculator, settings);
        let mut values = Self::default();
        let mut echoes = Named::default();
        // Choices first: they decide on units and on what plays a part.
        for field in calculator.fields {
            if let Kind::Choice(choice) = &field.kind {
                let (answer, problem) = reader.choice(field, choice, entries.get(field.id));
                values.choices.insert(field.id, answer);
                echoes
                    .insert(field.id, Echo { text: answer.to_owned(), value: None, active: true, problem, note: None });
            }
        }
        for field in calculator.fields {
            if let Kind::Number(number) = &field.kind {
                let echo = reader.number(field, number, entries.get(field.id), &mut values);
                if let Some(choice) = number.unit_from
                    && let (Some(echo), Some(answer)) = (echoes.get_mut(choice), values.choices.get(choice))
                {
                    (*answer).clone_into(&mut echo.text);
                }
                echoes.insert(field.id, echo);
            }
        }
        for field in calculator.fields {
            let Some((choice, answers)) = field.when else { continue };
            let asked = echoes.get(choice).is_some_and(|choice| choice.active);
            if let Some(echo) = echoes.get_mut(field.id) {
                echo.active = asked && values.choices.get(choice).is_some_and(|answer| answers.contains(answer));
                if !echo.active {
                    echo.problem = None;
                    echo.note = None;
                }
            }
        }
        (values, echoes)
    }
}

impl Number {
    /// Writes a value as it would be put into the field. Where a choice says in
    /// which unit, another one would change the choice.
    pub(crate) fn written(&self, value: f64, unit: Unit, settings: &Settings) -> String {
        if self.unit_from.is_some() { write(value, unit, 6, settings) } else { write_entry(value, unit, settings) }
    }

    /// The unit under the present choices.
    pub(crate) fn unit_under(&self, calculator: &Calculator, values: &Values) -> Unit {
        self.unit_from
            .and_then(|id| values.choices.get(id).zip(calculator.field(id)))
            .and_then(|(answer, field)| match &field.kind {
                Kind::Choice(choice) => choice.options.iter().find(|option| option.id == *answer)?.unit,
                Kind::Number(_) => None,
            })
            .unwrap_or(self.unit)
    }
}

/// What reads entries for the fields of a calculator.
pub(crate) struct Reader<'a> {
    calculator: &'a Calculator,
    settings: &'a Settings,
    words: &'static Words,
}

impl<'a> Reader<'a> {
    pub(crate) fn new(calculator: &'a Calculator, settings: &'a Settings) -> Self {
        Self { calculator, settings, words: Words::of(settings.language) }
    }

    fn problem(&self, key: &str, args: &[(&'static str, Arg)]) -> Problem {
        Problem { message: self.words.text(key, args, self.settings), offers: Vec::new() }
    }

    /// What is wrong with what was put into a field, whether that plays a part or not.
    pub(crate) fn problem_of(&self, field: &Field, entry: &Entry) -> Option<Problem> {
        match &field.kind {
            Kind::Choice(choice) => self.choice(field, choice, Some(entry)).1,
            Kind::Number(number) => self.number(field, number, Some(entry), &mut Values::default()).problem,
        }
    }

    /// The answer to a choice that nobody has made.
    pub(crate) fn unchosen(&self, field: &Field, choice: &Choice) -> &'static str {
        // The mains where the reader works is a setting, not a property of the job.
        if field.id == MAINS.id() { MainsFrequency::from(self.settings.mains).id() } else { choice.default }
    }

    fn choice(&self, field: &Field, choice: &Choice, entry: Option<&Entry>) -> (&'static str, Option<Problem>) {
        let default = self.unchosen(field, choice);
        let text = match entry {
            None => return (default, None),
            Some(Entry::Text(text)) if is_long(text) => return (default, Some(self.long())),
            Some(Entry::Text(text)) => text.trim().to_owned(),
            Some(Entry::Number(number)) => number.to_string(),
            Some(Entry::Other) => String::new(),
        };
        if let Some(option) = choice.options.iter().find(|option| option.id.eq_ignore_ascii_case(&text)) {
            return (option.id, None);
        }
        let known: Vec<_> = choice.options.iter().map(|option| option.id).collect();
        let args = [("text", Arg::Text(text)), ("known", Arg::Text(known.join(", ")))];
        (default, Some(self.problem("problem-choice", &args)))
    }

    fn number(&self, field: &Field, number: &Number, entry: Option<&Entry>, values: &mut Values) -> Echo {
        let (understood, unit) = match entry {
            Some(Entry::Text(text)) => self.text(number, text, values),
            other => {
                let understood = match other {
                    Some(Entry::Number(value)) if value.is_finite() => Ok(Some(*value)),
                    Some(Entry::Number(_)) => Err(Reject::NotFinite),
                    Some(_) => Err(Reject::NotANumber),
                    None => Ok(number.default),
                };
                (understood, number.unit_under(self.calculator, values))
            }
        };
        let text = if let Some(Entry::Text(text)) = entry { text } else { "" };
        let understood = understood
            .map_err(|reject| self.reject(&reject, text, unit))
            .and_then(|value| self.within(number, unit, value));
        let (value, problem) = match understood {
            Ok(value) => (value, None),
            Err(problem) => (number.default, Some(problem)),
        };
        values.numbers.insert(field.id, value);
        let unusual = value.filter(|value| *value < number.usual.0 || *value > number.usual.1);
        let note = unusual.filter(|_| problem.is_none() && number.unit_from.is_none()).map(|_| {
            self.words.text(
                "note-unusual",
                &[("from", Arg::Entry(number.usual.0, unit)), ("to", Arg::Entry(number.usual.1, unit))],
                self.settings,
            )
        });
        let text = value.map(|value| number.written(value, unit, self.settings)).unwrap_or_default();
        Echo { text, value, active: true, problem, note }
    }

    /// What a text in a number field means, in which unit; nothing where the field
    /// may stay empty and does. A unit behind the number may choose another one.
    pub(crate) fn text(&self, number: &Number, text: &str, values: &mut Values) -> (Result<Option<f64>, Reject>, Unit) {
        if let Some((value, unit)) = self.in_another_unit(number, text, values) {
            return (Ok(Some(value)), unit);
        }
        let unit = number.unit_under(self.calculator, values);
        let understood = match read(text, unit, self.bare(number, unit), self.settings) {
            Ok(written) => Ok(Some(written.value)),
            Err(Reject::Empty) if number.optional => Ok(None),
            // An empty field says so, and what is said may be typed.
            Err(_) if number.optional && self.is_none(text) => Ok(None),
            Err(reject) => Err(reject),
        };
        (understood, unit)
    }

    /// Whether a text is what stands in a field that is empty.
    fn is_none(&self, text: &str) -> bool {
        text.trim().eq_ignore_ascii_case(&self.words.text("page-absent", &[], self.settings))
    }

    fn bare(&self, number: &Number, unit: Unit) -> f64 {
        match unit {
            // A bare length or a bare pF/ft is in the reader's own unit.
            Unit::Metre | Unit::OhmPerMetre | Unit::HenryPerMetre | Unit::FaradPerMetre => {
                number.bare * unit.printing(self.settings.length).size
            }
            Unit::Percent => 0.01,
            _ => number.bare,
        }
    }

    /// A unit written behind the number that is one of the choice's answers.
    fn in_another_unit(&self, number: &Number, text: &str, values: &mut Values) -> Option<(f64, Unit)> {
        let id = number.unit_from?;
        let Kind::Choice(choice) = &self.calculator.field(id)?.kind else { return None };
        let (option, unit, value) = choice.options.iter().find_map(|option| {
            let unit = option.unit?;
            let written = read(text, unit, 1.0, self.settings).ok().filter(|written| written.unit_given)?;
            Some((option.id, unit, written.value))
        })?;
        // A plain dB says nothing of the reference, so the present choice holds.
        if text.trim().to_ascii_lowercase().ends_with("db") {
            return None;
        }
        let answer = values.choices.get_mut(id)?;
        *answer = option;
        Some((value, unit))
    }

    fn within(&self, number: &Number, unit: Unit, value: Option<f64>) -> Result<Option<f64>, Problem> {
        let Some(given) = value else { return Ok(None) };
        let (from, to) = match (number.unit_from, number.limits) {
            (None, limits) => limits,
            // Levels reach as far up as down, and sizes from nothing up.
            (Some(_), (from, to)) if unit.is_level() => (from, to.min(-from)),
            (Some(_), (_, to)) => (0.0, to),
        };
        // A limit typed as it is printed is inside, in whatever unit of the reader's:
        // six digits, or four decimals of a level; and so is what a last bit takes out.
        let bit = 1e-12 * from.abs().max(to.abs()).min(given.abs());
        let slack = |limit: f64| bit.max(if unit.is_level() { 1e-4 } else { 1e-5 * limit.abs() });
        if given < from - slack(from) || given > to + slack(to) {
            let printed = |value| Arg::Text(write(value, unit, EXACT, self.settings));
            let problem = self
                .problem("problem-limits", &[("value", printed(given)), ("from", printed(from)), ("to", printed(to))]);
            // Less than nothing is a level whose unit was left out.
            let level = |unit| write(given / number.bare, unit, EXACT, self.settings).replace('\u{a0}', " ");
            let meant = unit == Unit::Volt && given < 0.0 && from >= 0.0 && number.unit_from.is_none();
            let offers = if meant { [Unit::DecibelV, Unit::DecibelU].map(level).to_vec() } else { Vec::new() };
            return Err(Problem { offers, ..problem });
        }
        Ok(Some(given.clamp(from, to)))
    }

    fn long(&self) -> Problem {
        self.problem("problem-long", &[("longest", Arg::Text(LONGEST.to_string()))])
    }

    pub(crate) fn reject(&self, reject: &Reject, text: &str, unit: Unit) -> Problem {
        let accepted = ("accepted", Arg::Key(format!("accept-{}", unit_key(unit))));
        let text = Arg::Text(text.trim().to_owned());
        match reject {
            Reject::Empty => self.problem("problem-empty", &[accepted]),
            Reject::NotANumber => self.problem("problem-number", &[("text", text), accepted]),
            Reject::UnknownUnit(suffix) => {
                self.problem("problem-unit", &[("unit", Arg::Text(suffix.clone())), accepted])
            }
            Reject::NotFinite => self.problem("problem-size", &[accepted]),
            Reject::Long => self.long(),
            Reject::Ambiguous(offers) => Problem {
                offers: offers.to_vec(),
                ..self.problem(
                    "problem-ambiguous",
                    &[
                        ("text", text),
                        ("first", Arg::Text(offers[0].clone())),
                        ("second", Arg::Text(offers[1].clone())),
                    ],
                )
            },
        }
    }
}

/// The name of a unit in keys of the message catalogue.
pub(crate) fn unit_key(unit: Unit) -> &'static str {
    match unit {
        Unit::One => "one",
        Unit::Ratio => "ratio",
        Unit::Percent => "percent",
        Unit::Ohm | Unit::Siemens => "ohm",
        Unit::Henry => "henry",
        Unit::Farad => "farad",
        Unit::Hertz | Unit::RadianPerSecond => "hertz",
        Unit::Volt => "volt",
        Unit::VoltPeak | Unit::VoltPeakToPeak => "volt_peak",
        Unit::Ampere | Unit::Watt | Unit::Second => "other",
        Unit::Metre => "metre",
        Unit::SquareMetre => "square_metre",
        Unit::OhmPerMetre => "ohm_per_metre",
        Unit::HenryPerMetre => "henry_per_metre",
        Unit::FaradPerMetre => "farad_per_metre",
        Unit::Tesla => "tesla",
        Unit::Kelvin => "kelvin",
        Unit::VoltPerRootHertz => "volt_noise",
        Unit::AmperePerRootHertz => "ampere_noise",
        Unit::Degree => "degree",
        Unit::DecibelU => "decibel_u",
        Unit::Decibel | Unit::DecibelV | Unit::DecibelM | Unit::DecibelFullScale => "decibel",
    }
}
