//! What to isolate, told.

use super::answer::{MapIsolation, WireKind};
use super::fitting::Fitting;
use super::plan;
use super::plan::{Input, Wire};
use super::solved::{Solved, distance, hum_at};
use super::told::Told;
use crate::stage::cures::cures;
use crate::stage::ground::{Circuit, Effort, Ends, Graph, Hum, Kind, Node, Signal, Wrong, cheapest, forest, hums};
use crate::stage::show::Show;
use crate::words::Arg;
use std::collections::{HashMap, HashSet};

/// A hum that is so many times less is heard to be less: 1 dB.
const HEARD: f64 = 1.122;

/// The cures of so many rows are looked for, those of the worst inputs: each is solved on the
/// whole stage.
const MOST_CURED: usize = 3;
/// In a show of more lines nobody waits for that: its rows tell their cures where they are opened.
const MANY: usize = 100;

/// From the signal to the hum at an input before and after, dB.
type Distances = (Option<f64>, Option<f64>);

impl Solved<'_> {
    /// The cheapest that open every loop.
    pub(super) fn every_loop(&self, show: &Show, told: &Told) -> Result<MapIsolation, Wrong> {
        let forest = forest(&self.plan.graph);
        let stay = self.wires_of(&forest.incurable);
        let isolation = MapIsolation { cost: forest.cost, stay, proved: true, sets: 1, ..MapIsolation::default() };
        Ok(self.told(isolation, &forest.isolate, show, told)?.0)
    }

    /// The cheapest that bring every input under its limit.
    pub(super) fn every_limit(&self, show: &Show, sets: usize, told: &Told) -> Result<MapIsolation, Wrong> {
        let found = cheapest(&self.plan.graph, Effort { sets })?;
        let isolation =
            MapIsolation { cost: found.cost, proved: found.proved, sets: found.sets, ..MapIsolation::default() };
        let (mut isolation, show) = self.told(isolation, &found.isolate, show, told)?;
        isolation.cures = self.enough(&isolation.over, &found.isolate, &show, told);
        isolation.beyond.retain(|text| !isolation.cures.contains(text));
        Ok(isolation)
    }

    /// What is enough for inputs that stay over their limits: the cures of their rows in the
    /// show with the isolation done, then a transformer in the lead from the thru.
    fn enough(&self, over: &[usize], edges: &[usize], show: &Show, told: &Told) -> Vec<String> {
        let mut enough = Vec::new();
        let most = if show.lines.len() > MANY { 0 } else { MOST_CURED };
        for at in over.iter().take(most) {
            let input = self.inputs[*at].0;
            let of_row = cures(show, &input.line, told.settings);
            for cure in of_row.into_iter().filter(|cure| cure.fixes.contains(&input.at.reading())) {
                let key = if cure.has { "stage-map-cure" } else { "stage-map-cure-to-get" };
                enough.push(told.whole(key, &[("name", Arg::name(&input.name)), ("cure", Arg::Text(cure.text))]));
            }
        }
        for at in over {
            let input = self.inputs[*at].0;
            if self.is_cured_at_thru(input, edges) {
                enough.push(told.text("beyond-thru", &[("name", &input.name)]));
            }
        }
        let mut known = HashSet::new();
        enough.retain(|text| known.insert(text.clone()));
        enough
    }

    /// Whether a transformer in the lead from its thru brings an input under its limit.
    fn is_cured_at_thru(&self, input: &Input, edges: &[usize]) -> bool {
        let of_thru = |wire: &&Wire| wire.kind == WireKind::Thru && wire.id == input.line;
        let Some(thru) = self.plan.wires.iter().find(of_thru) else { return false };
        let mut ends = self.plan.graph.isolated(edges);
        ends[thru.last()] = Ends::Transformer;
        let Ok(solution) = self.circuit.solve(&ends) else { return false };
        let hums = hums(&self.plan.graph, &ends, &solution);
        hum_at(&hums, input.edge).is_some_and(|hum| !hum.is_over())
    }

    /// The same with what to do, what it comes to once it is done, and what helps the rest;
    /// and the show with it done.
    fn told(
        &self,
        isolation: MapIsolation,
        edges: &[usize],
        show: &Show,
        told: &Told,
    ) -> Result<(MapIsolation, Show), Wrong> {
        let mut fitting = Fitting::new(show, told);
        let isolate: Vec<_> = self
            .wires_of(edges)
            .into_iter()
            .map(|at| {
                let wire = &self.plan.wires[at];
                fitting.isolate(at, wire, self.is_split(wire))
            })
            .collect();
        let after = self.isolated(edges)?;
        let (distances, over) = if isolate.is_empty() {
            let distances = self.inputs.iter().map(|(input, hum)| distance(input, hum)).map(|as_is| (as_is, as_is));
            (distances.collect(), self.over(&self.inputs.iter().map(|(_, hum)| hum.is_over()).collect::<Vec<_>>()))
        } else {
            self.done(&fitting.show, told)?
        };
        let isolation = MapIsolation { isolate, distances, over, short: fitting.short(), ..isolation };
        let beyond = self.beyond(&isolation, edges, &after, told);
        Ok((MapIsolation { beyond, ..isolation }, fitting.show))
    }

    /// How far each input keeps from hum before and after, and which are over their limits, in
    /// the show with all of it done: other parts have other signals and other rejections.
    fn done(&self, show: &Show, told: &Told) -> Result<(Vec<Distances>, Vec<usize>), Wrong> {
        let Some(plan) = plan(show, told) else { return Ok((Vec::new(), Vec::new())) };
        let solved = Solved::new(&plan)?;
        let known: HashMap<_, _> =
            solved.inputs.iter().map(|(input, hum)| ((input.line.as_str(), input.at), (*input, hum))).collect();
        let of = |(input, before): &(&Input, Hum)| {
            let after = known.get(&(input.line.as_str(), input.at));
            let left = after.and_then(|(input, hum)| distance(input, hum));
            ((distance(input, before), left), after.is_some_and(|(_, hum)| hum.is_over()))
        };
        let (distances, is_over): (Vec<_>, Vec<_>) = self.inputs.iter().map(of).unzip();
        Ok((distances, self.over(&is_over)))
    }

    /// The places of those that are.
    fn over(&self, is_over: &[bool]) -> Vec<usize> {
        (0..self.inputs.len()).filter(|at| is_over.get(*at) == Some(&true)).collect()
    }

    /// Whether all that a line joins is the two consoles of its split.
    fn is_split(&self, wire: &Wire) -> bool {
        let of_line = |kind| self.plan.wires.iter().any(|other| other.id == wire.id && other.kind == kind);
        wire.kind == WireKind::Line && of_line(WireKind::Split) && !of_line(WireKind::Lead)
    }

    fn wires_of(&self, edges: &[usize]) -> Vec<usize> {
        let mut wires: Vec<_> = edges.iter().filter_map(|edge| self.plan.wire_of(*edge)).collect();
        wires.sort_unstable();
        wires.dedup();
        wires
    }

    /// What helps where isolation does not: the inputs that stay over their limits, and the
    /// loops that stay.
    fn beyond(&self, isolation: &MapIsolation, edges: &[usize], after: &[Hum], told: &Told) -> Vec<String> {
        let mut beyond = Vec::new();
        let mut say = |key: &str, name: &str| {
            let text = told.text(&format!("beyond-{key}"), &[("name", name)]);
            if !beyond.contains(&text) {
                beyond.push(text);
            }
        };
        for at in &isolation.over {
            let (input, hum) = (self.inputs[*at].0, &after[*at]);
            for edge in &hum.edges {
                self.cures(*edge, &input.name, &mut say);
            }
        }
        for wire in &isolation.stay {
            let wire = &self.plan.wires[*wire];
            match wire.kind {
                WireKind::Split => say("split", &wire.name),
                WireKind::Thru | WireKind::Lead => say("thru", &wire.name),
                WireKind::Line if self.is_phantom(wire) => self.without_phantom(wire, &mut say),
                WireKind::Line | WireKind::Link | WireKind::Earth | WireKind::Metalwork => {}
            }
        }
        for (key, name, graph) in self.changes() {
            if self.helps(&graph, edges, &isolation.over, after) {
                say(key, name);
            }
        }
        beyond
    }

    /// What else can be changed: the name of each cure, what it is about, and the stage with it done.
    fn changes(&self) -> Vec<(&'static str, &str, Graph)> {
        let graph = &self.plan.graph;
        let without = |change: &dyn Fn(&mut Node)| {
            let mut graph = graph.clone();
            graph.nodes.iter_mut().for_each(change);
            graph
        };
        let no_difference = |node: &mut Node| {
            if let Node::Distribution(earth) = node {
                earth.volts = 0.0;
            }
        };
        let mut changes = vec![("power", "", without(&no_difference))];
        for place in self.plan.places.iter().filter(|place| place.leaks.is_some()) {
            let mut graph = graph.clone();
            if let Node::Equipment(equipment) = &mut graph.nodes[place.node] {
                equipment.leakage = None;
            }
            changes.push(("leakage", &place.name, graph));
        }
        changes
    }

    /// Whether one of the inputs that are over their limits hums less in a changed stage,
    /// by so much that it can be heard.
    fn helps(&self, graph: &Graph, edges: &[usize], over: &[usize], after: &[Hum]) -> bool {
        let ends = graph.isolated(edges);
        let Ok(solution) = Circuit::new(graph).and_then(|circuit| circuit.solve(&ends)) else { return false };
        let hums = hums(graph, &ends, &solution);
        let is_less = |at: &usize| {
            let now = hum_at(&hums, self.inputs[*at].0.edge).map_or(f64::INFINITY, |hum| hum.a_weighted);
            now * HEARD < after[*at].a_weighted
        };
        over.iter().any(is_less)
    }

    fn is_phantom(&self, wire: &Wire) -> bool {
        self.plan.graph.edges[wire.last()].shield().is_some_and(|shield| shield.phantom)
    }

    /// What to use where phantom is in the way of isolation: where a second console is
    /// joined another split, else another box.
    fn without_phantom(&self, wire: &Wire, say: &mut impl FnMut(&str, &str)) {
        let is_joined = |other: &Wire| other.id == wire.id && other.kind == WireKind::Split;
        let key = if wire.lift.is_none() && self.plan.wires.iter().any(is_joined) { "split" } else { "phantom" };
        say(key, &wire.name);
    }

    /// What cures the hum that a lead brings.
    fn cures(&self, at: usize, name: &str, say: &mut impl FnMut(&str, &str)) {
        let graph = &self.plan.graph;
        let edge = &graph.edges[at];
        let Kind::Shield(shield) = &edge.kind else { return };
        if shield.pin_1_r > 0.0 {
            let there = self.plan.places.iter().find(|place| place.node == edge.ends[1]);
            say("pin-1", there.map_or(name, |place| &place.name));
        }
        let wire = self.plan.wires.iter().find(|wire| wire.edges.contains(&at));
        match (wire.map(|wire| wire.kind), &shield.signal) {
            (Some(WireKind::Thru | WireKind::Lead), _) => say("thru", name),
            // It has its box already.
            (Some(WireKind::Line), Some(Signal::Unbalanced(_))) if wire.is_some_and(|wire| self.is_phantom(wire)) => {
                say("phantom", name);
            }
            (_, Some(Signal::Unbalanced(_))) => say("balanced", name),
            (_, Some(Signal::Balanced(..)) | None) => {}
        }
        if shield.arrival.besides.iter().any(|volts| *volts > 0.0) {
            say("stray", name);
        }
    }
}
