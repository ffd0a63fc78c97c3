//! What is heard besides the mains and noise: the whine of a supply, the bursts of a
//! telephone.

use super::blocks::{LINE_BINS, NOISE_BINS, median};
use super::heard::Through;
use super::heard::{HeardBursts, HeardTone};
use super::mains::{Found, Search};
use super::wide::{AUDIBLE, Wide, level};

/// Below this a tone may be music, Hz: it has to be steady, and is looked for from the other on.
pub(super) const WHINE: f64 = 1000.0;
const LOWEST: f64 = 100.0;
/// A tone stands out by so much, as a ratio of powers: 12 dB.
const OVER: f64 = 16.0;
/// A tone stands out from the foot of a line beside it, as a ratio of powers.
const FOOT: f64 = 1e-3;
/// And from a line beside it below 1 kHz: hum that comes and goes has lines beside its own.
const LOW_FOOT: f64 = 0.3;
/// Bins to either side that a tone is looked for in.
const REACH: usize = LINE_BINS;
/// How far a tone may drift from its middle, bins.
const DRIFT: usize = 64;
/// Frames a second of a telephone: 26 of them in 120 ms (3GPP TS 45.002, 4.3.1 and 5.1).
pub(super) const FRAMES: f64 = 26.0 / 0.12;
/// How far off the clocks of telephone and recorder may be together.
const CLOCKS: f64 = 2e-4;
/// Multiples of the frame rate that are looked at.
const MULTIPLES: u32 = 18;
/// They stand out by so much, as a ratio of powers: 9 dB.
const MULTIPLE: f64 = 8.0;
/// So many of the first twelve stand out, of those that are none of 50 Hz too: three times
/// the frame rate is thirteen times that.
const BURSTING: usize = 4;
const FIRST: u32 = 12;
const SHARED: u32 = 3;
/// A multiple so near a harmonic of the mains is not told from it, Hz.
pub(super) const TOGETHER: f64 = 2.5;

/// The bursts of a telephone, if they are heard, with the multiples of its frame rate that
/// stand out.
pub(super) fn bursts(search: &Search) -> Option<(HeardBursts, Vec<u32>)> {
    let bin = search.bin();
    let power = |at: usize| search.mean.get(at).copied().unwrap_or(0.0);
    // Which multiple, its power over the noise around it, and the bin it lies at.
    let line = |k: u32| {
        let hz = FRAMES * f64::from(k);
        let slack = (hz * CLOCKS / bin).ceil() as usize;
        let middle = (hz / bin).round() as usize;
        let near = middle.saturating_sub(slack)..=middle + slack;
        let at = near.fold(middle, |most, at| if power(at) > power(most) { at } else { most });
        let around = search.mean.get(at.checked_sub(32)?..at + 33)?;
        let noise = median(&mut around.to_vec());
        let narrow = power(at - 2).min(power(at + 2)) < power(at) / 2.0;
        let stands = narrow && power(at) > MULTIPLE * noise;
        stands.then(|| (k, tone(at - REACH..at + REACH + 1, &search.mean, noise)))
    };
    let lines: Vec<_> = (1..=MULTIPLES).filter_map(line).collect();
    if lines.iter().filter(|(k, _)| *k <= FIRST && *k % SHARED != 0).count() < BURSTING {
        return None;
    }
    let all: f64 = lines.iter().map(|(_, (power, _))| power).sum();
    let places = lines.iter().map(|(k, (power, at))| power * at * bin / f64::from(*k));
    let bursts = HeardBursts { hz: places.sum::<f64>() / all, level: level(all) };
    Some((bursts, lines.into_iter().map(|(k, _)| k).collect()))
}

