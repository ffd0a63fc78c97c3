//! Text that a person wrote → a number in the unit of its field.

use super::decimal::decimal;
use super::unit::{ICE_POINT, Scale, Unit};
use crate::settings::Settings;
use winnow::Parser as _;
use winnow::ascii::digit1;
use winnow::combinator::{opt, preceded};
use winnow::error::EmptyError;
use winnow::token::{one_of, take_while};

/// SI prefixes and the code letters of IEC 60062, which agree but for case.
pub(crate) const PREFIXES: &[(char, f64)] = &[
    ('f', 1e-15),
    ('p', 1e-12),
    ('n', 1e-9),
    ('u', 1e-6),
    ('m', 1e-3),
    ('k', 1e3),
    ('K', 1e3),
    ('M', 1e6),
    ('G', 1e9),
];

/// A number that was understood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Written {
    /// The number, in the unit of the field.
    pub value: f64,
    /// Whether a unit stood behind it (a prefix alone does not count).
    pub unit_given: bool,
}

/// Why a text was not understood.
#[derive(Clone, Debug, PartialEq)]
pub enum Reject {
    /// Nothing was written.
    Empty,
    /// No number was found in the text.
    NotANumber,
    /// The text can be read in two ways; each is offered, written clearly.
    Ambiguous([String; 2]),
    /// A number, then something that is no unit of this field.
    UnknownUnit(String),
    /// Too large or too small to compute with.
    NotFinite,
    /// Longer than [`LONGEST`]; it was not even looked at.
    Long,
}

/// The longest text that is read, in characters without the space around it: many
/// times what a number with its unit takes, so that one who was sent a book need
/// not wait until it is read.
pub const LONGEST: usize = 200;

/// Whether a text is longer than any that is read.
pub(crate) fn is_long(text: &str) -> bool {
    text.trim().chars().nth(LONGEST).is_some()
}

/// Reads `text` as a quantity of `unit`.
///
/// A bare number is taken times `bare`, the number of units that one of the
/// field's own printed units holds: 1e-12 for a field that says pF. Spaces
/// around and inside are ignored, so that 6 5 is 65; an apostrophe may stand before
/// each three digits; the Unicode minus and both micro signs are
/// known. Prefixes are exact in case but for `K`.
///
/// # Errors
/// [`Reject`] says what stood in the way; an ambiguous separator such as
/// `1,500` is never guessed.
pub fn read(text: &str, unit: Unit, bare: f64, settings: &Settings) -> Result<Written, Reject> {
    if is_long(text) { Err(Reject::Long) } else { read_short(text.trim(), unit, bare, settings) }
}

fn read_short(text: &str, unit: Unit, bare: f64, settings: &Settings) -> Result<Written, Reject> {
    let plain = plain(text);
    if plain.is_empty() {
        return Err(Reject::Empty);
    }
    if unit == Unit::Ratio
        && let Some((first, second)) = plain.split_once(':')
    {
        let value = read_number(first, settings)? / read_number(second, settings)?;
        return finite(value, true);
    }
    let mut rest = plain.as_str();
    let lexeme = lexeme(&mut rest).ok_or(Reject::NotANumber)?;
    let suffix = rest.trim();
    if let Some(coded) = code(&lexeme, suffix) {
        return read_short(&coded, unit, bare, settings);
    }
    if lexeme.digits.is_empty() {
        return Err(Reject::NotANumber);
    }
    let number = lexeme.number(suffix, settings)?;
    if suffix == "dBv" {
        // An old name of dBu that is easily taken for dBV.
        return Err(Reject::Ambiguous([format!("{} dBV", lexeme.text()), format!("{} dBu", lexeme.text())]));
    }
    let (scale, unit_given) = scale(suffix, unit, bare).ok_or_else(|| Reject::UnknownUnit(suffix.to_owned()))?;
    let value = match scale {
        Scale::Factor(factor) => number * factor,
        Scale::LevelVolts(volts) => volts * 10_f64.powf(number / 20.0),
        Scale::Celsius => number + ICE_POINT,
    };
    finite(value, unit_given)
}

