//! A whole line: a source, its lead, a thru, a box, the run and the console's
//! input, put together into paths.

use super::{ActiveBox, Arms, Input, InputNoise, Lead, Stray, Transformer};
use crate::Complex64;
use crate::network::{Element, MIDBAND, Node, OnePort, Path, Response, Section, Shares, johnson};

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
    fn grown(self, share: f64) -> Option<Self> {
        (share > 0.0).then(|| Self { lead: self.lead.grown(share), input: self.input.times(1.0 / share) })
    }

    fn element(&self) -> Element {
        let lead = self.lead.added_to(Path::new(OnePort::SHORT, OnePort::OPEN), "part-lead");
        Element::Branch(lead.chain, self.input.clone())
    }
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
    /// In front of the box, if there is one: for the terminals of a loudspeaker.
    pub take_off: Option<Arms>,
    /// The box.
    pub between: Between,
    /// On to the console.
    pub run: Lead,
    /// Before the console's input, if there is one.
    pub pad: Option<Arms>,
    /// The console's input.
    pub console: Input,
}

/// A part of a rig behind its source.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RigPart {
    /// The first lead.
    Lead,
    /// The thru with what it leads to.
    Thru,
    /// The box.
    Box,
    /// The run.
    Run,
    /// The pad.
    Pad,
    /// The console's input.
    Console,
}

/// A rig as paths, each from an e.m.f. into an amplifier's input.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    /// From the source into the first input: the active box's or the console's.
    pub first: Path,
    /// In the first path, the terminals of the source.
    pub at_source: Node,
    /// In the first path, where the first lead ends.
    pub behind_lead: Node,
    /// In the first path, behind the thru too: where the box stands.
    pub before_box: Node,
    /// In the first path, behind the pad of the box too: where its input is.
    pub at_box: Node,
    /// In the first path, where noise ceases to be that of source and leads:
    /// without a box the run counts to the leads.
    pub behind_leads: Node,
    /// The active box with the path from its output into the console.
    pub active: Option<(ActiveBox, Path)>,
    /// The console's input.
    pub console: Input,
    /// The node of a passive box's input, in the first path.
    pub primary: Option<Tap>,
    /// In the path into the console, where the run begins.
    pub before_run: Node,
    /// In that same path, where the run ends.
    pub behind_run: Node,
    /// What comes in behind the console's input.
    pub behind: Behind,
    /// The node before the pad, in that same path.
    pub pad: Option<Tap>,
}

/// White noise that comes in behind the console's input, referred to it, V²/Hz.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Behind {
    /// Of what follows the gain in the console.
    pub output: f64,
    /// Of the converter.
    pub converter: f64,
}

/// Noise at the console's input by where it is made, V²/Hz.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct NoiseByCause {
    /// Source, leads and thru.
    pub source: f64,
    /// A passive box, and a pad behind it.
    pub passive: f64,
    /// The active box's input resistance.
    pub box_resistance: f64,
    /// Its noise voltage.
    pub box_voltage: f64,
    /// Its noise current.
    pub box_current: f64,
    /// What follows it.
    pub box_output: f64,
    /// The console's input resistance.
    pub console_resistance: f64,
    /// Its noise voltage.
    pub console_voltage: f64,
    /// Its noise current.
    pub console_current: f64,
    /// What follows its gain in the console.
    pub console_output: f64,
    /// The converter.
    pub converter: f64,
}

impl NoiseByCause {
    /// All that an active box makes, and what follows it.
    pub fn of_box(&self) -> f64 {
        self.box_resistance + self.box_voltage + self.box_current + self.box_output
    }

    /// All that the console makes, its converter left out.
    pub fn of_console(&self) -> f64 {
        self.console_resistance + self.console_voltage + self.console_current + self.console_output
    }

    /// All of it.
    pub fn sum(&self) -> f64 {
        self.source + self.passive + self.of_box() + self.of_console() + self.converter
    }
}

/// Noise at the points of a line, V²/Hz, or V² of a band.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct NoiseByPoint {
    /// The open source.
    pub source: f64,
    /// The box's input.
    pub box_input: f64,
    /// Its open output.
    pub box_output: f64,
    /// Before the pad.
    pub before_pad: f64,
    /// The console's input.
    pub console: f64,
}

