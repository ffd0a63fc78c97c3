//! One note, as the partials of what sounds.

use crate::Complex64;
use std::f64::consts::{PI, TAU};

/// How a kind of note sounds.
#[derive(Clone, Copy, Debug)]
pub(super) struct Voice {
    /// Where along the string it is plucked, as a share of its length.
    pub plucked: f64,
    /// How fast partials get weaker with their order: 1 is 6 dB per octave.
    pub fall: f64,
    /// Time constant of the lowest partial, s.
    pub rings: f64,
    /// Partials from here on die away faster, Hz.
    pub dull: f64,
    /// The highest partial, Hz.
    pub highest: f64,
    /// How long the attack takes, s.
    pub attack: f64,
}

/// How long a note takes to end, s.
const RELEASE: f64 = 0.03;
/// So many time constants after its beginning a partial has died away: by 80 dB and more.
const HEARD: f64 = 10.0;

impl Voice {
    /// Adds a note of a frequency in Hz to a loop: from so many seconds on, for so many.
    ///
    /// The voltage of an ideal plucked string is Σ sin(nπp)/n over its partials (its
    /// velocity; any text on acoustics), each dying away on its own.
    pub(super) fn add(&self, out: &mut [f64], rate: f64, hz: f64, [from, lasts]: [f64; 2], size: f64) {
        let length = out.len();
        let start = (from * rate).round() as usize;
        let mut note = vec![0.0; ((lasts * rate) as usize).min(length)];
        let partials = (self.highest.min(0.45 * rate) / hz) as usize;
        for n in 1..=partials {
            let n = n as f64;
            let at = n * hz;
            let amplitude = size * (n * PI * self.plucked).sin() / n.powf(self.fall);
            let rings = self.rings / (1.0 + (at / self.dull).powi(2));
            let turn = Complex64::from_polar((-1.0 / (rings * rate)).exp(), TAU * at / rate);
            let mut now = Complex64::from(amplitude);
            // What has died away is not worth its time.
            let heard = ((HEARD * rings * rate) as usize).min(note.len());
            for sample in &mut note[..heard] {
                *sample += now.im;
                now *= turn;
            }
        }
        let count = note.len();
        for (i, sample) in note.iter().enumerate() {
            out[(start + i) % length] += sample * self.envelope(i as f64 / rate, (count - i) as f64 / rate);
        }
    }

    /// The share of a note so long after its beginning and before its end, s.
    fn envelope(&self, since: f64, left: f64) -> f64 {
        (since / self.attack).min(1.0) * (left / RELEASE).min(1.0)
    }
}
