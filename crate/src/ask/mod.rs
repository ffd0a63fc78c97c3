//! What can be asked of any calculator, and how it is read: the texts of its
//! fields, what would have to be put in for a wanted answer, what tolerances do,
//! and the same question for a reader with other settings.
//!
//! ```
//! use stageohm::ask::{Question, translate};
//! use stageohm::settings::{Length, Settings};
//!
//! let question = r#"{ "calculator": "pickup", "values": { "lead_length": "6" } }"#;
//! let question: Question = serde_json::from_str(question).unwrap();
//! let feet = Settings { length: Length::Foot, ..Settings::default() };
//! assert_eq!(translate(&question, &feet).values.get("lead_length").unwrap(), "19.685 ft");
//! ```

mod backwards;
mod constants;
mod cure;
mod description;
mod entry;
mod question;
mod reader;
mod tolerance;
mod translation;
mod wanted;

pub(crate) use backwards::Scale;
pub use backwards::{Outcome, Solved, solve_backwards};
pub use constants::{Constants, DrawCount, Prefix, PrintedUnit};
pub use cure::Cure;
pub(crate) use cure::cures;
pub use description::{
    ChoiceDescription, Description, FieldDescription, MarkDescription, NumberDescription, OptionDescription,
    PresetDescription,
};
pub use entry::Entry;
pub use question::{Question, Wanted};
pub(crate) use reader::Reader;
pub use reader::{Echo, Problem};
pub use tolerance::{
    PlotSpread, ReadingSpread, Spread, SpreadKind, SpreadStep, Tolerances, TraceSpread, Varied, solve_tolerances,
};
pub use translation::{Translation, translate, translate_for};
pub use wanted::{Backwards, FoundText};
pub(crate) use wanted::{backwards, read_wanted};
