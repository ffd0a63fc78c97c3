//! The parts of a file, each read by itself.

use super::{Flaw, Raw, Reason};
use serde::de::DeserializeOwned;

/// Whether a file is of a version that is known here.
///
/// # Errors
/// A [`Flaw`] where it is of a newer one, or says none.
pub(crate) fn version(parts: &[(String, Raw)], known: u32, refused: impl Fn(&'static str) -> Flaw) -> Result<(), Flaw> {
    match parts.iter().rfind(|(name, _)| name == "version").map(|(_, version)| version) {
        Some(Raw::Number(version)) if *version == f64::from(known) => Ok(()),
        Some(Raw::Number(version)) if *version > f64::from(known) => {
            Err(refused("newer").with("version", &version.to_string()).with("known", &known.to_string()))
        }
        _ => Err(refused("no-version")),
    }
}

/// What can be read of a thing, by its fields; the others are told where `flaw` is.
pub(crate) fn fields<T: DeserializeOwned + Default>(fields: &[(String, Raw)], flaw: &Flaw, flaws: &mut Vec<Flaw>) -> T {
    let mut good: Vec<(String, Raw)> = Vec::new();
    for (name, value) in fields {
        let one = (name.clone(), value.clone());
        match T::deserialize(Raw::Map(vec![one.clone()])) {
            Ok(_) => {
                good.retain(|(known, _)| known != name);
                good.push(one);
            }
            Err(reason) => flaws.push(because(flaw.clone().at(name.as_str()), &reason)),
        }
    }
    T::deserialize(Raw::Map(good)).unwrap_or_default()
}

/// What is wrong for a reason.
fn because(flaw: Flaw, reason: &Reason) -> Flaw {
    let key = match reason {
        Reason::Kind | Reason::Missing => "kind",
        Reason::Unknown => "unknown",
        Reason::Choice { text, known } => {
            return Flaw { key: "choice", ..flaw }.with("text", text).with("known", known);
        }
    };
    Flaw { key, ..flaw }
}

/// Cuts a text that is longer than it may be.
pub(crate) fn cut(text: &mut String, most: usize, flaw: impl FnOnce() -> Flaw, flaws: &mut Vec<Flaw>) {
    if let Some((end, _)) = text.char_indices().nth(most) {
        text.truncate(end);
        flaws.push(Flaw { key: "cut", ..flaw() }.with("most", &most.to_string()));
    }
}
