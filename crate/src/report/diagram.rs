//! A rig as a line diagram: its parts in order, and what there is to say at each.

use serde::Serialize;

/// A rig as a line diagram, from its source to the console.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Diagram<T = String> {
    /// Its title.
    pub title: T,
    /// What it shows, in words, for those who do not see it.
    pub summary: T,
    /// What the values count from; empty where that is plain.
    pub note: T,
    /// The parts in the order of the signal.
    pub parts: Vec<Part<T>>,
    /// The loops of earths; a part is in one by its identifier.
    pub loops: Vec<EarthLoop<T>>,
    /// The fields that decide which parts there are: whoever hides one of them hides
    /// the picture too.
    pub shaped_by: Vec<&'static str>,
}

/// A part of a rig.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct Part<T = String> {
    /// Identifier, unique in the diagram.
    pub id: &'static str,
    /// How it is drawn.
    pub symbol: PartSymbol,
    /// Its name.
    pub name: T,
    /// What there is to say of it, one short line each.
    pub values: Vec<T>,
    /// The fields that set it; the first that is asked is where to change it.
    pub fields: Vec<&'static str>,
    /// Whether it hangs on the line where the next part begins, and the signal goes on
    /// without it.
    pub branch: bool,
    /// What ties it to earth.
    pub earth: Option<Earth>,
}

/// How a part is drawn: by the symbols of IEC 60617 (from memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum PartSymbol {
    /// A coil.
    Coil,
    /// A crystal between two plates.
    Crystal,
    /// A source of alternating voltage.
    Source,
    /// A microphone.
    Microphone,
    /// A coaxial lead.
    Coaxial,
    /// A screened pair.
    Pair,
    /// Two windings on a core.
    Transformer,
    /// An amplifier.
    Amplifier,
    /// An attenuator.
    Attenuator,
    /// An input with what is behind it.
    Input,
    /// An amplifier whose gain is set.
    Gain,
    /// From analogue to digital.
    Converter,
}

/// What ties a part to earth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Earth {
    /// A protective earth.
    Protective,
    /// An earth by something else that is plugged in.
    Earth,
    /// The leakage of its supply.
    Leakage,
}

/// A closed way through two earths and the shields between, or one that is opened.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(concrete(T = String)))]
pub struct EarthLoop<T = String> {
    /// The part at its one end.
    pub from: &'static str,
    /// The part at its other end.
    pub to: &'static str,
    /// The part at which it is open, if it is.
    pub open_at: Option<&'static str>,
    /// What drives it, and what flows.
    pub text: T,
    /// The fields that set what drives it.
    pub fields: Vec<&'static str>,
}

impl<T> Diagram<T> {
    /// The part with this identifier.
    pub fn part(&self, id: &str) -> Option<&Part<T>> {
        self.parts.iter().find(|part| part.id == id)
    }

    /// The same diagram with every text made another.
    pub(super) fn map<U>(self, say: impl Fn(T) -> U) -> Diagram<U> {
        let part = |Part { id, symbol, name, values, fields, branch, earth }| Part {
            id,
            symbol,
            name: say(name),
            values: values.into_iter().map(&say).collect(),
            fields,
            branch,
            earth,
        };
        let earth_loop =
            |EarthLoop { from, to, open_at, text, fields }| EarthLoop { from, to, open_at, text: say(text), fields };
        Diagram {
            title: say(self.title),
            summary: say(self.summary),
            note: say(self.note),
            parts: self.parts.into_iter().map(part).collect(),
            loops: self.loops.into_iter().map(earth_loop).collect(),
            shaped_by: self.shaped_by,
        }
    }
}
