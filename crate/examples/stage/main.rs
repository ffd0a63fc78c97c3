//! Reads the file of a show on standard input and prints its rows, totals, proposal and
//! ground map as JSON, exactly as the page gets them. `--schema` prints what such a file
//! may hold, `--map-graph` the graph of its ground map, as `--ground` reads it.
//!
//! `--ground` reads a ground map and prints its potentials, currents, hum, loops and
//! both isolations, of which the second tries so many sets at most (1000, unless stated):
//!
//! ```sh
//! cargo run --release --example stage < crate/examples/show.json
//! cargo run --example stage -- --schema
//! cargo run --example stage -- --map-graph < crate/examples/show.json > map.json
//! cargo run --example stage -- --ground 100000 < map.json
//! ```

#[path = "../common/mod.rs"]
mod common;
mod ground;

use common::{end, print};
use serde_json::json;
use stageohm::settings::Settings;
use stageohm::stage::map::{ground_map, map_graph};
use stageohm::stage::{Raw, ReadShow, Rows, SCHEMA, Show, propose, read_file, solve};
use std::io::{self, Read};
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments: Vec<_> = std::env::args().skip(1).collect();
    let result = match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        [] => stage(),
        ["--schema"] => Ok(SCHEMA.to_owned()),
        ["--map-graph"] => graph(),
        ["--ground"] => ground::ground(SETS),
        ["--ground", sets] => sets.parse().map_err(io::Error::other).and_then(ground::ground),
        _ => Err(io::Error::other(
            "only --schema and --map-graph are known, or --ground with a number of sets or without, or nothing",
        )),
    };
    end(result.and_then(|text| print(&text)))
}

/// So many sets of leads to isolate are tried at most, unless stated.
const SETS: usize = 1000;

/// The show on standard input.
fn read() -> io::Result<(ReadShow, Show)> {
    let mut text = String::new();
    io::stdin().read_to_string(&mut text)?;
    let file: Raw = serde_json::from_str(&text)?;
    let read = read_file(&file, &Settings::default());
    let show = read.show.clone();
    show.map(|show| (read.clone(), show))
        .ok_or_else(|| io::Error::other(read.flaws.first().map_or("", |flaw| &flaw.text)))
}

fn graph() -> io::Result<String> {
    let (_, show) = read()?;
    Ok(serde_json::to_string_pretty(&map_graph(&show))?)
}

fn stage() -> io::Result<String> {
    let (read, show) = read()?;
    let answer = json!({
        "flaws": read.flaws,
        "solved": solve(&show, &mut Rows::default()),
        "proposal": propose(&show),
        "map": ground_map(&show, SETS, &Settings::default()),
    });
    Ok(serde_json::to_string_pretty(&answer)?)
}
