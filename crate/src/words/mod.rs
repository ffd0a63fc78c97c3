//! The message catalogue: every word that a reader sees.
//!
//! A language is one file in the syntax of Fluent (`key = text with { $name }`,
//! attributes on indented lines, `#` comments, `{ $count -> [one] … *[other] … }`),
//! of which this reader knows the part that the catalogue uses: no terms or
//! functions. The full Fluent library was weighed and left out: it adds 59 KB of
//! compressed WebAssembly, more than a third of what the whole page may weigh.
//! What a language lacks is said in English.
//!
//! A program has the words in itself. A page leaves the feature `words` out and
//! brings them in files of their own ([`Words::bring`]), so that a first visit
//! need not fetch the words of what is not on the screen.
//!
//! ```
//! use stageohm::quantity::Unit;
//! use stageohm::settings::{Language, Settings};
//! use stageohm::words::{Arg, Words};
//!
//! let words = Words::of(Language::English);
//! let text = words.text("tolerance-exact", &[], &Settings::default());
//! assert!(!text.is_empty());
//! // What is not there shows its key.
//! assert_eq!(words.text("no-such-key", &[], &Settings::default()), "no-such-key");
//! let pattern = "more than { $most }";
//! let most = ("most", Arg::Quantity(1500.0, Unit::Ohm));
//! assert_eq!(words.fill(pattern, &[most], &Settings::default()), "more than 1.5\u{a0}kΩ");
//! ```

#[cfg(feature = "words")]
mod gap;
mod message;

#[cfg(feature = "words")]
pub use gap::{Gap, gaps};
pub use message::Message;

use crate::quantity::{SHOWN, Unit, write, write_entry, write_within};
#[cfg(feature = "words")]
use crate::settings::with_languages;
use crate::settings::{Language, Settings};
use std::borrow::Cow;
use std::collections::HashMap;
use std::sync::OnceLock;

#[cfg(feature = "words")]
macro_rules! files {
    ($($variant:ident, $code:tt, $name:tt, $decimal:ident;)*) => {
        /// The file of a language.
        const fn included(language: Language) -> &'static str {
            match language {
                $(Language::$variant => {
                    include_str!(concat!(env!("CARGO_MANIFEST_DIR"), "/src/words/", $code, ".ftl"))
                })*
            }
        }

        /// Where the words of a language are, parsed once.
        fn place(language: Language) -> &'static OnceLock<Words> {
            match language {
                $(Language::$variant => {
                    static PLACE: OnceLock<Words> = OnceLock::new();
                    &PLACE
                })*
            }
        }
    };
}
#[cfg(feature = "words")]
with_languages!(files);

/// A page has the words of one language, whichever is asked for.
#[cfg(not(feature = "words"))]
fn place(_: Language) -> &'static OnceLock<Words> {
    static PLACE: OnceLock<Words> = OnceLock::new();
    &PLACE
}

/// Room for so many keys, so that the map is made in one go.
const KEYS: usize = 2100;

/// The attribute of what something is called besides, by which it is found.
#[cfg(feature = "words")]
const ALSO: &str = "also";

/// What is put into a message at a `{ $name }`.
#[derive(Clone, Debug, PartialEq)]
pub enum Arg {
    /// A result with its unit, printed to `SHOWN` digits.
    Quantity(f64, Unit),
    /// The same to so many digits.
    Figures(f64, Unit, usize),
    /// What was typed or set, as its field has it.
    Entry(f64, Unit),
    /// The most that something may be: what is printed never lies above it.
    AtMost(f64, Unit),
    /// The least that something may be: what is printed never lies below it.
    AtLeast(f64, Unit),
    /// The key of another message.
    Key(String),
    /// A text that is the same in every language.
    Text(String),
    /// Other messages, one after the other with commas between.
    Messages(Vec<Message>),
}

