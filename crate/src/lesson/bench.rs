//! A rig of a lesson, to be asked.

use crate::ask::{Echo, Entry, Problem, read_wanted};
use crate::calculator::Calculator;
use crate::fault::Fault;
use crate::field::{Field, Number, Values};
use crate::named::Named;
use crate::quantity::{Reject, Unit};
use crate::report::{Depth, Plot, Reading, Report, Solution, Trace};
use crate::settings::Settings;
use crate::words::Message;

/// The plot of decibels over the frequency that is also what is heard.
pub(super) const RESPONSE: &str = "response";

/// Texts by field, with others over them.
pub(super) fn over(mut texts: Named<String>, others: &Named<String>) -> Named<String> {
    for (field, text) in others.iter() {
        texts.insert(field.to_owned(), text.clone());
    }
    texts
}

/// A lesson asks for a loss and limits it under one name: that it is a gain is told by its sign,
/// and by no name that would give it away.
fn plain(mut solution: Solution) -> Solution {
    for readings in [&mut solution.headline, &mut solution.further] {
        *readings = std::mem::take(readings).into_iter().map(Reading::plain).collect();
    }
    solution
}

/// A rig of a lesson, with what stands in its fields.
#[derive(Clone, Debug)]
pub(super) struct Bench {
    pub calculator: &'static Calculator,
    /// What stands in its fields.
    pub texts: Named<String>,
    pub values: Values,
    /// How each field was understood.
    pub fields: Named<Echo>,
    /// Under which the texts of the lesson are written.
    pub settings: Settings,
}

impl Bench {
    /// Nothing where there is no such calculator.
    pub(super) fn of(calculator: &str, texts: Named<String>, settings: Settings) -> Option<Self> {
        Some(Self::read(Calculator::find(calculator)?, texts, settings))
    }

    fn read(calculator: &'static Calculator, texts: Named<String>, settings: Settings) -> Self {
        let mut entries = Named::default();
        for (field, text) in texts.iter() {
            entries.insert(field.to_owned(), Entry::Text(text.clone()));
        }
        let (values, fields) = Values::read(calculator, &entries, &settings);
        Self { calculator, texts, values, fields, settings }
    }

    /// The same with other texts in some fields.
    pub(super) fn with(&self, texts: &Named<String>) -> Self {
        Self::read(self.calculator, over(self.texts.clone(), texts), self.settings)
    }

    /// Whether every field was understood.
    pub(super) fn is_read(&self) -> bool {
        self.fields.iter().all(|(_, echo)| echo.problem.is_none())
    }

    /// What it answers; nothing where it cannot.
    pub(super) fn solution(&self, depth: Depth) -> Option<Solution> {
        if !self.is_read() {
            return None;
        }
        self.calculator.solution(&self.values, depth).ok().map(plain)
    }

    /// What it answers in words, or why it cannot.
    pub(super) fn worded_solution(&self, settings: &Settings) -> Result<Report, String> {
        if let Some(problem) = self.fields.iter().find_map(|(_, echo)| echo.problem.as_ref()) {
            return Err(problem.message.clone());
        }
        let solution = self.calculator.solution(&self.values, Depth::Plots).map(plain);
        let why = |fault: Fault| Problem::of(fault.key(), fault.args(), settings).message;
        solution.map(|solution| solution.worded(settings)).map_err(why)
    }

    /// A reading in words; nothing where there is none.
    pub(super) fn worded(&self, id: &str, settings: &Settings) -> Option<Reading> {
        self.solution(Depth::Plots)?.reading(id).cloned().map(|reading| reading.worded(settings))
    }

    /// A reading, without words; nothing where there is none.
    pub(super) fn reading(&self, id: &str) -> Option<Reading<Message>> {
        self.solution(Depth::Readings)?.reading(id).cloned()
    }

    /// A plot with one trace of it: the first one that is no reference, where none is named.
    pub(super) fn trace(&self, plot: &str, trace: &str) -> Option<(Plot<Message>, Trace<Message>)> {
        let plot = self.solution(Depth::Plots)?.plots.into_iter().find(|one| one.id == plot)?;
        let is_it = |one: &&Trace<Message>| if trace.is_empty() { !one.reference } else { one.id == trace };
        let trace = plot.traces.iter().find(is_it).cloned()?;
        Some((plot, trace))
    }

    /// What is heard of it: its response, or that trace of it.
    pub(super) fn heard_trace(&self, trace: &str) -> Option<(Plot<Message>, Trace<Message>)> {
        self.trace(RESPONSE, trace)
    }

    /// A number field of the calculator.
    pub(super) fn field(&self, id: &str) -> Option<(&'static Field, &'static Number)> {
        let field = self.calculator.field(id)?;
        field.kind.number().map(|number| (field, number))
    }

    /// A quantity of the lesson in a unit.
    pub(super) fn quantity(&self, text: &str, unit: Unit) -> Result<f64, Reject> {
        read_wanted(text, unit, &self.settings)
    }
}
