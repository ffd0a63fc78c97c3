//! A microphone.

use super::phantom::{CURRENT, LEAST};
use super::source::{SOURCE, SourceKind};
use super::{ChoiceField, Field, Values, choice};
use crate::catalogue::typical::{MICROPHONE_LEVEL, MICROPHONE_R as IMPEDANCES};
use crate::quantity::Unit;

choice! {
    /// How a microphone works, and with it what phantom does to it.
    pub(crate) enum MicrophoneKind {
        /// A moving coil: phantom makes no difference.
        Dynamic = "dynamic",
        /// A condenser with an amplifier in it: it needs phantom.
        Condenser = "condenser",
        /// A ribbon: phantom can ruin it where the line is at fault.
        Ribbon = "ribbon",
    }
}

impl MicrophoneKind {
    /// Whether it does not work without phantom.
    pub(crate) fn needs_phantom(self) -> bool {
        match self {
            Self::Condenser => true,
            Self::Dynamic | Self::Ribbon => false,
        }
    }

    /// Whether phantom may harm it.
    pub(crate) fn suffers(self) -> bool {
        match self {
            Self::Ribbon => true,
            Self::Dynamic | Self::Condenser => false,
        }
    }
}

const THERE: &[&str] = &[SourceKind::Microphone.id()];

/// How it works.
pub(crate) const MICROPHONE_KIND: ChoiceField<MicrophoneKind> =
    MicrophoneKind::field("microphone", MicrophoneKind::Dynamic).when(SOURCE, THERE).at("source");
/// Its open-circuit level, V.
pub(crate) const MICROPHONE_EMF: Field = Field::number("microphone_emf", "E", Unit::Volt, 2e-3, (0.1e-3, 0.1))
    .limits(1e-9, 1e3)
    .marks(MICROPHONE_LEVEL)
    .when(SOURCE, THERE)
    .at("source");
/// Its rated impedance, Ω.
pub(crate) const MICROPHONE_R: Field = Field::number("microphone_r", "R_M", Unit::Ohm, 200.0, (150.0, 600.0))
    .limits(0.0, 1e6)
    .marks(IMPEDANCES)
    .when(SOURCE, THERE)
    .at("source");
/// What a condenser microphone takes from phantom, A.
pub(crate) const MICROPHONE_CURRENT: Field = CURRENT
    .named("microphone_current", "I_M")
    .when(MICROPHONE_KIND, &[MicrophoneKind::Condenser.id()])
    .detail()
    .at("source");
/// The least voltage that a condenser microphone works at, V.
pub(crate) const MICROPHONE_LEAST: Field = LEAST
    .named("microphone_least", "U_Mm")
    .when(MICROPHONE_KIND, &[MicrophoneKind::Condenser.id()])
    .detail()
    .at("source");

impl Values {
    /// What stands in the field of a limit. What phantom feeds is the box, or the microphone
    /// where that is a condenser, with a least voltage of its own.
    pub(crate) fn limit(&self, id: &str) -> Option<f64> {
        let is_of_microphone = id == LEAST.id
            && self.choice(SOURCE).is_ok_and(|source| source == SourceKind::Microphone)
            && self.choice(MICROPHONE_KIND).is_ok_and(MicrophoneKind::needs_phantom);
        self.stands_in(if is_of_microphone { MICROPHONE_LEAST.id } else { id })
    }
}
