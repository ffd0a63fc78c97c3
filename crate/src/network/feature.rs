//! What an engineer reads off a response: resonance and corners.

use super::sweep::{AUDIO_BAND, log_sweep};
use crate::numeric::bracketed_root;
use crate::quantity::level::{HALF_POWER, decibels_of_power};
use std::ops::RangeInclusive;
use std::sync::LazyLock;

/// Where features are looked for, Hz, and in how many steps. 120 a decade
/// bracket every extremum of a lumped chain of the trade and of the lines in it.
const SEARCHED: RangeInclusive<f64> = 0.01..=1e7;
const STEPS: usize = 9 * 120 + 1;
/// The middle of the audio band, at which levels are told, Hz.
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

/// A peak that stands less than this over the plateau is none, dB (common
/// practice, no source: nobody hears it as a resonance).
const STANDS_OUT: f64 = 0.3;
/// How far a peak may rise between two places of the grid, dB: half a step, which is
/// 0.96 %, beside a resonance with a Q of 50,000. Ripples of a line at radio frequencies
/// that lie further down are not refined.
const BETWEEN: f64 = 60.0;
/// What is flat, dB an octave, over an octave around.
const FLAT: f64 = 0.1;
/// Steps of the grid in half an octave.
const HALF_OCTAVE: usize = 18;

/// A local maximum of a response.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// Hz.
    pub frequency: f64,
    /// Level re the open-circuit e.m.f., dB.
    pub level: f64,
    /// Level re that at [`MIDBAND`], dB.
    pub height: f64,
}

/// What was found on a response.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Features {
    /// The level at [`MIDBAND`] re the open-circuit e.m.f., dB.
    pub midband: f64,
    /// The level of the plateau re the open-circuit e.m.f., dB: the highest of the
    /// places that are flat over an octave, at an end too; where none is, the
    /// flattest of all. Peaks and corners are relative to it.
    pub plateau: f64,
    /// The highest interior local maximum that stands 0.3 dB or more over the plateau.
    pub peak: Option<Peak>,
    /// The first −3 dB crossing below the plateau, Hz.
    pub low_corner: Option<f64>,
    /// The first −3 dB crossing above the plateau, Hz.
    pub high_corner: Option<f64>,
}

/// How much more than `reference` a response loses at a frequency in Hz, each re its own
/// level where the response has its [`level_place`], Hz, dB; below zero it gains. What both
/// lose alike is level, and no tone.
pub fn lost(reference: &dyn Response, response: &dyn Response, place: f64, frequency: f64) -> f64 {
    let tone = |response: &dyn Response| response.level(frequency) - response.level(place);
    tone(reference) - tone(response)
}

/// Where in the audio band a response has its plateau, Hz: the highest of the places that
/// are flat over an octave; where none is, the flattest of all.
pub fn level_place(response: &dyn Response) -> f64 {
    // Three decades of 40 steps, of which 6 are half an octave.
    static GRID: LazyLock<Vec<f64>> = LazyLock::new(|| log_sweep(&AUDIO_BAND, 121));
    let levels = levels(response, &GRID);
    plateau(response, &GRID, &levels, 6).1
}

fn levels(response: &dyn Response, grid: &[f64]) -> Vec<f64> {
    let mut levels = vec![0.0; grid.len()];
    response.powers(grid, &mut levels);
    for power in &mut levels {
        *power = decibels_of_power(*power);
    }
    levels
}

