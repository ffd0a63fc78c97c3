//! A show: gear, power, equipment, lines and limits, as one file.
//!
//! Its texts mean the same to every reader: they are written with a decimal point,
//! and a bare length is in metres.

use super::ground::Ends;
use crate::file::{self, Flaw, Raw, fields};
use crate::named::Named;
use crate::quantity::LONGEST;
use crate::settings::{Mains, Settings};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use std::collections::HashSet;

/// The version of the file that is written, and the newest that is read.
pub const VERSION: u32 = 1;
/// At most so many rows in each list: many times what a large show has.
pub const ROWS_MOST: usize = 2000;
/// A note has at most so many characters; every other text [`LONGEST`].
pub const NOTE_LONGEST: usize = 2000;

/// A show.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct Show {
    /// The version of the file.
    pub version: u32,
    /// What it is called.
    pub name: String,
    /// The mains there.
    pub mains: Mains,
    /// The drawer.
    pub gear: Vec<Gear>,
    /// The circuits.
    pub power: Vec<Circuit>,
    /// What stands on them, or on batteries.
    pub equipment: Vec<Equipment>,
    /// What joins equipment besides the input list: other leads, racks and metalwork.
    pub links: Vec<Link>,
    /// The input list.
    pub lines: Vec<InputLine>,
    /// What every line is held to: texts for fields of the whole line.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub limits: Named<String>,
    /// Whatever else there is to say.
    pub notes: String,
}

impl Show {
    /// The settings under which the texts of a show are written.
    pub fn settings(&self) -> Settings {
        Settings { mains: self.mains, ..Settings::default() }
    }

    /// Gear by its identifier.
    pub fn gear(&self, id: &str) -> Option<&Gear> {
        self.gear.iter().find(|gear| gear.id == id)
    }

    /// Equipment by its identifier.
    pub fn equipment(&self, id: &str) -> Option<&Equipment> {
        self.equipment.iter().find(|equipment| equipment.id == id)
    }

    /// A row of the input list by its identifier.
    pub fn line(&self, id: &str) -> Option<&InputLine> {
        self.lines.iter().find(|line| line.id == id)
    }

    /// A circuit by its identifier.
    pub fn circuit(&self, id: &str) -> Option<&Circuit> {
        self.power.iter().find(|circuit| circuit.id == id)
    }
}

/// What a piece of gear is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum GearKind {
    /// An instrument, a microphone, an output.
    #[default]
    Source,
    /// A lead, for the first way or for the run.
    Lead,
    /// A DI box.
    Di,
    /// A transformer with nothing metallic across.
    Isolator,
    /// A pad in line.
    Pad,
    /// An input of a console or of a stage box.
    Input,
}

/// A piece of gear, or several that are the same.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct Gear {
    /// By what the rest of the file names it.
    pub id: String,
    /// What its owner calls it.
    pub name: String,
    /// What it is.
    pub kind: GearKind,
    /// Texts for fields of the whole line.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub values: Named<String>,
    /// How many there are; nothing where they are not counted.
    pub count: Option<u32>,
    /// Whatever else there is to say.
    pub note: String,
    /// How its values were measured, where they were.
    pub measured: String,
}

/// A circuit, with the protective earth on it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct Circuit {
    /// By what the rest of the file names it.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// From its earth to the one that all of them are measured against, such as `50 mV`;
    /// empty where it is that one.
    pub difference: String,
    /// Resistance of the path of its earth to the earth of the venue, such as
    /// `0.2 ohm`; empty where nobody knows.
    pub earth_r: String,
    /// Whatever else there is to say.
    pub note: String,
}

impl Circuit {
    /// What it is called, or by what the file names it.
    pub(super) fn called(&self) -> &str {
        if self.name.is_empty() { &self.id } else { &self.name }
    }
}

/// How equipment is powered.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum EquipmentPower {
    /// From the mains, with a protective earth.
    #[default]
    Earthed,
    /// From the mains, double-insulated.
    Insulated,
    /// From a battery, or not at all.
    Battery,
}

