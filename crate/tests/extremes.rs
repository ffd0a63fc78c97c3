//! Values at the ends of what is accepted, all at once: whatever comes of them
//! can be drawn.
#![allow(clippy::unwrap_used)]

mod common;

use common::ask;
use serde_json::{Map, Value, json};
use stageohm::answer::describe;
use stageohm::ask::{Description, NumberDescription};
use stageohm::settings::Settings;

/// Less than any part that was ever made, and more than nothing.
const TINY: f64 = 1e-300;

/// What a field is given, if anything.
type End = fn(&NumberDescription) -> Option<f64>;

const ENDS: [End; 4] = [
    |number| (!number.optional && (number.least..=number.most).contains(&TINY)).then_some(TINY),
    |number| Some(TINY.clamp(number.least, number.most)),
    |number| Some(number.least),
    |number| Some(number.most),
];

/// Each number field at its end, under each choice in turn.
fn questions(calculator: &Description, end: End) -> Vec<Map<String, Value>> {
    let mut numbers = Map::new();
    let mut choices = vec![None];
    for field in &calculator.fields {
        if let Some(value) = field.number.as_ref().and_then(end) {
            numbers.insert(field.id.to_owned(), json!(value));
        }
        if let Some(choice) = &field.choice {
            choices.extend(choice.options.iter().map(|option| Some((field.id.to_owned(), json!(option.id)))));
        }
    }
    choices.into_iter().map(|choice| numbers.clone().into_iter().chain(choice).collect()).collect()
}

#[test]
fn every_axis_is_finite() {
    for calculator in describe(&Settings::default()) {
        let here = calculator.id;
        for values in ENDS.into_iter().flat_map(|end| questions(&calculator, end)) {
            let answer = ask(json!({ "calculator": here, "values": values, "working": false }));
            for plot in answer.report.iter().flat_map(|report| &report.plots) {
                for axis in [&plot.x, &plot.y] {
                    let fine = axis.from.is_finite() && axis.to.is_finite() && axis.from < axis.to;
                    assert!(fine, "{here}, {}: {} to {}, {values:?}", plot.id, axis.from, axis.to);
                }
                let markers = plot.markers.iter().flat_map(|marker| [marker.x, marker.y]);
                let spots: Vec<_> = markers.chain(plot.stops.iter().copied()).collect();
                assert!(spots.iter().all(|spot| spot.is_finite()), "{here}, {}: {spots:?}, {values:?}", plot.id);
            }
        }
    }
}
