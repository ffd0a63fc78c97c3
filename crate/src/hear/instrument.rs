//! What is played through a rig: the same samples each time.

use super::convolve::convolve;
use super::impulse::impulse;
use super::note::Voice;
use super::speech::speech;
use crate::numeric::Draws;
use serde::Deserialize;

/// What there is to play.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Instrument {
    /// A plucked bass: a riff from the open E on.
    Bass,
    /// A plucked guitar: an open chord, string by string.
    Guitar,
    /// Two chords of a keyboard.
    Keys,
    /// Noise with the long-term spectrum of speech.
    Speech,
}

/// How long a loop is, s.
const SECONDS: f64 = 8.0;
/// Semitones over the open E of a bass, one each half second.
const RIFF: [i32; 16] = [0, 0, 3, 5, 0, 0, 7, 5, 0, 0, 3, 5, 10, 7, 5, 3];
/// The strings of E major over the low E of a guitar, up and down, one each half second.
const CHORD: [i32; 16] = [0, 7, 12, 16, 19, 24, 19, 16, 0, 7, 12, 16, 19, 24, 28, 24];
/// Two chords, semitones over the C below the middle one, four seconds each.
const CHORDS: [[i32; 4]; 2] = [[0, 4, 7, 11], [-3, 4, 7, 12]];

/// The lowest E of a bass, of a guitar, and the C of a keyboard, Hz, of equal temperament
/// with A at 440 Hz (ISO 16).
const BASS_E: f64 = 41.203;
const GUITAR_E: f64 = 82.407;
const KEYS_C: f64 = 130.813;

/// Few of its partials are high, and those die at once.
const BASS: Voice = Voice { plucked: 0.3, fall: 1.0, rings: 1.4, dull: 500.0, highest: 4e3, attack: 3e-3 };
const GUITAR: Voice = Voice { plucked: 0.18, fall: 1.0, rings: 1.5, dull: 1500.0, highest: 10e3, attack: 1e-3 };
/// As if struck by a hammer: dark, and long.
const KEYS: Voice = Voice { plucked: 0.12, fall: 1.5, rings: 2.5, dull: 2500.0, highest: 8e3, attack: 5e-3 };

impl Instrument {
    /// Eight seconds of it at a sample rate in Hz, to be looped. The scale is arbitrary:
    /// [`render`](super::render) sets the level.
    pub fn samples(self, rate: f64) -> Vec<f64> {
        let mut out = vec![0.0; (SECONDS * rate) as usize];
        let pitch = |lowest: f64, semitones: i32| lowest * 2_f64.powf(f64::from(semitones) / 12.0);
        match self {
            Self::Bass => {
                for (n, semitones) in RIFF.into_iter().enumerate() {
                    BASS.add(&mut out, rate, pitch(BASS_E, semitones), [n as f64 / 2.0, 0.48], 1.0);
                }
            }
            Self::Guitar => {
                for (n, semitones) in CHORD.into_iter().enumerate() {
                    GUITAR.add(&mut out, rate, pitch(GUITAR_E, semitones), [n as f64 / 2.0, 1.8], 1.0);
                }
            }
            Self::Keys => {
                for (n, chord) in CHORDS.into_iter().enumerate() {
                    for (k, semitones) in chord.into_iter().enumerate() {
                        // No hand is quite even, and peaks that meet would be.
                        let from = 4.0 * n as f64 + 0.011 * k as f64;
                        KEYS.add(&mut out, rate, pitch(KEYS_C, semitones), [from, 3.9], 1.0);
                    }
                }
            }
            Self::Speech => out = convolve(&noise(out.len(), 1), &impulse(Some(&speech()), rate)),
        }
        out
    }
}

/// White noise with an rms of 1, nearly normal: the sum of six even draws.
pub(super) fn noise(count: usize, seed: u32) -> Vec<f64> {
    let mut draws = Draws::new(seed);
    let mut samples: Vec<f64> = (0..count).map(|_| (0..6).map(|_| draws.between(-1.0, 1.0)).sum()).collect();
    let rms = rms(&samples);
    for sample in &mut samples {
        *sample /= rms;
    }
    samples
}

/// The rms of samples, 0 of none.
pub(super) fn rms(samples: &[f64]) -> f64 {
    (samples.iter().map(|sample| sample * sample).sum::<f64>() / samples.len().max(1) as f64).sqrt()
}
