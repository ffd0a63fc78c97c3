//! The sheet on which a calculator writes its answer.

use super::reading::GAIN;
use super::{
    Axis, Because, Candidate, Diagram, Link, Marker, Plot, Reading, RigSound, Solution, Told, Tone, Trace, Verdict,
};
use crate::catalogue::tolerance::PartKind;
use crate::fault::Fault;
use crate::field::Filling;
use crate::quantity::{FINE, SHOWN, Unit, shows_zero};
use crate::words::{Arg, Args, Message};
use crate::working::Working;
use std::borrow::Cow;

/// How much of a solution is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Depth {
    /// What is read first, in words, and nothing else: for a frame that is in a hurry.
    Headline,
    /// Only the numbers: for solving backwards and for worst cases.
    Readings,
    /// Numbers and curves with nothing to say: for tolerances.
    Curves,
    /// Numbers, what there is to say, and plots.
    Plots,
    /// All of it, the working too.
    Working,
}

/// A part that a calculator designs, and the factor by which it is off.
#[derive(Clone, Debug)]
pub(crate) struct Made {
    pub id: &'static str,
    pub kind: PartKind,
    pub factor: f64,
}

/// The sheet on which a calculator writes its answer: numbers, and messages that
/// become words when somebody reads them.
///
/// Names are looked up as `<calculator>-<id>`, then `common-<id>`.
pub struct Sheet {
    calculator: &'static str,
    depth: Depth,
    solution: Solution,
    /// The formulas, evaluated one after the other.
    pub working: Working,
    last: (bool, usize),
    /// Which readings are told to one figure more.
    fine: fn(&str, Unit) -> bool,
    /// The parts that the calculator itself designs.
    pub(crate) made: Vec<Made>,
}

impl Sheet {
    /// An empty sheet for a calculator.
    pub fn new(calculator: &'static str, depth: Depth) -> Self {
        Self {
            calculator,
            depth,
            solution: Solution::default(),
            working: Working::new(calculator, depth >= Depth::Working),
            last: (true, 0),
            fine: |_, _| false,
            made: Vec::new(),
        }
    }

    /// The finished solution.
    pub fn finish(mut self) -> Solution {
        // There is nothing to point at where a curve does not exist.
        for plot in &mut self.solution.plots {
            plot.markers.retain(|marker| marker.x.is_finite() && marker.y.is_finite());
        }
        self.solution.working = self.working.into_steps();
        self.solution
    }

    /// How much of the solution is wanted.
    pub fn depth(&self) -> Depth {
        self.depth
    }

    /// Whether plots are wanted.
    pub fn wants_plots(&self) -> bool {
        self.depth >= Depth::Curves
    }

    /// Whether anybody is to be told anything.
    pub fn wants_words(&self) -> bool {
        self.depth == Depth::Headline || self.wants_all_words()
    }

    /// Whether all that there is to say is wanted, beside what is read first.
    pub fn wants_all_words(&self) -> bool {
        self.depth >= Depth::Plots
    }

    /// Whether more is wanted than what is read first.
    pub fn wants_further(&self) -> bool {
        self.depth > Depth::Headline
    }

    /// Whether the working is wanted.
    pub fn wants_working(&self) -> bool {
        self.working.is_wanted()
    }

    /// A word of this calculator, or a shared one, with its arguments.
    pub fn word(&self, id: impl Into<Cow<'static, str>>, args: Args) -> Message {
        if self.wants_words() { Message::of(self.calculator, id, args) } else { Message::Nothing }
    }

    /// A message of the catalogue by its whole key.
    pub fn message(&self, key: impl Into<Cow<'static, str>>) -> Message {
        if self.wants_words() { Message::whole(key) } else { Message::Nothing }
    }

    /// The factor by which a part that the calculator itself designs is off its
    /// value: 1 but where tolerances are drawn. Its name is the word `made-<id>`.
    pub fn made(&mut self, id: &'static str, kind: PartKind) -> f64 {
        if let Some(made) = self.made.iter().find(|made| made.id == id) {
            return made.factor;
        }
        self.made.push(Made { id, kind, factor: 1.0 });
        1.0
    }

    /// Tells those readings to one figure more that `which` names by their identifier
    /// and unit.
    pub fn tell_finer(&mut self, which: fn(&str, Unit) -> bool) {
        self.fine = which;
    }

