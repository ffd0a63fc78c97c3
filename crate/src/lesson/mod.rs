//! Lessons: what a step asks on a rig, the values that a seed deals, and what a response
//! is worth. The page, the packages for learning systems and the trainer's sheet share it.
//!
//! No key is kept in a file: the calculators compute it.

mod bench;
mod check;
mod deal;
mod file;
mod mark;
mod read;
mod references;
mod schema;
mod task;
mod told;

pub use check::{Doubt, StepCheck, check};
pub use deal::{Dealt, DealtStep, Side, Way, deal};
pub use file::{
    Best, Case, Lesson, LessonRig, LessonStep, Limit, Part, Range, STEPS_MOST, SeriesName, Source, TEXT_LONGEST,
    VERSION, Variant, WayGiven,
};
pub use mark::{
    Eye, EyeRow, Finding, Heard, Key, Marked, MarkedRow, Measured, Response, Seen, eye, mark, measure, x_of,
};
pub use read::{LessonFlaw, ReadLesson, read_lesson};
pub use schema::SCHEMA;
