//! What comes in.

use super::{Entry, Tolerances};
use crate::named::Named;
use crate::settings::Settings;
use serde::Deserialize;

/// A question to a calculator.
#[derive(Clone, Debug, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Question {
    /// Identifier of the calculator.
    pub calculator: String,
    /// What was put into its fields; fields left out have their defaults.
    #[serde(default)]
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, Entry>"))]
    pub values: Named<Entry>,
    /// How the reader wants numbers and words.
    #[serde(default)]
    pub settings: Settings,
    /// Whether to write the working.
    #[serde(default = "yes")]
    pub working: bool,
    /// Whether nothing is wanted but what is read first, whatever else is asked.
    #[serde(default)]
    pub brief: bool,
    /// A reading to meet by one field, if the question is asked backwards.
    #[serde(default)]
    pub backwards: Option<Wanted>,
    /// Whether to find what would mend the limits that are missed.
    #[serde(default)]
    pub cures: bool,
    /// The tolerances of parts, if what they do is asked too.
    #[serde(default)]
    pub tolerances: Option<Tolerances>,
}

fn yes() -> bool {
    true
}

/// A reading to meet by one field.
#[derive(Clone, Debug, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Wanted {
    /// The reading.
    pub reading: String,
    /// Its wanted value, as text or in its unit.
    pub value: Entry,
    /// The field to solve for.
    pub field: String,
}
