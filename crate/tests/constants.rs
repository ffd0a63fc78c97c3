//! What the contract says once for all questions is what the core goes by in each.
#![allow(clippy::unwrap_used)]

mod common;

use common::ask;
use serde_json::json;
use stageohm::ask::Constants;
use stageohm::quantity::{Unit, write};
use stageohm::settings::{Length, Settings};

#[test]
fn every_unit_is_listed() {
    // The reader of JSON knows the names of all.
    let known = serde_json::from_str::<Unit>(r#""none of them""#).unwrap_err().to_string();
    let known: Vec<_> = known.split('`').skip(3).step_by(2).collect();
    let listed: Vec<_> = Unit::ALL.iter().map(|unit| serde_json::to_value(unit).unwrap()).collect();
    assert!(known.len() > 20 && listed == known, "{known:?} {listed:?}");
}

#[test]
fn numbers_are_written_as_the_constants_say() {
    let constants = Constants::all();
    for unit in Unit::ALL {
        for length in [Length::Metre, Length::Foot] {
            let settings = Settings { length, ..Settings::default() };
            let printed = constants.printed.iter().find(|printed| printed.unit == unit && printed.length == length);
            let (size, zero, symbol) =
                printed.map_or((1.0, 0.0, unit.symbol()), |printed| (printed.size, printed.zero, printed.symbol));
            let written = |number: f64| write(zero + size * number, unit, 4, &settings).replace('\u{a0}', "");
            let level = constants.levels.contains(&unit);
            let one = if level { "1.00" } else { "1" };
            assert_eq!(written(1.0), format!("{one}{symbol}"), "{unit:?}");
            let prefixed = !level && !constants.without_prefix.contains(&unit);
            let thousand = ["1000", "1000.00", "1k"][if prefixed { 2 } else { usize::from(level) }];
            assert_eq!(written(1e3), format!("{thousand}{symbol}"), "{unit:?}");
        }
    }
    // The prefixes of the SI in these steps (SI Brochure, table 7, from memory).
    let symbols: Vec<_> = constants.prefixes.iter().map(|prefix| prefix.symbol).collect();
    assert_eq!(symbols, ["f", "p", "n", "µ", "m", "k", "M", "G"]);
    for prefix in constants.prefixes {
        assert_eq!(write(prefix.size, Unit::Ohm, 4, &Settings::default()), format!("1\u{a0}{}Ω", prefix.symbol));
    }
}

#[test]
fn rigs_are_drawn_as_often_as_the_constants_say() {
    let constants = Constants::all();
    let drawn = |tolerances: serde_json::Value| {
        ask(json!({ "calculator": "source-load", "values": {}, "tolerances": tolerances })).tolerances.unwrap()
    };
    let usual = constants.draws.usual;
    assert_eq!(drawn(json!({})).message, drawn(json!({ "draws": usual })).message);
    assert!(drawn(json!({ "draws": constants.draws.least })).problem.is_none());
    // What many draws find takes its time; what one more is answered with does not.
    let named = drawn(json!({ "draws": constants.draws.most + 1 })).problem.unwrap().message;
    assert!(named.contains(&constants.draws.most.to_string()), "{named}");
    assert!(drawn(json!({ "draws": 100, "percent": { constants.all_parts: 5 } })).problem.is_none());
    assert!(drawn(json!({ "draws": 100, "percent": { "none of them": 5 } })).problem.is_some());
}
