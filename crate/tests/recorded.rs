//! The recordings that other builds of the engine are compared with are current.
#![allow(clippy::unwrap_used, missing_docs)]

#[path = "common/recorded.rs"]
mod recorded;

#[path = "common/drawn.rs"]
mod drawn;

#[test]
fn the_recording_is_current() {
    assert_eq!(recorded::differences(1e-13, 1e-9), Vec::<String>::new());
}

#[test]
fn the_recorded_draws_are_current() {
    assert_eq!(drawn::differences(1e-12), Vec::<String>::new());
}

#[test]
#[ignore = "writes the recordings anew"]
fn write_the_recordings() {
    write("recorded", &recorded::solve());
    write("drawn", &drawn::draw());
}

fn write(name: &str, value: &impl serde::Serialize) {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures");
    let text = serde_json::to_string_pretty(value).unwrap();
    std::fs::write(format!("{folder}/{name}.json"), text + "\n").unwrap();
}
