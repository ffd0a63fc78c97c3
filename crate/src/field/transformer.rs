//! A real transformer.

use super::direct_box::{BOX, BoxKind};
use super::{Field, Values};
use crate::catalogue::tolerance::PartKind;
use crate::catalogue::typical;
use crate::fault::Fault;
use crate::part::Transformer;
use crate::quantity::Unit;

/// Turns ratio, primary to secondary.
pub(crate) const RATIO: Field = Field::number("ratio", "n", Unit::Ratio, 12.0, (0.1, 20.0))
    .limits(1e-3, 1e3)
    .marks(typical::TURNS)
    .at("transformer");
/// Resistance of the primary winding, Ω.
pub(crate) const R1: Field = Field::number("r1", "R_1", Unit::Ohm, 2e3, (1.0, 10e3))
    .limits(0.0, 1e7)
    .part(PartKind::Winding)
    .detail()
    .at("transformer");
/// Resistance of the secondary winding, Ω.
pub(crate) const R2: Field = Field::number("r2", "R_2", Unit::Ohm, 15.0, (1.0, 1e3))
    .limits(0.0, 1e7)
    .part(PartKind::Winding)
    .detail()
    .at("transformer");
/// Magnetising inductance, H; empty for an ideal core.
pub(crate) const MAGNETISING: Field = Field::number("magnetising", "L_m", Unit::Henry, 400.0, (1.0, 1000.0))
    .limits(1e-3, 1e6)
    .optional()
    .at("transformer");
/// Core-loss resistance parallel to it, Ω.
pub(crate) const CORE_LOSS: Field = Field::number("core_loss", "R_c", Unit::Ohm, 1e6, (10e3, 10e6))
    .limits(1.0, 1e12)
    .part(PartKind::Winding)
    .optional()
    .detail()
    .at("transformer");
/// Leakage inductance referred to the primary, H.
pub(crate) const LEAKAGE: Field = Field::number("leakage", "L_k", Unit::Henry, 60e-3, (1e-3, 1.0))
    .limits(0.0, 1e3)
    .bare(1e-3)
    .detail()
    .at("transformer");
/// Capacitance across the primary, F.
pub(crate) const C1: Field = Field::number("c1", "C_1", Unit::Farad, 150e-12, (0.0, 2e-9))
    .limits(0.0, 1e-6)
    .bare(1e-12)
    .detail()
    .at("transformer");
/// Capacitance across the secondary, F.
pub(crate) const C2: Field =
    Field::number("c2", "C_2", Unit::Farad, 0.0, (0.0, 2e-9)).limits(0.0, 1e-6).bare(1e-12).detail().at("transformer");

/// All of a transformer but what saturates it.
pub(crate) const TRANSFORMER: [Field; 8] = [RATIO, R1, R2, MAGNETISING, CORE_LOSS, LEAKAGE, C1, C2];

/// The largest level on the primary at 20 Hz, dBu.
pub(crate) const LARGEST: Field =
    Field::number("largest", "U_20", Unit::DecibelU, 20.0, (0.0, 30.0)).limits(-60.0, 80.0).at("transformer");
/// The lowest frequency at which the level of a line counts, Hz.
pub(crate) const LOWEST: Field = Field::number("lowest", "f_low", Unit::Hertz, 40.0, (20.0, 200.0))
    .limits(1.0, 1e4)
    .when(BOX, &[BoxKind::Passive.id()])
    .detail()
    .at("transformer");
/// From winding to winding, F.
pub(crate) const WINDING_C: Field = Field::number("winding_c", "C_ps", Unit::Farad, 100e-12, (2e-12, 1e-9))
    .limits(1e-16, 1e-6)
    .bare(1e-12)
    .marks(typical::WINDING_C)
    .at("transformer");

/// The transformer.
pub(crate) fn transformer(values: &Values) -> Result<Transformer, Fault> {
    Ok(Transformer {
        ratio: values.number(RATIO)?,
        r1: values.number(R1)?,
        r2: values.number(R2)?,
        leakage: values.number(LEAKAGE)?,
        magnetising: values.optional(MAGNETISING)?,
        core_loss: values.optional(CORE_LOSS)?,
        c1: values.number(C1)?,
        c2: values.number(C2)?,
    })
}
