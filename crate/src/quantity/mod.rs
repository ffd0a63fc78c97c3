//! What a person writes ⇄ a number in SI units.
//!
//! [`read`] takes text such as `140k`, `4k7`, `470 pF`, `15 ft` or `-10 dBV`
//! for a field of a known [`Unit`]; [`write()`] prints a number back in
//! engineering form. `read(write(x))` gives x within the printed digits.
//!
//! ```
//! use stageohm::quantity::{Unit, read, write};
//! use stageohm::settings::Settings;
//!
//! let settings = Settings::default();
//! assert_eq!(read("4k7", Unit::Ohm, 1.0, &settings).unwrap().value, 4700.0);
//! assert_eq!(read("470 pF", Unit::Farad, 1e-12, &settings).unwrap().value, 470e-12);
//! assert_eq!(write(0.0047, Unit::Volt, 4, &settings), "4.7\u{a0}mV");
//! ```

mod decimal;
pub mod level;
mod read;
mod unit;
mod write;

pub(crate) use decimal::decimal;
pub(crate) use read::is_long;
pub use read::{LONGEST, Reject, Written, read, read_number};
pub(crate) use unit::METRES_PER_FOOT;
pub use unit::{Printing, Scale, Unit, VOLTS_AT_0_DBU};
pub use write::{EXACT, FINE, SHOWN, write, write_entry, write_number, write_within};
pub(crate) use write::{PRINTED, shows_zero, write_complex};