/// A piece of equipment.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct Equipment {
    /// By what the rest of the file names it.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// How it is powered.
    pub power: EquipmentPower,
    /// The circuit that it is on.
    pub circuit: String,
    /// What its supply leaks, such as `0.25 mA`; empty where nobody knows.
    pub leakage: String,
    /// What shield current shares with its signal ground, such as `0.1 ohm`; empty
    /// where there is no such fault.
    pub pin_1: String,
    /// What all of its phantom together may deliver, such as `0.2 A`; empty where
    /// nobody knows, or where it has none.
    pub phantom_most: String,
    /// Whatever else there is to say.
    pub note: String,
}

impl Equipment {
    /// What it is called, or by what the file names it.
    pub(super) fn called(&self) -> &str {
        if self.name.is_empty() { &self.id } else { &self.name }
    }
}

/// What a link is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum LinkKind {
    /// A lead for a signal that is in no row of the input list.
    #[default]
    Audio,
    /// A network lead.
    Network,
    /// A USB lead.
    Usb,
    /// A lead for pictures.
    Video,
    /// A rack, a truss, a screw: metal on metal.
    Metalwork,
}

/// What joins two pieces of equipment besides the input list.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS), ts(rename = "StageLink"))]
#[serde(default, deny_unknown_fields)]
pub struct Link {
    /// By what the rest of the file names it.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// What it is.
    pub kind: LinkKind,
    /// Equipment at its one end.
    pub from: String,
    /// Equipment at the other.
    pub to: String,
    /// How its shield ends.
    pub ends: Ends,
    /// Resistance of its shield with its contacts, or of the metal, such as `0.1 ohm`;
    /// empty where nobody knows.
    pub r: String,
    /// Whatever else there is to say.
    pub note: String,
}

/// By what a run goes on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum Carried {
    /// By wire, whose shield joins its ends.
    #[default]
    Wire,
    /// By a fibre, which joins no earths.
    Fibre,
    /// By radio.
    Radio,
}

impl Carried {
    /// Its identifier in a file and in a table.
    pub(super) fn id(self) -> &'static str {
        match self {
            Self::Wire => "wire",
            Self::Fibre => "fibre",
            Self::Radio => "radio",
        }
    }
}

/// How a second console gets a signal.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum SplitKind {
    /// There is none.
    #[default]
    None,
    /// By the direct outputs of a splitter.
    Direct,
    /// By a Y-lead.
    Y,
    /// By a transformer.
    Transformer,
}

impl SplitKind {
    /// Its identifier in a file and in a table.
    pub(super) fn id(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::Direct => "direct",
            Self::Y => "y",
            Self::Transformer => "transformer",
        }
    }
}

/// Which console feeds phantom.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum PhantomFrom {
    /// The destination.
    #[default]
    First,
    /// The second destination.
    Second,
}

impl PhantomFrom {
    /// Its identifier in a file and in a table.
    pub(super) fn id(self) -> &'static str {
        match self {
            Self::First => "first",
            Self::Second => "second",
        }
    }
}

/// The phantom of a line.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(rename_all = "lowercase")]
pub enum PhantomChoice {
    /// On where something on the line needs it.
    #[default]
    Needed,
    /// Off, or not there.
    Off,
    /// 48 V.
    P48,
    /// 24 V.
    P24,
    /// 12 V.
    P12,
}

impl PhantomChoice {
    /// Its identifier in a file and in a table.
    pub(super) fn id(self) -> &'static str {
        match self {
            Self::Needed => "needed",
            Self::Off => "off",
            Self::P48 => "p48",
            Self::P24 => "p24",
            Self::P12 => "p12",
        }
    }
}

