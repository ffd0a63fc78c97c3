//! The contract of a calculator, the register of all of them, and each in a
//! file of its own.
//!
//! A calculator is data: its fields, and a function from their values to a
//! [`Report`]. The page, the share link, the embed, the print and the docs all
//! follow from that. To add one: write its file, name it here and in the register
//! below, and put its words into the catalogue.
//!
//! ```
//! use stageohm::calculator::{Calculator, Depth, Values};
//! use stageohm::named::Named;
//! use stageohm::settings::Settings;
//!
//! let calculator = Calculator::find("source-load").unwrap();
//! let (values, _) = Values::read(calculator, &Named::default(), &Settings::default());
//! // 150 Ω into 10 kΩ.
//! let solution = calculator.solution(&values, Depth::Readings).unwrap();
//! let loss = solution.reading("loss").unwrap().value.unwrap();
//! assert!((loss - 0.129).abs() < 0.001);
//! ```

mod backwards;
mod description;
mod entry;
mod filling;
mod frequency;
mod reader;
mod report;
mod sheet;
mod tolerance;
mod walk;
mod wording;

mod balance;
pub(crate) mod box_or_straight;
mod ground_loop;
pub(crate) mod lead_length;
mod level_chain;
pub(crate) mod levels;
mod noise_floor;
pub(crate) mod pad;
mod phantom;
mod pickup;
mod source_load;
mod transformer;
mod whole_line;

pub use crate::fault::Fault;
pub use crate::field::{Field, Kind, Values};
pub use crate::working::{Step, Working};
pub use backwards::{Found, Outcome, solve_backwards};
pub use description::{
    ChoiceDescription, Description, FieldDescription, MarkDescription, NumberDescription, OptionDescription,
    PresetDescription,
};
pub use entry::Entry;
pub(crate) use reader::Reader;
pub use reader::{Echo, Problem};
pub use report::{Axis, Band, Candidate, Link, Marker, Plot, Reading, Reason, Report, Solution, Tone, Trace, Verdict};
pub use sheet::{Depth, Sheet};
pub use tolerance::{
    PlotSpread, ReadingSpread, Spread, SpreadKind, SpreadStep, Tolerances, TraceSpread, Varied, solve_tolerances,
};

use crate::settings::Settings;
use tolerance::Made;

/// A calculator.
///
/// Its title and purpose are the messages `<id>` and `<id>.purpose`.
#[derive(Debug)]
pub struct Calculator {
    /// Identifier, part of every share link.
    pub id: &'static str,
    /// What it asks for.
    pub fields: &'static [Field],
    /// Fillings to start from, of our own invented scenario.
    pub presets: &'static [Preset],
    /// From values to the answer.
    pub solve: fn(&Values, &mut Sheet) -> Result<(), Fault>,
}

/// A filling to start from. Its name is the message `<calculator>-preset-<id>`.
#[derive(Debug)]
pub struct Preset {
    /// Identifier.
    pub id: &'static str,
    /// Fields that differ from their defaults, as text.
    pub values: &'static [(&'static str, &'static str)],
    /// Up to three more fillings to hold beside it.
    pub held: &'static [&'static [(&'static str, &'static str)]],
}

impl Calculator {
    /// The calculator with this identifier.
    pub fn find(id: &str) -> Option<&'static Self> {
        REGISTER.iter().copied().find(|calculator| calculator.id == id)
    }

    /// The field with this identifier.
    pub fn field(&self, id: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.id == id)
    }

    /// The solution of checked values, before anyone puts it into words.
    ///
    /// # Errors
    /// A [`Fault`] where the values contradict each other.
    pub fn solution(&self, values: &Values, depth: Depth) -> Result<Solution, Fault> {
        self.solution_of(values, depth, &mut Vec::new())
    }

    /// The same in a reader's words.
    ///
    /// # Errors
    /// As [`Calculator::solution`].
    pub fn report(&self, values: &Values, settings: &Settings, depth: Depth) -> Result<Report, Fault> {
        self.solution(values, depth).map(|solution| solution.worded(settings))
    }

    /// The same for parts that it designs and that are off by known factors;
    /// adds those that it designs without one.
    fn solution_of(&self, values: &Values, depth: Depth, made: &mut Vec<Made>) -> Result<Solution, Fault> {
        let mut sheet = Sheet::new(self.id, depth);
        sheet.made.append(made);
        let solved = (self.solve)(values, &mut sheet);
        made.append(&mut sheet.made);
        solved.map(|()| sheet.finish())
    }
}

/// Every calculator, in the order of the page.
pub static REGISTER: &[&Calculator] = &[
    &box_or_straight::CALCULATOR,
    &whole_line::CALCULATOR,
    &source_load::CALCULATOR,
    &pickup::CALCULATOR,
    &lead_length::CALCULATOR,
    &transformer::CALCULATOR,
    &pad::CALCULATOR,
    &levels::CALCULATOR,
    &level_chain::CALCULATOR,
    &noise_floor::CALCULATOR,
    &balance::CALCULATOR,
    &ground_loop::CALCULATOR,
    &phantom::CALCULATOR,
];
