//! Answers a question on standard input, as JSON: the same contract that the
//! page uses.
//!
//! ```sh
//! echo '{"calculator": "source-load", "values": {"load_r": "10k"}}' | cargo run --example solve
//! cargo run --example solve -- --list
//! ```

use stageohm::answer::{Question, answer, describe};
use stageohm::settings::Settings;
use std::io::{Read as _, Write as _};
use std::process::ExitCode;

fn main() -> ExitCode {
    let output = if std::env::args().nth(1).as_deref() == Some("--list") {
        serde_json::to_string_pretty(&describe(&Settings::default()))
    } else {
        let mut text = String::new();
        if let Err(error) = std::io::stdin().read_to_string(&mut text) {
            eprintln!("standard input cannot be read: {error}");
            return ExitCode::FAILURE;
        }
        match serde_json::from_str::<Question>(&text) {
            Ok(question) => serde_json::to_string_pretty(&answer(&question)),
            Err(error) => {
                eprintln!("the question is not understood: {error}");
                eprintln!(r#"write it as {{"calculator": "source-load", "values": {{"load_r": "10k"}}}}"#);
                return ExitCode::FAILURE;
            }
        }
    };
    match output {
        Ok(json) if writeln!(std::io::stdout(), "{json}").is_ok() => ExitCode::SUCCESS,
        _ => ExitCode::FAILURE,
    }
}
