//! The map of a show, put together from its power, equipment, lines and links.

use super::answer::{LeftOut, PlaceKind, WireKind};
use super::mains::Mains;
use super::plan::{Place, Plan, Wire};
use super::told::Told;
use crate::ask::Entry;
use crate::calculator::whole_line::{CALCULATOR, Grounding};
use crate::field::Values;
use crate::named::Named;
use crate::quantity::Unit;
use crate::settings::Settings;
use crate::stage::fill::quantity;
use crate::stage::ground::{self, Distribution, Edge, Graph, Isolator, Kind, Node, Phases, Shield};
use crate::stage::power::PROTECTIVE_R;
use crate::stage::row::key;
use crate::stage::show::{Equipment, EquipmentPower, Link, LinkKind, Show};
use std::collections::HashMap;
use std::rc::Rc;

/// What has to be left alone costs nothing, for it has no price. The rest is judgement,
/// in the unit of a ground lift that is there: an isolator has to be brought and put
/// into a run, and a link takes one of its own kind, or a fibre.
pub(super) const LIFT_COST: f64 = 1.0;
/// Of an isolator in a run.
pub(super) const ISOLATOR_COST: f64 = 5.0;
/// Of what isolates a link.
pub(super) const LINK_COST: f64 = 10.0;
/// Of metal on metal where nobody knows it, Ω (common practice, no source).
const METALWORK_R: f64 = 0.01;
/// Of the shield of a link with its contacts where nobody knows it, Ω (common
/// practice, no source).
const LINK_R: f64 = 0.1;
/// No conductor has less than this, Ω: far below all that counts, and no short that
/// could not be solved.
const LEAST_R: f64 = 1e-8;

/// A line as it grounds, or why nobody knows.
type Known = Rc<Result<Grounding, String>>;

/// The map as far as it is put together.
pub(super) struct Builder<'a> {
    pub show: &'a Show,
    pub told: &'a Told<'a>,
    mains: Mains,
    pub plan: Plan,
    /// The places of circuits and of equipment.
    circuits: HashMap<&'a str, usize>,
    equipment: HashMap<&'a str, usize>,
    /// The distribution of what stands on no circuit that is named.
    unnamed: Option<usize>,
    known: HashMap<Vec<String>, Known>,
}

impl<'a> Builder<'a> {
    /// The circuits and the equipment of a show; nothing where its limits say no mains.
    pub(super) fn new(show: &'a Show, told: &'a Told<'a>) -> Option<Self> {
        let mains = Mains::of(show)?;
        let graph = Graph {
            mains: mains.frequency,
            orders: mains.orders(),
            phases: Phases::WithinDistributions,
            nodes: Vec::new(),
            edges: Vec::new(),
        };
        let plan = Plan {
            graph,
            spectrum: mains.spectrum.clone(),
            places: Vec::new(),
            wires: Vec::new(),
            inputs: Vec::new(),
            left_out: Vec::new(),
        };
        let mut builder = Self {
            show,
            told,
            mains,
            plan,
            circuits: HashMap::new(),
            equipment: HashMap::new(),
            unnamed: None,
            known: HashMap::new(),
        };
        builder.circuits();
        for equipment in &show.equipment {
            if let Some(place) = builder.add(equipment) {
                builder.equipment.insert(&equipment.id, place);
            }
        }
        Some(builder)
    }

    fn circuits(&mut self) {
        for circuit in &self.show.power {
            let volts = circuit.volts(self.show).unwrap_or(0.0);
            let earth = Distribution { volts, r: circuit.path_r(self.show), l: 0.0, wave: self.mains.wave() };
            let node = self.node(Node::Distribution(earth));
            let place = self.place(Place {
                kind: PlaceKind::Circuit,
                id: circuit.id.clone(),
                name: circuit.name.clone(),
                circuit: circuit.id.clone(),
                power: None,
                leaks: None,
                node,
            });
            self.circuits.insert(&circuit.id, place);
        }
    }

