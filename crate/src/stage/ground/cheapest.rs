//! The cheapest isolation that brings every input under its limit.
//!
//! To isolate one lead may raise the hum of another, so no set can be left out
//! because a smaller one failed: sets are taken in the order of what they cost, each
//! is solved anew, and the first that keeps every limit is proved to be the cheapest.
//! A good set is looked for first, so that there is one when the effort runs out, and
//! the proof ends where sets begin to cost as much.

use super::check::Wrong;
use super::forest::forest;
use super::graph::{Graph, Node};
use super::hum::{Hum, hums};
use super::loops::{Ways, reached};
use super::nodal::Circuit;
use super::shield::{Ends, Shield};
use serde::Serialize;
use std::cmp::{Ordering, Reverse};
use std::collections::BinaryHeap;

/// How long to search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// So many sets are tried at most.
    pub sets: usize,
}

/// What to isolate so that every input keeps its limit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Isolation {
    /// Edges to isolate, in rising order.
    pub isolate: Vec<usize>,
    /// What that costs.
    pub cost: f64,
    /// Inputs that are still over their limits, by edge, the worst first; none where all are met.
    pub over: Vec<usize>,
    /// Whether nothing cheaper does it, or nothing does it at all; else it is the best that was found.
    pub proved: bool,
    /// So many sets were tried.
    pub sets: usize,
}

/// The cheapest isolation that brings every input under its limit; where there is
/// none, the one that leaves them above by the least, then the fewest, at the least cost.
///
/// # Errors
/// What is wrong with the graph.
pub fn cheapest(graph: &Graph, effort: Effort) -> Result<Isolation, Wrong> {
    let mut search = Search::new(graph, effort)?;
    let nothing = search.tried(&[])?.unwrap_or_default();
    let mut best = nothing.clone();
    if !best.over.is_empty() {
        for start in [Some(search.greedy(nothing)?), search.whole_forest()?].into_iter().flatten() {
            let pruned = search.pruned(start)?;
            if pruned.better_than(&best) {
                best = pruned;
            }
        }
    }
    let proved = search.by_cost(&mut best)?;
    let over = best.over.iter().map(|hum| hum.edge).collect();
    Ok(Isolation { isolate: best.set, cost: best.cost, over, proved, sets: search.sets })
}

/// What inputs are over their limits is told apart to this, nepers (3 dB): less than that
/// is hardly heard, and worth no isolator.
const GRADE: f64 = 0.345;

/// A set that was tried, its edges in rising order.
#[derive(Clone, Debug, Default)]
struct Tried {
    set: Vec<usize>,
    cost: f64,
    over: Vec<Hum>,
    /// By how much inputs are over their limits, nepers, all together.
    excess: f64,
}

impl Tried {
    fn better_than(&self, other: &Self) -> bool {
        match self.left().cmp(&other.left()) {
            Ordering::Equal => self.cost < other.cost,
            less_or_more => less_or_more.is_lt(),
        }
    }

    /// By how many grades inputs are over their limits all together, and how many are. Two
    /// that hardly miss are better than one that misses by far.
    fn left(&self) -> (i64, usize) {
        ((self.excess / GRADE).round() as i64, self.over.len())
    }

    /// Whether it is a better step on the way to a set that keeps more limits.
    fn nearer_than(&self, other: &Self) -> bool {
        (self.excess, self.cost) < (other.excess, other.cost)
    }
}

struct Search<'a> {
    graph: &'a Graph,
    circuit: Circuit<'a>,
    /// Edges that may be isolated with what that costs, the cheapest first.
    may: Vec<(f64, usize)>,
    /// Equipment that leaks and has a way to a distribution.
    grounded: Vec<usize>,
    effort: Effort,
    sets: usize,
}

impl<'a> Search<'a> {
    fn new(graph: &'a Graph, effort: Effort) -> Result<Self, Wrong> {
        let circuit = Circuit::new(graph)?;
        let cost = |(at, edge): (usize, &super::Edge)| Some((edge.shield().and_then(Shield::cost)?, at));
        let mut may: Vec<_> = graph.edges.iter().enumerate().filter_map(cost).collect();
        may.sort_by(|a, b| a.0.total_cmp(&b.0));
        let leaks = |node: &usize| match &graph.nodes[*node] {
            Node::Equipment(equipment) => equipment.leakage.as_ref().is_some_and(|leakage| leakage.amperes != 0.0),
            Node::Distribution(_) => false,
        };
        let reached = reached(graph, &graph.ends());
        let grounded = (0..graph.nodes.len()).filter(leaks).filter(|node| reached[*node]).collect();
        Ok(Self { graph, circuit, may, grounded, effort, sets: 0 })
    }

    fn is_spent(&self) -> bool {
        self.sets >= self.effort.sets
    }

