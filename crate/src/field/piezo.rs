//! A piezo element.

use super::Field;
use super::source::{SOURCE, SourceKind};
use crate::catalogue::typical;
use crate::quantity::Unit;

/// Its capacitance, F.
pub(crate) const PIEZO_C: Field = Field::number("piezo_c", "C_P", Unit::Farad, 1e-9, (0.3e-9, 5e-9))
    .limits(1e-12, 1e-3)
    .bare(1e-9)
    .marks(typical::PIEZO_C)
    .when(SOURCE, &[SourceKind::Piezo.id()])
    .at("source");
