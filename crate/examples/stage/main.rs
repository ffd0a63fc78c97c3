//! Reads the file of a show on standard input and prints its rows, totals and proposal
//! as JSON, exactly as the page gets them. `--schema` prints what such a file may hold.
//!
//! `--ground` reads a ground map and prints its potentials, currents, hum, loops and
//! both isolations, of which the second tries so many sets at most (1000, unless stated):
//!
//! ```sh
//! cargo run --release --example stage < crate/examples/show.json
//! cargo run --example stage -- --schema
//! cargo run --example stage -- --ground 100000 < map.json
//! ```

mod ground;

use serde_json::json;
use stageohm::settings::Settings;
use stageohm::stage::{Raw, Rows, SCHEMA, propose, read_file, solve};
use std::io::{self, Read};
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments: Vec<_> = std::env::args().skip(1).collect();
    let result = match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        [] => stage(),
        ["--schema"] => Ok(SCHEMA.to_owned()),
        ["--ground"] => ground::ground(1000),
        ["--ground", sets] => sets.parse().map_err(io::Error::other).and_then(ground::ground),
        _ => Err(io::Error::other("only --schema is known, or --ground with a number of sets or without, or nothing")),
    };
    match result {
        Ok(text) => {
            println!("{text}");
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
    }
}

fn stage() -> io::Result<String> {
    let mut text = String::new();
    io::stdin().read_to_string(&mut text)?;
    let file: Raw = serde_json::from_str(&text)?;
    let settings = Settings::default();
    let read = read_file(&file, &settings);
    let Some(show) = &read.show else {
        return Err(io::Error::other(read.flaws.first().map_or("", |flaw| &flaw.text)));
    };
    let answer = json!({
        "flaws": read.flaws,
        "solved": solve(show, &mut Rows::default()),
        "proposal": propose(show),
    });
    Ok(serde_json::to_string_pretty(&answer)?)
}
