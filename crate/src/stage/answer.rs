//! What is asked of a stage, and how it is told: what the page and the example share.

use super::fill::filled;
use super::joined::gaps;
use super::map::{is_dangerous, line_hums};
use super::row::{Row, Rows};
use super::show::{InputLine, Show, read_show};
use super::table::{Dialect, decoded, read_table};
use super::totals::{Totals, totals};
use crate::ask::{Entry, Reader};
use crate::calculator::whole_line::CALCULATOR;
use crate::field::Kind;
use crate::file::Flaw;
use crate::file::Raw;
use crate::named::Named;
use crate::quantity::write_entry;
use crate::settings::Settings;
use serde::Serialize;
use std::collections::HashMap;

/// What is wrong with a part of a file or a table, in the reader's words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Told {
    /// Where: `gear`, `power`, `equipment`, `links`, `lines`, `limits`, `show` or `table`.
    pub list: &'static str,
    /// The row there, from 1 on; nothing where it is about all of it.
    pub row: Option<usize>,
    /// The field of that row, or the column of a table.
    pub field: Option<String>,
    /// What is wrong, with list, row and field in front.
    pub text: String,
}

impl Told {
    fn of(flaw: &Flaw, settings: &Settings) -> Self {
        Self::at(flaw, flaw.text(settings))
    }

    fn at(flaw: &Flaw, text: String) -> Self {
        Self { list: flaw.list, row: flaw.row, field: flaw.field.clone(), text }
    }

    fn all(flaws: &[Flaw], settings: &Settings) -> Vec<Self> {
        flaws.iter().map(|flaw| Self::of(flaw, settings)).collect()
    }
}

/// What was read of a file.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct ReadShow {
    /// The show; nothing where it is no such file, or one of a newer version.
    pub show: Option<Show>,
    /// What is wrong with the file, or with parts of it.
    pub flaws: Vec<Told>,
}

/// What was read of a table.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct ReadLines {
    /// The rows that could be read, each with what could be read of it.
    pub lines: Vec<InputLine>,
    /// What is wrong with the rest, by row of the table.
    pub flaws: Vec<Told>,
}

/// The text of a file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Decoded {
    /// The text.
    pub text: String,
    /// What is wrong with it.
    pub flaw: Option<Told>,
}

/// A show, solved.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct SolvedShow {
    /// The rows of the input list, in its order.
    pub rows: Vec<Row>,
    /// What the show takes along.
    pub totals: Totals,
    /// Whether so much may lie between two of its earths that nothing is to be plugged in.
    pub dangerous: bool,
}

/// Reads the file of a show.
pub fn read_file(file: &Raw, settings: &Settings) -> ReadShow {
    match read_show(file) {
        Ok((show, flaws)) => {
            let mut flaws = Told::all(&flaws, settings);
            flaws.extend(of_limits(&show, settings));
            ReadShow { show: Some(show), flaws }
        }
        Err(flaw) => ReadShow { show: None, flaws: vec![Told::of(&flaw, settings)] },
    }
}

/// What in a show points to nothing, or to itself, or cannot be read.
pub fn check(show: &Show, settings: &Settings) -> Vec<Told> {
    let mut flaws = Told::all(&super::fill::flaws(show), settings);
    flaws.extend(of_limits(show, settings));
    flaws
}

/// What is wrong with the values that every line is held to, whether a line asks for them
/// or not.
fn of_limits(show: &Show, settings: &Settings) -> Vec<Told> {
    let written = Settings { language: settings.language, ..show.settings() };
    let reader = Reader::new(&CALCULATOR, &written);
    let told = |(id, text): (&str, &String)| {
        let flaw = Flaw::new("limits", None, "no-field").at(id);
        let Some(field) = CALCULATOR.field(id) else { return Some(Told::of(&flaw, settings)) };
        let problem = reader.problem_of(field, &Entry::Text(text.clone()))?;
        Some(Told::at(&flaw, flaw.placed(problem.message, settings)))
    };
    show.limits.iter().filter_map(told).collect()
}

/// The rows and totals of a show; rows that were solved before are not solved again.
/// Each has the hum that it has with everything plugged in, as the ground map has it.
pub fn solve(show: &Show, rows: &mut Rows) -> SolvedShow {
    let mut rows = rows.solve(show);
    let places: HashMap<_, _> = rows.iter().enumerate().map(|(place, row)| (row.id.clone(), place)).collect();
    for hum in line_hums(show) {
        if let Some(row) = places.get(&hum.line).and_then(|place| rows.get_mut(*place)) {
            row.hum_on_stage(&hum);
        }
    }
    for gap in gaps(show) {
        let told = gap.told(&show.settings());
        for (row, _) in rows.iter_mut().zip(&show.lines).filter(|(_, line)| gap.is_on(line)) {
            row.not_counted = Some(told.clone());
        }
    }
    SolvedShow { rows, totals: totals(show), dangerous: is_dangerous(show) }
}

/// Reads a table of the input list.
pub fn read_lines(show: &Show, text: &str, dialect: &Dialect, settings: &Settings) -> ReadLines {
    let table = read_table(show, text, dialect);
    ReadLines { flaws: Told::all(&table.flaws, settings), lines: table.lines }
}

/// The bytes of the file of a table as text.
pub fn decode(bytes: &[u8], settings: &Settings) -> Decoded {
    let (text, flaw) = decoded(bytes);
    Decoded { text, flaw: flaw.map(|flaw| Told::of(&flaw, settings)) }
}

/// The texts for the whole-line calculator that a line stands for, under the settings
/// of links.
pub fn texts(show: &Show, line: &str) -> Named<String> {
    let mut texts = Named::default();
    let Some(line) = show.line(line) else { return texts };
    for (id, entry) in filled(show, line).iter() {
        let text = match entry {
            Entry::Text(text) => text.clone(),
            Entry::Number(value) => match CALCULATOR.field(id).map(|field| &field.kind) {
                Some(Kind::Number(number)) => write_entry(*value, number.unit, &show.settings()),
                _ => continue,
            },
            Entry::Other => continue,
        };
        texts.insert(id.to_owned(), text);
    }
    texts
}
