//! What a file has against a JSON Schema (draft 2020-12), of the keywords that ours use;
//! one that is not known here ends the test.

use serde_json::Value;

/// What a file has against a schema: nothing where it is valid.
pub fn against(schema: &str, file: &Value) -> Vec<String> {
    let schema: Value = serde_json::from_str(schema).unwrap();
    let mut found = Vec::new();
    look(&schema, file, &schema, &mut found);
    found
}

fn look(schema: &Value, part: &Value, root: &Value, found: &mut Vec<String>) {
    let properties = schema.get("properties");
    for (keyword, wanted) in schema.as_object().unwrap() {
        let inner: Vec<(&Value, &Value)> = match keyword.as_str() {
            "$ref" => {
                let name = wanted.as_str().unwrap().strip_prefix("#/$defs/").unwrap();
                vec![(&root["$defs"][name], part)]
            }
            "items" => part.as_array().into_iter().flatten().map(|item| (wanted, item)).collect(),
            "properties" => {
                let parts = part.as_object().into_iter().flatten();
                parts.filter_map(|(name, part)| Some((wanted.get(name)?, part))).collect()
            }
            "additionalProperties" => {
                let known = |name: &String| properties.is_some_and(|known| known.get(name).is_some());
                let others = part.as_object().into_iter().flatten().filter(|(name, _)| !known(name));
                others.map(|(_, part)| (wanted, part)).collect()
            }
            "allOf" => wanted.as_array().unwrap().iter().map(|schema| (schema, part)).collect(),
            "if" if is_valid(wanted, part, root) => vec![(&schema["then"], part)],
            "if" | "then" => vec![],
            "anyOf" if wanted.as_array().unwrap().iter().any(|schema| is_valid(schema, part, root)) => vec![],
            _ if keyword != "anyOf" && is_kept(keyword, wanted, part) => vec![],
            _ => {
                found.push(format!("{keyword}: {part}"));
                vec![]
            }
        };
        for (schema, part) in inner {
            if schema == &Value::Bool(false) {
                found.push(format!("{keyword}: {part}"));
            } else {
                look(schema, part, root, found);
            }
        }
    }
}

fn is_valid(schema: &Value, part: &Value, root: &Value) -> bool {
    let mut found = Vec::new();
    look(schema, part, root, &mut found);
    found.is_empty()
}

/// Whether a part keeps a keyword that looks no deeper.
fn is_kept(keyword: &str, wanted: &Value, part: &Value) -> bool {
    let length = part.as_str().map(|text| text.chars().count() as u64);
    let count = part.as_array().map(|items| items.len() as u64);
    match keyword {
        "$schema" | "$defs" | "title" | "description" => true,
        "type" => {
            wanted.as_array().map_or_else(|| is_a(wanted, part), |kinds| kinds.iter().any(|kind| is_a(kind, part)))
        }
        "const" => part == wanted || wanted.is_number() && part.as_f64() == wanted.as_f64(),
        "enum" => wanted.as_array().unwrap().contains(part),
        "minLength" => length.is_none_or(|length| length >= wanted.as_u64().unwrap()),
        "maxLength" => length.is_none_or(|length| length <= wanted.as_u64().unwrap()),
        "minimum" => part.as_f64().is_none_or(|value| value >= wanted.as_f64().unwrap()),
        "maximum" => part.as_f64().is_none_or(|value| value <= wanted.as_f64().unwrap()),
        "minItems" => count.is_none_or(|count| count >= wanted.as_u64().unwrap()),
        "maxItems" => count.is_none_or(|count| count <= wanted.as_u64().unwrap()),
        "required" => {
            let has = |name: &Value| part.get(name.as_str().unwrap()).is_some();
            !part.is_object() || wanted.as_array().unwrap().iter().all(has)
        }
        "propertyNames" => {
            assert_eq!(wanted["pattern"], "^[a-z][a-z0-9_]*$");
            let is_name = |name: &String| {
                name.starts_with(|c: char| c.is_ascii_lowercase())
                    && name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_')
            };
            part.as_object().is_none_or(|parts| parts.keys().all(is_name))
        }
        other => panic!("{other}"),
    }
}

fn is_a(kind: &Value, part: &Value) -> bool {
    match kind.as_str().unwrap() {
        "string" => part.is_string(),
        "object" => part.is_object(),
        "array" => part.is_array(),
        "boolean" => part.is_boolean(),
        "null" => part.is_null(),
        "number" => part.is_number(),
        "integer" => part.as_f64().is_some_and(|value| value.fract() == 0.0),
        other => panic!("{other}"),
    }
}
