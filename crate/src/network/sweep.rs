//! Frequencies for a sweep.

use std::ops::RangeInclusive;

/// The band in which audio equipment is described, Hz.
pub const AUDIO_BAND: RangeInclusive<f64> = 20.0..=20_000.0;

/// `count` frequencies in Hz, evenly spaced on a log scale, both ends included.
/// Ends that are not positive or `count` below 2 give an empty sweep.
pub fn log_sweep(band: &RangeInclusive<f64>, count: usize) -> Vec<f64> {
    let (from, to) = (*band.start(), *band.end());
    if count < 2 || !(from > 0.0 && to > 0.0 && from.is_finite() && to.is_finite()) {
        return Vec::new();
    }
    let step = (to / from).ln() / (count - 1) as f64;
    (0..count).map(|i| if i + 1 == count { to } else { from * (step * i as f64).exp() }).collect()
}

/// As [`log_sweep`], with the given frequencies put in their places.
pub fn log_sweep_with(band: &RangeInclusive<f64>, count: usize, extra: &[f64]) -> Vec<f64> {
    let mut sweep = log_sweep(band, count);
    sweep.extend(extra.iter().copied().filter(|f| band.contains(f)));
    sweep.sort_by(f64::total_cmp);
    sweep.dedup();
    sweep
}
