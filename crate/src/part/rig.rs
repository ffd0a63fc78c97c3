//! A whole line: a source, its lead, a thru, a box, the run and the console's
//! input, put together into paths.

use super::{ActiveBox, Input, Lead, Transformer};
use crate::Complex64;
use crate::network::{Element, OnePort, Part, Path, Response, johnson};

/// What stands between the source's lead and the run to the console.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Between {
    /// No box.
    Nothing,
    /// A transformer.
    Passive(Transformer),
    /// An active box.
    Active(ActiveBox),
}

/// A thru output: a lead of its own into the input of an amplifier.
#[derive(Clone, Debug, PartialEq)]
pub struct Thru {
    /// Its lead.
    pub lead: Lead,
    /// The amplifier's input.
    pub input: OnePort,
}

impl Thru {
    fn element(&self) -> Element {
        let lead = self.lead.added_to(Path::new(OnePort::SHORT, OnePort::OPEN), "part-lead");
        Element::Branch(lead.chain, self.input.clone())
    }
}

/// The arms of an L pad.
#[derive(Clone, Debug, PartialEq)]
pub struct Arms {
    /// In series with the signal.
    pub series: OnePort,
    /// Across the console's input.
    pub shunt: OnePort,
}

/// Everything from a source to the console's input.
#[derive(Clone, Debug, PartialEq)]
pub struct Rig {
    /// The source up to its own terminals.
    pub source: Path,
    /// From the source to the box, or straight on.
    pub lead: Lead,
    /// At the end of that lead, if there is one.
    pub thru: Option<Thru>,
    /// The box.
    pub between: Between,
    /// On to the console.
    pub run: Lead,
    /// Before the console's input, if there is one.
    pub pad: Option<Arms>,
    /// The console's input.
    pub console: Input,
}

/// A rig as paths, each from an e.m.f. into an amplifier's input.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    /// From the source into the first input: the active box's or the console's.
    pub first: Path,
    /// How many of its elements are source, first lead and thru.
    pub leads: usize,
    /// How many of its elements are source, leads and thru: without a box the
    /// run counts to the leads.
    pub cut: usize,
    /// The active box with the path from its output into the console.
    pub active: Option<(ActiveBox, Path)>,
    /// The console's input.
    pub console: Input,
    /// The node of a passive box's input, in the first path.
    pub primary: Option<Tap>,
    /// How many elements stand before the run, in the path into the console.
    pub run: usize,
    /// The node before the pad, in that same path.
    pub pad: Option<Tap>,
}

/// A node within a path: how many elements stand before it, and the path with
/// that node as its output.
#[derive(Clone, Debug, PartialEq)]
pub struct Tap {
    /// How many elements stand before the node.
    pub cut: usize,
    /// The path with the node as its output.
    pub path: Path,
}

impl Tap {
    fn new(path: &Path, cut: usize) -> Self {
        Self { cut, path: path.tapped(cut) }
    }
}

impl Rig {
    /// The same rig without each of its parts in turn, by the name of the part: a
    /// lead of no length, an input that loads nothing, an ideal transformer.
    pub fn without_each(&self) -> Vec<(&'static str, Self)> {
        let light = Input { r: f64::INFINITY, c: 0.0, ..self.console };
        let mut all = vec![
            ("lead", Self { lead: Lead::NONE, ..self.clone() }),
            ("thru", Self { thru: None, ..self.clone() }),
            ("run", Self { run: Lead::NONE, ..self.clone() }),
            ("console", Self { console: light, ..self.clone() }),
        ];
        let between = match self.between {
            Between::Nothing => return all,
            Between::Passive(Transformer { ratio, .. }) => Between::Passive(Transformer::ideal(ratio)),
            Between::Active(mut active) => {
                (active.input.r, active.input.c) = (f64::INFINITY, 0.0);
                Between::Active(active)
            }
        };
        all.push(("box", Self { between, ..self.clone() }));
        all
    }

    /// The rig as paths.
    pub fn chain(&self) -> Chain {
        let mut first = self.lead.added_to(self.source.clone(), "part-lead");
        if let Some(thru) = &self.thru {
            first = first.with("part-thru", thru.element());
        }
        let box_at = first.chain.len();
        if let Between::Active(active) = self.between {
            let first = Path { load: active.input.load(), ..first };
            let (second, pad) = self.to_console(Path::new(active.output(), OnePort::OPEN));
            let pad = pad.map(|cut| Tap::new(&second, cut));
            let active = Some((active, second));
            return Chain {
                first,
                leads: box_at,
                cut: box_at,
                active,
                console: self.console,
                primary: None,
                run: 0,
                pad,
            };
        }
        if let Between::Passive(transformer) = &self.between {
            first = transformer.added_to(first);
        }
        let run = first.chain.len();
        let (first, pad) = self.to_console(first);
        let primary = matches!(self.between, Between::Passive(_)).then(|| Tap::new(&first, box_at));
        let cut = match primary {
            Some(_) => box_at,
            None => pad.unwrap_or(first.chain.len()),
        };
        let pad = pad.map(|cut| Tap::new(&first, cut));
        Chain { first, leads: box_at, cut, active: None, console: self.console, primary, run, pad }
    }

