//! What a balanced receiver shows each leg.

use super::{Field, Values};
use crate::catalogue::typical::COMMON_MODE_R;
use crate::fault::Fault;
use crate::part::Receiver;
use crate::quantity::Unit;
use crate::words::Arg;

/// Resistance from a leg to earth, Ω.
pub(crate) const INPUT_R: Field =
    Field::number("input_r", "R_I", Unit::Ohm, 10e3, (5e3, 20e6)).limits(1.0, 1e12).marks(COMMON_MODE_R).at("receiver");
/// Difference between the two re their mean.
pub(crate) const INPUT_SPREAD: Field =
    Field::number("input_spread", "δ_I", Unit::Percent, 0.01, (0.0, 0.1)).limits(0.0, 1.0).detail().at("receiver");
/// Capacitance from a leg to earth, F.
pub(crate) const LEG_C: Field = Field::number("leg_c", "C_I", Unit::Farad, 1e-9, (100e-12, 10e-9))
    .limits(0.0, 1e-3)
    .bare(1e-12)
    .detail()
    .at("receiver");
/// Difference between the two, F.
pub(crate) const C_IMBALANCE: Field = Field::number("c_imbalance", "ΔC", Unit::Farad, 20e-12, (0.0, 200e-12))
    .limits(0.0, 1e-3)
    .exact()
    .bare(1e-12)
    .detail()
    .at("receiver");

/// An electronic receiver.
pub(crate) fn electronic(values: &Values) -> Result<Receiver, Fault> {
    receiver(values, values.number(INPUT_R)?, values.number(INPUT_SPREAD)?, 0.0)
}

/// A receiver of this resistance, Ω, and spread, with the capacitances of the
/// fields and `c` more from each leg, F.
pub(crate) fn receiver(values: &Values, r: f64, spread: f64, c: f64) -> Result<Receiver, Fault> {
    let (c, c_imbalance) = (values.number(LEG_C)? + c, values.number(C_IMBALANCE)?);
    if c_imbalance > 2.0 * c {
        return Err(C_IMBALANCE.fault("fault-c-imbalance").with("most", Arg::AtMost(2.0 * c, Unit::Farad)));
    }
    Ok(Receiver { r, spread, c, c_imbalance, own: None })
}
