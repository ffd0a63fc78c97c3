//! Prints networks of the trade and their solutions as JSON, so that any other
//! solver can be asked the same questions.

use serde::Serialize;
use stageohm::Complex64;
use stageohm::network::{AUDIO_BAND, Element, Line, OnePort, Path, ROOM, band_power, log_sweep};
use stageohm::part::{Coils, Lead, Pickup, Pot, Taper, Tone, Transformer};
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
    let solved: Vec<_> = networks().into_iter().map(|(name, path)| solve(name, path)).collect();
    match serde_json::to_string(&solved) {
        Ok(json) if writeln!(std::io::stdout(), "{json}").is_ok() => ExitCode::SUCCESS,
        _ => ExitCode::FAILURE,
    }
}

fn solve(name: &'static str, path: Path) -> Solved {
    let pair = |z: Complex64| [z.re, z.im];
    let frequencies = log_sweep(&(1.0..=100e3), 200);
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

fn networks() -> Vec<(&'static str, Path)> {
    let pot = |turn| Pot { r: 250e3, turn, taper: Taper::Audio };
    let single = Pickup {
        r: 6.5e3,
        l: 2.5,
        c: 110e-12,
        loss: None,
        coils: Coils::One,
        coupling: 0.0,
        volume: Some(pot(1.0)),
        tone: Some(Tone { pot: pot(1.0), c: 22e-9, before_volume: true }),
    };
    let half = Pickup {
        loss: Some(800e3),
        volume: Some(pot(0.7)),
        tone: Some(Tone { pot: pot(0.3), c: 22e-9, before_volume: false }),
        ..single
    };
    let double = Pickup { coils: Coils::Series, coupling: 0.3, l: 2.0, r: 4e3, ..single };
    let lead = Lead { length: 6.0, r: 0.1, l: 0.6e-6, c: 100e-12 };
    let run = Line { length: 600.0, r: 0.1, l: 0.6e-6, g: 0.0, c: 100e-12 };
    let step_down = Transformer {
        ratio: 12.0,
        r1: 2e3,
        r2: 15.0,
        leakage: 60e-3,
        magnetising: Some(400.0),
        core_loss: Some(1e6),
        c1: 150e-12,
        c2: 470e-12,
    };
    let isolator = Transformer {
        ratio: 1.0,
        r1: 60.0,
        r2: 60.0,
        leakage: 5e-3,
        magnetising: Some(20.0),
        core_loss: Some(100e3),
        c1: 300e-12,
        c2: 300e-12,
    };
    let microphone_input = OnePort::r_c(1.5e3, 220e-12);
    let instrument_input = OnePort::r_c(1e6, 50e-12);
    let through = |path: Path, lead: &Lead| path.with("part-lead", lead.element());
    vec![
        ("divider", Path::new(OnePort::resistor(150.0), OnePort::resistor(10e3))),
        (
            "coupled output with lead",
            Path::new(OnePort::Series { r: 1e3, l: 0.0, elastance: 1.0 / 10e-6 }, OnePort::resistor(10e3))
                .with("part-lead", Element::Shunt(OnePort::capacitor(2e-9))),
        ),
        ("pickup into 10 kΩ", through(single.path(OnePort::resistor(10e3)), &lead)),
        ("pickup into 1 MΩ", through(single.path(instrument_input.clone()), &lead)),
        ("pickup, controls turned, eddy losses", through(half.path(instrument_input.clone()), &lead)),
        ("two coils in series", through(double.path(instrument_input.clone()), &Lead { length: 15.0, ..lead })),
        (
            "piezo with lead",
            Path::new(OnePort::capacitor(1e-9), OnePort::resistor(1e6)).with("part-lead", lead.element()),
        ),
        (
            "600 m line, open end",
            Path::new(OnePort::resistor(150.0), OnePort::resistor(1e9)).with("part-lead", Element::Line(run)),
        ),
        (
            "600 m line, bridged",
            Path::new(OnePort::resistor(150.0), OnePort::resistor(10e3)).with("part-lead", Element::Line(run)),
        ),
        (
            "leaky line with coupling capacitor",
            Path::new(OnePort::resistor(600.0), OnePort::resistor(600.0))
                .with("part-coupling", Element::Series(OnePort::Series { r: 0.0, l: 0.0, elastance: 1.0 / 47e-6 }))
                .with("part-lead", Element::Line(Line { length: 300.0, g: 1e-8, ..run })),
        ),
        ("transformer from a source", step_down.added_to(Path::new(OnePort::resistor(10e3), microphone_input.clone()))),
        ("isolator on a line", isolator.added_to(Path::new(OnePort::resistor(150.0), OnePort::resistor(10e3)))),
        (
            "pickup, lead, passive box, run, microphone input",
            step_down
                .added_to(through(single.path(microphone_input), &lead))
                .with("part-lead", Element::Line(Line { length: 50.0, ..run })),
        ),
        (
            "thru branch to an amplifier",
            through(single.path(instrument_input.clone()), &lead).with(
                "part-branch",
                Element::Branch(
                    Path::new(OnePort::SHORT, OnePort::OPEN).with("part-lead", lead.element()).chain,
                    instrument_input.clone(),
                ),
            ),
        ),
        (
            "active box with its own output",
            through(single.path(OnePort::resistor(10e3)), &lead)
                .with("part-input", Element::Shunt(instrument_input))
                .with("part-buffer", Element::Buffer(0.5))
                .with("part-output", Element::Series(OnePort::resistor(100.0)))
                .with("part-lead", Element::Line(Line { length: 50.0, ..run })),
        ),
    ]
}
