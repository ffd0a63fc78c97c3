//! The power of ten of a reading.

use super::{Case, Key, Marked};
use crate::words::Arg;

/// The power of ten at which a decade begins.
pub(in crate::lesson) fn decade_of(value: f64) -> Option<i32> {
    let power = value.abs().log10().floor();
    // 999.9999999 is a thousand to all but rounding.
    let next = 10_f64.powf(power + 1.0);
    let power = if value.abs() >= next * (1.0 - 1e-9) { power + 1.0 } else { power };
    power.is_finite().then_some(power as i32)
}

pub(super) fn key(case: &Case) -> Option<Key> {
    let reading = case.bench.reading(&case.step.reading)?;
    let value = reading.value?;
    decade_of(value)?;
    let text = case.bench.worded(reading.id, case.settings)?.text;
    Some(Key { text, value: Some(value), ..Key::default() })
}

pub(super) fn mark(case: &Case, key: Key) -> Marked {
    let Some(right) = key.value.and_then(decade_of) else { return case.problem("lesson-no-key") };
    let Some(said) = case.response.decade else { return case.problem("lesson-say-decade") };
    let off = said.abs_diff(right);
    let finding = if off == 0 {
        case.found("right", &[])
    } else {
        let id = match (said > right, off) {
            (true, 1) => "decade-high",
            (true, _) => "decades-high",
            (false, 1) => "decade-low",
            (false, _) => "decades-low",
        };
        case.found(id, &[("count", Arg::Text(off.to_string()))])
    };
    Marked {
        share: match off {
            0 => 1.0,
            1 => 0.5,
            _ => 0.0,
        },
        key,
        findings: vec![finding],
        ..Marked::default()
    }
}
