//! What the currents of a stage put in series with its signals.
//!
//! Contributions at one frequency have been added as phasors, in the currents;
//! components of different frequencies add as powers.

use super::graph::{Edge, Graph};
use super::shield::{Ends, Shield, Signal, Weighting};
use super::solution::{AtOrder, Solution};
use crate::network::a_weighting_power;
use serde::Serialize;

/// The hum at the input of one lead.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Hum {
    /// The lead's edge.
    pub edge: usize,
    /// Of each component of the mains, V.
    pub by_order: Vec<f64>,
    /// Of all together, V.
    pub flat: f64,
    /// The same A-weighted, V.
    pub a_weighted: f64,
    /// Re the limit of the input, weighted as that is; none without a limit.
    pub of_limit: Option<f64>,
}

impl Hum {
    /// All together, V.
    pub fn weighted(&self, weighting: Weighting) -> f64 {
        match weighting {
            Weighting::Flat => self.flat,
            Weighting::A => self.a_weighted,
        }
    }

    /// Whether it is over the limit of its input.
    pub fn is_over(&self) -> bool {
        self.of_limit.is_some_and(|share| share > 1.0)
    }
}

/// The hum of every lead that carries a signal, with edges that end so.
pub fn hums(graph: &Graph, ends: &[Ends], solution: &Solution) -> Vec<Hum> {
    let weights: Vec<_> = solution.at.iter().map(|at| a_weighting_power(at.frequency)).collect();
    let hum = |(at, edge): (usize, &Edge)| {
        let shield = edge.shield()?;
        let signal = shield.signal.as_ref()?;
        let by_order: Vec<_> =
            solution.at.iter().map(|found| volts(graph, at, (shield, signal), ends[at], found)).collect();
        let flat = by_order.iter().map(|v| v * v).sum::<f64>().sqrt();
        let a_weighted = by_order.iter().zip(&weights).map(|(v, weight)| v * v * weight).sum::<f64>().sqrt();
        let mut hum = Hum { edge: at, by_order, flat, a_weighted, of_limit: None };
        hum.of_limit = signal.limit().map(|limit| share(hum.weighted(limit.weighting), limit.volts));
        Some(hum)
    };
    graph.edges.iter().enumerate().filter_map(hum).collect()
}

/// The loudest first; of two that are as loud, the earlier edge.
pub fn ranked(mut hums: Vec<Hum>, weighting: Weighting) -> Vec<Hum> {
    hums.sort_by(|a, b| b.weighted(weighting).total_cmp(&a.weighted(weighting)));
    hums
}

/// Silence keeps every limit, that of nothing too.
fn share(volts: f64, limit: f64) -> f64 {
    if volts <= limit && limit == 0.0 { 0.0 } else { volts / limit }
}

/// In series with the signal at one component of the mains, V.
fn volts(graph: &Graph, at: usize, (shield, signal): (&Shield, &Signal), ends: Ends, found: &AtOrder) -> f64 {
    let edge = &graph.edges[at];
    let current = found.currents[at].norm();
    let pins = current * graph.pin_1_r(edge);
    // The legs pass the same field as their shield.
    let between = || {
        let [from, to] = edge.ends.map(|node| found.potentials[node]);
        (from - to + edge.emf(found.order, found.frequency)).norm()
    };
    match (ends, signal) {
        (Ends::Optical | Ends::Radio, _) => 0.0,
        // As if the whole capacitance ended on the live side: the worst case.
        (Ends::Transformer, _) => current * edge.circuit_r(),
        // The core lies inside its shield and sees the same flux.
        (Ends::Both, Signal::Unbalanced(_)) => current * (edge.r + shield.contact_r) + pins,
        // Without a return of its own, the signal returns by the earths.
        (Ends::One | Ends::None, Signal::Unbalanced(_)) => between(),
        (Ends::Both, Signal::Balanced(rejection, _)) => between() * rejection.error(found.frequency) + pins,
        (Ends::One | Ends::None, Signal::Balanced(rejection, _)) => between() * rejection.error(found.frequency),
    }
}
