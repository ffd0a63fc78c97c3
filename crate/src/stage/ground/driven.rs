//! What drives the currents of a stage at one component of the mains.

use super::branch::{Branch, What};
use super::graph::{Graph, Node};
use super::shield::Ends;
use crate::Complex64;

/// What a component of the mains finds in each branch and at each node.
pub(super) struct Driven {
    pub(super) admittances: Vec<Complex64>,
    pub(super) emfs: Vec<Complex64>,
    /// Put into each node, A.
    pub(super) injected: Vec<Complex64>,
    /// Of the nodes whose potential is known, V.
    pub(super) known: Vec<Complex64>,
}

impl Driven {
    /// Of a component of the mains, with the group of each node. What leaks from a group to another
    /// finds no way back, and does not flow.
    pub(super) fn new(graph: &Graph, branches: &[Branch], ends: &[Ends], (order, group): (u32, &[usize])) -> Self {
        let frequency = graph.mains * f64::from(order);
        let mut injected = vec![Complex64::ZERO; graph.nodes.len() + 1];
        let mut known = injected.clone();
        for (at, node) in graph.nodes.iter().enumerate() {
            match node {
                Node::Distribution(earth) => known[at] = earth.wave.at(order) * earth.volts,
                Node::Equipment(equipment) => {
                    let leakage = equipment.leakage.as_ref();
                    if let Some(leakage) = leakage.filter(|leakage| group[leakage.from] == group[at]) {
                        injected[at] += leakage.current(order);
                        injected[leakage.from] -= leakage.current(order);
                    }
                }
            }
        }
        let emf = |branch: &Branch| match branch.what {
            What::Edge(edge) => graph.edges[edge].emf(order, frequency),
            What::Earth(node) => known[node],
            What::Supply(_) => Complex64::ZERO,
        };
        Self {
            admittances: branches.iter().map(|branch| branch.admittance(graph, ends, frequency)).collect(),
            emfs: branches.iter().map(emf).collect(),
            injected,
            known,
        }
    }
}
