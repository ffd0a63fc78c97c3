//! Reads a lesson, a seed and the responses to its steps on standard input and prints what
//! is dealt, what is right, and what each response is worth, as JSON, exactly as the page
//! and the packages for learning systems get it. `--schema` prints what the file of a
//! lesson may hold.
//!
//! ```sh
//! cargo run --example lesson -- --schema
//! jq '{ lesson: ., seed: 7, responses: [null, { text: "1 dB" }] }' crate/lessons/passive-bass.json |
//!   cargo run --example lesson
//! ```

#[path = "../common/mod.rs"]
mod common;

use common::{end, print};
use serde::Deserialize;
use serde_json::json;
use stageohm::lesson::{Response, SCHEMA, check, deal, mark, read_lesson};
use stageohm::settings::Settings;
use stageohm::stage::Raw;
use std::io::{self, Read};
use std::process::ExitCode;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Asked {
    lesson: Raw,
    #[serde(default)]
    seed: u32,
    /// By step; nothing where there is none.
    #[serde(default)]
    responses: Vec<Option<Response>>,
    #[serde(default)]
    settings: Settings,
}

fn main() -> ExitCode {
    let arguments: Vec<_> = std::env::args().skip(1).collect();
    let result = match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        [] => lesson(),
        ["--schema"] => Ok(SCHEMA.to_owned()),
        _ => Err(io::Error::other("only --schema is known, or nothing")),
    };
    end(result.and_then(|text| print(&text)))
}

fn lesson() -> io::Result<String> {
    let mut text = String::new();
    io::stdin().read_to_string(&mut text)?;
    let Asked { lesson, seed, responses, settings } = serde_json::from_str(&text)?;
    let read = read_lesson(&lesson, &settings);
    let Some(lesson) = read.lesson else {
        let why: Vec<_> = read.flaws.into_iter().map(|flaw| flaw.text).collect();
        return Err(io::Error::other(why.join("\n")));
    };
    let dealt = deal(&lesson, seed);
    let marked = responses
        .iter()
        .enumerate()
        .map(|(at, response)| response.as_ref().and_then(|response| mark(&lesson, &dealt, at, response, &settings)));
    let answer = json!({
        "flaws": read.flaws,
        "dealt": dealt,
        "steps": check(&lesson, &dealt, &settings),
        "marked": marked.collect::<Vec<_>>(),
    });
    Ok(serde_json::to_string_pretty(&answer)?)
}
