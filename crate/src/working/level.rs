//! Levels as steps of the working.

use super::Working;
use crate::fault::Fault;
use crate::quantity::{Unit, VOLTS_AT_0_DBU};

impl Working {
    /// The level of a voltage that is the formula `volts`, dBu. Leaves `U_0`, the
    /// voltage of 0 dBu, in the scope.
    ///
    /// # Errors
    /// As [`Working::step`].
    pub fn dbu(&mut self, id: &str, symbol: &str, volts: &str) -> Result<f64, Fault> {
        self.given("U_0", VOLTS_AT_0_DBU, Unit::Volt);
        self.step(id, symbol, &format!("20*log10({volts}/U_0)"), Unit::DecibelU)
    }
}
