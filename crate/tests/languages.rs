//! Every language is read by the official parser of Fluent (the crate `fluent-syntax` of the Fluent
//! project) without an error, has the same messages as English, and is complete.
#![allow(clippy::unwrap_used, clippy::panic)]

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::parser::parse;
use stageohm::answer::{Question, answer, describe};
use stageohm::lesson::{Response, deal, mark, read_lesson};
use stageohm::seek::seek;
use stageohm::settings::{Language, Settings};
use stageohm::words::{Gap, Words, gaps};

const FILES: &[(Language, &str)] = &[
    (Language::English, include_str!("../src/words/en.ftl")),
    (Language::Spanish, include_str!("../src/words/es.ftl")),
];

/// A selector inside another, a term or a function is none of those that the catalogue uses;
/// the variant for all else stands last.
fn is_used(pattern: &Pattern<&str>, inside: bool) -> bool {
    pattern.elements.iter().all(|element| match element {
        PatternElement::TextElement { value } => !(inside && value.contains(['[', ']'])),
        PatternElement::Placeable { expression: Expression::Inline(inline) } => {
            matches!(inline, InlineExpression::VariableReference { .. })
        }
        PatternElement::Placeable { expression: Expression::Select { selector, variants } } => {
            !inside
                && matches!(selector, InlineExpression::VariableReference { .. })
                && variants.last().is_some_and(|last| last.default)
                && variants.iter().all(|variant| is_used(&variant.value, true))
        }
    })
}

#[test]
fn every_file_is_fluent() {
    assert_eq!(FILES.len(), Language::ALL.len());
    for (language, file) in FILES {
        let read = parse(*file).unwrap_or_else(|(_, errors)| panic!("{language:?}: {errors:?}"));
        for entry in &read.body {
            let Entry::Message(message) = entry else {
                assert!(!matches!(entry, Entry::Term(_) | Entry::Junk { .. }), "{language:?}: {entry:?}");
                continue;
            };
            let patterns = message.value.iter().chain(message.attributes.iter().map(|attribute| &attribute.value));
            for pattern in patterns {
                assert!(is_used(pattern, false), "{language:?}: {}", message.id.name);
            }
        }
        // This reader finds each message that the official one does.
        let words = Words::own(*language);
        let known = read.body.iter().filter_map(|entry| match entry {
            Entry::Message(message) => Some(message),
            _ => None,
        });
        for message in known {
            assert!(words.pattern(message.id.name, "").is_some(), "{language:?}: {}", message.id.name);
            for attribute in &message.attributes {
                let (id, name) = (message.id.name, attribute.id.name);
                assert!(words.pattern(id, name).is_some(), "{language:?}: {id}.{name}");
            }
        }
    }
}

#[test]
fn no_message_is_superfluous_or_has_other_placeholders() {
    let english = Words::own(Language::English);
    for language in Language::ALL {
        let wrong: Vec<_> =
            gaps(&english, &Words::own(*language)).into_iter().filter(|gap| !matches!(gap, Gap::Missing(_))).collect();
        assert_eq!(wrong, [], "{language:?}");
    }
}

#[test]
fn spanish_is_complete() {
    assert_eq!(gaps(&Words::own(Language::English), &Words::own(Language::Spanish)), []);
}

/// The numbers of an answer are the same whatever its words are.
#[test]
fn numbers_do_not_depend_on_words() {
    let spanish = Settings { language: Language::Spanish, ..Settings::default() };
    for (english, translated) in describe(&Settings::default()).iter().zip(describe(&spanish)) {
        assert_ne!(english.purpose, translated.purpose, "{}", english.id);
        let ask = |settings: Settings| {
            let question = serde_json::json!({ "calculator": english.id, "settings": settings });
            let report = answer(&serde_json::from_value::<Question>(question).unwrap()).report.unwrap();
            report.headline.into_iter().map(|reading| reading.exact).collect::<Vec<_>>()
        };
        assert_eq!(ask(Settings::default()), ask(spanish), "{}", english.id);
    }
}

