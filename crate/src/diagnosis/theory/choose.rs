//! Which test comes next.
//!
//! A test is worth the bits that it is expected to tell. Of those that tell most a minute
//! the next one is the one with the fewest minutes until a cure is sure enough: by the
//! bits alone the order is some 9 % off the best there is (`crate/tests/fault_search.rs`).

use super::case::{Case, Test};
use super::odds::Odds;
use super::repairs::{repair_minutes, repairs};

/// What a test is expected to tell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gain {
    /// Its place among the tests.
    pub test: usize,
    /// What it tells on average, bits.
    pub bits: f64,
    /// The same for each of its minutes.
    pub rate: f64,
}

/// Nobody does anything for less than this, bits.
const NOTHING: f64 = 0.02;
/// Of the tests that tell at least so much of the most a minute, the one with the fewest
/// minutes to come is next.
const AS_GOOD: f64 = 0.7;

/// What a test is expected to tell of the cure, bits: what is not known now less what
/// will not be known after it, on average.
pub fn expected_bits(case: &Case, test: usize, odds: &Odds) -> f64 {
    (case.bits(odds) - bits_after(case, test, odds, &mut Vec::new())).max(0.0)
}

/// What will not be known of the cure after a test, on average, bits: for each outcome of
/// probability p after which the cures are as c to each other, p·log p − Σ c·log c.
fn bits_after(case: &Case, test: usize, odds: &Odds, cures: &mut Vec<f64>) -> f64 {
    let unknown = |joint: f64| if joint > 0.0 { -joint * joint.log2() } else { 0.0 };
    let mut bits = 0.0;
    for likelihoods in &case.tests[test].outcomes {
        cures.clear();
        cures.resize(case.count(), 0.0);
        for ((cause, share), likelihood) in case.causes.iter().zip(odds.shares()).zip(likelihoods) {
            cures[cause.cure] += share * likelihood;
        }
        bits += cures.iter().map(|joint| unknown(*joint)).sum::<f64>() - unknown(cures.iter().sum());
    }
    bits
}

/// The outcomes that are possible, each with how probable it is and the odds after it.
pub fn outcomes<'a>(test: &'a Test, odds: &'a Odds) -> impl Iterator<Item = (usize, f64, Odds)> + 'a {
    let after = |(outcome, likelihoods): (usize, &Vec<f64>)| {
        odds.given(likelihoods).map(|(probability, odds)| (outcome, probability, odds))
    };
    test.outcomes.iter().enumerate().filter_map(after)
}

/// The tests that would tell something, the one that tells most a minute first. Those of
/// `done` are left out.
pub fn gains(case: &Case, odds: &Odds, done: &[usize]) -> Vec<Gain> {
    let before = case.bits(odds);
    let mut cures = Vec::new();
    let mut gains: Vec<_> = (0..case.tests.len())
        .filter(|test| !done.contains(test))
        .map(|test| {
            let bits = before - bits_after(case, test, odds, &mut cures);
            Gain { test, bits, rate: bits / case.tests[test].minutes }
        })
        .filter(|gain| gain.bits > NOTHING)
        .collect();
    gains.sort_by(|a, b| b.rate.total_cmp(&a.rate));
    gains
}

/// So many of the tests that tell most a minute are thought through.
const THOUGHT_THROUGH: usize = 5;
/// What is less probable than this is not thought through any further.
const IMPROBABLE: f64 = 0.04;

/// The next test, with the minutes on average until a cure is as probable as `enough`: of
/// the few that tell about the most a minute, the one with the fewest, where after it the
/// order of the largest information a minute goes on. Nothing where no test tells anything.
pub fn ahead(case: &Case, odds: &Odds, done: &[usize], enough: f64) -> Option<(usize, f64)> {
    let gains = gains(case, odds, done);
    let least = AS_GOOD * gains.first()?.rate;
    let tests = gains.into_iter().take(THOUGHT_THROUGH).take_while(|gain| gain.rate >= least).map(|gain| {
        let done: Vec<_> = done.iter().copied().chain([gain.test]).collect();
        let after = outcomes(&case.tests[gain.test], odds);
        let rest = after.map(|(_, share, odds)| share * minutes_on(case, &odds, &done, enough, share));
        (gain.test, case.tests[gain.test].minutes + rest.sum::<f64>())
    });
    tests.min_by(|a, b| a.1.total_cmp(&b.1))
}

/// Minutes on average until a cure is sure enough, in the order of the largest
/// information a minute; `share` is how probable it is to get here at all.
fn minutes_on(case: &Case, odds: &Odds, done: &[usize], enough: f64, share: f64) -> f64 {
    if case.likeliest_cure(odds).1 >= enough {
        return 0.0;
    }
    if share < IMPROBABLE {
        return repair_minutes(&repairs(case, odds));
    }
    let Some(gain) = gains(case, odds, done).first().copied() else { return repair_minutes(&repairs(case, odds)) };
    let done: Vec<_> = done.iter().copied().chain([gain.test]).collect();
    let after = outcomes(&case.tests[gain.test], odds);
    let rest = after.map(|(_, part, odds)| part * minutes_on(case, &odds, &done, enough, share * part));
    case.tests[gain.test].minutes + rest.sum::<f64>()
}

/// Minutes on average until a cure is as probable as `enough`, or, where no test tells
/// anything, the right one was tried, with the best policy that there is, found by trying all: for few tests only.
pub fn least_minutes(case: &Case, odds: &Odds, enough: f64) -> f64 {
    least_from(case, odds, &[], enough)
}

fn least_from(case: &Case, odds: &Odds, done: &[usize], enough: f64) -> f64 {
    if case.likeliest_cure(odds).1 >= enough {
        return 0.0;
    }
    let minutes = gains(case, odds, done).into_iter().map(|gain| {
        let done: Vec<_> = done.iter().copied().chain([gain.test]).collect();
        let after = outcomes(&case.tests[gain.test], odds);
        let rest = after.map(|(_, share, odds)| share * least_from(case, &odds, &done, enough));
        case.tests[gain.test].minutes + rest.sum::<f64>()
    });
    minutes.min_by(f64::total_cmp).unwrap_or_else(|| repair_minutes(&repairs(case, odds)))
}
