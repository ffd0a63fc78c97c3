//! What is wrong with a part of a file or a table, while the rest of it is kept.

use crate::settings::Settings;
use crate::words::{Arg, Words};
use serde::Serialize;

/// What is wrong with a part of a file or a table; the rest of it is kept.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Flaw {
    /// Where: `gear`, `power`, `equipment`, `links`, `lines`, `limits`, `show` or `table`.
    pub list: &'static str,
    /// The row there, from 1 on; nothing where it is about all of it.
    pub row: Option<usize>,
    /// The field of that row, or the column of a table.
    pub field: Option<String>,
    /// What is wrong: the message `file-flaw-<key>`.
    pub key: &'static str,
    /// What goes into the message.
    pub args: Vec<(&'static str, String)>,
}

/// So much of a text is told at most, in characters.
const TOLD: usize = 60;

impl Flaw {
    pub(crate) fn new(list: &'static str, row: Option<usize>, key: &'static str) -> Self {
        Self { list, row, field: None, key, args: Vec::new() }
    }

    #[must_use]
    pub(crate) fn at(self, field: impl Into<String>) -> Self {
        Self { field: Some(told(&field.into())), ..self }
    }

    #[must_use]
    pub(crate) fn with(mut self, name: &'static str, text: &str) -> Self {
        self.args.push((name, told(text)));
        self
    }

    /// In the reader's words, with the row and the field in front.
    pub fn text(&self, settings: &Settings) -> String {
        let words = Words::of(settings.language);
        let args: Vec<_> = self.args.iter().map(|(name, text)| (*name, Arg::Text(text.clone()))).collect();
        self.placed(words.text(&format!("file-flaw-{}", self.key), &args, settings), settings)
    }

    /// What is wrong, told already, with the row and the field in front.
    pub(crate) fn placed(&self, what: String, settings: &Settings) -> String {
        let list = Arg::Key(format!("file-list-{}", self.list));
        let row = self.row.map(|row| Arg::Text(row.to_string()));
        let field = self.field.clone().map(Arg::Text);
        let key = match (&row, &field) {
            (Some(_), Some(_)) => "file-at-field",
            (Some(_), None) => "file-at-row",
            (None, Some(_)) => "file-at-column",
            (None, None) => "file-at-all",
        };
        let mut all = vec![("list", list), ("what", Arg::Text(what))];
        all.extend(row.map(|row| ("row", row)));
        all.extend(field.map(|field| ("field", field)));
        Words::of(settings.language).text(key, &all, settings)
    }
}

/// A text as it is told: not for ever, and without what no screen shows.
fn told(text: &str) -> String {
    let shown = |c: char| if c.is_control() { ' ' } else { c };
    let mut told: String = text.chars().take(TOLD).map(shown).collect();
    if text.chars().nth(TOLD).is_some() {
        told.push('…');
    }
    told
}
