//! The loops of a stage.
//!
//! Earths and metalwork are never opened, so they count as one conductor where they
//! hang together: what is left is a graph of such groups and of the shields that
//! conduct.

use super::graph::{Graph, Node};
use super::hum::Hum;
use super::sets::Sets;
use super::shield::{Ends, Weighting};
use serde::Serialize;
use std::collections::VecDeque;

/// How many loops there are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct LoopCount {
    /// Shields that conduct from end to end.
    pub shields: usize,
    /// Groups of nodes that earths and metalwork make one.
    pub groups: usize,
    /// Parts of the stage that no conductor joins.
    pub parts: usize,
    /// Loops that are not made of others.
    pub loops: usize,
}

/// The loop with the fewest shields through one of them.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Loop {
    /// The shield that it was looked for through.
    pub shield: usize,
    /// All the way around, that shield first, from its first to its second end.
    pub steps: Vec<Step>,
    /// The hum at the input of that lead, V; none where it carries no signal.
    pub hum: Option<f64>,
}

/// One step along a loop.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Step {
    /// Along an edge.
    Edge(usize),
    /// Between a distribution, by its node, and the earth of the venue.
    Earth(usize),
}

impl Loop {
    /// The shields along it.
    pub fn shields<'a>(&'a self, graph: &'a Graph) -> impl Iterator<Item = usize> + 'a {
        self.steps.iter().filter_map(|step| match step {
            Step::Edge(edge) => graph.edges[*edge].shield().map(|_| *edge),
            Step::Earth(_) => None,
        })
    }
}

/// Groups of nodes that earths and metalwork join; the venue's earth is the last node.
pub(super) fn earthed(graph: &Graph) -> Sets {
    let venue = graph.nodes.len();
    let mut sets = Sets::new(venue + 1);
    for (node, _) in graph.nodes.iter().enumerate().filter(|(_, node)| matches!(node, Node::Distribution(_))) {
        sets.join(node, venue);
    }
    for edge in graph.edges.iter().filter(|edge| edge.shield().is_none()) {
        sets.join(edge.ends[0], edge.ends[1]);
    }
    sets
}

/// The shields that conduct, with edges that end so.
pub(super) fn conducting<'a>(graph: &'a Graph, ends: &'a [Ends]) -> impl Iterator<Item = usize> + 'a {
    (0..graph.edges.len()).filter(|edge| graph.edges[*edge].shield().is_some() && ends[*edge] == Ends::Both)
}

/// Whether a conductor leads from each node to a distribution, with edges that end so.
pub(crate) fn reached(graph: &Graph, ends: &[Ends]) -> Vec<bool> {
    let mut sets = earthed(graph);
    for edge in conducting(graph, ends) {
        let [a, b] = graph.edges[edge].ends;
        sets.join(a, b);
    }
    let venue = sets.of(graph.nodes.len());
    (0..graph.nodes.len()).map(|node| sets.of(node) == venue).collect()
}

/// How many loops there are with edges that end so.
pub fn count(graph: &Graph, ends: &[Ends]) -> LoopCount {
    let nodes = graph.nodes.len();
    let mut sets = earthed(graph);
    let apart = |sets: &mut Sets| {
        let mut seen: Vec<_> = (0..nodes).map(|node| sets.of(node)).collect();
        seen.sort_unstable();
        seen.dedup();
        seen.len()
    };
    let groups = apart(&mut sets);
    let mut shields = 0;
    for edge in conducting(graph, ends) {
        let [a, b] = graph.edges[edge].ends;
        sets.join(a, b);
        shields += 1;
    }
    let parts = apart(&mut sets);
    LoopCount { shields, groups, parts, loops: shields + parts - groups }
}

