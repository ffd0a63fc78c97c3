//! How probable each cause is.

/// How probable each of some causes is, by their places; together they make one.
#[derive(Clone, Debug, PartialEq)]
pub struct Odds(Vec<f64>);

impl Odds {
    /// The odds that are as these weights are to each other; nothing where none of them
    /// is more than zero, or one is negative or no number.
    pub fn of(weights: &[f64]) -> Option<Self> {
        let sum: f64 = weights.iter().sum();
        let are_weights = weights.iter().all(|weight| *weight >= 0.0) && sum > 0.0 && sum.is_finite();
        are_weights.then(|| Self(weights.iter().map(|weight| weight / sum).collect()))
    }

    /// How probable an outcome was that each cause has with this likelihood, and the odds
    /// after it (Bayes); nothing where no cause can have it.
    pub fn given(&self, likelihoods: &[f64]) -> Option<(f64, Self)> {
        let joint: Vec<_> = self.0.iter().zip(likelihoods).map(|(share, likelihood)| share * likelihood).collect();
        Self::of(&joint).map(|odds| (joint.iter().sum(), odds))
    }

    /// How probable each cause is.
    pub fn shares(&self) -> &[f64] {
        &self.0
    }
}

/// What is not known where things are so probable, bits (Shannon's entropy).
pub fn bits(shares: &[f64]) -> f64 {
    shares.iter().filter(|share| **share > 0.0).map(|share| -share * share.log2()).sum()
}
