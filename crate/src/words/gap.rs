//! What the file of a language lacks beside the English one, and what it has too much.

use super::Words;
use std::collections::BTreeSet;

/// A place where the file of a language is not like the English one, by the key of the
/// message and, after a point, the attribute.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gap {
    /// There is no such message yet: English is said.
    Missing(String),
    /// English has no such message: it is never said.
    Superfluous(String),
    /// What is put in is not the same: what English puts in, and what is put in there.
    OtherPlaceholders(String, Vec<String>, Vec<String>),
}

/// Where the words of a language are not like the English ones.
pub fn gaps(english: &Words, other: &Words) -> Vec<Gap> {
    let [english, other] = [english, other].map(|words| {
        let all = words.messages().filter(|(_, _, text)| !text.is_empty());
        let named =
            |key: &str, attribute: &str| if attribute.is_empty() { key.into() } else { format!("{key}.{attribute}") };
        all.map(|(key, attribute, text)| (named(key, attribute), text)).collect::<std::collections::BTreeMap<_, _>>()
    });
    let mut gaps: Vec<_> =
        other.keys().filter(|key| !english.contains_key(*key)).cloned().map(Gap::Superfluous).collect();
    for (key, text) in english {
        match other.get(&key) {
            None => gaps.push(Gap::Missing(key)),
            Some(translated) => {
                let [asked, given] = [text, translated].map(placeholders);
                if asked != given {
                    gaps.push(Gap::OtherPlaceholders(key, asked.into_iter().collect(), given.into_iter().collect()));
                }
            }
        }
    }
    gaps.sort();
    gaps
}

/// The names of what is put into a text.
fn placeholders(text: &str) -> BTreeSet<String> {
    let name = |behind: &str| behind.chars().take_while(|c| c.is_ascii_alphanumeric() || *c == '_').collect();
    text.split('$').skip(1).map(name).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_alike() {
        let english = Words::parse("a = one { $x }\n    .also = b\nc = { $n } leads\nd = same\n");
        let other = Words::parse(
            "a = uno\nc = { $n ->\n    [one] { $n } cable\n   *[other] { $n } cables\n }\nd = igual\ne = más\n",
        );
        let named = |key: &str| key.to_owned();
        assert_eq!(
            gaps(&english, &other),
            [
                Gap::Missing(named("a.also")),
                Gap::Superfluous(named("e")),
                Gap::OtherPlaceholders(named("a"), vec![named("x")], vec![]),
            ]
        );
    }
}