/// The shortest loop through each shield that is part of one, the loudest first.
pub fn loops(graph: &Graph, ends: &[Ends], hums: &[Hum], weighting: Weighting) -> Vec<Loop> {
    let ways = Ways::new(graph, ends);
    let mut volts = vec![None; graph.edges.len()];
    for hum in hums {
        for edge in &hum.edges {
            volts[*edge] = Some(hum.weighted(weighting));
        }
    }
    let through = |shield: usize| ways.around(shield).map(|steps| Loop { shield, steps, hum: volts[shield] });
    let mut found: Vec<_> = conducting(graph, ends).filter_map(through).collect();
    found.sort_by(|a, b| b.hum.unwrap_or(0.0).total_cmp(&a.hum.unwrap_or(0.0)));
    found
}

/// The ways that there are along conductors.
pub(super) struct Ways<'a> {
    graph: &'a Graph,
    /// Of each node, the venue's earth last.
    group: Vec<usize>,
    /// From each group along a shield: to which group, and which shield.
    shields: Vec<Vec<(usize, usize)>>,
    /// From each node along an earth or metalwork.
    earths: Vec<Vec<(usize, Step)>>,
}

impl<'a> Ways<'a> {
    pub(super) fn new(graph: &'a Graph, ends: &[Ends]) -> Self {
        let venue = graph.nodes.len();
        let mut sets = earthed(graph);
        let group: Vec<_> = (0..=venue).map(|node| sets.of(node)).collect();
        let mut shields = vec![Vec::new(); venue + 1];
        for edge in conducting(graph, ends) {
            let [a, b] = graph.edges[edge].ends.map(|node| group[node]);
            shields[a].push((b, edge));
            shields[b].push((a, edge));
        }
        let mut earths = vec![Vec::new(); venue + 1];
        let mut join = |a: usize, b: usize, step: Step| {
            earths[a].push((b, step));
            earths[b].push((a, step));
        };
        for (node, _) in graph.nodes.iter().enumerate().filter(|(_, node)| matches!(node, Node::Distribution(_))) {
            join(node, venue, Step::Earth(node));
        }
        for (at, edge) in graph.edges.iter().enumerate().filter(|(_, edge)| edge.shield().is_none()) {
            join(edge.ends[0], edge.ends[1], Step::Edge(at));
        }
        Self { graph, group, shields, earths }
    }

    /// The loop with the fewest shields through one of them.
    pub(super) fn around(&self, shield: usize) -> Option<Vec<Step>> {
        let [first, second] = self.graph.edges[shield].ends;
        let from = self.group[second];
        let back = shortest(&self.shields, from, self.group[first], |edge| *edge != shield)?;
        let mut steps = vec![Step::Edge(shield)];
        let mut at = second;
        for edge in back {
            let [a, b] = self.graph.edges[edge].ends;
            let (near, far) = if self.group[a] == self.group[at] { (a, b) } else { (b, a) };
            steps.extend(shortest(&self.earths, at, near, |_| true)?);
            steps.push(Step::Edge(edge));
            at = far;
        }
        steps.extend(shortest(&self.earths, at, first, |_| true)?);
        Some(steps)
    }
}

/// What is passed on the shortest way from one place to another, if there is one.
fn shortest<T: Copy>(ways: &[Vec<(usize, T)>], from: usize, to: usize, may: impl Fn(&T) -> bool) -> Option<Vec<T>> {
    let mut came: Vec<Option<(usize, T)>> = vec![None; ways.len()];
    let mut queue = VecDeque::from([from]);
    let mut found = from == to;
    while let Some(at) = queue.pop_front().filter(|_| !found) {
        for (next, along) in ways[at].iter().filter(|(next, along)| *next != from && may(along)) {
            if came[*next].is_none() {
                came[*next] = Some((at, *along));
                queue.push_back(*next);
                found |= *next == to;
            }
        }
    }
    if !found {
        return None;
    }
    let mut passed = Vec::new();
    let mut at = to;
    while let Some((before, along)) = came[at] {
        passed.push(along);
        at = before;
    }
    passed.reverse();
    Some(passed)
}
