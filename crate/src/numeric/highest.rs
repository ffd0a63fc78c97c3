//! The highest place of a function of one variable.

/// Each section leaves this share of the range, (√5 − 1)/2.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// Where `function` is highest between two places, by golden sections (Kiefer,
/// Proc. Amer. Math. Soc. 4, 1953): exact to 0.618^`sections` of the range where
/// it rises to one summit and falls from there, and somewhere on a summit
/// elsewhere. A value that is not a number counts as no lower than its neighbour.
pub fn highest(mut function: impl FnMut(f64) -> f64, from: f64, to: f64, sections: u32) -> f64 {
    // Compiled once for all functions: small where it is downloaded.
    section(&mut function, from, to, sections)
}

fn section(function: &mut dyn FnMut(f64) -> f64, mut from: f64, mut to: f64, sections: u32) -> f64 {
    let inside = |from: f64, to: f64| (to - GOLDEN * (to - from), from + GOLDEN * (to - from));
    let (mut low, mut high) = inside(from, to);
    let (mut at_low, mut at_high) = (function(low), function(high));
    for _ in 0..sections {
        if at_low > at_high {
            to = high;
            (high, at_high) = (low, at_low);
            low = inside(from, to).0;
            at_low = function(low);
        } else {
            from = low;
            (low, at_low) = (high, at_high);
            high = inside(from, to).1;
            at_high = function(high);
        }
    }
    0.5 * (from + to)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The level of a tuned circuit is highest at its resonance, wherever the
    /// range lies around it; a slope is highest at its end.
    #[test]
    fn finds_the_summit() {
        let tuned = |x: f64| 1.0 / (1.0 + 400.0 * (x - 1.0 / x).powi(2));
        assert!((highest(tuned, 0.5, 3.0, 30) - 1.0).abs() < 1e-6);
        assert!((highest(|x| -x, 2.0, 5.0, 48) - 2.0).abs() < 1e-9);
    }

    /// Each section costs one value, two the first.
    #[test]
    fn asks_once_a_section() {
        let mut asked = 0;
        highest(
            |x| {
                asked += 1;
                x
            },
            0.0,
            1.0,
            14,
        );
        assert_eq!(asked, 16);
    }
}
