//! One element of a chain.

use super::ladder::Port;
use super::lanes::Omegas;
use super::line::Line;
use super::one_port::OnePort;
use super::two_port::TwoPort;
use serde::Serialize;

/// One element of a chain of two-ports.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Element {
    /// An impedance in series with the signal.
    Series(OnePort),
    /// An impedance across the signal.
    Shunt(OnePort),
    /// An ideal transformer, ratio:1 step-down. The ratio is never zero.
    Transformer(f64),
    /// An exact uniform line.
    Line(Line),
    /// A unilateral buffer with this voltage gain, never zero. Its input and
    /// output impedances are elements of their own.
    Buffer(f64),
    /// A side branch: a thru output with a chain and a load of its own.
    Branch(Vec<Section>, OnePort),
}

/// An element of a chain with the key of its name in the message catalogue.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Section {
    /// Key of the name, such as `part-lead`.
    pub name: &'static str,
    /// The element.
    pub element: Element,
}

impl Element {
    /// The chain matrix at a frequency in Hz.
    pub fn two_port(&self, frequency: f64) -> TwoPort {
        match self {
            Self::Series(z) => TwoPort::series(z.impedance(frequency)),
            Self::Shunt(y) => TwoPort::shunt(y.admittance(frequency)),
            Self::Transformer(ratio) => TwoPort::transformer(*ratio),
            Self::Line(line) => line.two_port(frequency),
            Self::Buffer(gain) => TwoPort::buffer(*gain),
            Self::Branch(chain, load) => {
                let at = Omegas::<1>::new(&[frequency]);
                let front = Port::looking_on(chain, load, &at);
                TwoPort::shunt(front.i.get(0) / front.v.get(0))
            }
        }
    }

    /// Whether the element contains no source of power.
    pub fn is_passive(&self) -> bool {
        match self {
            Self::Buffer(_) => false,
            Self::Branch(chain, _) => chain.iter().all(|part| part.element.is_passive()),
            _ => true,
        }
    }
}
