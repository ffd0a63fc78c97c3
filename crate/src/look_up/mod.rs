//! What a reader looks up: plugs and sockets, leads, adaptors, typical values,
//! tables and terms, each with its source. One file a kind; to add an entry,
//! put it into the list of its kind and its words into the catalogue of words.
//!
//! ```
//! use stageohm::look_up::{LookUpKind, entries};
//! use stageohm::settings::Settings;
//!
//! let entries = entries(&Settings::default());
//! let dbu = entries.iter().find(|entry| entry.id == "term-dbu").unwrap();
//! assert_eq!(dbu.kind, LookUpKind::Term);
//! // 1 mW in 600 Ω are √0.6 V (IEC 60027-3).
//! assert!(dbu.text[0].contains("775\u{a0}mV"), "{:?}", dbu.text);
//! ```

mod adaptor;
mod connector;
mod entry;
mod item;
mod lead;
mod table;
mod term;
mod value;
mod wiring;

pub use entry::{
    At, Cell, Column, Connection, Contact, End, Face, FaceContact, Leg, LookUpEntry, LookUpKind, Open, SeeAlso, Shape,
    Table, Wiring,
};

use crate::settings::Settings;

/// Every entry, in the order of the page.
pub fn entries(settings: &Settings) -> Vec<LookUpEntry> {
    [
        (LookUpKind::Connector, connector::ITEMS),
        (LookUpKind::Lead, lead::ITEMS),
        (LookUpKind::Adaptor, adaptor::ITEMS),
        (LookUpKind::Value, value::ITEMS),
        (LookUpKind::Table, table::ITEMS),
        (LookUpKind::Term, term::ITEMS),
    ]
    .into_iter()
    .flat_map(|(kind, items)| items.iter().map(move |item| item.entry(kind, settings)))
    .collect()
}
