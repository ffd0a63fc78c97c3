//! How an example ends.

use std::io::{self, ErrorKind, Write};
use std::process::ExitCode;

/// Prints what came out.
pub(crate) fn print(text: &str) -> io::Result<()> {
    writeln!(io::stdout(), "{text}")
}

/// Says what went wrong. Whoever reads the output may stop before its end, as `head` does.
pub(crate) fn end(result: io::Result<()>) -> ExitCode {
    match result {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => {
            eprintln!("{error}");
            ExitCode::FAILURE
        }
        _ => ExitCode::SUCCESS,
    }
}
