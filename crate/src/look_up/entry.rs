//! What a reader looks up: plain data, in the reader's words.

use crate::quantity::Unit;
use crate::report::Link;
use serde::Serialize;

/// One thing to look up.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct LookUpEntry {
    /// Identifier, part of the address of its screen.
    pub id: &'static str,
    /// What kind of thing it is.
    pub kind: LookUpKind,
    /// Title.
    pub title: String,
    /// Other words for it, by which it is found too.
    pub also: String,
    /// What it is, in paragraphs; the first stands for the whole in a list.
    pub text: Vec<String>,
    /// What a plug or socket looks like.
    pub faces: Vec<Face>,
    /// How a lead or adaptor is wired.
    pub wiring: Option<Wiring>,
    /// Numbers.
    pub table: Option<Table>,
    /// What can go wrong.
    pub warnings: Vec<String>,
    /// What can hurt someone.
    pub cautions: Vec<String>,
    /// Where it comes from, or that it is common practice.
    pub sources: Vec<String>,
    /// Calculators that show more, filled in.
    pub links: Vec<Link>,
    /// Other entries that belong to it.
    pub see: Vec<SeeAlso>,
}

/// A kind of entry, in the order of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum LookUpKind {
    /// A plug or socket.
    Connector,
    /// A lead that fits both of its ends.
    Lead,
    /// A lead or adaptor between ends of different kinds.
    Adaptor,
    /// Typical values.
    Value,
    /// Computed numbers.
    Table,
    /// A term of the trade.
    Term,
}

/// Another entry.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct SeeAlso {
    /// Its identifier.
    pub id: &'static str,
    /// Its title.
    pub title: String,
}

/// A table whose first column names its rows.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Table {
    /// The columns.
    pub columns: Vec<Column>,
    /// The rows, each with a cell for every column.
    pub rows: Vec<Vec<Cell>>,
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Column {
    /// Its name.
    pub name: String,
    /// The unit of its numbers; none where it holds words.
    pub unit: Option<Unit>,
}

/// A cell of a table.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Cell {
    /// As printed; empty where there is nothing to say.
    pub text: String,
    /// The number in its unit, if it is one.
    pub value: Option<f64>,
    /// The same as the working of a calculator has it, to be saved.
    pub exact: Option<String>,
}

/// A plug or socket as one sees it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Face {
    /// Its name, and from where it is seen.
    pub name: String,
    /// How it is drawn.
    pub shape: Shape,
    /// Its contacts.
    pub contacts: Vec<FaceContact>,
}

/// How a plug or socket is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Shape {
    /// Round, seen from the front, with pins.
    Pins,
    /// Round, seen from the front, with holes.
    Holes,
    /// A plug with its contacts one behind the other, seen from the side.
    Plug,
    /// One contact around the other, seen from the front.
    Coaxial,
}

/// A contact of a face.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct FaceContact {
    /// Identifier, unique in the face.
    pub id: &'static str,
    /// Its name.
    pub name: String,
    /// What stands on it: its number, else its name.
    pub label: String,
    /// Across and down from the middle, in half widths, for round shapes.
    pub at: [f64; 2],
}

/// How ends are wired to each other.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Wiring {
    /// What is connected; the signal comes in at the first and leaves at the last.
    pub ends: Vec<End>,
    /// What connects them.
    pub connections: Vec<Connection>,
    /// Contacts that are connected to nothing.
    pub open: Vec<Open>,
}

/// A plug or socket of a wiring.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct End {
    /// What it is.
    pub name: String,
    /// Where it belongs.
    pub place: String,
    /// Whether the signal leaves there.
    pub far: bool,
    /// Its contacts.
    pub contacts: Vec<Contact>,
    /// As whoever solders it sees it, if it is soldered to a lead.
    pub face: Option<Face>,
}

/// A contact of an end.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Contact {
    /// Identifier, unique in its end.
    pub id: &'static str,
    /// Its name.
    pub name: String,
}

/// A contact, by the place of its end in the wiring.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct At {
    /// The end.
    pub end: usize,
    /// The identifier of the contact.
    pub contact: &'static str,
}

/// A conductor from one contact to another: a core or the shield of the lead,
/// or a bridge between two contacts of one plug.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Connection {
    /// Whence.
    pub from: At,
    /// Where to.
    pub to: At,
    /// Whether it is the shield.
    pub shield: bool,
    /// Whether it ends before the contact that it goes to.
    pub cut: bool,
    /// Which leg of the signal it is, if it is one.
    pub leg: Option<Leg>,
    /// What it carries.
    pub role: String,
    /// The resistor in it, as printed.
    pub through: Option<String>,
    /// All of it in words.
    pub text: String,
}

/// A leg of a signal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Leg {
    /// In phase with it.
    Hot,
    /// Its return, or its opposite.
    Cold,
}

/// A contact that is connected to nothing.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
pub struct Open {
    /// The contact.
    pub at: At,
    /// That it is open.
    pub role: String,
    /// All of it in words.
    pub text: String,
}
