//! What is wrong with a recording.

use super::blocks::median;
use super::heard::Heard;
use super::wide::level;

/// Samples are clipped where as many of them lie within a hundredth of the highest as this
/// times those in the next hundredth; a sine has 2.4 times as many.
const PILED: usize = 6;
/// And one in so many of all.
const FEW: usize = 2000;
/// And they are near full scale.
const FULL: f32 = 0.89;

/// Quieter than this a recorder hears itself, dBFS (judgement).
const OWN: f64 = -85.0;
/// So little over the rounding of samples there is nothing else, dB.
const NEAR_ROUNDING: f64 = 3.0;
/// Noise peaks 10 dB or so over its level: what peaks by more than this, dB, and has less
/// than this share of its mean power in half of all so short blocks, s, are clicks.
const CREST: f64 = 20.0;
const SPARSE: f64 = 0.1;
const CLICK: f64 = 0.002;

/// What there is where no line and no tone is heard: the noise of the recorder itself, or
/// clicks.
pub(super) fn nothing_but(samples: &[f32], rate: f64, heard: &Heard) -> Option<&'static str> {
    if heard.mains.is_some() || heard.whine.is_some() || heard.bursts.is_some() {
        None
    } else if heard.level < floor(samples) {
        Some("floor")
    } else {
        (heard.peak - heard.level > CREST && is_sparse(samples, rate)).then_some("clicks")
    }
}

/// Below this there is only the noise of the recorder itself, dBFS: the rounding of its
/// samples with triangular dither, if they are coarse.
fn floor(samples: &[f32]) -> f64 {
    let whole = |bits: i32| samples.iter().all(|sample| (sample * 2_f32.powi(bits - 1)).fract() == 0.0);
    let bits = [8, 16].into_iter().find(|bits| whole(*bits));
    // The rounding brings a twelfth of the square of a step, and the dither two more.
    let rounding = bits.map_or(OWN, |bits| level(2.0 * 0.25 * 4_f64.powi(1 - bits)) + NEAR_ROUNDING);
    rounding.max(OWN)
}

/// Whether most of the power lies in few places.
fn is_sparse(samples: &[f32], rate: f64) -> bool {
    let block = ((CLICK * rate) as usize).max(1);
    let mut powers: Vec<f64> = samples
        .chunks_exact(block)
        .map(|part| {
            let mean = part.iter().map(|sample| f64::from(*sample)).sum::<f64>() / block as f64;
            part.iter().map(|sample| (f64::from(*sample) - mean).powi(2)).sum()
        })
        .collect();
    let mean = powers.iter().sum::<f64>() / powers.len().max(1) as f64;
    median(&mut powers) < SPARSE * mean
}

/// Whether samples pile up at either end of the scale.
pub(super) fn is_clipped(samples: &[f32]) -> bool {
    [1.0, -1.0].into_iter().any(|sign| {
        let most = samples.iter().fold(0.0_f32, |most, sample| most.max(sign * sample));
        let within = |from: f32, to: f32| {
            samples.iter().filter(|sample| (from * most..=to * most).contains(&(sign * **sample))).count()
        };
        let top = if most >= FULL { within(0.99, 1.0) } else { 0 };
        top > samples.len() / FEW + PILED && top > PILED * within(0.98, 0.99)
    })
}
