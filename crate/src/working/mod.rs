//! The working of an answer: formulas that are evaluated one after the other, each
//! with what was found before it, and written down where that is wanted.
//!
//! ```
//! use stageohm::quantity::Unit;
//! use stageohm::working::Working;
//!
//! let mut working = Working::new("source-load", true);
//! working.given("R_S", 10e3, Unit::Ohm);
//! working.given("R_L", 10e3, Unit::Ohm);
//! // Half the voltage is 20·log10 2 = 6.0206 dB less.
//! let level = working.step("level", "a", "20*log10(R_L/(R_S + R_L))", Unit::Decibel).unwrap();
//! assert!((level + 6.0206).abs() < 1e-4);
//! assert_eq!(working.into_steps()[0].formula, "a = 20·log10(R_L / (R_S + R_L))");
//! ```

pub(crate) mod ground_loop;
mod level;
mod path;

use crate::Complex64;
use crate::expression::mathml::identifier;
use crate::expression::print::pretty;
use crate::expression::{Error, Expression, Given, parse};
use crate::fault::Fault;
use crate::quantity::Unit;
use crate::words::{Args, Message};
use serde::Serialize;
use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

/// One step of the working: a formula, the same with numbers, its result.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Step<T = String> {
    /// What is computed.
    pub name: T,
    /// Whether it is one of many alike, such as the walk through a chain part by part.
    pub chain: bool,
    /// `symbol = formula`, as plain text.
    pub formula: String,
    /// The same as MathML.
    pub formula_mathml: String,
    /// The formula with numbers put in, as plain text that evaluates to the result.
    pub numbers: T,
    /// The same as MathML.
    pub numbers_mathml: T,
    /// The result as printed.
    pub result: T,
    /// The result, real part, in its unit.
    pub value: f64,
    /// The result, imaginary part.
    pub imaginary: f64,
}

/// Formulas evaluated one after the other.
#[derive(Debug)]
pub struct Working {
    calculator: &'static str,
    /// Whether steps are written down, and not only evaluated.
    wanted: bool,
    scope: Vec<Given>,
    steps: Vec<Step<Message>>,
    /// Whether what is written down now is one of many alike.
    folding: bool,
}

impl Working {
    /// Nothing yet. Steps are named as `<calculator>-<id>`, then `common-<id>`.
    pub fn new(calculator: &'static str, wanted: bool) -> Self {
        Self { calculator, wanted, scope: Vec::new(), steps: Vec::new(), folding: false }
    }

    /// Whether what is written down from now on is one of many alike, which readers
    /// unfold.
    pub(crate) fn fold(&mut self, folding: bool) {
        self.folding = folding;
    }

    /// Whether steps are written down.
    pub fn is_wanted(&self) -> bool {
        self.wanted
    }

    /// What was written down.
    pub fn into_steps(self) -> Vec<Step<Message>> {
        self.steps
    }

    /// Gives a name of the formulas its number.
    pub fn given(&mut self, name: &str, value: impl Into<Complex64>, unit: Unit) {
        self.scope.push(Given { name: name.to_owned(), value: value.into(), unit });
    }

    /// The number that a name of the formulas stands for; NaN if none.
    pub fn value_of(&self, name: &str) -> Complex64 {
        self.latest(name).map_or(f64::NAN.into(), |given| given.value)
    }

    /// What a formula comes to with what was given so far, not written down.
    ///
    /// # Errors
    /// As [`Working::step`].
    pub fn value(&self, formula: &str) -> Result<f64, Fault> {
        self.evaluated(formula).map(|(_, value)| value.re)
    }

    fn evaluated(&self, formula: &str) -> Result<(Rc<Expression>, Complex64), Fault> {
        let wrong = |error| Fault::internal(&format!("{formula}: {error:?}"));
        let parsed = read_once(formula).map_err(wrong)?;
        let value = parsed.value(&self.scope).map_err(wrong)?;
        Ok((parsed, value))
    }

    fn latest(&self, name: &str) -> Option<&Given> {
        self.scope.iter().rev().find(|given| given.name == name)
    }

    /// Evaluates a formula with what was given so far, gives its result the
    /// name `symbol`, and writes it down as a step of the working.
    ///
    /// # Errors
    /// A [`Fault`] where the formula names something that was not given.
    pub fn step(&mut self, id: &str, symbol: &str, formula: &str, unit: Unit) -> Result<f64, Fault> {
        self.step_with(id, &[], symbol, formula, unit).map(|value| value.re)
    }

    /// As [`Working::step`], for a complex result and with what goes into the name.
    ///
    /// # Errors
    /// As [`Working::step`].
    pub fn step_with(
        &mut self,
        id: &str,
        args: Args,
        symbol: &str,
        formula: &str,
        unit: Unit,
    ) -> Result<Complex64, Fault> {
        let (parsed, value) = self.evaluated(formula)?;
        if self.wanted {
            let name = Message::of(self.calculator, id.to_owned(), args);
            self.steps.push(self.written(name, symbol, (*parsed).clone(), value, unit));
        }
        self.given(symbol, value, unit);
        Ok(value)
    }

    fn written(&self, name: Message, symbol: &str, formula: Expression, value: Complex64, unit: Unit) -> Step<Message> {
        let mut used: Vec<Given> = Vec::new();
        formula.names(&mut |name| {
            if let Some(given) = self.latest(name).filter(|given| !used.contains(given)) {
                used.push(given.clone());
            }
        });
        let equals = equals(symbol);
        let stated = Stated::of(symbol, &formula);
        Step {
            name,
            chain: self.folding,
            formula: stated.formula,
            formula_mathml: stated.formula_mathml,
            numbers: Message::Numbers(formula.clone(), used.clone()),
            numbers_mathml: Message::NumbersMathml(equals, formula, used),
            result: Message::Number(value, unit),
            value: value.re,
            imaginary: value.im,
        }
    }
}

/// A formula from its text, which is read once: draws of tolerances evaluate the same
/// formulas many thousand times. There are as many as stand in the sources.
fn read_once(formula: &str) -> Result<Rc<Expression>, Error> {
    thread_local!(static READ: RefCell<HashMap<String, Rc<Expression>>> = RefCell::default());
    READ.with_borrow_mut(|read| {
        if let Some(known) = read.get(formula) {
            return Ok(known.clone());
        }
        let parsed = Rc::new(parse(formula)?);
        read.insert(formula.to_owned(), parsed.clone());
        Ok(parsed)
    })
}

/// A formula as it is written, with nothing put in.
pub(crate) struct Stated {
    /// `symbol = formula`, as plain text.
    pub formula: String,
    /// The same as MathML.
    pub formula_mathml: String,
}

impl Stated {
    pub(crate) fn new(symbol: &str, formula: &str) -> Result<Self, Fault> {
        let parsed = parse(formula).map_err(|error| Fault::internal(&format!("{formula}: {error:?}")))?;
        Ok(Self::of(symbol, &parsed))
    }

    fn of(symbol: &str, formula: &Expression) -> Self {
        Self {
            formula: format!("{} = {}", pretty(symbol), formula.text()),
            formula_mathml: format!("{}{}", equals(symbol), formula.mathml()),
        }
    }
}

fn equals(symbol: &str) -> String {
    format!("{}<mo>=</mo>", identifier(symbol))
}
