//! What the currents of a stage put in series with its signals.
//!
//! Contributions at one frequency whose phases are known have been added as phasors, in
//! the currents; of others, and of several leads at one input, sizes add up, the worst
//! case. Components of different frequencies add as powers.

use super::graph::Graph;
use super::shield::{Ends, Signal, Weighting};
use super::solution::{AtOrder, Solution};
use crate::network::a_weighting_power;
use serde::Serialize;
use std::collections::HashMap;

/// The hum at an input.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Hum {
    /// The edge of its lead, the last where several add up there.
    pub edge: usize,
    /// The edges of all leads that add up there.
    pub edges: Vec<usize>,
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

/// The hum at every input, with edges that end so, in the order of their leads.
pub fn hums(graph: &Graph, ends: &[Ends], solution: &Solution) -> Vec<Hum> {
    let weights: Vec<_> = graph.orders.iter().map(|order| a_weighting_power(graph.frequency(*order))).collect();
    inputs(graph)
        .into_iter()
        .map(|edges| {
            let mut by_order = vec![0.0; graph.orders.len()];
            for edge in &edges {
                for (sum, volts) in by_order.iter_mut().zip(arriving(graph, *edge, ends[*edge], solution)) {
                    *sum += volts;
                }
            }
            let flat = by_order.iter().map(|v| v * v).sum::<f64>().sqrt();
            let a_weighted = by_order.iter().zip(&weights).map(|(v, weight)| v * v * weight).sum::<f64>().sqrt();
            let edge = edges.last().copied().unwrap_or_default();
            let mut hum = Hum { edge, edges, by_order, flat, a_weighted, of_limit: None };
            let limit = hum.edges.iter().find_map(|edge| graph.edges[*edge].shield()?.signal.as_ref()?.limit());
            hum.of_limit = limit.map(|limit| share(hum.weighted(limit.weighting), limit.volts));
            hum
        })
        .collect()
}

/// The edges of the leads of every input.
fn inputs(graph: &Graph) -> Vec<Vec<usize>> {
    let (mut inputs, mut known) = (Vec::<Vec<usize>>::new(), HashMap::new());
    for (at, edge) in graph.edges.iter().enumerate() {
        let Some(shield) = edge.shield().filter(|shield| shield.signal.is_some()) else { continue };
        match shield.arrival.input.map(|input| known.entry(input).or_insert(inputs.len())) {
            Some(place) if *place < inputs.len() => inputs[*place].push(at),
            _ => inputs.push(vec![at]),
        }
    }
    inputs
}

/// What a lead brings to its input, by component, V.
fn arriving(graph: &Graph, at: usize, ends: Ends, solution: &Solution) -> Vec<f64> {
    let mut by_order = vec![0.0; graph.orders.len()];
    let Some(shield) = graph.edges[at].shield() else { return by_order };
    for found in &solution.at {
        let place = graph.place(found.order);
        by_order[place] += shield.arrival.of(volts(graph, at, ends, found), place);
    }
    for (place, sum) in by_order.iter_mut().enumerate() {
        *sum += shield.arrival.beside(place);
    }
    by_order
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

/// In series with the signal of a lead at one component of the mains, V.
fn volts(graph: &Graph, at: usize, ends: Ends, found: &AtOrder) -> f64 {
    let edge = &graph.edges[at];
    let Some((shield, signal)) = edge.shield().and_then(|shield| Some((shield, shield.signal.as_ref()?))) else {
        return 0.0;
    };
    let place = graph.place(found.order);
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
        (Ends::Both, Signal::Balanced(rejection, _)) => between() * rejection.error(found.frequency, place) + pins,
        (Ends::One | Ends::None, Signal::Balanced(rejection, _)) => {
            let legs = shield.open.as_ref().and_then(|legs| legs.error.get(place).copied());
            between() * legs.unwrap_or_else(|| rejection.error(found.frequency, place))
        }
    }
}
