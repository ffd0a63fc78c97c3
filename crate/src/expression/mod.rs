//! Formulas that can be evaluated, printed, printed with numbers put in, and
//! read back.
//!
//! The working of every answer is made of these, so that what is shown is what
//! was computed. A formula is written as `20*log10(abs(Z_L/(Z_S + Z_L)))`; the
//! printed form `20·log10(|Z_L / (Z_S + Z_L)|)` parses too, numbers with units
//! included (`10 kΩ / (150 Ω + 10 kΩ)`).
//!
//! Functions: `sqrt`, `abs` or `|x|`, `log10`, `ln`, `exp`, `re`, `im`, `arg`
//! (degrees), `cosh`, `sinh`, `atan` (radians), `min`, `max`. Constants: `pi`, `j`.
//!
//! ```
//! use stageohm::expression::{Given, parse};
//! use stageohm::quantity::Unit;
//! use stageohm::settings::Settings;
//!
//! let divider = parse("20*log10(R_L/(R_S + R_L))").unwrap();
//! let given = |name: &str, ohms: f64| Given { name: name.to_owned(), value: ohms.into(), unit: Unit::Ohm };
//! let scope = [given("R_S", 150.0), given("R_L", 1500.0)];
//! assert!((divider.value(&scope).unwrap().re + 0.828).abs() < 0.001);
//! let printed = divider.numbers(&scope, &Settings::default());
//! assert_eq!(printed, "20·log10(1.5\u{a0}kΩ / (150\u{a0}Ω + 1.5\u{a0}kΩ))");
//! // What is shown is what was computed.
//! assert_eq!(parse(&printed).unwrap().value(&[]).unwrap(), divider.value(&scope).unwrap());
//! ```

pub(crate) mod mathml;
mod parse;
pub(crate) mod print;

pub use parse::parse;

use crate::Complex64;
use crate::quantity::Unit;

/// A formula.
#[derive(Clone, Debug, PartialEq)]
pub enum Expression {
    /// A literal, as it was written, and its value.
    Number(String, f64),
    /// A named value.
    Name(String),
    /// The negative.
    Negative(Box<Expression>),
    /// Two formulas joined.
    Binary(Operator, Box<Expression>, Box<Expression>),
    /// A function of formulas.
    Call(Function, Vec<Expression>),
}

/// How two formulas are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Operator {
    Add,
    Subtract,
    Multiply,
    Divide,
    Power,
}

/// A function of a formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Function {
    SquareRoot,
    Absolute,
    Log10,
    NaturalLog,
    Exponential,
    Real,
    Imaginary,
    Argument,
    HyperbolicCosine,
    HyperbolicSine,
    ArcTangent,
    Least,
    Most,
}

const FUNCTIONS: &[(&str, Function)] = &[
    ("sqrt", Function::SquareRoot),
    ("abs", Function::Absolute),
    ("log10", Function::Log10),
    ("ln", Function::NaturalLog),
    ("exp", Function::Exponential),
    ("re", Function::Real),
    ("im", Function::Imaginary),
    ("arg", Function::Argument),
    ("cosh", Function::HyperbolicCosine),
    ("sinh", Function::HyperbolicSine),
    ("atan", Function::ArcTangent),
    ("min", Function::Least),
    ("max", Function::Most),
];

impl Function {
    fn named(name: &str) -> Option<Self> {
        FUNCTIONS.iter().find(|(known, _)| *known == name).map(|(_, function)| *function)
    }

    fn name(self) -> &'static str {
        FUNCTIONS.iter().find(|(_, function)| *function == self).map_or("", |(name, _)| name)
    }
}

/// A name with the number and the unit it stands for.
#[derive(Clone, Debug, PartialEq)]
pub struct Given {
    /// The name, such as `R_S`.
    pub name: String,
    /// The number in its unit without prefix.
    pub value: Complex64,
    /// The unit.
    pub unit: Unit,
}

