//! What an answer has to keep, and what one may change for it.

use super::{Answers, ChoiceField, Field};

/// What an answer has to keep: a reading held against a field.
#[derive(Debug)]
pub struct Requirement {
    /// The reading.
    pub reading: &'static str,
    /// What it has to be.
    pub bound: Bound,
    /// What one may change for it, what one would rather change first.
    pub changes: &'static [Change],
}

/// What a reading has to be.
#[derive(Debug)]
pub enum Bound {
    /// No less than what stands in this field.
    AtLeast(&'static str),
    /// No more than that.
    AtMost(&'static str),
    /// Not there at all.
    Absent,
}

/// What one may change.
#[derive(Clone, Copy, Debug)]
pub enum Change {
    /// Less in a number field.
    Less(&'static str, Step),
    /// More.
    More(&'static str, Step),
    /// Another answer to a choice.
    To(Answered),
}

/// Another answer to a choice, each as the identifiers of field and answer.
#[derive(Clone, Copy, Debug)]
pub struct Answered {
    /// The choice.
    pub choice: &'static str,
    /// Its new answer.
    pub answer: &'static str,
    /// Makes sense only while another choice has this answer.
    pub only: Option<(&'static str, &'static str)>,
    /// Another choice that changes with it.
    pub also: Option<(&'static str, &'static str)>,
}

/// In what steps a number is changed.
#[derive(Clone, Copy, Debug)]
pub enum Step {
    /// In whole numbers of so much.
    Of(f64),
    /// By whole decibels of what is there: for a level that is given in volts.
    Decibels,
    /// To 1, 2 or 5 times a power of ten, as such things are sold.
    Sold,
}

impl Bound {
    /// A reading that has to be no less than what stands in a field.
    pub const fn at_least(field: Field) -> Self {
        Self::AtLeast(field.id)
    }

    /// One that has to be no more than that.
    pub const fn at_most(field: Field) -> Self {
        Self::AtMost(field.id)
    }
}

impl Change {
    /// Less in a field.
    pub const fn less(field: Field, step: Step) -> Self {
        Self::Less(field.id, step)
    }

    /// More in a field.
    pub const fn more(field: Field, step: Step) -> Self {
        Self::More(field.id, step)
    }

    /// Another answer to a choice, by its identifier. For the compiler only: an answer
    /// to another choice does not build.
    ///
    /// # Panics
    /// While it is being compiled, where the answer is none.
    pub const fn to<T: Answers>(choice: ChoiceField<T>, answer: &'static str) -> Self {
        assert!(ChoiceField::<T>::has(&[answer]), "not an answer to this choice");
        Self::To(Answered { choice: choice.id(), answer, only: None, also: None })
    }

    /// The same where another choice has this answer.
    ///
    /// # Panics
    /// As [`Change::to`].
    pub const fn to_if<T: Answers, U: Answers>(
        choice: ChoiceField<T>,
        answer: &'static str,
        other: ChoiceField<U>,
        there: &'static str,
    ) -> Self {
        assert!(ChoiceField::<T>::has(&[answer]) && ChoiceField::<U>::has(&[there]), "not an answer to this choice");
        Self::To(Answered { choice: choice.id(), answer, only: Some((other.id(), there)), also: None })
    }

    /// The same together with an answer to another choice.
    ///
    /// # Panics
    /// As [`Change::to`].
    #[must_use]
    pub const fn and<T: Answers>(self, other: ChoiceField<T>, answer: &'static str) -> Self {
        assert!(ChoiceField::<T>::has(&[answer]), "not an answer to this choice");
        match self {
            Self::To(to) => Self::To(Answered { also: Some((other.id(), answer)), ..to }),
            number => number,
        }
    }

    /// The field that is changed.
    pub fn field(&self) -> &'static str {
        match self {
            Self::Less(id, _) | Self::More(id, _) => id,
            Self::To(to) => to.choice,
        }
    }
}

impl Step {
    /// The next number of this kind, from `value` on upwards or downwards; `from` is
    /// what is there now.
    pub fn next(self, value: f64, from: f64, upwards: bool) -> f64 {
        let whole = |x: f64| {
            // What rounding alone puts past a whole number is that number.
            let near = x.round();
            match upwards {
                _ if (x - near).abs() <= 1e-9 * x.abs().max(1.0) => near,
                true => x.ceil(),
                false => x.floor(),
            }
        };
        match self {
            Self::Of(step) => whole(value / step) * step,
            Self::Decibels => from * 10_f64.powf(whole(20.0 * (value / from).log10()) / 20.0),
            Self::Sold => {
                let power = 10_f64.powf(value.log10().floor());
                let up = [1.0, 2.0, 5.0, 10.0].map(|size| size * power);
                let kept =
                    |size: &&f64| if upwards { **size >= value * (1.0 - 1e-9) } else { **size <= value * (1.0 + 1e-9) };
                let found = if upwards { up.iter().find(kept) } else { up.iter().rfind(kept) };
                found.copied().unwrap_or(value)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps() {
        for (step, value, from, upwards, next) in [
            (Step::Of(0.1), 6.87, 10.0, false, 6.8),
            (Step::Of(10.0), 11.2, 0.0, true, 20.0),
            (Step::Of(10.0), 20.0, 0.0, true, 20.0),
            (Step::Of(0.1), 6.8, 10.0, false, 6.8),
            (Step::Of(0.1), 0.3, 0.0, true, 0.3),
            (Step::Decibels, 1.2, 1.0, true, 1.258_925_411_794_167_2),
            (Step::Decibels, 1.258_925_411_794_167_2, 1.0, true, 1.258_925_411_794_167_2),
            (Step::Sold, 2e3, 1e3, true, 2e3),
            (Step::Sold, 5e3, 10e3, false, 5e3),
            (Step::Sold, 1.1e3, 10e3, false, 1e3),
            (Step::Sold, 6e3, 10e3, false, 5e3),
            (Step::Sold, 1.1, 1.0, true, 2.0),
            (Step::Decibels, 0.8, 1.0, false, 0.794_328_234_724_281_5),
            (Step::Sold, 3.1e6, 1e6, true, 5e6),
            (Step::Sold, 5.1e6, 1e6, true, 10e6),
            (Step::Sold, 3.1e3, 10e3, false, 2e3),
        ] {
            let got = step.next(value, from, upwards);
            assert!((got / next - 1.0).abs() < 1e-9, "{step:?} {value}: {got}");
        }
    }
}
