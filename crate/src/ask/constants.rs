//! What a page or a program has to know whatever it asks: how numbers are written,
//! and what may be drawn.

use super::tolerance::{ALL, DRAWS, USUAL_DRAWS};
use crate::catalogue::Series;
use crate::quantity::{PRINTED, Printing, SHOWN, Unit};
use crate::settings::Length;
use serde::Serialize;

/// What is the same for every question.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Constants {
    /// Significant figures of a result; a level has two decimals less.
    pub shown: usize,
    /// Units of levels, without a prefix.
    pub levels: Vec<Unit>,
    /// Other units that go without a prefix.
    pub without_prefix: Vec<Unit>,
    /// Units that are printed otherwise than they are kept, by the reader's unit of lengths.
    pub printed: Vec<PrintedUnit>,
    /// The prefixes that a number may have, the smallest first.
    pub prefixes: Vec<Prefix>,
    /// The preferred values of one decade for parts of every kind: E12 of IEC 60063.
    pub preferred: Vec<f64>,
    /// How often a rig can be drawn.
    pub draws: DrawCount,
    /// What stands for all kinds of parts where tolerances are named.
    pub all_parts: &'static str,
}

/// A unit that is printed otherwise than it is kept: `(value − zero) / size`, then
/// the symbol.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct PrintedUnit {
    /// The unit.
    pub unit: Unit,
    /// The unit of lengths for which this holds.
    pub length: Length,
    /// The number of the unit that one printed unit stands for.
    pub size: f64,
    /// The number of the unit that is printed as 0.
    pub zero: f64,
    /// The printed symbol.
    pub symbol: &'static str,
}

/// A prefix of units.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Prefix {
    /// As printed.
    pub symbol: &'static str,
    /// What it multiplies by.
    pub size: f64,
}

/// How often a rig can be drawn.
#[derive(Clone, Debug, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct DrawCount {
    /// Where nothing else is said.
    pub usual: u32,
    /// The fewest.
    pub least: u32,
    /// The most.
    pub most: u32,
}

impl Constants {
    /// All of them.
    pub fn all() -> Self {
        let levels = Unit::ALL.into_iter().filter(|unit| unit.is_level());
        let without_prefix = Unit::ALL.into_iter().filter(|unit| !unit.is_level() && !unit.takes_prefix());
        let printed = [Length::Metre, Length::Foot].into_iter().flat_map(|length| {
            Unit::ALL.into_iter().filter_map(move |unit| {
                let printing = unit.printing(length);
                let as_kept = Printing { size: 1.0, zero: 0.0, symbol: unit.symbol() };
                let Printing { size, zero, symbol } = printing;
                (printing != as_kept).then_some(PrintedUnit { unit, length, size, zero, symbol })
            })
        });
        let prefixes = PRINTED.iter().rev().filter(|(_, symbol)| !symbol.is_empty());
        let (least, most) = DRAWS;
        Self {
            shown: SHOWN,
            levels: levels.collect(),
            without_prefix: without_prefix.collect(),
            printed: printed.collect(),
            prefixes: prefixes.map(|&(size, symbol)| Prefix { symbol, size }).collect(),
            preferred: Series::E12.decade(),
            draws: DrawCount { usual: USUAL_DRAWS, least, most },
            all_parts: ALL,
        }
    }
}