/// Why a formula has no value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Error {
    /// The text is no formula; what could not be read.
    Syntax(String),
    /// A name that stands for nothing.
    Unknown(String),
}

impl Expression {
    /// Calls `meet` with every name in it.
    pub(crate) fn names(&self, meet: &mut impl FnMut(&str)) {
        match self {
            Self::Number(..) => {}
            Self::Name(name) => meet(name),
            Self::Negative(inner) => inner.names(meet),
            Self::Binary(_, a, b) => [a, b].into_iter().for_each(|side| side.names(meet)),
            Self::Call(_, arguments) => arguments.iter().for_each(|argument| argument.names(meet)),
        }
    }

    /// The value of the formula. What has no value, such as 0/0, is NaN.
    ///
    /// # Errors
    /// [`Error::Unknown`] for a name that is not in `scope`.
    pub fn value(&self, scope: &[Given]) -> Result<Complex64, Error> {
        Ok(match self {
            Self::Number(_, value) => (*value).into(),
            Self::Name(name) => match name.as_str() {
                "pi" | "π" => std::f64::consts::PI.into(),
                "j" => Complex64::I,
                // The latest of a name holds.
                _ => {
                    scope
                        .iter()
                        .rev()
                        .find(|given| given.name == *name)
                        .ok_or_else(|| Error::Unknown(name.clone()))?
                        .value
                }
            },
            // Not with a sign of its own: −0 j would be the far side of a root's or a
            // logarithm's branch cut.
            Self::Negative(inner) => Complex64::ZERO - inner.value(scope)?,
            Self::Binary(operator, a, b) => {
                let (a, b) = (a.value(scope)?, b.value(scope)?);
                let real = a.im == 0.0 && b.im == 0.0;
                match operator {
                    Operator::Add => a + b,
                    Operator::Subtract => a - b,
                    Operator::Multiply if real => (a.re * b.re).into(),
                    Operator::Multiply => a * b,
                    Operator::Divide if real => (a.re / b.re).into(),
                    Operator::Divide => a / b,
                    Operator::Power if real && (a.re >= 0.0 || b.re.fract() == 0.0) => a.re.powf(b.re).into(),
                    Operator::Power if b == Complex64::new(2.0, 0.0) => a * a,
                    Operator::Power => a.powc(b),
                }
            }
            Self::Call(function, arguments) => {
                let mut values = arguments.iter().map(|argument| argument.value(scope));
                let x = values.next().unwrap_or(Ok(f64::NAN.into()))?;
                match function {
                    Function::SquareRoot if x.im == 0.0 && x.re >= 0.0 => x.re.sqrt().into(),
                    Function::SquareRoot => x.sqrt(),
                    Function::Absolute => x.norm().into(),
                    Function::Log10 if x.im == 0.0 && x.re >= 0.0 => x.re.log10().into(),
                    Function::Log10 => x.log10(),
                    Function::NaturalLog if x.im == 0.0 && x.re >= 0.0 => x.re.ln().into(),
                    Function::NaturalLog => x.ln(),
                    Function::Exponential => x.exp(),
                    Function::Real => x.re.into(),
                    Function::Imaginary => x.im.into(),
                    Function::Argument => x.arg().to_degrees().into(),
                    Function::HyperbolicCosine => x.cosh(),
                    Function::HyperbolicSine => x.sinh(),
                    Function::ArcTangent => x.re.atan().into(),
                    Function::Least | Function::Most => {
                        let mut best = x.re;
                        for value in values {
                            let value = value?.re;
                            best = if *function == Function::Least { best.min(value) } else { best.max(value) };
                        }
                        best.into()
                    }
                }
            }
        })
    }

