//! The shield of a lead: what goes along with it, how it ends, and what it takes
//! to isolate it.

use super::arrival::Arrival;
use super::graph::Wave;
use crate::network::OnePort;
use crate::part::{BalancedLine, Leg};
use crate::quantity::level::ratio;
use serde::{Deserialize, Serialize};

/// The shield of a lead.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Shield {
    /// Resistance of all its contacts, Ω.
    #[serde(default)]
    pub contact_r: f64,
    /// The signal that it goes along with; none for a lead of data or pictures,
    /// which carries an earth all the same.
    pub signal: Option<Signal>,
    /// A field through the loop that it closes.
    #[serde(default)]
    pub field: Option<Field>,
    /// How it ends.
    #[serde(default)]
    pub ends: Ends,
    /// What isolates it; none where nothing does.
    #[serde(default)]
    pub isolator: Option<Isolator>,
    /// Whether it carries phantom, which no isolation passes.
    #[serde(default)]
    pub phantom: bool,
    /// Capacitance across the transformer that there is, F.
    #[serde(default)]
    pub capacitance: f64,
    /// What the current through a transformer shares with the signal, Ω; the
    /// lead's own resistance where nothing is stated.
    #[serde(default)]
    pub circuit_r: Option<f64>,
    /// What its current shares with the signal's ground in its input, Ω, beside what
    /// the equipment at its ends has of that.
    #[serde(default)]
    pub pin_1_r: f64,
    /// What its legs do where it is open; nothing joins its ends where nothing is stated.
    #[serde(default)]
    pub open: Option<Legs>,
    /// Where its hum arrives, and as what.
    #[serde(default)]
    pub arrival: Arrival,
}

/// The legs of a balanced line whose shield is open, by component of the mains in the
/// order of the graph's.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Legs {
    /// What they put between the grounds of its ends, real and imaginary part, Ω.
    pub z: Vec<[f64; 2]>,
    /// What is left of the voltage between these, re that.
    pub error: Vec<f64>,
}

/// How a shield ends.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "LinkEnds"))]
#[serde(rename_all = "snake_case")]
pub enum Ends {
    /// Connected at both.
    #[default]
    Both,
    /// Open at one.
    One,
    /// Open at both.
    None,
    /// A transformer between, across which only a capacitance is left.
    Transformer,
    /// A fibre between, or an isolator that works by light.
    Optical,
    /// By radio.
    Radio,
}

/// What isolates a lead.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, Serialize)]
pub struct Isolator {
    /// What it costs, in any unit that all leads share.
    pub cost: f64,
    /// Across it, F.
    #[serde(default)]
    pub capacitance: f64,
}

/// A magnetic field through a loop.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Field {
    /// Flux density at the mains frequency, T.
    pub density: f64,
    /// Area, m².
    pub area: f64,
    /// Its harmonics.
    #[serde(default)]
    pub wave: Wave,
}

/// A signal, as the input at the lead's second end takes it.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Signal {
    /// The shield is its return.
    Unbalanced(Option<Limit>),
    /// Two legs inside the shield.
    Balanced(Rejection, Option<Limit>),
}

/// The most hum that an input may have.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, Serialize)]
pub struct Limit {
    /// All components together, V; met where it is just reached.
    pub volts: f64,
    /// How they are weighted.
    pub weighting: Weighting,
}

/// How components of hum are weighted by their frequencies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, Serialize)]
pub enum Weighting {
    /// All alike.
    #[serde(rename = "flat")]
    Flat,
    /// By the A-weighting of IEC 61672-1.
    #[serde(rename = "a")]
    A,
}

/// What a balanced line leaves of the voltage between the grounds of its ends.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Rejection {
    /// So many decibels at every frequency.
    Decibels(f64),
    /// What its impedances make of it.
    Bridge(Bridge),
    /// So much re that voltage, by component of the mains in the order of the graph's.
    ByOrder(Vec<f64>),
}

/// Impedances of a balanced line, of the one leg and the other.
#[derive(Clone, Debug, PartialEq, Deserialize, Serialize)]
pub struct Bridge {
    /// Source resistances, Ω.
    pub source_r: [f64; 2],
    /// Resistances to the ground of the input, Ω.
    pub input_r: [f64; 2],
    /// Capacitances to the ground of the input, F.
    #[serde(default)]
    pub input_c: [f64; 2],
    /// Capacitance from the middle of a floating source to its ground, F; none
    /// where the source is grounded.
    #[serde(default)]
    pub floating_c: Option<f64>,
}

impl Rejection {
    /// Size of what is left re the voltage between the grounds, at a frequency in Hz,
    /// which has this place among the components of the graph.
    pub fn error(&self, frequency: f64, place: usize) -> f64 {
        match self {
            Self::Decibels(decibels) => ratio(-decibels),
            Self::Bridge(bridge) => bridge.line().at(frequency).error,
            Self::ByOrder(errors) => errors.get(place).copied().unwrap_or(1.0),
        }
    }
}

impl Bridge {
    fn line(&self) -> BalancedLine {
        let leg = |leg: usize, emf: f64| Leg {
            source: OnePort::resistor(self.source_r[leg]),
            input: OnePort::parallel_rc(self.input_r[leg], self.input_c[leg]),
            emf,
        };
        let floating = self.floating_c.map(OnePort::capacitor);
        BalancedLine { hot: leg(0, 0.5), cold: leg(1, -0.5), floating, own: None }
    }
}

impl Signal {
    /// The most hum that its input may have, if that is stated.
    pub fn limit(&self) -> Option<Limit> {
        let (Self::Unbalanced(limit) | Self::Balanced(_, limit)) = self;
        *limit
    }
}

impl Shield {
    /// Connected at both ends, with nothing that isolates it; none for data.
    pub fn of(signal: impl Into<Option<Signal>>) -> Self {
        Self {
            contact_r: 0.0,
            signal: signal.into(),
            field: None,
            ends: Ends::Both,
            isolator: None,
            phantom: false,
            capacitance: 0.0,
            circuit_r: None,
            pin_1_r: 0.0,
            open: None,
            arrival: Arrival::default(),
        }
    }

    /// The same with an isolator of a cost, and a capacitance across it, F.
    #[must_use]
    pub fn isolated_for(self, cost: f64, capacitance: f64) -> Self {
        Self { isolator: Some(Isolator { cost, capacitance }), ..self }
    }

    /// What it costs to isolate it; none where that cannot or may not be, or is so already.
    pub fn cost(&self) -> Option<f64> {
        let may = self.ends == Ends::Both && !self.phantom;
        self.isolator.filter(|_| may).map(|isolator| isolator.cost)
    }

    /// How it ends once it is isolated: a transformer for an unbalanced signal, the
    /// shield open at one end for a balanced one, a fibre for data.
    pub(super) fn isolated_ends(&self) -> Ends {
        match (self.cost(), &self.signal) {
            (None, _) => self.ends,
            (_, None) => Ends::Optical,
            (_, Some(Signal::Unbalanced(_))) => Ends::Transformer,
            (_, Some(Signal::Balanced(..))) => Ends::One,
        }
    }

    /// Across the transformer that it has or would have, F.
    pub(super) fn capacitance(&self) -> f64 {
        if self.ends == Ends::Transformer {
            return self.capacitance;
        }
        self.isolator.map_or(0.0, |isolator| isolator.capacitance)
    }
}
