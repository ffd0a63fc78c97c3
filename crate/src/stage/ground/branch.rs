//! What carries a current between two nodes of a stage.

use super::graph::{Edge, Graph, Node};
use super::shield::Ends;
use crate::Complex64;
use std::f64::consts::TAU;

/// What joins two nodes.
pub(super) struct Branch {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) what: What,
}

/// What it is.
pub(super) enum What {
    Edge(usize),
    /// From the venue's earth to a distribution.
    Earth(usize),
    /// From a distribution to what leaks to it.
    Supply(usize),
}

impl Branch {
    /// All that a graph may have, of which the venue's earth is one node more.
    pub(super) fn all(graph: &Graph) -> Vec<Self> {
        let venue = graph.nodes.len();
        let of_edge = |(at, edge): (usize, &Edge)| Self { from: edge.ends[0], to: edge.ends[1], what: What::Edge(at) };
        let of_node = |(at, node): (usize, &Node)| match node {
            Node::Distribution(earth) => {
                (!earth.is_held()).then_some(Self { from: venue, to: at, what: What::Earth(at) })
            }
            Node::Equipment(equipment) => {
                let leakage = equipment.leakage.as_ref().filter(|leakage| leakage.capacitance > 0.0)?;
                Some(Self { from: leakage.from, to: at, what: What::Supply(at) })
            }
        };
        let edges = graph.edges.iter().enumerate().map(of_edge);
        edges.chain(graph.nodes.iter().enumerate().filter_map(of_node)).collect()
    }

    /// Its admittance with edges that end so, at a component of the mains, S.
    pub(super) fn admittance(&self, graph: &Graph, ends: &[Ends], order: u32) -> Complex64 {
        let omega = TAU * graph.frequency(order);
        match self.what {
            What::Edge(edge) => graph.admittance(&graph.edges[edge], ends[edge], order),
            What::Earth(node) | What::Supply(node) => match &graph.nodes[node] {
                Node::Distribution(earth) => Complex64::new(earth.r, omega * earth.l).inv(),
                Node::Equipment(equipment) => {
                    let capacitance = equipment.leakage.as_ref().map_or(0.0, |leakage| leakage.capacitance);
                    Complex64::new(0.0, omega * capacitance)
                }
            },
        }
    }
}