    /// Adds the run, the pad and the console's input; and where the pad stands.
    fn to_console(&self, path: Path) -> (Path, Option<usize>) {
        let mut path = self.run.added_to(Path { load: self.console.load(), ..path }, "part-run");
        let cut = path.chain.len();
        if let Some(pad) = &self.pad {
            let part = |element| Part { name: "part-pad", element };
            path.chain.extend([part(Element::Series(pad.series.clone())), part(Element::Shunt(pad.shunt.clone()))]);
        }
        (path, self.pad.as_ref().map(|_| cut))
    }
}

impl Chain {
    /// The path that ends at the console's input.
    pub fn last(&self) -> &Path {
        self.active.as_ref().map_or(&self.first, |(_, second)| second)
    }

    /// What the e.m.f. becomes at the console's input at a frequency in Hz.
    pub fn transfer(&self, frequency: f64) -> Complex64 {
        let first = self.first.transfer(frequency);
        self.active.as_ref().map_or(first, |(active, second)| first * active.gain * second.transfer(frequency))
    }

    /// The noise at the console's input, V²/Hz, by where it is made: source and
    /// leads; passive box and pad; the active box's input resistance, its noise
    /// voltage, its noise current, what follows it; the console's input
    /// resistance, noise voltage and noise current. Passive parts have this
    /// temperature in K.
    pub fn noise_by_cause(&self, frequency: f64, temperature: f64) -> [f64; 9] {
        let first = self.first.thermal_shares(self.cut, frequency, temperature);
        match &self.active {
            None => {
                let console = self.console.noise(first.node, temperature);
                let [resistance, voltage, current] = [console.resistance, console.voltage, console.current];
                [first.before, first.behind, 0.0, 0.0, 0.0, 0.0, resistance, voltage, current]
            }
            Some((active, second)) => {
                let amplifier = active.input.noise(first.node, temperature);
                let output = second.thermal_shares(second.chain.len(), frequency, temperature);
                let console = self.console.noise(output.node, temperature);
                let gain = active.gain.powi(2) * second.transfer(frequency).norm_sqr();
                [
                    gain * first.before,
                    0.0,
                    gain * amplifier.resistance,
                    gain * amplifier.voltage,
                    gain * amplifier.current,
                    output.before,
                    console.resistance,
                    console.voltage,
                    console.current,
                ]
            }
        }
    }

    /// The noise of the open source, at the box's input, at its open output,
    /// before the pad, and at the console's input, V²/Hz. What an amplifier
    /// makes counts from its own input on.
    pub fn noise_by_point(&self, frequency: f64, temperature: f64) -> [f64; 5] {
        let (f, t) = (frequency, temperature);
        let source = johnson(self.first.source.impedance(f).re, t);
        let at_load = |path: &Path, input: &Input| {
            let shares = path.thermal_shares(path.chain.len(), f, t);
            shares.before + input.noise(shares.node, t).sum()
        };
        let within = |path: &Path, tap: &Tap| path.thermal_density_within(tap.cut, f, t);
        let primary = self.primary.as_ref().map_or(0.0, |tap| within(&self.first, tap));
        let before_pad = self.pad.as_ref().map_or(0.0, |tap| within(self.last(), tap));
        let console = at_load(self.last(), &self.console);
        match &self.active {
            None => [source, primary, 0.0, before_pad, console],
            Some((active, second)) => {
                let input = at_load(&self.first, &active.input);
                let output = active.gain.powi(2) * input;
                let through = |path: &Path| output * path.transfer(f).norm_sqr();
                let before_pad = before_pad + self.pad.as_ref().map_or(0.0, |tap| through(&tap.path));
                [source, input, output, before_pad, console + through(second)]
            }
        }
    }
}

impl Response for Chain {
    fn power(&self, frequency: f64) -> f64 {
        self.transfer(frequency).norm_sqr()
    }

    fn powers(&self, frequencies: &[f64], powers: &mut [f64]) {
        self.first.powers(frequencies, powers);
        if let Some((active, second)) = &self.active {
            let mut behind = vec![0.0; powers.len()];
            second.powers(frequencies, &mut behind);
            for (power, behind) in powers.iter_mut().zip(behind) {
                *power *= active.gain.powi(2) * behind;
            }
        }
    }
}
