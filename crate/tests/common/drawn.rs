//! What tolerances make of a pickup, as the native engine once drew it, to
//! compare any build of the engine with.
#![allow(unreachable_pub)]

use serde::{Deserialize, Serialize};
use stageohm::answer::{Question, answer};

/// Written by `cargo test --package stageohm --test recorded -- --ignored`.
const RECORDED: &str = include_str!("../fixtures/drawn.json");

/// Lower, middle, upper, least and most of a reading.
#[derive(Serialize, Deserialize)]
pub struct Drawn {
    reading: String,
    values: [f64; 5],
}

/// Every reading as this build draws it.
pub fn draw() -> Vec<Drawn> {
    let question = serde_json::json!({
        "calculator": "pickup", "working": false, "tolerances": { "draws": 200, "seed": 7 },
    });
    let spread = answer(&serde_json::from_value::<Question>(question).unwrap()).tolerances.unwrap();
    let drawn = |reading: &stageohm::ask::ReadingSpread| {
        let values = [reading.low, reading.middle, reading.high, reading.least, reading.most];
        Drawn { reading: reading.id.to_owned(), values: values.map(Option::unwrap) }
    };
    spread.readings.iter().map(drawn).collect()
}

/// What differs from the recording by more than this, relative to the spread
/// of the reading.
pub fn differences(limit: f64) -> Vec<String> {
    let recorded: Vec<Drawn> = serde_json::from_str(RECORDED).unwrap();
    let drawn = draw();
    let mut differences = Vec::new();
    if recorded.len() != drawn.len() {
        differences.push(format!("{} readings are recorded and {} drawn", recorded.len(), drawn.len()));
    }
    for (recorded, drawn) in recorded.iter().zip(&drawn) {
        let [.., least, most] = recorded.values;
        let near = |(a, b): (&f64, &f64)| (a - b).abs() <= limit * (most - least).max(most.abs());
        if recorded.reading != drawn.reading || !recorded.values.iter().zip(&drawn.values).all(near) {
            differences.push(format!("{}: {:?} and {:?}", recorded.reading, recorded.values, drawn.values));
        }
    }
    differences
}
