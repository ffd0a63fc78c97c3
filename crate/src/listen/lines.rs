//! The harmonics of the mains, measured on samples of which so many make a period.

use super::blocks::{Blocks, LINE_BINS, median, power_of_two};
use super::heard::HeardLine;
use super::mains::RATE;
use super::warp::{A_PERIOD, Filter, Track, Warped};
use crate::Complex64;
use crate::numeric::highest;
use crate::quantity::level::decibels_of_power;

/// The highest harmonic that is looked at.
pub(super) const HIGHEST: u32 = 60;
/// Periods in a block. In less than a dozen periods there is no telling lines.
const PERIODS: [usize; 2] = [8, 32];
/// A line stands out by so much at least, as a ratio of powers: 6 dB.
pub(super) const STANDING: f64 = 4.0;
/// Noise is taken to be no further down from the strongest line, as a ratio of powers:
/// that is how far down the filter between samples keeps apart.
const CLEAN: f64 = 1e-11;
/// How far the frequency may be off what the search found, Hz.
const OFF: f64 = 0.1;
/// And where it rests on low lines, Hz.
const FAR: f64 = 1.0;

/// Power, noise, and whether it stands out.
type Line = (f64, f64, bool);

/// Whether lines come and go is told of those that stand out by so much together: 15 dB.
const TOLD: f64 = 30.0;
/// Blocks on either side of where lines begin or end that hold them in part.
const EDGE: usize = 2;

/// What is measured of the lines.
pub(super) struct Measured {
    /// Periods in a block.
    periods: usize,
    /// The harmonics of each block.
    blocks: Vec<Vec<Complex64>>,
    /// The middle of each block, s.
    pub(super) times: Vec<f64>,
    /// The mean frequency of the track, Hz.
    pub(super) hz: f64,
    /// Power and noise of each harmonic, re a sine of full scale, and whether it stands out;
    /// the first is none.
    lines: Vec<Line>,
    /// In which blocks the lines are heard.
    pub(super) heard_in: Vec<bool>,
}

impl Measured {
    /// The lines along a track of a recording of this rate; none where it is too short. Where
    /// it is crowded by other lines, they have to stand out from those.
    pub(super) fn of(warped: &Warped, track: &Track, rate: f64, crowded: bool) -> Option<Self> {
        let [least, most] = PERIODS.map(|periods| periods * A_PERIOD);
        let all = warped.samples.len();
        if all < least * 3 / 2 {
            return None;
        }
        let spectra = Blocks::new(power_of_two(all as f64 / 1.5).clamp(least, most));
        let periods = spectra.length() / A_PERIOD;
        let hz = track.hz.iter().sum::<f64>() / track.hz.len().max(1) as f64;
        let highest = HIGHEST.min((0.45 * rate / hz) as u32) as usize;
        let bins = (highest + 1) * periods;
        let begins: Vec<_> = (0..=all - spectra.length()).step_by(spectra.length() / 4).collect();
        let power = |from: usize| spectra.at(warped.samples[from..].iter().copied());
        let (mut mean, mut blocks, mut beside) = (Mean::of(bins), Vec::new(), Vec::new());
        for from in &begins {
            let block = power(*from);
            mean.add(&block);
            beside.push((0..=highest).map(|n| noise_of(&block, n, periods)).collect::<Vec<_>>());
            blocks.push((0..=highest).map(|n| block[n * periods]).collect::<Vec<_>>());
        }
        // Samples were taken twice.
        let filters = [Filter::new(rate, &Track::steady(50.0)), Filter::new(RATE, track)];
        let lines = |mean: &Mean| -> Vec<_> {
            let floor = CLEAN * mean.highest();
            let (mean, count) = mean.powers();
            let line = |n: usize| {
                let hz = n as f64 * hz;
                let filter = (filters[0].left(hz) * filters[1].left(hz)).max(0.01).powi(2);
                let (power, noise, standing) = line(&mean, n, periods, count, floor);
                let standing = standing && !(crowded && beaten(&mean, n, periods));
                (power / filter, noise / filter, standing)
            };
            (0..=highest).map(line).collect()
        };
        let mut measured = lines(&mean);
        let heard_in = present(&blocks, &beside, &measured);
        if heard_in.contains(&false) {
            mean = Mean::of(bins);
            for (from, _) in begins.iter().zip(&heard_in).filter(|(_, heard)| **heard) {
                mean.add(&power(*from));
            }
            measured = lines(&mean);
        }
        let times = begins.iter().map(|from| warped.time(from + spectra.length() / 2)).collect();
        Some(Self { periods, blocks, times, hz, lines: measured, heard_in })
    }

    /// Periods from one block to the next.
    pub(super) fn hop(&self) -> usize {
        self.periods / 4
    }

