//! How a signal gets from one piece of equipment to another on another earth.

use super::transformer::WINDING_C;
use super::{ChoiceField, Field, Values, choice};
use crate::fault::Fault;
use crate::part::Connection;
use crate::quantity::Unit;
use crate::quantity::level::ratio;

choice! {
    /// How the signal gets across.
    pub(crate) enum ConnectionKind {
        /// The shield is the return of the signal.
        Unbalanced = "unbalanced",
        /// Two legs and a shield.
        Balanced = "balanced",
        /// A transformer without a screen between its windings.
        Isolated = "isolated",
        /// A transformer with one.
        Screened = "screened",
    }
}

/// How the signal gets across.
pub(crate) const CONNECTION: ChoiceField<ConnectionKind> =
    ConnectionKind::field("connection", ConnectionKind::Unbalanced).at("connection");
/// Rejection of a balanced input for what both legs share, dB.
pub(crate) const REJECTION: Field = Field::number("rejection", "a_cm", Unit::Decibel, 60.0, (40.0, 100.0))
    .limits(0.0, 200.0)
    .when(CONNECTION, &[ConnectionKind::Balanced.id()])
    .at("connection");
/// Resistance inside equipment that shield current shares with the signal's
/// ground, Ω: a pin-1 fault.
pub(crate) const PIN_1_R: Field =
    Field::blank("pin_1_r", "R_pin", Unit::Ohm, (1e-3, 1.0)).limits(0.0, 1e3).exact().detail().at("connection");
/// From winding to winding of a transformer without a screen, F.
pub(crate) const ISOLATED_C: Field =
    WINDING_C.usual(20e-12, 1e-9).when(CONNECTION, &[ConnectionKind::Isolated.id()]).at("connection");
/// From winding to winding of a transformer with a screen, F.
pub(crate) const SCREENED_C: Field = WINDING_C
    .named("screened_c", "C_ps")
    .starting(2e-12)
    .usual(0.5e-12, 20e-12)
    .when(CONNECTION, &[ConnectionKind::Screened.id()])
    .at("connection");
/// Of the signal circuit behind a transformer, Ω.
pub(crate) const CIRCUIT_R: Field = Field::number("circuit_r", "R_C", Unit::Ohm, 1e3, (50.0, 10e3))
    .limits(1e-3, 1e9)
    .when(CONNECTION, &[ConnectionKind::Isolated.id(), ConnectionKind::Screened.id()])
    .detail()
    .at("connection");

/// The connection of this kind, whichever is the present one.
pub(crate) fn connection(values: &Values, kind: ConnectionKind) -> Result<Connection, Fault> {
    let isolated = |capacitance| -> Result<_, Fault> {
        Ok(Connection::Isolated { capacitance, circuit_r: values.number(CIRCUIT_R)? })
    };
    match kind {
        ConnectionKind::Unbalanced => Ok(Connection::Unbalanced),
        ConnectionKind::Balanced => {
            Ok(Connection::Balanced { error: ratio(-values.number(REJECTION)?), pin_1_r: pin_1_r(values)? })
        }
        ConnectionKind::Isolated => isolated(values.number(ISOLATED_C)?),
        ConnectionKind::Screened => isolated(values.number(SCREENED_C)?),
    }
}

/// The resistance of a pin-1 fault, Ω; nothing of it where there is none.
pub(crate) fn pin_1_r(values: &Values) -> Result<f64, Fault> {
    Ok(values.optional(PIN_1_R)?.unwrap_or(0.0))
}
