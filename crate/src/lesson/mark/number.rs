//! A reading as a number.

use super::{Case, Finding, Key, Marked};
use crate::ask::{Reader, read_wanted, solve_backwards};
use crate::lesson::bench::Bench;
use crate::lesson::task::{credit, slacks};
use crate::quantity::{SHOWN, Unit, write};
use crate::report::{Plot, Reading};
use crate::words::{Arg, Message};

/// What a slip makes of the right value is taken for it within this, as a share (judgement).
const NEAR: f64 = 0.1;
/// A factor of two in voltage, dB, and how near to it one is (judgement).
const DOUBLE: f64 = 6.020_599_913_279_624;
const NEAR_DOUBLE: f64 = 0.4;

pub(super) fn key(case: &Case) -> Option<Key> {
    let reading = case.bench.reading(&case.step.reading)?;
    let right = reading.value?;
    let (good, _) = slacks(case.step, reading.unit, &case.bench);
    let full = Some(good.around(right));
    let text = case.bench.worded(reading.id, case.settings)?.text;
    Some(Key { text, value: Some(right), full, ..Key::default() })
}

pub(super) fn mark(case: &Case, key: Key) -> Marked {
    let Some((reading, right)) = case.bench.reading(&case.step.reading).zip(key.value) else {
        return case.problem("lesson-no-key");
    };
    let text = &case.response.text;
    let said = match read_wanted(text, reading.unit, case.settings) {
        Ok(said) => said,
        Err(reject) => {
            let reader = Reader::new(case.bench.calculator, case.settings);
            return Marked { problem: Some(reader.reject(&reject, text, reading.unit)), ..Marked::default() };
        }
    };
    let (good, none) = slacks(case.step, reading.unit, &case.bench);
    let text = case.text_of(said, reading.unit);
    // 60 dB of loss or of rejection are also written as −60 dB.
    let said =
        if right > 0.0 && is_amount(&reading) && good.off(-said, right) < good.off(said, right) { -said } else { said };
    // What reads like the answer is the answer, also where that is nothing.
    let same = text == case.text_of(right, reading.unit);
    let share = if same { 1.0 } else { credit(good.off(said, right), good.about(right), none.about(right)) };
    let marked = Marked { share, said: Some(said), said_text: text, key, ..Marked::default() };
    if share >= 1.0 {
        return Marked { findings: vec![case.found("right", &[])], ..marked };
    }
    // Within the tolerance of nothing a sign is no slip.
    let near = |said: f64| {
        (said - right).abs() <= NEAR * right.abs() || good.off(said, right) <= good.about(right).min(right.abs() / 2.0)
    };
    if let Some(slip) = slip(case, reading.unit, (said, right), near) {
        // Of a factor of ten nobody knows whether a point is in the wrong place or a step was left out.
        let is_clear = slip.id != "tens";
        let needed = if is_clear { None } else { needed(case, &reading, said) };
        return Marked { findings: [slip].into_iter().chain(needed.map(|needed| needed.finding)).collect(), ..marked };
    }
    // What the rig would need for it says nothing where the arithmetic went astray.
    let Some(needed) = needed(case, &reading, said) else { return marked };
    Marked { findings: vec![needed.finding], plot: needed.plot, ..marked }
}

/// Whether a reading is told by its amount, whichever sign is written before it.
fn is_amount(reading: &Reading<Message>) -> bool {
    reading.unit == Unit::Decibel && (reading.told.loss || reading.id.contains("rejection"))
}

/// Where the arithmetic went astray.
fn slip(case: &Case, unit: Unit, (said, right): (f64, f64), near: impl Fn(f64) -> bool) -> Option<Finding> {
    // Whoever has turned the sign has done all else right.
    if right != 0.0 && near(-said) {
        return Some(case.found("sign", &[]));
    }
    if unit.is_level() { slip_of_level(case, unit, said, right) } else { slip_of_power(case, said, right, near) }
}