    /// For how long the lines are heard, of so many seconds.
    pub(super) fn heard_for(&self, seconds: f64) -> f64 {
        let hop = self.hop() as f64 / self.hz;
        let heard = self.heard_in.iter().filter(|heard| **heard).count();
        if heard == self.heard_in.len() {
            return seconds;
        }
        // Of each stretch two blocks were left out on either side, of which the inner one
        // has its middle there; what lies before the first middle is half a block.
        let ends = self.stretches().map(|(first, last)| {
            let open = [first == 0, last + 1 == self.heard_in.len()];
            open.into_iter().map(|open| if open { 1.5 } else { 0.5 }).sum::<f64>()
        });
        ((heard as f64 + ends.sum::<f64>()) * hop).min(seconds)
    }

    /// The first and the last block of each stretch in which the lines are heard.
    pub(super) fn stretches(&self) -> impl Iterator<Item = (usize, usize)> {
        let heard = |at: usize| self.heard_in.get(at) == Some(&true);
        let mut first = 0;
        (0..self.heard_in.len()).filter_map(move |at| {
            if heard(at) && (at == 0 || !heard(at - 1)) {
                first = at;
            }
            (heard(at) && !heard(at + 1)).then_some((first, at))
        })
    }

    /// By how much the lines vary from block to block, dB, r.m.s., the stronger ones counting more.
    pub(super) fn unsteady(&self) -> f64 {
        let (mut sum, mut weights) = (0.0, 0.0);
        for n in self.standing() {
            let levels: Vec<_> =
                self.blocks.iter().map(|block| decibels_of_power(block[n as usize].norm_sqr().max(1e-20))).collect();
            let count = levels.len() as f64;
            let mean = levels.iter().sum::<f64>() / count;
            let square = levels.iter().map(|level| (level - mean).powi(2)).sum::<f64>() / count;
            let weight = decibels_of_power(self.over(n)).max(0.0);
            (sum, weights) = (sum + weight * square, weights + weight);
        }
        if weights > 0.0 { (sum / weights).sqrt() } else { 0.0 }
    }

    /// The harmonics that stand out, in order.
    pub(super) fn standing(&self) -> impl Iterator<Item = u32> {
        (1..).zip(self.lines.iter().skip(1)).filter(|(_, (_, _, standing))| *standing).map(|(n, _)| n)
    }

    /// A harmonic is no more one of the mains.
    pub(super) fn leave_out(&mut self, harmonic: u32) {
        if let Some(line) = self.lines.get_mut(harmonic as usize) {
            line.2 = false;
        }
    }

    /// The power of a harmonic re the noise in its bandwidth.
    pub(super) fn over(&self, harmonic: u32) -> f64 {
        let (power, noise) = self.power(harmonic);
        power / noise
    }

    /// The power of a harmonic, and of the noise in its bandwidth, re a sine of full scale.
    pub(super) fn power(&self, harmonic: u32) -> (f64, f64) {
        self.lines.get(harmonic as usize).map_or((0.0, f64::MIN_POSITIVE), |(power, noise, _)| (*power, *noise))
    }

    /// By how many turns the mains are ahead of the track, from each block to the next, and
    /// how sure that is: where most of the phases of all lines agree.
    pub(super) fn ahead(&self) -> Vec<(f64, f64)> {
        let lines: Vec<_> = self.standing().map(|n| (n as usize, self.power(n).1)).collect();
        let Some((top, _)) = lines.last() else { return vec![(0.0, 0.0); self.blocks.len().saturating_sub(1)] };
        // The lowest lines, which are blurred most, leave no doubt further on.
        let [off, far] = [OFF, FAR].map(|off| off / self.hz * self.hop() as f64);
        let reach = off.max(far.min(0.4 / *top as f64));
        // Several places on the shortest wave, so that its summit is not missed.
        let steps = (reach * *top as f64 * 8.0).ceil().max(4.0);
        let between = |(before, after): (&Vec<Complex64>, &Vec<Complex64>)| {
            let products: Vec<_> =
                lines.iter().map(|(n, noise)| (*n as f64, after[*n] * before[*n].conj() / noise)).collect();
            let agreed = |turn: f64| -> f64 {
                let phase = |n: f64| Complex64::cis(-std::f64::consts::TAU * n * turn);
                products.iter().map(|(n, product)| (product * phase(*n)).re).sum()
            };
            let place = |i: i32| reach * f64::from(i) / steps;
            let around = (-(steps as i32)..=steps as i32).map(place);
            let (_, near) = around.map(|x| (agreed(x), x)).fold((f64::MIN, 0.0), |a, b| if b.0 > a.0 { b } else { a });
            let turn = highest(agreed, near - reach / steps, near + reach / steps, 24);
            (turn, agreed(turn).max(0.0))
        };
        self.blocks.iter().zip(self.blocks.iter().skip(1)).map(between).collect()
    }

