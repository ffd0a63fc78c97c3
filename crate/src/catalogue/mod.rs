//! Typical values of the trade: data with range and source.
//!
//! Generic classes only. Where no published source is named, the value is
//! common practice.
//!
//! ```
//! use stageohm::catalogue::Series;
//!
//! assert_eq!(Series::E24.nearest(311.7), 300.0);
//! assert_eq!(Series::E96.nearest(311.7), 309.0);
//! ```

mod difference;
mod e_series;
mod mark;
pub mod phantom;
pub mod tolerance;
pub mod typical;

pub use difference::UNHEARD;
pub use e_series::Series;
pub use mark::Mark;
