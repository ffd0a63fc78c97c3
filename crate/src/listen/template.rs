//! The spectra of hum that are known beforehand.

use super::agreement::Predicted;
use crate::quantity::level::decibels;
use std::f64::consts::{FRAC_PI_2, PI};

/// Harmonics of a template: past those the noise is most of what there is.
const HIGHEST: u32 = 40;
/// Harmonics of the supply voltage that EN 50160 allows, from the second on, re the first.
const VOLTAGE: [f64; 24] = [
    0.02, 0.05, 0.01, 0.06, 0.005, 0.05, 0.005, 0.015, 0.005, 0.035, 0.005, 0.03, 0.005, 0.005, 0.005, 0.02, 0.005,
    0.015, 0.005, 0.005, 0.005, 0.015, 0.005, 0.015,
];
/// What IEC 61000-3-2 allows equipment of class A to draw, odd harmonics from the third on, A.
const CURRENT: [f64; 6] = [2.30, 1.14, 0.77, 0.40, 0.33, 0.21];
/// At a fundamental of so much, A (judgement).
const DRAWN: f64 = 5.0;
/// Limits are no spectrum: half of them or an eighth, each give or take a factor of two
/// (judgement).
const HALF: f64 = 0.5;
const EIGHTH: f64 = 0.125;
const LOOSE: f64 = 6.0;
/// Even lines of what is odd, and odd lines of what is even, where half cycles are nearly
/// equal, re the strongest, dB; or none.
const EQUAL: f64 = -35.0;
const NEARLY: f64 = 10.0;
/// By how much rectifiers wear the tops of the supply voltage off, dB (judgement).
const WORN: [f64; 3] = [-42.0, -32.0, -22.0];
/// How far waveforms that are computed lie from real ones, dB (judgement): what odd currents
/// run through differs more, what a dimmer cuts less.
const FIRM: f64 = 4.0;
const ODD: f64 = 6.0;
const DIMMED: f64 = 2.7;
/// A line that is computed as next to nothing is filled by what no wave is without, to so
/// far below its neighbours, dB (judgement).
const FILLED: f64 = -6.0;

/// What the lines of the mains are like.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub(super) enum Shape {
    Odd,
    Even,
    Dimmer,
}

/// The spectra of a shape. Each comes in as it is, through a resistance, or with harmonics
/// raised n by n, through a field or a capacitance.
pub(super) fn templates(shape: Shape) -> impl Iterator<Item = Vec<Predicted>> {
    let waves: Vec<Vec<Predicted>> = match shape {
        Shape::Odd => {
            let angles = (3..=12).map(|tens| (10.0 * f64::from(tens)).to_radians());
            let pulses = angles.map(|angle| odd(|n| (pulse(n, angle), ODD)));
            // What rectifiers draw wears the tops of the voltage off.
            let worn = [15.0, 20.0, 27.0, 36.0, 48.0, 65.0].into_iter().flat_map(|angle: f64| {
                WORN.map(|by| odd(|n| if n == 1.0 { (0.0, FIRM) } else { (pulse(n, angle.to_radians()) + by, ODD) }))
            });
            let saturated = odd(|n| (decibels(1.0 / (n * n)), LOOSE));
            let voltages = [HALF, EIGHTH].map(|share| template(|n| voltage(n, share)));
            voltages.into_iter().chain([odd(current), saturated]).chain(pulses).chain(worn).collect()
        }
        Shape::Even => ripples(),
        Shape::Dimmer => {
            let angles = (2..=10).map(|parts| (15.0 * f64::from(parts)).to_radians());
            let corners = [f64::INFINITY, 60.0, 20.0];
            let dimmers = angles.flat_map(|angle| corners.map(|corner| odd(|n| (dimmer(n, angle, corner), DIMMED))));
            dimmers.collect()
        }
    };
    waves.into_iter().flat_map(|wave| {
        let raised = |line: &Predicted| Predicted { level: line.level + decibels(line.harmonic.into()), ..*line };
        let other = wave.iter().map(raised).collect();
        [wave, other]
    })
}

/// Lines of so many dB, give or take so many; those that are spread widely need not be.
fn template(line: impl Fn(u32) -> (f64, f64)) -> Vec<Predicted> {
    let of = |harmonic: u32| {
        let (level, spread) = line(harmonic);
        Predicted { harmonic, level, spread, sure: spread < NEARLY }
    };
    (1..=HIGHEST).map(of).collect()
}

