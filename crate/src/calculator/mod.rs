//! The contract of a calculator, the register of all of them, and each in a
//! file of its own.
//!
//! A calculator is data: its fields, and a function from their values to a
//! [`Report`]. The page, its links, the frame for lessons and the print all
//! follow from that. To add one: write its file, name it here and in the register
//! below, and put its words into the catalogue.
//!
//! ```
//! use stageohm::calculator::Calculator;
//! use stageohm::field::Values;
//! use stageohm::named::Named;
//! use stageohm::report::Depth;
//! use stageohm::settings::Settings;
//!
//! let calculator = Calculator::find("source-load").unwrap();
//! let (values, _) = Values::read(calculator, &Named::default(), &Settings::default());
//! // 150 Ω into 10 kΩ.
//! let solution = calculator.solution(&values, Depth::Readings).unwrap();
//! let loss = solution.reading("loss").unwrap().value.unwrap();
//! assert!((loss - 0.129).abs() < 0.001);
//! ```

pub(crate) mod balance;
pub(crate) mod box_or_straight;
mod diagram;
pub(crate) mod ground_loop;
pub(crate) mod lead_length;
pub(crate) mod level_chain;
pub(crate) mod levels;
pub(crate) mod noise_floor;
pub(crate) mod pad;
pub(crate) mod phantom;
pub(crate) mod pickup;
pub(crate) mod source_load;
pub(crate) mod transformer;
pub(crate) mod whole_line;

use crate::fault::Fault;
use crate::field::{Field, Filling, Requirement, Values, same};
use crate::report::{Depth, Made, Report, Sheet, Solution};
use crate::settings::Settings;

/// A calculator.
///
/// Its title and purpose are the messages `<id>` and `<id>.purpose`.
#[derive(Debug)]
pub struct Calculator {
    /// Identifier, part of every share link.
    pub id: &'static str,
    /// What it asks for.
    pub fields: &'static [Field],
    /// Identifiers of the few fields that make up the question, in their order: on a
    /// phone they and the answer are the first screen.
    pub first: &'static [&'static str],
    /// Fillings to start from, of our own invented scenario.
    pub presets: &'static [Preset],
    /// From values to the answer.
    pub solve: fn(&Values, &mut Sheet) -> Result<(), Fault>,
    /// What the answer has to keep.
    pub(crate) keeps: Keeps,
}

/// What the answer of a calculator has to keep.
#[derive(Debug)]
pub(crate) enum Keeps {
    /// Nothing that could be missed.
    Nothing,
    /// These.
    These(&'static [Requirement]),
    /// What the answer of another calculator has to keep, filled in by this one; no
    /// filling where nothing is to be mended.
    Those(&'static Calculator, fn(&Values) -> Result<Option<Filling>, Fault>),
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

    /// As [`Calculator::find`], for the compiler.
    pub const fn named(id: &str) -> Option<&'static Self> {
        let mut place = 0;
        while place < REGISTER.len() {
            if same(REGISTER[place].id, id) {
                return Some(REGISTER[place]);
            }
            place += 1;
        }
        None
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

    /// The solution of checked values in a reader's words.
    ///
    /// # Errors
    /// As [`Calculator::solution`].
    pub fn report(&self, values: &Values, settings: &Settings, depth: Depth) -> Result<Report, Fault> {
        self.solution(values, depth).map(|solution| solution.worded(settings))
    }

    /// Nothing but its defaults, to put something in for a link.
    pub(crate) fn filling(&self) -> Filling {
        Filling::new(self.id, self.fields)
    }

    /// What the values of another calculator say of the fields that both have.
    ///
    /// # Errors
    /// A [`Fault`] if the values are not those of `from`.
    pub(crate) fn filling_from(&self, from: &Self, values: &Values) -> Result<Filling, Fault> {
        let mut filling = self.filling();
        filling.copy(from.fields, values)?;
        Ok(filling)
    }

    /// The solution where the parts that the calculator designs, in `made`, are off
    /// by known factors; adds those that it designs without a factor.
    pub(crate) fn solution_of(&self, values: &Values, depth: Depth, made: &mut Vec<Made>) -> Result<Solution, Fault> {
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
