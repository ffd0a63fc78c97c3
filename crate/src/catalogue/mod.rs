//! Typical values of the trade: data with range and source.
//!
//! Generic classes only. Where no published source is named, the value is
//! common practice.

mod e_series;
pub mod phantom;
pub mod tolerance;
pub mod typical;

pub use e_series::Series;
