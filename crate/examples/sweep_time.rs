//! Prints a network with a chain of seven elements as JSON, with its transfer at
//! 1,000 frequencies and the time that one such sweep takes, so that other
//! solvers can be timed beside the core. For release builds.

use serde::Serialize;
use stageohm::Complex64;
use stageohm::network::{AUDIO_BAND, Element, OnePort, Path, Section, log_sweep};
use std::hint::black_box;
use std::io::Write as _;
use std::process::ExitCode;
use std::time::Instant;

#[path = "../tests/common/networks.rs"]
mod networks;

use networks::networks;

/// Six elements, to which a lead in front makes seven.
const TRANSFORMER: &str = "transformer from a source";
const POINTS: usize = 1000;
const RUNS: usize = 1001;

#[derive(Serialize)]
struct Timed {
    path: Path,
    frequencies: Vec<f64>,
    transfer: Vec<[f64; 2]>,
    /// Median over the runs, s.
    seconds: f64,
}

fn main() -> ExitCode {
    let Some((_, mut path)) = networks().into_iter().find(|(name, _)| *name == TRANSFORMER) else {
        eprintln!("there is no network named {TRANSFORMER}");
        return ExitCode::FAILURE;
    };
    path.chain.insert(0, Section { name: "part-lead", element: Element::Shunt(OnePort::capacitor(500e-12)) });
    let frequencies = log_sweep(&AUDIO_BAND, POINTS);
    let mut transfer = vec![Complex64::default(); frequencies.len()];
    let mut times: Vec<f64> = (0..RUNS)
        .map(|_| {
            let start = Instant::now();
            black_box(&path).sweep(black_box(&frequencies), &mut transfer);
            black_box(&transfer);
            start.elapsed().as_secs_f64()
        })
        .collect();
    times.sort_by(f64::total_cmp);
    let timed = Timed {
        path,
        frequencies,
        transfer: transfer.into_iter().map(|z| [z.re, z.im]).collect(),
        seconds: times[RUNS / 2],
    };
    match serde_json::to_string(&timed) {
        Ok(json) if writeln!(std::io::stdout(), "{json}").is_ok() => ExitCode::SUCCESS,
        _ => ExitCode::FAILURE,
    }
}