/// Finds plateau, resonance and corners of `response`.
///
/// A log grid from 0.01 Hz to 10 MHz brackets every extremum and crossing;
/// each is then refined on the continuous function to 1e-9 of its frequency; a
/// peak with a Q of many hundreds, as only parts without losses make it, or one
/// beside the ripple of a long line at radio frequencies, to a thousandth.
pub fn features(response: &dyn Response) -> Features {
    static GRID: LazyLock<Vec<f64>> = LazyLock::new(|| log_sweep(&SEARCHED, STEPS));
    let grid = &GRID;
    let levels = levels(response, grid);
    let midband = response.level(MIDBAND);
    let (middle, place) = plateau(response, grid, &levels, HALF_OCTAVE);
    let plateau = response.level(place);
    let corner_level = plateau - HALF_POWER;
    let corner = |bracket: (f64, f64)| {
        let offset = |x: f64| response.level(x.exp()) - corner_level;
        bracketed_root(offset, bracket.0.ln(), bracket.1.ln(), 1e-11).map(f64::exp)
    };
    let below = (0..middle).rev().find(|i| levels[*i] <= corner_level);
    let above = (middle + 1..grid.len()).find(|i| levels[*i] <= corner_level);
    let peak = (1..grid.len() - 1)
        .filter(|i| levels[*i] > levels[i - 1] && levels[*i] >= levels[i + 1])
        .filter(|i| levels[*i] + BETWEEN >= plateau + STANDS_OUT)
        .filter_map(|i| extremum(response, grid[i - 1], grid[i + 1]))
        .map(|frequency| {
            let level = response.level(frequency);
            Peak { frequency, level, height: level - midband }
        })
        .filter(|peak| peak.level >= plateau + STANDS_OUT)
        .max_by(|a, b| a.level.total_cmp(&b.level));
    Features {
        midband,
        plateau,
        peak,
        low_corner: below.and_then(|i| corner((grid[i], grid[i + 1]))),
        high_corner: above.and_then(|i| corner((grid[i - 1], grid[i]))),
    }
}

/// Where on the grid the plateau is, and its frequency, Hz. Half an octave are so many
/// steps of the grid.
fn plateau(response: &dyn Response, grid: &[f64], levels: &[f64], half_octave: usize) -> (usize, f64) {
    let last = grid.len() - 1;
    let rise = |i: usize| levels[i + 1] - levels[i];
    // The steepest step within half an octave to either side, dB an octave.
    let steepness = |i: usize| {
        let around = i.saturating_sub(half_octave)..(i + half_octave).min(last);
        around.map(|k| rise(k).abs()).fold(0.0, f64::max) * (2 * half_octave) as f64
    };
    // Where a response turns, or rises or falls least.
    let is_flattest = |i: &usize| {
        let (before, after) = (rise(i - 1), rise(*i));
        let turns = before * after <= 0.0;
        turns || (after.abs() <= before.abs() && *i + 1 < last && after.abs() <= rise(i + 1).abs())
    };
    let places = [0, last].into_iter().chain((1..last).filter(is_flattest));
    let places = places.filter(|i| levels[*i].is_finite()).map(|i| (i, steepness(i)));
    let better = |best: (usize, f64), place: (usize, f64)| {
        let flat = |steepness: f64| steepness < FLAT;
        match (flat(best.1), flat(place.1)) {
            (true, true) if levels[place.0] > levels[best.0] => place,
            (false, false) if place.1 < best.1 => place,
            (false, true) => place,
            _ => best,
        }
    };
    let Some((place, _)) = places.reduce(better) else { return (0, grid[0]) };
    let refined = (place > 0 && place < last).then(|| flattest(response, grid[place - 1], grid[place + 1])).flatten();
    (place, refined.unwrap_or(grid[place]))
}

/// Where a response turns between two frequencies, else where its slope does.
fn flattest(response: &dyn Response, from: f64, to: f64) -> Option<f64> {
    let bend = |x: f64| slope(response, (x + H).exp()) - slope(response, (x - H).exp());
    extremum(response, from, to).or_else(|| bracketed_root(bend, from.ln(), to.ln(), 1e-9).map(f64::exp))
}

/// The step of the formulas for slopes, in ln f.
const H: f64 = 1e-3;

/// The slope of ln |H|² over ln f at a frequency in Hz, by the five-point
/// formula (Abramowitz and Stegun, table 25.2): its error is of fourth order in
/// the step, so that its root is the extremum to about 1e-10.
pub fn slope(response: &dyn Response, frequency: f64) -> f64 {
    let at = |step: f64| response.power(frequency * step.exp()).ln();
    (8.0 * (at(H) - at(-H)) - (at(2.0 * H) - at(-2.0 * H))) / (12.0 * H)
}