/// One of odd lines, with even ones of half cycles that are nearly equal.
fn odd(line: impl Fn(f64) -> (f64, f64)) -> Vec<Predicted> {
    template(|n| if n % 2 == 1 { line(n.into()) } else { (EQUAL, NEARLY) })
}

/// The supply voltage. Beyond what the standard names, harmonics fall on.
fn voltage(n: u32, times: f64) -> (f64, f64) {
    let share = match n.checked_sub(2).map(|at| VOLTAGE.get(at as usize)) {
        None => return (0.0, FIRM),
        Some(Some(share)) => *share,
        Some(None) => 0.015 * 25.0 / f64::from(n) * if n % 6 == 1 || n % 6 == 5 { 1.0 } else { 1.0 / 3.0 },
    };
    (decibels(times * share), if n % 2 == 1 { LOOSE } else { NEARLY })
}

/// The current of equipment: 0.15 A·15/n from the fifteenth harmonic on.
fn current(n: f64) -> (f64, f64) {
    let amperes = match n as usize {
        1 => return (0.0, FIRM),
        n => CURRENT.get((n - 3) / 2).copied(),
    };
    (decibels(HALF * amperes.unwrap_or(0.15 * 15.0 / n) / DRAWN), LOOSE)
}

/// A rectifier that conducts for an angle of each half cycle: half waves of a cosine.
fn pulse(n: f64, conducts: f64) -> f64 {
    let line = |n: f64| {
        // From x = n·τ/2, half of the phase that a harmonic turns meanwhile; both are zero at π/2.
        let x = n * conducts / 2.0;
        let square = (x / FRAC_PI_2).powi(2);
        if (square - 1.0).abs() < 1e-6 { PI / 4.0 } else { x.cos() / (1.0 - square) }
    };
    let envelope = 1.0 / (1.0 + (n * conducts / PI).powi(2));
    decibels((line(n).abs() / line(1.0)).max(envelope * 10_f64.powf(FILLED / 20.0)))
}

/// The ripple of supplies: a sawtooth on a reservoir, the same smoothed, a rectified sine;
/// with half cycles that are nearly equal, or so unequal that the first line is 10 dB below
/// the second; and a bridge that always conducts, whose rail has the mains too and 42 % of
/// its second harmonic.
fn ripples() -> Vec<Vec<Predicted>> {
    let falls = [|m: f64| 1.0 / m, |m: f64| 1.0 / (m * m), |m: f64| 3.0 / (4.0 * m * m - 1.0)];
    let ripple = |(fall, first): (fn(f64) -> f64, f64)| {
        template(|n| {
            let m = f64::from(n) / 2.0;
            if n % 2 == 0 { (decibels(fall(m)), FIRM) } else { (first - decibels(n.into()), NEARLY) }
        })
    };
    let bridge = template(|n| match n {
        1 => (0.0, FIRM),
        n if n % 2 == 0 => (decibels(0.424 * 3.0 / f64::from(n * n - 1)), FIRM),
        _ => (EQUAL, NEARLY),
    });
    let both = falls.into_iter().flat_map(|fall| [(fall, -10.0), (fall, EQUAL)]);
    both.map(ripple).chain([bridge]).collect()
}

/// A dimmer that switches on at an angle, into a resistance; its edges rise so slowly that
/// lines bend down at a harmonic.
fn dimmer(n: f64, angle: f64, corner: f64) -> f64 {
    let line = |n: f64| {
        // Fourier's integrals of the sine from the angle on, in both half cycles.
        let (sum, difference) = (n + 1.0, n - 1.0);
        let over =
            |x: f64| (if n == 1.0 { 0.0 } else { ((difference * x).cos() - 1.0) / difference }, sine(difference, x));
        let (cosine, sine_part) = over(angle);
        let a = ((sum * angle).cos() - 1.0) / sum - cosine;
        let b = (sum * angle).sin() / sum - sine_part;
        a.hypot(if n == 1.0 { b + PI } else { b }) / PI
    };
    let edge = 2.0 / PI * angle.sin() / n * 10_f64.powf(FILLED / 20.0);
    decibels(line(n).max(edge) / line(1.0)) - decibels((1.0 + (n / corner).powi(2)).sqrt())
}

/// sin(k·x)/k.
fn sine(k: f64, x: f64) -> f64 {
    if k == 0.0 { x } else { (k * x).sin() / k }
}
