//! The file of a lesson.
//!
//! Its texts mean the same to every reader: they are written with a decimal point, and a
//! bare length is in metres.

use crate::catalogue::Series;
use crate::named::Named;
use crate::settings::{Mains, Settings};
use serde::{Deserialize, Serialize};

/// The version of the file that is written, and the newest that is read.
pub const VERSION: u32 = 1;
/// What such a file says it is.
pub(super) const KIND: &str = "lesson";
/// At most so many steps, and so many things in each list of a step.
pub const STEPS_MOST: usize = 60;
/// A text has at most so many characters.
pub const TEXT_LONGEST: usize = 4000;

/// A lesson.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct Lesson {
    /// What the file is: `lesson`.
    pub stageohm: String,
    /// The version of the file.
    pub version: u32,
    /// By what results name it.
    pub id: String,
    /// Counts up with every change that a result has to know of.
    pub revision: u32,
    /// The version of the program that wrote it.
    pub engine: String,
    /// The language of its texts (BCP 47).
    pub language: String,
    /// What it is called.
    pub title: String,
    /// Whose it is.
    pub by: String,
    /// Under what licence it may be passed on.
    pub licence: String,
    /// How long it takes, minutes.
    pub minutes: f64,
    /// The share of the points that passes.
    pub pass: f64,
    /// The rig that its steps start from.
    pub rig: LessonRig,
    /// What a seed deals, by field.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, DrawRange>"))]
    pub draw: Named<Range>,
    /// Its steps, in order.
    pub steps: Vec<LessonStep>,
    /// For the trainer only.
    pub note: String,
    /// The same in other languages: title and note.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, LessonVariant>"))]
    pub variants: Named<Variant>,
}

/// A calculator with a value for every field.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct LessonRig {
    /// The calculator, by its identifier.
    pub calculator: String,
    /// The mains there.
    pub mains: Mains,
    /// What stands in its fields.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub values: Named<String>,
}

/// What may be dealt for a field: one of several, or a value of a series.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "DrawRange"))]
#[serde(default, deny_unknown_fields)]
pub struct Range {
    /// These.
    pub of: Vec<String>,
    /// The least, where none are named.
    pub from: String,
    /// The most.
    pub to: String,
    /// The series of preferred values between them.
    pub series: SeriesName,
}

/// A series of preferred values (IEC 60063).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub enum SeriesName {
    /// 12 a decade.
    #[default]
    E12,
    /// 24 a decade.
    E24,
    /// 96 a decade.
    E96,
}

impl From<SeriesName> for Series {
    fn from(name: SeriesName) -> Self {
        match name {
            SeriesName::E12 => Self::E12,
            SeriesName::E24 => Self::E24,
            SeriesName::E96 => Self::E96,
        }
    }
}

