//! The ways in their order.

use super::way::{Asked, Way};
use crate::calculator::whole_line::hum::RunConnection;
use crate::calculator::whole_line::line::{Limit, Line, Margin, Phantom};
use crate::calculator::whole_line::{self, words};
use crate::fault::Fault;
use crate::field::question::HEADROOM;
use crate::field::source::SourceKind;
use crate::field::{Filling, Values};
use crate::quantity::Unit;
use crate::report::{Depth, Sheet, Solution};
use crate::words::Arg;
use std::cmp::Ordering;

/// What differs by less decides nothing, dB (common practice, no source).
const ALIKE: f64 = 1.0;

/// A way as it turned out.
pub(super) struct Tried {
    pub way: &'static Way,
    pub filling: Filling,
    pub solution: Solution,
    pub line: Line,
    /// Limits that are missed, and those of them that decide: missed by more than
    /// what decides nothing, or kept by another way that is so much better.
    pub broken: usize,
    pub missed: usize,
    /// The finding for which it is refused.
    pub refused: Option<&'static str>,
    /// The finding that has least left re its limit, and what it has left.
    pub tightest: Option<(&'static str, Margin)>,
    /// How much less level it should have for the headroom, dB.
    pub excess: f64,
    /// Whether it is a case for an electrician first.
    pub stop: bool,
    /// On what it hangs that nobody has measured or asked.
    pub risk: Option<&'static str>,
    /// What one reaches for, the lower the sooner, where nothing else decides.
    habit: u32,
    /// Its place among those that miss as many limits, by how far: those that miss
    /// them alike share one.
    class: u32,
}

/// What decides on the place of a way, the weightiest first.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Rank {
    refused: bool,
    missed: usize,
    class: u32,
    /// Whether it hangs on what nobody has measured or asked.
    risky: bool,
    /// What has to be brought.
    parts: u32,
}

impl Tried {
    /// Solves the whole line of a way. A padded one takes off at least `excess` dB.
    pub(super) fn new(
        values: &Values,
        depth: Depth,
        asked: &Asked,
        common: &Filling,
        way: &'static Way,
        excess: f64,
    ) -> Result<Self, Fault> {
        let filling = asked.filling(common, values, way, excess)?;
        let line_values = filling.to_values();
        // The working of a way is that of its whole line.
        let mut page = Sheet::new(whole_line::CALCULATOR.id, depth.min(Depth::Plots));
        let line = Line::solve(&line_values, &mut page.working, false)?;
        words::write(&line_values, &line, &mut page)?;
        let limits = || line.limits.iter().filter_map(|limit| Some((limit.id, limit.margin?)));
        let tightest = limits().min_by(|a, b| a.1.share.total_cmp(&b.1.share));
        let headroom = values.number(HEADROOM)?;
        let overloaded = (line.must_stop() && !line.is_faulty()).then_some("current");
        // A core does not saturate less for a pad behind it, but for one in front.
        let in_front = asked.usual.source == SourceKind::Loudspeaker;
        let hot = line.points.iter().filter(|point| in_front || !point.is_box_input());
        let excess = hot.filter_map(|point| Some(headroom - point.margin()?)).fold(f64::NEG_INFINITY, f64::max);
        Ok(Self {
            way,
            filling,
            missed: 0,
            broken: limits().filter(|(_, margin)| margin.left < 0.0).count(),
            // Too much in a shield is a fault of this way, not of the earths.
            refused: line.limits.iter().find(|limit| limit.refused).map(|limit| limit.id).or(overloaded),
            risk: risk(asked, way, &line),
            tightest,
            excess,
            stop: false,
            habit: asked.habit(way),
            class: 0,
            solution: page.finish(),
            line,
        })
    }

    /// What decides on its place.
    pub(super) fn rank(&self) -> Rank {
        Rank {
            refused: self.refused.is_some(),
            missed: self.missed,
            class: self.class,
            risky: self.risk.is_some(),
            parts: self.way.parts,
        }
    }

    /// How many limits it misses that decide beside the others.
    fn misses(&self, others: &[Self]) -> usize {
        let decides = |id: &str, left: f64| {
            let better = |other: &Self| other.refused.is_none() && other.left_of(id) > left + ALIKE;
            left < -ALIKE || others.iter().any(better)
        };
        let missed = self.line.limits.iter().filter_map(|limit| Some((limit.id, limit.margin?.left)));
        missed.filter(|(id, left)| *left < 0.0 && decides(id, *left)).count()
    }

