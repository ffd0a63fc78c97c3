//! What of an answer can be heard beside its response.

use serde::Serialize;

/// What a rig adds to the signal, as far as its calculator knows it.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "hear", derive(serde::Deserialize))]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct RigSound {
    /// The lines of the hum; none where nothing hums, or none were computed.
    pub hum: Vec<HumLine>,
    /// Unweighted noise from 20 Hz to 20 kHz re the signal, dB.
    pub noise: Option<f64>,
    /// From the peaks of the signal to where the first stage clips, dB; negative
    /// where it does.
    pub headroom: Option<f64>,
}

/// One line of a hum.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "hear", derive(serde::Deserialize))]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct HumLine {
    /// Where it lies, Hz.
    pub hz: f64,
    /// Its level re the signal at the console, dB.
    pub db: f64,
}