impl NoiseByPoint {
    /// The points in their order, to be added up over a band.
    pub(crate) fn into_row(self) -> [f64; 5] {
        [self.source, self.box_input, self.box_output, self.before_pad, self.console]
    }

    /// As [`NoiseByPoint::into_row`] has them.
    pub(crate) fn from_row([source, box_input, box_output, before_pad, console]: [f64; 5]) -> Self {
        Self { source, box_input, box_output, before_pad, console }
    }
}

/// A node within a path, and the path with that node as its output.
#[derive(Clone, Debug, PartialEq)]
pub struct Tap {
    /// The node.
    pub node: Node,
    /// The path with the node as its output.
    pub path: Path,
}

impl Tap {
    fn new(path: &Path, node: Node) -> Self {
        Self { node, path: path.tapped(node) }
    }
}

impl Rig {
    /// The parts behind the source, in order.
    pub fn parts(&self) -> Vec<RigPart> {
        let there = |there: bool, part: RigPart| there.then_some(part);
        let parts = [
            there(self.lead.length > 0.0, RigPart::Lead),
            there(self.thru.is_some(), RigPart::Thru),
            there(self.between != Between::Nothing, RigPart::Box),
            there(self.run.length > 0.0, RigPart::Run),
            there(self.pad.is_some(), RigPart::Pad),
            Some(RigPart::Console),
        ];
        parts.into_iter().flatten().collect()
    }

    /// The same rig with so much of a part: of the length of a lead, of the load of an
    /// input, of what makes a transformer other than ideal. Nothing of it at 0.
    #[must_use]
    pub fn grown(mut self, part: RigPart, share: f64) -> Self {
        match part {
            RigPart::Lead => self.lead = self.lead.grown(share),
            RigPart::Thru => self.thru = self.thru.and_then(|thru| thru.grown(share)),
            RigPart::Box => match &mut self.between {
                Between::Nothing => {}
                Between::Passive(transformer) => *transformer = transformer.grown(share),
                Between::Active(active) => active.input = active.input.grown(share),
            },
            RigPart::Run => self.run = self.run.grown(share),
            RigPart::Pad => self.pad = self.pad.and_then(|pad| pad.grown(share)),
            RigPart::Console => self.console = self.console.grown(share),
        }
        self
    }

    /// The rig as paths.
    pub fn chain(&self) -> Chain {
        let at_source = self.source.end();
        let mut first = self.lead.added_to(self.source.clone(), "part-lead");
        let behind_lead = first.end();
        if let Some(thru) = &self.thru {
            first = first.with("part-thru", thru.element());
        }
        let before_box = first.end();
        if let Some(arms) = &self.take_off {
            let series = Element::Series(arms.series.clone());
            first = first.with("part-take-off", series).with("part-take-off", Element::Shunt(arms.shunt.clone()));
        }
        let at_box = first.end();
        if let Between::Active(active) = self.between {
            let first = Path { load: active.input.load(), ..first };
            let (second, behind_run) = self.to_console(Path::new(active.output(), OnePort::OPEN));
            let pad = self.pad.as_ref().map(|_| behind_run).map(|node| Tap::new(&second, node));
            let active = Some((active, second));
            return Chain {
                first,
                at_source,
                behind_lead,
                before_box,
                at_box,
                behind_leads: before_box,
                active,
                console: self.console,
                primary: None,
                before_run: Node::SOURCE,
                behind_run,
                behind: Behind::default(),
                pad,
            };
        }
        if let Between::Passive(transformer) = &self.between {
            first = transformer.added_to(first);
        }
        let before_run = first.end();
        let (first, behind_run) = self.to_console(first);
        let pad = self.pad.as_ref().map(|_| behind_run);
        let primary = matches!(self.between, Between::Passive(_)).then(|| Tap::new(&first, at_box));
        let behind_leads = match primary {
            Some(_) => before_box,
            None => pad.unwrap_or(first.end()),
        };
        let pad = pad.map(|node| Tap::new(&first, node));
        Chain {
            first,
            at_source,
            behind_lead,
            before_box,
            at_box,
            behind_leads,
            active: None,
            console: self.console,
            primary,
            before_run,
            behind_run,
            behind: Behind::default(),
            pad,
        }
    }

