//! Equipment, the earths of its distributions, and what joins their grounds.

use super::shield::{Ends, Shield};
use crate::Complex64;
use serde::{Deserialize, Serialize};
use std::f64::consts::TAU;

/// The grounds of a stage.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, Serialize)]
pub struct Graph {
    /// Mains frequency, Hz.
    pub mains: f64,
    /// What is solved: 1 for the mains frequency, else the order of a harmonic.
    pub orders: Vec<u32>,
    /// Equipment and distributions; edges name them by their place.
    pub nodes: Vec<Node>,
    /// What joins two of them. Two leads between the same two are two edges.
    pub edges: Vec<Edge>,
    /// What is known of the phases of what drives it.
    #[serde(default)]
    pub phases: Phases,
}

/// What is known of the phases of what drives a stage.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Phases {
    /// Those of all sources.
    #[default]
    Known,
    /// Those within each distribution: what its e.m.f. and the supplies that it feeds
    /// do together. Of several distributions sizes add up, the worst case.
    WithinDistributions,
}

/// A piece of equipment or the earth of a distribution.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Node {
    /// The earth bar of a distribution.
    Distribution(Distribution),
    /// Equipment, by the ground of its chassis.
    Equipment(Equipment),
}

/// The earth of a distribution, as seen from the earth of the venue.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, Serialize)]
#[serde(default)]
pub struct Distribution {
    /// E.m.f. between the two at the mains frequency, V.
    pub volts: f64,
    /// Resistance of the path between them, Ω.
    pub r: f64,
    /// Inductance of the path, H. Without either, the e.m.f. holds whatever flows.
    pub l: f64,
    /// Its harmonics.
    pub wave: Wave,
}

impl Distribution {
    /// Whether it holds its e.m.f. whatever flows.
    pub(super) fn is_held(&self) -> bool {
        self.r == 0.0 && self.l == 0.0
    }
}

/// Equipment.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, Serialize)]
#[serde(default)]
pub struct Equipment {
    /// What its supply leaks, if it does.
    pub leakage: Option<Leakage>,
    /// Resistance that each signal shield's current shares with the signal's
    /// ground inside, Ω: the pin-1 fault. 0 without one.
    pub pin_1_r: f64,
}

/// What a supply leaks through its interference capacitors.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Leakage {
    /// Into a short to earth at the mains frequency, A.
    pub amperes: f64,
    /// The capacitance that it comes through, F; 0 for a current that nothing limits.
    #[serde(default)]
    pub capacitance: f64,
    /// The distribution that feeds the equipment, to whose earth the current returns.
    pub from: usize,
    /// The harmonics of the voltage behind it: through a capacitance that of order
    /// n drives n times the current.
    #[serde(default)]
    pub wave: Wave,
}

impl Leakage {
    /// So many amperes, without harmonics.
    pub fn of(amperes: f64, from: usize) -> Self {
        Self { amperes, capacitance: 0.0, from, wave: Wave::default() }
    }

    /// Into a short to earth at a component of the mains, A.
    pub(super) fn current(&self, order: u32) -> Complex64 {
        self.wave.at(order) * self.amperes * f64::from(order)
    }
}

/// The harmonics of a source.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, Serialize)]
#[serde(transparent)]
pub struct Wave(pub Vec<Harmonic>);

/// One harmonic of a source.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, Serialize)]
pub struct Harmonic {
    /// Its order; 1 turns the source itself.
    pub order: u32,
    /// R.m.s. re the source's own at the mains frequency.
    pub ratio: f64,
    /// Phase, rad: 0 where nothing is known, which is in phase with all others.
    #[serde(default)]
    pub phase: f64,
}

impl Wave {
    /// A component re the size at the mains frequency.
    pub fn at(&self, order: u32) -> Complex64 {
        let unsaid = if order == 1 { Complex64::ONE } else { Complex64::ZERO };
        let found = self.0.iter().find(|part| part.order == order);
        found.map_or(unsaid, |part| Complex64::from_polar(part.ratio, part.phase))
    }
}

