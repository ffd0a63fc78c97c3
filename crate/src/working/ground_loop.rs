//! A loop of earths, written down: the formulas of what
//! [`GroundLoop`](crate::part::GroundLoop) computes. Nothing is computed from
//! them: they explain it, and `crate/tests/working.rs` sees that they agree.

use super::Working;
use crate::fault::Fault;
use crate::part::{Cause, Connection};
use crate::quantity::Unit;

/// What stands in the formulas of a loop for its parts.
pub(crate) struct LoopSymbols<'a> {
    /// A voltage between two earths.
    pub volts: &'a str,
    /// The resistance of the path of the earth.
    pub earth_r: &'a str,
    /// The impedance through which a supply leaks.
    pub leakage_z: &'a str,
    /// The angular frequency.
    pub omega: &'a str,
}

impl Working {
    /// Gives the numbers of a cause their names, and writes down the capacitance
    /// of a leakage, which has `leakage_volts` behind it; `omega` is that of the
    /// mains.
    pub(crate) fn cause(&mut self, cause: &Cause, leakage_volts: f64, symbols: &LoopSymbols) -> Result<(), Fault> {
        match *cause {
            Cause::Difference { volts, earth_r } => {
                self.given(symbols.volts, volts, Unit::Volt);
                self.given(symbols.earth_r, earth_r, Unit::Ohm);
            }
            Cause::Field { density, area, earth_r } => {
                self.given("B", density, Unit::Tesla);
                self.given("A", area, Unit::SquareMetre);
                self.given(symbols.earth_r, earth_r, Unit::Ohm);
            }
            Cause::Leakage { amperes, other_r, .. } => {
                self.given("I_L", amperes, Unit::Ampere);
                self.given("E_L", leakage_volts, Unit::Volt);
                self.given("G_O", other_r.map_or(0.0, |r| 1.0 / r), Unit::Siemens);
                self.step("leakage_c", "C_L", &format!("I_L/({}*E_L)", symbols.omega), Unit::Farad)?;
            }
        }
        Ok(())
    }
}

/// The impedance through which a supply leaks.
pub(crate) fn leakage_z(omega: &str) -> String {
    format!("1/(G_O + j*{omega}*C_L)")
}

/// The e.m.f. in a loop, and the impedance of all of it with `across` in it.
pub(crate) fn driven(cause: &Cause, across: &str, symbols: &LoopSymbols) -> [String; 2] {
    let LoopSymbols { volts, earth_r, leakage_z, omega } = symbols;
    let (emf, z) = match cause {
        Cause::Difference { .. } => ((*volts).to_owned(), earth_r),
        Cause::Field { .. } => (format!("{omega}*B*A"), earth_r),
        Cause::Leakage { .. } => (format!("I_L*{leakage_z}"), leakage_z),
    };
    [emf, format!("{z} + j*{omega}*L + {across}")]
}

/// What closes a loop over a connection, and the voltage in series with the signal
/// for each ampere; `shield` and `error` are formulas too.
pub(crate) fn closed(connection: &Connection, shield: &str, error: &str, omega: &str) -> [String; 2] {
    match connection {
        Connection::Unbalanced => [shield.to_owned(), shield.to_owned()],
        Connection::Balanced { .. } => [format!("{shield} + R_pin"), format!("(({shield} + R_pin)*{error} + R_pin)")],
        Connection::Isolated { .. } => [format!("R_C + 1/(j*{omega}*C_ps)"), "R_C".to_owned()],
    }
}
