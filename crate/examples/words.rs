//! Writes the words of the page into a folder for each language: `page-words.json` has those of the
//! page itself, the name of every calculator and the list of languages, `stage-words.json` those of
//! the stage, `fault-words.json` those of the finder of faults, `lesson-words.json` those of lessons,
//! `hear-words.json` those of what is heard, `start-words.json` those that stand in a page before any come,
//! `engine-words.ftl` those of every answer, and `first-<calculator>-words.ftl` those that the answers
//! of one calculator take. What a language lacks is there in English.
//!
//! ```sh
//! cargo run --example words -- www/generated/words
//! ```

use serde_json::{Map, Value, json};
use stageohm::answer::{describe, page_words};
use stageohm::calculator::REGISTER;
use stageohm::settings::{Language, Settings};
use stageohm::words::{Gap, Words, gaps};
use std::collections::BTreeMap;
use std::io;
use std::path::Path;

/// What only the reference section says.
const REFERENCE: &[&str] = &["look-up", "face", "wiring", "contact", "connector"];

/// What only answers to long questions, the stage, files and lessons say, and what cures are called.
const LONG: &[&str] = &["backwards", "tolerance", "stage", "file", "lesson"];
const CURE: &str = "-cure-";

/// Calculators that speak of what another one found.
const BORROWED: &[(&str, &str)] =
    &[("box-or-straight", "whole-line"), ("box-or-straight", "level-chain"), ("whole-line", "level-chain")];

/// Pieces of the page whose words come with them.
const PIECES: &[&str] = &["stage", "fault", "lesson", "hear", "start"];

/// The last line, so that a file that was cut short can be told.
const END: &str = "# end\n";

fn main() -> io::Result<()> {
    let folder = std::env::args().nth(1).ok_or_else(|| io::Error::other("which folder?"))?;
    for language in Language::ALL {
        write(*language, &Path::new(&folder).join(language.code()))?;
    }
    Ok(())
}

/// Writes the files of a language.
fn write(language: Language, folder: &Path) -> io::Result<()> {
    std::fs::create_dir_all(folder)?;
    let settings = Settings { language, ..Settings::default() };
    let calculators: Vec<_> = describe(&settings)
        .into_iter()
        .map(|one| json!({ "id": one.id, "title": one.title, "purpose": one.purpose }))
        .collect();
    let said = page_words(&settings);
    let words = |wanted: &dyn Fn(&str) -> bool| -> Map<_, _> {
        said.iter().filter(|(key, _)| wanted(key)).map(|(key, text)| (key.to_owned(), json!(text))).collect()
    };
    let own = words(&|key| !PIECES.iter().any(|piece| of(key, piece)));
    let page = json!({ "words": own, "calculators": calculators, "languages": languages() });
    std::fs::write(folder.join("page-words.json"), page.to_string())?;
    for piece in PIECES {
        let said = json!({ "words": words(&|key| of(key, piece)) });
        std::fs::write(folder.join(format!("{piece}-words.json")), said.to_string())?;
    }
    std::fs::write(folder.join("engine-words.ftl"), written(language, |key, _| !of(key, "page")))?;
    for calculator in REGISTER {
        let words = written(language, |key, attribute| is_said_by(calculator.id, key, attribute));
        std::fs::write(folder.join(format!("first-{}-words.ftl", calculator.id)), words)?;
    }
    Ok(())
}

/// Every language: its code and own name, the decimal sign that its reader begins with, and how many
/// of all messages are in English still.
fn languages() -> Vec<Value> {
    let english = Words::own(Language::English);
    let all = english.messages().filter(|(_, _, text)| !text.is_empty()).count();
    Language::ALL
        .iter()
        .map(|language| {
            let missing = |gap: &Gap| matches!(gap, Gap::Missing(_));
            let missing = gaps(&english, &Words::own(*language)).into_iter().filter(missing).count();
            json!([language.code(), language.own_name(), language.first_decimal(), missing, all])
        })
        .collect()
}

/// Whether the answers of a calculator may say it.
fn is_said_by(calculator: &str, key: &str, attribute: &str) -> bool {
    let others = || REGISTER.iter().map(|other| other.id).filter(|id| *id != calculator);
    let is_other = others().any(|other| of(key, other) && !BORROWED.contains(&(calculator, other)));
    // By other words only the search finds it.
    let is_sought = attribute == "also" && key != calculator;
    let is_asked_later = key.contains(CURE) || REFERENCE.iter().chain(LONG).any(|part| of(key, part));
    !is_sought && !is_other && !is_asked_later && !of(key, "page")
}

/// Whether a key stands under another one.
fn of(key: &str, above: &str) -> bool {
    key.strip_prefix(above).is_some_and(|rest| rest.starts_with('-'))
}

/// The messages and attributes that are wanted, by key, in the syntax of the catalogue.
fn written(language: Language, wanted: impl Fn(&str, &str) -> bool) -> String {
    let some: BTreeMap<_, _> = Words::of(language)
        .messages()
        .filter(|(key, attribute, _)| wanted(key, attribute))
        .map(|(key, attribute, text)| ((key, attribute), text))
        .collect();
    let lines = some.into_iter().map(|((key, attribute), text)| {
        if attribute.is_empty() { format!("{key} = {text}\n") } else { format!("    .{attribute} = {text}\n") }
    });
    lines.chain([END.to_owned()]).collect()
}
