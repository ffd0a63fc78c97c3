//! The bindings as JavaScript meets them: plain objects in, plain objects out.

#![allow(clippy::unwrap_used)]

use super::{answer, describe, look_up, translate};
use wasm_bindgen::JsValue;
use wasm_bindgen_test::wasm_bindgen_test;

const SETTINGS: &str = r#"{"language":"en","decimal":"point","length":"metre","mains":"50"}"#;

#[wasm_bindgen_test]
fn every_description_is_a_plain_object() {
    let descriptions = written(&describe(read(SETTINGS)).unwrap());
    assert!(descriptions.starts_with(r#"[{"id":""#), "{descriptions}");
}

#[wasm_bindgen_test]
fn every_entry_is_a_plain_object() {
    let entries = written(&look_up(read(SETTINGS)).unwrap());
    assert!(entries.starts_with(r#"[{"id":""#), "{entries}");
}

#[wasm_bindgen_test]
fn a_question_is_answered() {
    let question = format!(
        r#"{{"calculator":"source-load","values":{{}},"settings":{SETTINGS},"working":false,"backwards":null}}"#
    );
    let answer = written(&answer(read(&question)).unwrap());
    assert!(answer.contains(r#""problems":[]"#), "{answer}");
}

#[wasm_bindgen_test]
fn a_question_is_translated() {
    let backwards = r#"{"reading":"longest_loss","value":"20","field":"limit"}"#;
    let question = format!(
        r#"{{"calculator":"lead-length","values":{{"lead_length":"5 m"}},"settings":{SETTINGS},"backwards":{backwards}}}"#
    );
    let feet = read(&SETTINGS.replace("metre", "foot"));
    let translation = written(&translate(read(&question), feet).unwrap());
    assert_eq!(translation, r#"{"values":{},"wanted":"65.6168 ft"}"#);
}

#[wasm_bindgen_test]
fn a_question_of_another_shape_is_an_error() {
    assert!(answer(read("{}")).is_err());
    assert!(answer(JsValue::UNDEFINED).is_err());
}

fn read(json: &str) -> JsValue {
    js_sys::JSON::parse(json).unwrap()
}

fn written(value: &JsValue) -> String {
    js_sys::JSON::stringify(value).unwrap().into()
}
