//! A reading as a number.

use super::{Case, Finding, Key, Marked};
use crate::ask::{Reader, read_wanted, solve_backwards};
use crate::lesson::task::{credit, slacks};
use crate::quantity::{SHOWN, Unit, write};
use crate::report::Reading;
use crate::words::{Arg, Message};

/// What a slip makes of the right value is taken for it within this, as a share (judgement).
const NEAR: f64 = 0.1;
/// A factor of two in voltage, dB, and how near to it one is (judgement).
const DOUBLE: f64 = 6.020_599_913_279_624;
const NEAR_DOUBLE: f64 = 0.4;

pub(super) fn key(case: &Case) -> Option<Key> {
    let reading = case.bench.reading(&case.step.reading)?;
    let right = reading.told.turn(reading.value?);
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
    let share = credit(good.off(said, right), good.about(right), none.about(right));
    let findings = if share >= 1.0 {
        vec![case.found("right", &[])]
    } else {
        let near = |said: f64| {
            let off = (said - right).abs();
            off <= NEAR * right.abs() || good.off(said, right) <= good.about(right)
        };
        findings(case, &reading, (said, right), near)
    };
    Marked { share, said: Some(said), key, findings, ..Marked::default() }
}

fn findings(
    case: &Case,
    reading: &Reading<Message>,
    (said, right): (f64, f64),
    near: impl Fn(f64) -> bool,
) -> Vec<Finding> {
    // Whoever has turned the sign has done all else right.
    if right != 0.0 && near(-said) {
        return vec![case.found("sign", &[])];
    }
    let slip = if reading.unit.is_level() {
        slip_of_level(case, reading.unit, said, right)
    } else {
        slip_of_power(case, said, right, near)
    };
    // What the rig would need for it says nothing where the arithmetic went astray.
    slip.or_else(|| needed(case, reading, said)).into_iter().collect()
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

/// The right figures with a wrong prefix.
fn slip_of_power(case: &Case, said: f64, right: f64, near: impl Fn(f64) -> bool) -> Option<Finding> {
    let powers = (said / right).log10().round();
    let times = 10_f64.powf(powers.abs());
    let is_power = powers != 0.0 && times.is_finite() && near(said / 10_f64.powf(powers));
    is_power.then(|| case.found("power", &[("times", Arg::Text(write(times, Unit::One, SHOWN, case.settings)))]))
}

/// What would have to stand in the open field for what was said.
fn needed(case: &Case, reading: &Reading<Message>, said: f64) -> Option<Finding> {
    let bench = &case.bench;
    let (field, number) = case.step.open.iter().find_map(|id| bench.field(id))?;
    let unit = number.unit_under(bench.calculator, &bench.values);
    let name = Arg::Text(case.field_name(field.id));
    let told = case.written(said, reading.unit);
    let wanted = reading.told.turn(said);
    let solved = solve_backwards(bench.calculator, &bench.values, case.settings, field.id, reading.id, wanted);
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
        return (!solved.unchanged).then(|| case.found("needs-nothing", &args));
    };
    let written = case.written(value, unit);
    let mut args = vec![("said", told), ("field", name), ("value", written)];
    // "Four times yours" only where there is something to multiply.
    match now.filter(|now| *now > 0.0 && value > 0.0 && !unit.is_level()) {
        Some(now) if value >= now => {
            args.push(("times", Arg::Quantity(value / now, Unit::One)));
            Some(case.found("needs-more", &args))
        }
        Some(now) => {
            args.push(("times", Arg::Quantity(now / value, Unit::One)));
            Some(case.found("needs-less", &args))
        }
        None => Some(case.found("needs", &args)),
    }
}
