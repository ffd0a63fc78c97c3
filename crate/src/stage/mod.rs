//! The whole stage: many lines from the gear that there is, on shared power.

pub mod ground;
pub mod map;

mod answer;
mod cures;
mod fill;
mod flow;
mod joined;
mod joins;
mod leads;
mod power;
mod propose;
mod row;
mod schema;
mod show;
mod spare;
mod table;
mod totals;

pub use crate::file::{Flaw, Raw};
pub use answer::{Decoded, ReadLines, ReadShow, SolvedShow, Told, check, decode, read_file, read_lines, solve, texts};
pub use cures::{RowCure, cures};
pub use fill::filled;
pub use leads::{LeadCount, LeadMade, LeadNeed, LeadPlace, PieceCount};
pub use propose::{Proposal, Shortage, Suggestion, propose};
pub use row::{Figure, FigureKind, Row, Rows, solve_row};
pub use schema::SCHEMA;
pub use show::{
    Carried, Circuit, Equipment, EquipmentPower, Gear, GearKind, InputLine, Link, LinkKind, NOTE_LONGEST,
    PhantomChoice, PhantomFrom, ROWS_MOST, Show, SplitKind, VERSION, read_show,
};
pub use table::{Dialect, Separator, Table, decoded, read_table, write_table};
pub use totals::{LinkCount, PartCount, PhantomTotal, SplitCount, Totals, totals};
