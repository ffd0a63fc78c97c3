//! Writes the words of the page into a folder: `page.json` has those of the page
//! itself and the name of every calculator, `stage.json` those of the stage, `fault.json` those of the finder of faults, `lesson.json` those of lessons,
//! `whole.ftl` those of every answer, and `<calculator>.ftl` those that the answers of one calculator take.
//!
//! ```sh
//! cargo run --example words -- www/generated/words
//! ```

use serde_json::{Map, json};
use stageohm::answer::{describe, page_words};
use stageohm::calculator::REGISTER;
use stageohm::settings::Settings;
use stageohm::words::Words;
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
const PIECES: &[&str] = &["stage", "fault", "lesson"];

/// The last line, so that a file that was cut short can be told.
const END: &str = "# end\n";

fn main() -> io::Result<()> {
    let folder = std::env::args().nth(1).ok_or_else(|| io::Error::other("which folder?"))?;
    let folder = Path::new(&folder);
    std::fs::create_dir_all(folder)?;
    let settings = Settings::default();
    let calculators: Vec<_> = describe(&settings)
        .into_iter()
        .map(|one| json!({ "id": one.id, "title": one.title, "purpose": one.purpose }))
        .collect();
    let said = page_words(&settings);
    let words = |wanted: &dyn Fn(&str) -> bool| -> Map<_, _> {
        said.iter().filter(|(key, _)| wanted(key)).map(|(key, text)| (key.to_owned(), json!(text))).collect()
    };
    let page = json!({ "words": words(&|key| !PIECES.iter().any(|piece| of(key, piece))), "calculators": calculators });
    std::fs::write(folder.join("page.json"), page.to_string())?;
    for piece in PIECES {
        let said = json!({ "words": words(&|key| of(key, piece)) });
        std::fs::write(folder.join(format!("{piece}.json")), said.to_string())?;
    }
    std::fs::write(folder.join("whole.ftl"), written(|key, _| !of(key, "page")))?;
    for calculator in REGISTER {
        let words = written(|key, attribute| is_said_by(calculator.id, key, attribute));
        std::fs::write(folder.join(format!("{}.ftl", calculator.id)), words)?;
    }
    Ok(())
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
fn written(wanted: impl Fn(&str, &str) -> bool) -> String {
    let language = Settings::default().language;
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
