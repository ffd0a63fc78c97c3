//! A step of the working, read back as it is printed.

use stageohm::Complex64;
use stageohm::expression::{Expression, parse};
use stageohm::working::Step;

/// What is wrong with a step: the formula with numbers put in must come to the
/// result, and so must the result as printed, within what printing six digits
/// (of levels four decimals) takes away. How much that is of the result follows
/// from putting each printed number off by half of its last digit, so that a
/// difference of large numbers may lose what it must and no more.
///
/// Only what is printed with a decimal point reads back.
pub fn flaw(step: &Step) -> Option<String> {
    let exact = Complex64::new(step.value, step.imaginary);
    if exact.is_nan() {
        return Some(format!("{} = {} has no value", step.formula, step.numbers));
    }
    let (numbers, result) = match (parse(&step.numbers), parse(&step.result)) {
        (Ok(numbers), Ok(result)) => (numbers, result),
        (numbers, result) => {
            let what = numbers.err().or(result.err());
            return Some(format!("{}: “{}” = “{}” does not read: {what:?}", step.formula, step.numbers, step.result));
        }
    };
    for (what, formula) in [("is printed as", result), ("comes from", numbers)] {
        let Ok(got) = formula.value(&[]) else { return Some(format!("{}: “{}”", step.formula, step.numbers)) };
        let off = got - exact;
        let is_near = got == exact || off.norm() <= 1e-9 * exact.norm() + lost(&formula);
        if !is_near {
            let printed = if what == "comes from" { &step.numbers } else { &step.result };
            return Some(format!("{}: {exact} {what} {printed} = {got}", step.formula));
        }
    }
    None
}

/// By how much the value of a printed formula may be off for its printed digits.
fn lost(formula: &Expression) -> f64 {
    let mut count = 0;
    count_numbers(formula, &mut count);
    let value = |formula: &Expression| formula.value(&[]).unwrap_or(f64::NAN.into());
    let straight = value(formula);
    let by_each = (0..count).map(|n| {
        let [above, below] = [1.0, -1.0].map(|sign| value(&moved(formula, sign, &mut n.clone())));
        let most = f64::max((above - straight).norm(), (below - straight).norm());
        let bent = ((above + below) / 2.0 - straight).norm();
        // Close to a pole or a branch there is no telling.
        if most.is_nan() || bent > most / 2.0 { f64::INFINITY } else { most }
    });
    // Twice, for what is not straight.
    2.0 * by_each.sum::<f64>()
}

fn count_numbers(formula: &Expression, count: &mut i32) {
    match formula {
        Expression::Number(..) => *count += 1,
        Expression::Name(_) => {}
        Expression::Negative(inner) => count_numbers(inner, count),
        Expression::Binary(_, a, b) => [a, b].into_iter().for_each(|side| count_numbers(side, count)),
        Expression::Call(_, arguments) => arguments.iter().for_each(|argument| count_numbers(argument, count)),
    }
}

/// The formula with its number at place `n` off by half of its last digit.
fn moved(formula: &Expression, sign: f64, n: &mut i32) -> Expression {
    match formula {
        Expression::Number(text, value) => {
            *n -= 1;
            let off = if *n == -1 { half_a_digit(text, *value) } else { 0.0 };
            Expression::Number(text.clone(), value + sign * off)
        }
        Expression::Name(_) => formula.clone(),
        Expression::Negative(inner) => Expression::Negative(moved(inner, sign, n).into()),
        Expression::Binary(operator, a, b) => {
            let a = moved(a, sign, n).into();
            Expression::Binary(*operator, a, moved(b, sign, n).into())
        }
        Expression::Call(function, arguments) => {
            Expression::Call(*function, arguments.iter().map(|argument| moved(argument, sign, n)).collect())
        }
    }
}

/// Half of the last of the six digits to which a number is printed, in the unit
/// that stands behind it; of the four decimals of a level.
fn half_a_digit(text: &str, value: f64) -> f64 {
    if text.contains("dB") {
        return 5.1e-5;
    }
    let digits = text.split(|c: char| !c.is_ascii_digit() && c != '.').next().unwrap_or_default();
    match digits.parse::<f64>() {
        Ok(printed) if printed > 0.0 => 5.1 * 10_f64.powf(printed.log10().floor() - 6.0) / printed * value.abs(),
        _ => 0.0,
    }
}
