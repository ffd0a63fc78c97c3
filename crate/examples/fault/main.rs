//! Reads a line with a fault, and the answers so far, on standard input and prints the
//! odds, the next test and why as JSON, exactly as the page gets them:
//!
//! ```sh
//! echo '{ "values": { "source": "output", "power": "earthed" }, "symptom": "hum", "scope": "one",
//!         "answers": [{ "step": "mute", "outcome": "gone" }] }' | cargo run --example fault
//! ```
//!
//! `--listen` prints what is heard in a recording, by line unless `air` stands behind it,
//! of one that is longer than two minutes the second to start from as well:
//!
//! ```sh
//! cargo run --release --example fault -- --listen hum.wav
//! cargo run --release --example fault -- --listen hum.wav air 95
//! ```

#[path = "../common/mod.rs"]
mod common;

use common::{end, print};
use stageohm::diagnosis::{FaultQuestion, find_fault};
use stageohm::listen::{LONGEST, Through, hear_file};
use std::io::{self, Read};
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments: Vec<_> = std::env::args().skip(1).collect();
    let result = match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        [] => find(),
        ["--listen", file] => listen(file, "line", None),
        ["--listen", file, through] => listen(file, through, None),
        ["--listen", file, through, from] => second(from).and_then(|from| listen(file, through, Some(from))),
        _ => Err(io::Error::other(
            "nothing is known but --listen with a file, line or air, and the second to start from",
        )),
    };
    end(result.and_then(|text| print(&text)))
}

fn listen(file: &str, through: &str, from: Option<f64>) -> io::Result<String> {
    let through = Through::of(through).ok_or_else(|| io::Error::other("a sound comes by line or through the air"))?;
    let bytes = std::fs::read(file)?;
    let heard = hear_file(&bytes, from, through);
    if heard.heard.is_none() && heard.unreadable.is_none() {
        eprintln!("heard is null: of more than {LONGEST} s the second to start from has to be given");
    }
    Ok(serde_json::to_string_pretty(&heard)?)
}

/// The second to start from.
fn second(text: &str) -> io::Result<f64> {
    let second = text.parse().ok().filter(|second: &f64| second.is_finite() && *second >= 0.0);
    second.ok_or_else(|| io::Error::other("the second to start from is a number from 0 on"))
}

fn find() -> io::Result<String> {
    let mut text = String::new();
    io::stdin().read_to_string(&mut text)?;
    let question: FaultQuestion = serde_json::from_str(&text)?;
    Ok(serde_json::to_string_pretty(&find_fault(&question))?)
}
