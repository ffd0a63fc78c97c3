//! Something to say later, in whichever language.

use super::{Arg, Args, Words};
use crate::Complex64;
use crate::expression::print::number;
use crate::expression::{Expression, Given};
use crate::quantity::{EXACT, Unit, write, write_entry};
use crate::settings::Settings;
use std::borrow::Cow;

/// Something to say later: whoever solves names what there is to say, and the
/// words of a language, the reader's decimal sign and units come afterwards.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Message {
    /// Nothing.
    #[default]
    Nothing,
    /// A word of a calculator or, where it has none, the one that all share.
    Word {
        /// The calculator; nothing where the key is whole.
        calculator: Option<&'static str>,
        /// Key of the message, whole or without the calculator.
        key: Cow<'static, str>,
        /// What goes into it.
        args: Vec<(&'static str, Arg)>,
        /// The whole key of what is said where there is no such word.
        otherwise: &'static str,
    },
    /// A number with its unit, as a reading shows it: to so many digits.
    Quantity(f64, Unit, usize),
    /// A number as a field takes it.
    Entry(f64, Unit),
    /// The same text in every language.
    Text(Cow<'static, str>),
    /// A number of the working.
    Number(Complex64, Unit),
    /// A formula with numbers put in.
    Numbers(Expression, Vec<Given>),
    /// The same as MathML, after this beginning.
    NumbersMathml(String, Expression, Vec<Given>),
}

impl Message {
    /// A message of the catalogue by its whole key.
    pub fn whole(key: impl Into<Cow<'static, str>>) -> Self {
        Self::Word { calculator: None, key: key.into(), args: Vec::new(), otherwise: "" }
    }

    /// A word of a calculator, or the one that all share.
    pub fn of(calculator: &'static str, id: impl Into<Cow<'static, str>>, args: Args) -> Self {
        Self::Word { calculator: Some(calculator), key: id.into(), args: args.to_vec(), otherwise: "" }
    }

    /// The number of a reading as the working has it; nothing where that is its text.
    pub(crate) fn exact(&self, settings: &Settings) -> Option<String> {
        let Self::Quantity(value, unit, _) = self else { return None };
        Some(write(*value, *unit, EXACT, settings))
    }

    /// The text for a reader; that of a missing word is its key.
    pub fn text(&self, settings: &Settings) -> String {
        match self {
            Self::Nothing => String::new(),
            Self::Word { calculator: Some(calculator), key, args, otherwise } => {
                let words = Words::of(settings.language);
                let (id, attribute) = key.split_once('.').unwrap_or((key, ""));
                match words.of_calculator(calculator, id, attribute) {
                    Some(pattern) => words.fill(pattern, args, settings),
                    None if otherwise.is_empty() => format!("{calculator}-{key}"),
                    None => words.text(otherwise, args, settings),
                }
            }
            Self::Word { key, args, .. } => Words::of(settings.language).text(key, args, settings),
            Self::Quantity(value, unit, digits) => write(*value, *unit, *digits, settings),
            // A field reads a plain space too.
            Self::Entry(value, unit) => write_entry(*value, *unit, settings).replace('\u{a0}', " "),
            Self::Text(text) => text.clone().into_owned(),
            Self::Number(value, unit) => number(*value, *unit, settings),
            Self::Numbers(formula, scope) => formula.numbers(scope, settings),
            Self::NumbersMathml(begin, formula, scope) => format!("{begin}{}", formula.numbers_mathml(scope, settings)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A word that is missing shows its key, unless there is something else to say.
    #[test]
    fn what_is_said_where_a_word_is_missing() {
        let settings = Settings::default();
        let word = |id: &'static str, otherwise: &'static str| {
            let args = vec![("limit", Arg::Quantity(0.5, Unit::Decibel))];
            let message = Message::Word { calculator: Some("pad"), key: id.into(), args, otherwise };
            message.text(&settings)
        };
        assert_eq!(word("no-such", ""), "pad-no-such");
        assert_eq!(word("no-such.because", ""), "pad-no-such.because");
        assert_eq!(word("no-such", "no-such-either"), "no-such-either");
        assert_eq!(Message::of("pad", "no-such", &[]).text(&settings), "pad-no-such");
        assert_eq!(Message::whole("no-such").text(&settings), "no-such");
        assert_eq!(Message::Nothing.text(&settings), "");
    }

    /// What is shown is rounded, and what is copied has six figures: 1/3 V.
    #[test]
    fn exact_figures_of_a_reading() {
        let settings = Settings::default();
        let third = Message::Quantity(1.0 / 3.0, Unit::Volt, 3);
        assert_eq!(third.text(&settings), "333\u{a0}mV");
        assert_eq!(third.exact(&settings), Some("333.333\u{a0}mV".to_owned()));
        assert_eq!(Message::Nothing.exact(&settings), None);
        // What is put into a field has a plain space, as somebody types.
        assert_eq!(Message::Entry(1500.0, Unit::Ohm).text(&settings), "1.5 kΩ");
    }
}
