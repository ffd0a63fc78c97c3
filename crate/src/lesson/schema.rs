//! The file of a lesson, described for programs.

/// The JSON Schema (draft 2020-12) of the file of a lesson.
pub const SCHEMA: &str = include_str!("lesson.schema.json");
