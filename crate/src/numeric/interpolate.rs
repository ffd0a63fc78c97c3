//! A height between two samples.

/// The height at `x` of a curve with these samples, straight between them; with
/// `log`, straight over the logarithm of `x`. NaN beyond its ends.
pub fn interpolate(along: &[f64], heights: &[f64], x: f64, log: bool) -> f64 {
    let after = along.partition_point(|place| *place < x);
    let point = |i: usize| along.get(i).copied().zip(heights.get(i).copied());
    match (after.checked_sub(1).and_then(point), point(after)) {
        (_, Some((x1, y1))) if x1 == x => y1,
        (Some((x0, y0)), Some((x1, y1))) => {
            let share = if log { (x / x0).ln() / (x1 / x0).ln() } else { (x - x0) / (x1 - x0) };
            y0 + share * (y1 - y0)
        }
        _ => f64::NAN,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn straight_between_samples() {
        let at = |x, log| interpolate(&[10.0, 1000.0], &[0.0, 6.0], x, log);
        assert!((at(505.0, false) - 3.0).abs() < 1e-12);
        // 100 is halfway from 10 to 1000 on a log scale.
        assert!((at(100.0, true) - 3.0).abs() < 1e-12);
        assert!(at(10.0, true) == 0.0 && at(9.0, true).is_nan() && at(1001.0, false).is_nan());
    }
}
