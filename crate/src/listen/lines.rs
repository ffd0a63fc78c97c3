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
    /// Power and noise of each harmonic, re a sine of full scale; the first is none.
    lines: Vec<(f64, f64, bool)>,
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
        let mut mean = vec![0.0; (highest + 1) * periods];
        let (mut blocks, mut times) = (Vec::new(), Vec::new());
        for from in (0..=all - spectra.length()).step_by(spectra.length() / 4) {
            let block = spectra.at(warped.samples[from..].iter().copied());
            for (mean, x) in mean.iter_mut().zip(&block) {
                *mean += x.norm_sqr();
            }
            blocks.push((0..=highest).map(|n| block[n * periods]).collect::<Vec<_>>());
            times.push(warped.time(from + spectra.length() / 2));
        }
        let count = blocks.len() as f64;
        for power in &mut mean {
            *power /= count;
        }
        let floor = CLEAN * mean.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
        // Samples were taken twice.
        let filters = [Filter::new(rate, &Track::steady(50.0)), Filter::new(RATE, track)];
        let line = |n: usize| {
            let hz = n as f64 * hz;
            let filter = (filters[0].left(hz) * filters[1].left(hz)).max(0.01).powi(2);
            let (power, noise, standing) = line(&mean, n, periods, count, floor);
            let standing = standing && !(crowded && beaten(&mean, n, periods));
            (power / filter, noise / filter, standing)
        };
        let lines = (0..=highest).map(line).collect();
        Some(Self { periods, blocks, times, hz, lines })
    }

    /// Periods from one block to the next.
    pub(super) fn hop(&self) -> usize {
        self.periods / 4
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
