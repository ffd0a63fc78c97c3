//! What drives the currents of a stage at one component of the mains.

use super::branch::{Branch, What};
use super::graph::{Graph, Node, Phases};
use crate::Complex64;

/// Sources whose phases re each other are known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Together {
    /// All of them.
    All,
    /// The e.m.f. of a distribution, and the supplies that it feeds.
    Of(usize),
    /// The fields through loops.
    Fields,
}

impl Together {
    /// All that drives a graph.
    pub(super) fn of(graph: &Graph) -> Vec<Self> {
        if graph.phases == Phases::Known {
            return vec![Self::All];
        }
        let distributions = (0..graph.nodes.len()).filter(|node| matches!(graph.nodes[*node], Node::Distribution(_)));
        let fields = graph.edges.iter().any(|edge| edge.shield().is_some_and(|shield| shield.field.is_some()));
        distributions.map(Self::Of).chain(fields.then_some(Self::Fields)).collect()
    }

    fn has(self, distribution: usize) -> bool {
        match self {
            Self::All => true,
            Self::Of(one) => one == distribution,
            Self::Fields => false,
        }
    }

    fn has_fields(self) -> bool {
        match self {
            Self::All | Self::Fields => true,
            Self::Of(_) => false,
        }
    }

    /// The distribution, where these are sources of one.
    pub(super) fn distribution(self) -> Option<usize> {
        match self {
            Self::Of(one) => Some(one),
            Self::All | Self::Fields => None,
        }
    }
}

/// What a component of the mains finds in each branch and at each node.
pub(super) struct Driven {
    pub(super) emfs: Vec<Complex64>,
    /// Put into each node, A.
    pub(super) injected: Vec<Complex64>,
    /// Of the nodes whose potential is known, V.
    pub(super) known: Vec<Complex64>,
}

impl Driven {
    /// Of a component of the mains, with the group of each node. What leaks from a group to another
    /// finds no way back, and does not flow.
    pub(super) fn new(graph: &Graph, branches: &[Branch], (order, together): (u32, Together), group: &[usize]) -> Self {
        let mut injected = vec![Complex64::ZERO; graph.nodes.len() + 1];
        let mut known = injected.clone();
        for (at, node) in graph.nodes.iter().enumerate() {
            match node {
                Node::Distribution(earth) if together.has(at) => known[at] = earth.wave.at(order) * earth.volts,
                Node::Distribution(_) => {}
                Node::Equipment(equipment) => {
                    let leakage = equipment.leakage.as_ref().filter(|leakage| together.has(leakage.from));
                    if let Some(leakage) = leakage.filter(|leakage| group[leakage.from] == group[at]) {
                        injected[at] += leakage.current(order);
                        injected[leakage.from] -= leakage.current(order);
                    }
                }
            }
        }
        let emf = |branch: &Branch| match branch.what {
            What::Edge(edge) if together.has_fields() => graph.edges[edge].emf(order, graph.frequency(order)),
            What::Earth(node) => known[node],
            What::Edge(_) | What::Supply(_) => Complex64::ZERO,
        };
        Self { emfs: branches.iter().map(emf).collect(), injected, known }
    }
}
