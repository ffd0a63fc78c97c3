//! A plan, solved.

use super::answer::{GroundMap, MapInput, MapLoop, MapPlace, MapWire};
use super::plan::{Input, Place, Plan, Wire};
use crate::Complex64;
use crate::quantity::level::decibels;
use crate::stage::ground::{
    AtOrder, Circuit, Ends, Hum, Loop, Shield, Solution, Step, Weighting, Wrong, hums, loops, reached,
};
use std::collections::HashSet;

/// A plan with what flows in it.
pub(super) struct Solved<'a> {
    pub plan: &'a Plan,
    pub circuit: Circuit<'a>,
    pub ends: Vec<Ends>,
    pub solution: Solution,
    pub hums: Vec<Hum>,
    /// The inputs of the plan with their hum, the worst first.
    pub inputs: Vec<(&'a Input, Hum)>,
}

impl<'a> Solved<'a> {
    pub(super) fn new(plan: &'a Plan) -> Result<Self, Wrong> {
        let circuit = Circuit::new(&plan.graph)?;
        let ends = plan.graph.ends();
        let solution = circuit.solve(&ends)?;
        let hums = hums(&plan.graph, &ends, &solution);
        let of = |input: &'a Input| Some((input, hum_at(&hums, input.edge)?.clone()));
        let mut inputs: Vec<_> = plan.inputs.iter().filter_map(of).collect();
        inputs.sort_by(|(_, a), (_, b)| share(b).total_cmp(&share(a)));
        Ok(Self { plan, circuit, ends, solution, hums, inputs })
    }

    /// The hum at each input, in their order, with these edges isolated.
    pub(super) fn isolated(&self, edges: &[usize]) -> Result<Vec<Hum>, Wrong> {
        let ends = self.plan.graph.isolated(edges);
        let hums = hums(&self.plan.graph, &ends, &self.circuit.solve(&ends)?);
        Ok(self.inputs.iter().filter_map(|(input, _)| hum_at(&hums, input.edge).cloned()).collect())
    }

    /// Places, wires, inputs and loops, told into a map.
    pub(super) fn tell(&self, map: &mut GroundMap) {
        let reached = reached(&self.plan.graph, &self.ends);
        map.places = self.plan.places.iter().map(|place| self.place(place, reached[place.node])).collect();
        map.wires = self.plan.wires.iter().map(|wire| self.wire(wire)).collect();
        map.loops = self.loops();
        let inputs = self.inputs.iter().enumerate();
        map.inputs = inputs.map(|(at, (input, hum))| self.input(input, hum, (at, &map.loops))).collect();
    }

    fn place(&self, place: &Place, is_reached: bool) -> MapPlace {
        MapPlace {
            kind: place.kind,
            id: place.id.clone(),
            name: place.name.clone(),
            circuit: place.circuit.clone(),
            power: place.power,
            volts: self.all(|at| at.potentials[place.node]),
            leaks: place.leaks,
            floating: !is_reached,
        }
    }

    fn wire(&self, wire: &Wire) -> MapWire {
        let (edge, graph) = (wire.last(), &self.plan.graph);
        let conducts = self.ends[edge] == Ends::Both;
        let ohms = wire.edges.iter().map(|edge| graph.edges[*edge].r).sum();
        MapWire {
            kind: wire.kind,
            ends: wire.ends,
            id: wire.id.clone(),
            name: wire.name.clone(),
            link: wire.link,
            shield: self.ends[edge],
            ohms: conducts.then_some(ohms),
            amperes: self.amperes(edge),
            cost: graph.edges[edge].shield().and_then(Shield::cost),
        }
    }

    fn input(&self, input: &Input, hum: &Hum, (at, loops): (usize, &[MapLoop])) -> MapInput {
        let frequencies = self.plan.graph.orders.iter().map(|order| self.plan.graph.mains * f64::from(*order));
        MapInput {
            line: input.line.clone(),
            name: input.name.clone(),
            at: input.at,
            wire: input.wire,
            volts: hum.a_weighted,
            distance: distance(input, hum),
            limit: Some(input.limit),
            over: hum.is_over(),
            by: loops.iter().position(|around| around.inputs.contains(&at)),
            components: frequencies.zip(hum.by_order.iter().copied()).collect(),
        }
    }

    /// The shortest loop through each shield, each of them once.
    fn loops(&self) -> Vec<MapLoop> {
        let mut known = HashSet::new();
        let mut found = Vec::new();
        for around in loops(&self.plan.graph, &self.ends, &self.hums, Weighting::A) {
            let mut wires = self.wires(&around);
            let told = MapLoop {
                inputs: self.hummed(&around),
                amperes: around.shields(&self.plan.graph).map(|edge| self.amperes(edge)).fold(0.0, f64::max),
                wires: wires.clone(),
            };
            wires.sort_unstable();
            if known.insert(wires) {
                found.push(told);
            }
        }
        let loudest =
            |around: &MapLoop| around.inputs.iter().map(|at| self.inputs[*at].1.a_weighted).fold(0.0, f64::max);
        found.sort_by(|a, b| loudest(b).total_cmp(&loudest(a)));
        found
    }

    /// The wires along a loop; two leads of one line that are one wire are passed at once.
    fn wires(&self, around: &Loop) -> Vec<usize> {
        let along = |step: &Step| match step {
            Step::Edge(edge) => self.plan.wire_of(*edge),
            Step::Earth(_) => None,
        };
        let mut wires: Vec<_> = around.steps.iter().filter_map(along).collect();
        wires.dedup();
        if wires.len() > 1 && wires.first() == wires.last() {
            wires.pop();
        }
        wires
    }

    /// The inputs that shields along a loop make hum, the worst first.
    fn hummed(&self, around: &Loop) -> Vec<usize> {
        let along: Vec<_> = around.shields(&self.plan.graph).collect();
        let hums = |at: &usize| {
            let hum = &self.inputs[*at].1;
            hum.a_weighted > 0.0 && hum.edges.iter().any(|edge| along.contains(edge))
        };
        (0..self.inputs.len()).filter(hums).collect()
    }

    /// Through an edge, all components together, A.
    pub(super) fn amperes(&self, edge: usize) -> f64 {
        self.all(|at| at.currents[edge])
    }

    /// All components of something together; of sources whose phases are not known re each
    /// other, sizes.
    fn all(&self, size: impl Fn(&AtOrder) -> Complex64) -> f64 {
        let of = |order: &u32| {
            let at = self.solution.at.iter().filter(|at| at.order == *order);
            at.map(|at| size(at).norm()).sum::<f64>().powi(2)
        };
        self.plan.graph.orders.iter().map(of).sum::<f64>().sqrt()
    }
}

/// From the signal to the hum at an input, dB; nothing where nothing hums.
pub(super) fn distance(input: &Input, hum: &Hum) -> Option<f64> {
    (hum.a_weighted > 0.0).then(|| decibels(input.signal / hum.a_weighted))
}

/// The hum of the input whose last lead this is.
pub(super) fn hum_at(hums: &[Hum], edge: usize) -> Option<&Hum> {
    // They stand in the order of their edges but where a lead comes before others.
    hums.iter().find(|hum| hum.edge == edge)
}

fn share(hum: &Hum) -> f64 {
    hum.of_limit.unwrap_or(0.0)
}
