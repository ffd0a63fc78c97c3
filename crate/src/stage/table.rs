//! The input list as a table for spreadsheets: comma- and tab-separated values
//! (RFC 4180). By our own hand, since a library would let a quotation mark that is
//! never closed swallow the rest of a file without a word.

use super::fill::field;
use super::show::{InputLine, NOTE_LONGEST, ROWS_MOST, Show, name_apart};
use crate::ask::{Entry, Question, translate};
use crate::calculator::whole_line::CALCULATOR;
use crate::file::Flaw;
use crate::named::Named;
use crate::quantity::LONGEST;
use crate::settings::Settings;
use crate::words::Words;
use serde::{Deserialize, Serialize};
use std::collections::HashSet;

/// What stands between the cells of a row.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Separator {
    /// A comma.
    #[default]
    Comma,
    /// A semicolon, as spreadsheets write where the comma is in numbers.
    Semicolon,
    /// A tab, as they put on the clipboard.
    Tab,
}

impl Separator {
    fn sign(self) -> char {
        match self {
            Self::Comma => ',',
            Self::Semicolon => ';',
            Self::Tab => '\t',
        }
    }
}

/// How a table is written: told, not guessed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct Dialect {
    /// What stands between cells.
    pub separator: Separator,
    /// How its numbers are written.
    pub settings: Settings,
}

/// What was read of a table.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Table {
    /// The rows that could be read, each with what could be read of it.
    pub lines: Vec<InputLine>,
    /// What is wrong with the rest, by row of the table: its head is row 1.
    pub flaws: Vec<Flaw>,
}

/// The columns that are always written, in order, by the fields of a row.
const COLUMNS: [&str; 22] = [
    "channel",
    "name",
    "source",
    "equipment",
    "circuit",
    "lead",
    "di",
    "thru",
    "run",
    "carried",
    "pad",
    "stage_box",
    "patch",
    "input",
    "destination",
    "second",
    "split",
    "phantom_from",
    "phantom",
    "pair",
    "note",
    "id",
];

/// The bytes of a file as text, and what is wrong with them: UTF-8, or UTF-16 where a
/// byte-order mark says so.
pub fn decoded(bytes: &[u8]) -> (String, Option<Flaw>) {
    let wide = |bytes: &[u8], unit: fn([u8; 2]) -> u16| {
        let units: Vec<u16> = bytes.chunks_exact(2).map(|pair| unit([pair[0], pair[1]])).collect();
        String::from_utf16(&units)
            .map_err(|_| String::from_utf16_lossy(&units))
            .and_then(|text| if bytes.len().is_multiple_of(2) { Ok(text) } else { Err(text) })
    };
    let read = match bytes {
        [0xff, 0xfe, rest @ ..] => wide(rest, u16::from_le_bytes),
        [0xfe, 0xff, rest @ ..] => wide(rest, u16::from_be_bytes),
        _ => {
            let bytes = bytes.strip_prefix(&[0xef, 0xbb, 0xbf]).unwrap_or(bytes);
            std::str::from_utf8(bytes).map(str::to_owned).map_err(|_| String::from_utf8_lossy(bytes).into_owned())
        }
    };
    match read {
        Ok(text) => (text, None),
        Err(text) => {
            let row = text.split('\u{fffd}').next().map_or(1, |before| before.matches('\n').count() + 1);
            (text, Some(Flaw::new("table", Some(row), "encoding")))
        }
    }
}

/// Reads a table, whose first row names its columns. Gear, equipment and circuits may
/// stand by their names.
pub fn read_table(show: &Show, text: &str, dialect: &Dialect) -> Table {
    let mut table = Table::default();
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut rows = Cells { rest: text, separator: dialect.separator.sign(), row: 0 };
    let Some((_, head, _)) = rows.next() else {
        table.flaws.push(Flaw::new("table", None, "empty"));
        return table;
    };
    let columns = columns(&head, &mut table.flaws);
    if columns.iter().all(Option::is_none) {
        table.flaws.push(Flaw::new("table", Some(1), "no-head"));
        return table;
    }
    let (mut channels, mut ids) = (HashSet::new(), HashSet::new());
    for (row, cells, broken) in rows {
        if table.lines.len() == ROWS_MOST {
            let many = Flaw::new("table", Some(row), "many").with("most", &ROWS_MOST.to_string());
            table.flaws.push(many.with("count", &format!("{ROWS_MOST}+")));
            break;
        }
        if let Some(key) = broken {
            table.flaws.push(Flaw::new("table", Some(row), key));
        }
        let mut line = line(show, (&columns, &cells), row, dialect, &mut table.flaws);
        name_apart(&mut line.id, &mut ids, ("lines", table.lines.len() + 1));
        if !line.channel.is_empty() && !channels.insert((line.destination.clone(), line.channel.clone())) {
            table.flaws.push(Flaw::new("table", Some(row), "same-channel").at("channel").with("text", &line.channel));
        }
        table.lines.push(line);
    }
    table
}

