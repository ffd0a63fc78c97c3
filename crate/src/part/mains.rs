//! What comes with the mains: a frequency and its harmonics.

use crate::quantity::level::power_ratio;

/// One component of something that the mains drives.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Component {
    /// 1 for the mains frequency itself, else the order of the harmonic.
    pub order: u32,
    /// Frequency, Hz.
    pub frequency: f64,
    /// Size re the component at the mains frequency.
    pub share: f64,
}

/// Mains and harmonics, in rising order.
#[derive(Clone, Debug, PartialEq)]
pub struct Spectrum(pub Vec<Component>);

impl Spectrum {
    /// The mains frequency, Hz.
    pub fn mains(&self) -> f64 {
        self.0.first().map_or(f64::NAN, |part| part.frequency)
    }

    /// The sum of components of different frequencies, which add as powers.
    /// `size` is what a component of the size of that at the mains frequency
    /// comes to, `weighting` a weighting in dB, both by frequency in Hz.
    pub fn sum(&self, size: impl Fn(f64) -> f64, weighting: impl Fn(f64) -> f64) -> f64 {
        let power =
            |part: &Component| (part.share * size(part.frequency)).powi(2) * power_ratio(weighting(part.frequency));
        self.0.iter().map(power).sum::<f64>().sqrt()
    }
}
