//! Reads the file of a show on standard input and prints its rows, totals and proposal
//! as JSON, exactly as the page gets them.
//!
//! ```sh
//! cargo run --release --example stage < crate/examples/show.json
//! cargo run --example stage -- --schema
//! ```

use serde_json::json;
use stageohm::settings::Settings;
use stageohm::stage::{Raw, Rows, SCHEMA, propose, read_show, totals};
use std::io::{self, Read};
use std::process::ExitCode;

fn main() -> ExitCode {
    let result = match std::env::args().nth(1).as_deref() {
        None => stage(),
        Some("--schema") => Ok(SCHEMA.to_owned()),
        Some(other) => Err(io::Error::other(format!("{other}: only --schema is known, or nothing"))),
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
    let (show, flaws) = read_show(&file).map_err(|flaw| io::Error::other(flaw.text(&Settings::default())))?;
    let told: Vec<_> = flaws.iter().map(|flaw| flaw.text(&show.settings())).collect();
    let answer = json!({
        "flaws": told,
        "rows": Rows::default().solve(&show),
        "totals": totals(&show),
        "proposal": propose(&show),
    });
    Ok(serde_json::to_string_pretty(&answer)?)
}
