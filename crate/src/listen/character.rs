//! What the lines of the mains are like together.

use super::heard::HeardLine;
use super::lines::Measured;
use crate::quantity::level::{decibels_of_power, power_ratio};

/// Lines that make a slope.
const SLOPE: usize = 3;
/// Odd lines that are needed for a corner, and on either side of it.
const CORNER: usize = 12;
const SIDE: usize = 4;
/// Without the corner they fall by no more than this, dB an octave: an edge by 6, what
/// rises with frequency on its way in by less.
const BEFORE: f64 = 9.0;
/// Corners that are tried.
const TRIED: u32 = 60;
/// How much of what is off a slope may be off one with a corner.
const EXPLAINED: f64 = 0.5;

/// The odd lines from the third on re the even ones, dB.
pub(super) fn odd_even(measured: &Measured, lines: &[HeardLine]) -> Option<f64> {
    let last = lines.last()?.harmonic;
    let stands = |n: u32| lines.iter().any(|line| line.harmonic == n);
    let power = |n: u32| {
        let (power, noise) = measured.power(n);
        if stands(n) { power } else { noise }
    };
    let sum = |first: u32| (first..=last).step_by(2).map(power).sum::<f64>();
    (last > 1).then(|| decibels_of_power(sum(3).max(measured.power(3).1) / sum(2)))
}

/// The second line re the first, dB.
pub(super) fn ripple(measured: &Measured, lines: &[HeardLine]) -> Option<f64> {
    let second = lines.iter().find(|line| line.harmonic == 2)?;
    let first = lines.iter().find(|line| line.harmonic == 1);
    Some(second.level - first.map_or_else(|| decibels_of_power(measured.power(1).1), |line| line.level))
}

/// How the odd lines fall, dB an octave.
pub(super) fn slope(lines: &[HeardLine]) -> Option<f64> {
    let points = odd(lines);
    (points.len() >= SLOPE).then(|| Fit::of(&points).slope)
}

/// Where the odd lines bend down, Hz: the corner of a slope with a pole that fits them much
/// better than a slope alone.
pub(super) fn corner(lines: &[HeardLine]) -> Option<f64> {
    let points = odd(lines);
    let (first, last) = (points.get(SIDE)?.0, points.get(points.len().checked_sub(SIDE + 1)?)?.0);
    let straight = |octave: f64| {
        let raised = |point: &(f64, f64)| {
            let past = (2.0 * (point.0 - octave)).exp2();
            (point.0, point.1 + decibels_of_power(1.0 + past))
        };
        (octave, Fit::of(&points.iter().map(raised).collect::<Vec<_>>()))
    };
    let tried = (0..TRIED).map(|i| straight(first + (last - first) * f64::from(i) / f64::from(TRIED - 1)));
    let (octave, fit) = tried.min_by(|a, b| a.1.rest.total_cmp(&b.1.rest))?;
    let much = points.len() >= CORNER && fit.rest < EXPLAINED * Fit::of(&points).rest;
    (much && fit.slope > -BEFORE && first < octave && octave < last).then(|| octave.exp2())
}

/// Octaves above 1 Hz and levels of the odd lines.
fn odd(lines: &[HeardLine]) -> Vec<(f64, f64)> {
    lines.iter().filter(|line| line.harmonic % 2 == 1).map(|line| (line.hz.log2(), line.level)).collect()
}

/// A straight line through points, by least squares.
struct Fit {
    slope: f64,
    /// The squares that are left.
    rest: f64,
}

impl Fit {
    fn of(points: &[(f64, f64)]) -> Self {
        let count = points.len().max(1) as f64;
        let (x, y) = points.iter().fold((0.0, 0.0), |(x, y), point| (x + point.0 / count, y + point.1 / count));
        let (xx, xy) = points
            .iter()
            .fold((0.0, 0.0), |(xx, xy), point| (xx + (point.0 - x).powi(2), xy + (point.0 - x) * (point.1 - y)));
        let slope = if xx > 0.0 { xy / xx } else { 0.0 };
        let rest = points.iter().map(|point| (point.1 - y - slope * (point.0 - x)).powi(2)).sum();
        Self { slope, rest }
    }
}

/// The power of all lines, weighted.
pub(super) fn power(lines: &[HeardLine], weight: impl Fn(f64) -> f64) -> f64 {
    lines.iter().map(|line| power_ratio(line.level) * weight(line.hz)).sum()
}
