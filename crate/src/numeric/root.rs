//! Roots of continuous functions of one variable.

/// The root of `function` between `a` and `b`, whose values there have opposite
/// signs, by bisection sped up with the Illinois form of false position (Dowell
/// and Jarratt, BIT 11, 1971). Ends when the bracket is `tolerance` wide. Gives
/// nothing where the signs agree or a value is not a number.
pub fn bracketed_root(function: impl Fn(f64) -> f64, a: f64, b: f64, tolerance: f64) -> Option<f64> {
    // Compiled once for all functions: small where it is downloaded.
    bracketed(&function, a, b, tolerance)
}

fn bracketed(function: &dyn Fn(f64) -> f64, a: f64, b: f64, tolerance: f64) -> Option<f64> {
    let (mut a, mut b) = (a, b);
    let (mut fa, mut fb) = (function(a), function(b));
    if fa == 0.0 {
        return Some(a);
    }
    if fb == 0.0 {
        return Some(b);
    }
    if fa.is_nan() || fb.is_nan() || (fa < 0.0) == (fb < 0.0) {
        return None;
    }
    // The values as false position sees them: halved on the side that stays.
    let (mut wa, mut wb) = (fa, fb);
    for round in 0..200 {
        if (b - a).abs() <= tolerance {
            break;
        }
        // Every fourth step halves, so that the bracket always shrinks.
        let slope = wb - wa;
        let x =
            if round % 4 == 3 || slope == 0.0 || !slope.is_finite() { 0.5 * (a + b) } else { b - wb * (b - a) / slope };
        let x = if x > a.min(b) && x < a.max(b) { x } else { 0.5 * (a + b) };
        let fx = function(x);
        if fx == 0.0 {
            return Some(x);
        }
        if fx.is_nan() {
            return None;
        }
        if fx * fb < 0.0 {
            (a, fa, wa) = (b, fb, fb);
        } else {
            wa *= 0.5;
        }
        (b, fb, wb) = (x, fx, fx);
        if fa * fb > 0.0 {
            return None;
        }
    }
    Some(if fa.abs() < fb.abs() { a } else { b })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::cell::Cell;

    /// The root and how often the function was asked for it.
    fn root(function: impl Fn(f64) -> f64, a: f64, b: f64) -> (Option<f64>, u32) {
        let asked = Cell::new(0);
        let counted = |x: f64| {
            asked.set(asked.get() + 1);
            function(x)
        };
        (bracketed_root(counted, a, b, 1e-12), asked.get())
    }

    /// Roots known in closed form, from either side, rising and falling. Bisection alone
    /// takes 40 and more steps to 1e-12; the Illinois form, of order 1.442 (Dowell and
    /// Jarratt 1971), needs a third of them where a function is smooth.
    #[test]
    fn roots_in_closed_form() {
        for (name, function, a, b, expected) in [
            ("x² − 2", (|x| x * x - 2.0) as fn(f64) -> f64, 0.0, 2.0, std::f64::consts::SQRT_2),
            ("2 − x²", |x| 2.0 - x * x, 0.0, 2.0, std::f64::consts::SQRT_2),
            ("cos x − x", |x| x.cos() - x, 0.0, 1.5, 0.739_085_133_215_160_7),
            ("eˣ − 3", |x| x.exp() - 3.0, -1.0, 4.0, 3_f64.ln()),
            ("ln x", f64::ln, 0.2, 9.0, 1.0),
        ] {
            for (a, b) in [(a, b), (b, a)] {
                let (found, asked) = root(function, a, b);
                assert!((found.unwrap() - expected).abs() <= 2e-12, "{name}: {found:?} is not {expected}");
                assert!(asked <= 20, "{name}: {asked} steps");
            }
        }
        // A step has no slope to go by, and is halved in to its edge.
        let (step, asked) = root(|x| if x < 0.3 { -1.0 } else { 1e6 }, 0.0, 1.0);
        assert!((step.unwrap() - 0.3).abs() <= 1e-11 && asked < 203, "{step:?} in {asked} steps");
    }

    /// An end that is a root is one; without a change of sign there is none, and none
    /// where the function ends on the way.
    #[test]
    fn no_root_without_a_change_of_sign() {
        assert_eq!(root(|x| x, 0.0, 1.0), (Some(0.0), 2));
        assert_eq!(root(|x| x - 1.0, 0.0, 1.0), (Some(1.0), 2));
        for function in [|x: f64| x * x + 1.0, |x: f64| -x * x - 1.0, f64::sqrt, |x: f64| (-x).sqrt()] {
            assert_eq!(root(function, -2.0, 1.0).0, None);
        }
        // Nothing is known of an end without a value, whatever lies beside it.
        assert_eq!(root(|x| if x == -2.0 { f64::NAN } else { -1.0 - x * x }, -2.0, 1.0).0, None);
        assert_eq!(root(|x| if (0.4..0.6).contains(&x) { f64::NAN } else { x - 0.5 }, 0.0, 1.0).0, None);
    }
}
