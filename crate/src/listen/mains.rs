//! The frequency of the mains over time, from all its harmonics together.

use super::blocks::{Blocks, LINE_BINS, median, power_of_two};
use super::heard::HeardMains;
use super::lines::Measured;
use super::warp::{A_PERIOD, Track, Warped};
use crate::Complex64;

/// Where the mains are looked for, Hz: public supplies, and generators that are set badly.
const RANGE: [f64; 2] = [45.0, 65.0];
/// Steps of the search, Hz.
const STEP: f64 = 0.025;
/// Harmonics that the search looks at: higher ones would blur where the mains drift.
const ORDERS: usize = 20;
/// Samples a second in which the mains are looked for: their harmonics end below 4 kHz.
pub(super) const RATE: f64 = 50.0 * A_PERIOD as f64;
/// What mains would have to gain from one block to the next to be another step away.
const DRIFTING: f64 = 1.0;
/// So often the search starts again without what it found, where that was no mains.
const ROUNDS: usize = 5;
/// How much further off the bound of a frequency's deviation this is, which gives little
/// weight to the ends of a recording; seen on sounds of known frequency.
const LOST: f64 = 2.0;
/// Blocks overlap: so many are one that is independent of the others.
const ALONE: f64 = 0.45;
/// How far the clock of a recorder may be off (judgement).
const CLOCK: f64 = 5e-5;
/// What public supplies are set to, Hz.
const NOMINAL: [f64; 2] = [50.0, 60.0];
/// So far from that lies what has only even lines, Hz: else it may as well be a note.
const NEARLY: f64 = 2.5;
/// A public supply is no further off, Hz. Beyond lies a generator, if as many lines as these
/// vary by less than this from block to block, dB. All judgement.
const PUBLIC: f64 = 1.0;
const MANY: usize = 4;
const STEADY: f64 = 2.0;
/// And what has one line alone, or what is heard beside a telephone, whose bursts repeat
/// every 120 ms: no public supply is further off.
pub(super) const NEAR: f64 = 0.6;

/// The spectra in which the mains are looked for.
pub(super) struct Search {
    /// The recording, at [`RATE`].
    samples: Vec<f32>,
    /// Hz from bin to bin.
    bin: f64,
    /// How much each bin of a block stands out from the noise there: a logarithm, which lets
    /// many lines count more than a single strong one.
    blocks: Vec<Vec<f64>>,
    /// The middle of each block, s.
    times: Vec<f64>,
    /// The mean power of all blocks, re a sine of full scale.
    pub(super) mean: Vec<f64>,
}

/// The mains that were found.
pub(super) struct Found {
    pub(super) track: Track,
    pub(super) measured: Measured,
    pub(super) mains: HeardMains,
}

impl Search {
    /// The spectra of a recording.
    pub(super) fn of(samples: &[f32], rate: f64) -> Self {
        let even = Warped::along(&Track::steady(50.0), samples, rate);
        let spectra = Blocks::new(power_of_two(even.samples.len() as f64 / 1.5).min(64 * A_PERIOD));
        let length = spectra.length();
        let mut search = Self {
            samples: even.samples.iter().map(|sample| *sample as f32).collect(),
            bin: RATE / length as f64,
            blocks: Vec::new(),
            times: Vec::new(),
            mean: vec![0.0; length / 2],
        };
        let cell = (50.0 / search.bin) as usize;
        for from in (0..=even.samples.len().saturating_sub(length)).step_by(length / 4) {
            let block = spectra.at(even.samples[from..].iter().copied());
            let mut power: Vec<_> = block.iter().map(Complex64::norm_sqr).collect();
            for (mean, power) in search.mean.iter_mut().zip(&power) {
                *mean += power;
            }
            power.truncate((RANGE[1] * ORDERS as f64 / search.bin) as usize + 2);
            for cell in power.chunks_mut(cell.max(8)) {
                let noise = median(&mut cell.to_vec()).max(f64::MIN_POSITIVE);
                for power in cell {
                    *power = (1.0 + *power / noise / 4.0).ln();
                }
            }
            search.blocks.push(power);
            search.times.push(even.time(from + length / 2));
        }
        let count = search.blocks.len().max(1) as f64;
        for mean in &mut search.mean {
            *mean /= count;
        }
        search
    }

    /// Hz from bin to bin of the mean power.
    pub(super) fn bin(&self) -> f64 {
        self.bin
    }

