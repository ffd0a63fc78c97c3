//! Why a calculator cannot answer.

use crate::words::Arg;

/// Why a calculator cannot answer, and at which field the cause lies.
///
/// One pointer wide, since every step of every calculator may return one.
#[derive(Clone, Debug)]
pub struct Fault(Box<Cause>);

#[derive(Clone, Debug)]
struct Cause {
    field: Option<&'static str>,
    key: &'static str,
    args: Vec<(&'static str, Arg)>,
}

impl Fault {
    /// The values contradict each other; `field` is where to mend it and `key`
    /// the explanation in the message catalogue. Written as `FIELD.fault(key)`.
    pub(crate) fn at(field: &'static str, key: &'static str) -> Self {
        Self(Box::new(Cause { field: Some(field), key, args: Vec::new() }))
    }

    /// Puts a value into the message.
    #[must_use]
    pub fn with(mut self, name: &'static str, arg: Arg) -> Self {
        self.0.args.push((name, arg));
        self
    }

    /// A calculator asked for something that its own description does not hold.
    #[cold]
    pub(crate) fn internal(what: &str) -> Self {
        let args = vec![("what", Arg::Text(what.to_owned()))];
        Self(Box::new(Cause { field: None, key: "fault-internal", args }))
    }

    /// The field at which the reader can mend it.
    pub fn field(&self) -> Option<&'static str> {
        self.0.field
    }

    /// Key of the explanation in the message catalogue.
    pub fn key(&self) -> &'static str {
        self.0.key
    }

    /// What goes into the explanation.
    pub fn args(&self) -> &[(&'static str, Arg)] {
        &self.0.args
    }
}
