//! What a calculator answers: plain data, in the reader's words.

use crate::quantity::{Unit, write_entry};
use crate::settings::Settings;
use crate::words::Arg;
use serde::Serialize;

/// The answer of a calculator.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Report {
    /// The answers to read first; the first of them is the answer.
    pub headline: Vec<Reading>,
    /// What else was computed.
    pub further: Vec<Reading>,
    /// Pictures.
    pub plots: Vec<Plot>,
    /// The formulas behind the answer, in order. Empty unless asked for.
    pub working: Vec<Step>,
    /// What makes the answer less than it seems.
    pub warnings: Vec<String>,
    /// What can hurt someone.
    pub cautions: Vec<String>,
    /// Whether the cautions are to be read before the answer.
    pub cautions_first: bool,
    /// Where formulas and values come from.
    pub sources: Vec<String>,
    /// Other calculators that show more, filled in.
    pub links: Vec<Link>,
    /// Ways to do it, the best first, those that are refused last; empty where
    /// the question is not which.
    pub ranking: Vec<Candidate>,
}

/// One number of an answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Reading {
    /// Identifier, unique in the report.
    pub id: &'static str,
    /// Its name.
    pub name: String,
    /// The number in its unit without prefix; nothing where it does not exist.
    pub value: Option<f64>,
    /// The unit.
    pub unit: Unit,
    /// The number as printed, or the words that say why there is none.
    pub text: String,
    /// What to make of it.
    pub verdict: Option<Verdict>,
}

/// What to make of a reading.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Verdict {
    /// How much it matters.
    pub tone: Tone,
    /// In words.
    pub text: String,
}

/// How much a verdict matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Tone {
    /// Nothing to do.
    Fine,
    /// Audible or near a limit.
    Watch,
    /// A limit is broken.
    Trouble,
}

/// A picture: curves over one axis, with what is needed to read it in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Plot {
    /// Identifier, unique in the report.
    pub id: &'static str,
    /// Its title.
    pub title: String,
    /// What it shows, in words, for those who do not see it.
    pub summary: String,
    /// The horizontal axis.
    pub x: Axis,
    /// The vertical axis.
    pub y: Axis,
    /// The curves.
    pub traces: Vec<Trace>,
    /// Points to point at.
    pub markers: Vec<Marker>,
    /// Named stretches of the horizontal axis.
    pub bands: Vec<Band>,
    /// Places on the horizontal axis for the table of numbers beside it.
    pub stops: Vec<f64>,
}

/// An axis.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Axis {
    /// Its name.
    pub name: String,
    /// The unit of its numbers.
    pub unit: Unit,
    /// The printed symbol of that unit.
    pub symbol: &'static str,
    /// Whether it is a log scale.
    pub log: bool,
    /// Whether curves have heights at the stops of the plot alone, and are drawn
    /// as peaks there.
    pub discrete: bool,
    /// The least that it shows.
    pub from: f64,
    /// The most that it shows.
    pub to: f64,
    /// Names of the places 0, 1, 2 … where the axis counts places; empty where
    /// its numbers are quantities.
    pub names: Vec<String>,
}

/// A curve. Stretches where it does not exist hold NaN.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Trace {
    /// Identifier, unique in the plot.
    pub id: &'static str,
    /// Its name.
    pub name: String,
    /// Whether it is there to compare with, and not the answer.
    pub reference: bool,
    /// Along the horizontal axis, rising.
    pub x: Vec<f64>,
    /// Along the vertical axis.
    pub y: Vec<f64>,
}

/// A point to point at.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Marker {
    /// Along the horizontal axis.
    pub x: f64,
    /// Along the vertical axis.
    pub y: f64,
    /// What stands there.
    pub text: String,
}

/// A named stretch of the horizontal axis.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Band {
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Its name.
    pub name: String,
}

/// One step of the working: a formula, the same with numbers, its result.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Step {
    /// What is computed.
    pub name: String,
    /// `symbol = formula`, as plain text.
    pub formula: String,
    /// The same as MathML.
    pub formula_mathml: String,
    /// The formula with numbers put in, as plain text that evaluates to the result.
    pub numbers: String,
    /// The same as MathML.
    pub numbers_mathml: String,
    /// The result as printed.
    pub result: String,
    /// The result, real part, in its unit.
    pub value: f64,
    /// The result, imaginary part.
    pub imaginary: f64,
}

/// Another calculator, filled in.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Link {
    /// Why one would follow it.
    pub text: String,
    /// The calculator.
    pub calculator: &'static str,
    /// Its fields, as text that reads back.
    pub values: Vec<(String, String)>,
}

/// One way to do it, in its place among others.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Candidate {
    /// Identifier, unique in the report.
    pub id: &'static str,
    /// Its name.
    pub name: String,
    /// Its place, 1 for the best; the same for those that are tied, nothing for
    /// one that is refused.
    pub place: Option<u32>,
    /// Why it stands there.
    pub verdict: Verdict,
    /// What speaks for it and against it, in numbers.
    pub reasons: Vec<Reason>,
    /// The calculator that shows all of it, filled in.
    pub link: Link,
}

/// A number that speaks for a candidate or against it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Reason {
    /// The number, with what to make of it.
    pub reading: Reading,
    /// The calculator that proves it, filled in.
    pub link: Link,
}

impl Link {
    /// A link to another calculator, filled in with SI units, which are written
    /// so that its fields read them.
    pub(crate) fn filled(text: String, calculator: &'static str, values: &[(&str, Arg)], settings: &Settings) -> Self {
        let values = values
            .iter()
            .map(|(field, value)| {
                let text = match value {
                    Arg::Quantity(value, unit) | Arg::AtMost(value, unit) | Arg::AtLeast(value, unit) => {
                        write_entry(*value, *unit, settings).replace('\u{a0}', " ")
                    }
                    Arg::Key(text) | Arg::Text(text) => text.clone(),
                };
                ((*field).to_owned(), text)
            })
            .collect();
        Self { text, calculator, values }
    }
}

impl Report {
    /// A reading by its identifier.
    pub fn reading(&self, id: &str) -> Option<&Reading> {
        self.headline.iter().chain(&self.further).find(|reading| reading.id == id)
    }
}
