//! What an engineer reads off a response: resonance and corners.

use super::sweep::log_sweep;
use crate::numeric::bracketed_root;
use crate::quantity::level::{HALF_POWER, decibels_of_power};
use std::ops::RangeInclusive;

/// Where features are looked for, Hz, and in how many steps. 120 a decade
/// bracket every extremum of a lumped chain of the trade and of the lines in it.
const SEARCHED: RangeInclusive<f64> = 0.01..=1e7;
const STEPS: usize = 9 * 120 + 1;
/// The midband reference of every feature unless a calculator says otherwise, Hz.
pub const MIDBAND: f64 = 1000.0;

/// Something with a power transfer at every frequency.
pub trait Response {
    /// |H|² at a frequency in Hz.
    fn power(&self, frequency: f64) -> f64;

    /// |H|² at each of `frequencies`.
    fn powers(&self, frequencies: &[f64], powers: &mut [f64]) {
        for (frequency, power) in frequencies.iter().zip(powers) {
            *power = self.power(*frequency);
        }
    }

    /// 10·log10 |H|², dB.
    fn level(&self, frequency: f64) -> f64 {
        decibels_of_power(self.power(frequency))
    }
}

impl<F: Fn(f64) -> f64> Response for F {
    fn power(&self, frequency: f64) -> f64 {
        self(frequency)
    }
}

/// A local maximum of a response.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// Hz.
    pub frequency: f64,
    /// Level re the open-circuit e.m.f., dB.
    pub level: f64,
    /// Level re the reference, dB.
    pub height: f64,
}

/// What was found on a response.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Features {
    /// The level at the reference frequency re the open-circuit e.m.f., dB.
    pub reference: f64,
    /// The highest interior local maximum above the reference level.
    pub peak: Option<Peak>,
    /// The first −3 dB crossing below the reference frequency, Hz.
    pub low_corner: Option<f64>,
    /// The first −3 dB crossing above the reference frequency, Hz.
    pub high_corner: Option<f64>,
}

/// Finds resonance and corners of `response` re its level at `reference` Hz.
///
/// A log grid from 0.01 Hz to 10 MHz brackets every extremum and crossing;
/// each is then refined on the continuous function to 1e-9 of its frequency; a
/// peak with a Q of many hundreds, as only parts without losses make it, or one
/// beside the ripple of a long line at radio frequencies, to a thousandth.
pub fn features(response: &dyn Response, reference: f64) -> Features {
    let mut grid = log_sweep(&SEARCHED, STEPS);
    let middle = grid.partition_point(|f| *f < reference);
    if grid.get(middle) != Some(&reference) {
        grid.insert(middle, reference);
    }
    let mut powers = vec![0.0; grid.len()];
    response.powers(&grid, &mut powers);
    let reference_power = powers[middle];
    let reference_level = decibels_of_power(reference_power);
    let corner_power = reference_power / 2.0;
    let corner = |bracket: (f64, f64)| {
        let offset = |x: f64| response.level(x.exp()) - reference_level + HALF_POWER;
        bracketed_root(offset, bracket.0.ln(), bracket.1.ln(), 1e-11).map(f64::exp)
    };
    let below = (0..middle).rev().find(|i| powers[*i] <= corner_power);
    let above = (middle + 1..grid.len()).find(|i| powers[*i] <= corner_power);
    let peak = (1..grid.len() - 1)
        .filter(|i| powers[*i] > powers[i - 1] && powers[*i] >= powers[i + 1])
        .filter_map(|i| extremum(response, grid[i - 1], grid[i + 1]))
        .map(|frequency| {
            let level = response.level(frequency);
            Peak { frequency, level, height: level - reference_level }
        })
        // A maximum of rounding noise on a flat response is none.
        .filter(|peak| is_maximum(response, peak))
        .max_by(|a, b| a.level.total_cmp(&b.level));
    Features {
        reference: reference_level,
        peak,
        low_corner: below.and_then(|i| corner((grid[i], grid[i + 1]))),
        high_corner: above.and_then(|i| corner((grid[i - 1], grid[i]))),
    }
}

/// The slope of ln |H|² over ln f at a frequency in Hz, by the five-point
/// formula (Abramowitz and Stegun, table 25.2): its error is of fourth order in
/// the step, so that its root is the extremum to about 1e-10.
pub fn slope(response: &dyn Response, frequency: f64) -> f64 {
    const H: f64 = 1e-3;
    let at = |step: f64| response.power(frequency * step.exp()).ln();
    (8.0 * (at(H) - at(-H)) - (at(2.0 * H) - at(-2.0 * H))) / (12.0 * H)
}

/// The extremum between two frequencies, as the root of the slope.
fn extremum(response: &dyn Response, from: f64, to: f64) -> Option<f64> {
    bracketed_root(|x| slope(response, x.exp()), from.ln(), to.ln(), 1e-11).map(f64::exp)
}

fn is_maximum(response: &dyn Response, peak: &Peak) -> bool {
    const AWAY: f64 = 1.02;
    let fall = |f: f64| peak.level - response.level(f);
    fall(peak.frequency * AWAY) > 1e-9 && fall(peak.frequency / AWAY) > 1e-9
}
