//! A file before anyone made sense of it.

use serde::de::value::{MapDeserializer, SeqDeserializer, StringDeserializer};
use serde::de::{self, Deserializer, IntoDeserializer, MapAccess, SeqAccess, Unexpected, Visitor};
use serde::forward_to_deserialize_any;
use serde::{Deserialize, Serialize, Serializer};
use std::fmt;

/// Anything that can be in a file. Whatever reads it, a browser or a program, makes
/// one of these of it first: then each part is read by itself, and one that is
/// damaged takes no other with it.
#[derive(Clone, Debug, PartialEq)]
pub enum Raw {
    /// Nothing.
    Null,
    /// Yes or no.
    Bool(bool),
    /// A number.
    Number(f64),
    /// A text.
    Text(String),
    /// Several, in order.
    List(Vec<Raw>),
    /// Several by name, in order.
    Map(Vec<(String, Raw)>),
}

impl Serialize for Raw {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Null => serializer.serialize_unit(),
            Self::Bool(value) => serializer.serialize_bool(*value),
            Self::Number(value) => serializer.serialize_f64(*value),
            Self::Text(value) => serializer.serialize_str(value),
            Self::List(values) => serializer.collect_seq(values),
            Self::Map(values) => serializer.collect_map(values.iter().map(|(name, value)| (name, value))),
        }
    }
}

impl<'de> Deserialize<'de> for Raw {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(RawVisitor)
    }
}

struct RawVisitor;

impl<'de> Visitor<'de> for RawVisitor {
    type Value = Raw;

    fn expecting(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        formatter.write_str("a file")
    }

    fn visit_bool<E>(self, value: bool) -> Result<Raw, E> {
        Ok(Raw::Bool(value))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Raw, E> {
        Ok(Raw::Number(value as f64))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Raw, E> {
        Ok(Raw::Number(value as f64))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Raw, E> {
        Ok(Raw::Number(value))
    }

    fn visit_str<E>(self, value: &str) -> Result<Raw, E> {
        Ok(Raw::Text(value.to_owned()))
    }

    fn visit_string<E>(self, value: String) -> Result<Raw, E> {
        Ok(Raw::Text(value))
    }

    fn visit_unit<E>(self) -> Result<Raw, E> {
        Ok(Raw::Null)
    }

    fn visit_none<E>(self) -> Result<Raw, E> {
        Ok(Raw::Null)
    }

    fn visit_some<D: Deserializer<'de>>(self, deserializer: D) -> Result<Raw, D::Error> {
        Raw::deserialize(deserializer)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut access: A) -> Result<Raw, A::Error> {
        let mut values = Vec::new();
        while let Some(value) = access.next_element()? {
            values.push(value);
        }
        Ok(Raw::List(values))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut access: A) -> Result<Raw, A::Error> {
        let mut values = Vec::new();
        while let Some(entry) = access.next_entry()? {
            values.push(entry);
        }
        Ok(Raw::Map(values))
    }
}

/// Why a part of a file is not what it should be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reason {
    /// Something else was expected there.
    Kind,
    /// Not among those that there are.
    Choice {
        /// What stands there.
        text: String,
        /// What might.
        known: String,
    },
    /// A name that nothing goes by.
    Unknown,
    /// Something must be there.
    Missing,
}

impl fmt::Display for Reason {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        fmt::Debug::fmt(self, formatter)
    }
}

impl std::error::Error for Reason {}

impl de::Error for Reason {
    fn custom<T: fmt::Display>(_: T) -> Self {
        Self::Kind
    }

    fn invalid_type(_: Unexpected, _: &dyn de::Expected) -> Self {
        Self::Kind
    }

    fn unknown_variant(variant: &str, expected: &'static [&'static str]) -> Self {
        Self::Choice { text: variant.to_owned(), known: expected.join(", ") }
    }

    fn unknown_field(_: &str, _: &'static [&'static str]) -> Self {
        Self::Unknown
    }

    fn missing_field(_: &'static str) -> Self {
        Self::Missing
    }
}

impl IntoDeserializer<'_, Reason> for Raw {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}

impl<'de> Deserializer<'de> for Raw {
    type Error = Reason;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Reason> {
        match self {
            Self::Null => visitor.visit_unit(),
            Self::Bool(value) => visitor.visit_bool(value),
            // A whole number is one, however the file came.
            Self::Number(value) if value.fract() == 0.0 && (0.0..=MOST_COUNT).contains(&value) => {
                visitor.visit_u64(value as u64)
            }
            Self::Number(value) => visitor.visit_f64(value),
            Self::Text(value) => visitor.visit_string(value),
            Self::List(values) => visitor.visit_seq(SeqDeserializer::new(values.into_iter())),
            Self::Map(values) => visitor.visit_map(MapDeserializer::new(values.into_iter())),
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Reason> {
        match self {
            Self::Null => visitor.visit_none(),
            some => visitor.visit_some(some),
        }
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Reason> {
        match self {
            Self::Text(value) => StringDeserializer::new(value).deserialize_enum(name, variants, visitor),
            _ => Err(Reason::Kind),
        }
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct
        newtype_struct seq tuple tuple_struct map struct identifier ignored_any
    }
}

/// Up to here every whole number is told from the next one.
const MOST_COUNT: f64 = 9_007_199_254_740_992.0;