    /// A set solved; none where it takes from something that leaks its last way to earth.
    fn tried(&mut self, set: &[usize]) -> Result<Option<Tried>, Wrong> {
        self.sets += 1;
        let mut set = set.to_vec();
        set.sort_unstable();
        let ends = self.graph.isolated(&set);
        let reached = reached(self.graph, &ends);
        if !self.grounded.iter().all(|node| reached[*node]) {
            return Ok(None);
        }
        let mut over = hums(self.graph, &ends, &self.circuit.solve(&ends)?);
        over.retain(Hum::is_over);
        let share = |hum: &Hum| hum.of_limit.unwrap_or(0.0).min(f64::MAX);
        over.sort_by(|a, b| share(b).total_cmp(&share(a)));
        let excess = over.iter().map(|hum| share(hum).ln()).sum();
        let cost = set.iter().filter_map(|edge| self.graph.edges[*edge].shield()?.cost()).sum();
        Ok(Some(Tried { set, cost, over, excess }))
    }

    /// Isolates what helps most along the shortest loop of the worst input, again and
    /// again; the best on the way.
    fn greedy(&mut self, mut now: Tried) -> Result<Tried, Wrong> {
        let most = self.effort.sets / 4;
        let mut best = now.clone();
        while let Some(worst) = now.over.first() {
            let mut next: Option<Tried> = None;
            for edge in self.near(worst, &now.set) {
                if self.sets >= most {
                    return Ok(best);
                }
                let tried = self.tried(&[now.set.as_slice(), &[edge]].concat())?;
                if let Some(tried) = tried.filter(|tried| next.as_ref().is_none_or(|next| tried.nearer_than(next))) {
                    next = Some(tried);
                }
            }
            let Some(next) = next else { break };
            now = next;
            if now.better_than(&best) {
                best = now.clone();
            }
        }
        Ok(best)
    }

    /// What may be isolated along the shortest loops of the leads of an input; anything, if
    /// nothing there may.
    fn near(&self, input: &Hum, set: &[usize]) -> Vec<usize> {
        let ends = self.graph.isolated(set);
        let may = || self.may.iter().map(|(_, edge)| *edge).filter(|edge| !set.contains(edge));
        let ways = Ways::new(self.graph, &ends);
        let closed = input.edges.iter().filter(|edge| ends[**edge] == Ends::Both);
        let steps: Vec<_> = closed.filter_map(|edge| ways.around(*edge)).flatten().collect();
        let is_along = |edge: &usize| input.edges.contains(edge) || steps.contains(&super::Step::Edge(*edge));
        let along: Vec<_> = may().filter(is_along).collect();
        if along.is_empty() { may().collect() } else { along }
    }

    fn whole_forest(&mut self) -> Result<Option<Tried>, Wrong> {
        if self.is_spent() {
            return Ok(None);
        }
        self.tried(&forest(self.graph).isolate)
    }

    /// A set without what it can do without, the dearest left out first.
    fn pruned(&mut self, mut now: Tried) -> Result<Tried, Wrong> {
        let most = self.sets + (self.effort.sets.saturating_sub(self.sets)) / 3;
        let inside = |(_, edge): &(f64, usize)| Some(*edge).filter(|edge| now.set.contains(edge));
        let dearest: Vec<_> = self.may.iter().rev().filter_map(inside).collect();
        for edge in dearest {
            if self.sets >= most {
                break;
            }
            let less: Vec<_> = now.set.iter().copied().filter(|other| *other != edge).collect();
            if let Some(next) = self.tried(&less)?.filter(|next| next.left() <= now.left()) {
                now = next;
            }
        }
        Ok(now)
    }

    /// Takes sets in the order of their cost until one keeps every limit or costs as
    /// much as the best; whether nothing cheaper is left.
    fn by_cost(&mut self, best: &mut Tried) -> Result<bool, Wrong> {
        let mut waiting = BinaryHeap::new();
        self.wait(&mut waiting, &[], 0);
        while let Some(Reverse(next)) = waiting.pop() {
            if best.over.is_empty() && next.cost >= best.cost {
                return Ok(true);
            }
            if self.is_spent() {
                return Ok(false);
            }
            let edges: Vec<_> = next.places.iter().map(|place| self.may[*place].1).collect();
            if let Some(tried) = self.tried(&edges)?.filter(|tried| tried.better_than(best)) {
                *best = tried;
            }
            // Every set follows once from a cheaper one: with one more lead, or with the
            // next dearer in the place of its dearest.
            if let Some((last, rest)) = next.places.split_last() {
                self.wait(&mut waiting, &next.places, last + 1);
                self.wait(&mut waiting, rest, last + 1);
            }
        }
        Ok(true)
    }

    fn wait(&self, waiting: &mut BinaryHeap<Reverse<Waiting>>, places: &[usize], more: usize) {
        if more < self.may.len() {
            let places = [places, &[more]].concat();
            waiting.push(Reverse(Waiting { cost: places.iter().map(|place| self.may[*place].0).sum(), places }));
        }
    }
}

/// A set that waits for its turn, by places among the leads that may be isolated.
struct Waiting {
    cost: f64,
    places: Vec<usize>,
}

impl Ord for Waiting {
    fn cmp(&self, other: &Self) -> Ordering {
        self.cost.total_cmp(&other.cost).then_with(|| self.places.cmp(&other.places))
    }
}

impl PartialOrd for Waiting {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Waiting {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Waiting {}
