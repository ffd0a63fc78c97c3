//! A dynamic microphone.

use super::Field;
use super::source::{SOURCE, SourceKind};
use crate::catalogue::typical::{MICROPHONE_LEVEL, MICROPHONE_R as IMPEDANCES};
use crate::quantity::Unit;

const THERE: &[&str] = &[SourceKind::Microphone.id()];

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