/// Reads a bare number.
///
/// # Errors
/// As [`read`].
pub fn read_number(text: &str, settings: &Settings) -> Result<f64, Reject> {
    read(text, Unit::One, 1.0, settings).map(|written| written.value)
}

fn finite(value: f64, unit_given: bool) -> Result<Written, Reject> {
    if value.is_finite() { Ok(Written { value, unit_given }) } else { Err(Reject::NotFinite) }
}

/// The text with one spelling for each sign that has several.
fn plain(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '−' | '–' | '‑' | '‐' => '-',
            'µ' | 'μ' => 'u',
            '\u{a0}' | '\u{2009}' | '\u{202f}' => ' ',
            '\u{2126}' => 'Ω',
            other => other,
        })
        .collect::<String>()
        .trim()
        .to_owned()
}

/// The digits at the start of a text, as they were written.
#[derive(Debug)]
struct Lexeme {
    negative: bool,
    digits: String,
    exponent: Option<String>,
}

fn lexeme(rest: &mut &str) -> Option<Lexeme> {
    let sign = opt(one_of::<_, _, EmptyError>(['-', '+'])).parse_next(rest).ok()?;
    let digits =
        take_while::<_, _, EmptyError>(0.., |c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | ' ' | '\''))
            .parse_next(rest)
            .ok()?;
    // An apostrophe behind the number is a foot mark, not a separator.
    let kept = digits.trim_end_matches([' ', '\'']);
    if digits.ends_with('\'') {
        *rest = "'";
    }
    let exponent = opt(preceded(one_of::<_, _, EmptyError>(['e', 'E']), (opt(one_of(['-', '+'])), digit1).take()))
        .parse_next(rest)
        .ok()?;
    Some(Lexeme { negative: sign == Some('-'), digits: kept.to_owned(), exponent: exponent.map(str::to_owned) })
}

impl Lexeme {
    fn text(&self) -> String {
        let sign = if self.negative { "-" } else { "" };
        let exponent = self.exponent.as_ref().map(|e| format!("e{e}")).unwrap_or_default();
        format!("{sign}{}{exponent}", self.digits)
    }

    fn number(&self, suffix: &str, settings: &Settings) -> Result<f64, Reject> {
        // 5'6 is five feet six, and no grouping of 56.
        let mut grouped = self.digits.split('\'').skip(1).map(|group| group.split(['.', ',', ' ']).next());
        if !grouped.all(|group| group.is_some_and(|group| group.len() == 3)) {
            return Err(Reject::NotANumber);
        }
        let digits: String = self.digits.chars().filter(|c| !matches!(c, ' ' | '\'')).collect();
        let plain = separate(&digits, settings).map_err(|reject| match reject {
            Reject::Ambiguous(ways) => {
                let sign = if self.negative { "-" } else { "" };
                Reject::Ambiguous(ways.map(|way| format!("{sign}{way} {suffix}").trim().to_owned()))
            }
            other => other,
        })?;
        let sign = if self.negative { "-" } else { "" };
        let exponent = self.exponent.as_deref().unwrap_or("0");
        decimal(&format!("{sign}{plain}e{exponent}")).ok_or(Reject::NotANumber)
    }
}