/// The field that each cell of a head names, by its identifier or by its word.
fn columns(head: &[String], flaws: &mut Vec<Flaw>) -> Vec<Option<&'static str>> {
    let mut known = HashSet::new();
    let find = |cell: &str| {
        let cell = bare(cell).trim();
        let is = |id: &&&str| id.eq_ignore_ascii_case(cell) || word(id).eq_ignore_ascii_case(cell);
        COLUMNS.iter().find(is).copied().or_else(|| field(&cell.to_ascii_lowercase()).map(|field| field.id))
    };
    let mut column = |cell: &String| {
        let found = find(cell);
        let key = match found {
            Some(id) if known.insert(id) => return Some(id),
            Some(_) => "same-column",
            None => "no-column",
        };
        if !cell.trim().is_empty() {
            flaws.push(Flaw::new("table", Some(1), key).at(cell.as_str()));
        }
        None
    };
    head.iter().map(&mut column).collect()
}

/// The word for a column.
fn word(id: &str) -> String {
    let settings = Settings::default();
    Words::of(settings.language).text(&format!("stage-column-{id}"), &[], &settings)
}

/// A row of a table.
fn line(
    show: &Show,
    (columns, cells): (&[Option<&'static str>], &[String]),
    row: usize,
    dialect: &Dialect,
    flaws: &mut Vec<Flaw>,
) -> InputLine {
    let flaw = |key| Flaw::new("table", Some(row), key);
    let beyond = cells.iter().skip(columns.len()).any(|cell| !cell.trim().is_empty());
    if cells.len() < columns.len() || beyond {
        let counted = |count: usize| count.to_string();
        flaws.push(flaw("columns").with("count", &counted(cells.len())).with("most", &counted(columns.len())));
    }
    let (mut line, mut values) = (InputLine::default(), Named::default());
    for (column, cell) in columns.iter().zip(cells) {
        let Some(id) = column else { continue };
        let cell = bare(cell).trim();
        let most = if *id == "note" { NOTE_LONGEST } else { LONGEST };
        if cell.chars().nth(most).is_some() {
            flaws.push(flaw("long").at(*id).with("most", &most.to_string()));
        } else if cell.is_empty() {
        } else if !COLUMNS.contains(id) {
            values.insert(*id, Entry::Text(cell.to_owned()));
        } else if let Err(wrong) = put(show, &mut line, id, cell) {
            flaws.push(Flaw { row: Some(row), ..wrong }.at(*id));
        }
    }
    line.values = rewritten(values, &dialect.settings, &show.settings());
    line
}

/// Texts of one reader for another one.
fn rewritten(values: Named<Entry>, from: &Settings, to: &Settings) -> Named<String> {
    let question = Question {
        calculator: CALCULATOR.id.to_owned(),
        values,
        // The mains are a matter of the show, and of no cell.
        settings: Settings { mains: to.mains, ..*from },
        working: false,
        brief: true,
        backwards: None,
        cures: false,
        tolerances: None,
    };
    let other = translate(&question, to).values;
    let mut texts = Named::default();
    for (id, entry) in question.values.iter() {
        let Entry::Text(text) = entry else { continue };
        texts.insert(id.to_owned(), other.get(id).cloned().unwrap_or_else(|| text.clone()));
    }
    texts
}

/// The text of a field of a row, for those that are plain texts.
fn text_of<'a>(line: &'a mut InputLine, id: &str) -> Option<&'a mut String> {
    Some(match id {
        "id" => &mut line.id,
        "channel" => &mut line.channel,
        "name" => &mut line.name,
        "source" => &mut line.source,
        "equipment" => &mut line.equipment,
        "circuit" => &mut line.circuit,
        "lead" => &mut line.lead,
        "di" => &mut line.di,
        "thru" => &mut line.thru,
        "run" => &mut line.run,
        "pad" => &mut line.pad,
        "stage_box" => &mut line.stage_box,
        "patch" => &mut line.patch,
        "input" => &mut line.input,
        "destination" => &mut line.destination,
        "second" => &mut line.second,
        "pair" => &mut line.pair,
        "note" => &mut line.note,
        _ => return None,
    })
}

