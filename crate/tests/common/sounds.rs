//! Sounds made in time, as circuits and instruments make them: written apart from what
//! listens, which knows spectra.
#![allow(dead_code, missing_docs, unreachable_pub)]

use stageohm::numeric::Draws;
use std::f64::consts::{PI, TAU};

/// Samples of a wave.
const STEPS: usize = 2048;

/// One period of a periodic sound.
#[derive(Clone)]
pub struct Wave(Vec<f64>);

impl Wave {
    pub fn of(value: impl Fn(f64) -> f64) -> Self {
        Self((0..STEPS).map(|i| value((i as f64 + 0.5) / STEPS as f64)).collect())
    }

    /// The mains, cut off up to an angle in each half cycle; the second one cuts by a share
    /// more of it.
    pub fn dimmer(angle: f64, unequal: f64) -> Self {
        Self::of(|turn| {
            let (half, from) = if turn < 0.5 { (turn, angle) } else { (turn - 0.5, angle * (1.0 + unequal)) };
            if half * TAU < from { 0.0 } else { (TAU * turn).sin() }
        })
    }

    /// The current into a bridge with a reservoir, and the voltage there: a resistance in
    /// series (re the load), half waves that differ by a share, and how many radians of the
    /// mains the reservoir lasts. Euler's method until it repeats.
    pub fn bridge(series: f64, lasts: f64, unequal: f64) -> (Self, Self) {
        let (mut current, mut rail) = (vec![0.0; STEPS], vec![0.0; STEPS]);
        let mut held = 0.0_f64;
        for turn in 0..40 * STEPS {
            let i = turn % STEPS;
            let sine = (TAU * i as f64 / STEPS as f64).sin();
            let source = if sine > 0.0 { sine } else { -sine * (1.0 - unequal) };
            let drawn = ((source - held) / series).max(0.0);
            held += (drawn - held) / lasts * TAU / STEPS as f64;
            (current[i], rail[i]) = (drawn * sine.signum(), held);
        }
        (Self(current), Self(rail))
    }

    /// The current of a transformer that saturates: it follows the flux, and rises steeply
    /// at the end.
    pub fn magnetising(steep: f64, power: i32) -> Self {
        Self::of(|turn| {
            let flux = (TAU * turn).sin();
            flux + steep * flux.powi(power)
        })
    }

    /// A supply voltage whose tops are worn off by rectifiers.
    pub fn worn(top: f64, notch: f64) -> Self {
        Self::of(|turn| {
            let sine = (TAU * turn).sin();
            let over = (sine.abs() - top).max(0.0);
            sine - sine.signum() * (over * 0.8 + notch * over * (14.0 * TAU * turn).sin())
        })
    }

    /// What a field or a capacitance brings of it.
    pub fn changes(&self) -> Self {
        Self((0..STEPS).map(|i| self.0[(i + 1) % STEPS] - self.0[i]).collect())
    }

    /// The current of a choke in series with a resistance: an edge takes so much of a period
    /// from a tenth to nine tenths, which is 2.2 time constants.
    pub fn choked(&self, turn: f64) -> Self {
        let share = 1.0 - (-2.2 / (turn * STEPS as f64)).exp();
        let mut held = 0.0;
        let mut wave = Vec::new();
        for _ in 0..4 {
            let follow = |x: &f64| {
                held += share * (x - held);
                held
            };
            wave = self.0.iter().map(follow).collect();
        }
        Self(wave)
    }

    /// Each harmonic so many dB higher or lower, as rooms and loudspeakers make them.
    pub fn reshaped(&self, draws: &mut Draws, deviation: f64) -> Self {
        let mut wave = vec![0.0; STEPS];
        for n in 1..=100 {
            let (mut re, mut im) = (0.0, 0.0);
            for (i, value) in self.0.iter().enumerate() {
                let turn = TAU * ((i * n) % STEPS) as f64 / STEPS as f64;
                re += value * turn.cos();
                im += value * turn.sin();
            }
            let gain = 10_f64.powf(deviation * normal(draws) / 20.0) * 2.0 / STEPS as f64;
            let turned = draws.between(0.0, TAU);
            for (i, value) in wave.iter_mut().enumerate() {
                let turn = TAU * ((i * n) % STEPS) as f64 / STEPS as f64 + turned;
                *value += gain * (re * turn.cos() + im * turn.sin());
            }
        }
        Self(wave)
    }

    /// Its level r.m.s. re a sine of 1, without what is constant.
    pub fn scaled(&self, level: f64) -> Self {
        let mean = self.0.iter().sum::<f64>() / STEPS as f64;
        let power = self.0.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / STEPS as f64;
        let times = 10_f64.powf(level / 20.0) / (2.0 * power).sqrt();
        Self(self.0.iter().map(|x| (x - mean) * times).collect())
    }

    /// Played along a frequency: each sample is the mean over its time.
    pub fn played(&self, sound: &mut Sound, hz: impl Fn(f64) -> f64) {
        let mut sums = vec![0.0];
        for value in &self.0 {
            sums.push(sums[sums.len() - 1] + value / STEPS as f64);
        }
        let all = sums[STEPS];
        let until = |turn: f64| {
            let place = turn.fract() * STEPS as f64;
            let at = place as usize;
            turn.floor() * all + sums[at] + (place - at as f64) * self.0[at.min(STEPS - 1)] / STEPS as f64
        };
        let mut turn = 0.0;
        for i in 0..sound.samples.len() {
            let step = hz(i as f64 / sound.rate) / sound.rate;
            sound.samples[i] += (until(turn + step) - until(turn)) / step;
            turn += step;
        }
    }
}

