//! Typical values of the trade: data with range and source.
//!
//! Generic classes only. Where no published source is named, the value is
//! common practice.

mod e_series;
mod mark;
pub mod phantom;
pub mod tolerance;
pub mod typical;

pub use e_series::Series;
pub use mark::Mark;
