//! What is heard in the file of a recording: what the page and the example share.

use super::hear::hear;
use super::heard::{Heard, Through};
use super::recording::Recording;
use serde::Serialize;

/// Of a longer recording somebody has to say which part is meant, s.
pub const LONGEST: f64 = 120.0;

/// A file of a recording, and what is heard in it.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct HeardFile {
    /// Why it cannot be read; nothing where it can.
    pub unreadable: Option<&'static str>,
    /// Samples a second.
    pub rate: f64,
    /// How many channels it has; the loudest is listened to.
    pub channels: usize,
    /// How long it is, s.
    pub seconds: f64,
    /// What is heard; nothing for one that is longer than [`LONGEST`], of which no part
    /// was named.
    pub heard: Option<Heard>,
}

/// Listens to the file of a recording, from so many seconds on and for [`LONGEST`] at most.
pub fn hear_file(bytes: &[u8], from: Option<f64>, through: Through) -> HeardFile {
    let recording = match Recording::read(bytes) {
        Ok(recording) => recording,
        Err(unreadable) => return HeardFile { unreadable: Some(unreadable.id()), ..HeardFile::default() },
    };
    let (rate, seconds) = (recording.rate(), recording.seconds());
    let from = from.or((seconds <= LONGEST).then_some(0.0));
    let heard = from.map(|from| hear(&recording.part(from, LONGEST), rate, through));
    HeardFile { unreadable: None, rate, channels: recording.channels(), seconds, heard }
}
