//! What the map says in words.

use crate::fault::Fault;
use crate::settings::Settings;
use crate::words::{Arg, Words};

/// The words of a reader.
pub(super) struct Told<'a> {
    pub settings: &'a Settings,
}

impl Told<'_> {
    /// The message `stage-map-<key>` with names put in.
    pub(super) fn text(&self, key: &str, names: &[(&'static str, &str)]) -> String {
        let args: Vec<_> = names.iter().map(|(name, text)| (*name, Arg::name(text))).collect();
        self.whole(&format!("stage-map-{key}"), &args)
    }

    /// A message of the catalogue by its whole key.
    pub(super) fn whole(&self, key: &str, args: &[(&'static str, Arg)]) -> String {
        Words::of(self.settings.language).text(key, args, self.settings)
    }

    /// Why the whole line cannot be solved.
    pub(super) fn fault(&self, fault: &Fault) -> String {
        self.whole(fault.key(), fault.args())
    }
}
