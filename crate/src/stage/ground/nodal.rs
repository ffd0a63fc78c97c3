//! Currents and potentials of a stage by nodal analysis.
//!
//! Every node but the earth of the venue has an unknown potential. What is found is
//! held against Kirchhoff's current law branch by branch, and what is left over is
//! solved again: so currents through a few picofarads keep their digits beside
//! those through a few milliohms.

use super::branch::{Branch, What};
use super::check::Wrong;
use super::driven::{Driven, Together};
use super::factors::{Factors, Pattern};
use super::graph::{Graph, Node};
use super::sets::Sets;
use super::shield::Ends;
use super::solution::{AtOrder, Solution};
use crate::Complex64;

/// Little enough to be left over at a node, re all that flows there.
const LEFT_OVER: f64 = 1e-12;
/// What may be left over at most.
const BEARABLE: f64 = 1e-9;
/// Currents this far below what drives need not add up among themselves: it is
/// rounding that flows where nothing does.
const NOTHING: f64 = 1e-9;
/// After so many rounds digits do not suffice; two are usual.
const ROUNDS: usize = 8;

/// A graph that is ready to be solved, for any of its shields isolated.
pub struct Circuit<'a> {
    graph: &'a Graph,
    branches: Vec<Branch>,
    /// The unknown of each node, and none for one whose potential is known; the
    /// venue's earth is the last of the nodes.
    unknowns: Vec<Option<usize>>,
    /// The number of the pair of unknowns that a branch joins, if it does.
    pairs: Vec<Option<usize>>,
    pattern: Pattern,
}