/// A factor of two, or decibels of power for those of voltage.
fn slip_of_level(case: &Case, unit: Unit, said: f64, right: f64) -> Option<Finding> {
    let off = (said - right).abs();
    // A level re something has no half; a loss, a gain or a distance has.
    let half = |a: f64, b: f64| unit == Unit::Decibel && (2.0 * a - b).abs() <= NEAR / 2.0 * b.abs();
    if (off - DOUBLE).abs() <= NEAR_DOUBLE {
        return Some(case.found("double", &[("off", case.written(off, Unit::Decibel))]));
    }
    if right != 0.0 && half(said, right) {
        return Some(case.found("half-decibels", &[]));
    }
    (right != 0.0 && half(right, said)).then(|| case.found("twice-decibels", &[]))
}

/// The right figures with a wrong power of ten: a prefix is worth three of them.
fn slip_of_power(case: &Case, said: f64, right: f64, near: impl Fn(f64) -> bool) -> Option<Finding> {
    let powers = (said / right).log10().round();
    let times = 10_f64.powf(powers.abs());
    let is_power = powers != 0.0 && times.is_finite() && near(said / 10_f64.powf(powers));
    let id = if powers % 3.0 == 0.0 { "power" } else { "tens" };
    is_power.then(|| case.found(id, &[("times", Arg::Text(write(times, Unit::One, SHOWN, case.settings)))]))
}

/// What would have to stand in the open field for what was said.
struct Needed {
    finding: Finding,
    /// The plot of the step, with what it would show then.
    plot: Option<Plot>,
}

fn needed(case: &Case, reading: &Reading<Message>, said: f64) -> Option<Needed> {
    let bench = &case.bench;
    let (field, number) = case.step.open.iter().find_map(|id| bench.field(id))?;
    let unit = number.unit_under(bench.calculator, &bench.values);
    let name = Arg::Text(case.field_name(field.id));
    let told = case.written(said, reading.unit);
    let solved = solve_backwards(bench.calculator, &bench.values, case.settings, field.id, reading.id, said);
    let now = bench.values.optional(*field).ok().flatten();
    let nearest = solved.found.iter().map(|found| found.value).min_by(|a, b| {
        let off = |value: &f64| now.map_or(value.abs(), |now| (value / now).ln().abs());
        off(a).total_cmp(&off(b))
    });
    let Some(value) = nearest else {
        let args = [
            ("said", told),
            ("field", name),
            ("from", Arg::Entry(number.limits.0, unit)),
            ("to", Arg::Entry(number.limits.1, unit)),
        ];
        return (!solved.unchanged).then(|| Needed { finding: case.found("needs-nothing", &args), plot: None });
    };
    let mut args = vec![("said", told), ("field", name), ("value", case.written(value, unit))];
    // "Four times yours" only where there is something to multiply.
    let id = match now.filter(|now| *now > 0.0 && value > 0.0 && !unit.is_level()) {
        Some(now) => {
            let (id, times) = if value >= now { ("needs-more", value / now) } else { ("needs-less", now / value) };
            args.push(("times", Arg::Quantity(times, Unit::One)));
            id
        }
        None => "needs",
    };
    let there = Bench { values: bench.values.clone().with(*field, value), ..bench.clone() };
    Some(Needed { finding: case.found(id, &args), plot: beside(case, &there, field.id, value, unit) })
}

/// The plot of the step, and what it would show with another value in a field.
fn beside(case: &Case, there: &Bench, field: &str, value: f64, unit: Unit) -> Option<Plot> {
    let (plot, right) = case.bench.trace(&case.step.plot, &case.step.trace)?;
    let args = [("field", Arg::Text(case.field_name(field))), ("value", case.written(value, unit))];
    let said = case.said_trace(there, case.say("lesson-trace-said", &args))?;
    Some(case.pictured(plot, vec![right, said]))
}
