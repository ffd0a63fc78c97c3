//! Text → formula, by recursive descent.

use super::{Error, Expression, Function, Operator};
use crate::quantity::{Unit, decimal, read};
use crate::settings::Settings;

/// Deeper brackets than this are refused rather than risking the stack.
const DEEPEST: usize = 60;
/// So are more signs between formulas: a chain of them is as deep a tree.
const MOST_JOINED: usize = 1000;

/// Units that may stand behind a number.
const UNITS: &[Unit] = &[
    Unit::Ohm,
    Unit::Siemens,
    Unit::Henry,
    Unit::Farad,
    Unit::Hertz,
    Unit::RadianPerSecond,
    Unit::Decibel,
    Unit::DecibelU,
    Unit::DecibelV,
    Unit::DecibelM,
    Unit::DecibelFullScale,
    Unit::Volt,
    Unit::VoltPeak,
    Unit::VoltPeakToPeak,
    Unit::Ampere,
    Unit::Watt,
    Unit::Metre,
    Unit::SquareMetre,
    Unit::OhmPerMetre,
    Unit::HenryPerMetre,
    Unit::FaradPerMetre,
    Unit::Tesla,
    Unit::Kelvin,
    Unit::VoltPerRootHertz,
    Unit::AmperePerRootHertz,
    Unit::Degree,
    Unit::Second,
    Unit::Percent,
];

/// Reads a formula.
///
/// # Errors
/// [`Error::Syntax`] with what could not be read.
pub fn parse(text: &str) -> Result<Expression, Error> {
    let mut reader = Reader { rest: text, depth: 0, joined: 0 };
    let formula = reader.sum()?;
    reader.skip_space();
    if reader.rest.is_empty() { Ok(formula) } else { Err(reader.error()) }
}

struct Reader<'a> {
    rest: &'a str,
    depth: usize,
    joined: usize,
}

impl<'a> Reader<'a> {
    fn skip_space(&mut self) {
        self.rest = self.rest.trim_start();
    }

    fn error(&self) -> Error {
        Error::Syntax(self.rest.chars().take(20).collect())
    }

    fn peek(&mut self) -> Option<char> {
        self.skip_space();
        self.rest.chars().next()
    }

    fn take(&mut self, wanted: char) -> Result<(), Error> {
        match self.peek() {
            Some(c) if c == wanted => {
                self.rest = &self.rest[c.len_utf8()..];
                Ok(())
            }
            _ => Err(self.error()),
        }
    }