    /// Equipment with its protective earth, or with what it leaks; nothing where it is
    /// earthed and nobody says by which circuit.
    pub(super) fn add(&mut self, equipment: &Equipment) -> Option<usize> {
        let circuit = self.circuits.get(equipment.circuit.as_str()).copied();
        if equipment.power == EquipmentPower::Earthed && circuit.is_none() {
            return None;
        }
        let leaks = self.mains.leaks(self.show, equipment);
        let leakage = leaks.map(|amperes| {
            let from = match circuit {
                Some(place) => self.at(place),
                None => self.unnamed_feed(),
            };
            self.mains.leakage(amperes, from)
        });
        let node = self.node(Node::Equipment(ground::Equipment { leakage, pin_1_r: 0.0 }));
        let place = self.place(Place {
            kind: PlaceKind::Equipment,
            id: equipment.id.clone(),
            name: equipment.name.clone(),
            circuit: circuit.map_or_else(String::new, |_| equipment.circuit.clone()),
            power: Some(equipment.power),
            leaks,
            node,
        });
        if let Some(circuit) = circuit.filter(|_| equipment.power == EquipmentPower::Earthed) {
            let edge = self.edge([circuit, place].map(|place| self.at(place)), PROTECTIVE_R, 0.0, Kind::Earth);
            self.wire(WireKind::Earth, [circuit, place], ("", ""), vec![edge]);
        }
        Some(place)
    }

    /// The distribution that feeds what stands on no circuit that is named.
    fn unnamed_feed(&mut self) -> usize {
        if let Some(node) = self.unnamed {
            return node;
        }
        let node = self.node(Node::Distribution(Distribution::default()));
        self.unnamed = Some(node);
        node
    }

    /// The place of equipment, if it has one.
    pub(super) fn equipment(&self, id: &str) -> Option<usize> {
        self.equipment.get(id).copied()
    }

    pub(super) fn node(&mut self, node: Node) -> usize {
        self.plan.graph.nodes.push(node);
        self.plan.graph.nodes.len() - 1
    }

    pub(super) fn place(&mut self, place: Place) -> usize {
        self.plan.places.push(place);
        self.plan.places.len() - 1
    }

    /// The node of a place.
    pub(super) fn at(&self, place: usize) -> usize {
        self.plan.places[place].node
    }

    pub(super) fn edge(&mut self, ends: [usize; 2], r: f64, l: f64, kind: Kind) -> usize {
        self.plan.graph.edges.push(Edge { ends, r: r.max(LEAST_R), l, kind });
        self.plan.graph.edges.len() - 1
    }

    pub(super) fn wire(
        &mut self,
        kind: WireKind,
        ends: [usize; 2],
        (id, name): (&str, &str),
        edges: Vec<usize>,
    ) -> usize {
        let wire = Wire { kind, ends, id: id.to_owned(), name: name.to_owned(), link: None, edges, lift: None };
        self.plan.wires.push(wire);
        self.plan.wires.len() - 1
    }

    pub(super) fn leave_out(&mut self, line: &str, why: String) {
        self.plan.left_out.push(LeftOut { line: line.to_owned(), why });
    }

    /// How a line with these values grounds; of lines alike it is solved once.
    pub(super) fn grounding(&mut self, values: &Named<Entry>) -> Known {
        let settings = self.show.settings();
        let key = key(values, &settings);
        if let Some(known) = self.known.get(&key) {
            return Rc::clone(known);
        }
        let grounding = Rc::new(grounding(values, &settings, &self.plan.graph.orders, self.told));
        self.known.insert(key, Rc::clone(&grounding));
        grounding
    }

    /// What joins equipment besides the input list.
    pub(super) fn link(&mut self, link: &Link) {
        let [Some(from), Some(to)] = [&link.from, &link.to].map(|id| self.equipment(id)) else { return };
        if from == to {
            return;
        }
        let of_metal = link.kind == LinkKind::Metalwork;
        let usual = if of_metal { METALWORK_R } else { LINK_R };
        let r = quantity(self.show, &link.r, Unit::Ohm).map_or(usual, f64::abs);
        let kind = if of_metal {
            Kind::Metalwork
        } else {
            let isolator = Some(Isolator { cost: LINK_COST, capacitance: 0.0 });
            Kind::Shield(Shield { ends: link.ends, isolator, ..Shield::of(None) }.into())
        };
        let edge = self.edge([from, to].map(|place| self.at(place)), r, 0.0, kind);
        let kind = if of_metal { WireKind::Metalwork } else { WireKind::Link };
        let wire = self.wire(kind, [from, to], (&link.id, &link.name), vec![edge]);
        self.plan.wires[wire].link = Some(link.kind);
    }
}

/// How a line with these values grounds, or what is wrong with them.
fn grounding(values: &Named<Entry>, settings: &Settings, orders: &[u32], told: &Told) -> Result<Grounding, String> {
    let (values, echoes) = Values::read(&CALCULATOR, values, settings);
    if let Some(problem) = echoes.iter().find_map(|(_, echo)| echo.problem.as_ref()) {
        return Err(problem.message.clone());
    }
    Grounding::of(&values, orders).map_err(|fault| told.fault(&fault))
}
