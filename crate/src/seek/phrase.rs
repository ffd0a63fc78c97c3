//! Words, and phrases of the catalogue among them.

/// Letters and digits alone, small: “D.I.” is “di”, “two-pole” is “two” and “pole”.
pub(super) fn words_of(text: &str) -> Vec<String> {
    let plain: String = text.chars().filter(|c| !matches!(c, '.' | ',' | '\'' | '’')).collect();
    plain
        .to_lowercase()
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect()
}

/// The longest of the phrases, which have commas between, that stands in the words.
pub(super) fn longest(phrases: &str, words: &[String]) -> Option<String> {
    phrases
        .split(',')
        .map(words_of)
        .filter(|phrase| !phrase.is_empty())
        .filter(|phrase| words.windows(phrase.len()).any(|some| some.iter().zip(phrase).all(|(a, b)| one(a) == one(b))))
        .map(|phrase| phrase.join(" "))
        .max_by_key(String::len)
}

/// Several are called as one is.
fn one(word: &str) -> &str {
    word.strip_suffix('s').filter(|one| one.len() > 2 && !one.ends_with('s')).unwrap_or(word)
}
