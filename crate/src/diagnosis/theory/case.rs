//! A fault to be found: its causes, and what can be done to tell them apart.

use super::odds::{Odds, bits};

/// What is wrong, and how to find out.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// What may be wrong; one of them is.
    pub causes: Vec<Cause>,
    /// What can be done, in no order.
    pub tests: Vec<Test>,
}

/// One thing that may be wrong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cause {
    /// How common it is beside the others.
    pub weight: f64,
    /// Its cure: causes of the same cure need not be told apart.
    pub cure: usize,
    /// How long that takes, and to see whether it helped, minutes.
    pub repair: f64,
}

/// One thing to do and look at.
#[derive(Clone, Debug, PartialEq)]
pub struct Test {
    /// How long it takes, minutes.
    pub minutes: f64,
    /// By outcome, how probable it is with each of the causes.
    pub outcomes: Vec<Vec<f64>>,
}

impl Case {
    /// The weights of the causes.
    pub fn weights(&self) -> Vec<f64> {
        self.causes.iter().map(|cause| cause.weight).collect()
    }

    /// The numbers of cures are below this.
    pub(super) fn count(&self) -> usize {
        self.causes.iter().map(|cause| cause.cure + 1).max().unwrap_or(0)
    }

    /// How probable each cure is to help, by its number.
    pub fn cures(&self, odds: &Odds) -> Vec<f64> {
        let mut shares = vec![0.0; self.count()];
        for (cause, share) in self.causes.iter().zip(odds.shares()) {
            shares[cause.cure] += share;
        }
        shares
    }

    /// The cure that is most probable to help, and how probable that is.
    pub fn likeliest_cure(&self, odds: &Odds) -> (usize, f64) {
        let cures = self.cures(odds).into_iter().enumerate();
        cures.fold((0, 0.0), |best, one| if one.1 > best.1 { one } else { best })
    }

    /// What is not known of the cure, bits: causes of one cure need not be told apart.
    pub fn bits(&self, odds: &Odds) -> f64 {
        bits(&self.cures(odds))
    }
}
