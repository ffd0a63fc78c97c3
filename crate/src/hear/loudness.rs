//! How loud a sound is: ITU-R BS.1770, of one channel.

use std::f64::consts::PI;

/// Absolute gate, LUFS, and how far below the ungated loudness the relative one lies, LU
/// (BS.1770, from memory).
const ABSOLUTE: f64 = -70.0;
const RELATIVE: f64 = 10.0;
/// Of a sine of 997 Hz at full scale: −3.01 LUFS (BS.1770).
const OFFSET: f64 = -0.691;

/// A filter of the second order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighting {
    /// Of what comes in: now, one and two samples ago.
    pub b: [f64; 3],
    /// Of what went out one and two samples ago, subtracted.
    pub a: [f64; 2],
}

impl Weighting {
    /// The two stages of the K weighting at a sample rate in Hz: BS.1770 tabulates them at
    /// 48 kHz alone; these are the analogue filters of which those are the bilinear
    /// transform, found by solving the table for them.
    pub fn k(rate: f64) -> [Self; 2] {
        [Self::head(rate), Self::low(rate)]
    }

    /// A shelf of 4 dB: the head.
    fn head(rate: f64) -> Self {
        const HZ: f64 = 1_681.974_450_955_533;
        const GAIN: f64 = 3.999_843_853_973_347;
        const Q: f64 = 0.707_175_236_955_419_6;
        let k = (PI * HZ / rate).tan();
        let high = 10_f64.powf(GAIN / 20.0);
        let middle = high.powf(0.499_666_774_154_541_6);
        let all = 1.0 + k / Q + k * k;
        Self {
            b: [
                (high + middle * k / Q + k * k) / all,
                2.0 * (k * k - high) / all,
                (high - middle * k / Q + k * k) / all,
            ],
            a: [2.0 * (k * k - 1.0) / all, (1.0 - k / Q + k * k) / all],
        }
    }

    /// A high pass: what is low is less loud.
    fn low(rate: f64) -> Self {
        const HZ: f64 = 38.135_470_876_024_44;
        const Q: f64 = 0.500_327_037_323_877_3;
        let k = (PI * HZ / rate).tan();
        let all = 1.0 + k / Q + k * k;
        Self { b: [1.0, -2.0, 1.0], a: [2.0 * (k * k - 1.0) / all, (1.0 - k / Q + k * k) / all] }
    }
}

/// A weighting that runs.
struct Running {
    weighting: Weighting,
    state: [f64; 2],
}

impl Running {
    fn next(&mut self, x: f64) -> f64 {
        let Weighting { b, a } = self.weighting;
        let y = b[0] * x + self.state[0];
        self.state = [b[1] * x - a[0] * y + self.state[1], b[2] * x - a[1] * y];
        y
    }
}

/// The integrated loudness, LUFS; −∞ for silence and for less than 0.4 s.
pub fn loudness(samples: &[f32], rate: f64) -> f64 {
    let mut stages = Weighting::k(rate).map(|weighting| Running { weighting, state: [0.0; 2] });
    // Blocks of 0.4 s that begin every 0.1 s: four quarters each.
    let quarter = (rate / 10.0).round().max(1.0) as usize;
    let quarters: Vec<f64> = samples
        .chunks_exact(quarter)
        .map(|chunk| {
            let power = |sample: &f32| {
                let [head, low] = &mut stages;
                low.next(head.next(f64::from(*sample))).powi(2)
            };
            chunk.iter().map(power).sum()
        })
        .collect();
    let blocks: Vec<f64> = quarters.windows(4).map(|four| four.iter().sum::<f64>() / (4 * quarter) as f64).collect();
    let relative = level(gated(&blocks, ABSOLUTE)) - RELATIVE;
    level(gated(&blocks, relative.max(ABSOLUTE)))
}

/// The mean power of the blocks above a loudness.
fn gated(blocks: &[f64], gate: f64) -> f64 {
    let loud = || blocks.iter().filter(|power| level(**power) > gate);
    let count = loud().count();
    if count == 0 { 0.0 } else { loud().sum::<f64>() / count as f64 }
}

fn level(power: f64) -> f64 {
    OFFSET + 10.0 * power.log10()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The coefficients that BS.1770 tabulates at 48 kHz (tables 1 and 2, from memory).
    #[test]
    fn as_tabulated() {
        let [head, low] = Weighting::k(48e3);
        let near = |got: f64, told: f64| assert!((got - told).abs() < 1e-9, "{got} {told}");
        for (got, told) in head.b.iter().zip([1.535_124_859_586_97, -2.691_696_189_406_38, 1.198_392_810_852_85]) {
            near(*got, told);
        }
        for (got, told) in head.a.iter().zip([-1.690_659_293_182_41, 0.732_480_774_215_85]) {
            near(*got, told);
        }
        for (got, told) in low.a.iter().zip([-1.990_047_454_833_98, 0.990_072_250_366_21]) {
            near(*got, told);
        }
        assert_eq!(low.b, [1.0, -2.0, 1.0]);
    }

    /// A sine of 997 Hz at full scale is −3.01 LUFS (BS.1770), whatever the rate.
    #[test]
    fn of_a_sine() {
        for rate in [44.1e3, 48e3, 96e3] {
            let samples: Vec<_> =
                (0..rate as usize).map(|i| (2.0 * PI * 997.0 * i as f64 / rate).sin() as f32).collect();
            let got = loudness(&samples, rate);
            assert!((got + 3.01).abs() < 0.02, "{rate}: {got}");
        }
        assert_eq!(loudness(&vec![0.0; 48_000], 48e3), f64::NEG_INFINITY);
        assert_eq!(loudness(&[], 48e3), f64::NEG_INFINITY);
    }
}
