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
