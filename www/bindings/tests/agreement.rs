//! WebAssembly computes what the native engine computes: transfers to 1e-12,
//! frequencies of features to 1e-7, and the same draws of tolerances.

#![cfg(target_arch = "wasm32")]
#![allow(missing_docs, clippy::unwrap_used)]

use wasm_bindgen_test::wasm_bindgen_test;

#[path = "../../../crate/tests/common/recorded.rs"]
mod recorded;

#[path = "../../../crate/tests/common/drawn.rs"]
mod drawn;

#[wasm_bindgen_test]
fn the_same_transfers_and_features() {
    assert_eq!(recorded::differences(1e-12, 1e-7), Vec::<String>::new());
}

#[wasm_bindgen_test]
fn the_same_draws() {
    assert_eq!(drawn::differences(1e-9), Vec::<String>::new());
}
