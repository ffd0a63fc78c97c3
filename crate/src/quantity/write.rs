//! A number in SI units → text for a person.

use super::decimal::decimal;
use super::unit::{Printing, Unit, VOLTS_AT_0_DBU};
use crate::settings::Settings;
use std::fmt::Write as _;

/// Engineering prefixes for printing, largest first.
pub(crate) const PRINTED: &[(f64, &str)] =
    &[(1e9, "G"), (1e6, "M"), (1e3, "k"), (1.0, ""), (1e-3, "m"), (1e-6, "µ"), (1e-9, "n"), (1e-12, "p"), (1e-15, "f")];

/// Digits of a result and of what is said about it: three significant figures, a
/// level to 0.1 dB.
pub const SHOWN: usize = 3;

/// Digits of what is built or set by its number: a designed resistor to four
/// figures, a converted level to 0.01 dB.
pub const FINE: usize = 4;

/// Digits of the working, of fields, and of what is copied or saved.
pub const EXACT: usize = 6;

/// Prints `value` with its unit: engineering form with `digits` significant
/// digits and no trailing zeros; levels in dB with `digits - 2` decimals.
pub fn write(value: f64, unit: Unit, digits: usize, settings: &Settings) -> String {
    let Printing { size, zero, symbol } = unit.printing(settings.length);
    let (number, prefix) = mantissa((value - zero) / size, unit, digits);
    let number = write_number(&number, settings);
    match unit {
        Unit::One => number,
        Unit::Ratio => format!("{number}:1"),
        Unit::Degree => format!("{number}°"),
        _ => format!("{number}\u{a0}{prefix}{symbol}"),
    }
}

/// Prints `value` as [`write()`] does, its last digit rounded by `round` alone: a
/// limit that is named has to be taken where it is written.
pub fn write_within(value: f64, unit: Unit, round: fn(f64) -> f64, digits: usize, settings: &Settings) -> String {
    let Printing { size, zero, .. } = unit.printing(settings.length);
    let shown = (value - zero) / size;
    let exponent = if unit.is_level() { 1.0 } else { shown.abs().log10().floor() };
    let last = 10_f64.powf(exponent + 1.0 - digits as f64);
    let rounded = round(shown / last) * last;
    write(if rounded.is_finite() { rounded * size + zero } else { value }, unit, digits, settings)
}

/// Writes `value` as it would be put into a field, to `EXACT` digits; a voltage that
/// only a level states in few digits, as that level: `−10 dBV`, not 316.228 mV.
pub fn write_entry(value: f64, unit: Unit, settings: &Settings) -> String {
    let stated = || {
        if unit != Unit::Volt || decimal(&significant(value, 4)) == Some(value) {
            return None;
        }
        [(Unit::DecibelV, 1.0), (Unit::DecibelU, VOLTS_AT_0_DBU)].into_iter().find_map(|(unit, reference)| {
            let tenths = 200.0 * (value / reference).log10();
            ((tenths - tenths.round()).abs() < 1e-8).then(|| (tenths.round() / 10.0, unit))
        })
    };
    let (value, unit) = stated().unwrap_or((value, unit));
    write(value, unit, EXACT, settings)
}

/// Whether a level is printed as 0 dB.
pub(crate) fn shows_zero(level: f64, digits: usize) -> bool {
    decimal(&mantissa(level, Unit::Decibel, digits).0) == Some(0.0)
}

/// Gives a plain number the reader's decimal sign and a true minus.
pub fn write_number(number: &str, settings: &Settings) -> String {
    let [decimal, _] = settings.decimal.signs();
    number
        .chars()
        .map(|c| match c {
            '-' => '−',
            '.' => decimal,
            other => other,
        })
        .collect()
}

