//! The whole spectrum, and what of it is noise.

use super::blocks::{Blocks, NOISE_BINS, median, power_of_two};
use super::heard::QUIETEST;
use super::tones::WHINE;
use crate::Complex64;
use crate::quantity::level::decibels_of_power;

/// What is heard, Hz.
pub(super) const AUDIBLE: [f64; 2] = [20.0, 20_000.0];
/// Blocks of a long recording that are looked at, spread over it.
const MOST: usize = 64;
/// A live spectrum is of so many samples at most.
const LIVE: usize = 1 << 15;
/// A tone is steady where the mean of its level is no further below its mean power, as a
/// ratio: 1 dB. Of noise it is 2.5 dB.
const STEADY: f64 = 0.79;
/// Points of a spectrum to be drawn.
const POINTS: usize = 400;
/// Noise is exponentially distributed from bin to bin: what is so many times its mean is
/// none, which cuts its own mean to this share.
const NONE: f64 = 4.0;
const CUT: f64 = 0.9253;

/// The mean power of a recording from bin to bin, and the noise in it.
pub(super) struct Wide {
    /// Hz from bin to bin.
    pub(super) bin: f64,
    /// re a sine of full scale
    pub(super) power: Vec<f64>,
    /// What of it is noise.
    pub(super) noise: Vec<f64>,
    /// The mean of the logarithm (natural) of the power, up to where tones have to be steady.
    logs: Vec<f64>,
}

impl Wide {
    /// The spectrum of a recording.
    pub(super) fn of(samples: &[f32], rate: f64) -> Self {
        let long = power_of_two(rate * 0.5) * 2;
        let spectra = Blocks::new(power_of_two(samples.len() as f64).min(long));
        let length = spectra.length();
        let last = samples.len().saturating_sub(length);
        let count = (last / (length / 2) + 1).min(MOST);
        let cells = cells(length / 2);
        let bin = rate / length as f64;
        let low = ((WHINE / bin) as usize + 1).min(length / 2);
        let none = vec![0.0; length / 2];
        let mut wide = Self { bin, power: none.clone(), noise: none, logs: vec![0.0; low] };
        for block in 0..count {
            let from = last * block / (count - 1).max(1);
            let block = spectra.at(samples[from..].iter().map(|sample| f64::from(*sample)));
            let power: Vec<_> = block.iter().map(|x| x.norm_sqr() / count as f64).collect();
            for (sum, power) in wide.power.iter_mut().zip(&power) {
                *sum += power;
            }
            for (sum, power) in wide.logs.iter_mut().zip(&power) {
                *sum += (power * count as f64).max(f64::MIN_POSITIVE).ln() / count as f64;
            }
            // By block, since a line that drifts is narrow in each of them alone.
            for cell in &cells {
                let noise = noise(&power[cell.clone()]);
                for sum in &mut wide.noise[cell.clone()] {
                    *sum += noise;
                }
            }
        }
        wide
    }

    /// Whether a tone below 1 kHz holds on: the mean of its level is that of its power, or
    /// nearly so.
    pub(super) fn is_steady(&self, at: usize) -> bool {
        self.logs.get(at).is_none_or(|log| log.exp() > STEADY * self.power[at])
    }

    /// The power between 20 Hz and 20 kHz of the noise, of the noise A-weighted, and of all.
    pub(super) fn audible(&self, weight: impl Fn(f64) -> f64) -> [f64; 3] {
        let mut sums = [0.0; 3];
        for (bin, (noise, power)) in self.noise.iter().zip(&self.power).enumerate() {
            let hz = self.bin * bin as f64;
            if (AUDIBLE[0]..=AUDIBLE[1]).contains(&hz) {
                sums[0] += noise;
                sums[1] += noise * weight(hz);
                sums[2] += power;
            }
        }
        sums.map(|sum| sum / NOISE_BINS)
    }

    /// The highest of each part of a log axis, [Hz, dBFS].
    pub(super) fn drawn(&self) -> Vec<[f64; 2]> {
        drawn(&self.power, self.bin)
    }
}

/// The spectrum of the last of some samples, [Hz, dBFS], to be drawn while they come in:
/// some 400 points on a log axis from 20 Hz to 20 kHz, the highest of each part.
pub fn spectrum(samples: &[f32], rate: f64) -> Vec<[f64; 2]> {
    if !super::hear::is_rate(rate) || samples.is_empty() {
        return Vec::new();
    }
    let spectra = Blocks::new(samples.len().min(LIVE));
    let from = samples.len().saturating_sub(spectra.length());
    let block = spectra.at(samples[from..].iter().map(|sample| super::hear::clean(*sample).into()));
    let power: Vec<_> = block.iter().map(Complex64::norm_sqr).collect();
    drawn(&power, rate / spectra.length() as f64)
}

fn drawn(power: &[f64], bin: f64) -> Vec<[f64; 2]> {
    let top = AUDIBLE[1].min(bin * (power.len() - 1) as f64);
    let ratio = (top / AUDIBLE[0]).powf(1.0 / POINTS as f64);
    let edge = |i: usize| AUDIBLE[0] * ratio.powf(i as f64);
    let point = |i: usize| {
        // Where bins are wider than parts, the nearest one.
        let middle = (edge(i) * ratio.sqrt() / bin).round() as usize;
        let first = ((edge(i) / bin).ceil() as usize).min(middle);
        let last = ((edge(i + 1) / bin).ceil() as usize).max(middle + 1).min(power.len());
        let most = power.get(first..last)?.iter().copied().fold(0.0, f64::max);
        Some([edge(i) * ratio.sqrt(), level(most)])
    };
    (0..POINTS).filter_map(point).collect()
}

/// A power re a sine of full scale in dBFS, and no less than [`QUIETEST`].
pub(super) fn level(power: f64) -> f64 {
    let level = decibels_of_power(power);
    if level > QUIETEST { level } else { QUIETEST }
}

/// Cells of bins in which noise is taken to be even: an eighth of their frequency, and some
/// more than a line takes.
fn cells(bins: usize) -> Vec<std::ops::Range<usize>> {
    let mut cells = Vec::new();
    let mut from = 0;
    while from < bins {
        let wide = (from / 8).clamp(24, 128);
        // What would be left over goes with the last.
        let to = if bins - from < 2 * wide { bins } else { from + wide };
        cells.push(from..to);
        from = to;
    }
    cells
}

/// The mean of the noise in some bins, without the lines that are in it too.
fn noise(power: &[f64]) -> f64 {
    let mut mean = median(&mut power.to_vec()) / std::f64::consts::LN_2;
    for _ in 0..6 {
        let (mut sum, mut count) = (0.0, 0.0);
        for power in power.iter().filter(|power| **power <= NONE * mean) {
            sum += power;
            count += 1.0;
        }
        mean = sum / f64::max(count, 1.0) / CUT;
    }
    mean
}