    /// The lines that stand out, of mains of this frequency.
    pub(super) fn heard(&self, hz: f64) -> Vec<HeardLine> {
        let level = |n: u32| decibels_of_power(self.power(n).0);
        let standing: Vec<_> = self.standing().collect();
        let strongest = standing.iter().map(|n| level(*n)).fold(f64::MIN, f64::max);
        let re = if standing.first() == Some(&1) { level(1) } else { strongest };
        let line = |n: u32| HeardLine {
            harmonic: n,
            hz: hz * f64::from(n),
            level: level(n),
            first: level(n) - re,
            over: decibels_of_power(self.over(n)),
        };
        standing.into_iter().map(line).collect()
    }
}

/// The mean power of some blocks.
struct Mean {
    sums: Vec<f64>,
    count: f64,
}

impl Mean {
    fn of(bins: usize) -> Self {
        Self { sums: vec![0.0; bins], count: 0.0 }
    }

    fn add(&mut self, block: &[Complex64]) {
        self.count += 1.0;
        for (sum, x) in self.sums.iter_mut().zip(block) {
            *sum += x.norm_sqr();
        }
    }

    /// Of each bin, and of how many blocks.
    fn powers(&self) -> (Vec<f64>, f64) {
        let count = self.count.max(1.0);
        (self.sums.iter().map(|sum| sum / count).collect(), count)
    }

    fn highest(&self) -> f64 {
        self.sums.iter().copied().fold(f64::MIN_POSITIVE, f64::max) / self.count.max(1.0)
    }
}

/// The noise around a harmonic in a single block.
fn noise_of(block: &[Complex64], n: usize, periods: usize) -> f64 {
    let at = n * periods;
    let bins = (LINE_BINS + 1..=(periods / 2).max(LINE_BINS + 1)).flat_map(|by| [at.checked_sub(by), Some(at + by)]);
    let mut around: Vec<_> = bins.filter_map(|at| block.get(at?)).map(Complex64::norm_sqr).collect();
    median(&mut around) / std::f64::consts::LN_2
}

/// In which blocks the lines that stand out are heard: all where that cannot be told.
fn present(blocks: &[Vec<Complex64>], beside: &[Vec<f64>], lines: &[Line]) -> Vec<bool> {
    let all = vec![true; blocks.len()];
    let over = |line: &Line| if line.2 { line.0 / line.1 } else { 0.0 };
    let most = lines.iter().map(over).fold(0.0, f64::max);
    if lines.iter().map(over).sum::<f64>() < TOLD {
        return all;
    }
    // The strongest ones tell.
    let strong: Vec<_> = (0..lines.len()).filter(|n| over(&lines[*n]) >= 0.1 * most).collect();
    let heard = |(block, beside): (&Vec<Complex64>, &Vec<f64>)| {
        let power: f64 = strong.iter().map(|n| block[*n].norm_sqr()).sum();
        power > STANDING * strong.iter().map(|n| beside[*n]).sum::<f64>()
    };
    let heard: Vec<_> = blocks.iter().zip(beside).map(heard).collect();
    // Where they begin or end, blocks hold them in part.
    let whole = |at: usize| {
        let near = at.saturating_sub(EDGE)..(at + EDGE + 1).min(heard.len());
        heard[near].iter().all(|heard| *heard)
    };
    let whole: Vec<_> = (0..heard.len()).map(whole).collect();
    if whole.iter().filter(|whole| **whole).count() > EDGE { whole } else { all }
}

/// Whether another line beside a harmonic is not much lower.
fn beaten(mean: &[f64], n: usize, periods: usize) -> bool {
    let at = n * periods;
    let others = (LINE_BINS + 1..=periods / 2).flat_map(|by| [at - by, at + by]);
    others.filter_map(|other| mean.get(other)).any(|other| *other * STANDING > mean[at])
}

/// Power and noise of a harmonic in the mean power of so many blocks, and whether it stands
/// out.
fn line(mean: &[f64], n: usize, periods: usize, blocks: f64, floor: f64) -> (f64, f64, bool) {
    let at = n * periods;
    let beside = |by: usize| [at.checked_sub(by), Some(at + by)];
    let bins = (LINE_BINS + 1..=(periods / 2).max(LINE_BINS + 1)).flat_map(beside);
    let mut around: Vec<_> = bins.filter_map(|at| mean.get(at?)).copied().collect();
    // Blocks overlap, so that two are hardly one more. The median of the mean of so many
    // lies below their mean (Wilson and Hilferty, PNAS 17, 1931).
    let count = 1.0 + 0.45 * (blocks - 1.0);
    let noise = (median(&mut around) / (1.0 - 1.0 / (9.0 * count)).powi(3)).max(floor);
    let here = mean.get(at).copied().unwrap_or(0.0);
    let power = (here - noise).max(0.0);
    // Two bins off a line lies 15.6 dB under its summit; one that lies between bins does not.
    let narrow = beside(2).into_iter().flatten().filter_map(|at| mean.get(at)).all(|two| *two < here / 2.0 + noise);
    let standing = n > 0 && narrow && power > noise * STANDING.max(8.0 / count.sqrt());
    (power.max(f64::MIN_POSITIVE), noise, standing)
}
