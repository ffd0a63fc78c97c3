//! The order in which to try cures, when nothing but cures is left.

use super::case::Case;
use super::odds::Odds;

/// A cure that may help.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repair {
    /// Its number.
    pub cure: usize,
    /// How probable it is to help.
    pub share: f64,
    /// How long it takes, and to see whether it helped, minutes.
    pub minutes: f64,
}

/// The cures in the order in which to try them: by how probable each is to help for its
/// minutes (Kadane and Simon), those that cannot help left out.
pub fn repairs(case: &Case, odds: &Odds) -> Vec<Repair> {
    let shares = case.cures(odds).into_iter().enumerate().filter(|(_, share)| *share > 0.0);
    let mut order: Vec<_> = shares
        .map(|(cure, share)| {
            let takes = case.causes.iter().filter(|cause| cause.cure == cure).map(|cause| cause.repair);
            Repair { cure, share, minutes: takes.fold(f64::INFINITY, f64::min) }
        })
        .collect();
    order.sort_by(|a, b| (b.share / b.minutes).total_cmp(&(a.share / a.minutes)));
    order
}

/// How long it takes on average until the right one is tried, minutes.
pub fn repair_minutes(order: &[Repair]) -> f64 {
    let mut left = 1.0;
    let mut minutes = 0.0;
    for repair in order {
        minutes += left * repair.minutes;
        left -= repair.share;
    }
    minutes
}
