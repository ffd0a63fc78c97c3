//! What is put into the fields of a calculator by another one.

use super::mains::MAINS;
use super::{Answers, ChoiceField, Field, Kind, Values};
use crate::fault::Fault;
use crate::named::Named;
use crate::quantity::Unit;
use crate::words::{Arg, Message};

/// What is put into the fields of a calculator by another one; fields that are
/// left out have their defaults.
#[derive(Clone, Debug)]
pub(crate) struct Filling {
    /// Identifier of the calculator that it fills.
    pub calculator: &'static str,
    fields: &'static [Field],
    values: Vec<(&'static str, Arg)>,
    /// The fields that could not take all of what was put in.
    cut: Vec<&'static str>,
}

/// What a field is changed to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Changed {
    /// A number in its unit.
    Number(f64),
    /// An answer.
    Answer(&'static str),
}

/// A number for a field, in its unit.
#[derive(Clone, Copy, Debug)]
pub struct Put {
    id: &'static str,
    value: f64,
    unit: Unit,
}

impl Field {
    /// A number for this field, in its unit.
    pub const fn to(self, value: f64) -> Put {
        Put { id: self.id, value, unit: self.unit() }
    }
}

impl Filling {
    /// Nothing but the defaults of a calculator, which has these fields.
    pub(crate) fn new(calculator: &'static str, fields: &'static [Field]) -> Self {
        Self { calculator, fields, values: Vec::new(), cut: Vec::new() }
    }

    /// Puts in what `values` have in every field of `from` that goes by the same
    /// name and unit, where it is not the default: such a field asks the same in
    /// all calculators.
    ///
    /// # Errors
    /// A [`Fault`] if the values are not those of `from`.
    pub(crate) fn copy(&mut self, from: &[Field], values: &Values) -> Result<(), Fault> {
        for field in self.fields {
            let Some(other) = from.iter().find(|other| other.id == field.id) else { continue };
            match (&field.kind, &other.kind) {
                (Kind::Number(number), Kind::Number(other_number)) if number.unit == other_number.unit => {
                    let value = values.optional(*other)?;
                    if value != number.default && (value.is_some() || number.optional) {
                        self.put_within(f64::INFINITY, field.id, value, number.unit);
                    }
                }
                (Kind::Choice(choice), Kind::Choice(_)) => {
                    let answer = values.answer_to(other.id)?;
                    // The default of the mains is a setting of the reader's.
                    let differs = answer != choice.default || field.id == MAINS.id();
                    if differs && choice.options.iter().any(|option| option.id == answer) {
                        self.set(field.id, Arg::Text(answer.to_owned()));
                    }
                }
                _ => {}
            }
        }
        Ok(())
    }

    /// Puts in a number, or leaves its field empty. What a field does not take
    /// is put in at its limit: no link leads to where it would be refused.
    #[inline(always)]
    pub(crate) fn put(&mut self, field: Field, value: impl Into<Option<f64>>) {
        self.put_within(f64::INFINITY, field.id, value.into(), field.unit());
    }

    /// The same where no more than `most` is to be put in.
    #[inline(always)]
    pub(crate) fn put_up_to(&mut self, most: f64, field: Field, value: impl Into<Option<f64>>) {
        self.put_within(most, field.id, value.into(), field.unit());
    }

    /// Puts in numbers as [`Filling::put`] does.
    pub(crate) fn put_all(&mut self, numbers: &[Put]) {
        for Put { id, value, unit } in numbers {
            self.put_within(f64::INFINITY, id, Some(*value), *unit);
        }
    }

    fn put_within(&mut self, most: f64, id: &'static str, value: Option<f64>, unit: Unit) {
        let Some(value) = value else { return self.set(id, Arg::Text(String::new())) };
        let field = self.fields.iter().find(|field| field.id == id);
        let Some(Kind::Number(number)) = field.map(|field| &field.kind) else {
            return self.set(id, Arg::Entry(value, unit));
        };
        let put = value.max(number.limits.0).min(number.limits.1.min(most));
        self.set(id, Arg::Entry(put, unit));
        // What rounding alone takes out is not missed.
        let size = if put == 0.0 { number.usual.1 } else { put };
        let is_whole = (put - value).abs() <= 1e-9 * size.abs();
        if !is_whole {
            self.cut.push(id);
        }
    }

    /// Changes what stands in a field, by its identifier.
    pub(crate) fn change(&mut self, id: &'static str, to: &Changed) {
        match (to, self.fields.iter().find(|field| field.id == id)) {
            (Changed::Number(value), Some(field)) => self.put_within(f64::INFINITY, id, Some(*value), field.unit()),
            (Changed::Answer(answer), Some(_)) => self.set(id, Arg::Text((*answer).to_owned())),
            (_, None) => {}
        }
    }

    /// Answers a choice.
    #[inline(always)]
    pub(crate) fn choose<T: Answers>(&mut self, choice: ChoiceField<T>, answer: T) {
        self.set(choice.id(), Arg::Text(answer.id().to_owned()));
    }

    fn set(&mut self, id: &'static str, arg: Arg) {
        self.values.retain(|(old, _)| *old != id);
        self.cut.retain(|old| *old != id);
        self.values.push((id, arg));
    }

    /// Whether some field could not take all of what was put in.
    pub(crate) fn is_cut(&self) -> bool {
        !self.cut.is_empty()
    }

    /// What is put into a field.
    fn get(&self, id: &str) -> Option<&Arg> {
        self.values.iter().find(|(known, _)| *known == id).map(|(_, arg)| arg)
    }

    /// All that is put in, in the order in which it came, as entries of the fields.
    pub(crate) fn entries(&self) -> Vec<(&'static str, Message)> {
        let entry = |arg: &Arg| match arg {
            Arg::Quantity(value, unit)
            | Arg::Figures(value, unit, _)
            | Arg::Entry(value, unit)
            | Arg::AtMost(value, unit)
            | Arg::AtLeast(value, unit) => Message::Entry(*value, *unit),
            Arg::Key(text) | Arg::Text(text) => Message::Text(text.clone().into()),
            Arg::Messages(_) => Message::Nothing,
        };
        self.values.iter().map(|(field, arg)| (*field, entry(arg))).collect()
    }

    /// The values of the calculator's defaults with these put in.
    pub(crate) fn to_values(&self) -> Values {
        let (mut numbers, mut choices) = (Vec::new(), Vec::new());
        for field in self.fields {
            let given = self.get(field.id);
            match (&field.kind, given) {
                (Kind::Number(_), Some(Arg::Entry(value, _))) => numbers.push((field.id, Some(*value))),
                (Kind::Number(_), Some(_)) => numbers.push((field.id, None)),
                (Kind::Number(number), None) => numbers.push((field.id, number.default)),
                (Kind::Choice(choice), _) => {
                    let named = |name: &str| choice.options.iter().find(|option| option.id == name);
                    let answer = match given {
                        Some(Arg::Text(name)) => named(name).map(|option| option.id),
                        _ => None,
                    };
                    choices.push((field.id, answer.unwrap_or(choice.default)));
                }
            }
        }
        // No two fields of a calculator go by one name.
        Values { numbers: Named::distinct(numbers), choices: Named::distinct(choices) }
    }
}
