//! The sheet on which a calculator writes its answer.

use super::fault::Fault;
use super::filling::Filling;
use super::report::{Axis, Candidate, Link, Marker, Plot, Reading, Report, Step, Tone, Trace, Verdict};
use super::tolerance::Made;
use crate::Complex64;
use crate::catalogue::tolerance::PartKind;
use crate::formula::mathml::identifier;
use crate::formula::print::{number, pretty};
use crate::formula::{Given, parse};
use crate::quantity::{Unit, write};
use crate::settings::Settings;
use crate::words::{Arg, Args, Words};

/// How much of a report is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Depth {
    /// Only the numbers: for solving backwards and for worst cases.
    Readings,
    /// Numbers and curves without a word: for tolerances.
    Curves,
    /// Numbers, words and plots.
    Plots,
    /// All of it, the working too.
    Working,
}

/// The sheet on which a calculator writes its answer.
///
/// Names are looked up as `<calculator>-<id>`, then `common-<id>`.
pub struct Sheet<'a> {
    calculator: &'static str,
    settings: &'a Settings,
    words: &'static Words,
    depth: Depth,
    scope: Vec<Given>,
    report: Report,
    last: (bool, usize),
    /// The parts that the calculator itself designs.
    pub(super) made: Vec<Made>,
}

impl<'a> Sheet<'a> {
    /// An empty sheet for a calculator.
    pub fn new(calculator: &'static str, settings: &'a Settings, depth: Depth) -> Self {
        Self {
            calculator,
            settings,
            words: Words::of(settings.language),
            depth,
            scope: Vec::new(),
            report: Report::default(),
            last: (true, 0),
            made: Vec::new(),
        }
    }

    /// The finished report.
    pub fn finish(mut self) -> Report {
        // There is nothing to point at where a curve does not exist.
        for plot in &mut self.report.plots {
            plot.markers.retain(|marker| marker.x.is_finite() && marker.y.is_finite());
        }
        self.report
    }