/// Things by identifier and name.
type Things<'a> = Vec<(&'a str, &'a str)>;

/// What a column names, where it names something of the show.
fn things<'a>(show: &'a Show, id: &str) -> Option<(Things<'a>, &'static str)> {
    Some(match id {
        "source" | "lead" | "di" | "run" | "pad" | "input" => {
            (show.gear.iter().map(|gear| (gear.id.as_str(), gear.name.as_str())).collect(), "no-gear")
        }
        "equipment" | "thru" | "stage_box" | "destination" | "second" => {
            (show.equipment.iter().map(|one| (one.id.as_str(), one.name.as_str())).collect(), "no-equipment")
        }
        "circuit" => (show.power.iter().map(|one| (one.id.as_str(), one.name.as_str())).collect(), "no-circuit"),
        _ => return None,
    })
}

/// Puts a cell into a row. What names nothing is kept as it is, and told.
fn put(show: &Show, line: &mut InputLine, id: &'static str, cell: &str) -> Result<(), Flaw> {
    let choice = |known: &str| Flaw::new("table", None, "choice").with("text", cell).with("known", known);
    match id {
        "split" => line.split = answer(cell).ok_or_else(|| choice("none, direct, y, transformer"))?,
        "phantom_from" => line.phantom_from = answer(cell).ok_or_else(|| choice("first, second"))?,
        "carried" => line.carried = answer(cell).ok_or_else(|| choice("wire, fibre, radio"))?,
        "phantom" => line.phantom = answer(cell).ok_or_else(|| choice("needed, off, p48, p24, p12"))?,
        _ => {
            let Some(text) = text_of(line, id) else { return Ok(()) };
            cell.clone_into(text);
            let Some((things, key)) = things(show, id) else { return Ok(()) };
            if things.iter().any(|(known, _)| *known == cell) {
                return Ok(());
            }
            let mut named = things.iter().filter(|(_, name)| name.eq_ignore_ascii_case(cell));
            match (named.next(), named.next()) {
                (Some((known, _)), None) => (*known).clone_into(text),
                (Some(_), Some(_)) => return Err(Flaw::new("table", None, "which").with("text", cell)),
                (None, _) => return Err(Flaw::new("table", None, key).with("id", cell)),
            }
        }
    }
    Ok(())
}

/// An answer by its identifier.
fn answer<T: for<'de> Deserialize<'de>>(cell: &str) -> Option<T> {
    T::deserialize(crate::file::Raw::Text(cell.to_ascii_lowercase())).ok()
}

/// Writes the lines of a show as a table. Gear, equipment and circuits stand by their
/// names where no other has the same.
pub fn write_table(show: &Show, dialect: &Dialect) -> String {
    let own = |id: &&'static str| show.lines.iter().any(|line| line.values.get(id).is_some());
    let own: Vec<_> = CALCULATOR.fields.iter().map(|field| field.id).filter(own).collect();
    let mut text = String::new();
    let head = COLUMNS.iter().map(|id| word(id)).chain(own.iter().map(|id| (*id).to_owned()));
    write_row(&mut text, head, dialect.separator.sign());
    for line in &show.lines {
        let values = line.values.iter().map(|(id, text)| (id.to_owned(), Entry::Text(text.clone())));
        let mut entries = Named::default();
        values.for_each(|(id, entry)| entries.insert(id, entry));
        let to = Settings { mains: show.mains, ..dialect.settings };
        let values = rewritten(entries, &show.settings(), &to);
        let mut line = line.clone();
        let fixed: Vec<_> = COLUMNS.iter().map(|id| cell(show, &mut line, id)).collect();
        let own = own.iter().map(|id| values.get(id).cloned().unwrap_or_default());
        write_row(&mut text, fixed.into_iter().chain(own), dialect.separator.sign());
    }
    text
}

/// What stands in a column of a row.
fn cell(show: &Show, line: &mut InputLine, id: &str) -> String {
    match id {
        "split" => return line.split.id().to_owned(),
        "phantom_from" => return line.phantom_from.id().to_owned(),
        "carried" => return line.carried.id().to_owned(),
        "phantom" => return line.phantom.id().to_owned(),
        _ => {}
    }
    let text = text_of(line, id).map(std::mem::take).unwrap_or_default();
    let Some((things, _)) = things(show, id) else { return text };
    let Some((_, name)) = things.iter().find(|(known, _)| *known == text) else { return text };
    let alike = things.iter().filter(|(id, other)| other.eq_ignore_ascii_case(name) || id == name).count();
    // What a cell would lose at its ends is no name to be found by.
    if alike == 1 && !name.is_empty() && name.trim() == *name { (*name).to_owned() } else { text }
}