    /// How tightly the outermost operator binds, for brackets.
    fn binding(&self) -> u8 {
        match self {
            Self::Binary(Operator::Add | Operator::Subtract, ..) => 1,
            Self::Negative(_) => 2,
            Self::Binary(Operator::Multiply | Operator::Divide, ..) => 3,
            Self::Binary(Operator::Power, ..) => 4,
            _ => 5,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::settings::Settings;

    fn value(text: &str, scope: &[Given]) -> Complex64 {
        parse(text).unwrap().value(scope).unwrap()
    }

    #[test]
    fn arithmetic_binds_as_in_a_handbook() {
        for (text, expected) in [
            ("1 + 2*3", 7.0),
            ("2^3^2", 512.0),
            ("-2^2", -4.0),
            ("8/4/2", 1.0),
            ("2*-3", -6.0),
            ("10 − 4 − 3", 3.0),
            ("20·log10(|3 + j 4|)", 20.0 * 5.0_f64.log10()),
            ("√(16) + sqrt(9)", 7.0),
            ("10 kΩ / (10 kΩ + 10000 Ω)", 0.5),
            ("1 / (2·π·100 pF·50 Hz)", 1.0 / (2.0 * std::f64::consts::PI * 100e-12 * 50.0)),
            ("5 m · 100 pF/m", 500e-12),
            ("min(3, 2, 5) + max(1, 4)", 6.0),
            ("10^(−20 dB / 20)", 0.1),
            ("50 % · 2", 1.0),
            ("2 fT / 1 fT + 5 ft / 5 ft", 3.0),
            ("1 fT", 1e-15),
            ("10 ft", 3.048),
        ] {
            let got = value(text, &[]);
            assert!((got.re - expected).abs() <= 1e-12 * expected.abs() && got.im.abs() < 1e-12, "{text}: {got}");
        }
    }

    /// Principal values of functions of a complex number (DLMF 4.2, 4.21, 4.35):
    /// √−4 = 2j, ln −1 = jπ, e^jπ = −1, cosh jx = cos x, sinh jx = j·sin x, and
    /// (−8)^(1/3) = 2·e^(jπ/3).
    #[test]
    fn functions_of_complex_numbers() {
        use std::f64::consts::{LN_10, PI};
        for (text, re, im) in [
            ("√(−4)", 0.0, 2.0),
            ("√(0)", 0.0, 0.0),
            ("√(3 + j 4)", 2.0, 1.0),
            ("√(3 − j 4)", 2.0, -1.0),
            ("ln(−1)", 0.0, PI),
            ("ln(exp(2))", 2.0, 0.0),
            ("ln(j 2)", 2_f64.ln(), PI / 2.0),
            ("log10(−10)", 1.0, PI / LN_10),
            ("log10(1000)", 3.0, 0.0),
            ("log10(j 1)", 0.0, PI / 2.0 / LN_10),
            ("exp(j·π)", -1.0, 0.0),
            ("cosh(j 1)", 1_f64.cos(), 0.0),
            ("sinh(j 1)", 0.0, 1_f64.sin()),
            ("cosh(1) − sinh(1)", (-1_f64).exp(), 0.0),
            ("atan(1)", PI / 4.0, 0.0),
            ("arg(1 + j 1)", 45.0, 0.0),
            ("re(3 + j 4)", 3.0, 0.0),
            ("im(3 + j 4)", 4.0, 0.0),
            ("|−3|", 3.0, 0.0),
            ("(−2)^3", -8.0, 0.0),
            ("(−8)^(1/3)", 1.0, 3_f64.sqrt()),
            ("(1 + j 1)^2", 0.0, 2.0),
            ("(1 + j 1)^3", -2.0, 2.0),
            ("2^0.5", 2_f64.sqrt(), 0.0),
            ("(1 + j 2)*(3 − j 1)", 5.0, 5.0),
            ("(5 + j 5)/(3 − j 1)", 1.0, 2.0),
            ("3*(1 + j 2)", 3.0, 6.0),
            ("(3 + j 6)/3", 1.0, 2.0),
            ("6/(1 + j 1)", 3.0, -3.0),
            ("min(3, -2, 5)", -2.0, 0.0),
            ("max(3, -2, 5)", 5.0, 0.0),
        ] {
            let got = value(text, &[]);
            assert!((got - Complex64::new(re, im)).norm() <= 1e-12, "{text}: {got} is not {re} + j {im}");
        }
    }

    /// A whole power of a real number is real, and not nearly.
    #[test]
    fn whole_powers_are_real() {
        for (text, expected) in
            [("(−3)^3", -27.0), ("(−2)^5", -32.0), ("(−2)^(−1)", -0.5), ("(−1)^4", 1.0), ("0^2", 0.0)]
        {
            assert_eq!(value(text, &[]), Complex64::new(expected, 0.0), "{text}");
        }
    }

    #[test]
    fn what_is_printed_reads_back() {
        let scope = [
            Given { name: "Z_S".into(), value: Complex64::new(150.0, -2e4), unit: Unit::Ohm },
            Given { name: "R_L".into(), value: 1e4.into(), unit: Unit::Ohm },
            Given { name: "x".into(), value: (-3.0).into(), unit: Unit::One },
        ];
        for text in [
            "R_L/(Z_S + R_L)",
            "-(x + 1)^2 - x^2",
            "(x - 1) - (x - 2)",
            "R_L/(Z_S/R_L)",
            "20*log10(abs(Z_S*R_L/(Z_S + R_L)))",
            "2^(-x)",
            "(2^3)^2",
            "2^3^2",
            "(-x)^2",
            "(x*R_L)^2/(x + 1)^(1/2)",
            "R_L^2*Z_S",
            "R_L/(Z_S*R_L)",
            "(R_L/Z_S)/R_L",
            "x - (x + R_L)",
            "x*(R_L + Z_S)*(x - 1)",
            "-(x*R_L) - -x",
            "-(x - R_L)",
            "R_L + (x - 2) + (x + 3)",
            "sqrt(Z_S) + min(x, 1) + abs(-x)",
            "re(Z_S)*im(Z_S) + arg(Z_S)",
        ] {
            let formula = parse(text).unwrap();
            let settings = Settings::default();
            let expected = formula.value(&scope).unwrap();
            let symbols = value(&formula.text(), &scope);
            assert_eq!(symbols, expected, "{text} → {}", formula.text());
            let numbers = formula.numbers(&scope, &settings);
            let got = value(&numbers, &[]);
            assert!((got - expected).norm() < 1e-4 * expected.norm(), "{text} → {numbers}: {got} is not {expected}");
        }
    }

    #[test]
    fn nonsense_is_an_error() {
        for text in ["", "1 +", "(1", "1)", "foo(1)", "1 @ 2", "|1", "..", "a b"] {
            assert!(parse(text).is_err(), "{text}");
        }
        assert_eq!(parse("a + 1").unwrap().value(&[]), Err(Error::Unknown("a".into())));
        // Deep nesting ends in an error and not in a full stack.
        assert!(parse(&"(".repeat(100_000)).is_err());
        assert!(parse(&"-".repeat(100_000)).is_err());
        // Sixty levels are there for whoever writes a formula, and no more.
        let minus = |signs: usize| "-".repeat(signs) + "1";
        assert!(parse(&minus(59)).is_ok());
        assert!(parse(&minus(60)).is_err());
        // So does a long chain, which is as deep a tree. A thousand links are there, and no more.
        assert!(parse(&format!("1{}", "+1".repeat(100_000))).is_err());
        let sum = |signs: usize| format!("1{}", "+1".repeat(signs));
        assert_eq!(value(&sum(1000), &[]).re, 1001.0);
        assert!(parse(&sum(1001)).is_err());
        assert!(parse(&format!("({}) + 1", sum(1000))).is_err());
    }

    /// The working is printed to six digits.
    #[test]
    fn six_digits() {
        let scope = [Given { name: "R_L".into(), value: (1e5 / 7.0).into(), unit: Unit::Ohm }];
        let printed = parse("2*R_L").unwrap().numbers(&scope, &Settings::default());
        assert!(printed.contains("14.2857\u{a0}kΩ"), "{printed}");
    }
}
