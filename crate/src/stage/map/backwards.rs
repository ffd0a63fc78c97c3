//! Which difference of a circuit makes an input just miss its limit.

use super::answer::{InputAt, MapBackwards, PlaceKind, Stands};
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
        let hum = HumBy::of(&plan.graph, edge, place.node)?;
        let now = show.circuit(&place.id).and_then(|circuit| circuit.volts(show)).unwrap_or(0.0);
        hum.matters().then(|| MapBackwards { circuit: place.id.clone(), stands: hum.stands(most), now })
    });
    Some(found.collect())
}

/// The hum at an input by the e.m.f. of one distribution.
struct HumBy<'a> {
    graph: &'a Graph,
    /// The last edge of the input.
    edge: usize,
    /// With nothing, and with 1 V: currents are linear in what drives them.
    nothing: Solution,
    one: Solution,
}

impl<'a> HumBy<'a> {
    fn of(graph: &'a Graph, edge: usize, node: usize) -> Option<Self> {
        Some(Self { graph, edge, nothing: solved(graph, node, 0.0)?, one: solved(graph, node, 1.0)? })
    }

    /// Re the limit of the input.
    fn share(&self, volts: f64) -> f64 {
        let hums = hums(self.graph, &self.graph.ends(), &self.nothing.towards(&self.one, volts));
        hum_at(&hums, self.edge).and_then(|hum| hum.of_limit).unwrap_or(0.0)
    }

    fn matters(&self) -> bool {
        let (without, with) = (self.share(0.0), self.share(1.0));
        (with - without).abs() > MATTERS * with.max(without)
    }

    /// The e.m.f. up to which the limit is met, this one at most.
    fn stands(&self, most: f64) -> Stands {
        // What is met with nothing is met up to one place only: sizes of sums bend upwards.
        let over = |volts: f64| self.share(volts) - 1.0;
        if over(0.0) > 0.0 {
            return Stands::Nothing;
        }
        bracketed_root(over, 0.0, most, FINE).map_or(Stands::Anything, Stands::UpTo)
    }
}

fn solved(graph: &Graph, node: usize, volts: f64) -> Option<Solution> {
    let mut graph = graph.clone();
    if let Node::Distribution(earth) = &mut graph.nodes[node] {
        earth.volts = volts;
    }
    Circuit::new(&graph).ok()?.solve(&graph.ends()).ok()
}
