//! What was put into the fields of a calculator, checked.

use super::{Answers, Changed, ChoiceField, Field};
use crate::fault::Fault;
use crate::named::Named;

/// The values of all fields of a calculator, checked against their limits.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Values {
    pub(crate) numbers: Named<Option<f64>>,
    pub(crate) choices: Named<&'static str>,
}

// The field's identifier is all that is left of it where these are put in: no
// field is copied.
impl Values {
    /// The number in a field that is never empty, in SI units.
    ///
    /// # Errors
    /// A [`Fault`] if the calculator has no such field or it is empty.
    #[inline(always)]
    pub fn number(&self, field: Field) -> Result<f64, Fault> {
        self.filled_in(field.id)
    }

    /// The number in a field that may be empty, in SI units.
    ///
    /// # Errors
    /// A [`Fault`] if the calculator has no such field.
    #[inline(always)]
    pub fn optional(&self, field: Field) -> Result<Option<f64>, Fault> {
        self.number_in(field.id)
    }

    /// The answer to a choice.
    ///
    /// # Errors
    /// A [`Fault`] if the calculator has no such field, or one with other answers.
    #[inline(always)]
    pub fn choice<T: Answers>(&self, choice: ChoiceField<T>) -> Result<T, Fault> {
        let id = choice.id();
        T::of(self.answer_to(id)?).ok_or_else(|| Fault::internal(id))
    }

    /// The same values with one number changed; the limits are the caller's care.
    #[must_use]
    #[inline(always)]
    pub fn with(self, field: Field, value: f64) -> Self {
        self.with_number(field.id, value)
    }

    fn with_number(mut self, id: &'static str, value: f64) -> Self {
        self.put(id, value);
        self
    }

    /// Changes one number; the limits are the caller's care.
    pub(crate) fn put(&mut self, id: &'static str, value: f64) {
        self.numbers.insert(id, Some(value));
    }

    fn filled_in(&self, id: &'static str) -> Result<f64, Fault> {
        self.number_in(id)?.ok_or_else(|| Fault::internal(id))
    }

    fn number_in(&self, id: &'static str) -> Result<Option<f64>, Fault> {
        self.numbers.get(id).copied().ok_or_else(|| Fault::internal(id))
    }

    /// The same values with a field changed.
    pub(crate) fn changed(&self, id: &'static str, to: &Changed) -> Self {
        let mut values = self.clone();
        match to {
            Changed::Number(value) => values.put(id, *value),
            Changed::Answer(answer) => {
                values.choices.insert(id, answer);
            }
        }
        values
    }

    /// What stands in a number field by its identifier; nothing where there is none.
    pub(crate) fn stands_in(&self, id: &str) -> Option<f64> {
        self.numbers.get(id).copied().flatten()
    }

    /// The identifier of the answer to any choice.
    pub(crate) fn answer_to(&self, id: &'static str) -> Result<&'static str, Fault> {
        self.choices.get(id).copied().ok_or_else(|| Fault::internal(id))
    }
}
