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