    /// What a voltage in series with the shield of the thru's lead becomes at the
    /// amplifier's input, and what the source becomes there; nothing without a thru.
    pub fn at_thru(&self, chain: &Chain, frequency: f64) -> Option<[f64; 2]> {
        let thru = self.thru.as_ref()?;
        let lead = thru.lead.added_to(Path::new(OnePort::SHORT, thru.input.clone()), "part-lead");
        let (own, transfer) = (lead.input_impedance(frequency), lead.transfer(frequency));
        let (back, on) = (
            chain.first.looking_back(chain.behind_lead, frequency),
            chain.first.looking_on(chain.before_box, frequency),
        );
        let other = (back.inv() + on.inv()).inv();
        let signal = chain.first.tapped(chain.before_box).transfer(frequency) * transfer;
        Some([(own / (own + other) * transfer).norm(), signal.norm()])
    }

    /// Adds the run, the pad and the console's input; and where the run ends.
    fn to_console(&self, path: Path) -> (Path, Node) {
        let mut path = self.run.added_to(Path { load: self.console.load(), ..path }, "part-run");
        let behind_run = path.end();
        if let Some(pad) = &self.pad {
            let part = |element| Section { name: "part-pad", element };
            path.chain.extend([part(Element::Series(pad.series.clone())), part(Element::Shunt(pad.shunt.clone()))]);
        }
        (path, behind_run)
    }
}

impl Chain {
    /// The path that ends at the console's input.
    pub fn last(&self) -> &Path {
        self.active.as_ref().map_or(&self.first, |(_, second)| second)
    }

    /// What is between the end of the first path and the console's input makes of a
    /// voltage there.
    pub(crate) fn onward(&self, frequency: f64) -> Complex64 {
        self.active.as_ref().map_or(Complex64::ONE, |(active, second)| active.gain * second.transfer(frequency))
    }

    /// Of the signal's circuit where the run begins, at 1 kHz, Ω: what is before it beside
    /// what follows.
    pub(crate) fn circuit_r(&self) -> f64 {
        let last = self.last();
        let (back, on) = (last.looking_back(self.before_run, MIDBAND), last.looking_on(self.before_run, MIDBAND));
        (back * on / (back + on)).norm()
    }

    /// What an e.m.f. in series with the first lead becomes at the console's input.
    pub fn transfer_of_lead(&self, frequency: f64) -> Complex64 {
        self.first.transfer_behind(self.at_source, frequency) * self.onward(frequency)
    }

    /// What the mains around puts into the first lead and into the run, of these
    /// lengths in m, across the console's input, V.
    pub fn stray(&self, stray: &Stray, [lead, run]: [f64; 2], frequency: f64) -> f64 {
        let first = stray.across_load(&self.first, self.behind_lead, lead, frequency);
        first * self.onward(frequency).norm() + stray.across_load(self.last(), self.behind_run, run, frequency)
    }

    /// What the e.m.f. becomes at the console's input at a frequency in Hz.
    pub fn transfer(&self, frequency: f64) -> Complex64 {
        self.first.transfer(frequency) * self.onward(frequency)
    }

    /// The noise at frequencies in Hz. Passive parts have this temperature in K.
    pub fn noise<const N: usize>(&self, frequencies: &[f64; N], temperature: f64) -> ChainNoise<'_, N> {
        let behind = |second: &Path| second.thermal_shares(second.end(), frequencies, temperature);
        ChainNoise {
            chain: self,
            frequencies: *frequencies,
            temperature,
            first: self.first.thermal_shares(self.behind_leads, frequencies, temperature),
            second: self.active.as_ref().map(|(active, second)| (active, behind(second))),
        }
    }
}

/// The noise of a line at `N` frequencies, to be told apart.
pub struct ChainNoise<'a, const N: usize> {
    chain: &'a Chain,
    frequencies: [f64; N],
    temperature: f64,
    /// At the end of the first path.
    first: [Shares; N],
    /// At the end of the path behind an active box, if there is one.
    second: Option<(&'a ActiveBox, [Shares; N])>,
}

