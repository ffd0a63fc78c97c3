//! What a calculator answers: plain data, in the reader's words or before them.

use crate::quantity::Unit;
use crate::words::Message;
use crate::working::Step;
use serde::Serialize;

/// What a calculator found, before anyone put it into words.
pub type Solution = Report<Message>;

/// The answer of a calculator. Its texts are those of a reader, or messages that
/// become texts ([`Solution`]).
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Report<T = String> {
    /// The answers to read first; the first of them is the answer.
    pub headline: Vec<Reading<T>>,
    /// What else was computed.
    pub further: Vec<Reading<T>>,
    /// Pictures.
    pub plots: Vec<Plot<T>>,
    /// The formulas behind the answer, in order. Empty unless asked for.
    pub working: Vec<Step<T>>,
    /// What makes the answer less than it seems.
    pub warnings: Vec<T>,
    /// What can hurt someone.
    pub cautions: Vec<T>,
    /// Whether the cautions are to be read before the answer.
    pub cautions_first: bool,
    /// Where formulas and values come from.
    pub sources: Vec<T>,
    /// Other calculators that show more, filled in.
    pub links: Vec<Link<T>>,
    /// Ways to do it, the best first, those that are refused last; empty where
    /// the question is not which.
    pub ranking: Vec<Candidate<T>>,
}

/// One number of an answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Reading<T = String> {
    /// Identifier, unique in the report.
    pub id: &'static str,
    /// Its name.
    pub name: T,
    /// The number in its unit without prefix; nothing where it does not exist.
    pub value: Option<f64>,
    /// The unit.
    pub unit: Unit,
    /// The number as printed, or the words that say why there is none.
    pub text: T,
    /// What to make of it.
    pub verdict: Option<Verdict<T>>,
}

/// What to make of a reading.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Verdict<T = String> {
    /// How much it matters.
    pub tone: Tone,
    /// In words.
    pub text: T,
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
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Plot<T = String> {
    /// Identifier, unique in the report.
    pub id: &'static str,
    /// Its title.
    pub title: T,
    /// What it shows, in words, for those who do not see it.
    pub summary: T,
    /// The horizontal axis.
    pub x: Axis<T>,
    /// The vertical axis.
    pub y: Axis<T>,
    /// The curves.
    pub traces: Vec<Trace<T>>,
    /// Points to point at.
    pub markers: Vec<Marker<T>>,
    /// Named stretches of the horizontal axis.
    pub bands: Vec<Band<T>>,
    /// Places on the horizontal axis for the table of numbers beside it.
    pub stops: Vec<f64>,
}

/// An axis.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Axis<T = String> {
    /// Its name.
    pub name: T,
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
    pub names: Vec<T>,
}

/// A curve. Stretches where it does not exist hold NaN.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Trace<T = String> {
    /// Identifier, unique in the plot.
    pub id: &'static str,
    /// Its name.
    pub name: T,
    /// Whether it is there to compare with, and not the answer.
    pub reference: bool,
    /// Along the horizontal axis, rising.
    pub x: Vec<f64>,
    /// Along the vertical axis.
    pub y: Vec<f64>,
}

/// A point to point at.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Marker<T = String> {
    /// Along the horizontal axis.
    pub x: f64,
    /// Along the vertical axis.
    pub y: f64,
    /// What stands there.
    pub text: T,
}

/// A named stretch of the horizontal axis.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Band<T = String> {
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Its name.
    pub name: T,
}

/// Another calculator, filled in.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Link<T = String> {
    /// Why one would follow it.
    pub text: T,
    /// The calculator.
    pub calculator: &'static str,
    /// Its fields, as text that reads back.
    pub values: Vec<(&'static str, T)>,
}

/// One way to do it, in its place among others.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Candidate<T = String> {
    /// Identifier, unique in the report.
    pub id: &'static str,
    /// Its name.
    pub name: T,
    /// Its place, 1 for the best; the same for those that are tied, nothing for
    /// one that is refused.
    pub place: Option<u32>,
    /// Why it stands there.
    pub verdict: Verdict<T>,
    /// What speaks for it and against it, in numbers.
    pub reasons: Vec<Reason<T>>,
    /// The calculator that shows all of it, filled in.
    pub link: Link<T>,
}

/// A number that speaks for a candidate or against it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Reason<T = String> {
    /// The number, with what to make of it.
    pub reading: Reading<T>,
    /// The calculator that proves it, filled in.
    pub link: Link<T>,
}

impl<T> Default for Report<T> {
    fn default() -> Self {
        Self {
            headline: Vec::new(),
            further: Vec::new(),
            plots: Vec::new(),
            working: Vec::new(),
            warnings: Vec::new(),
            cautions: Vec::new(),
            cautions_first: false,
            sources: Vec::new(),
            links: Vec::new(),
            ranking: Vec::new(),
        }
    }
}

impl<T> Report<T> {
    /// A reading by its identifier.
    pub fn reading(&self, id: &str) -> Option<&Reading<T>> {
        self.headline.iter().chain(&self.further).find(|reading| reading.id == id)
    }
}
