//! The only place of Stageohm that knows JavaScript: plain data in, plain data
//! out, in the shapes of [`stageohm::answer`].

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_wasm_bindgen::Serializer;
use stageohm::{answer, ask, seek};
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};

#[cfg(all(test, target_arch = "wasm32"))]
mod tests;

/// A page has one thread and small needs: the standard allocator is larger and slower there.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static ALLOCATOR: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

/// The descriptions of all calculators, for settings.
///
/// # Errors
/// Where `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn describe(settings: JsValue) -> Result<JsValue, JsError> {
    give(&answer::describe(&take(settings)?))
}

/// The description of one calculator, for settings; null where there is none of this identifier.
///
/// # Errors
/// Where `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn describe_one(calculator: &str, settings: JsValue) -> Result<JsValue, JsError> {
    give(&answer::describe_one(calculator, &take(settings)?))
}

/// Everything that there is to look up, for settings.
///
/// # Errors
/// Where `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn look_up(settings: JsValue) -> Result<JsValue, JsError> {
    give(&answer::look_up(&take(settings)?))
}

/// The words of the page itself, by key.
///
/// # Errors
/// Where `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn words(settings: JsValue) -> Result<JsValue, JsError> {
    give(&answer::page_words(&take(settings)?))
}

/// The answer to a question.
///
/// # Errors
/// Where `question` is not of the shape of the contract; everything else that
/// may be wrong with it is part of the answer.
#[wasm_bindgen]
pub fn answer(question: JsValue) -> Result<JsValue, JsError> {
    give(&answer::answer(&take(question)?))
}

/// How to write a question for a reader with other settings.
///
/// # Errors
/// Where `question` or `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn translate(question: JsValue, settings: JsValue) -> Result<JsValue, JsError> {
    give(&ask::translate(&take(question)?, &take(settings)?))
}

/// What a question in the reader's own words puts into the calculators.
///
/// # Errors
/// Where `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn seek(text: &str, settings: JsValue) -> Result<JsValue, JsError> {
    give(&seek::seek(text, &take(settings)?))
}

fn take<T: DeserializeOwned>(value: JsValue) -> Result<T, JsError> {
    serde_wasm_bindgen::from_value(value).map_err(|error| JsError::new(&error.to_string()))
}

fn give(value: &impl Serialize) -> Result<JsValue, JsError> {
    // Plain objects rather than Maps, and null rather than undefined, as in JSON.
    value.serialize(&Serializer::json_compatible()).map_err(|error| JsError::new(&error.to_string()))
}
