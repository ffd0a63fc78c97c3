//! What the page asks of a lesson.

use super::{give, take, whole};
use stageohm::lesson::{self, Lesson};
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};

/// Reads the file of a lesson.
///
/// # Errors
/// Where `settings` is not of the shape of the contract, or `file` none that JSON has.
#[wasm_bindgen]
pub fn lesson_read(file: JsValue, settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&lesson::read_lesson(&take(file)?, &take(settings)?))
}

/// A lesson in the language of its reader, where its file has that.
///
/// # Errors
/// Where `lesson` is not of the shape of the contract.
#[wasm_bindgen]
pub fn lesson_told(lesson: JsValue, language: &str) -> Result<JsValue, JsError> {
    whole()?;
    give(&take::<Lesson>(lesson)?.told(language))
}

/// What a seed deals.
///
/// # Errors
/// Where `lesson` is not of the shape of the contract.
#[wasm_bindgen]
pub fn lesson_deal(lesson: JsValue, seed: u32) -> Result<JsValue, JsError> {
    whole()?;
    give(&lesson::deal(&take(lesson)?, seed))
}

/// What a response to a step is worth; nothing where the step asks nothing.
///
/// # Errors
/// Where an argument is not of the shape of the contract.
#[wasm_bindgen]
pub fn lesson_mark(
    lesson: JsValue,
    seed: u32,
    step: usize,
    response: JsValue,
    settings: JsValue,
) -> Result<JsValue, JsError> {
    whole()?;
    let lesson: Lesson = take(lesson)?;
    give(&lesson::mark(&lesson, &lesson::deal(&lesson, seed), step, &take(response)?, &take(settings)?))
}

/// What a measurement of a step reads.
///
/// # Errors
/// Where an argument is not of the shape of the contract.
#[wasm_bindgen]
pub fn lesson_measure(
    lesson: JsValue,
    seed: u32,
    step: usize,
    reading: &str,
    settings: JsValue,
) -> Result<JsValue, JsError> {
    whole()?;
    let lesson: Lesson = take(lesson)?;
    give(&lesson::measure(&lesson, &lesson::deal(&lesson, seed), step, reading, &take(settings)?))
}

/// Which of its two rigs the X of a step by ear is in a trial, from 0 on.
///
/// # Errors
/// Where `lesson` is not of the shape of the contract.
#[wasm_bindgen]
pub fn lesson_x(lesson: JsValue, seed: u32, step: usize, trial: usize) -> Result<JsValue, JsError> {
    whole()?;
    give(&lesson::x_of(&lesson::deal(&take(lesson)?, seed), step, trial))
}

/// What the two rigs of a step by ear look like, without their names.
///
/// # Errors
/// Where an argument is not of the shape of the contract.
#[wasm_bindgen]
pub fn lesson_eye(lesson: JsValue, seed: u32, step: usize, settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    let lesson: Lesson = take(lesson)?;
    give(&lesson::eye(&lesson, &lesson::deal(&lesson, seed), step, &take(settings)?))
}

/// What is right for each step, and what is doubtful about it: for the trainer.
///
/// # Errors
/// Where an argument is not of the shape of the contract.
#[wasm_bindgen]
pub fn lesson_check(lesson: JsValue, seed: u32, settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    let lesson: Lesson = take(lesson)?;
    give(&lesson::check(&lesson, &lesson::deal(&lesson, seed), &take(settings)?))
}
