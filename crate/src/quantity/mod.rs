//! What a person writes ⇄ a number in SI units.
//!
//! [`read`] takes text such as `140k`, `4k7`, `470 pF`, `15 ft` or `-10 dBV`
//! for a field of a known [`Unit`]; [`write()`] prints a number back in
//! engineering form. `read(write(x))` gives x within the printed digits.

mod decimal;
mod read;
mod unit;
mod write;

pub(crate) use decimal::decimal;
pub(crate) use read::is_long;
pub use read::{LONGEST, Reject, Written, read, read_number};
pub(crate) use unit::METRES_PER_FOOT;
pub use unit::{Scale, Unit, VOLTS_AT_0_DBU};
pub(crate) use write::write_complex;
pub use write::{write, write_entry, write_number, write_within};
