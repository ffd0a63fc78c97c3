//! How far parts may be off what they are marked with.
//!
//! ```
//! use stageohm::catalogue::tolerance::MARKED;
//!
//! // A J on a part is 5 % (IEC 60062).
//! assert!(MARKED.contains(&(5.0, 'J')));
//! ```

use crate::quantity::Unit;

/// The kind of part that a number field stands for.
///
/// Its name is the message `part-kind-<id>`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartKind {
    /// A resistor, or the resistance of an input or an output.
    Resistor,
    /// The track of a volume or tone control.
    Track,
    /// A capacitor, or the capacitance of an input or a winding.
    Capacitor,
    /// A coil or a winding: its inductance and resistance.
    Winding,
    /// What a metre of a lead has.
    Lead,
    /// A length.
    Length,
    /// A turns ratio.
    Turns,
}

/// Tolerances that are marked on parts, in percent, with their code letters
/// (IEC 60062).
pub const MARKED: &[(f64, char)] = &[(1.0, 'F'), (2.0, 'G'), (5.0, 'J'), (10.0, 'K'), (20.0, 'M')];

impl PartKind {
    /// Every kind.
    pub const ALL: [Self; 7] =
        [Self::Resistor, Self::Track, Self::Capacitor, Self::Winding, Self::Lead, Self::Length, Self::Turns];

    /// Identifier.
    pub fn id(self) -> &'static str {
        match self {
            Self::Resistor => "resistor",
            Self::Track => "track",
            Self::Capacitor => "capacitor",
            Self::Winding => "winding",
            Self::Lead => "lead",
            Self::Length => "length",
            Self::Turns => "turns",
        }
    }

    /// The usual tolerance, in percent (common practice, no source; the steps
    /// are those that E24, E12 and E6 stand for in IEC 60063).
    pub fn usual(self) -> f64 {
        match self {
            Self::Resistor => 5.0,
            Self::Track => 20.0,
            Self::Capacitor | Self::Winding | Self::Lead => 10.0,
            Self::Length => 2.0,
            Self::Turns => 1.0,
        }
    }

    /// The kind of part that a number of this unit most often stands for;
    /// nothing for levels, frequencies, limits and turns of a control.
    pub const fn of(unit: Unit) -> Option<Self> {
        match unit {
            Unit::Ohm => Some(Self::Resistor),
            Unit::Farad => Some(Self::Capacitor),
            Unit::Henry => Some(Self::Winding),
            Unit::OhmPerMetre | Unit::HenryPerMetre | Unit::FaradPerMetre => Some(Self::Lead),
            Unit::Metre => Some(Self::Length),
            Unit::Ratio => Some(Self::Turns),
            _ => None,
        }
    }
}
