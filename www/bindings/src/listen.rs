//! What the page asks of a sound.

use super::{give, take, whole};
use stageohm::listen::{Through, hear, hear_file, spectrum};
use wasm_bindgen::prelude::{JsError, JsValue, wasm_bindgen};

/// What is heard in samples, by `line` or through the `air`.
///
/// # Errors
/// Where `through` is neither.
#[wasm_bindgen]
pub fn listen_hear(samples: &[f32], rate: f64, through: &str) -> Result<JsValue, JsError> {
    whole()?;
    give(&hear(samples, rate, way(through)?))
}

/// What is heard in the file of a recording, from so many seconds on or, if it is short
/// enough, in all of it.
///
/// # Errors
/// Where `from` is neither a number nor null, or `through` not known.
#[wasm_bindgen]
pub fn listen_file(bytes: &[u8], from: JsValue, through: &str) -> Result<JsValue, JsError> {
    whole()?;
    give(&hear_file(bytes, take(from)?, way(through)?))
}

/// The spectrum of the last of some samples, to be drawn while they come in: frequencies and
/// levels by turns in one array, since it goes to the page ten times a second.
///
/// # Errors
/// Only with a small engine.
#[wasm_bindgen]
pub fn listen_spectrum(samples: &[f32], rate: f64) -> Result<Vec<f32>, JsError> {
    whole()?;
    Ok(spectrum(samples, rate).into_iter().flatten().map(|value| value as f32).collect())
}

fn way(through: &str) -> Result<Through, JsError> {
    Through::of(through).ok_or_else(|| JsError::new("a sound comes by line or through the air"))
}