    /// What is left of a limit, dB: no end of one that is not there.
    fn left_of(&self, id: &str) -> f64 {
        let limit = self.line.limits.iter().find(|limit| limit.id == id);
        limit.and_then(|limit| limit.margin).map_or(f64::INFINITY, |margin| margin.left)
    }

    /// How much its worst limit has left, dB.
    fn worst(&self) -> f64 {
        let left = self.line.limits.iter().filter_map(|limit| Some(limit.margin?.left));
        left.fold(f64::INFINITY, f64::min)
    }

    /// What is left of its tightest limit, re that limit.
    pub(super) fn share(&self) -> f64 {
        self.tightest.map_or(f64::INFINITY, |(_, margin)| margin.share)
    }

    /// What is left of it, in its unit.
    pub(super) fn left(&self) -> (f64, Unit) {
        self.tightest.map_or((f64::INFINITY, Unit::Decibel), |(_, margin)| margin.shown)
    }

    /// Its tightest limit, for the words.
    pub(super) fn at(&self) -> Arg {
        let id = self.tightest.map_or("margin", |(id, _)| id);
        Arg::Key(format!("box-or-straight-limit-{id}"))
    }

    /// The finding on which its place hangs: what it is refused for, else its
    /// tightest limit.
    pub(super) fn decided_by(&self) -> Option<&'static str> {
        self.refused.or(self.tightest.map(|(id, _)| id))
    }

    /// What it was asked to keep, in the order of the report.
    pub(super) fn limits(&self) -> &[Limit] {
        &self.line.limits
    }
}

/// With less than this left of the distance from hum, it hangs on a voltage between
/// two earths that may well be three times as much at the next outlet, dB (common
/// practice, no source).
const MEASURED: f64 = 10.0;

/// On what a way hangs that nobody has measured or asked.
fn risk(asked: &Asked, way: &Way, line: &Line) -> Option<&'static str> {
    let hum = line.limits.iter().find(|limit| limit.id == "signal_to_hum").and_then(|limit| limit.margin);
    let close = hum.is_some_and(|hum| hum.left < MEASURED);
    let joined = matches!(line.loops.run, RunConnection::Unbalanced | RunConnection::Balanced { lifted: false, .. });
    match line.phantom {
        Phantom::OnOutput => Some("phantom"),
        // A balanced output into a balanced input is what such a line is made for.
        _ if asked.usual.source == SourceKind::Balanced => None,
        _ if asked.earthed && close && joined && !way.isolator => Some("difference"),
        _ => None,
    }
}

/// Puts ways into their order.
pub(super) fn ranked(mut tried: Vec<Tried>) -> Vec<Tried> {
    let missed: Vec<_> = tried.iter().map(|line| line.misses(&tried)).collect();
    for (line, missed) in tried.iter_mut().zip(missed) {
        line.missed = missed;
    }
    let before = |line: &Tried| (line.refused.is_some(), line.missed);
    tried.sort_by(|a, b| before(a).cmp(&before(b)).then(b.worst().total_cmp(&a.worst())));
    let mut first: Option<((bool, usize), f64, u32)> = None;
    for line in &mut tried {
        let left = if line.missed > 0 { line.worst() } else { 0.0 };
        let (class, best) = match first {
            Some((group, best, class)) if group == before(line) => {
                if left < best - ALIKE {
                    (class + 1, left)
                } else {
                    (class, best)
                }
            }
            _ => (0, left),
        };
        first = Some((before(line), best, class));
        line.class = class;
    }
    // A sort that keeps the order of equals: theirs is that of the ways.
    tried.sort_by(|a, b| place(a).cmp(&place(b)).then(order(a, b)));
    tried
}

fn place(line: &Tried) -> (Rank, usize, u32) {
    (line.rank(), line.broken, line.habit)
}

/// The order in which the ways are thought of.
fn order(a: &Tried, b: &Tried) -> Ordering {
    let nth = |line: &Tried| super::way::WAYS.iter().position(|way| way.id == line.way.id);
    nth(a).cmp(&nth(b))
}
