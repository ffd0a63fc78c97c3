//! What a source is loaded with.

use super::Field;
use crate::catalogue::typical::LOAD_RESISTANCE;
use crate::quantity::Unit;

/// Resistance of the load, Ω.
pub(crate) const LOAD_R: Field =
    Field::number("load_r", "R_L", Unit::Ohm, 10e3, (100.0, 10e6)).limits(1e-3, 1e12).marks(LOAD_RESISTANCE).at("load");
/// Capacitance of the load, F.
pub(crate) const LOAD_C: Field =
    Field::number("load_c", "C_L", Unit::Farad, 0.0, (0.0, 10e-9)).limits(0.0, 1e-3).bare(1e-12).detail().at("load");
