//! From samples to what is heard in them.

use super::character::{corner, odd_even, power, ripple, slope};
use super::family::{FamilyLikelihood, Parts, Told, families};
use super::flaw::{is_clipped, nothing_but};
use super::heard::{Heard, HeardBursts, Through};
use super::mains::{Found, NEAR, Search, is_public};
use super::tones::{FRAMES, bursts, whine};
use super::wide::{Wide, level};
use crate::network::a_weighting_power;
use crate::quantity::level::power_ratio;
use std::borrow::Cow;

/// Samples a second that are listened to.
const RATES: std::ops::RangeInclusive<f64> = 8e3..=384e3;
/// No more is listened to at once, s: the mains would not hold still for longer.
const LONGEST: f64 = 120.0;
/// In less there is nothing to hear, s: a dozen periods of the mains.
const SHORTEST: f64 = 0.25;
/// What is quieter is nothing, dBFS: less than rounding to 16 bits leaves.
const SILENT: f64 = -105.0;
/// And so much of that in one go is a gap, s.
const SILENCE: f64 = 0.1;
/// A constant offset that is told, re full scale (judgement).
const OFFSET: f64 = 0.01;
/// The power to which a likelihood is taken where the recording clips (judgement).
const CLIPPED: f64 = 1.0 / 3.0;

/// Whether so many samples a second are listened to.
pub(super) fn is_rate(rate: f64) -> bool {
    RATES.contains(&rate)
}

/// A sample, or silence where it is no number; none is so far beyond full scale.
pub(super) fn clean(sample: f32) -> f32 {
    if sample.is_finite() { sample.clamp(-1e6, 1e6) } else { 0.0 }
}

/// What is heard in samples, of which full scale is 1: two minutes of them at most.
///
/// ```
/// use stageohm::listen::{Family, Through, hear};
///
/// // Two seconds of 50 Hz and a third of its third harmonic.
/// let sample = |i: i32| {
///     let turn = f64::from(i) / 8000.0 * 50.0 * std::f64::consts::TAU;
///     (0.1 * turn.sin() + 0.033 * (3.0 * turn).sin()) as f32
/// };
/// let samples: Vec<_> = (0..16_000).map(sample).collect();
/// let heard = hear(&samples, 8000.0, Through::Line);
/// assert!((heard.mains.unwrap().hz - 50.0).abs() < 0.01);
/// assert!((heard.lines[1].first + 9.63).abs() < 0.05);
/// assert_eq!(heard.families[0].family, Family::MainsOdd);
/// assert_eq!(heard.families[0].likelihood, 1.0);
/// ```
pub fn hear(samples: &[f32], rate: f64, through: Through) -> Heard {
    let rate = if is_rate(rate) { rate } else { 0.0 };
    let samples = &samples[..samples.len().min((LONGEST * rate) as usize)];
    let samples = if samples.iter().all(|sample| clean(*sample) == *sample) {
        Cow::Borrowed(samples)
    } else {
        samples.iter().map(|sample| clean(*sample)).collect()
    };
    let samples = sounding(&samples, rate);
    let mut heard = levels(samples, rate);
    if matches!(heard.flaw, Some("short" | "silence")) {
        return heard;
    }
    let wide = Wide::of(samples, rate);
    heard.spectrum = wide.drawn();
    let mut search = Search::of(samples, rate);
    let bursts = bursts(&search).map(|(bursts, lines)| {
        search.without(bursts.hz, &lines);
        bursts
    });
    let mut found = search.mains(rate, if bursts.is_some() { NEAR } else { f64::MAX });
    if let (Some(found), Some(bursts)) = (&mut found, &bursts) {
        without(found, bursts);
    }
    heard.whine = whine(&wide, found.as_ref(), bursts.as_ref(), through);
    heard.bursts = bursts;
    if let Some(found) = &found {
        heard.mains = Some(found.mains);
        if !is_public(found.mains.hz) {
            heard.remarks.push("generator");
        }
        heard.lines = found.measured.heard(found.mains.hz);
        heard.odd_even = odd_even(&found.measured, &heard.lines);
        heard.slope = slope(&heard.lines);
        heard.ripple = ripple(&found.measured, &heard.lines);
        heard.corner = corner(&heard.lines);
    }
    let [noise, weighted, all] = wide.audible(a_weighting_power);
    heard.noise = level(noise).min(heard.level);
    heard.hiss = Some(if all > 0.0 { (noise / all).clamp(0.0, 1.0) } else { 0.0 });
    let parts = Parts {
        lines: power(&heard.lines, a_weighting_power),
        // Most of a pulse so short lies around the fifth multiple.
        bursts: bursts.map_or(0.0, |bursts| power_ratio(bursts.level) * a_weighting_power(5.0 * FRAMES)),
        whine: heard.whine.map_or(0.0, |tone| power_ratio(tone.level) * a_weighting_power(tone.hz)),
        noise: weighted,
    };
    heard.flaw = heard.flaw.or_else(|| nothing_but(samples, rate, &heard));
    if !matches!(heard.flaw, Some("floor" | "clicks")) {
        heard.families = judged(&heard, parts, through);
    }
    heard
}

