//! Lists where the file of a language is not like the English one: what is missing, what is
//! superfluous, and where other things are put in. It fails where there is any.
//!
//! ```sh
//! cargo run --example gaps -- es
//! ```

use stageohm::settings::Language;
use stageohm::words::{Gap, Words, gaps};
use std::path::Path;
use std::process::ExitCode;

fn main() -> ExitCode {
    let Some(code) = std::env::args().nth(1) else {
        eprintln!("which language? Give its code, such as es");
        return ExitCode::FAILURE;
    };
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/words").join(format!("{code}.ftl"));
    let file = match std::fs::read_to_string(&path) {
        Ok(file) => file,
        Err(error) => {
            eprintln!("{}: {error}", path.display());
            return ExitCode::FAILURE;
        }
    };
    let english = Words::own(Language::English);
    let found = gaps(&english, &Words::parse(file.leak()));
    for gap in &found {
        match gap {
            Gap::Missing(key) => println!("missing            {key}"),
            Gap::Superfluous(key) => println!("superfluous        {key}"),
            Gap::OtherPlaceholders(key, asked, given) => {
                println!("other placeholders {key}: {} in English, {} here", listed(asked), listed(given));
            }
        }
    }
    println!("{} of {} messages", found.len(), english.messages().filter(|(_, _, text)| !text.is_empty()).count());
    if found.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

fn listed(names: &[String]) -> String {
    if names.is_empty() { "none".to_owned() } else { names.join(", ") }
}
