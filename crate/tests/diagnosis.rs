//! Odds, what a test tells, and the order of cures, against published examples.
#![allow(clippy::unwrap_used, clippy::panic, clippy::expect_used)]

use stageohm::diagnosis::theory::{Case, Cause, Odds, Test, expected_bits, repair_minutes, repairs};

fn near(got: f64, expected: f64, within: f64) {
    assert!((got - expected).abs() <= within, "{got} is not {expected}");
}

/// The three repairs of the P-over-C rule with p = 0.5, 0.3, 0.2 and 10, 2 and 1 minutes:
/// 3, 2, 1 takes 7.6 on average and 1, 2, 3 takes 11.2 (after Kadane and Simon).
#[test]
fn cures_by_odds_over_minutes() {
    let causes =
        [(0, 0.5, 10.0), (1, 0.3, 2.0), (2, 0.2, 1.0)].map(|(cure, weight, repair)| Cause { weight, cure, repair });
    let case = Case { causes: causes.to_vec(), tests: vec![] };
    let odds = Odds::of(&case.weights()).unwrap();
    let order = repairs(&case, &odds);
    assert_eq!(order.iter().map(|repair| repair.cure).collect::<Vec<_>>(), [2, 1, 0]);
    near(repair_minutes(&order), 7.6, 1e-12);
    let others: Vec<_> = order.into_iter().rev().collect();
    near(repair_minutes(&others), 11.2, 1e-12);
}

/// One in a hundred has it, 80 % of those test positive, and 9.6 % of the others: a
/// positive test means 7.8 % (Eddy 1982, in Judgment under Uncertainty, from memory).
#[test]
fn odds_after_an_outcome() {
    let odds = Odds::of(&[1.0, 99.0]).unwrap();
    let (probability, after) = odds.given(&[0.8, 0.096]).unwrap();
    near(probability, 0.10304, 1e-12);
    near(after.shares()[0], 0.0776, 5e-5);
    near(after.shares().iter().sum(), 1.0, 1e-15);
    assert_eq!(odds.given(&[0.0, 0.0]), None);
}

/// Fourteen mornings, nine of one kind: 0.940 bits, of which outlook tells 0.246,
/// humidity 0.151, wind 0.048 and temperature 0.029 (Quinlan, Induction of Decision
/// Trees, Machine Learning 1, 1986, from memory).
#[test]
fn bits_that_a_test_tells() {
    let causes = [(0, 9.0), (1, 5.0)].map(|(cure, weight)| Cause { weight, cure, repair: 1.0 }).to_vec();
    let odds = Odds::of(&[9.0, 5.0]).unwrap();
    let case = |tests| Case { causes: causes.clone(), tests };
    near(case(vec![]).bits(&odds), 0.940, 5e-4);
    let counted = |counts: &[[f64; 2]]| Test {
        minutes: 1.0,
        outcomes: counts.iter().map(|[yes, no]| vec![yes / 9.0, no / 5.0]).collect(),
    };
    for (counts, bits) in [
        (vec![[2.0, 3.0], [4.0, 0.0], [3.0, 2.0]], 0.246),
        (vec![[3.0, 4.0], [6.0, 1.0]], 0.151),
        (vec![[6.0, 2.0], [3.0, 3.0]], 0.048),
        (vec![[2.0, 2.0], [4.0, 2.0], [3.0, 1.0]], 0.029),
    ] {
        near(expected_bits(&case(vec![counted(&counts)]), 0, &odds), bits, 1e-3);
    }
}
