//! Draws rigs, and searches the worst of them.

use super::layout::Layout;
use super::part::Part;
use crate::calculator::Calculator;
use crate::field::Values;
use crate::numeric::{Draws, Extremes, Samples, highest};
use crate::report::{Depth, Made, Solution};
use std::collections::HashMap;

/// The shares of the draws that lie below the lower, the middle and the upper value.
const SHARES: [f64; 3] = [0.05, 0.5, 0.95];
/// How often each part is tried again after the others have moved.
const ROUNDS: usize = 3;

/// A calculator whose parts can be moved.
pub(super) struct Model<'a> {
    pub calculator: &'a Calculator,
    pub values: Values,
    pub made: Vec<Made>,
    pub parts: &'a [Part],
    pub layout: &'a Layout,
}

impl Model<'_> {
    /// The row with its parts at these values.
    fn row(&mut self, at: &[f64], depth: Depth, row: &mut Vec<f64>) {
        for (part, value) in self.parts.iter().zip(at) {
            if part.unit.is_some() {
                self.values.put(part.id, *value);
            } else if let Some(made) = self.made.iter_mut().find(|made| made.id == part.id) {
                made.factor = *value;
            }
        }
        let solution = self.calculator.solution_of(&self.values, depth, &mut self.made);
        self.layout.row(solution.ok().as_ref(), row);
    }
}

/// A place of a row to be driven as far as it goes.
pub(super) struct Search {
    place: usize,
    /// +1 for the most, −1 for the least.
    sign: f64,
    depth: Depth,
    /// The best found so far, times the sign, and its parts.
    best: f64,
    at: Vec<f64>,
}

/// All that was found about a model so far.
pub(super) struct Survey<'a> {
    model: Model<'a>,
    row: Vec<f64>,
    /// The rows that searches went through, by where the parts were and what was asked:
    /// many go to the same corners.
    known: HashMap<(Vec<u64>, Depth), Vec<f64>>,
    pub extremes: Extremes,
    pub searches: Vec<Search>,
}

impl<'a> Survey<'a> {
    pub(super) fn new(model: Model<'a>, nominal: &Solution) -> Self {
        let mut found = Self {
            row: Vec::new(),
            known: HashMap::new(),
            extremes: Extremes::new(model.layout.places),
            searches: searches(model.layout),
            model,
        };
        let at: Vec<_> = found.model.parts.iter().map(|part| part.value).collect();
        found.model.layout.row(Some(nominal), &mut found.row);
        found.meet(&at);
        found
    }

    /// Draws rigs; the quantiles of each place with the share of draws that have it.
    pub(super) fn draw(&mut self, count: u32, seed: u32) -> Vec<([f64; 3], f64)> {
        let mut random = Draws::new(seed);
        let mut samples = Samples::new(self.model.layout.places, count as usize);
        let mut at = Vec::new();
        for _ in 0..count {
            at.clear();
            at.extend(self.model.parts.iter().map(|part| random.between(part.from, part.to)));
            self.model.row(&at, Depth::Curves, &mut self.row);
            samples.push(&self.row);
            self.meet(&at);
        }
        samples.quantiles(SHARES)
    }

    /// Has the row of a rig, which is met unless it is known already.
    fn look(&mut self, at: &[f64], depth: Depth) {
        let place = (at.iter().map(|x| x.to_bits()).collect(), depth);
        if let Some(known) = self.known.get(&place) {
            known.clone_into(&mut self.row);
            return;
        }
        self.model.row(at, depth, &mut self.row);
        self.meet(at);
        let told = if depth == Depth::Readings { self.model.layout.readings.len() } else { self.row.len() };
        self.known.insert(place, self.row.iter().take(told).copied().collect());
    }

    /// Every search learns from every rig that is met.
    fn meet(&mut self, at: &[f64]) {
        self.extremes.meet(&self.row);
        for search in &mut self.searches {
            let value = self.row.get(search.place).map_or(f64::NAN, |value| search.sign * value);
            if value > search.best {
                search.best = value;
                at.clone_into(&mut search.at);
            }
        }
    }

    /// Moves one part after the other to where it drives a place furthest.
    pub(super) fn search(&mut self, which: usize) {
        let parts = self.model.parts;
        for round in 0..ROUNDS {
            let Some(before) = self.searches.get(which).map(|search| search.best) else { return };
            for (i, part) in parts.iter().enumerate().filter(|(_, part)| part.from < part.to) {
                self.move_part(which, i, part, round == 0);
            }
            if self.searches.get(which).is_none_or(|search| search.best <= before) {
                return;
            }
        }
    }

    /// Moves one part to the ends of its range, and inside where both are worse.
    fn move_part(&mut self, which: usize, i: usize, part: &Part, look_inside: bool) {
        let Some(Search { place, sign, depth, best, at }) = self.searches.get(which) else { return };
        let (place, sign, depth, mut best, mut at) = (*place, *sign, *depth, *best, at.clone());
        let Some(here) = at.get(i).copied() else { return };
        let mut value = |x: f64| {
            if let Some(slot) = at.get_mut(i) {
                *slot = x;
            }
            self.look(&at, depth);
            self.row.get(place).map(|value| sign * value).filter(|value| !value.is_nan()).unwrap_or(f64::NEG_INFINITY)
        };
        let at_end = here == part.from || here == part.to;
        let mut ends = if at_end { best } else { f64::NEG_INFINITY };
        for end in [part.from, part.to].into_iter().filter(|end| *end != here) {
            ends = ends.max(value(end));
        }
        if at_end && look_inside {
            best = best.max(value(0.5 * (part.from + part.to)));
        }
        // A part that does not matter is worse at its ends by rounding only.
        if ends < best - 1e-12 * best.abs() {
            // To a thousandth of the range, which is a millionth of what the range does.
            highest(value, part.from, part.to, 14);
        }
    }
}

fn searches(layout: &Layout) -> Vec<Search> {
    let mut searches = Vec::new();
    let mut add = |place, depth| {
        for sign in [1.0, -1.0] {
            searches.push(Search { place, sign, depth, best: f64::NEG_INFINITY, at: Vec::new() });
        }
    };
    (0..layout.readings.len()).for_each(|place| add(place, Depth::Readings));
    for curve in &layout.curves {
        curve.searched.iter().for_each(|point| add(curve.start + point, Depth::Curves));
    }
    searches
}