/// The strongest tone that is no harmonic of the mains and no multiple of a telephone's
/// bursts.
pub(super) fn whine(
    wide: &Wide,
    found: Option<&Found>,
    bursts: Option<&HeardBursts>,
    through: Through,
) -> Option<HeardTone> {
    let top = ((AUDIBLE[1] / wide.bin) as usize).min(wide.power.len().saturating_sub(REACH + 1));
    // A telephone has lines beside its own too.
    let from = if bursts.is_some() { WHINE } else { LOWEST };
    let bottom = ((from / wide.bin) as usize).max(REACH);
    // The power around a bin, so that a tone that drifts counts in full or nearly so.
    let around = |at: usize| -> f64 {
        let bins = wide.power.get(at.saturating_sub(REACH)..at + REACH + 1);
        bins.map_or(0.0, |bins| bins.iter().sum())
    };
    let stands = |at: usize, power: f64| {
        let hz = wide.bin * at as f64;
        let noise = wide.noise[at] * (2 * REACH + 1) as f64;
        let bursting = bursts.is_some_and(|bursts| apart(hz, bursts.hz) < TOGETHER + 3.0 * wide.bin);
        power > OVER * noise
            && !bursting
            && wide.is_steady(at)
            && found.is_none_or(|found| is_other(hz, power, found, wide.bin, &around, through))
    };
    let mut best = None;
    let mut most = 0.0;
    for at in bottom..top {
        let power = around(at);
        let beside = at - REACH..=at + REACH;
        if power > most && beside.into_iter().all(|near| wide.power[near] <= wide.power[at]) && stands(at, power) {
            (best, most) = (Some(at), power);
        }
    }
    let at = best?;
    let noise = wide.noise[at];
    let high = |at: usize| wide.power.get(at).is_some_and(|power| *power > OVER * noise);
    let first = (at.saturating_sub(DRIFT)..at).rev().take_while(|at| high(*at)).last().unwrap_or(at);
    let last = (at + 1..at + DRIFT).take_while(|at| high(*at)).last().unwrap_or(at);
    let bins = first.saturating_sub(1)..(last + 2).min(wide.power.len());
    let width = bins.len() as f64;
    let (power, place) = tone(bins, &wide.power, noise);
    let over = level(power) - level(noise * width / NOISE_BINS);
    Some(HeardTone { hz: wide.bin * place, level: level(power), over })
}

/// Whether a tone is none of the mains: it lies off them, or stands out from the harmonics
/// around it, by more through the air that makes these uneven.
fn is_other(hz: f64, power: f64, found: &Found, bin: f64, around: &impl Fn(usize) -> f64, through: Through) -> bool {
    let (mains, wander) = (found.mains.hz, found.track.wander());
    let harmonic = hz / mains;
    let near = |hz: f64, reach: f64| {
        let (at, reach) = ((hz / bin) as usize, (reach / bin) as usize);
        (at.saturating_sub(reach)..=at + reach).map(around).fold(0.0, f64::max)
    };
    let blurred = harmonic * (wander + found.mains.within) + (REACH + 1) as f64 * bin;
    if apart(hz, mains) > blurred {
        // What lies so far below the nearest line is the foot of that.
        let foot = if hz < WHINE { LOW_FOOT } else { FOOT };
        return power > foot * near(harmonic.round() * mains, blurred);
    }
    let beside = |by: i32| near(hz + mains * f64::from(by), blurred.min(0.4 * mains));
    let harmonics = (1..=8).flat_map(|by| [-by, by]).map(beside).fold(0.0, f64::max);
    power > OVER * harmonics * crate::quantity::level::power_ratio(through.spread())
}

/// How far a frequency lies from the nearest multiple of another one, Hz.
pub(super) fn apart(hz: f64, mains: f64) -> f64 {
    (hz - mains * (hz / mains).round()).abs()
}

/// The power of a tone in some bins, re a sine of full scale, and the bin in its middle.
fn tone(bins: std::ops::Range<usize>, power: &[f64], noise: f64) -> (f64, f64) {
    let (mut sum, mut moment) = (0.0, 0.0);
    for bin in bins {
        let power = (power.get(bin).copied().unwrap_or(0.0) - noise).max(0.0);
        sum += power;
        moment += power * bin as f64;
    }
    (sum / NOISE_BINS, moment / sum)
}
