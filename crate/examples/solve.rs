//! Answers questions on standard input, as JSON: the same contract that the page
//! uses. One question may go over several lines; of many, each stands on a line of
//! its own, and so does its answer, in the same order. A line that is no question
//! is answered with `{"error": …}`.
//!
//! ```sh
//! echo '{"calculator": "source-load", "values": {"load_r": "10k"}}' | cargo run --example solve
//! cargo run --release --example solve < questions.jsonl > answers.jsonl
//! cargo run --example solve -- --list
//! ```

mod common;

use common::{end, print};
use rayon::prelude::*;
use serde_json::json;
use stageohm::answer::{Question, answer, describe};
use stageohm::settings::Settings;
use std::io::{self, BufRead, BufWriter, Write};
use std::process::ExitCode;

/// So many lines are answered at a time: enough for every processor, and few
/// enough that the first answers come soon.
const AT_A_TIME: usize = 1024;

fn main() -> ExitCode {
    let result = match std::env::args().nth(1).as_deref() {
        None => solve(io::stdin().lock(), BufWriter::new(io::stdout().lock())),
        Some("--list") => list(),
        Some(other) => Err(io::Error::other(format!("{other}: only --list is known, or nothing"))),
    };
    end(result)
}

fn list() -> io::Result<()> {
    print(&serde_json::to_string_pretty(&describe(&Settings::default()))?)
}

fn solve(mut questions: impl BufRead, mut answers: impl Write) -> io::Result<()> {
    let mut first = String::new();
    questions.read_line(&mut first)?;
    if is_question(&first) && !questions.fill_buf()?.is_empty() {
        return solve_lines(&first, questions, answers);
    }
    // One question, perhaps over several lines; its answer is for a person to read.
    questions.read_to_string(&mut first)?;
    match serde_json::from_str::<Question>(&first) {
        Ok(question) => writeln!(answers, "{}", serde_json::to_string_pretty(&answer(&question))?),
        Err(_) if first.lines().any(is_question) => solve_lines(&first, io::empty(), answers),
        Err(error) => Err(io::Error::other(format!(
            "the question is not understood: {error}\nwrite it as {}",
            r#"{"calculator": "source-load", "values": {"load_r": "10k"}}"#
        ))),
    }
}

fn is_question(line: &str) -> bool {
    serde_json::from_str::<Question>(line).is_ok()
}

/// Answers these lines and those that follow, as many at once as there are processors.
fn solve_lines(first: &str, rest: impl BufRead, mut answers: impl Write) -> io::Result<()> {
    let first = first.lines().map(|line| Ok(line.to_owned())).collect::<Vec<_>>();
    let mut lines = first.into_iter().chain(rest.lines());
    loop {
        let some = lines.by_ref().take(AT_A_TIME).collect::<io::Result<Vec<_>>>()?;
        if some.is_empty() {
            return answers.flush();
        }
        for answered in some.par_iter().map(|line| answered(line)).collect::<Vec<_>>() {
            writeln!(answers, "{answered}")?;
        }
    }
}

/// The answer to a line, as a line.
fn answered(line: &str) -> String {
    let answer = serde_json::from_str::<Question>(line).and_then(|question| serde_json::to_string(&answer(&question)));
    answer.unwrap_or_else(|error| json!({ "error": error.to_string() }).to_string())
}
