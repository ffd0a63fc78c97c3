//! Recordings in files, whose bytes are put together by hand after the description of the
//! format (IBM and Microsoft, Multimedia Programming Interface and Data Specifications 1.0,
//! 1991; RF64: EBU Tech 3306).
#![allow(clippy::unwrap_used, clippy::panic)]

use proptest::prelude::*;
use stageohm::listen::{Recording, Through, Unreadable, hear};

fn chunk(id: &str, body: &[u8]) -> Vec<u8> {
    let mut bytes = id.as_bytes().to_vec();
    bytes.extend((body.len() as u32).to_le_bytes());
    bytes.extend(body);
    if body.len() % 2 == 1 {
        bytes.push(0);
    }
    bytes
}

fn format(tag: u16, channels: u16, rate: u32, bits: u16) -> Vec<u8> {
    let frame = channels * bits.div_ceil(8);
    let mut bytes = Vec::new();
    bytes.extend(tag.to_le_bytes());
    bytes.extend(channels.to_le_bytes());
    bytes.extend(rate.to_le_bytes());
    bytes.extend((rate * u32::from(frame)).to_le_bytes());
    bytes.extend(frame.to_le_bytes());
    bytes.extend(bits.to_le_bytes());
    chunk("fmt ", &bytes)
}

fn file(chunks: &[Vec<u8>]) -> Vec<u8> {
    let body = [b"WAVE".to_vec(), chunks.concat()].concat();
    [b"RIFF".to_vec(), (body.len() as u32).to_le_bytes().to_vec(), body].concat()
}

fn pcm(bits: u16, data: &[u8]) -> Vec<u8> {
    file(&[format(1, 1, 48_000, bits), chunk("data", data)])
}

#[track_caller]
fn samples(bytes: &[u8]) -> Vec<f32> {
    Recording::read(bytes).unwrap().part(0.0, 10.0)
}

/// The least, the middle and the most of each kind of sample.
#[test]
fn every_kind_of_sample() {
    let most = |bits: i32| (1.0 - 2_f64.powi(1 - bits)) as f32;
    assert_eq!(samples(&pcm(8, &[0, 128, 255])), [-1.0, 0.0, most(8)]);
    assert_eq!(samples(&pcm(16, &[0, 0x80, 0, 0, 0xff, 0x7f])), [-1.0, 0.0, most(16)]);
    assert_eq!(samples(&pcm(24, &[0, 0, 0x80, 0, 0, 0, 0xff, 0xff, 0x7f])), [-1.0, 0.0, most(24)]);
    assert_eq!(samples(&pcm(32, &[0, 0, 0, 0x80, 0, 0, 0, 0x40])), [-1.0, 0.5]);
    // Twelve bits lie at the top of two bytes.
    assert_eq!(samples(&pcm(12, &[0, 0x40])), [0.5]);
    let floats = [0.25_f32, -1.5, f32::NAN, f32::INFINITY];
    let bytes: Vec<u8> = floats.iter().flat_map(|x| x.to_le_bytes()).collect();
    let of = |bits, bytes: &[u8]| file(&[format(3, 1, 44_100, bits), chunk("data", bytes)]);
    assert_eq!(samples(&of(32, &bytes)), [0.25, -1.5, 0.0, 0.0]);
    let bytes: Vec<u8> = [0.25_f64, -1e300].iter().flat_map(|x| x.to_le_bytes()).collect();
    assert_eq!(samples(&of(64, &bytes)), [0.25, 0.0]);
}

/// Chunks of an odd size are padded, unknown ones are passed over, and the extensible
/// format says further on what it is.
#[test]
fn chunks_of_any_kind() {
    let plain = chunk("data", &[0, 0x40]);
    let with = |chunks: &[Vec<u8>]| samples(&file(&[chunks, std::slice::from_ref(&plain)].concat()));
    assert_eq!(with(&[chunk("LIST", b"odd"), format(1, 1, 48_000, 16)]), [0.5]);
    let mut extensible = format(0xfffe, 1, 48_000, 16)[8..].to_vec();
    extensible.extend([22, 0, 16, 0, 4, 0, 0, 0]);
    let pcm_identifier = [1, 0, 0, 0, 0, 0, 16, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71];
    extensible.extend(pcm_identifier);
    assert_eq!(with(&[chunk("fmt ", &extensible)]), [0.5]);
    extensible[24] = 0x55;
    let packed = file(&[chunk("fmt ", &extensible), plain.clone()]);
    assert_eq!(Recording::read(&packed).unwrap_err(), Unreadable::Compressed);
    // The description may come last.
    assert_eq!(samples(&file(&[plain.clone(), format(1, 1, 48_000, 16)])), [0.5]);
}

