//! What a question in a person's own words puts into the calculators: “phantom
//! 80 m” is 80 m of lead on a phantom supply, “+4 dBu into -10 dBV” two levels.
//! Which calculator is meant is not decided here: each takes what it can, and
//! whoever searches ranks them.
//!
//! A field, an answer to a choice or a preset can be filled by a question where
//! the catalogue gives it other words, `.also`: those of an answer or a preset
//! choose it, those of a number field tell which of several it is, as in “30 m run”.
//!
//! ```
//! use stageohm::seek::seek;
//! use stageohm::settings::Settings;
//!
//! let sought = seek("phantom 80 m", &Settings::default());
//! let phantom = sought.fillings.iter().find(|filling| filling.calculator == "phantom").unwrap();
//! assert_eq!(phantom.values, [("lead_length", "80 m".to_owned())]);
//! ```

mod phrase;
mod stretch;

use crate::ask::Entry;
use crate::ask::{Question, translate};
use crate::calculator::{Calculator, Preset, REGISTER};
use crate::field::{Choice, Field, Kind, Number, Values};
use crate::named::Named;
use crate::quantity::{Unit, is_long, read};
use crate::settings::{Decimal, Length, Settings};
use crate::words::Words;
use phrase::{longest, words_of};
use serde::Serialize;
use stretch::{Stretch, stretches};

/// A question in a person's own words, as far as calculators can use it.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Sought {
    /// Each number with its unit, as it was written, in order.
    pub numbers: Vec<String>,
    /// What each calculator that can use any of it takes, in the order of the page.
    pub fillings: Vec<SoughtFilling>,
}

/// What a calculator takes from a question.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct SoughtFilling {
    /// Identifier of the calculator.
    pub calculator: &'static str,
    /// What goes into its fields, as text.
    pub values: Vec<(&'static str, String)>,
    /// The same for the reader.
    pub shown: Vec<SoughtValue>,
    /// How many of the numbers are among them.
    pub numbers: usize,
    /// The words that chose something.
    pub used: Vec<String>,
}

/// A field that a question fills, in the reader's words.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct SoughtValue {
    /// Name of the field.
    pub name: String,
    /// What goes into it.
    pub text: String,
}

/// What the calculators can use of a question.
pub fn seek(text: &str, settings: &Settings) -> Sought {
    // A book is no question.
    if is_long(text) {
        return Sought::default();
    }
    let question = Asked { words: words_of(text), stretches: stretches(text, settings), settings };
    Sought {
        numbers: question.stretches.iter().map(|stretch| stretch.text.clone()).collect(),
        fillings: REGISTER.iter().filter_map(|calculator| question.filling(calculator)).collect(),
    }
}

/// A question, taken apart.
struct Asked<'a> {
    words: Vec<String>,
    stretches: Vec<Stretch>,
    settings: &'a Settings,
}

/// What has been put into a calculator so far.
#[derive(Default)]
struct Taken {
    values: Named<Entry>,
    used: Vec<String>,
    numbers: usize,
}

