//! Odds, tests and cures, whatever they are about.

mod case;
mod choose;
mod odds;
mod repairs;

pub use case::{Case, Cause, Test};
pub use choose::{Gain, ahead, expected_bits, gains, least_minutes, outcomes};
pub use odds::{Odds, bits};
pub use repairs::{Repair, repair_minutes, repairs};
