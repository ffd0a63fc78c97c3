//! What the page asks of a stage.

use super::{give, take, whole};
use stageohm::stage::map::{ground_map, map_backwards, map_working};
use stageohm::stage::{self, Rows};
use std::cell::RefCell;
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};

thread_local! {
    /// The rows that were solved last: an edit solves its own.
    static ROWS: RefCell<Rows> = RefCell::default();
}

/// Reads the file of a show.
///
/// # Errors
/// Where `settings` is not of the shape of the contract, or `file` none that JSON has.
#[wasm_bindgen]
pub fn stage_read(file: JsValue, settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&stage::read_file(&take(file)?, &take(settings)?))
}

/// What in a show points to nothing, or to itself, or cannot be read.
///
/// # Errors
/// Where an argument is not of the shape of the contract.
#[wasm_bindgen]
pub fn stage_check(show: JsValue, settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&stage::check(&take(show)?, &take(settings)?))
}

/// The rows and totals of a show.
///
/// # Errors
/// Where `show` is not of the shape of the contract.
#[wasm_bindgen]
pub fn stage_solve(show: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    let show = take(show)?;
    ROWS.with_borrow_mut(|rows| give(&stage::solve(&show, rows)))
}

/// A box and a pad for every line.
///
/// # Errors
/// Where `show` is not of the shape of the contract.
#[wasm_bindgen]
pub fn stage_propose(show: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&stage::propose(&take(show)?))
}

/// What would mend the limits that a line misses.
///
/// # Errors
/// Where an argument is not of the shape of the contract.
#[wasm_bindgen]
pub fn stage_cures(show: JsValue, line: &str, settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&stage::cures(&take(show)?, line, &take(settings)?))
}

/// The texts for the whole-line calculator that a line stands for.
///
/// # Errors
/// Where `show` is not of the shape of the contract.
#[wasm_bindgen]
pub fn stage_texts(show: JsValue, line: &str) -> Result<JsValue, JsError> {
    whole()?;
    give(&stage::texts(&take(show)?, line))
}

/// Reads a table of the input list.
///
/// # Errors
/// Where an argument is not of the shape of the contract.
#[wasm_bindgen]
pub fn stage_read_lines(show: JsValue, text: &str, dialect: JsValue, settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&stage::read_lines(&take(show)?, text, &take(dialect)?, &take(settings)?))
}

/// The text of a file of a table, and what is wrong with it.
///
/// # Errors
/// Where `settings` is not of the shape of the contract.
#[wasm_bindgen]
pub fn stage_decode(bytes: &[u8], settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&stage::decode(bytes, &take(settings)?))
}

/// The input list as a table.
///
/// # Errors
/// Where an argument is not of the shape of the contract.
#[wasm_bindgen]
pub fn stage_write_lines(show: JsValue, dialect: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&stage::write_table(&take(show)?, &take(dialect)?))
}

/// The ground map of a show.
///
/// # Errors
/// Where an argument is not of the shape of the contract.
#[wasm_bindgen]
pub fn stage_map(show: JsValue, sets: usize, settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&ground_map(&take(show)?, sets, &take(settings)?))
}

/// How the hum at an input comes about.
///
/// # Errors
/// Where an argument is not of the shape of the contract.
#[wasm_bindgen]
pub fn stage_map_working(show: JsValue, line: &str, at: JsValue, settings: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&map_working(&take(show)?, line, take(at)?, &take(settings)?))
}

/// Which difference of each circuit would make an input just miss its limit.
///
/// # Errors
/// Where an argument is not of the shape of the contract.
#[wasm_bindgen]
pub fn stage_map_backwards(show: JsValue, line: &str, at: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&map_backwards(&take(show)?, line, take(at)?))
}
