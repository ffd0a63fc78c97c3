//! The kept cases of `tests/corpus`, and what chance makes of them.
#![allow(clippy::unwrap_used, missing_docs, unreachable_pub)]

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};

pub const TEXTS: &str = include_str!("../../../tests/corpus/texts.txt");
pub const FORMULAS: &str = include_str!("../../../tests/corpus/formulas.txt");
pub const SEARCHES: &str = include_str!("../../../tests/corpus/searches.txt");
pub const QUESTIONS: &str = include_str!("../../../tests/corpus/questions.txt");

/// What is put in anywhere, besides the letters of the corpus itself.
const PIECES: &[&str] = &[
    "\0",
    "\u{1b}",
    "\r\n",
    "\u{7f}",
    "\u{200f}",
    "\u{202e}",
    "\u{feff}",
    "\u{301}",
    "\u{fffd}",
    "\u{10ffff}",
    "\\ud800",
    "%ED%A0%80",
    "NaN",
    "inf",
    "1e999",
    "-1e-999",
    "∞",
    "__proto__",
    "\"",
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    "null",
    "🎸",
];
/// A case grows no longer than this, in characters.
const LONGEST: usize = 20_000;

/// A change of a text: what is done, from where to where, and how often.
type Change = (u8, Index, Index, usize);

/// The cases of a file, one on each line; what begins with a quotation mark is a JSON string.
pub fn cases(file: &str) -> Vec<String> {
    let case = |line: &str| if line.starts_with('"') { serde_json::from_str(line).unwrap() } else { line.to_owned() };
    file.lines().map(case).collect()
}

/// A case of these files after some changes; it shrinks towards one as it is kept.
pub fn mutated(files: &[&str]) -> impl Strategy<Value = String> + use<> {
    let all: Vec<_> = files.iter().flat_map(|file| cases(file)).collect();
    let mut letters: Vec<char> = all.iter().flat_map(|case| case.chars()).collect();
    letters.sort_unstable();
    letters.dedup();
    let change = (0..7_u8, any::<Index>(), any::<Index>(), 1..60_usize);
    let others = vec((select(all.clone()), select(PIECES)), 4);
    (select(all), others, vec(change, 0..4)).prop_map(move |(case, others, changes)| {
        let case: Vec<char> = case.chars().collect();
        let changed = changes
            .iter()
            .zip(&others)
            .fold(case, |case, (change, (other, piece))| changed(case, *change, other, piece, &letters));
        changed.into_iter().take(LONGEST).collect()
    })
}

fn changed(
    mut case: Vec<char>,
    (what, from, to, count): Change,
    other: &str,
    piece: &str,
    letters: &[char],
) -> Vec<char> {
    let (from, to) = (from.index(case.len() + 1), to.index(case.len() + 1));
    let (from, to) = (from.min(to), from.max(to));
    match what {
        0 => {
            // The head of one and the tail of another.
            let tail: Vec<char> = other.chars().skip(to).collect();
            case.truncate(from);
            case.extend(tail);
        }
        1 => drop(case.drain(from..to)),
        2 => {
            let again = case[from..to].repeat(count);
            case.splice(to..to, again);
        }
        3 => case.reverse(),
        4 => {
            let letter = letters[(from * 31 + to * 7 + count) % letters.len()];
            match case.get_mut(from) {
                Some(place) => *place = letter,
                None => case.push(letter),
            }
        }
        5 => drop(case.splice(from..from, piece.chars())),
        _ => drop(case.splice(from..to, other.chars())),
    }
    case
}
