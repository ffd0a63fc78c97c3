//! What an unbalanced lead takes up from the mains around it.

use super::{Field, Values};
use crate::fault::Fault;
use crate::part::Stray;
use crate::quantity::Unit;

/// Flux density of the mains' field along a lead, T (order of magnitude of a stage,
/// common practice, no source).
pub(crate) const STRAY_DENSITY: Field = Field::number("stray_density", "B_S", Unit::Tesla, 0.3e-6, (0.01e-6, 10e-6))
    .limits(0.0, 0.1)
    .bare(1e-6)
    .detail()
    .at("earth");
/// Open area between core and shield, a metre of lead, m²/m (order of magnitude,
/// common practice, no source).
pub(crate) const STRAY_WIDTH: Field = Field::number("stray_width", "w_S", Unit::Metre, 0.1e-3, (0.01e-3, 1e-3))
    .limits(0.0, 1.0)
    .exact()
    .bare(1e-3)
    .detail()
    .at("earth");
/// Capacitance of a metre of the core through its shield, F/m (a braid that covers
/// well; order of magnitude, common practice, no source).
pub(crate) const STRAY_C: Field = Field::number("stray_c", "C′_S", Unit::FaradPerMetre, 1e-15, (0.1e-15, 100e-15))
    .limits(0.0, 1e-9)
    .exact()
    .bare(1e-15)
    .detail()
    .at("earth");
/// Voltage of the mains leads around, V.
pub(crate) const STRAY_VOLTS: Field =
    Field::number("stray_volts", "U_M", Unit::Volt, 230.0, (100.0, 240.0)).limits(0.0, 500.0).detail().at("earth");

/// What surrounds an unbalanced lead.
pub(crate) const STRAYS: [Field; 4] = [STRAY_DENSITY, STRAY_WIDTH, STRAY_C, STRAY_VOLTS];

/// What surrounds an unbalanced lead.
pub(crate) fn stray(values: &Values) -> Result<Stray, Fault> {
    Ok(Stray {
        density: values.number(STRAY_DENSITY)?,
        width: values.number(STRAY_WIDTH)?,
        capacitance: values.number(STRAY_C)?,
        volts: values.number(STRAY_VOLTS)?,
    })
}
