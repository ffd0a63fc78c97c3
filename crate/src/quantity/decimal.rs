//! Digits → a number.

use lexical_parse_float::FromLexical as _;

/// The number nearest to a text such as `-1.5e3`; nothing where it is none. It
/// reads what `str::parse` reads, of which it is the small form: the tables of
/// that one alone weigh 10 kB in a page.
pub(crate) fn decimal(text: &str) -> Option<f64> {
    f64::from_lexical(text.as_bytes()).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn is_the_nearest_number(value in proptest::num::f64::NORMAL | proptest::num::f64::SUBNORMAL | proptest::num::f64::ZERO, digits in 0_usize..25) {
            prop_assert_eq!(decimal(&value.to_string()), Some(value));
            let rounded = format!("{value:.digits$e}");
            prop_assert_eq!(decimal(&rounded), rounded.parse().ok());
        }

        #[test]
        fn reads_what_the_standard_library_reads(text in "[-+]?[0-9]{0,20}[.]?[0-9]{0,20}(e[-+]?[0-9]{0,4})?") {
            prop_assert_eq!(decimal(&text), text.parse().ok());
        }
    }
}
