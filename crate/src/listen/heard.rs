//! What is heard in a recording.

use super::family::FamilyLikelihood;
use serde::Serialize;

/// Levels below this are not told apart: nothing is as quiet, dBFS.
pub const QUIETEST: f64 = -200.0;

/// The way a sound came in.
#[derive(Clone, Copy, Debug, Eq, PartialEq, Serialize)]
#[serde(rename_all = "lowercase")]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub enum Through {
    /// An interface or a desk, by a lead.
    Line,
    /// A loudspeaker, a room and a microphone with its own processing.
    Air,
}

impl Through {
    /// The way of this identifier.
    pub fn of(id: &str) -> Option<Self> {
        match id {
            "line" => Some(Self::Line),
            "air" => Some(Self::Air),
            _ => None,
        }
    }

    /// By how much each harmonic comes in other than it went out, dB, one deviation.
    /// Judgement: converters and inputs are flat to 1 dB, while loudspeakers, rooms and
    /// the processing of a phone are not by ten times that.
    pub(super) const fn spread(self) -> f64 {
        match self {
            Self::Line => 1.0,
            Self::Air => 10.0,
        }
    }
}

/// What is heard in a recording. Levels are in dBFS: 0 dBFS is a sine of full scale
/// (AES17); nothing lies below [`QUIETEST`].
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Heard {
    /// How much of it was listened to, s.
    pub seconds: f64,
    /// Samples a second.
    pub rate: f64,
    /// The highest sample, as the level of a sine with this peak, dBFS.
    pub peak: f64,
    /// The level of all but a constant offset, r.m.s., dBFS.
    pub level: f64,
    /// The level of what is noise between 20 Hz and 20 kHz, without any line, dBFS.
    pub noise: f64,
    /// What is wrong with the recording: `silence`, `short`, `floor` where there is only the
    /// noise of the recorder itself, `clicks` where there are only those, or `clipped`, which
    /// is answered nonetheless, with less certainty.
    pub flaw: Option<&'static str>,
    /// What else should be known: `offset` where it has a large constant offset, `generator`
    /// where the mains are off what public supplies have, and may be a note.
    pub remarks: Vec<&'static str>,
    /// The mains, where their lines are heard.
    pub mains: Option<HeardMains>,
    /// The harmonics of the mains that stand out, in order.
    pub lines: Vec<HeardLine>,
    /// The power of the odd harmonics from the third on re that of the even ones, dB. Up to
    /// the highest line that stands out, the others count with the noise in their
    /// bandwidth: without any even line this is the least that it can be.
    pub odd_even: Option<f64>,
    /// How the odd lines fall, dB an octave; a fit to three or more.
    pub slope: Option<f64>,
    /// The second harmonic re the first, dB, where the second stands out. A first one that
    /// does not counts with the noise in its bandwidth.
    pub ripple: Option<f64>,
    /// Where the lines of a dimmer bend down, Hz: 0.35 over its rise time.
    pub corner: Option<f64>,
    /// The strongest tone from 1 kHz to 20 kHz that is no harmonic of the mains, or from 100 Hz
    /// on if it is steady.
    pub whine: Option<HeardTone>,
    /// The bursts of a telephone.
    pub bursts: Option<HeardBursts>,
    /// The share of the power between 20 Hz and 20 kHz that is noise, 0 to 1.
    pub hiss: Option<f64>,
    /// How likely what was heard is of each family; the greatest is 1. Empty where nothing
    /// is heard.
    pub families: Vec<FamilyLikelihood>,
    /// The spectrum, [Hz, dBFS], to be drawn.
    pub spectrum: Vec<[f64; 2]>,
}

/// The mains as they are heard.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct HeardMains {
    /// Frequency by the clock of the recorder, Hz: the mean over the recording.
    pub hz: f64,
    /// Half of the interval that holds it 95 times in 100, from the noise, the length, and how
    /// it scatters, Hz; no less than 50 in a million, which the clock of a recorder may be off.
    pub within: f64,
    /// For how long its lines are heard, s; all else is measured there.
    pub heard_for: f64,
}

/// A harmonic of the mains.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct HeardLine {
    /// Its number; the mains frequency itself is 1.
    pub harmonic: u32,
    /// Frequency, Hz.
    pub hz: f64,
    /// Level, dBFS.
    pub level: f64,
    /// Level re the first harmonic, dB; re the strongest line where the first does not
    /// stand out.
    pub first: f64,
    /// Level re the noise in the bandwidth of the analysis, dB: a sixteenth of the mains
    /// frequency, some 3 Hz, and more in recordings shorter than a second.
    pub over: f64,
}

/// A tone that is no harmonic of the mains.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct HeardTone {
    /// Frequency, Hz; the middle of it where it drifts.
    pub hz: f64,
    /// Level, dBFS.
    pub level: f64,
    /// Level re the noise beside it, in as much bandwidth as the tone takes, dB.
    pub over: f64,
}

/// The bursts of a telephone.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct HeardBursts {
    /// Bursts a second: 216.67 of a frame of 4.615 ms (3GPP TS 45.002).
    pub hz: f64,
    /// Level of all their lines together, dBFS.
    pub level: f64,
}