/// The printed digits and the prefix behind them.
fn mantissa(value: f64, unit: Unit, digits: usize) -> (String, &'static str) {
    if !value.is_finite() {
        let sign = if value.is_sign_negative() { "-" } else { "" };
        return (if value.is_nan() { "?".to_owned() } else { format!("{sign}∞") }, "");
    }
    // Nobody counts so many digits.
    if value.abs() >= 1e15 || value.abs() < 1e-21 && value != 0.0 && !unit.is_level() {
        return (trimmed_exponent(value, digits), "");
    }
    if unit.is_level() {
        let decimals = digits.saturating_sub(2);
        let text = format!("{value:.decimals$}");
        // A level that rounds to zero has no sign.
        let text = if text.trim_start_matches('-').trim_matches(['0', '.']).is_empty() {
            text.trim_start_matches('-').to_owned()
        } else {
            text
        };
        return (if digits > 4 { trimmed(&text) } else { text }, "");
    }
    if value == 0.0 {
        return ("0".to_owned(), "");
    }
    if !unit.takes_prefix() {
        let size = value.abs();
        if (1e-4..1e7).contains(&size) || unit != Unit::One {
            return (significant(value, digits), "");
        }
        return (trimmed_exponent(value, digits), "");
    }
    // Rounded first, so that 999.96 becomes 1 k and not 1000.
    let rounded = decimal(&significant(value, digits)).unwrap_or(value);
    let (size, prefix) = PRINTED
        .iter()
        .find(|(size, _)| f64::abs(rounded) >= *size * (1.0 - 1e-9))
        .or(PRINTED.last())
        .copied()
        .unwrap_or((1.0, ""));
    (significant(value / size, digits), prefix)
}

fn trimmed_exponent(value: f64, digits: usize) -> String {
    let text = format!("{value:.*e}", digits.saturating_sub(1));
    match text.split_once('e') {
        Some((number, exponent)) => format!("{}e{exponent}", trimmed(number)),
        None => text,
    }
}

/// `digits` significant digits in plain notation, trailing zeros cut.
fn significant(value: f64, digits: usize) -> String {
    let exponent = value.abs().log10().floor();
    // 14 435 m is not known to the metre where three figures are shown.
    let step = 10_f64.powf(exponent - digits as f64 + 1.0);
    let value = if step > 1.0 && digits < EXACT { (value / step).round() * step } else { value };
    let decimals = (digits as f64 - 1.0 - exponent).clamp(0.0, 30.0) as usize;
    trimmed(&format!("{value:.decimals$}"))
}

fn trimmed(text: &str) -> String {
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text.to_owned() }
}