impl Arg {
    /// A name from outside, as far as it helps to know it again.
    pub fn name(name: &str) -> Self {
        const LONGEST: usize = 60;
        Self::Text(match name.char_indices().nth(LONGEST) {
            Some((end, _)) => format!("{}…", &name[..end]),
            None => name.to_owned(),
        })
    }
}

/// Named arguments of a message.
pub type Args<'a> = &'a [(&'static str, Arg)];

/// The words of one language.
#[derive(Debug)]
pub struct Words {
    messages: HashMap<&'static str, Pattern>,
}

/// What stands under a key: a text, and those of its attributes. All is left in
/// the file but what goes on over several lines.
#[derive(Debug, Default)]
struct Pattern {
    text: Cow<'static, str>,
    attributes: Vec<(&'static str, Cow<'static, str>)>,
}

impl Words {
    /// The words of a language: those compiled in, or those that were brought. Where
    /// there are none, a text shows its key.
    pub fn of(language: Language) -> &'static Self {
        place(language).get_or_init(|| Self::compiled(language))
    }

    /// Those compiled in, with English where they have nothing.
    #[cfg(feature = "words")]
    fn compiled(language: Language) -> Self {
        let words = Self::own(language);
        if language == Language::English { words } else { words.completed(Self::own(Language::English)) }
    }

    /// With English where they have nothing.
    #[cfg(feature = "words")]
    fn completed(mut self, english: Self) -> Self {
        for (key, pattern) in english.messages {
            let own = self.messages.entry(key).or_default();
            if own.text.is_empty() {
                own.text.clone_from(&pattern.text);
            }
            for (attribute, text) in pattern.attributes {
                // What English calls it finds it too.
                let text = if attribute == ALSO { format!("{text}, {}", pattern.text).into() } else { text };
                match own.attributes.iter_mut().find(|(known, _)| *known == attribute) {
                    Some((_, also)) if attribute == ALSO => *also = format!("{also}, {text}").into(),
                    Some(_) => {}
                    None => own.attributes.push((attribute, text)),
                }
            }
        }
        self
    }

    /// Whoever brings words has completed them.
    #[cfg(not(feature = "words"))]
    fn compiled(_: Language) -> Self {
        Self { messages: HashMap::new() }
    }

    /// What the file of a language has itself, for checks.
    #[cfg(feature = "words")]
    pub fn own(language: Language) -> Self {
        Self::parse(included(language))
    }

    /// Takes the words of a language from a text in the syntax of the catalogue. They
    /// are there until the program ends. Returns whether they were taken: only the
    /// first are, and none after [`Words::of`] was asked.
    pub fn bring(language: Language, text: String) -> bool {
        place(language).set(Self::parse(text.leak())).is_ok()
    }

    /// Those of a file in the syntax of the catalogue.
    pub fn parse(source: &'static str) -> Self {
        let mut messages: HashMap<&str, Pattern> = HashMap::with_capacity(KEYS);
        let (mut key, mut message) = ("", Pattern::default());
        for line in source.lines() {
            let trimmed = line.trim();
            if trimmed.is_empty() || line.starts_with('#') {
                continue;
            }
            let indented = line.starts_with(' ');
            match (indented, trimmed.strip_prefix('.').unwrap_or(trimmed).split_once('=')) {
                (false, Some((next, text))) => {
                    messages.insert(key, message);
                    (key, message) = (next.trim(), Pattern { text: text.trim().into(), attributes: Vec::new() });
                }
                (true, Some((attribute, text))) if trimmed.starts_with('.') => {
                    message.attributes.push((attribute.trim(), text.trim().into()));
                }
                // A continued line.
                _ => {
                    let text = message.attributes.last_mut().map_or(&mut message.text, |(_, text)| text).to_mut();
                    if !text.is_empty() {
                        text.push(' ');
                    }
                    text.push_str(trimmed);
                }
            }
        }
        messages.insert(key, message);
        messages.remove("");
        Self { messages }
    }

    /// The pattern of a message (`attribute` empty) or of its attribute.
    pub fn pattern(&self, key: &str, attribute: &str) -> Option<&str> {
        let message = self.messages.get(key)?;
        if attribute.is_empty() {
            return Some(&message.text);
        }
        message.attributes.iter().find(|(known, _)| *known == attribute).map(|(_, text)| text.as_ref())
    }

    /// Every key with its attributes, for the page and for checks.
    pub fn messages(&self) -> impl Iterator<Item = (&'static str, &'static str, &str)> {
        self.messages.iter().flat_map(|(key, message)| {
            let own = std::iter::once((*key, "", message.text.as_ref()));
            own.chain(message.attributes.iter().map(|(attribute, text)| (*key, *attribute, text.as_ref())))
        })
    }

    /// A message with its arguments put in. A missing message shows its key, so
    /// that a gap is seen and nothing else is lost; a test forbids gaps.
    pub fn text(&self, key: &str, args: Args, settings: &Settings) -> String {
        let (name, attribute) = key.split_once('.').unwrap_or((key, ""));
        match self.pattern(name, attribute) {
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
        self.put(&mut text, pattern, args, settings);
        text
    }

    /// The same behind a text.
    fn put(&self, text: &mut String, pattern: &str, args: Args, settings: &Settings) {
        let mut rest = pattern;
        while let Some((before, after)) = rest.split_once('{') {
            text.push_str(before);
            let Some((inside, behind)) = braced(after) else {
                text.push('{');
                rest = after;
                continue;
            };
            rest = behind;
            let (name, variants) = inside.split_once('>').unwrap_or((inside, ""));
            let start = text.len();
            self.put_argument(text, name.trim_matches(['$', '-', ' ']), args, settings);
            // What a selector chooses stands in place of the value that it chooses by.
            if let Some(variant) = chosen(variants, text.get(start..).unwrap_or_default()) {
                text.truncate(start);
                self.put(text, variant, args, settings);
            }
        }
        text.push_str(rest);
    }

    /// Puts an argument as it is printed behind a text; one that is missing shows its name.
    fn put_argument(&self, text: &mut String, name: &str, args: Args, settings: &Settings) {
        match args.iter().find(|(key, _)| *key == name) {
            Some((_, Arg::Quantity(value, unit))) => text.push_str(&write(*value, *unit, SHOWN, settings)),
            Some((_, Arg::Figures(value, unit, digits))) => text.push_str(&write(*value, *unit, *digits, settings)),
            Some((_, Arg::Entry(value, unit))) => text.push_str(&write_entry(*value, *unit, settings)),
            Some((_, Arg::AtMost(value, unit))) => {
                text.push_str(&write_within(*value, *unit, f64::floor, SHOWN, settings));
            }
            Some((_, Arg::AtLeast(value, unit))) => {
                text.push_str(&write_within(*value, *unit, f64::ceil, SHOWN, settings));
            }
            Some((_, Arg::Key(key))) => text.push_str(&self.text(key, &[], settings)),
            Some((_, Arg::Text(value))) => text.push_str(value),
            Some((_, Arg::Messages(messages))) => {
                let texts: Vec<_> = messages.iter().map(|message| message.text(settings)).collect();
                text.push_str(&texts.join(", "));
            }
            None => {
                text.push_str("{ $");
                text.push_str(name);
                text.push_str(" }");
            }
        }
    }
}

/// What stands up to the bracket that closes, and what behind it.
fn braced(text: &str) -> Option<(&str, &str)> {
    let mut open = 1_usize;
    let end = text.bytes().position(|byte| {
        open += usize::from(byte == b'{');
        open -= usize::from(byte == b'}');
        open == 0
    })?;
    Some((text.get(..end)?, text.get(end + 1..)?))
}

/// The variant of a value: the one of its name, `one` for a single thing, or else the
/// last, which has the star. In a variant a square bracket begins the next.
fn chosen<'a>(variants: &'a str, value: &str) -> Option<&'a str> {
    let mut variant = None;
    for (key, text) in variants.split('[').filter_map(|piece| piece.split_once(']')) {
        variant = Some(text.trim_matches([' ', '*']));
        if key == value || (key == "one" && value == "1") {
            break;
        }
    }
    variant
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

    /// One thing and several, by the words of the language; a variant has its own placeables.
    #[test]
    fn plurals() {
        let file = "left = { $count ->\n    [one] falta { $count } metro\n    [0] nada\n   *[other] faltan { $count } metros, { $what }\n } ya\n";
        let words = Words::parse(file);
        let left = |count: Arg| {
            let args = [("count", count), ("what", Arg::Text("más".to_owned()))];
            words.text("left", &args, &Settings::default())
        };
        assert_eq!(left(Arg::Text("1".to_owned())), "falta 1 metro ya");
        assert_eq!(left(Arg::Text("2".to_owned())), "faltan 2 metros, más ya");
        assert_eq!(left(Arg::Text("0".to_owned())), "nada ya");
        // A selector without its argument takes the variant for all else.
        assert_eq!(words.text("left", &[], &Settings::default()), "faltan { $count } metros, { $what } ya");
    }

    /// What a language lacks is English, never a key.
    #[test]
    fn completed_by_english() {
        for language in Language::ALL {
            let words = Words::of(*language);
            for (key, attribute, _) in Words::own(Language::English).messages() {
                assert!(words.pattern(key, attribute).is_some_and(|text| !text.is_empty()), "{key}.{attribute}");
            }
        }
    }

    /// What English calls a thing finds it in another language, whether or not that has other
    /// words for it itself.
    #[test]
    fn found_by_its_english_name() {
        let english = Words::parse("a = lead\n    .also = cable\n    .help = wire\nb = pad\n    .also = attenuator\n");
        let words = Words::parse("a = Leitung\n    .also = Kabel\nb = Dämpfer\n").completed(english);
        assert_eq!(words.pattern("a", ""), Some("Leitung"));
        assert_eq!(words.pattern("a", "also"), Some("Kabel, cable, lead"));
        assert_eq!(words.pattern("a", "help"), Some("wire"));
        assert_eq!(words.pattern("b", ""), Some("Dämpfer"));
        assert_eq!(words.pattern("b", "also"), Some("attenuator, pad"));
    }

    /// Each kind of argument as a reader sees it; a limit that is named is never past itself.
    #[test]
    fn arguments() {
        let words = Words::parse("key = the { $x }\nother = word\n");
        let filled = |x: Arg| words.text("key", &[("x", x)], &Settings::default()).replace('\u{a0}', " ");
        let text = |text: &str| Message::Text(text.to_owned().into());
        for (arg, expected) in [
            (Arg::Quantity(1234.5, Unit::Ohm), "the 1.23 kΩ"),
            (Arg::Figures(1234.5, Unit::Ohm, 4), "the 1.234 kΩ"),
            (Arg::Entry(1234.5, Unit::Ohm), "the 1.2345 kΩ"),
            (Arg::AtMost(1239.9, Unit::Ohm), "the 1.23 kΩ"),
            (Arg::AtLeast(1230.1, Unit::Ohm), "the 1.24 kΩ"),
            (Arg::Key("other".to_owned()), "the word"),
            (Arg::Text("text".to_owned()), "the text"),
            (Arg::Messages(vec![text("one"), text("two")]), "the one, two"),
            (Arg::Messages(vec![]), "the "),
        ] {
            assert_eq!(filled(arg.clone()), expected, "{arg:?}");
        }
        // A bracket that nothing closes is a bracket.
        assert_eq!(words.fill("a { b", &[], &Settings::default()), "a { b");
    }

    /// A name from outside is told as far as it helps: sixty letters of it.
    #[test]
    fn a_long_name_is_cut() {
        assert_eq!(Arg::name("ü"), Arg::Text("ü".to_owned()));
        assert_eq!(Arg::name(&"ü".repeat(60)), Arg::Text("ü".repeat(60)));
        assert_eq!(Arg::name(&"ü".repeat(61)), Arg::Text("ü".repeat(60) + "…"));
    }
}