/// The extremum between two frequencies, as the root of the slope.
fn extremum(response: &dyn Response, from: f64, to: f64) -> Option<f64> {
    bracketed_root(|x| slope(response, x.exp()), from.ln(), to.ln(), 1e-11).map(f64::exp)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn near(what: &str, got: f64, expected: f64, relative: f64) {
        assert!((got - expected).abs() <= relative * expected.abs(), "{what}: {got} is not {expected}");
    }

    /// The half-power corners of first-order high and low passes far apart are their own,
    /// and between them nothing stands out (any circuit-theory text).
    #[test]
    fn corners_of_a_band() {
        for (low, high) in [(0.5, 4e6), (3.0, 50e3), (0.05, 7e3)] {
            let band = |f: f64| 0.25 / ((1.0 + (low / f).powi(2)) * (1.0 + (f / high).powi(2)));
            let found = features(&band);
            // Each takes off what is left of it at the corner of the other.
            let apart = 20.0 * low / high;
            near("low", found.low_corner.unwrap(), low, apart);
            near("high", found.high_corner.unwrap(), high, apart);
            near("plateau", found.plateau, 10.0 * 0.25_f64.log10(), apart);
            near("midband", found.midband, 10.0 * band(1e3).log10(), 1e-12);
            assert_eq!(found.peak, None);
        }
    }

    /// Of the two flat places of a shelf the higher is the plateau, at whichever end.
    #[test]
    fn plateau_of_a_shelf() {
        for (down, up) in [(100.0, 1000.0), (1000.0, 100.0)] {
            let shelf = |f: f64| (1.0 + (f / up).powi(2)) / (1.0 + (f / down).powi(2));
            let most = f64::max(0.0, 20.0 * f64::log10(down / up));
            assert!((features(&shelf).plateau - most).abs() < 1e-6);
        }
    }

    /// A second-order low pass of quality Q peaks at f_0·√(1 − 1/(2Q²)) by a factor of
    /// Q/√(1 − 1/(4Q²)) (any text on filters).
    #[test]
    fn peak_of_a_resonance() {
        for (f_0, q) in [(3e3, 5.0), (4700.0, 1.2), (90.0, 20.0)] {
            let low_pass = |f: f64| {
                let x = (f / f_0).powi(2);
                1.0 / ((1.0 - x).powi(2) + x / (q * q))
            };
            let found = features(&low_pass);
            let peak = found.peak.unwrap();
            let level = 20.0 * f64::log10(q / (1.0 - 1.0 / (4.0 * q * q)).sqrt());
            near("frequency", peak.frequency, f_0 * (1.0 - 1.0 / (2.0 * q * q)).sqrt(), 1e-8);
            near("level", peak.level, level, 1e-9);
            near("height", peak.height, level - 10.0 * low_pass(1e3).log10(), 1e-9);
            assert!(found.plateau.abs() < 1e-6 && found.low_corner.is_none());
            // Where x² − (2 − 1/Q²)·x − 1 = 0, with x = (f/f_0)².
            let b = 2.0 - 1.0 / (q * q);
            let corner = f_0 * ((b + (b * b + 4.0).sqrt()) / 2.0).sqrt();
            near("corner", found.high_corner.unwrap(), corner, 1e-8);
        }
    }

    /// A power that goes as f to the n has the slope n, and what loses like another, but
    /// for its level, loses no tone beside it.
    #[test]
    fn slopes_and_what_is_lost() {
        for n in [-4.0, -2.0, 0.5, 2.0] {
            near("slope", slope(&|f: f64| f.powf(n), 440.0), n, 1e-9);
        }
        let flat = |_: f64| 1.0;
        let quieter = |_: f64| 0.01;
        let darker = |f: f64| 0.01 / (1.0 + (f / 5e3).powi(2));
        assert!(lost(&flat, &quieter, 100.0, 5e3).abs() < 1e-9);
        near("lost", lost(&flat, &darker, 0.01, 5e3), 10.0 * 2_f64.log10(), 1e-9);
        near("gained", lost(&darker, &flat, 0.01, 5e3), -10.0 * 2_f64.log10(), 1e-9);
        assert!(level_place(&darker) < 200.0);
        assert!(level_place(&|f: f64| 1.0 / (1.0 + (5e3 / f).powi(2))) > 15e3);
    }
}
