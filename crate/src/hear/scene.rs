//! Two rigs to switch between.

use super::convolve::convolve;
use super::impulse::impulse;
use super::instrument::{noise, rms};
use super::loudness::loudness;
use super::response::{Curve, Response};
use crate::Complex64;
use crate::report::{HumLine, RigSound};
use serde::{Deserialize, Serialize};
use std::f64::consts::{SQRT_2, TAU};

/// The rms of the louder of the two, dB re a sine at full scale: quiet, since nobody
/// knows how loud the headphones are set.
pub const START: f64 = -30.0;
/// No peak is higher, dBFS.
pub const LIMIT: f64 = -1.0;
/// How long a sound takes to fade in, s.
pub const FADE: f64 = 2.0;
/// How long it takes to fade out once stopped, s.
pub const STOP: f64 = 0.06;
/// How long a change from one rig to the other takes, s.
pub const SWITCH: f64 = 0.03;

/// The band of the noise that calculators state, Hz.
const NOISE_BAND: f64 = 20e3 - 20.0;
/// Where the level of the signal is stated, Hz.
const MIDBAND: f64 = 1e3;
/// Below this a line is left out, dB.
const INAUDIBLE: f64 = -150.0;

/// A rig to be heard.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Side {
    /// Its response; flat at 0 dB where there is none.
    pub response: Option<Response>,
    /// What it adds.
    pub sound: Option<RigSound>,
}

/// What of two rigs is heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[allow(clippy::struct_excessive_bools, reason = "four switches")]
pub struct Ways {
    /// Whether both are brought to the same loudness.
    pub matched: bool,
    /// Whether hum is heard.
    pub hum: bool,
    /// Whether noise is heard.
    pub noise: bool,
    /// Whether what clips is heard to clip.
    pub clipping: bool,
}

/// Figures of a rig that is heard.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SideHeard {
    /// As it is played, LUFS; −∞ where nothing sounds. No matter how quietly it is played,
    /// all of it counts.
    pub loudness: f64,
    /// By how much it was raised to the loudness of the other, dB; 0 for the louder one.
    pub gain: f64,
    /// All lines of the hum re the signal, dB, whether or not they are heard.
    pub hum: Option<f64>,
    /// Noise re the signal, dB, whether or not it is heard.
    pub noise: Option<f64>,
    /// What clipping takes off the highest peak, dB, whether or not it is heard.
    pub clipped: Option<f64>,
    /// The highest sample, dBFS.
    pub peak: f64,
}

/// A rig, ready to be played.
#[derive(Clone, Debug)]
pub struct Rendered {
    /// A loop.
    pub samples: Vec<f32>,
    /// Figures of it.
    pub heard: SideHeard,
}

/// Two rigs through which a loop is played, at a sample rate in Hz.
pub fn render(source: &[f64], rate: f64, sides: [&Side; 2], ways: Ways) -> [Rendered; 2] {
    let mut both = sides.map(|side| through(source, rate, side, ways));
    // In single precision, as they are played.
    let loud = [0, 1].map(|n| loudness(&single(&both[n], 1.0 / peak(&both[n])), rate) + decibels(peak(&both[n])));
    let louder = loud[0].max(loud[1]);
    let gains = loud.map(|loud| if ways.matched && loud.is_finite() { louder - loud } else { 0.0 });
    for (samples, gain) in both.iter_mut().zip(gains) {
        scale(samples, factor(gain));
    }
    // A sine at full scale has an rms of 1/√2.
    let rms = rms(&both[0]).max(rms(&both[1]));
    let peaks = peak(&both[0]).max(peak(&both[1]));
    let start = if rms > 0.0 { factor(START) / SQRT_2 / rms } else { 0.0 };
    let all = start.min(factor(LIMIT) / peaks);
    [0, 1].map(|n| {
        let samples = single(&both[n], all);
        let Side { sound, .. } = sides[n];
        let heard = SideHeard {
            // As measured with its peak at full scale: the absolute gate of BS.1770 would drop, at
            // the level of play, what is much softer than the other rig.
            loudness: loud[n] + gains[n] + decibels(all),
            gain: gains[n],
            hum: sound.as_ref().and_then(|sound| together(&sound.hum)),
            noise: sound.as_ref().and_then(|sound| sound.noise).filter(|noise| noise.is_finite()),
            clipped: sound.as_ref().and_then(|sound| sound.headroom).map(|headroom| (-headroom).max(0.0)),
            peak: decibels(peak(&both[n]) * all),
        };
        Rendered { samples, heard }
    })
}

/// A loop through one rig; what is added has its ratio to the signal, whatever clips.
fn through(source: &[f64], rate: f64, side: &Side, ways: Ways) -> Vec<f64> {
    let mut samples = match &side.response {
        None => source.to_vec(),
        response => convolve(source, &impulse(response.as_ref(), rate)),
    };
    let signal = rms(source) * factor(Curve::new(side.response.as_ref()).at(MIDBAND));
    let Some(sound) = &side.sound else { return samples };
    if let Some(headroom) = sound.headroom.filter(|headroom| ways.clipping && *headroom < 0.0) {
        let most = peak(&samples) * factor(headroom);
        for sample in &mut samples {
            *sample = sample.clamp(-most, most);
        }
    }
    if ways.hum {
        for line in &sound.hum {
            hum(&mut samples, rate, *line, signal);
        }
    }
    if let Some(level) = sound.noise.filter(|level| ways.noise && level.is_finite()) {
        // White beyond the band in which it is stated, too.
        let size = signal * factor(level) * (rate / 2.0 / NOISE_BAND).max(1.0).sqrt();
        for (sample, noise) in samples.iter_mut().zip(noise(source.len(), 2)) {
            *sample += size * noise;
        }
    }
    samples
}

/// Adds a line of a hum, moved to a whole number of periods.
fn hum(samples: &mut [f64], rate: f64, line: HumLine, signal: f64) {
    let count = samples.len() as f64;
    let periods = (line.hz * count / rate).round();
    if !line.db.is_finite() || line.db < INAUDIBLE || !(periods >= 1.0 && periods < count / 2.0) {
        return;
    }
    let turn = Complex64::cis(TAU * periods / count);
    let mut now = Complex64::from(signal * factor(line.db) * SQRT_2);
    for sample in samples {
        *sample += now.im;
        now *= turn;
    }
}

/// All lines of a hum, dB; nothing where there are none.
fn together(lines: &[HumLine]) -> Option<f64> {
    let power: f64 = lines.iter().map(|line| factor(2.0 * line.db)).filter(|power| power.is_finite()).sum();
    (power > 0.0).then(|| decibels(power) / 2.0)
}

fn single(samples: &[f64], by: f64) -> Vec<f32> {
    let by = if by.is_finite() { by } else { 0.0 };
    samples.iter().map(|sample| (sample * by) as f32).collect()
}

fn scale(samples: &mut [f64], by: f64) {
    for sample in samples {
        *sample *= by;
    }
}

fn peak(samples: &[f64]) -> f64 {
    samples.iter().fold(0.0, |most, sample| sample.abs().max(most))
}

fn factor(decibels: f64) -> f64 {
    10_f64.powf(decibels / 20.0)
}

fn decibels(factor: f64) -> f64 {
    20.0 * factor.log10()
}