    fn take_while(&mut self, keep: impl Fn(char) -> bool) -> &'a str {
        let end = self.rest.find(|c| !keep(c)).unwrap_or(self.rest.len());
        let (taken, rest) = self.rest.split_at(end);
        self.rest = rest;
        taken
    }

    fn operator(&mut self, table: &[(char, Operator)]) -> Option<Operator> {
        let next = self.peek()?;
        let (_, operator) = table.iter().find(|(sign, _)| *sign == next)?;
        // What is left over then is no formula.
        if self.joined == MOST_JOINED {
            return None;
        }
        self.joined += 1;
        self.rest = &self.rest[next.len_utf8()..];
        Some(*operator)
    }

    fn sum(&mut self) -> Result<Expression, Error> {
        let mut left = self.product()?;
        while let Some(operator) =
            self.operator(&[('+', Operator::Add), ('-', Operator::Subtract), ('−', Operator::Subtract)])
        {
            left = Expression::Binary(operator, left.into(), self.product()?.into());
        }
        Ok(left)
    }

    fn product(&mut self) -> Result<Expression, Error> {
        let mut left = self.signed()?;
        while let Some(operator) =
            self.operator(&[('*', Operator::Multiply), ('·', Operator::Multiply), ('/', Operator::Divide)])
        {
            left = Expression::Binary(operator, left.into(), self.signed()?.into());
        }
        Ok(left)
    }

    fn signed(&mut self) -> Result<Expression, Error> {
        if self.depth >= DEEPEST {
            return Err(self.error());
        }
        self.depth += 1;
        let formula = match self.peek() {
            Some(sign @ ('-' | '−')) => {
                self.take(sign)?;
                Expression::Negative(self.signed()?.into())
            }
            _ => self.power()?,
        };
        self.depth -= 1;
        Ok(formula)
    }

    fn power(&mut self) -> Result<Expression, Error> {
        let base = self.primary()?;
        if self.operator(&[('^', Operator::Power)]).is_some() {
            return Ok(Expression::Binary(Operator::Power, base.into(), self.signed()?.into()));
        }
        Ok(base)
    }

    fn primary(&mut self) -> Result<Expression, Error> {
        match self.peek() {
            Some('(') => self.between('(', ')'),
            Some('|') => Ok(Expression::Call(Function::Absolute, vec![self.between('|', '|')?])),
            Some('√') => {
                self.take('√')?;
                Ok(Expression::Call(Function::SquareRoot, vec![self.between('(', ')')?]))
            }
            Some(c) if c.is_ascii_digit() || c == '∞' => self.number(),
            Some(c) if c.is_alphabetic() => self.named(),
            _ => Err(self.error()),
        }
    }

    fn between(&mut self, open: char, close: char) -> Result<Expression, Error> {
        self.take(open)?;
        let inner = self.sum()?;
        self.take(close)?;
        Ok(inner)
    }

    fn number(&mut self) -> Result<Expression, Error> {
        let before = self.rest;
        if self.rest.starts_with('∞') {
            self.take('∞')?;
            let unit = self.unit();
            return Ok(Expression::Number(format!("∞ {unit}").trim().to_owned(), f64::INFINITY));
        }
        let mut number = self.take_while(|c| c.is_ascii_digit() || c == '.').to_owned();
        // An exponent, and not the letter of a name.
        if let Some(exponent) = self.rest.strip_prefix('e')
            && exponent.trim_start_matches(['-', '−']).starts_with(|c: char| c.is_ascii_digit())
        {
            self.rest = exponent;
            let sign = self.take_while(|c| matches!(c, '-' | '−'));
            let digits = self.take_while(|c| c.is_ascii_digit());
            number = format!("{number}e{}{digits}", if sign.is_empty() { "" } else { "-" });
        }
        let unit = self.unit();
        let text = before[..before.len() - self.rest.len()].trim().to_owned();
        let plain = Settings::default();
        let value = if unit.is_empty() {
            decimal(&number)
        } else {
            let read = |kind: &Unit| {
                let written = read(&format!("{number} {unit}"), *kind, 1.0, &plain).ok();
                written.filter(|written| written.unit_given).map(|written| written.value)
            };
            // As it is printed before any other spelling: fT is no foot.
            let printed = UNITS.iter().filter(|kind| unit.ends_with(kind.symbol()));
            printed.chain(UNITS).find_map(read)
        };
        value.map(|value| Expression::Number(text.clone(), value)).ok_or(Error::Syntax(text))
    }

    /// The unit behind a number; `/` belongs to it where a letter follows at once.
    fn unit(&mut self) -> String {
        let letter = |c: char| c.is_alphabetic() || matches!(c, '°' | '%' | '²' | '√' | 'µ' | 'Ω');
        let start = self.rest.trim_start();
        if !start.starts_with(letter) {
            return String::new();
        }
        self.rest = start;
        let mut unit = self.take_while(letter).to_owned();
        if let Some(behind) = self.rest.strip_prefix('/')
            && behind.starts_with(letter)
        {
            self.rest = behind;
            unit.push('/');
            unit.push_str(self.take_while(letter));
        }
        unit
    }

    fn named(&mut self) -> Result<Expression, Error> {
        let name = self.take_while(|c| c.is_alphanumeric() || matches!(c, '_' | '′'));
        if let Some(function) = Function::named(name) {
            self.take('(')?;
            let mut arguments = vec![self.sum()?];
            while self.peek() == Some(',') {
                self.take(',')?;
                arguments.push(self.sum()?);
            }
            self.take(')')?;
            return Ok(Expression::Call(function, arguments));
        }
        if name == "j" && self.peek().is_some_and(|c| c.is_ascii_digit()) {
            // `j 4` is the one product that is written without a sign.
            let factor = self.number()?;
            return Ok(Expression::Binary(Operator::Multiply, Expression::Name("j".into()).into(), factor.into()));
        }
        Ok(Expression::Name(name.to_owned()))
    }
}