/// A row of the input list.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(ts_rs::TS))]
#[serde(default, deny_unknown_fields)]
pub struct InputLine {
    /// By what the rest of the file names it.
    pub id: String,
    /// The channel at the destination.
    pub channel: String,
    /// What is on it.
    pub name: String,
    /// Gear: the source.
    pub source: String,
    /// Equipment: what the source is or stands in, which says how it is powered.
    pub equipment: String,
    /// The circuit of the source, where it is none of the equipment; that of its equipment
    /// goes before it.
    pub circuit: String,
    /// Gear: the first lead.
    pub lead: String,
    /// Gear: the DI box or the isolator; empty where there is none.
    pub di: String,
    /// Equipment: the amplifier on the thru of the box; empty where there is none.
    pub thru: String,
    /// Gear: the lead of the run.
    pub run: String,
    /// By what the run goes on.
    pub carried: Carried,
    /// Gear: the pad in line; empty where there is none.
    pub pad: String,
    /// Equipment: the stage box, whose earth is then that of the destination, unless it has
    /// no supply and a multicore passes its wires on.
    pub stage_box: String,
    /// The socket on the stage box or the multicore.
    pub patch: String,
    /// Gear: the input.
    pub input: String,
    /// Equipment: the console.
    pub destination: String,
    /// Equipment: the second console; empty where there is none.
    pub second: String,
    /// How that gets the signal.
    pub split: SplitKind,
    /// Which of the two feeds phantom.
    pub phantom_from: PhantomFrom,
    /// The phantom on this line.
    pub phantom: PhantomChoice,
    /// The line that is the other side of a stereo pair.
    pub pair: String,
    /// Whatever else there is to say.
    pub note: String,
    /// Texts for fields of the whole line that are this row's own, over those of gear.
    #[cfg_attr(feature = "typescript", ts(type = "Record<string, string>"))]
    pub values: Named<String>,
}

/// A text of a row: the name of its field, and what stands in it.
type Text<'a> = (&'static str, &'a mut String);

/// A row of one of the lists.
trait Item: DeserializeOwned {
    const LIST: &'static str;
    /// All of its texts, the identifier first.
    fn texts(&mut self) -> Vec<Text<'_>>;
    fn values(&mut self) -> Option<&mut Named<String>>;
}

macro_rules! item {
    ($item:ty, $list:literal, [$($text:ident),+], $values:expr) => {
        impl Item for $item {
            const LIST: &'static str = $list;

            fn texts(&mut self) -> Vec<Text<'_>> {
                vec![$((stringify!($text), &mut self.$text)),+]
            }

            fn values(&mut self) -> Option<&mut Named<String>> {
                let values: fn(&mut Self) -> Option<&mut Named<String>> = $values;
                values(self)
            }
        }
    };
}

item!(Gear, "gear", [id, name, note, measured], |gear| Some(&mut gear.values));
item!(Circuit, "power", [id, name, difference, earth_r, note], |_| None);
item!(Link, "links", [id, name, from, to, r, note], |_| None);
item!(Equipment, "equipment", [id, name, circuit, leakage, pin_1, phantom_most, note], |_| None);
item!(
    InputLine,
    "lines",
    [
        id,
        channel,
        name,
        source,
        equipment,
        circuit,
        lead,
        di,
        thru,
        run,
        pad,
        stage_box,
        patch,
        input,
        destination,
        second,
        pair,
        note
    ],
    |line| Some(&mut line.values)
);

/// Reads the file of a show: what can be kept of it, and what is wrong with the rest.
///
/// # Errors
/// A [`Flaw`] where it is no such file, or one of a newer version.
pub fn read_show(file: &Raw) -> Result<(Show, Vec<Flaw>), Flaw> {
    let refused = |key| Flaw::new("show", None, key);
    let Raw::Map(parts) = file else { return Err(refused("no-show")) };
    file::version(parts, VERSION, refused)?;
    let mut flaws = Vec::new();
    let mut show = Show { version: VERSION, ..Show::default() };
    let mut others = Vec::new();
    for (name, part) in parts {
        match name.as_str() {
            "version" => {}
            "gear" => show.gear = rows(part, &mut flaws),
            "power" => show.power = rows(part, &mut flaws),
            "equipment" => show.equipment = rows(part, &mut flaws),
            "links" => show.links = rows(part, &mut flaws),
            "lines" => show.lines = rows(part, &mut flaws),
            "limits" => show.limits = read_values(part, &Flaw::new("limits", None, ""), &mut flaws),
            _ => others.push((name.clone(), part.clone())),
        }
    }
    let read: Show = fields(&others, &refused(""), &mut flaws);
    show = Show { name: read.name, notes: read.notes, mains: read.mains, ..show };
    cut("show", None, ("name", &mut show.name), &mut flaws);
    cut("show", None, ("notes", &mut show.notes), &mut flaws);
    flaws.extend(super::fill::flaws(&show));
    Ok((show, flaws))
}

