//! What hums, from its sound: the mains and their harmonics, whine, bursts and noise.
//!
//! A [`Recording`] is read from the bytes of a file, or samples come from an input; [`hear`]
//! says what is in them, and [`agreement`] how well the lines of the mains that are heard
//! agree with those that a cause would bring. It shifts odds: from a spectrum alone no
//! cause is proven.
//!
//! Accuracy: the mains to 0.01 Hz in five seconds, the level of a line to 0.2 dB where it
//! lies 30 dB over the noise in its bandwidth, also while the mains drift by 0.2 Hz.
//!
//! The mains are found by all harmonics together, along a frequency that may drift
//! (`mains.rs`); samples are taken again, so many to a period (`warp.rs`), so that each
//! harmonic lies on a bin of the spectrum of a block and no level depends on where between
//! bins it falls (`lines.rs`).

mod agreement;
mod blocks;
mod character;
mod family;
mod file;
mod flaw;
mod hear;
mod heard;
mod lines;
mod mains;
mod recording;
mod template;
mod tones;
mod warp;
mod wide;

pub use agreement::agreement;
pub use family::{Family, FamilyLikelihood};
pub use file::{HeardFile, LONGEST, hear_file};
pub use hear::hear;
pub use heard::{Heard, HeardBursts, HeardLine, HeardMains, HeardTone, QUIETEST, Through};
pub use recording::{Recording, Unreadable};
pub use wide::spectrum;
