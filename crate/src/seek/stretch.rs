//! Numbers with their units in a text.

use crate::quantity::{Unit, read};
use crate::settings::Settings;

/// A number with its unit.
#[derive(Debug)]
pub(super) struct Stretch {
    /// As it was written.
    pub(super) text: String,
    /// The word before it.
    pub(super) before: String,
    /// The word after it.
    pub(super) after: String,
}

/// Nominal line levels that are said without their units: professional and consumer
/// equipment. Common practice, no source.
const NOMINAL: &[(&str, &str)] = &[("+4", "+4 dBu"), ("-10", "-10 dBV"), ("−10", "-10 dBV")];

/// Every number that has a unit, in order.
pub(super) fn stretches(text: &str, settings: &Settings) -> Vec<Stretch> {
    let pieces = pieces(text);
    let mut found = Vec::new();
    let mut at = 0;
    while at < pieces.len() {
        // `1 000 m` is one number.
        let groups = pieces[at + 1..].iter().take_while(|piece| is_group(piece)).count();
        let ends = (at + 1..=(at + groups + 2).min(pieces.len())).rev();
        let nominal =
            || NOMINAL.iter().find(|(bare, _)| *bare == pieces[at]).map(|(_, text)| (at + 1, (*text).to_owned()));
        let stretch = begins_number(pieces[at])
            .then(|| ends.map(|end| (end, pieces[at..end].join(" "))).find(|(_, text)| has_unit(text, settings)))
            .flatten()
            .or_else(nominal);
        let Some((end, text)) = stretch else {
            at += 1;
            continue;
        };
        let word =
            |at: Option<usize>| at.and_then(|at| pieces.get(at)).map(|&word| word.to_owned()).unwrap_or_default();
        found.push(Stretch { text: plain(&text).to_owned(), before: word(at.checked_sub(1)), after: word(Some(end)) });
        at = end;
    }
    found
}

/// What stands between spaces, without the marks of a sentence; `6m+30m` is two.
fn pieces(text: &str) -> Vec<&str> {
    let mut pieces = Vec::new();
    for piece in text.split_whitespace() {
        let piece = piece.trim_start_matches(is_mark).trim_end_matches(|c| is_mark(c) || c == '.');
        let mut rest = piece;
        while let Some(place) = rest.char_indices().skip(1).find(|(_, c)| *c == '+').map(|(place, _)| place) {
            pieces.push(&rest[..place]);
            rest = &rest[place..];
        }
        pieces.push(rest);
    }
    pieces.retain(|piece| !piece.is_empty());
    pieces
}

fn is_mark(c: char) -> bool {
    matches!(c, '?' | '!' | ';' | ':' | ',' | '(' | ')' | '“' | '”' | '"')
}

fn begins_number(piece: &str) -> bool {
    piece.trim_start_matches(['+', '-', '−', '–', '.']).starts_with(|c: char| c.is_ascii_digit())
}

fn is_group(piece: &str) -> bool {
    piece.len() == 3 && piece.bytes().all(|digit| digit.is_ascii_digit())
}

/// A bare number, or one with a prefix alone, may be anything.
fn has_unit(text: &str, settings: &Settings) -> bool {
    Unit::ALL.into_iter().any(|unit| read(text, unit, 1.0, settings).is_ok_and(|written| written.unit_given))
}

/// Only levels are written with a plus.
fn plain(text: &str) -> &str {
    if text.to_ascii_lowercase().contains("db") { text } else { text.trim_start_matches('+') }
}