/// A recording in the making.
#[derive(Clone)]
pub struct Sound {
    pub rate: f64,
    pub samples: Vec<f64>,
}

impl Sound {
    pub fn new(rate: f64, seconds: f64) -> Self {
        Self { rate, samples: vec![0.0; (rate * seconds).round() as usize] }
    }

    /// A sine, level in dBFS, at a phase in turns.
    pub fn tone(&mut self, level: f64, mut turn: f64, hz: impl Fn(f64) -> f64) {
        let size = 10_f64.powf(level / 20.0);
        for (i, sample) in self.samples.iter_mut().enumerate() {
            *sample += size * (TAU * turn).sin();
            turn += hz(i as f64 / self.rate) / self.rate;
        }
    }

    /// Harmonics of a frequency that drifts: number and level, dBFS.
    pub fn lines(&mut self, lines: &[(u32, f64)], hz: impl Fn(f64) -> f64) {
        let mut turn = 0.0;
        for (i, sample) in self.samples.iter_mut().enumerate() {
            for (n, level) in lines {
                let n = f64::from(*n);
                *sample += 10_f64.powf(level / 20.0) * (TAU * n * (turn + 0.37 * n)).sin();
            }
            turn += hz(i as f64 / self.rate) / self.rate;
        }
    }

    /// White noise, level r.m.s. re a sine of full scale.
    pub fn white(&mut self, level: f64, draws: &mut Draws) {
        let size = 10_f64.powf(level / 20.0) / 2_f64.sqrt();
        for sample in &mut self.samples {
            *sample += size * normal(draws);
        }
    }

    /// Pink noise: white noise through a row of poles an octave and a half apart.
    pub fn pink(&mut self, level: f64, draws: &mut Draws) {
        let corners: Vec<f64> = (0..7).map(|i| 25.0 * 2.83_f64.powi(i)).filter(|hz| *hz < 0.4 * self.rate).collect();
        let mut held = vec![0.0; corners.len()];
        let pink: Vec<f64> = (0..self.samples.len())
            .map(|_| {
                let poles = corners.iter().zip(&mut held).map(|(hz, held)| {
                    let share = 1.0 - (-TAU * hz / self.rate).exp();
                    *held += share * (normal(draws) / hz.sqrt() / share.sqrt() - *held);
                    *held
                });
                poles.sum()
            })
            .collect();
        let power = pink.iter().map(|x| x * x).sum::<f64>() / pink.len() as f64;
        let times = 10_f64.powf(level / 20.0) / (2.0 * power).sqrt();
        for (sample, x) in self.samples.iter_mut().zip(pink) {
            *sample += times * x;
        }
    }

    /// What a telephone's bursts leave: 15/26 ms in each frame of 60/13 ms, none in each
    /// twenty-sixth (3GPP TS 45.002), none while nobody speaks, each of its own size; through
    /// a capacitor in series and what holds off the highest.
    pub fn bursts(&mut self, level: f64, quiet: f64, draws: &mut Draws) {
        let frame = 0.06 / 13.0;
        let frames = (self.samples.len() as f64 / self.rate / frame) as usize + 2;
        let mut speaks = true;
        let sizes: Vec<f64> = (0..frames)
            .map(|i| {
                if i % 26 == 0 {
                    speaks = draws.share() > quiet;
                }
                if i % 26 == 25 || !(speaks || i % 26 == 12) { 0.0 } else { 1.0 + 0.05 * normal(draws) }
            })
            .collect();
        let (late, start) = (draws.share() * frame, frame * 0.2);
        let (mut slow, mut fast) = (0.0, 0.0);
        let (high, low) = (1.0 - (-TAU * 100.0 / self.rate).exp(), 1.0 - (-TAU * 2500.0 / self.rate).exp());
        let burst: Vec<f64> = (0..self.samples.len())
            .map(|i| {
                let at = (i as f64 / self.rate + late) / frame;
                let on = (start..start + 0.015 / 26.0).contains(&(at.fract() * frame));
                let x = if on { sizes[at as usize] } else { 0.0 };
                slow += high * (x - slow);
                fast += low * (x - slow - fast);
                fast
            })
            .collect();
        let power = burst.iter().map(|x| x * x).sum::<f64>() / burst.len() as f64;
        let times = 10_f64.powf(level / 20.0) / (2.0 * power).sqrt();
        for (sample, x) in self.samples.iter_mut().zip(burst) {
            *sample += times * x;
        }
    }

    /// A room: the sound again and again, by ways of any length.
    pub fn room(&mut self, draws: &mut Draws) {
        let dry = self.samples.clone();
        for _ in 0..6 {
            let late = (draws.between(0.001, 0.04) * self.rate) as usize;
            let size = 0.6 * normal(draws);
            for (sample, x) in self.samples.iter_mut().skip(late).zip(&dry) {
                *sample += size * x;
            }
        }
    }

    /// What a converter of so many bits makes of it, with dither of triangular density.
    pub fn converted(&self, bits: i32, draws: &mut Draws) -> Vec<f32> {
        let steps = 2_f64.powi(bits - 1);
        let convert = |x: &f64| {
            let dither = draws.share() - draws.share();
            ((x * steps + dither).round().clamp(-steps, steps - 1.0) / steps) as f32
        };
        self.samples.iter().map(convert).collect()
    }

    pub fn times(mut self, size: f64) -> Self {
        for sample in &mut self.samples {
            *sample *= size;
        }
        self
    }
}

/// A number that is normally distributed (Box and Muller, 1958).
pub fn normal(draws: &mut Draws) -> f64 {
    (-2.0 * (1.0 - draws.share()).ln()).sqrt() * (2.0 * PI * draws.share()).cos()
}
