//! Samples taken again, so many a period of the mains however they drift.

use std::f64::consts::PI;

/// Samples a period of the mains: lines are told apart up to harmonic 82, where the filter
/// begins to take.
pub(super) const A_PERIOD: usize = 256;
/// The filter between samples reaches so many zeros of its sine cardinal to either side.
const ZEROS: usize = 8;
/// Places of the table of the filter from zero to zero. Straight between them the filter
/// is off by (π/256)²/8, which is 95 dB down.
const STEPS: usize = 256;
/// Shape of the window of Kaiser (1974) on the filter: 90 dB.
const SHAPE: f64 = 9.0;

/// The mains frequency over time: straight between times, level beyond its ends.
#[derive(Clone, Debug)]
pub(super) struct Track {
    /// s
    pub(super) times: Vec<f64>,
    /// Hz
    pub(super) hz: Vec<f64>,
}

impl Track {
    /// One that does not drift.
    pub(super) fn steady(hz: f64) -> Self {
        Self { times: vec![0.0], hz: vec![hz] }
    }

    /// By how much it wanders about its middle, Hz.
    pub(super) fn wander(&self) -> f64 {
        let (least, most) = self.hz.iter().fold((f64::MAX, f64::MIN), |(a, b), hz| (a.min(*hz), b.max(*hz)));
        if most > least { (most - least) / 2.0 } else { 0.0 }
    }

    /// The frequency at a time that lies no earlier than the last that was asked for.
    fn at(&self, seconds: f64, place: &mut usize) -> f64 {
        while self.times.get(*place).is_some_and(|time| *time < seconds) {
            *place += 1;
        }
        match (place.checked_sub(1), self.hz.get(*place)) {
            (Some(before), Some(after)) => {
                let share = (seconds - self.times[before]) / (self.times[*place] - self.times[before]);
                self.hz[before] + share * (after - self.hz[before])
            }
            (None, Some(first)) => *first,
            (_, None) => self.hz.last().copied().unwrap_or(50.0),
        }
    }
}

/// Samples, [`A_PERIOD`] in each period of the mains.
#[derive(Debug)]
pub(super) struct Warped {
    pub(super) samples: Vec<f64>,
    /// When the first of each eighth of a period was taken, s.
    times: Vec<f64>,
}

/// How many samples lie between the times that are kept.
const KEPT: usize = A_PERIOD / 8;

impl Warped {
    /// Samples of a recording, taken along a track.
    pub(super) fn along(track: &Track, samples: &[f32], rate: f64) -> Self {
        let filter = Filter::new(rate, track);
        let (mut place, mut at) = (0, 0.0);
        let mut warped = Self { samples: Vec::new(), times: Vec::new() };
        let end = samples.len() as f64 / rate;
        while at < end {
            if warped.samples.len().is_multiple_of(KEPT) {
                warped.times.push(at);
            }
            warped.samples.push(filter.at(samples, at * rate));
            // No step is nothing: a track lies far above zero.
            at += 1.0 / (track.at(at, &mut place).max(1.0) * A_PERIOD as f64);
        }
        warped
    }

    /// When this sample was taken, s.
    pub(super) fn time(&self, sample: usize) -> f64 {
        self.times.get(sample / KEPT).copied().unwrap_or(0.0)
    }
}

/// What lies between samples.
pub(super) struct Filter {
    /// Half of it, from its middle on.
    table: Vec<f64>,
    /// Zeros of the sine cardinal a sample.
    zeros: f64,
    rate: f64,
}

impl Filter {
    /// Lets through what is below half of either rate.
    pub(super) fn new(rate: f64, track: &Track) -> Self {
        let slowest = track.hz.iter().copied().fold(f64::MAX, f64::min) * A_PERIOD as f64;
        let zeros = (slowest / rate).min(1.0);
        let top = bessel(SHAPE);
        let place = |i: usize| {
            let x = i as f64 / STEPS as f64;
            let sine = if i == 0 { 1.0 } else { (PI * x).sin() / (PI * x) };
            let share = x / ZEROS as f64;
            zeros * sine * bessel(SHAPE * (1.0 - share * share).max(0.0).sqrt()) / top
        };
        Self { table: (0..=ZEROS * STEPS + 1).map(place).collect(), zeros, rate }
    }

    /// What is left of a frequency, as a ratio: the transform of the filter.
    pub(super) fn left(&self, hz: f64) -> f64 {
        // As many places as the sum needs to be one.
        const COARSE: usize = STEPS / 16;
        let step = COARSE as f64 / (STEPS as f64 * self.zeros);
        let turn = |i: usize| (2.0 * PI * hz / self.rate * step * i as f64).cos();
        let sum: f64 = self.table.iter().step_by(COARSE).enumerate().skip(1).map(|(i, height)| height * turn(i)).sum();
        (self.table[0] + 2.0 * sum) * step
    }

    /// The sample at a place between samples. What lies beyond the ends is silence.
    fn at(&self, samples: &[f32], place: f64) -> f64 {
        let reach = ZEROS as f64 / self.zeros;
        let first = (place - reach).ceil().max(0.0) as usize;
        let last = ((place + reach).floor() as usize + 1).min(samples.len());
        let scale = self.zeros * STEPS as f64;
        let mut sum = 0.0;
        for (i, sample) in samples.iter().enumerate().take(last).skip(first) {
            let x = (place - i as f64).abs() * scale;
            let at = x as usize;
            if let [a, b] = self.table[at.min(self.table.len() - 2)..][..2] {
                sum += f64::from(*sample) * (a + (b - a) * (x - at as f64));
            }
        }
        sum
    }
}

/// The modified Bessel function of the first kind and order zero, by its series.
fn bessel(x: f64) -> f64 {
    let (mut sum, mut term, mut k) = (1.0, 1.0, 1.0);
    while term > 1e-12 * sum {
        term *= (x / (2.0 * k)).powi(2);
        sum += term;
        k += 1.0;
    }
    sum
}
