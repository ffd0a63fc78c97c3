//! Ways to do it, and links to other calculators.

use super::{Reading, Verdict};
use serde::Serialize;

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
    /// The calculator that shows the working of it, filled in, where there is one.
    pub link: Option<Link<T>>,
}
