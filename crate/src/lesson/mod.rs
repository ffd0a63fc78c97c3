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

pub use check::{Doubt, StepCheck, check};
pub use deal::{Dealt, DealtStep, Way, deal};
pub use file::{
    Best, Case, Lesson, LessonRig, LessonStep, Limit, Part, Range, STEPS_MOST, SeriesName, TEXT_LONGEST, VERSION,
    Variant, WayGiven,
};
pub use mark::{Finding, Key, Marked, MarkedRow, Measured, Response, mark, measure};
pub use read::{LessonFlaw, ReadLesson, read_lesson};
pub use schema::SCHEMA;
