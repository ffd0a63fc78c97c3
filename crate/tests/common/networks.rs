//! Networks of the trade that the checks share: the reference solvers solve
//! them too, and the page's engine must solve them as the native one does.
#![allow(unreachable_pub)]

use stageohm::network::{Element, Line, OnePort, Path};
use stageohm::part::{Coils, Lead, Pickup, Pot, Taper, ToneControl, Transformer};

/// Each network with its name.
#[allow(clippy::too_many_lines, reason = "a list")]
pub fn networks() -> Vec<(&'static str, Path)> {
    let pot = |turn| Pot { r: 250e3, turn, taper: Taper::Audio };
    let single = Pickup {
        r: 6.5e3,
        l: 2.5,
        c: 110e-12,
        loss: None,
        coils: Coils::One,
        coupling: 0.0,
        volume: Some(pot(1.0)),
        tone: Some(ToneControl { pot: pot(1.0), c: 22e-9, before_volume: true }),
    };
    let half = Pickup {
        loss: Some(800e3),
        volume: Some(pot(0.7)),
        tone: Some(ToneControl { pot: pot(0.3), c: 22e-9, before_volume: false }),
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
    let microphone_input = OnePort::parallel_rc(1.5e3, 220e-12);
    let instrument_input = OnePort::parallel_rc(1e6, 50e-12);
    let lumped = |path: Path| path.with("part-lead", Element::Shunt(OnePort::capacitor(600e-12)));
    let through = |path: Path, lead: &Lead| path.with("part-lead", lead.element());
    vec![
        ("divider", Path::new(OnePort::resistor(150.0), OnePort::resistor(10e3))),
        (
            "coupled output with lead",
            Path::new(OnePort::SeriesRlc { r: 1e3, l: 0.0, elastance: 1.0 / 10e-6 }, OnePort::resistor(10e3))
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
                .with("part-coupling", Element::Series(OnePort::SeriesRlc { r: 0.0, l: 0.0, elastance: 1.0 / 47e-6 }))
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
        ("pickup on a lumped lead", lumped(single.path(instrument_input.clone()))),
        ("pickup with controls turned, lumped lead", lumped(half.path(instrument_input.clone()))),
        ("two coils in series, lumped lead", lumped(double.path(OnePort::resistor(140e3)))),
        (
            "pickup, lumped lead, passive box",
            step_down.added_to(lumped(single.path(OnePort::parallel_rc(1.5e3, 220e-12)))),
        ),
        (
            "active box on a lumped lead",
            lumped(single.path(OnePort::resistor(10e3)))
                .with("part-input", Element::Shunt(instrument_input.clone()))
                .with("part-buffer", Element::Buffer(0.5))
                .with("part-output", Element::Series(OnePort::resistor(100.0))),
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
