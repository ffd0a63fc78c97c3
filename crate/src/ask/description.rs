//! The description of a calculator, in the reader's words.

use crate::calculator::{Calculator, Preset};
use crate::field::{Field, Kind, Values};
use crate::named::Named;
use crate::quantity::{PRINTED, Unit};
use crate::settings::Settings;
use crate::words::Words;
use serde::Serialize;

/// A calculator as a page or a program needs to know it.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Description {
    /// Identifier.
    pub id: &'static str,
    /// Title.
    pub title: String,
    /// What it answers, in one line.
    pub purpose: String,
    /// Other words for it, by which it is found too.
    pub also: String,
    /// What it asks for, in order; fields of one group stand together.
    pub fields: Vec<FieldDescription>,
    /// The few fields that make up the question, to be asked before all others.
    pub first: Vec<&'static str>,
    /// Fillings to start from.
    pub presets: Vec<PresetDescription>,
    /// Whether any of its parts has a tolerance.
    pub tolerances: bool,
}

/// A field as a page or a program needs to know it.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct FieldDescription {
    /// Identifier.
    pub id: &'static str,
    /// Name.
    pub name: String,
    /// Symbol in the formulas, as plain text.
    pub symbol: &'static str,
    /// What it means.
    pub help: String,
    /// Name of the stop on the signal's way under which it stands.
    pub group: String,
    /// Whether it may be folded away at first.
    pub detail: bool,
    /// The number field, if it is one.
    pub number: Option<NumberDescription>,
    /// The choice, if it is one.
    pub choice: Option<ChoiceDescription>,
}

/// What a number field takes. All values in SI units.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct NumberDescription {
    /// The unit.
    pub unit: Unit,
    /// The unit in which a bare number is read, with its prefix.
    pub bare: String,
    /// The value at the start.
    pub default: Option<f64>,
    /// The same as printed.
    pub default_text: String,
    /// Whether it may be empty.
    pub optional: bool,
    /// The smallest value that can be computed with.
    pub least: f64,
    /// The largest value that can be computed with.
    pub most: f64,
    /// The start of the usual range, and of the slider.
    pub usual_from: f64,
    /// The end of the usual range, and of the slider.
    pub usual_to: f64,
    /// Whether the slider is logarithmic.
    pub log: bool,
    /// Values of the trade.
    pub marks: Vec<MarkDescription>,
}

/// A value of the trade.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct MarkDescription {
    /// In SI units.
    pub value: f64,
    /// As printed.
    pub text: String,
    /// What has this value.
    pub name: String,
}

/// What a choice offers.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct ChoiceDescription {
    /// The answer at the start.
    pub default: &'static str,
    /// The answers.
    pub options: Vec<OptionDescription>,
}

/// One answer to a choice.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct OptionDescription {
    /// Identifier.
    pub id: &'static str,
    /// Name.
    pub name: String,
}

/// A filling to start from.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct PresetDescription {
    /// Identifier.
    pub id: &'static str,
    /// Name.
    pub name: String,
    /// Fields that differ from their defaults, as text.
    pub values: Vec<(&'static str, &'static str)>,
    /// More fillings to hold beside it.
    pub held: Vec<Vec<(&'static str, &'static str)>>,
}

impl Calculator {
    /// The description in the reader's words.
    pub fn describe(&self, settings: &Settings) -> Description {
        let words = Words::of(settings.language);
        let word = |id: &str, attribute: &str| {
            words.of_calculator(self.id, id, attribute).map(str::to_owned).unwrap_or_default()
        };
        let (defaults, _) = Values::read(self, &Named::default(), settings);
        let field = |field: &Field| FieldDescription {
            id: field.id,
            name: word(field.id, ""),
            symbol: field.symbol,
            help: word(field.id, "help"),
            group: if field.group.is_empty() {
                String::new()
            } else {
                words.text(&format!("group-{}", field.group), &[], settings)
            },
            detail: field.detail,
            number: self.describe_number(field, &defaults, settings),
            choice: match &field.kind {
                Kind::Number(_) => None,
                Kind::Choice(choice) => Some(ChoiceDescription {
                    default: choice.default,
                    options: choice
                        .options
                        .iter()
                        .map(|option| OptionDescription {
                            id: option.id,
                            name: word(&format!("{}-{}", field.id, option.id), ""),
                        })
                        .collect(),
                }),
            },
        };
        let preset = |preset: &Preset| PresetDescription {
            id: preset.id,
            name: word(&format!("preset-{}", preset.id), ""),
            values: preset.values.to_vec(),
            held: preset.held.iter().map(|values| values.to_vec()).collect(),
        };
        Description {
            id: self.id,
            title: words.text(self.id, &[], settings),
            purpose: words.text(&format!("{}.purpose", self.id), &[], settings),
            also: words.pattern(self.id, "also").map(str::to_owned).unwrap_or_default(),
            fields: self.fields.iter().map(field).collect(),
            first: self.first.to_vec(),
            presets: self.presets.iter().map(preset).collect(),
            tolerances: self.has_parts(),
        }
    }

    fn describe_number(&self, field: &Field, defaults: &Values, settings: &Settings) -> Option<NumberDescription> {
        let Kind::Number(number) = &field.kind else { return None };
        let unit = number.unit_under(self, defaults);
        let text = |value| number.written(value, unit, settings);
        let symbol = unit.printing(settings.length).symbol;
        let prefix = PRINTED.iter().find(|(size, _)| *size == number.bare).map_or("", |(_, prefix)| prefix);
        Some(NumberDescription {
            unit,
            bare: if number.unit_from.is_some() { String::new() } else { format!("{prefix}{symbol}") },
            default: number.default,
            default_text: number.default.map(text).unwrap_or_default(),
            optional: number.optional,
            least: number.limits.0,
            most: number.limits.1,
            usual_from: number.usual.0,
            usual_to: number.usual.1,
            log: number.is_log(),
            marks: number
                .marks
                .iter()
                .map(|mark| MarkDescription {
                    value: mark.value,
                    text: text(mark.value),
                    name: Words::of(settings.language).text(mark.name, &[], settings),
                })
                .collect(),
        })
    }
}
