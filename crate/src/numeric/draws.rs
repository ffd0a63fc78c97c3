//! Random numbers that a seed gives again.

use rand_pcg::Pcg32;
use rand_pcg::rand_core::Rng;

/// Random numbers between 0 and 1, evenly spread: the same for the same seed on
/// every machine (generator PCG XSH RR 64/32).
#[derive(Debug)]
pub struct Draws(Pcg32);

impl Draws {
    /// The numbers of a seed.
    pub fn new(seed: u32) -> Self {
        // The stream is that of the generator's own reference implementation.
        Self(Pcg32::new(seed.into(), 0xa02_bdbf_7bb3_c0a7))
    }

    /// The next number, at least 0 and less than 1, in steps of 2⁻⁵³.
    pub fn share(&mut self) -> f64 {
        const STEP: f64 = 1.0 / (1_u64 << 53) as f64;
        (self.0.next_u64() >> 11) as f64 * STEP
    }

    /// The next number from `from` to `to`.
    pub fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.share()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Evenly spread from 0 up to 1: of 10,000 the least, the most and the mean lie
    /// where those of an even distribution do, the mean with a deviation of
    /// 1/√(12·10,000) (any text on probability).
    #[test]
    fn evenly_spread_up_to_one() {
        let mut draws = Draws::new(1);
        let drawn: Vec<_> = (0..10_000).map(|_| draws.share()).collect();
        let least = drawn.iter().copied().fold(1.0, f64::min);
        let most = drawn.iter().copied().fold(0.0, f64::max);
        let mean = drawn.iter().sum::<f64>() / 10_000.0;
        assert!((0.0..0.002).contains(&least) && (0.998..1.0).contains(&most), "{least} {most}");
        assert!((mean - 0.5).abs() < 4.0 / 120_000_f64.sqrt(), "{mean}");
    }
}