/// Prints a complex number as `(a + j b)` with one unit for both parts.
pub(crate) fn write_complex(value: crate::Complex64, unit: Unit, digits: usize, settings: &Settings) -> String {
    let negative = value.im < 0.0;
    let mut text = String::from("(");
    text.push_str(&write(value.re, unit, digits, settings));
    text.push_str(if negative { " − j " } else { " + j " });
    let _ = write!(text, "{})", write(value.im.abs(), unit, digits, settings));
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::read;
    use crate::settings::{Decimal, Length};

    #[test]
    fn engineering_form() {
        let settings = Settings::default();
        for (value, unit, text) in [
            (140e3, Unit::Ohm, "140\u{a0}kΩ"),
            (999.96, Unit::Ohm, "1\u{a0}kΩ"),
            (4.7e-10, Unit::Farad, "470\u{a0}pF"),
            (-6.0206, Unit::Decibel, "−6.02\u{a0}dB"),
            (-0.0001, Unit::Decibel, "0.00\u{a0}dB"),
            (12.0, Unit::Ratio, "12:1"),
            (0.0, Unit::Henry, "0\u{a0}H"),
            (2947.75, Unit::Hertz, "2.948\u{a0}kHz"),
            (0.3, Unit::Percent, "30\u{a0}%"),
            (1.5e9, Unit::Ohm, "1.5\u{a0}GΩ"),
            (293.15, Unit::Kelvin, "20\u{a0}°C"),
            (f64::INFINITY, Unit::Ohm, "∞\u{a0}Ω"),
            (1e308, Unit::Ohm, "1e308\u{a0}Ω"),
            (-1e308, Unit::DecibelU, "−1e308\u{a0}dBu"),
            (1e-300, Unit::Farad, "1e−300\u{a0}F"),
            (1e-15, Unit::Farad, "1\u{a0}fF"),
            (1e-30, Unit::Decibel, "0.00\u{a0}dB"),
            // A plain number has no prefix for what is very large or small; a unit that
            // takes none is written out.
            (1234.5, Unit::One, "1234"),
            (14_437.0, Unit::Metre, "14440\u{a0}m"),
            (-14_434.0, Unit::Metre, "−14430\u{a0}m"),
            (2e7, Unit::One, "2e7"),
            (9.9e6, Unit::One, "9900000"),
            (1e-4, Unit::One, "0.0001"),
            (-2.5e-5, Unit::One, "−2.5e−5"),
            (2.5e-5, Unit::Ratio, "0.000025:1"),
            (2e7, Unit::Ratio, "20000000:1"),
            (2e7, Unit::RadianPerSecond, "20000000\u{a0}rad/s"),
            (f64::NAN, Unit::Ohm, "?\u{a0}Ω"),
            (f64::NEG_INFINITY, Unit::Decibel, "−∞\u{a0}dB"),
            (1e15, Unit::Ohm, "1e15\u{a0}Ω"),
            (9e14, Unit::Ohm, "900000\u{a0}GΩ"),
            (2e-21, Unit::Farad, "0.000002\u{a0}fF"),
        ] {
            assert_eq!(write(value, unit, 4, &settings), text);
        }
        for (value, unit, text) in [
            (2947.75, Unit::Hertz, "2.95\u{a0}kHz"),
            (999.6, Unit::Ohm, "1\u{a0}kΩ"),
            (0.31623, Unit::Volt, "316\u{a0}mV"),
            (-6.0206, Unit::Decibel, "−6.0\u{a0}dB"),
            (-0.04, Unit::Decibel, "0.0\u{a0}dB"),
        ] {
            assert_eq!(write(value, unit, SHOWN, &settings), text);
        }
        assert!(shows_zero(-0.04, SHOWN) && !shows_zero(-0.04, FINE) && !shows_zero(-0.06, SHOWN));
        let comma = Settings { decimal: Decimal::Comma, length: Length::Foot, ..settings };
        for (value, unit, text) in [
            (4.572, Unit::Metre, "15\u{a0}ft"),
            (100e-12, Unit::FaradPerMetre, "30,48\u{a0}pF/ft"),
            (0.1, Unit::OhmPerMetre, "30,48\u{a0}mΩ/ft"),
            (1e-6, Unit::HenryPerMetre, "304,8\u{a0}nH/ft"),
        ] {
            assert_eq!(write(value, unit, 4, &comma), text);
        }
        assert_eq!(write(1500.0, Unit::Ohm, 4, &comma), "1,5\u{a0}kΩ");
    }

    #[test]
    fn a_round_level_is_put_in_as_a_level() {
        let settings = Settings::default();
        for (value, text) in [
            (0.1_f64.sqrt(), "−10\u{a0}dBV"),
            (10_f64.powf(0.2) * VOLTS_AT_0_DBU, "4\u{a0}dBu"),
            (0.316_228, "316.228\u{a0}mV"),
            (1.0, "1\u{a0}V"),
            (0.2, "200\u{a0}mV"),
            (0.0, "0\u{a0}V"),
            (-1.0, "−1\u{a0}V"),
        ] {
            assert_eq!(write_entry(value, Unit::Volt, &settings), text);
        }
        assert_eq!(write_entry(0.1_f64.sqrt(), Unit::Ohm, &settings), "316.228\u{a0}mΩ");
    }

    #[test]
    fn what_is_written_reads_back() {
        let settings = Settings::default();
        for unit in
            [Unit::Ohm, Unit::Farad, Unit::Volt, Unit::Metre, Unit::Decibel, Unit::Percent, Unit::Kelvin, Unit::Ratio]
        {
            for value in [1.5, 0.25, 470e-6, 123_456.0] {
                let text = write(value, unit, 6, &settings);
                let back = read(&text, unit, 1.0, &settings).unwrap().value;
                let limit =
                    if unit.is_level() { 1e-4 } else { value * 1e-5 + if unit == Unit::Kelvin { 1e-3 } else { 0.0 } };
                assert!((back - value).abs() <= limit, "{value} {unit:?} → {text} → {back}");
            }
        }
    }
}
