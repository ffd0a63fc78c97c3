//! Numbers and functions without a meaning: roots, summits, heights between
//! samples, and many draws of one thing with what share of them lies where.
//!
//! ```
//! use stageohm::numeric::{Draws, Samples};
//!
//! let mut draws = Draws::new(1);
//! let mut samples = Samples::new(1, 1000);
//! for _ in 0..1000 {
//!     samples.push(&[draws.between(95.0, 105.0)]);
//! }
//! // Evenly spread over 10 Ω: 5 % of the draws lie within the lowest half ohm.
//! let [([low, middle, high], share)] = samples.quantiles([0.05, 0.5, 0.95])[..] else { panic!() };
//! assert!((low - 95.5).abs() < 0.3 && (middle - 100.0).abs() < 0.5 && (high - 104.5).abs() < 0.3);
//! assert_eq!(share, 1.0);
//! ```

mod draws;
mod highest;
mod interpolate;
mod root;
mod samples;
mod shares;
mod transform;

pub use draws::Draws;
pub use highest::highest;
pub use interpolate::interpolate;
pub use root::bracketed_root;
pub use samples::{Extremes, Samples};
pub use shares::shares;
pub(crate) use transform::Transform;
