//! The impulse response of minimum phase that has a given magnitude.

use super::response::{Curve, Response};
use crate::Complex64;
use crate::numeric::Transform;
use std::f64::consts::{LN_10, PI};

/// How long it is, samples.
pub const LENGTH: usize = 1 << 14;
/// Points of the spectrum it is made from: enough that aliasing of the cepstrum is
/// negligible.
const POINTS: usize = 1 << 16;

/// The impulse response at a sample rate in Hz; of no response, an impulse.
///
/// By the real cepstrum, folded (Oppenheim and Schafer, Discrete-Time Signal
/// Processing, from memory).
pub fn impulse(response: Option<&Response>, rate: f64) -> Vec<f64> {
    let curve = Curve::new(response);
    let transform = Transform::new(2 * POINTS);
    let mut values: Vec<_> = (0..POINTS)
        .map(|k| {
            let hz = k.min(POINTS - k) as f64 * rate / POINTS as f64;
            Complex64::from(curve.at(hz) * LN_10 / 20.0)
        })
        .collect();
    // Even and real: forwards and backwards are the same.
    transform.complex(&mut values);
    let half = POINTS / 2;
    for (k, value) in values.iter_mut().enumerate() {
        let folded = match k {
            0 => 1.0,
            k if k == half => 1.0,
            k if k < half => 2.0,
            _ => 0.0,
        };
        *value = Complex64::from(value.re * folded / POINTS as f64);
    }
    transform.complex(&mut values);
    for value in &mut values {
        *value = value.exp();
    }
    back(&transform, &mut values);
    let faded = LENGTH / 4;
    values
        .iter()
        .take(LENGTH)
        .enumerate()
        .map(|(i, value)| {
            let left = (LENGTH - i) as f64 / faded as f64;
            if left < 1.0 { value.re * (0.5 - 0.5 * (PI * left).cos()) } else { value.re }
        })
        .collect()
}

/// From a spectrum to what it is of, in its place.
pub(super) fn back(transform: &Transform, values: &mut [Complex64]) {
    let count = values.len() as f64;
    for value in &mut *values {
        *value = value.conj();
    }
    transform.complex(values);
    for value in &mut *values {
        *value = value.conj() / count;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Of no response, an impulse: nothing is changed.
    #[test]
    fn of_nothing() {
        let impulse = impulse(None, 48e3);
        assert!((impulse[0] - 1.0).abs() < 1e-12);
        assert!(impulse.iter().skip(1).all(|x| x.abs() < 1e-12));
    }

    /// A low pass of the first order at 1 kHz has minimum phase: its impulse response is
    /// e^(−t/τ), which falls to 1/e within τ = 1/(2π·1 kHz) (any text on networks).
    #[test]
    fn of_minimum_phase() {
        let hz: Vec<_> = (0..241).map(|n| 20.0 * 1000_f64.powf(f64::from(n) / 240.0)).collect();
        let db = hz.iter().map(|hz| -10.0 * (1.0 + (hz / 1e3_f64).powi(2)).log10()).collect();
        let impulse = impulse(Some(&Response { hz, db }), 48e3);
        let fall = (impulse[20] / impulse[10]).ln();
        let wanted = -10.0 / 48e3 * 2.0 * PI * 1e3;
        assert!((fall / wanted - 1.0).abs() < 0.03, "{fall} {wanted}");
        assert!(impulse[200].abs() < 1e-3 * impulse[1], "{}", impulse[200]);
    }
}
