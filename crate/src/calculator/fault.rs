//! Why a calculator cannot answer.

use crate::words::Arg;

/// Why a calculator cannot answer, and at which field the cause lies.
#[derive(Clone, Debug)]
pub struct Fault {
    /// The field at which the reader can mend it.
    pub field: Option<&'static str>,
    /// Key of the explanation in the message catalogue.
    pub key: &'static str,
    /// What goes into the message.
    pub args: Vec<(&'static str, Arg)>,
}

impl Fault {
    /// The values contradict each other; `field` is where to mend it.
    pub fn at(field: &'static str, key: &'static str) -> Self {
        Self { field: Some(field), key, args: Vec::new() }
    }

    /// Puts a value into the message.
    #[must_use]
    pub fn with(mut self, name: &'static str, arg: Arg) -> Self {
        self.args.push((name, arg));
        self
    }

    /// A calculator asked for something that its own description does not hold.
    pub(crate) fn internal(what: &str) -> Self {
        Self { field: None, key: "fault-internal", args: vec![("what", Arg::Text(what.to_owned()))] }
    }
}
