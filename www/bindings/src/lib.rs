//! The only place of Stageohm that knows JavaScript: plain data in, plain data
//! out, in the shapes of [`stageohm::answer`].

use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_wasm_bindgen::Serializer;
use stageohm::calculator::Calculator;
use stageohm::settings::Language;
use stageohm::words::Words;
use stageohm::{answer, ask, seek};
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};

pub mod fault;
pub mod lesson;
pub mod listen;
pub mod stage;
#[cfg(all(test, target_arch = "wasm32"))]
mod tests;

/// A page has one thread and small needs: the standard allocator is larger and slower there.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static ALLOCATOR: talc::wasm::WasmDynamicTalc = talc::wasm::new_wasm_dynamic_allocator();

/// The one calculator of a small engine, which a first visit fetches before the
/// whole one: the build names it, and what is never asked of it is left out. The
/// whole engine has all of them.
const ONLY: Option<&Calculator> = match option_env!("STAGEOHM_CALCULATOR") {
    Some(id) => match Calculator::named(id) {
        Some(only) => Some(only),
        None => panic!("there is no calculator of this name"),
    },
    None => None,
};

/// Brings the words of a language, before all else is asked.
///
/// # Errors
/// Where `language` is not of the shape of the contract.
#[wasm_bindgen]
pub fn bring_words(language: JsValue, text: String) -> Result<bool, JsError> {
    Ok(Words::bring(take::<Language>(language)?, text))
}

/// The descriptions of all calculators, for settings.
///
/// # Errors
/// Where `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn describe(settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&answer::describe(&take(settings)?))
}

/// The description of one calculator, for settings; null where there is none of this identifier.
///
/// # Errors
/// Where `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn describe_one(calculator: &str, settings: JsValue) -> Result<JsValue, JsError> {
    let settings = take(settings)?;
    give(&match ONLY {
        Some(only) => (only.id == calculator).then(|| only.describe(&settings)),
        None => answer::describe_one(calculator, &settings),
    })
}

/// Everything that there is to look up, for settings.
///
/// # Errors
/// Where `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn look_up(settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&answer::look_up(&take(settings)?))
}

/// The answer to a question.
///
/// # Errors
/// Where `question` is not of the shape of the contract; everything else that
/// may be wrong with it is part of the answer.
#[wasm_bindgen]
pub fn answer(question: JsValue) -> Result<JsValue, JsError> {
    let question = take(question)?;
    give(&match ONLY {
        Some(only) => answer::answer_forwards(only, &question),
        None => answer::answer(&question),
    })
}

/// How to write a question for a reader with other settings.
///
/// # Errors
/// Where `question` or `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn translate(question: JsValue, settings: JsValue) -> Result<JsValue, JsError> {
    let (question, settings) = (take(question)?, take(settings)?);
    give(&match ONLY {
        Some(only) => ask::translate_for(only, &question, &settings),
        None => ask::translate(&question, &settings),
    })
}

/// What a question in the reader's own words puts into the calculators.
///
/// # Errors
/// Where `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn seek(text: &str, settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&seek::seek(text, &take(settings)?))
}

/// Nothing but the whole engine goes on.
fn whole() -> Result<(), JsError> {
    if ONLY.is_some() { Err(JsError::new("a small engine has one calculator")) } else { Ok(()) }
}

fn take<T: DeserializeOwned>(value: JsValue) -> Result<T, JsError> {
    serde_wasm_bindgen::from_value(value).map_err(|error| JsError::new(&error.to_string()))
}

fn give(value: &impl Serialize) -> Result<JsValue, JsError> {
    // Plain objects rather than Maps, and null rather than undefined, as in JSON.
    value.serialize(&Serializer::json_compatible()).map_err(|error| JsError::new(&error.to_string()))
}