/// A number field that is still empty, with its words in the catalogue.
type Open = (&'static Field, &'static Number, &'static str);

impl Asked<'_> {
    fn filling(&self, calculator: &'static Calculator) -> Option<SoughtFilling> {
        let mut taken = Taken::default();
        self.take_presets(calculator, &mut taken);
        for field in calculator.fields {
            if let Kind::Choice(choice) = &field.kind {
                self.take_answer(calculator, field, choice, &mut taken);
            }
        }
        self.take_numbers(calculator, &mut taken);
        let (_, echoes) = Values::read(calculator, &taken.values, self.settings);
        let words = Words::of(self.settings.language);
        let word = |id: &str| words.of_calculator(calculator.id, id, "").unwrap_or_default().to_owned();
        let mut filling = SoughtFilling {
            calculator: calculator.id,
            values: Vec::new(),
            shown: Vec::new(),
            numbers: taken.numbers,
            used: taken.used,
        };
        for field in calculator.fields {
            let Some(Entry::Text(text)) = taken.values.get(field.id) else { continue };
            let Some(echo) = echoes.get(field.id).filter(|echo| echo.active && echo.problem.is_none()) else {
                continue;
            };
            let shown = match &field.kind {
                Kind::Choice(_) => word(&format!("{}-{}", field.id, echo.text)),
                Kind::Number(_) => text.clone(),
            };
            filling.values.push((field.id, text.clone()));
            filling.shown.push(SoughtValue { name: word(field.id), text: shown });
        }
        (!filling.values.is_empty()).then_some(filling)
    }

    /// What the catalogue says besides of something in a calculator.
    fn also(&self, calculator: &Calculator, id: &str) -> Option<&'static str> {
        Words::of(self.settings.language).of_calculator(calculator.id, id, "also")
    }

    /// The example that the question names.
    fn take_presets(&self, calculator: &Calculator, taken: &mut Taken) {
        let named = calculator.presets.iter().filter_map(|preset| {
            let also = self.also(calculator, &format!("preset-{}", preset.id))?;
            Some((preset, longest(also, &self.words)?))
        });
        let Some((preset, phrase)) = named.max_by_key(|(_, phrase)| phrase.len()) else { return };
        for (id, text) in self.texts(calculator, preset) {
            taken.values.insert(id, Entry::Text(text));
        }
        taken.used.push(phrase);
    }

    /// The texts of a preset, which are written with points and in metres, for this reader.
    fn texts(&self, calculator: &Calculator, preset: &Preset) -> Vec<(&'static str, String)> {
        let written = Settings { decimal: Decimal::Point, length: Length::Metre, ..*self.settings };
        let question = Question {
            calculator: calculator.id.to_owned(),
            values: Named::distinct(preset.values.iter().map(|(id, text)| (*id, Entry::Text((*text).to_owned())))),
            settings: written,
            working: false,
            brief: false,
            backwards: None,
            cures: false,
            tolerances: None,
        };
        let translated = translate(&question, self.settings).values;
        let text = |id: &str, text: &str| translated.get(id).map_or(text, String::as_str).to_owned();
        preset.values.iter().map(|(id, written)| (*id, text(id, written))).collect()
    }

    /// The answer to a choice that the question names at the greatest length.
    fn take_answer(&self, calculator: &Calculator, field: &Field, choice: &Choice, taken: &mut Taken) {
        let named = choice.options.iter().filter_map(|option| {
            let also = self.also(calculator, &format!("{}-{}", field.id, option.id))?;
            Some((option.id, longest(also, &self.words)?))
        });
        // Of equals the first, as they stand on the page.
        let found = named.fold(None, |best: Option<(&str, String)>, (id, phrase)| match best {
            Some(best) if best.1.len() >= phrase.len() => Some(best),
            _ => Some((id, phrase)),
        });
        if let Some((id, phrase)) = found {
            taken.values.insert(field.id, Entry::Text(id.to_owned()));
            taken.used.push(phrase);
        }
    }

    /// Each number into the field whose word stands beside it, else into the first
    /// that takes its unit and is still empty.
    fn take_numbers(&self, calculator: &'static Calculator, taken: &mut Taken) {
        let (_, echoes) = Values::read(calculator, &taken.values, self.settings);
        let mut open: Vec<Open> = calculator
            .fields
            .iter()
            .filter(|field| echoes.get(field.id).is_some_and(|echo| echo.active))
            .filter_map(|field| match &field.kind {
                Kind::Number(number) => Some((field, number, self.also(calculator, field.id)?)),
                Kind::Choice(_) => None,
            })
            .collect();
        let takes = |number: &Number, stretch: &Stretch| self.reads(calculator, number, &stretch.text);
        let named = |open: &[Open], stretch: &Stretch, beside: &str| {
            let cues = words_of(beside);
            open.iter().position(|(_, number, also)| takes(number, stretch) && longest(also, &cues).is_some())
        };
        // “Lead 6 m, run 30 m” or “6 m lead, 30 m run”: as most of them are written.
        let count = |beside: fn(&Stretch) -> &str| {
            self.stretches.iter().filter(|stretch| named(&open, stretch, beside(stretch)).is_some()).count()
        };
        let beside: fn(&Stretch) -> &str =
            if count(|it| &it.after) > count(|it| &it.before) { |it| &it.after } else { |it| &it.before };
        for stretch in &self.stretches {
            let place = named(&open, stretch, beside(stretch))
                .or_else(|| open.iter().position(|(_, number, _)| takes(number, stretch)));
            let Some((place, field)) = place.and_then(|place| Some((place, open.get(place)?.0))) else { continue };
            let mut tried = taken.values.clone();
            tried.insert(field.id, Entry::Text(stretch.text.clone()));
            let (_, echoes) = Values::read(calculator, &tried, self.settings);
            // What cannot be computed with is not put in for anybody.
            if echoes.get(field.id).is_some_and(|echo| echo.problem.is_none()) {
                open.remove(place);
                taken.values = tried;
                taken.numbers += 1;
            }
        }
    }

    /// Whether a number field knows the unit that is written.
    fn reads(&self, calculator: &Calculator, number: &Number, text: &str) -> bool {
        let units: Vec<Unit> = match number.unit_from.and_then(|id| calculator.field(id)).map(|field| &field.kind) {
            Some(Kind::Choice(choice)) => choice.options.iter().filter_map(|option| option.unit).collect(),
            _ => vec![number.unit],
        };
        units.into_iter().any(|unit| read(text, unit, 1.0, self.settings).is_ok_and(|written| written.unit_given))
    }
}