    /// How the reader wants numbers.
    pub fn settings(&self) -> &'a Settings {
        self.settings
    }

    /// How much of the report is wanted.
    pub fn depth(&self) -> Depth {
        self.depth
    }

    /// Whether plots are wanted.
    pub fn wants_plots(&self) -> bool {
        self.depth >= Depth::Curves
    }

    /// Whether words are wanted.
    pub fn wants_words(&self) -> bool {
        self.depth >= Depth::Plots
    }

    /// Whether the working is wanted.
    pub fn wants_working(&self) -> bool {
        self.depth >= Depth::Working
    }

    /// A word of this calculator, or a shared one, with its arguments.
    pub fn word(&self, id: &str, args: Args) -> String {
        if !self.wants_words() {
            return String::new();
        }
        let (id, attribute) = id.split_once('.').unwrap_or((id, ""));
        match self.words.of_calculator(self.calculator, id, attribute) {
            Some(pattern) => self.words.fill(pattern, args, self.settings),
            None => format!("{}-{id}", self.calculator),
        }
    }

    /// A message of the catalogue by its whole key.
    pub fn message(&self, key: &str, args: Args) -> String {
        if self.wants_words() { self.words.text(key, args, self.settings) } else { String::new() }
    }

    /// Gives a name of the formulas its number.
    pub fn given(&mut self, name: &str, value: impl Into<Complex64>, unit: Unit) {
        self.scope.push(Given { name: name.to_owned(), value: value.into(), unit });
    }

    /// By what the part that the calculator itself designs is off its value: 1
    /// but where tolerances are drawn. Its name is the word `made-<id>`.
    pub fn made(&mut self, id: &'static str, kind: PartKind) -> f64 {
        if let Some(made) = self.made.iter().find(|made| made.id == id) {
            return made.factor;
        }
        self.made.push(Made { id, kind, factor: 1.0 });
        1.0
    }

    /// The number that a name of the formulas stands for; NaN if none.
    pub(crate) fn value_of(&self, name: &str) -> Complex64 {
        self.scope.iter().rev().find(|given| given.name == name).map_or(f64::NAN.into(), |given| given.value)
    }

    /// Evaluates a formula with what was given so far, gives its result the
    /// name `symbol`, and writes it down as a step of the working.
    ///
    /// # Errors
    /// A [`Fault`] where the formula names something that was not given.
    pub fn step(&mut self, id: &str, symbol: &str, formula: &str, unit: Unit) -> Result<f64, Fault> {
        self.step_complex(id, symbol, formula, unit).map(|value| value.re)
    }

    /// As [`Sheet::step`], for a complex result.
    ///
    /// # Errors
    /// As [`Sheet::step`].
    pub fn step_complex(&mut self, id: &str, symbol: &str, formula: &str, unit: Unit) -> Result<Complex64, Fault> {
        let name = if self.wants_working() { self.word(id, &[]) } else { String::new() };
        self.named_step(name, symbol, formula, unit)
    }

    /// As [`Sheet::step_complex`], with the finished name of the step.
    ///
    /// # Errors
    /// As [`Sheet::step`].
    pub fn named_step(&mut self, name: String, symbol: &str, formula: &str, unit: Unit) -> Result<Complex64, Fault> {
        let parsed = parse(formula).map_err(|error| Fault::internal(&format!("{formula}: {error:?}")))?;
        let value = parsed.value(&self.scope).map_err(|error| Fault::internal(&format!("{formula}: {error:?}")))?;
        if self.wants_working() {
            let symbol_mathml = identifier(symbol);
            self.report.working.push(Step {
                name,
                formula: format!("{} = {}", pretty(symbol), parsed.text()),
                formula_mathml: format!("{symbol_mathml}<mo>=</mo>{}", parsed.mathml()),
                numbers: parsed.numbers(&self.scope, self.settings),
                numbers_mathml: format!(
                    "{symbol_mathml}<mo>=</mo>{}",
                    parsed.numbers_mathml(&self.scope, self.settings)
                ),
                result: number(value, unit, self.settings),
                value: value.re,
                imaginary: value.im,
            });
        }
        self.given(symbol, value, unit);
        Ok(value)
    }

    /// Writes one of the answers to read first.
    pub fn headline(&mut self, id: &'static str, value: impl Into<Option<f64>>, unit: Unit, args: Args) {
        let reading = self.reading(id, value.into(), unit, args);
        self.last = (true, self.report.headline.len());
        self.report.headline.push(reading);
    }

    /// Writes what else was computed.
    pub fn further(&mut self, id: &'static str, value: impl Into<Option<f64>>, unit: Unit, args: Args) {
        let reading = self.reading(id, value.into(), unit, args);
        self.last = (false, self.report.further.len());
        self.report.further.push(reading);
    }

    fn reading(&self, id: &'static str, value: Option<f64>, unit: Unit, args: Args) -> Reading {
        let endless = value == Some(f64::INFINITY);
        let value = value.filter(|value| value.is_finite());
        let (name, text) = if !self.wants_words() {
            Default::default()
        } else {
            let text = match value {
                Some(value) => write(value, unit, 4, self.settings),
                None => match self.words.of_calculator(self.calculator, id, "none") {
                    Some(pattern) => self.words.fill(pattern, args, self.settings),
                    None => self.message(if endless { "common-endless" } else { "common-nothing" }, &[]),
                },
            };
            (self.word(id, args), text)
        };
        Reading { id, name, value, unit, text, verdict: None }
    }

    /// Says what to make of the reading written last.
    pub fn verdict(&mut self, tone: Tone, id: &str, args: Args) {
        let verdict = Verdict { tone, text: self.word(id, args) };
        let (headline, at) = self.last;
        let readings = if headline { &mut self.report.headline } else { &mut self.report.further };
        if let Some(reading) = readings.get_mut(at) {
            reading.verdict = Some(verdict);
        }
    }

    /// Says what makes the answer less than it seems.
    pub fn warn(&mut self, id: &str, args: Args) {
        let text = self.word(id, args);
        self.report.warnings.push(text);
    }

    /// Passes on what another sheet has warned of, once.
    pub(super) fn pass_on(&mut self, warnings: &[String]) {
        for text in warnings {
            if !self.report.warnings.contains(text) {
                self.report.warnings.push(text.clone());
            }
        }
    }

    /// Says what can hurt someone; a message of the catalogue by its whole key.
    pub fn caution(&mut self, key: &str) {
        let text = self.message(key, &[]);
        self.report.cautions.push(text);
    }

    /// Has the cautions read before the answer: where mains can kill.
    pub fn cautions_first(&mut self) {
        self.report.cautions_first = true;
    }

    /// Names where formulas and values come from; a message by its whole key.
    pub fn source(&mut self, key: &str) {
        if self.wants_words() {
            let text = self.message(key, &[]);
            if !self.report.sources.contains(&text) {
                self.report.sources.push(text);
            }
        }
    }

    /// Points to another calculator, filled in.
    pub(super) fn link_to(&mut self, id: &str, args: Args, filling: &Filling) {
        if self.wants_words() {
            let link = self.linked(self.word(id, args), filling);
            self.report.links.push(link);
        }
    }

    /// A link to another calculator, with its text, which says where not all
    /// could be put in. Values are in SI units and are written so that its fields
    /// read them.
    pub(super) fn linked(&self, text: String, filling: &Filling) -> Link {
        let text = if filling.is_cut() { self.word("link-cut", &[("link", Arg::Text(text))]) } else { text };
        Link::filled(text, filling.calculator.id, filling.values(), self.settings)
    }

    /// Adds the next of the ways to do it.
    pub fn candidate(&mut self, candidate: Candidate) {
        self.report.ranking.push(candidate);
    }

    /// Adds a plot; its title is the word `<id>`, its summary `<id>.summary`.
    pub fn plot(&mut self, id: &'static str, summary: Args, x: Axis, y: Axis, traces: Vec<Trace>) -> &mut Plot {
        let plot = Plot {
            id,
            title: self.word(id, summary),
            summary: self.word(&format!("{id}.summary"), summary),
            x,
            y,
            traces,
            markers: Vec::new(),
            bands: Vec::new(),
            stops: Vec::new(),
        };
        self.report.plots.push(plot);
        let last = self.report.plots.len() - 1;
        &mut self.report.plots[last]
    }

    /// An axis; its name is the word `<id>`.
    pub fn axis(&self, id: &str, unit: Unit, log: bool, from: f64, to: f64) -> Axis {
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
    pub fn places(&self, id: &str, names: Vec<String>) -> Axis {
        let last = names.len().saturating_sub(1) as f64;
        Axis { names, ..self.axis(id, Unit::One, false, 0.0, last) }
    }

    /// A curve; its name is the word `<id>`.
    pub fn trace(&self, id: &'static str, reference: bool, x: Vec<f64>, y: Vec<f64>) -> Trace {
        Trace { id, name: self.word(id, &[]), reference, x, y }
    }

    /// A point to point at; its text is the word `<id>`.
    pub fn marker(&self, id: &str, args: Args, x: f64, y: f64) -> Marker {
        Marker { x, y, text: self.word(id, args) }
    }
}
