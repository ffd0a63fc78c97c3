//! A small map that keeps the order in which its things came.
//!
//! ```
//! use stageohm::named::Named;
//!
//! let mut ohms = Named::default();
//! ohms.insert("source", 150.0);
//! ohms.insert("load", 10e3);
//! assert_eq!(ohms.get("load"), Some(&10e3));
//! assert_eq!(ohms.iter().map(|(name, _)| name).collect::<Vec<_>>(), ["source", "load"]);
//! ```

use serde::de::{Deserializer, MapAccess, Visitor};
use serde::{Deserialize, Serialize, Serializer};
use std::borrow::Cow;
use std::collections::HashMap;
use std::marker::PhantomData;

/// Things by name, in the order in which they came; some dozens are found soonest
/// by looking through them. It reads and writes as a map.
#[derive(Clone, Debug, PartialEq)]
pub struct Named<T>(Vec<(Cow<'static, str>, T)>);

impl<T> Default for Named<T> {
    fn default() -> Self {
        Self::EMPTY
    }
}

impl<T> Named<T> {
    /// Nothing.
    pub const EMPTY: Self = Self(Vec::new());

    /// Things whose names are known to differ, however many they are.
    pub fn distinct(things: impl IntoIterator<Item = (&'static str, T)>) -> Self {
        Self(things.into_iter().map(|(name, thing)| (name.into(), thing)).collect())
    }

    /// The one with a name.
    pub fn get(&self, name: &str) -> Option<&T> {
        // Most are asked for by the very text that they go by, of which there is one in
        // the program: to see that takes no look at its letters.
        let same = self.0.iter().find(|(known, _)| std::ptr::eq(known.as_ref(), name));
        same.or_else(|| self.0.iter().find(|(known, _)| known == name)).map(|(_, thing)| thing)
    }

    /// The one with a name, to change it.
    pub fn get_mut(&mut self, name: &str) -> Option<&mut T> {
        self.0.iter_mut().find(|(known, _)| known == name).map(|(_, thing)| thing)
    }

    /// Puts one in, in place of the one that has its name.
    pub fn insert(&mut self, name: impl Into<Cow<'static, str>>, thing: T) {
        let name = name.into();
        match self.get_mut(&name) {
            Some(known) => *known = thing,
            None => self.0.push((name, thing)),
        }
    }

    /// All of them with their names.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &T)> {
        self.0.iter().map(|(name, thing)| (name.as_ref(), thing))
    }
}

impl<T: Serialize> Serialize for Named<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.iter())
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Named<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(NamedVisitor(PhantomData))
    }
}

struct NamedVisitor<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for NamedVisitor<T> {
    type Value = Named<T>;

    fn expecting(&self, formatter: &mut std::fmt::Formatter) -> std::fmt::Result {
        formatter.write_str("a map")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut things: A) -> Result<Named<T>, A::Error> {
        let mut named = Named(Vec::new());
        let mut places = Places::default();
        while let Some((name, thing)) = things.next_entry::<String, T>()? {
            match named.0.get_mut(places.of(&name)) {
                Some((_, known)) => *known = thing,
                None => named.0.push((name.into(), thing)),
            }
        }
        Ok(named)
    }
}

/// The place of each name that came. Nobody knows how many come from outside:
/// looking through them for each would take for ever.
#[derive(Default)]
struct Places(HashMap<String, usize>);

impl Places {
    /// Once for all kinds of things, which keeps a page small.
    #[inline(never)]
    fn of(&mut self, name: &str) -> usize {
        let next = self.0.len();
        *self.0.entry(name.to_owned()).or_insert(next)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_and_writes_as_a_map_in_which_the_last_one_counts() {
        let named: Named<f64> = serde_json::from_str(r#"{"b":1,"a":2,"b":3}"#).unwrap();
        assert_eq!(named.get("b"), Some(&3.0));
        assert_eq!(named.get("c"), None);
        assert_eq!(serde_json::to_string(&named).unwrap(), r#"{"b":3.0,"a":2.0}"#);
        let no_map = serde_json::from_str::<Named<f64>>("[1]").unwrap_err().to_string();
        assert!(no_map.contains("expected a map"), "{no_map}");
    }

    /// Each of them looked for among the ones before it would take minutes.
    #[test]
    fn reads_any_number_of_them() {
        const MANY: usize = 200_000;
        let pairs: Vec<_> = (0..2 * MANY).map(|i| format!("\"{}\":{i}", i % MANY)).collect();
        let named: Named<f64> = serde_json::from_str(&format!("{{{}}}", pairs.join(","))).unwrap();
        assert_eq!(named.iter().count(), MANY);
        assert_eq!(named.iter().last(), Some(("199999", &399_999.0)));
    }
}