/// Decides which separators group digits and which one is the decimal sign.
fn separate(digits: &str, settings: &Settings) -> Result<String, Reject> {
    let [decimal, other] = settings.decimal.signs();
    let decimals = digits.matches(decimal).count();
    let others = digits.matches(other).count();
    let grouped = |sign: char| {
        let mut parts = digits.split(['.', ',']).next().into_iter().chain(digits.split(sign).skip(1));
        parts.next().is_some_and(|first| (1..=3).contains(&first.len()) && !first.starts_with('0'))
            && parts.all(|part| part.split(['.', ',']).next().is_some_and(|group| group.len() == 3))
    };
    match (decimals, others) {
        (0, 0) => Ok(digits.to_owned()),
        (1, 0) => Ok(digits.replace(decimal, ".")),
        // Several of one sign can only be groups.
        (0, n) if n > 1 && grouped(other) => Ok(digits.replace(other, "")),
        (_, 0) if grouped(decimal) => Ok(digits.replace(decimal, "")),
        (0, 1) if grouped(other) => {
            let written = |plain: String| plain.replace('.', &decimal.to_string());
            Err(Reject::Ambiguous([
                digits.replace(other, ""),
                // 1.5 rather than 1.500, which would be just as unclear to others.
                written(digits.replace(other, ".").trim_end_matches('0').trim_end_matches('.').to_owned()),
            ]))
        }
        // Not three digits behind it: it cannot be a group.
        (0, 1) => Ok(digits.replace(other, ".")),
        // Both signs: the last one is the decimal sign if it stands once.
        (1, _) if digits.rfind(decimal) > digits.rfind(other) && grouped(other) => {
            Ok(digits.replace(other, "").replace(decimal, "."))
        }
        (_, 1) if digits.rfind(other) > digits.rfind(decimal) && grouped(decimal) => {
            Ok(digits.replace(decimal, "").replace(other, "."))
        }
        _ => Err(Reject::NotANumber),
    }
}

/// The letter-for-point code of IEC 60062: `4k7`, `2n2`, `R47`. Returned as a
/// text that reads the ordinary way.
fn code(lexeme: &Lexeme, suffix: &str) -> Option<String> {
    if lexeme.exponent.is_some() || lexeme.digits.contains(['.', ',', ' ', '\'']) {
        return None;
    }
    let mut letters = suffix.chars();
    let letter = letters.next()?;
    let behind = letters.as_str();
    let end = behind.find(|c: char| !c.is_ascii_digit()).unwrap_or(behind.len());
    let (fraction, unit) = behind.split_at(end);
    if fraction.is_empty() || !letter.is_alphabetic() {
        return None;
    }
    let prefix = if matches!(letter, 'R' | 'r' | 'F' | 'H' | 'V') { String::new() } else { letter.to_string() };
    let whole = if lexeme.digits.is_empty() { "0" } else { &lexeme.digits };
    let sign = if lexeme.negative { "-" } else { "" };
    // Written with an exponent, so that no separator needs to be chosen.
    let power = fraction.len();
    let unit_letter = if prefix.is_empty() { letter.to_string() } else { String::new() };
    let unit = if unit.trim().is_empty() { unit_letter } else { unit.trim().to_owned() };
    Some(format!("{sign}{whole}{fraction}e-{power} {prefix}{unit}"))
}