    /// Says what the answer is for.
    pub fn subject(&mut self, args: Args) {
        if self.wants_words() {
            self.solution.subject = Some(self.word("subject", args));
        }
    }

    /// Writes one of the answers to read first.
    pub fn headline(&mut self, id: &'static str, value: impl Into<Option<f64>>, unit: Unit, args: Args) {
        let reading = self.reading(id, value.into(), unit, args);
        self.last = (true, self.solution.headline.len());
        self.solution.headline.push(reading);
    }

    /// Writes what else was computed.
    pub fn further(&mut self, id: &'static str, value: impl Into<Option<f64>>, unit: Unit, args: Args) {
        self.last = (false, self.solution.further.len());
        if self.wants_further() {
            let reading = self.reading(id, value.into(), unit, args);
            self.solution.further.push(reading);
        }
    }

    /// Writes a loss, dB, as one of the answers to read first. What shows as less than
    /// zero is a gain and is told as one, under the name `<id>.gain`.
    pub fn headline_loss(&mut self, id: &'static str, loss: f64, args: Args) {
        let reading = self.loss(id, loss, args);
        self.last = (true, self.solution.headline.len());
        self.solution.headline.push(reading);
    }

    /// The same among what else was computed.
    pub fn further_loss(&mut self, id: &'static str, loss: f64, args: Args) {
        self.last = (false, self.solution.further.len());
        if self.wants_further() {
            let reading = self.loss(id, loss, args);
            self.solution.further.push(reading);
        }
    }

    fn loss(&self, id: &'static str, loss: f64, args: Args) -> Reading<Message> {
        let mut reading = self.reading(id, Some(loss), Unit::Decibel, args);
        let told = &mut reading.told;
        told.loss = true;
        told.turned = loss < 0.0 && loss.is_finite() && !shows_zero(loss, told.digits);
        if told.turned && self.wants_words() {
            reading.text = Message::Quantity(-loss, Unit::Decibel, told.digits);
            reading.name = self.word(format!("{id}{GAIN}"), args);
        }
        reading
    }

    fn reading(&self, id: &'static str, value: Option<f64>, unit: Unit, args: Args) -> Reading<Message> {
        let endless = value == Some(f64::INFINITY);
        let value = value.filter(|value| value.is_finite());
        let told = Told { digits: if (self.fine)(id, unit) { FINE } else { SHOWN }, loss: false, turned: false };
        let text = match value {
            _ if !self.wants_words() => Message::Nothing,
            Some(value) => Message::Quantity(value, unit, told.digits),
            None => Message::Word {
                calculator: Some(self.calculator),
                key: format!("{id}.none").into(),
                args: args.to_vec(),
                otherwise: if endless { "common-endless" } else { "common-nothing" },
            },
        };
        Reading { id, name: self.word(id, args), value, unit, text, exact: None, verdict: None, because: None, told }
    }

    /// Says what to make of the reading written last.
    pub fn verdict(&mut self, tone: Tone, id: impl Into<Cow<'static, str>>, args: Args) {
        let verdict = Verdict { tone, text: self.word(id, args) };
        if let Some(reading) = self.last() {
            reading.verdict = Some(verdict);
        }
    }

    /// Says why the reading written last is what it is: the word `<id>`, and the
    /// simple formula with the symbols of the fields.
    ///
    /// # Errors
    /// A [`Fault`] where the formula is none.
    pub fn because(&mut self, id: &'static str, symbol: &str, formula: &str) -> Result<(), Fault> {
        if self.wants_words() {
            let because = Because::new(self.word(id, &[]), symbol, formula)?;
            if let Some(reading) = self.last() {
                reading.because = Some(because);
            }
        }
        Ok(())
    }

    fn last(&mut self) -> Option<&mut Reading<Message>> {
        let (headline, at) = self.last;
        let readings = if headline { &mut self.solution.headline } else { &mut self.solution.further };
        readings.get_mut(at)
    }

    /// Says what makes the answer less than it seems.
    pub fn warn(&mut self, id: &'static str, args: Args) {
        let warning = self.word(id, args);
        self.solution.warnings.push(warning);
    }

    /// Says that it is a case for an electrician before anything is plugged: no lead and no
    /// box mends it.
    pub(crate) fn stop(&mut self) {
        self.warn("stop", &[]);
        self.cautions_first();
        self.solution.stop = true;
    }

