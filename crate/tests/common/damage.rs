//! Files that are damaged, and files that are none.

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use serde_json::Value;

/// Anything that JSON can say, with some texts and names that mean something.
pub fn anything(texts: &[&'static str], names: &[&'static str]) -> impl Strategy<Value = Value> + use<> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        any::<u64>().prop_map(Value::from),
        ".{0,12}".prop_map(Value::from),
        select(texts.to_vec()).prop_map(Value::from),
    ];
    let names = names.to_vec();
    leaf.prop_recursive(3, 24, 5, move |inner| {
        let name = prop_oneof![".{0,8}", select(names.clone()).prop_map(str::to_owned)];
        prop_oneof![
            vec(inner.clone(), 0..5).prop_map(Value::from),
            vec((name, inner), 0..5).prop_map(|parts| Value::Object(parts.into_iter().collect())),
        ]
    })
}

/// Puts a value at some place of a file, not at those that are spared.
pub fn put(file: &mut Value, place: &Index, value: Value, spared: &[&str]) {
    let mut all = Vec::new();
    places(file, "", &mut all);
    all.retain(|at| !at.is_empty() && !spared.contains(&at.as_str()));
    *file.pointer_mut(&all[place.index(all.len())]).unwrap() = value;
}

/// Every place of a file.
fn places(part: &Value, at: &str, found: &mut Vec<String>) {
    found.push(at.to_owned());
    match part {
        Value::Array(parts) => parts.iter().enumerate().for_each(|(i, part)| places(part, &format!("{at}/{i}"), found)),
        Value::Object(parts) => parts.iter().for_each(|(name, part)| places(part, &format!("{at}/{name}"), found)),
        _ => {}
    }
}