/// What joins the grounds of two nodes.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Edge {
    /// Places of the nodes; a signal goes from the first to the second.
    pub ends: [usize; 2],
    /// Resistance, Ω; of a shield, without its contacts.
    pub r: f64,
    /// Inductance, H.
    #[serde(default)]
    pub l: f64,
    /// What it is.
    pub kind: Kind,
}

/// What an edge is.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// A protective earth. It is never opened.
    Earth,
    /// A rack or other metalwork. It is never opened.
    Metalwork,
    /// The shield of a lead.
    Shield(Box<Shield>),
}

impl Edge {
    /// The shield, if it is one.
    pub fn shield(&self) -> Option<&Shield> {
        match &self.kind {
            Kind::Earth | Kind::Metalwork => None,
            Kind::Shield(shield) => Some(shield),
        }
    }

    /// What the current through a transformer shares with the signal, Ω: of the
    /// lead, unless stated.
    pub(super) fn circuit_r(&self) -> f64 {
        self.shield().map_or(self.r, |shield| shield.circuit_r.unwrap_or(self.r + shield.contact_r))
    }

    /// What a field puts into the loop of an edge, from its first end to its
    /// second, at a component of the mains, V.
    pub(super) fn emf(&self, order: u32, frequency: f64) -> Complex64 {
        let field = self.shield().and_then(|shield| shield.field.as_ref());
        field.map_or(Complex64::ZERO, |field| field.wave.at(order) * (TAU * frequency * field.density * field.area))
    }
}

impl Graph {
    /// How each edge ends as the stage stands.
    pub fn ends(&self) -> Vec<Ends> {
        self.edges.iter().map(|edge| edge.shield().map_or(Ends::Both, |shield| shield.ends)).collect()
    }

    /// The same with these edges isolated.
    pub fn isolated(&self, edges: &[usize]) -> Vec<Ends> {
        let mut ends = self.ends();
        for edge in edges {
            if let (Some(slot), Some(edge)) = (ends.get_mut(*edge), self.edges.get(*edge)) {
                *slot = edge.shield().map_or(Ends::Both, Shield::isolated_ends);
            }
        }
        ends
    }

    /// The place of an order among the components.
    pub(super) fn place(&self, order: u32) -> usize {
        self.orders.iter().position(|known| *known == order).unwrap_or(usize::MAX)
    }

    /// The frequency of an order, Hz.
    pub(super) fn frequency(&self, order: u32) -> f64 {
        self.mains * f64::from(order)
    }

    /// What all pin-1 faults of an edge come to, Ω.
    pub(super) fn pin_1_r(&self, edge: &Edge) -> f64 {
        let of = |node: usize| match &self.nodes[node] {
            Node::Distribution(_) => 0.0,
            Node::Equipment(equipment) => equipment.pin_1_r,
        };
        let with_signal = edge.shield().filter(|shield| shield.signal.is_some());
        with_signal.map_or(0.0, |shield| of(edge.ends[0]) + of(edge.ends[1]) + shield.pin_1_r)
    }

    /// Admittance of an edge that ends so, at a component of the mains, S.
    pub(super) fn admittance(&self, edge: &Edge, ends: Ends, order: u32) -> Complex64 {
        let omega = TAU * self.frequency(order);
        let contacts = edge.shield().map_or(0.0, |shield| shield.contact_r);
        match ends {
            Ends::Both => Complex64::new(edge.r + contacts + self.pin_1_r(edge), omega * edge.l).inv(),
            Ends::Transformer => {
                let y = Complex64::new(0.0, omega * edge.shield().map_or(0.0, Shield::capacitance));
                // Written so that no capacitance is no way through, and no fault.
                y / (y * Complex64::new(edge.circuit_r(), omega * edge.l) + 1.0)
            }
            Ends::One | Ends::None => {
                let open = edge.shield().and_then(|shield| shield.open.as_ref()?.z.get(self.place(order)));
                open.map_or(Complex64::ZERO, |[re, im]| Complex64::new(*re, *im).inv())
            }
            Ends::Optical | Ends::Radio => Complex64::ZERO,
        }
    }
}
