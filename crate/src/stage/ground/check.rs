//! What no graph may have.

use super::graph::{Edge, Graph, Leakage, Node, Wave};
use super::shield::{Rejection, Shield, Signal};
use serde::Serialize;

/// Why a graph has no solution.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Wrong {
    /// The mains frequency is no frequency, or an order is 0 or there is none.
    Mains,
    /// This node has a value that no part can have.
    Node(usize),
    /// What this node leaks returns to something that is no distribution.
    Feed(usize),
    /// This edge has a value that no part can have, or no impedance at all.
    Edge(usize),
    /// This edge joins a node that there is not.
    End(usize),
    /// This edge joins a node to itself.
    ToItself(usize),
    /// Impedances are so far apart that digits do not suffice.
    Unsolved,
}

impl Graph {
    /// Whether it can be solved.
    ///
    /// # Errors
    /// What is wrong first.
    pub fn check(&self) -> Result<(), Wrong> {
        if !(positive(self.mains) && self.mains > 0.0) || self.orders.is_empty() || self.orders.contains(&0) {
            return Err(Wrong::Mains);
        }
        for (at, node) in self.nodes.iter().enumerate() {
            self.check_node(at, node)?;
        }
        self.edges.iter().enumerate().try_for_each(|(at, edge)| self.check_edge(at, edge))
    }

    fn check_node(&self, at: usize, node: &Node) -> Result<(), Wrong> {
        let leaks = |leakage: &Leakage| {
            leakage.amperes.is_finite() && positive(leakage.capacitance) && whole_wave(&leakage.wave)
        };
        let (sound, leakage) = match node {
            Node::Distribution(earth) => {
                let sound = positive(earth.r) && positive(earth.l) && earth.volts.is_finite();
                (sound && whole_wave(&earth.wave), None)
            }
            Node::Equipment(equipment) => (positive(equipment.pin_1_r), equipment.leakage.as_ref()),
        };
        if !sound || !leakage.is_none_or(leaks) {
            return Err(Wrong::Node(at));
        }
        let fed = leakage.is_none_or(|leakage| matches!(self.nodes.get(leakage.from), Some(Node::Distribution(_))));
        if fed { Ok(()) } else { Err(Wrong::Feed(at)) }
    }

    fn check_edge(&self, at: usize, edge: &Edge) -> Result<(), Wrong> {
        let [a, b] = edge.ends;
        if a.max(b) >= self.nodes.len() {
            return Err(Wrong::End(at));
        }
        if a == b {
            return Err(Wrong::ToItself(at));
        }
        let contacts = edge.shield().map_or(0.0, |shield| shield.contact_r);
        let sound = positive(edge.r) && positive(edge.l) && positive(contacts);
        let conducts = edge.r + edge.l + contacts + self.pin_1_r(edge) > 0.0;
        let whole = edge.shield().is_none_or(|shield| whole_shield(shield) && self.whole_lists(shield));
        if sound && conducts && whole { Ok(()) } else { Err(Wrong::Edge(at)) }
    }

    /// Whether what is stated by component is so for each of them.
    fn whole_lists(&self, shield: &Shield) -> bool {
        let sizes = |list: &[f64]| list.len() == self.orders.len() && list.iter().copied().all(positive);
        let legs = shield.open.as_ref().is_none_or(|legs| {
            let z = |[re, im]: &[f64; 2]| re.is_finite() && im.is_finite() && re.hypot(*im) > 0.0;
            sizes(&legs.error) && legs.z.len() == self.orders.len() && legs.z.iter().all(z)
        });
        let rejection = match &shield.signal {
            Some(Signal::Balanced(Rejection::ByOrder(errors), _)) => sizes(errors),
            _ => true,
        };
        let or_none = |list: &[f64]| list.is_empty() || sizes(list);
        legs && rejection && or_none(&shield.arrival.transfer) && or_none(&shield.arrival.besides)
    }
}

fn positive(value: f64) -> bool {
    value.is_finite() && value >= 0.0
}

fn whole_wave(wave: &Wave) -> bool {
    wave.0.iter().all(|part| part.ratio.is_finite() && part.phase.is_finite())
}

fn whole_shield(shield: &Shield) -> bool {
    let field = shield.field.as_ref();
    let isolator = shield.isolator.as_ref();
    let signal = shield.signal.as_ref();
    let limit = signal.and_then(Signal::limit);
    field.is_none_or(|field| field.density.is_finite() && positive(field.area) && whole_wave(&field.wave))
        && isolator.is_none_or(|isolator| positive(isolator.cost) && positive(isolator.capacitance))
        && positive(shield.capacitance)
        && positive(shield.pin_1_r)
        && shield.circuit_r.is_none_or(positive)
        && limit.is_none_or(|limit| positive(limit.volts))
        && signal.is_none_or(whole_signal)
}

fn whole_signal(signal: &Signal) -> bool {
    match signal {
        Signal::Unbalanced(_) | Signal::Balanced(Rejection::ByOrder(_), _) => true,
        Signal::Balanced(Rejection::Decibels(decibels), _) => decibels.is_finite(),
        Signal::Balanced(Rejection::Bridge(bridge), _) => {
            bridge.source_r.into_iter().chain(bridge.input_c).chain(bridge.floating_c).all(positive)
                && bridge.input_r.into_iter().all(|r| positive(r) && r > 0.0)
        }
    }
}
