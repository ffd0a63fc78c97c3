//! What comes in for one field.

use serde::Deserialize;
use serde::de::{Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor};

/// What somebody put into a field: text as typed, or a number in SI units.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(untagged))]
pub enum Entry {
    /// A number in the unit of the field, without prefix.
    Number(f64),
    /// Text as typed, or the identifier of a choice.
    Text(String),
    /// Something else, which no field understands; it is told at the field.
    Other,
}

/// By hand, since the derived reader tries one kind after the other, and in a
/// browser each failure builds an error with its stack.
impl<'de> Deserialize<'de> for Entry {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(EntryVisitor)
    }
}

struct EntryVisitor;

impl<'de> Visitor<'de> for EntryVisitor {
    type Value = Entry;

    fn expecting(&self, formatter: &mut std::fmt::Formatter) -> std::fmt::Result {
        formatter.write_str("a number or a text")
    }

    fn visit_f64<E>(self, value: f64) -> Result<Entry, E> {
        Ok(Entry::Number(value))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Entry, E> {
        Ok(Entry::Number(value as f64))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Entry, E> {
        Ok(Entry::Number(value as f64))
    }

    fn visit_str<E>(self, value: &str) -> Result<Entry, E> {
        Ok(Entry::Text(value.to_owned()))
    }

    fn visit_string<E>(self, value: String) -> Result<Entry, E> {
        Ok(Entry::Text(value))
    }

    fn visit_bool<E>(self, _: bool) -> Result<Entry, E> {
        Ok(Entry::Other)
    }

    fn visit_unit<E>(self) -> Result<Entry, E> {
        Ok(Entry::Other)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut values: A) -> Result<Entry, A::Error> {
        while values.next_element::<IgnoredAny>()?.is_some() {}
        Ok(Entry::Other)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut values: A) -> Result<Entry, A::Error> {
        while values.next_entry::<IgnoredAny, IgnoredAny>()?.is_some() {}
        Ok(Entry::Other)
    }
}
