//! A picture: curves over one axis.

use crate::quantity::Unit;
use serde::Serialize;

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
    /// Labelled points.
    pub markers: Vec<Marker<T>>,
    /// Named stretches of the horizontal axis.
    pub bands: Vec<Band<T>>,
    /// Places on the horizontal axis for the table of numbers beside it.
    pub stops: Vec<f64>,
    /// The place on the horizontal axis at which its key tells the heights of
    /// the curves, where one place stands for all.
    pub key_at: Option<f64>,
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
    /// Whether curves have heights at the stops of the plot alone: they are stems
    /// there, with nothing in between.
    pub discrete: bool,
    /// The least that it shows.
    pub from: f64,
    /// The most that it shows.
    pub to: f64,
    /// Names of the places 0, 1, 2 … where the axis counts places; empty where
    /// its numbers are quantities. Places are rows with bars: the curves that are
    /// the answer are bars, what they are compared with is a stroke across.
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

/// A labelled point.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Marker<T = String> {
    /// Along the horizontal axis.
    pub x: f64,
    /// Along the vertical axis.
    pub y: f64,
    /// What stands there.
    pub text: T,
    /// Whether it is the one to look at among several.
    pub stressed: bool,
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