/// The rows of a list that can be read, each with what can be read of it.
fn rows<T: Item + Default>(part: &Raw, flaws: &mut Vec<Flaw>) -> Vec<T> {
    let Raw::List(parts) = part else {
        flaws.push(Flaw::new(T::LIST, None, "no-list"));
        return Vec::new();
    };
    if parts.len() > ROWS_MOST {
        let many = Flaw::new(T::LIST, Some(ROWS_MOST + 1), "many");
        flaws.push(many.with("most", &ROWS_MOST.to_string()).with("count", &parts.len().to_string()));
    }
    let (mut rows, mut ids) = (Vec::new(), HashSet::new());
    for (i, part) in parts.iter().take(ROWS_MOST).enumerate() {
        let row = i + 1;
        let Raw::Map(fields) = part else {
            flaws.push(Flaw::new(T::LIST, Some(row), "no-row"));
            continue;
        };
        let mut item: T = item(fields, row, flaws);
        for (field, text) in item.texts() {
            cut(T::LIST, Some(row), (field, text), flaws);
            if field == "id" {
                let before = text.clone();
                if name_apart(text, &mut ids, (T::LIST, row)) {
                    let key = if before.is_empty() { "no-id" } else { "same-id" };
                    flaws.push(Flaw::new(T::LIST, Some(row), key).at("id").with("id", &before).with("now", text));
                }
            }
        }
        rows.push(item);
    }
    rows
}

/// What can be read of a row.
fn item<T: Item + Default>(fields: &[(String, Raw)], row: usize, flaws: &mut Vec<Flaw>) -> T {
    let flaw = Flaw::new(T::LIST, Some(row), "");
    let is_values = |name: &str| name == "values" && T::default().values().is_some();
    let others: Vec<_> = fields.iter().filter(|(name, _)| !is_values(name)).cloned().collect();
    let mut item: T = file::fields(&others, &flaw, flaws);
    if let Some(values) = item.values()
        && let Some((_, part)) = fields.iter().rfind(|(name, _)| name == "values")
    {
        *values = read_values(part, &flaw, flaws);
    }
    item
}

/// Texts by the fields that they are for.
fn read_values(part: &Raw, flaw: &Flaw, flaws: &mut Vec<Flaw>) -> Named<String> {
    let mut values = Named::default();
    let Raw::Map(entries) = part else {
        flaws.push(Flaw { key: "kind", ..flaw.clone().at("values") });
        return values;
    };
    for (field, value) in entries {
        let key = match value {
            Raw::Text(_) if super::fill::field(field).is_none() => "no-field",
            Raw::Text(text) if text.chars().nth(LONGEST).is_some() => "long",
            Raw::Text(text) => {
                values.insert(field.clone(), text.clone());
                continue;
            }
            _ => "kind",
        };
        flaws.push(Flaw { key, ..flaw.clone().at(field.as_str()) }.with("most", &LONGEST.to_string()));
    }
    values
}

/// Cuts a text that is too long.
fn cut(list: &'static str, row: Option<usize>, (field, text): Text, flaws: &mut Vec<Flaw>) {
    let most = if field.starts_with("note") || field == "measured" { NOTE_LONGEST } else { LONGEST };
    file::cut(text, most, || Flaw::new(list, row, "").at(field), flaws);
}

/// Gives a row an identifier of its own, where it has none or that of another one;
/// whether it had to.
pub(super) fn name_apart(id: &mut String, ids: &mut HashSet<String>, (list, row): (&str, usize)) -> bool {
    let taken = id.is_empty() || ids.contains(id.as_str());
    if taken {
        let free = (0..).map(|i| if i == 0 { format!("{list}-{row}") } else { format!("{list}-{row}-{i}") });
        *id = free.take(ids.len() + 1).find(|free| !ids.contains(free)).unwrap_or_default();
    }
    ids.insert(id.clone());
    taken
}
