//! Time per frequency point of five chains, beside the same chain written out
//! by hand as the floor.
//!
//! Both are timed in turn in one run, so that a machine that slows down slows
//! both; the ratio is the median over the pairs.

use stageohm::Complex64;
use stageohm::network::{AUDIO_BAND, Element, OnePort, Path, log_sweep};
use std::f64::consts::TAU;
use std::hint::black_box;
use std::time::Instant;

const POINTS: usize = 1000;
const PAIRS: usize = 301;
/// In a run that only has to go through.
const BRIEF: usize = 3;

struct Case {
    name: &'static str,
    elements: usize,
    path: Path,
    by_hand: fn(f64) -> Complex64,
}

fn main() {
    let pairs = if std::env::var_os("STAGEOHM_BRIEF").is_some() { BRIEF } else { PAIRS };
    println!("{:38} {:>8} {:>11} {:>11} {:>7}  goal: 1.5", "chain", "elements", "ns a point", "by hand", "ratio");
    for case in cases() {
        check(&case);
        let (mut ours, mut floor, mut ratios) = (Vec::new(), Vec::new(), Vec::new());
        let frequencies = log_sweep(&AUDIO_BAND, POINTS);
        let mut out = vec![Complex64::default(); POINTS];
        for _ in 0..pairs {
            let start = Instant::now();
            black_box(&case.path).sweep(black_box(&frequencies), &mut out);
            black_box(&out);
            let a = start.elapsed().as_secs_f64();
            let start = Instant::now();
            for (frequency, slot) in black_box(&frequencies).iter().zip(&mut out) {
                *slot = (case.by_hand)(*frequency);
            }
            black_box(&out);
            let b = start.elapsed().as_secs_f64();
            ours.push(a);
            floor.push(b);
            ratios.push(a / b);
        }
        let nanoseconds = |times: &mut Vec<f64>| median(times) / POINTS as f64 * 1e9;
        println!(
            "{:38} {:>8} {:>11.2} {:>11.2} {:>7.2}",
            case.name,
            case.elements,
            nanoseconds(&mut ours),
            nanoseconds(&mut floor),
            median(&mut ratios)
        );
    }
}

fn median(values: &mut [f64]) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

/// A floor that computes something else would be no floor.
fn check(case: &Case) {
    for frequency in log_sweep(&AUDIO_BAND, 20) {
        let (a, b) = (case.path.transfer(frequency), (case.by_hand)(frequency));
        assert!((a - b).norm() < 1e-11 * b.norm(), "{}: {a} is not {b} at {frequency} Hz", case.name);
    }
}

fn r(ohms: f64) -> OnePort {
    OnePort::resistor(ohms)
}

fn c(farads: f64) -> OnePort {
    OnePort::capacitor(farads)
}

fn series(z: OnePort) -> Element {
    Element::Series(z)
}

fn shunt(z: OnePort) -> Element {
    Element::Shunt(z)
}

#[allow(clippy::too_many_lines, reason = "a list")]
fn cases() -> Vec<Case> {
    let pickup = |load| {
        Path::new(OnePort::series_rl(6500.0, 2.5), load)
            .with("", shunt(c(110e-12)))
            .with("", shunt(OnePort::series_rc(250e3, 22e-9)))
            .with("", shunt(r(250e3)))
            .with("", shunt(c(500e-12)))
    };
    let transformer = |path: Path| {
        path.with("", shunt(c(150e-12)))
            .with("", series(OnePort::series_rl(2e3, 60e-3)))
            .with("", shunt(OnePort::parallel_rl(1e6, 400.0)))
            .with("", Element::Transformer(12.0))
            .with("", series(r(15.0)))
    };
    vec![
        Case {
            name: "source, lead capacitance, load",
            elements: 3,
            path: Path::new(r(10e3), r(1e6)).with("", shunt(c(500e-12))),
            by_hand: |f| {
                let y = Complex64::new(1e-6, TAU * f * 500e-12);
                (1.0 + 10e3 * y).inv()
            },
        },
        Case {
            name: "coupled output, lead, build-out, input",
            elements: 5,
            path: Path::new(OnePort::SeriesRlc { r: 1e3, l: 0.0, elastance: 1e5 }, OnePort::parallel_rc(10e3, 220e-12))
                .with("", shunt(c(600e-12)))
                .with("", series(r(47.0)))
                .with("", shunt(c(1e-9))),
            by_hand: |f| {
                let w = TAU * f;
                let i = Complex64::new(1e-4, w * (220e-12 + 1e-9));
                let v = 1.0 + 47.0 * i;
                let i = i + Complex64::new(0.0, w * 600e-12) * v;
                (v + Complex64::new(1e3, -1e5 / w) * i).inv()
            },
        },
        Case {
            name: "pickup, controls, lead, load",
            elements: 7,
            path: pickup(r(1e6)),
            by_hand: |f| {
                let w = TAU * f;
                let tone = Complex64::new(250e3, -1.0 / (w * 22e-9)).inv();
                let y = Complex64::new(1.0 / 1e6 + 1.0 / 250e3, w * 610e-12) + tone;
                (1.0 + Complex64::new(6500.0, w * 2.5) * y).inv()
            },
        },
        Case {
            name: "transformer between source and input",
            elements: 9,
            path: transformer(Path::new(r(10e3), OnePort::parallel_rc(1500.0, 220e-12)).with("", shunt(c(500e-12)))),
            by_hand: |f| {
                let w = TAU * f;
                let i = Complex64::new(1.0 / 1500.0, w * 220e-12);
                let (v, i) = through_transformer(w, 1.0 + 15.0 * i, i);
                let i = i + Complex64::new(0.0, w * 650e-12) * v;
                (v + 10e3 * i).inv()
            },
        },
        Case {
            name: "pickup, lead, passive box, input",
            elements: 12,
            path: transformer(pickup(OnePort::parallel_rc(1500.0, 220e-12))),
            by_hand: |f| {
                let w = TAU * f;
                let i = Complex64::new(1.0 / 1500.0, w * 220e-12);
                let (v, i) = through_transformer(w, 1.0 + 15.0 * i, i);
                let tone = Complex64::new(250e3, -1.0 / (w * 22e-9)).inv();
                let y = Complex64::new(1.0 / 250e3, w * 760e-12) + tone;
                (v + Complex64::new(6500.0, w * 2.5) * (i + y * v)).inv()
            },
        },
    ]
}

fn through_transformer(w: f64, v: Complex64, i: Complex64) -> (Complex64, Complex64) {
    let (v, i) = (12.0 * v, i / 12.0);
    let i = i + Complex64::new(1e-6, -1.0 / (w * 400.0)) * v;
    (v + Complex64::new(2e3, w * 60e-3) * i, i)
}
