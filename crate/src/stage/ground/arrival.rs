//! Where the hum of a lead arrives.

use serde::{Deserialize, Serialize};

/// Where the hum of a lead arrives, and as what; by component of the mains in the order
/// of the graph's.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, Serialize)]
#[serde(default)]
pub struct Arrival {
    /// The number of the input; the leads that have the same add up there. Without one
    /// the lead has an input of its own.
    pub input: Option<usize>,
    /// What is left there of a voltage in series with the lead; all of it where empty.
    pub transfer: Vec<f64>,
    /// What comes in there besides, V; nothing where empty.
    pub besides: Vec<f64>,
}

impl Arrival {
    /// So many volts in series with the lead as they arrive.
    pub(super) fn of(&self, volts: f64, place: usize) -> f64 {
        volts * self.transfer.get(place).copied().unwrap_or(1.0)
    }

    /// What comes in besides, V.
    pub(super) fn beside(&self, place: usize) -> f64 {
        self.besides.get(place).copied().unwrap_or(0.0)
    }
}
