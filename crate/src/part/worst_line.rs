//! A balanced line whose imbalances may lie on either side.

use super::{BalancedLine, Drive, Receiver};
use crate::network::OnePort;

/// A balanced line of parts of which only the size of each imbalance is known: every
/// line that it can be. Which of them has the largest error hangs on the frequency,
/// since what a capacitor leaves out of balance stands at a right angle to what a
/// resistor does, or turned against another capacitor's.
///
/// Each imbalance is taken at its full size: in the error one alone is a ratio of two
/// sums that are linear in it, and small beside the rest, so that the size of the error
/// has its largest value at an end.
#[derive(Clone, Debug, PartialEq)]
pub struct WorstLine {
    first: BalancedLine,
    others: Vec<BalancedLine>,
}

/// The sides on which the receiver's resistance and its capacitance load more.
const SIDES: [[f64; 2]; 4] = [[1.0, 1.0], [1.0, -1.0], [-1.0, 1.0], [-1.0, -1.0]];

impl WorstLine {
    /// A line of these source impedances of the hot and cold leg, or of these others.
    pub fn new(drive: &Drive, legs: &[OnePort; 2], others: &[[OnePort; 2]], receiver: &Receiver) -> Self {
        let line = |legs: &[OnePort; 2], sides| BalancedLine::new(drive.clone(), legs.clone(), receiver, sides);
        let [first, rest @ ..] = SIDES;
        let of_first = rest.iter().map(|sides| line(legs, *sides));
        let of_others = others.iter().flat_map(|legs| SIDES.iter().map(move |sides| line(legs, *sides)));
        Self { first: line(legs, first), others: of_first.chain(of_others).collect() }
    }

    /// The line with the largest error at a frequency in Hz. Of two that only rounding
    /// tells apart it is the one that comes first.
    pub fn at(&self, frequency: f64) -> &BalancedLine {
        let mut worst = (&self.first, self.first.at(frequency).error);
        for line in &self.others {
            let error = line.at(frequency).error;
            if error > worst.1 * (1.0 + 1e-12) {
                worst = (line, error);
            }
        }
        worst.0
    }

    /// The least rejection of the voltage between the earths at a frequency in Hz, dB.
    pub fn rejection(&self, frequency: f64) -> f64 {
        self.at(frequency).rejection(frequency)
    }

    /// The same where the receiver has no error of its own.
    #[must_use]
    pub fn without_own(mut self) -> Self {
        for line in std::iter::once(&mut self.first).chain(&mut self.others) {
            line.own = None;
        }
        self
    }
}
