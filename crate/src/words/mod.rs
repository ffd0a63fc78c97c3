//! The message catalogue: every word that a reader sees.
//!
//! A language is one file in the syntax of Fluent (`key = text with { $name }`,
//! attributes on indented lines, `#` comments), of which this reader knows the
//! part that the catalogue uses: no terms, selectors or functions. The full
//! Fluent library was weighed and left out: it adds 59 KB of compressed
//! WebAssembly, more than a third of what the whole page may weigh.

use crate::quantity::{Unit, write};
use crate::settings::{Language, Settings};
use std::collections::HashMap;
use std::sync::OnceLock;

const ENGLISH: &str = include_str!("en.ftl");

/// What is put into a message at a `{ $name }`.
#[derive(Clone, Debug)]
pub enum Arg {
    /// A number with its unit, printed to 4 digits.
    Quantity(f64, Unit),
    /// The key of another message.
    Key(String),
    /// A text that is the same in every language.
    Text(String),
}

/// Named arguments of a message.
pub type Args<'a> = &'a [(&'static str, Arg)];

/// The words of one language.
#[derive(Debug)]
pub struct Words {
    /// By `key`, and by `key.attribute`.
    messages: HashMap<String, String>,
}

impl Words {
    /// The words of a language, parsed once.
    pub fn of(language: Language) -> &'static Self {
        static PARSED: OnceLock<Words> = OnceLock::new();
        match language {
            Language::English => PARSED.get_or_init(|| Self::parse(ENGLISH)),
        }
    }

    fn parse(source: &'static str) -> Self {
        let mut messages: HashMap<String, String> = HashMap::new();
        let (mut message, mut place) = ("", String::new());
        for line in source.lines() {
            if line.trim().is_empty() || line.starts_with('#') {
                continue;
            }
            let indented = line.starts_with(' ');
            match (indented, line.trim().strip_prefix('.'), line.split_once('=')) {
                (false, _, Some((key, text))) => {
                    message = key.trim();
                    place = message.to_owned();
                    messages.insert(place.clone(), text.trim().to_owned());
                }
                (true, Some(attribute), Some(_)) => {
                    let (name, text) = attribute.split_once('=').unwrap_or((attribute, ""));
                    place = format!("{message}.{}", name.trim());
                    messages.insert(place.clone(), text.trim().to_owned());
                }
                // A continued line.
                _ => {
                    if let Some(text) = messages.get_mut(&place) {
                        if !text.is_empty() {
                            text.push(' ');
                        }
                        text.push_str(line.trim());
                    }
                }
            }
        }
        Self { messages }
    }

    /// The pattern of a message (`attribute` empty) or of its attribute.
    pub fn pattern(&self, key: &str, attribute: &str) -> Option<&str> {
        let pattern = if attribute.is_empty() {
            self.messages.get(key)
        } else {
            self.messages.get(&format!("{key}.{attribute}"))
        };
        pattern.map(String::as_str)
    }

    /// Every key with its attributes, for the page and for checks.
    pub fn messages(&self) -> impl Iterator<Item = (&str, &str, &str)> {
        self.messages.iter().map(|(place, text)| {
            let (key, attribute) = place.split_once('.').unwrap_or((place, ""));
            (key, attribute, text.as_str())
        })
    }

    /// A message with its arguments put in. A missing message shows its key, so
    /// that a gap is seen and nothing else is lost; a test forbids gaps.
    pub fn text(&self, key: &str, args: Args, settings: &Settings) -> String {
        match self.messages.get(key) {
            Some(pattern) => self.fill(pattern, args, settings),
            None => key.to_owned(),
        }
    }

    /// A word of a calculator: its own, else the one that all share.
    pub fn of_calculator(&self, calculator: &str, id: &str, attribute: &str) -> Option<&str> {
        self.pattern(&format!("{calculator}-{id}"), attribute)
            .or_else(|| self.pattern(&format!("common-{id}"), attribute))
    }

    /// Puts arguments into a pattern.
    pub fn fill(&self, pattern: &str, args: Args, settings: &Settings) -> String {
        let mut text = String::with_capacity(pattern.len() + 16);
        let mut rest = pattern;
        while let Some((before, after)) = rest.split_once('{') {
            text.push_str(before);
            let Some((name, behind)) = after.split_once('}') else {
                text.push('{');
                rest = after;
                continue;
            };
            let name = name.trim().trim_start_matches('$');
            match args.iter().find(|(key, _)| *key == name) {
                Some((_, Arg::Quantity(value, unit))) => text.push_str(&write(*value, *unit, 4, settings)),
                Some((_, Arg::Key(key))) => text.push_str(&self.text(key, &[], settings)),
                Some((_, Arg::Text(value))) => text.push_str(value),
                None => {
                    text.push_str("{ $");
                    text.push_str(name);
                    text.push_str(" }");
                }
            }
            rest = behind;
        }
        text.push_str(rest);
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn messages_attributes_and_continued_lines() {
        let words = Words::parse("# comment\na = one { $x } two\n    .help = more\n      and more\nb =\n    late\n");
        let settings = Settings::default();
        assert_eq!(words.text("a", &[("x", Arg::Quantity(1500.0, Unit::Ohm))], &settings), "one 1.5\u{a0}kΩ two");
        assert_eq!(words.text("a.help", &[], &settings), "more and more");
        assert_eq!(words.text("b", &[], &settings), "late");
        assert_eq!(words.text("missing", &[], &settings), "missing");
        assert_eq!(words.text("a", &[], &settings), "one { $x } two");
    }
}