    /// The mains, if they are heard, no further from where public supplies are than this, Hz.
    pub(super) fn mains(&mut self, rate: f64, off: f64) -> Option<Found> {
        for _ in 0..ROUNDS {
            let found = refined(&self.samples, rate, self.track(), off < f64::MAX)?;
            let lines: Vec<_> = found.measured.standing().collect();
            if lines.is_empty() {
                return None;
            }
            if is_mains(found.mains.hz, &lines, off) && (is_public(found.mains.hz) || is_generator(&found, &lines)) {
                return Some(found);
            }
            self.without(found.mains.hz, &lines);
        }
        None
    }

    /// The way through all blocks on which most harmonics stand out, at no more than a step
    /// from block to block: dynamic programming (Viterbi).
    fn track(&self) -> Track {
        let count = ((RANGE[1] - RANGE[0]) / STEP) as usize + 1;
        let hz = |place: usize| RANGE[0] + STEP * place as f64;
        let mut best = vec![0.0_f64; count];
        let mut from: Vec<Vec<usize>> = Vec::new();
        for block in &self.blocks {
            let reach = |place: usize| {
                let near = place.saturating_sub(1)..(place + 2).min(count);
                let worth = |other: usize| best[other] - if other == place { 0.0 } else { DRIFTING };
                near.fold(place, |most, other| if worth(other) > worth(most) { other } else { most })
            };
            let came: Vec<_> = (0..count).map(reach).collect();
            let next = |place: usize| {
                let drifted = if came[place] == place { 0.0 } else { DRIFTING };
                best[came[place]] - drifted + self.score(block, hz(place))
            };
            best = (0..count).map(next).collect();
            from.push(came);
        }
        let last = (0..count).fold(0, |most, place| if best[place] > best[most] { place } else { most });
        let mut way = vec![last; self.blocks.len()];
        for block in (1..way.len()).rev() {
            way[block - 1] = from[block][way[block]];
        }
        let steps: Vec<_> = way.into_iter().map(hz).collect();
        let smooth = smoothed(&steps, &vec![1.0; steps.len()]);
        if smooth.is_empty() { Track::steady(NOMINAL[0]) } else { Track { times: self.times.clone(), hz: smooth } }
    }

    /// How well a block fits mains of a frequency.
    fn score(&self, block: &[f64], hz: f64) -> f64 {
        let line = |n: usize| {
            let at = hz * n as f64 / self.bin;
            let [below, above] = [at as usize, at as usize + 1].map(|at| block.get(at).copied().unwrap_or(0.0));
            below + at.fract() * (above - below)
        };
        (1..=ORDERS).map(line).sum()
    }

    /// Takes multiples of a frequency out that are none of the mains.
    pub(super) fn without(&mut self, hz: f64, lines: &[u32]) {
        for n in lines {
            let at = (hz * f64::from(*n) / self.bin).round() as usize;
            for block in &mut self.blocks {
                let all = block.len();
                block[at.saturating_sub(LINE_BINS + 1).min(all)..(at + LINE_BINS + 2).min(all)].fill(0.0);
            }
        }
    }
}

/// Whether lines are those of mains: they have no greater divisor, else they are harmonics
/// of something higher. Ripple has even lines alone.
fn is_mains(hz: f64, lines: &[u32], most: f64) -> bool {
    let off = NOMINAL.into_iter().map(|nominal| (hz - nominal).abs()).fold(f64::MAX, f64::min);
    if off > most {
        return false;
    }
    let divisor = lines.iter().fold(0, |a, b| greatest_divisor(a, *b));
    match lines {
        [only] => *only <= 3 && off < NEAR,
        [first, ..] => *first <= 9 && (divisor == 1 || divisor == 2 && off < NEARLY),
        [] => false,
    }
}

/// Whether mains of this frequency may come from a public supply.
pub(super) fn is_public(hz: f64) -> bool {
    NOMINAL.into_iter().any(|nominal| (hz - nominal).abs() <= PUBLIC)
}

/// Whether lines may be those of a generator: steady, and many; else they are those of notes.
fn is_generator(found: &Found, lines: &[u32]) -> bool {
    lines.len() >= MANY && found.measured.unsteady() < STEADY
}

fn greatest_divisor(a: u32, b: u32) -> u32 {
    if b == 0 { a } else { greatest_divisor(b, a % b) }
}