impl<'a> Circuit<'a> {
    /// Of a graph, if that is sound.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn new(graph: &'a Graph) -> Result<Self, Wrong> {
        graph.check()?;
        let branches = Branch::all(graph);
        let mut count = 0;
        let mut unknown = |node: &Node| {
            let known = matches!(node, Node::Distribution(earth) if earth.is_held());
            count += usize::from(!known);
            (!known).then(|| count - 1)
        };
        let unknowns: Vec<_> = graph.nodes.iter().map(&mut unknown).chain([None]).collect();
        let mut joined = Vec::new();
        let pairs = branches.iter().map(|branch| pair(branch, &unknowns, &mut joined)).collect();
        let pattern = Pattern::new(count, &joined);
        Ok(Self { graph, branches, unknowns, pairs, pattern })
    }

    /// Everything that flows with edges that end so.
    ///
    /// # Errors
    /// [`Wrong::Unsolved`] where digits do not suffice.
    pub fn solve(&self, ends: &[Ends]) -> Result<Solution, Wrong> {
        let mut left_over = 0.0_f64;
        let (ties, group) = self.ties(ends);
        let mut at = Vec::with_capacity(self.graph.orders.len());
        for order in &self.graph.orders {
            let admittances: Vec<_> =
                self.branches.iter().map(|branch| branch.admittance(self.graph, ends, *order)).collect();
            let (diagonal, others) = self.matrix(&admittances, &ties);
            let factors = self.pattern.factors(&diagonal, &others).ok_or(Wrong::Unsolved)?;
            for together in Together::of(self.graph) {
                let driven = Driven::new(self.graph, &self.branches, (*order, together), &group);
                let (potentials, currents, left) = self.solve_for(&driven, &admittances, &factors, &ties)?;
                left_over = left_over.max(left);
                at.push(self.at_order((*order, together), &driven, potentials, currents));
            }
        }
        let members = |tie: &usize| (0..self.graph.nodes.len()).filter(|node| group[*node] == group[*tie]).collect();
        Ok(Solution { at, floating: ties.iter().map(members).collect(), left_over })
    }

    /// One node of each group that nothing joins to the venue's earth, and the group of each node.
    fn ties(&self, ends: &[Ends]) -> (Vec<usize>, Vec<usize>) {
        let mut sets = Sets::new(self.unknowns.len());
        let venue = self.unknowns.len() - 1;
        for (node, unknown) in self.unknowns.iter().enumerate() {
            if unknown.is_none() {
                sets.join(node, venue);
            }
        }
        let first = self.graph.orders.first().copied().unwrap_or(1);
        for branch in &self.branches {
            if branch.admittance(self.graph, ends, first) != Complex64::ZERO {
                sets.join(branch.from, branch.to);
            }
        }
        let group: Vec<_> = (0..self.unknowns.len()).map(|node| sets.of(node)).collect();
        let ties = (0..venue).filter(|node| group[*node] == *node && group[venue] != *node).collect();
        (ties, group)
    }

    /// Potentials, currents, and what is left over.
    fn solve_for(
        &self,
        driven: &Driven,
        admittances: &[Complex64],
        factors: &Factors,
        ties: &[usize],
    ) -> Result<(Vec<Complex64>, Vec<Complex64>, f64), Wrong> {
        // An unknown begins at zero, and a known potential where it stays.
        let mut potentials: Vec<_> = self
            .unknowns
            .iter()
            .zip(&driven.known)
            .map(|(unknown, v)| unknown.map_or(*v, |_| Complex64::ZERO))
            .collect();
        let across = |branch: &Branch, v: &[Complex64]| v[branch.from] - v[branch.to];
        let each = || self.branches.iter().zip(admittances);
        let mut currents: Vec<_> =
            each().zip(&driven.emfs).map(|((branch, y), emf)| y * (across(branch, &potentials) + emf)).collect();
        let drives = currents.iter().chain(&driven.injected).map(|current| current.norm());
        let floor = drives.fold(0.0, f64::max) * NOTHING;
        let mut enough = false;
        for round in 1..=ROUNDS {
            let (rest, left) = self.rest(&currents, driven, ties, floor);
            // One round more than enough, for what is left of large currents at all nodes
            // of a group may be a good part of the little that leaves the group.
            let was = std::mem::replace(&mut enough, left <= LEFT_OVER);
            if (was && enough) || (round == ROUNDS && left <= BEARABLE) {
                return Ok((potentials, currents, left));
            }
            let found = factors.solve(&rest);
            let more: Vec<_> = self.unknowns.iter().map(|at| at.map_or(Complex64::ZERO, |at| found[at])).collect();
            for ((branch, y), current) in each().zip(&mut currents) {
                *current += y * across(branch, &more);
            }
            for (v, more) in potentials.iter_mut().zip(more) {
                *v += more;
            }
        }
        Err(Wrong::Unsolved)
    }

    /// Admittances: on the diagonal by unknown, and between two by pair.
    fn matrix(&self, admittances: &[Complex64], ties: &[usize]) -> (Vec<Complex64>, Vec<Complex64>) {
        let count = self.unknowns.iter().flatten().count();
        let mut diagonal = vec![Complex64::ZERO; count];
        let mut others = vec![Complex64::ZERO; self.pairs.iter().flatten().max().map_or(0, |most| most + 1)];
        for ((branch, y), pair) in self.branches.iter().zip(admittances).zip(&self.pairs) {
            for unknown in [branch.from, branch.to].into_iter().filter_map(|node| self.unknowns[node]) {
                diagonal[unknown] += y;
            }
            if let Some(pair) = pair {
                others[*pair] -= y;
            }
        }
        // Nothing flows through a tie, since nothing comes from outside its group.
        for unknown in ties.iter().filter_map(|tie| self.unknowns[*tie]) {
            let size = diagonal[unknown].norm();
            diagonal[unknown] += if size > 0.0 { size } else { 1.0 };
        }
        (diagonal, others)
    }

    /// What is left over of Kirchhoff's current law by unknown, and the largest of
    /// it re all that flows at its node.
    fn rest(&self, currents: &[Complex64], driven: &Driven, ties: &[usize], floor: f64) -> (Vec<Complex64>, f64) {
        let mut left = driven.injected.clone();
        let mut flows: Vec<_> = left.iter().map(|current| current.norm()).collect();
        for (branch, current) in self.branches.iter().zip(currents) {
            left[branch.from] -= current;
            left[branch.to] += current;
            let size = current.norm();
            flows[branch.from] += size;
            flows[branch.to] += size;
        }
        let (mut rest, mut most) = (Vec::new(), 0.0_f64);
        for node in (0..left.len()).filter(|node| self.unknowns[*node].is_some()) {
            rest.push(left[node]);
            let size = left[node].norm();
            // What is left at a tie is what rounding left at all others of its group.
            let share = if size == 0.0 || ties.contains(&node) { 0.0 } else { size / flows[node].max(floor) };
            most = most.max(if share.is_nan() { f64::INFINITY } else { share });
        }
        (rest, most)
    }

    fn at_order(
        &self,
        (order, together): (u32, Together),
        driven: &Driven,
        mut potentials: Vec<Complex64>,
        mut currents: Vec<Complex64>,
    ) -> AtOrder {
        let nodes = self.graph.nodes.len();
        let mut earths = vec![Complex64::ZERO; nodes];
        let mut leakages = earths.clone();
        // What flows into a node that holds its potential goes on into the earth.
        for (node, earth) in earths.iter_mut().enumerate().filter(|(node, _)| self.unknowns[*node].is_none()) {
            *earth = driven.injected[node];
        }
        for (at, node) in self.graph.nodes.iter().enumerate() {
            if matches!(node, Node::Equipment(_)) {
                leakages[at] = driven.injected[at];
            }
        }
        for (branch, current) in self.branches.iter().zip(&currents) {
            match branch.what {
                What::Earth(node) => earths[node] -= current,
                What::Supply(node) => leakages[node] += current,
                What::Edge(_) => {}
            }
            for (node, sign) in [(branch.from, -1.0), (branch.to, 1.0)] {
                if node < nodes && self.unknowns[node].is_none() {
                    earths[node] += current * sign;
                }
            }
        }
        potentials.truncate(nodes);
        currents.truncate(self.graph.edges.len());
        AtOrder {
            order,
            frequency: self.graph.frequency(order),
            by: together.distribution(),
            potentials,
            currents,
            earths,
            leakages,
        }
    }
}

/// The number of the pair of unknowns that a branch joins, put among those there are.
fn pair(branch: &Branch, unknowns: &[Option<usize>], joined: &mut Vec<[usize; 2]>) -> Option<usize> {
    let (a, b) = (unknowns[branch.from]?, unknowns[branch.to]?);
    joined.push([a.min(b), a.max(b)]);
    Some(joined.len() - 1)
}
