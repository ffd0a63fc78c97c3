//! A whole stage.

pub mod ground;