/// What a suffix does to the number, and whether it names a unit.
fn scale(suffix: &str, unit: Unit, bare: f64) -> Option<(Scale, bool)> {
    let suffix: String = suffix.split_whitespace().collect();
    if suffix.is_empty() {
        let scale = if unit == Unit::Kelvin { Scale::Celsius } else { Scale::Factor(bare) };
        return Some((scale, false));
    }
    let named = |text: &str| {
        unit.spellings()
            .iter()
            .find(|(spelling, _)| spelling.split_whitespace().collect::<String>().eq_ignore_ascii_case(text))
            .map(|(_, scale)| *scale)
    };
    if let Some(scale) = named(&suffix) {
        return Some((scale, true));
    }
    if !unit.takes_prefix() {
        return None;
    }
    let mut letters = suffix.chars();
    let first = letters.next()?;
    let (_, power) = PREFIXES.iter().find(|(letter, _)| *letter == first)?;
    if letters.as_str().is_empty() {
        return Some((Scale::Factor(*power), false));
    }
    match named(letters.as_str())? {
        Scale::Factor(factor) => Some((Scale::Factor(power * factor), true)),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::settings::{Decimal, Length};

    fn ohms(text: &str) -> f64 {
        read(text, Unit::Ohm, 1.0, &Settings::default()).unwrap().value
    }

    #[track_caller]
    fn close(a: f64, b: f64) {
        assert!((a - b).abs() <= 1e-12 * b.abs(), "{a} is not {b}");
    }

    /// Lengths by their definitions: a foot is 0.3048 m (exact since 1959), so that
    /// what a foot of lead has is 3.2808 times as much a metre.
    #[test]
    fn lengths_and_what_they_have() {
        for (text, unit, value) in [
            ("5 mm", Unit::Metre, 5e-3),
            ("3 cm", Unit::Metre, 0.03),
            ("2 km", Unit::Metre, 2e3),
            ("15 ft", Unit::Metre, 4.572),
            ("30.48 pF/ft", Unit::FaradPerMetre, 100e-12),
            ("30.48 mΩ/ft", Unit::OhmPerMetre, 0.1),
            ("0.3048 uH/ft", Unit::HenryPerMetre, 1e-6),
            ("20 °C", Unit::Kelvin, 293.15),
            ("2 GΩ", Unit::Ohm, 2e9),
        ] {
            close(read(text, unit, 1.0, &Settings::default()).unwrap().value, value);
        }
    }

    /// IEC 60062 code letters, and the same written out.
    #[test]
    fn codes_of_iec_60062() {
        for (text, value) in [
            ("4k7", 4700.0),
            ("4K7", 4700.0),
            ("R47", 0.47),
            ("4R7", 4.7),
            ("100R", 100.0),
            ("1M0", 1e6),
            ("140k", 140e3),
            ("1M", 1e6),
            ("10 kΩ", 10e3),
            ("10 kohm", 10e3),
            ("1 000", 1000.0),
            ("1.5e3", 1500.0),
            ("-3", -3.0),
            ("−3", -3.0),
            ("4k7 Ω", 4700.0),
        ] {
            close(ohms(text), value);
        }
        let farads = |text| read(text, Unit::Farad, 1e-12, &Settings::default()).unwrap().value;
        close(farads("2n2"), 2.2e-9);
        close(farads("470 pF"), 470e-12);
        close(farads("470"), 470e-12);
        close(farads("0.022µF"), 22e-9);
        close(farads("0.022 μF"), 22e-9);
    }

    #[test]
    fn lengths_in_feet_and_metres() {
        let metres = |text, length| {
            read(
                text,
                Unit::Metre,
                if length == Length::Foot { 0.3048 } else { 1.0 },
                &Settings { length, ..Settings::default() },
            )
            .unwrap()
            .value
        };
        close(metres("15 ft", Length::Metre), 4.572);
        close(metres("15'", Length::Metre), 4.572);
        close(metres("15", Length::Foot), 4.572);
        close(metres("0.5 m", Length::Foot), 0.5);
        close(metres("50 cm", Length::Metre), 0.5);
        close(metres("1'500'", Length::Foot), 457.2);
        // Five feet six is not 56 of anything.
        let feet = Settings { length: Length::Foot, ..Settings::default() };
        for text in ["5'6", "5'10", "15' 6", "5'6'"] {
            assert_eq!(read(text, Unit::Metre, 0.3048, &feet), Err(Reject::NotANumber), "{text}");
        }
    }

    #[test]
    fn levels_read_as_volts() {
        let volts = |text| read(text, Unit::Volt, 1.0, &Settings::default()).unwrap().value;
        close(volts("-10 dBV"), 10_f64.powf(-0.5));
        close(volts("+4 dBu"), 0.6_f64.sqrt() * 10_f64.powf(0.2));
        close(volts("775mV"), 0.775);
        assert!(matches!(
            read("-10 dBv", Unit::Volt, 1.0, &Settings::default()),
            Err(Reject::Ambiguous(ways)) if ways == ["-10 dBV", "-10 dBu"]
        ));
    }

    #[test]
    fn the_decimal_sign_follows_the_setting_and_is_never_guessed() {
        let point = Settings::default();
        let comma = Settings { decimal: Decimal::Comma, ..point };
        let one = |text, settings: &Settings| read(text, Unit::Ohm, 1.0, settings);
        assert_eq!(one("1,500", &point), Err(Reject::Ambiguous(["1500".into(), "1.5".into()])));
        assert_eq!(one("1.500", &comma), Err(Reject::Ambiguous(["1500".into(), "1,5".into()])));
        assert_eq!(one("1,500k", &point), Err(Reject::Ambiguous(["1500 k".into(), "1.5 k".into()])));
        close(one("1.500", &point).unwrap().value, 1.5);
        close(one("1,500", &comma).unwrap().value, 1.5);
        close(one("1,5", &point).unwrap().value, 1.5);
        close(one("0,500", &point).unwrap().value, 0.5);
        close(one("1,500.5", &point).unwrap().value, 1500.5);
        close(one("1.500,5", &point).unwrap().value, 1500.5);
        close(one("1,500,000", &point).unwrap().value, 1.5e6);
        assert_eq!(one("1,50,000", &point), Err(Reject::NotANumber));
    }

    #[test]
    fn ratios() {
        let ratio = |text| read(text, Unit::Ratio, 1.0, &Settings::default());
        close(ratio("12:1").unwrap().value, 12.0);
        close(ratio("1 : 10").unwrap().value, 0.1);
        close(ratio("12").unwrap().value, 12.0);
        assert_eq!(ratio("1:0"), Err(Reject::NotFinite));
    }

    #[test]
    fn nonsense_is_refused() {
        let one = |text| read(text, Unit::Ohm, 1.0, &Settings::default());
        assert_eq!(one(""), Err(Reject::Empty));
        assert_eq!(one("  "), Err(Reject::Empty));
        assert_eq!(one("abc"), Err(Reject::NotANumber));
        assert_eq!(one("-"), Err(Reject::NotANumber));
        assert_eq!(one("."), Err(Reject::NotANumber));
        assert_eq!(one("10 pigs"), Err(Reject::UnknownUnit("pigs".into())));
        assert_eq!(one("10 V"), Err(Reject::UnknownUnit("V".into())));
        // A letter that stands for the point has no other point, and no power, before it.
        assert_eq!(one("4.5k7"), Err(Reject::UnknownUnit("k7".into())));
        assert_eq!(one("1e3k7"), Err(Reject::UnknownUnit("k7".into())));
        assert_eq!(one("1e999"), Err(Reject::NotFinite));
        assert_eq!(one("NaN"), Err(Reject::NotANumber));
        assert_eq!(one("inf"), Err(Reject::NotANumber));
    }

    #[test]
    fn what_is_longer_than_any_number_is_not_read() {
        let one = |text: &str| read(text, Unit::Ohm, 1.0, &Settings::default()).map(|written| written.value);
        let digits = |count: usize| format!("{}1", "0".repeat(count - 1));
        assert_eq!(one(&digits(LONGEST)), Ok(1.0));
        assert_eq!(one(&digits(LONGEST + 1)), Err(Reject::Long));
        // Characters count, not bytes, and a code letter costs no room.
        assert_eq!(one(&format!("{}Ω", digits(LONGEST - 1))), Ok(1.0));
        close(one(&format!("{}k7", digits(LONGEST - 2))).unwrap(), 1700.0);
        close(one(&format!("{0}140k{0}", " ".repeat(LONGEST))).unwrap(), 140e3);
        for piece in ["x", "1", "1,", "1 ", "Ω", "1:", "4k7"] {
            assert_eq!(one(&piece.repeat(1_000_000)), Err(Reject::Long), "{piece}");
        }
    }
}
