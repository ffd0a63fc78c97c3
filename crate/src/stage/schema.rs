//! The file of a show, described for programs.

/// The JSON Schema (draft 2020-12) of the file of a show.
pub const SCHEMA: &str = include_str!("show.schema.json");
