//! What drives a line: its kind, its level and its impedance.

use super::loudspeaker::{SPEAKER_EMF, loudspeaker};
use super::microphone::{MICROPHONE_EMF, MICROPHONE_R};
use super::pickup::pickup;
use super::piezo::PIEZO_C;
use super::{ChoiceField, Field, Values, choice};
use crate::catalogue::typical::{SOURCE_LEVEL, SOURCE_RESISTANCE};
use crate::fault::Fault;
use crate::network::{Element, OnePort, Path};
use crate::quantity::Unit;

choice! {
    /// What drives a line.
    pub(crate) enum SourceKind {
        /// A passive magnetic pickup with its controls.
        Pickup = "pickup",
        /// A piezo element.
        Piezo = "piezo",
        /// An unbalanced output.
        Output = "output",
        /// A balanced output.
        Balanced = "balanced",
        /// A microphone.
        Microphone = "microphone",
        /// The loudspeaker terminals of an amplifier.
        Loudspeaker = "loudspeaker",
    }
}

/// What drives a line.
pub(crate) const SOURCE: ChoiceField<SourceKind> = SourceKind::field("source", SourceKind::Pickup).at("source");
/// The source's own voltage, nothing connected, V.
pub(crate) const EMF: Field =
    Field::number("emf", "E", Unit::Volt, 0.2, (10e-3, 2.0)).limits(1e-9, 1e3).marks(SOURCE_LEVEL).at("source");
/// Source resistance, Ω.
pub(crate) const SOURCE_R: Field = Field::number("source_r", "R_S", Unit::Ohm, 150.0, (10.0, 100e3))
    .limits(0.0, 1e9)
    .marks(SOURCE_RESISTANCE)
    .at("source");
/// Inductance in series with it, H.
pub(crate) const SOURCE_L: Field =
    Field::number("source_l", "L_S", Unit::Henry, 0.0, (0.0, 10.0)).limits(0.0, 1e3).detail().at("source");
/// Coupling capacitor in series with it, F.
pub(crate) const COUPLING_C: Field =
    Field::blank("coupling_c", "C_K", Unit::Farad, (1e-7, 1e-4)).limits(1e-12, 1.0).bare(1e-6).detail().at("source");
/// Capacitance across the source's terminals, F.
pub(crate) const SOURCE_C: Field = Field::number("source_c", "C_S", Unit::Farad, 0.0, (0.0, 10e-9))
    .limits(0.0, 1e-3)
    .bare(1e-12)
    .detail()
    .at("source");

impl SourceKind {
    /// Whether it is balanced by itself.
    pub(crate) fn is_balanced(self) -> bool {
        match self {
            Self::Balanced | Self::Microphone => true,
            Self::Pickup | Self::Piezo | Self::Output | Self::Loudspeaker => false,
        }
    }

    /// Whether the mains may feed it.
    pub(crate) fn has_supply(self) -> bool {
        match self {
            Self::Output | Self::Balanced | Self::Loudspeaker => true,
            Self::Pickup | Self::Piezo | Self::Microphone => false,
        }
    }

    /// Whether it may have a coupling capacitor.
    fn has_coupling(self) -> bool {
        match self {
            Self::Output | Self::Balanced => true,
            Self::Pickup | Self::Piezo | Self::Microphone | Self::Loudspeaker => false,
        }
    }

    /// Whether its impedance is a resistance, beside which a load may be too low
    /// whatever the frequency; what a coil or a crystal loses is a matter of tone.
    pub(crate) fn is_resistive(self) -> bool {
        match self {
            Self::Output | Self::Balanced | Self::Microphone | Self::Loudspeaker => true,
            Self::Pickup | Self::Piezo => false,
        }
    }
}

/// The least load that its maker allows, Ω; nothing where none is stated.
pub(crate) const SMALLEST_LOAD: Field =
    Field::blank("smallest_load", "R_min", Unit::Ohm, (100.0, 50e3)).limits(1.0, 1e12).detail().at("source");
/// An output's coupling capacitor, F; nothing where there is none.
pub(crate) const OUTPUT_C: Field = COUPLING_C.named("output_c", "C_O");

/// The open-circuit level of the source, V.
pub(crate) fn emf(values: &Values) -> Result<f64, Fault> {
    match values.choice(SOURCE)? {
        SourceKind::Microphone => values.number(MICROPHONE_EMF),
        SourceKind::Loudspeaker => values.number(SPEAKER_EMF),
        SourceKind::Pickup | SourceKind::Piezo | SourceKind::Output | SourceKind::Balanced => values.number(EMF),
    }
}

/// The source up to its own terminals.
pub(crate) fn source(values: &Values) -> Result<Path, Fault> {
    let alone = |source| Path::new(source, OnePort::OPEN);
    Ok(match values.choice(SOURCE)? {
        SourceKind::Pickup => pickup(values)?.path(OnePort::OPEN),
        SourceKind::Piezo => alone(OnePort::capacitor(values.number(PIEZO_C)?)),
        SourceKind::Microphone => alone(OnePort::resistor(values.number(MICROPHONE_R)?)),
        SourceKind::Loudspeaker => loudspeaker(values)?,
        SourceKind::Output | SourceKind::Balanced => alone(OnePort::resistor(values.number(SOURCE_R)?)),
    })
}

/// The same with the coupling capacitor of an output, where it has one.
pub(crate) fn coupled(values: &Values, source: Path) -> Result<Path, Fault> {
    let coupling = if values.choice(SOURCE)?.has_coupling() { values.optional(OUTPUT_C)? } else { None };
    Ok(match coupling {
        Some(c) => source.with("part-coupling", Element::Series(OnePort::capacitor(c))),
        None => source,
    })
}
