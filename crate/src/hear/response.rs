//! A response between and beyond the frequencies at which it is known.

use serde::Deserialize;

/// A response as the report of a calculator draws it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Response {
    /// Frequencies, rising, Hz.
    pub hz: Vec<f64>,
    /// The level at each, dB; NaN or −∞ where nothing passes.
    pub db: Vec<f64>,
}

/// Nothing is so much below the highest level, dB.
const SILENCE: f64 = 120.0;
/// The steepest that a response goes on beyond its ends, dB per octave.
const STEEPEST: f64 = 24.0;

/// A response with a curve through its points.
#[derive(Debug)]
pub(super) struct Curve {
    /// Octaves re 1 Hz, and dB.
    points: Vec<(f64, f64)>,
}

impl Curve {
    /// Through the points of a response that can be used; without any it is flat.
    pub(super) fn new(response: Option<&Response>) -> Self {
        let Some(response) = response else { return Self { points: Vec::new() } };
        let all = || response.hz.iter().copied().zip(response.db.iter().copied()).filter(|(hz, _)| *hz > 0.0);
        let most = all().map(|(_, db)| db).filter(|db| db.is_finite()).fold(f64::NEG_INFINITY, f64::max);
        let floor = if most.is_finite() { most - SILENCE } else { -SILENCE };
        let mut points: Vec<(f64, f64)> = Vec::with_capacity(response.hz.len());
        for (hz, db) in all() {
            let octave = hz.log2();
            if octave.is_finite() && points.last().is_none_or(|last| octave > last.0) {
                points.push((octave, if db.is_finite() { db.max(floor) } else { floor }));
            }
        }
        Self { points }
    }

    /// The level at a frequency in Hz, dB. Below its points it levels off towards zero
    /// frequency, above them it goes on as it ended.
    pub(super) fn at(&self, hz: f64) -> f64 {
        let (Some(first), Some(last)) = (self.points.first(), self.points.last()) else { return 0.0 };
        let octave = hz.max(1e-9).log2();
        if octave <= first.0 {
            // Even in frequency, so that it has no corner at zero, and as steep at its end.
            let drop = self.slope(0).clamp(-STEEPEST, STEEPEST) / (2.0 * std::f64::consts::LN_2);
            return first.1 - drop * (1.0 - (2.0 * (octave - first.0)).exp2());
        }
        if octave >= last.0 {
            let slope = self.slope(self.points.len() - 1).clamp(-STEEPEST, STEEPEST);
            return last.1 + slope * (octave - last.0);
        }
        self.between(self.points.partition_point(|point| point.0 < octave), octave)
    }

    /// Cubic, with the slopes of the parabolas through three points.
    fn between(&self, after: usize, octave: f64) -> f64 {
        let ((x0, y0), (x1, y1)) = (self.points[after - 1], self.points[after]);
        let span = x1 - x0;
        let (m0, m1) = (self.slope(after - 1) * span, self.slope(after) * span);
        let t = (octave - x0) / span;
        let (t2, t3) = (t * t, t * t * t);
        (2.0 * t3 - 3.0 * t2 + 1.0) * y0 + (t3 - 2.0 * t2 + t) * m0 + (3.0 * t2 - 2.0 * t3) * y1 + (t3 - t2) * m1
    }

    /// dB per octave at a point.
    fn slope(&self, at: usize) -> f64 {
        let straight = |from: usize, to: usize| match (self.points.get(from), self.points.get(to)) {
            (Some((x0, y0)), Some((x1, y1))) if x1 > x0 => Some(((y1 - y0) / (x1 - x0), x1 - x0)),
            _ => None,
        };
        match (at.checked_sub(1).and_then(|before| straight(before, at)), straight(at, at + 1)) {
            (Some((s0, d0)), Some((s1, d1))) => (s0 * d1 + s1 * d0) / (d0 + d1),
            (Some((slope, _)), None) | (None, Some((slope, _))) => slope,
            (None, None) => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A low pass of the second order with a Q of 5 at 3 kHz, with 80 points a decade as
    /// reports have them (its own formula), is met between them to 0.02 dB.
    #[test]
    fn between_points() {
        let level = |hz: f64| {
            let x: f64 = hz / 3e3;
            -10.0 * ((1.0 - x * x).powi(2) + (x / 5.0).powi(2)).log10()
        };
        let hz: Vec<_> = (0..241).map(|n| 20.0 * 1000_f64.powf(f64::from(n) / 240.0)).collect();
        let db = hz.iter().map(|hz| level(*hz)).collect();
        let curve = Curve::new(Some(&Response { hz, db }));
        for n in 0..5000 {
            let hz = 20.0 * 1000_f64.powf((f64::from(n) + 0.5) / 5000.0);
            assert!((curve.at(hz) - level(hz)).abs() < 0.02, "{hz}: {} {}", curve.at(hz), level(hz));
        }
    }

    /// What is not known is silence, and none of it is no number.
    #[test]
    fn of_anything() {
        for (hz, db) in [
            (vec![], vec![]),
            (vec![20.0], vec![f64::NAN]),
            (vec![20.0, 20.0, f64::NAN, -1.0, 40.0], vec![0.0, 1.0, 2.0, 3.0, f64::NEG_INFINITY]),
            (vec![1.0, f64::INFINITY], vec![0.0, f64::INFINITY]),
        ] {
            let curve = Curve::new(Some(&Response { hz, db }));
            for hz in [0.0, 1.0, 20.0, 30.0, 40.0, 1e5] {
                assert!(curve.at(hz).is_finite(), "{hz}");
            }
        }
    }
}