/// How likely what is heard is of each family.
fn judged(heard: &Heard, parts: Parts, through: Through) -> Vec<FamilyLikelihood> {
    let told = Told {
        lines: &heard.lines,
        parts,
        whine: heard.whine.map(|tone| tone.over),
        bends: heard.corner.is_some(),
        through,
    };
    let mut families = families(told);
    if heard.flaw == Some("clipped") {
        // Clipping brings lines of its own.
        for family in &mut families {
            family.likelihood = family.likelihood.powf(CLIPPED);
        }
    }
    families
}

/// The longest part without a silent tenth of a second in it: of a recorder that was switched on
/// early the mains would else be the mean of hum and of nothing. All of it where there is
/// none that is long enough.
fn sounding(samples: &[f32], rate: f64) -> &[f32] {
    let block = ((SILENCE * rate) as usize).max(1);
    let is_silent = |samples: &[f32]| {
        let count = samples.len() as f64;
        let mean = samples.iter().map(|sample| f64::from(*sample)).sum::<f64>() / count;
        let power = samples.iter().map(|sample| (f64::from(*sample) - mean).powi(2)).sum::<f64>() / count;
        level(2.0 * power) < SILENT
    };
    let (mut best, mut from) = (0..0, 0);
    for (place, part) in samples.chunks(block).enumerate() {
        let end = place * block + part.len();
        if is_silent(part) {
            from = end;
        } else if end - from > best.len() {
            best = from..end;
        }
    }
    if (best.len() as f64) < SHORTEST * rate { samples } else { samples.get(best).unwrap_or(samples) }
}

/// How loud it is, and whether there is anything to hear.
fn levels(samples: &[f32], rate: f64) -> Heard {
    let count = samples.len().max(1) as f64;
    let mean = samples.iter().map(|sample| f64::from(*sample)).sum::<f64>() / count;
    let power = samples.iter().map(|sample| (f64::from(*sample) - mean).powi(2)).sum::<f64>() / count;
    let peak = samples.iter().fold(0.0_f32, |peak, sample| peak.max(sample.abs()));
    let seconds = if rate > 0.0 { samples.len() as f64 / rate } else { 0.0 };
    // A sine of full scale has half of the power of its peak.
    let all = level(2.0 * power);
    let flaw = if seconds < SHORTEST {
        Some("short")
    } else if all < SILENT {
        Some("silence")
    } else if is_clipped(samples) {
        Some("clipped")
    } else {
        None
    };
    Heard {
        seconds,
        rate,
        peak: level(f64::from(peak).powi(2)),
        level: all,
        noise: all,
        flaw,
        remarks: if mean.abs() > OFFSET { vec!["offset"] } else { Vec::new() },
        mains: None,
        lines: Vec::new(),
        odd_even: None,
        slope: None,
        ripple: None,
        corner: None,
        whine: None,
        bursts: None,
        hiss: None,
        families: Vec::new(),
        spectrum: Vec::new(),
    }
}

/// Leaves out the harmonics that cannot be told from the bursts of a telephone.
fn without(found: &mut Found, bursts: &HeardBursts) {
    let standing: Vec<_> = found.measured.standing().collect();
    for harmonic in standing {
        let hz = found.mains.hz * f64::from(harmonic);
        if super::tones::apart(hz, bursts.hz) < super::tones::TOGETHER {
            found.measured.leave_out(harmonic);
        }
    }
}
