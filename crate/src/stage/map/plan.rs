//! What stands on the map of a show and what joins it, beside the graph that is solved.

use super::answer::{InputAt, LeftOut, PlaceKind, WireKind};
use crate::part::Spectrum;
use crate::stage::ground::Graph;
use crate::stage::show::{EquipmentPower, LinkKind};

/// The map of a show before it is solved.
pub(super) struct Plan {
    pub graph: Graph,
    pub spectrum: Spectrum,
    pub places: Vec<Place>,
    pub wires: Vec<Wire>,
    pub inputs: Vec<Input>,
    pub left_out: Vec<LeftOut>,
}

/// A place on the map.
pub(super) struct Place {
    pub kind: PlaceKind,
    pub id: String,
    pub name: String,
    pub circuit: String,
    pub power: Option<EquipmentPower>,
    pub leaks: Option<f64>,
    /// Its node in the graph.
    pub node: usize,
}

/// What joins two places.
pub(super) struct Wire {
    pub kind: WireKind,
    pub ends: [usize; 2],
    pub id: String,
    pub name: String,
    pub link: Option<LinkKind>,
    /// Its edges in the graph, one after the other; the last may be isolated.
    pub edges: Vec<usize>,
    /// The ground lift that isolates it, by the name of its box.
    pub lift: Option<String>,
}

impl Wire {
    /// The edge by which it is isolated.
    pub(super) fn last(&self) -> usize {
        self.edges.last().copied().unwrap_or_default()
    }
}

/// An input of a line.
pub(super) struct Input {
    pub line: String,
    pub name: String,
    pub at: InputAt,
    pub wire: usize,
    /// The edge of its lead in the graph, the last where several add up there.
    pub edge: usize,
    /// The signal there, V.
    pub signal: f64,
    /// The least distance of hum from that, dB.
    pub limit: f64,
}

impl Plan {
    /// The wire that an edge of the graph is part of; none for the path of an earth.
    pub(super) fn wire_of(&self, edge: usize) -> Option<usize> {
        self.wires.iter().position(|wire| wire.edges.contains(&edge))
    }

    /// An input of a line.
    pub(super) fn input(&self, line: &str, at: InputAt) -> Option<&Input> {
        self.inputs.iter().find(|input| input.line == line && input.at == at)
    }
}
