//! Time of a question to the finder of faults, of a plan, and of listening.

use stageohm::ask::Entry;
use stageohm::diagnosis::{FaultQuestion, find_fault};
use stageohm::listen::{Through, hear, spectrum};
use stageohm::named::Named;
use stageohm::numeric::Draws;
use std::f64::consts::TAU;
use std::hint::black_box;
use std::time::Instant;

const RATE: f64 = 48_000.0;

fn main() {
    let times = if std::env::var_os("STAGEOHM_BRIEF").is_some() { 1 } else { 21 };
    println!("{:42} {:>10}", "finding a fault", "ms");
    let asked = |symptom: &str, plan| {
        let values = [("source", "output"), ("power", "earthed"), ("box", "passive"), ("ground", "joined")];
        let values = values.map(|(field, text)| (field, Entry::Text(text.to_owned())));
        let (symptom, scope) = (symptom.to_owned(), "one".to_owned());
        FaultQuestion { values: Named::distinct(values), symptom, scope, plan, ..FaultQuestion::default() }
    };
    for symptom in ["hum", "dead"] {
        told(&format!("the next step, {symptom}"), times, || find_fault(black_box(&asked(symptom, None))).odds.len());
    }
    told("a plan of three steps, hum", times, || find_fault(black_box(&asked("hum", Some(3)))).odds.len());
    let samples = sound(10.0);
    told("ten seconds of hum heard, 48 kHz", times.min(5), || {
        hear(black_box(&samples), RATE, Through::Air).lines.len()
    });
    told("their spectrum to be drawn", times, || spectrum(black_box(&samples), RATE).len());
}

/// Mains with odd harmonics, and noise.
fn sound(seconds: f64) -> Vec<f32> {
    let mut draws = Draws::new(1);
    let sample = |i: u32| {
        let turn = f64::from(i) / RATE * 50.02 * TAU;
        let lines: f64 = [1.0, 3.0, 5.0, 7.0].map(|n| 0.1 / n * (n * turn).sin()).iter().sum();
        (lines + draws.between(-1e-3, 1e-3)) as f32
    };
    (0..(seconds * RATE) as u32).map(sample).collect()
}

/// The median of several runs.
fn told(what: &str, times: usize, mut run: impl FnMut() -> usize) {
    let mut took: Vec<f64> = (0..times)
        .map(|_| {
            let start = Instant::now();
            black_box(run());
            start.elapsed().as_secs_f64() * 1e3
        })
        .collect();
    took.sort_by(f64::total_cmp);
    println!("{what:42} {:10.2}", took[took.len() / 2]);
}
