//! Prints networks of the trade and their solutions as JSON, so that any other
//! solver can be asked the same questions.

use serde::Serialize;
use stageohm::Complex64;
use stageohm::network::{AUDIO_BAND, OnePort, Path, ROOM, band_power, log_sweep};
use stageohm::part::{BalancedLine, Cause, Connection, GroundLoop, Leg};

#[path = "../tests/common/networks.rs"]
mod networks;

use networks::networks;

/// Everything, by kind.
#[derive(Serialize)]
struct All {
    networks: Vec<Solved>,
    bridges: Vec<Bridge>,
    loops: Vec<Loop>,
}
use std::io::Write as _;
use std::process::ExitCode;

/// A network with its solution at each frequency.
#[derive(Serialize)]
struct Solved {
    name: &'static str,
    path: Path,
    frequencies: Vec<f64>,
    transfer: Vec<[f64; 2]>,
    input_impedance: Vec<[f64; 2]>,
    output_impedance: Vec<[f64; 2]>,
    temperature: f64,
    /// Thermal noise across the load, the load thermal, V²/Hz.
    noise_density: Vec<f64>,
    /// The same over 20 Hz to 20 kHz, V².
    noise_power: f64,
    passive: bool,
}

fn main() -> ExitCode {
    let networks = networks().into_iter().map(|(name, path)| solve(name, path)).collect();
    match serde_json::to_string(&All { networks, bridges: bridges(), loops: loops() }) {
        Ok(json) if writeln!(std::io::stdout(), "{json}").is_ok() => ExitCode::SUCCESS,
        _ => ExitCode::FAILURE,
    }
}

fn solve(name: &'static str, path: Path) -> Solved {
    let frequencies = sweep();
    let mut transfer = vec![Complex64::default(); frequencies.len()];
    path.sweep(&frequencies, &mut transfer);
    Solved {
        name,
        transfer: transfer.into_iter().map(pair).collect(),
        input_impedance: frequencies.iter().map(|f| pair(path.input_impedance(*f))).collect(),
        output_impedance: frequencies.iter().map(|f| pair(path.output_impedance(*f))).collect(),
        temperature: ROOM,
        noise_density: frequencies.iter().map(|f| path.thermal_density(*f, ROOM, true)).collect(),
        noise_power: band_power(|f| path.thermal_density(f, ROOM, true), &AUDIO_BAND),
        passive: path.chain.iter().all(|part| part.element.is_passive()),
        frequencies,
        path,
    }
}

/// A balanced line under a voltage between its two earths.
#[derive(Serialize)]
struct Bridge {
    name: &'static str,
    /// Source and input impedance of the hot and of the cold leg.
    legs: [[OnePort; 2]; 2],
    /// From the middle of a floating source to its earth.
    floating: Option<OnePort>,
    frequencies: Vec<f64>,
    /// Difference between the legs re that voltage.
    error: Vec<[f64; 2]>,
}

/// A ground loop.
#[derive(Serialize)]
struct Loop {
    name: &'static str,
    emf: f64,
    earth_r: f64,
    inductance: f64,
    shield_r: f64,
    /// Of the isolating transformer and of the circuit behind it, if isolated.
    isolated: Option<[f64; 2]>,
    frequencies: Vec<f64>,
    /// Voltage in series with the signal, V.
    hum: Vec<f64>,
}

fn bridges() -> Vec<Bridge> {
    let solve = |name, legs: [[OnePort; 2]; 2], floating: Option<OnePort>| {
        let [hot, cold] = [(&legs[0], 0.5), (&legs[1], -0.5)].map(|(leg, emf)| Leg {
            source: leg[0].clone(),
            input: leg[1].clone(),
            emf,
        });
        let line = BalancedLine { hot, cold, floating: floating.clone(), own: None };
        let frequencies = sweep();
        let error = frequencies.iter().map(|f| pair(line.at(*f).bridge)).collect();
        Bridge { name, legs, floating, frequencies, error }
    };
    let r = OnePort::resistor;
    let coupled = |r, c: f64| OnePort::SeriesRlc { r, l: 0.0, elastance: 1.0 / c };
    vec![
        solve("earthed source, 10 Ω out of balance", [[r(150.0), r(10e3)], [r(160.0), r(10e3)]], None),
        solve(
            "coupling capacitors and input capacitances",
            [
                [coupled(50.0, 47e-6), OnePort::parallel_rc(10e3, 220e-12)],
                [coupled(60.0, 42e-6), OnePort::parallel_rc(10.1e3, 330e-12)],
            ],
            None,
        ),
        solve(
            "floating source",
            [[r(75.0), OnePort::parallel_rc(10e3, 1e-9)], [r(95.0), OnePort::parallel_rc(10e3, 0.8e-9)]],
            Some(OnePort::capacitor(100e-12)),
        ),
    ]
}

fn loops() -> Vec<Loop> {
    let solve = |name, isolated: Option<[f64; 2]>| {
        let (emf, earth_r, inductance, shield_r) = (0.1, 0.3, 8e-6, 0.22);
        let ground = GroundLoop { cause: Cause::Difference { volts: emf, earth_r }, inductance, shield_r };
        let connection = match isolated {
            None => Connection::Unbalanced,
            Some([capacitance, circuit_r]) => Connection::Isolated { capacitance, circuit_r },
        };
        let frequencies = sweep();
        let hum = frequencies.iter().map(|f| ground.hum(&connection, *f)).collect();
        Loop { name, emf, earth_r, inductance, shield_r, isolated, frequencies, hum }
    };
    vec![solve("unbalanced", None), solve("isolated by a transformer", Some([100e-12, 600.0]))]
}

/// 40 frequencies a decade, so that a solver with its own log sweep meets them.
fn sweep() -> Vec<f64> {
    log_sweep(&(1.0..=100e3), 201)
}

fn pair(z: Complex64) -> [f64; 2] {
    [z.re, z.im]
}
