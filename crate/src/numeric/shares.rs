//! What each of several makes of a whole.

/// Steps in which all grow.
const STEPS: usize = 32;

/// The share of each of `count` in what they make together: what it adds while all of
/// them grow at once from nothing, 0, to the whole, 1 (R. J. Aumann and L. S. Shapley,
/// Values of Non-Atomic Games, 1974). `worth` is what such sizes make.
///
/// The steps are finer where there is little of anything, since it is there that much
/// changes. In each, one after the other grows, first to last and then last to first, so
/// that shares add up to the whole, whatever the steps are.
pub fn shares(count: usize, worth: impl Fn(&[f64]) -> f64) -> Vec<f64> {
    let mut shares = vec![0.0; count];
    let mut sizes = vec![0.0; count];
    for step in 0..STEPS {
        let [from, to] = [step, step + 1].map(|step| (step as f64 / STEPS as f64).powi(2));
        let mut grow = |order: &mut dyn Iterator<Item = usize>| {
            sizes.fill(from);
            let mut before = worth(&sizes);
            for one in order {
                sizes[one] = to;
                let after = worth(&sizes);
                shares[one] += (after - before) / 2.0;
                before = after;
            }
        };
        grow(&mut (0..count));
        grow(&mut (0..count).rev());
    }
    shares
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: &[f64], expected: &[f64], tolerance: f64) {
        assert_eq!(got.len(), expected.len());
        assert!(got.iter().zip(expected).all(|(a, b)| (a - b).abs() < tolerance), "{got:?} {expected:?}");
    }

    /// By hand, the integral over t of each slope at (t, t, …): of x·x·y it is 2·t² and
    /// t², of x·y·z all three alike; where all just add, everyone has its own.
    #[test]
    fn by_hand() {
        close(&shares(2, |size| 3.0 * size[0] * size[0] * size[1]), &[2.0, 1.0], 3e-3);
        close(&shares(3, |size| 3.0 * size.iter().product::<f64>()), &[1.0; 3], 3e-3);
        close(&shares(3, |size| 0.5 * size[0] - size[1] + 7.0 * size[2]), &[0.5, -1.0, 7.0], 1e-12);
        close(&shares(0, |_| 1.0), &[], 1e-12);
    }

    /// Where the second takes all that the first has left, and the first all that the
    /// second has, leaving either out changes nothing; both have a half.
    #[test]
    fn either_would_do() {
        let damped = |size: &[f64]| 1.0 - 1.0 / (1.0 + 1e3 * (size[0] + size[1]));
        let whole = damped(&[1.0, 1.0]);
        assert!(whole - damped(&[0.0, 1.0]) < 1e-3);
        close(&shares(2, damped), &[whole / 2.0; 2], 1e-9);
    }
}
