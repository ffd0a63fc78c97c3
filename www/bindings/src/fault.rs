//! What the page asks of a fault.

use super::{give, take, whole};
use stageohm::diagnosis::find_fault;
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};

/// Where the fault of a line lies, as far as its answers say.
///
/// # Errors
/// Where `question` is not of the shape of the contract.
#[wasm_bindgen]
pub fn fault_find(question: JsValue) -> Result<JsValue, JsError> {
    whole()?;
    give(&find_fault(&take(question)?))
}
