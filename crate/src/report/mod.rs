//! What a calculator answers: plain data, in the reader's words or before them.
//!
//! ```
//! use stageohm::quantity::Unit;
//! use stageohm::report::{Depth, Sheet};
//! use stageohm::settings::Settings;
//!
//! // Half the voltage is 20·log10 2 = 6.02 dB less.
//! let mut sheet = Sheet::new("source-load", Depth::Plots);
//! sheet.headline("loss", 20.0 * 2_f64.log10(), Unit::Decibel, &[]);
//! let report = sheet.finish().worded(&Settings::default());
//! assert_eq!(report.reading("loss").unwrap().text, "6.0\u{a0}dB");
//! // To be copied, as the working has it.
//! assert_eq!(report.reading("loss").unwrap().exact.as_deref(), Some("6.0206\u{a0}dB"));
//! ```

mod because;
mod candidate;
mod diagram;
mod plot;
mod reading;
mod response_plot;
mod sheet;
mod sound;
mod treble;
mod wording;

pub use because::Because;
pub use candidate::{Candidate, Link, Reason};
pub use diagram::{Diagram, Earth, EarthLoop, Part, PartSymbol};
pub use plot::{Axis, Band, Marker, Plot, Trace};
pub use reading::{Reading, Told, Tone, Verdict};
pub use response_plot::Drawn;
pub(crate) use response_plot::{finite, span};
pub(crate) use sheet::Made;
pub use sheet::{Depth, Sheet};
pub use sound::{HumLine, RigSound};
pub(crate) use treble::{HEARD, treble, way};

use crate::words::Message;
use crate::working::Step;
use serde::Serialize;

/// What a calculator found, before anyone put it into words.
pub type Solution = Report<Message>;

/// The answer of a calculator. Its texts are those of a reader, or messages that
/// become texts ([`Solution`]).
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Report<T = String> {
    /// What the answer is for, in short: the question once more, with its values.
    pub subject: Option<T>,
    /// The answers to read first; the first of them is the answer.
    pub headline: Vec<Reading<T>>,
    /// What else was computed.
    pub further: Vec<Reading<T>>,
    /// Pictures.
    pub plots: Vec<Plot<T>>,
    /// The formulas behind the answer, in order. Empty unless asked for.
    pub working: Vec<Step<T>>,
    /// What makes the answer less than it seems.
    pub warnings: Vec<T>,
    /// What can hurt someone.
    pub cautions: Vec<T>,
    /// Whether the cautions are to be read before the answer.
    pub cautions_first: bool,
    /// Whether it is a case for an electrician: then nothing else mends it.
    #[serde(skip)]
    #[cfg_attr(feature = "typescript", ts(skip))]
    pub stop: bool,
    /// Where formulas and values come from.
    pub sources: Vec<T>,
    /// Other calculators that show more, filled in.
    pub links: Vec<Link<T>>,
    /// Ways to do it, the best first, those that are refused last; empty where
    /// the question is not which.
    pub ranking: Vec<Candidate<T>>,
    /// The rig that was solved, as a line diagram; nothing where there is none to draw.
    pub diagram: Option<Diagram<T>>,
    /// What can be heard beside the response; nothing where no calculator knows of it.
    pub sound: Option<RigSound>,
}

impl<T> Default for Report<T> {
    fn default() -> Self {
        Self {
            subject: None,
            headline: Vec::new(),
            further: Vec::new(),
            plots: Vec::new(),
            working: Vec::new(),
            warnings: Vec::new(),
            cautions: Vec::new(),
            cautions_first: false,
            stop: false,
            sources: Vec::new(),
            links: Vec::new(),
            ranking: Vec::new(),
            diagram: None,
            sound: None,
        }
    }
}

impl<T> Report<T> {
    /// A reading by its identifier.
    pub fn reading(&self, id: &str) -> Option<&Reading<T>> {
        self.headline.iter().chain(&self.further).find(|reading| reading.id == id)
    }
}
