//! Expression → MathML, as browsers and word processors read it (MathML Core).

use super::print::{number, pretty};
use super::{Expression, Function, Given, Operator};
use crate::settings::Settings;

impl Expression {
    /// The formula with its names, as the inside of a `math` element.
    pub fn mathml(&self) -> String {
        self.render(&|name| identifier(name))
    }

    /// The formula with numbers put in, as the inside of a `math` element.
    pub fn numbers_mathml(&self, scope: &[Given], settings: &Settings) -> String {
        self.render(&|name| match scope.iter().rev().find(|given| given.name == name) {
            Some(given) => {
                let text = number(given.value, given.unit, settings);
                let negative = text.starts_with('−');
                let text = format!("<mtext>{text}</mtext>");
                if negative { brackets(&text) } else { text }
            }
            None => identifier(name),
        })
    }

    fn render(&self, name: &impl Fn(&str) -> String) -> String {
        let bracketed = |inner: &Self, least: u8| {
            let text = inner.render(name);
            if inner.binding() < least { brackets(&text) } else { text }
        };
        match self {
            Self::Number(text, _) => format!("<mn>{text}</mn>"),
            Self::Name(text) => name(text),
            Self::Negative(inner) => format!("<mrow><mo>−</mo>{}</mrow>", bracketed(inner, 3)),
            Self::Binary(Operator::Divide, a, b) => {
                format!("<mfrac>{}{}</mfrac>", row(&a.render(name)), row(&b.render(name)))
            }
            Self::Binary(Operator::Power, a, b) => {
                let base = bracketed(a, 5);
                // `10 kΩ²` would square the unit.
                let unit = matches!(**a, Self::Name(_)) && base.contains('\u{a0}') && !base.contains('(');
                let base = if unit { brackets(&base) } else { row(&base) };
                format!("<msup>{base}{}</msup>", row(&b.render(name)))
            }
            Self::Binary(operator, a, b) => {
                let (sign, left, right) = match operator {
                    Operator::Add => ("+", 1, 1),
                    Operator::Subtract => ("−", 1, 3),
                    _ => ("·", 2, 3),
                };
                // A fraction bar holds its terms together without brackets.
                let loose = |inner: &Self, least| {
                    if matches!(inner, Self::Binary(Operator::Divide, ..)) {
                        inner.render(name)
                    } else {
                        bracketed(inner, least)
                    }
                };
                format!("<mrow>{}<mo>{sign}</mo>{}</mrow>", loose(a, left), loose(b, right))
            }
            Self::Call(function, arguments) => {
                // The brackets of a complex number are not needed inside those of a function.
                let bare = |text: String| {
                    let inside = text.strip_prefix("<mtext>(").and_then(|text| text.strip_suffix(")</mtext>"));
                    inside.map(|inside| format!("<mtext>{inside}</mtext>")).unwrap_or(text)
                };
                let inner: Vec<_> = arguments.iter().map(|argument| bare(argument.render(name))).collect();
                let inner = inner.join("<mo>,</mo>");
                match function {
                    Function::SquareRoot => format!("<msqrt>{inner}</msqrt>"),
                    Function::Absolute => format!("<mrow><mo>|</mo>{inner}<mo>|</mo></mrow>"),
                    Function::Log10 => format!("<mrow><msub><mi>log</mi><mn>10</mn></msub>{}</mrow>", brackets(&inner)),
                    other => format!("<mrow><mi>{}</mi>{}</mrow>", other.name(), brackets(&inner)),
                }
            }
        }
    }
}

/// A name as MathML: `R_S` with its subscript.
pub(crate) fn identifier(name: &str) -> String {
    let pretty = pretty(name);
    match pretty.split_once('_') {
        Some((stem, subscript)) => format!("<msub><mi>{stem}</mi><mtext>{subscript}</mtext></msub>"),
        None => format!("<mi>{pretty}</mi>"),
    }
}

fn row(inner: &str) -> String {
    format!("<mrow>{inner}</mrow>")
}

