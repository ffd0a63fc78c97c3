//! A recording in a file: RIFF/WAVE, and RF64 for long ones.

use serde::Serialize;

/// Samples a second that are listened to.
const RATES: std::ops::RangeInclusive<u32> = 8_000..=384_000;
/// Format tags of the file format: PCM, floating point, and the one that says it further on.
const PCM: u16 = 1;
const FLOAT: u16 = 3;
const EXTENSIBLE: u16 = 0xfffe;
/// A size that stands elsewhere (RF64, EBU Tech 3306), or was never filled in.
const ELSEWHERE: u32 = u32::MAX;

/// A recording, as it lies in the bytes of a file.
#[derive(Clone, Copy, Debug)]
pub struct Recording<'a> {
    rate: u32,
    channels: usize,
    sample: Sample,
    frames: &'a [u8],
}

/// Why a file cannot be listened to.
#[derive(Clone, Copy, Debug, Eq, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub enum Unreadable {
    /// No RIFF/WAVE file, or without a description of what is in it.
    NotWav,
    /// Packed in a way that is not unpacked here.
    Compressed,
    /// Samples of a size that is not read here.
    Format,
    /// So many samples a second are not listened to.
    Rate,
    /// Not a sample in it.
    Empty,
}

impl Unreadable {
    /// Identifier.
    pub const fn id(self) -> &'static str {
        match self {
            Self::NotWav => "not-wav",
            Self::Compressed => "compressed",
            Self::Format => "format",
            Self::Rate => "rate",
            Self::Empty => "empty",
        }
    }
}

#[derive(Clone, Copy, Debug, Eq, PartialEq)]
enum Sample {
    Unsigned8,
    Signed16,
    Signed24,
    Signed32,
    Float32,
    Float64,
}

impl Sample {
    fn of(tag: u16, bytes: usize) -> Result<Self, Unreadable> {
        match (tag, bytes) {
            (PCM, 1) => Ok(Self::Unsigned8),
            (PCM, 2) => Ok(Self::Signed16),
            (PCM, 3) => Ok(Self::Signed24),
            (PCM, 4) => Ok(Self::Signed32),
            (FLOAT, 4) => Ok(Self::Float32),
            (FLOAT, 8) => Ok(Self::Float64),
            (PCM | FLOAT, _) => Err(Unreadable::Format),
            _ => Err(Unreadable::Compressed),
        }
    }

    const fn bytes(self) -> usize {
        match self {
            Self::Unsigned8 => 1,
            Self::Signed16 => 2,
            Self::Signed24 => 3,
            Self::Signed32 | Self::Float32 => 4,
            Self::Float64 => 8,
        }
    }

    /// The value of the bytes of a sample; full scale is 1.
    fn value(self, bytes: &[u8]) -> f32 {
        match (self, bytes) {
            (Self::Unsigned8, [a, ..]) => (f32::from(*a) - 128.0) / 128.0,
            (Self::Signed16, [a, b, ..]) => f32::from(i16::from_le_bytes([*a, *b])) / 32_768.0,
            (Self::Signed24, [a, b, c, ..]) => whole([0, *a, *b, *c]),
            (Self::Signed32, [a, b, c, d, ..]) => whole([*a, *b, *c, *d]),
            (Self::Float32, [a, b, c, d, ..]) => f32::from_le_bytes([*a, *b, *c, *d]),
            (Self::Float64, [a, b, c, d, e, f, g, h]) => f64::from_le_bytes([*a, *b, *c, *d, *e, *f, *g, *h]) as f32,
            _ => 0.0,
        }
    }
}

fn whole(bytes: [u8; 4]) -> f32 {
    (f64::from(i32::from_le_bytes(bytes)) / 2_147_483_648.0) as f32
}

impl<'a> Recording<'a> {
    /// The recording in the bytes of a file. One that ends too early is read as far as it
    /// goes.
    ///
    /// # Errors
    /// Where the bytes are nothing that is listened to here.
    pub fn read(bytes: &'a [u8]) -> Result<Self, Unreadable> {
        let (form, wave) = (bytes.get(..4), bytes.get(8..12));
        let long = form == Some(b"RF64");
        if !(long || form == Some(b"RIFF")) || wave != Some(b"WAVE") {
            return Err(Unreadable::NotWav);
        }
        // Neither a recorder that was switched off nor one that writes into a pipe says how
        // long it was.
        let unsaid = matches!(u32_at(bytes, 4), Some(0 | ELSEWHERE));
        let (mut format, mut data, mut beyond) = (None, None, None);
        let mut at = 12;
        while let (Some(id), Some(size)) = (bytes.get(at..at + 4), u32_at(bytes, at + 4)) {
            let body = bytes.get(at + 8..).unwrap_or_default();
            let mut size = size as usize;
            match id {
                b"ds64" => beyond = u64_at(body, 8).map(|size| usize::try_from(size).unwrap_or(usize::MAX)),
                b"fmt " => format = format.or(Some(&body[..size.min(body.len())])),
                b"data" => {
                    size = match (size as u32, beyond) {
                        (ELSEWHERE, Some(beyond)) if long => beyond,
                        (ELSEWHERE, _) => usize::MAX,
                        (0, _) if unsaid => usize::MAX,
                        _ => size,
                    };
                    data = data.or(Some(&body[..size.min(body.len())]));
                }
                _ => {}
            }
            // Chunks of an odd size are padded.
            let Some(next) = size.checked_add(8 + size % 2).and_then(|size| at.checked_add(size)) else { break };
            at = next;
        }
        Self::of(format.ok_or(Unreadable::NotWav)?, data.ok_or(Unreadable::Empty)?)
    }

