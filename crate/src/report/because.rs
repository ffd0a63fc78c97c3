//! Why a reading is what it is, in one line.

use crate::fault::Fault;
use crate::words::Message;
use crate::working::Stated;
use serde::Serialize;

/// The principle behind a reading, and its simple formula: what one would write on
/// the back of an envelope, beside the exact working.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Because<T = String> {
    /// The principle, as the end of a sentence that the reading begins.
    pub text: T,
    /// `symbol = formula`, as plain text.
    pub formula: String,
    /// The same as MathML.
    pub formula_mathml: String,
}

impl Because<Message> {
    /// A principle with its formula, as formulas of the working are written.
    ///
    /// # Errors
    /// A [`Fault`] where the formula is none.
    pub(super) fn new(text: Message, symbol: &str, formula: &str) -> Result<Self, Fault> {
        let Stated { formula, formula_mathml } = Stated::new(symbol, formula)?;
        Ok(Self { text, formula, formula_mathml })
    }
}
