//! The recording that other builds of the engine are compared with is current.
#![allow(clippy::unwrap_used, missing_docs)]

#[path = "../../tests/recorded.rs"]
mod recorded;

#[test]
fn the_recording_is_current() {
    assert_eq!(recorded::differences(1e-13, 1e-9), Vec::<String>::new());
}

#[test]
#[ignore = "writes the recording anew"]
fn write_the_recording() {
    let text = serde_json::to_string_pretty(&recorded::solve()).unwrap();
    std::fs::write(concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/fixtures/recorded.json"), text + "\n").unwrap();
}
