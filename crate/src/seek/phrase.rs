//! Words, and phrases of the catalogue among them.

/// Letters and digits alone, small: “D.I.” is “di”, “two-pole” is “two” and “pole”.
/// Accents of the languages of western Europe are left out, since nobody writes them
/// into a search; other letters beyond ASCII stay as they are, since the tables for
/// them are larger than all that is read here.
pub(super) fn words_of(text: &str) -> Vec<String> {
    let mut words = Vec::new();
    let mut word = String::new();
    // The end of the text ends a word too.
    for c in text.chars().chain([' ']).map(plain) {
        match c {
            // An accent may be a sign of its own.
            '.' | ',' | '\'' | '’' | '\u{300}'..='\u{303}' | '\u{308}' => {}
            _ if c.is_ascii_alphanumeric() || !(c.is_ascii() || is_mark(c)) => word.push(c.to_ascii_lowercase()),
            _ if word.is_empty() => {}
            _ => words.push(std::mem::take(&mut word)),
        }
    }
    words
}

/// A letter without its accent.
fn plain(c: char) -> char {
    match c {
        'À'..='Å' | 'à'..='å' => 'a',
        'Ç' | 'ç' => 'c',
        'È'..='Ë' | 'è'..='ë' => 'e',
        'Ì'..='Ï' | 'ì'..='ï' => 'i',
        'Ñ' | 'ñ' => 'n',
        'Ò'..='Ö' | 'ò'..='ö' => 'o',
        'Ù'..='Ü' | 'ù'..='ü' => 'u',
        _ => c,
    }
}

/// Signs beyond ASCII that are no letters.
fn is_mark(c: char) -> bool {
    matches!(c, '“' | '”' | '–' | '−' | '…' | '\u{a0}')
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_letters_and_digits() {
        for (text, words) in [
            ("D.I., the player’s", &["di", "the", "players"][..]),
            ("two-pole jack/XLR", &["two", "pole", "jack", "xlr"]),
            ("“lead” – 6 m… −10 dBV", &["lead", "6", "m", "10", "dbv"]),
            ("80\u{a0}m", &["80", "m"]),
            ("naïve 10kΩ", &["naive", "10kΩ"]),
            ("MICRÓFONO pequeño", &["microfono", "pequeno"]),
            ("micro\u{301}fono", &["microfono"]),
            (" – ", &[]),
        ] {
            assert_eq!(words_of(text), words, "“{text}”");
        }
    }

    #[test]
    fn the_longest_phrase_of_several() {
        let among = |phrases: &str, text: &str| longest(phrases, &words_of(text));
        assert_eq!(among("bass, passive bass, guitar", "which DI for a passive bass"), Some("passive bass".to_owned()));
        assert_eq!(among("passive bass", "a bass that is passive"), None);
        assert_eq!(among("pérdida, tirada", "PERDIDA de 20 dB"), Some("perdida".to_owned()));
        assert_eq!(among("", "bass"), None);
        assert_eq!(among(" , ", "bass"), None);
        // Several are called as one is: mics are a mic. What only ends as several do
        // is another word.
        assert_eq!(among("mic", "two mics"), Some("mic".to_owned()));
        assert_eq!(among("mics", "a mic"), Some("mics".to_owned()));
        assert_eq!(among("it", "its"), None);
        assert_eq!(among("pres", "press"), None);
    }
}