fn brackets(inner: &str) -> String {
    format!("<mrow><mo>(</mo>{inner}<mo>)</mo></mrow>")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Complex64;
    use crate::expression::parse;
    use crate::quantity::Unit;

    #[test]
    fn brackets_where_a_reader_needs_them() {
        let scope = [
            Given { name: "U".into(), value: 0.26.into(), unit: Unit::Volt },
            Given { name: "H".into(), value: Complex64::new(1.0, -2.0), unit: Unit::One },
        ];
        let written = |formula: &str| {
            let mathml = parse(formula).unwrap().numbers_mathml(&scope, &Settings::default());
            mathml.replace("<mrow>", "").replace("</mrow>", "").replace('\u{a0}', " ")
        };
        assert_eq!(written("U^2"), "<msup><mo>(</mo><mtext>260 mV</mtext><mo>)</mo><mn>2</mn></msup>");
        assert_eq!(written("abs(H)"), "<mo>|</mo><mtext>1 − j 2</mtext><mo>|</mo>");
        assert_eq!(written("re(H)"), "<mi>re</mi><mo>(</mo><mtext>1 − j 2</mtext><mo>)</mo>");
    }

    /// As one would write it by hand: brackets for a sum in a product and under a sign or
    /// a power, none where a bar, a root or an exponent holds it together.
    #[test]
    fn formulas_as_written_by_hand() {
        for (formula, expected) in [
            ("a/(b + c)", "<mfrac><mi>a</mi><mi>b</mi><mo>+</mo><mi>c</mi></mfrac>"),
            ("(a + b)/c", "<mfrac><mi>a</mi><mo>+</mo><mi>b</mi><mi>c</mi></mfrac>"),
            ("a*(b + c)", "<mi>a</mi><mo>·</mo><mo>(</mo><mi>b</mi><mo>+</mo><mi>c</mi><mo>)</mo>"),
            ("(a + b)*c", "<mo>(</mo><mi>a</mi><mo>+</mo><mi>b</mi><mo>)</mo><mo>·</mo><mi>c</mi>"),
            ("a*(b/c)", "<mi>a</mi><mo>·</mo><mfrac><mi>b</mi><mi>c</mi></mfrac>"),
            ("(a/b)*c", "<mfrac><mi>a</mi><mi>b</mi></mfrac><mo>·</mo><mi>c</mi>"),
            ("a - (b - c)", "<mi>a</mi><mo>−</mo><mo>(</mo><mi>b</mi><mo>−</mo><mi>c</mi><mo>)</mo>"),
            ("a - b - c", "<mi>a</mi><mo>−</mo><mi>b</mi><mo>−</mo><mi>c</mi>"),
            ("a - b*c", "<mi>a</mi><mo>−</mo><mi>b</mi><mo>·</mo><mi>c</mi>"),
            ("a + (b + c)", "<mi>a</mi><mo>+</mo><mi>b</mi><mo>+</mo><mi>c</mi>"),
            ("-(a + b)", "<mo>−</mo><mo>(</mo><mi>a</mi><mo>+</mo><mi>b</mi><mo>)</mo>"),
            ("a*(-b)", "<mi>a</mi><mo>·</mo><mo>(</mo><mo>−</mo><mi>b</mi><mo>)</mo>"),
            ("-(a*b)", "<mo>−</mo><mi>a</mi><mo>·</mo><mi>b</mi>"),
            ("(a + b)^2", "<msup><mo>(</mo><mi>a</mi><mo>+</mo><mi>b</mi><mo>)</mo><mn>2</mn></msup>"),
            ("a^(b + c)", "<msup><mi>a</mi><mi>b</mi><mo>+</mo><mi>c</mi></msup>"),
            ("sqrt(a + b)", "<msqrt><mi>a</mi><mo>+</mo><mi>b</mi></msqrt>"),
            ("abs(a)", "<mo>|</mo><mi>a</mi><mo>|</mo>"),
            ("log10(a)", "<msub><mi>log</mi><mn>10</mn></msub><mo>(</mo><mi>a</mi><mo>)</mo>"),
            ("min(a, b)", "<mi>min</mi><mo>(</mo><mi>a</mi><mo>,</mo><mi>b</mi><mo>)</mo>"),
            ("R_S*2", "<msub><mi>R</mi><mtext>S</mtext></msub><mo>·</mo><mn>2</mn>"),
        ] {
            let mathml = parse(formula).unwrap().mathml().replace("<mrow>", "").replace("</mrow>", "");
            assert_eq!(mathml, expected, "{formula}");
        }
        // A bar and an exponent have two parts each, whatever stands in them.
        let bar = parse("(a + b)/(c + d)").unwrap().mathml();
        assert!(bar.starts_with("<mfrac><mrow>") && bar.matches("</mrow><mrow>").count() == 1, "{bar}");
        // A negative number in the place of a name is told apart from a sign.
        let scope = [Given { name: "x".into(), value: (-3.0).into(), unit: Unit::One }];
        let numbers = parse("2*x + y").unwrap().numbers_mathml(&scope, &Settings::default());
        assert!(
            numbers.contains("<mo>(</mo><mtext>−3</mtext><mo>)</mo>") && numbers.contains("<mi>y</mi>"),
            "{numbers}"
        );
    }
}
