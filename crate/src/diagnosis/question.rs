//! What is asked of the finder.

use crate::ask::Entry;
use crate::named::Named;
use crate::settings::Settings;
use serde::Deserialize;

/// A line with a fault, and what was found out so far.
#[derive(Clone, Debug, Default, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct FaultQuestion {
    /// The line, as the whole-line calculator takes it; fields left out have their defaults.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, Entry>"))]
    pub values: Named<Entry>,
    /// How the reader wants numbers.
    pub settings: Settings,
    /// Whether something tingles, sparks, smells or trips.
    pub danger: bool,
    /// What is heard, by its identifier.
    pub symptom: String,
    /// On how much of the desk: `one`, `several` or `all`.
    pub scope: String,
    /// What was done, in order.
    pub answers: Vec<GivenAnswer>,
    /// A step that is told even where others tell more, by its identifier.
    pub wanted: Option<String>,
    /// What the reader or this device knows of causes.
    pub known: Vec<KnownCause>,
    /// What was listened to, if anything was.
    pub sound: Option<Sound>,
    /// How many steps of the plan are wanted; nothing where none is.
    pub plan: Option<usize>,
}

/// A step that was done.
#[derive(Clone, Debug, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct GivenAnswer {
    /// Which, by its identifier; `cure-` and a cause's for a cure.
    pub step: String,
    /// What came of it; nothing where nobody knows.
    pub outcome: Option<String>,
}

/// What the reader or this device knows of a cause.
#[derive(Clone, Debug, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct KnownCause {
    /// Which, by its identifier.
    pub cause: String,
    /// It is so many times as common as judged here.
    pub times: f64,
    /// So often it was the cause on this device.
    pub seen: f64,
}

/// What was heard of the fault.
#[derive(Clone, Debug, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Sound {
    /// The harmonics of the mains: order, level re the first in dB, height over the noise in dB.
    pub lines: Vec<(u32, f64, f64)>,
    /// How likely what was heard is for each family of sounds, re the likeliest, by identifier.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, number>"))]
    pub families: Named<f64>,
}