/// A long recording has its size in a chunk of its own; one whose recorder never came to
/// write a size goes to the end; one that was cut goes as far as it goes.
#[test]
fn sizes_that_are_elsewhere_missing_or_wrong() {
    let data = [0, 0x40, 0, 0x20, 9];
    let mut sizes = 1_000_u64.to_le_bytes().to_vec();
    sizes.extend(4_u64.to_le_bytes());
    sizes.extend([0; 12]);
    let unsized_data = |size: u32| [b"data".to_vec(), size.to_le_bytes().to_vec(), data.to_vec()].concat();
    let mut long = file(&[chunk("ds64", &sizes), format(1, 1, 48_000, 16), unsized_data(u32::MAX)]);
    long[..8].copy_from_slice(b"RF64\xff\xff\xff\xff");
    assert_eq!(samples(&long), [0.5, 0.25]);
    for (riff, size) in [(u32::MAX, u32::MAX), (0, 0), (64, 1_000)] {
        let mut open = file(&[format(1, 1, 48_000, 16), unsized_data(size)]);
        open[4..8].copy_from_slice(&riff.to_le_bytes());
        assert_eq!(samples(&open), [0.5, 0.25], "{riff} {size}");
    }
}

/// Hum may be in one channel alone: that one is heard, wherever it is.
#[test]
fn the_loudest_channel() {
    for loud in 0..5_usize {
        let mut data = Vec::new();
        for i in 0..1000_usize {
            for channel in 0..5 {
                let square = if i % 20 < 10 { 8192_i16 } else { -8192 };
                // A constant is loud for nobody.
                data.extend(if channel == loud { square } else { 16_384 }.to_le_bytes());
            }
        }
        let bytes = file(&[format(1, 5, 10_000, 16), chunk("data", &data)]);
        let recording = Recording::read(&bytes).unwrap();
        assert_eq!((recording.channels(), recording.rate()), (5, 10_000.0));
        assert!((recording.seconds() - 0.1).abs() < 1e-12);
        let part = recording.part(0.0, 1.0);
        assert!(part.len() == 1000 && part.iter().all(|x| x.abs() == 0.25), "{loud}");
    }
}

/// A part begins where it is asked to, and ends with the recording.
#[test]
fn a_part_of_it() {
    let data: Vec<u8> = (0..16_000_i16).flat_map(i16::to_le_bytes).collect();
    let bytes = file(&[format(1, 1, 8_000, 16), chunk("data", &data)]);
    let recording = Recording::read(&bytes).unwrap();
    let part = recording.part(0.5, 0.25);
    assert_eq!((part.len(), part[0]), (2_000, 4_000.0 / 32_768.0));
    assert_eq!(recording.part(1.75, 9.0).len(), 2_000);
    assert_eq!(recording.part(f64::NEG_INFINITY, f64::INFINITY).len(), 16_000);
    for (from, seconds) in [(2.0, 1.0), (f64::INFINITY, 1.0), (0.0, -1.0), (0.0, f64::NAN)] {
        assert!(recording.part(from, seconds).is_empty(), "{from} {seconds}");
    }
}

/// What cannot be listened to says why.
#[test]
fn unreadable() {
    let data = chunk("data", &[0, 0x40]);
    let with = |format: Vec<u8>| file(&[format, data.clone()]);
    for (bytes, id) in [
        (Vec::new(), "not-wav"),
        (b"RIFF\x04\0\0\0WAVE".to_vec(), "not-wav"),
        (b"ID3\x04 and much more than that".to_vec(), "not-wav"),
        (with(chunk("fmt ", &[1, 0])), "not-wav"),
        (with(format(1, 0, 48_000, 16)), "not-wav"),
        (with(format(0x55, 1, 48_000, 16)), "compressed"),
        (with(format(2, 1, 48_000, 8)), "compressed"),
        (with(format(1, 1, 48_000, 40)), "format"),
        (with(format(3, 1, 48_000, 16)), "format"),
        (with(format(1, 1, 7_999, 16)), "rate"),
        (with(format(1, 1, 384_001, 16)), "rate"),
        (with(format(1, 2, 48_000, 16)), "empty"),
        (file(&[format(1, 1, 48_000, 16)]), "empty"),
        (pcm(16, &[]), "empty"),
    ] {
        let unreadable = Recording::read(&bytes).unwrap_err();
        assert_eq!(unreadable.id(), id, "{bytes:?}");
        assert_eq!(serde_json::to_value(unreadable).unwrap(), id);
    }
    for rate in [8_000, 384_000] {
        assert!(Recording::read(&with(format(1, 1, rate, 16))).is_ok());
    }
}

proptest! {
    /// Whatever becomes of the bytes of a file, reading it ends, and so does listening.
    #[test]
    fn damaged(
        cut in 0_usize..120,
        hits in prop::collection::vec((0_usize..64, any::<u8>()), 0..6),
        noise in prop::collection::vec(any::<u8>(), 0..64),
    ) {
        let mut bytes = file(&[format(1, 2, 8_000, 16), chunk("LIST", b"odd"), chunk("data", &noise)]);
        for (at, byte) in hits {
            if let Some(hit) = bytes.get_mut(at) {
                *hit = byte;
            }
        }
        bytes.truncate(bytes.len().saturating_sub(cut));
        if let Ok(recording) = Recording::read(&bytes) {
            let part = recording.part(0.0, 10.0);
            prop_assert!(part.iter().all(|sample| sample.is_finite()));
            prop_assert!(part.len() as f64 <= recording.seconds() * recording.rate() + 0.5);
            prop_assert!(hear(&part, recording.rate(), Through::Line).level.is_finite());
        }
    }
}
