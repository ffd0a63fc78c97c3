//! A value of the trade.

/// A value of the trade with the key of its name.
#[derive(Clone, Copy, Debug)]
pub struct Mark {
    /// In SI units.
    pub value: f64,
    /// From where to where such values lie, where that is known.
    pub range: Option<(f64, f64)>,
    /// Key of its name in the message catalogue.
    pub name: &'static str,
}