    fn of(format: &[u8], data: &'a [u8]) -> Result<Self, Unreadable> {
        let (Some(tag), Some(channels), Some(rate), Some(frame)) =
            (u16_at(format, 0), u16_at(format, 2), u32_at(format, 4), u16_at(format, 12))
        else {
            return Err(Unreadable::NotWav);
        };
        // The first two bytes of the identifier of what is in it are the tag it would have.
        let tag = if tag == EXTENSIBLE { u16_at(format, 24).ok_or(Unreadable::NotWav)? } else { tag };
        let (channels, frame) = (usize::from(channels), usize::from(frame));
        let bytes = frame.checked_div(channels).ok_or(Unreadable::NotWav)?;
        let sample = Sample::of(tag, bytes)?;
        if !frame.is_multiple_of(channels) {
            return Err(Unreadable::Format);
        }
        if !RATES.contains(&rate) {
            return Err(Unreadable::Rate);
        }
        let frames = &data[..data.len() - data.len() % frame];
        if frames.is_empty() { Err(Unreadable::Empty) } else { Ok(Self { rate, channels, sample, frames }) }
    }

    /// Samples a second.
    pub fn rate(&self) -> f64 {
        self.rate.into()
    }

    /// How many channels it has.
    pub fn channels(&self) -> usize {
        self.channels
    }

    /// How long it is, s.
    pub fn seconds(&self) -> f64 {
        (self.frames.len() / self.frame()) as f64 / self.rate()
    }

    fn frame(&self) -> usize {
        self.channels * self.sample.bytes()
    }

    /// So many seconds from a place on, of the channel that is loudest there: hum may be in
    /// one of them alone. Less where the recording ends before. What is no number is none:
    /// it counts as 0.
    pub fn part(&self, from: f64, seconds: f64) -> Vec<f32> {
        let frame = self.frame();
        let all = self.frames.len() / frame;
        // Casts hold at the ends of the range, and make 0 of what is no number.
        let first = ((from * self.rate()).max(0.0) as usize).min(all);
        let last = first.saturating_add((seconds * self.rate()).round().max(0.0) as usize).min(all);
        let part = &self.frames[first * frame..last * frame];
        let loudest = (0..self.channels).map(|channel| (channel, self.power(part, channel)));
        let loudest = loudest.reduce(|most, next| if next.1 > most.1 { next } else { most });
        self.of_channel(part, loudest.map_or(0, |(channel, _)| channel)).collect()
    }

    fn of_channel<'b>(&self, part: &'b [u8], channel: usize) -> impl Iterator<Item = f32> + use<'a, 'b> {
        let (sample, frame) = (self.sample, self.frame());
        let from = channel * sample.bytes();
        part.chunks_exact(frame).map(move |frame| {
            let value = sample.value(frame.get(from..from + sample.bytes()).unwrap_or_default());
            if value.is_finite() { value } else { 0.0 }
        })
    }

    /// The power of a channel about its mean.
    fn power(&self, part: &[u8], channel: usize) -> f64 {
        let (mut sum, mut squares, mut count) = (0.0, 0.0, 0.0);
        for value in self.of_channel(part, channel).map(f64::from) {
            sum += value;
            squares += value * value;
            count += 1.0;
        }
        if count > 0.0 { (squares - sum * sum / count) / count } else { 0.0 }
    }
}

fn u16_at(bytes: &[u8], at: usize) -> Option<u16> {
    Some(u16::from_le_bytes(bytes.get(at..at.checked_add(2)?)?.try_into().ok()?))
}

fn u32_at(bytes: &[u8], at: usize) -> Option<u32> {
    Some(u32::from_le_bytes(bytes.get(at..at.checked_add(4)?)?.try_into().ok()?))
}

fn u64_at(bytes: &[u8], at: usize) -> Option<u64> {
    Some(u64::from_le_bytes(bytes.get(at..at.checked_add(8)?)?.try_into().ok()?))
}
