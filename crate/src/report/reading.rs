//! One number of an answer, and what to make of it.

use super::Because;
use crate::quantity::Unit;
use crate::words::Message;
use serde::Serialize;

/// One number of an answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Reading<T = String> {
    /// Identifier, unique in the report.
    pub id: &'static str,
    /// Its name.
    pub name: T,
    /// The number in its unit without prefix; nothing where it does not exist.
    pub value: Option<f64>,
    /// The unit.
    pub unit: Unit,
    /// The number as printed, or the words that say why there is none.
    pub text: T,
    /// The same as the working has it, to be copied and saved; nothing where there is
    /// no number.
    pub exact: Option<T>,
    /// What to make of it.
    pub verdict: Option<Verdict<T>>,
    /// Why it is what it is, where one line says most of it.
    pub because: Option<Because<T>>,
    /// How its numbers are told.
    #[serde(skip)]
    pub told: Told,
}

/// How the numbers of a reading are told.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Told {
    /// To how many digits.
    pub digits: usize,
    /// Whether it is a loss, which is told by its amount.
    pub loss: bool,
    /// Whether with their sign turned: a loss that is a gain.
    pub turned: bool,
}

impl Told {
    /// A number of the reading as it is told, and back.
    pub fn turn(self, value: f64) -> f64 {
        if self.turned { -value } else { value }
    }
}

/// What is behind the name of a loss that is told as a gain.
pub(super) const GAIN: &str = ".gain";

impl Reading<Message> {
    /// The same with a loss told as one, whichever sign it has: under its own name.
    pub(crate) fn plain(mut self) -> Self {
        if !self.told.turned {
            return self;
        }
        self.told.turned = false;
        if let Message::Word { key, .. } = &mut self.name
            && let Some(own) = key.strip_suffix(GAIN)
        {
            *key = own.to_owned().into();
        }
        self.text = self.value.map_or(Message::Nothing, |loss| Message::Quantity(loss, self.unit, self.told.digits));
        self
    }
}

/// What to make of a reading.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Verdict<T = String> {
    /// How much it matters.
    pub tone: Tone,
    /// In words.
    pub text: T,
}

/// How much a verdict matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Tone {
    /// Nothing to do.
    Fine,
    /// Audible or near a limit.
    Watch,
    /// A limit is broken.
    Trouble,
}