impl<const N: usize> ChainNoise<'_, N> {
    /// At the console's input, V²/Hz, by where it is made.
    pub fn by_cause(&self) -> [NoiseByCause; N] {
        let (chain, temperature) = (self.chain, self.temperature);
        let mut causes = [NoiseByCause::default(); N];
        for k in 0..N {
            let (source, passive, amplifier, gain, last) = match &self.second {
                None => (self.first[k].before, self.first[k].behind, None, 1.0, &self.first[k]),
                Some((active, second)) => {
                    let amplifier = active.input.noise(self.first[k].node, temperature);
                    (self.first[k].before, 0.0, Some(amplifier), active.gain.powi(2) * second[k].power, &second[k])
                }
            };
            let of_box = |of: fn(&InputNoise) -> f64| amplifier.as_ref().map_or(0.0, |noise| gain * of(noise));
            let console = chain.console.noise(last.node, temperature);
            causes[k] = NoiseByCause {
                source: gain * source,
                passive,
                box_resistance: of_box(|noise| noise.resistance),
                box_voltage: of_box(|noise| noise.voltage),
                box_current: of_box(|noise| noise.current),
                box_output: amplifier.map_or(0.0, |_| last.before),
                console_resistance: console.resistance,
                console_voltage: console.voltage,
                console_current: console.current,
                console_output: chain.behind.output,
                converter: chain.behind.converter,
            };
        }
        causes
    }

    /// At every point, V²/Hz; none at one that is not there. What an amplifier makes
    /// counts from its own input on.
    pub fn by_point(&self) -> [NoiseByPoint; N] {
        let (chain, frequencies, temperature) = (self.chain, &self.frequencies, self.temperature);
        let within = |path: &Path, tap: &Option<Tap>| {
            tap.as_ref().map(|tap| path.thermal_within(tap.node, frequencies, temperature))
        };
        let at_input = |at: &Shares, input: &Input| at.before + at.behind + input.noise(at.node, temperature).sum();
        let source = frequencies.map(|f| johnson(chain.first.source.impedance(f).re, temperature));
        let (primary, pad) = (within(&chain.first, &chain.primary), within(chain.last(), &chain.pad));
        let mut points = [NoiseByPoint::default(); N];
        for k in 0..N {
            let (box_input, box_output, last) = match &self.second {
                None => (primary.as_ref().map_or(0.0, |primary| primary[k].density), 0.0, &self.first[k]),
                Some((active, second)) => {
                    let input = at_input(&self.first[k], &active.input);
                    (input, active.gain.powi(2) * input, &second[k])
                }
            };
            let before_pad = pad.as_ref().map_or(0.0, |pad| pad[k].density + box_output * pad[k].power);
            let console = at_input(last, &chain.console) + box_output * last.power;
            points[k] = NoiseByPoint { source: source[k], box_input, box_output, before_pad, console };
        }
        points
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

#[cfg(test)]
mod tests {
    use super::*;

    const F: f64 = 1e3;
    const T: f64 = 290.0;

    /// Nothing but resistances: 1 kΩ, a lead of 100 Ω, a thru of 300 Ω to 10 kΩ, a box of
    /// 10 kΩ, half and 2 · 100 Ω, a run of 100 Ω, a pad of 900 and 100 Ω, 1.5 kΩ.
    fn resistive() -> Rig {
        let lead = |r: f64| Lead { length: 10.0, r: r / 10.0, l: 0.0, c: 0.0 };
        let input = Input { r: 10e3, c: 0.0, e_n: 10e-9, i_n: 1e-12, thermal: true };
        Rig {
            source: Path::new(OnePort::resistor(1e3), OnePort::OPEN),
            lead: lead(100.0),
            thru: Some(Thru { lead: lead(300.0), input: OnePort::resistor(10e3) }),
            take_off: None,
            between: Between::Active(ActiveBox { input, gain: 0.5, leg_r: 100.0 }),
            run: lead(100.0),
            pad: Some(Arms { series: OnePort::resistor(900.0), shunt: OnePort::resistor(100.0) }),
            console: Input { r: 1.5e3, c: 0.0, e_n: 2e-9, i_n: 3e-12, thermal: false },
        }
    }

    fn beside(all: &[f64]) -> f64 {
        1.0 / all.iter().map(|r| 1.0 / r).sum::<f64>()
    }

    #[track_caller]
    fn close(got: f64, expected: f64) {
        assert!((got - expected).abs() <= 1e-9 * expected.abs(), "{got} is not {expected}");
    }

    /// Dividers by hand, with so much of each part: half of a lead is half of its
    /// resistance, half of an input twice.
    #[test]
    fn so_much_of_a_part() {
        use RigPart::{Box, Console, Lead, Pad, Run, Thru};
        let through = |[lead, thru, box_r, run, series, shunt, console]: [f64; 7]| {
            let load = beside(&[thru, box_r]);
            let end = beside(&[shunt, console]);
            load / (load + 1e3 + lead) * 0.5 * end / (end + 200.0 + run + series)
        };
        let whole = [100.0, 10.3e3, 10e3, 100.0, 900.0, 100.0, 1.5e3];
        let rig = resistive();
        close(rig.chain().transfer(F).re, through(whole));
        assert_eq!(rig.parts(), [Lead, Thru, Box, Run, Pad, Console]);
        let gone = f64::INFINITY;
        for (part, half, none) in [
            (Lead, [50.0, 10.3e3, 10e3, 100.0, 900.0, 100.0, 1.5e3], [0.0, 10.3e3, 10e3, 100.0, 900.0, 100.0, 1.5e3]),
            (Thru, [100.0, 20.15e3, 10e3, 100.0, 900.0, 100.0, 1.5e3], [100.0, gone, 10e3, 100.0, 900.0, 100.0, 1.5e3]),
            (Box, [100.0, 10.3e3, 20e3, 100.0, 900.0, 100.0, 1.5e3], [100.0, 10.3e3, gone, 100.0, 900.0, 100.0, 1.5e3]),
            (Run, [100.0, 10.3e3, 10e3, 50.0, 900.0, 100.0, 1.5e3], [100.0, 10.3e3, 10e3, 0.0, 900.0, 100.0, 1.5e3]),
            (Pad, [100.0, 10.3e3, 10e3, 100.0, 450.0, 200.0, 1.5e3], [100.0, 10.3e3, 10e3, 100.0, 0.0, gone, 1.5e3]),
            (
                Console,
                [100.0, 10.3e3, 10e3, 100.0, 900.0, 100.0, 3e3],
                [100.0, 10.3e3, 10e3, 100.0, 900.0, 100.0, gone],
            ),
        ] {
            close(rig.clone().grown(part, 1.0).chain().transfer(F).re, through(whole));
            close(rig.clone().grown(part, 0.5).chain().transfer(F).re, through(half));
            close(rig.clone().grown(part, 0.0).chain().transfer(F).re, through(none));
        }
        let bare = Rig {
            thru: None,
            pad: None,
            between: Between::Nothing,
            lead: super::Lead::NONE,
            run: super::Lead::NONE,
            ..rig
        };
        assert_eq!(bare.parts(), [Console]);
        close(bare.chain().transfer(F).re, 0.6);
    }

    /// Noise by what makes it and where it is, each resistance as an e.m.f. of 4·k·T·R of
    /// its own (superposition).
    #[test]
    fn noise_of_resistances() {
        let chain = resistive().chain();
        let noise = chain.noise(&[F], T).by_cause()[0];
        let source = beside(&[1.1e3, 10.3e3]);
        let node = beside(&[source, 10e3]);
        let end = beside(&[100.0, 1.5e3]);
        let onward = (0.5 * end / (end + 1.2e3)).powi(2);
        let at_box = johnson(source, T) * (10e3 / (10e3 + source)).powi(2);
        let own = [johnson(10e3, T) * (node / 10e3).powi(2), 1e-16, 1e-24 * node * node];
        close(noise.source, onward * at_box);
        close(noise.box_resistance, onward * own[0]);
        close(noise.box_voltage, onward * own[1]);
        close(noise.box_current, onward * own[2]);
        let output = beside(&[1.2e3, 100.0]);
        let behind = johnson(output, T) * (1.5e3 / (1.5e3 + output)).powi(2);
        close(noise.box_output, behind);
        let console = [4e-18, 9e-24 * beside(&[output, 1.5e3]).powi(2)];
        close(noise.console_voltage, console[0]);
        close(noise.console_current, console[1]);
        assert_eq!((noise.console_resistance, noise.passive), (0.0, 0.0));
        let of_box = onward * own.iter().sum::<f64>() + behind;
        close(noise.of_box(), of_box);
        close(noise.sum(), onward * at_box + of_box + console.iter().sum::<f64>());

        let points = chain.noise(&[F], T).by_point()[0];
        close(points.source, johnson(1e3, T));
        let box_input = at_box + own.iter().sum::<f64>();
        close(points.box_input, box_input);
        close(points.box_output, 0.25 * box_input);
        // Before the pad: 300 Ω on one side, 900 Ω and the 100 Ω beside the console on the other.
        let right = 900.0 + end;
        let of_shunt = beside(&[1.2e3, 1.5e3]);
        let of_shunt = of_shunt / (100.0 + of_shunt) * 300.0 / 1.2e3;
        let before_pad = johnson(300.0, T) * (right / (300.0 + right)).powi(2)
            + johnson(900.0, T) * (300.0 / (300.0 + right)).powi(2)
            + johnson(100.0, T) * of_shunt.powi(2);
        close(points.before_pad, before_pad + 0.25 * box_input * (right / (300.0 + right)).powi(2));
        close(points.console, behind + console.iter().sum::<f64>() + onward * box_input);
    }

    /// An ideal 2 : 1 with 50 Ω in its secondary: 1.1 kΩ are 275 Ω behind it, and 50 Ω and
    /// the run's 100 Ω are the box's own and what follows.
    #[test]
    fn noise_of_a_transformer() {
        let transformer = Transformer { r2: 50.0, ..Transformer::ideal(2.0) };
        let rig = Rig { thru: None, pad: None, between: Between::Passive(transformer), ..resistive() };
        let noise = rig.chain().noise(&[F], T).by_cause()[0];
        let divider = (1.5e3_f64 / (1.5e3 + 425.0)).powi(2);
        close(noise.source, johnson(275.0, T) * divider);
        close(noise.passive, johnson(150.0, T) * divider);
        close(rig.chain().transfer(F).re, 0.5 * 1.5e3 / (1.5e3 + 425.0));
        // On its primary the load is four times what it is: 1.1 kΩ beside 6.6 kΩ, of which
        // the console's 6 kΩ make no noise.
        let primary = johnson(1.1e3, T) * (6.6_f64 / 7.7).powi(2) + johnson(600.0, T) * (1.1_f64 / 7.7).powi(2);
        close(rig.chain().noise(&[F], T).by_point()[0].box_input, primary);
        // Without a box all that is passive is of source and leads.
        let straight = Rig { thru: None, pad: None, between: Between::Nothing, ..resistive() };
        let noise = straight.chain().noise(&[F], T).by_cause()[0];
        close(noise.source, johnson(1.2e3, T) * (1.5_f64 / 2.7).powi(2));
        assert_eq!(noise.passive, 0.0);
    }

    /// What is in the shield of the thru's lead, and the signal, at the amplifier's input.
    #[test]
    fn at_the_amplifier() {
        let rig = resistive();
        let chain = rig.chain();
        let [hum, signal] = rig.at_thru(&chain, F).unwrap();
        close(hum, 10e3 / (10.3e3 + beside(&[1.1e3, 10e3])));
        let load = beside(&[10.3e3, 10e3]);
        close(signal, load / (load + 1.1e3) * 10e3 / 10.3e3);
        assert!(Rig { thru: None, ..resistive() }.at_thru(&chain, F).is_none());
        // What is induced in the first lead is divided as the signal is.
        close(chain.transfer_of_lead(F).re, chain.transfer(F).re);
    }
}
