//! Expression → plain text, with names or with numbers.

use super::{Expression, Function, Given, Operator};
use crate::Complex64;
use crate::quantity::{EXACT, Unit, write, write_complex};
use crate::settings::Settings;

impl Expression {
    /// The formula with its names.
    pub fn text(&self) -> String {
        self.print(&|name| pretty(name))
    }

    /// The formula with numbers put in, in a form that [`super::parse`] reads
    /// (with a decimal point in the settings).
    pub fn numbers(&self, scope: &[Given], settings: &Settings) -> String {
        self.print(&|name| match scope.iter().rev().find(|given| given.name == name) {
            Some(given) => number(given.value, given.unit, settings),
            None => pretty(name),
        })
    }

    fn print(&self, name: &impl Fn(&str) -> String) -> String {
        let bracketed = |inner: &Self, least: u8| {
            let text = inner.print(name);
            // A negative number put in for a name needs brackets as a sum would.
            let open = text.starts_with('−') && least > 1 && !matches!(inner, Self::Negative(_));
            if inner.binding() < least || open { format!("({text})") } else { text }
        };
        // The brackets of a complex number are not needed inside those of a function.
        let argument = |inner: &Self| {
            let text = inner.print(name);
            match (inner, text.strip_prefix('(').and_then(|text| text.strip_suffix(')'))) {
                (Self::Name(_), Some(bare)) => bare.to_owned(),
                _ => text,
            }
        };
        match self {
            Self::Number(text, _) => text.clone(),
            Self::Name(text) => name(text),
            Self::Negative(inner) => format!("−{}", bracketed(inner, 3)),
            Self::Binary(operator, a, b) => {
                let (sign, left, right) = match operator {
                    Operator::Add => (" + ", 1, 2),
                    Operator::Subtract => (" − ", 1, 3),
                    Operator::Multiply => ("·", 2, 3),
                    Operator::Divide => (" / ", 2, 4),
                    Operator::Power => ("^", 5, 5),
                };
                let right = match (operator, &**b) {
                    (Operator::Add, Self::Binary(Operator::Add, ..)) => 1,
                    _ => right,
                };
                let base = bracketed(a, left);
                // `10 kΩ^2` would square the unit.
                let base = if *operator == Operator::Power && base.contains('\u{a0}') && !base.starts_with('(') {
                    format!("({base})")
                } else {
                    base
                };
                format!("{base}{sign}{}", bracketed(b, right))
            }
            Self::Call(Function::Absolute, inner) => {
                format!("|{}|", inner.iter().map(argument).collect::<String>())
            }
            Self::Call(function, arguments) => {
                let arguments: Vec<_> = arguments.iter().map(argument).collect();
                let function = if *function == Function::SquareRoot { "√" } else { function.name() };
                format!("{function}({})", arguments.join(", "))
            }
        }
    }
}

/// A number of the working: temperatures in K and ratios plain, since that is
/// what the formulas take.
pub(crate) fn number(value: Complex64, unit: Unit, settings: &Settings) -> String {
    if unit == Unit::Kelvin {
        return format!("{}\u{a0}K", write(value.re, Unit::One, EXACT, settings));
    }
    let unit = if unit == Unit::Ratio { Unit::One } else { unit };
    if value.im == 0.0 { write(value.re, unit, EXACT, settings) } else { write_complex(value, unit, EXACT, settings) }
}

/// Greek letters for their names.
pub(crate) fn pretty(name: &str) -> String {
    let (stem, subscript) = name.split_once('_').map_or((name, None), |(stem, sub)| (stem, Some(sub)));
    let stem = match stem {
        "pi" => "π",
        "omega" => "ω",
        "gamma" => "γ",
        "phi" => "φ",
        "alpha" => "α",
        "Delta" => "Δ",
        other => other,
    };
    subscript.map_or_else(|| stem.to_owned(), |subscript| format!("{stem}_{subscript}"))
}