    /// Passes on what another sheet has warned of, once.
    pub(crate) fn pass_on(&mut self, warnings: &[Message]) {
        for warning in warnings {
            if !self.solution.warnings.contains(warning) {
                self.solution.warnings.push(warning.clone());
            }
        }
    }

    /// Says what can hurt someone; a message of the catalogue by its whole key.
    pub fn caution(&mut self, key: &'static str) {
        let caution = self.message(key);
        self.solution.cautions.push(caution);
    }

    /// Has the cautions read before the answer: where mains can kill.
    pub fn cautions_first(&mut self) {
        self.solution.cautions_first = true;
    }

    /// Names where formulas and values come from; a message by its whole key.
    pub fn source(&mut self, key: &'static str) {
        let source = self.message(key);
        if self.wants_all_words() && !self.solution.sources.contains(&source) {
            self.solution.sources.push(source);
        }
    }

    /// Points to another calculator, filled in.
    pub(crate) fn link_to(&mut self, id: &'static str, args: Args, filling: &Filling) {
        if self.wants_all_words() {
            let link = self.linked(self.word(id, args), filling);
            self.solution.links.push(link);
        }
    }

    /// A link to another calculator, with its text, which says where not all
    /// could be put in. Values are in SI units and are written so that its fields
    /// read them.
    pub(crate) fn linked(&self, text: Message, filling: &Filling) -> Link<Message> {
        let text = if filling.is_cut() { self.word("link-cut", &[("link", Arg::Messages(vec![text]))]) } else { text };
        Link { text, calculator: filling.calculator, values: filling.entries() }
    }

    /// Adds the next of the ways to do it.
    pub fn candidate(&mut self, candidate: Candidate<Message>) {
        self.solution.ranking.push(candidate);
    }

    /// Draws the rig.
    pub(crate) fn diagram(&mut self, diagram: Diagram<Message>) {
        self.solution.diagram = Some(diagram);
    }

    /// Says what can be heard beside the response.
    pub(crate) fn sound(&mut self, sound: impl FnOnce() -> RigSound) {
        if self.wants_all_words() {
            let RigSound { mut hum, noise, headroom } = sound();
            hum.retain(|line| line.db.is_finite());
            let finite = |level: Option<f64>| level.filter(|level| level.is_finite());
            self.solution.sound = Some(RigSound { hum, noise: finite(noise), headroom: finite(headroom) });
        }
    }

    /// Adds a plot; its title is the word `<id>`, its summary `<id>.summary`.
    pub fn plot(
        &mut self,
        id: &'static str,
        summary: Args,
        x: Axis<Message>,
        y: Axis<Message>,
        traces: Vec<Trace<Message>>,
    ) -> &mut Plot<Message> {
        let plot = Plot {
            id,
            title: self.word(id, summary),
            summary: self.word(format!("{id}.summary"), summary),
            x,
            y,
            traces,
            markers: Vec::new(),
            bands: Vec::new(),
            stops: Vec::new(),
            key_at: None,
        };
        self.solution.plots.push(plot);
        let last = self.solution.plots.len() - 1;
        &mut self.solution.plots[last]
    }

    /// An axis; its name is the word `<id>`.
    pub fn axis(&self, id: &'static str, unit: Unit, log: bool, from: f64, to: f64) -> Axis<Message> {
        Axis {
            name: self.word(id, &[]),
            unit,
            symbol: unit.symbol(),
            log,
            discrete: false,
            from,
            to,
            names: Vec::new(),
        }
    }

    /// An axis of named places, at 0, 1, 2 and so on.
    pub fn places(&self, id: &'static str, names: Vec<Message>) -> Axis<Message> {
        let last = names.len().saturating_sub(1) as f64;
        Axis { names, discrete: true, ..self.axis(id, Unit::One, false, 0.0, last) }
    }

    /// A curve; its name is the word `<id>`.
    pub fn trace(&self, id: &'static str, reference: bool, x: Vec<f64>, y: Vec<f64>) -> Trace<Message> {
        Trace { id, name: self.word(id, &[]), reference, x, y }
    }

    /// A labelled point; its label is the word `<id>`.
    pub fn marker(&self, id: &'static str, args: Args, x: f64, y: f64) -> Marker<Message> {
        Marker { x, y, text: self.word(id, args), stressed: false }
    }
}