/// A search takes Spanish words with and without their accents, and English ones still.
#[test]
fn a_search_needs_no_accents() {
    let spanish = Settings { language: Language::Spanish, ..Settings::default() };
    assert_eq!(seek("eléctrica pasiva", &spanish), seek("electrica pasiva", &spanish));
    let filled = |text: &str| {
        let sought = seek(text, &spanish);
        sought.fillings.into_iter().map(|filling| (filling.calculator, filling.values)).collect::<Vec<_>>()
    };
    // The word beside a number says which field is meant, however it is written.
    for text in ["tirada 30 m, cable 6 m", "Tiradas: 30 m, CABLES: 6 m"] {
        let cued = filled(text).into_iter().find(|(calculator, _)| *calculator == "box-or-straight");
        let (lead, run) = (("lead_length", "6 m".to_owned()), ("run_length", "30 m".to_owned()));
        assert_eq!(cued.map(|(_, values)| values), Some(vec![lead, run]), "{text}");
    }
    let english = seek("passive bass 6 m", &Settings::default());
    let english: Vec<_> = english.fillings.into_iter().map(|filling| (filling.calculator, filling.values)).collect();
    assert!(!english.is_empty());
    for filling in english {
        assert!(filled("passive bass 6 m").contains(&filling), "{filling:?}");
    }
}

/// What a lesson says is another; what it deals and marks is the same.
#[test]
fn a_lesson_in_another_language() {
    let file = serde_json::json!({
        "stageohm": "lesson", "version": 1, "id": "half", "revision": 1, "engine": "0.1.0", "language": "en",
        "title": "Half", "pass": 0.5, "rig": { "calculator": "source-load", "values": { "source_r": "600" } },
        "draw": { "load_r": { "of": ["600", "1200"] } },
        "steps": [{
            "kind": "number", "title": "Loss", "text": "How much?", "points": 1, "hints": ["One", "Two"],
            "reading": "loss", "good": "0.5 dB", "none": "3 dB",
            "variants": { "es": { "title": "Pérdida", "text": "¿Cuánto?", "hints": ["Uno"] } }
        }],
        "variants": { "es": { "title": "La mitad" } }
    });
    let lesson = read_lesson(&serde_json::from_value(file).unwrap(), &Settings::default()).lesson.unwrap();
    let told = lesson.clone().told("es");
    assert_eq!((told.title.as_str(), told.language.as_str()), ("La mitad", "es"));
    assert_eq!((told.steps[0].title.as_str(), told.steps[0].text.as_str()), ("Pérdida", "¿Cuánto?"));
    // What the file leaves out stays.
    assert_eq!(told.steps[0].hints, ["Uno", "Two"]);
    // So does what it leaves empty, as where an editor took out what was said of an older text.
    let mut partly = lesson.clone();
    if let Some(variant) = partly.steps[0].variants.get_mut("es") {
        variant.title.clear();
        variant.hints = vec![String::new(), "Dos".to_owned()];
    }
    let partly = partly.told("es");
    assert_eq!((partly.steps[0].title.as_str(), partly.steps[0].text.as_str()), ("Loss", "¿Cuánto?"));
    assert_eq!(partly.steps[0].hints, ["One", "Dos"]);
    for other in ["en", "fr", "e", ""] {
        assert_eq!(lesson.clone().told(other), lesson, "{other}");
    }
    for seed in 1..20 {
        assert_eq!(deal(&lesson, seed), deal(&told, seed));
        let response = Response { text: "6 dB".to_owned(), ..Response::default() };
        let marks = [&lesson, &told].map(|lesson| {
            mark(lesson, &deal(lesson, seed), 0, &response, &Settings::default()).map(|marked| marked.points)
        });
        assert_eq!(marks[0], marks[1]);
        assert!(marks[0].is_some());
    }
}
