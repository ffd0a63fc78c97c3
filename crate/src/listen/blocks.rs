//! The spectra of overlapping blocks of samples.

use crate::Complex64;
use crate::numeric::Transform;
use std::f64::consts::TAU;

/// How many bins of noise go into one, with the window used here: the sum of its squares re
/// the square of its sum, 35/18.
pub(super) const NOISE_BINS: f64 = 35.0 / 18.0;
/// A line is nothing but rounding from so many bins on where it lies on a bin, and 47 dB
/// down and falling by 30 dB an octave where it lies between.
pub(super) const LINE_BINS: usize = 3;

/// Spectra of blocks, under the window cos⁴: steep enough for lines 100 dB apart, sixteen
/// bins away, and narrow enough for lines a few bins apart (Nuttall, IEEE Trans. ASSP 29,
/// 1981).
#[derive(Debug)]
pub(super) struct Blocks {
    transform: Transform,
    window: Vec<f64>,
}

impl Blocks {
    /// Of the greatest power of two up to so many samples.
    pub(super) fn new(length: usize) -> Self {
        let transform = Transform::new(length);
        let length = transform.length();
        // The sum of the window is 3/8 of its length, and a sine has half of its size on
        // either side of zero: a sine of full scale shows as 1.
        let scale = 2.0 / (0.375 * length as f64);
        let window =
            (0..length).map(|i| scale * (0.5 - 0.5 * (TAU * i as f64 / length as f64).cos()).powi(2)).collect();
        Self { transform, window }
    }

    /// Samples in a block.
    pub(super) fn length(&self) -> usize {
        self.window.len()
    }

    /// The spectrum of the block that begins here; what is missing counts as silence. Its
    /// size at a bin is that of the sine there, re full scale.
    pub(super) fn at(&self, samples: impl IntoIterator<Item = f64>) -> Vec<Complex64> {
        self.transform.of(samples.into_iter().zip(&self.window).map(|(sample, window)| sample * window))
    }
}

/// The greatest power of two up to a number of samples that is no less than 1.
pub(super) fn power_of_two(samples: f64) -> usize {
    1 << (samples.clamp(1.0, 1e9) as usize).ilog2()
}

/// The value that half of the others lie below.
pub(super) fn median(values: &mut [f64]) -> f64 {
    let middle = values.len() / 2;
    if values.is_empty() { 0.0 } else { *values.select_nth_unstable_by(middle, f64::total_cmp).1 }
}
