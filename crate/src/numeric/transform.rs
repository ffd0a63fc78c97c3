//! The Fourier transform of real samples.

use crate::Complex64;
use std::f64::consts::TAU;

/// The Fourier transform of so many real samples, a power of two: decimation in time,
/// radix two (Cooley and Tukey, Math. Comp. 19, 1965), of half the length, since two
/// samples go as one complex number. Own, because a library that plans for every length
/// weighs twenty times as much where it is downloaded.
#[derive(Debug)]
pub(crate) struct Transform {
    /// exp(−j·2π·k/length) for the first half of a turn.
    turns: Vec<Complex64>,
}

impl Transform {
    /// For the greatest power of two up to `length`, and 4 at least.
    pub(crate) fn new(length: usize) -> Self {
        let length = (1_usize << length.max(4).ilog2()) as f64;
        let turn = |k: usize| Complex64::cis(-TAU * k as f64 / length);
        Self { turns: (0..length as usize / 2).map(turn).collect() }
    }

    /// How many samples it transforms.
    pub(crate) fn length(&self) -> usize {
        2 * self.turns.len()
    }

    /// The spectrum from zero up to below half the sample rate: Σ x·exp(−j·2π·k·i/length).
    /// Samples that are missing count as 0.
    pub(crate) fn of(&self, samples: impl IntoIterator<Item = f64>) -> Vec<Complex64> {
        let half = self.turns.len();
        let mut samples = samples.into_iter();
        let mut next = || samples.next().unwrap_or(0.0);
        let mut values: Vec<_> = (0..half).map(|_| Complex64::new(next(), next())).collect();
        self.complex(&mut values);
        // The two halves of the samples are what is even and what is odd of the spectrum.
        (0..half)
            .map(|k| {
                let (here, there) = (values[k], values[(half - k) % half].conj());
                let (even, odd) = ((here + there) * 0.5, (here - there) * Complex64::new(0.0, -0.5));
                even + self.turns[k] * odd
            })
            .collect()
    }

    /// The spectrum of so many complex values as half of its length, in their place.
    pub(crate) fn complex(&self, values: &mut [Complex64]) {
        let count = values.len();
        let unused = usize::BITS - count.ilog2();
        for i in 0..count {
            let j = i.reverse_bits() >> unused;
            if i < j {
                values.swap(i, j);
            }
        }
        let mut size = 2;
        while size <= count {
            let stride = self.length() / size;
            for block in values.chunks_exact_mut(size) {
                let (low, high) = block.split_at_mut(size / 2);
                for ((a, b), turn) in low.iter_mut().zip(high).zip(self.turns.iter().step_by(stride)) {
                    let turned = *b * turn;
                    *b = *a - turned;
                    *a += turned;
                }
            }
            size *= 2;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numeric::Draws;

    /// The same as the sum that defines it, and Parseval's theorem with half of the
    /// spectrum mirrored.
    #[test]
    fn as_defined() {
        let mut draws = Draws::new(3);
        for length in [4, 8, 64, 256] {
            let samples: Vec<_> = (0..length).map(|_| draws.between(-1.0, 1.0)).collect();
            let got = Transform::new(length).of(samples.iter().copied());
            let sum = |k: usize| -> Complex64 {
                let turned = |(i, x): (usize, &f64)| Complex64::cis(-TAU * (i * k) as f64 / length as f64) * x;
                samples.iter().enumerate().map(turned).sum()
            };
            for (k, got) in got.iter().enumerate() {
                assert!((got - sum(k)).norm() < 1e-12 * length as f64, "{length} {k}");
            }
            let power: f64 = samples.iter().map(|x| x * x).sum();
            let mirrored: f64 = got.iter().skip(1).map(|x| 2.0 * x.norm_sqr()).sum();
            let all = got[0].norm_sqr() + mirrored + sum(length / 2).norm_sqr();
            assert!((all / length as f64 - power).abs() < 1e-12 * power, "{all} {power}");
        }
    }

    /// A length that is no power of two is cut to one, and what is missing is silence.
    #[test]
    fn of_any_length() {
        assert_eq!(Transform::new(0).length(), 4);
        assert_eq!(Transform::new(1000).length(), 512);
        assert!(Transform::new(8).of([]).iter().all(|x| x.norm() == 0.0));
    }
}
