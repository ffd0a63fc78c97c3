//! An entry as it stands in the catalogue, and how it comes into words.

use super::entry::{Cell, Column, LookUpEntry, LookUpKind, SeeAlso, Table};
use super::wiring::{Drawn, Wired};
use crate::calculator::Calculator;
use crate::field::Field;
use crate::quantity::{EXACT, FINE, SHOWN, Unit, write};
use crate::report::Link;
use crate::settings::Settings;
use crate::words::{Arg, Message, Words};

/// An entry of the catalogue. Its words are `look-up-<id>` and its attributes:
/// `.text` and, where there is more to say, `.more`, `.also`, `.mind`.
pub(super) struct Item {
    pub id: &'static str,
    pub shown: Shown,
    /// Numbers that the words put in.
    pub numbers: &'static [(&'static str, f64, Unit)],
    /// Keys of messages.
    pub cautions: &'static [&'static str],
    /// Keys of messages; at least one.
    pub sources: &'static [&'static str],
    pub links: &'static [To],
    /// Identifiers of other entries.
    pub see: &'static [&'static str],
}

/// What an entry shows beside its words.
#[derive(Clone, Copy)]
pub(super) enum Shown {
    Words,
    /// Plugs and sockets with a table of what their contacts carry.
    Faces(&'static [Drawn], fn(&Printer) -> Table),
    Wiring(&'static Wired),
    Table(fn(&Printer) -> Table),
}

/// A calculator to go to, with what is put into its fields.
pub(super) struct To {
    pub calculator: &'static Calculator,
    pub values: &'static [Put],
}

/// What is put into a field, by its identifier.
#[derive(Clone, Copy)]
pub(super) enum Put {
    Number(&'static str, f64, Unit),
    Choice(&'static str, &'static str),
}

impl Put {
    /// A number in the unit of its field.
    pub(super) const fn number(field: Field, value: f64) -> Self {
        Self::Number(field.id, value, field.unit())
    }

    /// A number in another unit that the field takes.
    pub(super) const fn number_in(field: Field, value: f64, unit: Unit) -> Self {
        Self::Number(field.id, value, unit)
    }

    /// An answer to a choice, such as `BoxKind::Active.to(BOX)`.
    pub(super) const fn answer((id, answer): (&'static str, &'static str)) -> Self {
        Self::Choice(id, answer)
    }
}

impl Item {
    /// An entry of words alone, to start from.
    pub(super) const fn new(id: &'static str, sources: &'static [&'static str]) -> Self {
        Self { id, shown: Shown::Words, numbers: &[], cautions: &[], sources, links: &[], see: &[] }
    }

    pub(super) const fn shows(mut self, shown: Shown) -> Self {
        self.shown = shown;
        self
    }

    pub(super) const fn numbers(mut self, numbers: &'static [(&'static str, f64, Unit)]) -> Self {
        self.numbers = numbers;
        self
    }

    pub(super) const fn cautions(mut self, cautions: &'static [&'static str]) -> Self {
        self.cautions = cautions;
        self
    }

    pub(super) const fn links(mut self, links: &'static [To]) -> Self {
        self.links = links;
        self
    }

    pub(super) const fn see(mut self, see: &'static [&'static str]) -> Self {
        self.see = see;
        self
    }

    /// The entry in the reader's words.
    pub(super) fn entry(&self, kind: LookUpKind, settings: &Settings) -> LookUpEntry {
        let print = Printer { words: Words::of(settings.language), settings };
        let key = format!("look-up-{}", self.id);
        let numbers: Vec<_> =
            self.numbers.iter().map(|(name, value, unit)| (*name, Arg::Quantity(*value, *unit))).collect();
        let attribute = |attribute: &str| {
            print.words.pattern(&key, attribute).map(|pattern| print.words.fill(pattern, &numbers, settings))
        };
        let messages = |keys: &[&str]| keys.iter().map(|key| print.word(key)).collect();
        let (faces, wiring, table) = match self.shown {
            Shown::Words => (&[][..], None, None),
            Shown::Faces(faces, table) => (faces, None, Some(table(&print))),
            Shown::Wiring(wired) => (&[][..], Some(wired.wiring(&print)), None),
            Shown::Table(table) => (&[][..], None, Some(table(&print))),
        };
        LookUpEntry {
            id: self.id,
            kind,
            title: print.word(&key),
            also: attribute("also").unwrap_or_default(),
            text: ["text", "more"].into_iter().filter_map(attribute).collect(),
            faces: faces.iter().map(|drawn| drawn.face(&print)).collect(),
            wiring,
            table,
            warnings: attribute("mind").into_iter().collect(),
            cautions: messages(self.cautions),
            sources: messages(self.sources),
            links: self.links.iter().map(|to| to.link(&print)).collect(),
            see: self.see.iter().map(|id| SeeAlso { id, title: print.word(&format!("look-up-{id}")) }).collect(),
        }
    }
}

impl To {
    /// To a calculator with its defaults.
    pub(super) const fn calculator(calculator: &'static Calculator) -> Self {
        Self { calculator, values: &[] }
    }

    /// To a calculator that is filled in.
    pub(super) const fn filled(calculator: &'static Calculator, values: &'static [Put]) -> Self {
        Self { calculator, values }
    }

    fn link(&self, print: &Printer) -> Link {
        let entry = |put: &Put| match *put {
            Put::Number(field, value, unit) => (field, Message::Entry(value, unit)),
            Put::Choice(field, answer) => (field, Message::Text(answer.into())),
        };
        let values = self.values.iter().map(entry).map(|(field, put)| (field, put.text(print.settings))).collect();
        Link { text: print.word(self.calculator.id), calculator: self.calculator.id, values }
    }
}

/// How words and numbers are printed for the reader.
pub(super) struct Printer<'a> {
    pub words: &'static Words,
    pub settings: &'a Settings,
}

impl Printer<'_> {
    /// A message by its whole key.
    pub(super) fn word(&self, key: &str) -> String {
        self.words.text(key, &[], self.settings)
    }

    /// A message with what is put into it.
    pub(super) fn fill(&self, key: &str, args: &[(&'static str, Arg)]) -> String {
        self.words.text(key, args, self.settings)
    }

    /// A column of numbers; its name is the message `look-up-column-<id>`.
    pub(super) fn column(&self, id: &str, unit: Unit) -> Column {
        Column { name: self.word(&format!("look-up-column-{id}")), unit: Some(unit) }
    }

    /// A column of words.
    pub(super) fn words_column(&self, id: &str) -> Column {
        Column { name: self.word(&format!("look-up-column-{id}")), unit: None }
    }

    /// A number in a cell.
    pub(super) fn number(&self, value: f64, unit: Unit) -> Cell {
        self.figures(value, unit, SHOWN)
    }

    /// A level in a cell, of a table by which levels are converted.
    pub(super) fn level(&self, value: f64, unit: Unit) -> Cell {
        self.figures(value, unit, FINE)
    }

    fn figures(&self, value: f64, unit: Unit, digits: usize) -> Cell {
        let write = |digits| write(value, unit, digits, self.settings);
        Cell { text: write(digits), value: Some(value), exact: Some(write(EXACT)) }
    }

    /// A message in a cell.
    pub(super) fn cell(&self, key: &str) -> Cell {
        Cell::text(self.word(key))
    }
}

impl Cell {
    /// A cell of what is the same in every language.
    pub(super) fn text(text: String) -> Self {
        Self { text, value: None, exact: None }
    }
}
