//! Which difference of a circuit makes an input just miss its limit.

use super::answer::{InputAt, MapBackwards, PlaceKind};
use super::plan::Plan;
use super::solved::hum_at;
use crate::field::earth::DANGEROUS_DIFFERENCE;
use crate::numeric::bracketed_root;
use crate::stage::ground::{Circuit, Graph, Node, Solution, hums};
use crate::stage::show::Show;

/// How finely a difference is found, V.
const FINE: f64 = 1e-12;
/// A circuit that changes hum by less than this share of it does not matter.
const MATTERS: f64 = 1e-9;

/// Of each circuit that matters to an input.
pub(super) fn backwards(show: &Show, plan: &Plan, line: &str, at: InputAt) -> Option<Vec<MapBackwards>> {
    let edge = plan.input(line, at)?.edge;
    let circuits = plan.places.iter().filter(|place| place.kind == PlaceKind::Circuit);
    let found = circuits.filter_map(|place| {
        let others = show.power.iter().filter(|other| other.id != place.id);
        let most = DANGEROUS_DIFFERENCE - others.filter_map(|other| other.volts(show)).fold(0.0, f64::max);
        let volts = just_met(&plan.graph, edge, (place.node, most))?;
        Some(MapBackwards { circuit: place.id.clone(), volts })
    });
    Some(found.collect())
}

/// The e.m.f. of a distribution at which an input just meets its limit, up to one in V;
/// nothing of it where there is none, and nothing at all where it does not matter.
fn just_met(graph: &Graph, edge: usize, (node, most): (usize, f64)) -> Option<Option<f64>> {
    let [nothing, one] = [0.0, 1.0].map(|volts| solved(graph, node, volts));
    let (nothing, one) = (nothing?, one?);
    let ends = graph.ends();
    // Currents are linear in what drives them.
    let share = |volts: f64| {
        let hums = hums(graph, &ends, &nothing.towards(&one, volts));
        hum_at(&hums, edge).and_then(|hum| hum.of_limit).unwrap_or(0.0)
    };
    let (least, with) = (share(0.0), share(1.0));
    if (with - least).abs() <= MATTERS * with.max(least) {
        return None;
    }
    // Hum only ever grows with it from where it is met, as sizes of sums do.
    let over = |volts: f64| share(volts) - 1.0;
    Some(if over(0.0) > 0.0 { None } else { bracketed_root(over, 0.0, most, FINE) })
}

fn solved(graph: &Graph, node: usize, volts: f64) -> Option<Solution> {
    let mut graph = graph.clone();
    if let Node::Distribution(earth) = &mut graph.nodes[node] {
        earth.volts = volts;
    }
    Circuit::new(&graph).ok()?.solve(&graph.ends()).ok()
}