fn write_row(text: &mut String, cells: impl Iterator<Item = String>, separator: char) {
    for (i, cell) in cells.enumerate() {
        if i > 0 {
            text.push(separator);
        }
        let cell = guarded(cell);
        if cell.contains(['"', '\n', '\r', separator]) {
            text.push('"');
            text.push_str(&cell.replace('"', "\"\""));
            text.push('"');
        } else {
            text.push_str(&cell);
        }
    }
    text.push_str("\r\n");
}

/// A cell that a spreadsheet would take for a formula, with an apostrophe in front.
fn guarded(cell: String) -> String {
    if is_formula(&cell) { format!("'{cell}") } else { cell }
}

/// The same without that apostrophe.
fn bare(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(rest) if rest.trim_start_matches('\'').starts_with(BEGINNINGS) => rest,
        _ => cell,
    }
}

/// What formulas begin with.
const BEGINNINGS: [char; 4] = ['=', '+', '-', '@'];

/// Whether a cell begins like a formula and is no quantity; and whether it is one that
/// has apostrophes already, of which one would be taken off again.
fn is_formula(cell: &str) -> bool {
    let rest = cell.trim_start_matches('\'');
    rest.starts_with(BEGINNINGS) && !(rest.len() == cell.len() && is_quantity(cell))
}

/// Whether a cell is a signed number with at most a unit, in which nothing is computed.
fn is_quantity(cell: &str) -> bool {
    let Some(number) = cell.strip_prefix(['+', '-']) else { return false };
    let unit = number.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.' || c == ',');
    let has_digit = number[..number.len() - unit.len()].contains(|c: char| c.is_ascii_digit());
    let is_unit = |c: char| c.is_ascii_alphabetic() || "µμΩ%°√ \u{a0}".contains(c);
    has_digit && unit.chars().all(is_unit)
}

/// The rows of a table, cell by cell, each with what is wrong with its quotation marks.
struct Cells<'a> {
    rest: &'a str,
    separator: char,
    row: usize,
}

impl Iterator for Cells<'_> {
    type Item = (usize, Vec<String>, Option<&'static str>);

    fn next(&mut self) -> Option<Self::Item> {
        loop {
            if self.rest.is_empty() {
                return None;
            }
            let (cells, broken) = self.cells();
            self.row += 1;
            // An empty row is none.
            if broken.is_some() || cells.iter().any(|cell| !cell.trim().is_empty()) {
                return Some((self.row, cells, broken));
            }
        }
    }
}

impl Cells<'_> {
    fn cells(&mut self) -> (Vec<String>, Option<&'static str>) {
        let (mut cells, mut broken) = (Vec::new(), None);
        loop {
            let cell = match self.rest.strip_prefix('"') {
                Some(rest) => {
                    self.rest = rest;
                    let (cell, is_closed) = self.quoted();
                    broken = broken.or((!is_closed).then_some("half"));
                    let more = self.plain();
                    broken = broken.or((!more.trim().is_empty()).then_some("quote"));
                    cell + &more
                }
                None => self.plain(),
            };
            cells.push(cell);
            let Some(sign) = self.rest.chars().next() else { return (cells, broken) };
            self.rest = &self.rest[sign.len_utf8()..];
            if sign != self.separator {
                if sign == '\r' {
                    self.rest = self.rest.strip_prefix('\n').unwrap_or(self.rest);
                }
                return (cells, broken);
            }
        }
    }

    /// Up to the end of the cell.
    fn plain(&mut self) -> String {
        let end = self.rest.find([self.separator, '\n', '\r']).unwrap_or(self.rest.len());
        let (cell, rest) = self.rest.split_at(end);
        self.rest = rest;
        cell.to_owned()
    }

    /// Up to the closing quotation mark, and whether there is one.
    fn quoted(&mut self) -> (String, bool) {
        let mut cell = String::new();
        loop {
            let Some(end) = self.rest.find('"') else {
                cell.push_str(self.rest);
                self.rest = "";
                return (cell, false);
            };
            cell.push_str(&self.rest[..end]);
            self.rest = &self.rest[end + 1..];
            match self.rest.strip_prefix('"') {
                Some(rest) => {
                    cell.push('"');
                    self.rest = rest;
                }
                None => return (cell, true),
            }
        }
    }
}