/// A step of a lesson. Which of its fields count is said by its kind.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct LessonStep {
    /// What is asked: `read`, `number`, `magnitude`, `curve`, `target`, `fault`, `choice` or
    /// `ear`. A step of a kind that is not known is shown and skipped.
    pub kind: String,
    /// Its heading.
    pub title: String,
    /// What it says, in paragraphs; `*so*` is stressed, `[[term]]` is looked up.
    pub text: String,
    /// What is said once it was answered.
    pub because: String,
    /// For the trainer only.
    pub note: String,
    /// The points for a full answer.
    pub points: f64,
    /// Hints, each of which costs credit.
    pub hints: Vec<String>,
    /// Another rig than that of the lesson.
    pub rig: Option<LessonRig>,
    /// What stands in fields of the rig instead, whatever is dealt.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub values: Named<String>,
    /// Fields that the learner may change; all others are hidden.
    pub open: Vec<String>,
    /// Fields that are shown and not to be changed.
    pub given: Vec<String>,
    /// The reading that is asked for, or that is shown.
    pub reading: String,
    /// How far off still is full credit: a quantity, or percents.
    pub good: String,
    /// How far off is none.
    pub none: String,
    /// The plot that is asked for, or that is shown.
    pub plot: String,
    /// The trace of it; the first one that is no reference where none is named.
    pub trace: String,
    /// Where the band begins that counts.
    pub from: String,
    /// Where it ends.
    pub to: String,
    /// What parts have to meet.
    pub limits: Vec<Limit>,
    /// The drawer.
    pub drawer: Vec<Part>,
    /// What may be spent.
    pub budget: Option<f64>,
    /// What may be wrong with the rig; a seed says which is.
    pub cases: Vec<Case>,
    /// Readings that can be measured; by ear those that tell the two rigs apart.
    pub measures: Vec<String>,
    /// The ways to put in order; those that the calculator ranks where none are named. By ear
    /// the two rigs, A and B.
    pub ways: Vec<WayGiven>,
    /// Which end of the reading is the best.
    pub best: Best,
    /// What the two rigs of a step by ear are heard with.
    pub source: Source,
    /// So many times X is to be named; as usual where it is not said.
    pub trials: Option<u8>,
    /// So many of them right are full credit; what guessing seldom reaches where it is not said.
    pub enough: Option<u8>,
    /// Whether the rigs are heard as loud as they are, and not alike.
    pub as_it_is: bool,
    /// The same in other languages.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, LessonVariant>"))]
    pub variants: Named<Variant>,
}

/// Something that a reading has to keep.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct Limit {
    /// The reading.
    pub reading: String,
    /// It is at least this; empty where it need not be.
    pub least: String,
    /// It is at most this; empty where it need not be.
    pub most: String,
}

/// A part of a drawer.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "DrawerPart"))]
#[serde(default, deny_unknown_fields)]
pub struct Part {
    /// What it is called; its value where it has no name.
    pub name: String,
    /// The field that it goes into.
    pub field: String,
    /// What it puts there.
    pub value: String,
    /// What it costs.
    pub cost: f64,
}

/// Something that may be wrong with the rig.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "FaultCase"))]
#[serde(default, deny_unknown_fields)]
pub struct Case {
    /// What it is called.
    pub name: String,
    /// What stands in fields of the rig then.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub values: Named<String>,
}

/// A way to do it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct WayGiven {
    /// What it is called.
    pub name: String,
    /// What stands in fields of the rig then.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub values: Named<String>,
}

/// Which end of a reading is the best.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Best {
    /// The least.
    #[default]
    Least,
    /// The most.
    Most,
}

/// What the two rigs of a step by ear are heard with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "EarSource"))]
#[serde(rename_all = "lowercase")]
pub enum Source {
    /// A plucked bass.
    #[default]
    Bass,
    /// A plucked guitar.
    Guitar,
    /// A chord of a keyboard.
    Keys,
    /// Noise shaped like speech.
    Speech,
}

/// A lesson or a step in another language.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "LessonVariant"))]
#[serde(default, deny_unknown_fields)]
pub struct Variant {
    /// Its heading.
    pub title: String,
    /// What it says.
    pub text: String,
    /// What is said once it was answered.
    pub because: String,
    /// For the trainer only.
    pub note: String,
    /// Hints.
    pub hints: Vec<String>,
    /// Names of ways, cases or parts, in their order.
    pub names: Vec<String>,
}

impl Part {
    /// Its name, or its value where it has none.
    pub(super) fn called(&self) -> &str {
        if self.name.is_empty() { &self.value } else { &self.name }
    }
}

impl LessonRig {
    /// The settings under which its texts are written.
    pub(super) fn settings(&self) -> Settings {
        Settings { mains: self.mains, ..Settings::default() }
    }
}

impl Lesson {
    /// The rig of a step.
    pub(super) fn rig_of<'a>(&'a self, step: &'a LessonStep) -> &'a LessonRig {
        step.rig.as_ref().unwrap_or(&self.rig)
    }
}