/// Neighbours with a weight each, the nearer the more.
fn smoothed(values: &[f64], weights: &[f64]) -> Vec<f64> {
    const REACH: usize = 4;
    let near = |i: usize| i.saturating_sub(REACH)..(i + REACH + 1).min(values.len());
    let at = |i: usize| {
        let (sum, all) = near(i).fold((0.0, 0.0), |(sum, all), j| {
            let weight = (REACH + 1 - i.abs_diff(j)) as f64 * weights[j];
            (sum + weight * values[j], all + weight)
        });
        if all > 0.0 { sum / all } else { values[i] }
    };
    (0..values.len()).map(at).collect()
}

/// The track as the phases of the lines have it, and what is measured along it in samples at
/// [`RATE`] of a recording of another rate.
fn refined(samples: &[f32], rate: f64, mut track: Track, crowded: bool) -> Option<Found> {
    for last in [false, false, true] {
        let warped = Warped::along(&track, samples, RATE);
        let measured = Measured::of(&warped, &track, rate, crowded)?;
        let ahead = measured.ahead();
        let hop = measured.hop() as f64;
        let times = &measured.times;
        if last {
            let mains = mean(&measured, &ahead, samples.len() as f64 / RATE);
            return Some(Found { track, measured, mains });
        }
        // Where nothing is heard the track goes straight on.
        let heard: Vec<_> = measured.heard_in.windows(2).map(|pair| pair == [true, true]).collect();
        let places: Vec<_> = (0..ahead.len()).filter(|at| heard[*at]).collect();
        if places.len() > 1 {
            let turns: Vec<_> = ahead.iter().map(|(turn, _)| *turn).collect();
            let weights: Vec<_> =
                ahead.iter().zip(&heard).map(|((_, weight), heard)| if *heard { *weight } else { 0.0 }).collect();
            let turns = smoothed(&turns, &weights);
            let middle = |at: &usize| (times[*at] + times[at + 1]) / 2.0;
            let hz = |at: &usize| (hop + turns[*at]) / (times[at + 1] - times[*at]);
            track = Track {
                times: places.iter().map(middle).collect(),
                hz: places.iter().map(|at| hz(at).clamp(RANGE[0] - 1.0, RANGE[1] + 1.0)).collect(),
            };
        }
    }
    None
}

/// The mean frequency: the slope of the phase, by least squares, the same in all stretches
/// in which lines are heard. How far that may be off follows from the bound of Cramér and Rao
/// for harmonics in noise, or from how phases scatter where that is more.
fn mean(measured: &Measured, ahead: &[(f64, f64)], seconds: f64) -> HeardMains {
    let hop = measured.hop() as f64;
    let mut phases = vec![0.0];
    for (turn, _) in ahead {
        phases.push(phases.last().unwrap_or(&0.0) + hop + turn);
    }
    // Times and phases about their means.
    let mut points = Vec::new();
    for (first, last) in measured.stretches() {
        let count = (last - first + 1) as f64;
        let [times, phases] = [&measured.times, &phases].map(|values| &values[first..=last]);
        let (time, phase) = (times.iter().sum::<f64>() / count, phases.iter().sum::<f64>() / count);
        points.extend(times.iter().zip(phases).map(|(at, turned)| (at - time, turned - phase)));
    }
    let count = points.len().max(1) as f64;
    let square: f64 = points.iter().map(|(time, _)| time * time).sum();
    let alone = square == 0.0;
    let hz = if alone { measured.hz } else { points.iter().map(|(time, phase)| time * phase).sum::<f64>() / square };
    let heard_for = measured.heard_for(seconds);
    let block = 4.0 * hop / hz;
    let long = ((12.0 * square / count).sqrt() + 0.5 * block).max(0.5 * heard_for);
    let worth: f64 = measured.standing().map(|n| f64::from(n * n) * measured.over(n)).sum();
    let bandwidth = super::blocks::NOISE_BINS / block;
    let tau = std::f64::consts::TAU;
    let bound = (6.0 / (tau * tau * long * long * heard_for.min(long) * 2.0 * bandwidth * worth.max(1e-9))).sqrt();
    let rest: f64 = points.iter().map(|(time, phase)| (phase - hz * time).powi(2)).sum();
    let scatter = if alone { 0.0 } else { (rest / count / square / ALONE).sqrt() };
    let coarse = if alone { 2.0 * STEP } else { 0.0 };
    let within = 1.96 * (LOST * bound).max(scatter) + coarse;
    HeardMains { hz, within: within.max(CLOCK * hz), heard_for }
}
