//! The cheapest isolation that opens every loop.
//!
//! The shields that stay are a spanning forest of the largest weight, where a
//! shield weighs what it costs to isolate; taking them one after the other, the
//! heaviest first, is exact (J. B. Kruskal, Proc. Am. Math. Soc. 7, 1956).

use super::graph::Graph;
use super::loops::{conducting, earthed};
use serde::Serialize;

/// What to isolate so that no loop is left.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Forest {
    /// Edges to isolate, in rising order.
    pub isolate: Vec<usize>,
    /// What that costs.
    pub cost: f64,
    /// Shields that may not be isolated and close a loop among themselves, in rising order.
    pub incurable: Vec<usize>,
}

/// What to isolate so that no loop is left but those that isolation cannot open.
pub fn forest(graph: &Graph) -> Forest {
    let ends = graph.ends();
    let cost = |edge: usize| graph.edges[edge].shield().and_then(super::Shield::cost);
    let mut shields: Vec<_> = conducting(graph, &ends).map(|edge| (cost(edge), edge)).collect();
    // What has to stay goes in first, then what costs most; the sort keeps the order of the rest.
    shields.sort_by(|(a, _), (b, _)| b.unwrap_or(f64::INFINITY).total_cmp(&a.unwrap_or(f64::INFINITY)));
    let mut sets = earthed(graph);
    let mut found = Forest { isolate: Vec::new(), cost: 0.0, incurable: Vec::new() };
    for (cost, edge) in shields {
        let [a, b] = graph.edges[edge].ends;
        if sets.join(a, b) {
            continue;
        }
        match cost {
            Some(cost) => {
                found.isolate.push(edge);
                found.cost += cost;
            }
            None => found.incurable.push(edge),
        }
    }
    found.isolate.sort_unstable();
    found.incurable.sort_unstable();
    found
}
